"""The three panels of lesson 2: a circuit beside the field it stands for, the load line, a rod in a steel pot.

The functions of numbers under them are beside them, in model.py.
"""
from functools import partial

from lessons_lib.base.units import said
from lessons_lib.lessons.instrument import shown
from lessons_lib.lessons.lesson_02.model import (
    STEEL,
    circuit_and_map,
    coefficient_of_rod,
    load_line_curves,
    load_line_point,
    pot_curves,
    pot_flux,
)
from lessons_lib.lessons.rod import circuit_and_field
from lessons_lib.lessons.rod_sliders import DIAMETER, LENGTH, RECOIL_PERMEABILITY, REMANENCE, TUBE
from lessons_lib.page.controls import Slider, begin
from lessons_lib.page.panel import Panel
from lessons_lib.pictures.circuit import MagnetLoop
from lessons_lib.pictures.demagnetisation import LoadLine
from lessons_lib.pictures.flux_lines import FluxLines
from lessons_lib.pictures.keeper import FluxOverGap, PotSection
from lessons_lib.pictures.style import new_figure

COEFFICIENT = Slider(name="permeance_coefficient", label="permeance coefficient", unit="", low=1, high=60,
                     start=coefficient_of_rod, logarithmic=True)
GRADE_REMANENCE = Slider(name="remanence", label="remanence", unit="T", low=1.2, high=1.32, start=1.28, step=0.01)
COERCIVITY = Slider(name="coercivity", label="coercivity", unit="kA/m", low=46, high=54, start=51, step=0.5)
ENERGY = Slider(name="energy_product", label="largest BH", unit="kJ/m³", low=38, high=44, start=43.8, step=0.1)
GAP = Slider(name="gap", label="air gap", unit="mm", low=0.1, high=10, start=1, logarithmic=True)
POT_WIDTH = Slider(name="pot_width", label="width inside pot", unit="mm", low=15, high=30, start=20, step=1)
POT_REMANENCE = Slider(name="remanence", label="remanence", unit="T", low=0.5, high=1.0, step=0.05,
                       start=lambda instrument: instrument.magnet["remanence"])


def circuit_and_field_figure():
    """A figure and the function that draws a circuit_and_map into it."""
    figure = new_figure(width=8.0, height=4.3)
    lines = FluxLines(figure.add_axes((0.085, 0.125, 0.45, 0.80)), half_width=20e-3, bottom=-29e-3, top=9e-3, step=TUBE)
    loop = MagnetLoop(figure.add_axes((0.54, 0.02, 0.46, 0.96)))
    return figure, lambda data: lines.update(**data["map"]) + loop.update(**data["circuit"])


def circuit_beside_field(sheet=None, instrument=None):
    """Panel: Ohm's law for a free rod magnet, beside its flux lines."""
    figure, draw = circuit_and_field_figure()
    return Panel(
        sliders=begin(shown(instrument), DIAMETER, LENGTH, REMANENCE, RECOIL_PERMEABILITY), compute=circuit_and_field,
        data=circuit_and_map, figure=figure, draw=draw, sheet=sheet, prediction="p1",
        shown=lambda rod: {
            "MMF": said(rod.mmf, "A", ".0f"), "reluctance of the magnet": said(rod.own_reluctance, "MA/Wb", ".1f"),
            "reluctance of the air": said(rod.air_reluctance, "MA/Wb", ".1f"),
            "air by the short formula": said(rod.short_formula, "MA/Wb", ".1f"),
            "flux by the circuit": said(rod.circuit_flux, "µWb", ".2f"),
            "flux by the field": said(rod.field_flux, "µWb", ".2f"),
            "difference": said(rod.difference, "", "+z.1%")},
        message=lambda rod, **_: (
            "A magnet as a circuit: its magnetomotive force drives flux through the reluctances of the magnet and of "
            f"the air, in series. {said(rod.mmf, 'A', '.0f')} divided by the sum of "
            f"{said(rod.own_reluctance, 'MA/Wb', '.1f')} and {said(rod.air_reluctance, 'MA/Wb', '.1f')} gives "
            f"{said(rod.circuit_flux, 'µWb', '.2f')}; the field beside it has {said(rod.field_flux, 'µWb', '.2f')} in "
            "the middle of the rod."))


def load_line_figure():
    """A figure and the function that draws load_line_curves into it."""
    figure = new_figure(width=8.0, height=4.6)
    picture = LoadLine(figure.add_axes((0.03, 0.13, 0.87, 0.84)), h_limit=60e3, b_limit=1.6)
    return figure, lambda data: picture.update(**data)


def _recoil_words(point):
    return ("none: it would end above the remanence" if point.recoil_remanence is None
            else said(point.recoil_remanence, "T", ".3f"))


def load_line(sheet=None, instrument=None):
    """Panel: the working point of an alnico 5 where its load line meets the demagnetising curve."""
    figure, draw = load_line_figure()
    return Panel(
        sliders=begin(shown(instrument), COEFFICIENT, GRADE_REMANENCE, COERCIVITY, ENERGY), compute=load_line_point,
        data=load_line_curves, figure=figure, draw=draw, sheet=sheet, prediction="p2",
        shown=lambda point: {
            "B": said(point.b, "T", ".3f"), "H": said(point.h, "kA/m", ".1f"),
            "BH": said(point.energy, "kJ/m³", ".1f"), "remanence of the recoil line": _recoil_words(point),
            "B on the straight line": said(point.straight_b, "T", ".3f")},
        message=lambda point, *, permeance_coefficient, **_: (
            "The load line meets the bulging demagnetising curve above the straight line from remanence to "
            f"coercivity: with a permeance coefficient of {permeance_coefficient:.3g}, B is "
            f"{said(point.b, 'T', '.3f')} at H = {said(point.h, 'kA/m', '.1f')}; the straight line would say "
            f"{said(point.straight_b, 'T', '.3f')}. Remanence of the recoil line: {_recoil_words(point)}."))


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
        sliders=begin(instrument, GAP, POT_WIDTH, POT_REMANENCE, RECOIL_PERMEABILITY),
        compute=partial(pot_flux, instrument=instrument),
        data=partial(pot_curves, instrument=instrument), figure=figure, draw=draw, sheet=sheet, prediction="p3",
        shown=lambda pot: {
            "reluctance of the magnet": said(pot.own_reluctance, "MA/Wb", ".1f"),
            "reluctance of the gap": said(pot.gap_reluctance, "MA/Wb", ".1f"),
            "flux in the rod": said(pot.rod, "µWb", ".2f"), "flux through the gap": said(pot.through_gap, "µWb", ".2f"),
            "leaks past the gap": said(pot.past_gap, "µWb", ".2f"),
            "flux in the rod without the pot": said(pot.without_pot, "µWb", ".2f"),
            "through a gap twice as wide": f"{said(pot.through_doubled_gap, 'µWb', '.2f')}, "
                                           f"{said(pot.doubling, '', '+z.0%')}"},
        message=lambda pot, *, gap, **_: (
            "Doubling the gap does not halve the flux, because the magnet and the leaks beside it stay as they are: "
            f"with a gap of {said(gap, 'mm', '.3g')}, {said(pot.through_gap, 'µWb', '.2f')} cross the gap and "
            f"{said(pot.rod, 'µWb', '.2f')} pass through the middle of the rod; with a gap twice as wide, "
            f"{said(pot.through_doubled_gap, 'µWb', '.2f')} cross it."))
