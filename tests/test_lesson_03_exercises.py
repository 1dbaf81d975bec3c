"""Exercises of lesson 03: their ranges hold the computed model, and typical mistakes are asked about."""
import math

import pytest
from scipy.constants import pi

from lesson_03_pole import ROD, STRING, six_rods
from lessons_lib.base.workshop import house_coil, house_place, house_strings
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw
from lessons_lib.exercises.kinds import read_record
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.lessons.lesson_03.circuit import circuit_and_model, fitted_circuit
from lessons_lib.lessons.lesson_03.model import over_heights, three_fluxes
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.steel import SteelString
from lessons_lib.physics.winding import LongCoil
from notebooks import NOTEBOOKS, prose, sheet_of

PROSE = prose("03")
AT_2_5, AT_2 = (three_fluxes(height=height, **STRING) for height in (2.5e-3, 2e-3))
WIRE = over_heights(0.46e-3, 100.0, True)
ANSWERS = next(lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers") if lesson.id == "03")


def test_thin_strings_have_the_areas_of_the_exercises():
    areas = [fitted_circuit(height, 0.25e-3, 1).gap_area for height in (1.5e-3, 2.5e-3, 4e-3)]
    assert [round(area * 1e6) for area in areas] == [4, 8, 12] and "only 4 to 12 mm²" in PROSE


@pytest.mark.parametrize("bench", ["b000", "b004", "b007"])
def test_who_misreads_the_brackets_is_asked_about_them(bench):
    """Exercise 3.2, read as (magnet + near) || (branch + far)."""
    drawn = draw(ANSWERS["3.2"], secret=SELF_STUDY_SECRET, bench=bench)
    F, magnet, near, far, branch = (drawn.shown[name] for name in ("mmf", "magnet", "near", "far", "branch"))
    misread = F / ((magnet + near) * (branch + far) / (magnet + near + branch + far)) - F / (magnet + near + far)
    record = sheet_of("03", bench)["exercises"]["3.2"]
    said = read_record("3.2", record).judge(misread * 1e3, "nWb").text
    assert "brackets" in said and "units" not in said


@pytest.mark.parametrize("bench", ["b000", "b004", "b007"])
def test_who_takes_1200_times_the_share_is_asked_about_that(bench):
    """Exercise 3.7: no logarithm was used."""
    K, T, q = (draw(ANSWERS["3.7"], secret=SELF_STUDY_SECRET, bench=bench).shown[name]
               for name in ("stiffness", "tension", "place"))
    record = sheet_of("03", bench)["exercises"]["3.7"]
    share = K * 0.6 * math.sin(pi * q) ** 2 / (pi ** 2 * T)
    assert "That is 1200 times the share itself" in read_record("3.7", record).judge(-1200 * share, "cents").text


def test_the_decay_length_of_the_workshops_pickup():
    """Range of exercise 3.4: 2.6 to 3.5 mm, fitted between 2 and 3 mm."""
    pickup = Pickup(poles=six_rods(), coils=LongCoil(**house_coil))
    wound_too = [*zip(("VI", "V", "IV", "III", "II", "I"), house_place["string_y"]),
                 ("III wound", house_place["string_y"][3])]
    for name, y in wound_too:
        near, far = pickup.sensitivity(SteelString(diameter=house_strings[name]["core"]), height=[2e-3, 3e-3], y=y)
        assert 2.6 <= round(1 / math.log(near / far), 1) <= 3.5


def test_the_ranges_of_the_exercises_hold_the_computed_model():
    """3.2 and the areas of 3.12: a fine string, fitted from 2 mm to 4 mm; 3.3: string VI; 3.7: from 2.7 mm on."""
    for height in (2e-3, 2.5e-3, 3.5e-3):
        fine = circuit_and_model(height=height, fit_height=height, core=0.25e-3, saturates=1).circuit
        assert 4e-6 < fine.gap_area < 12e-6
        assert 350e6 < fine.branch(height) < 600e6 and 5e6 < fine.near_air < 9e6 and 18e6 < fine.far_air < 23e6
    assert 20e-9 < AT_2_5.added_in_turn < 32e-9
    assert 1.9e-3 < WIRE.linkage(2.5e-3) / WIRE.signal(2.5e-3) < 2.3e-3
    assert 5 < WIRE.pull_gradient(4e-3) < WIRE.pull_gradient(2.8e-3) < 14
    assert ROD.midplane_flux() == AT_2.magnet
