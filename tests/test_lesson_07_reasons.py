"""Lesson 07: reasons that its page gives, computed: the law of levels, what poles share, what fills the dip."""
import math
from dataclasses import replace

import numpy as np
import pytest

from lesson_07_pages import BAR, COST, HALF, HEIGHT, PLAIN, ROD, SCREW, bell, db, magnetic_wrap, shared
from lessons_lib.exercises.self_study import load_lesson
from lessons_lib.lessons.lesson_07.model import LEVEL, PLACES, arranged, bent_level, pickup
from lessons_lib.physics.six_strings import decibels, first_pulses, workshop_row
from lessons_lib.physics.steel import SteelString
from notebooks import NOTEBOOKS, prose

PROSE = prose("07")
LESSON = load_lesson(NOTEBOOKS.parent / "answers" / "lesson_07.py")


def half_way(name, field):
    """How far a field (steady, or per ampere) at string height is down half way between poles IV and III, dB."""
    places = np.array([[0.0, PLACES[2], HEIGHT], [0.0, PLACES[2] + HALF, HEIGHT]])
    over, between = np.abs(getattr(arranged(name), field)(places)[:, 2])
    return -db(between / over)


def of_each_coil(aside):
    """What each of six small coils gives of string IV, pushed aside by so much; in series they add."""
    six, string = arranged("six coils"), workshop_row()[2]
    return np.array([replace(six, coils=coil).sensitivity(string.steel, height=HEIGHT, y=string.y + aside)
                     for coil in six.coils])


def test_the_signal_is_proportional_to_the_steels_cross_section():
    """As the page's box prints it: S/d^2 of plain wires of 0.20 to 0.56 mm over the rod of string IV."""
    ratios = [pickup("rods").sensitivity(SteelString(diameter=d), height=HEIGHT, y=PLACES[2]) / d ** 2
              for d in (0.20e-3, 0.28e-3, 0.40e-3, 0.56e-3)]
    assert np.ptp(ratios) / np.mean(ratios) < 0.04 and "stays the same within 4 %" in PROSE
    tesla = [pickup("rods").string_flux(steel, height=HEIGHT, y=PLACES[2]) / steel.area
             for steel in (SteelString(diameter=0.56e-3), SteelString(diameter=0.20e-3))]
    assert tesla == pytest.approx([1.45, 1.65], abs=0.005) and "1.45 to 1.65 T" in PROSE
    assert (0.56 / 0.20) ** 2 == pytest.approx(7.84) and "nearly eightfold" in PROSE


def test_what_the_law_leaves_out():
    """All strings over one pole: over rods, nearly saturated, hardly anything; over screws, far from it, more."""
    def misses(kind, saturation=1.9):
        row = [replace(string, y=PLACES[2], steel=replace(string.steel, saturation=saturation))
               for string in workshop_row()]
        return np.abs(decibels(first_pulses(pickup(kind), row)) - PLAIN.by_law).max()
    assert misses("rods") < 0.25 and misses("short screws") > 1
    assert misses("rods", math.inf) > 1 and misses("short screws", math.inf) > 1
    flux_density = [pickup("short screws").string_flux(string.steel, height=HEIGHT, y=string.y) / string.steel.area
                    for string in workshop_row()]
    assert max(flux_density) < 0.6 and "far from saturation is weakened by its own poles" in PROSE


def test_the_others_are_not_what_sharing_would_make_them():
    """A circuit gives all five the same; the field gives the neighbours more than that and the far ones less."""
    neighbours, far = SCREW.changes[[1, 3]], SCREW.changes[[0, 4, 5]]
    by_sharing = db(1 + shared(BAR))
    assert (neighbours < 5 * by_sharing).all() and (np.abs(far) < 0.3 * abs(by_sharing)).all()
    assert ROD.changes[3] == pytest.approx(SCREW.changes[3], rel=0.2)      # with nothing to share


def test_what_the_neighbour_misses():
    """Rods: B at the neighbour; screws: B and, more, the coil's field. Charges on surfaces, upright parts."""
    place = np.array([[0.0, PLACES[3], HEIGHT]])
    lost = {(kind, field): db(after / before) for kind in ("rods", "screws")
            for field in ("flux_density", "field_per_ampere")
            for before, after in [[getattr(pickup(kind, tops), field)(place)[0, 2]
                                   for tops in (LEVEL, (0.0, 0.0, 1e-3, 0.0, 0.0, 0.0))]]}
    assert lost["rods", "flux_density"] < 3 * lost["rods", "field_per_ampere"] < 0
    assert lost["screws", "field_per_ampere"] < lost["screws", "flux_density"] < -0.05


def test_a_magnetic_wrap_takes_the_loud_third_away():
    assert PLAIN.levels[3] - magnetic_wrap(20)[0] < 0 and "2.8 dB are left, or none" in PROSE
    assert min(magnetic_wrap(5)) > 2.5 and max(magnetic_wrap(20)) < 9.5     # 3 to 9 dB, as the teaching note says
    assert "the wound strings 3 to 9 dB up" in LESSON.teaching_note.replace("\n", " ")


def test_what_fills_the_dip_and_what_does_not():
    """Two small coils hear a string half way, but little; why screws are no worse than rods; upright parts."""
    over, between = of_each_coil(0.0), of_each_coil(HALF)
    assert over.sum() == pytest.approx(COST["rods, six coils"].sensitivity, rel=1e-6)
    assert between[2] == pytest.approx(between[3], rel=1e-3) and 0.25 < between[2] / over[2] < 0.29
    assert "little more than a quarter" in PROSE
    assert half_way("screws", "flux_density") < half_way("rods", "flux_density") / 2
    assert half_way("screws", "field_per_ampere") > half_way("rods", "field_per_ampere") + 1
    assert half_way("six coils", "field_per_ampere") > half_way("rods", "field_per_ampere") + 1


def test_the_bell_holds_for_the_first_millimetres():
    for name in ("rods", "screws"):
        for bend in (2e-3, 3e-3, 4e-3):
            assert bent_level(name, HEIGHT, bend) == pytest.approx(bell(name, bend), abs=0.5)
