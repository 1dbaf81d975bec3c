"""One long coil or six small ones seen from above, with the voltages of the strings; a pole whose flux closes."""
import numpy as np
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import Band, Curve, Level
from lessons_lib.pictures.six_strings import HALF_WIDTH
from lessons_lib.pictures.strings import StringAlong
from lessons_lib.pictures.style import (
    COPPER,
    FLUX,
    HOUSE_LOOK,
    INK,
    MM,
    MUTED,
    NORTH,
    STEEL,
    TEXT,
    VOLTAGE,
    label,
    to_scale,
)
from lessons_lib.pictures.things import Coil, Magnet, disc, outlined, window_of

_LEFT = 0.10                    # share of the figure
_HALF_CIRCLE = np.linspace(-np.pi / 2, np.pi / 2, 25)


def _stadium(radius, half_straight, middle=0.0):
    """Outline of a turn seen from above, mm: two half circles round the ends of a straight line."""
    x = np.concatenate([half_straight + radius * np.cos(_HALF_CIRCLE), -half_straight - radius * np.cos(_HALF_CIRCLE)])
    y = np.concatenate([radius * np.sin(_HALF_CIRCLE), -radius * np.sin(_HALF_CIRCLE)])
    return MM * np.column_stack([middle + np.append(x, x[0]), np.append(y, y[0])])


def _winding(axes, coil, middle=0.0):
    """A coil seen from above: what is between its outer and its inner turn."""
    half = getattr(coil, "straight_length", 0.0) / 2
    outer, inner = (_stadium(radius, half, middle) for radius in (coil.outer_radius, coil.inner_radius))
    path = Path.make_compound_path(Path(outer, closed=True), Path(inner[::-1], closed=True))
    return outlined(axes, PathPatch(path), COPPER, animated=True)


class OneCoilOrSix:
    """One long coil or six small ones in series from above, what each gives; below, the strings' voltages and the sum.

    Parameters
    ----------
    strings : sequence of (str, float)
        Name and y (m) of each.
    long_coil, small_coil : LongCoil, RoundCoil
    pole : float
        Diameter of the poles, m.
    span : float
        Of the time axis, s.
    """

    _ROOM = 88      # points

    def __init__(self, figure, *, strings, long_coil, small_coil, pole, span):
        reach = HALF_WIDTH + 5e-3
        self.axes, high = to_scale(figure, left=0.0, top=0.99, width=0.985, x_limits=(-reach, reach),
                                   z_limits=(-12.5e-3, 12e-3))
        self.axes.set_axis_off()
        places = [y for _, y in strings]
        self._coils = {"long": [_winding(self.axes, long_coil)],
                       "six": [_winding(self.axes, small_coil, y) for y in places]}
        ends = {"long": long_coil.straight_length / 2 + long_coil.outer_radius,
                "six": places[-1] + small_coil.outer_radius}
        self._wires = {name: self.axes.plot([], [], color=INK, linewidth=1.6, animated=True)[0] for name in ends}
        self._wires["long"].set_data(*self._leads([0.0], long_coil.outer_radius, 0.8 * places[-1]))
        self._wires["six"].set_data(*self._leads(places, small_coil.outer_radius, 1.5e-3))
        for y in places:
            disc(self.axes, MM * y, 0, MM * pole / 2, NORTH)
        self._strings = [self.axes.plot([MM * y] * 2, [-7.4, 7.4], animated=True, solid_capstyle="round")[0]
                         for y in places]
        self._names = [label(self.axes, name, ha="center", va="center", position=(MM * y, 11.0), fontsize=TEXT,
                             animated=True)
                       for name, y in strings]
        self._given = {name: [label(self.axes, ha="center", va="center", position=(MM * y, 8.6)) for y in at]
                       for name, at in (("long", [0.0]), ("six", places))}
        self.axes.text(0, -11.0, "output: one wire, all voltages added", ha="center", va="center", fontsize=TEXT - 1,
                       color=INK)
        self._order = [name for name, _ in strings]
        self.waves = Lines(
            figure.add_axes((_LEFT, 0.125, 0.985 - _LEFT, 0.99 - high - 0.155)), room=self._ROOM,
            x=Axis("time", "ms", (0.0, span), ticks=np.arange(0.0, span + 1e-3, 5e-3)),
            y=Axis("voltage, long coil = 1", "", (-1.08, 1.08), ticks=(-1, 0, 1)),
            parts=[Level(value=0.0), Curve("long", "", HOUSE_LOOK, width=3.2),
                   *(Curve(name, "", {"color": MUTED}, width=1.0) for name in self._order),
                   Curve("sum", "", VOLTAGE, width=2.6)])

    def _leads(self, places, outer, aside):
        """Wires under a row of coils, mm: from each coil to the next, and from the first and the last one down."""
        low, out = -(outer + 1.4e-3), -11.5e-3
        x, y = [places[0] - aside] * 2, [out, -0.9 * outer]
        for one, following in zip(places, places[1:]):
            x += [np.nan, one + aside, one + aside, following - aside, following - aside]
            y += [np.nan, -0.9 * outer, low, low, -0.9 * outer]
        x += [np.nan, places[-1] + aside, places[-1] + aside]
        y += [np.nan, -0.9 * outer, out]
        return MM * np.array(x), MM * np.array(y)

    def update(self, *, coils, time, waves, long, sounds, given, words):
        """Show another setting.

        Parameters
        ----------
        coils : "long" or "six"
        time : array_like, s
        waves : dict of str -> array_like
            Voltage of each string that sounds, over all coils, in shares of the long coil's largest.
        long : array_like
            The long coil's sum, in the same shares.
        sounds : container of str
            Names of those strings.
        given : sequence of str
            What each coil gives.
        words : dict of str -> str
            What is written at the ends of the curves "sum" and "long".
        """
        for name, line in zip(self._order, self._strings):
            line.set(color=VOLTAGE["color"] if name in sounds else STEEL, linewidth=4.0 if name in sounds else 2.0)
        for text, one in zip(self._given[coils], given):
            text.set_text(one)
        several = waves if len(waves) > 1 else {}
        curves = self.waves.update(np.asarray(time), sum=sum(waves.values()), long=long if coils == "six" else None,
                                   **several, words=words | {name: name for name in several})
        return [*self._coils[coils], self._wires[coils], *self._strings, *self._names, *self._given[coils], *curves]


