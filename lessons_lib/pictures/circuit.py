"""A magnet and the air round it as a circuit, drawn over the field that it stands for."""
from lessons_lib.base.units import said
from lessons_lib.pictures.style import FLUX, INK, MM, PAPER, label
from lessons_lib.pictures.things import box, disc

OUT, OVER = 17.0, 4.0       # mm: the loop is so far from the axis, and so far above and below the rod
BOX, SOURCE = 2.4, 1.4      # mm: width of a box, radius of the source


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
