"""Pictures are tested with straight lines: arrays whose picture a person can foresee."""
import subprocess
import sys

import numpy as np
import pytest

from lessons_lib.pictures.along_axis import AlongAxis
from lessons_lib.pictures.flux_lines import FluxLines, crossings
from lessons_lib.pictures.power_laws import FallingCurve
from lessons_lib.pictures.rings import RingsUnderProfile, RunningSum
from lessons_lib.pictures.style import BLACK, BLUE, GREEN, PURPLE, VERMILLION, new_figure


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


def test_flux_lines_stand_at_equal_steps_on_both_sides():
    picture = flux_lines()
    _, lines, *_ = picture.update(**cone())
    assert list(lines.levels) == [1, 2, 3]
    # straight flanks: the line of 1 of 3.5 crosses at 4/3.5 mm and, falling, at 8 - 4/3.5 mm
    assert set(places(lines, 0).round(6)) == {round(4 / 3.5, 6), round(8 - 4 / 3.5, 6)}
    assert lines.get_paths()[0].vertices[:, 0].min() < 0 < lines.get_paths()[0].vertices[:, 0].max()


def test_twice_the_flux_gives_twice_the_lines():
    picture = flux_lines()
    few = picture.update(**cone(4.5))[1].levels
    many = picture.update(**cone(9.0))[1].levels
    assert (len(few), len(many)) == (4, 8)


def test_old_lines_are_gone_after_an_update():
    picture = flux_lines()
    for peak in (2.5, 3.5, 4.5):
        picture.update(**cone(peak))
    assert len([child for child in picture.axes.get_children() if hasattr(child, "levels")]) == 1


@pytest.mark.parametrize("sign, words, up", [(1, ("north", "south"), "inside"), (-1, ("south", "north"), "outside")])
def test_poles_are_named_in_words_and_heads_point_along_the_flux(sign, words, up):
    picture = flux_lines()
    data = cone() | {"flux": sign * cone()["flux"]}
    *_, rising, falling, edge, upper, lower = picture.update(**data)
    assert (upper.get_text(), lower.get_text()) == words
    inside = {"inside": rising, "outside": falling}[up]
    assert np.abs(inside.get_xdata()).max() < 4 < np.abs({"inside": falling, "outside": rising}[up].get_xdata()).min()
    assert edge.get_bbox().bounds == (-2, -8, 4, 8)
    assert picture.axes.get_aspect() == 1


def test_crossings_of_a_flux_that_still_rises_at_the_end_have_no_way_down():
    up, down = crossings([0, 1, 2], [0, 1.5, 3.5], 1.0)
    assert len(up) == 3 and len(down) == 0


def test_falling_curve_marks_point_slope_and_powers():
    picture = FallingCurve(new_figure().add_subplot(), x_label="z (mm)", y_label="B (mT)", x_limits=(0.1, 100),
                           y_limits=(1e-3, 1e3))
    x = np.geomspace(0.1, 100, 50)
    first, second, third, *_, curve, triangle, slope, point = picture.update(x=x, y=10 * x ** -2.0, at=1.0, value=10.0,
                                                                             slope=-2.0)
    assert list(point.get_xdata()) == [1.0] and list(point.get_ydata()) == [10.0]
    assert "−2.00" in slope.get_text()
    for power, guide in ((1, first), (2, second), (3, third)):
        assert guide.get_ydata() == pytest.approx(10 * guide.get_xdata() ** -float(power))
    # the slanted side of the triangle lies on a curve of that slope
    assert triangle.get_ydata()[2] == pytest.approx(10 * triangle.get_xdata()[2] ** -2)
    assert list(curve.get_ydata()) == list(10 * x ** -2.0)


@pytest.mark.parametrize("at", [0.3, 1, 20, 50])
def test_the_triangle_stays_within_the_frame(at):
    picture = FallingCurve(new_figure().add_subplot(), x_label="", y_label="", x_limits=(0.3, 50), y_limits=(1e-3, 1e3))
    triangle = picture.update(x=[0.3, 50], y=[100, 1], at=at, value=1.0, slope=-1.0)[-3]
    assert 0.3 / 2 < min(triangle.get_xdata()) and max(triangle.get_xdata()) <= 50


def test_rings_stand_under_the_profile():
    picture = RingsUnderProfile(new_figure().add_subplot(), radius=8e-3, flux_density=0.2)
    rings, profile = picture.update(radius=[0, 8e-3], flux_density=[0.1, 0.1], edges=[0, 2e-3, 4e-3],
                                    ring_values=[0.1, 0.05])
    boxes = [path.get_extents().bounds for path in rings.get_paths()]
    assert boxes == [(0, 0, 2, 100), (2, 0, 2, 50)]
    assert list(profile.get_ydata()) == [100, 100]


def test_running_sum_puts_each_sum_at_the_outer_edge_of_its_ring():
    picture = RunningSum(new_figure().add_subplot(), radius=8e-3, flux=4e-6)
    exact, sums, *_ = picture.update(radius=[0, 8e-3], flux=[0, 4e-6], edges=[0, 4e-3, 8e-3], sums=[2e-6, 4e-6])
    assert list(sums.get_xdata()) == [4, 8]
    assert sums.get_ydata() == pytest.approx([2, 4])
    assert exact.get_ydata() == pytest.approx([0, 4])


def test_dots_lie_on_b_and_h_and_the_rod_is_the_band():
    figure = new_figure()
    picture = AlongAxis(*figure.subplots(2), s_limits=(-10e-3, 10e-3), b_limits=(0, 1), h_limits=(-1, 1))
    artists = picture.update(place=[-10e-3, 10e-3], b=[0.0, 1.0], j=[np.nan, np.nan], mu0_h=[1.0, -1.0], at=5e-3,
                             length=8e-3)
    b_dot, h_dot = artists[-2:]
    assert b_dot.get_ydata()[0] == pytest.approx(0.75) and h_dot.get_ydata()[0] == pytest.approx(-0.5)
    assert artists[0].get_bbox().bounds == (-4, 0, 8, 1)


def luminance(colour):
    """Relative luminance of WCAG 2.2, definition 'relative luminance'."""
    parts = np.array([int(colour[place:place + 2], 16) for place in (1, 3, 5)]) / 255
    return np.where(parts <= 0.04045, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4) @ [0.2126, 0.7152, 0.0722]


@pytest.mark.parametrize("colour", [BLUE, VERMILLION, GREEN, PURPLE, BLACK])
def test_colours_of_lines_stand_out_from_white(colour):
    # WCAG 2.2, success criterion 1.4.11: 3:1 for graphics
    assert 1.05 / (luminance(colour) + 0.05) >= 3


def test_pictures_do_not_bring_the_global_drawing_module():
    code = ("import sys, lessons_lib.pictures.flux_lines, lessons_lib.pictures.power_laws, "
            "lessons_lib.pictures.rings, lessons_lib.pictures.along_axis; print('matplotlib.pyplot' in sys.modules)")
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "False"
