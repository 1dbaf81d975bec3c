"""How well the signal of lesson 3 is known, and how well its ratio to another: bands over the height of the string."""
from functools import lru_cache, partial

import numpy as np
from scipy.constants import pi
from scipy.interpolate import CubicSpline

from lessons_lib.base.as_made import as_made
from lessons_lib.base.materials import magnet_grade, steel
from lessons_lib.lessons.instrument import alloy_by, house_instrument
from lessons_lib.lessons.lesson_03.model import fields_over, one_pole
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.spread import Band, band
from lessons_lib.physics.steel import SteelString

HEIGHTS = np.linspace(1.5e-3, 6e-3, 19)     # m
STRING, REFERENCE, OTHER = "III", 2e-3, "VI"    # whose signal; height (m) and string that ratios refer to
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
    """At _SOLVED_AT, along the string, as `fields_over`; a magnet is solved once."""
    rod = instrument.rod.with_recoil_permeability(max(1.0, recoil))     # of the same field: its strength is apart
    return fields_over(Pickup(poles=rod, coils=one_pole(instrument).coils), _SOLVED_AT)


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
def bands(group, instrument=house_instrument):
    """Band over HEIGHTS, arrays (3, heights): the signal of STRING (V per m/s), and two ratios of it.

    To its own at REFERENCE, the height off by the same; to that of OTHER at the same height as it was read, of the
    same steel over the same magnet.
    """
    def three(other_offset, **values):
        one, other = (partial(signal, core=instrument.strings[name]["core"], instrument=instrument, **values)
                      for name in (STRING, OTHER))
        over = one(HEIGHTS)
        return np.stack([over, over / one(REFERENCE), over / other(HEIGHTS + other_offset - values["offset"])])
    return band(three, quantities(group, instrument))


def known_to(*, height, group, instrument=house_instrument):
    """The three of `bands` at one height, as a Band of arrays (3,)."""
    def here(curves):
        return CubicSpline(HEIGHTS, curves, axis=-1)(height)
    found = bands(group, instrument)
    return Band(nominal=here(found.nominal), median=here(found.median), low=here(found.low), high=here(found.high),
                shares={name: here(share) for name, share in found.shares.items()})


def known_curves(known, *, height, group, instrument=house_instrument):
    """What the panel draws over HEIGHTS: the signal's band (V per m/s), and three ranges as shares of the median."""
    found, names = bands(group, instrument), ("signal", "own", "other")
    return {"signal": {"low": found.low[0], "high": found.high[0], "median": found.median[0],
                       "now": (height, known.median[0])},
            "ranges": {"now": (height, [-known.below[0], known.above[0]])}
            | {f"{name} low": -below for name, below in zip(names, found.below)}
            | {f"{name} high": above for name, above in zip(names, found.above)}}
