"""The whole pickup on one picture: string from the side, pickup in cut, three traces, response and harmonics."""
from dataclasses import replace

import numpy as np

from lessons_lib.base.units import said
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import Band, Curve, Dots, Level
from lessons_lib.pictures.over_pole import Swing
from lessons_lib.pictures.response import KHZ
from lessons_lib.pictures.strings import WholeString
from lessons_lib.pictures.style import DISPLACEMENT, FLUX, GHOST, GRID, HOUSE_LOOK, MM, VOLTAGE, caption, label
from lessons_lib.pictures.things import Coil, Magnet, Screw, Thing, window_of

FULL = 1.5e-3           # m, drawn as a displacement of 1 of the whole string
HARMONIC_ZERO = 0.1     # V, 0 dB of a harmonic
LEVELS = (-60.0, 30.0)  # dB
_PALE, _ZERO = {"alpha": 0.35}, Level(value=0.0, look=HOUSE_LOOK)


class StringStrip:
    """A whole string from bridge to nut, with its names; *length* (m) is that of the picture."""

    def __init__(self, axes, *, length):
        axes.set(xlim=(-25, length * MM + 25), ylim=(-0.86, 0.70))
        axes.set_axis_off()
        for text, x, side in (("bridge", -22, "left"), ("nut", length * MM + 22, "right")):
            label(axes, text, position=(x, 0.55), ha=side, va="center")
        self.axes, self._string = axes, WholeString(axes)

    def update(self, *, length, frets, finger, pickup, pluck, pulled, shape=None):
        """Show another string: places in m as of a `WholeString`; *pulled* and *shape* are (places, displacement), m.

        The shape is where it is now; without it the string is at rest, and pale as it is pulled.
        """
        def drawn(curve):
            return curve[0], np.clip(np.asarray(curve[1]) / FULL, -1.4, 1.4)

        return self._string.update(
            length=length, frets=frets, finger=finger, pickup=pickup, pluck=pluck, before=drawn(pulled),
            shape=None if shape is None else drawn(shape))


class PickupCut(Thing):
    """A pole in its coil and the string end-on over it, true to scale; (0, 0) is the middle of the pole's face.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        Across the strings, mm; equally long both ways.
    coil : mapping
        inner_radius, outer_radius, bottom, top (m).
    """

    _WIRES = 1500       # turns from one row of dots to the next: a sign, not a count

    def __init__(self, axes, *, coil):
        self._window = window_of(coil)
        super().__init__(axes)
        axes.set_axis_off()

    def make(self):
        self._coil, self._rod, self._screw, self._bar = (kind(self.axes) for kind in (Coil, Magnet, Screw, Magnet))
        self._pale = self.line(GHOST, 1.0)
        self._lines = self.line(FLUX["color"], 1.2)
        self._swing = Swing(self.axes)

    def update(self, *, pole, bar, turns, pale, lines, rest, ends, string, diameter, core):
        """Show other parts.

        Parameters
        ----------
        pole : dict
            diameter, length (m), and of a magnet its remanence (T); without it: a steel screw.
        bar : dict, optional
            Of the bar under screws: top, thickness, width (m).
        turns : int
        pale, lines : (array_like, array_like)
            Lines without a string, and those that come to it: y and z, m, parted by NaN.
        rest, string : (float, float)
            y and z of the string at rest and now, m.
        ends : two of (float, float)
            Of its path.
        diameter, core : float
            Of the string and of its steel, m.
        """
        artists = self._coil.update(**self._window, rows=2 + round(turns / self._WIRES))
        if bar:
            artists += self._bar.update(top=bar["top"], diameter=bar["width"], length=bar["thickness"])
        artists += self._pole(pole)
        for line, path in ((self._pale, pale), (self._lines, lines)):
            line.set_data(*self.shown(*path))
        rest, *disc, path = self._swing.update(rest=rest, ends=ends, string=string, diameter=diameter, core=core)
        return [*artists, self._pale, self._lines, path, rest, *disc]

    def _pole(self, pole):
        """A rod, its letters aside of the lines, or a screw."""
        if "remanence" not in pole:
            return self._screw.update(top=0.0, **pole)
        upper, lower, *letters = self._rod.update(top=0.0, **pole)
        for letter in letters:
            letter.set_x(-0.66 * self.shown(pole["diameter"])[0] / 2)
        return [upper, lower, *letters]


