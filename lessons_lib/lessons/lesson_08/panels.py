"""The panels of lesson 8: a guess before the readings, an error that readings share, a design beside its limits."""
from functools import lru_cache, partial

import numpy as np

from lessons_lib.base.units import in_unit, said, with_unit
from lessons_lib.base.workshop import ROW, house_coil, house_magnet, house_place, house_strings
from lessons_lib.exercises.kinds.design import findings
from lessons_lib.lessons.lesson_08 import model
from lessons_lib.lessons.lesson_08.heard import RATE, six_plucks
from lessons_lib.lessons.lesson_08.metal import ADDED, COIL_RESISTANCE, METER, low_inductance, shown_by_meter
from lessons_lib.lessons.lesson_08.readings import show_gauss, show_height, show_resonances, show_response
from lessons_lib.lessons.own_instrument import HOUSE_GAUGE
from lessons_lib.page.controls import Choice, Slider
from lessons_lib.page.grips import Grip
from lessons_lib.page.panel import Panel
from lessons_lib.page.sound import Sound, sounds
from lessons_lib.physics.design import GRADES, design_report, response_curve, rod_of
from lessons_lib.pictures.design import DesignBesideLimits
from lessons_lib.pictures.response import guess_and_readings
from lessons_lib.pictures.shared_error import ReadingsWithSharedError
from lessons_lib.pictures.style import new_figure

__all__ = ["design_bench", "guess_then_data", "hear_three_plucks", "one_shared_error", "opening", "show_gauss",
           "show_height", "show_resonances", "show_response"]

HEARD = 10.0        # s at most, of a recording
OUTPUT_FREQUENCIES = np.geomspace(200.0, 2e4, 240)
INDUCTANCE = Slider(name="inductance", label="inductance", unit="H", low=1, high=6, start=2, step=0.05)
OWN = Slider(name="own", label="self-capacitance", unit="pF", low=40, high=300, start=100, step=5)
LOAD_RESISTANCE = Slider(name="load", label="resistance across it", unit="kΩ", low=50, high=5000, start=500,
                         logarithmic=True)
METAL = Choice(name="metal", label="metal in the coil", start="none", options={
    "no currents in it": "none", "rods of alnico answer": "alnico", "rods of steel answer": "steel"})
DRAWN = Choice(name="drawn", label="readings", options={"not yet: I am guessing": False, "drawn over my guess": True},
               start=False)
METER_SHOWS = f"a meter shows at {', '.join(said(one, 'kHz', 'g') for one in METER)}"
MAGNET = Choice(name="magnet", label="grade of the rods", options={name: name for name in GRADES}, start="alnico 5")
WIRE = Slider(name="wire", label="gauge of the wire", unit="AWG", low=40, high=46, start=HOUSE_GAUGE, step=1,
              whole=True)
DESIGN_TURNS = Slider(name="turns", label="turns", unit="", low=1000, high=15000, start=house_coil["turns"], step=50,
                      whole=True)
HEIGHTS = tuple(Slider(name=f"top_{string}", label=f"top of pole {string}", unit="mm", low=-3, high=1, start=0,
                       step=0.1) for string in ROW)
ZERO = Slider(name="zero", label="zero wrong by", unit="mT", low=-0.5, high=2, start=0, step=0.1)
REACH = Slider(name="reach", label="readings out to", unit="mm", low=5, high=20, start=10, step=1)


def _peak_level(coil):
    level = said(model.top_of(coil)[1], "dB", "+.1f")
    return level if coil.peak()[0] else f"none; {level} at the resonance"


def guess_then_data(sheet=None, readings=None, resistance=COIL_RESISTANCE):
    """Panel: a guess by sliders; the readings can be drawn over it, and the guess stays while the sliders go on.

    Parameters
    ----------
    sheet : Sheet, optional
    readings : Readings, optional
        SI columns "added capacitance", "frequency", "voltage". Without them there is nothing to draw.
    resistance : float
        Of the coil, ohm.
    """
    runs = None if readings is None else model.exciter_runs(readings, resistance)
    ends = ADDED if readings is None else (min(readings["added capacitance"]), max(readings["added capacitance"]))
    names = tuple(f"{said(extra, 'pF', '.0f')} added" if extra else "nothing added" for extra in ends)
    figure = new_figure(width=8.0, height=4.4)
    picture = guess_and_readings(figure.add_axes((0.085, 0.125, 0.905, 0.85)), level=(-30, 25), runs=names)

    return Panel(
        title="One curve gives LC, a second tells L from C",
        sliders=(INDUCTANCE, OWN, LOAD_RESISTANCE, METAL, *((DRAWN,) if runs else ())),
        compute=model.GuessBesideReadings(runs, resistance=resistance, added=ends),
        shown=partial(_guess_said, names), message=partial(_guess_message, names), figure=figure,
        draw=picture, data=model.guess_curves,
        on_paper=({}, {"inductance": 2.0, "own": 200e-12}, {"inductance": 4.0, "own": 100e-12}), sheet=sheet,
        prediction="p1")


