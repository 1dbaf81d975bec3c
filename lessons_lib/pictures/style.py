"""Colours, line styles and figures that every picture shares.

One colour for one quantity all through the course.
"""
import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from lessons_lib.base.units import in_unit

# Every colour of a picture is one of these roles: (on white, in a dark page). On paper the first one is taken; a page
# gives each role the value of its theme (`vector.py`).
# M. Okabe and K. Ito, "Color Universal Design (CUD): How to make figures and presentations that are friendly to
# colorblind people" (2002, modified 2008): of their set of eight, those with a contrast of 3:1 or more on white
ROLES = {
    "ink": ("#1F1F1F", "#E8E8E8"), "muted": ("#595959", "#B4B4B4"), "grid": ("#DDDDDD", "#3C3C3C"),
    "paper": ("#FFFFFF", "#111111"), "ghost": ("#9A9A9A", "#7C7C7C"), "ghost-word": ("#5A5A5A", "#B0B0B0"),
    "blue": ("#0072B2", "#56B4E9"), "blue-word": ("#005F96", "#7CC6F0"),
    "vermillion": ("#D55E00", "#FF8B3D"), "vermillion-word": ("#A34700", "#FFA868"),
    "green": ("#009E73", "#2FC79A"), "green-word": ("#006B4E", "#5AD9B4"),
    "purple": ("#CC79A7", "#DE9CC2"), "purple-word": ("#96407A", "#E9B5D2"),
    # things, as they are drawn: pale, so that lines are seen over them
    "steel": ("#B8C4CC", "#5A6973"), "copper": ("#E3C19F", "#7D5A38"), "north": ("#F0C9C2", "#7A4038"),
    "south": ("#C9D6EA", "#3C5070"), "body": ("#ECECEC", "#333333"),
}
INK, MUTED, GRID, PAPER = (ROLES[role][0] for role in ("ink", "muted", "grid", "paper"))
GHOST = ROLES["ghost"][0]       # what was before, and what the rest is compared with
BLUE, VERMILLION, GREEN, PURPLE = (ROLES[role][0] for role in ("blue", "vermillion", "green", "purple"))
STEEL, COPPER, NORTH, SOUTH, BODY = (ROLES[role][0] for role in ("steel", "copper", "north", "south", "body"))
WORDS = {INK: INK, MUTED: MUTED, GHOST: ROLES["ghost-word"][0], BLUE: ROLES["blue-word"][0],
         VERMILLION: ROLES["vermillion-word"][0], GREEN: ROLES["green-word"][0],
         PURPLE: ROLES["purple-word"][0]}     # the shade of a colour in which it is read
# one look for one quantity all through the course; lines of flux have the flux's
FLUX = {"color": GREEN, "linestyle": "-"}
FLUX_DENSITY = {"color": BLUE, "linestyle": "-"}
VOLTAGE = {"color": VERMILLION, "linestyle": "-"}
FIELD_STRENGTH = {"color": PURPLE, "linestyle": "--"}
POLARISATION = {"color": INK, "linestyle": "-."}
DISPLACEMENT = {"color": MUTED, "linestyle": "--"}
HOUSE_LOOK = {"color": GHOST, "linestyle": "-"}       # what the rest is compared with

# SI to the units of the axes
MM, MT = (in_unit(1.0, unit) for unit in ("mm", "mT"))

TEXT = 12


def new_figure(*, width=8.0, height=4.2):
    """A figure on white ground with its own canvas: no global drawing state knows it.

    Parameters
    ----------
    width, height : float
        Size in inches; 72 dots an inch, so that a dot is a point.

    Returns
    -------
    matplotlib.figure.Figure

    Examples
    --------
    >>> new_figure(width=8, height=4).canvas.get_width_height()
    (576, 288)
    """
    a_hair = 1e-9   # 4.6 inches are 331.19... dots in binary numbers, and some releases cut
    figure = Figure(figsize=(width + a_hair, height + a_hair), dpi=72, facecolor=PAPER, layout=None)
    FigureCanvasAgg(figure)
    return figure


def dress(axes, *, x_label, y_label, x_limits, y_limits):
    """Labels, fixed limits and readable text for axes; returns the axes."""
    axes.set(xlim=x_limits, ylim=y_limits, facecolor=PAPER)
    axes.set_xlabel(x_label, fontsize=TEXT, color=INK)
    axes.set_ylabel(y_label, fontsize=TEXT, color=INK)
    axes.tick_params(labelsize=TEXT - 1, color=INK, labelcolor=INK)
    axes.set_axisbelow(True)
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)
    for side in ("left", "bottom"):
        axes.spines[side].set_color(INK)
    return axes


def to_scale(figure, *, left, width, x_limits, z_limits, bottom=0.0, top=None):
    """Axes in mm, as long up as across, upwards from *bottom* or down from *top*; returns them and their height.

    Places in shares of the figure, limits in m.
    """
    across, up = figure.get_size_inches()
    height = width * across / up * np.ptp(z_limits) / np.ptp(x_limits)
    axes = figure.add_axes((left, bottom if top is None else top - height, width, height))
    return dress(axes, x_label="", y_label="", x_limits=np.multiply(x_limits, MM),
                 y_limits=np.multiply(z_limits, MM)), height


def label(axes, text="", look=None, **where):
    """A text with the look of a line in that colour, best at the line's end; without words one that an update fills.

    Words are a darker shade than lines (contrast 4.5:1 on white and more). The page puts the ground's colour round each
    letter, so that lines do not cross it: no box is needed.
    """
    place = {"fontsize": TEXT - 1, "animated": not text, "color": INK if look is None else WORDS[look["color"]]}
    return axes.text(0.0, 0.0, text, **(place | where))


def caption(axes, text="", look=None, *, x=0.0, up=1.02, **where):
    """A `label` over the frame, from its left end on or, at x = 1, up to its right end."""
    return label(axes, text, look, **({"position": (x, up), "transform": axes.transAxes, "va": "bottom",
                                       "ha": "right" if x == 1 else "left"} | where))
