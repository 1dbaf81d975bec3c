"""The functions under the panels of lesson 7 against direct computation and closed forms; pictures and panels."""
import math

import numpy as np
import pytest
from matplotlib.lines import Line2D
from matplotlib.text import Text
from numpy.testing import assert_allclose

from lessons_lib.base.workshop import house_strings
from lessons_lib.lessons.lesson_07 import panels as lesson_07
from lessons_lib.lessons.lesson_07.model import (
    ARRANGEMENTS,
    HIGHEST,
    LEVEL,
    LOWEST,
    MAP_Y,
    MAP_Z,
    PLACES,
    arranged,
    bent_levels,
    bent_sensitivity,
    pickup,
    raised,
    raised_map,
    string_levels,
)
from lessons_lib.lessons.lesson_07.pair import ASIDE, WIRINGS, hum_pair, pair, what_it_costs
from lessons_lib.physics.hum import hum_voltages
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.six_strings import first_pulses, workshop_row
from lessons_lib.physics.winding import LongCoil
from lessons_lib.pictures.coil_pair import PERIODS, PairOfCoils
from lessons_lib.pictures.six_strings import BentSideways, FieldOverSix, LevelsOfSix, RowOfPoles
from lessons_lib.pictures.style import new_figure, to_scale
from shown import alt, readouts

# ------------------------------------------------------------------ levels

def test_levels_are_those_of_the_pickup_with_its_poles_there():
    one = string_levels(kind="rods", third="III wound", V=0.5e-3, I=-1e-3)
    assert one.tops == (0.0, 0.5e-3, 0.0, 0.0, 0.0, -1e-3)
    moved = pickup("rods", one.tops)
    assert [pole.top for pole in moved.poles] == pytest.approx(one.tops)
    row = workshop_row(third="III wound")
    assert_allclose(one.pulses, first_pulses(moved, row))
    assert row[3].steel.diameter == house_strings["III wound"]["core"]
    assert_allclose(one.levels, 20 * np.log10(one.pulses / first_pulses(pickup("rods"), row)[0]))


def test_a_string_whose_pole_goes_down_falls_and_the_others_stay():
    """The reference is string VI over flush poles: a millimetre down takes some decibels from VI, and from no other."""
    flush, lower = (string_levels(kind="rods", VI=top).levels for top in (0.0, -1e-3))
    assert flush[0] == 0 and lower[0] < -1.5 and np.abs(lower[1:] - flush[1:]).max() < 0.15


def test_screws_stand_on_the_bar_and_short_ones_have_room_below():
    assert [pickup(kind).poles[0].length for kind in ("screws", "short screws")] == [17e-3, 14e-3]
    with pytest.raises(ValueError, match="same place"):
        pickup("screws", (-1e-4,) + LEVEL[1:])
    assert pickup("short screws", (LOWEST,) * 6) and pickup("short screws", (HIGHEST,) * 6)


# ------------------------------------------------------------------ one pole raised

def test_raised_reads_the_pickups_own_field():
    one = raised(kind="screws", number=4, raised=0.8e-3, look=3e-3)
    at = [[0.0, PLACES[4], 3e-3], [0.0, PLACES[4] - 5.1e-3, 3e-3]]
    assert_allclose([one.over_pole[0], one.half_way], pickup("screws").flux_density(at)[:, 2])
    assert_allclose(one.over_pole[1], pickup("screws", (0, 0, 0, 0, 0.8e-3, 0)).flux_density(at)[0, 2])
    assert one.next_string == 5 and one.far in one.changes[:3]
    data = raised_map(kind="screws", number=4, raised=0.8e-3, look=3e-3)
    row, column = 4, 17
    direct = pickup("screws", (0, 0, 0, 0, 0.8e-3, 0)).flux_density([0.0, MAP_Y[column], MAP_Z[row]])
    assert data["size"][row, column] == pytest.approx(np.linalg.norm(direct))
    assert data["steel"] and data["poles"][4][2] == 0.8e-3
    place, before, now = data["over"]
    assert (place, before) == (PLACES[4], 1.0) and now == pytest.approx(one.over_pole[1] / one.over_pole[0])


