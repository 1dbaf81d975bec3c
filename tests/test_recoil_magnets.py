"""Rod magnets with recoil permeability against finite elements and published values."""
import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.constants import mu_0, pi
from scipy.integrate import trapezoid

from lessons_lib.base.materials import magnet_grade
from lessons_lib.base.workshop import house_magnet
from lessons_lib.physics.magnets import RodMagnet
from reference_fem import Region, solve_on_curve, solve_rods
from rod_magnets import ROD, on_axis, scattered


def test_published_rod_with_recoil_permeability():
    rod = RodMagnet(**ROD, remanence=1.25, recoil_permeability=3.5)
    # independent finite elements in two forms and a spectral solution, which agree to 0.1 %; field printed to 4 digits
    assert_allclose(rod.midplane_flux(), 2.04177e-5, rtol=2e-4)
    assert_allclose(on_axis(rod, 1e-3, 2e-3, 3e-3, 5e-3), [0.2176, 0.1410, 0.0915, 0.0434], rtol=1.2e-3)


def test_house_magnet_record():
    rod = RodMagnet(**house_magnet)
    assert_allclose(on_axis(rod, 1e-3, 2e-3, 3e-3, 5e-3), [129.6e-3, 84.3e-3, 54.8e-3, 26.1e-3], rtol=2e-3)  # 3 digits
    assert_allclose(rod.midplane_flux(), 12.4e-6, rtol=3e-3)  # printed to three digits


def test_house_magnet_against_the_full_solution_on_its_curve():
    grade, a, length = magnet_grade("alnico 5"), 2.5e-3, 17e-3
    region = Region(outer=a, bottom=-length, top=0.0, relative_permeability=grade.recoil_permeability)
    full, H = solve_on_curve(region, remanence=grade.remanence, coercivity=grade.coercivity,
                             energy_product=grade.energy_product, finest=1e-4, growth=1.4)
    # the record's own figures, as printed: 121, 84, 57, 28 mT; 16.1 uWb; 0.53 T on the axis in the middle, 0.82 T over
    # the section there, 0.66 T over the volume; H down to -50.7 kA/m
    heights = np.array([1e-3, 2e-3, 3e-3, 5e-3])
    field, flux = full.axial_field(heights), full.flux(a, -length / 2)[0]
    assert_allclose(field, [121e-3, 84e-3, 57e-3, 28e-3], atol=0.6e-3)
    assert_allclose(flux, 16.1e-6, atol=0.06e-6)
    assert_allclose(full.axial_field(-length / 2), 0.53, atol=6e-3)
    assert_allclose(flux / (pi * a ** 2), 0.82, atol=6e-3)
    z = np.linspace(-length, 0.0, 201)
    assert_allclose(trapezoid(full.flux(np.full_like(z, a), z), z) / length / (pi * a ** 2), 0.66, atol=6e-3)
    assert_allclose(H.min(), -50.7e3, atol=0.1e3)
    assert 0.70 < 1 - full.flux(a, 0.0)[0] / flux < 0.75       # "nearly three quarters" leave by the side, lesson 1
    # what the straight line of 0.75 T can do (the field at the strings' distance) and what it cannot (the flux inside)
    rod = RodMagnet(**house_magnet)
    assert_allclose(on_axis(rod, 2e-3, 2.5e-3, 3e-3), full.axial_field([2e-3, 2.5e-3, 3e-3]), rtol=0.04)
    assert 0.75 < rod.midplane_flux() / flux < 0.8
    beside = np.array([0.5e-3, 10e-3])      # "within 8 %; nearer and further away it is not", lesson 2
    assert (np.abs(on_axis(rod, *beside) / full.axial_field(beside) - 1) > 0.1).all()
    assert ((-52e3 < H) & (H < -45e3)).mean() > 0.9                # "about -50 kA/m nearly everywhere", lessons 1 and 2


@pytest.mark.parametrize("diameter, length, recoil_permeability", [
    (5e-3, 17e-3, 3.6), (5e-3, 8e-3, 2.0), (4e-3, 20e-3, 5.0), (10e-3, 4e-3, 1.1), (10e-3, 2e-3, 5.0)])
