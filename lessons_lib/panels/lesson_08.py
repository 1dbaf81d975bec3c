"""The design panel of lesson 8: magnet, wire, turns and six heights, and what they lead to beside the bench's limits."""
from functools import lru_cache

import numpy as np

from ..base.workshop import house_coil
from ..exercises.designs import findings
from ..physics.design import GRADES, STRINGS, design_report, response_curve
from ..pictures.six_levels import SixLevels, allowed_frequencies
from ..pictures.style import new_figure
from ..pictures.turns import OutputOverFrequency
from .controls import Choice, Slider
from .lesson_01 import signed
from .panel import Panel

HOUSE_WIRE = 44
FREQUENCY = np.geomspace(200.0, 2e4, 240)
MAGNET = Choice(name="magnet", label="grade of the rods", options={name: name for name in GRADES}, start="alnico 5")
WIRE = Slider(name="wire", label="gauge of the wire", unit="AWG", low=40, high=46, start=HOUSE_WIRE, step=1, whole=True)
TURNS = Slider(name="turns", label="turns", unit="", low=1000, high=15000, start=house_coil["turns"], step=50,
               whole=True)
HEIGHTS = tuple(Slider(name=f"top_{string}", label=f"pole top of string {string}", unit="mm", low=-3, high=1, start=0,
                       step=0.1, si=1e-3, slow=True) for string in STRINGS)


def designed(*, magnet, wire, turns, **tops):
    """The report on a design whose heights come one by one as top_VI to top_I, m."""
    return design_report(magnet=magnet, wire=wire, turns=turns, tops=[tops[one.name] for one in HEIGHTS])


@lru_cache(maxsize=1)
def _house():
    return design_report(magnet="alnico 5", wire=HOUSE_WIRE, turns=house_coil["turns"], tops=[0.0] * len(STRINGS))


def design_curves(**chosen):
    """What the picture shows: outputs of string VI against frequency (dB re the house pickup's at low frequencies)."""
    report, house = designed(**chosen), _house()
    louder = 20 * np.log10(report.sensitivity / house.sensitivity)
    return {"output": {"frequency": FREQUENCY, "house": response_curve(house, FREQUENCY),
                       "this": louder + response_curve(report, FREQUENCY)},
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
    return {"resonance with the cable": f"{report.resonance / 1e3:.2f} kHz",
            "resistance": f"{report.resistance / 1e3:.2f} kΩ", "inductance": f"{report.inductance:.2f} H",
            "share of the window": f"{report.fill:.2f}" + ("" if report.fill <= 1 else ": it does not fit"),
            "sensitivity of string VI": f"{report.sensitivity:.4f} V per m/s", "spread": f"{report.spread:.1f} dB",
            "wire": f"{report.wire_length:.0f} m", "copper": f"{report.copper * 1e3:.1f} g"}


def _beside_limits(report, limits):
    found = findings(limits, report)
    return {"limits met": f"{sum(one.met for one in found)} of {len(found)}",
            **{one.label: one.outcome() for one in found}}


def design_bench(sheet=None, exercise="8.5", prediction="p1"):
    """Panel: a design and what it leads to; with a sheet, each limit of its *exercise*, met or not and by how much."""
    limits = sheet.limits(exercise) if sheet is not None else []
    figure, draw = design_figure(limits)

    def alt(report):
        beside = f"{_beside_limits(report, limits)['limits met']} limits are met. " if limits else ""
        loudest, softest = (STRINGS[int(pick(report.levels))] for pick in (np.argmax, np.argmin))
        return (f"What a pickup of these choices gives. {beside}The output of string VI peaks at "
                f"{report.resonance / 1e3:.2f} kHz, {signed(f'{report.resonance_level:+.1f} dB')} over low "
                f"frequencies; resistance {report.resistance / 1e3:.2f} kΩ; sensitivity "
                f"{report.sensitivity:.4f} V per m/s. Of six equal plucks string {loudest} is the loudest, "
                f"{report.spread:.1f} dB over string {softest}.")

    return Panel(sliders=(*HEIGHTS, MAGNET, WIRE, TURNS), numbers=designed, arrays=design_curves, figure=figure,
                 draw=draw, sheet=sheet, prediction=prediction, alt=alt,
                 readouts=lambda report: _beside_limits(report, limits) if limits else _values(report))
