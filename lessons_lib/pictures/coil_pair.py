"""A pair of coils wired in several ways: the coils, the waves that add, the level of the sum, its comb."""
import numpy as np

from lessons_lib.base.units import said
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import PLAIN, Curve, Dots, Level
from lessons_lib.pictures.response import KHZ
from lessons_lib.pictures.strings import StringAlong
from lessons_lib.pictures.style import GRID, HOUSE_LOOK, INK, MUTED, TEXT, VOLTAGE, WORDS, label, to_scale
from lessons_lib.pictures.things import Coil, Magnet, window_of

_LEFT, _ROOM, _COMB_ROOM = 0.11, 74, 92     # share of the figure; points, for words to the right
PERIODS, _POINTS = 1.25, 51
HUM = PLAIN
_REACH, _HIGH = 48e-3, 6.5e-3
_SWING = 1.4e-3                 # m, of the wave as it is drawn


class _Waves:
    """In each column two waves and their sum, with a dot on each at one moment."""

    def __init__(self, axes, look, *, columns):
        axes.set(xlim=(0, columns), ylim=(-2.5, 2.5))
        axes.set_axis_off()
        self._across = [(n + 0.06, n + 0.94) for n in range(columns)]
        for ends in self._across:
            axes.plot(ends, (0, 0), color=GRID, linewidth=1.0)
        looks = ({"color": MUTED, "linewidth": 1.2}, {"color": MUTED, "linewidth": 1.2, "linestyle": "--"},
                 look | {"linewidth": 2.6})
        self._lines = [axes.plot([], [], animated=True, **one)[0] for one in looks]
        self._dots = [axes.plot([], [], "o", color=one["color"], markersize=size, animated=True)[0]
                      for one, size in zip(looks[1:], (5, 7))]

    def update(self, parts, at):
        """Show *parts*, (first, second) of each column, and the dots *at* a moment (periods) if there is one."""
        times = np.linspace(0, PERIODS, _POINTS)
        (x, waves), (at_x, there) = (self._at(parts, moments) for moments in (times, np.atleast_1d(at or 0.0)))
        for line, wave in zip(self._lines, waves):
            line.set_data(x, wave)
        one, other, both = there
        self._dots[0].set_data(np.append(at_x, at_x), np.append(one, other))
        self._dots[1].set_data(at_x, both)
        return [*self._lines, *(self._dots if at is not None else [])]

    def _at(self, parts, moments):
        """Places of all columns and the three waves there, with a gap after each column."""
        low, high = np.array(self._across).T
        x = low + (high - low) * moments[:, np.newaxis] / PERIODS
        one, other = (part * np.sin(2 * np.pi * moments[:, np.newaxis]) for part in np.transpose(parts))
        gap = np.full((1, low.size), np.nan)
        return np.vstack([x, gap]).T.ravel(), [np.vstack([wave, gap]).T.ravel() for wave in (one, other, one + other)]


class PairOfCoils:
    """Ways of wiring a pair side by side: coils with winding and magnets, signal and hum of both and their sum, levels.

    Parameters
    ----------
    wirings : dict of str -> (int, int)
        Name -> signs of the second coil's magnets and winding.
    coil : LongCoil
    rod : RodMagnet
    aside, height : float
        Of each coil from the middle, of the string, m.
    floor : float
        Level under which nothing is said, dB.
    """

    def __init__(self, figure, *, wirings, coil, rod, aside, height, floor):
        self._floor, count = floor, len(wirings)
        whole = 1 - _LEFT - _ROOM / 576 - 0.015
        width = whole / count
        for n, (name, senses) in enumerate(wirings.items()):
            left = _LEFT + n * width
            self._draw_coils(figure, (left, width), senses, coil, rod, aside, height)
            figure.text(left + width / 2, 0.98, name.removesuffix(" reversed"), ha="center", va="top", fontsize=TEXT,
                        color=INK)
        self._signal, self._hum = (_Waves(figure.add_axes((_LEFT, bottom, whole, 0.15)), look, columns=count)
                                   for bottom, look in ((0.565, VOLTAGE), (0.405, HUM)))
        for text, middle, colour in (("reversed:", 0.96, INK), ("signal", 0.64, WORDS[VOLTAGE["color"]]),
                                     ("hum", 0.48, INK)):
            figure.text(0.012, middle, text, va="center", fontsize=TEXT, color=colour)
        for text, share in (("first coil", 1.0), ("sum", 0.0), ("second coil", -1.0)):
            figure.text(0.99 - _ROOM / 576, 0.48 + 0.15 * share / 5, text, va="center", fontsize=TEXT - 1,
                        color=INK if text == "sum" else MUTED)
        self._places = np.arange(count) + 0.5
        looks = {"signal": VOLTAGE, "hum": HUM}
        self.levels = Lines(
            figure.add_axes((_LEFT, 0.03, 0.985 - _LEFT, 0.345)), room=_ROOM,
            x=Axis("", "", (0, count), ticks={}), y=Axis("level of the sum", "dB", (floor, 24)),
            parts=[Level(value=0.0, word="one coil", look=HOUSE_LOOK),
                   *(Dots(name, look, hollow=name == "hum", size=10, most=count) for name, look in looks.items()),
                   *(Dots(f"no {name}", look, marker="v", hollow=True, size=7, most=count)
                     for name, look in looks.items())])

    @staticmethod
    def _draw_coils(figure, across, senses, coil, rod, aside, height):
        (left, width), reach = across, 17.5e-3
        axes, _ = to_scale(figure, left=left, bottom=0.735, width=width, x_limits=(-reach, reach),
                           z_limits=(-18e-3, height + 1e-3))
        axes.set_axis_off()
        StringAlong(axes, moves=False).update(x=[-reach, reach], height=height, diameter=4e-4)
        for x, (magnets, winding) in ((-aside, (1, 1)), (aside, senses)):
            Magnet(axes, moves=False).update(x=x, top=0.0, diameter=rod.diameter, length=rod.length, remanence=magnets)
            Coil(axes, moves=False).update(x=x, rows=0, **window_of(coil))
            _arrow_round(axes, 1e3 * x, 1e3 * coil.outer_radius, -500 * rod.length, winding)

    def update(self, *, signal, hum, signal_parts, hum_parts, at=None):
        """Show another pair.

        Parameters
        ----------
        signal, hum : sequence of float
            Levels of the sums, dB, one a wiring; -inf for nothing.
        signal_parts, hum_parts : sequence of (float, float)
            What the two coils give, with signs, in parts of one coil's.
        at : float, optional
            Moment that the dots show, periods.
        """
        waves = self._signal.update(signal_parts, at) + self._hum.update(hum_parts, at)
        data, words = {}, {}
        for name, levels, aside in (("signal", np.array(signal), -0.17), ("hum", np.array(hum), 0.17)):
            seen = levels > self._floor
            data[name] = self._places + aside, np.where(seen, levels, np.nan)
            words[name] = [said(level, "", "+z.1f") for level in levels]
            data[f"no {name}"] = self._places + aside, np.where(seen, np.nan, self._floor)
            words[f"no {name}"] = ["nothing" if level == -np.inf else f"< {said(self._floor, '', '.0f')}"
                                   for level in levels]
        return waves + self.levels.update(**data, words=words)


