"""Lines of flux in the upright cut through a string over its pole, with the string and without it.

A field in the cut is a function of x and z (m, arrays of one shape) that gives B_x and B_z (T): `rod_field` of a rod
alone, `pickup_field` of a whole pickup.
"""
import math
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0, pi
from scipy.integrate import cumulative_trapezoid
from scipy.interpolate import interp1d

from lessons_lib.physics.steel import STRING_PLACES
from lessons_lib.pictures.flux_lines import crossings

FRAME = {"half_width": 17e-3, "bottom": -5e-3, "top": 8e-3}
_GRID = 0.2e-3          # m, of the rod's field as it is kept
_LOWEST = FRAME["bottom"] - 2e-3        # m, of the grid: lines end within a millimetre and a half outside the frame
_APART = 1e-3           # m, from one kept cut through a whole pickup to the next
_FINE = 0.1e-3          # m, of what varies along the string as it is kept
_SEED_HEIGHT = 0.8e-3   # m: below the nearest string
_TUBE = 0.5e-6          # Wb from seed to seed without the string, all the way round the axis
_STEPS = 85
_IN_STEEL = 0.3e-3      # m, a step inside the string; near its surface steps are shorter
_ABOVE = np.array([0.4, 1.4, 2.8, 4.4, 6.4, 8.8, 11.5]) * 1e-3   # m, seeds above the string


@lru_cache(maxsize=2)
def _round_grid(rod):
    """Distances from the axis (m), and the rod's B_rho and B_z (T) there at every height."""
    rho = np.arange(0, 23e-3, _GRID)
    z = np.arange(_LOWEST, FRAME["top"] + 2e-3, _GRID)
    field = rod.flux_density(np.stack(np.broadcast_arrays(rho, 0.0, z[:, None]), axis=-1))
    return rho, np.nan_to_num(field[..., [0, 2]])


class _Table:
    """B_x and B_z (T) kept on a grid of the cut, x from -2 mm on, a row for every height; looked up between nodes."""

    def __init__(self, field, x):
        self._field, self._row_length = field.reshape(-1, 2), len(x)

    def __call__(self, x, z):
        table = self._field
        row, column = (z - _LOWEST) / _GRID, (x + 2e-3) / _GRID
        i, j = row.astype(int), column.astype(int)
        up, right, at = (row - i)[:, None], (column - j)[:, None], i * self._row_length + j
        low = (1 - right) * table[at] + right * table[at + 1]
        at = at + self._row_length
        high = (1 - right) * table[at] + right * table[at + 1]
        return (low + up * (high - low)).T


def _grid():
    """Places x and heights z (m) of the kept field; both sides of the pole see the same."""
    return np.arange(-2e-3, FRAME["half_width"] + 3e-3, _GRID), np.arange(_LOWEST, FRAME["top"] + 2e-3, _GRID)


@lru_cache(maxsize=64)
def rod_field(rod, place):
    """The field of a rod alone, about x = 0, in the cut at a *place* (m) across."""
    rho, field = _round_grid(rod)
    x, _ = _grid()
    away = np.hypot(x, place)
    outward, upward = interp1d(rho, field, axis=1)(away).transpose(2, 0, 1)
    share = np.divide(x, away, out=np.zeros_like(x), where=away > 0)
    return _Table(np.stack([outward * share, upward], axis=-1), x)


@lru_cache(maxsize=64)
def pickup_field(pickup, pole, place):
    """The field of a whole pickup, poles at x = 0, in the cut at a *place* (m) beside its pole at y = *pole*.

    Worked out at whole millimetres; between two of them, straight lines.
    """
    low = math.floor(place / _APART) * _APART
    share, near = place / _APART - round(low / _APART), _cut_of(pickup, round(pole + low, 9))
    if share < 1e-9:
        return _Table(near, _grid()[0])
    return _Table((1 - share) * near + share * _cut_of(pickup, round(pole + low + _APART, 9)), _grid()[0])


@lru_cache(maxsize=16)
def _cut_of(pickup, y):
    x, z = _grid()
    right = x[x > -_GRID / 2]
    points = np.stack(np.broadcast_arrays(right, y, z[:, None]), axis=-1)
    field = np.nan_to_num(pickup.flux_density(points)[..., [0, 2]])
    left = field[:, len(x) - len(right):0:-1] * (-1, 1)
    return np.concatenate([left, field], axis=1)


