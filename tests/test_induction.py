"""Induction against worked examples, Bessel series of curved linkages and the ideal string's closed forms."""
import math
from dataclasses import dataclass
from types import SimpleNamespace

import numpy as np
import pytest
from scipy.integrate import trapezoid
from scipy.special import iv

from lessons_lib.base.workshop import house_coil, house_magnet, house_place, house_strings
from lessons_lib.physics.induction import harmonic_levels, induced_voltage, linkage_map, pickup_voltage
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.plucked_string import TunedString
from lessons_lib.physics.steel import SteelString
from lessons_lib.physics.winding import LongCoil

PSI, DELTA, WIDTH = 5e-4, 3e-3, 4e-3     # Wb-turns at height 0, decay length of the linkage, width across


@dataclass(frozen=True)
class Wire:
    """All that the map asks of a string: the radius that must clear the poles, wrap included."""

    outer_radius: float = 0.0


@dataclass(frozen=True)
class Pole:
    top: float


@dataclass(frozen=True)
class BellPickup:
    """A stand-in with a closed form: exponential in height, a bell across."""

    poles: tuple = ()

    def flux_linkage(self, string, *, height, y=0.0):
        return PSI * np.exp(-height / DELTA - (y / WIDTH) ** 2)


@dataclass(frozen=True)
class SlopePickup:
    """A stand-in whose linkage is a straight line of height."""

    slope: float
    poles: tuple = ()

    def flux_linkage(self, string, *, height, y=0.0):
        return 1e-3 - self.slope * height + 0 * y


@dataclass(frozen=True)
class Swinging:
    """One sine in each plane."""

    frequency: float
    up: float = 0.0
    across: float = 0.0

    def displacement(self, time, place, aperture=0.0):
        return tuple(size * np.cos(2 * np.pi * self.frequency * time) for size in (self.up, self.across))

    def velocity(self, time, place, aperture=0.0):
        omega = 2 * np.pi * self.frequency
        return tuple(-omega * size * np.sin(omega * time) for size in (self.up, self.across))


STEEL = Wire()
TIME = np.arange(4800) / 48000           # ten periods of 100 Hz
REST = dict(height=2.5e-3, place=0.15)


def workshop_string(**more):
    return TunedString.tuned(frequency=87.3, length=0.6, linear_density=7.23e-3, core_diameter=0.46e-3, **more)


# --- Faraday's law on samples

def test_square_coil_of_the_textbook():
    # University Physics (OpenStax 2016), m58472: 200 turns, 0.25 m square, 0.040 T/s: 0.50 V
    time = np.array([0.0, 0.1, 0.3, 0.35])
    assert abs(induced_voltage(200 * 0.25 ** 2 * 0.040 * time, time)) == pytest.approx([0.50] * 4, rel=1e-9)


def test_quarter_turn_of_the_textbook():
    # the same book, m58481: 200 turns of radius 5.00 cm, 0.80 T, a quarter turn in 15.0 ms: 131 V, which is the highest
    # voltage (131.6 before the book's rounding); the mean is N B A/time = 83.8 V
    time = np.linspace(0, 15e-3, 1001)
    linkage = 200 * math.pi * 0.05 ** 2 * 0.80 * np.cos(math.pi / 2 * time / 15e-3)
    voltage = induced_voltage(linkage, time)
    assert voltage.max() == pytest.approx(131, abs=0.7)
    assert trapezoid(voltage, time) / 15e-3 == pytest.approx(83.8, abs=0.05)


def test_rotating_coil_of_the_textbook():
    # the same book, m58477: amplitude N B A omega; sign: the flux falls first, so the voltage starts positive
    time = np.linspace(0, 0.02, 2001)
    voltage = induced_voltage(0.3 * np.cos(314.0 * time), time)
    # second order: omega^2 step^2/6 = 1.6e-6
    assert voltage == pytest.approx(0.3 * 314.0 * np.sin(314.0 * time), abs=0.3 * 314.0 * 4e-6)


