"""An alnico rod on its bent curve against finite elements on the same curve, and in limits that other models reach."""
import math
from dataclasses import replace

import numpy as np
import pytest
from numpy.polynomial.legendre import leggauss
from numpy.testing import assert_allclose
from scipy.constants import mu_0, pi
from scipy.integrate import trapezoid

from lessons_lib.base.materials import magnet_grade
from lessons_lib.base.workshop import house_magnet
from lessons_lib.physics.magnets import AlnicoRod, RodMagnet
from reference_fem import Region, solve_on_curve

HOUSE = {name: house_magnet[name] for name in ("diameter", "length")}
ALNICO_5 = magnet_grade("alnico 5")
HEIGHTS = np.array([0.3, 0.64, 1, 2, 3, 5]) * 1e-3


def on_axis(rod, heights):
    return rod.flux_density([(rod.x, rod.y, rod.top + height) for height in heights])[:, 2]


def finite_elements(grade, diameter, length):
    region = Region(outer=diameter / 2, bottom=-length, top=0.0, relative_permeability=grade.recoil_permeability)
    return solve_on_curve(region, remanence=grade.remanence, coercivity=grade.coercivity,
                          energy_product=grade.energy_product, finest=1e-4, growth=1.4)[0]


@pytest.mark.parametrize("name, diameter, length", [
    ("alnico 5", 5e-3, 17e-3), ("alnico 5", 10e-3, 4e-3), ("alnico 5", 4e-3, 20e-3), ("alnico 2", 5e-3, 17e-3),
    ("alnico 3", 5e-3, 8e-3), ("alnico 8", 5e-3, 17e-3), ("alnico 8", 10e-3, 4e-3)])
def test_rod_on_its_curve_against_finite_elements(name, diameter, length):
    grade, a = magnet_grade(name), diameter / 2
    rod, mesh = AlnicoRod(grade=grade, diameter=diameter, length=length), finite_elements(grade, diameter, length)
    # the grid's steps are second order, 0.3 % at the worst where they are 20 % of the radius; finite elements 0.1 %
    assert_allclose(on_axis(rod, HEIGHTS), mesh.axial_field(HEIGHTS, radius=1e-4), rtol=4e-3)
    assert_allclose(rod.midplane_flux(), mesh.flux(a, -length / 2)[0], rtol=3e-3)
    assert_allclose(rod.end_flux(), mesh.flux(a, 0.0)[0], rtol=4e-3)
    # deep inside, near the wall on both sides, over the face, outside
    rho = a * np.array([0.5, 0.97, 1.03, 0.97, 0.5, 1.0, 2.0, 3.0])
    z = length * np.array([-0.5, -0.5, -0.4, -0.1, -0.05, 0.05, -0.3, 0.3])
    assert_allclose(rod.flux_function(rho, z), mesh.flux(rho, z), rtol=5e-3)
    inside = -length * np.array([0.1, 0.3, 0.5])
    assert_allclose(on_axis(rod, inside), mesh.axial_field(inside, radius=1e-4), rtol=0.02)    # slope of a spline


def test_the_house_rod_by_other_hands():
    # finite elements with Newton's method by another program, 5 x 17 mm, 1.28 T, 51 kA/m, 43.8 kJ/m3: its digits
    rod = AlnicoRod(grade=ALNICO_5, **HOUSE)
    assert_allclose(on_axis(rod, [1e-3, 2e-3, 3e-3, 5e-3]), [120.66e-3, 83.86e-3, 56.84e-3, 28.35e-3], rtol=2e-3)
    assert_allclose(rod.midplane_flux(), 16.08e-6, rtol=2e-3)
    z = np.linspace(-17e-3, 0.0, 201)
    area = pi * (HOUSE["diameter"] / 2) ** 2
    assert_allclose(trapezoid(rod.flux_function(HOUSE["diameter"] / 2, z), z) / 17e-3 / area, 0.656, rtol=3e-3)
    # of the same solution, printed to two digits: B on the axis in the middle 0.53 T
    assert_allclose(on_axis(rod, [-8.5e-3]), 0.53, atol=6e-3)


