"""Pictures are tested with straight lines: arrays whose picture a person can foresee."""
import subprocess
import sys

import numpy as np
import pytest
from matplotlib.colors import to_hex
from matplotlib.contour import ContourSet
from matplotlib.lines import Line2D
from matplotlib.patches import FancyArrowPatch, Polygon, Rectangle
from matplotlib.text import Text

from lessons_lib.pictures.circuits import MagnetLoop
from lessons_lib.pictures.flux_lines import FluxLines, crossings
from lessons_lib.pictures.keeper import PotSection
from lessons_lib.pictures.rings import RingsFromAbove
from lessons_lib.pictures.rods import FieldArrows, RodAndProbe, RodOfShape
from lessons_lib.pictures.style import BLUE, GREEN, INK, NORTH, PURPLE, SOUTH, VERMILLION, new_figure


def flux_lines(step=1.0):
    return FluxLines(new_figure().add_subplot(), half_width=10e-3, bottom=-10e-3, top=5e-3, step=step)


def cone(height_of_peak=3.5):
    """A flux function that rises in a straight line to 4 mm and falls in one to 8 mm, the same at every height."""
    rho, z = np.linspace(0, 8e-3, 33), np.linspace(-10e-3, 5e-3, 16)
    row = height_of_peak * (1 - np.abs(rho - 4e-3) / 4e-3)
    return {"rho": rho, "z": z, "flux": np.tile(row, (16, 1)), "diameter": 4e-3, "length": 8e-3}


def places(lines, level):
    """Every |distance from the axis| of one contour."""
    return np.abs(lines.get_paths()[level].vertices[:, 0])


def drawn(picture, kind, **data):
    return [artist for artist in picture.update(**data) if isinstance(artist, kind)]


def words(artists):
    return [artist.get_text() for artist in artists if isinstance(artist, Text)]


def test_flux_lines_stand_at_equal_steps_on_both_sides():
    lines, = drawn(flux_lines(), ContourSet, **cone())
    assert list(lines.levels) == [1, 2, 3]
    # straight flanks: the line of 1 of 3.5 crosses at 4/3.5 mm and, falling, at 8 - 4/3.5 mm
    assert set(places(lines, 0).round(6)) == {round(4 / 3.5, 6), round(8 - 4 / 3.5, 6)}
    assert lines.get_paths()[0].vertices[:, 0].min() < 0 < lines.get_paths()[0].vertices[:, 0].max()


def test_twice_the_flux_gives_twice_the_lines():
    picture = flux_lines()
    few, many = (drawn(picture, ContourSet, **cone(peak))[0].levels for peak in (4.5, 9.0))
    assert (len(few), len(many)) == (4, 8)


def test_old_lines_and_old_shades_are_gone_after_an_update():
    picture = flux_lines()
    for peak in (2.5, 3.5, 4.5):
        picture.update(**cone(peak), shade=([0, 8e-3], cone()["z"], np.full((16, 2), 0.1)))
    assert len([child for child in picture.axes.get_children() if hasattr(child, "levels")]) == 2


@pytest.mark.parametrize("sign, letters, up", [(1, ["N", "S"], "inside"), (-1, ["S", "N"], "outside")])
def test_poles_have_letters_and_heads_point_along_the_flux(sign, letters, up):
    picture = flux_lines()
    artists = picture.update(**cone() | {"flux": sign * cone()["flux"]})
    upper, lower, _, rising, falling, edge, *_ = artists
    assert words(artists) == letters
    assert [to_hex(half.get_facecolor()).upper() for half in (upper, lower)] == [NORTH, SOUTH][::sign]
    inside = {"inside": rising, "outside": falling}[up]
    assert np.abs(inside.get_xdata()).max() < 4 < np.abs({"inside": falling, "outside": rising}[up].get_xdata()).min()
    assert edge.get_bbox().bounds == (-2, -8, 4, 8) and upper.get_bbox().bounds == (-2, -4, 4, 4)
    assert picture.axes.get_aspect() == 1


def leaky(face, middle):
    """A flux whose value at the wall (4 mm) rises in a straight line from *face* at the top to *middle* 4 mm lower."""
    data = cone(1.0)
    at_wall = face + (middle - face) * np.clip(-data["z"] / 4e-3, 0, 1)
    return data | {"diameter": 8e-3, "flux": data["flux"] * at_wall[:, np.newaxis]}


