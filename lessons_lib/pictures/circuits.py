"""Magnet, air and string as circuits, drawn over the field and the things that they are made of."""
import numpy as np
from matplotlib.patches import FancyArrow

from lessons_lib.base.units import said
from lessons_lib.pictures.style import FLUX, INK, MM, MUTED, NORTH, PAPER, SOUTH, STEEL, VERMILLION, label
from lessons_lib.pictures.things import box, disc

OUT, OVER = 17.0, 4.0       # mm: the loop is so far from the axis, and so far above and below the rod
BOX, SOURCE = 2.4, 1.4      # mm: width of a box, radius of the source
ROD, AIR, POLE, FOOT, BACK = 2.0, 7.2, 5.4, 1.15, 0.68      # on a drawing of 10 by 10: the branches, and three heights
PER_METRE = 460         # of a gap: 6 mm are a quarter of the drawing
THICK = 0.36            # of the string
_BEND = np.linspace(-1, 1, 21)          # of a bracket, from its lower end to its upper one


class MagnetLoop:
    """The loop: a source and a box in the rod, a box in the air. The lengths of the boxes are as their reluctances.

    Parameters
    ----------
    axes : matplotlib.axes.Axes
        Of the field, in mm; the rod's top is at height 0.
    """

    def __init__(self, axes):
        self.axes = axes
        moving = {"animated": True}
        self._wire, = axes.plot([], [], color=INK, linewidth=2.0, solid_joinstyle="miter", **moving)
        self._boxes = [box(axes, 0, 0, 1, 1, PAPER, linewidth=2.0, **moving) for _ in range(2)]
        self._source = disc(axes, 0, 0, SOURCE, PAPER, linewidth=2.0, **moving)
        self._up, = axes.plot([], [], "^", color=INK, markersize=8, **moving)
        self._flows, = axes.plot([], [], ">", color=FLUX["color"], markersize=13, **moving)
        self._own, self._mmf, self._air = (label(axes, ha="left", va="center") for _ in range(3))
        self._flux = label(axes, look=FLUX, ha="left", va="bottom")
        self._field = label(axes, look=FLUX, ha="right", va="center")
        for layer, artist in enumerate((self._wire, *self._boxes, self._source, self._up, self._flows)):
            artist.set_zorder(3 + layer / 10)       # over the field, and the boxes over the wire

    def update(self, *, mmf, own_reluctance, air_reluctance, circuit_flux, field_flux, length):
        """Show the values (A, A/Wb and Wb) for a rod of a length (m)."""
        bottom = -length * MM
        high, low = OVER, bottom - OVER
        # in the rod: the source takes what it needs, the box the rest; the air's box follows in proportion
        own = -bottom - 2 * SOURCE - 1.5
        air = own * air_reluctance / own_reluctance
        middle, source = -0.5 - own / 2, bottom + SOURCE + 0.5
        self._wire.set_data([0, 0, OUT, OUT, 0, 0], [low, high, high, low, low, high])
        for load, x, y, tall in zip(self._boxes, (0, OUT), (middle, bottom / 2), (own, air)):
            load.set_bounds(x - BOX / 2, y - tall / 2, BOX, tall)
        self._source.set_center((0, source))
        self._up.set_data([0], [source])
        self._flows.set_data([OUT / 2 - 3], [high])
        for word, name, value, place in (
                (self._own, "magnet", said(own_reluctance, "MA/Wb", ".1f"), (3.4, middle)),
                (self._mmf, "MMF", said(mmf, "A", ".0f"), (3.4, source)),
                (self._air, "air", said(air_reluctance, "MA/Wb", ".1f"), (OUT + 2.2, bottom / 2))):
            word.set(text=f"{name}\n{value}", position=place)
        self._flux.set(text=f"by the circuit {said(circuit_flux, 'µWb', '.2f')}", position=(0.8, high + 0.7))
        self._field.set(text=f"by the field\n{said(field_flux, 'µWb', '.2f')}", position=(-3.6, bottom / 2))
        return [self._wire, *self._boxes, self._source, self._up, self._flows, self._own, self._mmf, self._air,
                self._flux, self._field]


