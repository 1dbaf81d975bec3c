"""Exercises of lesson 08 on the invented files: their examples, worked answers, notes and teaching notes."""
import math

import numpy as np
import pytest

from lesson_08_fits import (
    ALNICO,
    CAPACITORS,
    COIL,
    EXCITER,
    GAUSS,
    LINE,
    RESPONSE,
    UNIFORM,
    half_of_interval,
    rod_fitted,
)
from lessons_lib.exercises.kinds import read_record
from lessons_lib.exercises.self_study import load_lesson
from lessons_lib.lessons.lesson_08.model import COIL_RESISTANCE
from lessons_lib.physics.design import design_report
from notebooks import NOTEBOOKS, assert_printed, prose

PROSE = prose("08")
ANSWERS = load_lesson(NOTEBOOKS.parent / "answers" / "lesson_08.py")


@pytest.fixture(autouse=True)
def beside_the_page(monkeypatch):
    monkeypatch.chdir(NOTEBOOKS)


def test_the_first_and_the_last_reading_are_enough_for_8_2_and_the_first_two_are_not():
    square = (2 * np.pi * CAPACITORS["resonance"]) ** -2
    from_pair = (square[1:] - square[0]) / (CAPACITORS["added capacitance"][1:] - CAPACITORS["added capacitance"][0])
    result = ANSWERS["8.2"].example_result()
    assert result.is_right(from_pair[-1]) and not result.is_right(from_pair[0])
    assert "up to 3 % off is right" in PROSE and ANSWERS["8.2"].tolerance == 0.03


def test_nineteen_intervals_of_twenty_hold_the_value():
    """Exercise 8.9, on invented readings: a mean of five with known noise, its interval two sigma to each side."""
    chance = np.random.default_rng(8)
    means = 3.2 + chance.normal(0, 0.05, (4000, 5)).mean(axis=1)
    assert np.mean(np.abs(means - 3.2) < 1.96 * 0.05 / math.sqrt(5)) == pytest.approx(0.95, abs=0.015)
    assert ANSWERS["8.9"].options[ANSWERS["8.9"].right].startswith("Of twenty intervals made in this way, about nine")


def test_the_example_of_a_design_meets_few_limits_and_is_no_answer():
    assert '"ferrite", "wire": 42, "turns": 9000' in PROSE
    assert design_report(magnet="ferrite", wire=42, turns=9000, tops=[0.0] * 6).fill > 1


def test_numbers_of_the_worked_report():
    worked = ANSWERS["8.8"].worked
    for value, words in ((RESPONSE["inductance"], "has 2.84 H"), (RESPONSE["capacitance"] * 1e12, "and 142 pF"),
                         (half_of_interval(RESPONSE, "inductance"), "give or take 0.03 H"),
                         (COIL["inductance"], "lead to 2.88 H"),
                         (half_of_interval(COIL, "inductance"), "give or take 0.08 H"),
                         (RESPONSE.reduced_chi_square, "is 1.1 times"), (RESPONSE["load_resistance"] / 1e3, "794 kΩ"),
                         (len(EXCITER), "48 voltages"), (COIL_RESISTANCE, "with 7350 Ω")):
        assert_printed(value, words, worked)
    line = np.polyfit(CAPACITORS["added capacitance"], (2 * np.pi * CAPACITORS["resonance"]) ** -2, 1)
    assert_printed(line[0], "says 2.92 H", ANSWERS["8.2"].worked)
    assert ANSWERS["8.2"].example_result().is_right(line[0])


def test_examples_of_the_answers_are_the_invented_files():
    for exercise_id, readings, names in (("8.2", CAPACITORS, ("added capacitance", "resonance")),
                                         ("8.6", GAUSS, ("distance", "flux density"))):
        written = np.stack([readings.as_written(name) for name in names], axis=1)
        assert ANSWERS[exercise_id].example["table"] == pytest.approx(written)


def record_of(exercise):
    return read_record(exercise.id, exercise.sheet_record(None, "salt"))


@pytest.mark.parametrize("number", [4.35, 3.513, 3.304])   # mean of each, line through the origin, last reading alone
def test_every_way_without_own_capacitance_gets_its_note(number):
    exercise = ANSWERS["8.2"]
    notes = record_of(exercise).slips_met(exercise.example_result(), number)
    assert {name for name, _ in notes} == {"self-capacitance left out"}


def test_a_size_that_is_not_asked_is_one_sentence():
    with pytest.raises(ValueError, match='"foo" is not asked for$'):
        record_of(ANSWERS["8.2"]).read({**ANSWERS["8.2"].example, "foo": 3})


def test_the_wrong_model_gives_no_right_answer():
    exercise = ANSWERS["8.6"]
    result, record = exercise.example_result(), record_of(exercise)
    assert result.right == pytest.approx(1e6 * ALNICO["flux"]) and result.is_right(1e6 * ALNICO["flux"])
    assert result.tolerance == pytest.approx(1e6 * half_of_interval(ALNICO, "flux"))
    for fit, slip, more in ((UNIFORM, "uniform rod", 9), (LINE, "recoil line", 5)):
        assert not result.is_right(1e6 * fit["flux"])
        assert slip in [name for name, _ in record.slips_met(result, round(1e6 * fit["flux"], 2))]
        assert round(100 * (fit["flux"] / ALNICO["flux"] - 1)) == more
    assert "would say 9 and 5 % more" in exercise.worked and "are 4.1, 3.0 and 1.4 times" in exercise.teaching_note
    assert math.sqrt(ALNICO.reduced_chi_square) == pytest.approx(1.4, abs=0.05)
    ferrite = record.read({**exercise.example, "grade": "ferrite"})
    with pytest.raises(ValueError, match="4.1 times as large as stated. Is the rod of this kind"):
        record.result(ferrite)


def test_each_unit_of_strength_in_the_teaching_notes():
    assert "a strength of 0.95 says of the alloy" in " ".join(ANSWERS["8.6"].teaching_note.split())
    assert ALNICO["strength"] == pytest.approx(0.95, abs=0.005)
    note = ANSWERS.teaching_note
    assert "1.6 times as strong as its data sheet" in " ".join(note.split())
    assert rod_fitted(grade="alnico 2")["strength"] / ALNICO["strength"] == pytest.approx(1.6, abs=0.05)
    assert math.sqrt(rod_fitted(grade="alnico 8").reduced_chi_square) == pytest.approx(3, abs=0.5)
