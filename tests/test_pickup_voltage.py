"""The voltage of a plucked string through the map of its linkages: closed forms, finite elements, samples."""
import math
from dataclasses import dataclass

import numpy as np
import pytest

from bell_pickup import DELTA, PSI, REST, STEEL, TIME, WIDTH, BellPickup, Pole, Swinging, Wire, workshop_string
from lessons_lib.base.workshop import house_coil, house_magnet, house_place, house_strings
from lessons_lib.physics.induction import induced_voltage, linkage_map, pickup_voltage
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.plucked_string import TunedString
from lessons_lib.physics.steel import SteelString
from lessons_lib.physics.winding import LongCoil


@dataclass(frozen=True)
class SlopePickup:
    """A stand-in whose linkage is a straight line of height."""

    slope: float
    poles: tuple = ()

    def flux_linkage(self, string, *, height, y=0.0):
        return 1e-3 - self.slope * height + 0 * y


# --- a plucked string

def test_ideal_string_over_a_straight_slope():
    # e = S F/(2Z), nothing or minus that: the chain of closed forms
    string = TunedString(length=0.6, tension=67.7, linear_density=0.385e-3, decay_up=0, decay_across=0, decay_growth=0)
    motion = string.pluck(force=1.0, place=0.1, highest_frequency=4000.5 * string.frequency(1))
    time = (np.arange(400) + 0.5) / 400 / string.frequency(1)
    voltage = pickup_voltage(SlopePickup(0.05), STEEL, motion, time, **REST)
    level = 0.05 * 1.0 / (2 * math.sqrt(67.7 * 0.385e-3))
    nearest = np.round(voltage / level)
    assert set(nearest) == {-1, 0, 1}
    assert (abs(voltage / level - nearest) < 0.02).mean() > 0.97        # all but the ripple at the steps


def test_chain_rule_is_the_derivative_of_the_sampled_linkage():
    motion = workshop_string().pluck(force=1.0, place=0.1, angle=0.6, highest_frequency=3e3)

    def worst(rate):
        time = np.arange(int(0.05 * rate)) / rate
        exact = pickup_voltage(BellPickup(), STEEL, motion, time, height=2.5e-3, place=0.15, y=0.7e-3)
        up, across = motion.displacement(time, 0.15)
        sampled = induced_voltage(BellPickup().flux_linkage(STEEL, height=2.5e-3 + up, y=0.7e-3 + across), time)
        return abs(exact - sampled)[1:-1].max() / abs(exact).max()
    assert math.log2(worst(96e3) / worst(192e3)) == pytest.approx(2, abs=0.1)
    assert worst(192e3) < (2 * np.pi * 3e3 / 192e3) ** 2 / 6          # step^2/6 of the fastest partial's curvature


def test_what_folds_back_is_weak():
    # a hard pluck of the lowest string, sampled at 48 kHz with the default partials: everything above 24 kHz
    motion = workshop_string().pluck(force=1.5, place=0.1, angle=0.3)
    rate = 384e3
    time = np.arange(2 ** 16) / rate
    voltage = pickup_voltage(BellPickup(), STEEL, motion, time, **REST)
    power = abs(np.fft.rfft(voltage * np.hanning(time.size))) ** 2
    frequency = np.fft.rfftfreq(time.size, 1 / rate)
    assert 10 * math.log10(power[frequency > 24e3].sum() / power.sum()) < -60


def test_map_against_the_closed_form():
    pickup, around = BellPickup(), linkage_map(BellPickup(), STEEL, height=(1.5e-3, 4e-3), y=(-2e-3, 3e-3))
    height, y = np.linspace(1.5e-3, 4e-3, 41)[:, np.newaxis], np.linspace(-2e-3, 3e-3, 37)
    exact = pickup.flux_linkage(None, height=height, y=y)
    assert around.linkage(height, y) == pytest.approx(exact, abs=1e-6 * PSI)
    by_height, by_y = around.gradient(height, y)
    assert by_height == pytest.approx(-exact / DELTA, abs=2e-5 * PSI / DELTA)
    assert by_y == pytest.approx(-2 * y / WIDTH ** 2 * exact, abs=2e-5 * PSI / DELTA)


@dataclass(frozen=True)
class WallPickup(BellPickup):
    """Refuses a string inside its pole, as a real one does."""

    def flux_linkage(self, string, *, height, y=0.0):
        assert np.min(height) > self.poles[0].top
        return super().flux_linkage(string, height=height, y=y)


@pytest.mark.parametrize("size", [1e-4, 2e-4, 4.0000001e-4, 6e-4, 0.85e-3])
def test_map_holds_the_motion_and_stays_clear_of_the_pole(size):
    # the map is a little larger than the motion, but never reaches into what the motion only just clears
    voltage = pickup_voltage(WallPickup(poles=(Pole(1.6e-3),)), STEEL, Swinging(100.0, up=size), TIME, **REST)
    assert voltage == pytest.approx(pickup_voltage(BellPickup(), STEEL, Swinging(100.0, up=size), TIME, **REST),
                                    abs=1e-4 * abs(voltage).max())


