"""Lines of flux in the upright cut through a string over the house rod, with the string and without it."""
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0, pi

from ..pictures.flux_lines import crossings
from ..physics.steel import STRING_PLACES
from .lesson_03_numbers import ROD, fields_along, steel_string

FRAME = {"half_width": 17e-3, "bottom": -5e-3, "top": 8e-3}
_GRID = 0.2e-3          # m, of the rod's field as it is kept
_SEED_HEIGHT = 0.8e-3   # m: below the nearest string
_TUBE = 0.5e-6          # Wb from seed to seed without the string, all the way round the axis
_STEPS = 85
_ABOVE = np.array([0.4, 1.4, 2.8, 4.4, 6.4, 8.8, 11.5]) * 1e-3   # m, seeds above the string


@lru_cache(maxsize=1)
def _rod_grid():
    """B_rho and B_z (T) of the rod on a grid of distance from the axis and height."""
    rho = np.arange(0, 20e-3, _GRID)
    z = np.arange(FRAME["bottom"] - 1e-3, FRAME["top"] + 1e-3, _GRID)
    points = np.stack([*np.broadcast_arrays(rho, 0.0, z[:, None])], axis=-1)
    field = ROD.flux_density(points)
    return z[0], np.nan_to_num(field[..., [0, 2]])


def _rod_field(x, z, place):
    """B_x and B_z of the rod in the cut at a place across, looked up in the grid."""
    low, table = _rod_grid()
    rho = np.hypot(x, place)
    row, column = (z - low) / _GRID, rho / _GRID
    i = np.clip(row.astype(int), 0, table.shape[0] - 2)
    j = np.clip(column.astype(int), 0, table.shape[1] - 2)
    up, right = (row - i)[:, None], (column - j)[:, None]
    outward, upward = ((1 - up) * ((1 - right) * table[i, j] + right * table[i, j + 1])
                       + up * ((1 - right) * table[i + 1, j] + right * table[i + 1, j + 1])).T
    return outward * np.divide(x, rho, out=np.zeros_like(x), where=rho > 0), upward


class StringInCut:
    """Field of a magnetised string in the upright plane through its axis, outside and inside the steel.

    Notes
    -----
    Along the string: charge -d(mu0 M A)/dx on every piece between two nodes. Across it: every slice a long cylinder.
    """

    def __init__(self, magnetised, height):
        self.height, self.radius = height, magnetised.string.magnetic_radius
        M = magnetised.magnetisation
        self._charge = -mu_0 * magnetised.string.area * np.diff(M[:, 0]) / np.diff(STRING_PLACES)      # Wb/m
        self._along = magnetised.flux() / magnetised.string.area
        self._slope = np.gradient(self._along, STRING_PLACES)
        self._across = mu_0 * M[:, 2] / 2
        self._table = np.stack([self._along, self._slope, self._across], axis=1)

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
        right = np.clip(np.searchsorted(STRING_PLACES, x), 1, len(STRING_PLACES) - 1)
        share = (x - STRING_PLACES[right - 1]) / (STRING_PLACES[right] - STRING_PLACES[right - 1])
        return (self._table[right - 1] + share[:, None] * (self._table[right] - self._table[right - 1])).T

    def _of_charge(self, x, away):
        ahead = STRING_PLACES - x[:, None]
        distance = np.hypot(ahead, away[:, None])
        along = np.diff(1 / distance, axis=1) @ self._charge
        outward = np.diff(ahead / distance, axis=1) @ self._charge / away
        return along / (4 * pi), outward / (4 * pi)


def _direction(x, z, place, string):
    bx, bz = _rod_field(x, z, place)
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
    return np.where(inside, 0.3e-3, np.clip(0.6 * off, 0.08e-3, 0.8e-3))


def trace(x, z, sense, place, string=None):
    """Follow the field from seeds (m) by the midpoint rule, with it (sense 1) or against it (-1).

    Returns shape (2, seeds, steps): x and z, NaN after a line has left the frame.
    """
    lines = np.full((2, len(x), _STEPS), np.nan)
    lines[:, :, 0] = x, z
    going = np.arange(len(x))
    for step in range(1, _STEPS):
        length = sense * _step(z, string)
        dx, dz = _direction(x, z, place, string)
        dx, dz = _direction(x + dx * length / 2, z + dz * length / 2, place, string)
        x, z = x + dx * length, z + dz * length
        lines[:, going, step] = x, z
        stays = (np.abs(x) < FRAME["half_width"] + 1e-3) & (z > FRAME["bottom"] - 0.5e-3) & (z < FRAME["top"] + 0.5e-3)
        if not stays.all():
            x, z, sense, going = x[stays], z[stays], sense[stays], going[stays]
        if not len(going):
            break
    return lines


@lru_cache(maxsize=1)
def _seeds():
    """Distances from the axis where the rod's flux through the circle passes equal steps, up and down again."""
    rho = np.linspace(0, FRAME["half_width"], 200)
    flux = ROD.flux_function(rho, _SEED_HEIGHT)
    return np.concatenate([side[side < 13e-3] for side in crossings(rho, flux, _TUBE)])


@lru_cache(maxsize=64)
def _lines_without(place):
    """From the seeds up and down: two arrays as trace gives them."""
    seeds = _seeds()
    sense = np.repeat([1.0, -1.0], len(seeds))
    up, down = np.split(trace(np.tile(seeds, 2), np.full(len(sense), _SEED_HEIGHT), sense, place), 2, axis=1)
    if place > ROD.diameter / 2:      # beside the rod the cut has nothing to show below its face
        down[:, down[1] < 0.3e-3] = np.nan
    return up, down


def _lines_with(place, string):
    """From below the string upward, and both ways from above it: what comes out again on top."""
    below = _seeds()
    seeds = np.concatenate([below, _ABOVE, _ABOVE])
    heights = np.where(np.arange(len(seeds)) < len(below), _SEED_HEIGHT, string.height + 1.5e-3)
    sense = np.where(np.arange(len(seeds)) < len(seeds) - len(_ABOVE), 1.0, -1.0)
    return trace(seeds, heights, sense, place, string)


def both_sides(*groups):
    """One path of many lines, parted by NaN, with their mirror images at x < 0: x and z, m."""
    x, z = np.concatenate([np.pad(lines, ((0, 0), (0, 0), (0, 1)), constant_values=np.nan).reshape(2, -1)
                           for lines in groups], axis=1)
    return np.concatenate([x, -x]), np.concatenate([z, z])


@lru_cache(maxsize=64)
def cut(*, height, place, core, permeability, saturates):
    """What StringCut.update and FluxAlongString.update take."""
    magnetised = steel_string(core, permeability, saturates).magnetise(fields_along(height, place)[0])
    up, down = _lines_without(place)
    through = _lines_with(place, StringInCut(magnetised, height))
    near = np.abs(STRING_PLACES) < FRAME["half_width"]
    return {"cut": {"with_string": both_sides(down, through), "without": both_sides(down, up), "height": height,
                    "core": core, "place": place},
            "along": {"x": STRING_PLACES[near], "flux": magnetised.flux()[near]}}
