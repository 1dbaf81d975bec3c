"""A design beside its limits: the pickup in its scale under six levels, its response, a rail for each limit."""
import math

import numpy as np

from lessons_lib.base.units import said
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import Band, Curve, Dots
from lessons_lib.pictures.response import FREQUENCY, ZERO, said_frequency
from lessons_lib.pictures.strings import StringEnd
from lessons_lib.pictures.style import BODY, HOUSE_LOOK, INK, MUTED, TEXT, VOLTAGE, label
from lessons_lib.pictures.things import Coil, Magnet, box

HALF = 37e-3        # m, of what is seen across the strings
FLOOR, CEILING = -21.5e-3, 8e-3     # m
_REACH = 9.0        # dB, of the levels; what is beyond has its dot there and says its number


class PickupInScale:
    """Six rods, the winding to both sides of them in the cut of its window, six strings end-on, in one scale.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        Its box is made to fit the scale.
    places, diameters : array_like, shape (6,)
        Of the strings, m.
    height : float
        Of the strings' axes, m.
    rod, coil : mapping
        diameter and length; straight_length, inner_radius, outer_radius, bottom, top (m).
    """

    def __init__(self, axes, *, places, diameters, height, rod, coil):
        self.axes = axes
        axes.set(xlim=(-1e3 * HALF, 1e3 * HALF), ylim=(1e3 * FLOOR, 1e3 * CEILING))
        axes.axis("off")
        self._places, self._rod = places, {name: rod[name] for name in ("diameter", "length")}
        ends = {name: coil["straight_length"] / 2 + coil[name] for name in ("inner_radius", "outer_radius")}
        self._window = {**ends, "bottom": coil["bottom"], "top": coil["top"]}
        for low in (coil["top"], coil["bottom"] - 1.5e-3):
            box(axes, -1e3 * ends["outer_radius"], 1e3 * low, 2e3 * ends["outer_radius"], 1.5, BODY)
        for side in (-1, 1):
            axes.plot(np.multiply(side * 1e3 * ends["outer_radius"], [1, 1]),
                      [1e3 * coil["bottom"], 1e3 * coil["top"]], color=MUTED, linewidth=1.0, linestyle="--")
        self._winding = Coil(axes)
        self._magnets = [Magnet(axes) for _ in places]
        for place, diameter in zip(places, diameters):
            StringEnd(axes, moves=False).update(x=place, height=height, diameter=diameter)

    def update(self, *, tops, fill, strength):
        """Show other heights of the rods (m), another share of the window, another remanence (T)."""
        window = self._window
        filled = window["inner_radius"] + fill * (window["outer_radius"] - window["inner_radius"])
        magnets = [one.update(x=place, top=top, remanence=strength, **self._rod)
                   for one, place, top in zip(self._magnets, self._places, tops)]
        return [*self._winding.update(**window | {"outer_radius": filled}), *sum(magnets, [])]