def test_second_order_with_uneven_steps_too():
    def worst(count):
        time = np.linspace(0, 1, count) ** 1.5 + 0.2
        return abs(induced_voltage(np.sin(5 * time), time) + 5 * np.cos(5 * time)).max()
    # h^2/6 f''' inside, h^2/3 at the ends; steps up to 1.5 times the mean
    assert worst(401) < (1.5 / 400) ** 2 / 3 * 125
    assert math.log2(worst(201) / worst(401)) == pytest.approx(2, abs=0.1)


def test_exact_for_a_parabola_and_for_rows():
    time = np.array([0.0, 0.5, 0.6, 2.0])
    rows = np.stack([3 * time ** 2 - time, 5 * time])
    assert induced_voltage(rows, time) == pytest.approx(np.stack([1 - 6 * time, np.full(4, -5.0)]), abs=1e-12)


# --- a curved linkage, one sine

def test_second_harmonic_of_an_exponential_law():
    # exp(-(h + a cos)/delta): harmonics of the linkage 2 I_n(a/delta), of the voltage n omega times that
    # (M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 9.6.34)
    a = 0.4e-3
    voltage = pickup_voltage(BellPickup(), STEEL, Swinging(100.0, up=a), TIME, **REST)
    found = harmonic_levels(voltage, TIME, fundamental=100.0, count=4).amplitude
    n = np.arange(1, 5)
    expected = PSI * math.exp(-2.5e-3 / DELTA) * 2 * iv(n, a / DELTA) * n * 2 * np.pi * 100
    assert found == pytest.approx(expected, rel=1e-6, abs=1e-6 * expected[0])
    # to first order a/(2 delta); the next term is (a/delta)^2/24 of it
    assert found[1] / found[0] == pytest.approx(a / (2 * DELTA), rel=1e-3)
    linkage = BellPickup().flux_linkage(STEEL, height=2.5e-3 + a * np.cos(2 * np.pi * 100 * TIME))
    in_linkage = harmonic_levels(linkage, TIME, fundamental=100.0, count=2)
    assert in_linkage.amplitude[1] / in_linkage.amplitude[0] == pytest.approx(a / (4 * DELTA), rel=1e-3)


def test_sideways_over_the_centre_gives_even_harmonics_only():
    a = 1e-3
    voltage = pickup_voltage(BellPickup(), STEEL, Swinging(100.0, across=a), TIME, **REST)
    found = harmonic_levels(voltage, TIME, fundamental=100.0, count=4)
    z, rest = a ** 2 / (2 * WIDTH ** 2), PSI * math.exp(-2.5e-3 / DELTA)
    even = rest * math.exp(-z) * 2 * iv([1, 2], z) * np.array([2, 4]) * 2 * np.pi * 100
    assert found.amplitude == pytest.approx([0, even[0], 0, even[1]], abs=1e-5 * even[0])
    # the octave is as loud as it is, whatever stands in the denominator
    assert found.level(reference=even[0])[1] == pytest.approx(0, abs=1e-5)


def test_sideways_off_the_centre_brings_the_fundamental_back():
    a, y, omega = 0.2e-3, 1.5e-3, 2 * np.pi * 100
    voltage = pickup_voltage(BellPickup(), STEEL, Swinging(100.0, across=a), TIME, y=y, **REST)
    found = harmonic_levels(voltage, TIME, fundamental=100.0, count=2).amplitude
    slope = 2 * y / WIDTH ** 2 * PSI * math.exp(-2.5e-3 / DELTA - (y / WIDTH) ** 2)
    assert found[0] == pytest.approx(slope * a * omega, rel=2e-3)       # next term (a/w)^2
    assert found[0] > 10 * found[1]


def test_signs():
    # rising string: linkage falls, voltage positive
    rising = SimpleNamespace(displacement=lambda t, x, aperture: (0.01 * t, 0 * t), velocity=lambda t, x, aperture: (
        0.01 + 0 * t, 0 * t))
    assert (pickup_voltage(BellPickup(), STEEL, rising, TIME, **REST) > 0).all()


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


