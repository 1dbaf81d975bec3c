"""Two voltages and their sum: as arrows that turn once a period, and beside them, on one scale, as waves in time."""
import numpy as np

from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import DOTTED, Curve, Dots, Level
from lessons_lib.pictures.style import GHOST, HOUSE_LOOK, INK, MUTED, VOLTAGE, dress, label

# letter at its arrow, words at its wave, look, width in points
_PARTS = {"wire": ("R", "wire, R", {"color": INK, "linestyle": "--"}, 2.0),
          "inductance": ("L", "inductance, L", {"color": MUTED, "linestyle": "-."}, 2.0),
          "both": ("both", "both", VOLTAGE, 2.8)}
_TICKS = {0.0: "0", 0.25: "¼", 0.5: "½", 0.75: "¾", 1.0: "1"}
_BESIDE, _SQUARE = 12, 9    # points: from an arrow to its letter; the mark of the right angle


class TurningArrows:
    """The arrow of the inductance is a quarter of a turn before that of the wire; each tip is as high as its wave.

    Parameters
    ----------
    square, waves : matplotlib.axes.Axes
        Equally high, the first one square; the second to its right.
    voltage : float
        Fixed limit to both sides of zero, V.
    """

    def __init__(self, square, waves, *, voltage):
        dress(square, x_label="", y_label="voltage (V)", x_limits=(-voltage, voltage), y_limits=(-voltage, voltage))
        square.set_xticks([])
        square.spines["bottom"].set_visible(False)
        square.axhline(0.0, color=GHOST, linewidth=0.8)
        square.axvline(0.0, color=GHOST, linewidth=0.8)
        self._voltage = voltage
        self._point = 2 * voltage / (72 * square.get_position().height * square.figure.get_figheight())
        self._circle, = square.plot([], [], color=GHOST, linewidth=1.0, animated=True)
        self._sides, = square.plot([], [], color=MUTED, linewidth=1.2, linestyle=":", animated=True)
        self._corner, = square.plot([], [], color=MUTED, linewidth=1.0, animated=True)
        self._across, = square.plot([], [], color=MUTED, linewidth=1.0, linestyle=":", animated=True)
        self._arrows = {name: square.annotate("", (0, 0), (0, 0), animated=True, arrowprops={
            "arrowstyle": "-|>", "color": look["color"], "mutation_scale": 13, "shrinkA": 0, "shrinkB": 0,
            "linewidth": width}) for name, (_, _, look, width) in _PARTS.items()}
        self._letters = {name: label(square, letter, look, ha="center", va="center", animated=True)
                         for name, (letter, _, look, _) in _PARTS.items()}
        self._waves = Lines(
            waves, x=Axis("time, in periods", "", (0.0, 1.0), ticks=_TICKS),
            y=Axis("voltage", "V", (-voltage, voltage), bare=True), parts=[
                Level(value=0.0, look=HOUSE_LOOK, width=0.8), Level("now", upright=True),
                *(Curve(f"to {name}", look=DOTTED, width=1.0) for name in _PARTS),
                *(Curve(name, words, look, width=width) for name, (_, words, look, width) in _PARTS.items()),
                *(Dots(f"{name} now", look) for name, (_, _, look, _) in _PARTS.items())])

    def update(self, *, arrows, time, waves, at):
        """Show another moment.

        Parameters
        ----------
        arrows : dict of str -> (float, float)
            Of "wire", "inductance" and "both": across and up, V.
        time : array_like, shape (n,)
            Periods.
        waves : dict of str -> array_like, shape (n,)
            V.
        at : float
            The moment, periods.
        """
        tips = {name: np.asarray(tip) for name, tip in arrows.items()}
        wire, inductance, both = (tips[name] for name in _PARTS)
        round_ = 2 * np.pi * np.linspace(0, 1, 73)
        self._circle.set_data(np.hypot(*both) * np.cos(round_), np.hypot(*both) * np.sin(round_))
        self._sides.set_data(*np.transpose([wire, both, inductance]))
        side = min(_SQUARE * self._point, np.hypot(*wire) / 2, np.hypot(*inductance) / 2)
        along, up = side * _unit(wire), side * _unit(inductance)
        self._corner.set_data(*np.transpose([along, along + up, up]))
        edge, gap = self._voltage, [np.nan, np.nan]
        self._across.set_data(*np.transpose([row for tip in tips.values() for row in (tip, [edge, tip[1]], gap)]))
        for name, tip in tips.items():
            self._arrows[name].xy = tuple(tip)
        # letters are outside of the rectangle: beside the middle of its two sides, and beyond its far corner
        beside = _BESIDE * self._point
        self._letters["wire"].set_position(wire / 2 - beside * _unit(inductance))
        self._letters["inductance"].set_position(inductance / 2 - beside * _unit(wire))
        self._letters["both"].set_position(both + 1.6 * beside * _unit(both))
        return [self._circle, self._sides, self._corner, self._across, *self._arrows.values(),
                *self._letters.values(), *self._waves.update(
                    time, now=at, **waves, **{f"{name} now": (at, tip[1]) for name, tip in tips.items()},
                    **{f"to {name}": ([0.0, at], [tip[1]] * 2) for name, tip in tips.items()})]


def _unit(arrow):
    return arrow / np.hypot(*arrow)
