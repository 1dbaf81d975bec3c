"""Lesson 08: every number of its prose computed again, its predictions checked against the panels, its answers."""
import math
import re

import numpy as np
import pytest
from scipy.optimize import brentq, minimize_scalar
from scipy.stats import norm
from scipy.stats import t as student_t

from lessons_lib.base.materials import magnet_grade
from lessons_lib.base.workshop import house_magnet
from lessons_lib.exercises.kinds import read_record
from lessons_lib.exercises.self_study import load_lesson
from lessons_lib.lessons.lesson_08.model import (
    COIL_RESISTANCE,
    NOISE,
    SPOT,
    coil_guess,
    exciter_runs,
    field_over,
    shared_error,
)
from lessons_lib.lessons.lesson_08.panels import guess_then_data
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.design import design_report
from lessons_lib.physics.fits import fit_added_capacitance, fit_exciter_response, fit_gauss_readings
from lessons_lib.workbench.bench import from_bench
from lessons_lib.workbench.invented import TRUTH
from notebooks import NOTEBOOKS, assert_printed, prose

PROSE = prose("08")
DATA = NOTEBOOKS / "data"
GUIDE = (DATA / "WORKBENCH.md").read_text(encoding="utf-8")
ANSWERS = load_lesson(NOTEBOOKS.parent / "answers" / "lesson_08.py")
ROD = {name: house_magnet[name] for name in ("diameter", "length")}


def read(name):
    return from_bench(name, DATA)


@pytest.fixture(autouse=True)
def beside_the_page(monkeypatch):
    monkeypatch.chdir(NOTEBOOKS)


CAPACITORS, EXCITER, GAUSS, METER = map(read, (
    "resonance_with_capacitors.csv", "exciter_response.csv", "gauss_against_distance.csv", "meter_readings.csv"))
COIL = fit_added_capacitance(CAPACITORS["added capacitance"], CAPACITORS["resonance"])
RESPONSE = fit_exciter_response(EXCITER["frequency"], EXCITER["voltage"], resistance=COIL_RESISTANCE,
                                added_capacitance=EXCITER["added capacitance"], uncertainty=0.02 * EXCITER["voltage"])


def rod_fitted(**model):
    return fit_gauss_readings(GAUSS["distance"], GAUSS["flux density"], **ROD, **model,
                              uncertainty=NOISE * GAUSS["flux density"])


UNIFORM, LINE, ALNICO = rod_fitted(), rod_fitted(recoil_permeability=3.6), rod_fitted(grade="alnico 5")
IMITATION = rod_fitted(recoil_permeability=10.5)
WRONG, FAR = (shared_error(zero=1e-3, reach=reach) for reach in (10e-3, 20e-3))
FLUSH = {"wire": 44, "turns": 7600, "tops": [0.0] * 6}
ALNICO_5, FERRITE = (design_report(magnet=magnet, **FLUSH) for magnet in ("alnico 5", "ferrite"))


def half_of_interval(fit, name):
    low, high = fit.interval(name)
    return (high - low) / 2


def meter_apart():
    """Each reading of the meter over that of the fitted coil, less one, in per cent."""
    coil = LoadedCoil(resistance=COIL_RESISTANCE, inductance=COIL["inductance"], capacitance=COIL["capacitance"])
    across = 1 / (1 / coil.impedance(METER["frequency"]) + 1 / RESPONSE["load_resistance"])
    should = across.imag / (2 * math.pi * METER["frequency"])
    return 100 * (METER["inductance"] / should - 1)


def corrected_peak():
    """The peak of the bare coil's response, times 1 + 1/(4Q^2), over its resonance."""
    coil = LoadedCoil(resistance=COIL_RESISTANCE, inductance=RESPONSE["inductance"],
                      capacitance=RESPONSE["capacitance"], input_resistance=RESPONSE["load_resistance"])
    resonance = 1 / (2 * math.pi * math.sqrt(RESPONSE["inductance"] * RESPONSE["capacitance"]))
    frequency = np.linspace(0.9, 1.05, 30_001) * resonance
    peak = frequency[np.abs(coil.response(frequency)).argmax()]
    return peak / resonance * (1 + 1 / (4 * coil.q_factor ** 2))


