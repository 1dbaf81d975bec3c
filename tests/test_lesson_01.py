"""Lesson 01: every number of its prose computed again, and its predictions checked against what the panels show."""
import math

import numpy as np
import pytest
from scipy.constants import mu_0, pi

from lessons_lib.base.workshop import house_magnet
from lessons_lib.exercises.draws import draw
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.lessons.lesson_01.model import axis_field, inside_field, ring_sum, rod_flux
from lessons_lib.physics.magnets import RodMagnet
from notebooks import ANSWERS, assert_printed, prose

PROSE = prose("01")
HOUSE = RodMagnet(**house_magnet)


def bracket(z, radius, length):
    return (length + z) / math.hypot(length + z, radius) - z / math.hypot(z, radius)


# what the page prints: the number computed here, the words in which it stands there
NUMBERS = [
    (850e-4 * pi * 2e-3 ** 2 * 1e6, "**1.07 µWb**"),
    (850e-4 * pi * 2e-3 ** 2 * 1e6 * math.cos(math.radians(30)), "**0.925 µWb**"),
    (2 * pi * (0.5 * 100 + 1.5 * 80 + 2.5 * 40), "1696 nWb"),
    (2 * pi * 1.5 * 80, "| 754.0 |"),
    (2 * pi * 2.5 * 40, "| 628.3 |"),
    (bracket(1, 2, 12), "= 0.5412$"),
    (bracket(3, 2, 12), "= 0.1592$"),
    (bracket(3, 2, 12) / bracket(1, 2, 12), "**0.294**"),
    (1000 / (4 * pi), "79.58\\ \\text{A/m}"),
    (480 * 1000 / (4 * pi) / 1e3, "**38.2 kA/m**"),
    ((0.210 - 0.380) / mu_0 / 1e3, "**−135 kA/m**"),
    (2 * pi * 1.0 * 2.0 * 100, "= 1257 nWb"),
    (2 * pi * 3.0 * 2.0 * 120, "+ 4524 nWb"),
    (2 * pi * 2.0 * (1.0 * 100 + 3.0 * 120) / 1e3, "nWb = 5.78 µWb."),
    (2 * pi * 4.0 * 3.0, "= 75.4 mm². The two have"),
    (2 * pi * 4.0 * 3.0 * 20, "nWb = 1508 nWb +"),
    (2 * pi * 4.0 * 3.0 * 80 / 1e3, "nWb = 6.03 µWb"),
    (2 * pi * (4.0 * 3.0 * 80 + 2.0 * 460) / 1e3, "**11.8 µWb**"),
    (2 * pi * 4.0 * 3.0 * 20 / 1e3, "1.51 µWb through"),
    (11.8 - 5.78 - 1.51, "under the clamp: 4.51 µWb"),
]


@pytest.mark.parametrize("value, words", NUMBERS, ids=[words for _, words in NUMBERS])
def test_numbers_of_the_prose(value, words):
    assert_printed(value, words, PROSE)


def test_two_thirds_of_the_flux_leave_by_the_side():
    """Prose of section 1, the answer and the observation of prediction p1."""
    flux = rod_flux(**house_magnet)
    assert flux.side_share == pytest.approx(2 / 3, abs=0.03)
    assert all(rod_flux(**house_magnet | {"length": length}).side_share > 0.3 for length in (8e-3, 20e-3))
    assert 0.4 < rod_flux(**house_magnet | {"recoil_permeability": 1.0}).side_share < 0.5


def test_a_wider_disc_has_a_lower_mean_and_more_flux():
    """Prediction p2: from 2.5 to 4 mm radius, 1 mm above the face."""
    narrow, wide = (ring_sum(height=1e-3, radius=radius, rings=5) for radius in (2.5e-3, 4e-3))
    assert wide.mean < 0.9 * narrow.mean and wide.exact > 1.2 * narrow.exact
    assert abs(narrow.difference) < 0.03      # "a few rings come close"


def test_three_rings_come_close_only_where_the_field_changes_little_across_them():
    assert "try 3 rings at 2.5 mm radius, then at 7 mm radius and a height of 0.5 mm" in PROSE
    assert 0 < ring_sum(height=1e-3, radius=2.5e-3, rings=3).difference < 0.02
    assert ring_sum(height=0.5e-3, radius=7e-3, rings=3).difference == pytest.approx(-0.08, abs=0.005)


