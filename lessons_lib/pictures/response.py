"""Over the frequency: a response with its marks, readings over a guess, what a component meter reads."""
from dataclasses import replace

import numpy as np

from lessons_lib.base.units import said
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import PLAIN, Curve, Dots, Level
from lessons_lib.pictures.style import BODY, COPPER, HOUSE_LOOK, INK, MUTED, PAPER, STEEL, TEXT, VOLTAGE, label
from lessons_lib.pictures.things import box, disc, rounded

KHZ = Axis("frequency", "kHz", (100.0, 20e3), log=True, ticks=(100, 200, 500, 1e3, 2e3, 5e3, 10e3, 20e3))
ZERO = Level(value=0.0, look={"color": MUTED, "linestyle": "-"}, width=0.8)
# the words of a peak are where no arrow comes from: from above, it comes from one side
_PEAKS = {"peak": {}, "peak on the right": {"side": 1, "lift": 10}, "peak on the left": {"side": -1, "lift": 10}}
_ROOM = 112         # points, of the longest words at the right edge
_APART = 24         # dots between two peaks with an arrow
_UNDER = -1.0       # dB: words over a lower level would be on the line of zero
_SHORT_OF_ROOM = 15e3   # Hz: words beside a mark from here on are two lines
FREQUENCY = replace(KHZ, limits=(200.0, 20e3), ticks=KHZ.ticks[1:])
RUNS = (VOLTAGE, {"color": INK, "linestyle": "--"})     # without and with a capacitor added


def said_frequency(frequency):
    """Words of a frequency (Hz) in kHz.

    Examples
    --------
    >>> said_frequency(4190), said_frequency(10820)
    ('4.19 kHz', '10.8 kHz')
    """
    return said(frequency, "kHz", ".2f" if frequency < 10e3 else ".1f")


class ResponseOverFrequency:
    """Level against frequency: peak (dot), 3 dB below low frequencies (square), an arrow from the house's peak to it.

    Parameters
    ----------
    level : (float, float)
        Fixed limits, dB.
    house, this : str
        What the pale curve is, and the other one.
    """

    def __init__(self, axes, *, level, house="house setting", this="this setting"):
        dotted = {"color": INK, "linestyle": ":"}
        self._lines = Lines(axes, x=KHZ, y=Axis("level at the amplifier", "dB", level), room=_ROOM, parts=[
            ZERO, Curve("house", house, HOUSE_LOOK), Curve("low", look=dotted, width=1.4, at=145.0),
            Curve("low, far down", look=dotted, width=1.4, at=145.0, below=True),
            Curve("this", this, VOLTAGE, width=2.6), Dots("house_peak", HOUSE_LOOK),
            Dots("half", VOLTAGE, marker="s", hollow=True, side=1),
            *(Dots(name, VOLTAGE, **place) for name, place in _PEAKS.items())])
        self.axes = axes
        self._arrow = axes.annotate("", (1e3, 0), (1e3, 0), animated=True, arrowprops={
            "arrowstyle": "-|>", "color": INK, "linewidth": 1.4, "mutation_scale": 14, "shrinkA": 6, "shrinkB": 7})

    def update(self, *, frequency, house, this, low_level, peak, house_peak, minus_3_db):
        """Show other curves.

        Parameters
        ----------
        frequency : array_like, shape (n,), Hz
        house, this : array_like, shape (n,), dB
        low_level : float
            At low frequencies, dB.
        peak, house_peak : (float, float) or None
            Hz, dB; None: there is none.
        minus_3_db : (float, float)
            Hz, dB.
        """
        end, low = peak[0] if peak else minus_3_db[0], "low" if low_level > _UNDER else "low, far down"
        break_off = "\n" if minus_3_db[0] > _SHORT_OF_ROOM else " "
        data = {"house": house, "this": this, "house_peak": house_peak, "half": minus_3_db,
                low: ([KHZ.limits[0], end], [low_level] * 2)}
        words = {low: said(low_level, "dB", "+.2f"), "half": f"3 dB down,{break_off}{said_frequency(minus_3_db[0])}"}
        arrow, name = [], "peak"
        if peak and house_peak:
            start, tip = ((float(KHZ.shown(place)), height) for place, height in (house_peak, peak))
            self._arrow.set(position=start)
            self._arrow.xy = tip
            across, above = np.subtract(*self.axes.transData.transform([tip, start]))
            arrow = [self._arrow] if np.hypot(across, above) > _APART else []
            if above <= -5:
                name = "peak on the right" if across > 0 else "peak on the left"
        if peak:
            data[name] = peak
            words[name] = f"{said(peak[1] - low_level, 'dB', '.1f')} up, {said_frequency(peak[0])}"
        return arrow + self._lines.update(frequency, words=words, **data)