class StringLoop:
    """Names, magnet and air are drawn once; an update sets the gaps as long as they are, and fills in the values."""

    def __init__(self, axes):
        self.axes = axes
        axes.set(xlim=(0, 10), ylim=(0, 10), aspect="equal")
        axes.axis("off")
        middle = (POLE + FOOT) / 2
        for colour, bottom, letter, at in ((NORTH, middle, "N", POLE - 0.42), (SOUTH, FOOT, "S", FOOT + 0.12)):
            box(axes, ROD - 0.75, bottom, 1.5, middle - FOOT, colour)
            label(axes, letter, ha="center", position=(ROD - 0.52, at))
        wire = {"color": INK, "linewidth": 1.6}
        for x, y in (((ROD, ROD), (BACK, POLE)), ((ROD, AIR), (BACK, BACK)), ((AIR, AIR), (BACK, POLE)),
                     ((ROD, AIR), (POLE, POLE))):
            axes.plot(x, y, **wire)
        axes.plot([ROD, AIR], [POLE, POLE], "o", color=INK, markersize=6, linestyle="none")
        for x, y, across, up in ((ROD, 4.05, 0.6, 1.3), (4.6, POLE, 1.5, 0.6), (AIR, 2.6, 0.6, 1.5)):
            box(axes, x - across / 2, y - up / 2, across, up, PAPER, linewidth=1.8, zorder=2.5)
        disc(axes, ROD, 2.25, 0.55, PAPER, linewidth=1.8, zorder=2.5)
        arrow = {"length_includes_head": True, "head_width": 0.34, "head_length": 0.34, "zorder": 3, "linewidth": 0}
        axes.add_patch(FancyArrow(ROD, 1.85, 0, 0.8, width=0.09, facecolor=VERMILLION, **arrow))
        axes.add_patch(FancyArrow(5.4, BACK, -1.4, 0, width=0.1, facecolor=FLUX["color"], **arrow))
        self._steel = box(axes, 0.4, 0, 8.6, THICK, STEEL, animated=True)
        self._branch, = axes.plot([], [], animated=True, **wire)
        self._gaps = [box(axes, x - 0.3, 0, 0.6, 1, PAPER, linewidth=1.8, animated=True) for x in (ROD, AIR)]
        self._along, = axes.plot([], [], linewidth=2.4, animated=True, **FLUX)
        self._head, = axes.plot([], [], ">", markersize=9, linestyle="none", animated=True, color=FLUX["color"])
        self._brackets = [axes.plot([], [], animated=True, color=MUTED, linewidth=1.6)[0] for _ in range(2)]
        places = {"mmf": (2.95, 2.25, "left"), "magnet": (2.95, 3.85, "left"), "far_air": (AIR - 0.5, 2.6, "right"),
                  "near_air": (4.6, POLE - 0.45, "center")}
        for name, (x, y, align) in places.items():
            text = {"mmf": "MMF", "magnet": "magnet", "far_air": "far air"}.get(name)
            if text:
                label(axes, text, ha=align, va="bottom", position=(x, y + 0.02))
        self._words = {name: label(axes, ha=align, va="top", position=(x, y - 0.02))
                       for name, (x, y, align) in places.items()}
        self._words |= {
            "flux": label(axes, look=FLUX, ha="center", va="top", position=((ROD + AIR) / 2, BACK - 0.2)),
            "branch": label(axes, va="bottom"), "string_flux": label(axes, look=FLUX, va="bottom"),
            "short": label(axes, "a partial short circuit", {"color": MUTED}, va="bottom", animated=True),
            "pair": label(axes, look={"color": MUTED}, va="top", position=(AIR + 0.35, POLE - 0.5))}

    def update(self, *, height, mmf, magnet, near_air, far_air, branch, pair, flux, string_flux):
        """Show the height (m) and the values (A, A/Wb and Wb)."""
        axis = POLE + height * PER_METRE
        for gap in self._gaps:
            gap.set(y=POLE + 0.16, height=axis - THICK / 2 - POLE - 0.28)
        self._steel.set_y(axis - THICK / 2)
        self._branch.set_data([ROD, ROD, AIR, AIR], [POLE, axis, axis, POLE])
        self._along.set_data([ROD, AIR], [axis, axis])
        self._head.set_data([(ROD + AIR) / 2], [axis])
        ohms = {name: said(value, "MA/Wb", ".0f" if value >= 100e6 else ".1f")
                for name, value in (("magnet", magnet), ("near_air", near_air), ("far_air", far_air),
                                    ("branch", branch))}
        texts = ohms | {"mmf": said(mmf, "A", ".0f"), "near_air": f"near air {ohms['near_air']}",
                        "pair": f"in brackets\n{said(pair, 'MA/Wb', '.2f')}",
                        "flux": f"flux in the magnet {said(flux, 'µWb', '.3f')}",
                        "branch": f"gap, steel, gap {ohms['branch']}",
                        "string_flux": f"gathered {said(string_flux, 'nWb', '.0f')}"}
        for name, text in texts.items():
            self._words[name].set_text(text)
        self._words["branch"].set_position((0.5, axis + THICK / 2 + 0.1))
        self._words["string_flux"].set_position((6.1, axis + THICK / 2 + 0.1))
        self._words["short"].set_position((0.5, axis + THICK / 2 + 0.6))
        low, high = POLE - 0.4, axis + 0.3
        for bracket, middle, bulge in zip(self._brackets, (0.06, 9.34), (0.22, -0.22)):
            bracket.set_data(middle + bulge * _BEND ** 2, (low + high) / 2 + (high - low) / 2 * _BEND)
        return [self._branch, *self._gaps, self._steel, self._along, self._head, *self._brackets,
                *self._words.values()]
