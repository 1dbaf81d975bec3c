"""The panels of lesson 4: a moving string in three traces, the harmonics of its voltage, its sound, turns in a window.

The functions of numbers under them are beside them, in model.py and window.py, their figures in figures.py.
"""
import math
from functools import partial

from lessons_lib.base.units import said
from lessons_lib.lessons.instrument import in_mm, shown
from lessons_lib.lessons.lesson_04.figures import (
    LOWEST_LEVEL,
    four_graphs_figure,
    held_string_figure,
    hiss_figure,
    moving_string_figure,
    sideways_figure,
    sideways_graphs_figure,
    turns_figure,
)
from lessons_lib.lessons.lesson_04.hiss import AT, FEWEST, MAINS, MOST, STRAY, SWUNG, hiss, hiss_curves
from lessons_lib.lessons.lesson_04.model import (
    ASIDE,
    FARTHEST,
    FILMED,
    HEARD_RATE,
    NEAREST,
    PLAIN_THIRD,
    PRESSED,
    SILENCE,
    STILL,
    WIDEST,
    dying_swing,
    graphs_to_choose_from,
    heard,
    heard_held,
    held_instants,
    sideways_graphs,
    sideways_instants,
    swing,
    swing_film,
    swing_instants,
)
from lessons_lib.lessons.lesson_04.window import winding, winding_curves
from lessons_lib.page.controls import Slider, begin
from lessons_lib.page.film import Film
from lessons_lib.page.grips import Grip
from lessons_lib.page.panel import Panel
from lessons_lib.page.sound import Sound, sounds
from lessons_lib.pictures.lenz import lenz_figure


def _turns(instrument):
    return instrument.coil["turns"]


ABOVE_POLE = Slider(name="height", label="height above pole", unit="mm", low=in_mm(NEAREST), high=in_mm(FARTHEST),
                    start=lambda instrument: in_mm(instrument.place["string_height"]), step=0.1)
OFFSET = Slider(name="offset", label="off the middle", unit="mm", low=0, high=in_mm(ASIDE), start=0, step=0.1)
DIRECTION = Slider(name="direction", label="swing direction", unit="°", low=0, high=90, start=0, step=5)
AMPLITUDE = Slider(name="amplitude", label="amplitude", unit="mm", low=0.1, high=in_mm(WIDEST), start=0.6, step=0.05)
SWING_FREQUENCY = Slider(name="frequency", label="frequency", unit="Hz", low=100, high=250, start=200, step=5)
COIL_TURNS = Slider(name="turns", label="turns", unit="", low=1000, high=10000, start=_turns, step=100, whole=True)
WINDOW_TURNS = Slider(name="turns", label="turns", unit="", low=1000, high=50000, start=_turns, step=100, whole=True)
HISS_TURNS = Slider(name="turns", label="turns", unit="", low=FEWEST, high=MOST, start=_turns, logarithmic=True)
AMPLIFIER = Slider(name="density", label="amplifier's hiss", unit="nV/√Hz", low=1, high=50, start=10, logarithmic=True)
WIRE_GAUGE = Slider(name="gauge", label="wire gauge", unit="AWG", low=40, high=46, step=1,
                    start=lambda instrument: instrument.gauge)
_FILM = 2.0                     # s
_LOUDEST = 0.225, 0.135         # V of the house's coil, at the ends of all sliders: moving string, sideways


def _way(direction, offset):
    """How the string swings, in words."""
    degrees = round(math.degrees(direction))
    way = {0: "up and down", 90: "sideways"}.get(degrees, f"at {degrees}°")
    off = f"{said(offset, 'mm', '.1f')} off" if offset else "over"
    return f"swings {way}, {off} the middle of the pole"