def test_lines_are_counted_where_they_leave():
    picture = flux_lines()
    artists = picture.update(**leaky(2.5, 6.5), face=2.5)
    assert words(artists) == ["N", "S", "2 by the face", "4 by the side"]
    exits = next(artist for artist in artists if isinstance(artist, Line2D) and artist.get_marker() == "o")
    right = np.array([place for place in exits.get_xydata() if place[0] > 0])
    # flux 1 and 2 of 2.5 through the face at 4 (1/2.5) and 4 (2/2.5) mm; 3 to 6 at the wall, a millimetre a unit
    assert right == pytest.approx(np.array([(1.6, 0), (3.2, 0), (4, -0.5), (4, -1.5), (4, -2.5), (4, -3.5)]), abs=1e-6)
    lines = next(artist for artist in artists if isinstance(artist, ContourSet))
    widths = lines.get_linewidths()
    assert len(widths) == 6 and widths[0] == widths[1] > widths[2] == widths[5]


def test_the_shade_is_darker_where_b_is_larger():
    picture = flux_lines()
    steps = np.tile([0.02, 0.02, 0.2, 0.2], (16, 1))
    shade = drawn(picture, ContourSet, **cone(), shade=([0, 4e-3, 4e-3, 8e-3], cone()["z"], steps))[0]
    dense = [colour[3] for colour in shade.get_facecolors()]
    assert dense == sorted(dense) and dense[0] > 0
    reach = {level: np.abs(path.vertices[:, 0]) for level, path in zip(shade.levels, shade.get_paths())
             if len(path.vertices)}
    assert reach[0.01].max() == pytest.approx(4) and reach[0.1].min() == pytest.approx(4)


def test_crossings_of_a_flux_that_still_rises_at_the_end_have_no_way_down():
    up, down = crossings([0, 1, 2], [0, 1.5, 3.5], 1.0)
    assert len(up) == 3 and len(down) == 0


@pytest.mark.parametrize("distance, scale", [(6e-3, 0.5), (60e-3, 0.05)])     # drawn mm a millimetre: 3 / distance
def test_the_rod_is_as_large_as_its_distance_makes_it(distance, scale):
    picture = RodAndProbe(new_figure().add_axes((0, 0, 1, 0.2)))
    north, south, *_ = picture.update(distance=distance, diameter=6e-3, length=18e-3)
    assert north.get_bbox().bounds == pytest.approx((-9 * scale, -3 * scale, 9 * scale, 6 * scale))
    assert south.get_bbox().bounds == pytest.approx((-18 * scale, -3 * scale, 9 * scale, 6 * scale))


def test_letters_without_room_are_left_out():
    picture = RodAndProbe(new_figure().add_axes((0, 0, 1, 0.2)))
    assert words(picture.update(distance=10e-3, diameter=5e-3, length=17e-3)) == ["N", "S", "z = 10 mm"]
    assert words(picture.update(distance=0.3, diameter=5e-3, length=17e-3)) == ["z = 300 mm"]
    assert words(picture.update(distance=0.3e-3, diameter=5e-3, length=17e-3)) == ["N", "z = 0.3 mm"]


def test_dots_inside_and_outside_of_the_disc_and_a_circle_for_each_ring():
    picture = RingsFromAbove(new_figure().add_subplot(), radius=8e-3, pole=5e-3, most=4, tube=25e-9)
    outside, inside, *rings = picture.update(edges=[0, 2e-3, 4e-3], dots=[[1e-3, 0, 5e-3], [0, 3e-3, 0]])
    assert inside.get_xydata().tolist() == [[1, 0], [0, 3]] and outside.get_xydata().tolist() == [[5, 0]]
    assert [ring.radius for ring in rings] == [2, 4] and picture.axes.get_aspect() == 1
    assert picture.axes.texts[0].get_text() == "each dot:\n25 nWb"


