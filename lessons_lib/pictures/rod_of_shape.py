"""A rod magnet drawn to one scale whatever its length, with its measures in words."""
from lessons_lib.base.units import said
from lessons_lib.pictures.style import MM, label
from lessons_lib.pictures.things import Magnet


class RodOfShape:
    """A rod that hangs from the top of the picture under its diameter and length.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        Upright and narrow; drawn without ticks.
    longest : float
        The longest rod that has room, m.
    """

    def __init__(self, axes, *, longest):
        self.axes = axes
        axes.set(xlim=(-15, 15), ylim=(-longest * MM, 0.1 * longest * MM), aspect="equal")
        axes.axis("off")
        self._rod, self._words = Magnet(axes), label(axes, ha="center", va="bottom")

    def update(self, *, diameter, length):
        """Show another rod (m)."""
        self._words.set(text=f"{said(diameter, 'mm', '.3g')} by\n{said(length, 'mm', '.1f')}", position=(0, 2))
        return [*self._rod.update(top=0.0, diameter=diameter, length=length), self._words]
