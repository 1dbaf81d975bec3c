"""Two coils under one string, wired some way: the coils, the wave that they cancel, and the level over frequency."""
import numpy as np

from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import Curve, Level
from lessons_lib.pictures.response import KHZ
from lessons_lib.pictures.strings import StringAlong
from lessons_lib.pictures.style import HOUSE_LOOK, INK, MUTED, VOLTAGE, label, to_scale
from lessons_lib.pictures.things import Coil, Magnet, window_of

_LEFT, _ROOM = 0.11, 92         # share of the figure; points, for words to the right
_REACH, _HIGH = 48e-3, 6.5e-3
_SWING = 1.4e-3                 # m, of the wave as it is drawn


class CoilsAndComb:
    """Two coils of a pair in place under a string, and below it the level at the amplifier with its comb.

    Parameters
    ----------
    coil : LongCoil
    rod : RodMagnet
    height : float
        Of the string, m.
    level : (float, float)
        Fixed limits, dB.
    """

    def __init__(self, figure, *, coil, rod, height, level):
        width = 0.985 - _LEFT
        self.axes, high = to_scale(figure, left=_LEFT, top=0.99, width=width, x_limits=(-_REACH, _REACH),
                                   z_limits=(-18e-3, _HIGH))
        self.axes.set_axis_off()
        self._window, self._rod, self._height = window_of(coil), rod, height
        self._things = [(Coil(self.axes), Magnet(self.axes)) for _ in range(2)]
        self._string = StringAlong(self.axes)
        self._words = label(self.axes, ha="center", va="center", position=(0.0, 1e3 * (_HIGH - 0.9e-3)))
        self.levels = Lines(
            figure.add_axes((_LEFT, 0.115, width, 0.85 - high)), room=_ROOM, x=KHZ,
            y=Axis("level at the amplifier", "dB", level), parts=[
                Level("null", look={"color": INK, "linestyle": ":"}, upright=True, at=0.93),
                Curve("alone", "one coil", HOUSE_LOOK),
                Curve("comb", "comb alone", {"color": MUTED, "linestyle": "--"}, width=1.2),
                Curve("this", "with cable", VOLTAGE, width=2.6)])

    def update(self, *, frequency, comb, this, alone, apart, null, half_waves, words, both):
        """Show another pair.

        Parameters
        ----------
        frequency, comb, this, alone : array_like, shape (n,)
            Hz, dB; *comb* or *alone* None: not shown.
        apart : float
            m.
        null : float or None
            Of the comb, Hz.
        half_waves : int
            Between the coils at that null; 0: the string is straight.
        words : dict
            "null": at the line; "wave": over the string.
        both : bool
            Whether the second coil is connected; it is pale otherwise.
        """
        drawn = []
        for (coil, magnet), x, sense in zip(self._things, (-apart / 2, apart / 2), (1, -1)):
            parts = magnet.update(x=x, top=0.0, diameter=self._rod.diameter, length=self._rod.length,
                                  remanence=sense)
            parts += coil.update(x=x, rows=0, **self._window)
            for part in parts:
                part.set_alpha(1.0 if both or sense > 0 else 0.25)
            drawn += parts
        x = np.linspace(-_REACH, _REACH, 241)
        wave = np.cos(half_waves * np.pi * (x / apart + 0.5)) if half_waves else np.zeros_like(x)
        drawn += self._string.update(x=x, height=self._height + _SWING * wave, diameter=4e-4)
        self._words.set_text(words["wave"])
        return [*drawn, self._words, *self.levels.update(
            frequency, comb=comb, this=this, alone=alone, null=null, words={"null": words["null"]} if null else {})]
