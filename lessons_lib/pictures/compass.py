"""A compass that is carried round a rod magnet, the needles that it leaves behind, and beside it the same larger."""
import numpy as np
from matplotlib.patches import Circle, Polygon

from lessons_lib.pictures.style import GHOST, MM, MUTED, NORTH, PAPER, SOUTH, label
from lessons_lib.pictures.things import Magnet, Thing, disc

_SLIM = 0.22        # of a needle: half its width, relative to half its length
_LEFT = 3           # one step in so many leaves its needle behind


class Compass(Thing):
    """A round box with a needle, its north end red, its south end blue."""

    def make(self):
        self._box = self.patch(Circle((0, 0), 1), PAPER)
        self._ends = [self.patch(Polygon(np.zeros((3, 2))), colour) for colour in (NORTH, SOUTH)]

    def update(self, *, place, direction, radius):
        """Place of its middle, radius of the box (m), and the unit vector along which the north end points."""
        (x, z), (radius,) = self.shown(*place), self.shown(radius)
        tip = 0.85 * radius * np.asarray(direction)
        side = _SLIM * np.array([-tip[1], tip[0]])
        self._box.set(center=(x, z), radius=radius)
        for end, sense in zip(self._ends, (1, -1)):
            end.set_xy(np.array([x, z]) + [sense * tip, side, -side])
        return [self._box, *self._ends]


class CompassRound:
    """Rod and compass true to scale; the larger compass beside them shows the same needle.

    Parameters
    ----------
    scene, larger : matplotlib.axes.Axes
        Equally long both ways.
    magnet : mapping
        diameter, length, remanence (m, T); its top is at height 0.
    middle, radius : float
        Height of the middle of the way round, and its radius, m.
    """

    def __init__(self, scene, larger, *, magnet, middle, radius):
        reach = radius + 3e-3
        scene.set(xlim=(-reach * MM, reach * MM), ylim=((middle - reach) * MM, (middle + reach) * MM))
        larger.set(xlim=(-11, 11), ylim=(-13.5, 11))
        for axes in (scene, larger):
            axes.set_axis_off()
            axes.set_aspect("equal")
        Magnet(scene, moves=False).update(top=0.0, **{name: magnet[name] for name in ("diameter", "length",
                                                                                       "remanence")})
        disc(scene, 0, middle * MM, radius * MM, "none", edgecolor=MUTED, linestyle=":")
        label(larger, "the same compass, larger", position=(0, -12.5), ha="center", va="center")
        self._behind, = scene.plot([], [], color=GHOST, linewidth=1.6, animated=True)
        self._tips, = scene.plot([], [], "o", color=GHOST, markersize=3.5, animated=True)
        self._small, self._large = Compass(scene), Compass(larger)

    def update(self, *, places, directions):
        """Show a compass that has come by *places* (m) with its needle along *directions*, shape (n, 2) each: x and z.
        """
        left, half = places[::_LEFT], 1.5e-3 * directions[::_LEFT]
        ends = np.stack([left - half, left + half, np.full_like(half, np.nan)], axis=1).reshape(-1, 2)
        self._behind.set_data(*(ends * MM).T)
        self._tips.set_data(*((left + half) * MM).T)
        return [self._behind, self._tips,
                *self._small.update(place=places[-1], direction=directions[-1], radius=2e-3),
                *self._large.update(place=(0, 0), direction=directions[-1], radius=9e-3)]
