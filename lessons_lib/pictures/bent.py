"""An axis that is even up to a knee and logarithmic beyond it: all settings fit, and usual ones fill it."""
from dataclasses import dataclass

import numpy as np

from lessons_lib.base.units import in_unit, said
from lessons_lib.pictures.lines import Axis
from lessons_lib.pictures.marks import Band

BEYOND = 0.5    # height of the factor of ten beyond the knee, in heights of the even part


@dataclass(frozen=True)
class BentAxis:
    """A quantity whose axis is even up to *knee* (SI) and logarithmic from there to ten times as much.

    Parameters
    ----------
    quantity, unit : str
    knee : float
        SI.
    low, high : float
        Ends of the axis in heights of the even part: -1.5, -1 or 0; 1 or 1.5.
    ticks : sequence of float
        In the even part, in knees.

    Examples
    --------
    >>> flux = BentAxis("flux", "nWb", knee=300e-9)
    >>> flux.place([0.0, -150e-9, 300e-9, 3000e-9]).round(6).tolist(), list(flux.axis.ticks.values())
    ([0.0, -0.5, 1.0, 1.5], ['0', '150', '300', '3000'])
    """

    quantity: str
    unit: str
    knee: float
    low: float = 0.0
    high: float = 1 + BEYOND
    ticks: tuple = (0, 0.5, 1)

    def place(self, values):
        """Heights of values (SI) on the axis, in heights of the even part."""
        share = np.asarray(values, dtype=float) / self.knee
        beyond = 1 + BEYOND * np.log10(np.maximum(np.abs(share), 1.0))
        return np.where(np.abs(share) <= 1, share, np.sign(share) * beyond)

    @property
    def axis(self):
        """As an Axis, for what `place` gives."""
        ends = {end: np.sign(end) * 10 for end in (self.low, self.high) if abs(end) > 1}
        return Axis(f"{self.quantity} ({self.unit})", "", (self.low, self.high), ticks={
            place: said(in_unit(share * self.knee, self.unit), "", "g")
            for place, share in sorted(({one: one for one in self.ticks} | ends).items())})

    def bands(self, upright=False):
        """What shades the logarithmic part: of the y axis, or *upright* of the x axis."""
        return [Band(value=(np.sign(end), end), upright=upright) for end in (self.low, self.high) if abs(end) > 1]