def _guess_said(names, one):
    if one.runs is None:
        bare, _ = one.now
        return {**{f"resonance, {name}": said(coil.natural_frequency, "kHz", ".2f")
                   for name, coil in zip(names, one.now)},
                **{f"peak, {name}": _peak_level(coil) for name, coil in zip(names, one.now)},
                "Q, nothing added": f"{bare.q_factor:.2f}",
                METER_SHOWS: ", ".join(said(seen, "H", "z.2f") for seen in shown_by_meter(bare))}
    (kept, _), (found, _) = one.kept, one.runs.found
    return {"curves and readings apart, RMS": said(one.apart, "dB", ".2f"),
            **{f"resonance, {name}": f"{said(guessed.natural_frequency, 'kHz', '.2f')} guessed, "
                                     f"{said(fitted.natural_frequency, 'kHz', '.2f')} found"
               for name, guessed, fitted in zip(names, one.kept, one.runs.found)},
            "inductance": f"{said(low_inductance(kept), 'H', '.2f')} guessed, "
                          f"{said(low_inductance(found), 'H', '.2f')} found",
            "Q, nothing added": f"{kept.q_factor:.2f} guessed, {found.q_factor:.2f} found"}


def _guess_message(names, one, *, metal, **_):
    first, second = names
    resonances = f"Resonance with {first}: {{resonance, {first}}}; with {second}: {{resonance, {second}}}"
    currents = "" if metal == "none" else " In the model {metal in the coil}: currents flow in them."
    if one.runs is None:
        return (f"A guess of the response, level relative to low frequencies against frequency. {resonances}; peaks "
                f"{{peak, {first}}} and {{peak, {second}}}; Q with nothing added {{Q, nothing added}}.{currents}")
    count = sum(len(frequency) for frequency, _ in one.runs.levels)
    return (f"{count} readings over two curves, {{curves and readings apart, RMS}} apart from them (RMS), and the "
            f"guess in grey. {resonances}; inductance {{inductance}}.{currents}")


def opening(recordings):
    """Players of the `Recording` objects that came in a box, by their numbers, on one level scale."""
    return sounds({f"recording {number}": one.samples[:int(HEARD * one.rate)]
                   for number, one in enumerate(recordings, start=1)}, recordings[0].rate)


def hear_three_plucks(plucks):
    """Players of three recordings that belong together (`Plucks`), on one level scale."""
    rate = plucks.recordings[0].rate
    return sounds({f"pickup lowered by {said(lowered, 'mm', 'g')}": one.samples[:int(HEARD * rate)]
                   for lowered, one in zip(plucks.lowered, plucks.recordings)}, rate)


def shared_error_picture():
    """What shared_error_curves are drawn into."""
    figure = new_figure(width=8.0, height=5.4)
    axes = [figure.add_axes((0.085, bottom, 0.905, height))
            for bottom, height in ((0.925, 0.065), (0.53, 0.385), (0.335, 0.175), (0.13, 0.115))]
    return ReadingsWithSharedError(*axes, reach=20.5e-3, flux_density=(0.8e-3, 250e-3), found=(10e-6, 34e-6),
                                   noise=2 * model.NOISE, true_flux=model.ROD.midplane_flux())


def one_shared_error(sheet=None):
    """Panel: readings over a rod of alnico 5 by a meter whose zero is wrong, and what a fit makes of them."""
    picture = shared_error_picture()
    return Panel(
        title="What all readings share, no residual shows", sliders=(REACH, ZERO), compute=model.shared_error,
        shown=lambda one: {
            "flux found": f"{said(one.flux, 'µWb', '.2f')}, {model.too_high(one.off)}",
            "flux in the rod, put in": said(model.ROD.midplane_flux(), "µWb", ".2f"),
            "largest residual": said(one.residual, "%", ".1f"),
            "sensitive spot put in": f"{said(model.SPOT, 'mm', '.2f')} inside the tip",
            "sensitive spot found": said(one.spot, "mm", ".2f")},
        message="Flux density over the rod against distance: twelve readings out to {readings out to} with a zero that "
                "is wrong by {zero wrong by}, the field itself, and the fit. Flux found: {flux found}; the sensitive "
                "spot {sensitive spot found} inside the tip; the largest residual, underneath, is {largest residual}.",
        figure=picture.axes.figure, draw=picture, data=model.shared_error_curves,
        grips=(Grip(picture.things, x="reach"),), on_paper=({}, {"zero": 1e-3}, {"zero": 1e-3, "reach": 20e-3}),
        sheet=sheet, prediction="p2")


