"""The panels of lesson 2: magnet beside coil, circuit over field, load line, rod on its bent curve, rod in a steel pot.

The functions of numbers under them are beside them, in model.py, coil.py and bent.py.
"""
from dataclasses import replace
from functools import partial

import numpy as np

from lessons_lib.base.units import said
from lessons_lib.lessons.instrument import shown
from lessons_lib.lessons.lesson_02.bent import CURVE_LIMIT, PARTS, bent_and_straight, bent_curves
from lessons_lib.lessons.lesson_02.coil import magnet_and_coil, magnet_and_coil_maps
from lessons_lib.lessons.lesson_02.model import (
    B_LIMIT,
    H_LIMIT,
    OPEN_LID,
    OPENED_POT,
    POT,
    circuit_and_map,
    closing_gap,
    coefficient_of_rod,
    load_line_curves,
    load_line_point,
    pot_curves,
    pot_flux,
)
from lessons_lib.lessons.rod import circuit_and_field
from lessons_lib.lessons.rod_sliders import DIAMETER, LENGTH, RECOIL_PERMEABILITY, REMANENCE, TUBE, rod_corner
from lessons_lib.page.controls import Choice, Slider, begin
from lessons_lib.page.film import Film
from lessons_lib.page.grips import Grip
from lessons_lib.page.panel import Panel
from lessons_lib.pictures.circuits import MagnetLoop
from lessons_lib.pictures.flux_lines import FluxLines
from lessons_lib.pictures.keeper import PotSection
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.magnet_beside_coil import MagnetBesideCoil
from lessons_lib.pictures.marks import Curve, Dots, Level
from lessons_lib.pictures.rods import RodOfShape
from lessons_lib.pictures.style import BLUE, FLUX, FLUX_DENSITY, GHOST, HOUSE_LOOK, INK, MM, MUTED, new_figure

TURNS = Slider(name="turns", label="turns of the coil", unit="", low=500, high=5000, start=2000, step=100, whole=True)
CURRENT = Slider(name="current", label="current in the coil", unit="A", low=0.1, high=2.5, start=1, step=0.01)
COEFFICIENT = Slider(name="permeance_coefficient", label="permeance coefficient", unit="", low=1, high=60,
                     start=coefficient_of_rod, logarithmic=True)
GRADE_REMANENCE = Slider(name="remanence", label="remanence", unit="T", low=1.2, high=1.32, start=1.28, step=0.01)
COERCIVITY = Slider(name="coercivity", label="coercivity", unit="kA/m", low=46, high=54, start=51, step=0.5)
ENERGY = Slider(name="energy_product", label="largest BH", unit="kJ/m³", low=38, high=44, start=43.8, step=0.1)
GAP = Slider(name="gap", label="air gap", unit="mm", low=0.1, high=10, start=1, step=0.1)
POT_WIDTH = Slider(name="pot_width", label="width inside pot", unit="mm", low=15, high=30, start=20, step=1)
POT_REMANENCE = replace(REMANENCE, low=0.5, high=1.0)
TIMES = Choice(name="times", label="length of the rod", start=1.0, options={
    "half as long": 0.5, "as it is": 1.0, "twice as long": 2.0})
LINE = replace(REMANENCE, label="remanence of the line", low=0.4, high=1.1, step=0.01)
HEIGHT = Slider(name="height", label="height above the face", unit="mm", low=0.5, high=8, start=2.5, step=0.1)

LOAD = {"color": INK, "linestyle": "--"}
STRAIGHT = {"color": MUTED, "linestyle": ":"}
RECOIL = {"color": BLUE, "linestyle": "-."}
TO_AXES = {"color": GHOST, "linestyle": "-"}


