"""Symbols of a circuit as it is drawn: wire, resistance, a source of alternating voltage, inductance."""
import numpy as np
from matplotlib.patches import Rectangle

from lessons_lib.pictures.style import INK, PAPER, VERMILLION
from lessons_lib.pictures.things import box, disc

LINE = {"color": INK, "linewidth": 1.6, "solid_capstyle": "round"}


def wire(axes, *points, **more):
    """A line from point to point."""
    return axes.plot(*np.array(points).T, **(LINE | more))[0]


def resistance(axes, x, y, width, height, **more):
    """A box with its lower left corner at (x, y)."""
    return box(axes, x, y, width, height, PAPER, linewidth=1.6, zorder=3, **more)


def source(axes, x, y, *, radius, wave):
    """A circle with a period of a sine in it; *wave* is how far that reaches, across and up."""
    disc(axes, x, y, radius, PAPER, edgecolor=VERMILLION, linewidth=1.8, zorder=3)
    turn = np.linspace(0, 2 * np.pi, 40)
    axes.plot(x + wave[0] * (turn / np.pi - 1), y + wave[1] * np.sin(turn), color=VERMILLION, linewidth=1.6, zorder=4)


def inductance(axes, x, y, *, width, height):
    """Four half rounds over a wire from *x* on, each so wide and so high."""
    axes.add_patch(Rectangle((x, y - 0.1), 4 * width, 0.2, facecolor=PAPER, edgecolor="none", zorder=3))
    half = np.linspace(np.pi, 0, 20)
    for n in range(4):
        axes.plot(x + (n + 0.5) * width + width / 2 * np.cos(half), y + height * np.sin(half), zorder=4, **LINE)
