"""The panels of lesson 6: a coil with its cable, the whole circuit, a component meter; and three loads to hear.

The functions of numbers under them are in lesson_06_numbers and lesson_06_loads.
"""
from functools import partial

from lessons_lib.panels.controls import Choice, Slider, begin
from lessons_lib.panels.instrument import shown
from lessons_lib.panels.lesson_06_loads import hear_three_loads
from lessons_lib.panels.lesson_06_numbers import (
    HIGHEST,
    circuit_and_curves,
    meter,
    meter_curves,
    response,
    response_curves,
)
from lessons_lib.panels.panel import Panel
from lessons_lib.pictures.coil_circuit import CoilCircuit, resistance_words
from lessons_lib.pictures.response import MeterOverFrequency, ResponseOverFrequency
from lessons_lib.pictures.style import new_figure, signed

__all__ = ["circuit", "coil_and_cable", "component_meter", "controls", "hear_three_loads"]

PICO, KILO = 1e-12, 1e3

GAUGE = Choice(name="gauge", label="wire gauge", options={f"AWG {gauge}": gauge for gauge in (42, 43, 44)},
               start=lambda instrument: instrument.gauge)
TURNS = Slider(name="turns", label="turns", unit="", low=4000, high=10000, step=100, whole=True,
               start=lambda instrument: instrument.coil["turns"])
OWN = Slider(name="own", label="self-capacitance", unit="pF", low=20, high=300, start=100, step=10, si=PICO)
CABLE = Slider(name="cable", label="cable", unit="pF", low=0, high=1500, start=500, step=50, si=PICO)
VOLUME = Slider(name="volume", label="volume control", unit="kΩ", low=50, high=2000, start=250, si=KILO,
                logarithmic=True)
VOLUME_SETTING = Slider(name="volume_setting", label="volume set to", unit="%", low=5, high=100, start=100, step=5,
                        si=1e-2)
TONE = Slider(name="tone", label="tone control", unit="kΩ", low=50, high=2000, start=500, si=KILO, logarithmic=True)
TONE_SETTING = Slider(name="tone_setting", label="tone set to", unit="%", low=0, high=100, start=100, step=5, si=1e-2)
AMPLIFIER = Slider(name="amplifier", label="amplifier's input", unit="kΩ", low=10, high=10000, start=1000, si=KILO,
                   logarithmic=True)
CAPACITANCE = Slider(name="capacitance", label="capacitance across it", unit="pF", low=20, high=1000, start=100,
                     step=10, si=PICO)
FREQUENCY = Slider(name="frequency", label="meter's frequency", unit="Hz", low=100, high=20000, start=10000,
                   logarithmic=True)


def _db(value, digits=2):
    return signed(f"{value:+z.{digits}f} dB")


def _khz(frequency):
    return f"{frequency / KILO:.2f} kHz"


def _peak_words(one):
    if one.peak_frequency is None:
        return "none"
    return f"{_khz(one.peak_frequency)}, {_db(one.peak_height)}"


def _pf(capacitance):
    return f"{capacitance / PICO:.0f} pF"


def _alt_of_response(one, instrument):
    first = response(instrument=instrument)
    peak = (f"has a peak at {_khz(one.peak_frequency)}, {_db(one.peak_height)} above that start,"
            if one.peak_frequency else "has no peak,")
    return ("Level at the amplifier, relative to the induced voltage, against frequency. It starts at "
            f"{_db(one.low_level)}, {peak} and is 3 dB below the start at {_khz(one.minus_3_db)}. The "
            f"{instrument.whose} setting, in grey, has its peak at {_khz(first.peak_frequency)}, "
            f"{_db(first.peak_height)}.")


def _alt_of_coil(one, instrument):
    chosen = one.settings
    return (f"A coil of {chosen['turns']:.0f} turns of AWG {chosen['gauge']}, {one.resistance / KILO:.2f} kΩ, "
            f"{one.inductance:.2f} H and a self-capacitance of {_pf(chosen['own'])}, with a cable of "
            f"{_pf(chosen['cable'])} and a volume control of {resistance_words(chosen['volume'])}. "
            + _alt_of_response(one, instrument))


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
        return {"resistance": f"{one.resistance / KILO:.2f} kΩ", "inductance": f"{one.inductance:.2f} H",
                "turns that fit": f"{one.turns_that_fit}{fits}", "undamped resonance": _khz(one.undamped),
                "peak, above the lowest frequencies": _peak_words(one), "at the lowest frequencies": _db(one.low_level),
                "3 dB down at": _khz(one.minus_3_db), "Q": f"{one.q_factor:.2f}"}
    return Panel(sliders=begin(instrument, GAUGE, TURNS, OWN, CABLE, VOLUME),
                 numbers=partial(response, instrument=instrument),
                 arrays=partial(response_curves, instrument=instrument), figure=figure, draw=draw, sheet=sheet,
                 prediction="p1", readouts=readouts, alt=partial(_alt_of_coil, instrument=instrument))


