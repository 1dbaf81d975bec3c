"""The figures of the whole pickup: a figure each, the function that draws, and axes to take hold of."""
from lessons_lib.base.units import said
from lessons_lib.lessons.string_lines import SLICE
from lessons_lib.lessons.whole_pickup.film import CUT, TUBE
from lessons_lib.pictures.style import FLUX, MM, label, new_figure
from lessons_lib.pictures.whole_pickup import PickupCut, ResponseAndHarmonics, StringStrip, Traces


def _cut_axes(figure, left, bottom, height, limits=CUT):
    """Axes across the strings, equally long both ways, as wide as their height lets them."""
    (low, high), tall = limits["sides"], limits["top"] - limits["bottom"]
    width = (high - low) / tall * height * figure.get_figheight() / figure.get_figwidth()
    return figure.add_axes((left, bottom, width, height), xlim=(low * MM, high * MM),
                           ylim=(limits["bottom"] * MM, limits["top"] * MM))


def whole_figure(instrument, *, length, stronger):
    """All of it: data of `views.picture`; axes of the string and of the cut."""
    figure = new_figure(width=8.0, height=5.3)
    strip = StringStrip(figure.add_axes((0.005, 0.845, 0.99, 0.155)), length=length)
    axes = _cut_axes(figure, 0.0, 0.005, 0.82)
    cut = PickupCut(axes, coil=instrument.coil)
    label(axes, f"{said(TUBE, 'nWb', 'g')} a line, to\n{said(SLICE, 'mm', 'g')} of string", FLUX, animated=False,
          va="top").set_position((CUT["sides"][0] * MM + 0.2, CUT["top"] * MM))
    rows = (figure.add_axes((0.415, bottom, 0.57, 0.085)) for bottom in (0.715, 0.585, 0.455))
    traces = Traces(*rows, stronger=stronger)
    levels = ResponseAndHarmonics(figure.add_axes((0.415, 0.10, 0.57, 0.225)))

    def draw(data):
        return (strip.update(**data["string"]) + cut.update(**data["cut"]) + traces.update(**data["traces"])
                + levels.update(**data["response"]))
    return figure, draw, strip.axes, axes


def first_figure(instrument):
    """A string over its magnet in a coil, and nothing else: the part *cut* of `views.picture`."""
    limits = CUT | {"sides": (-15e-3, 15e-3), "bottom": -20e-3, "top": 7e-3}
    figure = new_figure(width=8.0, height=4.2)
    width = (limits["sides"][1] - limits["sides"][0]) / (limits["top"] - limits["bottom"]) * 4.2 / 8.0
    cut = PickupCut(_cut_axes(figure, (1 - width) / 2, 0.0, 1.0, limits), coil=instrument.coil)
    coil, rod = instrument.coil, instrument.magnet
    middle = (coil["inner_radius"] + coil["outer_radius"]) / 2
    for text, y, z in (("magnet", 0.0, -rod["length"]), ("coil", middle, coil["bottom"])):
        label(cut.axes, text, animated=False, ha="center", va="top").set_position((y * MM, z * MM - 0.4))
    string = label(cut.axes, "string", va="center", animated=True)

    def draw(data):
        string.set_position((0.9, data["cut"]["string"][1] * MM))
        return [*cut.update(**data["cut"]), string]
    return figure, draw, cut.axes
