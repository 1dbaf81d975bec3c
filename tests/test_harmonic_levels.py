"""Harmonics read off a signal: against a transform, broken periods, a stiff string's partials."""
import numpy as np
import pytest

from bell_pickup import TIME, workshop_string
from lessons_lib.physics.induction import harmonic_levels


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
