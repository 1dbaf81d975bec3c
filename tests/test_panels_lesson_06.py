"""The functions under the panels of lesson 6 against a circuit solved by its nodes; pictures, panels."""
import math

import numpy as np
import pytest
from matplotlib.lines import Line2D
from matplotlib.text import Annotation, Text
from numpy.testing import assert_allclose

from lessons_lib.base.units import resistance_words
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_06 import panels as lesson_06
from lessons_lib.lessons.lesson_06.loads import LOADS, coil_with, three_responses
from lessons_lib.lessons.lesson_06.model import (
    HOUSE,
    circuit_and_curves,
    level,
    loaded_coil,
    meter,
    meter_curves,
    reading,
    response,
    response_curves,
)
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.pictures.coil_circuit import CoilCircuit
from lessons_lib.pictures.response import MeterOverFrequency, ResponseOverFrequency
from lessons_lib.pictures.style import new_figure
from shown import alt, readouts

SETTINGS = [{}, {"cable": 1500e-12, "volume": 80e3, "volume_setting": 0.3}, {"tone_setting": 0.0, "turns": 5000},
            {"own": 300e-12, "cable": 0.0, "tone": 2e6, "tone_setting": 0.4, "amplifier": 50e3, "gauge": 42},
            {"metal_answers": True}, {"metal_answers": True, "turns": 5000, "volume_setting": 0.5}]


# ------------------------------------------------------------------ the loaded coil

def node_by_node(frequency, *, resistance, winding, own, cable, volume, volume_setting, tone, tone_setting, amplifier):
    """Level (dB) by Kirchhoff's law of currents at the coil's end and at the wiper."""
    s = 2j * np.pi * frequency
    series = 1 / (resistance + winding)
    tone_branch = 1 / (tone * tone_setting + 1 / (s * 22e-9))
    upper = 1 / max((1 - volume_setting) * volume, 1e-3)
    at_coil = series + s * own + tone_branch + upper
    at_wiper = upper + 1 / (volume_setting * volume) + s * cable + 1 / amplifier
    solved = np.linalg.solve([[at_coil, -upper], [-upper, at_wiper]], [series, 0])
    return 20 * np.log10(abs(solved[1]))


@pytest.mark.parametrize("settings", SETTINGS)
def test_the_response_is_that_of_the_circuit_solved_node_by_node(settings):
    one = response(**settings)
    parts = {name: value for name, value in one.settings.items() if name not in ("gauge", "turns", "metal_answers")}
    for frequency in (100.0, 2e3, 4e3, 15e3):
        winding = 2j * np.pi * frequency * one.inductance
        if one.settings["metal_answers"]:
            winding = house_instrument.metal.impedance(frequency) * (one.settings["turns"] / 7600) ** 2
        by_nodes = node_by_node(frequency, resistance=one.resistance, winding=winding, **parts)
        assert level(loaded_coil(**one.settings), frequency) == pytest.approx(by_nodes, abs=1e-4)


@pytest.mark.parametrize("settings", SETTINGS)
def test_marks_stand_on_the_curve(settings):
    data, coil = response_curves(response(**settings)), loaded_coil(**{**HOUSE, **settings})
    frequency, half = data["minus_3_db"]
    assert level(coil, frequency) == pytest.approx(half, abs=1e-6)
    assert half - data["low_level"] == pytest.approx(-3.0103, abs=1e-4)
    if data["peak"] is not None:
        place, top = data["peak"]
        assert level(coil, place) == pytest.approx(top, abs=1e-9)
        assert (level(coil, place * np.array([0.99, 1.01])) < top).all()
    fine = np.geomspace(0.01, 50e3, 9000)      # far below 20 Hz the tone capacitor blocks
    highest = level(coil, fine).max() - data["low_level"]
    assert response(**settings).peak_height == pytest.approx(highest, abs=2e-3)


def test_a_setting_without_a_hump_has_no_peak():
    one = response(tone_setting=0.1)
    assert one.peak_frequency is None and response_curves(one)["peak"] is None


