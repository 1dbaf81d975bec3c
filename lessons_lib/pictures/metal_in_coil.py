"""Metal in a coil: the flux density across a pole, and the circuit that a coil is to which metal answers."""
from lessons_lib.base.units import said
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import PLAIN, Curve, Level
from lessons_lib.pictures.style import FLUX_DENSITY, INK, TEXT, VERMILLION, WORDS
from lessons_lib.pictures.symbols import inductance, resistance, source, wire

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
                    Level(name, look=PLAIN, upright=True, width=1.6) for name in ("left", "right")),
                Level("depth", upright=True, width=1.6, at=0.32)])
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

    def words(x, y, text, **more):
        return axes.text(x, y, text, ha="center", va="top", fontsize=TEXT - 1, **({"color": INK} | more))
    wire(axes, (9.7, _GROUND), (0.6, _GROUND), (0.6, _TOP), (9.7, _TOP))
    source(axes, 0.6, 1.7, radius=0.4, wave=(0.25, 0.15))
    resistance(axes, 1.6, _TOP - 0.2, 1.1, 0.4)
    for start in (3.5, 6.7):
        inductance(axes, start, _TOP, width=0.4, height=0.28)
    wire(axes, (6.3, _TOP), (6.3, _ACROSS), (8.7, _ACROSS), (8.7, _TOP))
    resistance(axes, 6.95, _ACROSS - 0.2, 1.1, 0.4)
    words(7.5, 5.3, "the metal", color=WORDS[VERMILLION])
    words(2.15, _TOP - 0.4, "wire")
    words(4.3, _TOP - 0.4, "inductance")
    words(7.5, _TOP - 0.4, "shared with it")
    return [words(x, _TOP - 1.05, "", animated=True) for x in (4.3, 7.5)]
