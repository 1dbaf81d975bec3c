"""A core in a winding against single loops, Ampère's law, and the rod magnet whose field it has."""
import numpy as np
import pytest
from scipy.constants import mu_0, pi
from scipy.special import ellipe, ellipk

from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.wound_rod import WoundRod

SHAPE = {"diameter": 5e-3, "length": 17e-3}
PLACES = np.array([(2.5e-3, -8.5e-3), (2.5e-3, 0.0), (1e-3, -4e-3), (5e-3, -3e-3), (12e-3, -8.5e-3), (3e-3, 6e-3)]).T


def coil(permeability, ampere_turns=2000.0):
    return WoundRod(**SHAPE, relative_permeability=permeability, ampere_turns=ampere_turns)


def loop_flux(rho, z, radius):
    """Flux per ampere of a loop through a coaxial circle: Maxwell's Treatise, art. 701, typed here again."""
    m = 4 * radius * rho / ((radius + rho) ** 2 + z ** 2)
    return mu_0 * np.sqrt(radius * rho / m) * ((2 - m) * ellipk(m) - 2 * ellipe(m))


@pytest.mark.parametrize("rho, z", PLACES.T[2:])
def test_without_a_core_it_is_its_turns_added_up(rho, z):
    """4000 single loops in place of the sheet: off the wall they differ by less than 1e-6."""
    heights = -(np.arange(4000) + 0.5) / 4000 * SHAPE["length"]
    turns = 0.5 * loop_flux(rho, z - heights, SHAPE["diameter"] / 2)
    assert coil(1.0).flux_function(rho, z) == pytest.approx(turns.sum(), rel=1e-6)


@pytest.mark.parametrize("permeability", [1.0, 2.0, 3.6, 5.0])
def test_with_the_magnets_mmf_it_has_the_magnets_flux_everywhere(permeability):
    """B = mu0 mu (H + N I/l) is the recoil line B = B_r + mu0 mu H: exact, so only the two solutions' errors differ."""
    magnet = RodMagnet(**SHAPE, remanence=0.75, recoil_permeability=permeability)
    electro = coil(permeability, 0.75 * SHAPE["length"] / (mu_0 * permeability))
    np.testing.assert_allclose(electro.flux_function(*PLACES), magnet.flux_function(*PLACES), rtol=1e-6)
    assert electro.midplane_flux() == pytest.approx(magnet.midplane_flux(), rel=1e-6)


def along_the_axis(field, length):
    """A field that is given on the axis at heights z, added up inside the rod and outside of it to 1 m, both ways.

    Beyond, a dipole's field adds less than a thousandth.
    """
    nodes, weights = np.polynomial.legendre.leggauss(200)
    inside = weights @ field((nodes - 1) / 2 * length) * length / 2
    logarithm = np.log(1e-6) + (nodes + 1) / 2 * np.log(1e6)
    return inside, weights @ (field(np.exp(logarithm)) * np.exp(logarithm)) * np.log(1e6)


@pytest.mark.parametrize("permeability", [1.0, 3.6])
def test_field_strength_round_a_loop_is_turns_times_current(permeability):
    """Ampère's law on a loop along the axis, closed far away: N I for the coil, nothing for a magnet."""
    rho = 2e-5      # a disc so small that B is the same all over it

    def added_up(flux_function, remanence):
        def b(z):
            return flux_function(rho, z) / (pi * rho ** 2)
        inside, outside = along_the_axis(b, SHAPE["length"])
        return (inside - remanence * SHAPE["length"]) / (mu_0 * permeability) + outside / mu_0

    assert added_up(coil(permeability).flux_function, 0.0) == pytest.approx(2000, rel=2e-3)
    magnet = RodMagnet(**SHAPE, remanence=0.75, recoil_permeability=permeability)
    mmf = 0.75 * SHAPE["length"] / (mu_0 * permeability)
    assert abs(added_up(magnet.flux_function, 0.75)) < 2e-3 * mmf


def test_a_negative_current_turns_it_over():
    assert coil(3.6, -2000.0).midplane_flux() == pytest.approx(-coil(3.6).midplane_flux())


@pytest.mark.parametrize("wrong, said", [
    ({"diameter": 0.0}, "diameter must be"), ({"relative_permeability": 0.5}, "relative_permeability must be"),
    ({"ampere_turns": np.nan}, "ampere_turns must be")])
def test_bad_input(wrong, said):
    with pytest.raises(ValueError, match=said):
        WoundRod(**SHAPE | {"relative_permeability": 3.6, "ampere_turns": 1.0} | wrong)


def test_a_negative_distance_is_refused():
    with pytest.raises(ValueError, match="rho must be zero or above; got -0.001"):
        coil(1.0).flux_function(-1e-3, 0.0)
