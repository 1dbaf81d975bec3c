"""A string between its two ends with the shape of its fundamental, and a curve with a point on it."""
import numpy as np

from lessons_lib.pictures.style import BLACK, BLUE, GREY, dress, label


class SoundingString:
    """The part of a string that sounds, swinging between its ends; the rest is still.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    longest : float
        Length of the whole string in the unit of the axis.
    unit : str
    """

    def __init__(self, axes, *, longest, unit):
        dress(axes, x_label=f"place along the string ({unit})", y_label="", x_limits=(-0.02 * longest, 1.04 * longest),
              y_limits=(-1.4, 1.4))
        axes.set_yticks([])
        axes.spines["left"].set_visible(False)
        axes.plot([0, longest], [0, 0], color=GREY, linewidth=1.0)
        self._up, = axes.plot([], [], color=BLUE, linewidth=2.2, animated=True)
        self._down, = axes.plot([], [], color=BLUE, linewidth=2.2, linestyle="--", animated=True)
        self._ends, = axes.plot([], [], "^", color=BLACK, markersize=11, animated=True)

    def update(self, *, length):
        """Show the fundamental on the part from 0 to *length*; returns the artists in drawing order."""
        place = np.linspace(0, length, 80)
        shape = np.sin(np.pi * place / length)
        self._up.set_data(place, shape)
        self._down.set_data(place, -shape)
        self._ends.set_data([0, length], [-0.18, -0.18])
        return [self._up, self._down, self._ends]


class CurveWithPoint:
    """One curve and one named point on it, on axes with fixed limits ("quantity (unit)" as labels)."""

    def __init__(self, axes, *, x_label, y_label, x_limits, y_limits, **line):
        dress(axes, x_label=x_label, y_label=y_label, x_limits=x_limits, y_limits=y_limits)
        axes.grid(True, color="#DDDDDD", linewidth=0.8)
        self._curve, = axes.plot([], [], linewidth=2.4, animated=True, **({"color": BLUE} | line))
        self._point, = axes.plot([], [], "o", color=BLACK, markersize=8, animated=True)
        self._name = label(axes, ha="center", va="bottom")
        self._lift = 0.05 * np.ptp(y_limits)

    def update(self, *, x, y, at, value, text):
        """Show the curve (x, y) and the point (at, value) with its text; returns the artists in drawing order."""
        self._curve.set_data(x, y)
        self._point.set_data([at], [value])
        self._name.set(text=text, position=(at, value + self._lift))
        return [self._curve, self._point, self._name]