def test_inductance_goes_with_the_square_of_the_turns_and_resistance_with_the_turns():
    assert house_instrument.inductance(3800) == pytest.approx(house_instrument.inductance() / 4)
    assert response(turns=3800).resistance == pytest.approx(response().resistance / 2)
    # the course's reference for the house coil, by another way to compute it: 2.17 H, about 8.6 kohm
    assert house_instrument.inductance() == pytest.approx(2.17, rel=0.01)
    assert response().resistance == pytest.approx(8.6e3, rel=0.02)


@pytest.mark.parametrize("cable, load, peak, height", [
    (0.0, 1e6, 9.1e3, 13.6), (500e-12, 1e6, 3.74e3, 15.8), (500e-12, 200e3, 3.62e3, 7.4), (500e-12, 100e3, 3.24e3, 2.9),
    (900e-12, 200e3, 2.84e3, 8.4)])
def test_reference_curves_of_the_course(cable, load, peak, height):
    """Computed apart from this library for 3 H, 6.5 kohm, 100 pF of its own; printed digits set the tolerance."""
    coil = LoadedCoil(resistance=6.5e3, inductance=3.0, capacitance=100e-12, cable_capacitance=cable,
                      input_resistance=load)
    assert coil.peak()[0] == pytest.approx(peak, rel=6e-3)
    assert coil.peak()[1] - coil.low_frequency_level == pytest.approx(height, abs=0.06)


def test_metal_lowers_the_peak_and_leaves_what_the_lowest_frequencies_show():
    for settings in ({}, {"turns": 4000, "volume": 2e6}, {"cable": 0.0, "own": 20e-12, "volume": 50e3}):
        still, flowing = response(**settings), response(**settings, metal_answers=True)
        assert flowing.peak_height <= still.peak_height and flowing.low_level == pytest.approx(still.low_level)
        assert flowing.inductance == pytest.approx(still.inductance, rel=1e-4)
        assert flowing.undamped == pytest.approx(still.undamped, rel=1e-4)
    assert response(metal_answers=False) == response()


def test_circuit_and_curves_hold_the_values_that_are_drawn():
    data = circuit_and_curves(response(cable=700e-12))
    assert data["circuit"]["cable"] == 700e-12
    assert data["circuit"]["inductance"] == pytest.approx(house_instrument.inductance())
    assert data["response"]["this"].shape == data["response"]["frequency"].shape


# ------------------------------------------------------------------ the meter

def test_readings_of_a_known_coil():
    # by hand for 3 H, 6.5 kohm, 100 pF, from the course's own table: 2.996, 3.032, -15.6 H
    for frequency, read in ((120.0, 2.996), (1e3, 3.032), (10e3, -15.6)):
        one = reading(LoadedCoil(resistance=6.5e3, inductance=3.0, capacitance=100e-12), frequency)
        assert one.inductance == pytest.approx(read, rel=2e-3)
        s = 2j * math.pi * frequency
        by_hand = 1 / (1 / (6.5e3 + s * 3.0) + s * 100e-12)
        assert one.resistance == pytest.approx(by_hand.real)
        assert one.quality == pytest.approx(abs(by_hand.imag / by_hand.real))


def test_the_meters_curve_passes_through_its_marks_and_changes_sign_at_the_self_resonance():
    values = {"gauge": 43, "turns": 6000, "capacitance": 400e-12}
    data = meter_curves(meter(frequency=1e3, **values), **values)
    for frequency, read in data["marks"]:
        assert np.interp(frequency, data["frequency"], data["read"]) == pytest.approx(read, rel=2e-3)
    zero = data["frequency"][np.argmax(data["read"] < 0)]
    # losses shift the change of sign down by half of 1/Q squared, here under 1 %
    assert zero == pytest.approx(meter(frequency=1e3, **values).self_resonance, rel=0.01)


def test_with_metal_the_meter_reads_the_divider_of_the_pickups_impedance():
    """The clips see the wire and the winding's impedance, and its capacitance across them."""
    for frequency in (120.0, 1e3, 10e3):
        one = meter(gauge=44, turns=7600, capacitance=100e-12, frequency=frequency, metal_answers=True)
        winding = one.resistance + house_instrument.metal.impedance(frequency)
        clips = 1 / (1 / winding + 2j * math.pi * frequency * 100e-12)
        assert one.chosen.inductance == pytest.approx(clips.imag / (2 * math.pi * frequency), rel=1e-9)
        assert one.chosen.resistance == pytest.approx(clips.real, rel=1e-9)