# --- lines of a signal

def test_lines_are_those_of_a_transform_over_whole_periods():
    rng = np.random.default_rng(5)
    signal = sum(size * np.cos(2 * np.pi * 100 * n * TIME + phase)
                 for n, (size, phase) in enumerate(rng.uniform(0, 3, (40, 2))))
    transform = 2 * abs(np.fft.rfft(signal)[10:110:10]) / TIME.size
    found = harmonic_levels(signal, TIME, fundamental=100.0, count=10)
    assert found.amplitude == pytest.approx(transform, rel=1e-9)
    assert found.level() == pytest.approx(20 * np.log10(transform / transform[0]), abs=1e-9)


@pytest.mark.parametrize("length", [0.0437, 0.0999, 0.5])
def test_broken_periods_do_not_leak(length):
    time = np.arange(int(length * 48000)) / 48000
    signal = sum(np.cos(2 * np.pi * 97.3 * n * time + n) for n in range(1, 31))
    # four periods at least: the window's side lobes four bins and more away, cut at a sample: 1 %, quickly less
    assert harmonic_levels(signal, time, fundamental=97.3, count=5).amplitude == pytest.approx(
        np.ones(5), abs=0.01 * (4 / (97.3 * length)) ** 2)


def test_lines_of_a_stiff_string():
    string = workshop_string(decay_up=0.0, decay_across=0.0, decay_growth=0.0)
    motion = string.pluck(force=0.2, place=0.1)
    time = np.arange(24000) / 48000
    found = harmonic_levels(motion.velocity(time, 0.15)[0], time, fundamental=string.frequency(1), count=12,
                            inharmonicity=string.inharmonicity)
    parts = motion.partials(0.15)
    assert found.frequency == pytest.approx(parts.frequency[:12], rel=1e-12)
    assert found.amplitude == pytest.approx(abs(parts.velocity_up[:12]), abs=1e-4 * found.amplitude.max())


# --- bad input

@pytest.mark.parametrize("flux, time, message", [
    ([0.0, 1.0], [0.0, 1.0], "time must be a list of three instants or more; got 'shape (2,)'."),
    ([0.0, 1.0, 2.0], [0.0, 1.0, 1.0], "time must be strictly increasing; got 'a step of 0 s'."),
    ([0.0, 1.0, 2.0], [0.0, 2.0, 1.0], "time must be strictly increasing; got 'a step of -1 s'."),
    ([0.0, 1.0], [0.0, 1.0, 2.0], "flux_linkage must be as long as time, 3 samples; got 'shape (2,)'."),
    ([0.0, math.nan, 2.0], [0.0, 1.0, 2.0], "flux_linkage must be an array of finite numbers; got "),
    ([0.0, 1.0, 2.0], [0.0, math.nan, 2.0], "time must be an array of finite numbers; got "),
])
def test_induced_voltage_refuses(flux, time, message):
    with pytest.raises(ValueError) as refusal:
        induced_voltage(flux, time)
    assert str(refusal.value).startswith(message)


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


@pytest.mark.parametrize("change, message", [
    ({"fundamental": 30.0}, "signal must be four periods of the fundamental or longer; got '3 periods'."),
    ({"fundamental": 0.0}, "fundamental must be a finite number above zero; got 0.0."),
    ({"fundamental": 100.0, "count": 240}, "highest line must be below half the sampling rate, 24000 Hz; got 24000.0."),
    ({"fundamental": 100.0, "count": 2.5}, "count must be a whole number; got 2.5."),
    ({"fundamental": 100.0, "signal": TIME[1:]}, "signal must be as long as time, 4800 samples; got 'shape (4799,)'."),
])
def test_harmonic_levels_refuse(change, message):
    with pytest.raises(ValueError) as refusal:
        harmonic_levels(**{"signal": TIME, "time": TIME} | change)
    assert str(refusal.value) == message
