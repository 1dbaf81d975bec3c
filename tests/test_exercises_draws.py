"""Given values: the same bytes for the same bench, spread over their range, refused where a question were unfair."""
import json
import math
from dataclasses import replace

import pytest

from exercises_lesson import LESSON, beds, drawn, gate, guess, level, pond
from lessons_lib.exercises.declaration import Given, Lesson, NumberExercise, Slip, Step, Twin
from lessons_lib.exercises.draws import draw, draw_once, keyed
from lessons_lib.exercises.making import make_sheet, make_worked_answers
from lessons_lib.exercises.review import review
from lessons_lib.exercises.sheet_file import sheet_bytes


def refusal(exercise):
    return exercise.why_refused(draw_once(exercise, secret="s", bench="b000", number=0))


def test_bits_are_those_of_the_published_hash():
    # RFC 4231 (2005), test case 2: HMAC-SHA-256 of this text under the key "Jefe"
    assert keyed("Jefe", "what do ya want for nothing?").hex() == (
        "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843")


def test_joined_fields_cannot_run_into_each_other():
    assert keyed("s", "b01", "1.1") != keyed("s", "b0", "11.1")


def test_same_bench_same_bytes_and_another_bench_other_values():
    first, again = (sheet_bytes(make_sheet(LESSON, secret="test", bench="b000")) for _ in range(2))
    assert first == again
    assert drawn("1.1").shown != drawn("1.1", "b001").shown
    assert draw(pond, secret="test", bench="b000").shown != draw(pond, secret="tess", bench="b000").shown


def test_a_further_given_value_moves_no_other():
    wider = replace(pond, given={**pond.given, "depth": Given("depth", unit="mm", low=1, high=9, step=1)},
                    twin=Twin({"diameter": 8.0, "share": 25, "depth": 3}, "{answer}"))
    ours, theirs = (draw_once(one, secret="s", bench="b001", number=0).shown for one in (pond, wider))
    assert ours == {name: theirs[name] for name in ours}


def test_values_are_rounded_as_printed_and_fill_their_range():
    diameters = [draw_once(pond, secret="s", bench=f"b{n:03d}", number=0).shown["diameter"] for n in range(600)]
    assert set(diameters) == {round(4.5 + 0.05 * k, 2) for k in range(15)}
    # 600 draws over 15 values: 40 each with a standard deviation of 6.1; five of them on either side
    assert all(9 < diameters.count(value) < 71 for value in set(diameters))


def test_formulas_see_si_and_answers_come_in_the_asked_unit():
    value = drawn("1.1")
    d, share = value.shown["diameter"], value.shown["share"]
    assert value.si["diameter"] == pytest.approx(d * 1e-3) and value.si["share"] == pytest.approx(share / 100)
    assert value.answer == pytest.approx(share / 100 * math.pi * d ** 2 / 4)


def test_a_table_is_computed_from_hidden_values_and_rounded():
    value = drawn("1.2")
    assert value.shown["speed"][1] == round(value.hidden["first"] * math.exp(-0.25), 2)
    assert value.answer == pytest.approx(sum(value.shown["speed"]) / 5)
    assert not {"first"} & {one["name"] for one in make_sheet(
        LESSON, secret="test", bench="b000")["exercises"]["1.2"]["given"]}


def shifted(factor, **more):
    """The pond with one slip that is *factor* times the right answer."""
    return replace(pond, common=(), slips=(Slip("near", lambda diameter, share: factor * pond.answer(diameter, share),
                                                "Near?"),), **more)


@pytest.mark.parametrize("exercise, reason", [
    (shifted(1.039), "near gives"),                      # 1.96 tolerances away
    (shifted(math.inf), "near gives inf"),
    (replace(pond, size=(4, 4.1)), "outside of 4 to 4.1"),
    (replace(pond, answer=lambda share: 0 * share), "the answer is 0"),
    (replace(pond, answer=lambda share: share * math.nan), "the answer is nan"),
])
def test_unfair_draws_are_refused_with_the_reason(exercise, reason):
    assert reason in refusal(exercise)
    with pytest.raises(ValueError, match="exercise 1.1: none of 200 draws for b000 is accepted; .*"):
        draw(exercise, secret="s", bench="b000")


def test_a_slip_just_over_twice_the_tolerance_is_kept():
    assert refusal(shifted(1.042)) == ""


def test_a_twin_with_the_right_answer_is_refused():
    value = drawn("1.1")
    exercise = replace(pond, twin=Twin(dict(value.shown), "{answer}"))
    assert "worked twin" in exercise.why_refused(replace(value, exercise=exercise))


@pytest.mark.parametrize("exercise", LESSON.exercises, ids=lambda exercise: exercise.id)
def test_the_made_up_lesson_has_no_faults(exercise):
    assert list(review(exercise, draws=100)) == []


