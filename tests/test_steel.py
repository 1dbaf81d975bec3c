"""The steel string: against an exact wire, finite elements, its own energy, and the flux it sends through a coil."""
import math
from functools import cache

import magpylib
import numpy as np
import pytest
from hypothesis import example, given, settings, strategies
from scipy.constants import mu_0

from lessons_lib.physics.steel import STRING_PLACES, STRING_WEIGHTS, SteelPole, SteelString
from reference_wire import wire_linkage

# The problem of all reference values here: a rod 5 x 16 mm of 1.0 T, its top at z = 0; a coil of 7000 turns, 3.5 to
# 6.5 mm radius, 13 to 3 mm below the top. Both fields from magpylib: the string is the only thing under test.
TURNS, INNER, OUTER, BOTTOM, TOP = 7000, 3.5e-3, 6.5e-3, -13e-3, -3e-3


@cache
def rod():
    return magpylib.magnet.Cylinder(polarization=(0, 0, 1.0), dimension=(5e-3, 16e-3), position=(0, 0, -8e-3))


@cache
def coil():
    """The winding as 4 x 8 Gauss-weighted loops: 1e-5 at the string."""
    rows, row_shares = np.polynomial.legendre.leggauss(4)
    layers, layer_shares = np.polynomial.legendre.leggauss(8)
    return magpylib.Collection(*(
        magpylib.current.Circle(current=TURNS * share * part / 4, diameter=OUTER + INNER + (OUTER - INNER) * row,
                                position=(0, 0, (TOP + BOTTOM) / 2 + (TOP - BOTTOM) / 2 * layer))
        for row, share in zip(rows, row_shares) for layer, part in zip(layers, layer_shares)))


def line(y, height):
    return np.stack([STRING_PLACES, np.full_like(STRING_PLACES, y), np.full_like(STRING_PLACES, height)], axis=-1)


def over_the_rod(string, height, y=0.0):
    """The magnetised string and the coil's B (T per ampere) along it."""
    return string.magnetise(rod().getH(line(y, height))), coil().getB(line(y, height))


def linkage(string, height, y=0.0):
    magnetised, flux_density = over_the_rod(string, height, y)
    return magnetised.linkage(flux_density)


def straight(diameter=0.5e-3, permeability=100.0):
    return SteelString(diameter=diameter, relative_permeability=permeability, saturation=math.inf)


def exact(height, y=0.0, diameter=0.5e-3, permeability=100.0):
    return wire_linkage(rod().getH, coil().getH, place=(y, height), radius=diameter / 2, permeability=permeability,
                        harmonics=3, count=2048)


# Finite elements in two forms, computed once for this problem, good to 0.1 %.
@pytest.mark.parametrize("height, linear, saturated", [
    (1.5e-3, 5.382e-4, 2.839e-4), (2.5e-3, 2.990e-4, 2.017e-4), (6.0e-3, 5.889e-5, 5.528e-5)])
def test_linkage_meets_finite_elements(height, linear, saturated):
    assert linkage(straight(), height) == pytest.approx(linear, rel=3e-3)
    assert linkage(SteelString(diameter=0.5e-3), height) == pytest.approx(saturated, rel=3e-3)
    assert exact(height) == pytest.approx(linear, rel=1e-3)  # the two references agree with each other


# The exact wire. The field's mean round the surface is taken to second order, so that what is left goes with
# (radius / height)^4: most for a thick core of low permeability close to the pole.
@pytest.mark.parametrize("diameter, tolerance", [(0.25e-3, 0.001), (0.5e-3, 0.0015), (0.75e-3, 0.0025),
                                                 (1.0e-3, 0.004)])
def test_linkage_meets_the_exact_wire(diameter, tolerance):
    permeabilities = (20.0, 100.0, 1000.0)
    for height, y in ((1.5e-3, 0.0), (1.5e-3, 8e-3), (2.5e-3, 4e-3), (6e-3, 0.0), (6e-3, 8e-3)):
        values = [linkage(straight(diameter, permeability), height, y) for permeability in permeabilities]
        assert values == pytest.approx(exact(height, y, diameter, permeabilities), rel=tolerance), (height, y)


def test_slope_meets_the_exact_wire():
    for height in (1.5e-3, 2.5e-3, 6e-3):
        slope = linkage(straight(), height + 1e-4) - linkage(straight(), height - 1e-4)
        assert slope == pytest.approx(exact(height + 1e-4) - exact(height - 1e-4), rel=5e-3)


