"""Things are tested by the places of their edges, which a person can foresee: millimetres in the picture, metres in."""
import numpy as np
import pytest
from matplotlib.colors import to_hex

from lessons_lib.pictures import style
from lessons_lib.pictures.strings import StringAlong, StringEnd, WholeString
from lessons_lib.pictures.style import COPPER, GHOST, INK, NORTH, SOUTH, STEEL, new_figure
from lessons_lib.pictures.things import Bobbin, Coil, FluxArrow, Keeper, Magnet, Screw

ROLES = {value.upper() for value in vars(style).values() if isinstance(value, str) and value.startswith("#")}


def axes(x=(-40, 40), y=(-30, 10)):
    return new_figure(width=8, height=4).add_axes((0, 0, 1, 1), xlim=x, ylim=y)    # 7.2 points a millimetre


def colour(patch):
    return to_hex(patch.get_facecolor()).upper()


def bounds(patch):
    return pytest.approx(patch.get_bbox().bounds)


@pytest.mark.parametrize("remanence, colours, letters", [
    (0.75, (NORTH, SOUTH), ["N", "S"]), (-0.75, (SOUTH, NORTH), ["S", "N"]), (0.0, (style.BODY,) * 2, [])])
def test_a_magnet_has_two_halves_and_is_turned_over_by_a_negative_remanence(remanence, colours, letters):
    upper, lower, *words = Magnet(axes()).update(x=10e-3, top=2e-3, diameter=5e-3, length=16e-3, remanence=remanence)
    assert (7.5, -6, 5, 8) == bounds(upper) and (7.5, -14, 5, 8) == bounds(lower)
    assert (colour(upper), colour(lower)) == colours
    assert [word.get_text() for word in words] == letters
    if words:
        assert words[0].get_position()[1] > -6 > words[1].get_position()[1]


def test_letters_of_a_magnet_are_inside_its_halves_or_not_there():
    wide = Magnet(axes())
    for length in (3.2e-3, 6e-3, 17e-3):
        halves = wide.update(top=0.0, diameter=5e-3, length=length)
        for half, word in zip(halves[:2], halves[2:]):
            box, letter = half.get_window_extent(), word.get_window_extent()
            assert box.x0 < letter.x0 and letter.x1 < box.x1 and box.y0 < letter.y0 and letter.y1 < box.y1
    assert len(wide.update(top=0.0, diameter=1e-3, length=17e-3)) == 2


def test_a_screw_reaches_from_its_top_to_its_length_and_is_slotted():
    shank, thread, head, slot = Screw(axes()).update(x=-5e-3, top=1e-3, diameter=5e-3, length=17e-3)
    corners = head.get_xy()
    assert corners.max(axis=0) == pytest.approx([-2.5, 1]) and corners.min(axis=0) == pytest.approx([-7.5, -1])
    assert shank.get_bbox().bounds[1] == pytest.approx(-16) and shank.get_bbox().y1 == pytest.approx(-1)
    assert shank.get_bbox().width < 5 and shank.get_bbox().intervalx.mean() == pytest.approx(-5)
    assert np.nanmin(thread.get_ydata()) > -16.3 and np.nanmax(thread.get_ydata()) < -0.7
    assert list(slot.get_xdata()) == [-5, -5] and max(slot.get_ydata()) == 1
    assert colour(head) == colour(shank) == STEEL


def test_a_coil_has_two_windows_with_its_wires_inside():
    left, right, wires = Coil(axes()).update(x=1e-3, inner_radius=3e-3, outer_radius=6e-3, bottom=-14e-3, top=-2e-3)
    assert (-5, -14, 3, 12) == bounds(left) and (4, -14, 3, 12) == bounds(right) and colour(left) == COPPER
    x, y = np.abs(np.array(wires.get_xdata()) - 1), np.array(wires.get_ydata())
    assert x.min() > 3 and x.max() < 6 and y.min() > -14 and y.max() < -2 and x.size == 2 * 6 * 2
    *_, none = Coil(axes()).update(inner_radius=3e-3, outer_radius=6e-3, bottom=0, top=1e-3, rows=0)
    assert len(none.get_xdata()) == 0


def test_flanges_and_keepers_are_where_they_are_put():
    flanges = Bobbin(axes()).update(inner_radius=3e-3, outer_radius=6e-3, bottom=-14e-3, top=-2e-3, thickness=2e-3)
    assert [flange.get_bbox().bounds for flange in flanges] == [
        pytest.approx(place) for place in ((-6, -2, 3, 2), (3, -2, 3, 2), (-6, -16, 3, 2), (3, -16, 3, 2))]
    plate, = Keeper(axes()).update(bottom=1e-3, width=20e-3, thickness=3e-3)
    assert (-10, 1, 20, 3) == bounds(plate) and colour(plate) == STEEL


@pytest.mark.parametrize("width, tip", [(2e-3, 8.0), (-2e-3, 0.0)])
def test_an_arrow_of_flux_is_as_wide_as_the_flux_and_turns_with_its_sign(width, tip):
    arrow, = FluxArrow(axes()).update(start=(1e-3, 0.0), end=(1e-3, 8e-3), width=width)
    corners = arrow.get_xy()[:-1]
    assert corners[3] == pytest.approx([1, tip])
    assert abs(corners[0] - corners[-1]) == pytest.approx([2, 0])
    assert FluxArrow(axes()).update(start=(0, 0), end=(0, 1e-3), width=0.0) == []


# ------------------------------------------------------------------ strings