@pytest.mark.parametrize("diameter, length, recoil_permeability", [
    (5e-3, 17e-3, 3.6), (10e-3, 4e-3, 3.6), (5e-3, 17e-3, 1.5), (5e-3, 17e-3, 8.0)])
def test_a_straight_curve_is_the_recoil_line(diameter, length, recoil_permeability):
    remanence = 0.75
    coercivity = remanence / (mu_0 * recoil_permeability)
    straight = replace(ALNICO_5, remanence=remanence, coercivity=coercivity, recoil_permeability=recoil_permeability,
                       energy_product=remanence * coercivity / 4)
    rod = AlnicoRod(grade=straight, diameter=diameter, length=length)
    line = RodMagnet(diameter=diameter, length=length, remanence=remanence, recoil_permeability=recoil_permeability)
    assert_allclose(on_axis(rod, HEIGHTS), on_axis(line, HEIGHTS), rtol=2e-3)
    assert_allclose([rod.midplane_flux(), rod.end_flux()], [line.midplane_flux(), line.end_flux()], rtol=2.5e-3)


def test_h_adds_up_to_nothing_round_a_loop_on_the_axis():
    """Ampère's law without a current: up through the rod, back outside; a dipole's field beyond 1 m is 1e-5 of it."""
    rod, (u, w) = AlnicoRod(grade=ALNICO_5, **HOUSE), leggauss(200)

    def h_on_axis(z):
        return rod.field_strength(np.stack([0 * z, 0 * z, z], axis=-1))[:, 2]

    inside = w @ h_on_axis((u - 1) / 2 * 17e-3) / 2 * 17e-3
    logarithm = np.log(1e-7) + (u + 1) / 2 * np.log(1e7)
    outside = 2 * (w @ (h_on_axis(np.exp(logarithm)) * np.exp(logarithm))) * np.log(1e7) / 2
    assert_allclose(outside, -inside, rtol=3e-3)
    # finite elements by another program, printed to three digits: mean along the axis, middle, mean over the middle
    assert_allclose(inside / 17e-3, -49.9e3, rtol=3e-3)
    assert_allclose(h_on_axis(np.array([-8.5e-3])), -49.3e3, rtol=3e-3)
    rho = HOUSE["diameter"] / 2 * np.sqrt((u + 1) / 2)        # even in the area
    middle = rod.field_strength(np.stack([rho, 0 * rho, 0 * rho - 8.5e-3], axis=-1))[:, 2]
    assert_allclose(w @ middle / 2, -46.6e3, rtol=3e-3)


def test_h_on_a_straight_curve_is_that_of_the_recoil_line():
    straight = replace(ALNICO_5, remanence=0.75, coercivity=0.75 / (mu_0 * 3.6), energy_product=0.75 ** 2 / (
        4 * mu_0 * 3.6))
    line = RodMagnet(**HOUSE, remanence=0.75, recoil_permeability=3.6)
    places = [(0, 0, -8.5e-3), (1e-3, 1e-3, -4e-3), (0, 1.5e-3, -2e-3), (0, 0, 2e-3), (4e-3, 0, -3e-3)]
    assert_allclose(AlnicoRod(grade=straight, **HOUSE).field_strength(places), line.field_strength(places),
                    rtol=0.02, atol=100)        # A/m; the slope of a spline


def test_the_field_grows_with_the_curve():
    strong = replace(ALNICO_5, remanence=1.1 * ALNICO_5.remanence, coercivity=1.1 * ALNICO_5.coercivity,
                     energy_product=1.21 * ALNICO_5.energy_product)
    rods = [AlnicoRod(grade=grade, **HOUSE) for grade in (ALNICO_5, strong)]
    once, more = (on_axis(rod, HEIGHTS) for rod in rods)
    assert_allclose(more, 1.1 * once, rtol=1e-9)    # where every B and H grow alike, so does the solution
    assert_allclose(rods[1].midplane_flux(), 1.1 * rods[0].midplane_flux(), rtol=1e-9)


