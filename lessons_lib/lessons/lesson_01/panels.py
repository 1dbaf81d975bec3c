"""The four panels of lesson 1: flux lines, adding up flux, the falling field, B and H inside the rod.

The functions of numbers under them are beside them, in model.py.
"""
from functools import partial

from lessons_lib.base.units import said
from lessons_lib.base.workshop import house_magnet
from lessons_lib.lessons.instrument import shown
from lessons_lib.lessons.lesson_01.model import (
    WIDEST_DISC,
    axis_curve,
    axis_field,
    compass_round,
    counted_map,
    inside_curves,
    inside_field,
    ring_curves,
    ring_sum,
    rod_flux,
    tube_end,
)
from lessons_lib.lessons.rod_sliders import DIAMETER, LENGTH, RECOIL_PERMEABILITY, REMANENCE, TUBE, rod_corner
from lessons_lib.page.controls import Slider, begin
from lessons_lib.page.film import Film
from lessons_lib.page.grips import Grip
from lessons_lib.page.panel import Panel
from lessons_lib.pictures.compass import CompassRound
from lessons_lib.pictures.flux_lines import FluxLines
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import Band, Curve, Dots, Level
from lessons_lib.pictures.rings import RingsFromAbove
from lessons_lib.pictures.rods import FieldArrows, RodAndProbe
from lessons_lib.pictures.style import BODY, FIELD_STRENGTH, FLUX, FLUX_DENSITY, MUTED, POLARISATION, new_figure

PLACE_ON_AXIS = Slider(name="place", label="place from middle", unit="mm", low=-12, high=20, start=0, step=0.5)
ABOVE_FACE = Slider(name="height", label="height above face", unit="mm", low=0.5, high=6, start=1, step=0.1)
RADIUS = Slider(name="radius", label="radius", unit="mm", low=0.5, high=8, start=2.5, step=0.1)
RINGS = Slider(name="rings", label="number of rings", unit="", low=3, high=20, start=5, step=1, whole=True)
DISTANCE = Slider(name="z", label="distance z", unit="mm", low=0.3, high=300, start=1, logarithmic=True)

RING = {"color": MUTED, "linestyle": "-"}
POWERS = {1: ("1/z", (0, (7, 3))), 2: ("1/z²", (0, (4, 3))), 3: ("1/z³", (0, (1.5, 2)))}    # word, dashes


def opening(instrument=None):
    """Panel without sliders: a film of a compass that is carried once round the rod."""
    instrument = shown(instrument)
    figure, way = new_figure(width=8.0, height=2.85), compass_round(instrument)
    picture = CompassRound(figure.add_axes((0.03, 0.0, 0.45, 1.0)), figure.add_axes((0.53, 0.0, 0.42, 1.0)),
                           magnet=instrument.magnet, middle=way.middle, radius=way.radius)

    def so_far(step):
        return {"places": way.places[:step + 1], "directions": way.directions[:step + 1]}

    return Panel(
        title="Once round the magnet: how often does the needle turn?", compute=lambda: way,
        data=lambda *_: so_far(0), figure=figure, draw=picture,
        film=lambda _: Film(frames=tuple(map(so_far, range(len(way.places)))), seconds=8.0,
                            words="once round in 8 s; a mark stays where the needle has been"),
        message=lambda way: (
            f"A compass above the north pole of a rod magnet {said(instrument.magnet['length'], 'mm', 'g')} long, on a "
            f"circle of {said(way.radius, 'mm', 'g')} round its middle. Its needle points away from the rod there. It "
            f"is carried round once, and its needle turns {way.turns:.0f} times: at the side of the rod it points the "
            "other way, from north pole to south pole, and below the south pole towards the rod."))


