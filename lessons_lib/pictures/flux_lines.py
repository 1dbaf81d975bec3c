"""Flux lines round a rod: contours of the flux function in equal steps, so that every tube carries the same flux."""
import numpy as np
from matplotlib.patches import Rectangle

from lessons_lib.base.units import said
from lessons_lib.pictures.style import BLACK, BLUE, MM, ROD_FILL, TEXT, dress


class FluxLines:
    """A section through a rod and the flux round it.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    half_width, bottom, top : float
        Fixed limits of the section, m.
    step : float
        Flux from one line to the next, Wb: the flux of one tube, taken all the way round the axis.

    Notes
    -----
    The field turned about the axis is drawn on both sides of it. Lines close unless they leave the frame.
    """

    def __init__(self, axes, *, half_width, bottom, top, step):
        self.axes, self.step, self._lines = axes, step, None
        dress(axes, x_label="distance from the axis (mm)", y_label="height z (mm)",
              x_limits=(-half_width * MM, half_width * MM), y_limits=(bottom * MM, top * MM))
        axes.set_aspect("equal")
        axes.set_title(f"from one line to the next: {said(step, 'µWb', 'g')}", fontsize=TEXT, loc="left")
        self._body = axes.add_patch(Rectangle((0, 0), 1, 1, facecolor=ROD_FILL, edgecolor="none", animated=True))
        self._edge = axes.add_patch(Rectangle((0, 0), 1, 1, fill=False, edgecolor=BLACK, linewidth=1.6, animated=True))
        marks = {"markersize": 5, "linestyle": "none", "color": BLUE, "animated": True}
        self._up, self._down = axes.plot([], [], "^", **marks)[0], axes.plot([], [], "v", **marks)[0]
        words = {"ha": "center", "va": "center", "fontsize": TEXT - 2, "animated": True,
                 "bbox": {"facecolor": "white", "edgecolor": BLACK, "linewidth": 0.6, "pad": 1.5}}
        self._upper, self._lower = axes.text(0, 0, "", **words), axes.text(0, 0, "", **words)

    def update(self, *, rho, z, flux, diameter, length, top=0.0):
        """Show another field.

        Parameters
        ----------
        rho, z : array_like, shapes (n,), (m,)
            Distances from the axis (from 0 on, rising) and heights, m.
        flux : array_like, shape (m, n)
            Flux through the circle of radius rho at height z, Wb; positive upward.
        diameter, length, top : float
            The rod, m.

        Returns
        -------
        list of matplotlib.artist.Artist
            In the order in which they are to be drawn.
        """
        rho, z, flux = np.asarray(rho) * MM, np.asarray(z) * MM, np.asarray(flux)
        self._show_rod(diameter * MM, length * MM, top * MM, upward=flux.flat[np.abs(flux).argmax()] > 0)
        self._show_lines(rho, z, np.abs(flux))
        self._show_directions(rho, z, flux, (top - length / 2) * MM)
        return [self._body, self._lines, self._up, self._down, self._edge, self._upper, self._lower]

    def _show_rod(self, diameter, length, top, upward):
        for patch in (self._body, self._edge):
            patch.set_bounds(-diameter / 2, top - length, diameter, length)
        self._upper.set(text="north" if upward else "south", position=(0, top - 1.3))
        self._lower.set(text="south" if upward else "north", position=(0, top - length + 1.3))

    def _show_lines(self, rho, z, size):
        if self._lines is not None:
            self._lines.remove()
        levels = self.step * np.arange(1, max(2, int(np.ceil(size.max() / self.step))))
        both_sides = np.concatenate([-rho[:0:-1], rho]), np.concatenate([size[:, :0:-1], size], axis=1)
        self._lines = self.axes.contour(both_sides[0], z, both_sides[1], levels, colors=BLUE, linewidths=1.0)
        self._lines.set_animated(True)

    def _show_directions(self, rho, z, flux, middle):
        """Arrow heads where lines cross the middle height: there they run along the axis."""
        row = flux[np.abs(z - middle).argmin()]
        inner, outer = crossings(rho, np.abs(row), self.step)
        inner = inner[::4]      # inside the lines stand too close for a head on each
        up, down = (inner, outer) if row[np.abs(row).argmax()] > 0 else (outer, inner)
        for marks, places in ((self._up, up), (self._down, down)):
            marks.set_data(np.concatenate([-places, places]), np.full(2 * len(places), middle))


def crossings(rho, flux, step):
    """Places where a flux that rises to one maximum and falls again crosses whole steps: (on the way up, down).

    Examples
    --------
    >>> crossings([0, 2, 4], [0, 2.5, 0], 1.0)
    (array([0.8, 1.6]), array([3.2, 2.4]))
    """
    rho, flux = np.asarray(rho, dtype=float), np.asarray(flux, dtype=float)
    peak = flux.argmax()
    levels = step * np.arange(1, int(np.ceil(flux[peak] / step)))
    upward = np.interp(levels, flux[:peak + 1], rho[:peak + 1])
    fallen = levels[levels > flux[-1]]
    return upward, np.interp(fallen, flux[:peak - 1 if peak else None:-1], rho[:peak - 1 if peak else None:-1])
