"""Whatever a student types: an answer, or one sentence that says why it cannot be read. Never a traceback."""
import math
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import lessons_lib
from exercises_lesson import LESSON
from lessons_lib.exercises.kinds import read_record, read_records
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.reading import figures, into, read_letter, read_number, words
from lessons_lib.exercises.verdicts import State, Verdict, sentence

RECORDS = read_records(make_sheet(LESSON, secret="test", bench="b000"))


def said(record, *answer):
    """The judgement on an answer, or the verdict on one that cannot be read."""
    try:
        return record.judge(*answer)
    except ValueError as error:
        return Verdict(State.UNREADABLE, sentence(str(error)))


@pytest.mark.parametrize("typed, number", [
    (1.66, 1.66), (2, 2.0), ("1.66", 1.66), (" -1.66e3 ", -1660.0), ("\u22121.66", -1.66),
    (".5", 0.5), ("5.", 5.0), (np.float64(1.5), 1.5),
    (np.float32(1.5), 1.5), (np.int64(3), 3.0), (Fraction(3, 2), 1.5), (-0.0, 0.0)])
def test_numbers_that_are_read(typed, number):
    assert read_number(typed) == number and type(read_number(typed)) is float


@pytest.mark.parametrize("typed, part", [
    ("1,66", "write 1.66 with a point"),
    (True, "True and False are not numbers"),
    (np.True_, "a number is needed"),
    (math.nan, "not finite"), (math.inf, "not finite"), (-math.inf, "not finite"), (1e400, "not finite"),
    ("1e400", "not finite"), pytest.param(10 ** 5000, "not finite", id="5000 digits"),
    (np.float64("nan"), "not finite"),
    (1 + 2j, "of type complex"), (Decimal("1.5"), "of type Decimal"), (object(), "of type object"), (len, "of type"),
    ([1.66], "without brackets"), ((1, 66), "without brackets"), ({}, "without brackets"),
    (np.array([1.66]), "without brackets"), (np.array(1.66), "without brackets"), (b"1.66", "without brackets"),
    ("9" * 5000, "without quotes"), ("1.66 mm2", "without quotes"), ("nan", "without quotes"),
    ("0x10", "without quotes"), ("1_000", "without quotes"), ("١٢", "without quotes"),
    ("\ud800", "without quotes"), ("<b>1</b>", "without quotes"),
    ("1,660,000", "without quotes")])
def test_numbers_that_are_refused_with_a_reason(typed, part):
    with pytest.raises(ValueError) as caught:
        read_number(typed)
    assert part in str(caught.value) and len(str(caught.value)) < 140
    judged = said(RECORDS["1.1"], typed)
    assert judged.state == State.UNREADABLE and judged.text[0].isupper() and judged.text[-1] in ".?"


@pytest.mark.parametrize("unit, part", [
    ("T", "The unit T measures a flux density; the answer is an area, in mm²."),
    ("acre", '"acre" is not one of the units'),
    ("m" * 500, "longer than 20 characters"), (66, "a short text in quotes"), (0, "a short text in quotes"),
    (["mm2"], "a short text in quotes"), (np.array([1, 2]), "a short text in quotes"), ("\ud800\udfff", '"??"'),
    ("<i>", '"<i>" is not'), (True, "a short text in quotes")])
def test_units_that_are_refused_with_a_reason(unit, part):
    judged = said(RECORDS["1.1"], 5.5, unit)
    assert judged.state == State.UNREADABLE and part.lower() in judged.text.lower() and len(judged.text) < 200


def test_a_plain_number_wants_no_unit():
    with pytest.raises(ValueError, match="^\"turns\" is not one of the units read here; leave the unit out$"):
        into(2000.0, "turns", "1")


def test_a_number_that_leaves_the_doubles_in_the_asked_unit_is_refused():
    assert said(RECORDS["1.1"], 1e305, "m2").state == State.UNREADABLE
    assert said(RECORDS["1.1"], 1e300, "m2").state == State.FAR
    assert said(RECORDS["1.3"], 1e300).state == State.FAR


