"""Lesson 01: every number of its prose computed again, and its predictions checked against what the panels show."""
import math

import numpy as np
import pytest
from scipy.constants import mu_0, pi

from lessons_lib.base.workshop import house_magnet
from lessons_lib.lessons.lesson_01.model import axis_field, inside_field, ring_sum, rod_flux
from lessons_lib.physics.magnets import RodMagnet
from notebooks import assert_printed, prose

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
    heights = np.array([1e-3, 2e-3, 4e-3])
    points = np.stack([0 * heights, 0 * heights, heights], axis=-1)
    even_field, house_field = (rod.flux_density(points)[:, 2] for rod in (even, HOUSE))
    assert (even_field > house_field).all()
    assert even_field[1] / even_field[0] < house_field[1] / house_field[0]


def test_h_reverses_at_the_face_and_b_does_not():
    """Prediction p4, and how the panel's H differs from the alloy's, near -50 kA/m all along (test_recoil_magnets)."""
    shape = {name: house_magnet[name] for name in ("diameter", "length", "recoil_permeability")}
    middle, above = (inside_field(place=place, **shape) for place in (0.0, shape["length"] / 2 + 3e-3))
    assert middle.b > 0 > middle.h and above.b > 0 and above.h > 0
    face = inside_field(place=shape["length"] / 2 - 1e-5, **shape)
    assert face.h < -100e3 and -30e3 < middle.h
    assert "In the middle this is stronger than the panel shows; at the ends it is weaker." in PROSE
