"""The three panels of lesson 2: a circuit beside the field it stands for, the load line, a rod in a steel pot.

The functions of numbers under them are in lesson_02_numbers.
"""
from functools import partial

from lessons_lib.panels.controls import Slider, begin
from lessons_lib.panels.instrument import shown
from lessons_lib.panels.lesson_01 import DIAMETER, LENGTH, RECOIL, REMANENCE, TUBE
from lessons_lib.panels.lesson_02_numbers import (
    STEEL,
    circuit_and_field,
    circuit_and_map,
    coefficient_of_rod,
    load_line_curves,
    load_line_point,
    pot_curves,
    pot_flux,
)
from lessons_lib.panels.panel import Panel
from lessons_lib.pictures.circuit import MagnetLoop
from lessons_lib.pictures.demagnetisation import LoadLine
from lessons_lib.pictures.flux_lines import FluxLines
from lessons_lib.pictures.keeper import FluxOverGap, PotSection
from lessons_lib.pictures.style import new_figure, signed

COEFFICIENT = Slider(name="permeance_coefficient", label="permeance coefficient", unit="", low=1, high=60,
                     start=coefficient_of_rod, logarithmic=True)
GRADE_REMANENCE = Slider(name="remanence", label="remanence", unit="T", low=1.2, high=1.32, start=1.28, step=0.01)
COERCIVITY = Slider(name="coercivity", label="coercivity", unit="kA/m", low=46, high=54, start=51, step=0.5, si=1e3)
ENERGY = Slider(name="energy_product", label="largest BH", unit="kJ/m³", low=38, high=44, start=43.8, step=0.1, si=1e3)
GAP = Slider(name="gap", label="air gap", unit="mm", low=0.1, high=10, start=1, si=1e-3, logarithmic=True)
POT_WIDTH = Slider(name="pot_width", label="width inside pot", unit="mm", low=15, high=30, start=20, step=1, si=1e-3)
POT_REMANENCE = Slider(name="remanence", label="remanence", unit="T", low=0.5, high=1.0, step=0.05,
                       start=lambda instrument: instrument.magnet["remanence"])


def mega(reluctance):
    """A reluctance in words."""
    return f"{reluctance / 1e6:.1f} MA/Wb"


def circuit_figure():
    """A figure and the function that draws a circuit_and_map into it."""
    figure = new_figure(width=8.0, height=4.3)
    lines = FluxLines(figure.add_axes((0.085, 0.125, 0.45, 0.80)), half_width=20e-3, bottom=-29e-3, top=9e-3, step=TUBE)
    loop = MagnetLoop(figure.add_axes((0.54, 0.02, 0.46, 0.96)))
    return figure, lambda data: lines.update(**data["map"]) + loop.update(**data["circuit"])


def circuit_beside_field(sheet=None, instrument=None):
    """Panel: Ohm's law for a free rod magnet, beside its flux lines."""
    figure, draw = circuit_figure()
    return Panel(
        sliders=begin(shown(instrument), DIAMETER, LENGTH, REMANENCE, RECOIL), numbers=circuit_and_field,
        arrays=circuit_and_map, figure=figure, draw=draw, sheet=sheet, prediction="p1",
        readouts=lambda rod: {
            "MMF": f"{rod.mmf:.0f} A", "reluctance of the magnet": mega(rod.own_reluctance),
            "reluctance of the air": mega(rod.air_reluctance), "air by the short formula": mega(rod.short_formula),
            "flux by the circuit": f"{rod.circuit_flux * 1e6:.2f} µWb",
            "flux by the field": f"{rod.field_flux * 1e6:.2f} µWb",
            "difference": signed(f"{rod.difference:+z.1%}")},
        alt=lambda rod: (
            "A magnet as a circuit: its magnetomotive force drives flux through the reluctances of the magnet and of "
            f"the air, in series. {rod.mmf:.0f} A divided by the sum of {mega(rod.own_reluctance)} and "
            f"{mega(rod.air_reluctance)} gives {rod.circuit_flux * 1e6:.2f} µWb; the field beside it has "
            f"{rod.field_flux * 1e6:.2f} µWb in the middle of the rod."))


