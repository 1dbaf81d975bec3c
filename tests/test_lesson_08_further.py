"""Lesson 08, what is further: metal that answers, and a prediction as a band; every number of the prose computed."""
import math
from functools import cache

import numpy as np
import pytest

from lessons_lib.base.value import Value
from lessons_lib.exercises.self_study import load_lesson
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_08.metal import EXAMPLE, exciter_readings, shown_by_meter
from lessons_lib.lessons.lesson_08.model import COIL_RESISTANCE, coil_guess, top_of
from lessons_lib.lessons.lesson_08.uncertain import KNOWN_WITHIN, house_resonance
from lessons_lib.physics.fits import fit_exciter_response
from lessons_lib.physics.spread import band
from notebooks import NOTEBOOKS, assert_printed, prose

PROSE = prose("08")
GUIDE = (NOTEBOOKS / "data" / "WORKBENCH.md").read_text(encoding="utf-8")
EXERCISES = {one.id: one for one in load_lesson(NOTEBOOKS.parent / "answers" / "lesson_08.py").exercises}


@cache
def fitted(metal):
    """The plain fit to readings without noise over a coil with metal, and its largest residual as a share."""
    one = exciter_readings(metal, COIL_RESISTANCE)
    fit = fit_exciter_response(one["frequency"], one["voltage"], added_capacitance=one["added capacitance"],
                               resistance=COIL_RESISTANCE, uncertainty=0.02 * one["voltage"])
    return fit, float(np.abs(fit.readings / fit.model - 1).max())


def bare(metal):
    return coil_guess(metal=metal, **EXAMPLE)[0]


def width(metal):
    low, high = bare(metal).minus_3_db("peak")
    return (high - low) / 1e3


@pytest.mark.parametrize("value, words", [
    (lambda: top_of(bare("none"))[1], "falls from 12.9 to"), (lambda: top_of(bare("alnico"))[1], "to 10.0 dB, and its"),
    (lambda: width("none"), "grows from 1.86 to"), (lambda: width("alnico"), "to 2.77 kHz"),
    (lambda: top_of(bare("steel"))[1], "steel it is 9.3 dB"),
    (lambda: fitted("alnico")[0]["inductance"], "inductance is right, 2.80 H"),
    (lambda: fitted("alnico")[0]["capacitance"] * 1e12, "too small (134 pF)"),
    (lambda: 100 * (1 - fitted("alnico")[0]["capacitance"] / EXAMPLE["own"]), "capacitance is 4 % too small"),
    (lambda: fitted("alnico")[0]["load_resistance"] / 1e3, "the coil is 514 kΩ instead"),
    (lambda: fitted("alnico")[0]["q_factor"], "The Q is right, 3.0,"),
    (lambda: bare("alnico").q_factor, "Q is right, 3.0,"),
    (lambda: 100 * fitted("alnico")[1], "up to 7 % at the high end"),
    (lambda: fitted("steel")[0]["inductance"], "too small (2.52 H)"),
    (lambda: round(100 * (1 - fitted("steel")[0]["inductance"] / EXAMPLE["inductance"])), "is 10 % too small"),
    (lambda: 100 * fitted("steel")[1], "the waves reach 10 %")])
def test_numbers_of_the_metal(value, words):
    assert_printed(value(), words, PROSE)


def test_what_the_meter_shows():
    for metal, words in (("none", "2.74, 2.78 and −4.15 H without"), ("alnico", "2.74, 2.78 and −3.52 H with rods"),
                         ("steel", "2.71, 2.63 and −3.18 H: at")):
        shown = "{:.2f}, {:.2f} and {:.2f}".format(*shown_by_meter(bare(metal))).replace("-", "−")
        assert words.startswith(shown) and words in PROSE
    at_120, at_1k, _ = shown_by_meter(bare("steel"))
    assert at_1k < at_120 and "at 1 kHz *less* than at 120 Hz" in PROSE
    assert bare("steel").natural_frequency > bare("none").natural_frequency


def test_what_the_fit_says_of_itself():
    fit, _ = fitted("alnico")
    low, high = fit.interval("capacitance")
    assert not low < EXAMPLE["own"] < high and "its interval does not hold the 140 pF" in PROSE
    assert "The model leaves something out" in fit.remark
    # waves: the first eleven residuals of a run, all far below its resonance, have one sign
    for run in (fit.standardised[:11], fit.standardised[24:35]):
        assert len(set(np.sign(run))) == 1


def test_the_readings_of_the_bench_are_without_currents():
    assert "No currents flow in the metal there" in PROSE
    assert "eddy currents that change with frequency" in (NOTEBOOKS / "data" / "README.md").read_text(encoding="utf-8")
    assert "currents in the metal" in GUIDE