NUMBERS = [
    (100 * COIL.scatter, "The scatter is 0.8 %"),
    (100 * TRUTH.capacitor_noise, "The scatter is 0.8 %"),
    (-meter_apart()[0], "the meter reads 1.6 % and"),
    (-meter_apart()[1], "and 1.5 % less, and"),
    (-meter_apart()[2], "both are negative and 1.1 % apart"),
    (100 * half_of_interval(COIL, "inductance") / COIL["inductance"], "the fit's own interval of ±2.7 %"),
    (half_of_interval(COIL, "inductance") / COIL.uncertainty("inductance"), "few: 2.6 with these seven"),
    (student_t.ppf(0.975, 7 - 2), "few: 2.6 with these seven"),
    (20 * math.log10(2), "twice the voltage, 6 dB for"),
    (RESPONSE["inductance"], "Here the coil has 2.84 H ±"),
    (half_of_interval(RESPONSE, "inductance"), "H ± 0.03 H ("),
    ((COIL["inductance"] - RESPONSE["inductance"]) / math.hypot(
        COIL.uncertainty("inductance"), RESPONSE.uncertainty("inductance")), "fits are 1.3 sigma apart: they agree"),
    (RESPONSE["capacitance"] * 1e12, ", and 142 pF"),
    (RESPONSE["load_resistance"] / 1e3, "And the 794 kΩ?"),
    (100 * WRONG.off, "the flux is 23 % too high"),
    (100 * WRONG.residual, "the largest residual is 3.5 %"),
    (1e3 * field_over([20e-3], SPOT)[0], "the field is 1.7 mT, the"),
    (100 * FAR.residual, "leaves residuals of 15 %"),
    (100 * FAR.off, "the flux is 52 % too high"),
    (100 * TRUTH.gauss_noise, "noise of 1.5 %. These"),
    (math.sqrt(UNIFORM.reduced_chi_square), "These residuals are 4.1 times"),
    (1e3 * UNIFORM["stand_off"], "would be 2.2 mm deep"),
    (magnet_grade("alnico 5").recoil_permeability, "recoil permeability 3.6. Put"),
    (math.sqrt(LINE.reduced_chi_square), "the residuals are still 3.0 times"),
    (100 * (1 - IMITATION["flux"] / ALNICO["flux"]), "has 3 % less flux inside"),
    (100 / (4 * 5 ** 2), ", 1 % at a Q of"),
    (100 * (corrected_peak() - 1), "still 0.4 % too high"),
    *zip(np.subtract(ALNICO_5.levels, ALNICO_5.levels[0])[[3, 4, 5, 1, 2]],
         ("loudest, 8.0 dB above VI", "II has 6.0, I", "I 2.7, V", "V 1.3 and", "IV 1.0 dB")),
    (ALNICO_5.inductance, "falls from 2.16 to"),
    (FERRITE.inductance, "to 1.64 H and the resonance"),
    (ALNICO_5.resonance / 1e3, "rises from 4.39 to"),
    (ALNICO_5.resonance / 1e3, "controls: 4.39 kHz for the house coil"),
    (FERRITE.resonance / 1e3, "to 5.04 kHz, by"),
    (100 * (FERRITE.resonance / ALNICO_5.resonance - 1), "kHz, by 15 %"),
    (house_magnet["recoil_permeability"], "pass 3.6 times"),
]


@pytest.mark.parametrize("value, words", NUMBERS, ids=[words for _, words in NUMBERS])
def test_numbers_of_the_prose(value, words):
    assert_printed(value, words, PROSE)


def test_half_of_the_field_is_gone_where_page_and_guide_say():
    reading = np.interp(2e-3, GAUSS["distance"], GAUSS["flux density"])
    assert reading / GAUSS["flux density"][0] == pytest.approx(0.5, abs=0.02) and "half is gone in some 2 mm" in PROSE
    assert "half the field is lost in 2 mm" in GUIDE
    assert field_over([2e-3], SPOT)[0] / field_over([0.0], SPOT)[0] == pytest.approx(0.5, abs=0.02)


def test_both_ways_to_the_coil_agree_as_the_page_says():
    low, high = COIL.interval("inductance")
    assert low < RESPONSE["inductance"] < high and half_of_interval(COIL, "inductance") > 2 * half_of_interval(
        RESPONSE, "inductance")


def test_an_error_of_all_capacitors_shows_in_no_residual():
    high = fit_added_capacitance(CAPACITORS["added capacitance"] / 1.02, CAPACITORS["resonance"])
    assert high["inductance"] / COIL["inductance"] == pytest.approx(1.02, rel=1e-4)
    assert high.standardised == pytest.approx(COIL.standardised, abs=1e-3)
    assert "hide for good" in PROSE and "capacitors that are all 2 % off always, a wrong zero until you" in PROSE
    assert FAR.residual > 0.1 > 0.05 > WRONG.residual


