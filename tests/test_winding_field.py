"""Fields of coils against magnets of the same shape, the curl of the potential, symmetries."""
import math
from dataclasses import replace

import magpylib
import numpy as np
import pytest
from numpy.polynomial.legendre import leggauss
from scipy.constants import mu_0

from sample_coils import HOUSE, ROUND


def magnet_shaped_like(coil, straight, order=10):
    """Nested magnets whose surface currents are the winding; magpylib gives their field, in T per ampere."""
    node, share = leggauss(order)
    depth, height = coil.outer_radius - coil.inner_radius, coil.top - coil.bottom
    magnets = []
    for radius, weight in zip(coil.inner_radius + depth / 2 * (1 + node), share / 2):
        common = {"polarization": (0, 0, mu_0 * weight * coil.turns / height)}
        z = (coil.top + coil.bottom) / 2
        if not straight:
            magnets.append(magpylib.magnet.Cylinder(dimension=(2 * radius, height), position=(0, 0, z), **common))
            continue
        magnets.append(magpylib.magnet.Cuboid(dimension=(2 * radius, straight, height), position=(0, 0, z), **common))
        for y, first in ((straight / 2, 0), (-straight / 2, 180)):
            magnets.append(magpylib.magnet.CylinderSegment(
                dimension=(0, radius, height, first, first + 180), position=(0, y, z), **common))
    return magpylib.Collection(magnets)


PLACES = {
    "along a string": np.stack(np.broadcast_arrays(np.linspace(-0.06, 0.06, 41), 5.1e-3, 2.5e-3), axis=-1),
    "in the bore": np.stack(np.broadcast_arrays(np.linspace(-2.4e-3, 2.4e-3, 9)[:, None], 1.234e-3,
                                                np.linspace(-17e-3, 0, 9)), axis=-1).reshape(-1, 3),
    "beyond an end": np.stack(np.broadcast_arrays(1.1e-3, np.linspace(0.034, 0.06, 15), -1.5e-3), axis=-1),
    "round about": np.random.default_rng(2).uniform(-1, 1, (60, 3)) * (0.03, 0.06, 0.002) + (0, 0, 2e-3),
}


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("coil", [ROUND, HOUSE], ids=["round", "long"])
def test_field_against_magnets_of_the_same_shape(coil, place):
    points = PLACES[place]
    expected = magnet_shaped_like(coil, getattr(coil, "straight_length", 0.0)).getB(points)
    error = np.linalg.norm(coil.flux_density(points) - expected, axis=-1)
    # goal 1e-4 of the field there; measured 3e-6
    assert (error < 2e-5 * np.linalg.norm(expected, axis=-1)).all()


def test_field_close_to_the_winding():
    # 0.2 mm above the top, where the nested magnets need many layers
    points = np.stack(np.broadcast_arrays(np.linspace(2e-3, 8e-3, 25), 30e-3, -2.3e-3), axis=-1)
    expected = magnet_shaped_like(HOUSE, HOUSE.straight_length, order=60).getB(points)
    error = np.linalg.norm(HOUSE.flux_density(points) - expected, axis=-1)
    assert error.max() < 1e-4 * np.linalg.norm(expected, axis=-1).max()


def test_field_on_the_axis_of_a_thick_coil():
    # textbook form for the middle of a thick solenoid: mu0 J (h/2) ln((a2 + sqrt(a2^2 + h^2/4))/(a1 + ...))
    half, a1, a2 = 5e-3, 3.5e-3, 6.5e-3
    expected = mu_0 * 7000 / (2 * (a2 - a1)) * math.log((a2 + math.hypot(a2, half)) / (a1 + math.hypot(a1, half)))
    assert ROUND.flux_density([0, 0, -8e-3]) == pytest.approx([0, 0, expected], rel=1e-9, abs=1e-15)


def test_field_far_away_is_a_dipoles():
    # moment = turns times mean of the turns' areas; at 1 m the next term is (0.03 m)^2
    moment = HOUSE.turns * HOUSE.mean_area()
    field = HOUSE.flux_density([0, 0, 1.0 - 8.5e-3])
    assert field[2] == pytest.approx(mu_0 * moment / (2 * math.pi), rel=3e-3)