class MeterOverFrequency:
    """The series inductance that a component meter reads, with its sign, and the meter with its reading beside it.

    Parameters
    ----------
    axes, face : matplotlib.axes.Axes
        Of the curve; of the meter, 10 wide and 14 high.
    inductance : float
        Fixed limit to both sides of zero, H.
    """

    def __init__(self, axes, face, *, inductance):
        ticks = [sign * ten for sign in (-1, 1) for ten in (1, 10, 100)]
        self._lines = Lines(
            axes, x=KHZ, room=0.0,
            y=Axis("inductance read", "H", (-inductance, inductance), even=0.5, ticks=[0, *ticks]), parts=[
                Level(value=0.0, look=PLAIN), Curve("true", look=HOUSE_LOOK, at=190.0, below=True),
                Level("resonance", look={"color": MUTED, "linestyle": "-."}, upright=True),
                Curve("read", width=2.6), Dots("at 120 Hz"), Dots("at 1 kHz"),
                Dots("chosen", VOLTAGE, marker="s", hollow=True, size=11)])
        axes.text(0.03, 0.30, "negative: to the meter\nthis is a capacitor", va="top", fontsize=TEXT - 1, color=MUTED,
                  transform=axes.transAxes)
        self._resonance = label(axes, ha="right", va="bottom")
        self._low = -inductance
        self._reading, self._beside = draw_meter(face)

    def update(self, *, frequency, read, true, self_resonance, marks, quality):
        """Show other curves.

        Parameters
        ----------
        frequency, read : array_like, shape (n,)
            Hz; H with its sign.
        true : float
            The inductance put in, H.
        self_resonance : float, Hz
        marks : three of (float, float)
            Hz, H: read at 120 Hz, at 1 kHz and at the chosen frequency.
        quality : float
            The meter's, at the chosen frequency.
        """
        low, high = KHZ.limits
        at_120, at_1000, chosen = marks
        artists = self._lines.update(
            frequency, read=read, true=([low, high], [true, true]), resonance=self_resonance,
            **{"at 120 Hz": at_120, "at 1 kHz": at_1000, "chosen": chosen},
            words={"at 120 Hz": "120 Hz", "at 1 kHz": "1 kHz", "true": f"put in: {said(true, 'H', '.2f')}"})
        beyond = " →" if self_resonance > high else ""
        self._resonance.set(text=f"self-resonance,\n{said_frequency(self_resonance)}{beyond}",
                            position=(KHZ.shown(min(0.95 * self_resonance, 0.98 * high)), 0.9 * self._low))
        self._reading.set_text(said(chosen[1], "H", ".4g"))
        at = said(chosen[0], "kHz" if chosen[0] >= 1e3 else "Hz", ".3g")
        self._beside.set_text(f"at {at},  Q_m {quality:.{0 if quality >= 100 else 2}f}")
        return [*artists, self._resonance, self._reading, self._beside]


def draw_meter(axes):
    """Draw a meter with two leads on a coil; returns the texts of its display, for a reading and what is beside it."""
    axes.set(xlim=(0, 10), ylim=(0, 14), aspect="equal")
    axes.axis("off")
    for start, end in ((2.9, 2.6), (7.1, 7.4)):
        axes.plot([start, start, end, end], [6.2, 5.0, 4.2, 2.5], color=INK, linewidth=1.6)
    rounded(axes, 0.3, 6.3, 9.4, 6.9, BODY, corner=0.6, linewidth=1.2)
    for x, y, width, height, color in ((0.8, 8.4, 8.4, 4.2, PAPER), (1.4, 0.7, 7.2, 1.8, COPPER),
                                       (0.8, 0.3, 0.6, 2.6, BODY), (8.6, 0.3, 0.6, 2.6, BODY)):
        box(axes, x, y, width, height, color, linewidth=1.2)
    for x in (2.9, 7.1):
        disc(axes, x, 7.2, 0.42, STEEL, linewidth=1.2)
    axes.text(5, 1.55, "the coil", ha="center", va="center", fontsize=TEXT - 1, color=INK)
    return (label(axes, ha="center", va="center", position=(5, 11.3), fontsize=TEXT + 8),
            label(axes, ha="center", va="center", position=(5, 9.3)))


def guess_and_readings(axes, *, level, runs):
    """`Lines` for level relative to low frequencies against frequency, without and with an added capacitor.

    Parameters
    ----------
    level : (float, float)
        Fixed limits, dB.
    runs : (str, str)
        What the two runs are called. Their curves are "now 0" and "now 1", the kept guess is "kept 0" and "kept 1", the
        readings are "read 0" and "read 1".
    """
    pale = [HOUSE_LOOK, {**HOUSE_LOOK, "linestyle": "--"}]
    return Lines(axes, x=FREQUENCY, y=Axis("level relative to low frequencies", "dB", level), parts=[
        ZERO,
        *(Curve(f"kept {n}", word, look) for n, (word, look) in enumerate(zip(("your guess", ""), pale))),
        *(Curve(f"now {n}", run, look, width=2.6) for n, (run, look) in enumerate(zip(runs, RUNS))),
        *(Dots(f"read {n}", look, marker=marker, hollow=hollow, size=6)
          for n, (look, marker, hollow) in enumerate(zip(RUNS, "os", (False, True))))])
