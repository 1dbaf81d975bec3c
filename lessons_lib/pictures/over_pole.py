"""A string end-on over its pole: magnet, coil, the string, and the straight path on which it swings."""
import numpy as np
from matplotlib.patches import Circle

from lessons_lib.pictures.strings import StringEnd
from lessons_lib.pictures.style import MUTED
from lessons_lib.pictures.things import Coil, Magnet, Thing, window_of


class Swing(Thing):
    """A string end-on, the straight path on which it swings, and a dotted ring where it rests."""

    def make(self):
        self._path = self.line(MUTED, 1.4)
        self._rest = self.patch(Circle((0, 0), 1), "none")
        self._rest.set(edgecolor=MUTED, linestyle=":")
        self._string = StringEnd(self.axes)

    def update(self, *, rest, ends, string, diameter, core=None):
        """Show a string: places (y, z) of its rest, of the two ends of its path, of itself; diameters; all in m."""
        self._rest.set(center=self.shown(*rest), radius=self.shown(max(diameter, 3e-4) / 2)[0])
        self._path.set_data(*self.shown(*np.transpose(ends)))
        y, z = string
        return [self._rest, *self._string.update(x=y, height=z, diameter=diameter, core=core), self._path]


class OverPole(Swing):
    """Everything true to scale; place (0, 0) is the middle of the pole's face.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        In millimetres, equally long both ways; what reaches beyond the limits is cut off.
    magnet : mapping
        diameter, length, remanence (m, T), as of the instrument's record.
    coil : mapping, optional
        inner_radius, outer_radius, bottom, top (m); left out, none is drawn.
    """

    def __init__(self, axes, *, magnet, coil=None):
        super().__init__(axes)
        axes.set_axis_off()
        size = {name: magnet[name] for name in ("diameter", "length", "remanence")}
        for letter in Magnet(axes, moves=False).update(top=0.0, **size)[2:]:
            letter.set_visible(letter.get_position()[1] > axes.get_ylim()[0])   # one beyond the edge would not be cut
        if coil:
            Coil(axes, moves=False).update(**window_of(coil))