def opening_figure(instrument):
    """A figure and the function that draws the pot with its lid, and gap and flux up to now."""
    figure, flux, rod = new_figure(width=8.0, height=2.95), 21e-6 * instrument.stronger, instrument.magnet
    section = PotSection(figure.add_axes((0.005, 0.01, 0.40, 0.98)), diameter=rod["diameter"], length=rod["length"],
                         thickness=POT["thickness"], half_width=16e-3, top=rod["length"] + 15e-3, flux=flux)
    section.axes.set_axis_off()
    rows = [Lines(figure.add_axes((0.50, bottom, 0.49, 0.37)), room=75, grid=False, y=y,
                  x=Axis("time", "", (0, 1), ticks={0: "", 1: ""}, bare=bare),
                  parts=[Curve("line", look=look), Dots("dot", look, side=1)])
            for bottom, bare, look, y in ((0.59, True, {"color": INK, "linestyle": "-"},
                                           Axis("air gap", "mm", (0, 1.1 * OPEN_LID))),
                                          (0.11, False, FLUX, Axis("flux in gap", "µWb", (0, 0.6 * flux))))]
    return figure, lambda data: section.update(**data["section"]) + sum(
        (row.update(**one) for row, one in zip(rows, data["rows"])), [])


def opening(instrument=None):
    """Panel without sliders: a film of the lid of a steel pot that comes down on its magnet, and of the flux."""
    instrument = shown(instrument)
    figure, draw = opening_figure(instrument)

    def so_far(lid, step):
        flux, until = lid.fluxes[step], slice(step + 1)
        lines = lid.gaps, np.array([one.through_gap for one in lid.fluxes])
        words = said(lid.gaps[step], "mm", ".1f"), said(flux.through_gap, "µWb", ".2f")
        return {"section": {"gap": lid.gaps[step], "pot_width": OPENED_POT, "rod": flux.rod,
                            "through_gap": flux.through_gap},
                "rows": [{"line": (lid.time[until], line[until]), "dot": (lid.time[step], line[step]),
                          "words": {"dot": word}} for line, word in zip(lines, words)]}

    return Panel(
        title="The gap closes: what does the flux do?", compute=partial(closing_gap, instrument),
        data=lambda lid: so_far(lid, 0), figure=figure, draw=draw,
        film=lambda lid: Film(frames=tuple(so_far(lid, step) for step in range(len(lid.gaps))), seconds=6.0,
                              words="the lid comes down and goes up in 6 s"),
        message=lambda lid: (
            "A rod magnet in a steel pot, cut through the axis, and a steel lid over it; a broad arrow is the flux "
            f"through the air gap. The lid comes down and goes up again: the gap shrinks from "
            f"{said(lid.gaps.max(), 'mm', '.1f')} to {said(lid.gaps.min(), 'mm', '.1f')}, and the flux through it "
            f"grows to {lid.more_flux:.1f} times as much."))


def magnet_or_coil(sheet=None, instrument=None):
    """Panel: the flux lines of a magnet beside those of a coil on a core like it."""
    instrument, figure = shown(instrument), new_figure(width=8.0, height=4.8)
    picture = MagnetBesideCoil(figure, step=TUBE)
    return Panel(
        title="A magnet, and a coil in its place",
        sliders=begin(instrument, LENGTH, REMANENCE, RECOIL_PERMEABILITY, TURNS, CURRENT),
        compute=partial(magnet_and_coil, instrument=instrument), data=partial(magnet_and_coil_maps,
                                                                              instrument=instrument),
        figure=figure, draw=picture, sheet=sheet, prediction="p4",
        shown=lambda both: {
            "the coil's flux is": f"{said(both.share, '', '.3f')} times the magnet's",
            "MMF of the magnet": said(both.magnet.mmf, "A", ".0f"),
            "turns times current": said(both.ampere_turns, "A", ".0f"),
            "flux of the magnet": said(both.magnet.field_flux, "µWb", ".2f"),
            "flux of the coil": said(both.field_flux, "µWb", ".2f"),
            "magnet, by the circuit": said(both.magnet.circuit_flux, "µWb", ".2f"),
            "coil, by the circuit": said(both.circuit_flux, "µWb", ".2f"),
            "H in the middle of the magnet": said(both.magnet_h, "kA/m", "+.1f"),
            "H in the middle of the core": said(both.coil_h, "kA/m", "+.1f"),
            "heat of the coil": f"{said(both.heat, 'W', '.0f')} (of the magnet: none)"},
        message="Lines of flux of a rod magnet, and beside them those of a coil wound on a rod of the same size and "
                "permeability. The magnet has an MMF of {MMF of the magnet} and {flux of the magnet} through its "
                "middle; turns times current of the coil are {turns times current}, and {flux of the coil} pass "
                "through its middle, {the coil's flux is}. H in the middle is {H in the middle of the magnet} in the "
                "magnet and {H in the middle of the core} in the core.",
        on_paper=({}, {"current": 1.41}, {"recoil_permeability": 1.0, "turns": 5000, "current": 2.03}))