def test_the_coercivity_makes_the_field_of_a_free_alnico_5_rod_and_the_remanence_does_not():
    # what the notes of fit_gauss_readings say: shares of a per cent for one per cent more
    def grows(name, **more):
        grade = magnet_grade(name)
        other = replace(grade, **{one: 1.01 * getattr(grade, one) for one in more},
                        energy_product=1.01 * grade.energy_product)
        rods = [AlnicoRod(grade=one, **HOUSE) for one in (grade, other)]
        before, after = (np.append(on_axis(rod, [*HEIGHTS, 10e-3]), rod.midplane_flux()) for rod in rods)
        return 100 * (after / before - 1)
    for name, low, high, low_coercivity, high_coercivity in (
            ("alnico 5", -0.04, 0.15, 0.84, 1.04), ("alnico 2", 0.3, 0.5, 0.5, 0.7),
            ("alnico 8", 0.5, 0.85, 0.15, 0.5)):
        by_remanence, by_coercivity = grows(name, remanence=1), grows(name, coercivity=1)
        assert low <= by_remanence.min() and by_remanence.max() <= high, name
        assert low_coercivity <= by_coercivity.min() and by_coercivity.max() <= high_coercivity, name
        assert_allclose(by_remanence + by_coercivity, 1.0, atol=0.01)       # both together: the scaling above


def test_what_the_permeability_across_is_worth():
    across_6 = AlnicoRod(grade=replace(ALNICO_5, recoil_permeability=6.0), **HOUSE)
    as_it_is = AlnicoRod(grade=ALNICO_5, **HOUSE)
    assert_allclose(on_axis(across_6, [1e-3]) / on_axis(as_it_is, [1e-3]), 0.98, atol=0.004)


@pytest.mark.parametrize("rho, z", [(1.5e-3, 1e-3), (4e-3, -6e-3), (1.5e-3, -6e-3), (8e-3, 5e-3)])
def test_flux_function_is_the_flux_of_the_field(rho, z):
    rod, (u, w) = AlnicoRod(grade=ALNICO_5, **HOUSE, x=1e-3), leggauss(40)
    edges = [0.0, *([2.5e-3] if rho > 2.5e-3 and z < 0 else []), rho]    # B_z jumps at the wall
    flux = 0.0
    for low, high in zip(edges[:-1], edges[1:]):
        s = low + (u + 1) / 2 * (high - low)
        points = np.stack([1e-3 + s, 0 * s, z + 0 * s], axis=-1)
        flux += (w * (high - low) / 2 * 2 * pi * s * rod.flux_density(points)[:, 2]).sum()
    assert_allclose(rod.flux_function(rho, z), flux, rtol=2e-3)


def test_flux_goes_on_through_wall_and_face():
    rod, step = AlnicoRod(grade=ALNICO_5, **HOUSE), 2e-6
    for inner, outer in (((2.5e-3, -6e-3), (2.5e-3 + step, -6e-3)), ((1e-3, 0.0), (1e-3, step))):
        # inside by a spline, outside by currents; 2 um are 0.1 % of the way to the axis
        assert_allclose(rod.flux_function(*outer), rod.flux_function(*inner), rtol=3e-3)
    above, under = rod.flux_density([(1e-3, 0.0, 1e-5), (1e-3, 0.0, -1e-5)])[:, 2]
    assert_allclose(above, under, rtol=0.02)      # B goes straight through the face


def test_up_is_down_and_the_place_only_moves_it():
    rod, moved = AlnicoRod(grade=ALNICO_5, **HOUSE), AlnicoRod(grade=ALNICO_5, **HOUSE, x=3e-3, y=-2e-3, top=1e-3)
    points = np.array([(2e-3, 1e-3, 1e-3), (0.0, 4e-3, -3e-3), (1e-3, 0.0, -8e-3)])
    assert_allclose(moved.flux_density(points + (3e-3, -2e-3, 1e-3)), rod.flux_density(points), rtol=1e-9, atol=1e-15)
    mirrored = points * (1, 1, -1) - (0, 0, 17e-3)
    assert_allclose(rod.flux_density(mirrored) * (-1, -1, 1), rod.flux_density(points), rtol=1e-6, atol=1e-9)


