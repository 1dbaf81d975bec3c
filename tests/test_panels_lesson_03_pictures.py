"""Pictures of lesson 3's panels, with numbers a person can foresee."""
import numpy as np
import pytest
from numpy.testing import assert_allclose

from lessons_lib.pictures.bent import BentAxis
from lessons_lib.pictures.circuits import StringLoop
from lessons_lib.pictures.over_pole import FilledWire, PulledString
from lessons_lib.pictures.string_over_rod import FluxAndGain, StringOverRod, TwoWays
from lessons_lib.pictures.style import new_figure


def axes(count=1):
    return new_figure().subplots(1, count)


def test_string_over_rod_draws_to_scale():
    side, end = axes(2)
    coil = {"inner_radius": 3.2e-3, "outer_radius": 6.2e-3, "bottom": -14.5e-3, "top": -2.5e-3}
    picture = StringOverRod(side, end, magnet={"top": 0.0, "diameter": 5e-3, "length": 17e-3}, coil=coil,
                            pale=([0, 1e-3], [0, 2e-3]), end_words="end", half_width=12e-3,
                            sides=(-7e-3, 10e-3), bottom=-4e-3, top=8e-3)
    _, steel, _, lines, towards, *_, disc, word = picture.update(
        lines=([0, 1e-3], [0, 3e-3]), towards=([0, 2e-3], [0, 1e-3]), height=2e-3, core=1e-3, place=3e-3, tube=25e-9)
    assert list(steel.get_xdata()) == [-12, 12] and list(steel.get_ydata()) == [2, 2]
    assert list(lines.get_ydata()) == [0, 3] and list(towards.get_xdata()) == [0, 2]
    assert disc.center == (3, 2) and disc.radius == 0.5
    assert word.get_text() == "flux of the string: 25 nWb a line"
    assert side.get_xlim() == (-12, 12) and end.get_xlim() == (-7, 10)


def test_both_ways_are_drawn_to_scale_the_grey_one_under_string_and_green():
    side, end = axes(2)
    coil = {"inner_radius": 3.2e-3, "outer_radius": 6.2e-3, "bottom": -14.5e-3, "top": -2.5e-3}
    picture = TwoWays(side, end, magnet={"top": 0.0, "diameter": 5e-3, "length": 17e-3}, coil=coil, now_words="now",
                      end_words="end", half_width=12e-3, bottom=-16e-3, top=8e-3)
    before, end_before, *_, now, towards, disc = picture.update(
        now=([0, 1e-3], [0, 3e-3]), before=([0, 2e-3], [0, 8e-3]), towards=([0, 0.5e-3], [0, 2e-3]),
        towards_before=([0, 1e-3], [0, 7e-3]), height=2e-3, core=1e-3)
    for line, ends in ((before, (2, 8)), (end_before, (1, 7)), (now, (1, 3)), (towards, (0.5, 2))):
        assert (line.get_xdata()[1], line.get_ydata()[1]) == ends
    assert disc.center == (0, 2) and disc.radius == 0.5
    assert side.get_ylim() == (-16, 8) and end.get_xlim() == (-4, 4) and end.get_ylim() == (-1, 7)


def test_flux_and_gain_keep_their_axes():
    """A third of the flux is a third of the height; ten times the knee is the end."""
    picture = FluxAndGain(*axes(2), half_width=12e-3, period=10e-3, swing_words="swing of 1 mm")
    for size, height in ((300e-9, 1.0), (100e-9, 1 / 3), (3000e-9, 1.5)):
        line, gain, dot, *_ = picture.update(along=([-5e-3, 5e-3], [-size, size]), swing=([0, 1], [30e-9, 30e-9]),
                                             now=(0.5, 30e-9))
        assert_allclose(line.get_ydata(), [-height, height])
    assert list(gain.get_xdata()) == [0, 10] and (*dot.get_xdata(), *dot.get_ydata()) == (5, 0.5)


def test_a_bent_axis_is_even_then_logarithmic():
    cents = BentAxis("change of pitch", "cents", knee=25.0, low=-1.5, high=1.0, ticks=(-1, 0, 1))
    assert_allclose(cents.place([-250.0, -25.0, -5.0, 0.0, 12.5]), [-1.5, -1, -0.2, 0, 0.5])
    assert cents.place(-25 * 10 ** 0.5) == pytest.approx(-1.25)      # half a decade is half of the band
    assert cents.axis.ticks == {-1.5: "−250", -1: "−25", 0: "0", 1: "25"}
    assert [band.value for band in cents.bands()] == [(-1, -1.5)]


def test_string_loop_shows_its_values_and_gaps_as_long_as_they_are():
    picture, values = StringLoop(axes()), {"mmf": 2400, "magnet": 180e6, "near_air": 10e6, "far_air": 12e6,
                                           "branch": 990e6, "pair": 9.9e6, "flux": 12e-6, "string_flux": 121e-9}
    artists = picture.update(height=2e-3, **values)
    texts = {artist.get_text() for artist in artists if hasattr(artist, "get_text")}
    assert texts == {"2400 A", "180 MA/Wb", "near air 10.0 MA/Wb", "12.0 MA/Wb", "gap, steel, gap 990 MA/Wb",
                     "flux in the magnet 12.000 µWb", "gathered 121 nWb", "a partial short circuit",
                     "in brackets\n9.90 MA/Wb"}
    tops = []
    for height in (2e-3, 4e-3, 6e-3):
        _, gap, other, *_ = picture.update(height=height, **values)
        assert gap.get_height() == other.get_height() > 0
        tops.append(gap.get_y() + gap.get_height())
    assert tops[2] - tops[1] == pytest.approx(tops[1] - tops[0]) and tops[2] < 10


def test_a_wire_is_filled_as_far_as_it_is_magnetised():
    picture = FilledWire(axes(), diameter=5e-3, half_width=12e-3, top=8e-3)
    wire, fill, word = picture.update(x=np.linspace(-20e-3, 20e-3, 81), fullness=np.full(81, 0.25), height=3e-3)
    bottom, thick = wire.get_y(), wire.get_height()
    assert bottom + thick / 2 == pytest.approx(3)
    assert fill.get_xy()[:, 1].max() == pytest.approx(bottom + thick / 4) and word.get_text() == "25 % full"


def test_the_arrow_is_as_long_as_the_pull_is_strong():
    picture = PulledString(axes(), diameter=5e-3, half_width=3e-3, bottom=-1e-3, top=7e-3, longest=60e-3)
    path, arrow, disc, _ = picture.update(height=3e-3, core=1e-3, pull=30e-3, path=([0, 1e-3], [0, 1e-3]),
                                          now=(1e-3, 1e-3))
    assert np.ptp(arrow.get_xy()[:, 1]) == pytest.approx(1)
    assert np.ptp(picture.update(height=3e-3, core=1e-3, pull=60e-3)[1].get_xy()[:, 1]) == pytest.approx(2)
    picture.update(height=3e-3, core=1e-3, pull=30e-3, path=([0, 1e-3], [0, 1e-3]), now=(1e-3, 1e-3))
    assert list(path.get_ydata()) == [3, 4] and disc.center == (1, 4)
