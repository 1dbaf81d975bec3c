"""Lesson 05: reasons that its page gives, computed: energy of a pluck, the corner that ends a pulse, the near side."""
import math

import numpy as np
import pytest

from lessons_lib.lessons.lesson_05.conditions import largest_voltage
from lessons_lib.lessons.lesson_05.corners import pulses
from lessons_lib.lessons.lesson_05.model import HOUSE, flexible, fret_measures, sensitivity
from notebooks import assert_printed, prose

PROSE = prose("05")
VI = flexible("VI")


@pytest.mark.parametrize("fret, words", [(0, "comes 0.3 mm nearer"), (12, "of what sounds, 0.6 mm")])
def test_a_string_pulled_away_swings_through_to_the_near_side(fret, words):
    """Its lowest place by the pulled shape turned over, h q/(1 - p) for q < 1 - p; the voltage by S at that height."""
    motion, length = VI.at_fret(fret).pluck(force=1.0, place=0.1), 0.6 * 2 ** (-fret / 12)
    lowest = -motion.displacement(np.linspace(0, 0.02, 8001), 0.15)[0].min()
    pulled = 0.1 * (length - 0.1) / (length * VI.tension)
    assert lowest == pytest.approx(pulled * 0.15 / (length - 0.1), rel=0.005)
    assert_printed(lowest * 1e3, words, PROSE)
    nearest = sensitivity("VI", 2.5e-3 - lowest) / (2 * VI.impedance)
    assert largest_voltage("VI", fret, 0.0) == pytest.approx(nearest, rel=0.01)


@pytest.mark.parametrize("pluck, pickup", [(0.06, 0.12), (0.12, 0.06)])
def test_the_pulse_ends_with_the_corner_that_set_out_towards_the_bridge(pluck, pickup):
    """It comes by way of the bridge; the second pulse of the period is the first one run backwards."""
    period = 1 / VI.frequency(1)
    time = (np.arange(4000) + 0.5) / 4000 * period
    speed = pulses(VI, 1.0, pluck, pickup, time)
    begins, ends = abs(pluck - pickup) / VI.wave_speed, (pluck + pickup) / VI.wave_speed
    inside = (time > begins) & (time < ends)
    assert (speed[inside] < 0).all() and ends - begins == pytest.approx(2 * min(pluck, pickup) / VI.wave_speed)
    assert speed[(time < period / 2) & ~inside] == pytest.approx(0, abs=1e-9)
    assert speed == pytest.approx(-speed[::-1], abs=1e-9)


def test_the_energy_of_a_pluck_is_half_of_force_times_distance():
    """By the potential energy of the two straight pieces; for the same energy at half the length, √2 of the force."""
    held, short = (string.pluck(force=1e-3, place=string.length / 6) for string in (VI, VI.at_fret(12)))
    for string, motion in ((VI, held), (VI.at_fret(12), short)):
        h, x = motion.release_displacement, string.length / 6
        stretched = string.tension / 2 * (h ** 2 / x + h ** 2 / (string.length - x))
        assert stretched == pytest.approx(1e-3 * h / 2, rel=1e-3)
    assert short.release_displacement == pytest.approx(held.release_displacement / 2, rel=1e-9)
    same_energy = fret_measures(fret=12, rule="energy", hand="fraction", **HOUSE)
    assert same_energy.times_open("velocity", "peak") == pytest.approx(math.sqrt(2), rel=1e-9)
    assert r"energy of the pluck is $\frac12Fh$" in PROSE and r"$F$ must be $\sqrt2$ times as large" in PROSE
