"""An exercise that builds on the one before: the same numbers again, its answer in the formulas, its verdict first."""
import math
from dataclasses import replace

import pytest

import lessons_lib
from exercises_following import GARDEN, bank
from exercises_lesson import LESSON, lay_sheet, pond
from lessons_lib.base.units import with_unit
from lessons_lib.exercises.declaration import Given, Lesson, Twin
from lessons_lib.exercises.draws import draw, draw_lesson
from lessons_lib.exercises.making import make_sheet, make_worked_answers
from lessons_lib.exercises.review import review
from lessons_lib.exercises.verdicts import State


@pytest.fixture
def sheet(desk):
    lay_sheet(desk, "b000", make_sheet(GARDEN, secret="test", bench="b000"))
    return lessons_lib.open_sheet("01")


def area(given):
    """What exercise 1.1 asks, by the school formula, in mm2."""
    return given["share"] / 100 * math.pi * given["diameter"] ** 2 / 4


def test_the_numbers_before_are_shown_again_and_the_answer_builds_on_them(sheet):
    before, given = sheet.given("1.1"), sheet.given("1.6")
    assert {name: given[name] for name in before} == dict(before) and list(given) == ["diameter", "share", "depth"]
    assert sheet.answer("1.1", round(area(before), 3)).state == State.RIGHT
    assert sheet.answer("1.6", round(area(before) / given["depth"], 3), "mm").state == State.RIGHT


def test_a_wrong_answer_says_first_what_it_builds_on(sheet):
    given = sheet.given("1.6")
    whole = round(area(given) / (given["share"] / 100) / given["depth"], 3)
    assert str(sheet.answer("1.6", whole)) == "1.6: not yet. 1.6 builds on 1.1, which is not right yet."
    sheet.answer("1.1", round(area(given), 3))
    assert sheet.answer("1.6", whole).text == "Is the whole pond filled in?"
    assert sheet.answer("1.6", 5000).state == State.FAR


def test_it_can_be_right_before_the_other(sheet):
    given = sheet.given("1.6")
    assert sheet.answer("1.6", round(area(given) / given["depth"], 3)).state == State.RIGHT


def test_the_twin_and_the_worked_answer_name_the_value_before():
    # a pond of 4 mm: 4 pi = 12.57 mm2, half of it 6.283; over 2 mm
    notes = make_sheet(GARDEN, secret="test", bench="b000")["exercises"]["1.6"]["notes"]
    assert notes[2] == (f"4.00 mm, half of it: {with_unit('6.283', 'mm2')} of {with_unit('12.57', 'mm2')}. "
                        "Over 2.0 mm that is 3.142 mm.")
    worked = make_worked_answers(GARDEN, secret="test", bench="b000")
    one = draw(bank, secret="test", bench="b000")
    assert worked["1.6"].startswith(f"The covered part {with_unit(f'{area(one.shown):.4g}', 'mm2')} over")


def test_an_own_value_before_takes_the_place_of_the_right_one():
    one = draw(bank, secret="test", bench="b000")
    assert replace(one, own_earlier=6e-6).answer == pytest.approx(6 / one.shown["depth"])


def test_a_chain_of_three():
    again = replace(bank, id="1.7", follows=bank, unit="mm2", size=(1, 100), steps={}, slips=(),
                    given={"long": Given("length", unit="mm", low=2, high=9, step=1)},
                    answer=lambda earlier, long: earlier * long, worked="{earlier}, {answer}",
                    twin=Twin({"diameter": 4.0, "share": 50, "depth": 2.0, "long": 20}, "{answer}"))
    drawn = draw_lesson(replace(GARDEN, exercises=(*GARDEN.exercises, again)), secret="s", bench="b011")
    last = drawn["1.7"]
    assert last.answer == pytest.approx(area(drawn["1.1"].shown) / drawn["1.6"].shown["depth"] * last.shown["long"])
    assert drawn["1.7"].shown == draw(again, secret="s", bench="b011").shown


def test_following_changes_no_other_exercise_and_has_no_faults():
    ours, plain = (make_sheet(one, secret="test", bench="b003")["exercises"] for one in (GARDEN, LESSON))
    assert {exercise_id: ours[exercise_id] for exercise_id in plain} == plain
    assert list(review(bank, draws=100)) == []


@pytest.mark.parametrize("change, words", [
    (lambda: replace(bank, follows=None), "must be one of depth; got 'earlier'"),
    (lambda: Lesson(id="01", title="", version=1, exercises=(bank, pond)),
     "what exercise 1.6 follows must be an exercise before it in the lesson; got '1.1'."),
    (lambda: Lesson(id="01", title="", version=1, exercises=(replace(pond), bank)), "what exercise 1.6 follows"),
    (lambda: replace(bank, twin=Twin({"depth": 2.0}, "")), "must be diameter, share, depth; got ['depth']"),
])
def test_a_wrong_declaration_is_one_sentence(change, words):
    with pytest.raises(ValueError) as caught:
        change()
    assert words in str(caught.value)