@pytest.mark.parametrize("typed", ["E", "ab", 3, "", "d", None, ["a"], "a" * 10_000, "\ud800", b"a", True])
def test_letters_that_are_not_options(typed):
    judged = said(RECORDS["1.4"], typed)
    assert judged.text.startswith("Write one of the letters a, b, c in quotes; this is ")


@pytest.mark.parametrize("typed", [3, ["text"], b"text", 1.5, "x" * 8001])
def test_texts_that_are_refused(typed):
    assert said(RECORDS["1.5"], typed).state == State.UNREADABLE


def test_broken_characters_of_a_text_become_question_marks():
    judged = said(RECORDS["1.5"], "a \ud800 b")
    assert judged.entry == {"value": "a ? b"}


def test_a_prediction_is_not_answered_in_a_cell():
    assert "make it on the card of its panel" in said(RECORDS["p1"], "a").text


@pytest.mark.parametrize("typed", [(1, 66), (1, 66, "mm2"), (1, 6, 6)])
def test_a_decimal_comma_typed_without_quotes(desk, typed):
    verdict = lessons_lib.open_sheet("01").answer("1.1", *typed)
    assert verdict.state == State.UNREADABLE and "a decimal point, not a comma" in verdict.text


@pytest.mark.parametrize("exercise_id",
                         ["9.9", "", "p1 ", 1.1, None, ["1.1"], b"1.1", "x" * 5000, "\ud800", ..., "<b>"])
def test_unknown_exercises(desk, exercise_id):
    sheet = lessons_lib.open_sheet("01")
    for verdict in (sheet.answer(exercise_id, 3), sheet.unclear(exercise_id, "x"), sheet.predict(exercise_id, "a", 1),
                    sheet.saw(exercise_id, "a"),
                    sheet.worked_answer(exercise_id)):
        assert verdict.state == State.UNREADABLE and len(repr(verdict)) < 200
        verdict._repr_html_().encode()
    assert sheet.prediction(exercise_id) is None and dict(sheet.given(exercise_id)) == {}
    sheet.given(exercise_id)._repr_html_().encode()


ANYTHING = st.one_of(
    st.none(), st.booleans(), st.integers(), st.floats(), st.complex_numbers(), st.text(), st.binary(), st.decimals(),
    st.fractions(), st.lists(st.integers(), max_size=3), st.just(...),
    st.text(st.characters(categories=["Cs", "Cc", "Nd", "Po"]), max_size=30))


@settings(max_examples=200, deadline=None, derandomize=True,
          suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(exercise_id=st.sampled_from(sorted(RECORDS)) | ANYTHING, value=ANYTHING, unit=ANYTHING)
def test_nothing_raises_and_everything_can_be_shown(desk, exercise_id, value, unit):
    sheet = lessons_lib.open_sheet("01")
    for seen in (sheet.answer(exercise_id, value, unit), sheet.answer(exercise_id), sheet.given(exercise_id),
                 sheet.predict(exercise_id, value, unit, value), sheet.saw(exercise_id, value),
                 sheet.unclear(exercise_id, value),
                 sheet.worked_answer(exercise_id)):
        assert repr(seen).encode() and seen._repr_html_().encode()
    (desk / "my_work" / "log-b000.jsonl").unlink(missing_ok=True)


def test_figures_and_words():
    assert figures(0.0) == 1 and figures(1.66e-7) == 3 and figures(1 / 3) == 16
    assert words("It's 5 mm: a gauss-probe, isn't it?") == 7 and words(" … !") == 0


def test_a_unit_whose_change_is_the_exercise_is_refused():
    record = {"kind": "number", "unit": "kA/m", "not_in": ["Oe"], "salt": "", "sealed": {}, "size": [10, 250],
              "tolerance": 0.01, "absolute": False, "phase": 0.5, "notes": ["", "", ""], "slip_notes": []}
    assert said(read_record("1.5", record), 690, "Oe").state == State.UNREADABLE
    assert said(read_record("1.5", record), 54910, "A/m").state == State.NOT_YET


@pytest.mark.parametrize("typed", ["(b)", "b)", " B ", "b."])
def test_a_letter_may_come_in_brackets(typed):
    assert read_letter(typed, {"a": "", "b": ""}) == "b"
