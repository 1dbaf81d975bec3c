"""Pictures of curves are tested with straight lines: arrays whose picture and words a person can foresee."""
from itertools import combinations

import numpy as np
import pytest

from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import Band, Between, Curve, Dots, Level
from lessons_lib.pictures.places import parted
from lessons_lib.pictures.style import FLUX, HOUSE_LOOK, VOLTAGE, new_figure

GAP, FLUX_AXIS = Axis("gap", "mm", (0.0, 10e-3)), Axis("flux", "µWb", (0.0, 20e-6))


def lines(*parts, x=GAP, y=FLUX_AXIS, **more):
    return Lines(new_figure().add_axes((0.1, 0.15, 0.88, 0.8)), x=x, y=y, parts=parts, **more)


def texts(artists):
    return {artist.get_text(): artist for artist in artists if hasattr(artist, "get_text")}


def box(text):
    return text.get_window_extent().extents * 72 / text.figure.dpi


def shares(text):
    """Middle of a word's height, as a share of its axes' height."""
    low, high = (text.axes.transAxes.inverted().transform((0, edge))[1]
                 for edge in text.get_window_extent().extents[1::2])
    return (low + high) / 2


def assert_readable(picture, artists):
    words = texts(artists).values()
    width, height = 72 * picture.axes.figure.get_size_inches()
    for left, low, right, high in map(box, words):
        assert left >= 0 and low >= 0 and right <= width and high <= height
    for one, other in combinations(map(box, words), 2):
        across, up = (min(one[n + 2], other[n + 2]) - max(one[n], other[n]) for n in (0, 1))
        assert across < 1.5 or up < 1.5, (one, other)


# ------------------------------------------------------------------ curves

def test_a_curve_is_shown_in_the_units_of_its_axes_and_named_at_its_end():
    picture = lines(Curve("rod", "in the rod", FLUX))
    curve, word = picture.update(rod=([0, 5e-3, 10e-3], [20e-6, 15e-6, 10e-6]))
    assert curve.get_xdata() == pytest.approx([0, 5, 10]) and curve.get_ydata() == pytest.approx([20, 15, 10])
    assert word.get_text() == "in the rod" and shares(word) == pytest.approx(0.5, abs=0.01)
    assert word.get_window_extent().x0 > picture.axes.bbox.x1
    assert picture.axes.get_xlabel() == "gap (mm)" and picture.axes.get_ylabel() == "flux (µWb)"
    assert_readable(picture, [word])


def test_curves_over_a_common_x_give_y_alone_and_have_their_dots():
    picture = lines(Curve("rod", dot="o"), Curve("pot", dot="s"))
    artists = picture.update([0, 10e-3], rod=[20e-6, 10e-6], pot=[10e-6, 0], at=4e-3)
    rod, rod_dot, pot, pot_dot = artists
    assert [*rod_dot.get_xdata(), *rod_dot.get_ydata()] == pytest.approx([4.0, 16.0])
    assert pot_dot.get_ydata() == pytest.approx([6.0])


def test_a_dot_on_the_edge_is_drawn_whole_and_one_beyond_is_not_drawn():
    picture = lines(Curve("rod", dot="o"))
    assert len(picture.update([0, 10e-3], rod=[0, 20e-6], at=10e-3)) == 2
    assert not picture.update([0, 10e-3], rod=[0, 20e-6], at=10e-3)[1].get_clip_on()
    assert len(picture.update([0, 10e-3], rod=[0, 40e-6], at=8e-3)) == 1


def test_words_of_lines_that_end_together_are_parted_and_keep_their_order():
    picture = lines(*(Curve(name, f"the {name} line", FLUX) for name in ("first", "second", "third")))
    ends = {"first": 10.0e-6, "second": 10.2e-6, "third": 9.9e-6}
    artists = picture.update([0, 10e-3], **{name: [0, end] for name, end in ends.items()})
    assert_readable(picture, artists)
    heights = {name: shares(texts(artists)[f"the {name} line"]) for name in ends}
    assert heights["third"] < heights["first"] < heights["second"]
    assert np.mean(list(heights.values())) == pytest.approx(0.5, abs=0.02)


@pytest.mark.parametrize("end", [0.0, 20e-6])
def test_words_at_the_corners_stay_in_the_frame(end):
    picture = lines(*(Curve(name, f"line {name}", FLUX) for name in "abcd"))
    artists = picture.update([0, 10e-3], **{name: [0, end] for name in "abcd"})
    assert_readable(picture, artists)
    assert all(0 <= shares(word) <= 1 for word in texts(artists).values())


def test_a_curve_that_leaves_the_frame_is_named_where_it_leaves():
    picture = lines(Curve("rod", "rod", FLUX))
    x = np.linspace(0, 10e-3, 101)
    word = picture.update(rod=(x, 20e-6 - x * 4e-3))[-1]       # at the floor at 5 mm
    assert picture.axes.transData.inverted().transform(word.get_window_extent().p0)[0] == pytest.approx(5.2, abs=0.2)
    assert_readable(picture, [word])


