"""The plain functions behind the first three panels of lesson 7: SI numbers in, small records and arrays out.

Every height of a pole is that of its top; 0 is the top of the coil form. Levels are those of the first pulse after the
same pluck on every string (1 N), dB.
"""
import math
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from scipy.interpolate import RectBivariateSpline

from lessons_lib.base.units import in_unit, said
from lessons_lib.base.workshop import ROW, house_bar, house_place, house_screw
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.physics.magnets import BarMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.pole_heights import equal_levels
from lessons_lib.physics.six_strings import decibels, first_pulses, in_a_row, sensitivities, simple_law
from lessons_lib.physics.steel import SteelPole

PLACES = np.array(house_place["string_y"])      # of every instrument: a file of one's own moves no string across
LEVEL = (0.0,) * 6              # all poles flush with the coil form
SHORT = 14e-3                   # m, a screw sawn off by 3 mm, so that it can go down as far
LOWEST, HIGHEST = -3e-3, 1.5e-3
BLADE = BarMagnet(**house_bar | {"size": (3e-3, 56e-3, 12e-3), "centre": (0.0, 0.0, -6e-3)})    # the bar's ferrite


@lru_cache(maxsize=128)
def pickup(kind, tops=LEVEL, instrument=house_instrument):
    """The pickup with "rods", "screws" that stand on the bar or "short screws", tops (m) as a tuple; kept."""
    pole, bars = (instrument.rod, ()) if kind == "rods" else (
        SteelPole(**house_screw | ({"length": SHORT} if kind == "short screws" else {})), BarMagnet(**house_bar))
    return Pickup(poles=in_a_row(pole, PLACES, np.round(tops, 7)), coils=instrument.long_coil, bars=bars)


def poles_at(kind, tops, instrument=house_instrument):
    """Poles as a RowOfPoles takes them: (y, diameter, top, length) of each, m."""
    return [(pole.y, pole.diameter, pole.top, pole.length) for pole in pickup(kind, tops, instrument).poles]


def strings_over(instrument=house_instrument):
    """Strings as a RowOfPoles takes them: name, y, height, diameter and diameter of the steel of each, m."""
    return [(name, y, instrument.place["string_height"], instrument.strings[name]["diameter"],
             instrument.strings[name]["core"]) for name, y in zip(ROW, PLACES)]


@lru_cache(maxsize=128)
def _pulses(kind, tops, third, instrument, wrap=1.0):
    return first_pulses(pickup(kind, tops, instrument), instrument.row(third=third, wrap_permeability=wrap))


def of_each_coil(whole, row):
    """Sensitivities (V per m/s) of each coil of a Pickup (row) to each of some placed strings (column)."""
    return np.array([sensitivities(replace(whole, coils=coil), row) for coil in whole.coils])


# ---- all six levels --------------------------------------------------------------------------------------------------

@dataclass(frozen=True, kw_only=True)
class StringLevels:
    """Levels by string (dB re string VI, wrapped in bronze, all poles flush), and what the hand's law says of such ones
    (dB re string VI); first pulses (V) at 1 N; tops (m)."""

    levels: np.ndarray
    by_law: np.ndarray
    pulses: np.ndarray
    tops: tuple

    @property
    def spread(self):
        """Highest less lowest level, dB."""
        return float(np.ptp(self.levels))

    @property
    def loudest(self):
        """Name of the loudest string."""
        return ROW[int(np.argmax(self.levels))]

    @property
    def softest(self):
        """Name of the softest string."""
        return ROW[int(np.argmin(self.levels))]


def string_levels(*, kind, third="III", wrap=1.0, instrument=house_instrument, **tops):
    """Levels of the six strings, as StringLevels.

    Parameters
    ----------
    kind : "rods", "screws" or "short screws"
    third : "III" or "III wound"
    wrap : float
        Effective permeability of the wound strings' wraps; 1 for bronze.
    tops : float
        Height of a pole's top by the name of its string (VI=0.5e-3), m; else 0.

    Examples
    --------
    >>> string_levels(kind="rods").loudest
    'III'
    """
    heights = tuple(tops.get(name, 0.0) for name in ROW)
    pulses, flush = _pulses(kind, heights, third, instrument, wrap), _pulses(kind, LEVEL, third, instrument)
    return StringLevels(levels=decibels(pulses, flush[0]), pulses=pulses, tops=heights,
                        by_law=decibels(simple_law(instrument.row(third=third))))


