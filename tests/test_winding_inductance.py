"""Inductance of coils against published values and an independent sum over filaments; mutual inductance."""
import math
from dataclasses import replace

import numpy as np
import pytest
from numpy.polynomial.legendre import leggauss
from scipy.constants import mu_0

from lessons_lib.base.workshop import house_coil
from lessons_lib.physics.winding import LongCoil, RoundCoil
from sample_coils import HOUSE, ROUND, loop, thin

# Inductance of round coils

# F. W. Grover, Inductance Calculations (1946), table 36, read in a later copy: length/diameter, K of
# L = mu0 pi a^2 N^2 K / l. The library's quadrature is 5e-5 off for a sheet this thin, most at its free edges.
@pytest.mark.parametrize("length_by_diameter, K", [
    (0.10, 0.203324), (0.20, 0.319825), (0.25, 0.365432), (0.50, 0.525510), (0.75, 0.623011), (1.00, 0.688423)])
def test_current_sheet_against_grovers_table(length_by_diameter, K):
    length = 2 * 0.01 * length_by_diameter
    expected = mu_0 * math.pi * 0.01**2 * 100**2 * K / length
    assert thin(0.01, length, 100).self_inductance() == pytest.approx(expected, rel=1e-4)


# T. R. Lyle, Phil. Trans. R. Soc. A 213, 421 (1914), p. 429, read in a later copy: mean radius 1 m, one turn
@pytest.mark.parametrize("length, expected", [(2.0, 1.08137 * mu_0), (1.0, 20.7463e-7), (0.5, 28.85335e-7)])
def test_current_sheet_against_lyle(length, expected):
    assert thin(1.0, length).self_inductance() == pytest.approx(expected, rel=1e-4)


def test_brooks_coil():
    # square section c, mean radius 1.5 c: 1.6994e-6 a N^2, Grover ch. 13; from memory, recomputed 1.699378e-6
    coil = RoundCoil(inner_radius=0.01, outer_radius=0.02, bottom=-0.005, top=0.005, turns=100)
    assert coil.self_inductance() == pytest.approx(1.699378e-6 * 0.015 * 100**2, rel=1e-6)


def test_coil_near_an_instruments():
    # mean radius 10 mm, length 11 mm, depth 5 mm, 8000 turns: 0.96748 H, computed from the exact integral by others;
    # H. A. Wheeler, Proc. IRE 16, 1398 (1928) claims 1 % for his formula
    coil = RoundCoil(inner_radius=7.5e-3, outer_radius=12.5e-3, bottom=0.0, top=11e-3, turns=8000)
    wheeler = 31.5e-6 * 10e-3**2 * 8000**2 / (6 * 10e-3 + 9 * 11e-3 + 10 * 5e-3)
    assert coil.self_inductance() == pytest.approx(0.96748, rel=1e-5)
    assert coil.self_inductance() == pytest.approx(wheeler, rel=0.01)


def test_inductance_goes_with_the_square_of_turns_and_with_size():
    coil = replace(HOUSE, turns=2 * HOUSE.turns)
    assert coil.self_inductance() == pytest.approx(4 * HOUSE.self_inductance())
    big = LongCoil(**{name: value * 10 if name != "turns" else value for name, value in house_coil.items()})
    assert big.self_inductance() == pytest.approx(10 * HOUSE.self_inductance())
    assert replace(HOUSE, winding_sense=-1, x=0.02, y=-0.01).self_inductance() == pytest.approx(HOUSE.self_inductance())


# Inductance of long coils

