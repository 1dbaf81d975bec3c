"""A string over a rod and its coil, from the side and from its end, with lines for the flux that it carries."""
from dataclasses import replace

import numpy as np

from lessons_lib.base.units import said
from lessons_lib.pictures.bent import BentAxis
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import Curve, Dots
from lessons_lib.pictures.strings import StringAlong, StringEnd
from lessons_lib.pictures.style import FLUX, HOUSE_LOOK, MM, MUTED, TEXT, dress, label
from lessons_lib.pictures.things import Coil, Magnet

# over the house magnet, house strings are in the even part at every height, and the easiest thick steel is in the bent
FLUX_ALONG = BentAxis("flux in the string, to the right", "nWb", knee=300e-9, low=-1.5, ticks=(-1, 0, 1))
GAIN = BentAxis("a turn gains", "nWb", knee=60e-9)


class StringOverRod:
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
        self.side, self.end, self._wide = side, end, half_width
        for axes, limits, name in ((side, (-half_width, half_width), "height (mm)"), (end, sides, "")):
            dress(axes, x_label="", y_label=name, x_limits=np.array(limits) * MM, y_limits=(bottom * MM, top * MM))
            axes.set(aspect="equal", yticks=[0, 2, 4, 6])
            Coil(axes, moves=False).update(**coil)
            for letter in Magnet(axes, moves=False).update(**magnet)[2:]:
                letter.set_visible(False)    # one is below the frame, one under the lines
            label(axes, "N", animated=False, ha="center").set_position((-0.7 * magnet["diameter"] / 2 * MM, -1.5))
            axes.plot(*(np.asarray(part) * MM for part in pale), linewidth=1.0, zorder=1.5, **HOUSE_LOOK)
        side.tick_params(labelbottom=False)
        end.tick_params(labelleft=False)
        end.set_xlabel("place across (mm)", fontsize=TEXT, labelpad=2)
        self._lines = [axes.plot([], [], linewidth=1.2, animated=True, **FLUX)[0] for axes in (side, end)]
        self._heads = side.plot([], [], ">", **self._mark)[0], side.plot([], [], "<", **self._mark)[0]
        self._along, self._disc = StringAlong(side), StringEnd(end)
        above = {"va": "bottom", "fontsize": TEXT - 1}
        self._word = label(side, look=FLUX, transform=side.transAxes, **above)
        self._word.set_position((0.0, 1.02))
        for axes, x, align, look, text in ((side, 1.0, "right", HOUSE_LOOK, "without it"),
                                           (end, 1.0, "right", None, end_words)):
            label(axes, text, look, animated=False, transform=axes.transAxes, ha=align,
                  **above).set_position((x, 1.02))

    _mark = {"color": FLUX["color"], "markersize": 6, "linestyle": "none", "animated": True}

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
        for line, path in zip(self._lines, (lines, towards)):
            line.set_data(*(np.asarray(part) * MM for part in path))
        steel = self._along.update(x=[-self._wide, self._wide], height=height, diameter=core)
        disc = self._disc.update(height=height, diameter=core, x=place)
        for head, x in zip(self._heads, (0.5, -0.5)):
            head.set_data([x * self._wide * MM], [height * MM])
        self._word.set_text(f"flux of the string: {said(tube, 'nWb', '.0f')} a line")
        return [*steel, *self._lines, *self._heads, *disc, self._word]


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
            label(axes, bent.axis.quantity, None, animated=False, transform=axes.transAxes, va="bottom",
                  ha="left").set_position((0.0, 1.03))
        self._along = Lines(along, x=Axis("place along the string", "mm", (-half_width, half_width)), room=0.0,
                            y=replace(self._bent[0].axis, quantity=""),
                            parts=[Curve("flux", look=FLUX), *self._bent[0].bands()])
        self._swing = Lines(swing, x=Axis("time", "ms", (0.0, period)), room=0.0,
                            y=replace(self._bent[1].axis, quantity=""),
                            parts=[Curve("gain", look=FLUX), Dots("now", FLUX), *self._bent[1].bands()])
        words = {"ha": "center", "va": "center", "animated": False}
        for text, x, y in (("gathers", -0.2, 0.75), ("gives back", -0.7, 0.4), ("gives back", 0.7, -0.4)):
            label(along, text, FLUX, **words).set_position((x * half_width * MM, y))
        label(along, "logarithmic", {"color": MUTED}, transform=along.transAxes, animated=False, va="top",
              fontsize=TEXT - 2).set_position((0.02, 0.985))
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
