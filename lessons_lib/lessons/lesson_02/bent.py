"""A free alnico rod on the bent curve of its alloy beside one on a straight recoil line: field above, flux, B and H."""
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0

from lessons_lib.base.materials import magnet_grade
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.rod import upward
from lessons_lib.physics.alnico_rod import AlnicoRod
from lessons_lib.physics.magnetic_circuit import demagnetising_curve
from lessons_lib.physics.magnets import RodMagnet

ALNICO = magnet_grade("alnico 5")
PARTS = ("in the middle, at the wall", "in the middle, on the axis", "just below the face")
CURVE_LIMIT = 130e3     # A/m: how far the chart goes
_HEIGHTS = np.linspace(0.3e-3, 8e-3, 78)


@dataclass(frozen=True, kw_only=True, eq=False)
class InRod:
    """One rod: length (m); flux (Wb) of its middle; above (T) its face at _HEIGHTS; b (T) and h (A/m) at PARTS."""

    length: float
    flux: float
    above: np.ndarray
    b: np.ndarray
    h: np.ndarray

    def at(self, height):
        """Flux density (T) at a height above the face, m."""
        return float(np.exp(np.interp(height, _HEIGHTS, np.log(self.above))))


def _in(rod):
    middle = -rod.length / 2
    places = [(0.0, 0.999 * rod.diameter / 2, middle), (0.0, 0.0, middle), (0.0, 0.0, -0.2e-3)]
    return InRod(length=rod.length, flux=rod.midplane_flux(), above=upward(rod, 0.0, _HEIGHTS),
                 b=rod.flux_density(places)[:, 2], h=rod.field_strength(places)[:, 2])


@lru_cache(maxsize=16)
def _on_curve(diameter, length):
    return _in(AlnicoRod(grade=ALNICO, diameter=diameter, length=length))


@dataclass(frozen=True, kw_only=True, eq=False)
class BentAndStraight:
    """One rod of alnico 5 on its *curve*, and on a straight *line*; fields (T) of both at the height asked for."""

    curve: InRod
    line: InRod
    fields: tuple

    @property
    def off(self):
        """By which share the line's field is off there."""
        return self.fields[1] / self.fields[0] - 1


def bent_and_straight(*, times, remanence, height, instrument=house_instrument):
    """A free rod of alnico 5 as thick as the instrument's and *times* as long, on curve and line.

    Parameters
    ----------
    times : float
        Length divided by that of the instrument's rod.
    remanence : float
        Of the line, T; its recoil permeability is the alloy's.
    height : float
        Above the face, m.

    Notes
    -----
    On the curve by `AlnicoRod`, solved once for each length and kept. On a curve that is straight the two are one
    (tests/test_alnico_rod.py). Range: a rod that has been alone in air since it was magnetised; a keeper, another
    magnet, the spread of the alloy (some per cent) are left out.

    Examples
    --------
    >>> both = bent_and_straight(times=1.0, remanence=0.75, height=2e-3)
    >>> [round(1e3 * field) for field in both.fields]
    [84, 84]
    """
    diameter, length = instrument.magnet["diameter"], times * instrument.magnet["length"]
    curve, line = _on_curve(diameter, length), _in(RodMagnet(
        diameter=diameter, length=length, remanence=remanence, recoil_permeability=float(ALNICO.recoil_permeability)))
    return BentAndStraight(curve=curve, line=line, fields=(curve.at(height), line.at(height)))


def bent_curves(both, *, remanence, height, **_):
    """What the two charts take."""
    h = -float(ALNICO.coercivity) * (1 - np.linspace(0, 1, 161) ** 2)      # close together where the curve is steep
    near = all(abs(a - b) < reach for a, b, reach in (      # of both faces one word is enough where they are close
        (both.curve.b[-1], both.line.b[-1], 0.15), (both.curve.h[-1], both.line.h[-1], 30e3)))
    at_end = remanence - mu_0 * float(ALNICO.recoil_permeability) * CURVE_LIMIT
    return {"parts": {"curve": (h, demagnetising_curve(ALNICO, h)), "line": ([-CURVE_LIMIT, 0.0], [at_end, remanence]),
                      "on curve": (both.curve.h, both.curve.b), "on line": (both.line.h, both.line.b),
                      "words": {"on curve": ["wall", "axis", "face"],
                                "on line": ["", "middle", "" if near else "face"]}},
            "above": {"x": _HEIGHTS, "curve": both.curve.above, "line": both.line.above,
                      "now": ([height, height], both.fields)}}
