"""The functions under the panels of lesson 1 against magpylib, closed forms and values of the house magnet."""
import re

import magpylib
import numpy as np
import pytest
from matplotlib.text import Text
from scipy.constants import mu_0

from lessons_lib.base.workshop import house_magnet
from lessons_lib.lessons.lesson_01 import panels as lesson_01
from lessons_lib.lessons.lesson_01.model import (
    axis_curve,
    axis_field,
    counted_map,
    inside_curves,
    inside_field,
    ring_curves,
    ring_sum,
    rod_flux,
)
from lessons_lib.lessons.rod import flux_density_map, flux_map
from lessons_lib.pictures.flux_lines import crossings

ROD = {"diameter": 4.8e-3, "length": 15e-3, "remanence": 1.1, "recoil_permeability": 1.0}


def reference_flux(radius, z):
    """Flux of ROD (top at z = 0) through a disc, Wb: magpylib's B_z over 200 Gauss points on each side of the wall."""
    wall, magnet = ROD["diameter"] / 2, magpylib.magnet.Cylinder(
        polarization=(0, 0, ROD["remanence"]), dimension=(ROD["diameter"], ROD["length"]),
        position=(0, 0, -ROD["length"] / 2))
    nodes, weights = np.polynomial.legendre.leggauss(200)
    flux = 0.0
    for start, end in ((0, min(radius, wall)), (wall, max(radius, wall))):
        rho, width = start + (end - start) * (nodes + 1) / 2, (end - start) / 2
        b_z = magnet.getB(np.stack([rho, 0 * rho, np.full_like(rho, z)], axis=-1))[:, 2]
        flux += np.sum(b_z * 2 * np.pi * rho * weights) * width
    return flux


def test_flux_through_middle_and_face():
    flux = rod_flux(**ROD)
    middle = reference_flux(ROD["diameter"] / 2, -ROD["length"] / 2)
    # just above the face: on the face itself magpylib leaves the side open
    face = reference_flux(ROD["diameter"] / 2, 1e-9)
    assert flux.middle == pytest.approx(middle, rel=1e-7)
    assert flux.face == pytest.approx(face, rel=1e-4)       # 400 points do not resolve the edge better
    assert flux.side_share == pytest.approx(1 - face / middle, rel=1e-3)


def test_a_longer_rod_loses_a_larger_share_by_its_side_wall():
    shares = [rod_flux(**ROD | {"length": length}).side_share for length in (8e-3, 14e-3, 20e-3)]
    assert shares == sorted(shares) and shares[0] > 0.2


def test_flux_scales_with_the_remanence_and_turns_with_it():
    one, two = rod_flux(**ROD), rod_flux(**ROD | {"remanence": -2 * ROD["remanence"]})
    assert two.middle == pytest.approx(-2 * one.middle) and two.side_share == pytest.approx(one.side_share)


def test_the_map_is_the_flux_and_its_grid_holds_the_wall():
    data = flux_map(**ROD)
    assert ROD["diameter"] / 2 in data["rho"]
    assert data["flux"].shape == (len(data["z"]), len(data["rho"]))
    row, column = 40, 30
    assert data["flux"][row, column] == pytest.approx(reference_flux(data["rho"][column], data["z"][row]), rel=1e-4)


def test_the_lines_of_the_map_stand_where_the_flux_is_a_whole_step():
    """The grid is coarse: straight lines between its points must not shift a line by more than 0.1 mm near the rod."""
    data = flux_map(**ROD)
    middle = np.abs(data["z"] + ROD["length"] / 2).argmin()
    _, out = crossings(data["rho"], data["flux"][middle], 1e-6)
    near = out[out < 10e-3]
    assert len(near) > 3
    for place in near:
        flux, above, below = (reference_flux(rho, data["z"][middle]) for rho in (place, place + 1e-5, place - 1e-5))
        assert abs((flux - round(flux * 1e6) * 1e-6) / (above - below) * 2e-5) < 1e-4


def test_the_wall_and_the_faces_are_lines_of_the_grid():
    for length in (8e-3, 12.5e-3, 20e-3):
        data = flux_map(**ROD | {"length": length})
        assert min(abs(data["z"])) < 1e-12 and min(abs(data["z"] + length)) < 1e-12


def test_the_shade_is_the_magnitude_of_b_and_jumps_at_the_wall():
    rho, z, size = flux_density_map(**ROD)
    wall = np.flatnonzero(rho == ROD["diameter"] / 2)
    assert len(wall) == 2
    magnet = magpylib.magnet.Cylinder(polarization=(0, 0, ROD["remanence"]),
                                      dimension=(ROD["diameter"], ROD["length"]), position=(0, 0, -ROD["length"] / 2))
    row = np.abs(z + 5e-3).argmin()
    for column in (0, 1, wall[0], wall[1], wall[1] + 5):
        beside = 1e-6 * (1 if column == wall[1] else -1 if column == wall[0] else 0)
        b = magnet.getB((rho[column] + beside, 0, z[row]))
        # differences over half a millimetre and a thirteenth of the radius: 3 %; a step of the shade is a factor 3
        assert size[row, column] == pytest.approx(np.linalg.norm(b), rel=0.03)
    assert size[row, wall[0]] > 5 * size[row, wall[1]]


