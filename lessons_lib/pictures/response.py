"""Over the frequency: a response with its marks beside what it is compared with; what a component meter reads."""
import numpy as np
from matplotlib.patches import Circle, FancyBboxPatch, Rectangle

from lessons_lib.base.units import said
from lessons_lib.pictures.style import (
    BODY,
    COPPER,
    GHOST,
    GRID,
    HOUSE_LOOK,
    INK,
    MUTED,
    PAPER,
    STEEL,
    TEXT,
    VERMILLION,
    VOLTAGE,
    dress,
    label,
)

TICKS = (100, 200, 500, 1000, 2000, 5000, 10000, 20000)
READ = {"color": INK, "linestyle": "-"}
CLOSE = 3.2     # dB: nearer than this two words at the ends of lines would touch


def over_frequency(axes, *, y_label, y_limits):
    """A logarithmic frequency axis in hertz, said in kHz, with few ticks, and a grid."""
    axes.set_xscale("log")
    dress(axes, x_label="frequency (kHz)", y_label=y_label, x_limits=(TICKS[0], TICKS[-1]), y_limits=y_limits)
    axes.set_xticks(TICKS, [f"{tick / 1e3:g}" for tick in TICKS])
    axes.minorticks_off()
    axes.grid(True, which="major", color=GRID, linewidth=0.8)


def said_frequency(frequency):
    """Words of a frequency (Hz) in kHz, with three digits or four.

    Examples
    --------
    >>> said_frequency(4190), said_frequency(10820)
    ('4.19 kHz', '10.8 kHz')
    """
    return said(frequency, "kHz", ".2f" if frequency < 10e3 else ".1f")


def word_at_end(word, frequency, level, limits, *, near=None):
    """Put a word where its line ends: at the right edge, or where the line leaves through the floor; returns its height.

    *near* is the height of the other word at the right edge: the two keep apart, each on the side of its line.
    """
    low, _ = limits
    level = np.asarray(level)
    if level[-1] >= low:
        height = level[-1]
        if near is not None and abs(height - near) < CLOSE:
            height = near + CLOSE * (1 if height >= near else -1)
        word.set(position=(TICKS[-1] * 1.03, height), ha="left", va="center")
        return height
    leaves = frequency[int(np.argmax(level < low))]
    word.set(position=(leaves * 0.94, low + 1.0), ha="right", va="bottom")
    return low