def test_a_pole_that_is_not_raised_changes_nothing():
    one = raised(kind="rods", number=0, raised=0.0, look=2.5e-3)
    assert (one.changes == 0).all() and one.over_pole[0] == one.over_pole[1]


# ------------------------------------------------------------------ bent sideways

@pytest.mark.parametrize("name", ARRANGEMENTS)
def test_the_spline_gives_the_pickups_own_sensitivity(name):
    string = workshop_row()[2]
    direct = arranged(name).sensitivity(string.steel, height=2.7e-3, y=string.y + 3.3e-3)
    assert bent_sensitivity(name, 2.7e-3, 3.3e-3) == pytest.approx(direct, rel=2e-3)


def test_unbent_is_the_reference_and_the_dip_is_the_lowest():
    one = bent_levels(bend=0.0, height=3e-3)
    assert all(level == 0 for level in one.here.values())
    for name in ARRANGEMENTS:
        assert one.dip[name] <= bent_levels(bend=4e-3, height=3e-3).here[name]


# ------------------------------------------------------------------ the pair

def test_hum_is_what_the_turns_leave():
    """By hand: 1 + s (1 + m)(1 + g), s the sign of the winding."""
    one = hum_pair(more_turns=0.03, uneven=-0.01)
    for name, (_, winding) in WIRINGS.items():
        left = abs(1 + winding * 1.03 * 0.99)
        assert one.hum[name] == pytest.approx(20 * math.log10(left), abs=1e-3)


def test_signals_add_or_oppose():
    even, more = (hum_pair(more_turns=m, uneven=0.0) for m in (0.0, 0.05))
    for name in ("neither reversed", "both"):
        assert more.signal[name] - even.signal[name] == pytest.approx(20 * math.log10(2.05 / 2), abs=1e-6)
    assert even.signal["winding alone"] == even.signal["magnets alone"] == -math.inf
    # the hum of two like coils: the pickup as a whole says the same
    both = hum_voltages(pair(1), flux_density=1e-7, frequency=50.0)
    assert both[0] == pytest.approx(both[1]) and [coil.x for coil in pair(1).coils] == [-ASIDE, ASIDE]


# ------------------------------------------------------------------ the bill

def test_the_bill_by_hand():
    rods, screws, six, _, blade = what_it_costs()
    # mean turn: two straights of 51 mm and a circle of radius 4.7 mm; a circle of 3.8 mm
    assert rods.wire == pytest.approx(7600 * (2 * 51e-3 + 2 * math.pi * 4.7e-3))
    assert six.wire == pytest.approx(6 * 7600 * 2 * math.pi * 3.8e-3) and six.turns == 6 * 7600
    # copper of 8890 kg/m3 (IEC 60028) with the 0.0502 mm of AWG 44, 1.72e-8 ohm m
    assert rods.copper == pytest.approx(8890 * rods.wire * math.pi / 4 * 0.0502e-3 ** 2, rel=0.01)
    assert rods.resistance == pytest.approx(1.724e-8 * rods.wire / (math.pi / 4 * 0.0502e-3 ** 2), rel=0.01)
    assert (rods.magnets, screws.magnets, blade.magnets) == (6, 1, 1)
    assert screws.magnet_volume == pytest.approx(12.7e-3 * 60e-3 * 3.2e-3)
    assert rods.magnet_volume == pytest.approx(6 * math.pi / 4 * 5e-3 ** 2 * 17e-3)
    # finite elements for a reference of the same shape: 2.170 H with rods, 4.32 H with screws (tests/test_pickup.py)
    assert [rods.inductance, screws.inductance] == pytest.approx([2.17, 4.32], rel=0.02)


# ------------------------------------------------------------------ pictures, with numbers a person can foresee

COIL = LongCoil(straight_length=20e-3, inner_radius=3e-3, outer_radius=6e-3, bottom=-12e-3, top=-2e-3, turns=10)
TWO = [("A", -5e-3, 2.5e-3, 1e-3, 0.4e-3), ("B", 5e-3, 2.5e-3, 0.3e-3, 0.3e-3)]