def test_b_is_nearly_the_same_from_the_axis_to_the_wall_inside():
    """What the alternative text and the shade say: no flux in a skin."""
    house = dict(house_magnet)
    rho, z, size = flux_density_map(**house)
    row = np.abs(z + house["length"] / 2).argmin()
    inside = size[row, :np.flatnonzero(rho == house["diameter"] / 2)[0] + 1]
    assert inside.max() / inside.min() < 1.02


def test_the_lines_are_counted_by_the_flux_of_the_face():
    data = counted_map(rod_flux(**ROD), **ROD)
    rho, z, size = data["shade"]
    assert data["face"] == rod_flux(**ROD).face and size.shape == (len(z), len(rho))


def test_ring_sums_converge_to_the_exact_flux_with_the_second_order():
    errors = [abs(ring_sum(height=1e-3, radius=2e-3, rings=rings).difference) for rings in (5, 10, 20)]
    assert errors[0] / errors[1] == pytest.approx(4, rel=0.1) and errors[1] / errors[2] == pytest.approx(4, rel=0.1)
    assert errors[2] < 1e-3


def test_flux_density_falls_with_the_radius_while_flux_grows():
    discs = [ring_sum(height=1e-3, radius=radius, rings=20) for radius in (1e-3, 2.5e-3, 5e-3, 8e-3)]
    means, fluxes = [disc.mean for disc in discs], [disc.exact for disc in discs]
    assert means == sorted(means, reverse=True) and fluxes == sorted(fluxes)


def test_ring_sum_adds_what_the_picture_shows():
    taken = ring_sum(height=2e-3, radius=3e-3, rings=4)
    areas = np.pi * np.diff(taken.edges ** 2)
    assert taken.sums[-1] == pytest.approx(np.sum(taken.ring_values * areas))
    curves = ring_curves(taken, height=2e-3, radius=3e-3, rings=4)
    rho, flux = curves["flux"]["exact"]
    assert np.interp(taken.edges[-1], rho, flux) == pytest.approx(taken.exact, rel=1e-3)
    assert curves["flux"]["now"] == (3e-3, taken.exact) and curves["density"]["mean"][1] == [taken.mean] * 2
    corners, heights = (np.array(one) for one in curves["density"]["rings"])
    assert len(corners) == len(heights) == 13
    assert np.unique(corners) == pytest.approx(taken.edges) and set(heights) == {0.0, *taken.ring_values}


@pytest.mark.parametrize("radius", [1e-3, 2.5e-3, 5e-3, 8e-3])
def test_each_dot_of_the_disc_is_the_same_flux(radius):
    taken = ring_sum(height=1e-3, radius=radius, rings=5)
    dots = np.hypot(*ring_curves(taken, height=1e-3, radius=radius, rings=5)["above"]["dots"])
    # the first of them has half a dot inside: rounding, and no more
    assert np.sum(dots <= radius) == pytest.approx(taken.exact / 25e-9, abs=1)


@pytest.mark.parametrize("wrong, message", [
    ({"radius": 0.0}, "radius must be a finite number above zero; got 0.0."),
    ({"height": np.nan}, "height must be a finite number above zero; got nan."),
    ({"rings": 0}, "rings must be a number from 1 to 1000; got 0.")])
def test_ring_sum_refuses(wrong, message):
    with pytest.raises(ValueError, match=re.escape(message)):
        ring_sum(**{"height": 1e-3, "radius": 2e-3, "rings": 5} | wrong)


# a rod with the house record solved by finite elements in two forms: 129.6, 84.3, 54.8, 26.1 mT (four printed digits
# at best; the library promises 0.5 %)
@pytest.mark.parametrize("z, milli_tesla", [(1e-3, 129.6), (2e-3, 84.3), (3e-3, 54.8), (5e-3, 26.1)])
def test_the_field_above_the_house_magnet(z, milli_tesla):
    assert axis_field(z=z).flux_density * 1e3 == pytest.approx(milli_tesla, rel=5e-3)


def test_the_exponent_is_the_slope_of_the_curve_and_of_the_triangle():
    field = axis_field(z=4e-3)
    chart = axis_curve(field, z=4e-3)["chart"]
    z, b = chart["b"]
    assert field.exponent == pytest.approx(np.interp(4e-3, z, np.gradient(np.log(b), np.log(z))), abs=5e-3)
    assert field.doubled == pytest.approx(axis_field(z=8e-3).flux_density / field.flux_density)
    for power in (1, 2, 3):
        places, values = chart[f"power {power}"]
        assert values == pytest.approx(field.flux_density * (places / 4e-3) ** -power)


