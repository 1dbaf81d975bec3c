"""Strings as they are drawn in every picture of the course: along, end-on, and whole with nut, bridge, hand, pickup."""
import numpy as np
from matplotlib.patches import Circle, Polygon

from lessons_lib.pictures.style import BODY, COPPER, GHOST, INK, MUTED, NORTH, STEEL
from lessons_lib.pictures.things import EDGE, Thing

_THINNEST = 2.0     # points: a string is seen at any scale


class StringAlong(Thing):
    """A piece of string seen from the side, plain or wound; straight, or along any curve.

    Examples
    --------
    >>> from lessons_lib.pictures.style import new_figure
    >>> axes = new_figure().add_subplot(xlim=(-10, 10), ylim=(-20, 5))
    >>> edge, steel, wraps = StringAlong(axes).update(x=[-10e-3, 10e-3], height=2.5e-3, diameter=1e-3)
    >>> steel.get_ydata().tolist()
    [2.5, 2.5]
    """

    def make(self):
        ends = {"solid_capstyle": "butt", "solid_joinstyle": "round"}
        self._edge, self._steel = self.line(INK, **ends), self.line(STEEL, **ends)
        self._wraps = self.line(MUTED, 0.7)

    def update(self, *, x, height, diameter, wound=False):
        """Places along it (m, rising, two or more), height of its axis there (one for all, or each), diameter (m).

        Its thickness is true to scale, but never under 2 points.
        """
        x, height, diameter = self.shown(x, height, diameter)
        height = np.broadcast_to(height, np.shape(x))
        across, up = self.points()
        thick = max(_THINNEST, diameter * up)
        self._edge.set(data=(x, height), linewidth=thick)
        self._steel.set(data=(x, height), linewidth=thick - 1.2)
        if not wound:
            self._wraps.set_data([], [])
            return [self._edge, self._steel, self._wraps]
        step = max(3.0, 0.5 * thick) / across
        places = np.arange(x[0] + step / 2, x[-1], step)
        middle, half = np.interp(places, x, height), (thick / 2 - 0.5) / up
        lean = 0.25 * step
        self._wraps.set_data(np.column_stack([places - lean, places + lean, places * np.nan]).ravel(),
                             np.column_stack([middle - half, middle + half, places * np.nan]).ravel())
        return [self._edge, self._steel, self._wraps]


class StringEnd(Thing):
    """A string end-on: a disc of steel; a wound one has a ring round its core."""

    def make(self):
        self._wrap, self._core = self.patch(Circle((0, 0), 1), STEEL), self.patch(Circle((0, 0), 1), STEEL)

    def update(self, *, height, diameter, x=0.0, core=None, least=3e-4):
        """Place and height of its axis, diameter, diameter of the core of a wound one; drawn as *least* or more (m)."""
        x, height, diameter, core, least = self.shown(x, height, diameter, diameter if core is None else core, least)
        grown = max(1.0, least / diameter)
        for disc, across in ((self._wrap, diameter), (self._core, core)):
            disc.set(center=(x, height), radius=grown * across / 2)
        return [self._wrap, self._core] if core < diameter else [self._wrap]


class WholeString(Thing):
    """A whole string between bridge (x = 0) and nut, over a neck: with frets, a pickup, a finger, a plectrum.

    Along the string the axes are in *unit*; upright they go from -1 to 1, not to scale, and the string at rest is at 0.

    Examples
    --------
    >>> from lessons_lib.pictures.style import new_figure
    >>> axes = new_figure().add_subplot(xlim=(-20, 650), ylim=(-1, 1))
    >>> artists = WholeString(axes).update(length=0.63, pickup=0.15, pluck=0.1)
    >>> float(artists[-1].get_xdata()[0])
    100.0
    """

    NECK, FRET, SWING, THICK = (-0.80, -0.50), 0.14, 0.40, 3.2      # bottom and top; height; share of displacement; pt

    def make(self):
        self._neck, self._ends = self.box(BODY), [self.patch(Polygon(np.zeros((3, 2))), STEEL) for _ in range(2)]
        self._coils, self._pole = [self.box(COPPER), self.box(COPPER)], self.box(NORTH)
        self._frets = self.line(INK, 1.8, solid_capstyle="butt")
        self._before = self.line(GHOST, 1.6)
        self._edge, self._steel = self.line(INK, self.THICK), self.line(STEEL, self.THICK - 1.2)
        mark = {"linestyle": "none", "markerfacecolor": BODY, "markeredgecolor": INK, "markeredgewidth": EDGE}
        self._finger = self.line(marker="o", markersize=13, **mark)
        self._plectrum = self.line(marker="v", markersize=11, **mark)

    def update(self, *, length, frets=(), finger=None, pickup=None, pluck=None, shape=None, before=None):
        """Show another string.

        Parameters
        ----------
        length : float
            From bridge to nut, m.
        frets : sequence of float
            Their distances from the bridge, m.
        finger, pickup, pluck : float, optional
            Distances from the bridge, m: the fret that is pressed, the pickup's pole, where the string is plucked.
        shape, before : (array_like, array_like), optional
            Places (m, rising from the bridge on; from the last one to the nut the string is at rest) and
            displacements, -1 to 1; *before* is drawn pale.

        Returns
        -------
        list of matplotlib.artist.Artist
            The finger and the plectrum are the last ones, where they are given.
        """
        end, = self.shown(length)
        (bottom, top), out = self.NECK, 0.025 * end
        self._neck.set_bounds(-out, bottom, end + 2 * out, top - bottom)
        for patch, x, side in zip(self._ends, (0.0, end), (-1, 1)):
            patch.set_xy([(x, 0.0), (x + side * 0.4 * out, 0.0), (x + side * out, top), (x, top)])
        artists = [self._neck, *self._ends]
        if pickup is not None:
            artists += self._show_pickup(self.shown(pickup)[0], end)
        places = np.asarray(frets, dtype=float)
        self._frets.set_data(self.shown(np.repeat(places, 3))[0],
                             np.tile([top, top + self.FRET, np.nan], places.size))
        artists.append(self._frets)
        if before is not None:
            self._before.set_data(*self._curve(before, length))
            artists.append(self._before)
        curve = self._curve(((0.0,), (0.0,)) if shape is None else shape, length)
        for line in (self._edge, self._steel):
            line.set_data(*curve)
        artists += [self._edge, self._steel]
        if finger is not None:
            self._finger.set_data([self.shown(finger)[0] + out / 2], [0.11])
            artists.append(self._finger)
        if pluck is not None:
            x, = self.shown(pluck)
            self._plectrum.set_data([x], [np.interp(x, *curve) + 0.15])
            artists.append(self._plectrum)
        return artists

    def _show_pickup(self, x, end):
        bottom, wide = self.NECK[1], 0.007 * end
        self._pole.set_bounds(x - wide, bottom, 2 * wide, 0.26)
        for coil, left in zip(self._coils, (x - 4 * wide, x + wide)):
            coil.set_bounds(left, bottom, 3 * wide, 0.20)
        return [*self._coils, self._pole]

    def _curve(self, curve, length):
        x, y = (np.asarray(one, dtype=float) for one in curve)
        x, y = np.append(x, length), np.append(y, 0.0)
        return self.shown(x)[0], self.SWING * y