@dataclass(frozen=True, kw_only=True)
class Balanced:
    """What the solver found: tops (m) and levels (dB re string VI) by string, spread (dB), the poles on a bound."""

    tops: tuple
    levels: np.ndarray
    spread: float
    on_a_bound: tuple

    def __str__(self):
        tops = ", ".join(f"{name} {said(in_unit(top, 'mm'), '', '+z.1f')}" for name, top in zip(ROW, self.tops))
        bound = f"; as far as they go: {', '.join(self.on_a_bound)}" if self.on_a_bound else ""
        return f"tops (mm): {tops}\nbetween loudest and softest {said(self.spread, 'dB', '.1f')}{bound}"


@lru_cache(maxsize=8)
def make_equal(kind, *, third="III", lowest=LOWEST, highest=HIGHEST, instrument=house_instrument):
    """Pole heights between two bounds (m) that make the six strings as nearly equally loud as can be, as Balanced.

    Parameters
    ----------
    kind, third
        As in string_levels.
    lowest, highest : float
        Bounds of every pole's top, m.
    """
    row = instrument.row(third=third)
    found = equal_levels(pickup(kind, LEVEL, instrument), row, lowest=lowest, highest=highest)
    near = 0.01 * (highest - lowest)
    stuck = tuple(name for name, top in zip(ROW, found.tops) if min(top - lowest, highest - top) < near)
    return Balanced(tops=tuple(map(float, found.tops)), levels=found.levels - found.levels[0], spread=found.spread,
                    on_a_bound=stuck)


# ---- one pole raised -------------------------------------------------------------------------------------------------

MAP_Y, MAP_Z = np.linspace(-34e-3, 34e-3, 137), np.linspace(0.1e-3, 7.1e-3, 15)      # above the coil form
_HALF_WAY = PLACES + np.where(np.arange(6) < 3, 1, -1) * house_place["string_spacing"] / 2  # from each pole, inwards


@dataclass(frozen=True, kw_only=True)
class Raised:
    """One pole raised: its string's number in the row; changes of level (dB) by string; the upright field (T) at the
    height looked at, over this pole before and after, and half way to the next pole before."""

    number: int
    changes: np.ndarray
    over_pole: tuple
    half_way: float

    @property
    def next_string(self):
        """Number of the neighbour on the thin side, of string I on the thick side."""
        return self.number + 1 if self.number < 5 else 4

    @property
    def far(self):
        """Largest change of a string that is no neighbour, with its sign, dB."""
        others = [change for n, change in enumerate(self.changes) if abs(n - self.number) > 1]
        return max(others, key=abs)


def _tops(number, raised):
    return tuple(raised if n == number else 0.0 for n in range(6))


@lru_cache(maxsize=64)
def _upright(kind, tops, look, instrument):
    """Upright field (T) at one height: along the row, over each pole, half way from each pole to the next."""
    places = (MAP_Y, PLACES, _HALF_WAY)
    y = np.concatenate(places)
    points = np.stack([np.zeros_like(y), y, np.full_like(y, look)], axis=-1)
    field = pickup(kind, tops, instrument).flux_density(points)[:, 2]
    return np.split(field, np.cumsum([part.size for part in places])[:-1])


def raised(*, kind, number, raised, look, instrument=house_instrument):
    """What raising the pole under string *number* (0: VI) does, seen at a height *look* (m), as Raised."""
    both = LEVEL, _tops(number, raised)
    flat, now = (decibels(_pulses(kind, tops, "III", instrument), 1.0) for tops in both)
    (_, before, half_way), (_, after, _) = (_upright(kind, tops, look, instrument) for tops in both)
    return Raised(number=number, changes=now - flat, over_pole=(before[number], after[number]),
                  half_way=half_way[number])


@lru_cache(maxsize=8)
def _unit_maps(rod):
    """B along y and z (T) on the map, one column for each node of a pole with unit current; kept: most stand still."""
    y, z = (grid.ravel() for grid in np.meshgrid(MAP_Y - rod.y, MAP_Z - rod.middle[2]))
    outward, upward = rod.surface.field_matrix(np.abs(y), z)
    return np.sign(y)[:, np.newaxis] * outward, upward


