"""Readings with an error that all share, the fit through them, residuals that hardly show it, and the flux it finds."""
from dataclasses import replace

import numpy as np

from lessons_lib.base.units import in_unit, said
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import PLAIN, Band, Curve, Dots, Level
from lessons_lib.pictures.style import BODY, FLUX, FLUX_DENSITY, HOUSE_LOOK, INK, MM, MUTED, NORTH, TEXT
from lessons_lib.pictures.things import box

STRIP = 0.06        # of the residuals' axis, to both sides
_EDGE = 0.92        # of it: where a mark for what is beyond has its place
_ROOM = 100         # points
_NO_LINE = {"linestyle": "none"}


class ReadingsWithSharedError:
    """Rod and probe; flux density against distance, logarithmic; residuals; the flux found beside the one put in.

    Parameters
    ----------
    things, readings, residuals, flux : matplotlib.axes.Axes
        From top to bottom; the upper three share their axis of distance.
    reach : float, m
        Of the distance axis.
    flux_density, found : (float, float)
        Fixed limits, T; Wb.
    noise : float
        Share of a reading that the band of the residuals shows, to both sides.
    true_flux : float, Wb
    """

    def __init__(self, things, readings, residuals, flux, *, reach, flux_density, found, noise, true_flux):
        self.things, self.axes, self.residual_axes = things, readings, residuals
        distance = Axis("distance to the tip", "mm", (-1.5e-3, reach), ticks=np.linspace(0.0, 0.02, 5))
        self._readings = Lines(
            readings, x=replace(distance, bare=True), room=_ROOM,
            y=Axis("flux density", "mT", flux_density, log=True, ticks=(1e-3, 10e-3, 100e-3)), parts=[
                Curve("true", "the field", {**HOUSE_LOOK, "linestyle": "--"}),
                Curve("fitted", "the fit", FLUX_DENSITY), Dots("readings", size=6, side=1, lift=9, most=3)])
        beyond = {"size": 8, "look": {"color": INK}, "side": -1, "most": 12}
        self._residuals = Lines(residuals, x=distance, room=_ROOM, y=Axis(
            "residual", "%", (-STRIP, STRIP), ticks=(-0.05, 0.0, 0.05)), parts=[
                Band(value=(-noise, noise)), Level(value=0.0, look=PLAIN, width=1.0),
                Level("noise", "noise,\ntwo sigma", {"color": MUTED} | _NO_LINE), Dots("residuals", size=6),
                Dots("above", marker="^", **beyond), Dots("below", marker="v", **beyond)])
        ticks = {tens * 1e-5: f"{10 * tens}" for tens in (1, 2, 3)}
        ticks[true_flux] = f"{in_unit(true_flux, 'µWb'):.4g}\nput in"
        self._flux = Lines(
            flux, x=Axis("flux in the middle of the rod", "µWb", found, ticks=ticks),
            y=Axis("", "", (0.0, 1.0), ticks=()), room=_ROOM, grid=False, parts=[
                Level(value=true_flux, look=HOUSE_LOOK, width=2.2, upright=True),
                Curve("off", look=FLUX | {"solid_capstyle": "butt"}, width=7), Dots("found", FLUX, size=12),
                Level("error", look=FLUX | _NO_LINE)])
        flux.spines["left"].set_visible(False)
        self._true_flux = true_flux
        self._draw_things(things, distance.shown(distance.limits))

    def _draw_things(self, axes, limits):
        """The rod's end at 0, and a probe whose tip is at the farthest reading; alike in length, not in height."""
        left, bottom, _, height = axes.get_position().bounds
        axes.set_position((left, bottom, self.axes.get_position().width, height))
        axes.set(xlim=limits, ylim=(-1, 1))
        axes.axis("off")
        box(axes, limits[0], -0.9, -limits[0], 1.8, NORTH, linewidth=1.2)
        axes.text(limits[0] / 2, 0, "N", ha="center", va="center", fontsize=TEXT, color=INK)
        self._probe = box(axes, 0, -0.25, 8.0, 0.5, BODY, linewidth=1.2, animated=True, clip_on=False)
        self._spot, = axes.plot([], [], "o", color=FLUX_DENSITY["color"], markersize=5, animated=True, clip_on=False)

    def update(self, *, distance, readings, model, line, true, fitted, spot, flux, words):
        """Show other readings.

        Parameters
        ----------
        distance, readings, model : array_like, shape (n,), m and T
        line, true, fitted : array_like, shape (k,), m and T
            A finer line: places, the field there, the fit there.
        spot, flux : float
            How deep in the probe its spot is (m); the flux found (Wb).
        words : str
            By how much the flux is wrong.
        """
        distance, readings, model = (np.asarray(one, dtype=float) for one in (distance, readings, model))
        self._probe.set_x(distance[-1] * MM)
        self._spot.set_data([(distance[-1] + spot) * MM], [0])
        left = 1 - model / readings
        largest = np.where(np.abs(left) == np.abs(left).max(), left, 0.0)
        beyond, how_far = {}, {}
        for name, side in (("above", 1), ("below", -1)):
            out = side * left > STRIP
            beyond[name] = (distance[out], np.full(out.sum(), side * _EDGE * STRIP))
            how_far[name] = [said(one, "%", "+.0f") if one else "" for one in largest[out]]
        return [self._probe, self._spot,
                *self._readings.update(line, true=true, fitted=fitted, readings=(distance, readings),
                                       words={"readings": ["", "", "readings"]}),
                *self._residuals.update(residuals=(distance, left), noise=0.0, **beyond, words=how_far),
                *self._flux.update(off=([self._true_flux, flux], [0.2, 0.2]), found=(flux, 0.2), error=0.2,
                                   words={"found": f"{said(flux, 'µWb', '.2f')} found", "error": words})]
