"""Uniformly magnetised rods against magpylib and published values."""
import math

import magpylib
import numpy as np
import pytest
from numpy.polynomial.legendre import leggauss
from numpy.testing import assert_allclose
from scipy.constants import mu_0, pi

from lessons_lib.base.workshop import house_magnet
from lessons_lib.physics.magnets import BarMagnet, RodMagnet
from rod_magnets import ROD, on_axis, relative_error, scattered

# ---- uniformly magnetised rods

@pytest.mark.parametrize("place", [{}, {"x": 3e-3, "y": -2e-3, "top": 1e-3}])
def test_rod_is_magpylibs_cylinder_inside_and_outside(place):
    rod = RodMagnet(**ROD, remanence=0.9, **place)
    x, y, top = (place.get(name, 0.0) for name in ("x", "y", "top"))
    same = magpylib.magnet.Cylinder(polarization=(0, 0, 0.9), dimension=(5e-3, 16e-3), position=(x, y, top - 8e-3))
    points = scattered() + (x, y, top)
    # both are closed forms in double precision: 1e-9 leaves room for rounding far away and on the axis
    assert relative_error(rod.flux_density(points), same.getB(points)).max() < 1e-9
    assert relative_error(rod.field_strength(points), same.getH(points)).max() < 1e-9
    axis = np.array([(x, y, top + z) for z in (-20e-3, -16e-3, -8e-3, -1e-3, 1e-6, 3e-3, 0.2)])
    assert relative_error(rod.flux_density(axis), same.getB(axis)).max() < 1e-9


@pytest.mark.parametrize("diameter, length, J, distance, flux_density, tolerance", [
    # E. P. Furlani, Permanent Magnet and Electromechanical Devices (2001), ch. 3, as recomputed by others after
    # Derby & Olbert (2010): M = 8e5 A/m, 6 mm above the face; printed to 8 digits
    (10e-3, 20e-3, mu_0 * 8e5, 6e-3, 0.10746015, 1e-7),
    (5e-3, 20e-3, mu_0 * 8e5, 6e-3, 0.03635808, 2e-7),  # the same with radius and diameter confused
    # handbook formula, as printed in a bug report of magpylib: 5 digits, 4 mm from the face and from the centre
    (4e-3, 5e-3, 0.35, 4e-3, 14.308e-3, 5e-5),
    (4e-3, 5e-3, 0.35, 1.5e-3, 62.261e-3, 2e-5),
])
def test_published_fields_on_the_axis(diameter, length, J, distance, flux_density, tolerance):
    rod = RodMagnet(diameter=diameter, length=length, remanence=J)
    assert_allclose(on_axis(rod, distance), flux_density, rtol=tolerance)


# Nagaoka's coefficient K at diameter/length, F. W. Grover, Inductance Calculations (1946), table 36 (6 digits):
# the mean B of a rod and of a coil of its shape are one, so that the factor is 1 - K.
@pytest.mark.parametrize("aspect, nagaoka", [(0.1, 0.203324), (0.2, 0.319825), (0.25, 0.365432), (0.5, 0.525510),
                                             (0.75, 0.623011), (1.0, 0.688423)])
def test_magnetometric_factor(aspect, nagaoka):
    rod = RodMagnet(diameter=1e-3, length=aspect * 1e-3, remanence=1.0)
    assert_allclose(rod.magnetometric_factor(), 1 - nagaoka, atol=6e-7)


# D.-X. Chen, J. A. Brug, R. B. Goldfarb, IEEE Trans. Magn. 27, 3601 (1991), tables for susceptibility 0: 4 digits,
# from memory
@pytest.mark.parametrize("aspect, magnetometric, fluxmetric", [(1.0, 0.3116, 0.2322), (2.0, 0.1819, None)])
def test_factors_of_chen(aspect, magnetometric, fluxmetric):
    rod = RodMagnet(diameter=1e-3, length=aspect * 1e-3, remanence=1.0)
    assert_allclose(rod.magnetometric_factor(), magnetometric, atol=6e-5)
    if fluxmetric:
        assert_allclose(rod.fluxmetric_factor(), fluxmetric, atol=6e-5)


def test_long_rod_has_no_demagnetising_factor_and_a_plate_has_one():
    assert RodMagnet(diameter=1e-3, length=1.0, remanence=1.0).magnetometric_factor() < 1e-3
    assert RodMagnet(diameter=1.0, length=1e-5, remanence=1.0).fluxmetric_factor() > 0.9999


def test_fluxmetric_factor_is_the_mid_plane_average():
    rod = RodMagnet(**ROD, remanence=1.0)
    assert_allclose(rod.midplane_flux(), (1 - rod.fluxmetric_factor()) * pi * 2.5e-3 ** 2, rtol=1e-12)
    # independent finite elements and a spectral solution, 7 digits
    assert_allclose(rod.midplane_flux(), 1.879351e-5, rtol=3e-7)


@pytest.mark.parametrize("recoil_permeability, tolerance", [(1.0, 1e-9), (3.6, 1e-4)])
@pytest.mark.parametrize("rho, z", [(1e-3, -8e-3), (2.4e-3, -3e-3), (2.5e-3, 1e-3), (6e-3, -4e-3), (4e-3, 0.5e-3),
                                    (1e-5, 2e-3)])