@pytest.mark.parametrize("z", [0.3e-3, 1e-3, 166e-3, 170e-3, 300e-3])
def test_the_triangle_touches_the_dot_and_stays_within_the_slider(z):
    field = axis_field(z=z)
    chart = axis_curve(field, z=z)["chart"]
    x, y = (np.array(one) for one in chart["slope"])
    assert min(np.hypot(x / z - 1, y / field.flux_density - 1)) < 1e-9
    assert max(x) <= 300e-3 * 1.001 and np.log(y[2] / y[0]) / np.log(x[2] / x[0]) == pytest.approx(field.exponent)
    assert chart["corner"] == (x[1], y[1]) == (max(x), max(y)) and chart["words"]["corner"].startswith("slope −")


def test_far_away_the_rod_is_a_dipole():
    # a dipole at the middle: the exponent in the distance above the pole is -3 z/(z + length/2), to (length/2z)^2
    z = 1.0
    assert axis_field(z=z).exponent == pytest.approx(-3 * z / (z + house_magnet["length"] / 2), abs=1e-3)


@pytest.mark.parametrize("place", [-11e-3, -6e-3, 0.0, 5e-3, 8e-3, 12e-3, 20e-3])
@pytest.mark.parametrize("recoil", [1.0, 3.6])
def test_b_h_and_j_hold_together(place, recoil):
    field = inside_field(place=place, diameter=5e-3, length=17e-3, recoil_permeability=recoil)
    assert field.b == pytest.approx(mu_0 * field.h + field.j, abs=1e-12)
    inside = abs(place) < 8.5e-3
    assert (field.j != 0) == inside
    if inside:
        # the line of the magnet: J = remanence + (recoil permeability - 1) mu0 H
        assert field.j == pytest.approx(house_magnet["remanence"] + (recoil - 1) * mu_0 * field.h, rel=2e-3)
        assert field.h < 0 < field.b and "against" in field.sentence
    else:
        assert field.j == 0 and field.h > 0 and "with B" in field.sentence


def test_inside_a_uniform_rod_magpylib_says_the_same():
    magnet = magpylib.magnet.Cylinder(polarization=(0, 0, house_magnet["remanence"]), dimension=(5e-3, 17e-3))
    field = inside_field(place=3e-3, diameter=5e-3, length=17e-3, recoil_permeability=1.0)
    assert field.b == pytest.approx(magnet.getB((0, 0, 3e-3))[2], rel=1e-9)
    assert field.h == pytest.approx(magnet.getH((0, 0, 3e-3))[2], rel=1e-9)


def test_b_runs_through_the_faces_and_h_jumps():
    rod = {"diameter": 5e-3, "length": 17e-3, "recoil_permeability": 3.6}
    field = inside_field(place=0.0, **rod)
    data = inside_curves(field, place=0.0, **rod)
    (b, place), (j, _), (mu0_h, _) = data["b"]["b"], data["b"]["j"], data["h"]["mu0_h"]
    face = np.searchsorted(place, 8.5e-3)
    assert b[face] == pytest.approx(b[face - 1], rel=1e-3)
    assert mu0_h[face - 1] < 0 < mu0_h[face]
    assert np.isnan(j[face]) and j[face - 1] > 0
    assert data["rod"]["b"] == field.b and data["rod"]["mu0_h"] == data["h"]["now"][0] == mu_0 * field.h


# ------------------------------------------------------------------ the panels themselves

@pytest.mark.parametrize("settings", [{}, {"length": 8e-3}, {"length": 20e-3, "diameter": 6e-3}, {"remanence": 0.3},
                                      {"remanence": 1.3, "recoil_permeability": 1.0}])
def test_the_picture_counts_as_many_lines_as_there_are_microwebers(settings):
    draw = lesson_01.lines_of_flux()._drawing._draw
    rod = dict(house_magnet) | settings
    flux = rod_flux(**rod)
    said = " ".join(artist.get_text() for artist in draw(counted_map(flux, **rod)) if isinstance(artist, Text))
    face, side = (int(re.search(rf"(\d+) by the {name}", said)[1]) for name in ("face", "side"))
    assert (face, face + side) == (int(flux.face * 1e6), int(flux.middle * 1e6))


@pytest.mark.parametrize("name, corner", [("lines_of_flux", (2.5, -17)), ("inside_the_rod", (2.5, -8.5))])
def test_the_rods_corner_is_what_is_dragged(name, corner):
    panel = getattr(lesson_01, name)()
    grip = panel._grips[-1]
    axes, shown = grip._axes, panel.board.frame["grips"][-1]
    x, y = axes.transData.transform(corner)
    assert (shown["x"], shown["y"]) == pytest.approx((x, axes.figure.bbox.height - y), abs=0.1)
    assert {shown[along]["name"] for along in ("along_x", "along_y")} == {"diameter", "length"}
