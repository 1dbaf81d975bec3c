"""The six panels of lesson 3: string in the field, its flux before, circuit, saturation, pull and pitch, what is known.

The functions under them are in model.py, before.py, circuit.py, pull.py and known.py, the lines of flux in lines.py.
"""
import math
from functools import partial

import numpy as np

from lessons_lib.base.units import said
from lessons_lib.lessons.instrument import shown
from lessons_lib.lessons.lesson_03 import before, sliders
from lessons_lib.lessons.lesson_03.circuit import circuit_and_model, circuit_curves
from lessons_lib.lessons.lesson_03.known import known_curves, known_to
from lessons_lib.lessons.lesson_03.known_pictures import known_pictures, known_words
from lessons_lib.lessons.lesson_03.lines import pictures
from lessons_lib.lessons.lesson_03.model import (
    ALONG,
    DRAWN_HEIGHTS,
    SWING,
    fullness,
    straight_and_wire,
    three_fluxes,
)
from lessons_lib.lessons.lesson_03.pull import aslant, envelope, pull_and_pitch
from lessons_lib.lessons.string_lines import FRAME, SLICE, pale_lines
from lessons_lib.page.controls import begin
from lessons_lib.page.film import Film
from lessons_lib.page.grips import Grip
from lessons_lib.page.panel import Panel
from lessons_lib.page.sound import Sound, sounds
from lessons_lib.pictures.bent import BentAxis
from lessons_lib.pictures.circuits import PER_METRE, POLE, StringLoop
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import PLAIN, Between, Curve, Dots, Level
from lessons_lib.pictures.over_pole import FilledWire, PulledString
from lessons_lib.pictures.string_over_rod import FluxAndGain, StringOverRod, TwoWays
from lessons_lib.pictures.style import FLUX, FLUX_DENSITY, GRID, INK, MM, MUTED, VOLTAGE, label, new_figure

HEIGHT = Axis("height of the string", "mm", (DRAWN_HEIGHTS[0], DRAWN_HEIGHTS[-1]))
DASHED, ACROSS = {"color": INK, "linestyle": "--"}, {"color": MUTED, "linestyle": "--"}
RATE, BEATING = 11025, 3.0      # samples a second, s


def _rod_and_coil(instrument):
    """What `Magnet.update` and `Coil.update` take."""
    return {"magnet": {"top": 0.0, "diameter": instrument.rod.diameter, "length": instrument.rod.length},
            "coil": {name: instrument.coil[name] for name in ("inner_radius", "outer_radius", "bottom", "top")}}


def opening(instrument=None):
    """Players of one string, close over its magnet and far from it, on one level scale."""
    instrument = shown(instrument)
    place = instrument.place["pickup_place"] / instrument.place["scale_length"]
    strings = [(height, pull_and_pitch(height=height, core=instrument.strings["VI"]["core"], place=place,
                                       tension=instrument.tension("VI"), instrument=instrument))
               for height in (1.5e-3, 6e-3)]
    return sounds({f"{said(height, 'mm', 'g')} above the magnet": string.notes(BEATING, RATE).sum(axis=0)
                   for height, string in strings}, RATE)