class ResponseOverFrequency:
    """Level against frequency: peak (dot), 3 dB below low frequencies (square), an arrow from the house's peak to it.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        With room for a word on its right.
    level : (float, float)
        Fixed limits, dB.
    house : str
        What the pale curve is.
    """

    def __init__(self, axes, *, level, house="house setting"):
        self.axes = axes
        over_frequency(axes, y_label="level at the amplifier (dB)", y_limits=level)
        axes.axhline(0, color=MUTED, linewidth=0.8)
        self._house, = axes.plot([], [], linewidth=2.2, animated=True, **HOUSE_LOOK)
        self._this, = axes.plot([], [], linewidth=2.6, animated=True, **VOLTAGE)
        self._low, = axes.plot([], [], linewidth=1.4, color=INK, linestyle=":", animated=True)
        self._was, = axes.plot([], [], "o", color=GHOST, markersize=8, animated=True)
        self._peak, = axes.plot([], [], "o", color=VERMILLION, markersize=9, animated=True)
        self._half, = axes.plot([], [], "s", color=VERMILLION, markersize=9, fillstyle="none", markeredgewidth=1.8,
                                animated=True)
        self._arrow = axes.annotate("", (1e3, 0), (1e3, 0), animated=True, arrowprops={
            "arrowstyle": "-|>", "color": INK, "linewidth": 1.4, "mutation_scale": 14, "shrinkA": 6, "shrinkB": 7,
            "connectionstyle": "arc3,rad=-0.25"})
        self._words = {"low": label(axes, ha="left", va="bottom"), "peak": label(axes, ha="center", va="bottom"),
                       "half": label(axes, ha="right", va="top"), "this": label(axes, "this setting", VOLTAGE),
                       "house": label(axes, house.replace(" ", "\n"), HOUSE_LOOK)}

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

        Returns
        -------
        list of matplotlib.artist.Artist
        """
        limits = self.axes.get_ylim()
        self._house.set_data(frequency, house)
        self._this.set_data(frequency, this)
        ends = [self._words["house"], self._words["this"]]
        near = word_at_end(ends[0], frequency, house, limits)
        word_at_end(ends[1], frequency, this, limits, near=near)
        end = peak[0] if peak else minus_3_db[0]
        self._low.set_data([TICKS[0], end], [low_level] * 2)
        self._words["low"].set(text=said(low_level, "dB", "+.2f"), position=(TICKS[0] * 1.06, low_level + 0.8))
        marks = [self._mark(self._half, self._words["half"], minus_3_db, "3 dB down", (0.93, -1.5))]
        if peak is not None:
            marks.append(self._mark(self._peak, self._words["peak"], peak, f"{said(peak[1] - low_level, 'dB', '.1f')} up",
                                    (1.0, 1.8)))
        shown = [artist for pair in marks for artist in pair]
        return [self._house, *self._moved(house_peak, peak), self._low, self._this, self._words["low"], *ends, *shown]

    def _moved(self, house_peak, peak):
        """The house's peak, and an arrow from it to this one where the two are apart."""
        if house_peak is None:
            return []
        self._was.set_data([house_peak[0]], [house_peak[1]])
        if peak is None or not TICKS[0] <= peak[0] <= TICKS[-1]:
            return [self._was]
        start, end = (self.axes.transData.transform(place) for place in (house_peak, peak))
        self._arrow.xy, (x, y) = peak, house_peak
        self._arrow.set_position((x, y))
        return [self._was, self._arrow] if np.hypot(*(end - start)) > 24 else [self._was]

    @staticmethod
    def _mark(dot, word, place, text, aside):
        """A mark with its words; nothing where the axis ends before."""
        frequency, level = place
        if not TICKS[0] <= frequency <= TICKS[-1]:
            return []
        dot.set_data([frequency], [level])
        word.set(text=f"{text}, {said_frequency(frequency)}", position=(frequency * aside[0], level + aside[1]))
        return [dot, word]


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
        self.axes = axes
        axes.set_yscale("symlog", linthresh=1, linscale=1)      # a decade a step, and one from 1 H through zero
        over_frequency(axes, y_label="inductance read (H)", y_limits=(-inductance, inductance))
        ticks = [sign * ten for sign in (-1, 1) for ten in (1, 10, 100)]
        axes.set_yticks([0, *ticks], [said(tick, "", "g") for tick in [0, *ticks]])
        axes.minorticks_off()
        axes.axhline(0, color=INK, linewidth=1.2)
        axes.text(110, -2.2, "negative: to the meter\nthis is a capacitor", va="top", fontsize=TEXT - 1, color=MUTED)
        self._true, = axes.plot([], [], linewidth=2.2, animated=True, **HOUSE_LOOK)
        self._line, = axes.plot([], [], linewidth=2.6, animated=True, **READ)
        self._dots, = axes.plot([], [], "o", color=INK, markersize=7, animated=True)
        self._chosen, = axes.plot([], [], "s", color=VERMILLION, markersize=11, fillstyle="none", markeredgewidth=2.4,
                                  clip_on=False, animated=True)
        self._resonance, = axes.plot([], [], color=MUTED, linewidth=1.2, linestyle="-.", animated=True)
        self._words = {"put in": label(axes, "", HOUSE_LOOK, ha="left", va="top"),
                       "resonance": label(axes, ha="right", va="bottom"),
                       "120 Hz": label(axes, "120 Hz", ha="left", va="bottom"),
                       "1 kHz": label(axes, "1 kHz", ha="center", va="bottom")}
        self._draw_meter(face)

    def _draw_meter(self, face):
        """A meter with two leads on a coil; its display is filled by an update."""
        face.set(xlim=(0, 10), ylim=(0, 14), aspect="equal")
        face.axis("off")
        for start, end in ((2.9, 2.6), (7.1, 7.4)):
            face.plot([start, start, end, end], [6.2, 5.0, 4.2, 2.5], color=INK, linewidth=1.6)
        face.add_patch(FancyBboxPatch((0.5, 6.3), 9, 6.9, boxstyle="round,pad=0,rounding_size=0.6", facecolor=BODY,
                                      edgecolor=INK, linewidth=1.4))
        face.add_patch(Rectangle((1.1, 8.4), 7.8, 4.1, facecolor=PAPER, edgecolor=INK, linewidth=1.2))
        for x in (2.9, 7.1):
            face.add_patch(Circle((x, 7.1), 0.42, facecolor=STEEL, edgecolor=INK, linewidth=1.2))
        face.add_patch(Rectangle((1.4, 0.7), 7.2, 1.8, facecolor=COPPER, edgecolor=INK, linewidth=1.2))
        for x in (0.8, 8.6):
            face.add_patch(Rectangle((x, 0.3), 0.6, 2.6, facecolor=BODY, edgecolor=INK, linewidth=1.2))
        face.text(5, 1.55, "the coil", ha="center", va="center", fontsize=TEXT - 1, color=INK)
        self._reading = label(face, fontsize=TEXT + 8, ha="center", va="center")
        self._beside = label(face, ha="center", va="center")
        self._reading.set_position((5, 11.2))
        self._beside.set_position((5, 9.3))

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

        Returns
        -------
        list of matplotlib.artist.Artist
        """
        self._line.set_data(frequency, read)
        self._true.set_data([TICKS[0], TICKS[-1]], [true, true])
        *others, (chosen_frequency, chosen_read) = marks
        self._dots.set_data(*np.transpose(others))
        self._chosen.set_data([chosen_frequency], [chosen_read])
        self._resonance.set_data([self_resonance] * 2, self.axes.get_ylim())
        self._words["put in"].set(text=f"put in: {said(true, 'H', '.2f')}", position=(108, 0.82 * true))
        for name, (place, height) in zip(("120 Hz", "1 kHz"), others):
            self._words[name].set_position((0.92 * place if name == "120 Hz" else place, 1.25 * height))
        beyond = self_resonance > TICKS[-1]
        self._words["resonance"].set(
            text=f"self-resonance,\n{said_frequency(self_resonance)}" + (" →" if beyond else ""),
            position=(min(0.95 * self_resonance, 0.98 * TICKS[-1]), 0.9 * self.axes.get_ylim()[0]))
        self._reading.set_text(said(chosen_read, "H", ".4g"))
        at = said_frequency(chosen_frequency) if chosen_frequency >= 1e3 else said(chosen_frequency, "Hz", ".0f")
        self._beside.set_text(f"at {at}, Q_m {quality:.2f}")
        return [self._true, self._resonance, self._line, self._dots, self._chosen, *self._words.values(),
                self._reading, self._beside]
