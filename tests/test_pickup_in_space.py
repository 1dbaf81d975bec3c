"""Several poles in space against a method of another kind: potential on triangles (reference_solid), nothing taken as
symmetric about a pole's axis, and an exact wire over its fields. Coils and bars alone are checked elsewhere."""
import math
from functools import cache

import magpylib
import numpy as np
import pytest
from scipy.constants import mu_0

from lessons_lib.base.workshop import house_coil, house_place
from lessons_lib.physics.magnets import BarMagnet, RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.steel import SteelPole, SteelString
from lessons_lib.physics.winding import LongCoil
from reference_fem import Region, solve_rods
from reference_solid import box, cylinder, magnetise_solids
from reference_wire import wire_linkage

COIL = LongCoil(**house_coil)
PLACES = house_place["string_y"]
HEIGHTS, Y = (2.4e-3, 2.6e-3), PLACES[2]
OVER_THE_POLE = np.array([0.0, Y, 2.5e-3])


def one_ampere(points):
    return COIL.flux_density(points) / mu_0


@cache
def six_magnets():
    pickup = Pickup(coils=COIL, poles=[RodMagnet(diameter=5e-3, length=17e-3, remanence=0.90, recoil_permeability=3.6,
                                                 y=y) for y in PLACES])
    magnets = magpylib.Collection([magpylib.magnet.Cylinder(
        polarization=(0, 0, 0.90), dimension=(5e-3, 17e-3), position=(0, y, -8.5e-3)) for y in PLACES])
    solids = [cylinder(diameter=5e-3, length=17e-3, permeability=3.6, y=y) for y in PLACES]
    return pickup, magnetise_solids(solids, magnets.getH, one_ampere, folded=True)


@cache
def screws_on_a_bar():
    # 0.1 mm between screws and bar: places on both surfaces at once have no solid angle
    size, centre = (12.7e-3, 60e-3, 3.2e-3), (0, 0, -18.7e-3)
    pickup = Pickup(coils=COIL, poles=[SteelPole(diameter=4.8e-3, length=17e-3, relative_permeability=500, y=y)
                                       for y in PLACES],
                    bars=BarMagnet(size=size, centre=centre, remanence=0.38, recoil_permeability=1.08))
    magnet = magpylib.magnet.Cuboid(polarization=(0, 0, 0.38), dimension=size, position=centre)
    solids = [cylinder(diameter=4.8e-3, length=17e-3, permeability=500, y=y) for y in PLACES]
    solids.append(box(size=size, centre=centre, permeability=1.08, cells=(6, 30, 2)))
    return pickup, magnetise_solids(solids, magnet.getH, one_ampere, folded=True)


def linkages(steady, per_ampere):
    """Exact wire at both heights: 512 points on its surface, steps of 0.8 mm along it."""
    return [wire_linkage(steady.field_strength, per_ampere.field_strength, place=(Y, height), radius=0.25e-3,
                         permeability=100.0, harmonics=1, count=128, half_length=0.05) for height in HEIGHTS]


# Steel in a uniform field by axially symmetric finite elements, good to 1e-4: what this method itself is good for.
def test_method_on_one_rod():
    applied, heights = 1e4, np.array([1e-3, 2e-3, 3e-3, 5e-3])
    [rod] = magnetise_solids([cylinder(diameter=4.8e-3, length=17e-3, permeability=500.0)],
                             lambda points: np.zeros_like(points) + (0, 0, applied))
    mesh = solve_rods([Region(outer=2.4e-3, bottom=-17e-3, top=0.0, relative_permeability=500.0)],
                      applied=mu_0 * applied)
    field = mu_0 * rod.field_strength(np.stack([0 * heights, 0 * heights, heights], axis=-1))[:, 2]
    assert field == pytest.approx(mesh.axial_field(heights), rel=7e-3)   # 28 corners round, measured 0.5 %


@pytest.mark.parametrize("scene, steady_field, coil_field, linkage, slope", [
    (six_magnets, 0.005, 0.005, 0.005, 0.015), (screws_on_a_bar, 0.01, 0.015, 0.01, 0.03)],
    ids=["six_magnets", "screws_on_a_bar"])
def test_fields_linkage_and_slope(scene, steady_field, coil_field, linkage, slope):
    """Measured on the magnets 0.3, 0.2, 0.2, 0.7 %, over the screws 0.1, 0.9, 0.1, 1.7 %: what is left of a pole's
    magnetisation across itself, which the library leaves out, and of the triangles (0.5 %)."""
    pickup, (steady, per_ampere) = scene()
    for library, solids, tolerance in ((pickup.flux_density, steady, steady_field),
                                       (pickup.field_per_ampere, per_ampere, coil_field)):
        there = mu_0 * solids.field_strength(OVER_THE_POLE)[2]
        assert library(OVER_THE_POLE)[2] == pytest.approx(there, rel=tolerance)
    string = SteelString(diameter=0.5e-3, saturation=math.inf)
    nearer, farther = linkages(steady, per_ampere)
    assert pickup.flux_linkage(string, height=HEIGHTS, y=Y) == pytest.approx([nearer, farther], rel=linkage)
    steepness = (nearer - farther) / (HEIGHTS[1] - HEIGHTS[0])
    assert pickup.sensitivity(string, height=2.5e-3, y=Y) == pytest.approx(steepness, rel=slope)


@pytest.mark.parametrize("scene", [six_magnets, screws_on_a_bar])
def test_inductance_that_the_poles_add(scene):
    pickup, (_, per_ampere) = scene()
    added = per_ampere.linkage(one_ampere)
    assert pickup.inductance() - COIL.self_inductance() == pytest.approx(added, rel=0.02)   # measured 0.9 and 1.3 %
