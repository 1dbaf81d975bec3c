"""Flux added up ring by ring: the profile with its rings, and the running sum beside the exact curve."""
import numpy as np
from matplotlib.collections import PolyCollection

from lessons_lib.pictures.style import BLACK, FLUX, FLUX_DENSITY, MM, MT, UWB, VERMILLION, dress, label

_RING = {"facecolor": "#CFE3F0", "edgecolor": BLACK, "linewidth": 0.8, "animated": True}


def _bars(edges, heights):
    """Corners of one rectangle a ring, standing on zero."""
    return [[(left, 0), (left, high), (right, high), (right, 0)]
            for left, right, high in zip(edges[:-1], edges[1:], heights)]


class RingsUnderProfile:
    """Flux density against the radius, and the rings in which it is taken as constant."""

    def __init__(self, axes, *, radius, flux_density):
        self.axes = axes
        dress(axes, x_label="distance from the axis r (mm)", y_label="flux density B (mT)",
              x_limits=(0, radius * MM), y_limits=(0, flux_density * MT))
        self._rings = axes.add_collection(PolyCollection([], **_RING), autolim=False)
        self._profile, = axes.plot([], [], linewidth=2.4, animated=True, **FLUX_DENSITY)

    def update(self, *, radius, flux_density, edges, ring_values):
        """Show a profile and its rings.

        Parameters
        ----------
        radius, flux_density : array_like, shape (n,)
            The profile, m and T.
        edges, ring_values : array_like, shapes (k + 1,), (k,)
            Edges of the rings, m, and the flux density taken in each, T.

        Returns
        -------
        list of matplotlib.artist.Artist
        """
        self._rings.set_verts(_bars(np.asarray(edges) * MM, np.asarray(ring_values) * MT))
        self._profile.set_data(np.asarray(radius) * MM, np.asarray(flux_density) * MT)
        return [self._rings, self._profile]


class RunningSum:
    """The sum of the rings up to each edge, as steps of points, and the exact flux as a line."""

    def __init__(self, axes, *, radius, flux):
        self.axes = axes
        dress(axes, x_label="radius of the disc (mm)", y_label="flux (µWb)",
              x_limits=(0, radius * MM), y_limits=(0, flux * UWB))
        self._exact, = axes.plot([], [], linewidth=2.4, animated=True, **FLUX)
        self._sum, = axes.plot([], [], "s", color=VERMILLION, markersize=6, fillstyle="none", markeredgewidth=1.6,
                               animated=True)
        where = {"transform": axes.transAxes, "ha": "right"}
        self._words = [label(axes, "exact flux: line", FLUX, va="bottom", **where),
                       label(axes, "sum of the rings: squares", {"color": VERMILLION, "linestyle": ":"}, va="bottom",
                             **where)]
        for text, height in zip(self._words, (0.16, 0.04)):
            text.set_position((0.99, height))

    def update(self, *, radius, flux, edges, sums):
        """Show the exact flux (radius in m, flux in Wb) and the running sums at the outer edges of the rings."""
        self._exact.set_data(np.asarray(radius) * MM, np.asarray(flux) * UWB)
        self._sum.set_data(np.asarray(edges)[1:] * MM, np.asarray(sums) * UWB)
        return [self._exact, self._sum, *self._words]
