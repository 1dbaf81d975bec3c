"""The panels of lesson 4: a moving string in three traces, the harmonics of its voltage, its sound, turns in a window.

The functions of numbers under them are beside them, in model.py.
"""
import math
from functools import partial

from lessons_lib.base.units import said
from lessons_lib.lessons.instrument import in_mm, shown
from lessons_lib.lessons.lesson_04.model import (
    ASIDE,
    FARTHEST,
    HARMONICS,
    NEAREST,
    SHOWN,
    WIDEST,
    graphs_to_choose_from,
    heard,
    swing,
    swing_at_200_hz,
    swing_traces,
    winding,
    winding_curves,
)
from lessons_lib.page.controls import Slider, begin
from lessons_lib.page.panel import Panel
from lessons_lib.page.sound import QUIET, sounds
from lessons_lib.pictures.choices import FluxAndFourVoltages
from lessons_lib.pictures.style import new_figure
from lessons_lib.pictures.three_traces import LineLevels, ThreeTraces
from lessons_lib.pictures.turns import OutputOverFrequency, ResistanceOverTurns


def _turns(instrument):
    return instrument.coil["turns"]


ABOVE_POLE = Slider(name="height", label="height above pole", unit="mm", low=in_mm(NEAREST), high=in_mm(FARTHEST),
                    start=lambda instrument: in_mm(instrument.place["string_height"]), step=0.1)
OFFSET = Slider(name="offset", label="off the middle", unit="mm", low=0, high=in_mm(ASIDE), start=0, step=0.1)
DIRECTION = Slider(name="direction", label="swing direction", unit="°", low=0, high=90, start=0, step=5)
AMPLITUDE = Slider(name="amplitude", label="amplitude", unit="mm", low=0.1, high=in_mm(WIDEST), start=0.6, step=0.05)
SWING_FREQUENCY = Slider(name="frequency", label="frequency", unit="Hz", low=80, high=300, start=200, step=5)
COIL_TURNS = Slider(name="turns", label="turns", unit="", low=1000, high=10000, start=_turns, step=100, whole=True)
WINDOW_TURNS = Slider(name="turns", label="turns", unit="", low=1000, high=50000, start=_turns, step=100, whole=True)
WIRE_GAUGE = Slider(name="gauge", label="wire gauge", unit="AWG", low=40, high=46, step=1,
                    start=lambda instrument: instrument.gauge)
LOWEST_LEVEL = -60.0


def _level_words(level):
    return said(level, "dB", "+.1f") if level > LOWEST_LEVEL else f"under {said(LOWEST_LEVEL, 'dB', '.0f')}"


def _way(direction, offset):
    """How the string swings, in words."""
    degrees = round(math.degrees(direction))
    way = {0: "up and down", 90: "sideways"}.get(degrees, f"at {degrees}°")
    off = f"{said(offset, 'mm', '.1f')} off" if offset else "over"
    return f"swings {way}, {off} the middle of the pole"


def moving_string_figure(instrument):
    """A figure and the function that draws swing_traces into it."""
    figure, louder = new_figure(width=8.0, height=6.2), instrument.louder
    rows = [figure.add_axes((0.11, bottom, 0.87, 0.26)) for bottom in (0.72, 0.41, 0.10)]
    traces = ThreeTraces(*rows, time=SHOWN, displacement=0.9e-3, linkage=160e-6 * louder, voltage=250e-3 * louder)
    return figure, lambda data: traces.update(**data)


def moving_string(sheet=None, instrument=None):
    """Panel: displacement, flux linkage and voltage of a swinging string on one time axis."""
    instrument = shown(instrument)
    figure, draw = moving_string_figure(instrument)
    return Panel(
        sliders=begin(instrument, ABOVE_POLE, OFFSET, COIL_TURNS, DIRECTION, AMPLITUDE, SWING_FREQUENCY),
        compute=partial(swing, instrument=instrument),
        data=lambda _, **motion: swing_traces(**motion, instrument=instrument), figure=figure, draw=draw, sheet=sheet,
        prediction="p1",
        shown=lambda one: {
            "linkage, lowest to highest": said(one.linkage_swing, "µWb", ".1f"), "peak": said(one.peak, "mV", ".1f"),
            "peak to peak": said(one.peak_to_peak, "mV", ".1f"), "RMS": said(one.rms, "mV", ".1f"),
            "voltage at the dotted line": said(one.at_highest_linkage, "mV", "+z.1f"),
            **{f"harmonic {n}": _level_words(level) for n, level in enumerate(one.levels[:3], start=1)}},
        message=lambda one, *, direction, offset, frequency, **_: (
            "Displacement, flux linkage and voltage on one time axis: the voltage is near zero where the linkage is "
            f"highest and largest where the linkage is steepest. The string {_way(direction, offset)} at "
            f"{said(frequency, 'Hz', '.0f')}. The linkage moves by {said(one.linkage_swing, 'µWb', '.1f')} from "
            f"lowest to highest; the voltage reaches {said(one.peak, 'mV', '.1f')} and its RMS value is "
            f"{said(one.rms, 'mV', '.1f')}."))


def lines_figure():
    """A figure and the function that draws the levels of a swing's harmonics into it."""
    figure = new_figure(width=8.0, height=3.8)
    bars = LineLevels(figure.add_axes((0.12, 0.16, 0.86, 0.80)), count=HARMONICS, floor=LOWEST_LEVEL, top=12,
                      reference="harmonic 1, up and down")
    return figure, lambda levels: bars.update(levels=levels)


