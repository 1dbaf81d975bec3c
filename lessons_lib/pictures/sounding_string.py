"""A string that a finger makes shorter, above the frequency of its note: both on one axis, the length that sounds."""
import numpy as np

from lessons_lib.base.units import said
from lessons_lib.pictures.style import GHOST, INK, MM, MUTED, STEEL, dress, label

WHOLE = {"color": GHOST, "linestyle": "-"}


class ShorterString:
    """The string between bridge and nut, and under its fret the dot of its note; pale: the whole string.

    Parameters
    ----------
    string, chart : matplotlib.axes.Axes
        The chart touches the string's axes from below.
    longest, highest : float
        Length of the whole string, m; upper limit of the frequency, Hz.
    """

    def __init__(self, string, chart, *, longest, highest):
        self.axes, self._longest, self._top = (string, chart), longest * MM, highest
        limits = (-0.03 * longest * MM, 1.2 * longest * MM)
        string.set(xlim=limits, ylim=(-1.5, 1.7))
        string.axis("off")
        dress(chart, x_label="length that sounds, from the bridge (mm)", y_label="frequency (Hz)", x_limits=limits,
              y_limits=(0, highest))
        chart.set_xticks(np.arange(0, longest * MM + 1, 100))
        for place, name in ((0, "bridge"), (self._longest, "nut")):
            string.plot([place], [-0.16], "^", color=INK, markersize=11)
            label(string, name, animated=False, ha="center", va="top").set_position((place, -0.55))
        place = np.linspace(0, 1, 60)
        self._shape = place, np.sin(np.pi * place)
        moving = {"animated": True}
        string.plot(self._longest * place, self._shape[1], linewidth=1.4, **WHOLE)
        string.plot(self._longest * place, -self._shape[1], linewidth=1.4, **WHOLE)
        self._still, = string.plot([], [], color=STEEL, linewidth=3, **moving)
        self._swings = [string.plot([], [], color=INK, linewidth=width, linestyle=style, **moving)[0]
                        for width, style in ((2.4, "-"), (1.4, "--"))]
        self._fret, = string.plot([], [], "^", color=INK, markersize=11, **moving)
        self._finger, = string.plot([], [], "o", color=MUTED, markersize=17, **moving)
        self._drop, = chart.plot([], [], color=MUTED, linewidth=1.0, linestyle=":", clip_on=False, **moving)
        self._curve, = chart.plot([], [], color=INK, linewidth=2.4, **moving)
        self._dots = [chart.plot([], [], "o", color=colour, markersize=9, **moving)[0] for colour in (GHOST, INK)]
        self._note = label(chart, va="bottom", fontsize=14)
        self._whole = label(chart, look=WHOLE, va="center", ha="left")

    def update(self, *, lengths, frequencies, length, frequency, whole):
        """Show the string at a length with the curve (lengths, frequencies), this note and the whole string's.

        Parameters
        ----------
        lengths, frequencies : array_like, shape (n,)
            m and Hz.
        length, frequency, whole : float
            What sounds, m and Hz; frequency of the whole string, Hz.

        Returns
        -------
        list of matplotlib.artist.Artist
        """
        here, end = length * MM, self._longest
        self._curve.set_data(np.asarray(lengths) * MM, frequencies)
        self._still.set_data([here, end], [0, 0])
        for swing, side in zip(self._swings, (1, -1)):
            swing.set_data(here * self._shape[0], side * self._shape[1])
        pressed = here < end - 1
        self._fret.set_data([here], [-0.16])
        self._finger.set_data(*([[here + 13], [0.28]] if pressed else [[], []]))
        self._drop.set_data([here, here], [frequency, 1.25 * self._top])
        for dot, at in zip(self._dots, ((end, whole), (here, frequency))):
            dot.set_data([at[0]], [at[1]])
        self._note.set(text=said(frequency, "Hz", ".0f"), position=(here + 6, frequency + 0.035 * self._top))
        self._whole.set(text=f"whole string\n{said(whole, 'Hz', '.0f')}" if pressed else "", position=(end + 14, whole))
        return [self._drop, self._still, *self._swings, self._fret, self._finger, self._curve, *self._dots, self._note,
                self._whole]
