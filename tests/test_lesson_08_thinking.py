"""Lesson 08: the exercises on residuals, on errors that travel, and on other devices, computed in another way."""
import math

import numpy as np
import pytest
from scipy.optimize import brentq

from lessons_lib.exercises.bench import SELF_STUDY_BENCHES
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw
from lessons_lib.exercises.self_study import load_lesson
from lessons_lib.lessons.lesson_08.model import ROD, field_over
from notebooks import NOTEBOOKS, assert_printed, prose

ANSWERS = load_lesson(NOTEBOOKS.parent / "answers" / "lesson_08.py")
each_bench = pytest.mark.parametrize("bench", SELF_STUDY_BENCHES)


def drawn(name, bench):
    return draw(ANSWERS[name], secret=SELF_STUDY_SECRET, bench=bench)


def resonance(inductance, capacitance):
    return 1 / (2 * math.pi * np.sqrt(inductance * capacitance))


def test_the_line_from_memory_is_on_its_page():
    assert ANSWERS["m3"].sentence in prose("04")


@each_bench
def test_what_a_line_through_the_origin_leaves(bench):
    """Exercise 8.11, by numpy's least squares; the inductance found is too high, as the teaching note says."""
    own, added, inductance = drawn("8.11", bench).si["own"], ANSWERS["8.11"].x.values, 3.0
    readings = 1 / (2 * math.pi * resonance(inductance, own + added)) ** 2
    (slope,), *_ = np.linalg.lstsq(added[:, None], readings, rcond=None)
    falling = ANSWERS["8.11"].curves(added, own)["falling"]
    assert falling == pytest.approx((readings - slope * added) / inductance, abs=1e-18)
    assert falling[0] > 0 > falling[-1] and slope > inductance
    assert np.diff(falling, 2) == pytest.approx(np.zeros(39), abs=1e-18)        # a straight line


@pytest.mark.parametrize("u_f, u_c", [(0.01, 0.005), (0.03, 0.015), (0.01, 0.015)])
def test_the_error_of_an_inductance_by_many_throws(u_f, u_c):
    """Exercise 8.12, by what 200 000 normal errors do to L = 1/((2 pi f)^2 C): 0.2 % from the number of throws."""
    dice = np.random.default_rng(8)
    f, c = 4e3 * (1 + u_f * dice.standard_normal(200_000)), 6e-10 * (1 + u_c * dice.standard_normal(200_000))
    inductance = 1 / ((2 * math.pi * f) ** 2 * c)
    assert ANSWERS["8.12"].answer(u_f, u_c) == pytest.approx(inductance.std() / inductance.mean(), rel=0.01)


@each_bench
def test_which_measurement_narrows_the_prediction_most(bench):
    """Exercise 8.13, by differences of the resonance, and by leaving out one error after the other."""
    one = drawn("8.13", bench)
    si = one.si
    at = resonance(2.5, si["own"] + si["cable"])
    shifts = {"a": resonance(2.5 * (1 + si["u_inductance"]), si["own"] + si["cable"]) / at - 1,
              "b": resonance(2.5, si["own"] + si["u_own"] + si["cable"]) / at - 1,
              "c": resonance(2.5, si["own"] + si["cable"] + si["u_cable"]) / at - 1, "d": 0.0}
    left = {name: math.sqrt(sum(shift ** 2 for other, shift in shifts.items() if other != name)) for name in shifts}
    order = one.exercise.model_answer(one)[0]
    assert sorted(left, key=left.get) == order.replace(" = ", " > ").split(" > ") or "=" in order


def test_how_far_a_rods_field_is_the_earths():
    """Exercise 8.14, by the rod on its curve, with no spot behind the tip."""
    middle = ROD.length / 2
    assert_printed(float(field_over(30e-3 - middle, 0.0)[0]) * 1e3, "the field is 1.6 mT", prose("08"))
    exact = middle + brentq(lambda distance: float(field_over(distance, 0.0)[0]) - 50e-6, 0.02, 0.3)
    assert ANSWERS["8.14"].answer() == pytest.approx(exact, rel=0.05)
    assert_printed(exact * 1e3, "92 mm", ANSWERS["8.14"].worked)


@pytest.mark.parametrize("share", [0.001, 0.005, 0.01])
def test_half_the_share_of_the_inductance_is_the_share_of_the_tone(share):
    """Exercise 8.15, by two resonances; up to a share of 1 % the half is good to 1 % of itself."""
    frequency = 100e3
    tone = frequency * ((1 - share) ** -0.5 - 1)
    assert ANSWERS["8.15"].answer(tone, frequency) == pytest.approx(share, rel=0.01)
    assert ANSWERS["8.15"].answer(400, 80e3) <= 0.01      # the largest that is drawn
