"""Several rods of magnet and steel: limits, symmetries, finite elements and published reference values."""
import math

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.constants import mu_0, pi

from lessons_lib.physics.loops import loop_field
from lessons_lib.physics.magnets import BarMagnet, RodMagnet
from lessons_lib.physics.surface_currents import Rod, magnetise
from reference_fem import Region, solve_rods

SIX = [(number - 2.5) * 10.2e-3 for number in range(6)]
PLACES = np.array([(0, y, z) for y in (-5.1e-3, 0.0, 12e-3) for z in (1e-3, 2.5e-3, 8e-3)])


def upright(strength):
    return lambda points: np.zeros_like(points) + (0.0, 0.0, strength)


def loop(radius, height, x=0.0):
    """B (T per ampere) of a thin level loop, as a function of points."""
    def field(points):
        across = points[..., :2] - (x, 0.0)
        rho = np.hypot(across[..., 0], across[..., 1])
        B_rho, B_z = loop_field(rho, points[..., 2] - height, radius=radius)
        return np.concatenate([(B_rho / np.where(rho > 0, rho, 1))[..., None] * across, B_z[..., None]], axis=-1)
    return field


# ---- one rod

@pytest.mark.parametrize("diameter, length, mu", [(4.8e-3, 17e-3, 500.0), (5e-3, 5e-3, 1e4), (5e-3, 50e-3, 100.0),
                                                  (10e-3, 3e-3, 20.0)])
def test_steel_rod_in_a_uniform_field_against_finite_elements(diameter, length, mu):
    H, a = 1e4, diameter / 2
    steel = magnetise([Rod(diameter=diameter, length=length, relative_permeability=mu)], upright(H))
    mesh = solve_rods([Region(outer=a, bottom=-length, top=0.0, relative_permeability=mu)], applied=mu_0 * H)
    rho = a * np.array([0.5, 1.0, 0.97, 1.0, 1.5])
    z = length * np.array([-0.5, -0.5, -0.2, -0.1, 0.1])
    flux = steel.section_flux(0, rho, z) + mu_0 * H * pi * rho ** 2
    assert_allclose(flux, mesh.flux(rho, z), rtol=5e-4)  # both are good to 1 to 3e-4 (seen by refining either)
    on_axis = steel.flux_density([(0, 0, z) for z in (1e-3, 2e-3, 3e-3)])[:, 2] + mu_0 * H
    assert_allclose(on_axis, mesh.axial_field([1e-3, 2e-3, 3e-3]), rtol=1e-3)


# R. M. Bozorth, Ferromagnetism (1951), demagnetising factors of rods of high permeability, ballistic; from memory.
# Old measurements with a pick-up coil of some length: from D.-X. Chen and others (1991) known to be up to 15 % high.
@pytest.mark.parametrize("aspect, factor", [(2, 0.14), (5, 0.040), (10, 0.0172), (20, 0.00617)])
def test_demagnetising_factor_of_long_steel_rods(aspect, factor):
    d, mu = 5e-3, 1e5
    steel = magnetise([Rod(diameter=d, length=aspect * d, relative_permeability=mu)], upright(1.0))
    B = steel.section_flux(0, d / 2, -aspect * d / 2) / (pi * d ** 2 / 4) + mu_0
    susceptibility = mu - 1
    M = B / mu_0 * susceptibility / mu
    assert_allclose(1 / M - 1 / susceptibility, factor, rtol=0.18)


def test_needle_of_steel_carries_mu_times_the_field_and_a_plate_what_was_there():
    needle = magnetise([Rod(diameter=1e-3, length=2.0, relative_permeability=50.0)], upright(100.0))
    assert_allclose(needle.field_strength([0, 0, -1.0])[2], 0.0, atol=0.1)  # H unchanged, up to 1e-3 of 100 A/m
    assert_allclose(needle.flux_density([0, 0, -1.0])[2], 49 * mu_0 * 100, rtol=1e-3)
    plate = magnetise([Rod(diameter=1.0, length=1e-3, relative_permeability=50.0)], upright(100.0))
    assert_allclose(plate.flux_density([0, 0, -0.5e-3])[2], 0.0, atol=2e-3 * 49 * mu_0 * 100)


def test_field_strength_follows_the_material():
    for mu, remanence in ((3.6, 0.75), (500.0, 0.0), (1.0, 0.4)):
        rod = Rod(diameter=5e-3, length=17e-3, relative_permeability=mu, remanence=remanence, y=1e-3, top=2e-3)
        body = magnetise([rod], upright(3e3))
        inside, outside = [0.5e-3, 2e-3, -3e-3], [3e-3, 2e-3, 1e-3]
        B = body.flux_density(inside) + mu_0 * np.array([0, 0, 3e3])
        H = body.field_strength(inside) + (0, 0, 3e3)
        assert_allclose(B, mu_0 * mu * H + (0, 0, remanence), rtol=1e-10)
        assert_allclose(body.flux_density(outside), mu_0 * body.field_strength(outside), rtol=1e-12)


