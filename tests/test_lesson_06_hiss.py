"""Lesson 06, what hisses: the numbers of the section and of exercise 6.15, from the circuit of the page."""
import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import trapezoid

from coil_circuits import capacitance_noise
from lessons_lib.base.workshop import house_load
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.physics.noise import impedance_at_input, johnson_density, johnson_voltage
from notebooks import ANSWERS, prose

PROSE = prose("06")
WORKED = next(lesson for lesson in load_lessons(ANSWERS) if lesson.id == "06")["6.15"].worked
HOUSE = house_instrument.loaded(**house_load)
NO_LOAD = replace(HOUSE, volume_resistance=math.inf, tone_resistance=math.inf, input_resistance=math.inf)
ALL = (1e-2, 1e9)               # Hz: what is beyond is less than 1e-5


def density(coil, frequency):
    return np.sqrt(johnson_density(impedance_at_input(coil, frequency=frequency)))


def highest(coil):
    return density(coil, np.geomspace(1e3, 10e3, 4001)).max()


def test_the_sum_is_that_of_the_capacitance_with_or_without_a_load():
    assert capacitance_noise(600e-12) == pytest.approx(2.60e-6, abs=0.005e-6) and "20 °C: 2.60 µV" in PROSE
    for coil in (HOUSE, NO_LOAD):
        assert johnson_voltage(coil, band=ALL) == pytest.approx(capacitance_noise(600e-12), rel=1e-4)


def test_where_the_hiss_is():
    assert density(HOUSE, 200.0) == pytest.approx(12e-9, abs=0.5e-9)
    assert highest(HOUSE) == pytest.approx(42e-9, abs=0.5e-9) and "42 at the peak" in PROSE
    assert highest(NO_LOAD) == pytest.approx(82e-9, abs=0.5e-9) and "would be 82 there" in PROSE
    assert "12 nV/√Hz at 200 Hz, nearly all of it the wire's" in PROSE


def of_the_wire(frequency):
    """Density of what the wire's hiss is at the amplifier: it passes the circuit as the strings' voltage does."""
    return johnson_density(HOUSE.resistance) * np.abs(HOUSE.response(frequency)) ** 2


def test_the_shares_of_wire_and_load():
    assert of_the_wire(200.0) / density(HOUSE, 200.0) ** 2 > 0.9
    frequency = np.geomspace(*ALL, 200_001)
    share = trapezoid(of_the_wire(frequency) * frequency, np.log(frequency)) / capacitance_noise(600e-12) ** 2
    assert share == pytest.approx(1 / 4, abs=0.02) and "the wire brings a quarter, the load three quarters" in PROSE


def test_thinner_wire_hisses_elsewhere():
    """Exercise 6.15."""
    thinner = replace(HOUSE, resistance=2 * HOUSE.resistance)
    assert johnson_voltage(thinner, band=ALL) == pytest.approx(johnson_voltage(HOUSE, band=ALL), rel=1e-5)
    low, peak = density(thinner, 200.0), highest(thinner)
    assert low > density(HOUSE, 200.0) and peak < highest(HOUSE)
    assert "12 and 42 nV/√Hz become 16 and 37" in WORKED
    assert (low, peak) == (pytest.approx(16e-9, abs=0.5e-9), pytest.approx(37e-9, abs=0.5e-9))
