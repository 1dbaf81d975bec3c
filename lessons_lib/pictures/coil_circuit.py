"""A coil, its controls, cable and amplifier as a circuit with values beside the parts, under the things they are."""
from functools import partial

import numpy as np
from matplotlib.patches import Rectangle

from lessons_lib.base.units import resistance_words, said
from lessons_lib.pictures.style import BODY, COPPER, INK, MUTED, PAPER, STEEL, TEXT, VERMILLION, WORDS
from lessons_lib.pictures.symbols import inductance, resistance, source, wire
from lessons_lib.pictures.things import box, disc, rounded

TOP, GROUND, OUT = 4.05, 0.55, 2.35       # heights on a drawing of 16 by 5: upper wire, common wire, output
SOURCE, OWN, TONE, TRACK, CABLE, AMPLIFIER = 0.65, 5.85, 7.65, 10.5, 12.0, 14.4    # places along it
TONE_ENDS, TRACK_ENDS = (2.35, 3.65), (1.0, 3.6)
THINGS = 2.7        # height of the row of things over it


class CoilCircuit:
    """The circuit is drawn once; an update fills in values, moves both wipers and marks the parts that were changed.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        16 to 5, with things 16 to 7.7.
    things : bool
        The coil, the controls, the cable and the amplifier themselves are drawn over their symbols.
    """

    def __init__(self, axes, *, things=False):
        self.axes = axes
        axes.set(xlim=(0, 16), ylim=(0, 5 + THINGS * things))
        axes.axis("off")
        self._parts = {}        # name -> the artists of its symbol
        self._wire, self._box = partial(wire, axes), partial(resistance, axes)
        self._wire((SOURCE, TOP), (TRACK, TOP))
        self._wire((SOURCE, GROUND), (AMPLIFIER, GROUND))
        self._wire((SOURCE, GROUND), (SOURCE, TOP))
        source(axes, SOURCE, 2.3, radius=0.38, wave=(0.24, 0.14))
        self._box(1.75, TOP - 0.18, 1.1, 0.36)
        inductance(axes, 3.6, TOP, width=0.34, height=0.24)
        self._capacitor(OWN, TOP, GROUND, 2.2)
        self._draw_tone()
        self._draw_volume()
        self._parts["cable"] = self._capacitor(CABLE, OUT, GROUND, 1.45, animated=True)
        self._wire((AMPLIFIER, OUT), (AMPLIFIER, GROUND))
        self._parts["amplifier"] = [self._box(AMPLIFIER - 0.2, 1.0, 0.4, 0.9, animated=True)]
        self._draw_names()
        if things:
            draw_things(axes)

    def _capacitor(self, x, upper, lower, y, *, gap=0.1, animated=False):
        self._wire((x, upper), (x, y + gap))
        self._wire((x, y - gap), (x, lower))
        return [self._wire((x - 0.32, plate), (x + 0.32, plate), linewidth=2.6, animated=animated)
                for plate in (y + gap, y - gap)]

    def _draw_tone(self):
        """A track of which the part above the wiper is in use, and a capacitor from the wiper on."""
        low, high = TONE_ENDS
        self._wire((TONE, TOP), (TONE, high))
        self._capacitor(TONE, 1.85, GROUND, 1.0)
        self._used = self.axes.add_patch(Rectangle((TONE - 0.2, low), 0.4, 0, facecolor=STEEL, animated=True))
        self._parts["tone"] = [self._box(TONE - 0.2, low, 0.4, high - low, animated=True)]
        self._parts["tone"][0].set_facecolor("none")
        self._tone_wiper, self._tone_tip = self._wiper(">")

    def _draw_volume(self):
        """A track from end to end of the coil, and a wiper with its way out."""
        low, high = TRACK_ENDS
        self._wire((TRACK, TOP), (TRACK, high))
        self._wire((TRACK, low), (TRACK, GROUND))
        self._parts["volume"] = [self._box(TRACK - 0.2, low, 0.4, high - low, animated=True)]
        self._wire((TRACK + 0.8, OUT), (AMPLIFIER, OUT))
        self._volume_wiper, self._volume_tip = self._wiper("<")

    def _wiper(self, marker):
        return self._wire((0, 0), animated=True), self.axes.plot([], [], marker, color=INK, markersize=8,
                                                                 animated=True)[0]

    def _draw_names(self):
        for x, text in ((3.2, "coil"), (9.0, "controls"), (12.6, "cable"), (14.9, "amplifier")):
            self.axes.text(x, 4.75, text, ha="center", va="center", fontsize=TEXT, color=INK)
        for x in (6.55, 11.45, 13.9):
            self.axes.plot([x, x], [0.2, 4.95], color=MUTED, linewidth=1.0, linestyle="--")
        self.axes.text(SOURCE + 0.5, 2.3, "induced\nvoltage", va="center", fontsize=TEXT - 1, color=WORDS[VERMILLION])
        # where a part's name and value are, and on which side of that place
        places = {"resistance": (2.3, 3.72, "resistance", "center"), "inductance": (4.28, 3.72, "inductance", "center"),
                  "own": (OWN - 0.45, 2.2, "self-capacitance", "right"), "tone": (TONE + 0.35, 3.15, "tone", "left"),
                  "tone_capacitor": (TONE + 0.45, 1.0, "", "left"), "volume": (TRACK - 0.35, 2.0, "volume", "right"),
                  "cable": (CABLE + 0.42, 1.45, "", "left"), "amplifier": (AMPLIFIER + 0.3, 1.45, "input", "left")}
        self._values = {name: self._named(*place) for name, place in places.items()}

    def _named(self, x, y, name, aligned):
        """A name with a place for its value under it; beside an upright part the two are above and below y."""
        where = {"ha": aligned, "fontsize": TEXT - 1, "color": INK}
        if aligned == "center":
            self.axes.text(x, y, name, va="top", **where)
            return self.axes.text(x, y - 0.36, "", va="top", animated=True, **where)
        self.axes.text(x, y + 0.02, name, va="bottom", **where)
        return self.axes.text(x, y, "", va="top" if name else "center", animated=True, **where)

    def update(self, *, resistance, inductance, own, volume, volume_setting, tone, tone_setting, tone_capacitor, cable,
               amplifier, changed=()):
        """Show the values (ohm, H, F; settings as shares).

        *changed* names the values that are not those of the setting it is compared with: their parts are in the colour
        of this setting's curve.
        """
        words = {"resistance": resistance_words(resistance), "inductance": said(inductance, "H", ".3g"),
                 "own": said(own, "pF", ".0f"),
                 "tone": f"{resistance_words(tone)}\nat {said(tone_setting, '%', '.0f')}",
                 "tone_capacitor": said(tone_capacitor, "nF", ".0f"),
                 "volume": f"{resistance_words(volume)}\nat {said(volume_setting, '%', '.0f')}",
                 "cable": said(cable, "pF", ".0f"), "amplifier": resistance_words(amplifier)}
        for name, text in words.items():
            self._values[name].set_text(text)
        self._light_up({name.removesuffix("_setting") for name in changed})
        low, high = TRACK_ENDS
        height = low + volume_setting * (high - low)
        self._volume_wiper.set_data([TRACK + 0.3, TRACK + 0.8, TRACK + 0.8], [height, height, OUT])
        self._volume_tip.set_data([TRACK + 0.32], [height])
        low, high = TONE_ENDS
        height = high - tone_setting * (high - low)
        self._tone_wiper.set_data([TONE - 0.3, TONE - 0.7, TONE - 0.7, TONE], [height, height, 1.85, 1.85])
        self._tone_tip.set_data([TONE - 0.34], [height])
        self._used.set(y=height, height=high - height)
        symbols = [artist for part in self._parts.values() for artist in part]
        return [self._used, *symbols, self._volume_wiper, self._volume_tip, self._tone_wiper, self._tone_tip,
                *(self._values[name] for name in words)]

    def _light_up(self, changed):
        for name, artists in self._parts.items():
            color, width = (VERMILLION, 3.0) if name in changed else (INK, 1.6)
            for artist in artists:
                if isinstance(artist, Rectangle):
                    artist.set(edgecolor=color, linewidth=width)
                else:
                    artist.set(color=color, linewidth=width + 0.8)
            self._values[name].set(color=WORDS[color], fontweight="bold" if name in changed else "normal")


