"""Over the frequency, on logarithmic axes: a response with its marks; what a component meter reads."""
import numpy as np

from lessons_lib.base.units import said
from lessons_lib.pictures.style import BLACK, GREY, HOUSE_LOOK, dress, label

THIS = {"color": BLACK, "linestyle": "-"}
NEGATIVE = {"color": BLACK, "linestyle": ":"}
TICKS = (100, 200, 500, 1000, 2000, 5000, 10000, 20000)


def over_frequency(axes, *, y_label, y_limits):
    """A logarithmic frequency axis in hertz with few ticks, and a grid."""
    axes.set_xscale("log")
    dress(axes, x_label="frequency (Hz)", y_label=y_label, x_limits=(TICKS[0], TICKS[-1]), y_limits=y_limits)
    axes.set_xticks(TICKS, [f"{tick}" for tick in TICKS])
    axes.minorticks_off()
    axes.grid(True, which="major", color="#DDDDDD", linewidth=0.8)


def _place(frequency):
    return said(frequency, "kHz", ".2f" if frequency < 10e3 else ".1f")


class ResponseOverFrequency:
    """Level against frequency with marks: peak (dot), 3 dB below low frequencies (square), level there (dotted line).

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    level : (float, float)
        Fixed limits, dB.
    house : str
        What the grey curve is.
    """

    def __init__(self, axes, *, level, house="house setting"):
        self.axes = axes
        over_frequency(axes, y_label="level at the amplifier (dB)", y_limits=level)
        axes.axhline(0, color=GREY, linewidth=0.8)
        self._house, = axes.plot([], [], linewidth=2.0, animated=True, **HOUSE_LOOK)
        self._this, = axes.plot([], [], linewidth=2.4, animated=True, **THIS)
        self._low, = axes.plot([], [], linewidth=1.4, color=BLACK, linestyle=":", animated=True)
        self._peak, = axes.plot([], [], "o", color=BLACK, markersize=8, animated=True)
        self._half, = axes.plot([], [], "s", color=BLACK, markersize=9, fillstyle="none", markeredgewidth=1.8,
                                animated=True)
        self._words = {"low": label(axes, ha="left", va="bottom"), "peak": label(axes, ha="center", va="bottom"),
                       "half": label(axes, ha="right", va="top")}
        for text, look, height in (("this setting", THIS, 0.19), (house, HOUSE_LOOK, 0.07)):
            word = label(axes, text, look, transform=axes.transAxes, va="center", animated=False)
            word.set_position((0.02, height))

    def update(self, *, frequency, house, this, low_level, peak, minus_3_db):
        """Show other curves.

        Parameters
        ----------
        frequency : array_like, shape (n,), Hz
        house, this : array_like, shape (n,), dB
        low_level : float
            At low frequencies, dB.
        peak : (float, float) or None
            Hz, dB; None: there is none.
        minus_3_db : (float, float)
            Hz, dB.

        Returns
        -------
        list of matplotlib.artist.Artist
        """
        self._house.set_data(frequency, house)
        self._this.set_data(frequency, this)
        end = peak[0] if peak else minus_3_db[0]
        self._low.set_data([TICKS[0], end], [low_level] * 2)
        self._words["low"].set(text=said(low_level, "dB", "+.2f"), position=(TICKS[0] * 1.1, low_level + 1.2))
        marks = [self._mark(self._half, self._words["half"], minus_3_db, "3 dB down", (0.93, -1.5))]
        if peak is not None:
            marks.append(self._mark(self._peak, self._words["peak"], peak, said(peak[1], "dB", "+.1f"), (1.0, 1.6)))
        shown = [artist for pair in marks for artist in pair]
        return [self._house, self._low, self._this, self._words["low"], *shown]

    @staticmethod
    def _mark(dot, word, place, text, aside):
        """A mark with its words; nothing where the axis ends before."""
        frequency, level = place
        if not TICKS[0] <= frequency <= TICKS[-1]:
            return []
        dot.set_data([frequency], [level])
        word.set(text=f"{text}, {_place(frequency)}", position=(frequency * aside[0], level + aside[1]))
        return [dot, word]


class MeterOverFrequency:
    """The series inductance that a component meter reads: solid where positive, dotted where negative.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    inductance : (float, float)
        Fixed limits of its magnitude, H.
    """

    def __init__(self, axes, *, inductance):
        self.axes = axes
        axes.set_yscale("log")
        over_frequency(axes, y_label="inductance read, magnitude (H)", y_limits=inductance)
        axes.yaxis.set_major_formatter("{x:g}")
        self._true, = axes.plot([], [], linewidth=2.0, animated=True, **HOUSE_LOOK)
        self._lines = [axes.plot([], [], linewidth=2.6, animated=True, **look)[0] for look in (THIS, NEGATIVE)]
        self._dots, = axes.plot([], [], "o", color=BLACK, markersize=7, animated=True)
        self._chosen, = axes.plot([], [], "s", color=BLACK, markersize=10, fillstyle="none", markeredgewidth=1.8,
                                  animated=True)
        self._resonance, = axes.plot([], [], color=GREY, linewidth=1.2, linestyle="-.", animated=True)
        self._word = label(axes, ha="right", va="top")
        for text, look, height in (("read, positive", THIS, 0.93), ("read, negative", NEGATIVE, 0.83),
                                   ("put in", HOUSE_LOOK, 0.73)):
            word = label(axes, text, look, transform=axes.transAxes, va="center", animated=False)
            word.set_position((0.02, height))

    def update(self, *, frequency, read, true, self_resonance, marks):
        """Show other curves.

        Parameters
        ----------
        frequency, read : array_like, shape (n,)
            Hz; H with its sign.
        true : float
            The inductance put in, H.
        self_resonance : float, Hz
        marks : sequence of (float, float)
            Hz, H: where the meter was read; the last one is the chosen one.

        Returns
        -------
        list of matplotlib.artist.Artist
        """
        read, low = np.asarray(read), self.axes.get_ylim()[0]
        for line, sign in zip(self._lines, (1, -1)):
            line.set_data(frequency, np.where(sign * read > 0, np.abs(read), np.nan))
        self._true.set_data([TICKS[0], TICKS[-1]], [true, true])
        *others, (chosen_frequency, chosen_read) = marks
        self._dots.set_data([f for f, _ in others], [abs(value) for _, value in others])
        self._chosen.set_data([chosen_frequency], [abs(chosen_read)])
        self._resonance.set_data([self_resonance] * 2, self.axes.get_ylim())
        self._word.set(text=f"self-resonance, {_place(self_resonance)}",
                       position=(self_resonance * 0.95, 2.2 * low))
        return [self._true, self._resonance, *self._lines, self._dots, self._chosen, self._word]
