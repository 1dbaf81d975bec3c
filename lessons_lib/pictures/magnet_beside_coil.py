"""Flux lines of a magnet, and beside them those of a coil on a core of its shape."""
import numpy as np

from lessons_lib.base.units import in_unit, said
from lessons_lib.pictures.flux_lines import FluxLines
from lessons_lib.pictures.style import FLUX, INK, MM, PAPER, TEXT, caption
from lessons_lib.pictures.things import Coil

ROWS = 8    # of drawn wires


class MagnetBesideCoil:
    """Two sections side by side, with the same step from line to line.

    Parameters
    ----------
    step : float
        Flux from one line to the next, Wb.
    """

    def __init__(self, figure, *, step):
        frames = (0.095, 0.165, 0.41, 0.705), (0.58, 0.165, 0.41, 0.705)
        self._magnet, self._coil = (
            FluxLines(figure.add_axes(frame), half_width=14.3e-3, bottom=-24e-3, top=5e-3, step=step, magnet=magnet)
            for frame, magnet in zip(frames, (True, False)))
        self._shown, self._of_magnet = None, []
        self._winding = Coil(self._coil.axes)
        marks = {"linestyle": "none", "color": INK, "animated": True}
        axes = self._coil.axes
        self._wires, = axes.plot([], [], "o", markersize=7.5, markerfacecolor=PAPER, markeredgewidth=0.9, **marks)
        self._away, = axes.plot([], [], "x", markersize=4.5, markeredgewidth=1.1, **marks)
        self._near, = axes.plot([], [], ".", markersize=4, **marks)
        self._words = []
        for lines in (self._magnet, self._coil):
            lines.axes.set_title("", loc="left")
            self._words.append([caption(lines.axes, up=1.09, fontsize=TEXT),
                                caption(lines.axes, look=FLUX, fontsize=TEXT)])
        axes.set_ylabel("")
        figure.text(0.095, 0.012, f"Flux through the middle; from one line to the next: {said(step, 'µWb', 'g')}.",
                    fontsize=TEXT - 1, color=INK)

    def update(self, *, magnet, coil, thickness, mmf, turns, current, fluxes, by_circuit):
        """Show other ones.

        Parameters
        ----------
        magnet, coil : dict
            What FluxLines.update takes.
        thickness : float
            Of the winding as it is drawn, m.
        mmf : float
            Of the magnet, A.
        turns, current : float
            Of the coil, 1 and A.
        fluxes, by_circuit : (float, float)
            Through the middle of both, by the field and by the circuit, Wb.
        """
        radius, length = coil["diameter"] / 2, coil["length"]
        windows = self._winding.update(inner_radius=radius, outer_radius=radius + thickness, bottom=-length, top=0.0,
                                       rows=0)
        across = (radius + thickness / 2) * MM
        heights = -(np.arange(ROWS) + 0.5) * length * MM / ROWS
        self._wires.set_data(np.repeat([-across, across], ROWS), np.tile(heights, 2))
        self._away.set_data(np.full(ROWS, across), heights)     # right-handed about B, which points up in the core
        self._near.set_data(np.full(ROWS, -across), heights)
        texts = f"magnet: MMF {said(mmf, 'A', '.0f')}", (
            f"{turns:.0f} turns × {said(current, 'A', '.2f')} = {said(turns * current, 'A', '.0f')}")
        for words, text, flux, circuit in zip(self._words, texts, fluxes, by_circuit):
            words[0].set_text(text)
            words[1].set_text(f"field {in_unit(flux, 'µWb'):.2f}, circuit {said(circuit, 'µWb', '.2f')}")
        body, *lines = self._coil.update(**coil)
        if self._shown is None or not np.array_equal(magnet["flux"], self._shown):      # turns and current leave it
            self._shown, self._of_magnet = magnet["flux"], self._magnet.update(**magnet)
        return [*self._of_magnet, *windows, body, *lines, self._wires, self._away, self._near,
                *(word for words in self._words for word in words)]
