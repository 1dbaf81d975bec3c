"""The string over its frets, lesson 5: pulses and corners against sums, closed forms and each other."""
import math

import numpy as np
import pytest
from numpy.testing import assert_allclose

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_05.corners import displaced, plucked_shape, pulse_train, pulses
from lessons_lib.lessons.lesson_05.frets import fret_film, fret_instants, fretted_pluck
from lessons_lib.lessons.lesson_05.model import (
    FRETS,
    HOUSE,
    MEASURES,
    PLUCK_RULES,
    SIGNALS,
    STRINGS_TO_CHOOSE,
    flexible,
    fret_measures,
    fret_table,
    sensitivity,
)

PLACES = [(0.1, 0.15), (0.02, 0.18), (0.18, 0.02), (0.05, 0.05)]


@pytest.mark.parametrize("x0, x", PLACES)
@pytest.mark.parametrize("fret", [0, 12, 19])
def test_pulses_are_the_sum_of_the_partials(fret, x0, x):
    string = flexible("VI").at_fret(fret)
    time = (np.arange(300) + 0.37) / 300 / string.frequency(1)      # no sample on an edge
    velocity = pulses(string, 1.0, x0, x, time)
    levels = np.unique(velocity.round(9))
    assert set(np.abs(levels)) <= {0.0, round(1 / (2 * string.impedance), 9)}     # nothing, or F/(2Z)
    n = np.arange(1, 4001)[:, np.newaxis]
    comb = np.sin(n * np.pi * x0 / string.length) * np.sin(n * np.pi * x / string.length)
    size = 2 / (np.pi * string.impedance) / n * comb
    added = -(size * np.sin(2 * np.pi * n * string.frequency(1) * time)).sum(0)
    away = np.ones_like(time, dtype=bool)       # from the edges, where a cut series ripples
    for edge in np.flatnonzero(np.diff(velocity)):
        away[max(edge - 3, 0):edge + 5] = False
    assert away.sum() > 100
    # after one step of 1/300 period the ripple of 4000 partials is under 2 % of the pulse
    assert_allclose(added[away], velocity[away], atol=0.02 / (2 * string.impedance))


@pytest.mark.parametrize("x0, x", PLACES)
@pytest.mark.parametrize("fret", [0, 12, 19])
def test_the_running_corners_are_the_sum_of_the_partials(fret, x0, x):
    string = flexible("VI").at_fret(fret)
    time = np.arange(60) / 60 / string.frequency(1)
    n = np.arange(1, 2001)[:, np.newaxis]
    comb = np.sin(n * np.pi * x0 / string.length) * np.sin(n * np.pi * x / string.length)
    added = (2 * string.length / (n ** 2 * np.pi ** 2 * string.tension) * comb
             * np.cos(2 * np.pi * n * string.frequency(1) * time)).sum(0)
    # what 2000 partials leave out: below the sum of 1/n^2 from 2001 on, 5e-4
    assert_allclose(displaced(string, 1.0, x0, x, time), added,
                    atol=5e-4 * 2 * string.length / (np.pi ** 2 * string.tension))


@pytest.mark.parametrize("time", [0.0, 2e-4, 1e-3, 4e-3, 0.0113])
def test_between_its_corners_the_string_is_straight(time):
    string = flexible("VI")
    x, y = plucked_shape(string, 1.0, 0.1, time)
    assert x[0] == 0 and x[-1] == string.length and (np.diff(x) >= 0).all() and y[[0, -1]] == pytest.approx([0, 0])
    places = np.linspace(0, string.length, 200)
    assert_allclose(displaced(string, 1.0, 0.1, places, time), np.interp(places, x, y), atol=1e-12)
    if time < 0.1 / string.wave_speed:      # until the first one is turned back at the bridge
        assert x[1:3] == pytest.approx([0.1 - string.wave_speed * time, 0.1 + string.wave_speed * time])


def test_the_string_is_pulled_to_the_triangle_of_statics_and_upside_down_half_a_period_later():
    string = flexible("I")
    start = displaced(string, 1.0, 0.1, np.array([0.05, 0.1, 0.35]), 0.0)
    top = 0.1 * 0.5 / 0.6 / string.tension      # F x (L - x)/(L T)
    assert_allclose(start, [top / 2, top, top / 2])
    half = displaced(string, 1.0, 0.1, np.array([0.55, 0.5, 0.25]), string.length / string.wave_speed)
    assert_allclose(half, -start)


@pytest.mark.parametrize("x0, x", PLACES)
def test_a_train_of_pulses_has_the_corners_of_the_velocity(x0, x):
    string = flexible("V").at_fret(7)
    last = 2.3 / string.frequency(1)
    time, speed = pulse_train(string, 1.5, x0, x, last)
    assert time[0] == 0 and time[-1] == pytest.approx(last) and (np.diff(time) >= 0).all()
    middle = (time[::2] + time[1::2]) / 2
    assert_allclose(speed[::2], pulses(string, 1.5, x0, x, middle)) and (speed[::2] == speed[1::2]).all()
    # the area of the pulses so far is the way that the place has moved
    moved = np.cumsum(speed[::2] * np.diff(time)[::2])
    assert_allclose(moved, displaced(string, 1.5, x0, x, time[1::2]) - displaced(string, 1.5, x0, x, 0.0), atol=1e-9)


