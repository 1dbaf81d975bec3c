"""One string over its frets: pulses of velocity in time, and sizes against the frequency on logarithmic axes."""
import numpy as np

from lessons_lib.base.units import said
from lessons_lib.pictures.style import BLACK, DISPLACEMENT, GREY, MARKERS, MM, TEXT, VELOCITY, VOLTAGE, dress, label

LOOKS = {"displacement": DISPLACEMENT, "velocity": VELOCITY, "voltage": VOLTAGE}
STYLES = {"peak": "-", "RMS": "--", "fundamental": "-."}
_PALE = "#A8A8A8"
_X_TICKS = (1.0, 1.5, 2.0, 3.0)
_Y_TICKS = (0.25, 0.5, 1.0, 2.0)


class Pulses:
    """Velocity in time at one fret, relative to that of the open string, on axes with fixed limits."""

    def __init__(self, axes):
        dress(axes, x_label="time (periods of the open string)", y_label="velocity\n(open peak = 1)", x_limits=(0, 2),
              y_limits=(-3.2, 3.2))
        axes.axhline(0, color="#DDDDDD", linewidth=0.8)
        axes.set_yticks([-2, -1, 0, 1, 2])
        self._open, = axes.plot([], [], color=_PALE, linewidth=3.2, animated=True)
        self._fretted, = axes.plot([], [], color=VELOCITY["color"], linewidth=1.6, animated=True)
        axes.text(0.995, 0.98, "pale: open string", color=GREY, fontsize=TEXT - 1, ha="right", va="top",
                  transform=axes.transAxes)

    def update(self, *, periods, open_string, fretted):
        """Show both curves; returns the artists in drawing order."""
        self._open.set_data(periods, open_string)
        self._fretted.set_data(periods, fretted)
        return [self._open, self._fretted]


class OverFrets:
    """Peak, RMS and fundamental of one quantity against frequency under one rule; other rules pale.

    Both axes are logarithmic and fixed in shares of the open string's frequency and peak; what 1
    means on the upright one is written beside it and moves with the string. Each moving text takes
    two milliseconds to draw, so there is no other.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
    name : str
        displacement, velocity or voltage.
    unit : str
        In which it is shown.
    """

    def __init__(self, axes, *, name, unit):
        dress(axes, x_label="frequency (open = 1)", y_label=name, x_limits=np.log10((0.92, 3.3)),
              y_limits=np.log10((0.1, 4.5)))
        axes.set_xticks(np.log10(_X_TICKS), [f"{tick:g}" for tick in _X_TICKS])
        axes.set_yticks(np.log10(_Y_TICKS), [f"{tick:g}" for tick in _Y_TICKS])
        axes.grid(True, which="major", color="#E4E4E4", linewidth=0.8)
        self._quantity, self._unit_name = list(LOOKS).index(name), unit
        color = LOOKS[name]["color"]
        self._pale = [axes.plot([], [], color=_PALE, linewidth=1.0, linestyle=style, animated=True)[0]
                      for _ in range(2) for style in STYLES.values()]
        self._lines = [axes.plot([], [], color=color, linewidth=2.2, linestyle=style, animated=True)[0]
                       for style in STYLES.values()]
        self._dots, = axes.plot([], [], MARKERS[name], color=color, markersize=7, animated=True)
        self._unit = axes.text(0.02, 0.985, "", ha="left", va="top", transform=axes.transAxes, animated=True,
                               fontsize=TEXT - 1)

    def update(self, *, frequency, table, rule, fret):
        """Show the table's sizes, rule -> (frets, quantities, measures); returns the artists in drawing order."""
        others = [name for name in table if name != rule]
        whole = table[rule][0, self._quantity, 0]
        sizes = {name: np.log10(table[name][:, self._quantity] / whole) for name in table}
        over_open = np.log10(np.asarray(frequency) / frequency[0])
        for line, column in zip(self._pale, np.concatenate([sizes[name] for name in others], axis=1).T):
            line.set_data(over_open, column)
        for line, column in zip(self._lines, sizes[rule].T):
            line.set_data(over_open, column)
        self._dots.set_data(np.full(len(STYLES), over_open[fret]), sizes[rule][fret])
        self._unit.set_text(f"1 = {said(whole, self._unit_name, '.3g')}")
        return [*self._pale, *self._lines, self._dots, self._unit]


