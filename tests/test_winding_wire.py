"""A coil's wire: length, resistance, turns that fit; and coils that are refused."""
import math
from dataclasses import replace

import numpy as np
import pytest

from lessons_lib.base.materials import magnet_wire
from lessons_lib.base.workshop import house_coil
from lessons_lib.physics.winding import LongCoil
from sample_coils import HOUSE, ROUND

# Wire

def test_house_coils_wire():
    # the record: about 1000 m of AWG 44, 8.6 kilo-ohm, 53 % of the window by squares of bare wire
    wire = magnet_wire(awg=44)
    assert HOUSE.wire_length() == pytest.approx(1000, rel=1e-3)
    assert HOUSE.resistance(wire) == pytest.approx(8.6e3, rel=0.015)
    assert HOUSE.turns * wire.diameter**2 / (3e-3 * 12e-3) == pytest.approx(0.53, abs=0.005)


@pytest.mark.parametrize("turns, mean_turn, awg, kilo_ohm", [
    (7600, 0.142, 42, 5.9), (9000, 0.140, 43, 8.7), (10000, 0.140, 44, 12.2)])
def test_wire_of_typical_coils(turns, mean_turn, awg, kilo_ohm):
    # ranges of the course; 2 % for the digits printed
    straight = (mean_turn - math.pi * 10e-3) / 2
    sizes = {"inner_radius": 3.5e-3, "outer_radius": 6.5e-3, "bottom": 0.0, "top": 0.01}
    coil = LongCoil(straight_length=straight, turns=turns, **sizes)
    assert coil.mean_turn() == pytest.approx(mean_turn)
    assert coil.wire_length() == pytest.approx(turns * mean_turn)
    assert coil.resistance(magnet_wire(awg=awg)) == pytest.approx(kilo_ohm * 1e3, rel=0.02)
    warm = coil.resistance(magnet_wire(awg=awg), temperature=30.0)
    assert warm / coil.resistance(magnet_wire(awg=awg)) == pytest.approx(1.04, abs=1e-3)   # 10 K = 4 %


def test_mean_turn_is_the_mean_of_all_turns():
    radii = np.linspace(ROUND.inner_radius, ROUND.outer_radius, 1001)
    assert ROUND.mean_turn() == pytest.approx(np.mean(2 * math.pi * radii))


def test_mean_area_is_the_mean_of_all_turns():
    radii = HOUSE.inner_radius + 3e-3 * (np.arange(1000) + 0.5) / 1000
    areas = math.pi * radii**2 + 2 * HOUSE.straight_length * radii
    assert HOUSE.mean_area() == pytest.approx(np.mean(areas), rel=1e-6)   # 1000 turns for a smeared winding


def test_turns_that_fit():
    wire = magnet_wire(awg=44)
    fitting = HOUSE.turns_that_fit(wire)
    assert fitting * wire.insulated_diameter**2 <= 36e-6 < (fitting + 1) * wire.insulated_diameter**2
    assert replace(HOUSE, turns=fitting).fill_factor(wire) == pytest.approx(1.0, abs=1e-3)
    assert HOUSE.fill_factor(wire) < 1 < HOUSE.fill_factor(magnet_wire(awg=42))


def test_twice_the_turns_in_the_same_window_have_four_times_the_resistance():
    twice = replace(HOUSE, turns=2 * HOUSE.turns)
    coarse = magnet_wire(diameter=0.06e-3)
    fine = magnet_wire(diameter=0.06e-3 / math.sqrt(2))
    assert twice.resistance(fine) / HOUSE.resistance(coarse) == pytest.approx(4)
    assert twice.fill_factor(fine) == pytest.approx(HOUSE.fill_factor(coarse))


# Bad input

@pytest.mark.parametrize("change, message", [
    ({"inner_radius": 0.0}, "inner_radius must be a finite number above zero; got 0.0."),
    ({"inner_radius": 7e-3}, "inner_radius must be below outer_radius = 0.0062; got 0.007."),
    ({"inner_radius": 6.2e-3}, "inner_radius must be below outer_radius = 0.0062; got 0.0062."),
    ({"bottom": 0.0}, "bottom must be below top = -0.0025; got 0.0."),
    ({"top": math.nan}, "top must be a finite number; got nan."),
    ({"turns": 0}, "turns must be 1 or more; got 0."),
    ({"turns": math.inf}, "turns must be a finite number; got inf."),
    ({"winding_sense": 0}, "winding_sense must be one of 1, -1; got 0."),
    ({"straight_length": -1e-3}, "straight_length must be a finite number, zero or above; got -0.001."),
    ({"x": math.nan}, "x must be a finite number; got nan."),
])
def test_refused_coils(change, message):
    with pytest.raises(ValueError) as caught:
        LongCoil(**(house_coil | change))
    assert str(caught.value) == message


def test_turns_in_words_are_refused():
    with pytest.raises(TypeError, match="turns must be a finite number; got '7600'"):
        LongCoil(**(house_coil | {"turns": "7600"}))