@pytest.mark.parametrize("coil", [ROUND, HOUSE], ids=["round", "long"])
def test_field_is_the_curl_of_the_potential(coil):
    points = np.array([[1e-3, 2e-3, 1e-3], [9e-3, 5e-3, -6e-3], [4.5e-3, 1e-3, -5e-3], [2e-3, 29.5e-3, -6e-3]])
    step = 1e-5
    slopes = np.stack([(coil.vector_potential(points + shift) - coil.vector_potential(points - shift)) / (2 * step)
                       for shift in step * np.eye(3)], axis=1)   # [point, direction, component]
    curl = np.stack([slopes[:, 1, 2] - slopes[:, 2, 1], slopes[:, 2, 0] - slopes[:, 0, 2],
                     slopes[:, 0, 1] - slopes[:, 1, 0]], axis=-1)
    field = coil.flux_density(points)
    assert curl == pytest.approx(field, abs=1e-5 * np.abs(field).max())   # third and fourth point lie in a winding


@pytest.mark.parametrize("y", [0.0, 24.0e-3])
def test_amperes_law(y):
    """Round the section of one straight: mu0 times the turns; the path keeps a millimetre away."""
    node, share = leggauss(24)
    low, high = np.array([2.2e-3, -15.5e-3]), np.array([7.2e-3, -1.5e-3])
    corners = np.array([low, [low[0], high[1]], high, [high[0], low[1]], low])   # with the current along +y
    total = 0.0
    for start, end in zip(corners[:-1], corners[1:]):
        x, z = (start + (end - start) * (1 + node[:, None]) / 2).T
        field = HOUSE.flux_density(np.stack([x, y + 0 * x, z], axis=-1))[:, ::2]
        total += np.sum(share / 2 * (field @ (end - start)))
    assert total == pytest.approx(mu_0 * HOUSE.turns, rel=1e-5)


def test_symmetries():
    points = np.random.default_rng(3).uniform(-0.03, 0.03, (40, 3))
    field = HOUSE.flux_density(points)
    scale = np.abs(field).max()
    for mirror, components in (((-1, 1, 1), (-1, 1, 1)), ((1, -1, 1), (1, -1, 1)), ((-1, -1, 1), (-1, -1, 1))):
        assert HOUSE.flux_density(points * mirror) * components == pytest.approx(field, abs=1e-5 * scale)
    assert replace(HOUSE, winding_sense=-1).flux_density(points) == pytest.approx(-field)
    moved = replace(HOUSE, x=1e-3, y=2e-3)
    assert moved.flux_density(points + (1e-3, 2e-3, 0)) == pytest.approx(field, abs=1e-9 * scale)
    assert HOUSE.flux_density([0, 0, -8e-3])[2] > 0


def test_field_is_finite_and_continuous_at_the_winding():
    for coil in (ROUND, HOUSE):
        end = getattr(coil, "straight_length", 0.0) / 2
        edges = np.array([[coil.inner_radius, end, coil.top], [0.0, end + coil.outer_radius, coil.bottom],
                          [coil.outer_radius, 0.0, coil.top], [0.0, 0.0, coil.top], [0.0, end, coil.top]])
        beside = coil.flux_density(edges + 1e-9)
        assert coil.flux_density(edges) == pytest.approx(beside, abs=1e-4 * np.abs(beside).max())


def test_shapes_of_points():
    assert ROUND.flux_density([0.0, 0.0, 0.0]).shape == (3,)
    assert HOUSE.flux_density(np.zeros((4, 5, 3))).shape == (4, 5, 3)
    assert HOUSE.flux_density(np.zeros((0, 3))).shape == (0, 3)
    many = np.random.default_rng(4).uniform(-0.02, 0.02, (700, 3))   # more than one batch
    assert HOUSE.flux_density(many)[600] == pytest.approx(HOUSE.flux_density(many[600]), abs=1e-7)


def test_refused_points():
    with pytest.raises(ValueError, match=r"points must be an array of shape \(\.\.\., 3\)"):
        HOUSE.flux_density([0.0, 0.0])
    with pytest.raises(ValueError, match="points must be an array of finite numbers"):
        HOUSE.flux_density([0.0, math.nan, 0.0])
