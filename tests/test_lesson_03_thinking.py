"""Exercises of lesson 03 that are no insertion: their answers computed in another way, and their notes."""
import math

import numpy as np
import pytest
from scipy.constants import pi

from lesson_03_pole import PICKUP, ROD
from lessons_lib.base.workshop import house_magnet
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw
from lessons_lib.exercises.kinds import read_record
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.exercises.verdicts import State
from lessons_lib.lessons.lesson_03.circuit import fitted_circuit
from lessons_lib.lessons.lesson_03.model import over_heights
from lessons_lib.physics.magnetic_circuit import Branch, MagneticCircuit
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.steel import SteelString
from notebooks import NOTEBOOKS, assert_printed, prose, sheet_of

PROSE = prose("03")
ANSWERS = next(lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers") if lesson.id == "03")


def worked(name):
    return " ".join(ANSWERS[name].worked.split())


def judged(name, *answer, **readings):
    return read_record(name, sheet_of("03", "b000")["exercises"][name]).judge(*answer, **readings)


def test_the_line_from_memory_is_on_the_first_page_word_for_word():
    assert ANSWERS["m3"].sentence in prose("00")


def test_four_branches_by_network():
    """Exercise 3.12: the flux that each gathers across the near air of a fitted circuit, (height, area) as printed."""
    circuit = fitted_circuit(2.5e-3, 0.25e-3, 1)
    gathered = {}
    for letter, (height, area) in {"a": (2, 8), "b": (4, 8), "c": (3, 12), "d": (2, 12)}.items():
        assert ANSWERS["3.12"].options[letter] == f"height {height:.1f} mm, area {area} mm²"
        string = 2 * height * 1e-3 / (4e-7 * pi * area * 1e-6)
        gathered[letter] = MagneticCircuit([
            Branch(name="magnet", start="bottom", end="pole", mmf=circuit.mmf, reluctance=circuit.magnet),
            Branch(name="near", start="pole", end="beyond", reluctance=circuit.near_air),
            Branch(name="far", start="beyond", end="bottom", reluctance=circuit.far_air),
            Branch(name="string", start="pole", end="beyond", reluctance=string)]).solve().flux["string"]
    assert gathered["d"] > 1.1 * gathered["a"] > 1.2 * gathered["b"]
    assert gathered["a"] == pytest.approx(gathered["c"], rel=1e-12) and ANSWERS["3.12"].right == "d > a = c > b"


def test_the_flux_in_a_bar_by_network():
    """Exercise 3.13, at each set of values that it is tried at."""
    exercise = ANSWERS["3.13"]
    for one in exercise.tried_at:
        flux = MagneticCircuit([
            Branch(name="magnet", start="bottom", end="pole", mmf=one["mmf"], reluctance=one["r_magnet"]),
            Branch(name="near", start="pole", end="beyond", reluctance=one["r_near"]),
            Branch(name="bar", start="pole", end="beyond", reluctance=one["r_bar"]),
            Branch(name="far", start="beyond", end="bottom", reluctance=one["r_far"])]).solve().flux["bar"]
        assert exercise.answer(**one) == pytest.approx(flux, rel=1e-9)
    assert exercise.written in worked("3.13")


@pytest.mark.parametrize("typed, says", [
    ("mmf*r_near/((r_magnet + r_far)*(r_near + r_bar) + r_near*r_bar)", "Your formula gives what is asked"),
    ("mmf/(r_magnet + 1/(1/r_near + 1/r_bar) + r_far)", "flux in the magnet"),
    ("mmf*(r_magnet + r_near + r_bar + r_far)/((r_magnet + r_near)*(r_bar + r_far))", "brackets"),
    ("mmf/(r_magnet + r_near + r_far)*r_near/(r_near + r_bar)", "without the bar"),
    ("mmf/r_magnet + r_near*r_bar/(r_near + r_bar) + r_far", "cannot add"),
    ("mmf/(r_magnet + r_near*r_bar/(r_near + r_bar) + r_far)*r_bar/(r_near + r_bar)", "when r_bar gets small")])
def test_what_a_typed_formula_is_told(typed, says):
    assert says in judged("3.13", typed).text


def test_the_twin_of_the_bar():
    """Its third note: 2000 A, 150, 20 beside 20, 40 MA/Wb."""
    flux = 2000 / (150e6 + 10e6 + 40e6)
    note = ANSWERS["3.13"].notes[2]
    assert_printed(flux * 1e6, "10 µWb", note)
    assert_printed(flux * 10e6, "100 A", note)
    assert_printed(flux * 10e6 / 20e6 * 1e6, "5 µWb", note)


def test_a_line_in_decibels():
    """Exercise 3.14: straight, and −8.7 dB at one decay length; the bent ones are bent."""
    drawn = draw(ANSWERS["3.14"], secret=SELF_STUDY_SECRET, bench="b000")
    x = np.linspace(0, 4e-3, 41)
    curves = ANSWERS["3.14"].curves(x=x, decay=2.5e-3)
    assert curves["the law"] == pytest.approx(20 * np.log10(np.exp(-x / 2.5e-3)), abs=1e-12)
    assert curves["inverse square"] == pytest.approx(20 * np.log10((2e-3 / (2e-3 + x)) ** 2), abs=1e-12)
    assert_printed(float(curves["the law"][25]), "−8.7 dB", worked("3.14"))
    assert all(np.ptp(np.diff(curves[name])) > 0.1 for name in ("inverse square", "the signal itself"))
    letters = ANSWERS["3.14"].names_by_letter(drawn.hidden["order"])
    right = [letter for letter in letters if judged("3.14", letter).state == State.RIGHT]
    assert [letters[letter] for letter in right] == ["the law"]


def test_five_signals_computed():
    """Exercise 3.15 in the model; and its reasons: the square of the diameter, and 2.1 mm."""
    strong = Pickup(poles=RodMagnet(**house_magnet | {"remanence": 2 * house_magnet["remanence"]}), coils=PICKUP.coils)
    thin, thick = SteelString(diameter=0.3e-3), SteelString(diameter=0.6e-3)
    bronze = SteelString(diameter=0.6e-3, relative_permeability=1.0)
    signals = {letter: float(pickup.sensitivity(wire, height=height)) for letter, pickup, wire, height in (
        ("a", PICKUP, thin, 2.5e-3), ("b", PICKUP, thick, 2.5e-3), ("c", PICKUP, thick, 4e-3),
        ("d", strong, thin, 2.5e-3), ("e", PICKUP, bronze, 2.5e-3))}
    assert " > ".join(sorted(signals, key=signals.get, reverse=True)) == ANSWERS["3.15"].right
    times = {letter: signal / signals["a"] for letter, signal in signals.items()}
    text = worked("3.15")
    assert_printed(times["b"], "model says 3.9", text)
    assert_printed(times["c"], "and 1.7.", text)
    assert_printed(times["d"], "nearly full: 1.1", text)
    assert times["e"] == pytest.approx(0, abs=1e-9)
    assert 2 ** 2 * math.exp(-1.5 / 2.1) == pytest.approx(2, abs=0.05) and "about half of that, twice (a)" in text
    twin = ANSWERS["3.15"].notes[2]
    assert 3 ** 2 * math.exp(-2.1 / 2.1) == pytest.approx(3.3, abs=0.05) and "about three times" in twin


@pytest.mark.parametrize("order, says", [
    ("b > d > c > a > e", "twice the magnet makes the signal"), ("b > c > d > e > a", "Of what must a wire be"),
    ("b > d > a > c > e", "makes the signal"), ("b > c > d = a > e", "Hardly more"),
    ("b > c > a > d > e", "Can more magnet"), ("e > a > d > c > b", "Which end"), ("b > c > d > a > e", "Yes")])
def test_what_an_order_of_signals_is_told(order, says):
    assert says in judged("3.15", order).text


def test_what_a_nail_and_a_string_can_carry():
    """Exercise 3.16 and its worked answer."""
    area, text = pi * 2e-3 ** 2, worked("3.16")
    assert_printed(area * 1e6, "= 12.6 mm²", text)
    assert ANSWERS["3.16"].answer() == pytest.approx(1.9 * area) == pytest.approx(24000e-9, rel=0.01)
    assert 2 * ROD.midplane_flux() == pytest.approx(1.9 * area, rel=0.05) and "twice the flux of the whole" in text
    assert 1.9 * pi * 0.23e-3 ** 2 == pytest.approx(320e-9, abs=5e-9)
    assert "full with 320 nWb, and leads 231 to each side" in text
    assert over_heights(0.46e-3, 100.0, True).flux(2.5e-3) == pytest.approx(231e-9, abs=0.5e-9)


@pytest.mark.parametrize("nanoweber, state", [(24000, State.RIGHT), (15000, State.RIGHT), (40000, State.RIGHT)])
def test_an_estimate_within_a_factor_of_two_is_right(nanoweber, state):
    assert judged("3.16", nanoweber, "nWb", {"because": "two tesla through the nail"}).state == state
    assert judged("3.16", 4 * nanoweber, "nWb", {"because": "two tesla through the nail"}).state != state
    assert "within a factor of 2" in PROSE


@pytest.mark.parametrize("bench", ["b000", "b003", "b008"])
def test_the_wheel_rolled_through_tooth_by_tooth(bench):
    """Exercise 3.17: a flux that rises and falls once a tooth, differentiated, its largest voltage at two speeds."""
    drawn = draw(ANSWERS["3.17"], secret=SELF_STUDY_SECRET, bench=bench)
    given = drawn.si
    teeth, around, frequency, voltage, threshold = (
        given[name] for name in ("teeth", "circumference", "frequency", "voltage", "threshold"))

    def largest_and_frequency(speed):
        t = np.linspace(0, around / speed, 200 * round(teeth))      # one turn
        flux = np.sin(2 * pi * teeth * t * speed / around)
        e = np.gradient(flux, t)
        return e.max(), (np.diff(np.sign(e)) < 0).sum() / (around / speed)
    at_reading = frequency * around / teeth
    full, heard = largest_and_frequency(at_reading)
    assert heard == pytest.approx(frequency, rel=0.03)
    least, _ = largest_and_frequency(ANSWERS["3.17"].answer(**given))
    assert least / full == pytest.approx(threshold / voltage, rel=1e-3)
