"""What the panel of what is known shows: two pictures of bands, and its numbers in words."""
import math

from lessons_lib.base.units import said
from lessons_lib.lessons.lesson_03.known import HEIGHTS, OTHER, REFERENCE, WORDS
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import PLAIN, Between, Curve, Dots
from lessons_lib.pictures.style import INK, VOLTAGE

_OVER = Axis("height of the string", "mm", (HEIGHTS[0], HEIGHTS[-1]))
_OWN = {"color": INK, "linestyle": "--"}


def known_pictures(figure, louder):
    """The draw of a panel, of the two dicts of `known_curves`; louder stretches the axis of the signal."""
    signal = Lines(
        figure.add_axes((0.085, 0.14, 0.37, 0.81)), x=_OVER, y=Axis("signal", "mV per m/s", (0, 0.18 * louder)),
        parts=[Between("low", "high"), Curve("low", look=VOLTAGE, width=1.0),
               Curve("high", "16 to\n84 %", VOLTAGE, width=1.0), Curve("median", look=VOLTAGE),
               Dots("now", VOLTAGE)])
    ranges = Lines(
        figure.add_axes((0.545, 0.14, 0.45, 0.81)), x=_OVER, y=Axis("16 to 84 %, from the median", "%", (-0.4, 0.45)),
        parts=[Between("signal low", "signal high"), Curve("signal low", look=VOLTAGE),
               Curve("signal high", "signal", VOLTAGE), Curve("own high", look=_OWN),
               Curve("own low", "to its own\nat 2 mm", _OWN), Curve("other low", look=PLAIN),
               Curve("other high", "to string VI", PLAIN), Dots("now", VOLTAGE)])
    return lambda data: signal.update(HEIGHTS, **data["signal"]) + ranges.update(HEIGHTS, **data["ranges"])


def _said(ends):
    spec = "+z.0f" if max(map(abs, ends)) > 0.02 else "+z.1f"
    return " to ".join(said(end, "%", spec) for end in ends)


def known_words(known):
    """The numbers of `known_to`, by the names under which the panel shows them."""
    signal, own, other = zip(-known.below, known.above)
    most = max(known.shares, key=lambda name: known.shares[name][0])
    return {
        "two out of three are within": _said(signal),
        "in decibels": " to ".join(said(20 * math.log10(1 + end), "dB", "+z.1f") for end in signal),
        "signal, median": said(known.median[0], "mV per m/s", ".1f"),
        "most of it comes from": f"{WORDS[most]}, {said(min(known.shares[most][0], 1.0), '%', '.0f')}",
        f"divided by its own at {said(REFERENCE, 'mm', 'g')}": f"{known.median[1]:.2f}, {_said(own)}",
        f"divided by that of string {OTHER}": f"{known.median[2]:.2f}, {_said(other)}"}