def test_a_string_along_is_true_to_scale_but_never_too_thin_to_be_seen():
    string = StringAlong(axes())
    edge, steel, wraps = string.update(x=[-10e-3, 10e-3], height=3e-3, diameter=1e-3)
    assert edge.get_linewidth() == pytest.approx(7.2) and steel.get_linewidth() < 7.2
    assert list(edge.get_xdata()) == [-10, 10] and list(edge.get_ydata()) == [3, 3] and len(wraps.get_xdata()) == 0
    assert (edge.get_color(), steel.get_color()) == (INK, STEEL)
    assert string.update(x=[-10e-3, 10e-3], height=[0, 1e-3], diameter=0.1e-3)[0].get_linewidth() == 2.0


def test_a_wound_string_has_its_wraps_across_it():
    edge, _, wraps = StringAlong(axes()).update(x=[-10e-3, 10e-3], height=3e-3, diameter=1e-3, wound=True)
    x, y = wraps.get_xdata(), wraps.get_ydata()
    assert np.nanmin(y) > 2.5 and np.nanmax(y) < 3.5 and np.nanmin(x) > -10 and np.nanmax(x) < 10
    assert np.isnan(x).sum() > 10


def test_a_string_end_on_has_a_ring_where_it_is_wound():
    string = StringEnd(axes())
    disc, = string.update(x=1e-3, height=3e-3, diameter=0.4e-3)
    assert disc.get_center() == pytest.approx((1, 3)) and disc.get_radius() == pytest.approx(0.2)
    wrap, core = string.update(height=3e-3, diameter=1e-3, core=0.4e-3)
    assert (wrap.get_radius(), core.get_radius()) == pytest.approx((0.5, 0.2))
    assert string.update(height=0, diameter=0.1e-3)[0].get_radius() == pytest.approx(0.15)      # seen all the same


def whole(**more):
    return WholeString(axes((-20, 650), (-1, 1))).update(length=600e-3, **more)


def test_a_whole_string_has_its_parts_in_their_places():
    artists = whole(frets=[300e-3, 400e-3], pickup=150e-3, pluck=100e-3, finger=400e-3,
                    shape=([0, 100e-3, 400e-3], [0, 1, 0]), before=([0, 600e-3], [0, 0]))
    *_, pole, frets, before, edge, steel, finger, plectrum = artists
    assert pole.get_bbox().intervalx.mean() == pytest.approx(150)
    assert np.array(frets.get_xdata())[::3] == pytest.approx([300, 400])
    assert list(edge.get_xdata()) == [0, 100, 400, 600] and list(steel.get_ydata()) == [0, 0.4, 0, 0]
    assert before.get_color() == GHOST
    assert finger.get_xdata()[0] > 400 and plectrum.get_xdata()[0] == 100 and plectrum.get_ydata()[0] > 0.4


def test_a_whole_string_alone_is_straight_and_leaves_out_what_is_not_given():
    few, many = whole(), whole(pickup=0.1, pluck=0.1, finger=0.3, before=([0, 0.6], [0, 0]))
    assert list(few[-1].get_xdata()) == [0, 600] and list(few[-1].get_ydata()) == [0, 0]
    assert len(many) == len(few) + 3 + 1 + 1 + 1


# ------------------------------------------------------------------ all

EVERY = {
    "magnet": lambda ax, **more: Magnet(ax, **more).update(top=0, diameter=5e-3, length=17e-3),
    "screw": lambda ax, **more: Screw(ax, **more).update(top=0, diameter=5e-3, length=17e-3),
    "coil": lambda ax, **more: Coil(ax, **more).update(inner_radius=3e-3, outer_radius=6e-3, bottom=-9e-3, top=0),
    "bobbin": lambda ax, **more: Bobbin(ax, **more).update(inner_radius=3e-3, outer_radius=6e-3, bottom=-9e-3, top=0),
    "keeper": lambda ax, **more: Keeper(ax, **more).update(bottom=0, width=9e-3, thickness=1e-3),
    "arrow": lambda ax, **more: FluxArrow(ax, **more).update(start=(0, 0), end=(0, 5e-3), width=1e-3),
    "string": lambda ax, **more: StringAlong(ax, **more).update(x=[-9e-3, 9e-3], height=0, diameter=1e-3, wound=True),
    "end": lambda ax, **more: StringEnd(ax, **more).update(height=0, diameter=1e-3, core=4e-4),
    "whole": lambda ax, **more: WholeString(ax, **more).update(length=0.03, pickup=0.01, pluck=0.01, finger=0.02,
                                                               frets=[0.02], before=([0, 0.03], [0, 0])),
}


@pytest.mark.parametrize("name", EVERY)
def test_a_thing_moves_unless_it_is_to_stay_and_has_only_colours_of_roles(name):
    for moves in (True, False):
        artists = EVERY[name](axes(), moves=moves)
        assert artists and {artist.get_animated() for artist in artists} == {moves}
        for artist in artists:
            for what in ("get_facecolor", "get_edgecolor", "get_color", "get_markerfacecolor", "get_markeredgecolor"):
                found = getattr(artist, what, lambda: "none")()
                if isinstance(found, str) and found in ("none", "auto"):
                    continue
                assert to_hex(found).upper() in ROLES, (artist, what, found)


@pytest.mark.parametrize("name", EVERY)
def test_a_thing_is_the_same_in_axes_of_another_unit(name):
    big = EVERY[name](axes())
    small = EVERY[name](axes((-0.04, 0.04), (-0.03, 0.01)), unit="m")
    for one, other in zip(big, small):
        if hasattr(one, "get_xdata") and name != "whole":
            assert np.asarray(one.get_xdata()) == pytest.approx(1e3 * np.asarray(other.get_xdata()), nan_ok=True)
        elif hasattr(one, "get_bbox"):
            assert one.get_bbox().x1 == pytest.approx(1e3 * other.get_bbox().x1)
