"""Induction against worked examples of Faraday's law, and Bessel series of curved linkages."""
import math
from types import SimpleNamespace

import numpy as np
import pytest
from scipy.integrate import trapezoid
from scipy.special import iv

from bell_pickup import DELTA, PSI, REST, STEEL, TIME, WIDTH, BellPickup, Swinging
from lessons_lib.physics.induction import harmonic_levels, induced_voltage, pickup_voltage

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