def test_poles_end_at_their_tops_and_strings_are_over_them():
    axes = new_figure().add_subplot(xlim=(-20, 20), ylim=(-20, 10))
    row, poles = RowOfPoles(axes, strings=TWO, coil=COIL), [(-5e-3, 4e-3, 1e-3, 10e-3), (5e-3, 4e-3, -2e-3, 10e-3)]
    upper, lower, letter, second, *_ = row.update(poles, steel=False)
    assert [upper.get_y() + upper.get_height(), second.get_y() + second.get_height()] == pytest.approx([1, -2])
    assert (lower.get_y(), letter.get_text()) == (-9, "N")
    *screws, wrap, core, plain = row.update(poles, steel=True)
    assert max(screws[2].get_xy()[:, 1]) == pytest.approx(1)
    assert [disc.get_center() for disc in (wrap, core, plain)] == [(-5, 2.5), (-5, 2.5), (5, 2.5)]


def test_a_drawing_to_scale_is_as_long_up_as_across():
    axes, _ = to_scale(new_figure(width=8, height=5), left=0.1, bottom=0.1, width=0.5, x_limits=(0, 40e-3),
                       z_limits=(-5e-3, 5e-3))
    across, up = np.diff(axes.transData.transform([(0, 0), (1, 1)]), axis=0)[0]
    assert across == pytest.approx(up) and across == pytest.approx(0.5 * axes.figure.bbox.width / 40)


def test_the_blue_is_deeper_where_the_field_is_stronger():
    """A field that rises evenly from 0 to 100 mT to the right: the shade of a step begins at its share of the way."""
    y, z = np.linspace(-34e-3, 34e-3, 35), np.linspace(0, 7e-3, 8)
    picture = FieldOverSix(new_figure(), y=y, z=z, strings=TWO, coil=COIL)
    drawn = picture.update(size=np.tile(np.linspace(0, 0.1, 35), (8, 1)), poles=[(-5e-3, 4e-3, 0.0, 10e-3)] * 2,
                           steel=True, look=3e-3, number=1, changes=["+0.00 dB", "+3.00 dB"], across=y, flat=0 * y,
                           moved=0 * y, over=(5e-3, 1.0, 1.2), words="10 → 12 mT")
    begin = [shade.get_path().vertices[:, 0].min() for shade in drawn[:3]]
    assert begin == pytest.approx([-34 + 6.8, -34 + 13.6, 0.0]) and not len(drawn[4].get_path().vertices)
    assert [text.get_text() for text in drawn if isinstance(text, Text)][-1] == "10 → 12 mT"
    assert "+3.00 dB" in [text.get_text() for text in drawn if isinstance(text, Text)]


def test_dots_are_at_their_levels_and_name_the_loudest():
    picture = LevelsOfSix(new_figure(), strings=TWO, coil=COIL, levels=(-10, 10))
    drawn = picture.update(levels=np.array([0.0, -4.0]), by_law=[0, 3], loudest="A", softest="B", steel=True,
                           poles=[(-5e-3, 4e-3, 0.0, 10e-3), (5e-3, 4e-3, -1.5e-3, 10e-3)])
    marks = [list(one.get_ydata()) for one in drawn if isinstance(one, Line2D) and one.get_marker() in "oD"]
    assert marks == [[0, 3], [0, -4]]
    words = [one.get_text() for one in drawn if isinstance(one, Text)]
    assert {"A: loudest", "B: softest", "+0.0", "−4.0", "flush", "−1.50"} <= set(words)


def test_dots_stand_where_the_string_is():
    bent = BentSideways(new_figure(), names=["A"], reach=2e-3, floor=-10, string=(1e-3, 0.4e-3), pole=1e-3)
    drawn = bent.update(bend=np.array([0, 1e-3, 2e-3]), levels={"A": np.array([0, -4.0, 0])}, at=0.5e-3, height=3e-3,
                        now={"A": -2.0}, words={"A": "A −2.0 dB"})
    curve, dot = (next(one for one in drawn if isinstance(one, Line2D) and one.get_marker() == mark
                       and len(one.get_xdata()) == count) for mark, count in (("None", 3), ("o", 1)))
    assert list(curve.get_ydata()) == [0, -4, 0] and (dot.get_xdata()[0], dot.get_ydata()[0]) == (0.5, -2)
    assert drawn[-1].get_center() == drawn[-2].get_center() == (0.5, 3)
    assert "A −2.0 dB" in [one.get_text() for one in drawn if isinstance(one, Text)]


