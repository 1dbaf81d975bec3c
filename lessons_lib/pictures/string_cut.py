"""The upright cut through a string over a rod and its coil, and below it the flux that the string carries along."""
import numpy as np
from matplotlib.patches import Rectangle

from lessons_lib.pictures.style import BLACK, BLUE, FLUX, GREY, MM, NWB, ROD_FILL, TEXT, dress, label

COIL_FILL, STEEL_FILL = "#F0DCC8", "#B8C4CC"
WITHOUT = {"color": GREY, "linestyle": "--"}
WITH = {"color": BLUE, "linestyle": "-"}
SCALES = (100, 250, 500, 1000, 2500, 5000, 10000)     # nWb


class StringCut:
    """Lines of flux with the string and without it, to scale.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    radius : float
        Of the rod, whose top is at height zero, m.
    coil : (float, float, float)
        Inner and outer radius and top of the coil, m.
    half_width, bottom, top : float
        Fixed limits of the cut, m.
    """

    def __init__(self, axes, *, radius, coil, half_width, bottom, top):
        self.axes, self._radius, self._coil, self._bottom, self._wide = axes, radius, coil, bottom, half_width
        dress(axes, x_label="", y_label="height (mm)", x_limits=(-half_width * MM, half_width * MM),
              y_limits=(bottom * MM, top * MM))
        axes.set_aspect("equal")
        axes.tick_params(labelbottom=False)
        body = {"edgecolor": BLACK, "linewidth": 1.2, "animated": True}
        self._rod = axes.add_patch(Rectangle((0, 0), 1, 1, facecolor=ROD_FILL, **body))
        self._coils = [axes.add_patch(Rectangle((0, 0), 1, 1, facecolor=COIL_FILL, **body)) for _ in "lr"]
        self._without, = axes.plot([], [], linewidth=1.0, animated=True, **WITHOUT)
        self._with, = axes.plot([], [], linewidth=1.1, animated=True, **WITH)
        self._string = axes.add_patch(Rectangle((0, 0), 1, 1, facecolor=STEEL_FILL, edgecolor=BLACK, linewidth=0.8,
                                                animated=True))
        words = {"ha": "center", "va": "center", "fontsize": TEXT - 2, "animated": True,
                 "bbox": {"facecolor": "white", "edgecolor": "none", "alpha": 0.85, "pad": 1.0}}
        self._rod_word = axes.text(0, 0, "", **words)
        self._coil_word = axes.text(0, 0, "coil", **words)
        for text, look, place in (("with the string", WITH, 0.01), ("without", WITHOUT, 0.185)):
            label(axes, text, look, va="top", transform=axes.transAxes, animated=False,
                  fontsize=TEXT - 2).set_position((place, 0.985))

    def update(self, *, with_string, without, height, core, place):
        """Show another string.

        Parameters
        ----------
        with_string, without : (array_like, array_like)
            Along the string and height, m, of the lines, parted by NaN.
        height, core, place : float
            Height of the string's axis, diameter of its steel, and how far the cut is from the rod's axis, m.

        Returns
        -------
        list of matplotlib.artist.Artist
        """
        for line, path in ((self._with, with_string), (self._without, without)):
            line.set_data(np.asarray(path[0]) * MM, np.asarray(path[1]) * MM)
        self._string.set_bounds(-self._wide * MM, (height - core / 2) * MM, 2 * self._wide * MM, core * MM)
        self._show_parts(place)
        return [self._rod, *self._coils, self._without, self._string, self._with, self._rod_word, self._coil_word]

    def _show_parts(self, place):
        """Rod and coil where the cut meets them: narrower, the further it is from the axis."""
        inner, outer, top = self._coil
        half, near, far = (np.sqrt(max(0.0, radius ** 2 - place ** 2)) * MM for radius in (self._radius, inner, outer))
        bottom = self._bottom * MM
        self._rod.set_bounds(-half, bottom, 2 * half, -bottom)
        for side, coil in zip((-1, 1), self._coils):
            coil.set_visible(far > near)
            coil.set_bounds(*((near, bottom) if side > 0 else (-far, bottom)), far - near, top * MM - bottom)
        self._rod.set_visible(half > 0)
        self._rod_word.set(text="rod, north" if half > 1 else "rod is behind the cut",
                           position=(0, (0.75 if half > 1 else 0.25) * bottom))
        self._coil_word.set(text="coil" if far > near else "", position=((near + far) / 2 * (near > 0), 0.75 * bottom))


class FluxAlongString:
    """Flux along the string (positive to the right) over the place along it; the scale follows the largest value."""

    def __init__(self, axes, *, half_width):
        self.axes = axes
        dress(axes, x_label="place along the string (mm)", y_label="flux in string", y_limits=(-1.15, 1.15),
              x_limits=(-half_width * MM, half_width * MM))
        axes.set_yticks([-1, 0, 1], ["", "", ""])
        axes.grid(True, color="#DDDDDD", linewidth=0.8)
        self._line, = axes.plot([], [], linewidth=2.4, animated=True, **FLUX)
        where = {"ha": "left", "va": "center", "fontsize": TEXT - 2}
        self._marks = [label(axes, **where) for _ in range(2)]
        for mark, height in zip(self._marks, (1, -1)):
            mark.set_position((-half_width * MM + 0.3, 0.97 * height))
        for text, place, height in (("gathers", 0.0, 0.75), ("gives back", -11.0, 0.45), ("gives back", 11.0, -0.45)):
            axes.text(place, height, text, ha="center", va="center", fontsize=TEXT - 2)

    def update(self, *, x, flux):
        """Show the flux (Wb) along the string at places x (m); returns the artists in drawing order."""
        x, flux = np.asarray(x) * MM, np.asarray(flux) * NWB
        scale = next((scale for scale in SCALES if scale >= np.abs(flux).max()), SCALES[-1])
        self._line.set_data(x, flux / scale)
        for mark, sign in zip(self._marks, ("", "−")):
            mark.set_text(f"{sign}{scale} nWb")
        return [self._line, *self._marks]
