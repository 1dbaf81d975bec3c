"""The examination's two forms: one set of rules in other words, numbers of one difficulty, an hour of work."""
import re

import numpy as np
import pytest
from scipy.stats import ks_2samp

from examination_plain import FORMS, PAIRS, SECRET, every_form, every_number
from lessons_lib.exercises.draws import draw
from lessons_lib.exercises.parts import value_text
from notebooks import NOTEBOOKS, read

PAGES = {one: next(NOTEBOOKS.glob(f"{one}_*.ipynb")) for one in FORMS}


def text_of(form):
    return "\n".join(cell.source for cell in read(PAGES[form]).cells if cell.cell_type == "markdown")


def questions(form):
    """Exercise id -> its question on the page, as it stands under the head."""
    return dict(re.findall(r"^### Exercise (\S+)\n(.*)$", text_of(form), re.MULTILINE))


def code(function):
    """What a formula does, alike when its file was loaded twice."""
    inner = [cell.cell_contents for cell in function.__closure__ or ()]
    return function.__code__, [code(one) if callable(one) else one for one in inner]


def rules(exercise):
    """All that makes an exercise harder or easier, without its words."""
    values = {**exercise.given, **exercise.hidden}
    return {"ranges": {name: (one.unit, one.low, one.high, one.step) for name, one in values.items()},
            "derived": {name: (one.unit, one.decimals, code(one.formula)) for name, one in exercise.derived.items()},
            "answer": code(exercise.answer), "tolerance": exercise.tolerance, "size": exercise.size,
            "unit": exercise.unit, "marks": exercise.marks, "points": exercise.points,
            "slips": [(slip.name, code(slip.formula), slip.marks) for slip in exercise.slips]}


def test_the_forms_have_the_same_rules_and_other_words():
    for one, other in PAIRS:
        assert one.id.removeprefix("95") == other.id.removeprefix("96")
        assert (one.kind, one.marks) == (other.kind, other.marks)
        assert questions("95")[one.id] != questions("96")[other.id]
        if one.kind == "number":
            assert rules(one) == rules(other), one.id
            assert all(one.shown[name].label != other.shown[name].label for name in one.shown), one.id
        elif one.kind == "choice":
            assert set(one.options) == set(other.options) == set("abcd") and one.right != other.right
            assert not set(one.options.values()) & set(other.options.values())
        else:
            assert [marks for marks, _ in one.rubric] == [marks for marks, _ in other.rubric] == [1] * 4


@every_number
def test_benches_get_numbers_of_one_difficulty(number):
    """300 benches: answers of both forms from one distribution, given values with as many figures, and not the same."""
    drawn = {form: [draw(FORMS[form][f"{form}.{number}"], secret=SECRET, bench=f"b{bench:03d}")
                    for bench in range(300)] for form in FORMS}
    answers = {form: [one.answer for one in here] for form, here in drawn.items()}
    assert ks_2samp(answers["95"], answers["96"]).pvalue > 0.001
    assert np.median(answers["95"]) == pytest.approx(np.median(answers["96"]), rel=0.1)
    decimals = [[value_text(value, one.exercise.shown[name]) for name, value in one.shown.items()]
                for here in drawn.values() for one in here[:20]]
    assert len({tuple(len(str(text).rpartition(".")[2]) if "." in str(text) else 0 for text in row)
                for row in decimals if not isinstance(row[-1], list)}) <= 1
    assert sum(one == other for one, other in zip(*answers.values())) < 15      # by chance
    assert len(set(answers["95"])) > 100        # neighbours have other numbers


def test_letters_do_not_give_it_away():
    for form in FORMS.values():
        letters = [one for one in form.exercises if one.kind == "choice"]
        assert sorted(one.right for one in letters) == list("abcd")
        assert sum(max(one.options, key=lambda name: len(one.options[name])) == one.right for one in letters) <= 2


@every_form
def test_sixty_minutes_of_it(form):
    """Marks on the page are the declared ones; in all 34 to 40, at least 1.5 minutes for each."""
    lesson, asked = FORMS[form], questions(form)
    assert list(asked) == [one.id for one in lesson.exercises] and len(asked) == 16
    for one in lesson.exercises:
        assert asked[one.id].endswith(f"*({one.marks} mark{'s' * (one.marks > 1)})*")
    total = sum(one.marks for one in lesson.exercises)
    assert 34 <= total <= 40 and f"**60 minutes, 16 exercises, {total} marks.**" in text_of(form)
    rows = re.findall(r"^\| marks \| (.*) \|$", text_of(form), re.MULTILINE)
    assert [int(cell) for row in rows for cell in row.split(" | ")] == [one.marks for one in lesson.exercises]
