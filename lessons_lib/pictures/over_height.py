"""One quantity over the height of the string: two laws or one, with the height that is chosen marked."""
import numpy as np

from lessons_lib.base.units import in_unit
from lessons_lib.pictures.style import BLACK, MM, dress, label


class OverHeight:
    """Curves over the height.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    quantity, unit : str
        On the upright axis.
    heights, y_limits : (float, float)
        Fixed limits, m and in the axis' unit.
    curves : sequence of (str, dict)
        Name and look of each curve.
    level : (float, str), optional
        A level to draw, in the axis' unit, and its name.
    names_at : float, optional
        Where the names begin, as a share of the width.
    """

    def __init__(self, axes, *, quantity, unit, heights, y_limits, curves, level=None, names_at=0.98):
        self.axes, self._unit = axes, unit
        dress(axes, x_label="height of the string (mm)", y_label=f"{quantity} ({unit})", y_limits=y_limits,
              x_limits=(heights[0] * MM, heights[1] * MM))
        axes.grid(True, color="#DDDDDD", linewidth=0.8)
        if level:
            axes.axhline(level[0], color=BLACK, linewidth=1.0, linestyle=":")
            axes.text(heights[1] * MM, level[0], level[1], ha="right", va="bottom", fontsize=10)
        self._curves = [axes.plot([], [], linewidth=2.4, animated=True, **look)[0] for _, look in curves]
        self._points = axes.plot([], [], "o", color=BLACK, markersize=8, animated=True)[0]
        upward = abs(y_limits[0]) <= abs(y_limits[1])
        for number, (name, look) in enumerate(curves):
            if name:
                word = label(axes, name, look, ha="right", va="center", transform=axes.transAxes, animated=False)
                word.set_position((names_at, (0.95 - 0.1 * number) if upward else (0.05 + 0.1 * number)))

    def update(self, *, heights, values, at):
        """Show other curves.

        Parameters
        ----------
        heights : array_like, shape (n,), m
        values : sequence of array_like, shape (n,)
            SI, one for each curve.
        at : (float, float, ...)
            The chosen height (m) and the value of each curve there.

        Returns
        -------
        list of matplotlib.artist.Artist
        """
        for curve, value in zip(self._curves, values):
            curve.set_data(np.asarray(heights) * MM, in_unit(np.asarray(value), self._unit))
        height, *marked = at
        self._points.set_data([height * MM] * len(marked), in_unit(np.array(marked), self._unit))
        return [*self._curves, self._points]