def opening(instrument=None):
    """Panel without sliders: a string that is held near its pole and then let go, as a film and as a sound."""
    instrument = shown(instrument)
    figure, draw = held_string_figure(instrument)
    return Panel(
        title="Held near the magnet, then let go: when does the coil notice?",
        compute=partial(held_instants, instrument), data=lambda instants: instants[0],
        figure=figure, draw=draw,
        film=lambda instants: Film(frames=tuple(instants), seconds=6.0,
                                   words=f"{said(FILMED, 'ms', 'g')} take 6 s; held for {said(STILL, 'ms', 'g')}"),
        sound=lambda _: Sound(
            signals={f"the voltage: held for {said(SILENCE, 's', 'g')}, then let go": heard_held(instrument)},
            rate=HEARD_RATE, loudest=_LOUDEST[0] * instrument.louder),
        message=lambda instants: (
            f"String {PLAIN_THIRD}, end-on over its pole, pressed {said(PRESSED, 'mm', '.1f')} towards it; two graphs "
            f"on one time axis, the string's displacement and the coil's voltage. For {said(STILL, 'ms', 'g')} it is "
            "held, and the coil gives 0.0 mV; let go, the string swings, and the voltage swings with it, up to "
            f"{said(max(instants[-1]['traces'][2]), 'mV', '.0f')}."))


def moving_string(sheet=None, instrument=None):
    """Panel: displacement, flux linkage and voltage of a swinging string on one time axis."""
    instrument = shown(instrument)
    figure, draw, over_pole = moving_string_figure(instrument)

    def film(_, **motion):
        frames, length = swing_film(**motion, instrument=instrument)
        return Film(frames=tuple(frames), seconds=_FILM,
                    words=f"{said(length, 'ms', '.3g')} take {said(_FILM, 's', 'g')}")

    return Panel(
        title="The voltage is the slope",
        sliders=begin(instrument, ABOVE_POLE, OFFSET, COIL_TURNS, DIRECTION, AMPLITUDE, SWING_FREQUENCY),
        compute=partial(swing, instrument=instrument), figure=figure, draw=draw, sheet=sheet, prediction="p1",
        data=lambda one, **motion: swing_instants([one.highest_linkage_time], **motion, instrument=instrument)[0],
        film=film, grips=(Grip(over_pole, x="offset", y="height"),),
        sound=lambda _, **motion: Sound(
            signals={"the voltage of this swing, dying away": dying_swing(**motion, instrument=instrument)},
            rate=HEARD_RATE, loudest=_LOUDEST[0] * instrument.louder),
        on_paper=({}, {"frequency": 100.0}, {"height": 4e-3}),
        shown=lambda one: {
            "voltage at highest linkage": said(one.at_highest_linkage, "mV", "+z.1f"),
            "peak": said(one.peak, "mV", ".1f"), "peak to peak": said(one.peak_to_peak, "mV", ".1f"),
            "RMS": said(one.rms, "mV", ".1f"), "linkage, lowest to highest": said(one.linkage_swing, "µWb", ".1f")},
        message=lambda _, *, direction, offset, **__: (
            "A string end-on over its magnet in a coil; beside it displacement, flux linkage and voltage on one time "
            "axis: the voltage is near zero where the linkage is highest and its tangent is level, and largest where "
            f"the linkage is steepest. The string {_way(direction, offset)} at {{frequency}}. The linkage moves by "
            "{linkage, lowest to highest} from lowest to highest; the voltage reaches {peak} and its RMS value is "
            "{RMS}."))