# --- the workshop's pickup

HOUSE_PICKUP = Pickup(poles=[RodMagnet(**house_magnet, y=y) for y in house_place["string_y"]],
                      coils=LongCoil(**house_coil))


@pytest.mark.parametrize("name, y, millivolts", [("VI", -5.1e-3, 82), ("VI", -25.5e-3, 76), ("III", 5.1e-3, 190)])
def test_first_peak_of_the_workshop(name, y, millivolts):
    # three-dimensional finite elements of magnets, coil and saturating string, at 2.5 mm: sensitivity times F/(2Z) of
    # 1 N; here a thousandth of that pluck, scaled up, so that the height stays that at rest
    string = house_strings[name]
    tuned = TunedString.tuned(frequency=string["frequency"], length=house_place["scale_length"],
                              linear_density=string["linear_density"])
    motion = tuned.pluck(force=1e-3, place=house_place["pluck_place"], highest_frequency=400.5 * tuned.frequency(1))
    # the middle of the first pulse at the pickup, mean over its ripples
    place = house_place["pickup_place"]
    time = (place - motion.place + 2 * np.linspace(0.3, 0.7, 101) * motion.place) / motion.string.wave_speed
    voltage = pickup_voltage(HOUSE_PICKUP, SteelString(diameter=string["core"]), motion, time, height=2.5e-3, y=y,
                             place=place)
    assert abs(voltage.mean()) * 1e3 * 1e3 == pytest.approx(millivolts, rel=0.01)


def test_voltage_of_the_workshop_is_that_of_its_sampled_linkage():
    # beyond the map: the linkage asked of the pickup itself at the string's places, both planes, a strong pluck
    motion = workshop_string().pluck(force=1.0, place=0.1, angle=0.6, highest_frequency=2e3)
    steel, time = SteelString(diameter=0.46e-3), 0.2e-3 + np.arange(60) / 192e3
    up, across = motion.displacement(time, 0.15)
    sampled = induced_voltage(HOUSE_PICKUP.flux_linkage(steel, height=2.5e-3 + up, y=1e-3 + across), time)
    voltage = pickup_voltage(HOUSE_PICKUP, steel, motion, time, height=2.5e-3, place=0.15, y=1e-3)
    # second order: (2 pi 2 kHz step)^2/6 = 7e-4 of the fastest partial; the map's slopes: 5e-4
    assert voltage[1:-1] == pytest.approx(sampled[1:-1], abs=1e-3 * abs(voltage).max())


def test_still_string_gives_nothing():
    motion = workshop_string().pluck(force=0.0, place=0.1)
    assert not pickup_voltage(BellPickup(), STEEL, motion, TIME, **REST).any()


@dataclass(frozen=True)
class SteppedPickup:
    """A linkage with a jump: no smooth map."""

    poles: tuple = ()

    def flux_linkage(self, string, *, height, y=0.0):
        return np.sign(height - 2.5e-3) + 0 * y


@pytest.mark.parametrize("pickup, swing, where, message", [
    (BellPickup(), Swinging(100.0, up=3e-3), {},
     "lowest height of the moving string must be above 0 m, or it hits the pickup; got "),
    (BellPickup(poles=(Pole(2e-3),)), Swinging(100.0, up=0.6e-3), {},
     "lowest height of the moving string must be above 0.002 m, or it hits the pickup; got "),
    (SteppedPickup(), Swinging(100.0, up=1e-3), {},
     "range of the motion must be one over which the flux linkage is smooth; got "),
    (BellPickup(), Swinging(100.0), {"height": -1e-3}, "height must be a finite number above zero; got -0.001."),
    (BellPickup(), Swinging(100.0), {"y": math.nan}, "y must be a finite number; got nan."),
])
def test_pickup_voltage_refuses(pickup, swing, where, message):
    with pytest.raises(ValueError) as refusal:
        pickup_voltage(pickup, STEEL, swing, TIME, **REST | where)
    assert str(refusal.value).startswith(message)


def test_a_wound_string_hits_with_its_wrap():
    swing, where = Swinging(100.0, up=0.6e-3), {"height": 2.7e-3, "place": 0.15}     # the axis comes down to 2.1 mm
    pickup = BellPickup(poles=(Pole(1.6e-3),))
    assert pickup_voltage(pickup, Wire(outer_radius=0.2e-3), swing, TIME, **where).any()
    with pytest.raises(ValueError, match="^lowest height of the moving string must be above 0.0022 m, or it hits"):
        pickup_voltage(pickup, Wire(outer_radius=0.6e-3), swing, TIME, **where)


def test_map_refuses_what_lies_outside():
    around = linkage_map(BellPickup(), STEEL, height=(2e-3, 3e-3), y=(0.0, 0.0))
    with pytest.raises(ValueError, match=r"^height must be on the map, 0.002 to 0.003 m; got "):
        around.linkage(3.1e-3, 0.0)
    with pytest.raises(ValueError, match=r"^y must be on the map, 0 to 0 m; got "):
        around.gradient(2.5e-3, 1e-3)