class Traces:
    """Displacement, flux linkage and voltage over one period, one above the other; a mark at one instant.

    *upper*, *middle*, *lower* are axes; every scale is even near zero and logarithmic beyond, so that faint and strong
    plucks are both seen. *stronger*: than the workshop's pickup, the even parts grow with it.
    """

    _ROWS = (("displacement along the pluck", "mm", 1.5e-3, 4.5e-3, DISPLACEMENT),
             ("flux linkage", "µWb", 0.2e-3, 0.7e-3, FLUX),
             ("voltage at the amplifier", "mV", 0.2, 1.2, VOLTAGE))

    def __init__(self, upper, middle, lower, *, stronger=1.0):
        self._rows = []
        for axes, (name, unit, even, most, look) in zip((upper, middle, lower), self._ROWS):
            even, most = (one * (1.0 if axes is upper else stronger) for one in (even, most))
            self._rows.append(Lines(
                axes, room=0.0, grid=False,
                x=Axis("time in periods of the string", "", (0, 1), bare=axes is not lower,
                       ticks=(0, 0.25, 0.5, 0.75, 1)),
                y=Axis("", unit, (-most, most), even=even, ticks=(-even, even)),
                parts=[_ZERO, Level("now", upright=True), Curve("open", look=look | _PALE, width=1.6),
                       Curve("line", look=look, width=2.0), Dots("dot", look=look, size=7)]))
            axes.set_ylabel("")
            caption(axes, f"{name} ({unit})", look)
        self._period = caption(upper, x=1.0)
        caption(lower, "pale: open coil", VOLTAGE, x=1.0)

    def update(self, *, share, traces, open_circuit, now, dots, period):
        """Show other curves over *share* of a *period* (s): three *traces* (m, Wb, V), and the *open_circuit* voltage.

        *now* and *dots*: the share that is marked and the three values there, or None.
        """
        artists = []
        for number, (row, line) in enumerate(zip(self._rows, traces)):
            artists += row.update(share, line=line, now=now, open=open_circuit if number == 2 else None,
                                  dot=None if now is None else (now, dots[number]))
        self._period.set_text(f"one period: {said(period, 'ms', '.2f')}")
        return [*artists, self._period]


class ResponseAndHarmonics:
    """The level that coil, cable and controls let through, and the harmonics of one pluck behind them."""

    def __init__(self, axes):
        self._lines = Lines(
            axes, room=0.0, x=replace(KHZ, limits=(60.0, 20e3)), y=Axis("", "dB", LEVELS, ticks=(-60, -40, -20, 0)),
            parts=[
                Band("band", color=GRID, upright=True), _ZERO,
                Curve("response", width=2.0),
                Dots("harmonics", VOLTAGE, stems=LEVELS[0], size=5), Dots("peak", size=6)])
        axes.set_ylabel("")
        for text, x, look in (("response (dB)", 0.0, None), ("harmonics (dB, 0 dB: 100 mV)", 1.0, VOLTAGE)):
            caption(axes, text, look, x=x)

    def update(self, *, frequency, response, harmonics, peak, band=None):
        """Show other curves: Hz and dB; *harmonics* (Hz, dB), *peak* (Hz, dB) of the response or None.

        *band*: from where to where (Hz) the peaks of others are.
        """
        return self._lines.update(
            frequency, response=response, band=band, harmonics=harmonics, peak=peak,
            words={} if peak is None else {"peak": said(peak[0], "kHz", ".2f")})
