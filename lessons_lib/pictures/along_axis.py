"""A rod magnet upright, with arrows for B and H at a place of its axis."""
from matplotlib.patches import FancyArrowPatch

from lessons_lib.pictures.style import FIELD_STRENGTH, FLUX_DENSITY, INK, MM, MUTED, TEXT, dress, label
from lessons_lib.pictures.things import Magnet

ASIDE = 1.1         # mm from the axis to an arrow: the two are side by side
NAMES = {"b": ("B", FLUX_DENSITY, -1), "h": ("H", FIELD_STRENGTH, 1)}


class FieldArrows:
    """B to the left and H to the right of the place, each from its foot at the place on, up or down.

    Parameters
    ----------
    half_width : float
        Fixed limit, m.
    s_limits : (float, float)
        Places along the axis, m from the middle of the rod: upright.
    longest : float
        An arrow of so many tesla is 10 mm long, T.
    """

    def __init__(self, axes, *, half_width, s_limits, longest):
        self.axes, self._scale = axes, 10 / longest
        dress(axes, x_label="arrows: B and µ₀H", y_label="place on the axis, from the middle of the rod (mm)",
              x_limits=(-half_width * MM, half_width * MM), y_limits=tuple(s * MM for s in s_limits))
        axes.set_aspect("equal")
        axes.set_xticks([])
        axes.spines["bottom"].set_visible(False)
        self._magnet = Magnet(axes)
        self._level = axes.axhline(0, color=MUTED, linewidth=1.0, linestyle=":", animated=True)
        self._dot, = axes.plot([], [], "o", color=INK, markersize=6, animated=True)
        self._arrows = {name: axes.add_patch(FancyArrowPatch(
            (0, 0), (0, 1), arrowstyle="-|>,head_length=0.55,head_width=0.3", mutation_scale=16, shrinkA=0, shrinkB=0,
            color=look["color"], linewidth=3, animated=True)) for name, (_, look, _) in NAMES.items()}
        self._words = {name: label(axes, word, look, ha="center", va="center", fontsize=TEXT + 3, animated=True)
                       for name, (word, look, _) in NAMES.items()}

    def update(self, *, at, b, mu0_h, diameter, length):
        """Show B and mu0 H (T, upward positive) at a place (m from the middle) of a rod (m)."""
        at, magnet = at * MM, self._magnet.update(top=length / 2, diameter=diameter, length=length)
        self._level.set_ydata([at, at])
        self._dot.set_data([0], [at])
        for (name, (_, _, side)), value in zip(NAMES.items(), (b, mu0_h)):
            self._arrows[name].set_positions((side * ASIDE, at), (side * ASIDE, at + value * self._scale))
            self._words[name].set_position((side * (ASIDE + 2.7), at + value * self._scale / 2))
        return [*magnet, self._level, *self._arrows.values(), *self._words.values(), self._dot]