def test_the_meter_over_steel_as_an_exercise():
    """8.16 for a coil whose parts are known: an inductance that is 5 % lower at 1 kHz, read through its capacitance."""
    low, own, resonance = 4.2, 150e-12, 1 / (2 * math.pi * math.sqrt(4.2 * 150e-12))
    inductance, w = 0.95 * low, 2 * math.pi * 1e3
    read = (1 / (1 / (1j * w * inductance) + 1j * w * own)).imag / w
    # the resonance is that of the lower inductance, which is put in as the higher: 1 % of 1/(1 - f2/f02), 0.3 % of L
    assert EXERCISES["8.16"].answer(low, read, resonance) == pytest.approx(0.05, abs=3e-3)
    assert EXERCISES["8.16"].answer(low, low, 1e9) == pytest.approx(0, abs=1e-9)      # no currents, no capacitance
    alnico, plain = (shown_by_meter(bare(metal))[1] for metal in ("alnico", "none"))
    assert_printed(100 * (1 - alnico / plain), "same step is 0.14 %", EXERCISES["8.16"].teaching_note)


# ---- the band --------------------------------------------------------------------------------------------------------

def test_the_band_of_the_house_resonance():
    found = band(house_resonance, KNOWN_WITHIN)
    assert found.below == pytest.approx(0.035, abs=1e-3) and found.above == pytest.approx(0.035, abs=1e-3)
    assert "The band reaches 3.5 % to each side" in PROSE
    assert found.largest == "self_capacitance" and found.shares["self_capacitance"] == pytest.approx(0.5, abs=0.05)
    assert "half of its variance" in PROSE
    for name, words in (("turns", "known to 2 %"), ("cable", "the cable to 5 %")):
        low, high = KNOWN_WITHIN[name].spread
        assert_printed(50 * (high - low) / float(KNOWN_WITHIN[name]), words, PROSE)
    assert KNOWN_WITHIN["recoil_permeability"].spread == (3.0, 4.5) and "between 3.0 and 4.5" in PROSE
    assert KNOWN_WITHIN["self_capacitance"].spread == (50e-12, 150e-12) and "between 50 and 150 pF" in PROSE


def test_small_spreads_give_the_rule_of_8_3():
    """Half of what C adds, and a whole share of the turns (L goes with their square): equal parts of two rectangles.

    The sum of two equal rectangles is a triangle; of one with ends at 2a, 16 % are above 2a - sqrt(8 * 0.16) a.
    """
    share, total = 1e-3, 600e-12
    a = share
    known = {"turns": Value(1.0, "1", "a test", (1 - share, 1 + share)), "recoil_permeability": 3.6, "cable": 500e-12,
             "self_capacitance": Value(100e-12, "F", "a test", (100e-12 - 2 * a * total, 100e-12 + 2 * a * total))}
    found = band(house_resonance, known)
    assert found.shares["turns"] == pytest.approx(0.5, abs=0.02)        # the peak is a little below the resonance
    assert found.above == pytest.approx(2 * a - math.sqrt(8 * 0.16) * a, rel=0.03)
    sigma = 0.5 * math.hypot(2 * share / math.sqrt(3), 2 * share / math.sqrt(3))    # of the rule, rectangles' own
    # of a triangle 16 to 84 % are 1.06 sigma to each side
    assert found.above / sigma == pytest.approx((2 - math.sqrt(1.28)) / math.sqrt(2 / 3), rel=0.03)
    assert EXERCISES["8.3"].answer(2 * share / math.sqrt(3), 2 * share / math.sqrt(3)) == pytest.approx(sigma, rel=1e-6)


def test_without_spread_the_band_is_the_prediction():
    known = {name: float(value) for name, value in KNOWN_WITHIN.items()}
    found = band(house_resonance, known)
    assert found.low == found.high == pytest.approx(found.nominal)
    # the design bench's own figure
    assert_printed(found.nominal / 1e3, "controls: 4.39 kHz for the house coil", PROSE)


def test_what_currents_do_to_the_house_peak():
    """As the docstring of the prediction says."""
    load = {"capacitance": 100e-12, "cable_capacitance": 500e-12}
    (plain, level), (answers, lower) = (house_instrument.loaded(metal_answers=metal, **load).peak()
                                        for metal in (False, True))
    assert f"{100 * (1 - answers / plain):.1f} %" == "0.6 %" in house_resonance.__doc__
    assert f"{level - lower:.1f} dB" == "2.1 dB" in house_resonance.__doc__