def test_far_away_it_is_a_dipole():
    rod, area = AlnicoRod(grade=ALNICO_5, **HOUSE), pi * (HOUSE["diameter"] / 2) ** 2
    # its moment: J = B - mu0 H over the volume; H of the finite elements is -49.3 to -50.7 kA/m, by the volume -47.9
    z = np.linspace(-17e-3, 0.0, 201)
    moment = trapezoid(rod.flux_function(HOUSE["diameter"] / 2, z), z) + mu_0 * 47.9e3 * area * 17e-3
    far = rod.flux_density([0.5, 0.0, -8.5e-3])[2]
    assert_allclose(far, -moment / (4 * pi * 0.5 ** 3), rtol=5e-3)


@pytest.mark.parametrize("fullness", [0.26, 0.5, 0.8, 0.95])
@pytest.mark.parametrize("diameter, length", [(5e-3, 1e-3), (5e-3, 17e-3), (2e-3, 60e-3)])
def test_every_curve_and_shape_settles(fullness, diameter, length):
    grade = replace(ALNICO_5, energy_product=fullness * ALNICO_5.remanence * ALNICO_5.coercivity)
    rod = AlnicoRod(grade=grade, diameter=diameter, length=length)
    assert 0 < rod.end_flux() < rod.midplane_flux() < grade.remanence * pi * diameter ** 2 / 4


@pytest.mark.parametrize("name, off", [("ferrite", 0.05), ("neodymium", 0.005)])
def test_a_grade_with_a_straight_line_is_nearly_a_rod_magnet(name, off):
    """The hyperbola through a table's three numbers, for a grade whose curve is straight: ferrite's are rounded."""
    grade, shape = magnet_grade(name), {"diameter": 5e-3, "length": 17e-3}
    straight = RodMagnet(**shape, remanence=grade.remanence, recoil_permeability=grade.recoil_permeability)
    points = [[0.0, 0.0, 1e-3], [0.0, 0.0, 3e-3], [4e-3, 0.0, 1e-3]]
    rod = AlnicoRod(grade=grade, **shape)
    assert rod.flux_density(points)[:, 2] == pytest.approx(straight.flux_density(points)[:, 2], rel=off)
    assert rod.midplane_flux() == pytest.approx(straight.midplane_flux(), rel=off)


@pytest.mark.parametrize("change, error, text", [
    ({"diameter": 0.0}, ValueError, "diameter must be a finite number above zero; got 0.0."),
    ({"length": "17 mm"}, TypeError, "length must be a finite number above zero; got '17 mm'."),
    ({"top": math.inf}, ValueError, "top must be a finite number; got inf."),
    ({"grade": "alnico 5"}, TypeError, "grade must be a record from magnet_grade(name); got 'alnico 5'.")])
def test_alnico_rod_refuses(change, error, text):
    with pytest.raises(error) as refusal:
        AlnicoRod(**{"grade": ALNICO_5, **HOUSE, **change})
    assert str(refusal.value) == text


def test_points_and_radii_of_a_wrong_kind_are_refused():
    rod = AlnicoRod(grade=ALNICO_5, **HOUSE)
    with pytest.raises(ValueError, match=r"points must be an array of shape \(\.\.\., 3\); got"):
        rod.flux_density([[0.0, 1.0]])
    with pytest.raises(ValueError, match=r"rho must be zero or above; got -0\.001\."):
        rod.flux_function(-1e-3, 0.0)
    assert rod.flux_density(np.zeros((0, 3))).shape == (0, 3)
    assert rod.flux_density(np.ones((2, 4, 3))).shape == (2, 4, 3)
    assert rod.flux_function(np.zeros((3, 1)), np.zeros(2)).shape == (3, 2)
