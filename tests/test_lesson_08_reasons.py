"""Lesson 08: reasons that page and guide give, computed: what errors hide, what readings tell, where a peak stands."""
import math

import numpy as np
import pytest
from scipy.optimize import brentq, minimize_scalar

from lesson_08_fits import (
    ALNICO,
    CAPACITORS,
    COIL,
    FAR,
    GAUSS,
    GUIDE,
    LINE,
    RESPONSE,
    ROD,
    UNIFORM,
    WRONG,
    corrected_peak,
)
from lessons_lib.lessons.lesson_08.model import COIL_RESISTANCE, NOISE, SPOT, field_over
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.fits import fit_added_capacitance, fit_gauss_readings
from lessons_lib.workbench.invented import TRUTH
from notebooks import NOTEBOOKS, assert_printed, prose

PROSE = prose("08")


@pytest.fixture(autouse=True)
def beside_the_page(monkeypatch):
    monkeypatch.chdir(NOTEBOOKS)


def test_half_of_the_field_is_gone_where_page_and_guide_say():
    reading = np.interp(2e-3, GAUSS["distance"], GAUSS["flux density"])
    assert reading / GAUSS["flux density"][0] == pytest.approx(0.5, abs=0.02) and "half is gone in some 2 mm" in PROSE
    assert "half the field is lost in 2 mm" in GUIDE
    assert field_over([2e-3], SPOT)[0] / field_over([0.0], SPOT)[0] == pytest.approx(0.5, abs=0.02)


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
