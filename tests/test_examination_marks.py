"""Marks of the examination: points of each step, what a slip earns, and the last answer that counts."""
import math
import re
from dataclasses import replace
from itertools import combinations

import pytest

from examination_plain import FORMS, PAIRS, SECRET, A, every_form, every_number, plain
from invented_work import EventSheet
from lessons_lib.course.marking import Marker
from lessons_lib.course.settings import Settings
from lessons_lib.exercises.declaration import Lesson
from lessons_lib.exercises.draws import draw, draw_lesson
from lessons_lib.exercises.making import make_sheet


def test_points_add_up_and_a_slip_earns_whole_steps():
    for one, _ in PAIRS:
        if one.kind == "number":
            steps = [marks for marks, _ in one.points]
            sums = {sum(some) for count in range(len(steps)) for some in combinations(steps, count)}
            assert sum(steps) == one.marks and all(slip.marks in sums for slip in one.slips), one.id
            assert all(len(what) <= 110 for _, what in one.points)


@pytest.mark.parametrize("points, says", [
    (((1, "area"),), "points of exercise 95.1 must be 2 marks in all; got 1"),
    (((2, "area"), (0, "flux")), "points of exercise 95.1 must be pairs of marks above 0"),
    (((1, "area"), (1, "")), "points of exercise 95.1 must be pairs")])
def test_points_that_do_not_add_up_are_refused(points, says):
    with pytest.raises(ValueError, match=re.escape(says)):
        Lesson(id="95", title="x", version=1, exercises=(replace(A["95.1"], points=points),))


@pytest.mark.parametrize("marks", [2, 3, -1])
def test_a_slip_does_not_earn_what_right_earns(marks):
    slip = replace(A["95.1"].slips[0], marks=marks)
    with pytest.raises(ValueError, match="slip diameter for radius in exercise 95.1 must be from 0 to below 2; got"):
        Lesson(id="95", title="x", version=1, exercises=(replace(A["95.1"], slips=(slip,)),))


def sat_by(lesson, bench, answers):
    """(given values of the student's sheet, `Outcome`s) of a bench that gives the *answers*, (exercise, value)s."""
    drawn = draw_lesson(lesson, secret=SECRET, bench=bench)
    sheets = [make_sheet(lesson, secret=SECRET, bench=bench, drawn=drawn, for_marking=one) for one in (False, True)]
    given = {name: {value["name"]: value["value"] for value in one.get("given", ())}
             for name, one in sheets[0]["exercises"].items()}
    work = EventSheet(lesson, bench, f"{bench}-cardno", {})
    for exercise_id, value in answers(given):
        work.answer(exercise_id, value)
    marker = Marker(lesson, sheets[1], drawn, Settings(), {})
    return given, marker.outcomes(marker.history(work.events))


@every_form
@every_number
@pytest.mark.parametrize("bench", ["b010", "b011", "b023"])
def test_right_earns_all_and_each_slip_what_it_names(form, number, bench):
    lesson, exercise_id = FORMS[form], f"{form}.{number}"
    most = lesson[exercise_id].marks
    given, outcomes = sat_by(lesson, bench, lambda given: [(exercise_id, plain(number, given[exercise_id])[0])])
    assert (outcomes[exercise_id].marks, outcomes[exercise_id].how) == (most, "right")
    right, slips = plain(number, given[exercise_id])
    assert set(slips) == {slip.name for slip in lesson[exercise_id].slips}
    for name, (typed, marks) in slips.items():
        outcome = sat_by(lesson, bench, lambda given: [(exercise_id, typed)])[1][exercise_id]
        assert name in outcome.how and outcome.marks >= marks, (name, outcome)
        if outcome.how == f"slip: {name}":      # else two slips share a bin, and the better counts
            assert outcome.marks == marks, name
    wrong = right * 1.37 if number not in ("6", "14") else right - 0.37
    if all(abs(math.log(abs(typed / wrong))) > 0.1 for typed, _ in slips.values() if typed):
        assert sat_by(lesson, bench, lambda given: [(exercise_id, wrong)])[1][exercise_id].marks == 0


@every_form
def test_the_last_answer_counts_and_nothing_before_it(form):
    lesson, first = FORMS[form], f"{form}.1"
    letter = f"{form}.2"
    other = next(one for one in "abcd" if one != lesson[letter].right)

    def changed_mind(given):
        right = plain("1", given[first])[0]
        return [(first, right), (first, 4 * right), (letter, other), (letter, lesson[letter].right)]
    outcomes = sat_by(lesson, "b010", changed_mind)[1]
    assert outcomes[first].marks == 1 and outcomes[first].how == "slip: diameter for radius"
    assert outcomes[letter].marks == 1 and outcomes[f"{form}.15"].marks == 0


def test_a_course_may_say_otherwise():
    settings = Settings(slip_marks={"95.1": {"diameter for radius": 0.5}})
    marker = Marker(A, make_sheet(A, secret=SECRET, bench="b010", for_marking=True),
                    draw_lesson(A, secret=SECRET, bench="b010"), settings, {})
    work = EventSheet(A, "b010", "b010-cardno", {})
    right = draw(A["95.1"], secret=SECRET, bench="b010").answer
    for factor, marks in ((4, 0.5), (1e3, 1)):
        work.answer("95.1", factor * right)
        assert marker.outcomes(marker.history(work.events))["95.1"].marks == marks


def test_what_a_slip_earns_is_among_the_reasons_why_marks_move():
    def because(exercise):
        lesson = replace(A, exercises=(exercise,))
        marker = Marker(lesson, make_sheet(lesson, secret=SECRET, bench="b010", for_marking=True),
                        draw_lesson(lesson, secret=SECRET, bench="b010"), Settings(), {})
        return marker.outcomes(marker.history([]))["95.1"].because
    slips = A["95.1"].slips
    assert because(A["95.1"]) != because(replace(A["95.1"], slips=(replace(slips[0], marks=0.5), *slips[1:])))
