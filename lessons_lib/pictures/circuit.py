"""A magnet and the air round it as a circuit: a source of magnetomotive force and two boxes in one loop."""
from matplotlib.patches import Circle, Rectangle

from lessons_lib.base.units import said
from lessons_lib.pictures.style import BLACK, FLUX, GREY, TEXT, VERMILLION, label

LEFT, RIGHT, LOW, HIGH = 2.0, 8.6, 1.6, 8.4     # the loop on a drawing of 10 by 10


class MagnetLoop:
    """The loop is drawn once, with its names; an update fills in the values.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        About square.
    """

    def __init__(self, axes):
        self.axes = axes
        axes.set(xlim=(0, 10), ylim=(0, 10), aspect="equal")
        axes.axis("off")
        axes.add_patch(Rectangle((LEFT, LOW), RIGHT - LEFT, HIGH - LOW, fill=False, edgecolor=BLACK, linewidth=1.6))
        axes.add_patch(Rectangle((0.9, 2.2), 2.2, 5.6, fill=False, edgecolor=GREY, linewidth=1.2, linestyle="--"))
        axes.text(0.55, 5.0, "magnet", rotation=90, ha="center", va="center", fontsize=TEXT, color=GREY)
        self._draw_source(LEFT, 3.2)
        for x, y in ((LEFT, 6.6), (RIGHT, 5.0)):
            axes.add_patch(Rectangle((x - 0.45, y - 1.0), 0.9, 2.0, facecolor="white", edgecolor=BLACK, linewidth=1.8))
        axes.annotate("", (6.1, HIGH), (4.1, HIGH),
                      arrowprops={"arrowstyle": "-|>", "color": FLUX["color"], "linewidth": 2.4, "mutation_scale": 20})
        names = {"fontsize": TEXT, "va": "bottom"}
        axes.text(3.3, 6.7, "reluctance R$_m$", **names)
        axes.text(3.3, 3.2, "MMF of the magnet", **names)
        axes.text(7.9, 4.95, "air R$_{air}$", ha="right", **names)
        self._own, self._mmf, self._air = (self._value(x, y, align) for x, y, align in (
            (3.3, 6.55, "left"), (3.3, 3.05, "left"), (7.9, 4.8, "right")))
        self._flux = self._framed_value("flux by the circuit:", 9.2, FLUX)
        self._field = self._framed_value("flux by the field:", 0.8, {"color": FLUX["color"], "linestyle": ":"})

    def _draw_source(self, x, y):
        self.axes.add_patch(Circle((x, y), 0.8, facecolor="white", edgecolor=BLACK, linewidth=1.8))
        self.axes.annotate("", (x, y + 0.65), (x, y - 0.65), arrowprops={
            "arrowstyle": "-|>", "color": VERMILLION, "linewidth": 2.2, "mutation_scale": 18})

    def _value(self, x, y, align):
        return self.axes.text(x, y, "", fontsize=TEXT, fontweight="bold", ha=align, va="top", animated=True)

    def _framed_value(self, name, y, look):
        self.axes.text(5.9, y, name, fontsize=TEXT, ha="right", va="center")
        value = label(self.axes, look=look, ha="left", va="center", fontsize=TEXT)
        value.set_position((6.2, y))
        return value

    def update(self, *, mmf, own_reluctance, air_reluctance, circuit_flux, field_flux):
        """Show the values (A, A/Wb and Wb) on the drawing; returns the artists in drawing order."""
        self._mmf.set_text(said(mmf, "A", ".0f"))
        self._own.set_text(said(own_reluctance, "MA/Wb", ".1f"))
        self._air.set_text(said(air_reluctance, "MA/Wb", ".1f"))
        self._flux.set_text(said(circuit_flux, "µWb", ".2f"))
        self._field.set_text(said(field_flux, "µWb", ".2f"))
        return [self._mmf, self._own, self._air, self._flux, self._field]
