"""The panel of the release, lesson 5: slopes, corners, wedge and pulse by statics and by sums of partials."""
import math

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.integrate import quad

from lessons_lib.lessons.lesson_05 import panels as lesson_05
from lessons_lib.lessons.lesson_05.let_go import BEFORE, FORCES, LAST, let_go, let_go_instant, scales
from lessons_lib.lessons.lesson_05.model import flexible
from shown import alt

VI = flexible("VI")
C = 2 * 0.600 * 87.3        # m/s: the fundamental is half a wave
PLACES = [(0.1, 0.15), (0.02, 0.18), (0.18, 0.02), (0.05, 0.05), (0.06, 0.15)]


def at(time, force=1.0, pluck_place=0.1, pickup_place=0.15):
    return {"time": time, "force": force, "pluck_place": pluck_place, "pickup_place": pickup_place}


def instant(*args, **values):
    settings = at(*args, **values)
    return let_go_instant(let_go(**settings), **settings)


@pytest.mark.parametrize("x0, x", PLACES)
def test_two_pieces_under_tension_hold_the_force(x0, x):
    near, far = let_go(**at(-1e-4, force=0.7, pluck_place=x0, pickup_place=x)).slopes
    assert VI.tension * (near - far) == pytest.approx(0.7)      # statics at the corner, small slopes
    assert near * x0 + far * (0.6 - x0) == pytest.approx(0)     # both pieces end at height 0
    assert VI.pluck(force=0.7, place=x0).release_displacement == pytest.approx(near * x0, rel=1e-3)


@pytest.mark.parametrize("x0, x", PLACES)
def test_the_pulse_begins_and_ends_when_a_corner_comes(x0, x):
    first, second = abs(x - x0) / C, (x + x0) / C
    moving = [second - 1e-5] if x0 == x else [first + 1e-5, (first + second) / 2, second - 1e-5]
    for time in moving:
        assert let_go(**at(time, pluck_place=x0, pickup_place=x)).velocity == pytest.approx(-1 / (2 * VI.impedance))
    for time in (BEFORE, first - 1e-5, second + 1e-5):
        assert let_go(**at(time, pluck_place=x0, pickup_place=x)).velocity == 0
    assert let_go(**at(0.0, pluck_place=x0, pickup_place=x)).pulse == pytest.approx(second - first)
    # the page: 2 min(p, q) of the time, two pulses of this length a period
    assert 2 * (second - first) * 87.3 == pytest.approx(2 * min(x0, x) / 0.6)


def test_where_the_pickup_is_at_the_plectrum_it_moves_from_the_start():
    now = let_go(**at(2e-4, pluck_place=0.05, pickup_place=0.05))
    assert now.velocity == pytest.approx(-now.speed) and now.run == pytest.approx(C * 2e-4)


@pytest.mark.parametrize("time", [0.6e-3, 1e-3, 2e-3])
def test_the_wedge_is_as_high_as_half_the_jump_times_the_run(time):
    seen, now = instant(time), let_go(**at(time))
    assert now.run == pytest.approx(C * time - 0.05)
    assert now.moved == pytest.approx(-now.jump / 2 * now.run) == pytest.approx(np.diff(seen["drop"][1])[0])
    (near, corner), old = seen["old"]
    assert (near, corner) == pytest.approx((0.15, 0.1 + C * time))
    assert old[1] == pytest.approx(seen["new"][1][1])       # it begins at the corner
    # a straight line on both sides: the string as it was and as it is, in between, by 4000 partials
    n = np.arange(1, 4001)[:, np.newaxis]
    places = np.linspace(near, corner, 7)
    size = 2 * 0.6 / (n ** 2 * np.pi ** 2 * VI.tension) * np.sin(n * np.pi / 6) * np.sin(n * np.pi * places / 0.6)
    for curve, turned in (("old", np.ones_like(n)), ("new", np.cos(2 * np.pi * 87.3 * n * time))):
        assert_allclose((size * turned).sum(0), np.interp(places, *seen[curve]), atol=2e-6)


def test_no_wedge_before_the_corner_has_come_after_the_pulse_and_where_it_has_been_turned_back():
    for values in (at(-1e-4), at(0.3e-3), at(2.6e-3), at(1.5e-3, pluck_place=0.15, pickup_place=0.06)):
        assert math.isnan(let_go(**values).run) and "drop" not in let_go_instant(let_go(**values), **values)
    assert let_go(**at(1.5e-3, pluck_place=0.15, pickup_place=0.06)).velocity < 0       # it still moves