def circuit_beside_field(sheet=None, instrument=None):
    """Panel: Ohm's law for a free rod magnet, over its flux lines."""
    figure = new_figure(width=8.0, height=5.2)
    lines = FluxLines(figure.add_axes((0.08, 0.105, 0.90, 0.83)), half_width=27e-3, bottom=-26e-3, top=8e-3, step=TUBE,
                      aside=True)
    loop = MagnetLoop(lines.axes)
    return Panel(
        title="The magnet's own reluctance is the large one",
        sliders=begin(shown(instrument), DIAMETER, LENGTH, REMANENCE, RECOIL_PERMEABILITY), compute=circuit_and_field,
        data=circuit_and_map, figure=figure, sheet=sheet, prediction="p1", grips=(rod_corner(lines.axes),),
        draw={"map": lines, "circuit": loop},
        shown=lambda rod: {
            "the magnet's reluctance is": f"{rod.own_reluctance / rod.air_reluctance:.1f} times the air's",
            "reluctance of the magnet": said(rod.own_reluctance, "MA/Wb", ".1f"),
            "reluctance of the air": said(rod.air_reluctance, "MA/Wb", ".1f"),
            "air by the short formula": said(rod.short_formula, "MA/Wb", ".1f"), "MMF": said(rod.mmf, "A", ".0f"),
            "flux by the circuit": said(rod.circuit_flux, "µWb", ".2f"),
            "flux by the field": said(rod.field_flux, "µWb", ".2f"),
            "difference": said(rod.difference, "%", "+z.1f")},
        message="A magnet as a circuit: its magnetomotive force drives flux through the reluctances of the magnet and "
                "of the air, in series. {MMF} divided by the sum of {reluctance of the magnet} and {reluctance of the "
                "air} gives {flux by the circuit}; the field under it has {flux by the field} in the middle of the "
                "rod.",
        on_paper=({}, {"length": 8e-3}, {"recoil_permeability": 1.0}))


def load_line_figure():
    """A figure and the function that draws load_line_curves into it."""
    figure = new_figure(width=8.0, height=4.6)
    rod = RodOfShape(figure.add_axes((0.0, 0.03, 0.16, 0.955)), longest=135e-3)
    chart = Lines(figure.add_axes((0.23, 0.125, 0.77, 0.86)), y=Axis("flux density B", "T", (0.0, B_LIMIT)),
                  x=Axis("field strength H in the magnet", "kA/m", (-H_LIMIT, 0.0)), parts=[
                      Curve("to axes", look=TO_AXES, width=1.0), Curve("load", look=LOAD),
                      Curve("straight", "straight line", STRAIGHT, at=-12e3, below=True, width=1.6),
                      Curve("curve", "demagnetising\ncurve", FLUX_DENSITY, width=2.6),
                      Curve("recoil", "recoil line", RECOIL), Dots("load end", size=0),
                      Dots("straight point", STRAIGHT, marker="s", hollow=True), Dots("point")])
    return figure, lambda data: rod.update(**data["rod"]) + chart.update(**data["chart"])