def test_a_word_can_be_over_or_under_its_curve_and_say_something_new():
    picture = lines(Curve("over", "over", FLUX, at=5e-3), Curve("under", "under", FLUX, at=5e-3, below=True))
    artists = picture.update([0, 10e-3], over=[10e-6] * 2, under=[10e-6] * 2, words={"over": "12 mm"})
    words = texts(artists)
    assert shares(words["under"]) < 0.5 < shares(words["12 mm"])
    assert picture.axes.get_position().x1 == pytest.approx(0.98)      # no room needed beside the axes
    assert_readable(picture, artists)


def test_equal_settings_give_equal_places():
    picture = lines(Curve("a", "first", FLUX), Curve("b", "second", VOLTAGE), Dots("now", most=2))

    def places(level):
        artists = picture.update([0, 10e-3], a=[0, level], b=[0, 10e-6], now=([2e-3, 3e-3], [1e-6, 2e-6]),
                                 words={"now": ["1", "2"]})
        return [(text, word.get_position(), word.get_ha()) for text, word in texts(artists).items()]

    first = places(10e-6)
    assert places(3e-6) != first and places(10e-6) == first


def test_what_has_no_data_is_not_shown_and_a_wrong_name_is_told():
    picture = lines(Curve("rod", "rod"), Curve("pot", "pot"), Dots("now"), Between("rod", "pot"),
                    Level("without", "none"))
    assert picture.update() == []
    assert len(picture.update([0, 10e-3], rod=[0, 1e-6], pot=None)) == 2
    for wrong in ({"rode": [0, 1]}, {"words": {"rode": "rod"}}):
        with pytest.raises(ValueError, match="name of data must be one of 'rod', 'pot', 'now', 'without'; got 'rode'."):
            picture.update([0, 10e-3], **wrong)


def test_a_gap_stays_a_gap():
    picture = lines(Curve("rod", "rod"))
    curve, word = picture.update(rod=([0, 5e-3, 10e-3], [5e-6, 15e-6, np.nan]))
    assert np.isnan(curve.get_ydata()[-1]) and shares(word) == pytest.approx(0.75, abs=0.01)


# ------------------------------------------------------------------ levels, bands, shades, dots

def test_levels_that_move_and_that_stay():
    picture = lines(Level("without", "without the pot"), Level("", "zero", value=10e-6),
                    Level("now", "now", upright=True))
    artists = picture.update(without=5e-6, now=9.9e-3)
    level, upright, *_ = artists
    assert level.get_ydata() == pytest.approx([5, 5]) and upright.get_xdata() == pytest.approx([9.9, 9.9])
    assert {text: round(shares(word), 2) for text, word in texts(artists).items() if text != "now"} == {
        "without the pot": 0.25, "zero": 0.5}
    assert_readable(picture, artists)
    assert texts(picture.update(without=30e-6)).keys() == {"zero"}       # one beyond the axis is not drawn


def test_the_word_of_an_upright_level_goes_to_the_side_with_room():
    picture = lines(Level("now", "resonance", upright=True))
    for value, side in ((1e-3, 1), (9.9e-3, -1)):
        line, word = picture.update(now=value)
        at = picture.axes.transData.transform((1e3 * value, 0))[0]
        assert {np.sign(edge - at) for edge in word.get_window_extent().intervalx} == {side}
        assert_readable(picture, [word])


def test_bands_lie_and_stand():
    picture = lines(Band("rod", "rod", upright=True), Band("", value=(5e-6, 10e-6)), Band("noise"))
    rod, noise, word = picture.update(rod=(6e-3, 2e-3), noise=(0, 2e-6))
    assert rod.get_bbox().bounds == pytest.approx((2, 0, 4, 1))
    assert noise.get_bbox().bounds == pytest.approx((0, 0, 1, 2))
    assert any(patch.get_bbox().bounds == pytest.approx((0, 5, 1, 5)) for patch in picture.axes.patches)
    assert word.get_text() == "rod"


def test_the_difference_of_two_curves_is_shaded():
    picture = lines(Curve("a"), Curve("b"), Between("a", "b"))
    shade, *curves = picture.update([0, 10e-3], a=[10e-6, 10e-6], b=([0, 10e-3], [0, 5e-6]))
    corners = shade.get_xy()[:-1]
    x, y = corners.T
    # a trapezium of 10 x (10 + 5) / 2, by the shoelace formula
    assert abs(x @ np.roll(y, 1) - y @ np.roll(x, 1)) / 2 == pytest.approx(75)
    assert len(picture.update([0, 10e-3], a=[0, 1e-6])) == 1


def test_dots_have_stems_words_and_spreads():
    axis = Axis("string", "", (-0.6, 2.6), ticks={0: "VI", 1: "V", 2: "IV"})
    picture = lines(Dots("level", VOLTAGE, stems=0.0, most=3), x=axis, y=Axis("level", "dB", (-8.0, 8.0)))
    artists = picture.update(level=([0, 1, 2], [3, -2, 7.9]), words={"level": ["+3", "−2", "+7.9"]})
    stems, dots, *words = artists
    assert stems.get_ydata()[:5] == pytest.approx([0, 3, np.nan, 0, -2], nan_ok=True)
    up, down, high = (shares(word) for word in words)
    assert up > 11 / 16 and down < 6 / 16 and high < 15.4 / 16      # over, under, under for want of room
    assert [tick.get_text() for tick in picture.axes.get_xticklabels()] == ["VI", "V", "IV"]
    assert_readable(picture, artists)
    bars, _ = lines(Dots("read")).update(read=(1e-3, 10e-6, 2e-6))
    assert bars.get_ydata()[:2] == pytest.approx([8, 12])


