"""A part of a picture of curves: what `Lines` asks of each, and what the parts in `marks.py` are made with."""
import numpy as np

from lessons_lib.pictures.places import GAP, Word
from lessons_lib.pictures.style import INK, MUTED, label

PLAIN = {"color": INK, "linestyle": "-"}
DOTTED = {"color": MUTED, "linestyle": ":"}
_EDGE = 1e-3    # share of an axis: a mark this far beyond the end is still on it


def text_of(frame, look=None):
    """A text that is to be filled, placed in shares of the axes."""
    return label(frame.axes, look=look, va="center", transform=frame.axes.transAxes)


def line_of(axes, look, **more):
    """A line that is to be filled, with a look."""
    return axes.plot([], [], **({"animated": True} | look | more))[0]


def inside(*shares):
    """Whether places, in shares of their axes, are in the frame or on its edge."""
    return np.all([(share >= -_EDGE) & (share <= 1 + _EDGE) for share in np.asarray(shares, dtype=float)], axis=0)


def curve_of(data, x):
    """The arrays (x, y) of data that are a tuple of both, or y alone over the common *x*."""
    return tuple(np.asarray(one, dtype=float) for one in (data if isinstance(data, tuple) else (x, data)))


class Part:
    """What the parts share: they are drawn by rising *rank*; the *frame* has axes, both `Axis` and sizes in points."""

    rank, name, word = 0, "", ""

    def make(self, frame):
        """Its artists."""
        raise NotImplementedError

    def show(self, frame, kit, data, now):
        """Update its artists (the *kit*); returns those that are drawn, and `Word`s."""
        raise NotImplementedError

    def room(self, kit):
        """Points that its word needs beside the axes."""
        return 0.0

    def datum(self, now):
        """Its data in an update; None: it is not shown."""
        return now.data.get(self.name, getattr(self, "value", None))

    def _beside(self, kit):
        return Word(kit.word, self.word, 1, 1).width + 1.5 * GAP if self.word else 0.0

    def _axis(self, frame):
        return frame.x if self.upright else frame.y
