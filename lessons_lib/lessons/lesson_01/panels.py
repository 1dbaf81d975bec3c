"""The four panels of lesson 1: flux lines, adding up flux, the falling field, B and H inside the rod.

The functions of numbers under them are beside them, in model.py.
"""
from functools import partial

from lessons_lib.base.units import in_unit, said
from lessons_lib.base.workshop import house_magnet
from lessons_lib.lessons.instrument import shown
from lessons_lib.lessons.lesson_01.model import (
    axis_curve,
    axis_field,
    inside_curves,
    inside_field,
    ring_curves,
    ring_sum,
    rod_flux,
)
from lessons_lib.lessons.rod import flux_map
from lessons_lib.lessons.rod_sliders import DIAMETER, LENGTH, RECOIL_PERMEABILITY, REMANENCE, TUBE
from lessons_lib.page.controls import Slider, begin
from lessons_lib.page.panel import Panel
from lessons_lib.pictures.along_axis import AlongAxis
from lessons_lib.pictures.flux_lines import FluxLines
from lessons_lib.pictures.power_laws import FallingCurve
from lessons_lib.pictures.rings import RingsUnderProfile, RunningSum
from lessons_lib.pictures.style import new_figure

PLACE_ON_AXIS = Slider(name="place", label="place from middle", unit="mm", low=-12, high=20, start=0, step=0.5)
ABOVE_FACE = Slider(name="height", label="height above face", unit="mm", low=0.5, high=6, start=1, step=0.1)
RADIUS = Slider(name="radius", label="radius", unit="mm", low=0.5, high=8, start=2.5, step=0.1)
RINGS = Slider(name="rings", label="number of rings", unit="", low=3, high=20, start=5, step=1, whole=True)
DISTANCE = Slider(name="z", label="distance z", unit="mm", low=0.3, high=300, start=1, logarithmic=True)


def flux_figure():
    """A figure and the function that draws a flux_map into it."""
    figure = new_figure(width=8.0, height=5.4)
    lines = FluxLines(figure.add_axes((0.08, 0.10, 0.90, 0.84)), half_width=28e-3, bottom=-29e-3, top=9e-3, step=TUBE)
    return figure, lambda data: lines.update(**data)


def lines_of_flux(sheet=None, instrument=None):
    """Panel: flux lines round a rod magnet of any diameter, length, remanence and recoil permeability."""
    figure, draw = flux_figure()
    return Panel(
        sliders=begin(shown(instrument), DIAMETER, LENGTH, REMANENCE, RECOIL_PERMEABILITY), compute=rod_flux,
        data=lambda _, **rod: flux_map(**rod), figure=figure, draw=draw, sheet=sheet, prediction="p1",
        shown=lambda flux: {
            "flux through the middle": said(flux.middle, "µWb", ".2f"),
            "flux through the end face": said(flux.face, "µWb", ".2f"),
            "leaves through the side wall between them": f"{flux.side_share:.0%}"},
        message=lambda flux, **_: (
            "Flux lines leave a rod magnet through the end face and the side wall of its north half and come back "
            f"into its south half; {said(flux.middle, 'µWb', '.2f')} pass through its middle, "
            f"{said(flux.face, 'µWb', '.2f')} through its end face, so {flux.side_share:.0%} leaves through the side "
            "wall between them."))


def rings_figure(instrument):
    """A figure and the function that draws ring_curves into it."""
    figure = new_figure(width=8.0, height=3.9)
    rings = RingsUnderProfile(figure.add_axes((0.09, 0.16, 0.38, 0.80)), radius=8e-3,
                              flux_density=0.18 * instrument.stronger)
    running = RunningSum(figure.add_axes((0.58, 0.16, 0.38, 0.80)), radius=8e-3, flux=6e-6 * instrument.stronger)

    def draw(data):
        taken = data["rings"]
        return (rings.update(radius=data["rho"], flux_density=data["flux_density"], edges=taken.edges,
                             ring_values=taken.ring_values)
                + running.update(radius=data["rho"], flux=data["flux"], edges=taken.edges, sums=taken.sums))
    return figure, draw


