"""Lines of flux in the upright cut through a string over the house rod, with the string and without it."""
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0, pi
from scipy.ndimage import map_coordinates

from ..pictures.flux_lines import crossings
from ..physics.steel import STRING_PLACES
from .lesson_03_numbers import ROD, fields_along, steel_string

FRAME = {"half_width": 17e-3, "bottom": -5e-3, "top": 8e-3}
_GRID = 0.2e-3          # m, of the rod's field as it is kept
_SEED_HEIGHT = 0.8e-3   # m: below the nearest string
_TUBE = 0.5e-6          # Wb from seed to seed without the string, all the way round the axis
_STEPS = 170


@lru_cache(maxsize=1)
def _rod_grid():
    """B_rho and B_z (T) of the rod on a grid of distance from the axis and height."""
    rho = np.arange(0, 20e-3, _GRID)
    z = np.arange(FRAME["bottom"] - 1e-3, FRAME["top"] + 1e-3, _GRID)
    points = np.stack([*np.broadcast_arrays(rho, 0.0, z[:, None])], axis=-1)
    field = ROD.flux_density(points)
    return z[0], np.nan_to_num(field[..., 0]), np.nan_to_num(field[..., 2])


def _rod_field(x, z, place):
    """B_x and B_z of the rod in the cut at a place across, looked up in the grid."""
    low, radial, upward = _rod_grid()
    rho = np.hypot(x, place)
    where = [(z - low) / _GRID, rho / _GRID]
    outward, up = (map_coordinates(part, where, order=1, mode="nearest") for part in (radial, upward))
    return outward * np.divide(x, rho, out=np.zeros_like(x), where=rho > 0), up


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

    def added(self, x, z):
        """B_x and B_z (T) that the string adds at places of the cut, and where these are inside the steel."""
        off = z - self.height
        inside = np.abs(off) < self.radius
        away = np.where(inside, np.copysign(self.radius, off), off)
        along, outward = self._of_charge(x, away)
        cylinder = np.interp(x, STRING_PLACES, self._across) * (self.radius / away) ** 2
        return along, outward + cylinder, inside

    def inside(self, x, z):
        """B_x and B_z (T) in the steel, but for the field across that stands in it."""
        return (np.interp(x, STRING_PLACES, self._along),
                np.interp(x, STRING_PLACES, self._across)
                - (z - self.height) / 2 * np.interp(x, STRING_PLACES, self._slope))

    def _of_charge(self, x, away):
        ahead = STRING_PLACES - x[:, None]
        distance = np.hypot(ahead, away[:, None])
        along = np.diff(1 / distance, axis=1) @ self._charge
        outward = np.diff(ahead / distance, axis=1) @ self._charge / away
        return along / (4 * pi), outward / (4 * pi)


def _direction(x, z, place, string):
    bx, bz = _rod_field(x, z, place)
    if string is not None:
        along, outward, inside = string.added(x, z)
        steel_x, steel_z = string.inside(x, z)
        bx = np.where(inside, steel_x, bx + along)
        bz = np.where(inside, bz + steel_z, bz + outward)
    size = np.hypot(bx, bz)
    return bx / size, bz / size


def _step(z, string):
    """Short steps near the string's surface, long ones elsewhere (m)."""
    if string is None:
        return np.full_like(z, 0.3e-3)
    off = np.abs(np.abs(z - string.height) - string.radius)
    inside = np.abs(z - string.height) < string.radius
    return np.where(inside, 0.12e-3, np.clip(0.5 * off, 0.06e-3, 0.4e-3))


def trace(x, z, place, string=None, backward=False):
    """Follow the field from seeds by the midpoint rule; shape (seeds, steps), NaN after a line has left the frame."""
    sense = -1.0 if backward else 1.0
    lines = np.full((2, len(x), _STEPS), np.nan)
    lines[:, :, 0] = x, z
    going = np.arange(len(x))
    x, z = np.array(x, dtype=float), np.array(z, dtype=float)
    for step in range(1, _STEPS):
        length = sense * _step(z, string)
        dx, dz = _direction(x, z, place, string)
        dx, dz = _direction(x + dx * length / 2, z + dz * length / 2, place, string)
        x, z = x + dx * length, z + dz * length
        lines[:, going, step] = x, z
        stays = (np.abs(x) < FRAME["half_width"] + 1e-3) & (z > FRAME["bottom"] - 0.5e-3) & (z < FRAME["top"] + 0.5e-3)
        x, z, going = x[stays], z[stays], going[stays]
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
    seeds = _seeds()
    z = np.full_like(seeds, _SEED_HEIGHT)
    return trace(seeds, z, place), trace(seeds, z, place, backward=True)


def both_sides(lines):
    """One path of many lines, parted by NaN, with their mirror images at x < 0: x and z, m."""
    x, z = (np.concatenate([part, np.full((len(part), 1), np.nan)], axis=1).ravel() for part in lines)
    return np.concatenate([x, -x]), np.concatenate([z, z])


@lru_cache(maxsize=64)
def cut(*, height, place, core, permeability, saturates):
    """What StringCut.update and FluxAlongString.update take."""
    magnetised = steel_string(core, permeability, saturates).magnetise(fields_along(height, place)[0])
    without, below = _lines_without(place)
    seeds = _seeds()
    upward = trace(seeds, np.full_like(seeds, _SEED_HEIGHT), place, StringInCut(magnetised, height))
    near = np.abs(STRING_PLACES) < FRAME["half_width"]
    return {"cut": {"with_string": both_sides(np.concatenate([below[:, :, ::-1], upward], axis=2)),
                    "without": both_sides(np.concatenate([below[:, :, ::-1], without], axis=2)),
                    "height": height, "core": core, "place": place},
            "along": {"x": STRING_PLACES[near], "flux": magnetised.flux()[near]}}
