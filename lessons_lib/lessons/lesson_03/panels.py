"""The four panels of lesson 3: the string in the field, the string in the circuit, saturation, pull and pitch.

The functions of numbers under them are in model.py, the lines of flux in lines.py.
"""
from functools import partial

from lessons_lib.base.units import in_unit, said
from lessons_lib.lessons.flux_cut import FRAME
from lessons_lib.lessons.instrument import in_mm, shown
from lessons_lib.lessons.lesson_03.circuit import circuit_and_model, circuit_curves
from lessons_lib.lessons.lesson_03.lines import cut
from lessons_lib.lessons.lesson_03.model import (
    CURVE_HEIGHTS,
    pull_and_pitch,
    pull_curves,
    saturation_curves,
    straight_and_wire,
    three_fluxes,
)
from lessons_lib.page.controls import Slider, begin
from lessons_lib.page.panel import Panel
from lessons_lib.pictures.over_height import OverHeight
from lessons_lib.pictures.string_circuit import SharesOverHeight, StringLoop
from lessons_lib.pictures.string_cut import FluxAlongString, StringCut
from lessons_lib.pictures.style import BLACK, FLUX_DENSITY, VOLTAGE, new_figure


def _string_height(instrument):
    return in_mm(instrument.place["string_height"])


def _thick(instrument):
    return in_mm(instrument.strings["VI"]["core"])


STRING_HEIGHT = Slider(name="height", label="height of string", unit="mm", low=1.5, high=6, step=0.1,
                       start=_string_height)
PLACE_ACROSS = Slider(name="place", label="place across", unit="mm", low=0, high=8, start=0, step=0.5)
FIT_HEIGHT = Slider(name="fit_height", label="fitted at a height of", unit="mm", low=1.5, high=6, step=0.1,
                    start=_string_height)
CORE = Slider(name="core", label="diameter of core", unit="mm", low=0.2, high=1.0, start=_thick, step=0.02)
FINE_CORE = Slider(name="core", label="diameter of core", unit="mm", low=0.24, high=0.46, step=0.01,
                   start=lambda instrument: in_mm(instrument.strings["I"]["core"]))
THICK_CORE = Slider(name="core", label="diameter of core", unit="mm", low=0.2, high=0.5, start=_thick, step=0.01)
WIRE_PERMEABILITY = Slider(name="permeability", label="permeability", unit="", low=20, high=200, start=100,
                           logarithmic=True)
PERMEABILITY = Slider(name="permeability", label="permeability", unit="", low=20, high=1000, start=100,
                      logarithmic=True)
SATURATES = Slider(name="saturates", label="saturation, 0 off, 1 on", unit="", low=0, high=1, start=1, step=1,
                   whole=True)
TENSION = Slider(name="tension", label="tension", unit="N", low=60, high=90, step=0.1,
                 start=lambda instrument: round(instrument.tension("VI"), 1))
SENSING = Slider(name="place", label="pickup, share of length", unit="", low=0.05, high=0.5, step=0.01,
                 start=lambda one: round(one.place["pickup_place"] / one.place["scale_length"], 2))

STRAIGHT_LINE = {"color": BLACK, "linestyle": ":"}
PLAIN = {"color": BLACK, "linestyle": "-"}
RANGE = (CURVE_HEIGHTS[0], CURVE_HEIGHTS[-1])


def cut_figure(instrument):
    """A figure and the function that draws a cut into it."""
    figure, coil = new_figure(width=8.0, height=5.2), instrument.coil
    upper = StringCut(figure.add_axes((0.09, 0.36, 0.895, 0.63)), radius=instrument.rod.diameter / 2,
                      coil=(coil["inner_radius"], coil["outer_radius"], coil["top"]), **FRAME)
    lower = FluxAlongString(figure.add_axes((0.09, 0.10, 0.895, 0.24)), half_width=FRAME["half_width"])
    return figure, lambda data: upper.update(**data["cut"]) + lower.update(**data["along"])


