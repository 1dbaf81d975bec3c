"""Curves over an axis: one declared picture for all of them, whatever they are the curves of."""
from dataclasses import dataclass
from types import SimpleNamespace

import numpy as np

from lessons_lib.base.checks import refuse
from lessons_lib.base.units import in_unit, said, shown_unit
from lessons_lib.pictures.places import place
from lessons_lib.pictures.style import GRID, dress


@dataclass(frozen=True)
class Axis:
    """A quantity over a stretch that stays.

    Parameters
    ----------
    quantity, unit : str
        Written as "quantity (unit)"; the unit is one of the table.
    limits : (float, float)
        SI.
    log : bool
    even : float, optional
        For what changes its sign: even up to about this far from zero (SI), logarithmic beyond, to both sides.
    ticks : sequence of float, or dict of float -> str, optional
        SI; a dict gives the words, too.
    bare : bool
        Without numbers and words: of the upper one of two pictures that share an axis.

    Examples
    --------
    >>> float(Axis("height of the string", "mm", (0.0, 5e-3)).share(1e-3).round(3))
    0.2
    """

    quantity: str
    unit: str
    limits: tuple
    log: bool = False
    even: float | None = None
    ticks: object = None
    bare: bool = False

    @property
    def words(self):
        """What is written along the axis."""
        unit = shown_unit(self.unit) if self.unit else ""      # none for a plain number
        return "" if self.bare else f"{self.quantity} ({unit})" if unit else self.quantity

    def shown(self, values):
        """SI *values* in the unit of the axis."""
        return in_unit(np.asarray(values, dtype=float), self.unit)

    def share(self, values):
        """How far along the axis SI *values* are: 0 at its beginning, 1 at its end, NaN where it cannot have them."""
        values, ends = np.asarray(values, dtype=float), np.asarray(self.limits, dtype=float)
        if self.even:
            values, ends = np.arcsinh(values / self.even), np.arcsinh(ends / self.even)
        elif self.log:
            values, ends = np.log10(np.where(values > 0, values, np.nan)), np.log10(ends)
        return (values - ends[0]) / (ends[1] - ends[0])

    @property
    def scale(self):
        """What matplotlib's set_xscale and set_yscale take."""
        if self.even:
            return {"value": "asinh", "linear_width": float(self.shown(self.even))}
        return {"value": "log" if self.log else "linear"}

    def dress(self, axis):
        """Ticks and numbers of a matplotlib axis."""
        if self.ticks is not None:
            places = self.shown(list(self.ticks))
            axis.set_ticks(places, [*self.ticks.values()] if isinstance(self.ticks, dict) else
                           [said(one, "", "g") for one in places])
            axis.set_ticks([], minor=True)
        elif self.log:
            axis.set_major_formatter("{x:g}")
        if self.bare:
            axis.set_tick_params(labelleft=False, labelbottom=False)


class Lines:
    """Curves, levels, dots, bands over two axes with fixed limits; words at the ends of the lines.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        Its place is for curves and words: it is made narrower by the room of the words.
    x, y : Axis
    parts : sequence of Curve, Level, Dots, Band, Between
        Of `marks.py`. Bands are drawn first, then shades, levels, curves, dots, words; each kind in its order here.
    room : float, optional
        For words to the right of the axes, points; left out: as the declared words need. To be given where the words
        come with an update, and where pictures one above the other are to be equally wide.
    grid : bool
        Faint lines at the ticks.

    Notes
    -----
    SI everywhere; what an axis shows follows from its unit. Words that would lie on each other are parted up and down;
    their places follow from the data alone, so equal settings give equal pictures. Widths of words are a rule of thumb,
    for a page has fonts of its own.

    Examples
    --------
    >>> from lessons_lib.pictures.marks import Curve, Dots
    >>> from lessons_lib.pictures.style import FLUX, new_figure
    >>> lines = Lines(new_figure().add_axes((0.1, 0.15, 0.88, 0.8)), x=Axis("gap", "mm", (0, 10e-3)),
    ...               y=Axis("flux", "µWb", (0, 26e-6)), parts=[Curve("gap", "through the gap", FLUX), Dots("now")])
    >>> *_, word = lines.update(gap=([0, 10e-3], [20e-6, 10e-6]), now=(5e-3, 15e-6))
    >>> word.get_text(), [float(place.round(3)) for place in lines.axes.lines[0].get_ydata()]
    ('through the gap', [20.0, 10.0])
    """

    def __init__(self, axes, *, x, y, parts, room=None, grid=True):
        self.axes = axes
        axes.set_xscale(**x.scale)
        axes.set_yscale(**y.scale)
        dress(axes, x_label=x.words, y_label=y.words, x_limits=x.shown(x.limits),
              y_limits=y.shown(y.limits))
        x.dress(axes.xaxis)
        y.dress(axes.yaxis)
        if grid:
            axes.grid(True, which="major", color=GRID, linewidth=0.8)
        self._frame = frame = SimpleNamespace(axes=axes, x=x, y=y)
        self._parts = [(part, part.make(frame)) for part in sorted(parts, key=lambda part: part.rank)]
        self._names = [part.name for part in parts if part.name]
        if room is None:
            room = max((part.room(kit) for part, kit in self._parts), default=0.0)
        # points from here on: none of the places depends on dots an inch
        left, bottom, width, height = axes.get_position().bounds
        across, up = (72 * inches for inches in axes.figure.get_size_inches())
        axes.set_position((left, bottom, width - room / across, height))
        frame.width, frame.height, frame.room = width * across - room, height * up, room

    def update(self, x=None, *, at=None, words=None, **data):
        """Show other data.

        Parameters
        ----------
        x : array_like, shape (n,), optional
            Of the curves whose data are y alone, SI.
        at : float, optional
            The chosen setting, on the x axis, SI: where curves with a *dot* have it.
        words : dict of str -> str or list of str, optional
            Name of a part -> what it says now.
        data
            Name of a part -> its data, as its class says. What is left out or None is not shown.

        Returns
        -------
        list of matplotlib.artist.Artist
            In the order in which they are to be drawn.

        Raises
        ------
        ValueError
            For a name that no part has.
        """
        for name in (*data, *(words or ())):
            if name not in self._names:
                refuse("name of data", f"one of {', '.join(map(repr, self._names))}", name)
        now = SimpleNamespace(x=x, at=at, words=words or {}, data=data)
        artists, said = [], []
        for part, kit in self._parts:
            datum = part.datum(now)
            if datum is not None:
                drawn, written = part.show(self._frame, kit, datum, now)
                artists += drawn
                said += written
        frame = self._frame
        return artists + place(said, width=frame.width, height=frame.height, room=frame.room)