def designed(*, magnet, wire, turns, **tops):
    """The report on a design whose heights come one by one as top_VI to top_I, m."""
    return design_report(magnet=magnet, wire=wire, turns=turns, tops=[tops[one.name] for one in HEIGHTS])


@lru_cache(maxsize=1)
def _house():
    return design_report(magnet="alnico 5", wire=HOUSE_GAUGE, turns=house_coil["turns"], tops=[0.0] * len(ROW))


def design_curves(report, *, magnet, limits=(), **values):
    """What the picture shows: outputs of string VI against frequency (dB re the house pickup's at low frequencies)."""
    house = _house()
    louder = 20 * np.log10(report.sensitivity / house.sensitivity)
    return {"levels": report.levels,
            "pickup": {"tops": [values[one.name] for one in HEIGHTS], "fill": report.fill,
                       "strength": rod_of(magnet).remanence},
            "response": {"x": OUTPUT_FREQUENCIES, "house": response_curve(house, OUTPUT_FREQUENCIES),
                         "this": louder + response_curve(report, OUTPUT_FREQUENCIES)},
            "peak": (report.resonance, louder + report.resonance_level),
            "limits": [(one.value, with_unit(f"{one.value:.3g}", one.unit), one.met)
                       for one in findings(limits, report)]
            or [(None, words, True) for words in _values(report).values()]}


def design_picture(limits=()):
    """What design_curves are drawn into, with the bands of a sheet's *limits*."""
    bounds = {one["quantity"]: one for one in limits}
    resonance = bounds.get("resonance")
    return DesignBesideLimits(
        new_figure(width=8.0, height=5.4), strings=ROW,
        spread=bounds["spread"]["most"] if "spread" in bounds else None,
        resonance=resonance and tuple(resonance["factor"] * (resonance[side] or end)
                                      for side, end in (("least", 1.0), ("most", 1e3))),
        limits=[(one.label, one.least, one.most, one.asked()) for one in findings(limits, _house())]
        or [(name, None, None, "") for name in _values(_house())],
        pickup={"places": house_place["string_y"], "height": house_place["string_height"], "rod": house_magnet,
                "coil": house_coil, "diameters": [house_strings[name]["diameter"] for name in ROW]})


def _values(report):
    return {"resonance with the cable": said(report.resonance, "kHz", ".2f"),
            "resistance": said(report.resistance, "kΩ", ".2f"), "inductance": said(report.inductance, "H", ".2f"),
            "share of the window": f"{report.fill:.2f}" + ("" if report.fill <= 1 else ": it does not fit"),
            "sensitivity of string VI": said(report.sensitivity, "V s/m", ".4f"),
            "spread": said(report.spread, "dB", ".1f"), "wire": said(report.wire_length, "m", ".0f"),
            "copper": said(report.copper, "g", ".1f")}


def design_bench(sheet=None, exercise="8.7", prediction="p3"):
    """Panel: a design and what it leads to; with a sheet, each limit of its *exercise*, met or not and by how much."""
    limits = sheet.limits(exercise) if sheet is not None else []
    picture = design_picture(limits)

    def beside_limits(report):
        found = findings(limits, report)
        return {"limits met": f"{sum(one.met for one in found)} of {len(found)}",
                **{one.label: one.outcome() for one in found}}

    def message(report, **_):
        beside = "{limits met} limits are met. " if limits else ""
        loudest, softest = (ROW[int(pick(report.levels))] for pick in (np.argmax, np.argmin))
        return (f"What a pickup of these choices gives. {beside}The output of string VI peaks at "
                f"{said(report.resonance, 'kHz', '.2f')}, {said(report.resonance_level, 'dB', '+.1f')} relative to low "
                f"frequencies; resistance {said(report.resistance, 'kΩ', '.2f')}; sensitivity "
                f"{said(report.sensitivity, 'V s/m', '.4f')}. Of six equal plucks string {loudest} is the loudest, "
                f"{said(report.spread, 'dB', '.1f')} above string {softest}.")

    def sound(report, **_):
        house = six_plucks(_house())
        return Sound(signals={"house pickup, VI to I": house, "this design": six_plucks(report)}, rate=RATE,
                     loudest=2 * np.abs(house).max())

    return Panel(
        title="Six limits that pull against each other", sliders=(DESIGN_TURNS, WIRE, MAGNET, *HEIGHTS),
        compute=designed, shown=beside_limits if limits else _values,
        message=message, figure=picture.pickup.axes.figure, draw=picture,
        data=partial(design_curves, limits=limits), sound=sound,
        grips=[Grip(picture.pickup.axes, y=one.name, at=(in_unit(y, "mm"), 0.0))
               for one, y in zip(HEIGHTS, house_place["string_y"])],
        on_paper=({}, {"magnet": "ferrite"}, {"wire": 42, "turns": 6000}), sheet=sheet, prediction=prediction)