def load_line(sheet=None, instrument=None):
    """Panel: the working point of an alnico 5 where its load line meets the demagnetising curve."""
    instrument = shown(instrument)
    figure, draw = load_line_figure()
    return Panel(
        title="Shape and material meet in one point",
        sliders=begin(instrument, COEFFICIENT, GRADE_REMANENCE, COERCIVITY, ENERGY),
        compute=partial(load_line_point, instrument=instrument), data=partial(load_line_curves, instrument=instrument),
        figure=figure, draw=draw, sheet=sheet, prediction="p2",
        shown=lambda point: {
            "B": said(point.b, "T", ".3f"), "H": said(point.h, "kA/m", ".1f"),
            "BH": said(point.energy, "kJ/m³", ".1f"), "length of such a rod": said(point.rod_length, "mm", ".1f"),
            "remanence of the recoil line": ("none: it would end above the remanence" if point.recoil_remanence is None
                                             else said(point.recoil_remanence, "T", ".3f")),
            "B on the straight line": said(point.straight_b, "T", ".3f")},
        message="The load line meets the bulging demagnetising curve above the straight line from remanence to "
                "coercivity: with a permeance coefficient of {permeance coefficient}, B is {B} at H = {H}; the "
                "straight line would say {B on the straight line}. Remanence of the recoil line: {remanence of the "
                "recoil line}.",
        on_paper=({"permeance_coefficient": 25.0}, {"permeance_coefficient": 8.0}, {"permeance_coefficient": 4.0}))


def bent_figure(instrument):
    """A figure and the function that draws bent_curves into it."""
    figure = new_figure(width=8.0, height=4.4)
    parts = Lines(figure.add_axes((0.085, 0.125, 0.43, 0.86)), x=Axis("field strength H", "kA/m", (-CURVE_LIMIT, 0.0)),
                  y=Axis("flux density B in the rod", "T", (0.0, 1.4)), room=8, parts=[
                      Curve("line", look=RECOIL, width=1.8), Curve("curve", look=FLUX_DENSITY, width=2.6),
                      Dots("on line", RECOIL, marker="s", hollow=True, lift=3, most=3),
                      Dots("on curve", FLUX_DENSITY, side=-1, most=3)])
    above = Lines(figure.add_axes((0.605, 0.125, 0.39, 0.86)), x=Axis("height above the face", "mm", (0.0, 8e-3)),
                  y=Axis("flux density B above it", "mT", (0.0, 0.2 * instrument.stronger)), parts=[
                      Curve("line", "the line", RECOIL), Curve("curve", "the curve", FLUX_DENSITY, width=2.6),
                      Dots("now")])
    return figure, lambda data: parts.update(**data["parts"]) + above.update(**data["above"])


def bent_rod(sheet=None, instrument=None):
    """Panel: one free alnico rod on its bent curve, and the straight line that this course computes with."""
    instrument = shown(instrument)
    figure, draw = bent_figure(instrument)
    return Panel(
        title="One rod, many points of the curve", sliders=begin(instrument, TIMES, LINE, HEIGHT),
        compute=partial(bent_and_straight, instrument=instrument), data=bent_curves, figure=figure, draw=draw,
        sheet=sheet, prediction="p5",
        shown=lambda both: {
            "the line's field is off by": said(both.off, "%", "+z.1f"),
            "above the face, on the curve": said(both.fields[0], "mT", ".1f"),
            "above the face, on the line": said(both.fields[1], "mT", ".1f"),
            "flux in the middle, on the curve": said(both.curve.flux, "µWb", ".2f"),
            "flux in the middle, on the line": f"{said(both.line.flux, 'µWb', '.2f')}, "
                                               f"{said(both.line.flux / both.curve.flux - 1, '%', '+z.0f')}",
            "length of the rod": said(both.curve.length, "mm", ".1f"),
            **{f"B and H {part}": f"{said(b, 'T', '.2f')}, {said(h, 'kA/m', '+.1f')}"
               for part, b, h in zip(PARTS, both.curve.b, both.curve.h)}},
        message="A rod of alnico 5 on the bent curve of its alloy, and on a straight recoil line with a remanence of "
                "{remanence of the line}. On the curve the parts of the rod are far from each other: {B and H in the "
                "middle, at the wall} in the middle at the wall, {B and H in the middle, on the axis} on the axis, {B "
                "and H just below the face} just below the face. At {height above the face} the field is {above the "
                "face, on the curve} on the curve, and the line's is off by {the line's field is off by}; through the "
                "middle pass {flux in the middle, on the curve}, and on the line {flux in the middle, on the line}.",
        on_paper=({}, {"height": 5e-3}, {"times": 0.5}))


