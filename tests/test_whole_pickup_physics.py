"""The whole pickup by laws that hold at any settings, at its limits, and without solving a magnet twice."""
import math
from dataclasses import replace
from types import MappingProxyType

import numpy as np
import pytest
from numpy.testing import assert_allclose

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.whole_pickup.changes import changes
from lessons_lib.lessons.whole_pickup.film import lines, pale_lines
from lessons_lib.lessons.whole_pickup.parts import HIGHEST, LOWEST, WIDEST, rod
from lessons_lib.lessons.whole_pickup.settings import OWN
from lessons_lib.physics.induction import induced_voltage
from lessons_lib.physics.pickup import Pickup
from whole_settings import ENDS, OWN_MAGNET, OWN_STRING, START, in_si, of

# ---- physics ---------------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("changed", [{}, {"direction": 1.0, "aside": 1e-3}, {"form": "screws", "string": "V"}])
def test_the_voltage_is_the_slope_of_the_linkage(changed):
    here = of(**changed)
    inner = slice(5, -5)        # differences need neighbours, and the string starts with a jerk
    error = induced_voltage(here.linkage, here.time)[inner] - here.voltage[inner]
    assert np.sqrt(np.mean(error ** 2)) < 0.03 * np.sqrt(np.mean(here.voltage ** 2))    # up to 10 kHz, 88.2 kHz


def test_the_harmonics_hold_the_power():
    here = of(force=0.3)
    assert np.sqrt((here.harmonics.amplitude ** 2).sum() / 2) == pytest.approx(
        np.sqrt(np.mean(here.voltage ** 2)), rel=0.05)      # under a window, of a decay


def test_an_open_circuit_passes_what_is_induced():
    here = of(cable=0.0, own=0.0, volume=math.inf, tone=math.inf, amplifier=1e9)
    assert here.response_peak is None and here.peak == pytest.approx(here.open_peak, rel=1e-2)
    assert_allclose(here.levels[0], here.levels[1], atol=0.1)


def test_behind_the_load_each_harmonic_is_as_the_response_says():
    before, behind = of().levels
    expected = np.interp(of().harmonics.frequency, np.geomspace(50.0, 20e3, 260), of().response)
    assert_allclose(behind - before, expected, atol=0.05)


@pytest.mark.parametrize("changed", [{"grade": OWN, "remanence": 0.0}, {"force": 0.0}])
def test_without_magnet_or_pluck_there_is_no_voltage(changed):
    here = of(**changed)
    assert here.peak < 1e-12 and here.linkage_swing < 1e-15 and np.isfinite(here.levels).all()
    assert np.abs(here.sound(0.1)).max() < 1e-12
    assert changes(START, here.settings).count(" 0 mV") == 1


def test_without_magnet_there_are_no_lines():
    settings = replace(OWN_MAGNET, remanence=0.0)
    assert lines(settings).shape == pale_lines(settings).shape == (2, 0)


def test_far_away_it_fades():
    peaks = [of(height=height, force=0.2).peak for height in (2e-3, 3e-3, 4.5e-3, 6e-3, 8e-3)]
    assert sorted(peaks, reverse=True) == peaks and peaks[-1] < 0.2 * peaks[0]


def test_twice_the_turns():
    few, many = of(turns=4000), of(turns=8000)
    assert_allclose(many.voltage, 2 * few.voltage)
    assert many.inductance == pytest.approx(4 * few.inductance)
    assert many.first_pulse == pytest.approx(2 * few.first_pulse)


def test_a_magnet_turned_over_turns_the_voltage():
    over = of(OWN_MAGNET, remanence=-0.75)
    assert_allclose(over.voltage, -of(OWN_MAGNET).voltage, atol=1e-9)


def test_a_rod_that_is_too_wide_for_the_coil_of_ones_own_fills_its_hole():
    narrow = replace(house_instrument, coil=MappingProxyType({**house_instrument.coil, "inner_radius": 2.95e-3}))
    settings = replace(START, instrument=narrow, diameter=6e-3)
    assert rod(settings).diameter == pytest.approx(5.9e-3) and of(settings).peak > of().peak
    assert rod(replace(START, diameter=6e-3)).diameter == 6e-3


def test_a_string_of_ones_own_with_the_numbers_of_another_is_that_other():
    assert_allclose(of(string=OWN).amplifier, of().amplifier)


@pytest.mark.parametrize("changed, why", [
    ({"frequency": 100.0, "height": 2e-3, "pickup_place": 0.18}, "pole"), ({"frequency": 60.0}, "wide"),
    ({"frequency": 60.0, "direction": math.pi / 2}, "wide"),
    ({"frequency": 100.0, "linear_density": 0.2e-3, "pluck_place": 0.02}, "tension")])
def test_a_pluck_that_is_too_strong_is_held_back(changed, why):
    here = of(OWN_STRING, force=2.0, **changed)
    assert here.held_back == why and here.force < 2.0
    assert (here.settings.height + here.up).min() >= LOWEST and here.force <= 0.1001 * here.tuned.tension
    assert max(np.abs(here.up).max(), np.abs(here.across).max()) <= WIDEST
    assert here.peak_velocity == pytest.approx(here.force / (2 * here.tuned.impedance))
    assert "held back to" in changes(replace(here.settings, cable=0.0), here.settings)


def test_the_sound_has_the_peak_and_dies_away():
    here = of()
    sound = here.sound()
    assert np.abs(sound).max() == pytest.approx(here.peak, rel=0.02)        # half as many samples
    assert np.abs(sound[-4410:]).max() < 0.3 * here.peak


# ---- what is kept ----------------------------------------------------------------------------------------------------

def test_a_moved_slider_solves_no_new_magnet(monkeypatch):
    of(), of(direction=1.0)

    def refuse(*_, **__):
        raise AssertionError("solved again")
    for name in ("flux_linkage", "inductance", "flux_density"):
        monkeypatch.setattr(Pickup, name, refuse)
    for changed in ({"height": 3.1e-3}, {"turns": 6100}, {"cable": 1e-10}, {"gauge": 41}, {"fret": 3}, {"force": 0.7},
                    {"pluck_place": 0.07}, {"pickup_place": 0.06}, {"scale_length": 0.65}, {"tone_setting": 0.1},
                    {"direction": 0.9}, {"direction": 1.0, "aside": 1.3e-3}):
        assert of(**changed).peak > 0


@pytest.mark.parametrize("start, name, end", ENDS, ids=lambda one: one if isinstance(one, str) else "")
def test_both_ends_of_every_slider_give_numbers(start, name, end):
    here = of(start, **{name: in_si(name, end)})
    assert all(np.isfinite(values).all() for values in (here.amplifier, here.voltage, here.linkage, *here.levels))
    assert (here.settings.height + here.up).max() < HIGHEST