def lines_of_flux(sheet=None, instrument=None):
    """Panel: flux lines round a rod magnet of any diameter, length, remanence and recoil permeability."""
    figure = new_figure(width=8.0, height=5.4)
    lines = FluxLines(figure.add_axes((0.08, 0.10, 0.90, 0.84)), half_width=25e-3, bottom=-25e-3, top=7e-3, step=TUBE,
                      shaded=True)
    return Panel(
        title="Much of the flux leaves by the side",
        sliders=begin(shown(instrument), DIAMETER, LENGTH, REMANENCE, RECOIL_PERMEABILITY), compute=rod_flux,
        data=counted_map, figure=figure, draw=lines, sheet=sheet, prediction="p1",
        grips=(rod_corner(lines.axes),),
        shown=lambda flux: {
            "leaves through the side wall": said(flux.side_share, "%", ".0f"),
            "flux through the middle": said(flux.middle, "µWb", ".2f"),
            "flux through the end face": said(flux.face, "µWb", ".2f")},
        message="Flux lines leave a rod magnet through the end face and the side wall of its north half and come back "
                "into its south half; {flux through the middle} pass through its middle, {flux through the end face} "
                "through its end face, so {leaves through the side wall} leaves through the side wall between them. "
                "Inside the rod the flux density is nearly the same from the axis to the wall.",
        on_paper=({}, {"recoil_permeability": 1.0}, {"length": 8e-3}))


def rings_figure(instrument):
    """A figure, the function that draws ring_curves into it, and the axes of the rings."""
    figure, right = new_figure(width=8.0, height=4.4), 66
    above = RingsFromAbove(figure.add_axes((0.01, 0.125, 0.43, 0.86)), radius=8.6e-3,
                           pole=instrument.magnet["diameter"], most=int(RINGS.high), tube=tube_end(instrument))
    density = Lines(
        figure.add_axes((0.52, 0.58, 0.48, 0.39)), x=Axis("radius", "mm", (0, WIDEST_DISC), bare=True), room=right,
        y=Axis("B", "mT", (0, 0.18 * instrument.stronger)), parts=[
            Curve("rings", look=RING, width=1.0), Curve("b", look=FLUX_DENSITY),
            Curve("mean", look=FLUX_DENSITY, width=3.0)])
    flux = Lines(
        figure.add_axes((0.52, 0.125, 0.48, 0.39)), x=Axis("radius", "mm", (0, WIDEST_DISC)), room=right,
        y=Axis("flux", "µWb", (0, 6e-6 * instrument.stronger)), parts=[
            Curve("exact", look=FLUX), Dots("sums", RING, marker="s", hollow=True, size=6), Dots("now", FLUX)])
    return figure, lambda data: above.update(**data["above"]) + density.update(**data["density"]) + flux.update(
        **data["flux"]), above.axes


def adding_up(sheet=None, instrument=None):
    """Panel: the flux through a disc above the pole, added up ring by ring, beside the exact flux."""
    instrument = shown(instrument)
    figure, draw, above = rings_figure(instrument)
    return Panel(
        title="A wider disc: less mean B, more flux", sliders=(ABOVE_FACE, RADIUS, RINGS),
        compute=partial(ring_sum, instrument=instrument), data=partial(ring_curves, instrument=instrument),
        figure=figure, draw=draw, grips=(Grip(above, x="radius"),), sheet=sheet, prediction="p2",
        shown=lambda taken: {
            "exact flux": said(taken.exact, "µWb", ".3f"),
            "mean B over the disc": said(taken.mean, "mT", ".1f"),
            "flux by rings": said(taken.sums[-1], "µWb", ".3f"),
            "difference": said(taken.difference, "%", "+.1f")},
        message="The flux density falls with the distance from the axis, while the flux through the disc grows as long "
                "as the field at its edge points up: mean {mean B over the disc} over a disc of radius {radius}; flux "
                "{flux by rings} by {number of rings} rings, {exact flux} exactly.",
        on_paper=({}, {"radius": 4e-3}, {"radius": 8e-3, "rings": 3}))


