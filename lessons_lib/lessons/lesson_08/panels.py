"""The panels of lesson 8: a guess before the readings, an error that readings share, a design beside its limits."""
from functools import lru_cache

import numpy as np

from lessons_lib.base.units import said
from lessons_lib.base.workshop import house_coil
from lessons_lib.exercises.kinds.design import findings
from lessons_lib.lessons.lesson_08.guess import guess_panel
from lessons_lib.lessons.lesson_08.model import (
    COIL_RESISTANCE,
    NOISE,
    ROD,
    SPOT,
    shared_error,
    shared_error_curves,
    too_high,
)
from lessons_lib.lessons.lesson_08.readings import show_gauss, show_height, show_resonances, show_response
from lessons_lib.page.controls import Choice, Slider
from lessons_lib.page.panel import Panel
from lessons_lib.page.sound import sounds
from lessons_lib.physics.design import GRADES, STRINGS, design_report, response_curve
from lessons_lib.pictures.shared_error import ReadingsWithSharedError
from lessons_lib.pictures.six_levels import SixLevels, allowed_frequencies
from lessons_lib.pictures.style import new_figure
from lessons_lib.pictures.turns import OutputOverFrequency

__all__ = ["design_bench", "guess_then_data", "hear_three_plucks", "one_shared_error", "show_gauss", "show_height",
           "show_resonances", "show_response"]

HOUSE_WIRE = 44
HEARD = 10.0        # s at most, of a recording
OUTPUT_FREQUENCIES = np.geomspace(200.0, 2e4, 240)
MAGNET = Choice(name="magnet", label="grade of the rods", options={name: name for name in GRADES}, start="alnico 5")
WIRE = Slider(name="wire", label="gauge of the wire", unit="AWG", low=40, high=46, start=HOUSE_WIRE, step=1, whole=True)
DESIGN_TURNS = Slider(name="turns", label="turns", unit="", low=1000, high=15000, start=house_coil["turns"], step=50,
                      whole=True)
HEIGHTS = tuple(Slider(name=f"top_{string}", label=f"pole top of string {string}", unit="mm", low=-3, high=1, start=0,
                       step=0.1) for string in STRINGS)

ZERO = Slider(name="zero", label="zero wrong by", unit="mT", low=-0.5, high=2, start=0, step=0.1)
REACH = Slider(name="reach", label="readings out to", unit="mm", low=5, high=20, start=10, step=1)


def guess_then_data(sheet=None, readings=None, resistance=COIL_RESISTANCE):
    """Panel: a guess of the coil's response; its button draws the exciter readings (SI columns) and a fit on top."""
    return guess_panel(sheet, readings, resistance)


def hear_three_plucks(plucks):
    """Players of three recordings that belong together (`Plucks`), on one level scale."""
    rate = plucks.recordings[0].rate
    return sounds({f"pickup lowered by {said(lowered, 'mm', 'g')}": one.samples[:int(HEARD * rate)]
                   for lowered, one in zip(plucks.lowered, plucks.recordings)}, rate)


def shared_error_figure():
    """A figure and the function that draws shared_error_curves into it."""
    figure = new_figure(width=8.0, height=4.6)
    axes = figure.add_axes((0.09, 0.40, 0.88, 0.57)), figure.add_axes((0.09, 0.13, 0.88, 0.22))
    picture = ReadingsWithSharedError(*axes, reach=20.5e-3, flux_density=(0.8e-3, 250e-3), noise=2 * NOISE)
    return figure, lambda data: picture.update(**data)


def one_shared_error(sheet=None):
    """Panel: readings over a rod of alnico 5 by a meter whose zero is wrong, and what a fit makes of them."""
    figure, draw = shared_error_figure()

    def readouts(one):
        return {"flux in the rod, put in": said(ROD.midplane_flux(), "µWb", ".2f"),
                "flux found": f"{said(one.flux, 'µWb', '.2f')}, {too_high(one.off)}",
                "sensitive spot put in": f"{said(SPOT, 'mm', '.2f')} inside the tip",
                "found": said(one.spot, "mm", ".2f"), "largest residual": said(one.residual, "%", ".1f")}

    def alt(one, *, zero, reach):
        zero = said(zero, "mT", "+z.1f")
        return (f"Flux density over the rod against distance: twelve readings out to {said(reach, 'mm', '.0f')} "
                f"with a zero of {zero}, the field itself, and the fit. Flux found {said(one.flux, 'µWb', '.2f')}, "
                f"{too_high(one.off)}; the sensitive spot {said(one.spot, 'mm', '.2f')} inside the tip; the largest "
                f"residual, underneath, is {said(one.residual, '%', '.1f')}.")
    return Panel(sliders=(REACH, ZERO), compute=shared_error, data=shared_error_curves, figure=figure, draw=draw,
                 sheet=sheet, prediction="p2", shown=readouts, message=alt)