def test_one_body_is_the_rod_magnet():
    rod = {"diameter": 5e-3, "length": 17e-3, "remanence": 0.75, "x": 1e-3, "y": 2e-3, "top": -1e-3}
    one = magnetise([Rod(**rod, relative_permeability=3.6)]).flux_density(PLACES)
    assert_allclose(one, RodMagnet(**rod, recoil_permeability=3.6).flux_density(PLACES), rtol=1e-12)


# ---- several rods

def test_far_apart_every_rod_is_alone():
    rods = [Rod(diameter=5e-3, length=17e-3, relative_permeability=3.6, remanence=0.9, y=y) for y in (0.0, 2.0)]
    both, one = magnetise(rods), magnetise(rods[:1])
    near = np.array([(0, 0, 1e-3), (3e-3, 0, -4e-3), (0, 1e-3, -8e-3)])
    # the other's dipole field 2 m away, 0.9 T times 330 mm3 / (4 pi 8 m3), is 3e-9 T
    assert_allclose(both.flux_density(near), one.flux_density(near), rtol=1e-5, atol=1e-8)


def test_rods_of_permeability_one_superpose():
    rods = [Rod(diameter=5e-3, length=17e-3, remanence=0.9, y=y, top=top) for y, top in zip(SIX, (0, 1e-3, 0, 0, 0, 0))]
    wanted = sum(RodMagnet(diameter=5e-3, length=17e-3, remanence=0.9, y=rod.y, top=rod.top).flux_density(PLACES)
                 for rod in rods)
    # panels against closed form
    assert_allclose(magnetise(rods).flux_density(PLACES), wanted, rtol=1e-4, atol=1e-6)


def test_left_and_right_are_alike():
    heights = (0.5e-3, 0.0, 0.2e-3)
    rods = [Rod(diameter=4.8e-3, length=17e-3, relative_permeability=500.0, y=y, top=top)
            for y, top in zip(SIX, heights + heights[::-1])]
    B = magnetise(rods, upright(1e3)).flux_density(PLACES)
    mirrored = magnetise(rods, upright(1e3)).flux_density(PLACES * (1, -1, 1))
    assert_allclose(mirrored, B * (1, -1, 1), rtol=1e-8, atol=1e-14)
    assert_allclose(magnetise(rods[::-1], upright(1e3)).flux_density(PLACES), B, rtol=1e-8, atol=1e-14)


def test_fields_add_up():
    rods = [Rod(diameter=5e-3, length=17e-3, relative_permeability=3.6, remanence=0.9, y=y) for y in SIX[:3]]
    bare = [Rod(diameter=5e-3, length=17e-3, relative_permeability=3.6, y=y) for y in SIX[:3]]
    together = magnetise(rods, upright(2e3)).flux_density(PLACES)
    apart = magnetise(rods).flux_density(PLACES) + magnetise(bare, upright(2e3)).flux_density(PLACES)
    assert_allclose(together, apart, rtol=1e-8)


# a rod magnet under a steel plate on the same axis: coupling by finite elements
@pytest.mark.parametrize("gap, tolerance", [(3e-3, 1e-3), (1e-3, 2e-3), (0.3e-3, 2.5e-2)])
def test_magnet_and_keeper_against_finite_elements(gap, tolerance):
    a = 2.5e-3
    mesh = solve_rods([Region(outer=a, bottom=-16e-3, top=0.0, relative_permeability=3.5, remanence=1.25),
                       Region(outer=2 * a, bottom=gap, top=gap + 3e-3, relative_permeability=500.0)])
    bodies = magnetise([Rod(diameter=2 * a, length=16e-3, relative_permeability=3.5, remanence=1.25),
                        Rod(diameter=4 * a, length=3e-3, relative_permeability=500.0, top=gap + 3e-3)])
    rho, z = np.array([a, a, a, 2 * a]), np.array([-8e-3, 0.0, gap / 2, gap + 1.5e-3])
    flux = bodies.section_flux(0, rho, z) + bodies.section_flux(1, rho, z)
    assert_allclose(flux, mesh.flux(rho, z), rtol=tolerance)


def test_six_rod_magnets():
    rods = [Rod(diameter=5e-3, length=17e-3, relative_permeability=3.6, remanence=0.90, y=y) for y in SIX]
    # three-dimensional finite elements, 0.25 %, printed to 3 digits; without coupling it is 4 to 6 % off
    assert_allclose(magnetise(rods).flux_density([0, SIX[2], 2.5e-3])[2], 78.3e-3, rtol=4e-3)


def test_six_steel_poles_on_a_bar():
    poles = [Rod(diameter=4.8e-3, length=17e-3, relative_permeability=500.0, y=y) for y in SIX]
    bar = BarMagnet(size=(12.7e-3, 60e-3, 3.2e-3), centre=(0, 0, -17e-3 - 1.6e-3), remanence=0.38,
                    recoil_permeability=1.08)
    point = np.array([0, SIX[2], 2.5e-3])
    B = magnetise(poles, bar.field_strength).flux_density(point) + bar.flux_density(point)
    # three-dimensional finite elements, printed to 3 digits; the bar's answer to the poles is left out here (1 %)
    assert_allclose(B[2], 18.5e-3, rtol=0.015)


