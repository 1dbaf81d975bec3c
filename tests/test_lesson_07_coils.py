"""Lesson 07: one coil or six, and what each turn and each pair of coils gets of string and hum."""
import math

import numpy as np
import pytest

from lesson_07_pages import HEIGHT, LONG_COIL, SIX, SIX_RODS, WIRE, db, flexible_fourth, spikes
from lessons_lib.base.units import said
from lessons_lib.base.workshop import house_place
from lessons_lib.exercises.self_study import load_lesson
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_07.joined import closing, turns_of_each
from lessons_lib.lessons.lesson_07.model import arranged
from lessons_lib.lessons.lesson_07.pair import ASIDE, hum_pair
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.six_strings import workshop_row
from lessons_lib.physics.winding import RoundCoil
from notebooks import NOTEBOOKS, assert_printed, prose

PROSE = prose("07")
LESSON = load_lesson(NOTEBOOKS.parent / "answers" / "lesson_07.py")


def test_the_table_of_one_coil_or_six():
    """Each row once more from the record; turns, wire and ohms by hand (mean turns of 23.9 and 131.5 mm)."""
    words = {"each": "turns of each coil", "all": "turns of all six", "wire": "length of wire", "output": "output"}
    small, long = 2 * math.pi * 3.8e-3, 2 * 51e-3 + 2 * math.pi * 4.7e-3
    for held, one in SIX.items():
        inductance = said(one.inductance, "H", ".2f")
        peak = said(one.peak, "kHz", ".2f" if one.peak < 10e3 else ".0f")
        assert (f"| {words[held]} | {one.turns / 6:.0f} | {one.wire:.0f} m | {one.resistance / 1e3:.1f} kΩ "
                f"| {inductance} | {peak} | {said(one.level, 'dB', 'z.1f')} |") in PROSE
        assert one.wire == pytest.approx(one.turns * small)
        assert one.resistance / one.wire == pytest.approx(LONG_COIL.resistance / LONG_COIL.wire)
        assert one.turns / 6 == pytest.approx(turns_of_each(held=held, turns=7600))
    assert [SIX["each"].turns, SIX["all"].turns] == [6 * 7600, 7600]
    assert SIX["wire"].wire == pytest.approx(7600 * long) and SIX["output"].level == pytest.approx(0, abs=1e-9)
    assert "| (the long coil) | 7600 | 1000 m | 8.7 kΩ | 2.16 H | 4.19 kHz | 0 dB |" in PROSE
    assert (LONG_COIL.wire, LONG_COIL.peak) == (pytest.approx(1000, abs=0.5), pytest.approx(4190, abs=5))
    assert SIX["output"].resistance / LONG_COIL.resistance == pytest.approx(SIX["output"].wire / LONG_COIL.wire)
    assert_printed(db(6), "that makes 15.6 dB", PROSE)
    assert_printed(-SIX["all"].level - db(6), "other 2.0 dB are lost", PROSE)
    assert 10 ** (SIX["all"].level / 20) == pytest.approx(1 / 8, rel=0.1) and "about an eighth" in PROSE
    assert house_instrument.small_coil.fill_factor(WIRE) * SIX["output"].turns / SIX["each"].turns > 1


def test_a_wider_turn_gets_more_of_what_the_string_adds():
    """A turn of the small coil's radius and one of the long coil's, both round: volts per metre and second."""
    string, rods = workshop_row()[2], arranged("rods").poles
    volts = []
    for radius in (3.8e-3, 4.7e-3):
        turn = RoundCoil(inner_radius=radius, outer_radius=radius + 1e-5, bottom=-14.5e-3, top=-2.5e-3, turns=1,
                         y=string.y)
        volts.append(Pickup(poles=rods, coils=turn).sensitivity(string.steel, height=HEIGHT, y=string.y))
    assert volts[1] > 1.1 * volts[0]


def test_a_real_string_leaves_spikes_of_the_winding_alone():
    """The page's rectangles against the sum of partials up to 400 kHz."""
    string = flexible_fourth()
    motion = string.pluck(force=1.0, place=house_place["pluck_place"], highest_frequency=400e3)
    time = np.linspace(0, 1 / string.frequency(1), 20000, endpoint=False)
    first, second = (motion.velocity(time, house_place["pickup_place"] + way)[0] for way in (0.0, 2 * ASIDE))
    left = first - second
    assert db(np.std(left) / np.std(first)) == pytest.approx(spikes(), abs=0.05)
    # high, but for a few per cent of ripple at the corners of a cut series
    assert np.percentile(np.abs(left), 99) == pytest.approx(1 / (2 * string.impedance), rel=0.03)
    assert 2 * ASIDE / string.wave_speed == pytest.approx(1e-4, rel=0.05)
    assert "a tenth of a millisecond" in PROSE and "(18 mm at" in PROSE and 2 * ASIDE == 18e-3


def test_prediction_p5_a_sixth_of_the_turns_each():
    assert SIX["all"].level < -12 and LESSON["p5"].seen == "c" and "−17.5 dB" in LESSON["p5"].seen_notes["c"]


def test_prediction_p6_the_string_carries_its_flux_beyond_the_copper():
    share = closing(kind="six", loop=6.2e-3).carried / SIX_RODS["most"]
    assert share == pytest.approx(0.91, abs=0.005) and LESSON["p6"].seen == "d"
    assert "91 %" in LESSON["p6"].seen_notes["d"]


def test_prediction_p4_winding_alone_takes_both():
    pair = hum_pair(more_turns=0.0, uneven=0.0)
    assert pair.hum["winding alone"] == pair.signal["winding alone"] == -math.inf and LESSON["p4"].seen == "c"
    assert pair.hum["both"] == -math.inf and pair.signal["both"] > 6
