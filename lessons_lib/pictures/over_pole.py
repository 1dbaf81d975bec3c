"""A string over its pole: as it swings, how full of magnetisation it is, and how the pole pulls on it."""
import numpy as np
from matplotlib.patches import Circle, Polygon

from lessons_lib.base.units import said
from lessons_lib.pictures.strings import StringEnd
from lessons_lib.pictures.style import BLUE, GHOST, INK, MM, MUTED, NORTH, STEEL, caption, dress, label
from lessons_lib.pictures.things import Coil, Magnet, Thing, box, window_of

_THICK = 1.6        # mm on the drawing, of a wire that is to be filled


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


class FilledWire:
    """A wire over a pole, from the side, filled as far as it is magnetised: thicker than it is, height to scale.

    Parameters
    ----------
    diameter, half_width, top : float
        Of the rod, whose top is at height zero; limits, m.
    """

    def __init__(self, axes, *, diameter, half_width, top):
        self.axes, self._wide = axes, half_width * MM
        dress(axes, x_label="place along the string (mm)", y_label="height (mm)", y_limits=(-1.4, top * MM),
              x_limits=(-self._wide, self._wide))
        axes.set_yticks([0, 2, 4, 6])
        box(axes, -diameter / 2 * MM, -3, diameter * MM, 3, NORTH)
        label(axes, "N", ha="center", va="center", position=(0, -0.75))
        caption(axes, "how full the wire is (drawn thicker than it is)", {"color": MUTED})
        self._wire = box(axes, -self._wide, 0, 2 * self._wide, _THICK, STEEL, animated=True)
        self._fill = axes.add_patch(Polygon(np.zeros((3, 2)), facecolor=BLUE, edgecolor="none", animated=True))
        self._word = label(axes, look={"color": BLUE}, ha="center", va="bottom")

    def update(self, *, x, fullness, height):
        """Show another wire: its polarisation as a share of saturation at places x (m); height of its axis."""
        bottom, places, full = height * MM - _THICK / 2, np.asarray(x) * MM, np.asarray(fullness)
        self._wire.set_y(bottom)
        self._fill.set_xy(np.column_stack([np.concatenate([places, places[::-1]]),
                                           bottom + _THICK * np.concatenate([full, 0 * full])]))
        self._word.set(text=f"{said(full.max(), '%', '.0f')} full",
                       position=(abs(places[full.argmax()]), bottom + 1.12 * _THICK))
        return [self._wire, self._fill, self._word]


class PulledString:
    """A string over its pole, end-on, with an arrow for the pull, and the path of its middle when it swings aslant.

    Parameters
    ----------
    diameter, half_width, bottom, top : float
        Of the rod, whose top is at height zero; limits, m.
    longest : float
        Pull (N) whose arrow is 2 mm long.
    """

    def __init__(self, axes, *, diameter, half_width, bottom, top, longest):
        self.axes, self._longest = axes, longest
        dress(axes, x_label="place across (mm)", y_label="height of the string (mm)",
              x_limits=(-half_width * MM, half_width * MM), y_limits=(bottom * MM, top * MM))
        axes.set(aspect="equal", xticks=[-2, 0, 2], yticks=[0, 2, 4, 6])
        box(axes, -diameter / 2 * MM, -9, diameter * MM, 9, NORTH)
        label(axes, "N", ha="center", va="center", position=(-0.35 * diameter * MM, bottom * MM / 2))
        self._path, = axes.plot([], [], color=GHOST, linewidth=1.6, animated=True)
        self._disc = StringEnd(axes)
        self._arrow = axes.add_patch(Polygon(np.zeros((3, 2)), facecolor=INK, edgecolor="none", animated=True))
        self._word = label(axes, "pull", ha="left", va="center", animated=True)

    def update(self, *, height, core, pull, path=((), ()), now=(0.0, 0.0)):
        """Show a string: height, diameter (m), the pull (N), its path about that height and where it is on it (m)."""
        self._path.set_data(np.asarray(path[0]) * MM, (height + np.asarray(path[1])) * MM)
        disc = self._disc.update(height=height + now[1], diameter=core, x=now[0])
        foot, long = height * MM - 0.35, 2 * pull / self._longest
        neck = foot - long + min(0.5, 0.6 * long)
        self._arrow.set_xy([(-0.1, foot), (-0.1, neck), (-0.32, neck), (0, foot - long), (0.32, neck), (0.1, neck),
                            (0.1, foot)])
        self._word.set_position((0.5, foot - long / 2))
        return [self._path, self._arrow, *disc, self._word]
