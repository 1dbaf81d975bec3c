"""Exercises of lesson 04: their answers computed in another way, and their notes."""
import math

import numpy as np
import pytest
from scipy.integrate import trapezoid

from lesson_04_swing import POLE_Y, STRING, UPRIGHT, sideways
from lessons_lib.base.workshop import house_coil, house_magnet
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw
from lessons_lib.exercises.kinds import read_record
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_04.model import ASIDE_FALL, graphs_to_choose_from, sideways_graphs, swing
from lessons_lib.lessons.lesson_04.window import filling_wire, winding
from lessons_lib.physics.induction import induced_voltage
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.winding import LongCoil
from notebooks import NOTEBOOKS, assert_printed, prose, sheet_of

ANSWERS = next(lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers") if lesson.id == "04")


def test_the_worked_answer_on_50_000_turns():
    """Exercise 4.8: 94 H, 24 dB less at 5 kHz, 16 dB more open, 24 um, 250 kohm."""
    coil, worked = winding(turns=50000, gauge=46), ANSWERS["4.8"].worked
    for value, words in ((coil.inductance, "94 H"), (-coil.level_at_5_khz, "24 dB"),
                         (filling_wire(50000).diameter * 1e6, "24 µm"), (20 * math.log10(coil.voltage), "16 dB")):
        assert_printed(value, words, worked)
    assert coil.filling_resistance == pytest.approx(250e3, rel=0.03) and "250 kΩ" in worked
    assert coil.peak_frequency < 1000       # no peak left in the treble


@pytest.mark.parametrize("bench", [f"b{number:03d}" for number in range(10)])
def test_a_factor_of_two_is_no_forgotten_time(bench):
    """Exercise 4.1: each slip's number is far from a half and from twice the right one, so no other note is told."""
    drawn = draw(ANSWERS["4.1"], secret=SELF_STUDY_SECRET, bench=bench)
    for _, number, _ in drawn.own_slips:
        for factor in (0.5, 2):
            assert number / drawn.answer != pytest.approx(factor, rel=0.1)


def first_half_wave(*, north_up, anticlockwise):
    """Sign of the voltage from the wire's start to its end while the string rises from 2.5 mm: 1 or -1."""
    rod = RodMagnet(**house_magnet | {"remanence": house_magnet["remanence"] * (1 if north_up else -1)})
    coil = LongCoil(**house_coil, winding_sense=1 if anticlockwise else -1)
    return int(np.sign(Pickup(poles=rod, coils=coil).sensitivity(STRING, height=2.5e-3)))


def test_signs_of_the_four_cases():
    """Exercise 4.5; by hand: north on top, the linkage falls as the string rises, so -d/dt is positive.

    A current anticlockwise seen from above makes flux upwards, so a positive voltage drives a current that would hold
    up the falling flux of a north pole: Lenz's rule, and the page's way of counting.
    """
    for north_up in (True, False):
        for anticlockwise in (True, False):
            sign = first_half_wave(north_up=north_up, anticlockwise=anticlockwise)
            assert sign == (1 if north_up == anticlockwise else -1)


def test_one_graph_of_the_four_is_right():
    """Exercise 4.6, by the difference quotient of the drawn corners."""
    data = graphs_to_choose_from()
    rising = np.flatnonzero(np.diff(data["time"]) > 0)
    slopes = -np.diff(data["linkage"])[rising] / np.diff(data["time"])[rising]
    right = [letter for letter, values in data["voltages"].items() if np.allclose(values[rising], slopes, atol=1e-9)
             and np.allclose(values[rising + 1], slopes, atol=1e-9)]
    assert right == [ANSWERS["4.6"].right]


def test_one_sideways_graph_is_right_and_its_linkage_is_the_workshops():
    """Exercise 4.10, by differences of the drawn linkage along the drawn swing; and k by the pickup itself."""
    data = sideways_graphs()
    time = data["time"] / 200.0
    slopes = induced_voltage(np.interp(data["place"], *data["across"]), time)
    right = [letter for letter, values in data["voltages"].items() if np.allclose(values, slopes, atol=2e-4)]
    assert right == [ANSWERS["4.10"].right]
    places = POLE_Y + np.array([0.0, -6e-4, 6e-4])
    here, left, there = house_instrument.pickup.flux_linkage(STRING, height=2.5e-3, y=places)
    assert (here - (left + there) / 2) / 6e-4 ** 2 == pytest.approx(ASIDE_FALL, rel=0.03)
    second = swing(**UPRIGHT).peak * 10 ** (sideways().levels[1] / 20)      # harmonic 2 alone; 0 dB is nearly that peak
    assert max(data["voltages"]["d"]) == pytest.approx(second, rel=0.05)


def test_the_peak_of_a_sideways_swing_by_differences():
    """Exercise 4.11: linkage lower by 2 uWb at 0.5 mm, swinging 0.8 mm to each side at 100 Hz."""
    time = np.linspace(0, 0.01, 20_001)
    linkage = -2e-6 * (0.8e-3 * np.sin(2 * math.pi * 100 * time) / 0.5e-3) ** 2
    peak = np.abs(np.diff(linkage) / np.diff(time)).max()
    assert ANSWERS["4.11"].answer(2e-6, 0.5e-3, 0.8e-3, 100.0) == pytest.approx(peak, rel=1e-5)


def test_the_line_from_memory_is_on_its_page():
    assert ANSWERS["m3"].sentence in prose("01")


def test_the_order_of_four_motions_by_differences():
    """Exercise 4.14, for a linkage that falls by 0.2 V s/m of height."""
    time = np.linspace(0, 20e-3, 20_001)
    heights = {"a": 0.2e-3 * np.sin(2 * math.pi * 300 * time), "b": 0.6e-3 * np.sin(2 * math.pi * 100 * time),
               "c": np.full_like(time, -1e-3), "d": -1e-3 * np.clip(time / 5e-3, 0, 1)}
    peak = {letter: np.abs(induced_voltage(-0.2 * height, time)).max() for letter, height in heights.items()}
    assert peak["a"] == pytest.approx(peak["b"], rel=1e-4) and peak["c"] < 1e-12
    assert peak["c"] < 0.1 * peak["d"] < 0.1 * 0.6 * peak["b"] and ANSWERS["4.14"].right == "a = b > d > c"
    assert_printed(peak["a"] / 0.2, "0.38 m/s", ANSWERS["4.14"].worked)


def test_the_rms_of_a_swinging_flux_by_differences():
    """Exercise 4.15, 7000 turns, 10 nWb from lowest to highest, 100 Hz; and 4.44 of the textbooks."""
    time = np.linspace(0, 0.01, 100_001)
    induced = -7000 * np.diff(5e-9 * np.sin(2 * math.pi * 100 * time)) / np.diff(time)
    rms = ANSWERS["4.15"].answer(7000, 10e-9, 100)
    assert rms == pytest.approx(math.sqrt(np.mean(induced ** 2)), rel=1e-5)
    assert rms == pytest.approx(4.44 * 7000 * 100 * 5e-9, rel=1e-3)


def test_the_dropped_magnets_voltage_by_the_flux_density_of_a_dipole():
    """Exercise 4.16: a dipole's field along its axis (any textbook), summed over the coil's plane."""
    drop, radius, largest = 0.09, 0.07, 8e-3
    rho = np.geomspace(radius, 1e4 * radius, 20_001)

    def flux(height):       # what passes outside of the ring comes back through it: finite where the dipole is inside
        r = np.sqrt(rho ** 2 + height ** 2)
        return -trapezoid((3 * height ** 2 / r ** 5 - 1 / r ** 3) * rho, rho)

    times = np.array([0.06, 0.11, 0.13, 0.16, 0.2])
    linkage = [[largest * flux(drop - 9.81 * (t + step) ** 2 / 2) / flux(0.0) for step in (-1e-4, 1e-4)] for t in times]
    by_hand = -np.diff(linkage)[:, 0] / 2e-4
    right = ANSWERS["4.16"].curves(times, drop, radius, largest)[ANSWERS["4.16"].right]
    assert right == pytest.approx(by_hand, rel=0.01, abs=1e-3)
    whole = ANSWERS["4.16"].curves(ANSWERS["4.16"].x.values, drop, radius, largest)["second part higher"]
    assert whole.max() > 1.2 * -whole.min() > 0


def test_the_dynamo_by_a_turning_magnet():
    """Exercise 4.17: the invented numbers of its worked answer, and the flux followed in steps."""
    turns, flux, pairs, roller, speed = 150, 40e-6, 4, 22e-3, 5.0
    time = np.linspace(0, 0.01, 100_001)
    angle = speed * time / (roller / 2)
    peak = np.abs(np.diff(turns * flux * np.sin(pairs * angle)) / np.diff(time)).max()
    assert ANSWERS["4.17"].answer(speed, roller, pairs, turns, flux) == pytest.approx(peak, rel=1e-5)
    assert_printed(peak, "11 V", ANSWERS["4.17"].worked)


def test_volts_of_a_turn():
    """Exercise 4.18: of two to five centimetres each way all are right; 900 turns; a few hundred would saturate."""
    worked, right = ANSWERS["4.18"].worked, ANSWERS["4.18"].answer()
    for thick in (2e-2, 5e-2):
        assert 1 / 3 < 2 * math.pi * 50 * 1.3 * thick ** 2 / math.sqrt(2) / right < 3
    assert_printed(1.3 * 9e-4 * 1e3, "1.2 mWb", worked)
    assert_printed(2 * math.pi * 50 * 1.3 * 9e-4, "0.37 V", worked)
    assert 230 / right == pytest.approx(900, rel=0.03) and "about 900 turns" in worked
    assert 230 * math.sqrt(2) / (2 * math.pi * 50 * 400 * 9e-4) > 2      # T; steel saturates at about 2, lesson 3


def test_lenz_by_the_force_between_two_dipoles():
    """Exercise 4.12 by energy: who moves the string or the magnet must do work, so the current pulls it back.

    A ring whose own flux points up is a dipole that points up. The rod below with its north end on top and what it
    makes of the string point up, too; alike dipoles on one axis attract each other (any textbook), so a string that
    goes is pulled back by a current with its own flux upwards. Upwards is anticlockwise as seen from above: the field
    of a current in the middle of its ring, by Biot and Savart.
    """
    angle = np.linspace(0, 2 * math.pi, 100, endpoint=False)
    place = np.column_stack([np.cos(angle), np.sin(angle), 0 * angle])
    anticlockwise = np.column_stack([-np.sin(angle), np.cos(angle), 0 * angle])
    assert np.cross(anticlockwise, -place).sum(axis=0)[2] > 0
    assert ANSWERS["4.12"].options[ANSWERS["4.12"].right] == "its own flux points up, the current is anticlockwise"


@pytest.mark.parametrize("bench", [f"b{number:03d}" for number in range(60)])
def test_the_steepest_step_of_the_table_by_hand(bench):
    """Exercise 4.13: the function of 4.7 by differences has it, too, and the largest step is never the steepest."""
    drawn = draw(ANSWERS["4.13"], secret=SELF_STUDY_SECRET, bench=bench)
    time, linkage = (np.array(drawn.shown[name]) for name in ("time", "linkage"))
    by_hand = [-(linkage[n + 1] - linkage[n]) / (time[n + 1] - time[n]) for n in range(5)]
    assert drawn.answer == pytest.approx(max(by_hand, key=abs)) and sorted(map(abs, by_hand))[-1] > 20
    first, second = sorted(map(abs, by_hand))[:-3:-1]
    assert first > second + 0.4        # no two are equally steep


def test_readings_of_the_function_by_hand():
    """Exercise 4.7: sine 2 pi f A; trapezoid 50 uWb in 2 ms; first zero where tan(w t + p) = w tau."""
    peak, mean, zero = ANSWERS["4.7"].numbers(ANSWERS["4.7"].answer)
    assert peak == pytest.approx(2 * math.pi * 200 * 60e-6 * 1e3, rel=2e-3)
    assert mean == pytest.approx(-50e-6 / 2e-3 * 1e3, rel=1e-6)
    omega, tau = 2 * math.pi * 150, 6e-3
    assert zero == pytest.approx((math.atan(omega * tau) - 0.3) / omega * 1e3, rel=2e-3)


def test_the_sample_of_the_page_gives_minus_three():
    seconds = np.array([0.0, 0.5, 1.0, 2.0])
    assert ANSWERS["4.7"].answer(3 * seconds, seconds) == pytest.approx([-3.0] * 4)
    notes = ANSWERS["4.7"].notes[2]     # 0, 2, 6 uWb at 0, 1, 2 ms
    assert -np.gradient([0, 2e-6, 6e-6], [0, 1e-3, 2e-3]) * 1e3 == pytest.approx([-2, -3, -4])
    assert "takes −3 mV" in notes


@pytest.mark.parametrize("slip", ANSWERS["4.7"].slips, ids=lambda slip: slip.name)
def test_each_slip_of_the_function_gets_its_own_note_once(slip):
    record = sheet_of("04")["exercises"]["4.7"]
    said = read_record("4.7", record).judge(slip.formula).text
    assert said.count(slip.note) == 1 and not any(
        other.note in said for other in ANSWERS["4.7"].slips if other.note != slip.note)