def test_arrows_begin_at_the_place_and_are_as_long_as_the_fields():
    picture = FieldArrows(new_figure().add_subplot(), half_width=6e-3, s_limits=(-10e-3, 10e-3), longest=1.0)
    artists = picture.update(at=2e-3, b=0.5, mu0_h=-0.2, diameter=5e-3, length=8e-3)
    b, h = (artist for artist in artists if isinstance(artist, FancyArrowPatch))
    (b_foot, b_tip), (h_foot, h_tip) = (arrow._posA_posB for arrow in (b, h))
    assert (b_foot[1], b_tip[1]) == pytest.approx((2, 7)) and (h_foot[1], h_tip[1]) == pytest.approx((2, 0))
    assert b_foot[0] == b_tip[0] == -h_foot[0] < 0
    assert artists[0].get_bbox().bounds == (-2.5, 0, 5, 4) and words(artists)[-2:] == ["B", "H"]


def test_boxes_of_the_loop_are_as_long_as_their_reluctances():
    picture = MagnetLoop(new_figure().add_subplot(xlim=(-30, 30), ylim=(-30, 10)))
    artists = picture.update(mmf=1000.0, own_reluctance=150e6, air_reluctance=50e6, circuit_flux=5e-6, field_flux=4e-6,
                             length=20e-3)
    own, air = (artist.get_bbox() for artist in artists if isinstance(artist, Rectangle))
    assert own.height == pytest.approx(3 * air.height) and own.width == pytest.approx(air.width)
    assert -20 < own.y0 < own.y1 < 0 and (air.y0 + air.y1) / 2 == pytest.approx(-10)
    said = " ".join(words(artists))
    for value in ("1000 A", "150.0 MA/Wb", " 50.0 MA/Wb", "5.00 µWb", "4.00 µWb"):
        assert value in said.replace("\n", " ")


def test_the_pot_is_drawn_to_scale_with_arrows_as_broad_as_the_flux():
    picture = PotSection(new_figure().add_subplot(), diameter=4e-3, length=10e-3, thickness=2e-3, half_width=15e-3,
                         top=20e-3, flux=9e-6)
    cup, lid, upper, *_ = artists = picture.update(gap=3e-3, pot_width=16e-3, rod=9e-6, through_gap=5e-6)
    assert upper.get_bbox().bounds == (-2, 5, 4, 5) and lid.get_bbox().bounds == pytest.approx((-10, 13, 20, 2))
    corners = cup.get_xy()
    assert set(np.abs(corners[:, 0]).round(9)) == {8, 10} and set(corners[:, 1].round(9)) == {13, -2, 0}
    assert picture.axes.get_aspect() == 1
    rod, across, left, right = (artist.get_xy() for artist in artists[5:] if isinstance(artist, Polygon))
    # nine tenths of the rod for the 9 uWb that the limit is; the leaks share the rest
    assert np.ptp(rod[[0, -2], 0]) == pytest.approx(3.6) and np.ptp(across[[0, -2], 0]) == pytest.approx(2.0)
    assert np.ptp(left[[0, -2], 1]) == np.ptp(right[[0, -2], 1]) == pytest.approx(0.8)
    assert across[:, 1].max() == pytest.approx(13) and right[:, 0].max() == pytest.approx(8)
    assert words(artists)[-1] == "5.00 µWb through the gap,\n4.00 µWb past it"


def test_a_rod_hangs_from_the_top_with_its_measures():
    picture = RodOfShape(new_figure().add_axes((0, 0, 0.2, 1)), longest=100e-3)
    upper, lower, *_, measures = picture.update(diameter=5e-3, length=40e-3)
    assert upper.get_bbox().bounds == (-2.5, -20, 5, 20) and lower.get_bbox().bounds == (-2.5, -40, 5, 20)
    assert measures.get_text() == "5 mm by\n40.0 mm"


def luminance(colour):
    """Relative luminance of WCAG 2.2, definition 'relative luminance'."""
    parts = np.array([int(colour[place:place + 2], 16) for place in (1, 3, 5)]) / 255
    return np.where(parts <= 0.04045, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4) @ [0.2126, 0.7152, 0.0722]


@pytest.mark.parametrize("colour", [BLUE, VERMILLION, GREEN, PURPLE, INK])
def test_colours_of_lines_stand_out_from_white(colour):
    # WCAG 2.2, success criterion 1.4.11: 3:1 for graphics
    assert 1.05 / (luminance(colour) + 0.05) >= 3


def test_pictures_do_not_bring_the_global_drawing_module():
    code = ("import sys, lessons_lib.pictures.flux_lines, lessons_lib.pictures.rods, lessons_lib.pictures.rings, "
            "lessons_lib.pictures.lines; "
            "print('matplotlib.pyplot' in sys.modules)")
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "False"