def circuit_figure(instrument):
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
        sliders=(), numbers=partial(response, instrument=instrument), figure=figure,
        arrays=lambda: circuit_and_curves(instrument=instrument)["circuit"],
        draw=lambda data: picture.update(**data), readouts=lambda _: {},
        alt=lambda one: (
            "The coil is drawn as the induced voltage in series with "
            f"{resistance_words(one.resistance)} and {one.inductance:.3g} H. Its self-capacitance of 100 pF, the "
            "tone control with its capacitor, and the track of the volume control are in parallel across its ends. "
            "From the wiper on, the cable's 500 pF and the amplifier's 1 MΩ are across the output."))


def controls(sheet=None, instrument=None):
    """Panel: the whole circuit with its values, and its response, for two controls, cable and amplifier."""
    instrument = shown(instrument)
    figure, draw = circuit_figure(instrument)

    def alt(one):
        volume, tone = (f"{resistance_words(one.settings[name])} at {one.settings[name + '_setting'] * 100:.0f} %"
                        for name in ("volume", "tone"))
        return (f"The coil's circuit, {resistance_words(one.resistance)} and {one.inductance:.3g} H with its "
                f"self-capacitance, between a tone control of {tone}, a volume control of {volume}, a cable of "
                f"{_pf(one.settings['cable'])} and an amplifier of {resistance_words(one.settings['amplifier'])}. "
                + _alt_of_response(one, instrument))
    return Panel(
        sliders=(VOLUME, VOLUME_SETTING, TONE, TONE_SETTING, CABLE, AMPLIFIER),
        numbers=partial(response, instrument=instrument), arrays=partial(circuit_and_curves, instrument=instrument),
        figure=figure, draw=draw, sheet=sheet, prediction="p2",
        readouts=lambda one: {
            "peak, above the lowest frequencies": _peak_words(one), "at the lowest frequencies": _db(one.low_level),
            "at 10 kHz": _db(one.treble_level), "3 dB down at": _khz(one.minus_3_db), "Q": f"{one.q_factor:.2f}"},
        alt=alt)


def meter_figure():
    """A figure and the function that draws meter_curves into it."""
    figure = new_figure(width=8.0, height=4.2)
    picture = MeterOverFrequency(figure.add_axes((0.09, 0.14, 0.88, 0.83)), inductance=(0.05, 500))
    return figure, lambda data: picture.update(**data)


def _inductance_words(one):
    kind = "" if one.inductance > 0 else ": a capacitor to the meter"
    return signed(f"{one.inductance:.4g} H") + f", Q_m {one.quality:.2f}{kind}"


def _alt_of_meter(one):
    place = f"the self-resonance at {_khz(one.self_resonance)}"
    way = (f"about true far below {place}, too high when coming near it, negative above"
           if one.self_resonance < HIGHEST else f"rising towards {place}, beyond the picture's end at 20 kHz")
    chosen = one.chosen.frequency
    return (f"The inductance that a component meter reads, against its frequency: {way}. "
            f"Put in: {one.inductance:.4g} H. "
            f"Read at 120 Hz: {_inductance_words(one.at_120)}; at 1 kHz: {_inductance_words(one.at_1000)}; at "
            + (f"{chosen / KILO:.4g} kHz" if chosen >= KILO else f"{chosen:.0f} Hz")
            + f": {_inductance_words(one.chosen)}.")


def component_meter(sheet=None, instrument=None):
    """Panel: the inductance that a component meter reads on the coil alone, against the meter's frequency."""
    instrument = shown(instrument)
    figure, draw = meter_figure()
    return Panel(
        sliders=begin(instrument, GAUGE, TURNS, CAPACITANCE, FREQUENCY), numbers=partial(meter, instrument=instrument),
        arrays=partial(meter_curves, instrument=instrument), figure=figure, draw=draw, sheet=sheet, prediction="p3",
        readouts=lambda one: {
            "put in": f"{one.inductance:.4g} H, {one.resistance / KILO:.2f} kΩ",
            "self-resonance": _khz(one.self_resonance), "at 120 Hz": _inductance_words(one.at_120),
            "at 1 kHz": _inductance_words(one.at_1000),
            f"at {one.chosen.frequency:.0f} Hz": _inductance_words(one.chosen),
            "resistance there": f"{one.chosen.resistance / KILO:.4g} kΩ"},
        alt=_alt_of_meter)