def pot_figure(instrument):
    """A figure, the function that draws pot_curves into it, and the axes of the pot."""
    figure, flux, rod = new_figure(width=8.0, height=4.4), 21e-6 * instrument.stronger, instrument.magnet
    section = PotSection(figure.add_axes((0.075, 0.125, 0.385, 0.86)), diameter=rod["diameter"], length=rod["length"],
                         thickness=POT["thickness"], half_width=19e-3, top=38e-3, flux=flux)
    chart = Lines(figure.add_axes((0.54, 0.125, 0.455, 0.86)), y=Axis("flux", "µWb", (0.0, flux)), room=62,
                  x=Axis("gap", "mm", (0.09e-3, 23e-3), log=True, ticks=(1e-4, 1e-3, 2e-3, 5e-3, 1e-2, 2e-2)), parts=[
                      Level("alone", "no pot", HOUSE_LOOK), Curve("rod", "in the\nrod", FLUX),
                      Curve("through gap", "through\nthe gap", FLUX), Dots("now", FLUX),
                      Dots("doubled", FLUX, hollow=True, side=1)])
    return figure, lambda data: section.update(**data["section"]) + chart.update(**data["curves"]), section.axes


def keeper_gap(sheet=None, instrument=None):
    """Panel: the rod in a steel pot, and its flux against the air gap under the lid."""
    instrument = shown(instrument)
    figure, draw, section = pot_figure(instrument)
    face = instrument.magnet["length"] * MM
    return Panel(
        title="Twice the gap, far more than half the flux",
        sliders=begin(instrument, GAP, POT_WIDTH, POT_REMANENCE, RECOIL_PERMEABILITY),
        compute=partial(pot_flux, instrument=instrument), data=partial(pot_curves, instrument=instrument),
        figure=figure, draw=draw, grips=(Grip(section, y="gap", y_of=lambda gap: face + gap),), sheet=sheet,
        prediction="p3",
        shown=lambda pot: {
            "flux through the gap": said(pot.through_gap, "µWb", ".2f"),
            "through a gap twice as wide": f"{said(pot.through_doubled_gap, 'µWb', '.2f')}, "
                                           f"{said(pot.doubling, '%', '+z.0f')}",
            "flux in the rod": said(pot.rod, "µWb", ".2f"),
            "leaks past the gap": said(pot.past_gap, "µWb", ".2f"),
            "flux in the rod without the pot": said(pot.without_pot, "µWb", ".2f"),
            "reluctance of the magnet": said(pot.own_reluctance, "MA/Wb", ".1f"),
            "reluctance of the gap": said(pot.gap_reluctance, "MA/Wb", ".1f")},
        message="Doubling the gap does not halve the flux through it, because the magnet's own reluctance stays as it "
                "is, and because flux also goes round the edge, the more so the wider the gap: with a gap of {air "
                "gap}, {flux through the gap} cross the gap and {flux in the rod} pass through the middle of the rod; "
                "through a gap twice as wide: {through a gap twice as wide}.",
        on_paper=({}, {"gap": 2e-3}, {"gap": 10e-3}))
