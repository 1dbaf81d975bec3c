"""A curve is chosen: letters of a bench's own, curves that can be told apart, and their pictures on page and paper."""
import json
import re
from collections import Counter
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from exercises_in_words import LESSON, swing
from exercises_lesson import lay_sheet
from lessons_lib import open_sheet
from lessons_lib.course.clean_page import asked_of, clean_page
from lessons_lib.course.ready import page_faults
from lessons_lib.course.settings import Settings
from lessons_lib.exercises.declaration import CurveAxis, parameters
from lessons_lib.exercises.draws import draw
from lessons_lib.exercises.kinds.curve import CurveRecord
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.paper import Curves
from lessons_lib.exercises.review import review
from lessons_lib.exercises.verdicts import State, Verdict
from lessons_lib.page.curves import curves

BENCHES = [f"b{number:03d}" for number in range(60)]


def record_of(bench):
    drawn = draw(swing, secret="test", bench=bench)
    return CurveRecord(swing.sheet_record(drawn, "salt"), id="1.6"), drawn


@pytest.mark.parametrize("bench", BENCHES[:6])
def test_each_letter_has_its_curve_and_its_note(bench):
    record, drawn = record_of(bench)
    columns, pace = {one["name"]: one["value"] for one in record["given"][1:]}, drawn.shown["pace"]
    assert columns["along"] == np.linspace(0, 4, 41).round(2).tolist()
    ends = {"downhill": (0, pace), "uphill": (pace, 0), "backwards": (0, -pace), "level": (pace, pace)}
    for letter, name in swing.names_by_letter(drawn.hidden["order"]).items():
        assert (columns[letter][0], columns[letter][-1]) == ends[name]
        judged = record.judge(letter)
        assert judged.text == swing.notes[name] and (judged.state == State.RIGHT) == (name == "downhill")
        assert swing.slips_by_try(drawn).get(letter, []) == ([] if name == "downhill" else [name])
        assert record.judge(**judged.entry) == judged


def test_letters_differ_from_bench_to_bench():
    letters = Counter(draw(swing, secret="test", bench=bench).exercise.model_answer(
        draw(swing, secret="test", bench=bench))[0] for bench in BENCHES)
    assert set(letters) == set("abcd") and max(letters.values()) < 30     # 15 of 60 each, on average


def test_every_number_of_an_order_is_another_order():
    orders = {tuple(swing.names_by_letter(number).values()) for number in range(24)}
    assert len(orders) == 24 and all(sorted(one) == sorted(swing.notes) for one in orders)


def test_the_sheet_does_not_say_which():
    record, drawn = record_of("b000")
    assert "downhill" not in str(record) and "order" not in {one["name"] for one in record["given"]}
    assert record["right"] not in swing.letters and parameters(swing.derived["a"].formula) == ("order", "pace")


@pytest.mark.parametrize("changes, words", [
    ({"right": "sideways"}, "right must be one of"), ({"notes": {"downhill": ""}}, "2 to 6 curves"),
    ({"curves": lambda x, other: {}}, "one of x, pace"), ({"worked": "{other}"}, "a field in a text")])
def test_what_cannot_be_declared(changes, words):
    with pytest.raises(ValueError, match=words):
        replace(swing, **changes)


def test_an_axis_must_have_a_length():
    with pytest.raises(ValueError, match="high must be above low = 2"):
        CurveAxis("time", "s", 1, 2, 2)


@pytest.mark.parametrize("change, words", [
    (lambda x, pace: 0.95 * pace * x / x[-1], "backwards looks like downhill"),
    (lambda x, pace: np.nan * x, "not finite")])
def test_curves_that_cannot_be_told_apart_are_not_given_out(change, words):
    alike = replace(swing, curves=lambda x, pace: {**swing.curves(x, pace), "backwards": change(x, pace)})
    assert words in next(review(alike))


def test_on_paper_the_lines_are_those_of_the_values():
    record, drawn = record_of("b001")
    block, pace = Curves.of(record["given"], record["options"]), drawn.shown["pace"]
    letter = next(one for one, name in swing.names_by_letter(drawn.hidden["order"]).items() if name == "uphill")
    points = [tuple(map(float, one.split(","))) for one in dict(block.lines)[letter].split()]
    # from −pace to pace on 54 of 60: uphill begins at the top and ends on the line of zero, in the middle
    assert [type(one).__name__ for one in record.place()] == ["Grid", "Curves", "Entries"]
    assert points[0] == (0, 3) and points[-1] == (300, 30) == (300, block.zero)
    assert block.words == (f"Upwards speed, from −{pace:g} to {pace:g} m/s; to the right time, from 0.00 to 4.00 s; "
                           "the thin line is zero.")


@pytest.fixture
def shown(desk):
    lay_sheet(desk, "b000", make_sheet(LESSON, secret="test", bench="b000"))
    return open_sheet("01")


def test_on_the_page_a_panel_shows_them(shown):
    given, state = shown.given("1.6"), curves(shown.given("1.6")).at()
    for letter in "abcd":
        first, last = given[letter][0], given[letter][-1]
        assert re.search(rf"\({letter}\) .*{abs(first):.2f} .*{abs(last):.2f}", state.alt)
    assert state.readouts == {"largest speed": f"{given['pace']:.1f} m/s"} and state.picture.count(b"<svg") == 1
    assert "downhill" not in state.alt and "4 curves of speed over time" in state.alt


def test_without_curves_there_is_a_sentence(shown):
    assert isinstance(curves(shown.given("1.1")), Verdict) and "no curves" in curves(shown.given("1.4")).text


def test_a_page_that_shows_the_curves_has_no_fault_and_is_left_as_it_is(tmp_path):
    lesson = replace(LESSON, exercises=(swing,))
    sources = ['from lessons_lib.page.curves import curves\nsheet = lessons_lib.open_sheet("01")',
               'curves(sheet.given("1.6"))', 'sheet.answer("1.6", "...")', "sheet.progress()", "sheet.return_work()"]
    cells = [{"cell_type": "markdown", "source": "### Exercise 1.6\nWhich?", "metadata": {}}] + [
        {"cell_type": "code", "source": one, "outputs": [], "metadata": {}} for one in sources]
    (tmp_path / "01_lamp.ipynb").write_text(json.dumps({"cells": cells, "metadata": {}}), encoding="utf-8")
    course = SimpleNamespace(settings=Settings(), folder=tmp_path)
    faults = list(page_faults(course, lesson, tmp_path / "01_lamp.ipynb"))
    assert not [one for one in faults if "1.6" in one], faults
    clean, found = clean_page({"cells": cells, "metadata": {}}, asked_of(lesson.exercises))
    assert found == [] and ["".join(one["source"]) for one in clean["cells"][1:]] == sources