def string_in_field(sheet=None, instrument=None):
    """Panel: the flux that a string carries as lines, the magnet without it, and three fluxes kept apart."""
    instrument = shown(instrument)
    figure = new_figure(height=4.9)
    side, end = figure.add_axes((0.095, 0.51, 0.49, 0.4165)), figure.add_axes((0.642, 0.51, 0.343, 0.4165))
    views = StringOverRod(
        side, end, **_rod_and_coil(instrument), pale=pale_lines(instrument.rod),
        end_words=f"from the end: {said(SLICE, 'mm', 'g')} of it", **FRAME)
    period = 1 / instrument.strings["VI"]["frequency"]
    charts = FluxAndGain(
        figure.add_axes((0.095, 0.115, 0.49, 0.33)), figure.add_axes((0.705, 0.115, 0.28, 0.22)),
        half_width=FRAME["half_width"], period=period, swing_words=f"swing of {said(SWING, 'mm', 'g')}",
        stronger=math.ceil(instrument.stronger))
    return Panel(
        title="The string leads a little flux another way",
        sliders=begin(instrument, sliders.STRING_HEIGHT, sliders.PLACE_ACROSS, sliders.CORE, sliders.PERMEABILITY,
                      sliders.SATURATES),
        compute=partial(three_fluxes, instrument=instrument), figure=figure,
        data=lambda _, **values: pictures(**values, instrument=instrument)[0],
        draw=lambda data: views.update(**data["views"]) + charts.update(
            **{name: data[name] for name in ("along", "swing", "now")}),
        shown=lambda flux: {
            "the string adds to the magnet": f"{said(flux.added_in_magnet, 'nWb', '+.2f')}, "
                                             f"{said(flux.share_of_magnet, '%', '+.3f')}",
            "to the coil's mean turn": f"{said(flux.added_in_turn, 'nWb', '+.2f')}, "
                                       f"{said(flux.added_in_turn / flux.turn, '%', '+.3f')}",
            "flux in the string": f"{said(flux.string, 'nWb', '.1f')}, {said(flux.flux_density, 'T', '.2f')}",
            "in the magnet": said(flux.magnet, "µWb", ".2f"), "in the mean turn": said(flux.turn, "µWb", ".2f")},
        message=lambda flux, *, place, saturates, **_: (
            "The string gathers flux where the rod is near, carries it along and gives it back some millimetres "
            f"further on, to both sides. A string of {'wire that saturates' if saturates else 'straight-line steel'}, "
            "{diameter of core} thick with permeability {permeability}, at a height of {height of string} "
            + ("and {place across} beside the middle of the rod" if place else "over the middle of the rod")
            + f", carries {said(flux.string, 'nWb', '.1f')} to each side; the coil's turns gain "
            "{to the coil's mean turn} each, the magnet {the string adds to the magnet} of its flux."),
        film=lambda _, **values: Film(
            frames=tuple(pictures(**values, shares=np.arange(24) / 24, instrument=instrument)),
            words=f"one period in 1.6 s instead of {said(period, 'ms', '.0f')}; the swing of {said(SWING, 'mm', 'g')} "
                  "is to scale"),
        grips=(Grip(end, x="place", y="height"), Grip(side, y="height", at=(9.0, 0.0))),
        on_paper=({"height": 2e-3}, {}, {"height": 4e-3}), sheet=sheet, prediction="p1")


def flux_before(sheet=None, instrument=None):
    """Panel: the flux of the string, the way it took before the string came, and how much of it is new in the coil."""
    instrument = shown(instrument)
    figure = new_figure(height=4.9)
    side, end = figure.add_axes((0.085, 0.12, 0.485, 0.825)), figure.add_axes((0.69, 0.51, 0.28, 0.4375))
    views = TwoWays(
        side, end, **_rod_and_coil(instrument), now_words=f"now, {said(before.TUBE, 'nWb', 'g')} a line",
        end_words=f"from the end: {said(SLICE, 'mm', 'g')}, {said(before.TUBE / 2, 'nWb', 'g')} a line", **before.FRAME)
    curves = Lines(
        figure.add_axes((0.69, 0.12, 0.3, 0.26)), x=HEIGHT, y=Axis("flux", "nWb", (0, 700e-9 * instrument.stronger)),
        parts=[Between("gathered", "new", color=GRID), Curve("gathered", "gathers", FLUX),
               Curve("new", "new in\na turn", FLUX),
               Level("", "passed before", value=100e-9 * instrument.stronger, width=0, at=0.4), Dots("now", FLUX)])
    return Panel(
        title="Nearly all of it had passed the coil before",
        sliders=begin(instrument, sliders.STRING_HEIGHT, sliders.WIRE_PERMEABILITY),
        compute=partial(before.before_and_now, instrument=instrument),
        data=partial(before.ways_and_curves, instrument=instrument),
        figure=figure, draw=lambda data: views.update(**data["views"]) + curves.update(DRAWN_HEIGHTS, **data["curves"]),
        shown=lambda both: {
            "of the string's flux passed the coil before": said(both.share, "%", ".0f"),
            "the string gathers": said(both.fluxes.gathered, "nWb", ".0f"),
            "passed the mean turn before": said(both.passed_before, "nWb", ".0f"),
            "new in the mean turn": said(both.fluxes.added_in_turn, "nWb", ".1f"),
            "new in the magnet": said(both.fluxes.added_in_magnet, "nWb", ".1f"),
            "rises into the string's place": f"before {said(both.rising_before, 'nWb', '.0f')}, "
                                             f"now {said(both.rising_now, 'nWb', '.0f')}",
            "runs along it, to each side": f"before {said(both.along_before, 'nWb', '.1f')}, "
                                           f"now {said(both.fluxes.string, 'nWb', '.0f')}"},
        message="Before the string came, the flux that it gathers went up through the coil, too, and on into the air; "
                "now it is led aside above the coil. At {height of string} {the string gathers}: {passed the mean turn "
                "before} of it had passed the coil's mean turn before, {new in the mean turn} are new there.",
        grips=(Grip(end, y="height"), Grip(side, y="height", at=(9.0, 0.0))),
        on_paper=({"height": 1.5e-3}, {}, {"height": 4e-3}), sheet=sheet, prediction="p5")