def test_how_the_field_falls():
    """Prediction p3 and the summary: about two thirds from 1 to 2 mm, exponent -0.4 at 1 mm, towards -3 far away."""
    near = axis_field(z=1e-3)
    assert near.doubled == pytest.approx(2 / 3, abs=0.03)
    assert abs(near.exponent) == pytest.approx(0.4, abs=0.05)
    assert axis_field(z=300e-3).exponent == pytest.approx(-3, abs=0.1)     # the end of the slider
    # "the slope reaches 3 only far away": the dipole's law, at twenty lengths
    far = [HOUSE.flux_density([0, 0, z])[2] for z in (0.34, 0.68)]
    assert math.log2(far[0] / far[1]) == pytest.approx(3, abs=0.1)


def test_the_even_rod_gives_more_and_falls_faster():
    even = RodMagnet(diameter=5e-3, length=17e-3, remanence=0.75)
    heights = np.array([1e-3, 2e-3, 4e-3, 8e-3, 16e-3])
    points = np.stack([0 * heights, 0 * heights, heights], axis=-1)
    even_field, house_field = (rod.flux_density(points)[:, 2] for rod in (even, HOUSE))
    assert (even_field > house_field).all()
    assert (np.diff(np.log(even_field)) < np.diff(np.log(house_field))).all()


def test_h_reverses_at_the_face_and_b_does_not():
    """Prediction p4, and how the panel's H differs from the alloy's, near -50 kA/m all along (test_recoil_magnets)."""
    shape = {name: house_magnet[name] for name in ("diameter", "length", "recoil_permeability")}
    middle, above = (inside_field(place=place, **shape) for place in (0.0, shape["length"] / 2 + 3e-3))
    assert middle.b > 0 > middle.h and above.b > 0 and above.h > 0
    face = inside_field(place=shape["length"] / 2 - 1e-5, **shape)
    assert face.h < -100e3 and -30e3 < middle.h
    assert "In the middle this is stronger than the panel shows; at the ends it is weaker." in PROSE


LESSON = next(lesson for lesson in load_lessons(ANSWERS) if lesson.id == "01")
EXERCISES = {exercise.id: exercise for exercise in LESSON.exercises}


def drawn_rod(exercise_id, bench):
    """What a bench is given, and the rod that its readings are of."""
    drawn = draw(EXERCISES[exercise_id], secret="a secret of this test alone", bench=bench)
    radius, strip = drawn.shown["radius"] * 1e-3, drawn.shown["strip"] * 1e-3
    return drawn, RodMagnet(diameter=2 * radius, length=16 * strip, remanence=drawn.hidden["remanence"],
                            recoil_permeability=3.6), radius, strip


def mean_outward(rod, radius, low, high):
    """Mean B_rho (T) just outside the wall from height *low* to *high* below the top, by 40 Gauss points."""
    nodes, weights = np.polynomial.legendre.leggauss(40)
    z = (low + high) / 2 + (high - low) / 2 * nodes
    points = np.stack([np.full_like(z, radius * (1 + 1e-3)), 0 * z, z], axis=-1)
    return weights @ rod.flux_density(points)[:, 0] / 2


@pytest.mark.parametrize("bench", ["b001", "b002", "b003"])
def test_the_readings_of_a_rod_add_up_to_the_flux_of_its_middle(bench):
    """Exercise 1.8: the wall's readings by B itself, which the flux function does not enter; 0.1 mT is printed."""
    drawn, rod, radius, strip = drawn_rod("1.8", bench)
    assert drawn.answer * 1e-6 == pytest.approx(rod.midplane_flux(), rel=1e-3)
    for number in range(7):         # the top one ends at the edge, where B has no bound
        low = (number - 8) * strip
        assert drawn.shown["out_of_wall"][number] == pytest.approx(
            1e3 * mean_outward(rod, radius, low, low + strip), rel=5e-3, abs=0.06)


@pytest.mark.parametrize("bench", ["b001", "b002", "b003"])
def test_the_covered_strip_is_the_one_that_was_left_out(bench):
    """Exercise 1.9, to a sixth of its tolerance: the flux of the strip is a small difference of rounded ones."""
    drawn, rod, radius, strip = drawn_rod("1.9", bench)
    covered = int(drawn.hidden["covered"])
    assert not any(abs(place - (covered - 0.5) * strip * 1e3) < 0.1 for place in drawn.shown["place"])
    low = (covered - 9) * strip
    assert drawn.answer == pytest.approx(1e3 * mean_outward(rod, radius, low, low + strip), rel=5e-3)


