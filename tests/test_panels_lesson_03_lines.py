"""Lines of lesson 3 in space: the string's field, conservation of flux, ends of lines, and the films made of them."""
import itertools

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.integrate import trapezoid

from lesson_03_pole import PICKUP, ROD, STRING, WIRE
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03 import panels
from lessons_lib.lessons.lesson_03.lines import MOST_LINES, pictures, tube_for
from lessons_lib.lessons.lesson_03.model import SWING, gains_of_a_swing, magnetised, three_fluxes
from lessons_lib.lessons.string_lines import FRAME, StringInSpace, field_of, lines_through, trace
from lessons_lib.physics.steel import STRING_PLACES
from lessons_lib.physics.string_answer import string_field


def string_at(height, place=0.0, **steel):
    inside = magnetised(height=height, place=place, instrument=house_instrument,
                        **{name: value for name, value in (STRING | steel).items() if name != "place"})
    return StringInSpace(inside, height=height, place=place), inside


EXTREMES = list(itertools.product((1.5e-3, 6e-3), (0.0, 3e-3, 8e-3), (0.2e-3, 1e-3), (20.0, 1000.0), (0, 1)))


def test_the_strings_field_is_that_of_its_magnetisation():
    string, inside = string_at(2.5e-3, place=3e-3)
    points = np.array([[0.5e-3, 3e-3, 4e-3], [4e-3, 5e-3, 4e-3], [9e-3, 2e-3, 1e-3], [3e-3, 4e-3, 0.8e-3]])
    expected = string_field(inside, points, height=2.5e-3, y=3e-3)
    # the part across as long cylinders: a tenth of it is off some millimetres away
    assert_allclose(string.flux_density(*points.T).T, expected, atol=0.06 * np.abs(expected).max())


@pytest.mark.parametrize("place", (0.0, 3e-3))
def test_what_comes_out_of_the_steel_is_what_the_flux_along_it_loses(place):
    """No flux is made or lost (Gauss): through a tube just round the wire, between two places."""
    string, inside = string_at(2.5e-3, place=place)
    x, angle = np.linspace(5e-3, 9e-3, 81), np.linspace(0, 2 * np.pi, 73)[:-1]
    x_, angle_ = (one.ravel() for one in np.meshgrid(x, angle))
    radius, out = 0.25e-3, np.array([np.cos(angle_), np.sin(angle_)])
    place_ = x_, place + radius * out[0], 2.5e-3 + radius * out[1]
    field = string.flux_density(*place_) + field_of(ROD, *place_)
    outward = (field[1:] * out).sum(0).reshape(angle.size, x.size).mean(0) * 2 * np.pi * radius
    lost = -np.diff(np.interp(x[[0, -1]], STRING_PLACES, inside.flux()))[0]
    assert trapezoid(outward, x) == pytest.approx(lost, rel=0.05)


def test_lines_without_string_are_contours_of_the_flux_function():
    seeds = np.array([1.0e-3, 2.0e-3])
    lines = trace(ROD, np.stack([seeds, 0 * seeds, np.full(2, 0.8e-3)]), np.ones(2))
    for line in np.moveaxis(lines, 1, 0):
        x, _, z = line[:, ~np.isnan(line[0])]
        flux = ROD.flux_function(x, z)
        assert_allclose(flux, flux[0], rtol=0.02)


def test_the_rods_field_is_looked_up_to_two_per_cent():
    points = np.array([[0.3e-3, 1e-3, 1.1e-3], [3e-3, -1e-3, 2e-3], [7e-3, 4e-3, 5e-3]])
    assert_allclose(field_of(ROD, *points.T).T, ROD.flux_density(points), rtol=0.02, atol=3e-4)


