"""The panels of lesson 6: a coil with its cable, the whole circuit, a component meter; and three loads to hear.

The functions of numbers under them are beside them, in model.py and loads.py.
"""
from functools import partial

from lessons_lib.base.units import resistance_words, said
from lessons_lib.lessons.instrument import shown
from lessons_lib.lessons.lesson_06.loads import hear_three_loads
from lessons_lib.lessons.lesson_06.model import (
    HIGHEST,
    circuit_and_curves,
    meter,
    meter_curves,
    response,
    response_curves,
)
from lessons_lib.page.controls import Choice, Slider, begin
from lessons_lib.page.panel import Panel
from lessons_lib.pictures.coil_circuit import CoilCircuit
from lessons_lib.pictures.response import MeterOverFrequency, ResponseOverFrequency
from lessons_lib.pictures.style import new_figure

__all__ = ["circuit", "coil_and_cable", "component_meter", "controls", "hear_three_loads"]

GAUGE = Choice(name="gauge", label="wire gauge", options={f"AWG {gauge}": gauge for gauge in (42, 43, 44)},
               start=lambda instrument: instrument.gauge)
TURNS = Slider(name="turns", label="turns", unit="", low=4000, high=10000, step=100, whole=True,
               start=lambda instrument: instrument.coil["turns"])
SELF_CAPACITANCE = Slider(name="own", label="self-capacitance", unit="pF", low=20, high=300, start=100, step=10)
CABLE = Slider(name="cable", label="cable", unit="pF", low=0, high=1500, start=500, step=50)
VOLUME = Slider(name="volume", label="volume control", unit="kΩ", low=50, high=2000, start=250, logarithmic=True)
VOLUME_SETTING = Slider(name="volume_setting", label="volume set to", unit="%", low=5, high=100, start=100, step=5)
TONE = Slider(name="tone", label="tone control", unit="kΩ", low=50, high=2000, start=500, logarithmic=True)
TONE_SETTING = Slider(name="tone_setting", label="tone set to", unit="%", low=0, high=100, start=100, step=5)
AMPLIFIER = Slider(name="amplifier", label="amplifier's input", unit="kΩ", low=10, high=10000, start=1000,
                   logarithmic=True)
CAPACITANCE = Slider(name="capacitance", label="capacitance across it", unit="pF", low=20, high=1000, start=100,
                     step=10)
METER_FREQUENCY = Slider(name="frequency", label="meter's frequency", unit="Hz", low=100, high=20000, start=10000,
                         logarithmic=True)


def _peak_words(one):
    if one.peak_frequency is None:
        return "none"
    return f"{said(one.peak_frequency, 'kHz', '.2f')}, {said(one.peak_height, 'dB', '+z.2f')}"


def _alt_of_response(one, instrument):
    first = response(instrument=instrument)
    peak = f"has a peak at {_peak_words(one)} above that start," if one.peak_frequency else "has no peak,"
    return ("Level at the amplifier, relative to the induced voltage, against frequency. It starts at "
            f"{said(one.low_level, 'dB', '+z.2f')}, {peak} and is 3 dB below the start at "
            f"{said(one.minus_3_db, 'kHz', '.2f')}. The {instrument.whose} setting, in grey, has its peak at "
            f"{_peak_words(first)}.")


def _alt_of_coil(one, *, gauge, turns, own, cable, volume, instrument):
    return (f"A coil of {turns:.0f} turns of AWG {gauge}, {said(one.resistance, 'kΩ', '.2f')}, "
            f"{said(one.inductance, 'H', '.2f')} and a self-capacitance of {said(own, 'pF', '.0f')}, with a "
            f"cable of {said(cable, 'pF', '.0f')} and a volume control of "
            f"{resistance_words(volume)}. " + _alt_of_response(one, instrument))


def response_figure(instrument):
    """A figure and the function that draws response_curves into it."""
    figure = new_figure(width=8.0, height=4.2)
    picture = ResponseOverFrequency(figure.add_axes((0.09, 0.14, 0.88, 0.83)), level=(-40, 20),
                                    house=f"{instrument.whose} setting")
    return figure, lambda data: picture.update(**data)


def coil_and_cable(sheet=None, instrument=None):
    """Panel: the response of a coil of other turns and wire, with another cable and another volume control."""
    instrument = shown(instrument)
    figure, draw = response_figure(instrument)

    def readouts(one):
        fits = "" if one.fits else ": too few"
        return {"resistance": said(one.resistance, "kΩ", ".2f"), "inductance": said(one.inductance, "H", ".2f"),
                "turns that fit": f"{one.turns_that_fit}{fits}", "undamped resonance": said(one.undamped, "kHz", ".2f"),
                "peak, above the lowest frequencies": _peak_words(one),
                "at the lowest frequencies": said(one.low_level, "dB", "+z.2f"),
                "3 dB down at": said(one.minus_3_db, "kHz", ".2f"), "Q": f"{one.q_factor:.2f}"}
    return Panel(sliders=begin(instrument, GAUGE, TURNS, SELF_CAPACITANCE, CABLE, VOLUME),
                 compute=partial(response, instrument=instrument),
                 data=partial(response_curves, instrument=instrument), figure=figure, draw=draw, sheet=sheet,
                 prediction="p1", shown=readouts, message=partial(_alt_of_coil, instrument=instrument))


