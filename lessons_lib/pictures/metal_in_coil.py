"""Metal in a coil: the flux density across a pole, and the circuit that a coil is to which metal answers."""
import numpy as np
from matplotlib.patches import Circle, Rectangle

from lessons_lib.base.units import said
from lessons_lib.pictures.coil_circuit import LINE
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import Curve, Level
from lessons_lib.pictures.style import FLUX_DENSITY, INK, MUTED, PAPER, TEXT, VERMILLION, WORDS

_EDGE = {"color": INK, "linestyle": "-"}
_TOP, _GROUND, _ACROSS = 3.0, 0.4, 4.3          # heights on a drawing of 10 by 5


class MetalInCoil:
    """The flux density along a diameter of a pole, relative to its surface, and the coil's circuit beside it.

    Parameters
    ----------
    across, circuit : matplotlib.axes.Axes
        Of the curve; of the circuit.
    radius : float
        Fixed limit to both sides of the axis, m.
    """

    def __init__(self, across, circuit, *, radius):
        self._lines = Lines(
            across, x=Axis("distance from the pole's axis", "mm", (-radius, radius)), room=0.0,
            y=Axis("flux density, share", "", (0.0, 1.08), ticks=(0.0, 0.5, 1.0)), parts=[
                Curve("across", look=FLUX_DENSITY, width=2.6), *(
                    Level(name, look=_EDGE, upright=True, width=1.6) for name in ("left", "right")),
                Level("depth", look={"color": MUTED, "linestyle": ":"}, upright=True, width=1.6, at=0.32)])
        self._values = draw_coil(circuit)

    def update(self, *, across, radius, skin_depth, without, loops):
        """Show another pole or frequency.

        Parameters
        ----------
        across : (array_like, array_like)
            Distances from the axis, m, with sign; shares of the flux density at the surface.
        radius : float
            The pole's, m.
        skin_depth : float or None
            m, where it is less than the radius.
        without, loops : float
            Inductance that no current weakens, and that with a resistance across it, H.
        """
        depth = None if skin_depth is None else radius - skin_depth
        for text, value in zip(self._values, (without, loops)):
            text.set_text(said(value, "H", ".2f"))
        return [*self._lines.update(across=across, left=-radius, right=radius, depth=depth,
                                    words={"depth": "one skin depth"} if depth is not None else {}), *self._values]


def draw_coil(axes):
    """Draw voltage, wire and two inductances in a row, a resistance across the second; returns their two texts."""
    axes.set(xlim=(0, 10), ylim=(0, 5.4))
    axes.axis("off")

    def wire(*points):
        axes.plot(*np.array(points).T, **LINE)

    def box(x, y, width):
        axes.add_patch(Rectangle((x, y - 0.2), width, 0.4, facecolor=PAPER, edgecolor=INK, linewidth=1.6, zorder=3))

    def words(x, y, text, **more):
        return axes.text(x, y, text, ha="center", va="top", fontsize=TEXT - 1, **({"color": INK} | more))
    wire((9.7, _GROUND), (0.6, _GROUND), (0.6, _TOP), (9.7, _TOP))
    axes.add_patch(Circle((0.6, 1.7), 0.4, facecolor=PAPER, edgecolor=VERMILLION, linewidth=1.8, zorder=3))
    turn = np.linspace(0, 2 * np.pi, 40)
    axes.plot(0.6 + 0.25 * (turn / np.pi - 1), 1.7 + 0.15 * np.sin(turn), color=VERMILLION, linewidth=1.6, zorder=4)
    box(1.6, _TOP, 1.1)
    half = np.linspace(np.pi, 0, 20)
    for start, turns in ((3.5, 4), (6.7, 4)):
        axes.add_patch(Rectangle((start, _TOP - 0.1), 0.4 * turns, 0.2, facecolor=PAPER, edgecolor="none", zorder=3))
        for n in range(turns):
            axes.plot(start + 0.2 + 0.4 * n + 0.2 * np.cos(half), _TOP + 0.28 * np.sin(half), zorder=4, **LINE)
    wire((6.3, _TOP), (6.3, _ACROSS), (8.7, _ACROSS), (8.7, _TOP))
    box(6.95, _ACROSS, 1.1)
    words(7.5, 5.3, "the metal", color=WORDS[VERMILLION])
    words(2.15, _TOP - 0.4, "wire")
    words(4.3, _TOP - 0.4, "inductance")
    words(7.5, _TOP - 0.4, "shared with it")
    return [words(x, _TOP - 1.05, "", animated=True) for x in (4.3, 7.5)]