# ---- flux and linkage

def test_linkage_with_a_loop_is_the_flux_through_it():
    rods = [Rod(diameter=5e-3, length=17e-3, relative_permeability=3.6, remanence=0.9),
            Rod(diameter=4e-3, length=3e-3, relative_permeability=200.0, top=6e-3)]
    bodies = magnetise(rods)
    # reciprocity: the integral of M . B over the rods, B of a loop with one ampere, is their flux through the loop
    # two circles stand for each disc, which a thin loop close to the rod's wall (2.5 mm) just notices
    for radius, height, tolerance in ((4e-3, -5e-3, 3e-3), (6e-3, -5e-3, 3e-4), (8e-3, 4e-3, 3e-4)):
        flux = sum(bodies.section_flux(number, radius, height) for number in (0, 1))
        assert_allclose(bodies.linkage_with(loop(radius, height)), flux, rtol=tolerance)
    assert_allclose(bodies.linkage_with(lambda points: loop(20e-3, 0.0, x=30e-3)(points)),
                    bodies.linkage_with(loop(20e-3, 0.0, x=-30e-3)), rtol=1e-6)


def test_uniform_field_gives_the_moment():
    bodies = magnetise([Rod(diameter=5e-3, length=17e-3, relative_permeability=3.6, remanence=0.9, y=3e-3)])
    moment = bodies.linkage_with(upright(1.0))
    assert_allclose(bodies.flux_density([0, 3e-3, 1.0])[2], mu_0 * moment / (2 * pi * 1.0085 ** 3), rtol=1e-3)


def test_inductance_that_a_steel_rod_adds_against_finite_elements():
    a, length = 2.4e-3, 17e-3
    coil = {"inner": 3.5e-3, "outer": 6.5e-3, "bottom": -13e-3, "top": -3e-3}
    u, w = np.polynomial.legendre.leggauss(8)
    radii, heights = 5e-3 + 1.5e-3 * u, -8e-3 + 5e-3 * u
    turns = [(loop(r, z), wr * wz / 4) for r, wr in zip(radii, w) for z, wz in zip(heights, w)]  # one turn, spread

    def field(points):
        return sum(weight * turn(points) for turn, weight in turns)

    steel = magnetise([Rod(diameter=2 * a, length=length, relative_permeability=500.0)],
                      lambda points: field(points) / mu_0)
    bare, core = (solve_rods([Region(**coil, ampere_turns=1.0)] + rods) for rods in
                  ([], [Region(outer=a, bottom=-length, top=0.0, relative_permeability=500.0)]))
    rho, z = (grid.ravel() for grid in np.meshgrid(radii, heights, indexing="ij"))
    added = (np.outer(w, w).ravel() / 4) @ (core.flux(rho, z) - bare.flux(rho, z))
    assert_allclose(steel.linkage_with(field), added, rtol=2e-3)  # finite elements 1e-3


# ---- bad input

@pytest.mark.parametrize("change, error, text", [
    ({"diameter": -1.0}, ValueError, "diameter must be a finite number above zero; got -1.0."),
    ({"relative_permeability": 0.5}, ValueError, "relative_permeability must be 1 or above; got 0.5."),
    ({"relative_permeability": math.inf}, ValueError, "relative_permeability must be a finite number; got inf."),
    ({"length": "long"}, TypeError, "length must be a finite number above zero; got 'long'."),
])
def test_rod_refuses(change, error, text):
    with pytest.raises(error) as refusal:
        Rod(**{"diameter": 5e-3, "length": 17e-3, **change})
    assert str(refusal.value) == text


def test_overlapping_rods_and_strange_bodies_are_refused():
    rod = Rod(diameter=5e-3, length=17e-3)
    with pytest.raises(ValueError, match="rods must be clear of each other; got"):
        magnetise([rod, Rod(diameter=5e-3, length=17e-3, y=4e-3)])
    with pytest.raises(TypeError, match="rods must be a sequence of Rod; got 'rod'"):
        magnetise([rod, "rod"])
    magnetise([rod, Rod(diameter=5e-3, length=17e-3, y=4e-3, top=20e-3)])  # one above the other is well


def test_rods_that_do_not_settle_say_so(monkeypatch):
    monkeypatch.setattr("lessons_lib.physics.surface_currents.gmres", lambda system, alone, **more: (alone, 1))
    rods = [Rod(diameter=5e-3, length=17e-3, relative_permeability=3.6, remanence=0.9, y=y) for y in (0.0, 0.01)]
    with pytest.raises(RuntimeError, match="^currents on rods must settle within 1000 steps; got "):
        magnetise(rods)


def test_no_rods_have_no_field():
    nothing = magnetise([])
    assert not nothing.flux_density(PLACES).any() and nothing.linkage_with(upright(1.0)) == 0.0
