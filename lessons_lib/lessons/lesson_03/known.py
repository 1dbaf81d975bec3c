"""How well the signal of lesson 3 is known, and how well its ratio to another: bands over the height of the string."""
from dataclasses import dataclass
from functools import lru_cache, partial

import numpy as np
from scipy.constants import mu_0, pi
from scipy.interpolate import CubicSpline

from lessons_lib.base.as_made import as_made
from lessons_lib.base.materials import magnet_grade, steel
from lessons_lib.lessons.instrument import alloy_by, house_instrument
from lessons_lib.lessons.lesson_03.model import one_pole
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.spread import band
from lessons_lib.physics.steel import SteelString
from lessons_lib.physics.string_answer import string_line

HEIGHTS = np.linspace(1.5e-3, 6e-3, 19)     # m
REFERENCE, OTHER = 2e-3, "VI"               # height (m) and string that ratios refer to
WORDS = {"permeability": "the steel's permeability", "saturation": "the steel's saturation",
         "recoil": "the magnet's recoil permeability", "strength": "the magnet's strength",
         "offset": "the height", "other_offset": "the height of string VI", "turns": "the number of turns"}
GROUPS = {"all of it": tuple(WORDS), "the steel": ("permeability", "saturation"), "the magnet": ("recoil", "strength"),
          "heights and turns": ("offset", "other_offset", "turns")}
_SOLVED_AT = 3.75e-3 - 2.45e-3 * np.cos(pi * np.arange(17) / 16)    # m: HEIGHTS, and what a ruler is off


def quantities(group, instrument=house_instrument):
    """What is not known, as Values by the names of WORDS; those outside of a group (a key of GROUPS) have no spread.

    recoil leaves the magnet's field as it is; strength is a factor of its remanence, turns of the turns; offset (m) is
    what the height read is off, and other_offset that of the string beside it.
    """
    wire, off = steel("music wire"), as_made.string_height
    grade = magnet_grade(alloy_by(instrument.rod.recoil_permeability))
    everything = {
        "permeability": wire.relative_permeability, "saturation": wire.saturation,
        "recoil": grade.recoil_permeability.like(instrument.rod.recoil_permeability),
        "strength": as_made.magnet_strength, "offset": off.about(0.0), "other_offset": off.about(0.0),
        "turns": as_made.turns}
    return {name: value if name in GROUPS[group] else float(value) for name, value in everything.items()}


@lru_cache(maxsize=8)
def _fields(recoil, instrument):
    """At _SOLVED_AT, along the string: H of the magnet (A/m) and B of one ampere (T); a magnet is solved once."""
    rod = instrument.rod.with_recoil_permeability(max(1.0, recoil))     # of the same field: its strength is apart
    pickup = Pickup(poles=rod, coils=one_pole(instrument).coils)
    lines = np.stack([string_line(height=height) for height in _SOLVED_AT])
    return pickup.flux_density(lines) / mu_0, pickup.field_per_ampere(lines)


@lru_cache(maxsize=512)
def _linkage(core, recoil, strength, permeability, saturation, instrument):
    """Linkage over the height, as a spline."""
    steady, per_ampere = _fields(recoil, instrument)
    string = SteelString(diameter=core, relative_permeability=permeability, saturation=saturation)
    return CubicSpline(_SOLVED_AT, string.magnetise(strength * steady).linkage(per_ampere))


def signal(heights, *, core, permeability, saturation, recoil, strength, offset, turns, instrument=house_instrument):
    """V per m/s at heights (m) that are all off by the same."""
    linkage = _linkage(core, recoil, strength, permeability, saturation, instrument)
    return -turns * linkage(np.asarray(heights) + offset, 1)


@lru_cache(maxsize=16)
def bands(group, string="III", instrument=house_instrument):
    """Band over HEIGHTS, arrays (3, heights): the signal (V per m/s), and two ratios of it.

    To its own at REFERENCE, the height off by the same; to that of OTHER at the same height as it was read, of the
    same steel over the same magnet.
    """
    def three(other_offset, **values):
        one, other = (partial(signal, core=instrument.strings[name]["core"], instrument=instrument, **values)
                      for name in (string, OTHER))
        over = one(HEIGHTS)
        return np.stack([over, over / one(REFERENCE), over / other(HEIGHTS + other_offset - values["offset"])])
    return band(three, quantities(group, instrument))


@dataclass(frozen=True, kw_only=True)
class KnownTo:
    """At one height the signal (V per m/s), its ratio to REFERENCE, its ratio to OTHER: a tuple of three for each.

    median, low, high: 50, 16, 84 %. most: the name (of WORDS) that contributes most, and its share of the variance.
    """

    median: tuple
    low: tuple
    high: tuple
    most: tuple

    @property
    def ranges(self):
        """From the median to 16 and to 84 %, as shares of it."""
        return tuple((low / median - 1, high / median - 1)
                     for low, median, high in zip(self.low, self.median, self.high))


def known_to(*, height, group, string="III", instrument=house_instrument):
    """What is known of a string's signal at a height, as KnownTo."""
    found = bands(group, string, instrument)

    def here(curves):
        return tuple(float(one) for one in CubicSpline(HEIGHTS, curves, axis=-1)(height))
    shares = {name: here(found.shares[name]) for name in GROUPS[group]}
    return KnownTo(median=here(found.median), low=here(found.low), high=here(found.high), most=tuple(
        max(((name, share[which]) for name, share in shares.items()), key=lambda one: one[1]) for which in range(3)))


def known_curves(known, *, height, group, string="III", instrument=house_instrument):
    """What the panel draws over HEIGHTS: the signal's band (V per m/s), and three ranges as shares of the median."""
    found = bands(group, string, instrument)
    below, above = found.low / found.median - 1, found.high / found.median - 1
    return {"signal": {"low": found.low[0], "high": found.high[0], "median": found.median[0],
                       "now": (height, [known.median[0]])},
            "ranges": {f"{name} {end}": curve for end, curves in (("low", below), ("high", above))
                       for name, curve in zip(("signal", "own", "other"), curves)} | {
                           "now": ([height] * 2, known.ranges[0])}}
