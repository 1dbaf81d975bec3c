"""Lesson 06: where the peaks of coils of one description are, by the panel, by draws, and without any spread."""
from dataclasses import replace

import numpy as np
import pytest

from band_by_drawing import band_by_drawing
from lessons_lib.base.value import Value
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_06 import panels
from lessons_lib.lessons.lesson_06.model import AS_BUILT, HOUSE, loaded_coil, peak_band, quantities, response
from lessons_lib.physics.pickup import Pickup
from notebooks import prose
from shown import readouts

LABEL = "two of three such coils"


def sharp(**wide):
    """Quantities without spread, but for those named."""
    return {name: Value(value, value.unit, value.source, wide.get(name, (float(value),) * 2))
            for name, value in quantities(100e-12).items()}


def peak_of(turns, own, recoil):
    """Hz, of a coil wound with other turns over other rods, each from its own field solution."""
    pickup = house_instrument.pickup
    rods = [replace(rod, recoil_permeability=round(recoil, 1)) for rod in pickup.poles]     # a few kinds of rods
    coil = loaded_coil(**HOUSE | {"own": own})
    inductance = Pickup(poles=rods, coils=pickup.coils).inductance() * turns ** 2
    return replace(coil, inductance=inductance, resistance=turns * coil.resistance).peak()[0]


def test_without_a_spread_it_is_the_peak():
    found = peak_band(response(), known=sharp())
    assert (found.low, found.median, found.high) == pytest.approx((response().peak_frequency,) * 3, rel=1e-9)


def test_a_narrow_spread_of_turns_goes_as_their_share():
    """L goes as the square of the turns, the peak nearly as 1/sqrt(L): 1 % of turns, 1 % of the peak."""
    found = peak_band(response(volume=2e6, tone=2e6), known=sharp(turns=(0.995, 1.005)))
    assert (found.high - found.low) / found.median == pytest.approx(0.68 * 0.01, rel=0.03)


def test_by_drawing_everything_at_once():
    honest, found = band_by_drawing(peak_of, quantities(100e-12), draws=400), peak_band(response())
    assert np.allclose([found.low, found.median, found.high], [honest.low, honest.median, honest.high],
                       atol=0.08 * (honest.high - honest.low))


def test_the_panel_and_the_page_say_so():
    found = peak_band(response())
    words = f"{found.low / 1e3:.2f} to {found.high / 1e3:.2f} kHz"
    panel = panels.coil_and_cable()
    assert f"{LABEL}: {words}, mostly by the self-capacitance" in readouts(panel)
    assert f"two out of three coils of this description peak at {words}" in prose("06")
    assert AS_BUILT[found.largest] == "the self-capacitance"
    panel.asked(cable=0)        # with less self-capacitance the load leaves no peak
    assert f"{LABEL}: not all have a peak" in readouts(panel)
