"""A rod and a probe above its pole, always drawn equally far apart: from near, the face fills the view."""
from lessons_lib.base.units import said
from lessons_lib.pictures.style import INK, MUTED, NORTH, SOUTH, STEEL, TEXT, label
from lessons_lib.pictures.things import box

GAP, HALF_HEIGHT = 3.0, 1.0     # from face to probe and half the height of the frame, in parts of the drawing


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