def sideways(sheet=None, instrument=None):
    """Panel: the harmonics in the voltage of a string that swings up and down, sideways, or between."""
    instrument = shown(instrument)
    figure, draw, over_pole = sideways_figure(instrument)
    instants = partial(sideways_instants, instrument=instrument)
    at_200_hz = {"frequency": 200.0, "turns": instrument.coil["turns"], "instrument": instrument}

    def sound(one, **motion):
        voltage, louder = dying_swing(**motion, **at_200_hz), round(-max(one.levels))
        signals = {"the voltage of this swing, dying away": voltage}
        if louder > 0:
            signals[f"the same, made {said(louder, 'dB', 'g')} louder"] = voltage * 10 ** (louder / 20)
        return Sound(signals=signals, rate=HEARD_RATE, loudest=_LOUDEST[1] * instrument.louder)

    return Panel(
        title="Sideways: faint, and an octave up",
        sliders=begin(instrument, ABOVE_POLE, OFFSET, DIRECTION, AMPLITUDE),
        compute=partial(swing, **at_200_hz), figure=figure, draw=draw, sheet=sheet, prediction="p2",
        data=lambda one, **motion: instants(one, [0.0], **motion)[0],
        film=lambda one, **motion: Film(frames=tuple(instants(one, [swings / 24 for swings in range(48)], **motion)),
                                        seconds=_FILM, words=f"two swings, 10 ms, take {said(_FILM, 's', 'g')}"),
        sound=sound, grips=(Grip(over_pole, x="offset", y="height"),),
        on_paper=({}, {"direction": math.pi / 2}, {"direction": math.pi / 2, "offset": 2e-3}),
        shown=lambda one: {"highest": f"harmonic {one.levels.argmax() + 1}"}
        | {f"harmonic {n}": said(level, "dB", "+.1f") if level > LOWEST_LEVEL else
           f"under {said(LOWEST_LEVEL, 'dB', '.0f')}" for n, level in enumerate(one.levels[:4], start=1)}
        | {"peak at 200 Hz": said(one.peak, "mV", ".1f")},
        message=lambda _, *, direction, offset, **__: (
            f"Levels of the harmonics in the voltage of a string that {_way(direction, offset)}, relative to harmonic "
            "1 of the same swing up and down over the middle: harmonic 1, at the string's own frequency, {harmonic 1}; "
            "harmonic 2, at twice that frequency, {harmonic 2}; harmonic 3 {harmonic 3}. Peak voltage at 200 Hz: "
            "{peak at 200 Hz}."))


def hear(instrument=None):
    """Players for the voltage of a string that swings up and down and sideways, on one level scale."""
    return sounds(heard(shown(instrument)), HEARD_RATE)


def turns_in_a_window(sheet=None, instrument=None):
    """Panel: more turns in the coil's window: resistance, wire, inductance, and what reaches the amplifier."""
    instrument = shown(instrument)
    figure, draw = turns_figure(instrument)
    whose = instrument.whose
    at_100_hz, at_5_khz = (f"at {frequency}, relative to {whose} coil" for frequency in ("100 Hz", "5 kHz"))

    def message(coil, **_):
        fits = "" if coil.fits else " They do not fit: there is room for {turns that fit} of this wire."
        return ("A coil's window in cut, filled with its wires. In a window of fixed size resistance grows with the "
                "square of the turns if the wire just fills it. {turns} turns take {wire} of wire, "
                f"{'have' if coil.fits else 'would have'} {{resistance, this wire}} with this wire, {{resistance, "
                f"window just full}} with the one that just fills the window, and {{inductance}}.{fits} At the "
                f"amplifier, relative to the {whose} coil, they give {{{at_100_hz}}} at 100 Hz and {{{at_5_khz}}} at "
                "5 kHz.")

    return Panel(
        title="Many turns: bass up, treble down", sliders=begin(instrument, WINDOW_TURNS, WIRE_GAUGE),
        compute=partial(winding, instrument=instrument), data=partial(winding_curves, instrument=instrument),
        figure=figure, draw=draw, sheet=sheet, prediction="p3", message=message,
        on_paper=({"turns": 5000}, {"turns": 10000}, {"turns": 50000}),
        shown=lambda coil: {
            "resistance, window just full": said(coil.filling_resistance, "kΩ", ".2f"),
            "resistance, this wire": said(coil.resistance, "kΩ", ".2f"),
            "turns that fit": f"{coil.turns_that_fit}", "room they take": said(coil.filled, "%", ".0f"),
            "wire": said(coil.wire_length, "m", ".0f"),
            "wire that just fills": said(coil.filling_diameter, "µm", ".1f"),
            f"open coil, relative to {whose} coil": f"× {coil.voltage:.2f}",
            "inductance": said(coil.inductance, "H", ".3g"),
            "peak with cable": said(coil.peak_frequency, "kHz", ".2f") if coil.peak_frequency else "none",
            at_100_hz: said(coil.level_at_100_hz, "dB", "+z.1f"), at_5_khz: said(coil.level_at_5_khz, "dB", "+z.1f")})


