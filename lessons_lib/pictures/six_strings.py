"""Six strings over their poles: a map of the field, the field across, levels, a bent string, a pair of coils."""
import numpy as np
from matplotlib import colormaps
from matplotlib.colors import BoundaryNorm
from matplotlib.patches import Rectangle

from lessons_lib.base.units import said
from lessons_lib.pictures.style import (
    BLACK,
    FIELD_MAP,
    FLUX_DENSITY,
    GREY,
    MM,
    MT,
    ROD_FILL,
    TEXT,
    dress,
    label,
)

_BANDS = (1, 2, 5, 10, 20, 50, 100, 200, 500)     # mT


class FieldOverSix:
    """Magnitude of the flux density in the upright plane across the strings, in bands, with poles, bar and strings.

    Parameters
    ----------
    axes, scale : matplotlib.axes.Axes
        For the map and for its scale of bands.
    y, z : array_like
        Places of the map's columns and rows, evenly spaced, m.
    strings : sequence of (float, float, str)
        y and height (m) of every string, and its name.
    bar : (float, float, float)
        Width across the strings, thickness, height of the middle, m.
    """

    def __init__(self, axes, scale, *, y, z, strings, bar):
        limits = {"x_limits": (y[0] * MM, y[-1] * MM), "y_limits": (z[0] * MM, z[-1] * MM)}
        dress(axes, x_label="", y_label="height (mm)", **limits)
        axes.tick_params(labelbottom=False)
        colours = colormaps[FIELD_MAP].resampled(len(_BANDS) - 1)
        norm = BoundaryNorm(_BANDS, colours.N)
        half_y, half_z = (y[1] - y[0]) / 2, (z[1] - z[0]) / 2
        self._map = axes.imshow(
            np.ones((len(z), len(y))), origin="lower", cmap=colours, norm=norm, interpolation="bilinear",
            interpolation_stage="data", aspect="equal", animated=True,
            extent=np.array([y[0] - half_y, y[-1] + half_y, z[0] - half_z, z[-1] + half_z]) * MM)
        axes.set(xlim=limits["x_limits"], ylim=limits["y_limits"])
        width, thickness, middle = (MM * size for size in bar)
        outline = {"fill": False, "edgecolor": "white", "linewidth": 1.6, "animated": True}
        self._bar = axes.add_patch(Rectangle((-width / 2, middle - thickness / 2), width, thickness, **outline))
        self._poles = [axes.add_patch(Rectangle((0, 0), 1, 1, **outline)) for _ in strings]
        self._look = axes.axhline(0, color="white", linewidth=1.4, linestyle="--", animated=True)
        self._strings = [axes.plot(at * MM, height * MM, "o", color="white", markeredgecolor=BLACK, markersize=8,
                                   animated=True)[0] for at, height, _ in strings]
        for at, _, name in strings:
            axes.text(at * MM, (z[-1] + 1e-3) * MM, name, ha="center", va="bottom", fontsize=TEXT)
        self._scale(scale, colours)

    @staticmethod
    def _scale(axes, colours):
        axes.imshow(np.arange(colours.N)[:, np.newaxis], origin="lower", cmap=colours, aspect="auto")
        axes.set_xticks([])
        axes.set_yticks(np.arange(len(_BANDS)) - 0.5, _BANDS, fontsize=TEXT - 1)
        axes.yaxis.tick_right()
        axes.set_title("mT", fontsize=TEXT - 1)

    def update(self, *, size, poles, bar, look):
        """Show another map.

        Parameters
        ----------
        size : array_like, shape (rows, columns), T
        poles : sequence of (y, diameter, top, length), m
        bar : bool
            Whether there is a bar.
        look : float
            Height of the dashed line, m.
        """
        self._map.set_data(np.clip(np.asarray(size) * MT, _BANDS[0], _BANDS[-1] - 1))
        for patch, (y, diameter, top, length) in zip(self._poles, poles):
            patch.set_bounds((y - diameter / 2) * MM, (top - length) * MM, diameter * MM, length * MM)
        self._look.set_ydata([look * MM] * 2)
        return [self._map, *([self._bar] if bar else []), *self._poles, self._look, *self._strings]


class FieldAcross:
    """The upright field across the strings at one height: all poles flush (dashed), and with one raised."""

    def __init__(self, axes, *, half_width, strings):
        dress(axes, x_label="place across the strings (mm)", y_label="upright B (share)",
              x_limits=(-half_width * MM, half_width * MM), y_limits=(-0.2, 2.6))
        axes.axhline(0, color=GREY, linewidth=0.8)
        for at in strings:
            axes.axvline(at * MM, color="#DDDDDD", linewidth=0.8)
        self._flat, = axes.plot([], [], color=GREY, linewidth=1.6, linestyle="--", animated=True)
        self._moved, = axes.plot([], [], linewidth=2.4, animated=True, **FLUX_DENSITY)
        self._words = label(axes, ha="left", va="top", transform=axes.transAxes)
        self._words.set_position((0.01, 0.97))

    def update(self, *, y, flat, moved, unit):
        """Show curves over y (m), in shares of *unit* (T); returns the artists in drawing order."""
        self._flat.set_data(y * MM, flat)
        self._moved.set_data(y * MM, moved)
        self._words.set_text(f"1 = {said(unit, 'mT', '.3g')}; dashed: all flush")
        return [self._flat, self._moved, self._words]


