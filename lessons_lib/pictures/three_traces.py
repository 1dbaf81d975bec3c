"""Displacement, flux linkage and voltage of a moving string, one under the other; the harmonics of a voltage."""
import numpy as np

from lessons_lib.base.units import said
from lessons_lib.pictures.style import BLACK, DISPLACEMENT, FLUX, GREY, MM, MS, MV, TEXT, UWB, VOLTAGE, dress, label


class ThreeTraces:
    """Three axes with one time axis; a grey upright line through all three marks one instant.

    Parameters
    ----------
    upper, middle, lower : matplotlib.axes.Axes
        For displacement (m), flux linkage (Wb) and voltage (V).
    time : float
        Length of the time axis, s.
    displacement, linkage, voltage : float
        Fixed limits to both sides of zero.
    """

    def __init__(self, upper, middle, lower, *, time, displacement, linkage, voltage):
        self.axes = upper, middle, lower
        rows = (("displacement (mm)", displacement * MM, DISPLACEMENT), ("linkage (µWb)", linkage * UWB, FLUX),
                ("voltage (mV)", voltage * MV, VOLTAGE))
        self._lines, self._marks, self._dots = [], [], []
        for axes, (name, limit, look) in zip(self.axes, rows):
            dress(axes, x_label="time (ms)" if axes is lower else "", y_label=name, x_limits=(0, time * MS),
                  y_limits=(-limit, limit))
            axes.axhline(0, color=GREY, linewidth=0.8)
            axes.tick_params(labelbottom=axes is lower)
            self._marks.append(axes.axvline(0, color=GREY, linewidth=1.2, linestyle=":", animated=True))
            self._lines.append(axes.plot([], [], linewidth=2.2, animated=True, **look)[0])
            self._dots.append(axes.plot([], [], "o", markersize=7, color=look["color"], markeredgecolor=BLACK,
                                        animated=True)[0])

    def update(self, *, time, displacement, linkage, voltage, at):
        """Show other curves.

        Parameters
        ----------
        time : array_like, shape (n,), s
        displacement, linkage, voltage : array_like, shape (n,)
            m along the motion, Wb from the value at rest, V.
        at : float
            The instant that is marked, s.

        Returns
        -------
        list of matplotlib.artist.Artist
        """
        time = np.asarray(time) * MS
        for line, dot, mark, values in zip(self._lines, self._dots, self._marks, (
                np.asarray(displacement) * MM, np.asarray(linkage) * UWB, np.asarray(voltage) * MV)):
            line.set_data(time, values)
            mark.set_xdata([at * MS] * 2)
            dot.set_data([at * MS], [np.interp(at * MS, time, values)])
        return [*self._marks, *self._lines, *self._dots]


class LineLevels:
    """Levels of a signal's first harmonics as bars from a fixed floor, each with its number above.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    count : int
    floor, top : float
        dB.
    reference : str
        What 0 dB is, in a few words.
    """

    def __init__(self, axes, *, count, floor, top, reference):
        self.axes, self._floor = axes, floor
        dress(axes, x_label="harmonic of the voltage (1: the string's own frequency)", y_label=f"dB re {reference}",
              x_limits=(0.4, count + 0.6), y_limits=(floor, top))
        axes.set_xticks(range(1, count + 1))
        axes.axhline(0, color=GREY, linewidth=0.8)
        self._bars = axes.bar(range(1, count + 1), [0.0] * count, bottom=floor, width=0.55, color=FLUX["color"],
                              edgecolor=BLACK, linewidth=1.0, animated=True)
        self._words = [label(axes, ha="center", va="bottom", fontsize=TEXT) for _ in range(count)]

    def update(self, *, levels):
        """Show other *levels* (dB, array_like of shape (count,)); returns the artists in drawing order."""
        for number, (bar, word, level) in enumerate(zip(self._bars, self._words, levels), start=1):
            height = max(level - self._floor, 0.0)
            bar.set_height(height)
            text = said(level, "", ".0f") if height else f"under {said(self._floor, '', '.0f')}"
            word.set(text=text, position=(number, self._floor + height + 1))
        return [*self._bars, *self._words]
