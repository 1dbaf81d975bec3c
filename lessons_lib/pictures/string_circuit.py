"""Magnet, near air with the string in parallel, far air: the circuit with its values, and its test over the height."""
import numpy as np
from matplotlib.patches import Circle, Rectangle

from lessons_lib.base.units import said
from lessons_lib.pictures.style import BLACK, FLUX, MM, PERCENT, TEXT, VERMILLION, dress, label

LEFT, MIDDLE, RIGHT, LOW, HIGH, SPLIT = 1.3, 5.4, 8.3, 1.5, 8.6, 5.0     # on a drawing of 10 by 10
MODEL = FLUX
CIRCUIT = {"color": BLACK, "linestyle": "--"}


class StringLoop:
    """The circuit is drawn once, with its names; an update fills in the values."""

    def __init__(self, axes):
        self.axes = axes
        axes.set(xlim=(0, 10), ylim=(0, 10), aspect="equal")
        axes.axis("off")
        wire = {"color": BLACK, "linewidth": 1.6}
        for x, y in (((LEFT, MIDDLE), (HIGH, HIGH)), ((LEFT, MIDDLE), (LOW, LOW)), ((LEFT, LEFT), (LOW, HIGH)),
                     ((MIDDLE, MIDDLE), (LOW, HIGH)), ((MIDDLE, RIGHT), (HIGH, HIGH)),
                     ((MIDDLE, RIGHT), (SPLIT, SPLIT)), ((RIGHT, RIGHT), (SPLIT, HIGH))):
            axes.plot(x, y, **wire)
        for x, y in ((MIDDLE, SPLIT), (MIDDLE, HIGH)):
            axes.plot([x], [y], "o", color=BLACK, markersize=6)
        boxes = {"magnet": (LEFT, 6.7), "near": (MIDDLE, 6.8), "far": (MIDDLE, 3.1), "string": (RIGHT, 6.8)}
        for x, y in boxes.values():
            axes.add_patch(Rectangle((x - 0.4, y - 0.8), 0.8, 1.6, facecolor="white", edgecolor=BLACK, linewidth=1.8))
        axes.add_patch(Circle((LEFT, 3.3), 0.75, facecolor="white", edgecolor=BLACK, linewidth=1.8))
        axes.annotate("", (LEFT, 3.9), (LEFT, 2.7), arrowprops={
            "arrowstyle": "-|>", "color": VERMILLION, "linewidth": 2.2, "mutation_scale": 16})
        axes.annotate("", (3.6, HIGH), (2.1, HIGH), arrowprops={
            "arrowstyle": "-|>", "color": FLUX["color"], "linewidth": 2.4, "mutation_scale": 20})
        axes.annotate("", (RIGHT, 5.2), (RIGHT, 5.9), arrowprops={
            "arrowstyle": "-|>", "color": FLUX["color"], "linewidth": 2.0, "mutation_scale": 16})
        places = {"mmf": (2.2, 3.3, "MMF"), "magnet": (1.55, 5.3, "magnet"), "near_air": (4.8, 7.1, "near air"),
                  "far_air": (6.0, 2.6, "far air"), "branch": (8.2, 9.5, "gap, steel, gap"),
                  "flux": (2.9, 9.5, "flux in the magnet"), "string_flux": (8.2, 4.3, "gathered by string")}
        aligned = {"near_air": "right", "branch": "center", "string_flux": "center", "flux": "center"}
        self._values = {name: self._named(*place, aligned.get(name, "left")) for name, place in places.items()}

    def _named(self, x, y, text, align):
        """A name with its value below it."""
        self.axes.text(x, y + 0.08, text, fontsize=TEXT - 2, ha=align, va="bottom")
        return self.axes.text(x, y - 0.08, "", fontsize=TEXT - 1, fontweight="bold", ha=align, va="top", animated=True)

    def update(self, *, mmf, magnet, near_air, far_air, branch, flux, string_flux):
        """Show the values (A, A/Wb and Wb) on the drawing; returns the artists in drawing order."""
        self._values["mmf"].set_text(said(mmf, "A", ".0f"))
        for name, value in (("magnet", magnet), ("near_air", near_air), ("far_air", far_air), ("branch", branch)):
            self._values[name].set_text(said(value, "MA/Wb", ".0f" if value >= 100e6 else ".1f"))
        self._values["flux"].set_text(said(flux, "µWb", ".3f"))
        self._values["string_flux"].set_text(said(string_flux, "nWb", ".0f"))
        return list(self._values.values())


class SharesOverHeight:
    """What the string adds to the flux in the magnet, as a share of it: computed model and circuit over the height."""

    def __init__(self, axes, *, heights, share):
        self.axes = axes
        dress(axes, x_label="height of the string (mm)", y_label="change of the magnet's flux (%)",
              x_limits=(heights[0] * MM, heights[1] * MM), y_limits=(0, share * PERCENT))
        axes.grid(True, color="#DDDDDD", linewidth=0.8)
        self._model, = axes.plot([], [], linewidth=2.4, animated=True, **MODEL)
        self._circuit, = axes.plot([], [], linewidth=2.4, animated=True, **CIRCUIT)
        self._points, = axes.plot([], [], "o", color=BLACK, markersize=8, animated=True)
        self._fit, = axes.plot([], [], "s", color=BLACK, markersize=11, fillstyle="none", markeredgewidth=1.6,
                               animated=True)
        for text, look, height in (("computed model", MODEL, 0.95), ("circuit", CIRCUIT, 0.86),
                                   ("square: fitted here", None, 0.77)):
            word = label(axes, text, look, ha="right", va="center", transform=axes.transAxes, animated=False)
            word.set_position((0.98, height))

    def update(self, *, heights, model, circuit, at, fit):
        """Show other curves.

        Parameters
        ----------
        heights, model, circuit : array_like, shape (n,)
            m; shares of the magnet's flux.
        at : (float, float, float)
            The chosen height, m, and both shares there.
        fit : (float, float)
            Where the circuit was fitted: height, m, and share.

        Returns
        -------
        list of matplotlib.artist.Artist
        """
        self._model.set_data(np.asarray(heights) * MM, np.asarray(model) * PERCENT)
        self._circuit.set_data(np.asarray(heights) * MM, np.asarray(circuit) * PERCENT)
        self._points.set_data([at[0] * MM] * 2, np.array(at[1:]) * PERCENT)
        self._fit.set_data([fit[0] * MM], [fit[1] * PERCENT])
        return [self._model, self._circuit, self._fit, self._points]
