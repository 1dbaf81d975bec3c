"""Turns in a window, lesson 4: the coil against textbook formulas, drawn wires against the room they take."""
import math

import numpy as np
import pytest
from matplotlib.colors import to_hex
from numpy.testing import assert_allclose

from lessons_lib.lessons.lesson_04 import panels as lesson_04
from lessons_lib.lessons.lesson_04.window import DRAWN_ONCE_IN, drawn_turns, filling_wire, winding, winding_curves
from lessons_lib.pictures.style import COPPER, VERMILLION, new_figure
from lessons_lib.pictures.turns import WireWindows
from shown import alt, readouts


def test_the_house_coil_is_the_houses():
    coil = winding(turns=7600, gauge=44)
    # the course's record: about 1000 m, 8.6 kohm (rounded wire table; the exact gauge gives 8.70), 2.17 H
    assert_allclose([coil.wire_length, coil.resistance, coil.inductance], [1000, 8.6e3, 2.17], rtol=0.015)
    assert coil.voltage == 1 and coil.level_at_5_khz == pytest.approx(0, abs=1e-9) and coil.fits
    mean_turn = 2 * 51e-3 + math.pi * 9.4e-3
    assert coil.wire_length == pytest.approx(7600 * mean_turn)
    assert not winding(turns=12000, gauge=44).fits


def test_the_filling_wire_fills_the_window():
    coil = winding(turns=9000, gauge=42)
    assert 9000 * (1.125 * coil.filling_diameter) ** 2 == pytest.approx(3e-3 * 12e-3)
    area = math.pi * coil.filling_diameter ** 2 / 4
    assert coil.filling_resistance == pytest.approx(coil.wire_length / 58e6 / area, rel=1e-6)    # IEC 60028


def test_the_peak_is_near_the_textbook_resonance():
    # f0 = 1/(2 pi sqrt(L C)) with 600 pF; the load pulls the peak down a little
    f0 = 1 / (2 * math.pi * math.sqrt(winding(turns=7600, gauge=44).inductance * 600e-12))
    assert 0.9 < winding(turns=7600, gauge=44).peak_frequency / f0 < 1
    data = winding_curves(winding(turns=7600, gauge=44), turns=7600, gauge=44)["output"]
    assert_allclose(data["this"], data["house"])
    highest = data["frequency"][np.argmax(data["this"])]
    assert highest == pytest.approx(winding(turns=7600, gauge=44).peak_frequency, rel=0.03)


def test_curves_of_resistance_run_through_the_dots():
    data = winding_curves(winding(turns=9000, gauge=43), turns=9000, gauge=43)["resistance"]
    for name, ohm in zip(("same_wire", "full_window"), data["at"][1:]):
        line = np.interp(np.log(9000), np.log(data["turns"]), np.log(data[name]))
        assert math.exp(line) == pytest.approx(ohm, rel=1e-3)


@pytest.mark.parametrize("turns, diameter", [(7600, 57e-6), (1000, 190e-6), (15200, 45e-6), (9000, 90e-6)])
def test_drawn_wires_take_the_room_of_all_turns(turns, diameter):
    wires = drawn_turns(turns, diameter)
    room = 3e-3 * 12e-3 / diameter ** 2         # each turn takes a square as wide as the insulated wire
    expected = min(turns, room) / DRAWN_ONCE_IN
    assert wires["fits"].sum() == pytest.approx(expected, abs=1)
    inside = wires["outward"] < 3e-3
    assert (inside == wires["fits"]).all() and (wires["up"] > 0).all() and (wires["up"] < 12e-3).all()
    assert wires["thickness"] == pytest.approx(10 * diameter, rel=0.25)     # as thick as a hundred of them


@pytest.mark.parametrize("turns", [1000, 7600, 50000])
def test_the_filling_wire_is_drawn_filling(turns):
    wires = drawn_turns(turns, filling_wire(turns).insulated_diameter)
    assert wires["fits"].all() and wires["fits"].size == turns / DRAWN_ONCE_IN
    assert wires["outward"].max() + wires["thickness"] / 2 == pytest.approx(3e-3, rel=0.15)


def test_no_two_drawn_wires_are_in_one_place():
    wires = drawn_turns(15200, 57e-6)
    places = np.column_stack([wires["outward"], wires["up"]])
    apart = np.hypot(*(places[:, np.newaxis] - places).T) + np.eye(len(places))
    assert apart.min() > 0.9 * wires["thickness"]


def test_wires_without_room_are_marked():
    picture = WireWindows(new_figure().add_axes((0, 0, 1, 1)), width=3e-3, length=12e-3, once_in=100)
    window = {"outward": np.array([1e-3, 4e-3]), "up": np.array([2e-3, 2e-3]), "thickness": 1e-3,
              "fits": np.array([True, False])}
    edge, fits, _, over, *_, word, _ = picture.update([window, window], [("2 windows full", False), ("a wire", True)])
    assert fits.get_path().vertices.tolist() == [[1, 2], [1, 2]] and to_hex(fits.get_edgecolor()) == COPPER.lower()
    assert over.get_path().vertices.tolist() == [[4, 2], [4, 2]] and to_hex(over.get_edgecolor()) == VERMILLION.lower()
    assert fits.get_linewidth() < edge.get_linewidth() and word.get_text() == "2 windows full"


def test_every_drawn_wire_reaches_the_page():
    panel = lesson_04.turns_in_a_window()
    for turns in (1000, 7600, 50000):
        data = winding_curves(winding(turns=turns, gauge=44), turns=turns, gauge=44)
        drawn = sum(piece.count("M") for piece in panel._drawing.moving(data)[:8]) / 2     # an edge and a fill each
        assert drawn == sum(window["fits"].size for window in data["windows"])


def test_turns_and_output_are_drawn_in_their_units():
    panel = lesson_04.turns_in_a_window()
    panel.at(turns=10000)
    _, resistance, output = panel._drawing.figure.axes
    dots = {line.get_marker(): line for line in resistance.lines if len(line.get_xdata()) == 1}
    coil = winding(turns=10000, gauge=44)
    assert dots["o"].get_ydata()[0] == pytest.approx(coil.filling_resistance / 1e3, rel=0.01)
    assert dots["s"].get_ydata()[0] == pytest.approx(coil.resistance / 1e3, rel=0.01)
    lows = sorted(line.get_ydata()[0] for line in output.lines if len(line.get_xdata()) > 2)
    assert lows[1] - lows[0] == pytest.approx(coil.level_at_100_hz, abs=0.01)


def test_turns_that_do_not_fit_are_said():
    panel = lesson_04.turns_in_a_window()
    panel.asked(turns="50000")
    assert "turns that fit: 11273 room they take: 444 %" in readouts(panel)
    assert "peak with cable: none" in readouts(panel)
    assert "They do not fit" in alt(panel) and "would have 57.22 kΩ" in alt(panel)
    panel.asked(turns="1000")
    # with so few turns the coil is no load: 20 log10(1000/7600), and a little that the house coil loses in its controls
    assert 20 * math.log10(1000 / 7600) == pytest.approx(winding(turns=1000, gauge=44).level_at_100_hz, abs=0.4)
    assert "they give −17.3 dB at 100 Hz and −22.6 dB at 5 kHz" in alt(panel) and "fit:" not in alt(panel)