def designed(*, magnet, wire, turns, **tops):
    """The report on a design whose heights come one by one as top_VI to top_I, m."""
    return design_report(magnet=magnet, wire=wire, turns=turns, tops=[tops[one.name] for one in HEIGHTS])


@lru_cache(maxsize=1)
def _house():
    return design_report(magnet="alnico 5", wire=HOUSE_WIRE, turns=house_coil["turns"], tops=[0.0] * len(STRINGS))


def design_curves(report, **_):
    """What the picture shows: outputs of string VI against frequency (dB re the house pickup's at low frequencies)."""
    house = _house()
    louder = 20 * np.log10(report.sensitivity / house.sensitivity)
    return {"output": {"frequency": OUTPUT_FREQUENCIES, "house": response_curve(house, OUTPUT_FREQUENCIES),
                       "this": louder + response_curve(report, OUTPUT_FREQUENCIES)},
            "levels": {"levels": report.levels}}


def design_figure(limits=()):
    """A figure with the bands of a sheet's *limits*, and the function that draws design_curves into it."""
    bounds = {one["quantity"]: one for one in limits}
    figure = new_figure(width=8.0, height=3.8)
    output = OutputOverFrequency(figure.add_axes((0.095, 0.16, 0.45, 0.80)), frequency=(200, 2e4), level=(-40, 30))
    if "resonance" in bounds:
        factor = bounds["resonance"]["factor"]
        allowed_frequencies(output.axes, *(factor * (bounds["resonance"][side] or end)
                                           for side, end in (("least", 1e-9), ("most", 1e9))))
    levels = SixLevels(figure.add_axes((0.665, 0.16, 0.325, 0.80)), strings=STRINGS, reach=8,
                       allowed=bounds["spread"]["most"] if "spread" in bounds else None)
    return figure, lambda data: output.update(**data["output"]) + levels.update(**data["levels"])


def _values(report):
    return {"resonance with the cable": said(report.resonance, "kHz", ".2f"),
            "resistance": said(report.resistance, "kΩ", ".2f"), "inductance": said(report.inductance, "H", ".2f"),
            "share of the window": f"{report.fill:.2f}" + ("" if report.fill <= 1 else ": it does not fit"),
            "sensitivity of string VI": said(report.sensitivity, "V s/m", ".4f"),
            "spread": said(report.spread, "dB", ".1f"), "wire": said(report.wire_length, "m", ".0f"),
            "copper": said(report.copper, "g", ".1f")}


def _beside_limits(report, limits):
    found = findings(limits, report)
    return {"limits met": f"{sum(one.met for one in found)} of {len(found)}",
            **{one.label: one.outcome() for one in found}}


def design_bench(sheet=None, exercise="8.7", prediction="p3"):
    """Panel: a design and what it leads to; with a sheet, each limit of its *exercise*, met or not and by how much."""
    limits = sheet.limits(exercise) if sheet is not None else []
    figure, draw = design_figure(limits)

    def alt(report, **_):
        beside = f"{_beside_limits(report, limits)['limits met']} limits are met. " if limits else ""
        loudest, softest = (STRINGS[int(pick(report.levels))] for pick in (np.argmax, np.argmin))
        return (f"What a pickup of these choices gives. {beside}The output of string VI peaks at "
                f"{said(report.resonance, 'kHz', '.2f')}, {said(report.resonance_level, 'dB', '+.1f')} relative to low "
                f"frequencies; resistance {said(report.resistance, 'kΩ', '.2f')}; sensitivity "
                f"{said(report.sensitivity, 'V s/m', '.4f')}. Of six equal plucks string {loudest} is the loudest, "
                f"{said(report.spread, 'dB', '.1f')} above string {softest}.")

    return Panel(sliders=(*HEIGHTS, MAGNET, WIRE, DESIGN_TURNS), compute=designed, data=design_curves, figure=figure,
                 draw=draw, sheet=sheet, prediction=prediction, message=alt,
                 shown=lambda report: _beside_limits(report, limits) if limits else _values(report))