def thousands_of_turns(sheet=None, instrument=None):
    """Panel: signal, hum and hiss over the turns of a window that is just full, and the signal's level above them."""
    instrument = shown(instrument)
    figure, draw = hiss_figure(instrument)
    return Panel(
        title="Why thousands of turns", sliders=begin(instrument, HISS_TURNS, AMPLIFIER),
        compute=partial(hiss, instrument=instrument), data=partial(hiss_curves, instrument=instrument),
        figure=figure, draw=draw, sheet=sheet, prediction="p4",
        on_paper=({"turns": 100}, {}, {"turns": 50000}),
        shown=lambda one: {
            "signal above both hisses": said(one.above_both, "dB", ".1f"),
            "above the coil's hiss alone": said(one.above_coil, "dB", ".1f"),
            "above hum": said(one.above_hum, "dB", ".1f"), "signal": said(one.signal, "mV", ".3g"),
            "hum": said(one.hum, "mV" if one.hum >= 1e-3 else "µV", ".3g"),
            "hiss of the coil": said(one.coil, "µV", ".3g"), "hiss of the amplifier": said(one.amplifier, "µV", ".3g"),
            "both hisses alike at": f"{one.alike_in_words} turns"},
        message=lambda _, *, turns, **__: (
            f"Voltages at the amplifier, RMS, over the turns of an open coil whose window is just full. With {turns:g} "
            f"turns: signal {{signal}} (string {PLAIN_THIRD}, swinging {said(SWUNG, 'mm', 'g')} at "
            f"{said(AT, 'Hz', 'g')}), hum {{hum}} ({said(STRAY, 'µT', 'g')} at {said(MAINS, 'Hz', 'g')}), hiss of the "
            "coil {hiss of the coil}, of the amplifier {hiss of the amplifier} (20 Hz to 20 kHz). Below, the signal's "
            "level: {above the coil's hiss alone} above the coil's hiss and {above hum} above hum, whatever the turns; "
            "{signal above both hisses} above both hisses together, which bends where they are alike, at {both hisses "
            "alike at}."))


def four_graphs():
    """Panel without sliders: a graph of flux linkage and four graphs of voltage to choose from; use its still()."""
    figure, draw = four_graphs_figure()
    return Panel(
        title="Which voltage?", compute=graphs_to_choose_from, figure=figure, draw=draw,
        message=(
            "Flux linkage against time: zero until 1 ms, rising evenly to 60 µWb at 3 ms, flat until 5 ms, falling "
            "evenly to zero at 6 ms. Four voltages to choose from, below it on the same time axis: (a) rises to 60 mV, "
            "stays, falls, like the linkage; (b) +30 mV from 1 to 3 ms, zero, −60 mV from 5 to 6 ms; (c) −30 mV from 1 "
            "to 3 ms, zero, +60 mV from 5 to 6 ms; (d) −45 mV from 1 to 3 ms, zero, +45 mV from 5 to 6 ms."))


def four_sideways():
    """Panel without sliders: a sideways swing and four graphs of voltage to choose from; use its still()."""
    figure, draw = sideways_graphs_figure()
    return Panel(
        title="Which voltage, sideways?", compute=sideways_graphs, figure=figure,
        draw=draw, message=(
            "Left: flux linkage against the string's place aside, highest over the middle and lower by 2.0 µWb at 0.6 "
            "mm to either side. Right, over two swings: the string's place, a sine that begins over the middle; below "
            "it four voltages to choose from: (a) zero all the time; (b) two waves in each swing, highest over the "
            "middle and lowest at the ends; (c) one wave in each swing, highest and lowest over the middle; (d) two "
            "waves in each swing, zero over the middle and at the ends. Waves reach 2.5 mV."))


def three_rings():
    """Panel without sliders: three closed coils, for Lenz's rule step by step; use its still()."""
    figure, draw = lenz_figure()
    return Panel(
        title="Which way round?", compute=dict, figure=figure, draw=draw,
        message=(
            "Three closed rings of wire, seen from a little above. 1. A magnet above its ring, north end down, comes "
            "down: its flux passes down through the ring, the current's own flux points up, and at the front of the "
            "ring the current flows to the right. 2. The same magnet goes up and away: its flux passes down, the "
            "current's own flux points down, and the current is not drawn. 3. A rod magnet stands in a closed coil, "
            "north end on top; a string over it moves up and away; neither current nor flux is drawn."))
