"""Pictures of lesson 4's swinging string, with numbers a person can foresee."""
import pytest
from matplotlib.patches import FancyArrowPatch
from numpy.testing import assert_allclose

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_04 import panels as lesson_04
from lessons_lib.lessons.lesson_04.figures import four_graphs_figure
from lessons_lib.lessons.lesson_04.model import graphs_to_choose_from, sideways_graphs
from lessons_lib.pictures.over_pole import OverPole
from lessons_lib.pictures.style import new_figure
from lessons_lib.pictures.three_traces import ThreeTraces
from shown import alt


def test_three_traces_mark_one_instant_in_all_and_the_tangent_has_the_slope():
    axes = new_figure(height=5.4).subplots(3)
    picture = ThreeTraces(*axes, time=0.02, displacement=1e-3, linkage=1e-4, voltage=0.1)
    artists = picture.update(traces=([0, 0.01, 0.02], [0, 1e-3, 0], [0, 2e-5, 0], [0.05, 0, -0.05]), instant=0.01,
                             now=(1e-3, 2e-5, -3e-3))
    marked = [artist for artist in artists if getattr(artist, "get_marker", str)() == "o"]
    assert_allclose([(mark.get_xdata()[0], mark.get_ydata()[0]) for mark in marked], [(10, 1), (10, 20), (10, -3)])
    tangent = next(line for line in artists if line.get_linewidth() == 3.0)
    (left, right), (low, high) = tangent.get_xdata(), tangent.get_ydata()
    assert (high - low) / (right - left) == pytest.approx(3)        # uWb a ms: minus the voltage in mV
    assert [artist.get_text() for artist in artists if hasattr(artist, "get_text")] == ["+3.0 µWb/ms", "−3.0 mV"]


def test_a_growing_trace_ends_at_the_instant_over_its_pale_whole():
    picture = ThreeTraces(*new_figure().subplots(3), time=0.02, displacement=1e-3, linkage=1e-4, voltage=0.1)
    artists = picture.update(traces=([0, 0.01, 0.02], [0, 1e-3, 0], [0, 2e-5, 0], [0.05, 0, -0.05]), instant=0.005,
                             now=(0.5e-3, 1e-5, 0.025), grows=True)
    whole, grown = (line for line in artists if getattr(line, "get_linestyle", str)() == "--")
    assert list(whole.get_xdata()) == [0, 10, 20] and list(grown.get_xdata()) == [0, 5]
    assert whole.get_alpha() < 0.5 and grown.get_alpha() is None


def test_the_string_is_drawn_where_it_is_true_to_scale():
    axes = new_figure().add_axes((0, 0, 1, 1), xlim=(-4, 4), ylim=(-2, 5))
    picture = OverPole(axes, magnet=house_instrument.magnet)
    ends = [(0.5e-3, 2e-3), (1.5e-3, 2e-3)]
    rest, string, path = picture.update(rest=(1e-3, 2e-3), ends=ends, string=ends[1], diameter=0.43e-3)
    assert rest.center == pytest.approx((1, 2)) and string.center == pytest.approx((1.5, 2))
    assert string.radius == pytest.approx(0.215) and list(path.get_xdata()) == [0.5, 1.5]
    # of the letters of the magnet only that of the pole is in the picture
    assert [text.get_text() for text in axes.texts if text.get_visible()] == ["N"]


def test_the_four_graphs_share_one_time_axis_and_keep_their_letters():
    figure, draw = four_graphs_figure()
    lines = draw(graphs_to_choose_from())
    assert [line.get_ydata().max() for line in lines] == pytest.approx([60, 60, 30, 60, 45])
    assert len({axes.get_position().x0 for axes in figure.axes}) == len({axes.get_xlim() for axes in figure.axes}) == 1
    assert [text.get_text() for axes in figure.axes for text in axes.texts if text.get_text().startswith("(")] == [
        "(a)", "(b)", "(c)", "(d)"]


def test_the_sideways_graphs_keep_their_letters_and_the_curve_is_even():
    panel = lesson_04.four_sideways()
    data = sideways_graphs()
    assert_allclose(data["across"][1], data["across"][1][::-1], atol=1e-15)
    figure = panel._drawing.figure
    assert [text.get_text() for axes in figure.axes for text in axes.texts if text.get_text().startswith("(")] == [
        "(a)", "(b)", "(c)", "(d)"]
    for number in ("2.0 µWb", "2.5 mV"):        # as the words say: k a2, and k a2 omega
        assert number in alt(panel)
    assert data["across"][1].min() == pytest.approx(-2.0e-6, abs=0.05e-6)
    assert data["voltages"]["d"].max() == pytest.approx(2.5e-3, abs=0.05e-3)


def test_only_the_worked_ring_has_its_current():
    """Flux of magnet and of current in two rings, a current's arrow in the first; the third is the student's."""
    panel = lesson_04.three_rings()
    assert panel.view
    scenes = panel._drawing.figure.axes
    moves = [sum(isinstance(patch, FancyArrowPatch) for patch in axes.patches) for axes in scenes]
    assert moves == [2, 1, 1]       # how a thing moves; in the first one the current as well
    assert [sum("flux" in text.get_text() for text in axes.texts) for axes in scenes] == [2, 2, 1]
    assert "its own flux?" in scenes[2].texts[-2].get_text()