def adding_up(sheet=None, instrument=None):
    """Panel: the flux through a disc above the pole, added up ring by ring, beside the exact flux."""
    instrument = shown(instrument)
    figure, draw = rings_figure(instrument)
    return Panel(
        sliders=(ABOVE_FACE, RADIUS, RINGS), compute=partial(ring_sum, instrument=instrument),
        data=partial(ring_curves, instrument=instrument), figure=figure, draw=draw, sheet=sheet, prediction="p2",
        shown=lambda taken: {
            "mean B over the disc": said(taken.mean, "mT", ".1f"),
            "flux by rings": said(taken.sums[-1], "µWb", ".3f"),
            "exact flux": said(taken.exact, "µWb", ".3f"),
            "difference": said(taken.difference, "", "+.1%")},
        message=lambda taken, *, radius, **_: (
            "The flux density falls with the distance from the axis, while the flux through the disc grows: mean "
            f"{said(taken.mean, 'mT', '.1f')} over a disc of radius {said(radius, 'mm', '.1f')}; flux "
            f"{said(taken.sums[-1], 'µWb', '.3f')} by {len(taken.sums)} rings, {said(taken.exact, 'µWb', '.3f')} "
            "exactly."))


def falling_figure():
    """A figure and the function that draws an axis_curve into it."""
    figure = new_figure(width=8.0, height=4.6)
    curve = FallingCurve(figure.add_axes((0.11, 0.14, 0.85, 0.83)), x_label="distance z above the pole (mm)",
                         y_label="flux density B (mT)", x_limits=(0.3, 300), y_limits=(0.001, 1000))
    return figure, lambda data: curve.update(**data)


def falling_field(sheet=None, instrument=None):
    """Panel: the field above the pole on logarithmic axes, with its local exponent."""
    instrument = shown(instrument)
    figure, draw = falling_figure()
    return Panel(
        sliders=(DISTANCE,), compute=partial(axis_field, instrument=instrument),
        data=partial(axis_curve, instrument=instrument), figure=figure, draw=draw, sheet=sheet, prediction="p3",
        shown=lambda field: {
            "B": f"{said(field.flux_density, 'mT', '.4g')} = {said(field.flux_density, 'gauss', '.4g')}",
            "local exponent": said(field.exponent, "", ".2f"),
            "B(2z)/B(z)": f"{field.doubled:.2f}"},
        message=lambda field, z: (
            "No single power law fits the field of a rod: the curve grows steeper with distance. At "
            f"{said(z, 'mm', '.3g')} B is {said(field.flux_density, 'mT', '.4g')}, the local exponent is "
            f"{said(field.exponent, '', '.2f')}, and at twice the distance B is {field.doubled:.2f} times as large."))


def inside_figure(instrument):
    """A figure and the function that draws inside_curves into it."""
    figure = new_figure(width=8.0, height=5.0)
    more = max(1.0, instrument.magnet["remanence"] / house_magnet["remanence"])
    lines = AlongAxis(figure.add_axes((0.10, 0.55, 0.87, 0.42)), figure.add_axes((0.10, 0.12, 0.87, 0.38)),
                      s_limits=(-12e-3, 20e-3), b_limits=(-0.05, 0.85 * more), h_limits=(-0.45 * more, 0.45 * more))
    return figure, lambda data: lines.update(**data)


def inside_the_rod(sheet=None, instrument=None):
    """Panel: B, H and J along the axis, through the rod and above it."""
    instrument = shown(instrument)
    figure, draw = inside_figure(instrument)
    return Panel(
        sliders=begin(instrument, PLACE_ON_AXIS, DIAMETER, LENGTH, RECOIL_PERMEABILITY),
        compute=partial(inside_field, instrument=instrument),
        data=lambda _, **values: inside_curves(**values, instrument=instrument), figure=figure, draw=draw,
        sheet=sheet, prediction="p4",
        shown=lambda field: {
            "B": said(field.b, "T", "+.3f"), "H": said(field.h, "kA/m", "+.1f"),
            "J": said(field.j, "T", ".3f"), "where": field.sentence},
        message=lambda field, *, place, **_: (
            "B points up through rod and face without a jump; H is against it inside the rod and jumps at the faces. "
            f"At {in_unit(place, 'mm'):g} mm from the middle B is {said(field.b, 'T', '.3f')}, H "
            f"{said(field.h, 'kA/m', '.1f')}, J {said(field.j, 'T', '.3f')}; {field.sentence}."))