@lru_cache(maxsize=64)
def _map(kind, tops, instrument):
    steady = pickup(kind, tops, instrument).steady
    points = np.stack(np.broadcast_arrays(0.0, MAP_Y, MAP_Z[:, np.newaxis]), axis=-1)
    field = sum((bar.flux_density(points)[..., 1:] for bar in steady.bars), np.zeros(points.shape[:2] + (2,)))
    for rod, current in zip(steady.rods.rods, steady.rods.currents):
        field += np.stack([unit @ current for unit in _unit_maps(rod)], axis=-1).reshape(field.shape)
    return np.linalg.norm(field, axis=-1)


def raised_map(*, kind, number, raised, look, instrument=house_instrument):
    """What FieldOverSix.update takes but for its words; B in shares of that over this pole with all flush."""
    now = _tops(number, raised)
    flat, before, _ = _upright(kind, LEVEL, look, instrument)
    moved, after, _ = _upright(kind, now, look, instrument)
    unit = before[number]
    return {"size": _map(kind, now, instrument), "poles": poles_at(kind, now, instrument), "steel": kind != "rods",
            "look": look, "number": number, "across": MAP_Y, "flat": flat / unit, "moved": moved / unit,
            "over": (PLACES[number], 1.0, after[number] / unit)}


# ---- bent sideways ---------------------------------------------------------------------------------------------------

ARRANGEMENTS = ("rods", "screws", "six coils", "alternating", "blade")
BEND = house_place["string_spacing"]
_HEIGHTS, _BENDS = np.linspace(2e-3, 4e-3, 4), np.linspace(0, BEND, 11)


@lru_cache(maxsize=8)
def arranged(name, instrument=house_instrument):
    """One of the ARRANGEMENTS of the instrument's parts as a Pickup.

    "six coils": one small coil round each rod, all alike. "alternating": the same with every second coil and rod
    reversed. "blade": one upright bar magnet in the long coil.
    """
    if name in ("rods", "screws"):
        return pickup(name, LEVEL, instrument)
    if name == "blade":
        return Pickup(poles=(), coils=instrument.long_coil, bars=BLADE)
    rods, coils = pickup("rods", LEVEL, instrument).poles, in_a_row(instrument.small_coil, PLACES)
    if name == "alternating":
        rods = tuple(replace(rod, remanence=(-1) ** n * rod.remanence) for n, rod in enumerate(rods))
        coils = tuple(replace(coil, winding_sense=(-1) ** n) for n, coil in enumerate(coils))
    return Pickup(poles=rods, coils=coils)


@lru_cache(maxsize=8)
def _bent(name, instrument):
    """Sensitivity (V per m/s) of string IV over height and bend, as a spline."""
    string = instrument.row()[2]
    to_the_middle = _BENDS[:len(_BENDS) // 2 + 1]       # of all six poles; beyond it the way is the same, mirrored
    y = string.y + to_the_middle
    half = arranged(name, instrument).sensitivity(string.steel, height=_HEIGHTS[:, np.newaxis], y=y)
    table = np.concatenate([half, half[:, -2::-1]], axis=1)
    return RectBivariateSpline(_HEIGHTS, _BENDS, table)


def bent_sensitivity(name, height, bend, instrument=house_instrument):
    """V per m/s of string IV at a height, pushed from its pole towards string III's by *bend* (m; arrays broadcast)."""
    return _bent(name, instrument).ev(height, bend)


def bent_level(name, height, bend, instrument=house_instrument):
    """Level of string IV pushed sideways, dB re over its own pole."""
    return decibels(bent_sensitivity(name, height, bend, instrument), bent_sensitivity(name, height, 0.0, instrument))


WAY = np.linspace(0, BEND, 103)


@dataclass(frozen=True, kw_only=True)
class BentLevels:
    """Levels (dB re the string over its pole) by arrangement: here, on the WAY, and at the lowest point of it."""

    here: dict
    on_the_way: dict

    @property
    def dip(self):
        """Levels at the lowest point of the way."""
        return {name: float(levels.min()) for name, levels in self.on_the_way.items()}


def bent_levels(*, bend, height, instrument=house_instrument):
    """Levels of string IV pushed sideways over every arrangement, as BentLevels."""
    return BentLevels(here={name: float(bent_level(name, height, bend, instrument)) for name in ARRANGEMENTS},
                      on_the_way={name: bent_level(name, height, WAY, instrument) for name in ARRANGEMENTS})


def bell_width(name):
    """The w (m) of the fitted law: level = -8.686 (bend/w)^2 dB, through the computed level at 3.5 mm."""
    level = float(bent_level(name, house_place["string_height"], 3.5e-3))
    return 3.5e-3 / math.sqrt(-level / (20 / math.log(10)))
