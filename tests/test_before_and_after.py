"""Tests before and after: kept without a word, counted at marking, and a class's gain as it was built in."""
import json
import math
import random
from dataclasses import replace

import numpy as np
import pytest

from invented_work import EventSheet
from lessons_lib.course.class_report import report_page
from lessons_lib.course.folder import Course, bench_card
from lessons_lib.course.gain import before_and_after, normalised_gain
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.mark import mark
from lessons_lib.course.pack import give_out
from lessons_lib.exercises.declaration import ItemExercise, Lesson
from lessons_lib.exercises.draws import SELF_STUDY_SECRET
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.exercises.verdicts import State
from notebooks import ANSWERS

LESSONS = {lesson.id: lesson for lesson in load_lessons(ANSWERS)}
TESTS = [lesson for lesson in LESSONS.values() if lesson.test]


# ---- the items -------------------------------------------------------------------------------------------------------

def test_two_forms_ask_the_same_ideas_and_the_shorter_one_some_of_them():
    ideas = {lesson.test: [one.idea for one in lesson.exercises] for lesson in TESTS}
    assert ideas["before"] == ideas["after"] and len(set(ideas["before"])) == 20
    assert len(ideas["half-way"]) == 10 and set(ideas["half-way"]) < set(ideas["before"])


@pytest.mark.parametrize("lesson", TESTS, ids=lambda lesson: lesson.test)
def test_letters_do_not_give_it_away(lesson):
    """No letter is right more often than chance would, the right option is not always the longest, no two alike."""
    rights = [one.right for one in lesson.exercises]
    assert max(map(rights.count, "abcd")) <= 0.4 * len(rights) and min(map(rights.count, "abcd")) >= 2
    longest = [max(one.options, key=lambda letter: len(one.options[letter])) == one.right for one in lesson.exercises]
    assert sum(longest) <= 0.5 * len(longest)
    for one in lesson.exercises:
        assert len(set(one.options.values())) == len(one.options) == 4 and one.worked


def test_the_two_forms_have_no_option_text_in_common_with_one_letter_order():
    before, after = ({one.idea: one for one in lesson.exercises} for lesson in (LESSONS["90"], LESSONS["98"]))
    for idea in before:
        assert dict(before[idea].options) != dict(after[idea].options), idea


# ---- kept without a word ---------------------------------------------------------------------------------------------

@pytest.mark.parametrize("lesson", TESTS, ids=lambda lesson: lesson.test)
def test_a_sheet_of_a_silent_lesson_says_nothing_of_what_is_right(lesson):
    sheet = make_sheet(lesson, secret=SELF_STUDY_SECRET, bench="b000")
    text = json.dumps(sheet, ensure_ascii=False)
    assert "sealed" not in text and "salt" not in text
    for one in lesson.exercises:
        assert set(sheet["exercises"][one.id]) == {"kind", "silent", "options"}
        assert all(notion not in text for notion in one.tells.values())
        assert one.worked not in text


@pytest.fixture
def sheet(beside_answers):
    """The sheet of the test before, beside the model answers, for b000."""
    return beside_answers("90")


def test_answers_are_kept_and_the_last_one_counts(sheet):
    right = LESSONS["90"]["t1"].right
    wrong = next(letter for letter in "abcd" if letter != right)
    for letter in (wrong, right):
        verdict = sheet.answer("t1", letter, sure=2)
        assert verdict.state == State.KEPT and "right" not in verdict.text and "wrong" not in verdict.text
    assert 'Kept from before: "' + right in sheet.answer("t1", "...", sure=...).text
    assert sheet.result().text.startswith("1 of 20 right.")
    sheet.answer("t1", wrong, sure=1)
    assert sheet.result().text == ('0 of 20 right. Not right: t1. sheet.worked_answer("t1") shows what is.')
    assert LESSONS["90"]["t1"].worked in sheet.worked_answer("t1").text


@pytest.mark.parametrize("value, readings, says", [
    ("e", {"sure": 2}, "write one of the letters a, b, c, d"), ("b", {}, "say how sure you are"),
    ("b", {"sure": ...}, "say how sure you are"), ("b", {"sure": 4}, "say how sure you are"),
    ("b", {"certain": 2}, "sure=1, sure=2 or sure=3"), (3, {"sure": 2}, "write one of the letters")])
def test_silly_answers_get_a_sentence(sheet, value, readings, says):
    verdict = sheet.answer("t1", value, **readings)
    assert verdict.state == State.UNREADABLE and says in verdict.text[0].lower() + verdict.text[1:]
    assert sheet.answer("t1").state == State.NOT_ANSWERED


def test_a_silent_lesson_takes_kinds_that_can_be_kept_only():
    with pytest.raises(ValueError, match="kinds that can be kept without a word; got .?prediction"):
        Lesson(id="95", title="x", version=1, silent=True, exercises=(
            next(one for one in LESSONS["01"].exercises if one.kind == "prediction"),))


@pytest.mark.parametrize("change, says", [({"right": "e"}, "right must be"), ({"tells": {}}, "tells must be")])
def test_a_bad_item_is_refused(change, says):
    with pytest.raises(ValueError, match=says):
        replace(LESSONS["90"]["t1"], **change)


# ---- the gain --------------------------------------------------------------------------------------------------------

def test_gain_of_hakes_definition():
    """(S_f - S_i)/(100 - S_i) of class averages: his class averages of 44 % and 67 % make 0.41 (from memory)."""
    gain, error = normalised_gain([0.44] * 5, [0.67] * 5)
    assert gain == pytest.approx(0.23 / 0.56) and error == pytest.approx(0, abs=1e-12)


