"""Closed rings of wire near a magnet, for Lenz's rule; the drawing stays as it is."""
import numpy as np
from matplotlib.patches import FancyArrowPatch

from lessons_lib.pictures.strings import StringEnd
from lessons_lib.pictures.style import COPPER, DISPLACEMENT, FLUX, INK, PAPER, VOLTAGE, label, new_figure
from lessons_lib.pictures.things import FluxArrow, Magnet

_WIDE, _DEEP = 7.0, 2.2         # mm, half axes of a ring that is seen from a little above


def _arc(axes, height, front):
    """Half of a ring of copper wire, that before the magnet or that behind it; of the two the front is drawn later."""
    angle = np.linspace(0, np.pi, 40) * (-1 if front else 1)
    place = _WIDE * np.cos(angle), height + _DEEP * np.sin(angle)
    for colour, width in ((INK, 7.5), (COPPER, 5.5)):
        axes.plot(*place, color=colour, linewidth=width, zorder=3 if front else 0, solid_capstyle="butt")


def _arrow(axes, start, end, look):
    axes.add_patch(FancyArrowPatch(start, end, arrowstyle="-|>", mutation_scale=16, linewidth=2.4, shrinkA=0, shrinkB=0,
                                   color=look["color"], zorder=4))


def _flux(axes, x, bottom, top, *, down=False, hollow=False):
    """A broad arrow of flux through the ring; a hollow one is the current's own."""
    width = 1.3e-3 * (-1 if down else 1)
    arrow, = FluxArrow(axes, moves=False).update(start=(x * 1e-3, bottom * 1e-3), end=(x * 1e-3, top * 1e-3),
                                                 width=width)
    arrow.set(zorder=2)
    if hollow:
        arrow.set(facecolor=PAPER, linewidth=2.0, alpha=None)


def _words(axes, *texts):
    for text, x, y, look in texts:
        label(axes, text, look, position=(x, y), ha="center", va="center", zorder=5)


def _scene(figure, number, title):
    axes = figure.add_axes((number / 3 + 0.003, 0.01, 0.327, 0.98), xlim=(-11, 11), ylim=(-13.2, 15.8))
    axes.set_axis_off()
    _words(axes, (title, 0, 14.4, None))
    return axes


def lenz_figure():
    """Three rings: a north end that comes, one that goes, and a pickup's string that goes; nothing is drawn again."""
    figure = new_figure(width=8.0, height=3.515)
    for number, title, going in ((0, "1. a north end comes", False), (1, "2. a north end goes", True)):
        axes, ring = _scene(figure, number, title), -5.0
        _arc(axes, ring, front=False), _arc(axes, ring, front=True)
        Magnet(axes, moves=False).update(top=12.4e-3, diameter=5e-3, length=9.5e-3, remanence=-1.0)
        _flux(axes, -2.2, -11.0, 1.0, down=True)
        _flux(axes, 2.2, -11.0, 1.0, down=going, hollow=True)
        _arrow(axes, *((5.0, 5.0), (5.0, 10.5))[::1 if going else -1], DISPLACEMENT)
        _words(axes, ("magnet's\nflux", -7.0, -11.4, FLUX), ("own flux of\nthe current", 7.4, -11.4, FLUX))
        if going:
            _words(axes, ("current?", 7.6, -8.0, VOLTAGE))
        else:
            _arrow(axes, (-4.2, ring - _DEEP - 1.6), (4.2, ring - _DEEP - 1.6), VOLTAGE)
            _words(axes, ("current", 7.6, -8.0, VOLTAGE))
    axes, coil = _scene(figure, 2, "3. the string goes"), -5.0
    _arc(axes, coil, front=False), _arc(axes, coil, front=True)
    Magnet(axes, moves=False).update(top=2.0e-3, diameter=5e-3, length=14e-3)
    StringEnd(axes, moves=False).update(x=0.0, height=6.6e-3, diameter=1.5e-3, core=None)
    _arrow(axes, (0, 8.2), (0, 12.2), DISPLACEMENT)
    _words(axes, ("string,\nend-on", -4.6, 7.0, None), ("current?\nits own flux?", 6.9, -1.0, VOLTAGE),
           ("closed\ncoil", -7.6, -10.0, None))
    return figure, lambda _: []