class LimitsOnRails:
    """A rail for each limit: the stretch that is asked, a dot for the design, its value, a tick or a cross.

    Along a rail equal steps are equal factors, three times more or less than what is asked to its ends.

    Parameters
    ----------
    limits : sequence of (str, float or None, float or None, str)
        Label, least, most, and what is asked in words; without both it has no rail, and its value alone is written.
    """

    FACTOR = 3.0

    def __init__(self, axes, limits):
        self.axes, self._limits = axes, limits
        axes.set(xlim=(-0.03, 1.04), ylim=(-len(limits), 0.0))
        axes.axis("off")
        self._marks, self._dots, self._values = [], [], []
        for row, (name, least, most, asked) in enumerate(limits):
            has_rail = least is not None or most is not None
            axes.text(0.07 if has_rail else 0.0, -row - 0.16, name, va="center", fontsize=TEXT - 1, color=INK)
            self._marks.append(label(axes, ha="left", va="center", fontsize=TEXT + 1))
            self._values.append(label(axes, ha="center" if has_rail else "left", va="center", fontweight="bold"))
            self._marks[-1].set_position((0.0, -row - 0.16))
            self._values[-1].set_position((0.0, -row - 0.44))
            if has_rail:
                axes.plot([0, 1], [-row - 0.64] * 2, color=MUTED, linewidth=1.2)
                low, high = self.target(least, most)
                box(axes, low, -row - 0.71, high - low, 0.14, BODY, edgecolor=MUTED, linewidth=1.2, zorder=2)
                middle = (low + high) / 2
                axes.text(min(max(middle, 0.2), 0.8), -row - 0.86, asked, ha="center", va="center", color=MUTED,
                          fontsize=TEXT - 2)
            self._dots.append(axes.plot([], [], color=VOLTAGE["color"], markersize=10, markeredgewidth=2.0,
                                        linestyle="none", animated=True, clip_on=False)[0])

    def place(self, value, least, most):
        """Where a value is on its rail, 0 to 1; what is farther away is at the end."""
        middle = math.sqrt(least * most) if least and most else least or most
        return min(max(0.5 + 0.5 * math.log(max(value, 1e-9) / middle) / math.log(self.FACTOR), 0.0), 1.0)

    def target(self, least, most):
        """From where to where on the rail a limit is met."""
        return (0.0 if least is None else self.place(least, least, most),
                1.0 if most is None else self.place(most, least, most))

    def update(self, rows):
        """Show other rows: value (in its limit's unit, None without a rail), what is written, whether it is met."""
        artists = [*self._values]
        for row, ((value, text, is_met), (_, least, most, _)) in enumerate(zip(rows, self._limits)):
            self._values[row].set_text(text)
            if value is None:
                continue
            place = self.place(value, least, most)
            beyond = {0.0: "<", 1.0: ">"}.get(place, "o")
            self._dots[row].set(data=([place], [-row - 0.64]), marker=beyond, fillstyle="full" if is_met else "none")
            self._values[row].set_x(min(max(place, 0.15), 0.85))
            self._marks[row].set_text("✓" if is_met else "✗")
            artists += [self._dots[row], self._marks[row]]
        return artists


class DesignBesideLimits:
    """The levels of six strings over the pickup, its response below, the limits to the right.

    Parameters
    ----------
    strings : sequence of str
    pickup : mapping
        Of `PickupInScale`.
    limits : sequence
        Of `LimitsOnRails`.
    spread : float, optional
        How far apart highest and lowest level may be, dB.
    resonance : (float, float), optional
        Between what the resonance is to be, Hz.
    """

    def __init__(self, figure, *, strings, pickup, limits, spread=None, resonance=None):
        across = Axis("", "mm", (-HALF, HALF), ticks=dict(zip(pickup["places"], strings)))
        self._levels = Lines(figure.add_axes((0.085, 0.78, 0.50, 0.205)), x=across, room=0.0, y=Axis(
            "level (dB)", "", (-10.0, 10.0), ticks=(-6, -3, 0, 3, 6)), parts=[
                *([] if spread is None else [Band(value=(-spread / 2, spread / 2))]), ZERO,
                Dots("levels", VOLTAGE, size=6, stems=0.0, side=1, most=len(strings))])
        self._levels.axes.set_xlabel("")
        self._places = pickup["places"]
        self.pickup = PickupInScale(figure.add_axes((0.085, 0.445, 0.50, 0.2953)), **pickup)
        self._response = Lines(figure.add_axes((0.085, 0.105, 0.50, 0.30)), x=FREQUENCY, y=Axis(
            "at the amplifier", "dB", (-30.0, 30.0), ticks=(-20, 0, 20)), parts=[
                *([] if resonance is None else [Band(value=resonance, upright=True)]), ZERO,
                Curve("house", "house", HOUSE_LOOK), Curve("this", "this", VOLTAGE, width=2.6), Dots("peak", VOLTAGE)])
        self._limits = LimitsOnRails(figure.add_axes((0.64, 0.01, 0.35, 0.98)), limits)

    def update(self, *, levels, pickup, response, peak, limits):
        """Show another design.

        Parameters
        ----------
        levels : array_like, shape (6,)
            dB over any reference.
        pickup : mapping
            Of the update of `PickupInScale`.
        limits : sequence
            Of the update of `LimitsOnRails`.
        response : mapping
            x (Hz), house and this (dB).
        peak : (float, float)
            Hz, dB.
        """
        levels = levels - (np.max(levels) + np.min(levels)) / 2
        return [*self._levels.update(levels=(self._places, np.clip(levels, -_REACH, _REACH)),
                                     words={"levels": [said(level, "", "+.1f") for level in levels]}),
                *self.pickup.update(**pickup),
                *self._response.update(**response, peak=peak, words={"peak": said_frequency(peak[0])}),
                *self._limits.update(limits)]