def controls_figure(instrument):
    """A figure and the function that draws circuit_and_curves into it."""
    figure = new_figure(width=8.0, height=6.4)
    circuit = CoilCircuit(figure.add_axes((0.01, 0.60, 0.98, 0.40)))
    curve = ResponseOverFrequency(figure.add_axes((0.09, 0.09, 0.88, 0.49)), level=(-40, 20),
                                  house=f"{instrument.whose} setting")
    return figure, lambda data: circuit.update(**data["circuit"]) + curve.update(**data["response"])


def circuit(instrument=None):
    """Panel without sliders: the circuit with its first values; use its still()."""
    instrument = shown(instrument)
    figure = new_figure(width=8.0, height=2.56)
    picture = CoilCircuit(figure.add_axes((0.01, 0.0, 0.98, 1.0)))
    return Panel(
        sliders=(), compute=partial(response, instrument=instrument), figure=figure,
        data=lambda one: circuit_and_curves(one, instrument)["circuit"],
        draw=lambda data: picture.update(**data), shown=lambda _: {},
        message=lambda one: (
            f"The coil is drawn as the induced voltage in series with {resistance_words(one.resistance)} and "
            f"{said(one.inductance, 'H', '.3g')}. Its self-capacitance of 100 pF, the tone control with its capacitor, "
            "and the track of the volume control are in parallel across its ends. From the wiper on, the cable's "
            "500 pF and the amplifier's 1 MΩ are across the output."))


def controls(sheet=None, instrument=None):
    """Panel: the whole circuit with its values, and its response, for two controls, cable and amplifier."""
    instrument = shown(instrument)
    figure, draw = controls_figure(instrument)

    def alt(one, *, cable, amplifier, **controls):
        volume, tone = (f"{resistance_words(controls[name])} at {said(controls[name + '_setting'], '%', '.0f')}"
                        for name in ("volume", "tone"))
        return (f"The coil's circuit, {resistance_words(one.resistance)} and {said(one.inductance, 'H', '.3g')} with "
                f"its self-capacitance, between a tone control of {tone}, a volume control of {volume}, a cable of "
                f"{said(cable, 'pF', '.0f')} and an amplifier of "
                f"{resistance_words(amplifier)}. " + _alt_of_response(one, instrument))
    return Panel(
        sliders=(VOLUME, VOLUME_SETTING, TONE, TONE_SETTING, CABLE, AMPLIFIER),
        compute=partial(response, instrument=instrument), data=partial(circuit_and_curves, instrument=instrument),
        figure=figure, draw=draw, sheet=sheet, prediction="p2",
        shown=lambda one: {
            "peak, above the lowest frequencies": _peak_words(one),
            "at the lowest frequencies": said(one.low_level, "dB", "+z.2f"),
            "at 10 kHz": said(one.treble_level, "dB", "+z.2f"),
            "3 dB down at": said(one.minus_3_db, "kHz", ".2f"), "Q": f"{one.q_factor:.2f}"},
        message=alt)


def meter_figure():
    """A figure and the function that draws meter_curves into it."""
    figure = new_figure(width=8.0, height=4.2)
    picture = MeterOverFrequency(figure.add_axes((0.09, 0.14, 0.88, 0.83)), inductance=(0.05, 500))
    return figure, lambda data: picture.update(**data)


def _inductance_words(one):
    kind = "" if one.inductance > 0 else ": a capacitor to the meter"
    return said(one.inductance, "H", ".4g") + f", Q_m {one.quality:.2f}{kind}"


def _alt_of_meter(one, *, frequency, **_):
    place = f"the self-resonance at {said(one.self_resonance, 'kHz', '.2f')}"
    way = (f"about true far below {place}, too high when coming near it, negative above"
           if one.self_resonance < HIGHEST else f"rising towards {place}, beyond the picture's end at 20 kHz")
    return (f"The inductance that a component meter reads, against its frequency: {way}. "
            f"Put in: {said(one.inductance, 'H', '.4g')}. "
            f"Read at 120 Hz: {_inductance_words(one.at_120)}; at 1 kHz: {_inductance_words(one.at_1000)}; at "
            + (said(frequency, "kHz", ".4g") if frequency >= 1e3 else said(frequency, "Hz", ".0f"))
            + f": {_inductance_words(one.chosen)}.")


def component_meter(sheet=None, instrument=None):
    """Panel: the inductance that a component meter reads on the coil alone, against the meter's frequency."""
    instrument = shown(instrument)
    figure, draw = meter_figure()
    return Panel(
        sliders=begin(instrument, GAUGE, TURNS, CAPACITANCE, METER_FREQUENCY),
        compute=partial(meter, instrument=instrument), data=meter_curves, figure=figure, draw=draw, sheet=sheet,
        prediction="p3",
        shown=lambda one: {
            "put in": f"{said(one.inductance, 'H', '.4g')}, {said(one.resistance, 'kΩ', '.2f')}",
            "self-resonance": said(one.self_resonance, "kHz", ".2f"), "at 120 Hz": _inductance_words(one.at_120),
            "at 1 kHz": _inductance_words(one.at_1000),
            f"at {said(one.chosen.frequency, 'Hz', '.0f')}": _inductance_words(one.chosen),
            "resistance there": said(one.chosen.resistance, "kΩ", ".4g")},
        message=_alt_of_meter)
