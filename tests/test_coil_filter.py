"""The coil's circuit as a filter of signals in time: steady sines, a differential equation's solver, edges."""
import math

import numpy as np
import pytest
from scipy import signal as filters

from coil_circuits import HOUSE, plain

RATE = 48000.0


@pytest.mark.parametrize("frequency", [100.0, 1000.0, 4000.0, 15000.0])
def test_filter_against_a_steady_sine(frequency):
    time = np.arange(int(0.25 * RATE)) / RATE
    # faded in and out: a sine that starts at once is not band-limited
    fade = filters.windows.tukey(len(time), 0.4)
    out = HOUSE.apply(fade * np.sin(2 * math.pi * frequency * time), RATE)
    expected = np.imag(HOUSE.response(frequency) * np.exp(2j * math.pi * frequency * time))
    # the response bends over the fading's width of 20 Hz: 1e-4
    middle = slice(len(time) * 2 // 5, len(time) * 3 // 5)
    assert out[middle] == pytest.approx(expected[middle], abs=3e-4 * np.abs(expected).max())


def test_filter_against_a_differential_equation_solver():
    coil = plain(resistance=6.5e3, inductance=3.0, capacitance=600e-12, load=200e3)
    rate, count = 400e3, 8000
    time = np.arange(count) / rate
    pulse = np.exp(-((time - 5e-3) / 2e-4) ** 2)
    system = filters.lti([1.0], [3.0 * 600e-12, 3.0 / 200e3 + 6.5e3 * 600e-12, 1 + 6.5e3 / 200e3])
    _, expected, _ = filters.lsim(system, pulse, time)
    # lsim joins the samples by straight lines: (dt^2/12) d2/dt2 = 3e-5 of the pulse
    assert coil.apply(pulse, rate) == pytest.approx(expected, abs=1e-4)


def test_filter_does_not_wrap_round():
    # a pulse near the end rings beyond it; nothing of that may show at the beginning
    pulse = np.zeros(4000)
    pulse[3890:3900] = filters.windows.hann(10)
    out = plain(resistance=1e3, inductance=3.0, capacitance=600e-12).apply(pulse, RATE)
    assert np.abs(out[3900:]).max() > 0.1
    assert np.abs(out[:3000]).max() < 1e-6


def test_filter_passes_direct_current():
    steady = np.ones((2, 20000))
    out = HOUSE.apply(steady, RATE)
    assert out.shape == steady.shape
    # the slowest time constant is 11 ms, 5 samples in a hundred; near the end the cut-off rings back as 1/distance
    assert out[:, 10000] == pytest.approx(HOUSE.response(0.0).real, abs=1e-4)


def test_filter_is_linear_and_takes_rows():
    rows = np.random.default_rng(1).normal(size=(3, 500))
    assert HOUSE.apply(rows, RATE)[1] == pytest.approx(HOUSE.apply(rows[1], RATE), abs=1e-12)
    assert HOUSE.apply(2 * rows[0] + rows[2], RATE) == pytest.approx(
        2 * HOUSE.apply(rows[0], RATE) + HOUSE.apply(rows[2], RATE), abs=1e-12)


@pytest.mark.parametrize("signal, sample_rate, message", [
    (1.0, RATE, "signal must be an array of shape (..., n) with n above zero; got "),
    ([1.0], 0.0, "sample_rate must be a finite number above zero; got 0.0."),
])
def test_refused_signals(signal, sample_rate, message):
    with pytest.raises(ValueError) as caught:
        HOUSE.apply(signal, sample_rate)
    assert str(caught.value).startswith(message)
