"""Turns in a fixed window: resistance against turns, and what reaches the amplifier against frequency."""
import numpy as np

from lessons_lib.pictures.style import BLACK, GREY, HOUSE_LOOK, KOHM, TEXT, dress, label

SAME_WIRE = {"color": GREY, "linestyle": "--"}
FULL_WINDOW = {"color": BLACK, "linestyle": "-"}
OUTPUT = {"color": BLACK, "linestyle": "-"}


class ResistanceOverTurns:
    """Two rising lines on logarithmic axes, one for a wire that stays, one for a wire that just fills the window.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    turns, resistance : (float, float)
        Fixed limits; ohm.
    """

    def __init__(self, axes, *, turns, resistance):
        self.axes = axes
        axes.set(xscale="log", yscale="log")
        dress(axes, x_label="turns", y_label="resistance (kΩ)", x_limits=turns,
              y_limits=tuple(np.array(resistance) * KOHM))
        for axis in (axes.xaxis, axes.yaxis):
            axis.set_major_formatter("{x:g}")
        axes.grid(True, which="major", color="#DDDDDD", linewidth=0.8)
        self._same, = axes.plot([], [], linewidth=2.2, animated=True, **SAME_WIRE)
        self._full, = axes.plot([], [], linewidth=2.2, animated=True, **FULL_WINDOW)
        self._dots, = axes.plot([], [], "o", color=BLACK, markersize=8, animated=True)
        for text, look, height in (("window just full", FULL_WINDOW, 0.93),
                                   ("this wire, fitting or not", SAME_WIRE, 0.81)):
            word = label(axes, text, look, transform=axes.transAxes, va="center", animated=False, fontsize=TEXT - 1)
            word.set_position((0.04, height))

    def update(self, *, turns, same_wire, full_window, at):
        """Show other lines: turns, shape (n,); ohm, shape (n,) each; *at* is (turns, ohm, ohm) of the dots."""
        self._same.set_data(turns, np.asarray(same_wire) * KOHM)
        self._full.set_data(turns, np.asarray(full_window) * KOHM)
        self._dots.set_data([at[0]] * 2, np.array(at[1:]) * KOHM)
        return [self._same, self._full, self._dots]


class OutputOverFrequency:
    """Level at the amplifier for equal string speed against frequency; another coil stays in grey.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    frequency, level : (float, float)
        Fixed limits, Hz and dB.
    house : str
        What the grey curve is.
    """

    def __init__(self, axes, *, frequency, level, house="house coil"):
        self.axes = axes
        axes.set_xscale("log")
        dress(axes, x_label="frequency (Hz)", y_label="at the amplifier (dB)", x_limits=frequency, y_limits=level)
        axes.xaxis.set_major_formatter("{x:g}")
        axes.grid(True, which="major", color="#DDDDDD", linewidth=0.8)
        self._house, = axes.plot([], [], linewidth=2.0, animated=True, **HOUSE_LOOK)
        self._this, = axes.plot([], [], linewidth=2.4, animated=True, **OUTPUT)
        for text, look, height in (("this coil", OUTPUT, 0.18), (house, HOUSE_LOOK, 0.06)):
            word = label(axes, text, look, transform=axes.transAxes, va="center", animated=False, fontsize=TEXT - 1)
            word.set_position((0.04, height))

    def update(self, *, frequency, house, this):
        """Show other curves: Hz, and dB re the house coil at low frequency, arrays of shape (n,)."""
        self._house.set_data(frequency, house)
        self._this.set_data(frequency, this)
        return [self._house, self._this]
