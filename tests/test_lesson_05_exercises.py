"""Exercises of lesson 05: their answers computed in another way."""
import math

import numpy as np
import pytest

from lesson_05_octave import octave
from lessons_lib.exercises.self_study import load_lesson
from lessons_lib.lessons.lesson_05.corners import displaced, pulses
from lessons_lib.lessons.lesson_05.model import HOUSE, bent, flexible
from lessons_lib.physics.plucked_string import TunedString
from lessons_lib.physics.two_planes import TwoPlanes, spring_shift
from notebooks import ANSWERS, assert_printed, prose

PROSE = prose("05")
LESSON = load_lesson(ANSWERS / "lesson_05.py")
VI = flexible("VI")


@pytest.mark.parametrize("amplitude", [0.2e-3, 0.5e-3, 0.8e-3])
def test_the_fitted_law_of_the_exercise_is_near_the_computed_map(amplitude):
    swing = bent(string="VI", height=2.5e-3, amplitude=amplitude)
    assert swing.second == pytest.approx(swing.by_law, rel=0.03)     # the tolerance of 5.6


def test_what_is_recalled_is_on_the_page_of_lesson_2():
    assert LESSON["m3"].where == "lesson 2" and LESSON["m3"].sentence in prose("02")


@pytest.mark.parametrize("place", range(4))
def test_both_formulas_give_the_peak_of_the_library(place):
    """By force and tension (5.8), and by what is seen and heard (5.12): the letters left out change nothing."""
    values = LESSON["5.8"].tried_at[place]
    string = TunedString(length=values["L"], tension=values["T"], linear_density=values["mass"])
    motion = string.pluck(force=values["F"], place=values["x"])
    by_force = LESSON["5.8"].answer(values["F"], values["T"], values["mass"])
    by_eye = LESSON["5.12"].answer(motion.release_displacement, values["x"], values["L"], string.frequency(1))
    assert by_force == pytest.approx(motion.peak_velocity, rel=1e-9) == pytest.approx(by_eye, rel=1e-4)


def test_the_curves_are_those_of_the_library():
    """The plectrum at a quarter of 600 mm, the pickup at 0.16."""
    string = TunedString.tuned(frequency=120, length=0.6, linear_density=3e-3)
    force, time = 1.6, LESSON["5.9"].x.values
    drawn = LESSON["5.9"].curves(time, force=force, impedance=string.impedance, frequency=120, pickup=0.16)
    for name, pluck in (("as asked", 0.15), ("plucked in the middle", 0.3)):
        assert drawn[name] == pytest.approx(pulses(string, force, pluck, 0.16 * 0.6, time), abs=1e-9)
    where = displaced(string, force, 0.15, 0.16 * 0.6, time)
    assert drawn["where it is"] / drawn["where it is"][0] == pytest.approx(where / where[0], abs=1e-9)
    assert drawn["as asked"].min() == pytest.approx(-force / (2 * string.impedance))
    assert np.diff(time) == pytest.approx(0.25e-3) and "points 0.25 ms apart" in PROSE


def test_the_order_of_five_plucks():
    mass, tension = 4e-3, 70.0
    string = TunedString(length=0.6, tension=tension, linear_density=mass)
    slack = TunedString(length=0.6, tension=tension / 4, linear_density=mass)
    heavy = TunedString(length=0.6, tension=tension, linear_density=4 * mass)
    one = string.pluck(force=1.0, place=0.1)
    # (e): the force that pulls the string twice as far
    more = 2 * one.release_displacement / string.pluck(force=1e-3, place=0.1).release_displacement * 1e-3
    peaks = {"a": one, "b": string.at_fret(12).pluck(force=1.0, place=0.1), "c": slack.pluck(force=1.0, place=0.1),
             "d": heavy.pluck(force=1.0, place=0.1), "e": string.pluck(force=more, place=0.1)}
    times = {letter: motion.peak_velocity / one.peak_velocity for letter, motion in peaks.items()}
    assert times == pytest.approx({"a": 1, "b": 1, "c": 2, "d": 1 / 2, "e": 2}, rel=1e-6)
    assert LESSON["5.10"].right == "c = e > a = b > d"