def falling_field(sheet=None, instrument=None):
    """Panel: the field above the pole on logarithmic axes, with its local exponent."""
    instrument, figure = shown(instrument), new_figure(width=8.0, height=5.0)
    strip = RodAndProbe(figure.add_axes((0.11, 0.81, 0.86, 0.18)))
    powers = [Curve(f"power {power}", word, {"color": MUTED, "linestyle": dashes}, width=1.2)
              for power, (word, dashes) in POWERS.items()]
    chart = Lines(figure.add_axes((0.11, 0.12, 0.87, 0.66)), y=Axis("flux density B", "mT", (1e-7, 1.0), log=True),
                  x=Axis("distance z above the pole", "mm", (0.24e-3, 0.56), log=True, ticks=(1e-3, 1e-2, 1e-1)),
                  parts=[*powers, Curve("b", look=FLUX_DENSITY), Curve("slope", width=2.0), Dots("now"),
                         Dots("corner", size=0)])
    return Panel(
        title="No inverse square above a pole", sliders=(DISTANCE,), compute=partial(axis_field, instrument=instrument),
        data=partial(axis_curve, instrument=instrument), figure=figure, sheet=sheet, prediction="p3",
        draw={"rod": strip, "chart": chart},
        shown=lambda field: {
            "local exponent": said(field.exponent, "", ".2f"),
            "B": f"{said(field.flux_density, 'mT', '.4g')} = {said(field.flux_density, 'gauss', '.4g')}",
            "B(2z)/B(z)": f"{field.doubled:.2f}"},
        message="No single power law fits the field of a rod: the curve grows steeper with distance. At {distance z} B "
                "is {B}, the local exponent is {local exponent}, and at twice the distance B is {B(2z)/B(z)} times as "
                "large.",
        on_paper=({"z": 1e-3}, {"z": 2e-3}, {"z": 0.1}))


def inside_the_rod(sheet=None, instrument=None):
    """Panel: B, H and J along the axis, through the rod and above it."""
    instrument, figure, span = shown(instrument), new_figure(width=8.0, height=5.2), (-12.7e-3, 20.7e-3)
    more = max(1.0, instrument.magnet["remanence"] / house_magnet["remanence"])
    rod = FieldArrows(figure.add_axes((0.05, 0.12, 0.28, 0.86)), half_width=6e-3, s_limits=span, longest=0.85 * more)
    upright, zero = Axis("place", "mm", span, bare=True), Level(value=0.0, upright=True)
    b = Lines(figure.add_axes((0.37, 0.12, 0.31, 0.86)), x=Axis("B, J", "T", (-0.05, 0.95 * more)), y=upright, room=0,
              parts=[Band("rod", color=BODY), zero, Curve("j", look=POLARISATION), Curve("b", "B", FLUX_DENSITY),
                     Dots("now", FLUX_DENSITY), Dots("j name", size=0)])
    h = Lines(figure.add_axes((0.71, 0.12, 0.28, 0.86)), x=Axis("µ₀H", "T", (-0.45 * more, 0.45 * more)), y=upright,
              room=0, parts=[Band("rod", color=BODY), zero, Curve("mu0_h", "µ₀H", FIELD_STRENGTH),
                             Dots("now", FIELD_STRENGTH)])
    return Panel(
        title="Inside the magnet, H points against B",
        sliders=begin(instrument, PLACE_ON_AXIS, DIAMETER, LENGTH, RECOIL_PERMEABILITY),
        compute=partial(inside_field, instrument=instrument), data=partial(inside_curves, instrument=instrument),
        figure=figure, sheet=sheet, prediction="p4", grips=(Grip(rod.axes, y="place"), rod_corner(rod.axes, below=0.5)),
        draw={"rod": rod, "b": b, "h": h},
        shown=lambda field: {
            "H": said(field.h, "kA/m", "+.1f"), "B": said(field.b, "T", "+.3f"),
            "J": said(field.j, "T", ".3f"), "where": field.sentence},
        message="B points up through rod and face without a jump; H is against it inside the rod and jumps at the "
                "faces. At {place from middle} from the middle B is {B}, H {H}, J {J}; {where}.",
        on_paper=({}, {"place": 8e-3}, {"place": 11.5e-3}))
