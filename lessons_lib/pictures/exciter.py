"""The response by an exciter coil: two guessed curves, and the readings with the model's curves over them."""
from lessons_lib.pictures.response import THIS, over_frequency
from lessons_lib.pictures.style import BLACK, GREY, label

_RUNS = ({**THIS}, {"color": BLACK, "linestyle": "--"})
_GUESSED = ({"color": GREY, "linestyle": ":"}, {"color": GREY, "linestyle": (0, (1, 2.5))})


class GuessAndReadings:
    """Level relative to low frequencies against frequency, without and with an added capacitor.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    level : (float, float)
        Fixed limits, dB.
    runs : (str, str)
        What the two runs are called.
    """

    def __init__(self, axes, *, level, runs):
        self.axes = axes
        over_frequency(axes, y_label="level relative to low frequencies (dB)", y_limits=level)
        axes.axhline(0, color=GREY, linewidth=0.8)
        self._guess = [axes.plot([], [], linewidth=2.2, animated=True)[0] for _ in runs]
        self._fitted = [axes.plot([], [], linewidth=2.2, animated=True, **look)[0] for look in _RUNS]
        self._dots = [axes.plot([], [], marker, color=BLACK, fillstyle=fill, markersize=6, linestyle="none",
                                animated=True)[0] for marker, fill in (("o", "full"), ("s", "none"))]
        self._words = [label(axes, ha="center", va="bottom") for _ in runs]
        self._legend = label(axes, ha="left", va="bottom", transform=axes.transAxes)
        self._legend.set_position((0.02, 0.04))
        self._runs = runs

    def update(self, *, frequency, guess, peaks, readings=None, fitted=None):
        """Show other curves.

        Parameters
        ----------
        frequency : array_like, shape (n,), Hz
        guess : (array_like, array_like), each of shape (n,), dB
            Without and with the capacitor.
        peaks : two of (float, float)
            Places of the words of the guess, Hz and dB.
        readings : two of (array_like, array_like), optional
            Frequencies and levels of each run; with them the guess is drawn in grey.
        fitted : (array_like, array_like), optional
            The model's curves, dB.

        Returns
        -------
        list of matplotlib.artist.Artist
        """
        shown = readings is not None
        for line, values, look in zip(self._guess, guess, _GUESSED if shown else _RUNS):
            line.set(data=(frequency, values), **look)
        for word, run, (place, height) in zip(self._words, self._runs, peaks):
            word.set(text=run, position=(place, height + 1.2))
        self._legend.set_text("dots: readings   lines: fit   grey: the guess" if shown else "a guess")
        artists = [*self._guess, *([] if shown else self._words), self._legend]
        if shown:
            for line, values in zip(self._fitted, fitted):
                line.set_data(frequency, values)
            for dots, run in zip(self._dots, readings):
                dots.set_data(*run)
            artists += [*self._fitted, *self._dots]
        return artists