def _alt_of_fluxes(flux, *, height, place, core, permeability, saturates):
    law = "wire that saturates" if saturates else "straight-line steel"
    where = f"and {said(place, 'mm', 'g')} beside the middle of the rod" if place else "over the middle of the rod"
    return ("The string gathers flux where the rod is near, carries it along and gives it back some millimetres "
            f"further on, to both sides. A string of {law}, {said(core, 'mm', '.3g')} thick with permeability "
            f"{permeability:.3g}, at a height of {said(height, 'mm', 'g')} {where}, carries "
            f"{said(flux.string, 'nWb', '.1f')} to each side; the coil's turns gain "
            f"{said(flux.added_in_turn, 'nWb', '+.2f')} each, the magnet "
            f"{said(flux.added_in_magnet, 'nWb', '+.2f')}, {said(flux.share_of_magnet, '', '+.3%')} of its flux.")


def string_in_field(sheet=None, instrument=None):
    """Panel: lines of flux with a string and without it, and three fluxes kept apart."""
    instrument = shown(instrument)
    figure, draw = cut_figure(instrument)
    return Panel(
        sliders=begin(instrument, STRING_HEIGHT, PLACE_ACROSS, CORE, PERMEABILITY, SATURATES),
        compute=partial(three_fluxes, instrument=instrument),
        data=lambda _, **values: cut(**values, instrument=instrument), figure=figure, draw=draw, sheet=sheet,
        prediction="p1", message=_alt_of_fluxes,
        shown=lambda flux: {
            "flux in the magnet": said(flux.magnet, "µWb", ".2f"),
            "the string adds to it": f"{said(flux.added_in_magnet, 'nWb', '+.2f')}, "
                                     f"{said(flux.share_of_magnet, '', '+.3%')}",
            "flux of the coil's mean turn": said(flux.turn, "µWb", ".2f"),
            "the string adds to that": f"{said(flux.added_in_turn, 'nWb', '+.2f')}, "
                                       f"{said(flux.share_of_turn, '', '+.3%')}",
            "flux in the string": f"{said(flux.string, 'nWb', '.1f')}, {said(flux.flux_density, 'T', '.2f')}"})


def string_circuit_figure():
    """A figure and the function that draws circuit_curves into it."""
    figure = new_figure(width=8.0, height=4.2)
    loop = StringLoop(figure.add_axes((0.0, 0.01, 0.52, 0.98)))
    curves = SharesOverHeight(figure.add_axes((0.62, 0.13, 0.365, 0.84)), heights=RANGE, share=0.4e-2)
    return figure, lambda data: loop.update(**data["loop"]) + curves.update(**data["curves"])


def string_in_circuit(sheet=None, instrument=None):
    """Panel: near air and string in parallel in the circuit, fitted at one height, checked against the model at all."""
    instrument = shown(instrument)
    figure, draw = string_circuit_figure()
    return Panel(
        sliders=begin(instrument, STRING_HEIGHT, FIT_HEIGHT, THICK_CORE, SATURATES),
        compute=partial(circuit_and_model, instrument=instrument),
        data=partial(circuit_curves, instrument=instrument), figure=figure, draw=draw, sheet=sheet, prediction="p2",
        shown=lambda both: {
            "near air": said(both.circuit.near_air, "MA/Wb", ".1f"),
            "far air": said(both.circuit.far_air, "MA/Wb", ".1f"),
            "string branch": said(both.circuit.branch(both.height), "MA/Wb", ".1f"),
            "change of the magnet's flux by the circuit": said(both.share, "", "+.3%"),
            "by the computed model": said(both.model.share_of_magnet, "", "+.3%"),
            "circuit relative to model": said(both.difference, "", "+z.0%"),
            "signal": f"{said(both.signal, 'mV per m/s', '.1f')}, {both.signal / both.signal_at_2_mm:.0%} of that at 2 "
                      "mm"},
        message=lambda both, *, height, fit_height, **_: (
            "A string in parallel with the near part of the air hardly changes the flux in the magnet, and the "
            f"circuit, fitted at {said(fit_height, 'mm', 'g')}, follows the computed model only near that height: "
            f"at {said(height, 'mm', 'g')} it says {said(both.share, '', '+.3%')}, the model "
            f"{said(both.model.share_of_magnet, '', '+.3%')}. The string branch has "
            f"{said(both.circuit.branch(both.height), 'MA/Wb', '.1f')}, in parallel with "
            f"{said(both.circuit.near_air, 'MA/Wb', '.1f')}."))


