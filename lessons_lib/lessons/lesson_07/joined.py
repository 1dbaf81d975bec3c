"""Lesson 7: one long coil or six small ones in series, and where the flux of magnets and string closes.

In a winding's space the voltage goes with the turns and the inductance with their square.
"""
import math
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0
from scipy.interpolate import CubicSpline

from lessons_lib.base.wire import magnet_wire
from lessons_lib.base.workshop import ROW, house_load
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_07.model import arranged, of_each_coil
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.steel import STRING_PLACES
from lessons_lib.physics.string_answer import string_line

SOUNDING = {"one": ("IV",), "two": ("IV", "III"), "six": ROW}
TIME = np.linspace(0.0, 20e-3, 201)     # s
_FOURTH = ROW.index("IV")
_ARRANGED = {"long": "rods", "six": "six coils"}


# ---- one coil or six -------------------------------------------------------------------------------------------------

@dataclass(frozen=True, kw_only=True)
class Joined:
    """One long coil, or six small ones in series, and the strings that sound.

    turns of all coils; wire (m); resistance (ohm); inductance (H); peak (Hz, None without one) with the workshop's
    cable and controls; level (dB re the long coil with the turns asked for); parts: V per m/s of each coil (row) from
    each string (column), 0 from one that is silent; reference: V per m/s of the long coil from each string.
    """

    turns: float
    wire: float
    resistance: float
    inductance: float
    peak: float | None
    level: float
    parts: np.ndarray
    reference: np.ndarray

    @property
    def of_each_coil(self):
        """What each coil gives at most, V per m/s: different pitches, so now and then all crests meet."""
        return np.abs(self.parts).sum(axis=1)

    @property
    def of_each_string(self):
        """What each string gives in all coils together, V per m/s: in series voltages add."""
        return self.parts.sum(axis=0)

    @property
    def under_fourth(self):
        """Share of string IV's voltage that comes from the coil under it; 1 of one long coil."""
        fourth = self.parts[:, _FOURTH]
        return float(fourth[_FOURTH if fourth.size > 1 else 0] / fourth.sum())

    @property
    def per_turn(self):
        """Voltage of string IV per turn of all coils, V per m/s."""
        return float(self.of_each_string[_FOURTH] / self.turns)


@lru_cache(maxsize=8)
def _of_one_turn(coils, instrument):
    """V per m/s of each coil (row) from each string (column), and inductance (H), with one turn in each coil."""
    whole = arranged(_ARRANGED[coils], instrument)
    turns = whole.coils[0].turns
    return of_each_coil(whole, instrument.row()) / turns, whole.inductance() / turns ** 2


def turns_of_each(*, held, turns, instrument=house_instrument):
    """Turns of each of six small coils beside a long one with *turns*.

    Parameters
    ----------
    held : "each", "all", "wire" or "output"
        What is equal: the turns of one coil, the turns of all coils, the length of wire, the voltage of string IV.
    turns : float
        Of the long coil.

    Examples
    --------
    >>> turns_of_each(held="all", turns=7200)
    1200.0
    """
    if held == "wire":
        return turns * instrument.long_coil.mean_turn() / (6 * instrument.small_coil.mean_turn())
    if held == "output":
        long, six = (_of_one_turn(coils, instrument)[0].sum(axis=0)[_FOURTH] for coils in _ARRANGED)
        return turns * float(long / six)
    return {"each": float(turns), "all": turns / 6}[held]


def joined(*, coils, sounding, turns, instrument=house_instrument):
    """One long coil or six small ones in series, as Joined.

    Parameters
    ----------
    coils : "long", or of six small ones what is equal: "each", "all", "wire" or "output"
        As of turns_of_each.
    sounding : "one", "two" or "six"
        String IV alone, IV and III, or all.
    turns : float
        Of the long coil.

    Examples
    --------
    >>> one = joined(coils="all", sounding="one", turns=7600)
    >>> bool(one.level < -15)
    True
    """
    sounds = np.isin(ROW, SOUNDING[sounding])
    reference = turns * _of_one_turn("long", instrument)[0].sum(axis=0) * sounds
    kind, each, shape = ("long", float(turns), instrument.long_coil) if coils == "long" else (
        "six", turns_of_each(held=coils, turns=turns, instrument=instrument), instrument.small_coil)
    of_one, inductance = _of_one_turn(kind, instrument)
    parts = each * of_one * sounds
    wire = len(parts) * each * shape.mean_turn()
    resistance, inductance = magnet_wire(awg=instrument.gauge).resistance(wire), each ** 2 * inductance
    peak, _ = LoadedCoil(resistance=resistance, inductance=inductance, **house_load).peak() or (None, None)
    louder = np.linalg.norm(parts.sum(axis=0)) / np.linalg.norm(reference)      # different pitches: powers add
    return Joined(turns=len(parts) * each, wire=wire, resistance=resistance, inductance=inductance, peak=peak,
                  level=20 * math.log10(louder), parts=parts, reference=reference)


