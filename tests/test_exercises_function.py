"""A function as an answer: called at the student's only, never raises or hangs; its readings are judged and marked."""
import json
import math
import time as clock
from datetime import datetime

import numpy as np
import pytest

import lessons_lib
from exercises_lesson import lay_answers, lay_sheet
from lessons_lib.course.marking import Marker
from lessons_lib.course.right_answers import self_study_page
from lessons_lib.course.settings import Settings
from lessons_lib.exercises import functions
from lessons_lib.exercises.declaration import FunctionExercise, Lesson, ReadOff, Signal, Slip
from lessons_lib.exercises.functions import claim_of, read_off
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.returns import return_bytes
from lessons_lib.exercises.review import review
from lessons_lib.exercises.sheet_file import read_sheet, sheet_bytes
from lessons_lib.exercises.verdicts import State

MINUTES = np.linspace(0, 2, 81)


def cart(name, place):
    """Way of a cart in m, every 1.5 s of two minutes."""
    return Signal(label=name, values=tuple(place), time=tuple(60 * MINUTES))


def speed(place, time):
    return np.gradient(place, time)


walk = FunctionExercise(
    id="1.1", tolerance=0.03, marks=2,
    signals={"there and back": cart("the cart there and back", 30 * np.sin(MINUTES * 0.6 * math.pi)),
             "uphill": cart("the cart uphill", 12 * MINUTES + MINUTES ** 2)},
    parts=(ReadOff(label="largest speed", signal="there and back", read="largest", unit="m/s"),
           ReadOff(label="turning", signal="there and back", read="first zero", unit="s", between=(6, 110)),
           ReadOff(label="mean speed", signal="uphill", read="mean", unit="mm/s", between=(30, 90))),
    answer=speed, also_right=(lambda place, time: np.append(np.diff(place) / np.diff(time), place[-1] - place[-2]),),
    slips=(Slip("way", lambda place, time: place, "That is where the cart is. How fast is it?"),
           Slip("per step", lambda place, time: np.gradient(place), "Metres for each second are asked, not for each "
                                                                    "step."),
           Slip("backwards", lambda place, time: -np.gradient(place, time), "Which way does the cart go at first?")),
    notes=("Look at one step.", "Speed is way over time.", "A car: 20 m in 2 s, so 10 m/s."),
    worked="np.gradient(place, time)", teaching_note="Bring a cart.")

LESSON = Lesson(id="01", title="The cart", version=1, exercises=(walk,))
SHEET = make_sheet(LESSON, secret="test", bench="b000")


@pytest.fixture
def sheet(desk):  # noqa: F811
    lay_sheet(desk, "b000", SHEET)
    lay_answers(desk, "test_exercises_function")
    return lessons_lib.open_sheet("01")


def test_readings_a_person_can_foresee():
    time = [0.0, 1.0, 3.0, 4.0]
    assert read_off([1.0, 5.0, 2.0, 9.0], time, read="largest", between=(0, 3)) == 5.0
    assert read_off([0.0, 2.0, 2.0, 0.0], time, read="mean") == 6 / 4      # area of a trapezium over 4
    assert read_off([2.0, 2.0, -2.0, 1.0], time, read="first zero") == 2.0
    with pytest.raises(ValueError, match="never crosses zero"):
        read_off([1.0, 2.0, 3.0, 4.0], time, read="first zero")


def test_what_the_sheet_holds_goes_through_its_file_and_names_no_reading():
    data = sheet_bytes(SHEET)
    assert read_sheet(data)["exercises"]["1.1"]["parts"][1]["between"] == [6, 110]
    assert not any(f"{number:.4f}" in data.decode() for number in walk.numbers(speed))
    assert all(set(part) == {"label", "signal", "read", "unit", "factor", "between", "phase", "sealed"}
               for part in SHEET["exercises"]["1.1"]["parts"])
    assert list(review(walk)) == []


def test_a_right_function(sheet):
    verdict = sheet.answer("1.1", speed)
    assert verdict.state == State.RIGHT
    assert verdict.text.startswith("Within 3 % in each reading: largest speed 0.94")
    assert "turning 50 s; mean speed 233.3" in verdict.text
    assert sheet.answer("1.1", walk.also_right[0]).state == State.RIGHT


def test_each_slip_gets_its_note_and_a_part_may_be_right(sheet):
    for slip in walk.slips:
        verdict = sheet.answer("1.1", slip.formula)
        said = [other.note for other in walk.slips if other.note in verdict.text]
        assert verdict.state == State.NOT_YET and said == [slip.note] and verdict.text.count(slip.note) == 1
    assert "1 of 3 are right" in sheet.answer("1.1", walk.slips[1].formula).text      # the zero stays where it is


def test_unmatched_functions_open_the_general_notes_then_the_worked_answer(sheet):
    said = [sheet.answer("1.1", lambda place, time, k=k: k * np.gradient(place, time)).text for k in (1.3, 1.7, 2.1)]
    assert all(note in text for note, text in zip(walk.notes, said))
    assert sheet.worked_answer("1.1").text == walk.worked


def test_only_the_readings_are_kept_and_are_judged_again_from_the_log(sheet):
    sheet.answer("1.1", speed)
    (event,) = [json.loads(line) for line in open(desk_log())]
    assert event["value"].startswith("largest speed 0.94") and "speed(" not in event["value"]
    again = lessons_lib.open_sheet("01").answer("1.1", ...)
    assert again.state == State.RIGHT and again.text.startswith("Kept from before: largest speed")


