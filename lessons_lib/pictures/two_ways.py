"""A string over a rod in its coil: the lines that run through it, and the way that the same flux took before."""
import numpy as np

from lessons_lib.pictures.strings import StringAlong, StringEnd
from lessons_lib.pictures.style import FLUX, HOUSE_LOOK, MM, TEXT, dress, label
from lessons_lib.pictures.things import Coil, Magnet


class TwoWays:
    """Two views to scale, the second one larger: rod and coil stay, the string and both ways of its flux move.

    Parameters
    ----------
    side, end : matplotlib.axes.Axes
        For the view from the side (x, z) and for the cut across the string over the rod's middle (y, z).
    magnet, coil : dict
        What Magnet.update and Coil.update take, the rod's top at height zero.
    now_words, end_words : str
        Over the two views.
    half_width, bottom, top : float
        Fixed limits of the view from the side, m.
    across : float
        Half of the width of the view from the end, m; its height is the same, and begins 1 mm below the rod's face.
    """

    def __init__(self, side, end, *, magnet, coil, now_words, end_words, half_width, bottom, top, across=4e-3):
        self.side, self.end, self._wide = side, end, half_width
        for axes, half, low, high in ((side, half_width, bottom, top), (end, across, -1e-3, 2 * across - 1e-3)):
            dress(axes, x_label="", y_label="height (mm)", x_limits=(-half * MM, half * MM),
                  y_limits=(low * MM, high * MM))
            axes.set_aspect("equal")
            Coil(axes, moves=False).update(**coil)
            for letter in Magnet(axes, moves=False).update(**magnet)[2:]:
                letter.set_visible(False)       # one would be under the lines
        label(side, "N", animated=False, ha="center").set_position((-0.84 * magnet["diameter"] / 2 * MM, -1.6))
        side.set_xlabel("place along the string (mm)", fontsize=TEXT, labelpad=2)
        end.set_xlabel("place across (mm)", fontsize=TEXT, labelpad=2)
        self._before, self._now = (
            [axes.plot([], [], linewidth=width, animated=True, **look)[0] for axes in (side, end)]
            for look, width in ((HOUSE_LOOK, 1.6), (FLUX, 1.2)))
        self._along, self._disc = StringAlong(side), StringEnd(end)
        for axes, x, align, look, text in ((side, 0.0, "left", FLUX, now_words),
                                           (side, 1.0, "right", HOUSE_LOOK, "the same flux before"),
                                           (end, 1.0, "right", None, end_words)):
            label(axes, text, look, animated=False, transform=axes.transAxes, ha=align, va="bottom",
                  fontsize=TEXT - 1).set_position((x, 1.015))

    def update(self, *, now, before, towards, towards_before, height, core):
        """Show another string.

        Parameters
        ----------
        now, before, towards, towards_before : (array_like, array_like)
            Paths parted by NaN, m: x and z of the flux through the string and of its way before; y and z of what comes
            to the string over the rod's middle, and of its way before.
        height, core : float
            Height of the string's axis, diameter of its steel, m.
        """
        for lines, paths in ((self._before, (before, towards_before)), (self._now, (now, towards))):
            for line, path in zip(lines, paths):
                line.set_data(*(np.asarray(part) * MM for part in path))
        steel = self._along.update(x=[-self._wide, self._wide], height=height, diameter=core)
        disc = self._disc.update(height=height, diameter=core)
        return [*self._before, *steel, *self._now, *disc]