def string_in_circuit(sheet=None, instrument=None):
    """Panel: near air and string in parallel in the circuit, fitted at one height, checked against the model at all."""
    instrument = shown(instrument)
    figure = new_figure(height=4.2)
    loop = StringLoop(figure.add_axes((0.0, 0.0, 0.525, 1.0)))
    shares = Lines(
        figure.add_axes((0.625, 0.14, 0.37, 0.83)), x=HEIGHT, y=Axis("change of the magnet's flux", "%", (0, 0.3e-2)),
        parts=[Between("circuit", "model", color=GRID), Curve("model", "model", FLUX),
               Curve("circuit", "circuit", DASHED),
               Level("height", "fitted here", upright=True), Dots("fit", marker="s", hollow=True, size=12),
               Dots("now")])
    return Panel(
        title="Fitted at one height, right near it only",
        sliders=begin(instrument, sliders.STRING_HEIGHT, sliders.FIT_HEIGHT, sliders.THICK_CORE, sliders.SATURATES),
        compute=partial(circuit_and_model, instrument=instrument),
        data=partial(circuit_curves, instrument=instrument), figure=figure,
        draw=lambda data: loop.update(**data["loop"]) + shares.update(DRAWN_HEIGHTS, **data["shares"]),
        shown=lambda both: {
            "of the signal at 2 mm": said(both.signal / both.signal_at_2_mm, "%", ".0f"),
            "signal": said(both.signal, "mV per m/s", ".1f"),
            "change of the magnet's flux by the circuit": said(both.circuit.share(both.height), "%", "+.3f"),
            "by the computed model": said(both.model.share_of_magnet, "%", "+.3f"),
            "circuit relative to model": said(both.difference, "%", "+z.0f"),
            "near air": said(both.circuit.near_air, "MA/Wb", ".1f"),
            "far air": said(both.circuit.far_air, "MA/Wb", ".1f"),
            "string branch": said(both.circuit.branch(both.height), "MA/Wb", ".1f")},
        message="A string in parallel with the near part of the air hardly changes the flux in the magnet, and the "
                "circuit, fitted at {fitted at a height of}, follows the computed model only near that height: at "
                "{height of string} it says {change of the magnet's flux by the circuit}, the model {by the computed "
                "model}. The string branch has {string branch}, in parallel with {near air}.",
        grips=(Grip(loop.axes, y="height", y_of=lambda mm: POLE + mm / MM * PER_METRE, at=(8.4, 0.0)),
               Grip(shares.axes, x="fit_height", at=(0.0, 0.285))),
        on_paper=({"height": 2e-3}, {}, {"height": 4e-3}), sheet=sheet, prediction="p2")