class PartialStems:
    """Levels of the partials: displacement and velocity side by side, with the comb of both places between."""

    def __init__(self, axes, *, lines):
        dress(axes, x_label="number of the partial", y_label="level (dB)", x_limits=(0.3, lines + 1.7),
              y_limits=(-75, 3))
        self._floor = -75
        n = np.linspace(1, lines, 200)
        for power, look in ((1, VELOCITY), (2, DISPLACEMENT)):
            axes.plot(n, -20 * power * np.log10(n), color=look["color"], linewidth=1.0, linestyle=":")
            axes.text(lines + 0.3, -20 * power * np.log10(lines), f"1/n$^{power}$" if power > 1 else "1/n",
                      fontsize=TEXT, ha="left", va="center")
        axes.set_xticks([1, *range(4, lines + 1, 4)])
        self._comb, = axes.plot([], [], color=_PALE, linewidth=1.2, animated=True)
        self._stems = [axes.plot([], [], color=look["color"], linewidth=2.4, animated=True)[0]
                       for look in (VELOCITY, DISPLACEMENT)]
        self._dots = [axes.plot([], [], MARKERS[name], color=LOOKS[name]["color"], markersize=6, label=name,
                                animated=True)[0] for name in ("velocity", "displacement")]
        axes.legend(handles=self._dots, loc="upper right", fontsize=TEXT - 1, frameon=False, ncols=2)
        for dots in self._dots:
            dots.set_animated(True)

    def update(self, *, displacement, velocity, comb):
        """Show levels (dB) of partials 1, 2, ... and the comb (n, dB); returns the artists in drawing order."""
        self._comb.set_data(*comb)
        for stem, dots, levels, aside in zip(self._stems, self._dots, (velocity, displacement), (-0.14, 0.14)):
            n = np.arange(1, len(levels) + 1) + aside
            shown = np.where(np.asarray(levels) < self._floor, np.nan, levels)
            gaps = np.full(n.size, np.nan)
            stem.set_data(np.repeat(n, 3), np.column_stack([np.full(n.size, self._floor), shown, gaps]).ravel())
            dots.set_data(n, shown)
        return [self._comb, *self._stems, *self._dots]


class SlopeOverHeight:
    """The sensitivity against height, the stretch over which the string swings, and the flat line of a constant S."""

    def __init__(self, axes):
        dress(axes, x_label="height of the string (mm)", y_label="S (V per m/s)", x_limits=(0.8, 5), y_limits=(0, 0.25))
        axes.grid(True, color="#E4E4E4", linewidth=0.8)
        self._curve, = axes.plot([], [], color=GREY, linewidth=1.6, animated=True)
        self._swing, = axes.plot([], [], color=BLACK, linewidth=4, animated=True)
        self._flat, = axes.plot([], [], color=GREY, linewidth=1.4, linestyle="--", animated=True)
        self._rest, = axes.plot([], [], "o", color=BLACK, markersize=8, animated=True)

    def update(self, *, height, slope, swing, swing_slope, at):
        """SI; returns the artists in drawing order."""
        self._curve.set_data(MM * height, slope)
        self._swing.set_data(MM * swing, swing_slope)
        self._flat.set_data([MM * swing[0], MM * swing[-1]], [at[1], at[1]])
        self._rest.set_data([MM * at[0]], [at[1]])
        return [self._curve, self._flat, self._swing, self._rest]


class BentVoltage:
    """One period of voltage by the curved map beside that of a constant S."""

    def __init__(self, axes):
        dress(axes, x_label="time (periods)", y_label="voltage (constant S: peak = 1)", x_limits=(0, 1),
              y_limits=(-1.8, 1.8))
        axes.axhline(0, color="#DDDDDD", linewidth=0.8)
        self._straight, = axes.plot([], [], color=GREY, linewidth=1.4, linestyle="--", animated=True)
        self._bent, = axes.plot([], [], linewidth=2.4, animated=True, **VOLTAGE)
        self._name = label(axes, ha="center", va="top")

    def update(self, *, turn, straight, bent):
        """Show both over the period; returns the artists in drawing order."""
        self._straight.set_data(turn, straight)
        self._bent.set_data(turn, bent)
        self._name.set(text="dashed: constant S", position=(0.5, 1.65))
        return [self._straight, self._bent, self._name]