def test_the_string_sends_this_flux_through_the_coil():
    """Reciprocity left out: the string as 91 dipoles, their B_z summed over the discs of every turn."""
    magnetised, flux_density = over_the_rod(SteelString(diameter=0.5e-3), 2.5e-3)
    moments = magnetised.magnetisation * magnetised.string.area * STRING_WEIGHTS[:, None]
    (u, u_share), (v, v_share) = np.polynomial.legendre.leggauss(16), np.polynomial.legendre.leggauss(10)
    angle = np.arange(32) * 2 * np.pi / 32
    total = 0.0
    # A point at radius rho lies inside all turns wider than rho.
    for low, high in ((0.0, INNER), (INNER, OUTER)):
        rho = (low + high) / 2 + (high - low) / 2 * u
        z = (BOTTOM + TOP) / 2 + (TOP - BOTTOM) / 2 * v
        turns = TURNS * np.minimum(1.0, (OUTER - rho) / (OUTER - INNER))
        rho_, angle_, z_ = np.meshgrid(rho, angle, z, indexing="ij")
        points = np.stack([rho_ * np.cos(angle_), rho_ * np.sin(angle_), z_], axis=-1)
        away = points[..., None, :] - line(0.0, 2.5e-3)
        distance = np.linalg.norm(away, axis=-1)
        B_z = 1e-7 * (3 * (away * moments).sum(-1) * away[..., 2] / distance**5 - moments[:, 2] / distance**3).sum(-1)
        shares = (turns * rho * u_share * (high - low) / 2)[:, None, None] * (2 * np.pi / 32) * v_share / 2
        total += (B_z * shares).sum()
    # 0.3 %: dipoles in place of a smooth wire, and the winding's two quadratures
    assert total == pytest.approx(magnetised.linkage(flux_density), rel=3e-3)


def test_mixed_coenergy_is_the_linkage():
    """Two views of one number: energy gained by magnet and current together, and M . B (reciprocity)."""
    for string in (straight(), SteelString(diameter=0.5e-3), SteelString(diameter=0.5e-3, wrap_diameter=0.9e-3,
                                                                         wrap_permeability=8.0)):
        static, per_ampere = rod().getH(line(1e-3, 2e-3)), coil().getH(line(1e-3, 2e-3))
        current = 1e-4
        more, less = (string.magnetise(static + i * per_ampere).coenergy() for i in (current, -current))
        assert (more - less) / (2 * current) == pytest.approx(linkage(string, 2e-3, 1e-3), rel=1e-4)


def test_energy_and_force_agree():
    """Pull from the co-energy's slope, and from M . dH/dz (Kelvin)."""
    string, step = SteelString(diameter=0.5e-3), 2e-5
    up, down = (string.magnetise(rod().getH(line(0, 2.5e-3 + d))).coenergy() for d in (step, -step))
    slope = (rod().getB(line(0, 2.5e-3 + step)) - rod().getB(line(0, 2.5e-3 - step))) / (2 * step)
    kelvin = string.magnetise(rod().getH(line(0, 2.5e-3))).linkage(slope)
    assert (up - down) / (2 * step) == pytest.approx(kelvin, rel=2e-3)
    assert kelvin < 0


def test_a_uniform_field_across_gives_the_long_cylinder():
    field = np.zeros((len(STRING_PLACES), 3))
    field[:, 2] = 1000.0
    M = straight().magnetise(field).magnetisation
    assert M[:, 2] == pytest.approx(1000 * 99 / (1 + 99 / 2), rel=1e-12)  # textbook: demagnetising factor 1/2
    assert np.abs(M[:, :2]).max() == 0