class LevelBars:
    """Levels of the strings as bars from a fixed floor, the hand's law as rings; the poles' heights below.

    Parameters
    ----------
    upper, lower : matplotlib.axes.Axes
    names : sequence of str
    levels, tops : (float, float)
        Fixed limits, dB and m.
    """

    def __init__(self, upper, lower, *, names, levels, tops):
        place, self._floor = np.arange(len(names)), levels[0]
        dress(upper, x_label="", y_label="level (dB re string VI)", x_limits=(-0.6, len(names) - 0.4), y_limits=levels)
        upper.set_xticks(place, names)
        upper.grid(True, axis="y", color="#E4E4E4", linewidth=0.8)
        self._bars = upper.bar(place, 0.0, bottom=self._floor, width=0.55, color=ROD_FILL, edgecolor=BLACK,
                               linewidth=1.4, animated=True)
        self._law, = upper.plot(place + 0.4, np.zeros(len(names)), "D", color=BLACK, fillstyle="none", markersize=8,
                                animated=True)
        self._words = [label(upper, ha="center", va="bottom", fontsize=TEXT) for _ in names]
        low, high = (MM * top for top in tops)
        dress(lower, x_label="above: diamonds for the law by hand, poles flush; below: tops of the poles",
              y_label="top (mm)", x_limits=(-0.6, len(names) - 0.4), y_limits=(low - 0.5, high + 0.5))
        lower.set_xticks([])
        lower.axhline(0, color=GREY, linewidth=1.0, linestyle=":")
        self._bottom = low - 0.5
        self._poles = lower.bar(place, 0.0, bottom=self._bottom, width=0.4, color=ROD_FILL, edgecolor=BLACK,
                                linewidth=1.2, animated=True)

    def update(self, *, levels, by_law, tops):
        """Show levels and the law's (dB), and tops (m), one a string; returns the artists in drawing order."""
        for n, (bar, word, level) in enumerate(zip(self._bars, self._words, levels)):
            bar.set_height(max(level - self._floor, 0.0))
            word.set(text=said(level, "", "+z.1f"), position=(n - 0.05, level + 0.4))
        self._law.set_ydata(by_law)
        for pole, top in zip(self._poles, tops):
            pole.set_height(top * MM - self._bottom)
        return [*self._bars, self._law, *self._words, *self._poles]


class LevelAcross:
    """Level of a bent string between two poles, one line style for each arrangement, and where it is now."""

    LOOKS = (("-", 2.6, BLACK), ("--", 2.2, BLACK), ("-.", 2.2, BLACK), (":", 2.2, BLACK), ("-", 1.6, GREY))

    def __init__(self, axes, *, names, reach, floor):
        dress(axes, x_label="string IV pushed sideways by (mm), towards the pole of string III",
              y_label="level (dB)", x_limits=(0, reach * MM), y_limits=(floor, 1.5))
        axes.grid(True, color="#E4E4E4", linewidth=0.8)
        self._lines = {name: axes.plot([], [], linestyle=style, linewidth=width, color=colour, animated=True,
                                       label=words)[0]
                       for (name, words), (style, width, colour) in zip(names.items(), self.LOOKS)}
        # above the axes: the alternating curve runs through every corner below
        axes.legend(loc="lower center", bbox_to_anchor=(0.5, 1.0), ncols=3, fontsize=TEXT - 2, frameon=False)
        self._at = axes.axvline(0, color=GREY, linewidth=1.2, linestyle=":", animated=True)
        self._dots, = axes.plot([], [], "o", color=BLACK, markersize=6, animated=True)

    def update(self, *, bend, levels, at):
        """Show levels (dB) by arrangement over the bend (m), marked at one; returns the artists in drawing order."""
        for name, line in self._lines.items():
            line.set_data(bend * MM, levels[name])
        self._at.set_xdata([at * MM] * 2)
        self._dots.set_data([at * MM] * len(levels), [np.interp(at, bend, one) for one in levels.values()])
        return [self._at, *self._lines.values(), self._dots]


class HumBars:
    """Signal and hum of a pair of coils side by side for each way of wiring it."""

    def __init__(self, axes, *, names, levels):
        place, self._floor = np.arange(len(names)), levels[0]
        dress(axes, x_label="what is reversed in the second coil", y_label="level (dB re one coil)",
              x_limits=(-0.6, len(names) - 0.4), y_limits=levels)
        axes.set_xticks(place, names)
        axes.axhline(0, color=GREY, linewidth=1.0)
        looks = (("signal", -0.19, ROD_FILL, ""), ("hum", 0.19, "white", "///"))
        self._bars = {name: axes.bar(place + aside, 0.0, bottom=self._floor, width=0.36, color=fill, hatch=hatch,
                                     label=name, edgecolor=BLACK, linewidth=1.2) for name, aside, fill, hatch in looks}
        axes.legend(loc="upper center", fontsize=TEXT - 1, frameon=False, ncols=2)
        self._words = {name: [label(axes, ha="center", va="bottom") for _ in names] for name, *_ in looks}
        self._aside = {name: aside for name, aside, *_ in looks}
        for bar in (bar for bars in self._bars.values() for bar in bars):
            bar.set_animated(True)

    def update(self, **levels):
        """Show *signal* and *hum* (dB, one a wiring; -inf for nothing); returns the artists in drawing order."""
        for name, bars in self._bars.items():
            for n, (bar, word, level) in enumerate(zip(bars, self._words[name], levels[name])):
                height = max(level - self._floor, 0.0)
                bar.set_height(height)
                low = "nothing" if level == -np.inf else f"under {said(self._floor, '', '.0f')}"
                word.set(text=said(level, "", "+z.0f") if height else low,
                         position=(n + self._aside[name], self._floor + height + 1))
        return [*(bar for bars in self._bars.values() for bar in bars),
                *(word for words in self._words.values() for word in words)]