def stadium_potential(points, *, straight, radius, height, corners=128):
    """Tangential potential (per mu0/4pi) at points of the upper right quarter, of a stadium of straight pieces."""
    angle = np.linspace(0, np.pi, corners + 1)
    # corners outside of the circle so that the polygon's mean radius is the circle's
    arc = radius * (1 + (np.pi / corners) ** 2 / 12) * np.stack([np.cos(angle), np.sin(angle)], axis=-1)
    half = arc + (0, straight / 2)
    corner = np.concatenate([half, -half, half[:1]])
    start, step = corner[:-1], np.diff(corner, axis=0)
    length = np.hypot(*step.T)
    unit = step / length[:, None]
    away = points[:, None] - start
    along = (away * unit).sum(axis=-1)
    apart = np.sqrt(np.maximum((away**2).sum(axis=-1) - along**2, 0) + height**2)
    return (np.arcsinh(along / apart) + np.arcsinh((length - along) / apart)) @ unit


def stadium_mutual(straight, radius, other_radius, height):
    """Neumann's double integral of two stadium loops, over four times the upper right quarter of the second."""
    node, share = leggauss(12)
    y, angle = straight / 4 * (1 + node), np.pi / 4 * (1 + node)
    points = np.concatenate([np.stack([other_radius + 0 * y, y], axis=-1), np.stack(
        [other_radius * np.cos(angle), straight / 2 + other_radius * np.sin(angle)], axis=-1)])
    heading = np.concatenate([np.pi / 2 + 0 * y, np.pi / 2 + angle])
    length = np.concatenate([straight / 4 * share, other_radius * np.pi / 4 * share])
    potential = stadium_potential(points, straight=straight, radius=radius, height=height)
    return mu_0 / math.pi * np.sum(length * (potential[:, 0] * np.cos(heading) + potential[:, 1] * np.sin(heading)))


def inductance_by_filaments(coil, straight, layers, floors):
    """Every cell of the section is one filament; a cell's own share from the geometric mean distance of its points."""
    depth, height = (coil.outer_radius - coil.inner_radius) / layers, (coil.top - coil.bottom) / floors
    own_distance = 0.223525 * (depth + height)   # square cell: Lyle 1914, table 1
    radii = coil.inner_radius + depth * (np.arange(layers) + 0.5)
    total = 0.0
    for step in range(floors):
        pairs = (floors - step) * (2 if step else 1)
        for i, radius in enumerate(radii):
            for j, other in enumerate(radii[:i + 1]):
                apart = step * height if step or i != j else own_distance
                total += pairs * (2 if i != j else 1) * stadium_mutual(straight, radius, other, apart)
    return total * (coil.turns / (layers * floors)) ** 2


def test_house_coil_against_filaments():
    # the sum itself settles to 3e-5 with finer cells
    independent = inductance_by_filaments(HOUSE, HOUSE.straight_length, 5, 20)
    assert HOUSE.self_inductance() == pytest.approx(independent, rel=1e-4)


def test_filament_method_itself():
    # the same sum for a round coil whose inductance is known: row of `test_coil_near_an_instruments`. Neighbouring
    # cells are taken at their centres' distance, but their mean distance is 0.7 % larger: 2e-4 with these cells
    coil = RoundCoil(inner_radius=7.5e-3, outer_radius=12.5e-3, bottom=0.0, top=11e-3, turns=8000)
    assert inductance_by_filaments(coil, 0.0, 8, 18) == pytest.approx(0.96748, rel=3e-4)


def test_house_coil_against_finite_elements():
    # 1.6177 H in air: three-dimensional finite elements and direct integration when the course was designed, 0.2 %
    assert HOUSE.self_inductance() == pytest.approx(1.6177, rel=2e-3)


def test_long_coil_without_straights_is_round():
    sizes = {"inner_radius": 3e-3, "outer_radius": 6e-3, "bottom": -12e-3, "top": -2e-3, "turns": 5000}
    long, round_ = LongCoil(straight_length=0.0, **sizes), RoundCoil(**sizes)
    points = np.random.default_rng(1).uniform(-0.02, 0.02, (50, 3))
    assert long.self_inductance() == pytest.approx(round_.self_inductance(), rel=1e-8)
    assert long.wire_length() == pytest.approx(round_.wire_length())
    scale = np.abs(round_.flux_density([0, 0, -7e-3])).max()
    assert long.flux_density(points) == pytest.approx(round_.flux_density(points), abs=1e-6 * scale)