def _arrow_round(axes, x, radius, height, sense):
    """The near half of a turn, with a head: to the right for an anticlockwise winding seen from above."""
    angle = np.linspace(np.pi, 2 * np.pi, 25)
    axes.plot(x + radius * np.cos(angle), height + 1.6 * (1 + np.sin(angle)), color=INK, linewidth=1.6)
    axes.plot([x], [height], ">" if sense > 0 else "<", color=INK, markersize=9)


class CoilsAndComb:
    """Two coils of a pair in place under a string, and below it the level at the amplifier with its comb.

    Parameters
    ----------
    coil : LongCoil
    rod : RodMagnet
    height : float
        Of the string, m.
    level : (float, float)
        Fixed limits, dB.
    """

    def __init__(self, figure, *, coil, rod, height, level):
        width = 0.985 - _LEFT
        self.axes, high = to_scale(figure, left=_LEFT, top=0.99, width=width, x_limits=(-_REACH, _REACH),
                                   z_limits=(-18e-3, _HIGH))
        self.axes.set_axis_off()
        self._window, self._rod, self._height = window_of(coil), rod, height
        self._things = [(Coil(self.axes), Magnet(self.axes)) for _ in range(2)]
        self._string = StringAlong(self.axes)
        self._words = label(self.axes, ha="center", va="center", position=(0.0, 1e3 * (_HIGH - 0.9e-3)))
        self.levels = Lines(
            figure.add_axes((_LEFT, 0.115, width, 0.85 - high)), room=_COMB_ROOM, x=KHZ,
            y=Axis("level at the amplifier", "dB", level), parts=[
                Level("null", look={"color": INK, "linestyle": ":"}, upright=True, at=0.93),
                Curve("alone", "one coil", HOUSE_LOOK),
                Curve("comb", "comb alone", {"color": MUTED, "linestyle": "--"}, width=1.2),
                Curve("this", "with cable", VOLTAGE, width=2.6)])

    def update(self, *, frequency, comb, this, alone, apart, null, half_waves, words, both):
        """Show another pair.

        Parameters
        ----------
        frequency, comb, this, alone : array_like, shape (n,)
            Hz, dB; *comb* or *alone* None: not shown.
        apart : float
            m.
        null : float or None
            Of the comb, Hz.
        half_waves : int
            Between the coils at that null; 0: the string is straight.
        words : dict
            "null": at the line; "wave": over the string.
        both : bool
            Whether the second coil is connected; it is pale otherwise.
        """
        drawn = []
        for (coil, magnet), x, sense in zip(self._things, (-apart / 2, apart / 2), (1, -1)):
            parts = magnet.update(x=x, top=0.0, diameter=self._rod.diameter, length=self._rod.length,
                                  remanence=sense)
            parts += coil.update(x=x, rows=0, **self._window)
            for part in parts:
                part.set_alpha(1.0 if both or sense > 0 else 0.25)
            drawn += parts
        x = np.linspace(-_REACH, _REACH, 241)
        wave = np.cos(half_waves * np.pi * (x / apart + 0.5)) if half_waves else np.zeros_like(x)
        drawn += self._string.update(x=x, height=self._height + _SWING * wave, diameter=4e-4)
        self._words.set_text(words["wave"])
        return [*drawn, self._words, *self.levels.update(
            frequency, comb=comb, this=this, alone=alone, null=null, words={"null": words["null"]} if null else {})]