def load_line_figure():
    """A figure and the function that draws load_line_curves into it."""
    figure = new_figure(width=8.0, height=4.6)
    picture = LoadLine(figure.add_axes((0.03, 0.13, 0.87, 0.84)), h_limit=60e3, b_limit=1.6)
    return figure, lambda data: picture.update(**data)


def _recoil_words(point):
    return ("none: it would end above the remanence" if point.recoil_remanence is None
            else f"{point.recoil_remanence:.3f} T")


def load_line(sheet=None, instrument=None):
    """Panel: the working point of an alnico 5 where its load line meets the demagnetising curve."""
    figure, draw = load_line_figure()
    return Panel(
        sliders=begin(shown(instrument), COEFFICIENT, GRADE_REMANENCE, COERCIVITY, ENERGY), numbers=load_line_point,
        arrays=load_line_curves, figure=figure, draw=draw, sheet=sheet, prediction="p2",
        readouts=lambda point: {
            "B": f"{point.b:.3f} T", "H": signed(f"{point.h / 1e3:.1f} kA/m"),
            "BH": f"{point.energy / 1e3:.1f} kJ/m³", "remanence of the recoil line": _recoil_words(point),
            "B on the straight line": f"{point.straight_b:.3f} T"},
        alt=lambda point: (
            "The load line meets the bulging demagnetising curve above the straight line from remanence to "
            f"coercivity: with a permeance coefficient of {point.permeance_coefficient:.3g}, B is {point.b:.3f} T at "
            f"H = {signed(f'{point.h / 1e3:.1f}')} kA/m; the straight line would say {point.straight_b:.3f} T. "
            f"Remanence of the recoil line: {_recoil_words(point)}."))


def pot_figure(instrument):
    """A figure and the function that draws pot_curves into it."""
    figure = new_figure(width=8.0, height=4.3)
    section = PotSection(figure.add_axes((0.075, 0.13, 0.415, 0.84)), diameter=instrument.magnet["diameter"],
                         length=instrument.magnet["length"], thickness=STEEL["thickness"], half_width=19e-3, top=34e-3)
    curves = FluxOverGap(figure.add_axes((0.575, 0.13, 0.40, 0.84)), gap=10e-3, flux=26e-6 * instrument.stronger)
    return figure, lambda data: section.update(**data["section"]) + curves.update(**data["curves"])


def keeper_gap(sheet=None, instrument=None):
    """Panel: the rod in a steel pot, and its flux against the air gap under the lid."""
    instrument = shown(instrument)
    figure, draw = pot_figure(instrument)
    return Panel(
        sliders=begin(instrument, GAP, POT_WIDTH, POT_REMANENCE, RECOIL),
        numbers=partial(pot_flux, instrument=instrument),
        arrays=partial(pot_curves, instrument=instrument), figure=figure, draw=draw, sheet=sheet, prediction="p3",
        readouts=lambda pot: {
            "reluctance of the magnet": mega(pot.own_reluctance),
            "reluctance of the gap": mega(pot.gap_reluctance),
            "flux in the rod": f"{pot.rod * 1e6:.2f} µWb", "flux through the gap": f"{pot.through_gap * 1e6:.2f} µWb",
            "leaks past the gap": f"{pot.past_gap * 1e6:.2f} µWb",
            "flux in the rod without the pot": f"{pot.without_pot * 1e6:.2f} µWb",
            "through a gap twice as wide": signed(f"{pot.through_doubled_gap * 1e6:.2f} µWb, {pot.doubling:+z.0%}")},
        alt=lambda pot: (
            "Doubling the gap does not halve the flux, because the magnet and the leaks beside it stay as they are: "
            f"with a gap of {pot.gap * 1e3:.3g} mm, {pot.through_gap * 1e6:.2f} µWb cross the gap and "
            f"{pot.rod * 1e6:.2f} µWb pass through the middle of the rod; with a gap twice as wide, "
            f"{pot.through_doubled_gap * 1e6:.2f} µWb cross it."))
