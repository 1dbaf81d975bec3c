"""A free alnico rod on the bent curve of its alloy beside one on a straight recoil line: field above, flux, B and H."""
from dataclasses import dataclass
from functools import lru_cache, partial

import numpy as np
from scipy.constants import mu_0

from lessons_lib.base.materials import magnet_grade
from lessons_lib.base.units import said
from lessons_lib.lessons.instrument import house_instrument, shown
from lessons_lib.page.controls import Choice, Slider, begin
from lessons_lib.page.panel import Panel
from lessons_lib.physics.alnico_rod import AlnicoRod
from lessons_lib.physics.magnetic_circuit import demagnetising_curve
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import Curve, Dots
from lessons_lib.pictures.style import BLUE, FLUX_DENSITY, new_figure

ALNICO = magnet_grade("alnico 5")
PARTS = ("in the middle, at the wall", "in the middle, on the axis", "just below the face")
_BELOW = 0.2e-3             # m under the face: "just below" it
_AT_WALL = 0.999            # of the radius
_HEIGHTS = np.linspace(0.3e-3, 8e-3, 78)
_FIELD, _H_LIMIT = 0.2, 130e3      # T and A/m, how far the axes go
_RECOIL = {"color": BLUE, "linestyle": "-."}

LENGTHS = Choice(name="times", label="length of the rod", start=1.0, options={
    "half as long": 0.5, "as it is": 1.0, "twice as long": 2.0})
LINE = Slider(name="remanence", label="remanence of the line", unit="T", low=0.4, high=1.1, step=0.01,
              start=lambda instrument: instrument.magnet["remanence"])
HEIGHT = Slider(name="height", label="height above the face", unit="mm", low=0.5, high=8, start=2.5, step=0.1)


def _over(rod, heights):
    """Flux density (T) on the rod's axis at heights above its face, m."""
    return rod.flux_density(np.stack([0 * heights, 0 * heights, heights], axis=-1))[:, 2]


@dataclass(frozen=True, kw_only=True, eq=False)
class InRod:
    """What one rod has: flux (Wb) through its middle; above (T) its face at _HEIGHTS; b (T) and h (A/m) at PARTS."""

    flux: float
    above: np.ndarray
    b: np.ndarray
    h: np.ndarray

    def at(self, height):
        """Flux density (T) at a height above the face, m."""
        return float(np.exp(np.interp(height, _HEIGHTS, np.log(self.above))))


def _in(rod):
    """As an InRod."""
    middle, wall = -rod.length / 2, _AT_WALL * rod.diameter / 2
    places = [(0.0, wall, middle), (0.0, 0.0, middle), (0.0, 0.0, -_BELOW)]
    return InRod(flux=rod.midplane_flux(), above=_over(rod, _HEIGHTS), b=rod.flux_density(places)[:, 2],
                 h=rod.field_strength(places)[:, 2])


@lru_cache(maxsize=16)
def _on_curve(diameter, length):
    return _in(AlnicoRod(grade=ALNICO, diameter=diameter, length=length))


@dataclass(frozen=True, kw_only=True, eq=False)
class BentAndStraight:
    """One rod of alnico 5 on its *curve*, and on a straight *line*; length (m); fields (T) at the height asked for."""

    curve: InRod
    line: InRod
    length: float
    fields: tuple

    @property
    def off(self):
        """By which share the line's field is off there."""
        return self.fields[1] / self.fields[0] - 1

    @property
    def flux_off(self):
        """By which share the line's flux through the middle is off."""
        return self.line.flux / self.curve.flux - 1


def bent_and_straight(*, times, remanence, height, instrument=house_instrument):
    """A free rod of alnico 5 as thick as the instrument's and *times* as long, on curve and line.

    Parameters
    ----------
    times : float
        Length divided by that of the instrument's rod.
    remanence : float
        Of the line, T; its recoil permeability is the alloy's.
    height : float
        Above the face, m.

    Notes
    -----
    On the curve by `AlnicoRod`, solved once for each length and kept. On a curve that is straight the two are one
    (tests/test_alnico_rod.py). Range: a rod that has been alone in air since it was magnetised; a keeper, another
    magnet, the spread of the alloy (some per cent) are left out.

    Examples
    --------
    >>> both = bent_and_straight(times=1.0, remanence=0.75, height=2e-3)
    >>> [round(1e3 * field) for field in both.fields]
    [84, 84]
    """
    diameter, length = instrument.magnet["diameter"], times * instrument.magnet["length"]
    curve, line = _on_curve(diameter, length), _in(RodMagnet(
        diameter=diameter, length=length, remanence=remanence, recoil_permeability=float(ALNICO.recoil_permeability)))
    return BentAndStraight(curve=curve, line=line, length=length, fields=(curve.at(height), line.at(height)))