def test_who_reads_between_the_neighbours_of_the_covered_strip_reads_too_much():
    """What the teaching note of 1.9 says."""
    shares = []
    for bench in range(60):
        drawn, *_ = drawn_rod("1.9", f"b{bench:03}")
        [between] = [number for name, number, _ in drawn.slips if name == "mean of its neighbours"]
        shares.append(between / drawn.answer - 1)
    assert 0.08 < min(shares) < 0.12 and 0.4 < max(shares) < 0.5
    assert "a tenth to nearly a half too high" in EXERCISES["1.9"].teaching_note


def order_of(numbers, same=0.01):
    """Letters by their numbers, the largest first, as a student types it; a tie in the order of the alphabet."""
    letters = sorted(sorted(numbers), key=lambda one: round(numbers[one], 9), reverse=True)
    text = letters[0]
    for one, other in zip(letters, letters[1:]):
        text += (" = " if abs(numbers[one] - numbers[other]) <= same * abs(numbers[one]) else " > ") + other
    return text


def test_five_loops_in_order():
    """Exercise 1.10, in units of the flux through loop (a): B times area times cosine."""
    disc = pi / 4
    flux = {"a": disc, "b": 0.5 * disc * 2 ** 2, "c": disc * 2 ** 2 * math.cos(math.radians(60)), "d": 1.0, "e": 0.0}
    assert order_of(flux) == EXERCISES["1.10"].right
    assert_printed(flux["d"] / flux["a"], "1.27. Through", EXERCISES["1.10"].worked)


def field_at_five_places(rod, just=1e-6):
    """H upwards (A/m) at the places of exercise 1.11."""
    places = {"a": (0, -rod.length / 2), "b": (0, just), "c": (0, -rod.length - just), "d": (0, rod.length),
              "e": (rod.diameter / 2 + rod.length, -rod.length / 2)}
    return {name: float(rod.field_strength([x, 0, z])[2]) for name, (x, z) in places.items()}


def test_h_at_five_places_in_order():
    """Exercise 1.11; on the real alloy H in the middle is near -50 kA/m (test_recoil_magnets), still the last."""
    field = field_at_five_places(HOUSE)
    assert order_of(field) == EXERCISES["1.11"].right == order_of({**field, "a": -50e3})
    assert field["d"] > 1e3 > -1e3 > field["e"]     # not near each other
    density = {name: abs(mu_0 * one) for name, one in field.items()} | {"a": HOUSE.flux_density([0, 0, -8.5e-3])[2]}
    assert max(density, key=density.get) == "a"     # the teaching note: B has the middle of the rod first


def test_the_disc_of_the_fridge_door():
    """Exercise 1.14 and the notes of 1.15: ferrite of the page's 0.38 T, with the recoil permeability of ferrite."""
    disc = RodMagnet(diameter=20e-3, length=5e-3, remanence=0.38, recoil_permeability=1.05)
    flux = float(disc.flux_function(10e-3, 0.0))
    assert_printed(flux * 1e6, "the library has 33 µWb", EXERCISES["1.14"].worked)
    assert "**J** = 0.380 T" in PROSE
    for diameter in (18e-3, 20e-3, 24e-3):
        one = RodMagnet(diameter=diameter, length=5e-3, remanence=0.38, recoil_permeability=1.05)
        assert EXERCISES["1.14"].answer(diameter) == pytest.approx(one.flux_function(diameter / 2, 0.0), rel=0.2)
    face = HOUSE.flux_function(2.5e-3, 0.0)
    assert face / (pi * 2.5e-3 ** 2) == pytest.approx(0.2, rel=0.15) and face == pytest.approx(4e-6, rel=0.1)
    phone = disc.flux_density([0, 0, 50e-3 - 2.5e-3])[2]        # 5 cm from its middle
    assert_printed(round(phone * 1e6, -1), "has 700 µT at", EXERCISES["1.15"].teaching_note)
    far = EXERCISES["1.15"].answer(0.05, 700e-6, 50e-6)
    assert_printed(far * 100, "= 12 cm.", EXERCISES["1.15"].teaching_note)
    assert disc.flux_density([0, 0, far - 2.5e-3])[2] == pytest.approx(50e-6, rel=0.1)      # the law holds there


def test_the_first_page_says_what_is_asked_from_memory():
    assert EXERCISES["m3"].sentence in prose("00").replace("*", "")