def test_very_long_coil_is_a_two_wire_line():
    # mu0/pi ln(distance/GMD) per metre and turn squared; GMD of a 1:4 section 0.223686 (b + c): Lyle 1914, table 1.
    # Distance between the sections' points: the centres' but for (c^2 - b^2)/(12 D^2) = 1e-4 of 4.5
    line = LongCoil(straight_length=4.0, inner_radius=49.5e-3, outer_radius=50.5e-3, bottom=0.0, top=4e-3, turns=1)
    per_metre = (replace(line, straight_length=6.0).self_inductance() - line.self_inductance()) / 2
    assert per_metre == pytest.approx(mu_0 / math.pi * math.log(0.1 / (0.223686 * 5e-3)), rel=5e-4)


# Mutual inductance

# Maxwell's coaxial loops, centimetres and nanohenry. First: E. B. Rosa, F. W. Grover, NBS Bulletin 8, 1 (1912),
# worked example, from memory, recomputed; second the same, from memory; the others computed from Maxwell's formula.
@pytest.mark.parametrize("A, a, d, nanohenry", [
    (25, 20, 10, 248.7874), (25, 25, 1, 1036.665), (25, 25, 10, 337.68472), (25, 25, 20, 167.08578),
    (25, 25, 50, 35.46498)])
def test_coaxial_loops(A, a, d, nanohenry):
    mutual = loop(A * 1e-2, 0.0).mutual_inductance(loop(a * 1e-2, d * 1e-2))
    assert mutual * 1e9 == pytest.approx(nanohenry, rel=1e-6)


def test_solenoid_in_a_short_coil():
    # OpenStax University Physics m58747: 500 turns, 0.75 m, R 3.10 cm; 10 turns outside: 2.53e-5 H by the formula of
    # the long solenoid; this one is 0.75 m: cos = 0.9966 at its middle
    solenoid, outer = thin(3.10e-2, 0.75, 500, thickness=1e-4), thin(3.2e-2, 0.01, 10, thickness=1e-4)
    assert solenoid.mutual_inductance(outer) == pytest.approx(0.9966 * 2.52925e-5, rel=1e-3)


@pytest.mark.parametrize("coil, other", [
    (HOUSE, replace(HOUSE, x=0.018)), (HOUSE, replace(ROUND, x=0.02, y=0.01)), (ROUND, replace(ROUND, x=0.02))])
def test_mutual_inductance_goes_both_ways(coil, other):
    mutual = coil.mutual_inductance(other)
    assert mutual < 0   # side by side, one's flux comes back down through the other
    assert other.mutual_inductance(coil) == pytest.approx(mutual, rel=1e-5)
    assert coil.mutual_inductance(replace(other, winding_sense=-1)) == pytest.approx(-mutual)


def test_two_halves_make_one_coil():
    # L = L1 + L2 + 2 M of the lower and the upper half in series
    middle = (HOUSE.top + HOUSE.bottom) / 2
    lower, upper = (replace(HOUSE, turns=HOUSE.turns / 2, **part) for part in ({"top": middle}, {"bottom": middle}))
    series = lower.self_inductance() + upper.self_inductance() + 2 * lower.mutual_inductance(upper)
    assert series == pytest.approx(HOUSE.self_inductance(), rel=1e-4)


def test_flux_through_a_small_loop():
    small = loop(1e-4, 2.5e-3)   # field times area: the field bends by 1e-4 over a tenth of a millimetre
    for coil in (ROUND, HOUSE):
        flux = coil.flux_density([0.0, 0.0, 2.5e-3])[2] * math.pi * 1e-4**2
        assert coil.mutual_inductance(small) == pytest.approx(flux, rel=1e-4)