def test_why_the_squares_of_independent_errors_add():
    """Mixed term of (a - b)^2 is zero in the mean, of normal and of other errors: their variances add."""
    chance = np.random.default_rng(8)
    for second in (chance.normal(0, 0.12, 200_000), 0.12 * chance.choice([-1, 1], 200_000)):
        apart = chance.normal(0, 0.05, 200_000) - second
        assert math.sqrt(np.mean(apart ** 2)) == pytest.approx(0.13, abs=0.001)
    assert "in the mean the middle term is zero, and the squares add" in PROSE


def test_the_first_and_the_last_reading_are_enough_for_8_2_and_the_first_two_are_not():
    square = (2 * np.pi * CAPACITORS["resonance"]) ** -2
    from_pair = (square[1:] - square[0]) / (CAPACITORS["added capacitance"][1:] - CAPACITORS["added capacitance"][0])
    result = ANSWERS["8.2"].example_result()
    assert result.is_right(from_pair[-1]) and not result.is_right(from_pair[0])
    assert "up to 3 % off is right" in PROSE and ANSWERS["8.2"].tolerance == 0.03


def test_the_ground_for_one_sigma_of_a_resonance():
    """1 % of the capacitor is up to half a per cent of the resonance; with half a per cent of the peak, near 0.8 %."""
    assert 1 - math.sqrt(1000 + 140) / math.sqrt(1000 * 1.01 + 140) == pytest.approx(0.005, abs=0.001)
    assert math.hypot(0.5, 0.5) == pytest.approx(100 * TRUTH.capacitor_noise, abs=0.15)
    assert "moves the resonance by up to ½ %" in PROSE


def test_what_is_left_of_a_corrected_peak_is_half_of_the_ratio_of_two_resistances():
    assert corrected_peak() - 1 == pytest.approx(COIL_RESISTANCE / RESPONSE["load_resistance"] / 2, rel=0.1)
    assert f"{COIL_RESISTANCE / 1e3:.2f} kΩ and the 0.8 MΩ" in PROSE and "by nearly half of their ratio" in PROSE


def test_the_uniform_magnet_and_the_recoil_line_are_turned_down_and_the_curve_is_not():
    left = dict(zip((1e3 * GAUSS["distance"]).round(1), UNIFORM.standardised))
    assert left[0.0] < -2 and left[10.0] < -2 and all(left[one] > 2 for one in (1.5, 2.0, 2.5, 3.0))
    assert "times as large as stated" in LINE.remark
    assert "look like noise" in ALNICO.remark and 0.5e-3 < ALNICO["stand_off"] < 1e-3


def left_over(recoil_permeability, chosen):
    distance, flux_density = GAUSS["distance"][chosen], GAUSS["flux density"][chosen]
    fit = fit_gauss_readings(distance, flux_density, **ROD, recoil_permeability=recoil_permeability,
                             uncertainty=NOISE * flux_density)
    return fit.reduced_chi_square * fit.degrees_of_freedom


def test_what_the_readings_tell_of_the_recoil_permeability():
    every, far = GAUSS["distance"] >= 0, GAUSS["distance"] > 1.9e-3
    best = minimize_scalar(left_over, bounds=(5, 25), args=(every,), method="bounded", options={"xatol": 0.01})
    below, above = (brentq(lambda mu: left_over(mu, every) - best.fun - 1, *ends)
                    for ends in ((3.6, best.x), (best.x, 25.0)))
    assert_printed(best.x, "well, it chooses 10.5 ±", PROSE)
    assert_printed((above - below) / 2, "± 1.2 (one sigma), and the residuals look", PROSE)
    assert "the other eight cannot tell 7 from 1" in PROSE and far.sum() == 8
    assert abs(left_over(7.0, far) - left_over(1.0, far)) < 3.84     # 95 % of one unknown
    assert "a slope of 10 to 12, give or take 1.2" in GUIDE
    assert left_over(best.x, every) == pytest.approx(ALNICO.reduced_chi_square * 10, abs=0.5)   # "as well as the curve"


def test_where_the_raw_voltage_is_largest_as_the_guide_says():
    assert "(8 kΩ with 400 kΩ across: 1 %)" in GUIDE
    for load in (4e5, 1e6):
        coil = LoadedCoil(resistance=8e3, inductance=2.8, capacitance=140e-12, input_resistance=load)
        resonance = 1 / (2 * math.pi * math.sqrt(2.8 * 140e-12))
        frequency = np.linspace(0.9, 1.1, 40_001) * resonance
        raw = frequency[(frequency * np.abs(coil.response(frequency))).argmax()]
        assert raw / resonance - 1 == pytest.approx(8e3 / load / 2, rel=0.02)     # half of their ratio


