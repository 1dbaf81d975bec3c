"""A coil, its two controls, cable and amplifier as a circuit with the values beside the parts."""
import numpy as np
from matplotlib.patches import Circle, Rectangle

from lessons_lib.base.units import resistance_words, said
from lessons_lib.pictures.style import BLACK, GREY, TEXT

TOP, GROUND, OUT = 4.05, 0.6, 2.35       # heights on a drawing of 16 by 5: upper wire, common wire, output
SOURCE, OWN, TONE, TRACK, CABLE, AMPLIFIER = 0.75, 5.8, 7.15, 10.3, 12.0, 14.55    # places along it
TRACK_ENDS = (1.0, 3.6)
_ALIGNED = {"resistance": "center", "inductance": "center", "own": "right", "volume": "right"}
LINE = {"color": BLACK, "linewidth": 1.6, "solid_capstyle": "round"}


class CoilCircuit:
    """The circuit is drawn once; an update fills in the values and moves the wiper of the volume control.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        About 16 wide and 5 high.
    """

    def __init__(self, axes):
        self.axes = axes
        axes.set(xlim=(0, 16), ylim=(0, 5))
        axes.axis("off")
        self._wire((SOURCE, TOP), (TRACK, TOP))
        self._wire((SOURCE, GROUND), (AMPLIFIER, GROUND))
        self._draw_coil()
        self._capacitor(OWN, TOP, GROUND, 2.35)
        self._wire((TONE, TOP), (TONE, 3.3))
        self._resistor((TONE, 2.85))
        self._capacitor(TONE, 2.4, GROUND, 1.35)
        self._draw_volume()
        self._capacitor(CABLE, OUT, GROUND, 1.45)
        self._wire((AMPLIFIER, OUT), (AMPLIFIER, GROUND))
        self._resistor((AMPLIFIER, 1.45))
        self._draw_names()

    def _wire(self, *points):
        self.axes.plot(*np.array(points).T, **LINE)

    def _resistor(self, centre, *, upright=True):
        width, height = (0.4, 0.9) if upright else (1.1, 0.36)
        self.axes.add_patch(Rectangle((centre[0] - width / 2, centre[1] - height / 2), width, height, facecolor="white",
                                      edgecolor=BLACK, linewidth=1.6, zorder=3))

    def _capacitor(self, x, upper, lower, y, gap=0.1):
        self._wire((x, upper), (x, y + gap))
        self._wire((x, y - gap), (x, lower))
        for plate in (y + gap, y - gap):
            self.axes.plot([x - 0.32, x + 0.32], [plate, plate], color=BLACK, linewidth=2.4)

    def _draw_coil(self):
        """Source, resistance and inductance in a row."""
        self._wire((SOURCE, GROUND), (SOURCE, TOP))
        self.axes.add_patch(Circle((SOURCE, 2.3), 0.36, facecolor="white", edgecolor=BLACK, linewidth=1.6, zorder=3))
        turn = np.linspace(0, 2 * np.pi, 40)
        self.axes.plot(SOURCE + 0.22 * (turn / np.pi - 1), 2.3 + 0.13 * np.sin(turn), color=BLACK, linewidth=1.4,
                       zorder=4)
        self._resistor((2.3, TOP), upright=False)
        half = np.linspace(np.pi, 0, 20)
        self.axes.add_patch(Rectangle((3.6, TOP - 0.1), 1.36, 0.2, facecolor="white", edgecolor="none", zorder=3))
        for n in range(4):
            self.axes.plot(3.77 + 0.34 * n + 0.17 * np.cos(half), TOP + 0.24 * np.sin(half), zorder=4, **LINE)

    def _draw_volume(self):
        """The track, and a wiper with its way out."""
        self._wire((TRACK, TOP), (TRACK, GROUND))
        low, high = TRACK_ENDS
        self.axes.add_patch(Rectangle((TRACK - 0.2, low), 0.4, high - low, facecolor="white", edgecolor=BLACK,
                                      linewidth=1.6, zorder=3))
        self._wire((TRACK + 1.0, OUT), (AMPLIFIER, OUT))
        self._wiper, = self.axes.plot([], [], animated=True, **LINE)
        self._tip, = self.axes.plot([], [], marker="<", color=BLACK, markersize=8, animated=True)

    def _draw_names(self):
        for x, text in ((3.2, "coil"), (9.0, "controls"), (12.6, "cable"), (14.8, "amplifier")):
            self.axes.text(x, 4.72, text, ha="center", va="center", fontsize=TEXT, color=GREY)
        for x in (6.6, 11.5, 13.9):
            self.axes.plot([x, x], [0.25, 4.95], color=GREY, linewidth=1.0, linestyle="--")
        self.axes.text(1.25, 2.3, "induced\nvoltage", va="center", fontsize=TEXT - 2)
        # where the text of a part stands, and its name
        places = {"resistance": (2.3, 3.72, "resistance"), "inductance": (4.28, 3.72, "inductance"),
                  "own": (5.4, 2.35, "self-capacitance"),
                  "tone": (7.45, 2.85, "tone"),
                  "tone_capacitor": (7.57, 1.35, ""), "volume": (10.0, 1.75, "volume"), "cable": (12.42, 1.45, ""),
                  "amplifier": (14.85, 1.45, "input")}
        self._values = {name: self._named(*place, aligned=_ALIGNED.get(name, "left")) for name, place in places.items()}

    def _named(self, x, y, name, *, aligned):
        """A name with a place for its value under it; beside an upright part the two stand above and below y."""
        where = {"ha": aligned, "fontsize": TEXT - 2}
        under = {"va": "top", "fontweight": "bold", "animated": True}
        if aligned == "center":
            self.axes.text(x, y, name, va="top", **where)
            return self.axes.text(x, y - 0.32, "", **under, **where)
        self.axes.text(x, y + 0.04, name, va="bottom", **where)
        return self.axes.text(x, y if name else y + 0.15, "", **under, **where)

    def update(self, *, resistance, inductance, own, volume, volume_setting, tone, tone_setting, tone_capacitor, cable,
               amplifier):
        """Show the values (ohm, H, F; settings as shares); returns the artists in drawing order."""
        words = {"resistance": resistance_words(resistance), "inductance": said(inductance, "H", ".3g"),
                 "own": said(own, "pF", ".0f"),
                 "tone": f"{resistance_words(tone)}\nat {said(tone_setting, '%', '.0f')}",
                 "tone_capacitor": said(tone_capacitor, "nF", ".0f"),
                 "volume": f"{resistance_words(volume)}\nat {said(volume_setting, '%', '.0f')}",
                 "cable": said(cable, "pF", ".0f"), "amplifier": resistance_words(amplifier)}
        for name, text in words.items():
            self._values[name].set_text(text)
        low, high = TRACK_ENDS
        height = low + volume_setting * (high - low)
        self._wiper.set_data([TRACK + 0.35, TRACK + 1.0, TRACK + 1.0], [height, height, OUT])
        self._tip.set_data([TRACK + 0.33], [height])
        return [self._wiper, self._tip, *(self._values[name] for name in words)]