def test_with_metal_the_sign_changes_near_the_self_resonance_too():
    for turns, capacitance in ((7600, 100e-12), (10000, 1000e-12), (4000, 300e-12)):
        one = meter(gauge=44, turns=turns, capacitance=capacitance, frequency=1e3, metal_answers=True)
        data = meter_curves(one)
        zero = data["frequency"][np.argmax(data["read"] < 0)]
        assert zero == pytest.approx(one.self_resonance, rel=0.03)


# ------------------------------------------------------------------ pictures, with numbers a person can foresee

def texts_of(artists):
    return [artist.get_text() for artist in artists if isinstance(artist, Text) and artist.get_text()]


def test_response_draws_marks_only_where_the_axis_reaches():
    picture = ResponseOverFrequency(new_figure().add_subplot(), level=(-40, 20))
    curves = {"frequency": [100, 20000], "house": [0, 0], "this": [0, -10], "low_level": -0.5, "house_peak": None}
    always = {"−0.50 dB", "this setting", "house setting"}
    assert set(texts_of(picture.update(**curves, peak=(4000.0, 5.0), minus_3_db=(65e3, -3.5)))) == always | {
        "5.5 dB up, 4.00 kHz"}
    assert set(texts_of(picture.update(**curves, peak=None, minus_3_db=(3000.0, -3.5)))) == always | {
        "3 dB down, 3.00 kHz"}


@pytest.mark.parametrize("low_level, end, side, broken", [(-0.4, 6.8e3, 1, " "), (-1.5, 17e3, -1, "\n")])
def test_words_of_the_response_are_off_its_zero_and_short_at_the_edge(low_level, end, side, broken):
    picture = ResponseOverFrequency(new_figure().add_axes((0.1, 0.1, 0.88, 0.85)), level=(-40, 20))
    drawn = picture.update(frequency=[100, 20000], house=[0, 0], this=[0, -10], low_level=low_level, house_peak=None,
                           peak=None, minus_3_db=(end, -3.5))
    level, = (one for one in drawn if isinstance(one, Text) and one.get_text() == f"−{-low_level:.2f} dB")
    assert (level.get_position()[1] - 40 / 60) * side > 0       # zero is 40 of 60 dB up the axis
    assert any(one.startswith(f"3 dB down,{broken}") for one in texts_of(drawn))


def test_an_arrow_points_from_the_peak_of_the_house_to_this_one_where_they_are_apart():
    picture = ResponseOverFrequency(new_figure().add_subplot(), level=(-40, 20))
    curves = {"frequency": [100, 20000], "house": [0, 0], "this": [0, -10], "low_level": 0.0, "minus_3_db": (9e3, -3.0)}
    arrow = picture.update(**curves, house_peak=(4e3, 5.0), peak=(2e3, 8.0))[0]
    assert isinstance(arrow, Annotation)
    assert_allclose([*arrow.get_position(), *arrow.xy], [4, 5, 2, 8])       # kHz and dB, as the axes are
    for peak in (None, (4.02e3, 5.0)):
        assert not any(isinstance(one, Annotation)
                       for one in picture.update(**curves, house_peak=(4e3, 5.0), peak=peak))


def test_the_meters_picture_keeps_the_sign_and_shows_the_reading():
    figure = new_figure()
    axes, face = figure.subplots(1, 2)
    picture = MeterOverFrequency(axes, face, inductance=100)
    artists = picture.update(frequency=[1e3, 2e3], read=[3.0, -4.0], true=2.0, self_resonance=1500.0,
                             marks=[(120, 2.0), (1e3, 3.0), (2e3, -4.0)], quality=12.0)
    lines = [line.get_xydata() for line in artists if isinstance(line, Line2D)]
    for drawn in ([(1, 3), (2, -4)], [(2, -4)], [(0.12, 2)], [(1, 3)]):     # the curve, the chosen one, two dots; kHz
        assert any(line.shape == np.shape(drawn) and np.allclose(line, drawn) for line in lines)
    assert axes.transData.transform((1, -4))[1] < axes.transData.transform((1, 0))[1]
    assert {"−4 H", "at 2 kHz,  Q_m 12.00", "self-resonance,\n1.50 kHz", "put in: 2.00 H"} <= set(texts_of(artists))