def sideways(sheet=None, instrument=None):
    """Panel: the harmonics in the voltage of a string that swings up and down, sideways, or between."""
    instrument = shown(instrument)
    figure, draw = lines_figure()
    return Panel(
        sliders=begin(instrument, ABOVE_POLE, OFFSET, DIRECTION, AMPLITUDE),
        compute=partial(swing_at_200_hz, instrument=instrument), data=lambda one, **_: one.levels,
        figure=figure, draw=draw, sheet=sheet, prediction="p2",
        shown=lambda one: {f"harmonic {n}": _level_words(level) for n, level in enumerate(one.levels[:4], start=1)}
        | {"peak at 200 Hz": said(one.peak, "mV", ".1f")},
        message=lambda one, *, direction, offset, **_: (
            f"Levels of the harmonics in the voltage of a string that {_way(direction, offset)}, relative to harmonic "
            "1 of the same swing up and down over the middle: harmonic 1, at the string's own frequency, "
            f"{_level_words(one.levels[0])}; harmonic 2, at twice that frequency, {_level_words(one.levels[1])}; "
            f"harmonic 3 {_level_words(one.levels[2])}. Peak voltage at 200 Hz: {said(one.peak, 'mV', '.1f')}."))


def hear(level=QUIET, instrument=None):
    """Players for the voltage of a string that swings up and down and sideways, on one level scale."""
    return sounds(heard(instrument=shown(instrument)), 44100, level=level)


def turns_figure(instrument):
    """A figure and the function that draws winding_curves into it."""
    figure = new_figure(width=8.0, height=4.0)
    resistance = ResistanceOverTurns(figure.add_axes((0.095, 0.15, 0.375, 0.82)), turns=(1e3, 5e4),
                                     resistance=(50, 1e6))
    output = OutputOverFrequency(figure.add_axes((0.59, 0.15, 0.375, 0.82)), frequency=(100, 1e4), level=(-40, 30),
                                 house=f"{instrument.whose} coil")
    return figure, lambda data: resistance.update(**data["resistance"]) + output.update(**data["output"])


def _winding_words(coil, *, whose, **_):
    low, high = (said(level, "dB", "+z.1f") for level in (coil.level_at_100_hz, coil.level_at_5_khz))
    fits = "" if coil.fits else f" They do not fit: there is room for {coil.turns_that_fit} of this wire."
    return ("In a window of fixed size resistance grows with the square of the turns if the wire just fills it. "
            f"{coil.turns} turns take {said(coil.wire_length, 'm', '.0f')} of wire, "
            f"{'have' if coil.fits else 'would have'} {said(coil.resistance, 'kΩ', '.2f')} with this wire, "
            f"{said(coil.filling_resistance, 'kΩ', '.2f')} with the one that just fills the window, and "
            f"{said(coil.inductance, 'H', '.3g')}.{fits} At the amplifier, relative to the {whose} coil, they give "
            f"{low} at 100 Hz and {high} at 5 kHz.")


def turns_in_a_window(sheet=None, instrument=None):
    """Panel: more turns in the coil's window: resistance, wire, inductance, and what reaches the amplifier."""
    instrument = shown(instrument)
    figure, draw = turns_figure(instrument)
    return Panel(
        sliders=begin(instrument, WINDOW_TURNS, WIRE_GAUGE), compute=partial(winding, instrument=instrument),
        data=partial(winding_curves, instrument=instrument), figure=figure, draw=draw, sheet=sheet, prediction="p3",
        shown=lambda coil: {
            "turns that fit": f"{coil.turns_that_fit}" + ("" if coil.fits else ": it does not fit"),
            "wire": said(coil.wire_length, "m", ".0f"), "resistance": said(coil.resistance, "kΩ", ".2f"),
            "wire that just fills": said(coil.filling_diameter, "µm", ".1f"),
            "resistance with that": said(coil.filling_resistance, "kΩ", ".2f"),
            "open-circuit voltage": f"{coil.voltage:.2f} times the {instrument.whose} coil's",
            "inductance": said(coil.inductance, "H", ".3g"),
            "peak with cable": said(coil.peak_frequency, "kHz", ".2f") if coil.peak_frequency else "none",
            f"at 5 kHz, relative to {instrument.whose} coil": said(coil.level_at_5_khz, "dB", "+z.1f")},
        message=partial(_winding_words, whose=instrument.whose))


def four_graphs():
    """Panel without sliders: a graph of flux linkage and four graphs of voltage to choose from; use its still()."""
    figure = new_figure(width=8.0, height=4.6)
    picture = FluxAndFourVoltages(figure, time=8e-3, linkage=75e-6, voltage=75e-3)
    return Panel(
        sliders=(), compute=graphs_to_choose_from, data=lambda graphs: graphs, shown=lambda _: {}, figure=figure,
        draw=lambda data: picture.update(**data),
        message=lambda _: (
            "Flux linkage against time: zero until 1 ms, rising evenly to 60 µWb at 3 ms, flat until 5 ms, falling "
            "evenly to zero at 6 ms. Four voltages to choose from: (a) rises to 60 mV, stays, falls, like the "
            "linkage; (b) +30 mV from 1 to 3 ms, zero, −60 mV from 5 to 6 ms; (c) −30 mV from 1 to 3 ms, zero, +60 mV "
            "from 5 to 6 ms; (d) −45 mV from 1 to 3 ms, zero, +45 mV from 5 to 6 ms."))
