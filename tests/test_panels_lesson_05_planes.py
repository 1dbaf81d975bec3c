"""The panel of a slanting pluck: what is heard by other ways, its picture, words and sound."""
import math

import numpy as np
import pytest
from numpy.testing import assert_allclose

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_05 import panels
from lessons_lib.lessons.lesson_05.two_decays import (
    STRINGS,
    decay_curves,
    heard_decays,
    springs_and_ears,
    two_decays,
)
from lessons_lib.physics.two_planes import heard_directions, pull_stiffness

FIRST = {"string": "III", "height": 2.5e-3, "slant": 0.0, "ratio": 0.5, "angle": math.pi / 4}


def pluck(**values):
    return two_decays(**FIRST | values)


@pytest.mark.parametrize("string, height", [("VI", 1.6e-3), ("III", 2.7e-3), ("I", 5.5e-3)])
def test_the_curves_over_the_height_are_those_of_the_pickup(string, height):
    place = {"height": height, "y": house_instrument.y_of(string)}
    steel, pickup = house_instrument.steel_of(string), house_instrument.pickup
    (up, mixed), (_, across) = pull_stiffness(pickup, steel, **place)
    shown = [float(one(height)) for one in springs_and_ears(string)]
    assert_allclose(shown, [up, mixed, across, *heard_directions(pickup, steel, **place)], rtol=0.01,
                    atol=0.003 * abs(up))


def test_an_upright_pluck_falls_as_the_string_does_and_begins_at_nought():
    upright = pluck(string="VI", angle=0.0)
    # 60 dB in 5.8 s is what the string's decay says of itself; its growth with frequency adds little
    assert upright.level(np.array([0.0]))[0] == pytest.approx(0, abs=1e-9)
    assert upright.quiet_after == pytest.approx(5.8 / 3, rel=0.01) and upright.is_one


def test_the_lines_of_the_notes_and_what_is_heard_agree():
    """Where the lines cross, two equal notes make at most 6 dB more and at least nothing."""
    values = {**FIRST, "string": "VI", "angle": math.radians(70)}
    now = two_decays(**values)
    drawn = decay_curves(now, **values)["levels"]
    fast, slow = (np.interp(np.linspace(0, 6, 601), *drawn[name]) for name in ("fast", "slow"))
    sizes = [10 ** (one / 20) for one in (fast, slow, drawn["heard"][1])]
    assert (sizes[2] <= sizes[0] + sizes[1] + 1e-9).all() and (sizes[2] >= np.abs(sizes[0] - sizes[1]) - 1e-9).all()
    time, level = drawn["then"]
    assert np.interp(time, *drawn["heard"]) == pytest.approx(level, abs=0.2) and level == drawn["quiet"]
    # swells are as far apart as the beat says; the shallow last one comes earlier on its slope
    swells = drawn["heard"][0][1:-1][np.diff(np.sign(np.diff(drawn["heard"][1]))) < 0]
    assert np.diff(swells) == pytest.approx(1 / now.planes.beat, rel=0.08)


def test_each_line_of_a_note_says_its_fall_and_one_below_the_picture_is_not_named():
    values = {**FIRST, "string": "VI"}
    drawn = decay_curves(two_decays(**values), **values)["levels"]
    for name in ("fast", "slow"):
        (start, end), (first, last) = drawn[name]
        assert drawn["words"][f"{name}, sample"] == f"−{(first - last) / (end - start):.1f} dB a second"
    values |= {"string": "III", "angle": 0.0}
    assert decay_curves(two_decays(**values), **values)["levels"]["words"].keys() == {"fast, sample"}


def test_equal_decays_never_part():
    now = pluck(string="VI", ratio=1.0)
    assert now.falls[0] == pytest.approx(now.falls[1]) and now.last == pytest.approx(now.falls[0])


@pytest.mark.parametrize("string", STRINGS)
def test_outward_is_away_from_the_middle_of_the_row(string):
    values = FIRST | {"string": string}
    end_on = decay_curves(two_decays(**values), **values)["end-on"]
    assert np.sign(end_on["string"][0]) == np.sign(house_instrument.y_of(string)) and end_on["string"][1] > 2.5e-3


def test_words_say_which_notes_are_heard():
    panel = panels.two_decays()
    alone, both = panel.at(string="III").alt, panel.at(angle=math.radians(70)).alt
    assert "One of the two is heard alone: its level falls evenly." in alone
    assert "is 7 dB below the other, and both are heard." in both and "plucked at a slant of 70 °" in both
    readouts = panel.at().readouts
    assert readouts["the two notes differ by"] == "0.69 Hz" and readouts["level at last"] == "−5.2 dB a second"


def test_the_sound_swells_as_the_picture_does():
    """The fundamental of what is played, by its size over 0.15 s; the upright pluck dies evenly."""
    values = FIRST | {"string": "VI", "angle": math.radians(70)}
    rate = 22050
    slanting, upright = heard_decays(**values).values()
    now = two_decays(**values)
    time = np.arange(slanting.size) / rate
    turning = np.exp(-2j * np.pi * now.planes.frequency * time)
    window = np.hanning(round(0.15 * rate))
    at = np.array([0.3, 0.8, 1.4, 2.2, 3.0])

    def heard(signal):
        return 20 * np.log10([abs((signal * turning)[(first := round(t * rate)):first + window.size] @ window)
                              for t in at])
    assert np.diff(heard(upright)) == pytest.approx(-10.43 * np.diff(at), abs=0.25)
    assert np.diff(heard(slanting)) == pytest.approx(np.diff(now.level(at + 0.075)), abs=1.5)
    assert max(abs(upright)) <= 1


def test_the_pluck_straight_up_is_played_below_the_note_of_the_string_without_a_magnet():
    """By the turn of the phase from 0.5 s to 1.5 s; the shift is the fundamental's own."""
    values = FIRST | {"height": 1.5e-3}
    _, upright = heard_decays(**values).values()
    planes = two_decays(**values).planes
    turning = upright * np.exp(-2j * np.pi * planes.frequency * np.arange(upright.size) / 22050)
    window = np.hanning(2205)
    phases = [np.angle(turning[round(t * 22050):][:2205] @ window) for t in np.arange(0.5, 1.55, 0.1)]
    assert np.unwrap(phases)[-1] - phases[0] == pytest.approx(planes.shift[0, 0], rel=0.01)
    assert planes.shift[0, 0] < 0
