"""Lesson 06, section 8: what caps of metal do, every number of the text, by the loops and by what the cell prints."""
import math

import numpy as np
import pytest

from lessons_lib.base.wire import magnet_wire
from lessons_lib.base.workshop import house_coil, house_load, house_magnet
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.cover import RoundCover
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.winding import RoundCoil
from notebooks import prose

COIL = RoundCoil(**{name: house_coil[name] for name in ("inner_radius", "outer_radius", "bottom", "top", "turns")})
PICKUP = Pickup(poles=RodMagnet(**house_magnet, resistivity=0.47e-6), coils=COIL)
RESISTIVITIES = {"none": math.inf, "nickel silver": 0.3e-6, "brass": 0.07e-6}


def cap(metal, hole=0.0):
    return RoundCover(outer_radius=7.1e-3, bottom=-15e-3, top=0.6e-3, thickness=0.4e-3, hole_radius=hole,
                      resistivity=RESISTIVITIES[metal])


def peak(metal, hole=0.0):
    """Height of the peak, dB, of six such coils in series on the house load."""
    metal = cap(metal, hole).metal_of(PICKUP).with_turns(math.sqrt(6))
    coil = LoadedCoil(resistance=6 * COIL.resistance(magnet_wire(awg=44)), inductance=metal.inductance,
                      loops=metal.loops, **house_load)
    return coil.peak()[1] - coil.low_frequency_level


def test_every_number_of_the_text():
    text = prose("06")
    assert "the peak is 0.7 dB lower under nickel silver and 2.1 dB lower under brass" in text
    assert np.subtract(peak("none"), [peak("nickel silver"), peak("brass")]) == pytest.approx([0.7, 2.1], abs=0.05)
    assert "A hole in the cap for the pole changes next to nothing" in text
    assert peak("brass", hole=2.7e-3) == pytest.approx(peak("brass"), abs=0.03)
    assert "Brass conducts four times as well" in text
    assert RESISTIVITIES["nickel silver"] / RESISTIVITIES["brass"] == pytest.approx(4, abs=0.5)
