"""Displacement, flux linkage and voltage of a moving string, one under the other, with the slope at one instant."""
import numpy as np

from lessons_lib.base.units import said
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import Curve, Dots, Level
from lessons_lib.pictures.style import DISPLACEMENT, FLUX, HOUSE_LOOK, VOLTAGE

_TANGENT = 0.42     # in, from the dot to each end
_PALE = {"alpha": 0.3}


class ThreeTraces:
    """Three pictures with one time axis; an upright line through all of them marks one instant.

    The straight piece at the dot of the linkage has its slope and the look of the voltage, which is minus that slope.

    Parameters
    ----------
    upper, middle, lower : matplotlib.axes.Axes
        For displacement (m), flux linkage (Wb) and voltage (V).
    time : float
        Length of the time axis, s.
    displacement, linkage, voltage : float
        Fixed limits to both sides of zero.
    """

    def __init__(self, upper, middle, lower, *, time, displacement, linkage, voltage):
        rows = (("displacement", "mm", displacement, DISPLACEMENT), ("flux linkage", "µWb", linkage, FLUX),
                ("voltage", "mV", voltage, VOLTAGE))
        self._rows = []
        for axes, (name, unit, limit, look) in zip((upper, middle, lower), rows):
            self._rows.append(Lines(
                axes, x=Axis("time", "ms", (0, time), bare=axes is not lower), y=Axis(name, unit, (-limit, limit)),
                room=0.0, grid=False, parts=[
                    Level(value=0.0, look=HOUSE_LOOK), Level("instant", upright=True), Curve("all", look=look | _PALE),
                    Curve("line", look=look), Curve("tangent", look=VOLTAGE, width=3.0),
                    Dots("dot", look=VOLTAGE if axes is middle else look)]))
            axes.set_ylabel(f"{name}\n({unit})", fontsize=axes.yaxis.label.get_fontsize())
        figure, place = middle.figure, middle.get_position()
        self._inches = (place.width * figure.get_figwidth() / time,
                        place.height * figure.get_figheight() / (2 * linkage))

    def _tangent(self, instant, linkage, slope):
        """The ends of a straight piece, always as long on the page."""
        across, up = self._inches
        reach = _TANGENT / np.hypot(across, slope * up) * np.array([-1, 1])
        return instant + reach, linkage + slope * reach

    def update(self, *, traces, instant, now, grows=False):
        """Show other curves.

        Parameters
        ----------
        traces : (time, displacement, linkage, voltage), each array_like, shape (n,)
            s, m along the motion, Wb from the value at rest, V.
        instant : float
            The instant that is marked, s.
        now : (float, float, float)
            Displacement, linkage and voltage at that instant.
        grows : bool
            Whether the traces are full up to the instant only, and pale after it.
        """
        time, *lines = (np.asarray(one) for one in traces)
        past = time < instant
        words = "", said(-now[2] * 1e-3, "µWb", "+z.1f") + "/ms", said(now[2], "mV", "+z.1f")
        artists = []
        for row, line, value, word in zip(self._rows, lines, now, words):
            grown = np.append(time[past], instant), np.append(line[past], value)
            artists += row.update(
                instant=instant, all=(time, line) if grows else None, line=grown if grows else (time, line),
                tangent=self._tangent(instant, now[1], -now[2]) if row is self._rows[1] else None,
                dot=(instant, value), words={"dot": word})
        return artists
