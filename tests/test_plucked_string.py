"""The plucked string's frequencies and motion, against published worked examples and travelling waves."""
import math

import numpy as np
import pytest

from ideal_string import LENGTH, finely, ideal
from lessons_lib.base.workshop import house_strings
from lessons_lib.physics.plucked_string import TunedString

STRING = dict(length=LENGTH, tension=60.0, linear_density=1e-3)


def test_wave_speed_of_the_textbook():
    # University Physics (OpenStax 2016), m58370: 3.09e-4 kg/m at 56.40 N: 427.23 m/s; 5.78e-3 kg/m as fast: 1055.00 N
    string = TunedString(length=0.648, tension=56.40, linear_density=3.09e-4)
    assert string.wave_speed == pytest.approx(427.23, abs=0.005)
    assert 5.78e-3 * string.wave_speed ** 2 == pytest.approx(1055.00, abs=0.03)
    # the same book's standard tuning, E4 = 329.63 Hz, belongs to a length of 0.648 m
    assert string.frequency(1) == pytest.approx(329.63, rel=1e-4)


def test_notes_of_the_textbook():
    # University Physics (OpenStax 2016), m58373: 2.00 m, 0.006 kg/m, 2.00 kg hung at 9.8 m/s2
    string = TunedString(length=2.0, tension=2.0 * 9.8, linear_density=0.006)
    assert string.frequency([1, 2, 3]) == pytest.approx([14.29, 28.58, 42.87], abs=0.01)


@pytest.mark.parametrize("diameter_cm, note, length_cm", [(0.0254, 329.63, 64.8), (0.1, 261.63, 62.0)])
def test_stiffness_after_young(diameter_cm, note, length_cm):
    # R. W. Young, J. Acoust. Soc. Am. 24, 267 (1952): 3.4e13 n^2 d^2/(f0^2 l^4) cent, steel of E/rho = 25.5e10 cm2/s2
    density = 7850.0
    area = math.pi * (diameter_cm / 100) ** 2 / 4
    string = TunedString(
        length=length_cm / 100, linear_density=density * area, core_diameter=diameter_cm / 100,
        tension=density * area * (2 * length_cm / 100 * note) ** 2, young_modulus=25.5e10 * 1e-4 * density)
    n = np.arange(1, 6)
    cents = 1200 * np.log2(string.frequency(n) / (n * note))
    # two printed digits (the third is 0: 3.404), and the next term of the root, B n^2 / 2 of it
    assert cents == pytest.approx(3.4e13 * n ** 2 * diameter_cm ** 2 / (note ** 2 * length_cm ** 4), rel=0.008)


def test_tuned_counts_the_stiffness():
    for string in house_strings.values():
        tuned = TunedString.tuned(frequency=string["frequency"], length=LENGTH, core_diameter=string["core"],
                                  linear_density=string["linear_density"])
        assert tuned.frequency(1) == pytest.approx(string["frequency"], rel=1e-12)
        assert 60 < tuned.tension < 90          # the trade's range


def test_impedances_of_the_workshop():
    # table of the lessons' house strings: T and Z from density, diameter, note and 0.6 m; linear densities here have
    # three digits, the table's none rounded
    for name, tension, impedance in (("I", 67.7, 0.161), ("III", 70.8, 0.284), ("VI", 79.3, 0.757)):
        string = TunedString.tuned(frequency=house_strings[name]["frequency"], length=LENGTH,
                                   linear_density=house_strings[name]["linear_density"])
        assert string.tension == pytest.approx(tension, rel=2e-3)
        assert string.impedance == pytest.approx(impedance, abs=0.0006)


def test_frets_keep_tension_and_raise_the_note():
    string = ideal()
    frets = [string.at_fret(n) for n in (0, 7, 12)]
    assert [fret.tension for fret in frets] == [string.tension] * 3
    assert [fret.frequency(1) / string.frequency(1) for fret in frets] == pytest.approx([1, 2 ** (7 / 12), 2])


def triangle(string, motion, x):
    beyond = string.length - motion.place
    return motion.release_displacement * np.minimum(x / motion.place, (string.length - x) / beyond)