def test_a_field_along_gives_bozorths_rod():
    """R. M. Bozorth, Ferromagnetism (1951), appendix, from memory: 0.00036 for 100 diameters' length."""
    thick = straight(diameter=2.4e-3, permeability=1e5)  # the model's string is 240 mm long
    field = np.zeros((len(STRING_PLACES), 3))
    field[:, 0] = 1.0
    along = thick.magnetise(field).magnetisation[:, 0]
    middle = along[len(along) // 2]
    assert along[0] == along[-1] == 0.0
    assert 1 / middle - 1e-5 == pytest.approx(0.00036, abs=0.00003)  # two digits, and no charge on the end faces here


def test_steel_never_passes_its_saturation():
    string = SteelString(diameter=0.3e-3)
    for strength in (1.0, 30.0, 1000.0):  # up to a thousand times the rod: Newton must settle there too
        M = string.magnetise(strength * rod().getH(line(0, 1e-3))).magnetisation
        assert mu_0 * np.linalg.norm(M, axis=-1).max() <= 1.9
    assert mu_0 * np.linalg.norm(M, axis=-1).max() == pytest.approx(1.9, rel=1e-3)


def test_saturation_far_away_is_the_straight_line():
    far = SteelString(diameter=0.5e-3, saturation=1e6)
    assert linkage(far, 2e-3) == pytest.approx(linkage(straight(), 2e-3), rel=1e-9)


def test_permeability_one_is_air():
    assert linkage(SteelString(diameter=0.5e-3, relative_permeability=1.0), 2e-3) == 0


@settings(max_examples=15, deadline=None)
@example(factor=5e-324, diameter=0.5e-3)  # the smallest number there is
@given(factor=strategies.floats(-3, 3), diameter=strategies.floats(0.2e-3, 0.5e-3))
def test_a_straight_line_string_scales_and_turns_over(factor, diameter):
    field = rod().getH(line(1e-3, 2e-3))
    once = straight(diameter).magnetise(field).magnetisation
    scaled = straight(diameter).magnetise(factor * field).magnetisation
    assert scaled == pytest.approx(factor * once, rel=1e-9, abs=1e-6)


def test_left_is_right():
    magnetised, _ = over_the_rod(SteelString(diameter=0.46e-3), 2e-3)
    M = magnetised.magnetisation
    assert M[::-1, 0] == pytest.approx(-M[:, 0], rel=1e-9, abs=1e-3)
    assert M[::-1, 2] == pytest.approx(M[:, 2], rel=1e-9, abs=1e-3)


def test_many_heights_at_once():
    string, heights = SteelString(diameter=0.4e-3), np.array([[1.5e-3, 2e-3], [3e-3, 5e-3]])
    points = np.stack([line(0, height) for height in heights.ravel()]).reshape(2, 2, -1, 3)
    together = string.magnetise(rod().getH(points)).linkage(coil().getB(points))
    assert together == pytest.approx(np.vectorize(lambda height: linkage(string, height))(heights), rel=1e-9)


def test_flux_in_the_string():
    """Flux over area is B, and B stays between the steel's knee and its saturation over a magnet of 1 T."""
    magnetised, _ = over_the_rod(SteelString(diameter=0.25e-3), 2.5e-3)
    B = np.abs(magnetised.flux()).max() / magnetised.string.area
    assert 1.2 < B < 1.9


def test_wraps():
    core = SteelString(diameter=0.4e-3)
    bronze = SteelString(diameter=0.4e-3, wrap_diameter=0.9e-3)
    assert linkage(bronze, 2.5e-3) == linkage(core, 2.5e-3)
    assert (bronze.outer_radius, bronze.magnetic_radius) == (0.45e-3, 0.2e-3)
    steel = SteelString(diameter=0.4e-3, wrap_diameter=0.9e-3, wrap_permeability=10.0)
    assert linkage(core, 2.5e-3) < linkage(steel, 2.5e-3) < linkage(SteelString(diameter=0.9e-3), 2.5e-3)
    # under any field the wrap gives no more than its steel, pi/4 of its ring
    full = steel.magnetise(1e5 * rod().getH(line(0, 2.5e-3))).magnetisation
    ring = 1 - (0.4 / 0.9)**2
    assert mu_0 * np.linalg.norm(full, axis=-1).max() == pytest.approx(1.9 * (1 - ring + ring * math.pi / 4), rel=1e-3)
    # a wrap as good as the core is a thicker wire
    solid = SteelString(diameter=0.4e-3, saturation=math.inf, wrap_diameter=0.9e-3, wrap_permeability=100.0)
    assert linkage(solid, 2.5e-3) == pytest.approx(linkage(straight(0.9e-3), 2.5e-3), rel=1e-12)


@pytest.mark.parametrize("change, message", [
    ({"diameter": 0.0}, r"diameter must be a finite number above zero; got 0\.0\."),
    ({"diameter": math.nan}, "diameter must be a finite number above zero; got nan"),
    ({"saturation": 0.0}, r"saturation must be a finite number above zero; got 0\.0\."),
    ({"relative_permeability": 0.5}, r"relative_permeability must be 1 or above; got 0\.5\."),
    ({"relative_permeability": math.inf}, "relative_permeability must be a finite number; got inf"),
    ({"wrap_diameter": 0.4e-3}, "wrap_diameter must be larger than the core's diameter; got 0.0004"),
    ({"wrap_permeability": 5.0}, "wrap_diameter must be given with a magnetic wrap; got None"),
])
def test_bad_strings(change, message):
    with pytest.raises(ValueError, match=message):
        SteelString(**{"diameter": 0.5e-3, **change})


def test_other_bad_input():
    with pytest.raises(TypeError, match="diameter must be a finite number above zero; got 'thin'"):
        SteelString(diameter="thin")
    with pytest.raises(ValueError, match="length must be a finite number above zero"):
        SteelPole(diameter=4.8e-3, length=-1.0, relative_permeability=500)
    with pytest.raises(ValueError, match=r"applied must be an array of shape \(\.\.\., 91, 3\); got 'shape \(5, 3\)'"):
        straight().magnetise(np.zeros((5, 3)))
    with pytest.raises(ValueError, match="applied must be an array of finite numbers; got .*nan"):
        straight().magnetise(np.full((len(STRING_PLACES), 3), np.nan))


def test_a_string_that_does_not_settle_says_so(monkeypatch):
    monkeypatch.setattr("lessons_lib.physics.steel._STEPS", 2)
    with pytest.raises(RuntimeError, match="the string's magnetisation must settle within 2 steps; got a last step of"):
        linkage(SteelString(diameter=0.5e-3), 1.5e-3)


@pytest.mark.parametrize("diameter, height", [(0.2e-3, 1.5e-3), (1.0e-3, 1.5e-3)])
def test_high_permeability_near_a_pole_settles(diameter, height):
    """Whole Newton steps swing to and fro here for ever."""
    wire = SteelString(diameter=diameter, relative_permeability=1000.0)
    flux = wire.magnetise(rod().getH(line(0.0, height))).flux() / wire.area
    assert 1.8 < np.abs(flux).max() < 2.2     # 1.9 T and the field beside it