def desk_log():
    from lessons_lib.exercises.work_folder import work_folder
    return work_folder() / "log-b000.jsonl"


class Unspeakable(Exception):
    def __str__(self):
        raise RuntimeError


def raising(error):
    def function(place, time):
        raise error
    return function


def recursion(place, time):
    return recursion(place, time)


@pytest.mark.parametrize("value, words", [
    (lambda place, time: None, "returns nothing; is there a line that begins with return?"),
    (lambda place, time: ..., "still returns the three dots"),
    (lambda place, time: np.diff(place) / np.diff(time), "returns 80 values for 81 instants"),
    (lambda place, time: 1.0, "returns one number for 81 instants"),
    (lambda place, time: np.zeros((81, 2)), "an array of shape 81×2"),
    (lambda place, time: np.where(time > 30, np.nan, 1), "of them not finite"),
    (lambda place, time: "fast", "returns str; an array of numbers is needed"),
    (lambda place, time: {"v": 1}, "returns dict"), (lambda place, time: [[1], [2, 3]], "returns list"),
    (lambda place, time: place * 1j, "an array of numbers is needed"),
    (lambda place, time: np.ones(81), "the result on the cart there and back never crosses zero"),
    (lambda place: place, "stopped with TypeError"),
    (raising(ZeroDivisionError("division by zero")), "ZeroDivisionError: division"),
    (raising(SystemExit()), "stopped with SystemExit"), (raising(KeyboardInterrupt()), "stopped with "
                                                                                       "KeyboardInterrupt"),
    (raising(Unspeakable()), "stopped with Unspeakable"), (recursion, "stopped with RecursionError"),
    (speed(*(np.arange(3.0),) * 2), "a function is needed"), ("speed", "a function is needed"), (3.0, "a function is "
                                                                                                    "needed"),
    ("largest speed nan m/s; turning 1 s; mean speed 1 mm/s", "a function is needed"), ([], "a function is needed")])
def test_a_wrong_function_gets_one_sentence_and_is_not_kept(sheet, value, words):
    verdict = sheet.answer("1.1", value)
    assert verdict.state == State.UNREADABLE and words.lower() in verdict.text.lower() and verdict.text.count("\n") == 0
    assert not desk_log().exists()


def test_a_loop_without_end_is_stopped():
    stopped = []

    def forever(place, time):
        try:
            while True:
                pass
        finally:
            stopped.append(True)

    with pytest.raises(ValueError, match="is there a loop that never ends"):
        claim_of(forever, SHEET["exercises"]["1.1"], longest_run=0.05)
    assert stopped


def test_a_function_that_sleeps_holds_nobody_up():
    with pytest.raises(ValueError, match="did not finish"):
        claim_of(lambda place, time: clock.sleep(5), SHEET["exercises"]["1.1"], longest_run=0.05)


def test_a_function_that_changes_its_arguments_spoils_nothing():
    def spoils(place, time):
        place[:] = 0
        return np.zeros(81)
    record = json.loads(json.dumps(SHEET["exercises"]["1.1"]))
    claim_of(spoils, record)
    assert record == json.loads(json.dumps(SHEET["exercises"]["1.1"])) and functions.LONGEST_RUN >= 1


# ---- marks: from the readings alone ----------------------------------------------------------------------------------

def marked(function, **settings):
    record = SHEET["exercises"]["1.1"]
    event = {"id": "0" * 16, "number": 1, "time": datetime(2030, 1, 1).astimezone().isoformat(), "event": "answer",
             "lesson": "01", "exercise": "1.1", "value": claim_of(function, record)}
    data, _ = return_bytes(bench="b017", code="7QK4MX", lesson="01", version=1, events=[event])
    assert event["value"].encode() in data       # the return takes it
    marker = Marker(LESSON, SHEET, {}, Settings(**settings), {})
    return marker.outcomes(marker.history([event]))["1.1"]


def test_marks_of_a_right_function_a_slip_and_another():
    assert marked(speed).marks == 2 and marked(speed).how == "right"
    slip = marked(walk.slips[2].formula, slip_marks={"1.1": {"backwards": 0.5}})
    assert (slip.marks, slip.how) == (0.5, "slip: backwards") and walk.slips[2].note in slip.note
    other = marked(lambda place, time: 1.3 * speed(place, time))
    assert (other.marks, other.how) == (0, "not yet") and walk.notes[0] in other.note
    assert other.answer.startswith("largest speed 1.22")


def test_a_course_may_widen_the_tolerance():
    wide = Settings(tolerances={"1.1": 0.2}).apply(LESSON)
    sheet = make_sheet(wide, secret="test", bench="b000")
    assert wide["1.1"].tolerance == sheet["exercises"]["1.1"]["tolerance"] == 0.2


def test_the_instructors_page_shows_what_each_function_gives():
    page = self_study_page([LESSON], "b000").decode()
    assert "largest speed" in page and "backwards" in page and "50 s" in page


@pytest.mark.parametrize("change, words", [
    ({"slips": (Slip("none", speed, "This one is never told to anybody."),)}, "is never told"),
    ({"slips": (Slip("near", lambda place, time: 1.04 * speed(place, time), "Too near."),)}, "too near to the right "
                                                                                             "one"),
    ({"also_right": (lambda place, time: 1.1 * speed(place, time),)}, "another right function gives"),
    ({"answer": lambda place, time: 0 * place}, "is nothing that")])
def test_faults_of_a_declaration_are_found(change, words):
    from dataclasses import replace
    assert any(words in fault for fault in review(replace(walk, **change)))
