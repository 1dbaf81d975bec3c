"""The functions under the panels of lesson 7 against direct computation and closed forms; pictures and panels."""
import math

import numpy as np
import pytest
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
from lessons_lib.physics.six_strings import first_pulses, workshop_row
from lessons_lib.pictures.six_strings import HumBars, LevelAcross, LevelBars
from lessons_lib.pictures.style import new_figure
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
    assert_allclose(one.levels, 20 * np.log10(one.pulses / one.pulses[0]))


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
    row, column = 30, 17
    direct = pickup("screws", (0, 0, 0, 0, 0.8e-3, 0)).flux_density([0.0, MAP_Y[column], MAP_Z[row]])
    assert data["map"]["size"][row, column] == pytest.approx(np.linalg.norm(direct))
    assert data["map"]["bar"] and data["map"]["poles"][4][2] == 0.8e-3


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

def test_bars_end_at_their_levels_and_poles_at_their_tops():
    figure = new_figure()
    bars = LevelBars(*figure.subplots(2), names="AB", levels=(-10, 10), tops=(-2e-3, 1e-3))
    first, second, law, *_, low, high = bars.update(levels=[0.0, -20.0], by_law=[0, 3], tops=[-1e-3, 1e-3])
    assert first.get_y() + first.get_height() == 0 and second.get_height() == 0
    assert list(law.get_ydata()) == [0, 3]
    assert [pole.get_y() + pole.get_height() for pole in (low, high)] == pytest.approx([-1, 1])


def test_hum_bars_say_nothing_and_under():
    bars = HumBars(new_figure().add_subplot(), names="AB", levels=(-50, 10))
    *patches, a, b, c, d = bars.update(signal=[6.0, -math.inf], hum=[-60.0, -34.0])
    assert [word.get_text() for word in (a, b, c, d)] == ["+6", "nothing", "under −50", "−34"]
    assert [patch.get_height() for patch in patches] == pytest.approx([56, 0, 0, 16])


def test_dots_stand_where_the_string_is():
    across = LevelAcross(new_figure().add_subplot(), names={"A": "a"}, reach=2e-3, floor=-10)
    _, line, dots = across.update(bend=np.array([0, 1e-3, 2e-3]), levels={"A": np.array([0, -4.0, 0])}, at=0.5e-3)
    assert list(line.get_ydata()) == [0, -4, 0] and (dots.get_xdata()[0], dots.get_ydata()[0]) == (0.5, -2)


# ------------------------------------------------------------------ the panels themselves

def test_what_is_nothing_is_called_so():
    panel = lesson_07.hum_of_a_pair()
    assert "winding alone: signal: nothing, hum nothing" in readouts(panel) and "no hum is left" in alt(panel)
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
    assert "String IV, 4.0 mm high" in alt(panel)
