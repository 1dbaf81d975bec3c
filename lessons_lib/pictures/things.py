"""Things as they are drawn in every picture of the course: magnet, screw, coil, bobbin, keeper, a broad arrow of flux.

Strings are in `strings.py`.

A thing belongs to axes in millimetres (or another unit of length); its `update` takes SI and returns its artists in
drawing order. One that stays is made with ``moves=False`` and updated once.
"""
from collections.abc import Mapping

import numpy as np
from matplotlib.patches import Circle, FancyBboxPatch, Polygon, Rectangle

from lessons_lib.base.units import in_unit
from lessons_lib.pictures.style import BODY, COPPER, FLUX, INK, MUTED, NORTH, SOUTH, STEEL, label

EDGE = 1.0      # points, of the outline of a thing
_LETTER = 14    # points that a letter needs


def outlined(axes, patch, colour, **more):
    """Add a *patch* in a *colour* with the outline of things."""
    patch.set(**({"facecolor": colour, "edgecolor": INK, "linewidth": EDGE} | more))
    return axes.add_patch(patch)


def box(axes, x, y, width, height, colour=BODY, **more):
    """Add a rectangle with its lower left corner at (x, y), in the unit of the axes."""
    return outlined(axes, Rectangle((x, y), width, height), colour, **more)


def rounded(axes, x, y, width, height, colour, *, corner, **more):
    """A `box` whose corners are rounded with the radius *corner*."""
    return outlined(axes, FancyBboxPatch((x, y), width, height, boxstyle=f"round,pad=0,rounding_size={corner}"), colour,
                    **more)


def disc(axes, x, y, radius, colour, **more):
    """Add a round about (x, y), in the unit of the axes."""
    return outlined(axes, Circle((x, y), radius), colour, **more)


class Thing:
    """What all things share.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    unit : str
        Of both axes.
    moves : bool
        Drawn again in every frame; otherwise once, with the axes.
    """

    def __init__(self, axes, *, unit="mm", moves=True):
        self.axes, self._unit, self._moves = axes, unit, moves
        self.make()

    def make(self):
        """Make the artists."""
        raise NotImplementedError

    def update(self, **places):
        """Show it elsewhere."""
        raise NotImplementedError

    def shown(self, *lengths):
        """Lengths (m) in the unit of the axes."""
        return [in_unit(np.asarray(length, dtype=float), self._unit)[()] for length in lengths]

    def points(self):
        """How many points one unit of the axes is long, across and up."""
        ends = self.axes.transData.transform([(0, 0), (1, 1)])
        return np.abs(ends[1] - ends[0]) * 72 / self.axes.figure.dpi

    def patch(self, patch, colour, **more):
        """Add a *patch* in a *colour* with the outline of things."""
        return outlined(self.axes, patch, colour, animated=self._moves, **more)

    def box(self, colour, **more):
        """Add a rectangle, to be set."""
        return self.patch(Rectangle((0, 0), 1, 1), colour, **more)

    def line(self, colour=INK, width=EDGE, **more):
        """Add a line, to be set."""
        return self.axes.plot([], [], color=colour, linewidth=width, animated=self._moves, **more)[0]

    def word(self, text="", look=None, **where):
        """Add a text, to be set; centred."""
        return label(self.axes, text, look, **({"ha": "center", "va": "center", "animated": self._moves} | where))


class Magnet(Thing):
    """A magnet seen from the side, magnetised upright: a half N and a half S, in the two colours of poles.

    Examples
    --------
    >>> from lessons_lib.pictures.style import new_figure
    >>> axes = new_figure().add_subplot(xlim=(-10, 10), ylim=(-20, 5))
    >>> upper, lower, *letters = Magnet(axes).update(top=0.0, diameter=5e-3, length=17e-3)
    >>> [float(edge) for edge in upper.get_bbox().bounds], [letter.get_text() for letter in letters]
    ([-2.5, -8.5, 5.0, 8.5], ['N', 'S'])
    """

    def make(self):
        self._halves = [self.box(NORTH), self.box(SOUTH)]
        self._letters = [self.word(), self.word()]

    def update(self, *, top, diameter, length, x=0.0, remanence=1.0):
        """Place of its axis, height of its top, diameter (or width), length (m); a remanence below 0 turns it over.

        A remanence of 0 leaves a grey body without letters. Letters that have no room are left out.
        """
        x, top, width, half = self.shown(x, top, diameter, length / 2)
        colours = {1: (NORTH, SOUTH), 0: (BODY, BODY), -1: (SOUTH, NORTH)}[int(np.sign(remanence))]
        names = {1: "NS", 0: "  ", -1: "SN"}[int(np.sign(remanence))]
        for patch, colour, bottom in zip(self._halves, colours, (top - half, top - 2 * half)):
            patch.set(bounds=(x - width / 2, bottom, width, half), facecolor=colour)
        across, up = self.points()
        room = min(width * across, half * up) >= _LETTER
        off = min(half / 2, _LETTER / up)       # near the poles: the middle is for lines of flux
        for letter, name, height in zip(self._letters, names, (top - off, top - 2 * half + off)):
            letter.set(text=name, position=(x, height))
        return [*self._halves, *(self._letters if room and remanence else [])]


