"""Readings with error bars, the model's line through them, and what is left over underneath."""
import numpy as np

from lessons_lib.base.units import said
from lessons_lib.pictures.places import GAP, parted
from lessons_lib.pictures.style import BODY, GHOST, GRID, INK, MUTED, TEXT, VERMILLION, WORDS

# told apart by marker and dashes, in grey too
_LOOKS = ((VERMILLION, "-", "o"), (INK, "--", "s"), (MUTED, "-.", "^"), (GHOST, ":", "D"))
_LEAST_REACH = 3.0      # sigma, of the lower axis
_LINE = 1.3 * (TEXT - 1)    # points, of a word at the end of a line


class ReadingsAndModel:
    """Two axes, one over the other: readings and model above, residuals in sigma below.

    Parameters
    ----------
    figure : matplotlib.figure.Figure
    x_label, y_label : str
        Quantity with its unit.
    log_x, log_y : bool
        Logarithmic axes.

    Examples
    --------
    >>> from lessons_lib.pictures.style import new_figure
    >>> picture = ReadingsAndModel(new_figure(), x_label="distance (mm)", y_label="flux density (G)")
    >>> picture.add("rod", x=[1, 2, 3], readings=[9, 6, 4], sigma=[1, 1, 1], model=[9, 6, 3])
    >>> print(picture.alt_text().split(";")[0])
    Flux density (G) against distance (mm). rod: 3 readings, from 9 at 1 to 4 at 3
    """

    def __init__(self, figure, *, x_label, y_label, log_x=False, log_y=False):
        figure.subplots_adjust(left=0.12, right=0.83, top=0.96, bottom=0.13, hspace=0.08)
        self.axes, self.residual_axes = figure.subplots(2, sharex=True, height_ratios=(3, 1))
        self._labels, self._said, self._reach, self._lines = (x_label, y_label), [], _LEAST_REACH, 0
        self._point, self._ends = "", []
        self.axes.set(xscale="log" if log_x else "linear", yscale="log" if log_y else "linear")
        for is_log, axis in ((log_x, self.axes.xaxis), (log_y, self.axes.yaxis)):
            if is_log:
                axis.set_major_formatter("{x:g}")
        self.axes.set_ylabel(y_label, fontsize=TEXT)
        self.residual_axes.set_ylabel("residual\n(sigma)", fontsize=TEXT)
        self.residual_axes.set_xlabel(x_label, fontsize=TEXT)
        self.residual_axes.axhline(0.0, color=INK, linewidth=1.0)
        self.residual_axes.axhspan(-2, 2, color=BODY, zorder=0)
        for axes in (self.axes, self.residual_axes):
            axes.tick_params(labelsize=TEXT - 1)
            axes.spines[["top", "right"]].set_visible(False)
        self.axes.grid(True, color=GRID, linewidth=0.8)

    def add(self, name, *, x, readings, sigma, model, line=None, colour=None):
        """Draw one run, in the units of the axes.

        Parameters
        ----------
        name : str
        x, readings, sigma, model : array_like, shape (n,)
            Readings with one sigma, and the model at the same places.
        line : (array_like, array_like), optional
            Places and values of a finer line of the model; without it the model at the readings is joined.
        colour : str, optional
            That of the quantity; else one after the other.
        """
        x, readings, sigma, model = (np.asarray(values, dtype=float) for values in (x, readings, sigma, model))
        other, dashes, marker = _LOOKS[self._lines % len(_LOOKS)]
        colour, line = colour or other, line or (x, model)
        self._lines += 1
        self.axes.plot(*line, color=colour, linestyle=dashes, linewidth=1.8, label=f"model, {name}")
        dots = {"marker": marker, "linestyle": "none", "markersize": 5, "color": INK, "markerfacecolor": colour}
        self.axes.errorbar(x, readings, yerr=sigma, ecolor=MUTED, capsize=2, label=f"read, {name}", **dots)
        left = (readings - model) / sigma
        self.residual_axes.plot(x, left, **dots)
        self._reach = max(self._reach, 1.15 * np.abs(left).max())
        self.residual_axes.set_ylim(-self._reach, self._reach)
        self._name(f"model,\n{name}", (line[0][-1], line[1][-1]), WORDS[colour])
        if not self._said:
            at, side = x.size // 4, -1 if readings[-1] > readings[0] else 1     # over a curve, off its way
            self.axes.annotate("read", (x[at], readings[at]), (8 * side, 6), textcoords="offset points", color=INK,
                               ha="left" if side > 0 else "right", fontsize=TEXT - 1)
        worst, top = np.abs(left).argmax(), np.abs(readings).argmax()
        over = "" if top in (0, x.size - 1) else f" over {readable(readings[top])} at {readable(x[top])}"
        self._said.append(f"{name}: {x.size} readings, from {readable(readings[0])} at {readable(x[0])}{over} to "
                          f"{readable(readings[-1])} at {readable(x[-1])}; the largest residual is "
                          f"{abs(left[worst]):.2g} sigma, at {readable(x[worst])}")

    def _name(self, text, end, colour):
        """A word at the end of a line; all of them are parted again, for the axes may have grown."""
        word = self.axes.annotate(text, end, (GAP, 0), textcoords="offset points", va="center", fontsize=TEXT - 1,
                                  color=colour)
        self._ends.append((word, end))
        points = 72 / self.axes.figure.dpi
        heights = [self.axes.transData.transform(end)[1] * points for _, end in self._ends]
        floor, top = self.axes.get_window_extent().intervaly * points
        for (word, _), height, middle in zip(self._ends, heights, parted(
                heights, [2 * _LINE] * len(heights), (floor - _LINE, top + _LINE))):
            word.xyann = (GAP, middle - height)

    def say(self, point):
        """Set the sentences with which the alternative text begins: what the figure is to show."""
        self._point = f"{point} "

    def alt_text(self):
        """What the figure shows, in words with numbers from the data."""
        x_label, y_label = self._labels
        what = f"{y_label} against {x_label}. "
        return self._point + what[0].upper() + what[1:] + ". ".join(self._said) + "."


def readable(number):
    """A number of three figures, never as a power of ten below a million.

    Examples
    --------
    >>> readable(1.5e4), readable(0.34581), readable(-6.02)
    ('15000', '0.346', '−6.02')
    """
    return said(float(f"{number:.3g}"), "", "g")


def misses(x, standardised, unit, *, least=2.0):
    """Where neighbours on one side of the model reach farthest from it, in words; "" where none reaches *least* sigma.

    Examples
    --------
    >>> misses([0, 1, 2, 3], [-6.0, 1.0, 3.9, -2.7], "mm")
    '−6 sigma at 0 mm, 3.9 sigma at 2 mm, −2.7 sigma at 3 mm'
    """
    x, left = np.asarray(x, dtype=float), np.asarray(standardised, dtype=float)
    runs = np.split(np.arange(left.size), np.flatnonzero(np.diff(np.sign(left))) + 1)
    ends = [run[np.abs(left[run]).argmax()] for run in runs]
    return ", ".join(f"{readable(round(left[i], 1))} sigma at {readable(x[i])} {unit}" for i in ends
                     if abs(left[i]) >= least)
