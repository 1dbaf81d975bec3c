"""A disc above a pole, seen from above: its rings, and a dot for every small tube of flux that comes through."""
import numpy as np

from lessons_lib.base.units import said
from lessons_lib.pictures.style import FLUX, GHOST, MM, MUTED, NORTH, dress, label
from lessons_lib.pictures.things import disc


class RingsFromAbove:
    """The pole, the flux as dots, and the rings of the disc; dots outside of the disc are pale.

    Parameters
    ----------
    radius : float
        Half the side of the fixed frame, m.
    pole : float
        Diameter of the pole, m.
    most : int
        How many rings there can be.
    tube : float
        Flux of a dot, Wb.
    """

    def __init__(self, axes, *, radius, pole, most, tube):
        self.axes = axes
        limits = (-radius * MM, radius * MM)
        dress(axes, x_label="distance from the axis (mm)", y_label="", x_limits=limits, y_limits=limits)
        axes.set_aspect("equal")
        axes.set_xticks([-8, -4, 0, 4, 8])
        axes.set_yticks([])
        axes.spines["left"].set_visible(False)
        disc(axes, 0, 0, pole / 2 * MM, NORTH, edgecolor=MUTED)
        label(axes, f"each dot:\n{said(tube, 'nWb', '.0f')}", FLUX, va="top", position=limits)
        dots = {"linestyle": "none", "markeredgewidth": 0, "animated": True}
        self._outside, = axes.plot([], [], ".", color=GHOST, markersize=5, **dots)
        self._inside, = axes.plot([], [], ".", color=FLUX["color"], markersize=8, **dots)
        self._rings = [disc(axes, 0, 0, 1, "none", linewidth=0.8, animated=True) for _ in range(most)]

    def update(self, *, edges, dots):
        """Show other rings and dots.

        Parameters
        ----------
        edges : array_like, shape (k + 1,)
            Radii of the rings, from 0 on, m.
        dots : array_like, shape (2, n)
            Places, m.
        """
        edges, dots = np.asarray(edges) * MM, np.asarray(dots) * MM
        within = np.hypot(*dots) <= edges[-1]
        self._outside.set_data(*dots[:, ~within])
        self._inside.set_data(*dots[:, within])
        rings = self._rings[:len(edges) - 1]
        for ring, radius in zip(rings, edges[1:]):
            ring.set(radius=radius, linewidth=2.0 if radius == edges[-1] else 0.8)
        return [self._outside, self._inside, *rings]