def saturation_figure(instrument):
    """A figure and the function that draws saturation_curves into it."""
    figure = new_figure(width=8.0, height=4.0)
    density = OverHeight(
        figure.add_axes((0.08, 0.14, 0.39, 0.83)), quantity="flux density in the string", unit="T", heights=RANGE,
        y_limits=(0, 6 * instrument.stronger), curves=(("wire", FLUX_DENSITY), ("straight-line steel", STRAIGHT_LINE)),
        level=(1.9, "1.9 T"))
    signal = OverHeight(
        figure.add_axes((0.585, 0.14, 0.40, 0.83)), quantity="signal", unit="mV per m/s", heights=RANGE,
        y_limits=(0, 480 * instrument.louder), curves=(("wire", VOLTAGE), ("straight-line steel", STRAIGHT_LINE)))
    return figure, lambda data: density.update(**data["density"]) + signal.update(**data["signal"])


def saturation(sheet=None, instrument=None):
    """Panel: what a straight-line steel would carry and what a wire can, over the height; and the signal of both."""
    instrument = shown(instrument)
    figure, draw = saturation_figure(instrument)
    return Panel(
        sliders=begin(instrument, STRING_HEIGHT, FINE_CORE, WIRE_PERMEABILITY),
        compute=partial(straight_and_wire, instrument=instrument),
        data=partial(saturation_curves, instrument=instrument),
        figure=figure, draw=draw, sheet=sheet, prediction="p3",
        shown=lambda steel: {
            "flux density, straight-line steel": said(steel.straight_density, "T", ".2f"),
            "flux density, wire": said(steel.wire_density, "T", ".2f"),
            "flux, straight-line steel": said(steel.straight_flux, "nWb", ".1f"),
            "flux, wire": said(steel.wire_flux, "nWb", ".1f"),
            "signal, straight-line steel": said(steel.straight_signal, "mV per m/s", ".1f"),
            "signal, wire": said(steel.wire_signal, "mV per m/s", ".1f")},
        message=lambda steel, *, height, **_: (
            ("Near the pole a wire saturates below 1.9 T, where a straight-line steel would carry more and more"
             if steel.straight_density > 1.2 else "Far from the pole wire and straight-line steel are nearly the same")
            + f": at {said(height, 'mm', 'g')} {said(steel.wire_density, 'T', '.2f')} against "
            f"{said(steel.straight_density, 'T', '.2f')}. The signal is {in_unit(steel.wire_signal, 'mV per m/s'):.1f} "
            f"against {said(steel.straight_signal, 'mV per m/s', '.1f')}."))


def pull_figure(instrument):
    """A figure and the function that draws pull_curves into it."""
    figure = new_figure(width=8.0, height=3.8)
    pull = OverHeight(figure.add_axes((0.08, 0.145, 0.39, 0.82)), quantity="pull of the magnet", unit="mN",
                      heights=RANGE, y_limits=(0, 60 * instrument.stronger ** 2), curves=(("", PLAIN),))
    cents = OverHeight(figure.add_axes((0.59, 0.145, 0.395, 0.82)), quantity="change of pitch", unit="cents",
                       heights=RANGE, y_limits=(-75 * instrument.stronger ** 2, 5), curves=(("", PLAIN),))
    return figure, lambda data: pull.update(**data["pull"]) + cents.update(**data["cents"])


def pull_and_detuning(sheet=None, instrument=None):
    """Panel: the magnet's pull on a string over the height, and what its slope does to the pitch."""
    instrument = shown(instrument)
    figure, draw = pull_figure(instrument)
    return Panel(
        sliders=begin(instrument, STRING_HEIGHT, SENSING, THICK_CORE, TENSION),
        compute=partial(pull_and_pitch, instrument=instrument), data=partial(pull_curves, instrument=instrument),
        figure=figure, draw=draw, sheet=sheet, prediction="p4",
        shown=lambda pull: {
            "pull": said(pull.pull, "mN", ".1f"), "slope of the pull": said(pull.pull_gradient, "N/m", ".1f"),
            "pull as a share of the tension": f"{pull.share_of_tension:.3%}",
            "change of pitch": said(pull.cents, "cents", "+.1f")},
        message=lambda pull, *, height, **_: (
            "The nearer the magnet, the stronger it pulls and the lower the string sounds: at "
            f"{said(height, 'mm', 'g')} the pull is {said(pull.pull, 'mN', '.1f')}, its slope "
            f"{said(pull.pull_gradient, 'N/m', '.1f')}, and the pitch changes by {said(pull.cents, 'cents', '+.1f')}."))