@pytest.mark.parametrize("height, place, core, permeability, saturates", EXTREMES)
def test_lines_begin_in_the_rod_and_end_outside_of_the_frame(height, place, core, permeability, saturates):
    """With as many of them as there is flux, at every end of every slider."""
    steel = {"core": core, "permeability": permeability, "saturates": saturates}
    string, inside = string_at(height, place, **steel)
    tube = tube_for(**steel)
    to_steel, in_steel, away, to_middle = lines_through(ROD, string, tube)
    for line in np.moveaxis(np.concatenate([to_steel, to_middle], axis=1), 1, 0):
        x, y, z = line[:, np.flatnonzero(~np.isnan(line[0]))[-1]]
        assert z < FRAME["bottom"] and np.hypot(x, y) < ROD.diameter / 2
    for line in np.moveaxis(away, 1, 0):
        x, y, z = line[:, np.flatnonzero(~np.isnan(line[0]))[-1]]
        assert x > FRAME["half_width"] or not FRAME["bottom"] < z < FRAME["top"] or y > 15e-3
    largest = np.abs(inside.flux()[np.abs(STRING_PLACES) < 13e-3]).max()
    assert abs(to_steel.shape[1] - largest / tube) <= 0.5 + 1e-9 and to_steel.shape[1] <= MOST_LINES + 1
    assert in_steel.shape[1] == to_steel.shape[1]


def test_one_steel_has_one_step_from_line_to_line():
    """Nearer is more lines: 287 nWb at 1.5 mm, 93 at 6 mm, in steps of 25."""
    tube = tube_for(core=0.46e-3, permeability=100.0, saturates=1)
    counts = [lines_through(ROD, string_at(height)[0], tube)[0].shape[1] for height in (1.5e-3, 2.5e-3, 4e-3, 6e-3)]
    assert tube == 25e-9 and counts == [11, 9, 6, 4]


def test_the_pictures_flux_is_that_of_the_string():
    data, = pictures(height=2.5e-3, **STRING)
    x, z = data["views"]["lines"]
    assert_allclose(x[:len(x) // 2], -x[len(x) // 2:])
    places, flux = data["along"]
    assert_allclose(flux, -flux[::-1], atol=1e-12)
    fluxes = three_fluxes(height=2.5e-3, **STRING)
    assert flux.max() == pytest.approx(fluxes.string, rel=5e-3)     # which is the largest at a node
    assert data["now"] == (0.0, pytest.approx(fluxes.added_in_turn))


@pytest.mark.parametrize("height, place", [(1.5e-3, 0.0), (2.5e-3, 3e-3)])
def test_the_gain_within_a_swing_is_that_of_the_pickup(height, place):
    gains = gains_of_a_swing(height=height, **STRING | {"place": place})
    for share in (-0.6, 0.4):
        exact = PICKUP.flux_linkage(WIRE, height=height + share * SWING, y=place) / 7600
        assert gains(share) == pytest.approx(exact, rel=2e-3)


def test_the_film_is_a_closed_loop_of_thirteen_heights():
    frames = pictures(height=2.5e-3, shares=np.arange(24) / 24, **STRING)
    heights = [frame["views"]["height"] for frame in frames]
    assert len(set(heights)) == 13
    assert (min(heights), max(heights)) == pytest.approx((2e-3, 3e-3)) and heights[0] == 2.5e-3
    assert heights[-1] - heights[0] == pytest.approx(heights[0] - heights[1], abs=1e-9)
    assert [frame["now"][1] for frame in frames] == pytest.approx(
        [float(np.interp(frame["now"][0], *frame["swing"])) for frame in frames], rel=2e-3)


@pytest.mark.parametrize("make, away", [(panels.string_in_field, {}), (panels.string_in_field, {
    "core": 1e-3, "permeability": 1000.0, "saturates": 0}), (panels.pull_and_detuning, {"place": 0.5})])
def test_films_can_be_sent(make, away):
    panel = make()
    values = {name: spec.in_si(spec.start) for name, spec in panel.specs.items()} | away
    film = panel._film(panel._compute(**values), **values).described(panel._drawing)
    assert 24 <= len(film["frames"]) <= 48 and sum(len(one) for slot in film["slots"] for one in slot) < 150_000