def saturation(sheet=None, instrument=None):
    """Panel: how full a wire is, what a straight-line steel would carry, and what is left of its flux and signal."""
    instrument = shown(instrument)
    figure = new_figure(height=4.9)
    wire = FilledWire(figure.add_axes((0.085, 0.64, 0.9, 0.29)), diameter=instrument.rod.diameter, half_width=ALONG[-1],
                      top=7.6e-3)
    density = Lines(
        figure.add_axes((0.085, 0.12, 0.44, 0.37)), x=HEIGHT, y=Axis("flux density", "T", (0, 6 * instrument.stronger)),
        parts=[Curve("wire", "wire", FLUX_DENSITY), Curve("straight", "straight\nline", DASHED),
               Level("full", "1.9 T", value=1.9, at=0.85), Dots("now")])
    left = Lines(
        figure.add_axes((0.615, 0.12, 0.37, 0.37)), x=HEIGHT, y=Axis("wire / straight line", "%", (0, 1)),
        parts=[Curve("flux", "flux", FLUX), Curve("signal", "signal", VOLTAGE), Dots("now")])

    full = partial(fullness, instrument=instrument)

    def data(steel, *, height, **of_wire):
        over = straight_and_wire(height=DRAWN_HEIGHTS, **of_wire, instrument=instrument)
        return {"wire": {"x": ALONG, "height": height, "fullness": full(height=height, **of_wire)},
                "density": {"wire": over.wire_density, "straight": over.straight_density,
                            "now": (height, [steel.wire_density, steel.straight_density])},
                "left": {"flux": over.flux_left, "signal": over.signal_left,
                         "now": (height, [steel.flux_left, steel.signal_left])}}

    return Panel(
        title="Wire fills up: then nearer adds little",
        sliders=begin(instrument, sliders.STRING_HEIGHT, sliders.FINE_CORE, sliders.WIRE_PERMEABILITY),
        compute=partial(straight_and_wire, instrument=instrument), data=data, figure=figure,
        draw=lambda data: (wire.update(**data["wire"]) + density.update(DRAWN_HEIGHTS, **data["density"])
                           + left.update(DRAWN_HEIGHTS, **data["left"])),
        shown=lambda steel: {
            "flux, wire": said(steel.wire_flux, "nWb", ".1f"),
            "flux, straight-line steel": said(steel.straight_flux, "nWb", ".1f"),
            "flux density, wire": said(steel.wire_density, "T", ".2f"),
            "flux density, straight-line steel": said(steel.straight_density, "T", ".2f"),
            "signal, wire": said(steel.wire_signal, "mV per m/s", ".1f"),
            "signal, straight-line steel": said(steel.straight_signal, "mV per m/s", ".1f")},
        message=lambda steel, **values: (
            ("The fuller the wire is, the further it stays below a straight-line steel: it never passes 1.9 T"
             if steel.straight_density > 1.2 else "A wire that is far from full carries little less than such a steel")
            + f": at {{height of string}} {{flux density, wire}} against {{flux density, straight-line steel}}. The "
            f"wire is {said(full(**values).max(), '%', '.0f')} full where it is fullest. The signal is {{signal, "
            "wire} against {signal, straight-line steel}."),
        grips=(Grip(wire.axes, y="height", at=(-9.0, 0.0)),),
        on_paper=({"height": 1.5e-3}, {}, {"height": 4e-3}), sheet=sheet, prediction="p3")