def test_motion_is_two_travelling_waves():
    # d'Alembert: y(x, t) = (f(x - ct) + f(x + ct))/2 with the released triangle f continued oddly at both ends
    string = ideal()
    motion = finely(string, force=1.0, place=0.1)

    def continued(x):
        x = np.mod(x + string.length, 2 * string.length) - string.length
        return np.sign(x) * triangle(string, motion, abs(x))
    time, place = np.linspace(0, 5e-3, 37), np.linspace(0, string.length, 23)
    travelled = string.wave_speed * time[:, np.newaxis]
    expected = (continued(place - travelled) + continued(place + travelled)) / 2
    up, across = motion.displacement(time, place)
    # partials left out: sum of 2 F L/(n^2 pi^2 T) from 4001 on
    assert abs(up - expected).max() < 2 * 1.0 * LENGTH / (math.pi ** 2 * string.tension * 4000)
    assert up.shape == (37, 23) and not across.any()


@pytest.mark.parametrize("fret", [0, 5, 12])
def test_speed_is_nought_or_half_force_over_impedance_at_every_fret(fret):
    string = ideal().at_fret(fret)
    motion = finely(string, force=0.8, place=0.1)
    level = 0.8 / (2 * math.sqrt(67.7 * 0.385e-3))
    speed = motion.velocity((np.arange(1000) + 0.5) / 1000 / string.frequency(1), 0.15)[0] / level
    assert motion.peak_velocity == pytest.approx(level)
    for value in (-1, 0, 1):
        assert (abs(speed - value) < 0.02).any()
    near = np.minimum.reduce([abs(speed - value) for value in (-1, 0, 1)]) < 0.02
    # what is near none of the three levels is the ripple at four steps a period: a few samples of 1000 each
    assert near.mean() > 0.97
    p, q = 0.1 / string.length, 0.15 / string.length
    assert (abs(speed) > 0.5).mean() == pytest.approx(2 * min(p, q, 1 - p, 1 - q), abs=0.004)


def test_each_plane_has_its_own_decay():
    string = TunedString(**STRING, decay_up=3.0, decay_across=1.0, decay_growth=1e-8)
    motion = string.pluck(force=1.0, place=0.2, angle=0.7, highest_frequency=1.5 * string.frequency(1))
    parts = motion.partials(0.3)
    assert len(parts.number) == 1
    growth = 1e-8 * (2 * np.pi * parts.frequency[0]) ** 2
    whole_periods = np.array([0, 20, 60]) / parts.frequency[0]
    for plane, rate, share in zip(motion.displacement(whole_periods, 0.3), (3.0, 1.0), (math.cos(0.7), math.sin(0.7))):
        start = share * 2 * LENGTH / (np.pi ** 2 * 60.0) * math.sin(np.pi / 3)
        assert plane == pytest.approx(start * np.exp(-(rate + growth) * whole_periods), rel=1e-9)


def test_direction_of_the_pull():
    string = ideal()
    for angle, signs in ((0.0, (1, 0)), (math.pi / 2, (0, 1)), (math.pi, (-1, 0)), (-math.pi / 2, (0, -1))):
        pulled = string.pluck(displacement=1e-3, place=0.1, angle=angle).displacement(0.0, 0.1)
        assert np.sign(pulled) == pytest.approx(signs)


def workshop_motion(**pluck):
    string = TunedString.tuned(frequency=87.3, length=LENGTH, linear_density=7.23e-3, core_diameter=0.46e-3)
    return string.pluck(**{"force": 1.0, "place": 0.1, "angle": 0.5} | pluck)


def test_velocity_is_the_rate_of_displacement():
    motion, time, step = workshop_motion(), np.linspace(1e-3, 0.5, 40), 1e-7
    for slope, after, before in zip(motion.velocity(time, 0.15), motion.displacement(time + step, 0.15),
                                    motion.displacement(time - step, 0.15)):
        # central difference: step^2/6 (2 pi 10 kHz)^2 of the velocity, 7e-6, and rounding
        assert (after - before) / (2 * step) == pytest.approx(slope, abs=2e-5)


def test_held_still_until_time_zero():
    motion = workshop_motion()
    before, at_release = motion.displacement([-1.0, -1e-6], 0.15), motion.displacement(0.0, 0.15)
    for plane, start in zip(before, at_release):
        assert plane == pytest.approx([float(start)] * 2, rel=1e-12)
    assert np.array(motion.velocity([-1.0, 0.0], 0.15)) == pytest.approx(np.zeros((2, 2)), abs=1e-12)