def waves(one, instrument=house_instrument):
    """Voltages over TIME at 1 m/s: name -> that of each string that sounds, and the sum of the long coil's.

    In shares of the largest that the long coil can give; each string moves as its lowest partial alone.
    """
    largest = one.reference.sum()
    swing = {name: np.cos(2 * np.pi * instrument.strings[name]["frequency"] * TIME) for name in ROW}
    here, there = ({name: size / largest * swing[name] for name, size in zip(ROW, sizes) if size}
                   for sizes in (one.of_each_string, one.reference))
    return here, sum(there.values())


# ---- where the flux closes -------------------------------------------------------------------------------------------

REACH = 20e-3           # m
_LOOPS = 14             # that are computed; a spline goes through them
_THIN = 1e-5            # m, of a loop's wire


@dataclass(frozen=True, kw_only=True)
class Closing:
    """Flux near string VI, of one rod in a round coil or six in a long one, at one distance from the pole's axis.

    at: the distance (m); carried: in the string there (Wb), most: its largest; linked: what the magnets send through
    a loop of that radius, as tall as the winding, rods: what goes through the middle of all rods; added: what the
    string adds to the loop (Wb); mean: share of the rods' flux that a mean turn of the winding links.
    """

    at: float
    carried: float
    most: float
    linked: float
    rods: float
    added: float
    mean: float


def middle_flux(whole):
    """Flux (Wb) through the middle of all rods of a Pickup together."""
    nodes, weights = np.polynomial.legendre.leggauss(12)
    angle = np.arange(8) * math.pi / 4
    flux = 0.0
    for pole in whole.poles:
        radius = pole.diameter / 4 * (nodes + 1)
        points = np.stack(np.broadcast_arrays(pole.x + radius[:, np.newaxis] * np.cos(angle),
                                              pole.y + radius[:, np.newaxis] * np.sin(angle),
                                              pole.top - pole.length / 2), axis=-1)
        upright = whole.flux_density(points)[..., 2].mean(axis=1)
        flux += 2 * math.pi * float(np.sum(pole.diameter / 4 * weights * radius * upright))
    return flux


@lru_cache(maxsize=4)
def flux_near(kind, instrument=house_instrument):
    """Fluxes near string VI over "one" rod in the small coil or "six" in the long one, by name as in `Closing`.

    radii (m), from the winding's inner one; carried, linked, added (Wb) there; most, rods, mean.
    """
    string = instrument.row()[0]
    poles, coil, y = (((instrument.rod,), instrument.small_coil, 0.0) if kind == "one" else
                      (arranged("rods", instrument).poles, instrument.long_coil, string.y))
    whole = Pickup(poles=poles, coils=coil)
    computed = np.linspace(coil.inner_radius, REACH, _LOOPS)
    loops = [Pickup(poles=poles, coils=replace(coil, inner_radius=radius, outer_radius=radius + _THIN, turns=1))
             for radius in computed]
    radii = np.linspace(coil.inner_radius, REACH, 85)
    linked, added = (CubicSpline(computed, values)(radii) for values in (
        [one.steady_linkage() for one in loops],
        [one.flux_linkage(string.steel, height=string.height, y=y) for one in loops]))
    line = string_line(height=string.height, y=y)
    along = np.abs(string.steel.magnetise(whole.flux_density(line)[np.newaxis] / mu_0).flux()[0])
    rods = middle_flux(whole)
    return {"radii": radii, "carried": np.interp(radii, STRING_PLACES, along), "most": along.max(), "linked": linked,
            "added": added, "rods": rods, "mean": whole.steady_linkage() / coil.turns / rods}


def closing(*, kind, loop, instrument=house_instrument):
    """What closes inside a loop of a radius *loop* (m; at least the winding's inner one) and what does not, as Closing.

    Examples
    --------
    >>> one = closing(kind="one", loop=6.2e-3)
    >>> bool(one.carried > one.most / 2)
    True
    """
    near = flux_near(kind, instrument)
    at = max(loop, near["radii"][0])
    here = {name: float(np.interp(at, near["radii"], near[name])) for name in ("carried", "linked", "added")}
    return Closing(at=at, most=float(near["most"]), rods=float(near["rods"]), mean=float(near["mean"]), **here)
