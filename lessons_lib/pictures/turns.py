"""A coil's window in cut, filled with the wires of its turns, once with this wire and once with one that just fills."""
import numpy as np
from matplotlib.patches import PathPatch
from matplotlib.path import Path

from lessons_lib.base.units import in_unit
from lessons_lib.pictures.style import BODY, COPPER, INK, MM, MUTED, NORTH, VERMILLION, WORDS, label
from lessons_lib.pictures.things import box

_CORE, _FLANGE = 1.1, 0.7   # mm of core and flange that are drawn


class WireWindows:
    """Two windows side by side, true to scale, each beside a piece of its core and between its flanges.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        Its limits are set here: millimetres, equally long both ways.
    width, length : float
        Of the window: outwards from the core, and along it, m.
    once_in : int
        Turns for one drawn wire.
    """

    def __init__(self, axes, *, width, length, once_in):
        self._width, self._length, place = width * MM, length * MM, axes.get_position()
        across, up = place.width * axes.figure.get_figwidth(), place.height * axes.figure.get_figheight()
        low, high, second = -_FLANGE - 2.4, self._length + _FLANGE + 2.6, 2 * self._width + _CORE + 0.3
        inch = min(up / (high - low), across / (second + self._width + _CORE + 0.7))      # a millimetre
        self._points = 72 * inch
        axes.set(xlim=(-_CORE - 0.1, across / inch - _CORE - 0.1), ylim=(low, low + up / inch))
        axes.set_axis_off()
        self._lefts = (0.0, second)
        for left, name in zip(self._lefts, ("this wire", "wire that\njust fills")):
            box(axes, left - _CORE, -_FLANGE, _CORE, self._length + 2 * _FLANGE, NORTH)
            for bottom, tall, colour in ((-_FLANGE, _FLANGE, BODY), (self._length, _FLANGE, BODY),
                                         (0, self._length, "none")):
                box(axes, left, bottom, self._width, tall, colour)
            label(axes, name, position=(left - _CORE, self._length + _FLANGE + 0.45), va="bottom")
        label(axes, f"One wire is drawn for {once_in} turns.", position=(-_CORE, low + 0.15), va="bottom",
              color=MUTED)
        # each wire is a stroke of no length with round ends: a tenth of the letters that a marker takes in a page
        self._wires = [[[axes.add_patch(PathPatch(Path([(0, 0)]), edgecolor=colour, fill=False, capstyle="round",
                                                  animated=True))
                         for colour in (INK, inside)] for inside in (COPPER, VERMILLION)] for _ in self._lefts]
        self._words = [label(axes, ha="left", va="top", position=(left - _CORE, -_FLANGE - 0.25))
                       for left in self._lefts]

    def update(self, windows, words):
        """Show other wires, as `drawn_turns` gives them for both windows; a text under each."""
        artists = []
        for left, window, pair in zip(self._lefts, windows, self._wires):
            places = left + in_unit(window["outward"], "mm"), in_unit(window["up"], "mm")
            thick = max(1.4, window["thickness"] * MM * self._points)
            for strokes, which in zip(pair, (window["fits"], ~window["fits"])):
                ends = np.repeat(np.column_stack([one[which] for one in places]), 2, axis=0)
                path = Path(ends, np.tile([Path.MOVETO, Path.LINETO], which.sum()))
                path.should_simplify = False    # it would leave out strokes of no length
                for stroke, width in zip(strokes, (thick - 0.3, thick - 1.2)):
                    stroke.set(path=path, linewidth=width)
                    artists.append(stroke)
        for artist, (text, fits) in zip(self._words, words):
            artist.set(text=text, color=INK if fits else WORDS[VERMILLION])
        return artists + self._words
