"""The panels of lesson 6: two voltages in series, a coil with its cable, the whole circuit, a meter; loads to hear.

The functions of numbers under them are beside them, in series.py, model.py and loads.py.
"""
import math
from functools import partial

from lessons_lib.base.units import in_unit, resistance_words, said
from lessons_lib.lessons.instrument import shown
from lessons_lib.lessons.lesson_06.loads import hear_three_loads, opening, sound_of
from lessons_lib.lessons.lesson_06.metal import metal_and_curves, over_poles
from lessons_lib.lessons.lesson_06.model import (
    AS_BUILT,
    HIGHEST,
    circuit_and_curves,
    meter,
    meter_curves,
    peak_band,
    peak_of,
    response,
    response_curves,
)
from lessons_lib.lessons.lesson_06.series import (
    FASTEST,
    SLOWEST,
    arrows_and_waves,
    highest_voltage,
    in_series,
    one_turn,
)
from lessons_lib.page.controls import Choice, Slider, begin
from lessons_lib.page.film import Film
from lessons_lib.page.panel import Panel
from lessons_lib.pictures.coil_circuit import CoilCircuit
from lessons_lib.pictures.metal_in_coil import MetalInCoil
from lessons_lib.pictures.response import MeterOverFrequency, ResponseOverFrequency
from lessons_lib.pictures.style import new_figure
from lessons_lib.pictures.turning_arrows import TurningArrows

__all__ = ["circuit", "coil_and_cable", "component_meter", "controls", "hear_three_loads", "opening",
           "poles_that_answer", "two_voltages"]

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
COIL_FREQUENCY = Slider(name="frequency", label="frequency", unit="Hz", low=SLOWEST, high=FASTEST, start=200,
                        logarithmic=True)
TURNED = Slider(name="turned", label="arrows turned by", unit="°", low=0, high=360, start=35, step=5)
METER_FREQUENCY = Slider(name="frequency", label="meter's frequency", unit="Hz", low=100, high=20000, start=10000,
                         logarithmic=True)
METAL = Choice(name="metal_answers", label="metal answers", options={"no": False, "yes": True}, start=False)
POLES = Choice(name="poles", label="poles", start="alnico", options={
    "alnico rods": "alnico", "steel screws on a bar": "screws", "ferrite rods": "ferrite"})
FREQUENCY = Slider(name="frequency", label="frequency", unit="Hz", low=100, high=20000, start=4000,
                   logarithmic=True)


def _peak_words(one):
    if one.peak_frequency is None:
        return "none"
    return f"{said(one.peak_frequency, 'kHz', '.2f')}, {said(one.peak_height, 'dB', '+z.2f')}"


def _message_of_response(one, instrument):
    first = response(instrument=instrument)
    peak = "has no peak,"
    if one.peak_frequency:
        peak = "has a peak at {peak, above the lowest frequencies} above that start,"
    return ("Level at the amplifier, relative to the induced voltage, against frequency. It starts at "
            f"{{at the lowest frequencies}}, {peak} and is 3 dB below the start at {{3 dB down at}}. The "
            f"{instrument.whose} setting, in grey, has its peak at {_peak_words(first)}.")


_CURRENTS = {False: "", True: " Eddy currents flow in the rods."}


def coil_and_cable(sheet=None, instrument=None):
    """Panel: the response of a coil of other turns and wire, with another cable and another volume control."""
    instrument = shown(instrument)
    figure = new_figure(width=8.0, height=4.2)
    picture = ResponseOverFrequency(figure.add_axes((0.085, 0.13, 0.905, 0.84)), level=(-40, 20),
                                    house=f"{instrument.whose} setting")

    def shown_of(one):
        fits, band = "" if one.fits else ": too few", peak_band(one, instrument=instrument)
        spread = "not all have a peak" if band is None else (
            f"{in_unit(band.low, 'kHz'):.2f} to {said(band.high, 'kHz', '.2f')}, mostly by {AS_BUILT[band.largest]}")
        return {"peak, above the lowest frequencies": _peak_words(one), "two of three such coils": spread,
                "at the lowest frequencies": said(one.low_level, "dB", "+z.2f"),
                "3 dB down at": said(one.minus_3_db, "kHz", ".2f"), "Q": f"{one.q_factor:.2f}",
                "undamped resonance": said(one.undamped, "kHz", ".2f"), "resistance": said(one.resistance, "kΩ", ".2f"),
                "inductance": said(one.inductance, "H", ".2f"), "turns that fit": f"{one.turns_that_fit}{fits}"}

    def message(one, *, volume, metal_answers, **_):
        return ("A coil of {turns} turns of {wire gauge}, {resistance}, {inductance} and a self-capacitance of "
                f"{{self-capacitance}}, with a cable of {{cable}} and a volume control of {resistance_words(volume)}."
                f"{_CURRENTS[metal_answers]} " + _message_of_response(one, instrument))
    return Panel(
        title="Capacitance moves the peak, a load lowers it",
        sliders=begin(instrument, GAUGE, TURNS, SELF_CAPACITANCE, CABLE, VOLUME, METAL),
        compute=partial(response, instrument=instrument), shown=shown_of,
        message=message, figure=figure, draw=picture,
        data=partial(response_curves, instrument=instrument), sound=partial(sound_of, instrument=instrument),
        on_paper=({}, {"cable": 1000e-12}, {"volume": 125e3}), sheet=sheet, prediction="p1")


