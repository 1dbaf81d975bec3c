"""Where the flux of the string was before the string came: how much of it passed the coil, and what steel changes."""
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0, pi
from scipy.integrate import trapezoid
from scipy.interpolate import CubicSpline

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03.lines import to_both_sides
from lessons_lib.lessons.lesson_03.model import DRAWN_HEIGHTS, ThreeFluxes, magnetised, over_heights, three_fluxes
from lessons_lib.lessons.string_lines import StringInSpace, one_path, trace
from lessons_lib.physics.steel import STRING_PLACES

FRAME = {"half_width": 12e-3, "bottom": -16.5e-3, "top": 8.5e-3}      # m, of the view from the side
TUBE = 50e-9            # Wb from one line to the next
_ALONG = np.linspace(0, 12e-3, 481)         # m, to the right of the pole


@dataclass(frozen=True, kw_only=True)
class BeforeAndNow:
    """A string centred over the rod, and the same place filled with air: fluxes in Wb, `most` in m.

    `most` is where the string's flux is largest, to each side. Between those two places some flux rises into the
    string from below; there, too, is the flux that runs along it, to each side: now it is the fluxes' `string`.
    """

    fluxes: ThreeFluxes
    most: float
    rising_before: float
    rising_now: float
    along_before: float

    @property
    def passed_before(self):
        """Of what the string gathers: not new in the coil's mean turn, because it had passed the turn before."""
        return self.fluxes.gathered - self.fluxes.added_in_turn

    @property
    def share(self):
        """The same as a share of what the string gathers."""
        return self.passed_before / self.fluxes.gathered


def rising(across, gathered, radius):
    """Flux for each metre (Wb/m) that enters a thin round wire where it enters it.

    Parameters
    ----------
    across : array_like
        B (T) that crosses its surface, where that is largest: with air in its place the field across it.
    gathered : array_like
        Wb/m that it keeps, of the same shape.
    radius : float
        m

    Returns
    -------
    ndarray

    Notes
    -----
    Inward over the surface is across * sin(angle) + gathered / (2 pi radius); this is its positive part, added up.

    Examples
    --------
    >>> rising([0.1], [0.0], 0.5e-3).tolist()       # as wide as the wire: 1 mm times 0.1 T
    [0.0001]
    """
    across, even = np.asarray(across, dtype=float), np.asarray(gathered, dtype=float) / (2 * pi * radius)
    ratio = np.clip(np.divide(even, across, out=np.ones_like(even), where=across > 0), -1, 1)
    crossing = 2 * radius * (across * np.sqrt(1 - ratio ** 2) + even * np.arcsin(ratio)) + pi * radius * even
    return np.where(np.abs(even) < across, crossing, np.maximum(2 * pi * radius * even, 0.0))


@lru_cache(maxsize=64)
def before_and_now(*, height, permeability, instrument=house_instrument):
    """The flux of string VI now, and what was at its place before, as BeforeAndNow."""
    this = {"height": height, "core": instrument.strings["VI"]["core"], "permeability": permeability,
            "instrument": instrument}
    inside, fluxes = magnetised(**this), three_fluxes(**this)
    along = CubicSpline(STRING_PLACES, inside.flux())
    most = float(_ALONG[along(_ALONG).argmax()])
    x = _ALONG[_ALONG <= most]
    applied, across = (CubicSpline(STRING_PLACES, field)
                       for field in (mu_0 * inside.applied, mu_0 * inside.magnetisation / 2))
    radius, area, upward = inside.string.magnetic_radius, inside.string.area, applied(x)[:, 2]
    return BeforeAndNow(
        fluxes=fluxes, most=most, along_before=float(applied(most)[0]) * area,
        rising_before=2 * float(trapezoid(rising(upward, area * applied(x, 1)[:, 0], radius), x)),
        rising_now=2 * float(trapezoid(rising(upward + across(x)[:, 2], along(x, 1), radius), x)))


@lru_cache(maxsize=64)
def _two_ways(height, permeability, instrument):
    """What TwoWays.update takes: paths (m) from the side, and of what comes to the middle from its end."""
    core, rod = instrument.strings["VI"]["core"], instrument.rod
    inside = magnetised(height=height, core=core, permeability=permeability, instrument=instrument)
    string = StringInSpace(inside, height=height, place=0.0)
    into, out = string.ways(TUBE)
    seen = ~np.isnan(out)
    starts = [string.surface(into, -1), string.round_the_middle(rod, TUBE / 2)]
    now = [trace(rod, start, -np.ones(start.shape[1]), string, FRAME) for start in starts]
    away = trace(rod, string.surface(out[seen], 1), np.ones(seen.sum()), string, FRAME)
    before = []
    for lines in now:       # from the last place of each, deep in the rod
        count, last = lines.shape[1], (~np.isnan(lines[0])).sum(axis=-1) - 1
        before.append(trace(rod, lines[:, np.arange(count), last], np.ones(count), None, FRAME))
    steel = np.full((3, len(into), 2), np.nan)
    steel[0, :, 0], steel[0, :, 1] = into, np.where(seen, out, 2 * FRAME["half_width"])
    steel[2] = height
    return {"now": to_both_sides(now[0], steel, away), "before": to_both_sides(before[0]),
            "towards": one_path(now[1])[1:], "towards_before": one_path(before[1])[1:], "height": height, "core": core}


def ways_and_curves(both, *, height, permeability, instrument=house_instrument):
    """What TwoWays.update takes, and over DRAWN_HEIGHTS the flux gathered and the flux new in a turn, with now's."""
    curves = over_heights(instrument.strings["VI"]["core"], permeability, instrument=instrument)
    return {"views": _two_ways(height, permeability, instrument),
            "curves": {"gathered": 2 * curves.flux(DRAWN_HEIGHTS),
                       "new": curves.linkage(DRAWN_HEIGHTS) / instrument.coil["turns"],
                       "now": ([height] * 2, [both.fluxes.gathered, both.fluxes.added_in_turn])}}