def test_two_waves_and_their_sum():
    """Of parts 1 and -1 nothing is left; of 1 and 0.5 one and a half, at the crest (a quarter of a period)."""
    pair = PairOfCoils(new_figure(), wirings={"A": (1, 1), "B": (-1, -1)}, coil=COIL, height=2.5e-3, floor=-50,
                       rod=RodMagnet(diameter=4e-3, length=16e-3, remanence=1.0), aside=9e-3)
    drawn = pair.update(signal=[3.5, -math.inf], hum=[-60.0, -34.0], signal_parts=[(1, 0.5), (1, -1)],
                        hum_parts=[(1, 1), (1, 1)], at=0.25)
    one, other, both, two_dots, dot = (np.array(line.get_ydata()) for line in drawn[:5])
    assert np.nanmax(both) == pytest.approx(1.5) and np.nanmax(np.abs(both[len(both) // 2:])) == 0
    assert np.nanmax(one) == pytest.approx(1) and np.allclose(both, one + other, equal_nan=True)
    assert dot[::2] == pytest.approx([1.5, 0]) and two_dots[::2] == pytest.approx([1, 1, 0.5, -1])    # and gaps
    words = [text.get_text() for text in drawn if isinstance(text, Text)]
    assert words == ["one coil", "+3.5", "−34.0", "nothing", "< −50"]


# ------------------------------------------------------------------ what moves and what is heard

def test_the_waves_of_the_film_are_those_of_the_picture():
    panel = lesson_07.hum_of_a_pair()
    film = panel._film(hum_pair(more_turns=0.0, uneven=0.0))
    assert 24 <= len(film.frames) <= 48 and film.frames[0]["signal_parts"] == film.frames[-1]["signal_parts"]
    assert film.frames[0]["at"] == 0 and film.frames[-1]["at"] == PERIODS


def test_the_sound_of_a_panel_follows_its_poles_on_one_scale():
    panel = lesson_07.levels_of_six()
    peaks = []
    for tops in ({}, {"III": -1e-3}):
        sound = panel._sound(string_levels(kind="rods", **tops), kind="rods", third="III")
        note, = (np.array_split(signal, 6)[3] for signal in sound.signals.values())
        peaks.append(np.abs(note).max() / sound.loudest)
    assert 20 * math.log10(peaks[1] / peaks[0]) == pytest.approx(-1.7, abs=0.05)     # as the page says of the level
    assert sound.players().count("<audio") == 1


# ------------------------------------------------------------------ the panels themselves

def test_what_is_nothing_is_called_so():
    panel = lesson_07.hum_of_a_pair()
    assert "winding alone: signal nothing, hum nothing" in readouts(panel) and "no hum is left" in alt(panel)
    panel.asked(uneven=-5)
    assert "0 % more turns and a hum field that is 5 % weaker there" in alt(panel) and "hum −26.0 dB" in alt(panel)


def test_the_words_of_the_pictures_name_what_is_set():
    panel = lesson_07.field_over_six()
    assert "six screws" in alt(panel) and "At 2.5 mm" in alt(panel) and "All poles are flush." in alt(panel)
    panel.asked(look=5)
    at_five = raised(kind="screws", number=2, raised=0.0, look=5e-3)
    assert f"At 5.0 mm height: {at_five.over_pole[0] * 1e3:.1f} mT" in alt(panel)
    panel.asked(kind="rods", raised=1)
    assert "six rods" in alt(panel) and "its own string by +1.15 dB" in alt(panel)
    panel = lesson_07.levels_of_six()
    assert "a plain third" in alt(panel) and "over six rods, all flush" in alt(panel)
    panel.asked(third="III wound", VI=-1)
    assert "a wound third" in alt(panel) and "tops in mm: VI −1.00, all others flush" in alt(panel)
    panel = lesson_07.bent_sideways()
    panel.asked(height=4)
    assert "String IV, 4 mm high" in alt(panel)
