"""An estimate with its reason: right within a factor, slips by powers of ten, and a reason that says something."""
import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import lessons_lib
from exercises_in_words import LESSON, heap, pond
from exercises_lesson import lay_sheet
from lessons_lib.course.clean_page import asked_of, clean_page
from lessons_lib.exercises.declaration import Slip, Twin
from lessons_lib.exercises.draws import draw
from lessons_lib.exercises.kinds.estimate import EstimateRecord
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.returns import _fault
from lessons_lib.exercises.review import review
from lessons_lib.exercises.sealing import scale_within
from lessons_lib.exercises.verdicts import State

REASON = {"because": "about four metres times five"}


def record_of(exercise, bench="b000"):
    drawn = draw(exercise, secret="test", bench=bench)
    return EstimateRecord(exercise.sheet_record(drawn, "salt"), id=exercise.id), drawn.answer


@pytest.mark.parametrize("factor", [1.5, 3, 10, 100])
@pytest.mark.parametrize("right", [1e-9, 3.3e-6, 1.0, 7e5, -2.0])
def test_right_is_from_the_factor_below_to_the_factor_above(right, factor):
    scale = scale_within(right, factor=factor)
    for share, is_right in ((1 / factor * 1.001, True), (factor * 0.999, True), (1 / factor * 0.999, False),
                            (factor * 1.001, False), (-1, False)):
        assert scale.is_right(right * share, right) == is_right


@pytest.mark.parametrize("exercise", [pond, heap], ids=["pond", "heap"])
@pytest.mark.parametrize("bench", ["b000", "b001", "b002"])
def test_right_and_wrong(exercise, bench):
    record, right = record_of(exercise, bench)
    for share, state in ((1, State.RIGHT), (0.98 * exercise.factor, State.RIGHT), (1.02 / exercise.factor, State.RIGHT),
                         (1.02 * exercise.factor, State.NOT_YET), (0.98 / exercise.factor, State.NOT_YET),
                         (-1, State.NOT_YET), (1e9, State.FAR), (1e-9, State.FAR)):
        judged = record.judge(float(f"{share * right:.2g}") if state != State.NOT_YET else share * right, None, REASON)
        assert judged.state == state and record.judge(**judged.entry) == judged


def test_slips_and_the_words_of_a_right_one():
    record, right = record_of(pond)
    assert "square centimetres" in record.judge(150_000, "m2", REASON).text
    assert record.judge(2e5, "cm2", REASON).state == State.RIGHT
    assert record.judge(20, "m2", REASON).text.startswith("Within a factor of 3. ")
    assert "One figure, or two" in record.judge(20.5, "m2", REASON).text
    assert "One figure" not in record.judge(21, "m2", REASON).text and right == 20


@pytest.mark.parametrize("readings, words", [
    (None, "say in one line"), ({}, "say in one line"), ({"because": "so"}, "a few words more"),
    ({"because": "1"}, "a few words more"), ({"because": "a b c", "table": []}, "nothing else"), ({"why": "a b c"},
     "say in one line"), ({"because": 3}, "a text in quotes"), ({"because": {"a": 1}}, "a text in quotes"),
    ({"because": "a b c " * 100}, "at most 300"), ("a b c", "say in one line")])
def test_a_reason_is_needed(readings, words):
    with pytest.raises(ValueError, match=words):
        record_of(pond)[0].judge(20, "m2", readings)


def test_a_reason_is_kept_as_one_line_and_a_return_takes_it():
    record, _ = record_of(pond)
    entry = record.judge(20, "m2", {"because": "four  metres\ntimes five \ud800"}).entry
    assert entry["readings"] == {"because": "four metres times five ?"}
    assert record.shown(entry) == "20 m², because four metres times five ?"
    event = {"id": f"{1:016x}", "number": 1, "time": "2030-03-01T10:00:00+00:00", "event": "answer", "lesson": "01",
             "exercise": "1.4", **entry}
    for reason in (event["readings"]["because"], "x" * 300):
        assert _fault({**event, "readings": {"because": reason}}, "01") == ""
    assert _fault({**event, "readings": {"because": "x" * 301}}, "01") == "cannot be read at readings"


def test_on_the_page(desk):
    lay_sheet(desk, "b000", make_sheet(LESSON, secret="test", bench="b000"))
    sheet = lessons_lib.open_sheet("01")
    assert sheet.answer("1.4", 20, "m2").state == State.UNREADABLE
    assert sheet.answer("1.4", 20, "m2", "four times five").text == (
        "Name what goes with the answer: because= before the reason.")
    assert sheet.answer("1.4", 20, "m2", because="...").state == State.NOT_ANSWERED
    assert sheet.answer("1.4", 20, "m2", because="four metres times five").state == State.RIGHT
    assert "because four metres times five" in sheet.answer("1.4", ..., "m2", because="...").text


def test_a_reason_without_a_number_is_taken_out_of_a_page():
    source = 'sheet.answer("1.4", ..., "m2", because="my own reason")'
    page = {"cells": [{"cell_type": "code", "source": source, "outputs": [], "metadata": {}}], "metadata": {}}
    clean, found = clean_page(page, asked_of(LESSON.exercises))
    assert "".join(clean["cells"][0]["source"]) == 'sheet.answer("1.4", ..., "m2", because="...")' and found


def test_an_estimate_is_said_with_two_figures():
    drawn = draw(heap, secret="test", bench="b000")
    said = f"{float(f'{drawn.answer:.2g}'):.0f}"
    assert f"{said} kg." in heap.worked_answer(drawn) and heap.key_value(drawn) == said and said.endswith("00")
    assert [type(one).__name__ for one in pond.right_on_paper(draw(pond, secret="test", bench="b000"))] == [
        "Right", "Grid", "Right"]     # no table of given values where there are none


def test_the_sheet_does_not_say_the_number():
    record, right = record_of(heap)
    said = str({name: one for name, one in record.items() if name not in ("given", "size")})
    assert f"{right:.4g}" not in said and heap.because not in said
    assert abs(math.log(record["tolerance"] / 0.98)) < 0.001     # from the factor of 10 alone


@pytest.mark.parametrize("changes, words", [
    ({"factor": 1}, "above 1 and at most 1000"), ({"factor": math.inf}, "finite"), ({"follows": pond}, "begins anew"),
    ({"because": "so"}, "a few words more"), ({"unit": "dB"}, "can be off by a factor"),
    ({"twin": Twin({}, "It has {answer}.")}, "without fields")])
def test_what_cannot_be_declared(changes, words):
    with pytest.raises(ValueError, match=words):
        replace(pond, **changes)


def test_a_slip_that_an_estimate_cannot_tell_is_found():
    near = replace(pond, slips=(Slip("radius", lambda: 80.0, "What?"),))      # a factor of 4, and right within 3
    assert "radius gives 80, within twice the tolerance" in next(review(near))


@settings(max_examples=300, deadline=None, derandomize=True)
@given(st.floats() | st.text(max_size=8) | st.integers(), st.none() | st.text(max_size=30) | st.dictionaries(
    st.sampled_from(["because", "table"]), st.text(max_size=400) | st.integers() | st.none(), max_size=2))
def test_whatever_is_typed_gets_a_judgement_or_one_sentence(value, readings):
    record, _ = record_of(pond)
    try:
        judged = record.judge(value, "m2", readings)
    except ValueError as error:
        assert str(error) and "\n" not in str(error) and len(str(error)) < 200
    else:
        assert record.judge(**judged.entry) == judged
