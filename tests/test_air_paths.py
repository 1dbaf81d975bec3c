"""Short formulas of air paths against the field solution, exact potentials and the published coefficients."""
import re

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.constants import mu_0, pi
from scipy.integrate import quad

from lessons_lib.physics.air_paths import (
    free_rod_reluctance,
    ring_reluctance,
    round_edge_reluctance,
    two_ways,
    wall_to_plate_reluctance,
)
from lessons_lib.physics.magnetic_circuit import air_reluctance, in_parallel
from lessons_lib.physics.magnets import RodMagnet


# what the docstring says of the formula: 1 % low, 8, 32 and 57 % high; the midplane factor behind the reference is
# tested against published values in test_magnets.py
@pytest.mark.parametrize("aspect, error", [(4 / 3, -0.013), (2, 0.084), (3.4, 0.316), (5, 0.566)])
def test_the_free_rod_against_the_reluctance_from_its_midplane_factor(aspect, error):
    rod = {"diameter": 4e-3, "length": aspect * 4e-3}
    factor = RodMagnet(**rod, remanence=1.0).fluxmetric_factor()
    computed = air_reluctance(length=rod["length"], area=pi * rod["diameter"] ** 2 / 4, demagnetising_factor=factor)
    assert_allclose(free_rod_reluctance(**rod) / computed - 1, error, atol=2e-3)


def test_the_edge_has_roters_coefficient_and_falls_short_of_a_free_disc():
    # Roters (1941), quarter cylinder: 0.52 mu0 a metre (read in a later copy)
    edge = 1 / round_edge_reluctance(diameter=5e-3)
    assert_allclose(edge, 0.52 * mu_0 * pi * 5e-3, rtol=1e-12)
    # a free disc has the capacitance 8 eps0 radius (H. Weber 1873, textbook), half of it on each side
    assert_allclose(edge / (4 * mu_0 * 2.5e-3), 0.82, atol=0.005)


def test_quarter_circles_carry_the_flux_of_the_exact_potential():
    # between two planes at a right angle H runs in circles: H = U / (r pi/2); added up over the strip
    flux, _ = quad(lambda r: mu_0 / (r * pi / 2) * pi * 5e-3, 1e-3, 4e-3)
    assert_allclose(1 / wall_to_plate_reluctance(diameter=5e-3, near=1e-3, far=4e-3), flux, rtol=1e-9)


def test_a_ring_adds_up_thin_shells():
    # in series: shells dr / (mu0 mu_r 2 pi r thickness)
    total, _ = quad(lambda r: 1 / (mu_0 * 500 * 2 * pi * r * 3e-3), 2.5e-3, 10e-3)
    ring = ring_reluctance(inner_diameter=5e-3, outer_diameter=20e-3, thickness=3e-3, relative_permeability=500)
    assert_allclose(ring, total, rtol=1e-9)


def test_two_ways_lie_between_the_better_one_and_both():
    for first, second in ((1.0, 1.0), (1.0, 3.0), (5.0, 0.2)):
        both = two_ways(first, second)
        assert in_parallel(first, second) < both < min(first, second)
        assert both == two_ways(second, first)
    assert_allclose(two_ways(1.0, 1e6), 1.0, rtol=1e-9)


@pytest.mark.parametrize("call, text", [
    (lambda: free_rod_reluctance(diameter=0.0, length=1.0), "diameter must be a finite number above zero; got 0.0."),
    (lambda: round_edge_reluctance(diameter=-1.0), "diameter must be a finite number above zero; got -1.0."),
    (lambda: wall_to_plate_reluctance(diameter=1.0, near=1.0, far=1.0), "far must be above near, 1 m; got 1.0."),
    (lambda: ring_reluctance(inner_diameter=1.0, outer_diameter=0.5, thickness=1.0),
     "outer_diameter must be above inner_diameter, 1 m; got 0.5."),
    (lambda: two_ways(1.0, np.nan), "second must be a finite number above zero; got nan.")])
def test_refused(call, text):
    with pytest.raises(ValueError, match=re.escape(text)):
        call()
