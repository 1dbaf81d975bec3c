"""A rod magnet in a steel pot with an air gap under the lid: to scale, with arrows as broad as the flux."""
import numpy as np
from matplotlib.patches import Polygon

from lessons_lib.base.units import said
from lessons_lib.pictures.style import FLUX, MM, STEEL, dress, label
from lessons_lib.pictures.things import FluxArrow, Keeper, Magnet, Thing


class Pot(Thing):
    """A cup of steel in cut; its inner bottom is at height 0."""

    def make(self):
        self._cup = self.patch(Polygon(np.zeros((8, 2))), STEEL)

    def update(self, *, inner, depth, thickness):
        """Inner radius, inner depth, thickness (m)."""
        inner, top, thick = self.shown(inner, depth, thickness)
        outer = inner + thick
        self._cup.set_xy([(-outer, top), (-outer, -thick), (outer, -thick), (outer, top), (inner, top), (inner, 0),
                          (-inner, 0), (-inner, top)])
        return [self._cup]


class PotSection:
    """Rod, pot and lid cut through the axis; the bottom of the rod is at height zero.

    Parameters
    ----------
    diameter, length : float
        The rod, m.
    thickness : float
        Of the steel, m.
    half_width, top : float
        Fixed limits of the section, m.
    flux : float
        An arrow of this flux (Wb) is as broad as the rod.
    """

    def __init__(self, axes, *, diameter, length, thickness, half_width, top, flux):
        self.axes, self._diameter, self._length, self._thickness = axes, diameter, length, thickness
        self._broad = 0.9 * diameter / flux
        dress(axes, x_label="distance from the axis (mm)", y_label="height (mm)",
              x_limits=(-half_width * MM, half_width * MM), y_limits=(-1.5 * thickness * MM, top * MM))
        axes.set_aspect("equal")
        self._pot, self._lid, self._magnet = Pot(axes), Keeper(axes), Magnet(axes)
        self._rod, self._across, *self._leaks = (FluxArrow(axes) for _ in range(4))
        self._word = label(axes, look=FLUX, ha="center", va="top", transform=axes.transAxes, position=(0.5, 1.0))

    def update(self, *, gap, pot_width, rod, through_gap):
        """Show another gap and inner diameter of the pot (m), flux in the rod's middle and through the gap (Wb)."""
        inner, face, radius = pot_width / 2, self._length, self._diameter / 2
        top, side = face + gap, (rod - through_gap) / 2
        artists = [*self._pot.update(inner=inner, depth=top, thickness=self._thickness),
                   *self._lid.update(bottom=top, width=2 * (inner + self._thickness), thickness=self._thickness),
                   *self._magnet.update(top=face, diameter=self._diameter, length=face)]
        arrows = [self._rod.update(start=(0, 0.28 * face), end=(0, 0.62 * face), width=rod * self._broad),
                  self._across.update(start=(0, 0.86 * face), end=(0, top), width=through_gap * self._broad)]
        arrows += [leak.update(start=(sign * 0.9 * radius, 0.72 * face), end=(sign * inner, 0.72 * face),
                               width=side * self._broad) for sign, leak in zip((-1, 1), self._leaks)]
        self._word.set_text(f"{said(through_gap, 'µWb', '.2f')} through the gap,\n"
                            f"{said(rod - through_gap, 'µWb', '.2f')} past it")
        return artists + sum(arrows, []) + [self._word]
