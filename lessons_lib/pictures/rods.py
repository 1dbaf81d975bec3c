"""Rods as they are drawn: with arrows for B and H at a place of their axis, with a probe, with their measures."""
from matplotlib.patches import FancyArrowPatch

from lessons_lib.base.units import said
from lessons_lib.pictures.style import (
    FIELD_STRENGTH,
    FLUX_DENSITY,
    INK,
    MM,
    MUTED,
    NORTH,
    SOUTH,
    STEEL,
    TEXT,
    dress,
    label,
)
from lessons_lib.pictures.things import Magnet, box

ASIDE = 1.1         # mm from the axis to an arrow: the two are side by side
NAMES = {"b": ("B", FLUX_DENSITY, -1), "h": ("H", FIELD_STRENGTH, 1)}
GAP, HALF_HEIGHT = 3.0, 1.0     # from face to probe and half the height of the frame, in parts of the drawing


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


class RodAndProbe:
    """The rod lies with its north face at 0 and its south end to the left; the scale changes with the distance.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        A low strip, drawn without ticks.
    """

    def __init__(self, axes):
        self.axes = axes
        left, bottom, width, height = axes.get_position().bounds
        across, up = axes.figure.get_size_inches()
        self._wide = 2 * HALF_HEIGHT * width * across / (height * up)
        axes.set(xlim=(-0.55 * self._wide, 0.45 * self._wide), ylim=(-HALF_HEIGHT, HALF_HEIGHT))
        axes.axis("off")
        self._halves = [box(axes, 0, 0, 1, 1, colour, animated=True) for colour in (NORTH, SOUTH)]
        self._letters = [label(axes, name, ha="center", va="center", fontsize=TEXT + 1, animated=True) for name in "NS"]
        axes.plot([0, GAP], [0, 0], color=MUTED, linewidth=1.0, linestyle=":")
        box(axes, GAP - 0.07, -0.18, 0.14, 0.36, INK)
        box(axes, GAP + 0.07, -0.09, 10, 0.18, STEEL)
        label(axes, "probe", ha="left", va="bottom", position=(GAP + 0.2, 0.25))
        self._distance = label(axes, ha="center", va="bottom")

    def update(self, *, distance, diameter, length):
        """Show the rod as large as it is beside a *distance* (all in m) from its face to the probe."""
        scale = GAP / distance
        wide, half = diameter * scale, length * scale / 2
        for patch, left in zip(self._halves, (-half, -2 * half)):
            patch.set_bounds(left, -wide / 2, half, wide)
        seen = 0.55 * self._wide
        letters = []
        for letter, near, far in zip(self._letters, (0, half), (min(half, seen), min(2 * half, seen))):
            letter.set_position((-(near + far) / 2, 0))
            letters += [letter] if min(wide, far - near) > 0.4 else []
        self._distance.set(text=f"z = {said(distance, 'mm', '.3g')}", position=(GAP / 2, 0.08))
        return [*self._halves, *letters, self._distance]


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