def pull_and_detuning(sheet=None, instrument=None):
    """Panel: the magnet's pull on a string over the height, what its slope does to the pitch, two notes that beat."""
    instrument = shown(instrument)
    stronger = instrument.stronger ** 2
    cents = BentAxis("change of pitch", "cents", knee=25.0 * math.ceil(stronger), low=-1.5, high=1.0, ticks=(-1, 0, 1))
    figure, limits = new_figure(height=4.9), (-1.2e-3, 7e-3)
    scene = PulledString(figure.add_axes((0.075, 0.43, 0.271, 0.55)), diameter=instrument.rod.diameter,
                         half_width=3.3e-3, bottom=limits[0], top=limits[1], longest=60e-3 * stronger)
    up = Axis("height of the string", "mm", limits, ticks=(0, 2e-3, 4e-3, 6e-3), bare=True)
    pull = Lines(figure.add_axes((0.375, 0.43, 0.24, 0.55)), y=up, parts=[Curve("pull"), Dots("now")],
                 x=Axis("pull of the magnet", "mN", (0, 58e-3 * stronger)))
    pitch = Lines(figure.add_axes((0.665, 0.43, 0.32, 0.55)), x=cents.axis, y=up, parts=[
        *cents.bands(upright=True), Curve("up", look=PLAIN), Curve("across", look=ACROSS), Dots("now up"),
        Dots("now across", ACROSS)])
    for text, x, align, look in (("up and down", -0.06, "right", PLAIN), ("sideways", 0.06, "left", ACROSS)):
        label(pitch.axes, text, look, animated=False, ha=align, va="bottom").set_position((x, 6.2))
    beat = Lines(
        figure.add_axes((0.075, 0.11, 0.91, 0.19)), x=Axis("time", "s", (0, BEATING)),
        y=Axis("both notes", "", (-1, 1), ticks={0: ""}),
        parts=[Between("over", "under", color=GRID), Curve("over", look=ACROSS | {"linestyle": "-"}, width=1.2),
               Curve("under", look=ACROSS | {"linestyle": "-"}, width=1.2), Dots("now")])

    def data(one, *, height, core, share=0.0, **values):
        """At a *share* of the time from one swell to the next."""
        over = pull_and_pitch(height=DRAWN_HEIGHTS, core=core, **values, instrument=instrument)
        time, loud = envelope(one.beats, BEATING)
        path, now = aslant(share)
        return {"scene": {"height": height, "core": core, "pull": one.pull, "path": path, "now": now},
                "pull": {"pull": (over.pull, DRAWN_HEIGHTS), "now": (one.pull, height)},
                "pitch": {"up": (cents.place(over.cents), DRAWN_HEIGHTS), "now up": (cents.place(one.cents), height),
                          "across": (cents.place(over.across_cents), DRAWN_HEIGHTS),
                          "now across": (cents.place(one.across_cents), height)},
                "beat": {"over": (time, loud), "under": (time, -loud),
                         "now": (share / one.beats, np.cos(np.pi * share))}}

    return Panel(
        title="A pull that grows makes the note lower",
        sliders=begin(instrument, sliders.STRING_HEIGHT, sliders.SENSING, sliders.THICK_CORE, sliders.TENSION),
        compute=partial(pull_and_pitch, instrument=instrument), data=data, figure=figure,
        draw=lambda data: (scene.update(**data["scene"]) + pull.update(**data["pull"]) + pitch.update(**data["pitch"])
                           + beat.update(**data["beat"])),
        shown=lambda one: {
            "change of pitch": said(one.cents, "cents", "+.1f"),
            "sideways": said(one.across_cents, "cents", "+.1f"),
            "the two notes beat": f"{one.beats:.1f} times a second",
            "pull": said(one.pull, "mN", ".1f"), "slope of the pull": said(one.pull_gradient, "N/m", ".1f"),
            "pull as a share of the tension": said(one.pull / one.tension, "%", ".3f")},
        message="The nearer the magnet, the stronger it pulls and the lower the string sounds: at {height of string} "
                "the pull is {pull}, its slope {slope of the pull}, and the pitch changes by {change of pitch}. "
                "Sideways it changes by {sideways}; the two notes together beat {the two notes beat}.",
        film=lambda one, **values: Film(
            frames=tuple(data(one, **values, share=share) for share in np.arange(24) / 24), seconds=3.6,
            words=f"swell to swell in 3.6 s instead of {said(1 / one.beats, 's', '.2g')}; the swings slower still"),
        sound=lambda one, **_: Sound(
            signals=dict(zip(("up and down", "sideways", "both: they beat"),
                             [*(notes := one.notes(BEATING, RATE)), notes.sum(axis=0)])), rate=RATE, loudest=1.0),
        grips=(Grip(scene.axes, y="height"),),
        on_paper=({"height": 1.5e-3}, {}, {"height": 4e-3}), sheet=sheet, prediction="p4")


def how_well_known(sheet=None, instrument=None):
    """Panel: the band of what is known of string III's signal over the height, and of two ratios of it."""
    instrument = shown(instrument)
    figure = new_figure(height=4.2)
    return Panel(
        title="How well the signal is known, and its ratios",
        sliders=begin(instrument, sliders.STRING_HEIGHT, sliders.NOT_KNOWN),
        compute=partial(known_to, instrument=instrument), data=partial(known_curves, instrument=instrument),
        figure=figure, draw=known_pictures(figure, instrument.louder), shown=known_words,
        message="What is not known makes the signal a band, and a ratio drops only what acts alike on both of its "
                "parts. At {height of string} two out of three draws of the signal are within {two out of three are "
                "within} of {signal, median}; most of the variance comes from {most of it comes from}. Divided by its "
                "own signal at 2 mm it is {divided by its own at 2 mm}; divided by that of string VI {divided by that "
                "of string VI}.",
        on_paper=({"height": 2e-3}, {}, {"height": 4e-3}), sheet=sheet, prediction="p6")