def test_its_error_is_the_spread_of_many_classes():
    """The jackknife against the standard deviation over 400 classes drawn from one and the same school."""
    dice = np.random.default_rng(5)
    found = []
    for _ in range(400):
        ability = dice.normal(0.35, 0.12, 30).clip(0.05, 0.9)
        before = dice.binomial(20, ability) / 20
        after = dice.binomial(20, ability + 0.4 * (1 - ability)) / 20
        found.append(normalised_gain(before, after))
    gains, errors = zip(*found)
    assert np.mean(gains) == pytest.approx(0.4, abs=0.01)
    assert np.mean(errors) == pytest.approx(np.std(gains), rel=0.1)


@pytest.mark.parametrize("before, after", [([1.0, 1.0, 1.0], [1.0, 1.0, 0.9])])
def test_nothing_is_said_where_all_was_known(before, after):
    assert math.isnan(normalised_gain(before, after)[0])


STUCK, SURE_AND_WRONG = "against the change", "flux through, not at the wire"


def works(course, bench, lesson, gain, odd):
    """A bench's return of a test: each item known by its ability, after the course by *gain* of what is missing.

    *odd*: one idea does not move, and of another most are sure of one and the same wrong letter.
    """
    sheet = EventSheet(lesson, bench, bench_card(course.secret, bench), {})
    ability = random.Random(f"ability {bench}").uniform(0.15, 0.55)
    for item in lesson.exercises:
        dice = random.Random(f"{bench} {lesson.id} {item.id}")
        known = ability + (gain if lesson.test == "after" else 0) * (1 - ability)
        if odd and item.idea == STUCK:
            known = ability
        sure = dice.choice((1, 2))
        letter = item.right if dice.random() < known else dice.choice(sorted(item.tells))
        if odd and item.idea == SURE_AND_WRONG and lesson.test == "after" and dice.random() < 0.6:
            letter, sure = sorted(item.tells)[0], 3
        sheet.answer(item.id, letter, sure=sure)
    return sheet.data()


def class_of(folder, gain, *, benches=40, odd=False):
    new_course(folder, benches)
    (folder / "secret.txt").write_text("the fixed secret of a class that is tested twice\n")
    course = Course(folder)
    give_out(course, ["90", "94", "98"])
    for place, bench in enumerate(course.students):
        for lesson_id in ("90", "94", "98"):
            if (place, lesson_id) in ((3, "90"), (8, "98")):
                continue        # was away
            (folder / "returned" / f"return-{bench}-{lesson_id}.json").write_bytes(
                works(course, bench, LESSONS[lesson_id], gain, odd))
    return course


@pytest.fixture
def found(monkeypatch):
    """What the report finds, as it is written."""
    found = {}
    monkeypatch.setattr("lessons_lib.course.class_report.before_and_after",
                        lambda tallies: found.setdefault("tests", before_and_after(tallies)))
    return found


@pytest.mark.parametrize("gain", (0.0, 0.3, 0.6))
def test_a_known_gain_is_found_within_its_error(tmp_path, gain, found):
    """40 invented benches, 38 of whom handed in both: the report's number, within two of its own standard errors."""
    course = class_of(tmp_path / "course", gain)
    done = mark(course)
    assert done.not_read == [] and done.returned == 40
    value, error = (float(one.replace("−", "-")) for one in found["tests"]["gain"].split(" ± "))
    assert found["tests"]["benches"] == 38 and 0.01 <= error < 0.06
    assert abs(value - gain) <= 2 * error
    page = (course.folder / "marks/class_report.html").read_text(encoding="utf-8")
    assert "38 benches handed in both tests." in page and f"Normalised gain: {found['tests']['gain']}." in page
    assert "<h2>Lesson 90" not in page and "<h3>Lesson 98" not in page


def test_what_did_not_move_and_where_the_class_is_sure_and_wrong_is_named(tmp_path, found):
    mark(class_of(tmp_path / "course", 0.7, odd=True))
    not_moved = found["tests"]["not_moved"]
    assert {STUCK, SURE_AND_WRONG} <= set(not_moved) and len(not_moved) <= 3        # one in twenty may miss by chance
    [(idea, count, of, tells)] = found["tests"]["sure_and_wrong"]
    assert idea == SURE_AND_WRONG and tells == "the flux has to touch the wire" and 0.4 * of < count < 0.8 * of


def test_few_benches_are_told_so(tmp_path):
    course = class_of(tmp_path / "course", 0.5, benches=9)
    mark(course)
    page = (course.folder / "marks/class_report.html").read_text(encoding="utf-8")
    assert "7 handed in both tests: too few to say what a class has gained." in page and "Normalised gain" not in page


def test_without_tests_nothing_is_said(tmp_path):
    course = Course(tmp_path / "course")
    new_course(course.folder, 3)
    assert b"Before and after" not in report_page(course, {}, [])
    assert before_and_after({}) is None


def test_marks_carry_no_test(tmp_path):
    course = class_of(tmp_path / "course", 0.5, benches=9)
    mark(course)
    assert "t1" not in (course.folder / "marks/marks.csv").read_text(encoding="utf-8-sig")


def test_an_item_is_never_marked():
    assert not ItemExercise(id="t1", idea="x", options={"a": "1", "b": "2"}, right="a", tells={"b": "y"}).is_marked


def test_without_model_answers_the_result_is_one_sentence(sheet, tmp_path):
    sheet.answer("t1", "b", sure=2)
    (tmp_path / "answers").unlink()
    verdict = sheet.result()
    assert verdict.state == State.NO_SHEET and verdict.text.startswith("There is no file")