def test_the_worked_example_of_two_resonances():
    bare, loaded = ((2 * math.pi * one) ** -2 * 1e10 for one in (6e3, 3e3))
    for value, words in ((bare, "is $7.04\\cdot"), (loaded, "and $28.14\\cdot"),
                         (loaded - bare, "difference, $21.11\\cdot"), ((loaded - bare) / 6, "= 3.52$ H"),
                         (bare / ((loaded - bare) / 6) * 100, "F = 200 pF")):
        assert_printed(value, words, PROSE)


def test_the_example_whose_last_step_is_open():
    bare, loaded = ((2 * math.pi * one) ** -2 * 1e10 for one in (10e3, 4e3))
    for value, words in ((bare, "$2.53\\cdot"), (loaded, "and $15.83\\cdot"),
                         (loaded - bare, "difference is $13.30\\cdot"), ((loaded - bare) / 12, "should find 1.11 H")):
        assert_printed(value, words, PROSE)


def test_how_far_apart_two_results_are():
    """Worked examples of 8.10, by Pythagoras' triples; what chance does, by the normal distribution."""
    for value, words in ((math.hypot(0.05, 0.12), "= 0.13 H"), (5.26 - 5.00, "itself is 0.26 H"),
                         ((5.26 - 5.00) / 0.13, "That is 2.0 sigma"), (math.hypot(5, 12), "pF = 13 pF"),
                         ((239 - 200) / 13, "find 3.0 sigma")):
        assert_printed(value, words, PROSE)
    assert 2 * norm.sf(2) == pytest.approx(1 / 20, rel=0.1) and 2 * norm.sf(1) == pytest.approx(1 / 3, rel=0.06)
    # the third question to vote on, 0.10 H apart with 0.07 H each, and its twin, 30 pF apart with 5 pF each
    assert 2 * norm.sf(0.10 / math.hypot(0.07, 0.07)) == pytest.approx(1 / 3, rel=0.1)
    assert 2 * norm.sf(30 / math.hypot(5, 5)) < 1e-4


def test_nineteen_intervals_of_twenty_hold_the_value():
    """Exercise 8.9, on invented readings: a mean of five with known noise, its interval two sigma to each side."""
    chance = np.random.default_rng(8)
    means = 3.2 + chance.normal(0, 0.05, (4000, 5)).mean(axis=1)
    assert np.mean(np.abs(means - 3.2) < 1.96 * 0.05 / math.sqrt(5)) == pytest.approx(0.95, abs=0.015)
    assert ANSWERS["8.9"].options[ANSWERS["8.9"].right].startswith("Of twenty intervals made in this way, about nine")


def test_the_evenings_are_as_long_as_the_page_says_and_few_marks_are_by_hand():
    assert [evening.minutes for evening in ANSWERS.evenings] == [71, 70]
    assert "of about 70 minutes each" in PROSE
    core = [one for one in ANSWERS.exercises if not one.further and not one.quick and one.kind != "prediction"]
    assert sum(one.marks for one in core if one.is_by_hand) <= sum(one.marks for one in core) / 4


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


def test_what_the_predictions_say_is_what_the_models_show():
    before, after = (coil_guess(inductance=one, own=own, load=5e5) for one, own in ((2.0, 200e-12), (4.0, 100e-12)))
    assert before.resonances[0] == pytest.approx(after.resonances[0]) and ANSWERS["p1"].seen == "b"
    assert after.resonances[1] < 0.8 * before.resonances[1]
    assert ANSWERS["p2"].seen == "d" and WRONG.off > 0.1 and WRONG.residual < 0.05
    # 140 mT touching the rod, 8 mT at 10 mm, as its question says, to one or two digits
    assert (1e3 * WRONG.readings[[0, -1]]).round() == pytest.approx([136, 8])
    assert ANSWERS["p3"].seen == "c" and FERRITE.resonance > 1.02 * ALNICO_5.resonance


def test_the_exciter_tells_what_was_put_in():
    found = exciter_runs(EXCITER).found.bare
    assert found.inductance == pytest.approx(TRUTH.inductance, rel=0.02)
    assert found.capacitance == pytest.approx(TRUTH.capacitance, rel=0.03)
    assert guess_then_data().still(inductance=TRUTH.inductance) is None


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


def test_the_page_and_the_guide_carry_the_cautions():
    for text in (PROSE, GUIDE):
        assert all(word in text for word in ("pacemaker", "15 cm", "30 cm", "headphones", "earth", "whip", "brass",
                                             "safety glasses"))
        assert re.search(r"Local rules", text)
    assert "[data/WORKBENCH.md](data/WORKBENCH.md)" in PROSE
