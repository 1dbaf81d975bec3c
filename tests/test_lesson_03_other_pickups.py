"""Lesson 03: what other strings, steel, magnets and coils do to signal and decay length, by the pickup itself."""
import math

import pytest

from lesson_03_pole import PICKUP, ROD, SIX, cross_section_exponent, six_rods
from lessons_lib.base.workshop import house_coil, house_magnet, house_place, house_strings
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.steel import SteelString
from lessons_lib.physics.winding import LongCoil
from notebooks import NOTEBOOKS, prose

PROSE = prose("03")
ANSWERS = next(lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers") if lesson.id == "03")


def test_steel_of_2_tesla_raises_the_signal_by_3_to_4_per_cent():
    """Teaching note: over one rod and over six, the thickest core and the thinnest."""
    for pickup, places in ((PICKUP, (0.0, 0.0)), (Pickup(poles=six_rods(), coils=LongCoil(**house_coil)),
                                                  (house_place["string_y"][0], house_place["string_y"][5]))):
        for name, y in zip(("VI", "I"), places):
            less, more = (pickup.sensitivity(SteelString(diameter=house_strings[name]["core"], saturation=saturation),
                                             height=2.5e-3, y=y) for saturation in (1.9, 2.0))
            assert 1.025 < more / less < 1.045
    assert "that raises the signal by 3 to 4 %" in " ".join(ANSWERS.teaching_note.split())


def test_the_signal_goes_with_the_cross_section():
    # what was measured: test_against_the_world.py
    assert [round(cross_section_exponent(height), 1) for height in (2.5e-3, 6e-3)] == [2.0, 1.9]
    assert "$S\\sim d^{\\,2.0}$ at 2.5 mm" in PROSE and "at 6 mm $d^{\\,1.9}$ and $d^{\\,1.8}$" in PROSE


def test_a_straight_line_steel_gives_less_than_the_square():
    straight = [cross_section_exponent(height, math.inf) for height in (2.5e-3, 4e-3, 6e-3)]
    assert straight == pytest.approx([1.7, 1.7, 1.8], abs=0.06) and "about $d^{\\,1.7}$" in PROSE
    thin = [SteelString(diameter=d, saturation=math.inf) for d in (0.02e-3, 0.03e-3)]   # its own poles do nothing
    few, many = (PICKUP.sensitivity(string, height=2.5e-3) for string in thin)
    assert math.log(many / few) / math.log(1.5) == pytest.approx(2, abs=0.05)


def test_twice_the_magnet_is_not_twice_the_signal():
    strong = Pickup(poles=RodMagnet(**house_magnet | {"remanence": 1.5}), coils=PICKUP.coils)
    straight = SteelString(diameter=0.46e-3, saturation=math.inf)
    assert (strong.sensitivity(straight, height=2.5e-3) / PICKUP.sensitivity(straight, height=2.5e-3)
            == pytest.approx(2, rel=1e-3))
    assert strong.sensitivity(SIX, height=2.5e-3) / PICKUP.sensitivity(SIX, height=2.5e-3) < 1.2
    assert strong.pull_gradient(SIX, height=2.5e-3) / PICKUP.pull_gradient(SIX, height=2.5e-3) > 2


def test_one_number_in_two_ways():
    assert PICKUP.linkage_by_energy(SIX, height=2.5e-3) == pytest.approx(PICKUP.flux_linkage(SIX, height=2.5e-3),
                                                                         rel=1e-4)


def test_a_long_coil_and_neighbouring_rods_reach_further():
    def decay(poles, coil):
        near, far = Pickup(poles=poles, coils=coil).sensitivity(SIX, height=[2e-3, 3e-3], y=0.0)
        return 1 / math.log(near / far)
    long_coil = LongCoil(**house_coil)
    three = [RodMagnet(**house_magnet, y=y) for y in (-10.2e-3, 0.0, 10.2e-3)]
    assert decay(ROD, PICKUP.coils) + 0.3 < decay(ROD, long_coil) < decay(three, long_coil) - 0.2      # mm
    assert "a long coil and neighbouring rods reach further" in PROSE