def test_even_steps_give_the_same_as_one_by_one():
    motion, time, places = workshop_motion(), 0.01 + np.arange(6000) / 48000, np.array([0.15, 0.4])
    picked = [0, 1, 77, 4095, 4096, 5999]
    fast = motion.velocity(time, places)
    for plane, slow in zip(fast, motion.velocity(time[picked], places)):
        assert plane[picked] == pytest.approx(slow, abs=1e-11)
    uneven = time.copy()
    uneven[7] += 1e-6
    for plane, slow, alone in zip(fast, motion.velocity(uneven, places), motion.velocity(uneven[7], places)):
        assert np.delete(plane, 7, axis=0) == pytest.approx(np.delete(slow, 7, axis=0), abs=1e-11)
        assert slow[7] == pytest.approx(alone, abs=1e-11)
        assert abs(alone - plane[7]).max() > 1e-5


def test_no_partial_above_the_highest_frequency():
    parts = workshop_motion(highest_frequency=5e3).partials(0.15)
    assert parts.frequency[-1] <= 5e3 < workshop_motion().string.frequency(parts.number[-1] + 1)


@pytest.mark.parametrize("change, message", [
    ({"tension": -60.0}, "tension must be a finite number above zero; got -60.0."),
    ({"length": math.nan}, "length must be a finite number above zero; got nan."),
    ({"core_diameter": -1e-3}, "core_diameter must be a finite number, zero or above; got -0.001."),
    ({"decay_up": -1.0}, "decay_up must be a finite number, zero or above; got -1.0."),
])
def test_string_refuses(change, message):
    with pytest.raises(ValueError) as refusal:
        TunedString(**STRING | change)
    assert str(refusal.value) == message


@pytest.mark.parametrize("pluck, message", [
    ({"place": 0.1}, "strength of the pluck must be exactly one of force, displacement, energy; got 'none'."),
    ({"force": 1.0, "energy": 1e-3, "place": 0.1},
     "strength of the pluck must be exactly one of force, displacement, energy; got 'force, energy'."),
    ({"force": -1.0, "place": 0.1}, "force must be a finite number, zero or above; got -1.0."),
    ({"force": 1.0, "place": 0.7}, "place must be a number from 0 to 0.6; got 0.7."),
    ({"force": 1.0, "place": 0.0}, "place must be on the string of 0.6 m with a finger's width of 0 m; got 0.0."),
    ({"force": 1.0, "place": 0.01, "width": 0.03},
     "place must be on the string of 0.6 m with a finger's width of 0.03 m; got 0.01."),
    ({"force": 1.0, "place": math.nan}, "place must be a number from 0 to 0.6; got nan."),
    ({"displacement": 1.5, "place": 0.1}, "release force must be at most a tenth of the tension, 6 N; got 1080.0"),
    ({"force": 1.0, "place": 0.1, "highest_frequency": 100.0},
     "highest_frequency must be above the first partial, 204.1 Hz; got 100.0."),
    ({"force": 1.0, "place": 0.1, "angle": math.inf}, "angle must be a finite number; got inf."),
])
def test_pluck_refuses(pluck, message):
    with pytest.raises(ValueError) as refusal:
        TunedString(**STRING).pluck(**pluck)
    assert str(refusal.value).startswith(message)


@pytest.mark.parametrize("ask, message", [
    (lambda motion: motion.velocity(0.0, 0.61), "place must be on the string of 0.6 m with an aperture of 0 m; got "),
    (lambda motion: motion.displacement(0.0, [0.1, 0.01], aperture=0.03),
     "place must be on the string of 0.6 m with an aperture of 0.03 m; got "),
    (lambda motion: motion.velocity([0.0, math.nan], 0.1), "time must be an array of finite numbers; got "),
    (lambda motion: motion.string.frequency(0), "n must be a partial's number, 1 or above; got "),
    (lambda motion: motion.string.at_fret(-1), "fret must be a finite number, zero or above; got -1."),
    (lambda motion: TunedString.tuned(frequency=1.0, length=0.1, linear_density=1e-3, core_diameter=1e-3),
     "frequency must be above the note that stiffness alone gives; got 1.0."),
])
def test_motion_and_string_refuse(ask, message):
    with pytest.raises(ValueError) as refusal:
        ask(TunedString(**STRING).pluck(force=1.0, place=0.1))
    assert str(refusal.value).startswith(message)