def test_held_there_is_one_corner_and_let_go_there_are_two_with_the_mean_slope_between():
    held, parted, back = instant(-1e-4), instant(0.5e-3), instant(1.5e-3)
    assert held["corner"][0] == pytest.approx(0.1) and "to_nut" not in held
    assert (parted["to_bridge"][0], parted["to_nut"][0]) == (pytest.approx([0.1 - C * 0.5e-3]),
                                                             pytest.approx([0.1 + C * 0.5e-3]))
    near, middle, far = (slope for *_, slope in parted["slopes"][:1] + instant(0.8e-3)["slopes"][-2:])
    assert middle == pytest.approx((instant(-1e-4)["slopes"][0][2] + far) / 2) and far < 0
    assert back["to_bridge"][0].size == 0 and back["to_nut"][0] == pytest.approx([C * 1.5e-3 - 0.1, 0.1 + C * 1.5e-3])


def test_the_graph_of_the_velocity_goes_as_far_as_now():
    for time in (BEFORE, 0.0, 0.3e-3, 1e-3, LAST):
        seen = instant(time)
        assert seen["velocity"][0][[0, -1]] == pytest.approx([BEFORE, time])
    assert set(np.round(seen["velocity"][1], 3)) == {0.0, -0.66}


def test_axes_hold_every_setting():
    farthest, fastest = scales()
    for force in FORCES:
        for x0 in (0.02, 0.18):
            for x in (0.02, 0.18):
                for time in np.linspace(BEFORE, LAST, 9):
                    seen = instant(time, force=force, pluck_place=x0, pickup_place=x)
                    assert -0.55 * farthest < seen["string"][1].min() and seen["string"][1].max() <= 1.001 * farthest
                    assert abs(seen["velocity"][1]).max() <= 1.001 * fastest


def test_the_series_of_the_triangle_is_that_of_any_table():
    """The page's amplitude, 2h/(n^2 pi^2 p (1 - p)) sin(n pi p), against the integral that defines it."""
    for p in (1 / 6, 0.3, 0.5):
        for n in (1, 2, 5):
            def sine(x, n=n, p=p):
                return min(x / p, (1 - x) / (1 - p)) * math.sin(n * math.pi * x)
            integral = 2 * (quad(sine, 0, p)[0] + quad(sine, p, 1)[0])
            assert 2 / (n ** 2 * math.pi ** 2 * p * (1 - p)) * math.sin(n * math.pi * p) == pytest.approx(integral)


# ------------------------------------------------------------------ the panel

def test_words_say_where_the_string_is_at_rest_and_where_it_moves():
    panel = lesson_05.released()
    assert "It is at rest." in alt(panel) and "slopes +10.5 mm per m, −2.1 mm per m, a jump of 12.6" in alt(panel)
    panel.asked(time=1.5)
    assert "moves at −0.660 m/s" in alt(panel) and "the corner 107 mm on" in alt(panel)
    panel.asked(time=0.3)
    assert "No corner has reached the pickup yet" in alt(panel)


def test_a_film_is_light_and_ends_at_the_end_of_the_time_axis():
    panel = lesson_05.released()
    assert panel.view
    film = panel._of_these(panel._film).described(panel._drawing)
    assert len(film["frames"]) == 48 and sum(len(piece) for slot in film["slots"] for piece in slot) < 100_000


def test_plectrum_and_pickup_are_taken_hold_of_where_they_are():
    panel = lesson_05.released()
    assert panel.view
    hand, pickup = panel.board.frame["grips"]
    assert (hand["along_x"]["name"], pickup["along_x"]["name"]) == ("pluck_place", "pickup_place")
    wide = 0.88 * 8 * 72 / 600      # points a mm
    assert pickup["x"] - hand["x"] == pytest.approx(50 * wide, abs=0.2)
    panel.asked(time=1)
    lower, = (grip["y"] for grip in panel.board.frame["grips"][:1])
    panel.asked(force=0.4)
    assert panel.board.frame["grips"][0]["y"] > lower == hand["y"]      # at the held corner, points from the top