@pytest.mark.parametrize("exercise, fault", [
    (replace(pond, size=(5.0, 5.1)), "draws are accepted; for one, the answer"),
    (replace(beds, fuller=lambda first: 2 * first), "the fuller model gives"),
    # two decimals are too few for a tolerance of a thousandth of a percent
    (replace(beds, tolerance=1e-5), "the fuller model gives"),
])
def test_review_finds_faults(exercise, fault):
    assert any(fault in found for found in review(exercise, draws=30))


def test_review_finds_values_that_the_print_does_not_hold(monkeypatch):
    monkeypatch.setattr("lessons_lib.exercises.draws.value_text", lambda value, declared: f"{value:.0f}")
    assert any("the printed values lead to" in found for found in review(pond, draws=30))


def test_worked_texts_are_filled_with_the_benchs_own_numbers():
    worked = make_worked_answers(LESSON, secret="test", bench="b000")
    value = drawn("1.1")
    assert f"{value.answer:.4g} mm²" in worked["1.1"] and f"{value.shown['share']:.0f} %" in worked["1.1"]
    assert set(worked) == {"1.1", "1.2", "1.3", "1.4", "1.5"}


def test_the_twin_is_computed():
    sheet = make_sheet(LESSON, secret="test", bench="b000")["exercises"]
    # a pond of 8 mm: 16 pi = 50.27 mm2, a quarter of it 12.57; mean of 9, 6, 3; 20 log10(0.1)
    assert sheet["1.1"]["notes"][2] == "With 8.00 mm and 25 %: the whole is 50.27 mm², the covered part 12.57 mm²."
    assert sheet["1.2"]["notes"][2] == "9.00, 6.00, 3.00 m/s: together 6 m/s."
    assert sheet["1.3"]["notes"][2] == "0.10 makes −20 dB."


def test_a_sheet_is_plain_json():
    assert json.loads(sheet_bytes(make_sheet(LESSON, secret="test", bench="b000")))["bench"] == "b000"


@pytest.mark.parametrize("change, words", [
    (lambda: replace(pond, unit="acre"), "unit must be one of the spellings of the table in units.py; got 'acre'."),
    (lambda: replace(pond, tolerance=0), "tolerance must be a finite number above zero; got 0."),
    (lambda: replace(pond, size=(3, 1)), "size must be (low, high) with low below high; got (3, 1)."),
    (lambda: replace(pond, answer=lambda radius: radius),
     "an argument in a formula of exercise 1.1 must be one of diameter, share; got 'radius'."),
    (lambda: replace(beds, answer=lambda first: first),
     "an argument in a formula of exercise 1.2 must be one of place, speed, step; got 'first'."),
    (lambda: replace(pond, worked="It is {answr}."),
     "a field in a text of exercise 1.1 must be one of answer, diameter, share, whole; got 'answr'."),
    (lambda: replace(pond, twin=Twin({"diameter": 8.0}, "")),
     "the twin's given values of exercise 1.1 must be diameter, share; got ['diameter']."),
    (lambda: replace(level, common=("gaus",)), "common must be one of 'sign', "),
    (lambda: replace(level, notes=("one",)), "notes must be two texts: where to look, which principle; got ('one',)."),
    (lambda: replace(gate, right="d"), "right must be one of 'a', 'b', 'c'; got 'd'."),
    (lambda: replace(gate, notes={"a": ""}), "notes must be one text for each of the options a, b, c; got ['a']."),
    (lambda: replace(gate, worked=""), "worked must be a text, unless the question is quick; got ''."),
    (lambda: replace(gate, options={"A": "", "c": ""}), "an option's letter must be one small letter; got 'A'."),
    (lambda: replace(guess, seen="e"), "seen must be one of 'a', 'b'; got 'e'."),
    (lambda: Given("x", unit="mm", low=1, high=math.inf, step=1),
     "high must be a finite number, low or above; got inf."),
    (lambda: Given("x", unit="mm", low=1, high=2, step=0), "step must be a finite number above zero; got 0."),
    (lambda: Step("acre", lambda: 0), "unit must be one of the spellings"),
    (lambda: Lesson(id="1", title="", version=1, exercises=()), "id must be two figures, such as \"01\"; got '1'."),
    (lambda: Lesson(id="01", title="", version=1, exercises=(pond, pond)),
     "exercises must be of different ids; got '1.1'."),
])
def test_a_wrong_declaration_is_refused_in_one_sentence(change, words):
    with pytest.raises(ValueError) as caught:
        change()
    assert words in str(caught.value)


def test_a_fixed_value_and_a_coarse_step():
    assert Given("x", unit="mm", low=60, high=60, step=1).choices == 1
    assert Given("x", unit="G", low=600, high=1200, step=50.0).decimals == 0
    assert Given("x", unit="mm", low=0.1, high=0.7, step=0.1).choices == 7


def test_number_exercise_counts_as_declared():
    assert isinstance(LESSON["1.1"], NumberExercise) and LESSON["1.5"].marks == 3
