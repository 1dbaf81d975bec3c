"""Hum: closed forms in air, finite elements with a pole, and what a pair leaves over."""
import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.constants import mu_0

from lessons_lib.base.workshop import house_bar, house_coil, house_magnet, house_place, house_screw
from lessons_lib.physics.hum import hum_voltages
from lessons_lib.physics.magnets import BarMagnet, RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.six_strings import in_a_row
from lessons_lib.physics.steel import SteelPole, SteelString
from lessons_lib.physics.winding import LongCoil, RoundCoil
from reference_fem import Region, solve_rods

COIL = RoundCoil(inner_radius=3.5e-3, outer_radius=6.5e-3, bottom=-13e-3, top=-3e-3, turns=7000)
ROD = RodMagnet(diameter=5e-3, length=16e-3, remanence=0.75, recoil_permeability=3.6)
SCREW = SteelPole(**house_screw)
FIELD = {"flux_density": 1e-6, "frequency": 50.0}


def test_air_coil():
    # Faraday's law: 2 pi f N A B, the mean of pi r^2 from 3.5 to 6.5 mm
    area = math.pi * (6.5e-3**3 - 3.5e-3**3) / (3 * 3e-3)
    assert hum_voltages(Pickup(poles=(), coils=COIL), **FIELD) == pytest.approx([2 * math.pi * 50 * 7000 * area * 1e-6])


def test_a_pole_of_steel_leads_more_of_it_through_the_coil():
    """Finite elements with the same rod in a uniform field, the flux through 8 x 8 turns of the section: 1e-3."""
    mesh = solve_rods([Region(outer=2.4e-3, bottom=-17e-3, top=0.0, relative_permeability=500.0)], applied=1e-6)
    node, share = np.polynomial.legendre.leggauss(8)
    radii, heights = np.meshgrid(5e-3 + 1.5e-3 * node, -8e-3 + 5e-3 * node, indexing="ij")
    linkage = 7000 * np.outer(share, share).ravel() / 4 @ mesh.flux(radii.ravel(), heights.ravel())
    hum = hum_voltages(Pickup(poles=SCREW, coils=COIL), **FIELD)
    assert hum == pytest.approx([2 * math.pi * 50 * linkage], rel=2e-3)
    assert hum > 2 * hum_voltages(Pickup(poles=(), coils=COIL), **FIELD)


def test_hum_is_the_moment_of_one_ampere():
    """Reciprocity: the coil's moment, poles magnetised by its current included, times the field; read far away."""
    poles = in_a_row(RodMagnet(**house_magnet), house_place["string_y"])
    bar = BarMagnet(**house_bar)
    screws = in_a_row(replace(SCREW, length=16.9e-3), house_place["string_y"])
    for parts in ({"poles": poles}, {"poles": screws, "bars": bar}):
        pickup = Pickup(coils=LongCoil(**house_coil), **parts)
        far = np.array([0.0, 0.0, 3.0 - 8.5e-3])
        moment = pickup.field_per_ampere(far)[2] * 2 * math.pi * 3.0**3 / mu_0
        # next term of the far field: (60 mm / 3 m)^2; the two ways of magnetising the poles agree to 2e-3
        assert hum_voltages(pickup, **FIELD) == pytest.approx([2 * math.pi * 50 * moment * 1e-6], rel=3e-3)


def test_in_proportion():
    pickup = Pickup(poles=ROD, coils=COIL)
    once = hum_voltages(pickup, **FIELD)
    assert hum_voltages(pickup, flux_density=-3e-6, frequency=50.0) == pytest.approx(-3 * once, rel=1e-12)
    assert hum_voltages(pickup, flux_density=1e-6, frequency=150.0) == pytest.approx(3 * once, rel=1e-12)
    # a magnet's own remanence does not hum
    turned = Pickup(poles=replace(ROD, remanence=-0.2), coils=COIL)
    assert hum_voltages(turned, **FIELD) == pytest.approx(once, rel=1e-12)


def pair(**second):
    """Two coils side by side, the second wound the other way, with its magnet turned over."""
    return Pickup(poles=[replace(ROD, x=-9e-3), replace(ROD, x=9e-3, remanence=-0.75)],
                  coils=[replace(COIL, x=-9e-3), replace(COIL, x=9e-3, **{"winding_sense": -1} | second)])


def hum_left_over(pickup):
    """Hum of all coils in series over that of the first alone, dB; -inf when nothing is left."""
    hum = hum_voltages(pickup, **FIELD)
    with np.errstate(divide="ignore"):
        return 20 * np.log10(abs(hum.sum() / hum[0]))


def test_a_pair_of_coils():
    """Hum cancels, and the strings' voltages add: both magnet and winding are turned over."""
    hum = hum_voltages(pair(), **FIELD)
    assert hum[1] == pytest.approx(-hum[0], rel=1e-9)
    assert hum_left_over(pair()) < -150
    string, where = SteelString(diameter=0.43e-3), {"height": 2.5e-3}
    both = pair().sensitivity(string, **where)
    alone = [Pickup(poles=pair().poles, coils=coil).sensitivity(string, **where) for coil in pair().coils]
    assert alone[0] == pytest.approx(alone[1], rel=1e-6)
    assert both == pytest.approx(2 * alone[0], rel=1e-6)


@pytest.mark.parametrize("per_cent", [1, 2, 5])
def test_turns_that_differ(per_cent):
    # 20 log10 of the part by which the turns differ; 2 % leave -34 dB
    left = hum_left_over(pair(turns=7000 * (1 + per_cent / 100)))
    assert left == pytest.approx(20 * math.log10(per_cent / 100), abs=1e-6)


def test_a_pair_wound_alike_hums_twice():
    assert hum_left_over(pair(winding_sense=1)) == pytest.approx(20 * math.log10(2), abs=1e-9)
    assert hum_left_over(Pickup(poles=(), coils=COIL)) == 0.0


@pytest.mark.parametrize("change, message", [
    ({"flux_density": math.nan}, "flux_density must be a finite number; got nan."),
    ({"frequency": -50.0}, "frequency must be a finite number, zero or above; got -50.0."),
])
def test_refused(change, message):
    with pytest.raises(ValueError) as refusal:
        hum_voltages(Pickup(poles=ROD, coils=COIL), **FIELD | change)
    assert str(refusal.value) == message
