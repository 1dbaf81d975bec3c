"""Bar magnets against magpylib, published values and cells of their own."""
import math

import magpylib
import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.constants import mu_0, pi

from lessons_lib.physics.bar_magnet import prism_factor
from lessons_lib.physics.magnets import BarMagnet
from rod_magnets import relative_error, scattered


@pytest.mark.parametrize("axis, J", [("x", (0.4, 0, 0)), ("y", (0, 0.4, 0)), ("z", (0, 0, 0.4))])
def test_bar_is_magpylibs_cuboid(axis, J):
    size, centre = (12.7e-3, 60e-3, 3.2e-3), (1e-3, 2e-3, -1e-3)
    bar = BarMagnet(size=size, centre=centre, remanence=0.4, axis=axis)
    same = magpylib.magnet.Cuboid(polarization=J, dimension=size, position=centre)
    points = scattered(size=(40e-3, 100e-3, 20e-3))
    assert relative_error(bar.flux_density(points), same.getB(points)).max() < 1e-9  # rounding
    assert relative_error(bar.field_strength(points), same.getH(points)).max() < 1e-9


def test_bar_on_faces_and_on_the_lines_of_its_edges():
    bar = BarMagnet(size=(2.0, 2.0, 2.0), centre=(0, 0, 0), remanence=1.0)
    for points in ([(0.3, 0, 1), (0.3, 0, -1)], [(0.3, 0, 1), (0.3, 0, 1 + 1e-9)], [(1, 1, 3), (1 + 1e-9, 1, 3)],
                   [(1, 3, 1), (1, 3, 1 - 1e-9)]):
        B = bar.flux_density(points)
        assert_allclose(np.abs(B[0]), np.abs(B[1]), atol=1e-7)
    assert not np.isfinite(bar.flux_density([1, 0, 1])).all()


def test_field_on_the_axis_of_a_bar():
    a, b, L, z = 20e-3, 10e-3, 5e-3, 3e-3
    bar = BarMagnet(size=(a, b, L), centre=(0, 0, -L / 2), remanence=0.4)
    # Furlani (2001), on the axis of a block at distance z from its face
    wanted = 0.4 / pi * sum(sign * math.atan(a * b / (2 * h * math.sqrt(4 * h ** 2 + a ** 2 + b ** 2)))
                            for sign, h in ((1, z), (-1, L + z)))
    assert_allclose(bar.flux_density([0, 0, z])[2], wanted, rtol=1e-12)


# A. Aharoni, J. Appl. Phys. 83, 3432 (1998), eq. (1): computed by a second implementation, 6 digits
@pytest.mark.parametrize("size, factor", [((1, 1, 0.1), 0.805078), ((1, 1, 0.25), 0.650633), ((1, 1, 0.5), 0.495922),
                                          ((1, 1, 2), 0.198316), ((1, 1, 5), 0.088316), ((1, 1, 10), 0.045731),
                                          ((1, 2, 3), 0.182818), ((2, 3, 1), 0.538790), ((1, 3, 2), 0.278392)])
def test_demagnetising_factor_of_prisms(size, factor):
    assert_allclose(prism_factor(*size), factor, atol=6e-7)
    sides = [prism_factor(*np.roll(size, turn)) for turn in range(3)]
    assert_allclose(sum(sides), 1.0, rtol=1e-12)  # exact for any body


def test_demagnetising_factor_of_a_cube():
    bar = BarMagnet(size=(3, 3, 3), centre=(0, 0, 0), remanence=1.0, recoil_permeability=4.0)
    assert_allclose(bar.magnetometric_factor(), 1 / 3, rtol=1e-12)  # exact by symmetry
    assert_allclose(bar.polarisation(), 0.5, rtol=1e-12)            # 1 / (1 + 3/3)


def test_bar_with_recoil_permeability_against_cells():
    size, mu, remanence = (12.7e-3, 60e-3, 3.2e-3), 1.08, 0.38
    bar = BarMagnet(size=size, centre=(0, 0, 0), remanence=remanence, recoil_permeability=mu)
    count = (6, 16, 2)
    steps = np.divide(size, count)
    centres = np.stack(np.meshgrid(*((np.arange(n) - (n - 1) / 2) * step for n, step in zip(count, steps)),
                                   indexing="ij"), axis=-1).reshape(-1, 3)
    cells = [magpylib.magnet.Cuboid(polarization=(0, 0, remanence), dimension=steps, position=c) for c in centres]
    for _ in range(3):  # J = remanence + (mu - 1) mu0 H, each round 0.07 times closer
        H = magpylib.getH(cells, centres, sumup=True)
        for cell, field in zip(cells, H):
            cell.polarization = (mu - 1) * mu_0 * field + (0, 0, remanence)
    points = [(0, y, 1.6e-3 + z) for y in (0, 15e-3, 25e-3) for z in (1e-3, 3e-3, 10e-3)]
    wanted = magpylib.getB(cells, points, sumup=True)
    # what taking it as uniform costs: its middle is demagnetised more than its rim
    assert relative_error(bar.flux_density(points), wanted).max() < 0.014
    assert relative_error(bar.flux_density(points[2::3]), wanted[2::3]).max() < 0.006


@pytest.mark.parametrize("change, error, text", [
    ({"size": (1e-3, 2e-3)}, ValueError, "size must be three lengths in metres; got (0.001, 0.002)."),
    ({"size": (1e-3, 0.0, 1e-3)}, ValueError, "size along y must be a finite number above zero; got 0.0."),
    ({"size": "thin"}, TypeError, "size must be an array of numbers; got 'thin'."),
    ({"centre": (0, 0, math.nan)}, ValueError, "centre must be an array of finite numbers; got nan."),
    ({"axis": "up"}, ValueError, "axis must be one of 'x', 'y', 'z'; got 'up'."),
    ({"recoil_permeability": 0}, ValueError, "recoil_permeability must be 1 or above; got 0."),
])
def test_bar_refuses(change, error, text):
    with pytest.raises(error) as refusal:
        BarMagnet(**{"size": (1e-3, 1e-3, 1e-3), "centre": (0, 0, 0), "remanence": 1.0, **change})
    assert str(refusal.value) == text