class ClosingFlux:
    """A pole in its coil under a string, with a loop round it; below, three fluxes over the distance from the pole.

    Parameters
    ----------
    coils : dict of str -> coil
        By the name of the kind, of which one is shown.
    rod : RodMagnet
    string : (float, float)
        Height of its axis and diameter, m.
    reach : float
        Largest distance, m.
    """

    _ROOM, _LOWEST = 148, -6.5e-3       # points for words; m, what is lower is out of the picture

    def __init__(self, figure, *, coils, rod, string, reach):
        width, x_limits = 0.985 - _LEFT - self._ROOM / 576, (-7e-3, reach)
        self.axes, high = to_scale(figure, left=_LEFT, top=0.985, width=width, x_limits=x_limits,
                                   z_limits=(self._LOWEST, 4.2e-3))
        self.axes.set_axis_off()
        *_, south = Magnet(self.axes, moves=False).update(top=0.0, diameter=rod.diameter, length=rod.length)
        south.set_visible(False)
        height, diameter = string
        StringAlong(self.axes, moves=False).update(x=x_limits, height=height, diameter=diameter)
        self._coils, self._shapes = {kind: Coil(self.axes) for kind in coils}, coils
        self._loop = self.axes.plot([], [], color=INK, linewidth=3.0, animated=True, solid_capstyle="butt")[0]
        self._line = self.axes.plot([], [], color=MUTED, linestyle=":", linewidth=1.4, animated=True)[0]
        self.axes.text(-6.8, MM * height + 1.0, "string VI", fontsize=TEXT - 1, color=INK, va="center")
        self._word = label(self.axes, "loop", va="center", animated=True)
        bottom = 0.125
        self.shares = Lines(
            figure.add_axes((_LEFT, bottom, 0.985 - _LEFT, 0.985 - high - 0.03 - bottom)), room=self._ROOM,
            x=Axis("distance from the pole's axis", "mm", x_limits, ticks=np.arange(0.0, reach + 1e-3, 5e-3)),
            y=Axis("share of the most", "%", (0.0, 1.06)),
            parts=[Band("copper", "", COPPER, upright=True), Level("at", upright=True),
                   Curve("carried", "in string VI", dot="o"),
                   Curve("added", "string's, in the loop", FLUX | {"linestyle": "--"}, dot="o"),
                   Curve("linked", "magnets', in the loop", FLUX, dot="o")])

    def update(self, *, kind, radii, carried, added, linked, at):
        """Show another kind or loop: *radii* (m) with three fluxes in shares of their most, and the radius *at* (m)."""
        coil = self._shapes[kind]
        drawn = self._coils[kind].update(**window_of(coil))
        low, high = MM * max(coil.bottom, self._LOWEST), MM * coil.top
        self._loop.set_data([MM * at, MM * at, np.nan, -MM * at, -MM * at], [low, high, np.nan, low, high])
        self._line.set_data([MM * at] * 2, [MM * coil.top, 4.2])
        self._word.set_position((MM * at + 0.25, MM * self._LOWEST + 0.8))
        return [*drawn, self._loop, self._line, self._word, *self.shares.update(
            np.asarray(radii), at=at, copper=(coil.inner_radius, coil.outer_radius), carried=carried, added=added,
            linked=linked)]