def bent_curves(both, *, remanence, height, **_):
    """What the two charts take."""
    h = -float(ALNICO.coercivity) * (1 - np.linspace(0, 1, 161) ** 2)      # close together where the curve is steep
    near = all(abs(a - b) < reach for a, b, reach in (      # of both faces one word is enough where they are close
        (both.curve.b[-1], both.line.b[-1], 0.15), (both.curve.h[-1], both.line.h[-1], 30e3)))
    at_end = remanence - mu_0 * float(ALNICO.recoil_permeability) * _H_LIMIT
    return {"parts": {"curve": (h, demagnetising_curve(ALNICO, h)), "line": ([-_H_LIMIT, 0.0], [at_end, remanence]),
                      "on curve": (both.curve.h, both.curve.b), "on line": (both.line.h, both.line.b),
                      "words": {"on curve": ["wall", "axis", "face"],
                                "on line": ["", "middle", "" if near else "face"]}},
            "above": {"x": _HEIGHTS, "curve": both.curve.above, "line": both.line.above,
                      "now": ([height, height], both.fields)}}


def bent_figure(instrument):
    """A figure and the function that draws bent_curves into it."""
    figure, field = new_figure(width=8.0, height=4.4), _FIELD * instrument.stronger
    parts = Lines(figure.add_axes((0.085, 0.125, 0.43, 0.86)), x=Axis("field strength H", "kA/m", (-_H_LIMIT, 0.0)),
                  y=Axis("flux density B in the rod", "T", (0.0, 1.4)), room=8, parts=[
                      Curve("line", look=_RECOIL, width=1.8), Curve("curve", look=FLUX_DENSITY, width=2.6),
                      Dots("on line", _RECOIL, marker="s", hollow=True, lift=3, most=3),
                      Dots("on curve", FLUX_DENSITY, side=-1, most=3)])
    above = Lines(figure.add_axes((0.605, 0.125, 0.39, 0.86)), x=Axis("height above the face", "mm", (0.0, 8e-3)),
                  y=Axis("flux density B above it", "mT", (0.0, field)), parts=[
                      Curve("line", "the line", _RECOIL),
                      Curve("curve", "the curve", FLUX_DENSITY, width=2.6), Dots("now")])
    return figure, lambda data: parts.update(**data["parts"]) + above.update(**data["above"])


def _b_and_h(rod, part):
    number = PARTS.index(part)
    return f"{said(rod.b[number], 'T', '.2f')}, {said(rod.h[number], 'kA/m', '+.1f')}"


def bent_panel(sheet=None, instrument=None):
    """Panel: one free alnico rod on its bent curve, and on a straight recoil line."""
    instrument = shown(instrument)
    figure, draw = bent_figure(instrument)
    return Panel(
        title="One rod, many points of the curve", sliders=begin(instrument, LENGTHS, LINE, HEIGHT),
        compute=partial(bent_and_straight, instrument=instrument), data=bent_curves, figure=figure, draw=draw,
        sheet=sheet, prediction="p5",
        shown=lambda both: {
            "the line's field is off by": said(both.off, "", "+z.1%"),
            "above the face, on the curve": said(both.fields[0], "mT", ".1f"),
            "above the face, on the line": said(both.fields[1], "mT", ".1f"),
            "flux in the middle, on the curve": said(both.curve.flux, "µWb", ".2f"),
            "flux in the middle, on the line": f"{said(both.line.flux, 'µWb', '.2f')}, "
                                               f"{said(both.flux_off, '', '+z.0%')}",
            "length of the rod": said(both.length, "mm", ".1f"),
            **{f"B and H {part}": _b_and_h(both.curve, part) for part in PARTS}},
        message="A rod of alnico 5 on the bent curve of its alloy, and on a straight recoil line with a remanence of "
                "{remanence of the line}. On the curve the parts of the rod are far from each other: {B and H in the "
                "middle, at the wall} in the middle at the wall, {B and H in the middle, on the axis} on the axis, {B "
                "and H just below the face} just below the face. At {height above the face} the field is {above the "
                "face, on the curve} on the curve, and the line's is off by {the line's field is off by}; through the "
                "middle pass {flux in the middle, on the curve}, and on the line {flux in the middle, on the line}.",
        on_paper=({}, {"height": 5e-3}, {"times": 0.5}))
