"""Metal that answers in lesson 8: loops against the pickup's own impedance, and what a plain fit makes of it."""
import math
from dataclasses import replace

import numpy as np
import pytest
from numpy.testing import assert_allclose

from lessons_lib.base.materials import magnet_grade, steel
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_08.metal import (
    EXAMPLE,
    coil_in_metal,
    exciter_readings,
    low_inductance,
    metal_seen,
    shown_by_meter,
)
from lessons_lib.lessons.lesson_08.model import COIL_RESISTANCE, coil_guess
from lessons_lib.lessons.lesson_08.panels import guess_then_data
from lessons_lib.physics.eddy_currents import metal_of
from lessons_lib.physics.fits import fit_exciter_response
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.six_strings import in_a_row
from lessons_lib.physics.steel import SteelPole
from lessons_lib.physics.winding import RoundCoil
from shown import alt, readouts

FREQUENCIES = np.geomspace(20, 20e3, 13)


def fitted(metal):
    """The plain fit of section 3 to readings without noise, of which 2 % are stated."""
    one = exciter_readings(metal, COIL_RESISTANCE)
    return fit_exciter_response(one["frequency"], one["voltage"], added_capacitance=one["added capacitance"],
                                resistance=COIL_RESISTANCE, uncertainty=0.02 * one["voltage"])


def house_metal(metal):
    if metal == "alnico":
        return house_instrument.metal
    alloy, rod = steel("screw steel"), house_instrument.magnet
    poles = in_a_row(SteelPole(diameter=rod["diameter"], length=rod["length"],
                               relative_permeability=float(alloy.relative_permeability)),
                     house_instrument.place["string_y"])
    return metal_of(Pickup(poles=poles, coils=house_instrument.long_coil), resistivity=float(alloy.resistivity))


@pytest.mark.parametrize("metal", ["alnico", "steel"])
def test_the_loops_are_those_of_the_pickup(metal):
    own = house_metal(metal)
    total = own.inductance + sum(L for L, _ in own.loops)
    # digits that are kept, and loops of less than a thousandth that are not
    assert_allclose(metal_seen(metal, total).impedance(FREQUENCIES), own.impedance(FREQUENCIES), rtol=2e-3)


@pytest.mark.parametrize("metal", ["none", "alnico", "steel"])
def test_at_low_frequencies_it_is_the_inductance(metal):
    seen = metal_seen(metal, 2.5).impedance(0.01) / (2j * math.pi * 0.01)
    assert seen == pytest.approx(2.5, rel=1e-4)     # the lowest corner is 147 Hz
    assert low_inductance(coil_guess(inductance=2.5, own=1e-10, load=5e5, metal=metal)[0]) == pytest.approx(2.5)


def test_where_no_currents_flow_the_fit_finds_what_was_put_in():
    fit = fitted("none")
    assert_allclose([fit["inductance"], fit["capacitance"], fit["load_resistance"]], list(EXAMPLE.values()), rtol=1e-6)


def test_what_is_left_out_of_an_exciter():
    """Its mutual inductance with the coil, from both in series and in series opposed: 4 M is the difference."""
    rods = [replace(rod, resistivity=float(magnet_grade("alnico 5").resistivity))
            for rod in house_instrument.pickup.poles]
    exciter = RoundCoil(inner_radius=10e-3, outer_radius=14e-3, bottom=-24e-3, top=-19e-3, turns=200)   # under the rods
    aiding, opposed = (Pickup(poles=rods, coils=[house_instrument.long_coil, replace(exciter, winding_sense=sense)])
                       .impedance(np.array([20.0, 10e3])) / np.array([20.0, 10e3]) for sense in (1, -1))
    mutual = np.abs(aiding - opposed)
    assert 20 * math.log10(mutual[1] / mutual[0]) == pytest.approx(-0.4, abs=0.05)
    assert "0.4 dB at 10 kHz" in metal_seen.__doc__


def test_a_bad_metal_is_refused():
    with pytest.raises(ValueError, match="metal must be"):
        metal_seen("gold", 2.0)


def test_the_meter_by_the_impedance_of_the_parts():
    """Resistance, inductance and loops in series, capacitance and resistance across: sums of complex numbers."""
    coil, w = coil_in_metal("steel", resistance=COIL_RESISTANCE, **EXAMPLE), 2 * math.pi * 1e3
    series = COIL_RESISTANCE + 1j * w * coil.inductance + sum(1 / (1 / R + 1 / (1j * w * L)) for L, R in coil.loops)
    whole = 1 / (1 / series + 1j * w * EXAMPLE["own"] + 1 / EXAMPLE["load"])
    assert shown_by_meter(coil, np.array([1e3]))[0] == pytest.approx(whole.imag / w)


def test_the_panel_switches_the_currents_on():
    panel = guess_then_data()
    panel.asked(inductance="2.8", own="140", load="800")
    assert "+12.9 dB" in readouts(panel) and "currents flow" not in alt(panel)
    panel.asked(metal="rods of alnico answer")
    assert "+10.0 dB" in readouts(panel) and "2.74 H, 2.78 H, −3.52 H" in readouts(panel)
    assert "In the model rods of alnico answer: currents flow in them." in alt(panel)
