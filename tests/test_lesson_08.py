"""Lesson 08: every number of its prose computed again, and its predictions checked against the panels."""
import math
import re

import numpy as np
import pytest
from scipy.stats import norm
from scipy.stats import t as student_t

from lesson_08_fits import (
    ALNICO,
    COIL,
    EXCITER,
    FAR,
    GUIDE,
    LINE,
    METER,
    RESPONSE,
    UNIFORM,
    WRONG,
    corrected_peak,
    half_of_interval,
    rod_fitted,
)
from lessons_lib.base.materials import magnet_grade
from lessons_lib.base.workshop import house_magnet
from lessons_lib.exercises.self_study import load_lesson
from lessons_lib.lessons.lesson_08.model import COIL_RESISTANCE, SPOT, coil_guess, exciter_runs, field_over
from lessons_lib.lessons.lesson_08.panels import guess_then_data
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.design import design_report
from lessons_lib.workbench.invented import TRUTH
from notebooks import NOTEBOOKS, assert_printed, prose

PROSE = prose("08")
ANSWERS = load_lesson(NOTEBOOKS.parent / "answers" / "lesson_08.py")


@pytest.fixture(autouse=True)
def beside_the_page(monkeypatch):
    monkeypatch.chdir(NOTEBOOKS)


IMITATION = rod_fitted(recoil_permeability=10.5)
FLUSH = {"wire": 44, "turns": 7600, "tops": [0.0] * 6}
ALNICO_5, FERRITE = (design_report(magnet=magnet, **FLUSH) for magnet in ("alnico 5", "ferrite"))


def meter_apart():
    """Each reading of the meter over that of the fitted coil, less one, in per cent."""
    coil = LoadedCoil(resistance=COIL_RESISTANCE, inductance=COIL["inductance"], capacitance=COIL["capacitance"])
    across = 1 / (1 / coil.impedance(METER["frequency"]) + 1 / RESPONSE["load_resistance"])
    should = across.imag / (2 * math.pi * METER["frequency"])
    return 100 * (METER["inductance"] / should - 1)


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


def test_both_ways_to_the_coil_agree_as_the_page_says():
    low, high = COIL.interval("inductance")
    assert low < RESPONSE["inductance"] < high and half_of_interval(COIL, "inductance") > 2 * half_of_interval(
        RESPONSE, "inductance")


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


def test_the_evenings_are_as_long_as_the_page_says_and_few_marks_are_by_hand():
    assert [evening.minutes for evening in ANSWERS.evenings] == [71, 70]
    assert "of about 70 minutes each" in PROSE
    core = [one for one in ANSWERS.exercises if not one.further and not one.quick and one.kind != "prediction"]
    assert sum(one.marks for one in core if one.is_by_hand) <= sum(one.marks for one in core) / 4


def test_what_the_predictions_say_is_what_the_models_show():
    before, after = (coil_guess(inductance=one, own=own, load=5e5) for one, own in ((2.0, 200e-12), (4.0, 100e-12)))
    assert before[0].natural_frequency == pytest.approx(after[0].natural_frequency) and ANSWERS["p1"].seen == "b"
    assert after[1].natural_frequency < 0.8 * before[1].natural_frequency
    assert ANSWERS["p2"].seen == "d" and WRONG.off > 0.1 and WRONG.residual < 0.05
    # 140 mT touching the rod, 8 mT at 10 mm, as its question says, to one or two digits
    assert (1e3 * WRONG.readings[[0, -1]]).round() == pytest.approx([136, 8])
    assert ANSWERS["p3"].seen == "c" and FERRITE.resonance > 1.02 * ALNICO_5.resonance


def test_the_exciter_tells_what_was_put_in():
    found = exciter_runs(EXCITER).found[0]
    assert found.inductance == pytest.approx(TRUTH.inductance, rel=0.02)
    assert found.capacitance == pytest.approx(TRUTH.capacitance, rel=0.03)
    assert guess_then_data().still(inductance=TRUTH.inductance) is None


def test_the_page_and_the_guide_carry_the_cautions():
    for text in (PROSE, GUIDE):
        assert all(word in text for word in ("pacemaker", "15 cm", "30 cm", "headphones", "earth", "whip", "brass",
                                             "safety glasses"))
        assert re.search(r"Local rules", text)
    assert "[data/WORKBENCH.md](data/WORKBENCH.md)" in PROSE
