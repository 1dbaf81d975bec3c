"""Circular loops of current against magpylib and a public table."""
import magpylib
import numpy as np
import pytest
from numpy.polynomial.legendre import leggauss
from numpy.testing import assert_allclose
from scipy.constants import mu_0, pi

from lessons_lib.physics.loops import loop_field, loop_flux
from rod_magnets import relative_error, scattered


def test_loop_is_magpylibs_circle_also_near_its_axis():
    points = np.concatenate([scattered(500), [(r, 0, 1e-3) for r in (0.0, 1e-9, 1e-6, 1e-5, 1e-4)]])
    same = magpylib.current.Circle(diameter=5e-3, current=1.0)
    rho = np.hypot(points[:, 0], points[:, 1])
    B_rho, B_z = loop_field(rho, points[:, 2], radius=2.5e-3)
    got = np.concatenate([B_rho[:, None] * points[:, :2] / np.where(rho > 0, rho, 1)[:, None], B_z[:, None]], axis=1)
    assert relative_error(got, same.getB(points)).max() < 1e-9


def test_radial_field_of_a_loop_grows_evenly_from_its_axis():
    # div B = 0: B_rho = -(rho/2) dB_z/dz, up to the square of rho/radius
    rho, step = np.array([1e-9, 1e-7, 1e-6]), 1e-6
    slope = np.diff(loop_field(0.0, 1e-3 + np.array([-step, step]), radius=2.5e-3)[1])[0] / (2 * step)
    assert_allclose(loop_field(rho, 1e-3, radius=2.5e-3)[0], -rho / 2 * slope, rtol=1e-6)


# H on the axis of a loop of diameter 2 m with 1000 A: a public table, as used in magpylib's own tests (3 to 4 digits)
@pytest.mark.parametrize("z, H", [(0.0, 500.0), (1.0, 176.8), (2.0, 44.72), (3.0, 15.81)])
def test_loop_on_its_axis(z, H):
    assert_allclose(1000 * loop_field(0.0, z, radius=1.0)[1] / mu_0, H, rtol=4e-4)


def test_loop_flux_grows_with_the_field_and_is_mutual():
    u, w = leggauss(60)
    for rho, z in ((1e-4, 1e-3), (2e-3, 0.0), (6e-3, 2e-3)):
        s = (u + 1) / 2 * rho
        flux = (w / 2 * rho * 2 * pi * s * loop_field(s, z, radius=2.5e-3)[1]).sum()
        assert_allclose(loop_flux(rho, z, radius=2.5e-3), flux, rtol=1e-9)
        assert_allclose(loop_flux(rho, z, radius=2.5e-3), loop_flux(2.5e-3, z, radius=rho), rtol=1e-12)