@pytest.mark.parametrize("x0, x", PLACES)
def test_rms_and_peaks_against_closed_forms(x0, x):
    table = fret_table(string="IV", pluck_place=x0, pickup_place=x, hand="place")["force"]
    for fret in (0, 7, 19):
        string = flexible("IV").at_fret(fret)
        share = min(x0, x, string.length - x0, string.length - x) / string.length
        level = 1 / (2 * string.impedance)
        assert_allclose(table[fret, 1], [level, level * math.sqrt(2 * share), table[fret, 1, 2]], rtol=3e-3)
        # displacement in time, added up: its largest size within a period
        motion = string.pluck(force=1.0, place=x0, highest_frequency=60 * string.frequency(1))
        n = np.arange(1, 2001)[:, np.newaxis]
        time = np.linspace(0, 1, 401)
        a = 2 * string.length / (n ** 2 * np.pi ** 2 * string.tension)
        a = a * np.sin(n * np.pi * x0 / string.length) * np.sin(n * np.pi * x / string.length)
        moved = (a * np.cos(2 * np.pi * n * time)).sum(0)
        assert_allclose(table[fret, 0, 0], np.abs(moved).max(), rtol=5e-3)
        assert_allclose(table[fret, 0, 1], moved[:-1].std(), rtol=5e-3)
        assert motion.peak_velocity == pytest.approx(level)


def test_every_rule_agrees_on_the_open_string_and_the_voltage_follows_the_velocity():
    table = fret_table(string="II", pluck_place=0.1, pickup_place=0.15, hand="fraction")
    for rule in PLUCK_RULES:
        assert table[rule].shape == (len(FRETS), len(SIGNALS), len(MEASURES))
        assert_allclose(table[rule][0], table["force"][0])
        assert_allclose(table[rule][:, 2], float(sensitivity("II", 2.5e-3)) * table[rule][:, 1])


def test_the_map_gives_the_pickups_own_sensitivity():
    for name in STRINGS_TO_CHOOSE:
        steel, y = house_instrument.steel_of(name), house_instrument.y_of(name)
        direct = house_instrument.pickup.sensitivity(steel, height=2.5e-3, y=y)
        assert sensitivity(name, 2.5e-3) == pytest.approx(direct, rel=2e-3)
    # finite elements of the course: 0.138, 0.1145, 0.0935 V per m/s for string VI at 2, 2.5, 3 mm
    assert_allclose(sensitivity("VI", np.array([2e-3, 2.5e-3, 3e-3])), [0.138, 0.1145, 0.0935], rtol=0.01)


def test_what_is_drawn_is_relative_to_the_open_string():
    at = {"fret": 12, "rule": "displacement", "hand": "fraction", **HOUSE}
    data, = fret_instants(fret_measures(**at), **at)
    assert data["measures"]["at"] == 12
    assert all(data["measures"][name][12] == pytest.approx(2) for name in MEASURES)     # equally far, same share
    assert np.abs(data["train"]["open_string"][1]).max() == pytest.approx(1)
    assert np.abs(data["train"]["fretted"][1]).max() == pytest.approx(2)
    string = data["string"]
    assert (string["stop"], string["hand"], string["pickup"]) == pytest.approx((0.3, 0.05, 0.075))
    assert abs(string["over_pickup"][1]) == pytest.approx(2) or string["over_pickup"][1] == 0


def test_every_rule_pulls_as_it_says():
    open_one = {"hand": "fraction", **HOUSE}
    pulled = {}
    for rule in PLUCK_RULES:
        at = open_one | {"fret": 12, "rule": rule}
        string, force, hand, _ = fretted_pluck(fret_measures(**at), **at)
        pulled[rule] = string.pluck(force=force, place=hand)
    start = flexible("VI").pluck(force=1.0, place=0.1)
    assert pulled["force"].release_force == pytest.approx(1)
    assert pulled["displacement"].release_displacement == pytest.approx(start.release_displacement)
    assert pulled["energy"].release_energy == pytest.approx(start.release_energy)


def test_a_film_is_one_period_of_the_fretted_string():
    at = {"fret": 7, "rule": "force", "hand": "place", **HOUSE}
    frames, period = fret_film(fret_measures(**at), **at)
    assert period == pytest.approx(2 ** (-7 / 12) / 87.3) and len(frames) == 48
    pluck = fretted_pluck(fret_measures(**at), **at)[:3]
    assert_allclose(plucked_shape(*pluck, period)[1].max(), frames[0]["string"]["shape"][1].max(), rtol=1e-9)
    assert frames[12]["train"]["now"] == pytest.approx(2 ** (-7 / 12) / 4)