def test_flux_function_is_the_flux_of_the_field(rho, z, recoil_permeability, tolerance):
    rod = RodMagnet(**ROD, remanence=0.75, recoil_permeability=recoil_permeability, x=1e-3)
    edges = [0.0, *(edge for edge in (0.8 * 2.5e-3, 0.98 * 2.5e-3, 2.5e-3, 1.1 * 2.5e-3) if edge < rho), rho]
    u, w = leggauss(40)
    flux = 0.0
    for low, high in zip(edges[:-1], edges[1:]):  # B_z jumps at the wall
        s = low + (u + 1) / 2 * (high - low)
        B_z = rod.flux_density(np.stack([1e-3 + s, 0 * s, z + 0 * s], axis=-1))[:, 2]
        flux += (w / 2 * (high - low) * 2 * pi * s * B_z).sum()
    assert_allclose(rod.flux_function(rho, z), flux, rtol=tolerance)


def test_flux_function_broadcasts_and_is_symmetric_about_the_middle():
    rod = RodMagnet(**ROD, remanence=0.75, recoil_permeability=3.6, top=2e-3)
    z = np.linspace(1e-3, 12e-3, 7)
    up, down = (rod.flux_function(np.array([1e-3, 2.5e-3, 4e-3])[:, None], -6e-3 + side * z) for side in (1, -1))
    assert up.shape == (3, 7)
    assert_allclose(up, down, rtol=1e-9)  # the panels are mirrored to the last bits


def test_edges_and_wall_are_answered_honestly():
    for recoil_permeability in (1.0, 3.6):
        rod = RodMagnet(**ROD, remanence=1.0, recoil_permeability=recoil_permeability)
        assert np.isnan(rod.flux_density([2.5e-3, 0, 0])).any()
        assert np.isnan(rod.flux_density([0, -2.5e-3, -16e-3])).any()
        at, inside, outside = rod.flux_density([(r, 0, -8e-3) for r in (2.5e-3, 2.495e-3, 2.505e-3)])[:, 2]
        assert_allclose(at, (inside + outside) / 2, atol=2e-3)  # B_z changes by some mT over the two 5 um
        assert inside - outside > 0.5
        # through the face B_z is continuous
        assert_allclose(*rod.flux_density([(1e-3, 0, -1e-6), (1e-3, 0, 1e-6)])[:, 2], atol=1e-3)


@pytest.mark.parametrize("recoil_permeability", [1.0, 3.6])
def test_negative_remanence_turns_the_rod_over(recoil_permeability):
    up, down = (RodMagnet(**ROD, remanence=J, recoil_permeability=recoil_permeability) for J in (0.7, -0.7))
    points = scattered(50)
    assert_allclose(down.flux_density(points), -up.flux_density(points), rtol=1e-12)
    assert down.midplane_flux() == -up.midplane_flux()


# ---- bad input

@pytest.mark.parametrize("change, error, text", [
    ({"diameter": 0.0}, ValueError, "diameter must be a finite number above zero; got 0.0."),
    ({"length": -1e-3}, ValueError, "length must be a finite number above zero; got -0.001."),
    ({"length": math.nan}, ValueError, "length must be a finite number above zero; got nan."),
    ({"diameter": "5 mm"}, TypeError, "diameter must be a finite number above zero; got '5 mm'."),
    ({"remanence": math.inf}, ValueError, "remanence must be a finite number; got inf."),
    ({"recoil_permeability": 0.9}, ValueError, "recoil_permeability must be 1 or above; got 0.9."),
    ({"top": None}, TypeError, "top must be a finite number; got None."),
])
def test_rod_refuses(change, error, text):
    with pytest.raises(error) as refusal:
        RodMagnet(**{**ROD, "remanence": 1.0, **change})
    assert str(refusal.value) == text


@pytest.mark.parametrize("magnet", [RodMagnet(**ROD, remanence=1.0), RodMagnet(**house_magnet),
                                    BarMagnet(size=(1, 1, 1), centre=(0, 0, 0), remanence=1.0)])
def test_points_of_a_wrong_shape_are_refused(magnet):
    with pytest.raises(ValueError, match=r"points must be an array of shape \(\.\.\., 3\); got"):
        magnet.flux_density([[0.0, 1.0]])
    with pytest.raises(ValueError, match="points must be an array of finite numbers; got"):
        magnet.flux_density([0.0, math.nan, 0.0])
    with pytest.raises(TypeError, match="points must be an array of numbers; got 'here'"):
        magnet.flux_density("here")
    assert magnet.flux_density(np.zeros((0, 3))).shape == (0, 3)
    assert magnet.flux_density(np.ones((2, 4, 3))).shape == (2, 4, 3)


def test_flux_function_refuses_a_negative_radius():
    with pytest.raises(ValueError, match=r"rho must be zero or above; got -0\.001\."):
        RodMagnet(**ROD, remanence=1.0).flux_function(-1e-3, 0.0)