# ------------------------------------------------------------------ axes

def test_a_logarithmic_axis_has_its_ticks_and_equal_steps_for_equal_factors():
    frequency = Axis("frequency", "Hz", (100.0, 20e3), log=True, ticks=(100, 200, 500, 1e3, 2e3, 5e3, 10e3, 20e3))
    picture = lines(Curve("level", "this setting"), Curve("house", "house", HOUSE_LOOK), x=frequency,
                    y=Axis("level", "dB", (-40.0, 20.0)))
    artists = picture.update([100.0, 2000.0, 20e3], level=[0, 0, -40], house=[0, 0, -41])
    assert [tick.get_text() for tick in picture.axes.get_xticklabels()] == [
        "100", "200", "500", "1000", "2000", "5000", "10000", "20000"]
    assert float(frequency.share(2000.0)) == pytest.approx(np.log10(20) / np.log10(200))
    assert np.isnan(frequency.share(0.0))
    assert_readable(picture, artists)


def test_an_axis_through_zero_is_even_near_it_and_logarithmic_to_both_sides():
    axis = Axis("inductance", "H", (-200.0, 200.0), even=0.5, ticks=(-100, -10, 0, 10, 100))
    picture = lines(Dots("read"), y=axis)
    picture.update(read=([1e-3, 2e-3], [-10.0, 3.0]))
    for value in (-150.0, -10.0, -0.2, 0.0, 3.0):
        # by matplotlib's own scale
        drawn = picture.axes.transAxes.inverted().transform(picture.axes.transData.transform((1, value)))[1]
        assert float(axis.share(value)) == pytest.approx(drawn, abs=1e-9)
    ten, hundred, thousandth = (float(axis.share(one)) - 0.5 for one in (10.0, 100.0, 1e-3))
    decade = np.log(10) / (2 * np.arcsinh(400))
    assert hundred - ten == pytest.approx(decade, rel=1e-3) and thousandth == pytest.approx(
        2e-3 / (2 * np.arcsinh(400)), rel=1e-5)
    assert [tick.get_text() for tick in picture.axes.get_yticklabels()] == ["−100", "−10", "0", "10", "100"]


@pytest.mark.parametrize("side, lift", [(1, 0), (-1, 10), (0, 0)])
def test_words_beside_a_mark_leave_it_free_and_can_be_higher(side, lift):
    picture = lines(Dots("peak", size=12, side=side, lift=lift))
    _, word = picture.update(peak=(5e-3, 10e-6), words={"peak": "here"})
    x, y = 72 / picture.axes.figure.dpi * picture.axes.transData.transform((5, 10))
    left, low, right, high = box(word)
    assert {1: left - x, -1: x - right, 0: low - y}[side] > 12 / 2
    assert side == 0 or (low + high) / 2 - y == pytest.approx(lift, abs=2)


def test_a_bare_axis_has_no_letters_and_rooms_can_be_equal():
    upper = lines(Curve("a", "a long word at the end"), x=Axis("gap", "mm", (0, 10e-3), bare=True), room=100)
    lower = lines(Curve("a"), room=100)
    assert upper.axes.get_position().bounds == lower.axes.get_position().bounds
    assert upper.axes.get_xlabel() == ""
    assert not any(tick.label1.get_visible() for tick in upper.axes.xaxis.get_major_ticks())


# ------------------------------------------------------------------ places

@pytest.mark.parametrize("wanted, expected", [
    ([10, 30], [10, 30]), ([10, 10], [8, 12]), ([10, 10, 10], [6, 10, 14]), ([0, 0], [2, 6]), ([40, 40], [34, 38]),
    ([12, 10], [13, 9]), ([10 + 1e-9, 10], [8, 12]), ([10, 13, 30], [9.5, 13.5, 30])])
def test_labels_are_parted_by_as_little_as_can_be(wanted, expected):
    assert parted(wanted, [4] * len(wanted), (0, 40)) == pytest.approx(expected)


def test_an_update_measures_no_letters(monkeypatch):
    picture = lines(*(Curve(name, f"line {name}", FLUX, dot="o") for name in "abc"))
    x = np.linspace(0, 10e-3, 200)
    asked = []
    monkeypatch.setattr("matplotlib.text.Text.get_window_extent", lambda *_, **__: asked.append(1))
    monkeypatch.setattr(picture.axes.figure.canvas, "get_renderer", lambda: asked.append(1))
    assert len(picture.update(x, at=1e-3, **{name: x * 1e-3 for name in "abc"})) == 9
    assert not asked        # a renderer takes some tenths of a millisecond for each
