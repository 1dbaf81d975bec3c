"""How strong a pluck is: partials, RMS and energy of the ideal string by force, displacement or energy at any fret."""
import math

import numpy as np
import pytest

from ideal_string import LENGTH, finely, ideal
from lessons_lib.base.workshop import house_strings
from lessons_lib.physics.plucked_string import TunedString


def rms(motion, place):
    return math.sqrt((motion.partials(place).velocity_up ** 2).sum() / 2)


@pytest.mark.parametrize("place, heard", [(0.1, 0.15), (0.2, 0.05), (0.55, 0.3), (0.5, 0.45)])
def test_rms_law(place, heard):
    motion = finely(ideal(), force=1.0, place=place)
    share = 2 * min(place, heard, LENGTH - place, LENGTH - heard) / LENGTH
    # sum of v_n^2 from 4001 on: under 2/(pi^2 4000) of F^2/(4 Z^2) x 4
    assert rms(motion, heard) == pytest.approx(motion.peak_velocity * math.sqrt(share), rel=2e-3)


def test_first_row_same_force_any_fret():
    open_string = ideal()
    octave = open_string.at_fret(12)
    low, high = (finely(string, force=1.0, place=0.1) for string in (open_string, octave))
    assert high.peak_velocity == pytest.approx(low.peak_velocity, rel=1e-12)
    # fixed places in the nearer half: RMS rises 3.0 dB an octave
    assert 20 * math.log10(rms(high, 0.15) / rms(low, 0.15)) == pytest.approx(10 * math.log10(2), abs=0.01)
    # the fundamental: (4/pi) sin(pi p) sin(pi q) of F/(2Z), 0.450 open and 1.103 at the octave
    fundamental = [motion.partials(0.15).velocity_up[0] / motion.peak_velocity for motion in (low, high)]
    assert fundamental == pytest.approx([4 / math.pi * 0.5 * math.sqrt(0.5), 4 / math.pi * math.sqrt(0.75)], rel=1e-9)
    # at fixed fractions of the string it stays
    scaled = finely(octave, force=1.0, place=0.05)
    assert scaled.partials(0.075).velocity_up[0] == pytest.approx(low.partials(0.15).velocity_up[0], rel=1e-9)


def test_second_row_same_displacement_same_fraction():
    low, high = (string.pluck(displacement=1e-3, place=string.length / 6) for string in (ideal(), ideal().at_fret(12)))
    assert high.peak_velocity / low.peak_velocity == pytest.approx(2, rel=1e-12)
    # v = f1 X/(p (1 - p))
    assert low.peak_velocity == pytest.approx(ideal().frequency(1) * 1e-3 * 36 / 5, rel=1e-12)


@pytest.mark.parametrize("place, ratio", [(0.05, 1.10), (0.1, 1.25), (0.15, 1.50)])
def test_third_row_same_displacement_fixed_place(place, ratio):
    # (c X/2)(1/x0 + 1/(L - x0)), L = 600 and 300 mm: 11/10, 5/4, 3/2
    low, high = (string.pluck(displacement=1e-3, place=place) for string in (ideal(), ideal().at_fret(12)))
    assert high.peak_velocity / low.peak_velocity == pytest.approx(ratio, rel=1e-12)


def test_fourth_row_same_energy_same_fraction():
    low, high = (finely(string, energy=1e-3, place=string.length / 6) for string in (ideal(), ideal().at_fret(12)))
    for part in (lambda m: m.peak_velocity, lambda m: rms(m, m.string.length / 4),
                 lambda m: m.partials(m.string.length / 4).velocity_up[0]):
        assert part(high) / part(low) == pytest.approx(math.sqrt(2), rel=1e-9)


def test_fifth_row_different_strings_same_force():
    for name in ("I", "III", "VI"):
        string = TunedString.tuned(frequency=house_strings[name]["frequency"], length=LENGTH,
                                   linear_density=house_strings[name]["linear_density"])
        assert string.pluck(force=1.0, place=0.1).peak_velocity == pytest.approx(
            1.0 * LENGTH * string.frequency(1) / string.tension, rel=1e-12)


def test_sixth_row_within_one_pluck():
    string = ideal()
    parts = string.pluck(force=1.0, place=0.1).partials(0.15)
    n, combs = parts.number, np.sin(parts.number * np.pi / 6) * np.sin(parts.number * np.pi / 4)
    assert parts.displacement_up * n ** 2 == pytest.approx(2 * LENGTH / (math.pi ** 2 * 67.7) * combs, abs=1e-15)
    assert parts.velocity_up * n == pytest.approx(2 / (math.pi * string.impedance) * combs, abs=1e-11)


def test_midpoint_pluck_of_the_books():
    # N. H. Fletcher, T. D. Rossing, The Physics of Musical Instruments, ch. 2 (from memory): 1, 0, -1/9, 0, 1/25
    at_middle = ideal().pluck(displacement=1e-3, place=LENGTH / 2).partials(LENGTH / 2).displacement_up
    signs = np.sin(np.arange(1, 6) * np.pi / 2)      # heard at the middle, each partial has its own sign once more
    assert at_middle[:5] / at_middle[0] == pytest.approx([1, 0, 1 / 9, 0, 1 / 25], abs=1e-12)
    assert at_middle[:5] / at_middle[0] * signs == pytest.approx([1, 0, -1 / 9, 0, 1 / 25], abs=1e-12)


@pytest.mark.parametrize("width", [0.0, 5e-3, 0.02])
def test_force_displacement_and_energy_are_one_pluck(width):
    string = ideal()
    motion = finely(string, force=0.5, place=0.1, width=width)
    for one in ({"displacement": motion.release_displacement}, {"energy": motion.release_energy}):
        assert string.pluck(**one, place=0.1, width=width).release_force == pytest.approx(0.5, rel=1e-12)
    # the partials, summed, tell the same: middle of the finger, and (1/4) mu L omega^2 a^2 each
    parts = motion.partials(0.1)
    shape = np.sin(parts.number * np.pi / 6)
    speeds = 2 * np.pi * parts.frequency * parts.displacement_up / shape
    energy = 0.25 * 0.385e-3 * LENGTH * (speeds ** 2).sum()
    assert parts.displacement_up.sum() == pytest.approx(motion.release_displacement, rel=1e-3)
    assert energy == pytest.approx(motion.release_energy, rel=1.5e-3)
    if not width:
        assert motion.release_energy == pytest.approx(0.5 * 0.5 * motion.release_displacement, rel=1e-12)


def test_wide_finger_is_many_points_and_aperture_a_mean():
    string, offsets = ideal(), ((np.arange(200) + 0.5) / 200 - 0.5) * 0.01
    wide = string.pluck(force=1.0, place=0.1, width=0.01).partials(0.15).velocity_up
    points = np.mean([string.pluck(force=1.0, place=0.1 + offset).partials(0.15).velocity_up
                      for offset in offsets], axis=0)
    assert wide == pytest.approx(points, abs=1e-5 * abs(wide).max())
    motion = string.pluck(force=1.0, place=0.1)
    time = np.linspace(0, 5e-3, 50)
    assert motion.velocity(time, 0.15, aperture=0.01)[0] == pytest.approx(
        motion.velocity(time, 0.15 + offsets)[0].mean(axis=1), abs=1e-4)