class StringInCut:
    """Field of a magnetised string in the upright plane through its axis, outside and inside the steel.

    Notes
    -----
    Along the string: charge -d(mu0 M A)/dx on every piece between two nodes. Across it: every slice a long cylinder.
    """

    def __init__(self, magnetised, height):
        self.height, self.radius = height, magnetised.string.magnetic_radius
        M = magnetised.magnetisation
        charge = -mu_0 * magnetised.string.area * np.diff(M[:, 0]) / np.diff(STRING_PLACES)      # Wb/m
        self._steps = -np.diff(charge, prepend=0.0, append=0.0)      # of the charge from piece to piece, at the nodes
        along = magnetised.flux() / magnetised.string.area
        places = np.arange(-2e-3, FRAME["half_width"] + 3e-3, _FINE)
        self._table = np.stack([np.interp(places, STRING_PLACES, values) for values in (
            along, np.gradient(along, STRING_PLACES), mu_0 * M[:, 2] / 2)], axis=1)

    def total(self, x, z, bx, bz):
        """B_x and B_z (T) at places of the cut (m), where the rod alone gives bx and bz."""
        off = z - self.height
        inside = np.abs(off) < self.radius
        away = np.where(inside, np.copysign(self.radius, off), off)
        outside_x, outward = self._of_charge(x, away)
        along, slope, across = self._at(x)
        cylinder = across * (self.radius / away) ** 2
        return (np.where(inside, along, bx + outside_x),
                bz + cylinder + np.where(inside, -off / 2 * slope, outward))

    def _at(self, x):
        """Flux density along the string, its slope, and the part across: straight lines from node to node."""
        column = (x + 2e-3) / _FINE
        left = column.astype(int)
        return (self._table[left] + (column - left)[:, None] * (self._table[left + 1] - self._table[left])).T

    def _of_charge(self, x, away):
        """B along the string and away from it, of pieces of a line with even charge: end points alone."""
        ahead = STRING_PLACES - x[:, None]
        distance = np.hypot(ahead, away[:, None])
        along = (1 / distance) @ self._steps
        outward = (ahead / distance) @ self._steps / away
        return along / (4 * pi), outward / (4 * pi)


def _direction(field, x, z, string):
    bx, bz = field(x, z)
    if string is not None:
        bx, bz = string.total(x, z, bx, bz)
    size = np.hypot(bx, bz)
    return bx / size, bz / size


def _step(z, string):
    """Short steps near the string's surface, long ones elsewhere (m)."""
    if string is None:
        return np.full_like(z, 0.4e-3)
    off = np.abs(np.abs(z - string.height) - string.radius)
    inside = np.abs(z - string.height) < string.radius
    return np.where(inside, _IN_STEEL, np.clip(0.7 * off, 0.12e-3, 1.0e-3))


def trace(field, x, z, sense, string=None):
    """Follow a field and that of a string from seeds (m) by the midpoint rule, with it (sense 1) or against it (-1).

    Returns shape (2, seeds, steps): x and z, NaN after a line has left the frame.
    """
    lines = np.full((2, len(x), _STEPS), np.nan)
    lines[:, :, 0] = x, z
    going = np.arange(len(x))
    for step in range(1, _STEPS):
        length = sense * _step(z, string)
        at_start = _direction(field, x, z, string)
        dx, dz = _direction(field, x + at_start[0] * length / 2, z + at_start[1] * length / 2, string)
        x, z = x + dx * length, z + dz * length
        # a line that turns within a long step, away from the steel, has come to a place without field, where it ends
        steady = (at_start[0] * dx + at_start[1] * dz > 0.5) | (np.abs(length) <= _IN_STEEL)
        lines[:, going, step] = np.where(steady, (x, z), np.nan)
        stays = (steady & (np.abs(x) < FRAME["half_width"] + 1e-3)
                 & (z > FRAME["bottom"] - 0.5e-3) & (z < FRAME["top"] + 0.5e-3))
        if not stays.all():
            x, z, sense, going = x[stays], z[stays], sense[stays], going[stays]
        if not len(going):
            break
    return lines


@lru_cache(maxsize=4)
def seeds_of_rod(rod):
    """Distances (m) from the axis where a rod's flux through the circle passes equal steps, up and down again."""
    rho = np.linspace(0, FRAME["half_width"], 200)
    return _equal_steps(rho, rod.flux_function(rho, _SEED_HEIGHT))


@lru_cache(maxsize=8)
def seeds_in(field):
    """The same by a field in the cut through the middle of the pole, as if it were round."""
    rho = np.linspace(0, FRAME["half_width"], 200)
    upward = field(rho, np.full_like(rho, _SEED_HEIGHT))[1]
    return _equal_steps(rho, cumulative_trapezoid(2 * pi * rho * upward, rho, initial=0.0))


def _equal_steps(rho, flux):
    return np.concatenate([side[side < 13e-3] for side in crossings(rho, flux, _TUBE)])


@lru_cache(maxsize=64)
def lines_without(field, seeds, beside=False):
    """Lines of a field from *seeds* (a tuple, m) up and down, as `trace` gives them; *beside* the pole none below its
    face, where the cut has nothing to show."""
    seeds = np.array(seeds)
    sense = np.repeat([1.0, -1.0], len(seeds))
    up, down = np.split(trace(field, np.tile(seeds, 2), np.full(len(sense), _SEED_HEIGHT), sense), 2, axis=1)
    if beside:
        down[:, down[1] < 0.3e-3] = np.nan
    return up, down


def lines_with(field, seeds, string):
    """From below the string (`StringInCut`) upward, and both ways from above it: what comes out again on top."""
    seeds = np.concatenate([seeds, _ABOVE, _ABOVE])
    below = len(seeds) - 2 * len(_ABOVE)
    heights = np.where(np.arange(len(seeds)) < below, _SEED_HEIGHT, string.height + 1.5e-3)
    sense = np.where(np.arange(len(seeds)) < len(seeds) - len(_ABOVE), 1.0, -1.0)
    return trace(field, seeds, heights, sense, string)


def both_sides(*groups):
    """One path of many lines, parted by NaN, with their mirror images at x < 0: x and z, m."""
    x, z = np.concatenate([np.pad(lines, ((0, 0), (0, 0), (0, 1)), constant_values=np.nan).reshape(2, -1)
                           for lines in groups], axis=1)
    return np.concatenate([x, -x]), np.concatenate([z, z])