def two_voltages(sheet=None, instrument=None):
    """Panel: the voltages of a coil's resistance and inductance, as arrows and as waves, and their sum."""
    instrument = shown(instrument)
    figure = new_figure(width=8.0, height=4.2)
    picture = TurningArrows(figure.add_axes((0.085, 0.13, 0.4515, 0.86)), figure.add_axes((0.5365, 0.13, 0.4535, 0.86)),
                            voltage=1.2 * highest_voltage(instrument))

    def volts(value, spec=".2f"):
        return said(value, "V", spec)
    return Panel(
        title="Two voltages that never peak together", sliders=(COIL_FREQUENCY, TURNED),
        compute=partial(in_series, instrument=instrument), data=arrows_and_waves, figure=figure,
        draw=picture,
        film=lambda _, *, frequency, turned: Film(
            frames=one_turn(frequency=frequency, turned=turned, instrument=instrument), seconds=4.0,
            words=f"one period, {said(1 / frequency, 'ms', '.3g')}, takes 4 s"),
        shown=lambda one: {
            "peak across both": volts(abs(one.both)), "peak of the wire": volts(abs(one.wire)),
            "peak of the inductance": volts(abs(one.inductance)),
            "at this moment": f"{said(one.wire.imag, '', 'z.2f')} {'−+'[round(one.inductance.imag, 2) >= 0]} "
                              f"{said(abs(one.inductance.imag), '', '.2f')} = {volts(one.both.imag, 'z.2f')}",
            "impedance": said(one.impedance, "kΩ", ".2f"),
            "both before the current by": said(math.degrees(one.lead), "", ".1f") + "°"},
        message=("A current of 1 mA at its peak, {frequency}, through a coil: three arrows that turn round one point, "
                 "and beside them their heights as three waves over one period. The wire's voltage, {peak of the wire} "
                 "at its peak, is in step with the current; that of the inductance, {peak of the inductance}, is a "
                 "quarter of a turn before it. The arrow from their common point to the far corner of their rectangle "
                 "is the sum: {peak across both}, {both before the current by} before the current. The arrows are "
                 "turned by {arrows turned by}: at this moment {at this moment}."),
        on_paper=({}, {"frequency": 640.0}, {"frequency": 1500.0}), sheet=sheet, prediction="p4")


def circuit(instrument=None):
    """Panel without sliders: the circuit with its first values; use its still()."""
    instrument = shown(instrument)
    figure = new_figure(width=8.0, height=3.8)
    picture = CoilCircuit(figure.add_axes((0.01, 0.0, 0.98, 1.0)), things=True)
    return Panel(
        title="From the string's voltage to the output", compute=partial(response, instrument=instrument),
        figure=figure, draw=picture,
        data=lambda one: circuit_and_curves(one, instrument)["circuit"],
        message=lambda one: (
            "A coil with six rods, two controls, a cable and an amplifier, over the circuit that they are. "
            f"The coil is drawn as the induced voltage in series with {resistance_words(one.resistance)} and "
            f"{said(one.inductance, 'H', '.3g')}. Its self-capacitance of 100 pF, the tone control with its capacitor, "
            "and the track of the volume control are in parallel across its ends. From the wiper on, the cable's "
            "500 pF and the amplifier's 1 MΩ are across the output."))


def controls(sheet=None, instrument=None):
    """Panel: the whole circuit with its values, and its response, for two controls, cable and amplifier."""
    instrument = shown(instrument)
    figure = new_figure(width=8.0, height=5.4)
    circuit = CoilCircuit(figure.add_axes((0.01, 0.545, 0.98, 0.455)))
    curve = ResponseOverFrequency(figure.add_axes((0.085, 0.105, 0.905, 0.42)), level=(-40, 20),
                                  house=f"{instrument.whose} setting")

    def message(one, *, amplifier, **controls):
        volume, tone = (f"{resistance_words(controls[name])} at {{{name} set to}}" for name in ("volume", "tone"))
        return (f"The coil's circuit, {resistance_words(one.resistance)} and {said(one.inductance, 'H', '.3g')} with "
                f"its self-capacitance, between a tone control of {tone}, a volume control of {volume}, a cable of "
                f"{{cable}} and an amplifier of {resistance_words(amplifier)}. "
                + _message_of_response(one, instrument))
    return Panel(
        title="A larger control damps less, that is all",
        sliders=(VOLUME, VOLUME_SETTING, TONE, TONE_SETTING, CABLE, AMPLIFIER),
        compute=partial(response, instrument=instrument),
        shown=lambda one: {
            "peak, above the lowest frequencies": _peak_words(one),
            "at the lowest frequencies": said(one.low_level, "dB", "+z.2f"),
            "at 10 kHz": said(one.treble_level, "dB", "+z.2f"),
            "3 dB down at": said(one.minus_3_db, "kHz", ".2f"), "Q": f"{one.q_factor:.2f}"},
        message=message, figure=figure, data=partial(circuit_and_curves, instrument=instrument),
        draw={"circuit": circuit, "response": curve},
        sound=partial(sound_of, instrument=instrument),
        on_paper=({}, {"volume": 500e3, "tone": 1000e3}, {"volume_setting": 0.5}), sheet=sheet, prediction="p2")