def test_the_circuit_says_its_values_moves_both_wipers_and_marks_what_was_changed():
    circuit = CoilCircuit(new_figure().add_subplot())
    values = dict(resistance=8697.0, inductance=2.164, own=100e-12, volume=250e3, tone=500e3, tone_capacitor=22e-9,
                  cable=500e-12, amplifier=1e6)

    def tips(**settings):
        artists = circuit.update(**values, **settings)
        return [one.get_ydata()[0] for one in artists if isinstance(one, Line2D) and one.get_marker() in "<>"], artists
    (volume, tone), _ = tips(volume_setting=1.0, tone_setting=1.0)
    (lower_volume, upper_tone), artists = tips(volume_setting=0.5, tone_setting=0.5,
                                               changed=("volume_setting", "cable"))
    assert lower_volume < volume and upper_tone > tone      # of the tone's track, what is over the wiper is in use
    said = [one for one in artists if isinstance(one, Text)]
    assert texts_of(said) == [
        "8.7 kΩ", "2.16 H", "100 pF", "500 kΩ\nat 50 %", "22 nF", "250 kΩ\nat 50 %", "500 pF", "1 MΩ"]
    assert [one.get_text() for one in said if one.get_fontweight() == "bold"] == ["250 kΩ\nat 50 %", "500 pF"]
    assert resistance_words(47.0) == "0.047 kΩ" and resistance_words(10e6) == "10 MΩ"


def test_what_is_marked_differs_from_the_first_setting():
    assert circuit_and_curves(response())["circuit"]["changed"] == ()
    changed = circuit_and_curves(response(tone_setting=0.5, cable=0.0))["circuit"]["changed"]
    assert set(changed) == {"tone_setting", "cable"}


# ------------------------------------------------------------------ the panels themselves

def test_the_words_follow_the_setting():
    panel = lesson_06.controls()
    assert "It starts at −0.37 dB, has a peak at 4.19 kHz, +5.41 dB above that start" in alt(panel)
    panel.asked(cable=1500, amplifier=10)
    assert "a cable of 1500 pF and an amplifier of 10 kΩ" in alt(panel)
    panel = lesson_06.controls()
    panel.asked(tone_setting=10)
    assert "peak, above the lowest frequencies: none" in readouts(panel) and "has no peak" in alt(panel)
    panel = lesson_06.coil_and_cable()
    panel.asked(gauge=42)
    assert "turns that fit: 7089: too few" in readouts(panel)
    assert "7600 turns of AWG 42, 5.47 kΩ, 2.16 H and a self-capacitance of 100 pF, with a cable of 500" in alt(panel)
    panel = lesson_06.component_meter()
    assert "negative above" in alt(panel) and "at 10 kHz: 12.71 H" in alt(panel)
    panel.asked(capacitance=20)
    assert "24.19 kHz, beyond the picture's end" in alt(panel) and "negative" not in alt(panel)
    panel.asked(capacitance=100)
    panel.asked(frequency=15000)
    assert "at 15 kHz: −2.337 H, Q_m 21.71: a capacitor to the meter" in alt(panel)
    assert readouts(panel).startswith("the meter reads: −2.337 H Q_m there: 21.71")


def test_the_three_responses_are_pictured_with_their_peaks():
    figure, text = three_responses()
    for load in LOADS:
        place, top = coil_with(load).peak()
        assert f"{load}: peak at {place / 1e3:.{1 if place >= 1e4 else 2}f} kHz, {top:+.1f} dB" in text
    said = {text.get_text() for text in figure.findobj(Text)}
    assert {"10.8 kHz", "4.19 kHz", "no cable,\nno controls"} <= said
