"""Levels of six strings as bars about their middle, with the band they are to keep; a band of allowed frequencies."""
import numpy as np

from lessons_lib.base.units import said
from lessons_lib.pictures.style import BLACK, BLUE, GREEN, GREY, TEXT, dress, label

BAR = {"color": BLUE, "edgecolor": BLACK}
BAND = {"facecolor": "#DDF1EA", "edgecolor": GREEN, "linewidth": 1.2}


class SixLevels:
    """A bar for each string from the middle between the highest and the lowest level.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    strings : sequence of str
    reach : float
        Fixed limits: this far up and down, dB; what is beyond is cut and said.
    allowed : float, optional
        How far apart highest and lowest may be, dB.
    """

    def __init__(self, axes, *, strings, reach, allowed=None):
        self.axes, self._reach = axes, reach
        places = np.arange(len(strings))
        dress(axes, x_label="string", y_label="level about the middle (dB)", x_limits=(-0.6, len(strings) - 0.4),
              y_limits=(-reach, reach))
        axes.set_xticks(places, strings)
        if allowed is not None:
            axes.axhspan(-allowed / 2, allowed / 2, zorder=0, **BAND)
        axes.axhline(0, color=GREY, linewidth=1)
        self._bars = axes.bar(places, np.zeros(len(strings)), width=0.6, animated=True, **BAR)
        self._words = [label(axes, ha="center", fontsize=TEXT - 2) for _ in strings]

    def update(self, *, levels):
        """Show other levels, dB over any reference, one a string."""
        levels = np.asarray(levels)
        shown = levels - (levels.max() + levels.min()) / 2
        for place, (bar, word, level) in enumerate(zip(self._bars, self._words, shown)):
            bar.set_height(np.clip(level, -self._reach, self._reach))
            word.set_text(said(level, "", "+.1f"))
            word.set(position=(place, np.clip(level, 0.2 - self._reach, self._reach - 1.2) if level > 0
                               else max(level, 1.2 - self._reach)), va="bottom" if level > 0 else "top")
        return [*self._bars, *self._words]


def allowed_frequencies(axes, low, high):
    """Mark the band (Hz) where a resonance is to lie; drawn once, with the ground."""
    axes.axvspan(low, high, zorder=0, **BAND)