def _inductance_words(one):
    kind = "" if one.inductance > 0 else ": a capacitor to the meter"
    return said(one.inductance, "H", ".4g") + f", Q_m {one.quality:.2f}{kind}"


def _message_of_meter(one, *, metal_answers, **_):
    resonance = "the self-resonance at {self-resonance}"
    way = (f"about true far below {resonance}, too high when coming near it, negative above"
           if one.self_resonance < HIGHEST else f"rising towards {resonance}, beyond the picture's end at 20 kHz")
    at = said(one.chosen.frequency, "kHz" if one.chosen.frequency >= 1e3 else "Hz", ".4g")
    return (f"The inductance that a component meter reads, against its frequency: {way}. Put in: {{put in}}. Read at "
            f"120 Hz: {{at 120 Hz}}; at 1 kHz: {{at 1 kHz}}; at {at}: {_inductance_words(one.chosen)}."
            + _CURRENTS[metal_answers])


def component_meter(sheet=None, instrument=None):
    """Panel: the inductance that a component meter reads on the coil alone, against the meter's frequency."""
    instrument = shown(instrument)
    figure = new_figure(width=8.0, height=4.2)
    picture = MeterOverFrequency(figure.add_axes((0.10, 0.14, 0.55, 0.82)), figure.add_axes((0.69, 0.06, 0.30, 0.88)),
                                 inductance=200)
    return Panel(
        title="Above its resonance a coil reads negative",
        sliders=begin(instrument, GAUGE, TURNS, CAPACITANCE, METER_FREQUENCY, METAL),
        compute=partial(meter, instrument=instrument),
        shown=lambda one: {
            "the meter reads": said(one.chosen.inductance, "H", ".4g"), "Q_m there": f"{one.chosen.quality:.2f}",
            "put in": f"{said(one.inductance, 'H', '.4g')}, {said(one.resistance, 'kΩ', '.2f')}",
            "self-resonance": said(one.self_resonance, "kHz", ".2f"), "at 120 Hz": _inductance_words(one.at_120),
            "at 1 kHz": _inductance_words(one.at_1000),
            "resistance read": said(one.chosen.resistance, "kΩ", ".4g")},
        message=_message_of_meter, figure=figure, draw=picture, data=meter_curves,
        on_paper=({"frequency": 1e3}, {}, {"frequency": 15e3}), sheet=sheet, prediction="p3")


def poles_that_answer(sheet=None, instrument=None):
    """Panel: one winding over three kinds of poles, with and without eddy currents; the flux across a pole."""
    instrument = shown(instrument)
    figure = new_figure(width=8.0, height=5.4)
    metal = MetalInCoil(figure.add_axes((0.085, 0.675, 0.40, 0.315)), figure.add_axes((0.54, 0.60, 0.45, 0.40)),
                        radius=max(3e-3, 0.6 * instrument.rod.diameter))
    curve = ResponseOverFrequency(figure.add_axes((0.085, 0.105, 0.905, 0.42)), level=(-20, 20),
                                  house="no currents", this="currents flow")

    def peak(coil):
        place, height = peak_of(coil)
        return f"{said(place, 'kHz', '.2f')}, {said(height, 'dB', '+z.1f')}"

    def shown_of(one):
        depth = "none: no current" if math.isinf(one.skin_depth) else said(one.skin_depth, "mm", ".3g")
        return {"peak with currents": peak(one.flowing), "without": peak(one.still), "skin depth": depth,
                "flux density on the axis": said(one.middle, "%", ".1f"),
                "inductance at this frequency": said(one.inductance, "H", ".2f"),
                "resistance that the metal adds": said(one.added, "kΩ", ".2f")}
    return Panel(
        title="What flows in the poles lowers the peak", sliders=(POLES, CABLE, FREQUENCY),
        compute=partial(over_poles, instrument=instrument), shown=shown_of, figure=figure,
        draw={"metal": metal, "response": curve},
        data=metal_and_curves, sheet=sheet, prediction="p5",
        message=("The winding over {poles}, with a cable of {cable} and an amplifier of 1 MΩ. Without currents in the "
                 "poles its peak is at {without}; with them at {peak with currents}. Above the curves: the flux "
                 "density along a pole's diameter at {frequency}, of which {flux density on the axis} is left on "
                 "the axis, and the coil's circuit, with a resistance across a part of the inductance."),
        on_paper=({}, {"poles": "screws"}, {"poles": "ferrite"}))
