"""Six strings: levels against the hand's law, bending, bad input."""
import math
from dataclasses import replace

import numpy as np
import pytest

from lessons_lib.physics.magnets import BarMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.pole_heights import equal_levels
from lessons_lib.physics.six_strings import (
    PlacedString,
    decibels,
    first_pulses,
    in_a_row,
    sensitivities,
    simple_law,
    with_tops,
    workshop_row,
)
from lessons_lib.physics.steel import SteelString
from row_of_six import LEAK, LONG, PLACES, POSTS, ROW, SMALL, rods, screws

# --- levels

# Core area times 1/(2Z), dB re string VI: the course's table, 7850 kg/m3, T = mu (2 L f)^2; one decimal printed.
@pytest.mark.parametrize("third, level", [("III", 7.3), ("III wound", -1.0)])
def test_simple_law(third, level):
    levels = decibels(simple_law(workshop_row(third=third)))
    assert levels == pytest.approx([0.0, 0.6, 0.4, level, 5.3, 2.8], abs=0.06)


@pytest.mark.parametrize("third", ["III", "III wound"])
def test_computed_levels_follow_the_simple_law(third):
    """Loud plain third, four alike wound strings: there already in the simple law. Rods 0.9 dB off, screws 1.5."""
    row = workshop_row(third=third)
    simple = decibels(simple_law(row))
    over_rods, over_screws = decibels(first_pulses(rods(), row)), decibels(first_pulses(screws(), row))
    assert over_rods == pytest.approx(simple, abs=1.0)
    assert over_screws == pytest.approx(simple, abs=1.6)
    assert over_rods[3] > over_rods[0] + 7 if third == "III" else np.ptp(over_rods[:4]) < 2


def test_first_pulses_of_the_workshop():
    """Finite elements: 76 mV for string VI over an outer rod, 190 mV for the plain third over a middle one; 1 N."""
    pulses = first_pulses(rods(), ROW)
    assert pulses[[0, 3]] * 1e3 == pytest.approx([76, 190], rel=0.01)
    assert first_pulses(rods(), ROW, force=2.0) == pytest.approx(2 * pulses, rel=1e-12)
    speeds = 1 / (2 * np.array([string.impedance for string in ROW]))
    assert pulses == pytest.approx(sensitivities(rods(), ROW) * speeds, rel=1e-12)


def test_the_same_string_six_times_is_symmetric():
    row = [replace(ROW[0], y=y) for y in PLACES]
    for pickup in (rods(), screws()):
        levels = decibels(sensitivities(pickup, row))
        assert levels == pytest.approx(levels[::-1], abs=1e-5)
        assert np.ptp(levels) < 1.0       # outer poles have one neighbour only
        assert levels[2] > levels[0]


def test_six_small_coils_in_series():
    """Each string hears its own coil nearly alone; the voltages of the six add."""
    six = rods(coils=in_a_row(SMALL, PLACES))
    string = ROW[2]
    alone = [Pickup(poles=six.poles, coils=coil).sensitivity(string.steel, height=string.height, y=string.y)
             for coil in six.coils]
    assert six.sensitivity(string.steel, height=string.height, y=string.y) == pytest.approx(sum(alone), rel=1e-9)
    assert abs(alone[2] / sum(alone)) > 0.9


def test_decibels():
    assert decibels([0.5, -0.5], reference=1.0) == pytest.approx([-6.0206] * 2, abs=1e-4)   # 20 log10(1/2)


# --- bending

def bent_levels(pickup, string, y):
    """Level (dB) of a string pushed sideways to y, relative to that at its own place, by sensitivity."""
    return decibels(pickup.sensitivity(string.steel, height=string.height, y=np.append(string.y, y)))[1:]


def test_bending_over_rods_and_small_coils():
    """The dip lies half way between two poles, and is deeper with six small coils than with one long one."""
    string, y = ROW[2], ROW[2].y + np.linspace(0, 10.2e-3, 9)
    long, small = (bent_levels(rods(coils=coils), string, y) for coils in (LONG, in_a_row(SMALL, PLACES)))
    for levels in (long, small):
        assert levels[0] == 0.0 and np.argmin(levels) == 4
        assert levels == pytest.approx(levels[::-1], abs=0.05)   # the next pole but one is not the same on both sides
    assert small[4] < long[4] - 1.0


def test_bending_against_the_reach_of_two_poles():
    levels = bent_levels(POSTS, ROW[0], [PLACES[1], PLACES[0], 0.1])
    # over the outer pole one neighbour, over the next two; far away nothing at all
    assert levels == pytest.approx([20 * math.log10((1 + 2 * LEAK) / (1 + LEAK)), 0.0, -math.inf])


def test_blade_has_no_dip():
    blade = BarMagnet(size=(3e-3, 56e-3, 12e-3), centre=(0, 0, -6e-3), remanence=0.3)
    levels = bent_levels(Pickup(poles=(), coils=LONG, bars=blade), ROW[2], ROW[2].y + np.linspace(0, 10.2e-3, 9))
    assert np.abs(levels).max() < 0.1


# --- bad input

@pytest.mark.parametrize("call, message", [
    (lambda: workshop_row(third="IV"), "third must be one of 'III', 'III wound'; got 'IV'."),
    (lambda: workshop_row(height=-1e-3), "height must be a finite number above zero; got -0.001."),
    (lambda: replace(ROW[0], impedance=0.0), "impedance must be a finite number above zero; got 0.0."),
    (lambda: replace(ROW[0], y=math.nan), "y must be a finite number; got nan."),
    (lambda: with_tops(screws(), [0.0, 0.0]), "tops must be one height for each of 6 poles; got 'shape (2,)'."),
    (lambda: in_a_row(SMALL, [math.nan]), "places must be an array of finite numbers; got nan."),
    (lambda: first_pulses(POSTS, ROW, force=-1.0), "force must be a finite number, zero or above; got -1.0."),
    (lambda: decibels([0.0, 1.0]), "reference must be a finite number above zero; got 0.0."),
    (lambda: with_tops(screws(), np.full(6, -0.1e-3)),
     "bars must be clear of the other parts; got 'bar 0 and pole 0 in the same place'."),
    (lambda: equal_levels(screws(), ROW, lowest=-1e-3, highest=1e-3),
     "bars must be clear of the other parts; got 'bar 0 and pole 0 in the same place'."),
    (lambda: equal_levels(rods(), ROW, lowest=-1e-3, highest=2.4e-3),
     "height must be the string's axis, its lower side clear of the coil form (z = 0), the poles and the bars; "
     "got 0.0025."),
    (lambda: equal_levels(POSTS, ROW, lowest=1e-3, highest=1e-3), "lowest must be below highest; got "),
    (lambda: equal_levels(POSTS, ROW[:5], lowest=-1e-3, highest=1e-3),
     "row must be one string over each of 6 poles; got 5."),
])
def test_refused(call, message):
    with pytest.raises(ValueError) as refusal:
        call()
    assert str(refusal.value).startswith(message)


def test_a_string_must_be_steel():
    with pytest.raises(TypeError, match="^steel must be a SteelString; got 0.0005.$"):
        PlacedString(steel=0.5e-3, impedance=0.5, height=2.5e-3)
    assert PlacedString(steel=SteelString(diameter=0.5e-3), impedance=0.5, height=2.5e-3).y == 0.0
