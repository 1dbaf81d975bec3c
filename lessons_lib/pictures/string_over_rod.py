"""A string over a rod and its coil, from the side and from its end: lines of its flux, and of its way before."""
from dataclasses import replace

import numpy as np

from lessons_lib.base.units import said
from lessons_lib.pictures.bent import BentAxis
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import Curve, Dots
from lessons_lib.pictures.strings import StringAlong, StringEnd
from lessons_lib.pictures.style import FLUX, HOUSE_LOOK, MM, MUTED, TEXT, caption, dress, label
from lessons_lib.pictures.things import Coil, Magnet

# over the house magnet, house strings are in the even part at every height, and the easiest thick steel is in the bent
FLUX_ALONG = BentAxis("flux in the string, to the right", "nWb", knee=300e-9, low=-1.5, ticks=(-1, 0, 1))
GAIN = BentAxis("a turn gains", "nWb", knee=60e-9)


class _TwoViews:
    """A string over a rod in its coil, to scale, from the side and from its end; rod and coil stay."""

    def __init__(self, side, end, *, magnet, coil, half_width):
        self.side, self.end, self._wide = side, end, half_width
        for axes in (side, end):
            axes.set_aspect("equal")
            Coil(axes, moves=False).update(**coil)
            for letter in Magnet(axes, moves=False).update(**magnet)[2:]:
                letter.set_visible(False)    # one is below the frame, one under the lines
        end.set_xlabel("place across (mm)", fontsize=TEXT, labelpad=2)
        self._along, self._disc = StringAlong(side), StringEnd(end)

    def _lines(self, look, width):
        """A line in each view, to be shown by `_set`."""
        return [axes.plot([], [], linewidth=width, animated=True, **look)[0] for axes in (self.side, self.end)]

    @staticmethod
    def _set(lines, *paths):
        for line, path in zip(lines, paths):
            line.set_data(*(np.asarray(part) * MM for part in path))

    def _string(self, height, core, place=0.0):
        """The string from the side and from its end."""
        return (self._along.update(x=[-self._wide, self._wide], height=height, diameter=core),
                self._disc.update(height=height, diameter=core, x=place))


class StringOverRod(_TwoViews):
    """Two views to scale: rod, coil and the rod's lines without a string stay, string and its lines move.

    Parameters
    ----------
    side, end : matplotlib.axes.Axes
        For the view from the side (x, z) and for the cut across the string over the rod's middle (y, z).
    magnet, coil : dict
        What Magnet.update and Coil.update take, the rod's top at height zero.
    pale : (array_like, array_like)
        Distance from the axis and height, m, of the rod's lines without a string.
    end_words : str
        Over the view from the end.
    half_width, sides, bottom, top : float, (float, float), float, float
        Fixed limits, m.
    """

    def __init__(self, side, end, *, magnet, coil, pale, end_words, half_width, sides, bottom, top):
        for axes, limits, name in ((side, (-half_width, half_width), "height (mm)"), (end, sides, "")):
            dress(axes, x_label="", y_label=name, x_limits=np.array(limits) * MM, y_limits=(bottom * MM, top * MM))
            axes.set_yticks([0, 2, 4, 6])
            label(axes, "N", ha="center", position=(-0.7 * magnet["diameter"] / 2 * MM, -1.5))
            axes.plot(*(np.asarray(part) * MM for part in pale), linewidth=1.0, zorder=1.5, **HOUSE_LOOK)
        super().__init__(side, end, magnet=magnet, coil=coil, half_width=half_width)
        side.tick_params(labelbottom=False)
        end.tick_params(labelleft=False)
        self._now = self._lines(FLUX, 1.2)
        mark = {"color": FLUX["color"], "markersize": 6, "linestyle": "none", "animated": True}
        self._heads = side.plot([], [], ">", **mark)[0], side.plot([], [], "<", **mark)[0]
        self._word = caption(side, look=FLUX)
        caption(side, "without it", HOUSE_LOOK, x=1.0)
        caption(end, end_words, x=1.0)

    def update(self, *, lines, towards, height, core, place, tube):
        """Show another string.

        Parameters
        ----------
        lines, towards : (array_like, array_like)
            Paths parted by NaN, m: x and z of what runs through the string, y and z of what comes to it over the rod's
            middle.
        height, core, place : float
            Height of the string's axis, diameter of its steel, its place across, m.
        tube : float
            Flux from one line to the next, Wb.
        """
        self._set(self._now, lines, towards)
        steel, disc = self._string(height, core, place)
        for head, x in zip(self._heads, (0.5, -0.5)):
            head.set_data([x * self._wide * MM], [height * MM])
        self._word.set_text(f"flux of the string: {said(tube, 'nWb', '.0f')} a line")
        return [*steel, *self._now, *self._heads, *disc, self._word]