def test_the_estimate_of_a_blur():
    """As a mean, as a sine, as the ideal string at the house places: each within the factor of the answer."""
    time = np.linspace(0, 1 / VI.frequency(1), 4001)
    blur = np.ptp(displaced(VI, 1.0, HOUSE["pluck_place"], HOUSE["pickup_place"], time))
    ideal = 3e-3 / blur / (2 * VI.impedance)
    ways = (2 * 3e-3 * 87.3, 2 * math.pi * 87.3 * 1.5e-3, ideal)
    estimate = LESSON["5.11"]
    assert all(1 / estimate.factor < way / estimate.answer() < estimate.factor for way in ways)
    for way, words in zip(ways, ("s: 0.52 m/s", "mm = 0.82 m/s.", "reaches 1.6 m/s")):
        assert_printed(way, words, estimate.worked)
    assert VI.wave_speed == pytest.approx(105, rel=0.005) and "105 m/s" in estimate.teaching_note


def test_the_levels_of_partials_with_two_nodes():
    motion = VI.pluck(force=1.0, place=0.15)
    levels = np.abs(motion.partials(0.2).velocity_up[:5])
    assert [*LESSON["5.13"].right().values()] == pytest.approx(levels / levels[0], abs=1e-9)
    # by hand: √2/2, nothing, nothing, 1/5
    assert levels / levels[0] == pytest.approx([1, math.sqrt(0.5), 0, 0, 0.2], abs=1e-9)


def test_a_diaphragm_that_is_held_by_one_thing_alone():
    """The driven oscillator, force 1: speed 1/|r + i(ωm − s/ω)|, for an octave."""
    def speed(omega, mass=0.0, friction=0.0, stiffness=0.0):
        return 1 / abs(complex(friction, omega * mass - stiffness / omega))
    ratios = {letter: speed(2.0, **held) / speed(1.0, **held) for letter, held in
              (("a", {"stiffness": 1}), ("b", {"friction": 1}), ("c", {"mass": 1}))}
    ratios["d"] = octave("force", "place")
    assert ratios == pytest.approx({"a": 2, "b": 1, "c": 1 / 2, "d": 1}, rel=1e-9)
    assert LESSON["5.14"].right == "a > b = d > c"
    assert_printed(1.0 * 5 * 0.4e-3 * 1e3, "(invented) it is 2 mV", PROSE)


@pytest.mark.parametrize("place", range(4))
def test_the_beat_is_that_of_two_planes_under_two_springs(place):
    values = LESSON["5.15"].tried_at[place]
    at = {"frequency": values["f"], "tension": values["T"], "length": values["L"],
          "place": values["L"] * math.asin(values["w"]) / math.pi}
    planes = TwoPlanes(frequency=values["f"], decay=np.zeros((2, 2)), shift=spring_shift(
        np.diag([-values["up"], values["side"]]), **at))
    assert LESSON["5.15"].answer(**values) == pytest.approx(planes.beat, rel=1e-9)


def test_the_two_notes_are_equally_strong_when_the_gap_is_gone():
    fast, slow, gap = 1.4, 4.0, 12.0
    time = LESSON["5.16"].answer(fast=fast, slow=slow, gap=gap)
    levels = [10 ** (-time / fast), 10 ** (-gap / 20) * 10 ** (-time / slow)]       # 20 dB is a tenth
    assert levels[0] == pytest.approx(levels[1], rel=1e-9)


def test_the_workshops_string_in_the_beat_of_the_teaching_note():
    beat = LESSON["5.15"].answer(f=87.3, T=79.3, L=0.600, up=16.0, side=4.5, w=math.sqrt(0.5))
    assert f"{beat:.2f} Hz" == "0.69 Hz" and "0.69 Hz" in LESSON["5.15"].teaching_note
