"""A rod magnet in a steel pot with an air gap under the lid: the section to scale, and flux against the gap."""
import numpy as np
from matplotlib.patches import Polygon, Rectangle

from lessons_lib.base.units import said
from lessons_lib.pictures.style import BLACK, FLUX, GREY, MM, ROD_FILL, TEXT, UWB, dress, label

STEEL_FILL = "#B8C4CC"
THROUGH_GAP = FLUX | {"linestyle": "--"}


class PotSection:
    """Rod, pot and lid cut through the axis, to scale; the bottom of the rod is at height zero.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    diameter, length : float
        The rod, m.
    thickness : float
        Of the steel, m.
    half_width, top : float
        Fixed limits of the section, m.
    """

    def __init__(self, axes, *, diameter, length, thickness, half_width, top):
        self.axes, self._radius, self._length, self._thickness = axes, diameter / 2 * MM, length, thickness
        dress(axes, x_label="distance from the axis (mm)", y_label="height (mm)",
              x_limits=(-half_width * MM, half_width * MM), y_limits=(-1.5 * thickness * MM, top * MM))
        axes.set_aspect("equal")
        steel = {"facecolor": STEEL_FILL, "edgecolor": BLACK, "linewidth": 1.2, "animated": True}
        self._cup = axes.add_patch(Polygon(np.zeros((8, 2)), **steel))
        self._lid = axes.add_patch(Rectangle((0, 0), 1, 1, **steel))
        self._gap = axes.add_patch(Rectangle((-diameter / 2 * MM, length * MM), diameter * MM, 0, fill=False,
                                             edgecolor=BLACK, linewidth=1.0, linestyle=":", animated=True))
        self.rod = axes.add_patch(Rectangle((-diameter / 2 * MM, 0), diameter * MM, length * MM, facecolor=ROD_FILL,
                                            edgecolor=BLACK, linewidth=1.6))
        words = {"ha": "center", "va": "center", "fontsize": TEXT - 1}
        axes.text(0, length / 2 * MM, "rod", rotation=90, **words)
        self._pot_word = axes.text(0, -thickness / 2 * MM, "steel pot", animated=True, **words)
        self._lid_word = axes.text(0, 0, "lid", animated=True, **words)
        self._gap_word = label(axes, va="center", ha="center", transform=axes.transAxes)
        self._gap_word.set_position((0.5, 0.96))
        paths = {"color": FLUX["color"], "markersize": 8, "animated": True, "markevery": (1, 3)}     # heads at the ends
        self._leaks = [axes.plot([], [], mark, linestyle="--", **paths)[0] for mark in ("<", ">")]
        self._across, = axes.plot([], [], "^", linestyle="-", **paths)

    def update(self, *, gap, pot_width):
        """Show another gap and inner diameter of the pot, m; returns the artists in drawing order."""
        inner, top, thick = pot_width / 2 * MM, (self._length + gap) * MM, self._thickness * MM
        outer = inner + thick
        self._cup.set_xy([(-outer, top), (-outer, -thick), (outer, -thick), (outer, top), (inner, top), (inner, 0),
                          (-inner, 0), (-inner, top)])
        self._lid.set_bounds(-outer, top, 2 * outer, thick)
        self._gap.set_height(gap * MM)
        self._lid_word.set_position((0, top + thick / 2))
        self._gap_word.set_text(f"air gap {said(gap, 'mm', '.3g')}")
        self._show_paths(inner, top)
        return [self._cup, self._lid, self._gap, self._pot_word, self._lid_word, self._gap_word, *self._leaks,
                self._across]

    def _show_paths(self, inner, top):
        """Flux on its ways out of the rod: across the gap, and from the wall to the pot."""
        face = self._length * MM
        reach, heights = np.tile([self._radius, inner - 1.0, np.nan], 2), np.repeat([0.6 * face, 0.85 * face], 3)
        for side, leak in zip((-1, 1), self._leaks):
            leak.set_data(side * reach, heights)
        self._across.set_data([0, 0], [face - 2, top - 0.5])


class FluxOverGap:
    """Flux in the rod and flux through the gap against the gap, with this gap and the doubled one marked.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    gap, flux : float
        Fixed upper limits, m and Wb.
    """

    def __init__(self, axes, *, gap, flux):
        self.axes = axes
        dress(axes, x_label="gap (mm)", y_label="flux (µWb)", x_limits=(0, gap * MM), y_limits=(0, flux * UWB))
        axes.grid(True, color="#DDDDDD", linewidth=0.8)
        self._without = axes.axhline(0, color=GREY, linewidth=1.4, linestyle=":", animated=True)
        self._rod, = axes.plot([], [], linewidth=2.4, animated=True, **FLUX)
        self._through, = axes.plot([], [], linewidth=2.4, animated=True, **THROUGH_GAP)
        self._points, = axes.plot([], [], "o", color=BLACK, markersize=8, animated=True)
        self._doubled, = axes.plot([], [], "o", color=BLACK, markersize=9, fillstyle="none", markeredgewidth=1.8,
                                   animated=True)
        for text, look, height in (("in the middle of the rod", FLUX, 0.96), ("through the gap", THROUGH_GAP, 0.885),
                                   ("no pot: middle of the rod", {"color": GREY, "linestyle": ":"}, 0.81),
                                   ("dot: this gap; ring: twice the gap", None, 0.04)):
            word = label(axes, text, look, ha="right", va="center", transform=axes.transAxes, animated=False)
            word.set_position((0.98, height))

    def update(self, *, gaps, rod, through_gap, at, doubled, without_pot):
        """Show other curves.

        Parameters
        ----------
        gaps, rod, through_gap : array_like, shape (n,)
            m; flux in the rod and through the gap, Wb.
        at, doubled : (float, float, ...)
            The gap (m) and the fluxes (Wb) to be marked there: now, and at twice the gap.
        without_pot : float
            Flux in the rod alone, Wb.

        Returns
        -------
        list of matplotlib.artist.Artist
        """
        gaps = np.asarray(gaps) * MM
        self._rod.set_data(gaps, np.asarray(rod) * UWB)
        self._through.set_data(gaps, np.asarray(through_gap) * UWB)
        self._without.set_ydata([without_pot * UWB] * 2)
        for marks, (gap, *fluxes) in ((self._points, at), (self._doubled, doubled)):
            marks.set_data([gap * MM] * len(fluxes), np.array(fluxes) * UWB)
        return [self._without, self._rod, self._through, self._points, self._doubled]