def draw_things(axes):
    """The coil on its form with six rods, two controls, a cable with its plugs and an amplifier, in a row.

    The parts are where their symbols are, not in one scale.
    """
    floor = 5.2
    block, knob = partial(box, axes, linewidth=1.4), partial(disc, axes, linewidth=1.4)

    def lead(x, y):
        axes.plot(x, np.add(floor, y), color=INK, linewidth=2.0, solid_capstyle="round", zorder=0)

    for n in range(6):
        block(1.2 + 0.76 * n, floor + 0.1, 0.42, 1.85, STEEL)
    block(0.6, floor + 0.45, 5.2, 0.95, COPPER)
    for height in np.linspace(0.55, 1.3, 6):
        axes.plot([0.62, 5.78], [floor + height] * 2, color=PAPER, linewidth=0.6)
    for height in (0.3, 1.4):
        block(0.35, floor + height, 5.7, 0.17, BODY)
    lead([5.8, 6.3, 6.6, 7.3], [0.7, 0.7, 0.95, 0.95])
    for x, pointer in ((7.95, 0.9), (10.1, -0.9)):
        for lug in (-0.3, 0.0, 0.3):
            block(x + lug - 0.07, floor + 0.05, 0.14, 0.5, STEEL)
        knob(x, floor + 1.1, 0.68, BODY)
        knob(x, floor + 1.1, 0.3, STEEL)
        axes.plot([x, x + 0.26 * pointer], [floor + 1.1, floor + 1.28], color=INK, linewidth=1.6)
    lead([8.6, 9.45], [0.95, 0.95])
    lead([10.75, 11.7], [0.95, 0.95])
    angle = np.linspace(0, 2 * np.pi, 80)
    for ring in (0.55, 0.68, 0.81):
        axes.plot(12.65 + ring * np.cos(angle), floor + 1.15 + ring * np.sin(angle), color=INK, linewidth=2.4)
    lead([12.65, 11.95], [0.34, 0.34])
    lead([12.65, 13.4], [0.34, 0.34])
    for x in (11.6, 13.3):
        block(x, floor + 0.22, 0.42, 0.24, STEEL)
    rounded(axes, 14.0, floor + 0.15, 1.8, 1.9, BODY, corner=0.12, linewidth=1.4)
    knob(14.35, floor + 0.5, 0.17, PAPER)
    for x in (14.4, 14.9, 15.4):
        knob(x, floor + 1.5, 0.19, STEEL)
