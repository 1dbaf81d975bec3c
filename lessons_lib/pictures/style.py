"""Colours, line styles and figures that every picture shares.

One colour for one quantity all through the course.
"""
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from lessons_lib.base.units import in_unit

# M. Okabe and K. Ito, "Color Universal Design (CUD): How to make figures and presentations that are friendly to
# colorblind people" (2002, modified 2008): of their set of eight, those with a contrast of 3:1 or more on white
BLUE, VERMILLION, GREEN, PURPLE, BLACK = "#0072B2", "#D55E00", "#009E73", "#CC79A7", "#000000"
GREY = "#595959"
ROD_FILL = "#ECECEC"
# even steps to the eye, in print and for every kind of colour sight: J. R. Nuñez, C. R. Anderton and R. S. Renslow,
# "Optimizing colormaps with consideration for color vision deficiency to enable accurate interpretation of scientific
# data", PLOS ONE 13(7), e0199239 (2018)
FIELD_MAP = "cividis"

FLUX_DENSITY = {"color": BLUE, "linestyle": "-"}
FIELD_STRENGTH = {"color": VERMILLION, "linestyle": "--"}
FLUX = {"color": GREEN, "linestyle": "-"}
POLARISATION = {"color": PURPLE, "linestyle": "-."}
DISPLACEMENT = {"color": GREY, "linestyle": "--"}
VELOCITY = {"color": BLACK, "linestyle": "-."}
VOLTAGE = {"color": BLACK, "linestyle": "-"}
HOUSE_LOOK = {"color": GREY, "linestyle": "--"}       # what the rest is compared with
MARKERS = {"displacement": "s", "velocity": "o", "voltage": "D"}

# SI to the units of the axes
MM, MT, UWB, NWB, MS, MV, KOHM, KA_PER_M, PERCENT = (in_unit(1.0, unit) for unit in (
    "mm", "mT", "µWb", "nWb", "ms", "mV", "kΩ", "kA/m", "%"))

TEXT = 12


def new_figure(*, width=8.0, height=4.2):
    """A figure on white ground with its own canvas: no global drawing state knows it.

    Parameters
    ----------
    width, height : float
        Size in inches at 100 dots an inch.

    Returns
    -------
    matplotlib.figure.Figure

    Examples
    --------
    >>> new_figure(width=8, height=4).canvas.get_width_height()
    (800, 400)
    """
    a_hair = 1e-9   # 4.6 inches are 459.99... dots in binary numbers, and some releases cut that to 459
    figure = Figure(figsize=(width + a_hair, height + a_hair), dpi=100, facecolor="white", layout=None)
    FigureCanvasAgg(figure)
    return figure


def dress(axes, *, x_label, y_label, x_limits, y_limits):
    """Labels, fixed limits and readable text for axes; returns the axes."""
    axes.set(xlim=x_limits, ylim=y_limits, facecolor="white")
    axes.set_xlabel(x_label, fontsize=TEXT)
    axes.set_ylabel(y_label, fontsize=TEXT)
    axes.tick_params(labelsize=TEXT - 1)
    axes.set_axisbelow(True)
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)
    return axes


def label(axes, text="", look=None, **where):
    """A text that an update moves and fills, on white so that lines do not cross it.

    With the look of a line its frame is drawn like that line: coloured text would be too pale to read.
    """
    frame = {"edgecolor": "none"} if look is None else {
        "edgecolor": look["color"], "linestyle": look["linestyle"], "linewidth": 1.6}
    place = {"fontsize": TEXT - 1, "animated": True, "clip_on": True,
             "bbox": {"facecolor": "white", "alpha": 0.9, "pad": 2.5} | frame}
    return axes.text(0.0, 0.0, text, **(place | where))