class Screw(Thing):
    """A steel pole screw seen from the side: a round head with a slot, a shank with a hint of its thread."""

    def make(self):
        self._shank, self._head = self.box(STEEL), self.patch(Polygon(np.zeros((3, 2))), STEEL)
        self._thread, self._slot = self.line(MUTED, 0.8), self.line(INK, 2.0, solid_capstyle="butt")

    def update(self, *, top, diameter, length, x=0.0):
        """Place of its axis, height of the top of its head, diameter of the head, length over all (m)."""
        x, top, width, length = self.shown(x, top, diameter, length)
        radius, high = width / 2, min(0.4 * width, 0.4 * length)
        turn = np.linspace(0, np.pi, 25)
        dome = np.column_stack([x + radius * np.cos(turn), top - high * (1 - np.sin(turn) ** 0.7)])
        self._head.set_xy(dome)
        thin, under = 0.7 * width, length - high
        self._shank.set_bounds(x - thin / 2, top - length, thin, under)
        heights = np.linspace(top - length, top - high, max(3, round(under / (0.22 * width))))[1:-1]
        lean = 0.06 * width
        self._thread.set_data(np.tile([x - thin / 2, x + thin / 2, np.nan], heights.size),
                              np.column_stack([heights - lean, heights + lean, heights * np.nan]).ravel())
        self._slot.set_data([x, x], [top, top - 0.5 * high])
        return [self._shank, self._thread, self._head, self._slot]


class Coil(Thing):
    """A coil in cut: a copper window to the left and to the right of its core, with dots for its wires.

    Dots are few, whatever the number of turns: they are a sign.
    """

    def make(self):
        self._windows = [self.box(COPPER), self.box(COPPER)]
        self._wires, = self.axes.plot([], [], "o", color=MUTED, markersize=1.8, markeredgewidth=0,
                                      animated=self._moves)

    def update(self, *, inner_radius, outer_radius, bottom, top, x=0.0, rows=6):
        """Radii, heights, place of its axis (m); rows of dots from bottom to top (0: none)."""
        x, inner, outer, bottom, top = self.shown(x, inner_radius, outer_radius, bottom, top)
        for window, left in zip(self._windows, (x - outer, x + inner)):
            window.set_bounds(left, bottom, outer - inner, top - bottom)
        columns = max(1, round(rows * (outer - inner) / (top - bottom))) if rows else 0
        across = inner + (np.arange(columns) + 0.5) / max(columns, 1) * (outer - inner)
        up = bottom + (np.arange(rows) + 0.5) / max(rows, 1) * (top - bottom)
        places = np.meshgrid(np.concatenate([x - across, x + across]), up)
        self._wires.set_data(places[0].ravel(), places[1].ravel())
        return [*self._windows, self._wires]


def window_of(coil):
    """What a `Coil` shows of an instrument's coil, a record or a mapping."""
    values = coil if isinstance(coil, Mapping) else vars(coil)
    return {name: values[name] for name in ("inner_radius", "outer_radius", "bottom", "top")}


class Bobbin(Thing):
    """The coil form in cut: an upper and a lower flange of the coil's width, pierced by its core."""

    def make(self):
        self._flanges = [self.box(BODY) for _ in range(4)]

    def update(self, *, inner_radius, outer_radius, bottom, top, x=0.0, thickness=1.5e-3):
        """As of a `Coil`; *thickness* of the flanges, which are above and below the windows (m)."""
        x, inner, outer, bottom, top, thick = self.shown(x, inner_radius, outer_radius, bottom, top, thickness)
        places = [(left, low) for low in (top, bottom - thick) for left in (x - outer, x + inner)]
        for flange, (left, low) in zip(self._flanges, places):
            flange.set_bounds(left, low, outer - inner, thick)
        return self._flanges


class Keeper(Thing):
    """A plate of steel seen from its edge: a keeper, a lid, a base plate."""

    def make(self):
        self._plate = self.box(STEEL)

    def update(self, *, bottom, width, thickness, x=0.0):
        """Place of its middle, height of its lower face, width, thickness (m)."""
        x, bottom, width, thickness = self.shown(x, bottom, width, thickness)
        self._plate.set_bounds(x - width / 2, bottom, width, thickness)
        return [self._plate]


class FluxArrow(Thing):
    """A broad arrow for a flux: its width says how much."""

    def make(self):
        self._arrow = self.patch(Polygon(np.zeros((3, 2))), FLUX["color"])
        self._arrow.set(alpha=0.55, edgecolor=FLUX["color"])

    def update(self, *, start, end, width):
        """From *start* to *end*, (x, y) each, and the width of its shaft (m); the head is wider, at most half as long.

        A negative width turns the arrow about; a width of 0 draws none.
        """
        start, end = (np.array(self.shown(*place)) for place in ((start, end) if width >= 0 else (end, start)))
        width, = self.shown(abs(width))
        length = np.hypot(*(end - start))
        if not (width and length):
            return []
        along = (end - start) / length
        across = np.array([-along[1], along[0]])
        neck = end - along * min(0.9 * width, length / 2)
        half = across * width / 2
        self._arrow.set_xy([start + half, neck + half, neck + 1.8 * half, end, neck - 1.8 * half, neck - half,
                            start - half])
        return [self._arrow]
