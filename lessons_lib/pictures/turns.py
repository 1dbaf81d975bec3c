"""A coil's window in cut, filled with the wires of its turns, once with this wire and once with one that just fills."""
import numpy as np
from matplotlib.patches import Rectangle

from lessons_lib.base.units import in_unit
from lessons_lib.pictures.style import BODY, COPPER, INK, MM, MUTED, NORTH, TEXT, VERMILLION, WORDS, label

_CORE, _FLANGE = 1.1, 0.7   # mm of core and flange that are drawn
_SECOND = 7.4               # mm, where the second window begins


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
        low, high = -_FLANGE - 2.4, self._length + _FLANGE + 2.6
        self._points = 72 * up / (high - low)
        axes.set(xlim=(-_CORE - 0.1, across * (high - low) / up - _CORE - 0.1), ylim=(low, high))
        axes.set_axis_off()
        self._lefts = (0.0, _SECOND)
        for left, name in zip(self._lefts, ("this wire", "wire that\njust fills")):
            for corner, wide, high_, colour in (((left - _CORE, -_FLANGE), _CORE, self._length + 2 * _FLANGE, NORTH),
                                                ((left, -_FLANGE), self._width, _FLANGE, BODY),
                                                ((left, self._length), self._width, _FLANGE, BODY)):
                axes.add_patch(Rectangle(corner, wide, high_, facecolor=colour, edgecolor=INK, linewidth=1.0))
            axes.add_patch(Rectangle((left, 0), self._width, self._length, facecolor="none", edgecolor=INK,
                                     linewidth=1.0))
            axes.text(left - _CORE, self._length + _FLANGE + 0.45, name, fontsize=TEXT, ha="left", va="bottom")
        axes.text(-_CORE, low + 0.15, f"One wire is drawn for {once_in} turns.", fontsize=TEXT - 1, color=MUTED,
                  ha="left", va="bottom")
        self._wires = [[axes.plot([], [], "o", color=colour, markeredgecolor=INK, markeredgewidth=0.5,
                                  animated=True)[0] for colour in (COPPER, VERMILLION)] for _ in self._lefts]
        self._words = [label(axes, ha="left", va="top", position=(left - _CORE, -_FLANGE - 0.25)) for left in self._lefts]

    def update(self, windows, words):
        """Show other wires, as `drawn_turns` gives them for both windows; a text under each; returns the artists."""
        artists = []
        for left, window, pair in zip(self._lefts, windows, self._wires):
            across, up = left + in_unit(window["outward"], "mm"), in_unit(window["up"], "mm")
            for wires, which in zip(pair, (window["fits"], ~window["fits"])):
                wires.set_data(across[which], up[which])
                wires.set_markersize(max(1.0, window["thickness"] * MM * self._points - 0.8))
                artists.append(wires)
        for artist, (text, fits) in zip(self._words, words):
            artist.set(text=text, color=INK if fits else WORDS[VERMILLION])
        return artists + self._words