class TwoWays(_TwoViews):
    """Two views to scale, the second one larger: rod and coil stay, the string and both ways of its flux move.

    Parameters
    ----------
    side, end, magnet, coil, end_words
        As of `StringOverRod`.
    now_words : str
        Over the view from the side.
    half_width, bottom, top : float
        Fixed limits of the view from the side, m.
    across : float
        Half of the width of the view from the end, m; its height is the same, and begins 1 mm below the rod's face.
    """

    def __init__(self, side, end, *, magnet, coil, now_words, end_words, half_width, bottom, top, across=4e-3):
        for axes, half, low, high in ((side, half_width, bottom, top), (end, across, -1e-3, 2 * across - 1e-3)):
            dress(axes, x_label="", y_label="height (mm)", x_limits=(-half * MM, half * MM),
                  y_limits=(low * MM, high * MM))
        super().__init__(side, end, magnet=magnet, coil=coil, half_width=half_width)
        label(side, "N", ha="center", position=(-0.84 * magnet["diameter"] / 2 * MM, -1.6))
        side.set_xlabel("place along the string (mm)", fontsize=TEXT, labelpad=2)
        self._before, self._now = self._lines(HOUSE_LOOK, 1.6), self._lines(FLUX, 1.2)
        caption(side, now_words, FLUX, up=1.015)
        caption(side, "the same flux before", HOUSE_LOOK, x=1.0, up=1.015)
        caption(end, end_words, x=1.0, up=1.015)

    def update(self, *, now, before, towards, towards_before, height, core):
        """Show another string.

        Parameters
        ----------
        now, before, towards, towards_before : (array_like, array_like)
            Paths parted by NaN, m: x and z of the flux through the string and of its way before; y and z of what comes
            to the string over the rod's middle, and of its way before.
        height, core : float
            Height of the string's axis, diameter of its steel, m.
        """
        self._set(self._before, before, towards_before)
        self._set(self._now, now, towards)
        steel, disc = self._string(height, core)
        return [*self._before, *steel, *self._now, *disc]


class FluxAndGain:
    """Flux along the string over the place along it; and what a turn of the coil gains while the string swings.

    Parameters
    ----------
    along, swing : matplotlib.axes.Axes
    half_width : float
        Of the first axis, m.
    period : float
        Of the string, s.
    swing_words : str
        How far it swings.
    stronger : int
        Than the house magnet: the axes' knees are as many times higher.
    """

    def __init__(self, along, swing, *, half_width, period, swing_words, stronger=1):
        self._period = period
        self._bent = [replace(bent, knee=stronger * bent.knee) for bent in (FLUX_ALONG, GAIN)]
        for axes, bent in zip((along, swing), self._bent):
            caption(axes, bent.axis.quantity, up=1.03)
        self._along = Lines(along, x=Axis("place along the string", "mm", (-half_width, half_width)), room=0.0,
                            y=replace(self._bent[0].axis, quantity=""),
                            parts=[Curve("flux", look=FLUX), *self._bent[0].bands()])
        self._swing = Lines(swing, x=Axis("time", "ms", (0.0, period)), room=0.0,
                            y=replace(self._bent[1].axis, quantity=""),
                            parts=[Curve("gain", look=FLUX), Dots("now", FLUX), *self._bent[1].bands()])
        for text, x, y in (("gathers", -0.2, 0.75), ("gives back", -0.7, 0.4), ("gives back", 0.7, -0.4)):
            label(along, text, FLUX, ha="center", va="center", position=(x * half_width * MM, y))
        label(along, "logarithmic", {"color": MUTED}, transform=along.transAxes, va="top", fontsize=TEXT - 2,
              position=(0.02, 0.985))
        swing.set_xlabel(f"time (ms), {swing_words}")

    def update(self, *, along, swing, now):
        """Show other fluxes.

        Parameters
        ----------
        along : (array_like, array_like)
            Places (m) and flux (Wb), positive to the right.
        swing, now : (array_like, array_like), (float, float)
            Share of a period and the flux (Wb) that a turn gains; the same at the moment that is drawn.
        """
        of_flux, of_gain = self._bent
        gain, dot = ((np.asarray(share) * self._period, of_gain.place(flux)) for share, flux in (swing, now))
        return [*self._along.update(flux=(along[0], of_flux.place(along[1]))),
                *self._swing.update(gain=gain, now=dot)]
