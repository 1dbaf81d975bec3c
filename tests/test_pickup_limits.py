"""The pickup's limits and symmetries, what it leaves out where nothing is left, and what it refuses."""
import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.constants import mu_0

from lessons_lib.physics.magnets import BarMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.steel import SteelPole
from lessons_lib.physics.winding import RoundCoil
from sample_pickups import BENT, COIL, LONG, ROD, SINGLE, SIX, screws_on_a_bar, six_rods

# --- limits and symmetries

def test_far_poles_are_single_poles():
    far = Pickup(poles=[ROD, replace(ROD, y=0.3)], coils=COIL)
    assert far.flux_linkage(BENT, height=2e-3) == pytest.approx(SINGLE.flux_linkage(BENT, height=2e-3), rel=1e-3)
    steel = SteelPole(diameter=4.8e-3, length=17e-3, relative_permeability=500)
    one = Pickup(poles=steel, coils=COIL)
    two = Pickup(poles=[steel, replace(steel, y=0.3)], coils=COIL)
    assert two.inductance() == pytest.approx(one.inductance(), rel=1e-3)


def test_left_is_right():
    for pickup in (six_rods(), screws_on_a_bar()):
        left, right = pickup.flux_linkage(BENT, height=2.5e-3, y=np.array([-7e-3, 7e-3]))
        assert left == pytest.approx(right, rel=1e-6)


def test_a_pole_of_air_is_not_there():
    air = SteelPole(diameter=4.8e-3, length=17e-3, relative_permeability=1.0)
    bar = BarMagnet(size=(12.7e-3, 60e-3, 3.2e-3), centre=(0, 0, -18.6e-3), remanence=0.38)
    with_it, without = Pickup(poles=air, coils=COIL, bars=bar), Pickup(poles=(), coils=COIL, bars=bar)
    assert with_it.inductance() == pytest.approx(COIL.self_inductance(), rel=1e-9)
    assert with_it.flux_linkage(BENT, height=2e-3) == pytest.approx(without.flux_linkage(BENT, height=2e-3), rel=1e-9)


def test_a_permeable_bar_leads_the_coils_flux():
    """Under steel poles a bar of recoil permeability 1.08 counts for half a per cent of the inductance (finite elements
    put bar and all at 4.32 H), one of 1.0 for nothing."""
    pickup = screws_on_a_bar()
    stiff = replace(pickup, bars=replace(pickup.bars[0], recoil_permeability=1.0))
    none = replace(pickup, bars=())
    assert stiff.inductance() == pytest.approx(none.inductance(), rel=1e-9)
    assert 1.001 < pickup.inductance() / none.inductance() < 1.01


def test_mirrored_and_whole_strings_are_the_same(monkeypatch):
    half = screws_on_a_bar().flux_linkage(BENT, height=2e-3, y=3e-3)
    monkeypatch.setattr(Pickup, "_mirrored", False)
    assert replace(screws_on_a_bar()).flux_linkage(BENT, height=2e-3, y=3e-3) == pytest.approx(half, rel=1e-9)


def test_a_bar_along_the_string_is_not_mirrored():
    """Its field points one way along the string: the coil in the middle sees nothing, a coil at one end does."""
    bar = BarMagnet(size=(12e-3, 6e-3, 3e-3), centre=(0, 0, -17e-3), remanence=0.4, axis="x")
    pickup = Pickup(poles=(), coils=COIL, bars=bar)
    pole = Pickup(poles=ROD, coils=COIL)
    assert abs(pickup.flux_linkage(BENT, height=2e-3)) < 1e-6 * pole.flux_linkage(BENT, height=2e-3)


def test_fast_and_general_fields_are_the_same():
    """Strings use a sum over the poles' nodes; the general field has a rule of its own close to a pole."""
    pickup = six_rods()
    for height in (1.3e-3, 0.4e-3):
        points = np.stack(np.broadcast_arrays([0.0, 2e-3, 20e-3], SIX[2] + 1e-3, height), axis=-1)
        steady, per_ampere = pickup._outside(points)
        assert mu_0 * steady == pytest.approx(pickup.flux_density(points), rel=1e-4, abs=1e-6)
        assert per_ampere == pytest.approx(pickup.field_per_ampere(points), rel=1e-4, abs=1e-6)


def test_permeability_one_is_plain_superposition():
    two = Pickup(poles=[ROD, replace(ROD, y=9.5e-3, remanence=-0.5)], coils=COIL)
    points = np.array([[1e-3, 2e-3, 3e-3], [0.0, 5e-3, 1e-3]])
    expected = ROD.flux_density(points) + replace(ROD, y=9.5e-3, remanence=-0.5).flux_density(points)
    # closed form against panels on the surface: 1e-4 where one is near
    assert two.flux_density(points) == pytest.approx(expected, rel=2e-4, abs=1e-6)
    assert two.field_per_ampere(points) == pytest.approx(COIL.flux_density(points), rel=1e-9)


def test_turning_over():
    """Magnet and coil both turned over: the same linkage. One of them: its negative."""
    plain = SINGLE.flux_linkage(BENT, height=2e-3)
    magnet, coil = replace(ROD, remanence=-1.0), replace(COIL, winding_sense=-1)
    for poles, coils, sign in ((magnet, coil, 1), (magnet, COIL, -1), (ROD, coil, -1)):
        turned = Pickup(poles=poles, coils=coils)
        assert turned.flux_linkage(BENT, height=2e-3) == pytest.approx(sign * plain, rel=1e-9)
        assert turned.inductance() > 0