def test_recoil_rod_against_finite_elements(diameter, length, recoil_permeability):
    rod = RodMagnet(diameter=diameter, length=length, remanence=0.75, recoil_permeability=recoil_permeability)
    mesh = solve_rods([Region(outer=diameter / 2, bottom=-length, top=0.0, remanence=0.75,
                              relative_permeability=recoil_permeability)])
    a = diameter / 2
    # deep inside, near the wall on both sides, at the wall, over the face, outside
    rho = a * np.array([0.5, 0.97, 1.0, 1.03, 0.97, 0.5, 1.0, 2.0, 3.0])
    z = length * np.array([-0.5, -0.5, -0.5, -0.4, -0.1, -0.05, 0.05, -0.3, 0.3])
    # both are 1 to 3e-4 off beside the edge (seen by refining either)
    assert_allclose(rod.flux_function(rho, z), mesh.flux(rho, z), rtol=5e-4)
    assert_allclose(rod.midplane_flux(), mesh.flux(a, -length / 2)[0], rtol=2e-4)
    assert_allclose(rod.end_flux(), mesh.flux(a, 0.0)[0], rtol=1e-3)
    heights = np.array([1e-3, 2e-3, 3e-3, 5e-3])
    assert_allclose(on_axis(rod, *heights), mesh.axial_field(heights), rtol=2e-3)  # coarse elements at 5 mm
    inside = -length * np.array([0.1, 0.3, 0.5])
    assert_allclose(on_axis(rod, *inside), mesh.axial_field(inside), rtol=1e-3)


def test_recoil_permeability_of_one_is_the_closed_form():
    nearly, exactly = (RodMagnet(**ROD, remanence=1.0, recoil_permeability=mu) for mu in (1 + 1e-9, 1.0))
    points = scattered()
    # panels against closed form: 1e-4 of 1 T anywhere, also next to the wall
    assert np.abs(nearly.flux_density(points) - exactly.flux_density(points)).max() < 1e-4
    rho, z = np.linspace(0.0, 9e-3, 40)[:, None], np.linspace(-25e-3, 10e-3, 50)
    assert_allclose(nearly.flux_function(rho, z), exactly.flux_function(rho, z), atol=5e-5 * exactly.midplane_flux())


def test_field_next_to_the_wall_of_a_recoil_rod():
    rod = RodMagnet(**house_magnet)
    for depth in (1e-3, 1e-4, 1e-5, -1e-5, -1e-4, -1e-3):
        rho = 2.5e-3 - depth
        # B_z is the slope of the flux function; the step stays on the same side of the wall
        step = min(1e-5, abs(depth) / 4)
        slope = np.diff(rod.flux_function(rho + np.array([-step, step]), -6e-3))[0] / (2 * step) / (2 * pi * rho)
        assert_allclose(rod.flux_density([rho, 0, -6e-3])[2], slope, atol=2e-3)


def test_field_strength_and_polarisation_inside_and_outside():
    rod = RodMagnet(**house_magnet)
    inside, outside = [0.5e-3, 0.5e-3, -8.5e-3], [0, 0, 2e-3]
    B, H, J = (measure(inside)[2] for measure in (rod.flux_density, rod.field_strength, rod.polarisation))
    assert H < 0 < B < J
    assert_allclose(B, mu_0 * H + J, rtol=1e-12)
    assert_allclose(B, 0.75 + mu_0 * 3.6 * H, rtol=1e-12)  # on its recoil line
    assert_allclose(rod.flux_density(outside), mu_0 * rod.field_strength(outside), rtol=1e-12)
    assert not rod.polarisation(outside).any()


def test_strange_shapes_of_recoil_rods():
    needle = RodMagnet(diameter=1e-3, length=1.0, remanence=1.0, recoil_permeability=3.6)
    assert_allclose(needle.midplane_flux(), pi * 0.5e-3 ** 2, rtol=1e-4)  # so long that it keeps its remanence
    plate = RodMagnet(diameter=1.0, length=1e-3, remanence=1.0, recoil_permeability=3.6)
    # thin plate: B is all but zero inside, so that H = -remanence / (mu0 mu)
    assert_allclose(plate.field_strength([0, 0, -0.5e-3])[2], -1 / (mu_0 * 3.6), rtol=5e-3)


@pytest.mark.parametrize("recoil", [1.0, 3.0, 4.5])
def test_another_recoil_permeability_with_the_same_field(recoil):
    rod = RodMagnet(diameter=5e-3, length=17e-3, remanence=-0.75, recoil_permeability=3.6, x=2e-3, top=1e-3)
    other = rod.with_recoil_permeability(recoil)
    place = [2e-3, 0.0, 3.5e-3]
    np.testing.assert_allclose(other.flux_density(place), rod.flux_density(place), rtol=1e-9, atol=1e-12)
    assert other.recoil_permeability == recoil and (other.x, other.top) == (2e-3, 1e-3)
