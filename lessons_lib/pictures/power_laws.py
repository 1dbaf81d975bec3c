"""A falling curve on two logarithmic axes, with its local slope as a triangle and whole powers to compare."""
import numpy as np

from lessons_lib.base.units import said
from lessons_lib.pictures.style import BLACK, FLUX_DENSITY, GREY, TEXT, VERMILLION, dress, label

GUIDES = {1: (0, (7, 3)), 2: (0, (4, 3)), 3: (0, (1.5, 2))}    # exponent: dashes


class FallingCurve:
    """Curve, point, slope triangle and dashed lines of the powers -1, -2, -3 through the point.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    x_label, y_label : str
        "quantity (unit)".
    x_limits, y_limits : (float, float)
        Fixed limits in the units of the labels.
    """

    def __init__(self, axes, *, x_label, y_label, x_limits, y_limits):
        self.axes = axes
        axes.set(xscale="log", yscale="log")
        dress(axes, x_label=x_label, y_label=y_label, x_limits=x_limits, y_limits=y_limits)
        for axis in (axes.xaxis, axes.yaxis):
            axis.set_major_formatter("{x:g}")
        axes.grid(True, which="major", color="#DDDDDD", linewidth=0.8)
        self._curve, = axes.plot([], [], linewidth=2.4, animated=True, **FLUX_DENSITY)
        self._guides = {power: axes.plot([], [], color=GREY, linewidth=1.2, linestyle=dashes, animated=True)[0]
                        for power, dashes in GUIDES.items()}
        self._names = {power: label(axes, f"z$^{{-{power}}}$", color=GREY, ha="center", va="center", fontsize=TEXT + 1)
                       for power in GUIDES}
        self._triangle, = axes.plot([], [], color=VERMILLION, linewidth=1.8, animated=True)
        self._slope = label(axes, look={"color": VERMILLION, "linestyle": "-"}, ha="left", va="bottom")
        self._point, = axes.plot([], [], "o", color=BLACK, markersize=8, animated=True)

    def update(self, *, x, y, at, value, slope):
        """Show the curve (x, y), the point (at, value) on it and the slope there.

        Parameters
        ----------
        x, y : array_like, shape (n,)
            The curve, in the units of the labels, above zero.
        at, value, slope : float
            The point and the exponent d(log y)/d(log x) in it.

        Returns
        -------
        list of matplotlib.artist.Artist
        """
        self._curve.set_data(x, y)
        self._point.set_data([at], [value])
        self._show_guides(at, value)
        self._show_triangle(at, value, slope)
        return [*self._guides.values(), *self._names.values(), self._curve, self._triangle, self._slope, self._point]

    def _show_guides(self, at, value):
        ends = np.array(self.axes.get_xlim())
        side = 4.0 if at < np.sqrt(ends.prod()) else 0.25       # the names stand on the side with more room
        for power, line in self._guides.items():
            line.set_data(ends, value * (ends / at) ** -power)
            self._names[power].set_position((at * side, value * side ** -power))

    def _show_triangle(self, at, value, slope):
        far = at * 1.8 if at * 1.8 < self.axes.get_xlim()[1] else at / 1.8
        low = value * (far / at) ** slope
        self._triangle.set_data([at, far, far, at], [value, value, low, value])
        self._slope.set(text=f"slope {said(slope, '', '.2f')}",
                        position=(max(at, far) * 1.04, max(value, low) * 1.06))
