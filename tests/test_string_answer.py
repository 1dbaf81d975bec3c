"""A string's field and the magnet's answer to it: against magpylib, and against reciprocity by the pickup."""
import magpylib
import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.constants import mu_0

from lessons_lib.base.workshop import house_magnet
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03.model import one_pole
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.steel import STRING_PLACES, SteelString
from lessons_lib.physics.string_answer import added_midplane_flux, answer_of_rod, disc_flux, string_field, string_line
from lessons_lib.physics.winding import RoundCoil

PICKUP = one_pole(house_instrument)
ROD, COIL = PICKUP.poles[0], PICKUP.coils[0]
STRING = SteelString(diameter=0.46e-3)
HEIGHT = 2.5e-3


@pytest.fixture(scope="module")
def magnetised():
    return STRING.magnetise(ROD.field_strength(string_line(height=HEIGHT)))


def test_field_against_a_row_of_thin_cylinders(magnetised):
    """magpylib's cylinders, each with the mean polarisation along the string between two nodes; across by dipoles."""
    M = magnetised.magnetisation
    mean = (M[1:] + M[:-1]) / 2
    points = np.array([[0, 0, 0], [2e-3, 0, 0.5e-3], [1e-3, 1.5e-3, 2.5e-3], [0, 0, -8.5e-3], [9e-3, 2e-3, 6e-3]])
    expected = np.zeros_like(points)
    for left, right, along, across in zip(STRING_PLACES[:-1], STRING_PLACES[1:], mean[:, 0], mean[:, 2]):
        place = ((left + right) / 2, 0, HEIGHT)
        piece = magpylib.magnet.Cylinder(polarization=(0, 0, mu_0 * along), dimension=(0.46e-3, right - left),
                                         position=place)
        piece.rotate_from_angax(90, "y")
        dipole = magpylib.misc.Dipole(moment=(0, 0, across * STRING.area * (right - left)), position=place)
        expected += piece.getB(points) + dipole.getB(points)
    found = string_field(magnetised, points, height=HEIGHT)
    assert_allclose(found, expected, atol=7e-3 * np.abs(expected).max())     # straight pieces against a smooth string


def test_the_coils_linkage_by_adding_up_is_that_of_reciprocity(magnetised):
    """String and answering rod, each with the coil's own field in air."""
    of_string = magnetised.linkage(COIL.flux_density(string_line(height=HEIGHT)))
    of_rod = answer_of_rod(ROD, magnetised, height=HEIGHT).linkage_with(COIL.flux_density)
    assert_allclose(of_string + of_rod, PICKUP.flux_linkage(STRING, height=HEIGHT), rtol=1e-3)


@pytest.mark.parametrize("radius, tolerance", [(3.2e-3, 0.016), (4.5e-3, 0.005)])
def test_flux_through_a_ring_round_the_rod_against_a_search_coil(magnetised, radius, tolerance):
    """Near the wall the rod's panels do not follow a single turn well; further out both agree."""
    turn = RoundCoil(inner_radius=radius - 2e-5, outer_radius=radius + 2e-5, bottom=-8.52e-3, top=-8.48e-3, turns=1)
    by_reciprocity = Pickup(poles=ROD, coils=turn).flux_linkage(STRING, height=HEIGHT)
    answer = answer_of_rod(ROD, magnetised, height=HEIGHT)
    added = (float(answer.section_flux(0, radius, -8.5e-3))
             + disc_flux(lambda p: string_field(magnetised, p, height=HEIGHT), radius, (0, 0, -8.5e-3)))
    assert_allclose(added, by_reciprocity, rtol=tolerance)


def test_inside_the_rod_it_is_a_little_less_than_round_it(magnetised):
    inside = added_midplane_flux(ROD, STRING, height=HEIGHT)
    answer = answer_of_rod(ROD, magnetised, height=HEIGHT)
    wider = (float(answer.section_flux(0, 2.6e-3, -8.5e-3))
             + disc_flux(lambda p: string_field(magnetised, p, height=HEIGHT), 2.6e-3, (0, 0, -8.5e-3)))
    assert 1.0 < wider / inside < 1.04


def test_a_string_too_near_is_refused():
    with pytest.raises(ValueError, match="height must be a millimetre above the rod's face, or more; got"):
        added_midplane_flux(ROD, STRING, height=0.5e-3)


def test_a_magnet_turned_over_changes_by_the_same_share():
    turned = type(ROD)(**house_magnet | {"remanence": -0.75})
    assert_allclose(added_midplane_flux(turned, STRING, height=HEIGHT),
                    -added_midplane_flux(ROD, STRING, height=HEIGHT))