def test_coils_in_series():
    other = replace(COIL, y=20e-3, winding_sense=-1)
    both = Pickup(poles=[ROD, replace(ROD, y=20e-3, remanence=-1.0)], coils=[COIL, other])
    alone = [replace_coils(both, coil).flux_linkage(BENT, height=2e-3, y=20e-3) for coil in (COIL, other)]
    assert both.flux_linkage(BENT, height=2e-3, y=20e-3) == pytest.approx(sum(alone), rel=1e-9)
    air = 2 * COIL.self_inductance() + 2 * COIL.mutual_inductance(other)
    assert both.inductance() == pytest.approx(air, rel=1e-9)


def replace_coils(pickup, coils):
    return replace(pickup, coils=coils)


def test_a_shifted_pickup_is_the_same():
    moved = Pickup(poles=replace(ROD, x=30e-3, y=4e-3), coils=replace(COIL, x=30e-3, y=4e-3))
    assert moved.flux_linkage(BENT, height=2e-3, y=5e-3) == pytest.approx(
        SINGLE.flux_linkage(BENT, height=2e-3, y=1e-3), rel=1e-9)
    # two rows of poles 18 mm apart: a pole 9 mm off the middle of the nodes
    rows = Pickup(poles=[replace(ROD, x=-9e-3), replace(ROD, x=9e-3, remanence=1e-9)], coils=replace(COIL, x=-9e-3))
    assert rows.flux_linkage(BENT, height=2e-3) == pytest.approx(SINGLE.flux_linkage(BENT, height=2e-3), rel=2e-3)


def test_broadcasting():
    heights, places = np.array([2e-3, 3e-3, 4e-3]), np.linspace(-3e-3, 3e-3, 30)[:, None]
    table = SINGLE.flux_linkage(BENT, height=heights, y=places)
    assert table.shape == (30, 3)
    assert table[7, 1] == pytest.approx(SINGLE.flux_linkage(BENT, height=3e-3, y=places[7, 0]), rel=1e-9)
    assert np.ndim(SINGLE.flux_linkage(BENT, height=2e-3)) == 0
    assert SINGLE.sensitivity(BENT, height=[]).shape == (0,)


# --- bad input

@pytest.mark.parametrize("height, y, named", [
    (-1e-3, 20e-3, r"-0\.001"),                # below the coil form
    (0.1e-3, 0.0, r"0\.0001"),                 # in the pole's face
    (np.array([2e-3, 1.2e-3]), 10e-3, r"0\.0012"),  # in the high pole
])
def test_string_too_low(height, y, named):
    pickup = Pickup(poles=[ROD, replace(ROD, y=10e-3, top=1e-3)], coils=COIL)
    with pytest.raises(ValueError, match="height must be the string's axis, its lower side clear of .*; got " + named):
        pickup.flux_linkage(BENT, height=height, y=y)
    with pytest.raises(ValueError, match="clear of the coil form"):
        Pickup(poles=(), coils=COIL).flux_linkage(BENT, height=-1e-3)


@pytest.mark.parametrize("parts, message", [
    ({"poles": [ROD, replace(ROD, y=4.9e-3)]}, "poles must be clear of the other parts; got 'poles 0 and 1 in"),
    ({"poles": replace(ROD, y=2e-3)}, "coils must be clear of the other parts; got 'coil 0 and pole 0 in the same"),
    ({"coils": replace(COIL, top=1e-3)}, "coils must be below z = 0, the top of the coil form; got 'coil 0 with"),
    ({"coils": [COIL, replace(COIL, x=12e-3)]}, "coils must be clear of the other parts; got 'coils 0 and 1 in"),
    ({"coils": ()}, r"coils must be one coil or more; got \(\)"),
    ({"bars": BarMagnet(size=(5e-3, 5e-3, 5e-3), centre=(0, 0, -17e-3), remanence=0.4)},
     "bars must be clear of the other parts; got 'bar 0 and pole 0 in the same"),
    ({"bars": BarMagnet(size=(5e-3, 5e-3, 5e-3), centre=(7e-3, 0, -7e-3), remanence=0.4)},
     "coils must be clear of the other parts; got 'coil 0 and bar 0 in the same"),
])
def test_parts_that_do_not_fit(parts, message):
    with pytest.raises(ValueError, match=message):
        Pickup(**{"poles": ROD, "coils": COIL, **parts})


def test_parts_that_touch_fit():
    """A long coil round six poles, a coil inside another's bore, a bar under the poles, a bar in the bore."""
    inner = RoundCoil(inner_radius=2.6e-3, outer_radius=3.5e-3, bottom=-13e-3, top=-3e-3, turns=100)
    Pickup(poles=ROD, coils=[COIL, inner])
    blade = BarMagnet(size=(3e-3, 50e-3, 10e-3), centre=(0, 0, -8e-3), remanence=0.4)
    Pickup(poles=(), coils=LONG, bars=blade)
    assert len(screws_on_a_bar().bars) == 1


def test_other_bad_input():
    with pytest.raises(ValueError, match="height must be an array of finite numbers; got .*nan"):
        SINGLE.flux_linkage(BENT, height=math.nan)
    with pytest.raises(TypeError, match="string must be a SteelString; got 0.0005"):
        SINGLE.flux_linkage(0.5e-3, height=2e-3)
    with pytest.raises(TypeError, match="poles must be RodMagnet or SteelPole; got 'magnet'"):
        Pickup(poles=["magnet"], coils=COIL)
    with pytest.raises(ValueError, match=r"points must be an array of shape \(\.\.\., 3\)"):
        SINGLE.flux_density([0.0, 1.0])
