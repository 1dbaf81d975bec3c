"""The flux that a string carries, as lines in space: from the pole to the steel, along it and out into the air again.

A body is what makes the field: a rod magnet alone, with its axis at x = y = 0, or a `PoleInPickup`, a pole with all
that is around it.
"""
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0, pi
from scipy.interpolate import RegularGridInterpolator

from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.steel import STRING_PLACES

# m, of what is drawn; lines end a little beyond
FRAME = {"half_width": 12e-3, "sides": (-7e-3, 9.8e-3), "bottom": -4.5e-3, "top": 8e-3}
SLICE = 2e-3            # m along the string: of what it gathers there the view of its end shows the lines
PALE_LINES = 7          # of the body without a string, from its axis to its wall
_GRID, _REACH, _BELOW, _ABOVE = 0.2e-3, 26e-3, 3e-3, 4e-3      # m, of a rod's field as it is kept, and beyond the frame
# m, from the rim of a pole of a pickup outward and from its face up and down: where its field is kept
_FROM_RIM = np.array([-0.2, 0.2, 0.6, 1.1, 1.8, 2.7, 4.0, 5.5, 7.5, 10.0, 16.0]) * 1e-3
_FROM_FACE = np.array([0.2, 0.6, 1.2, 2.0, 3.0, 4.0]) * 1e-3
_BEYOND = 1e-3          # m, lines end so far outside of the frame
_STEPS = 70
_TO_THE_RIGHT = np.linspace(0, FRAME["half_width"] + _BEYOND, 261)       # m


@dataclass(frozen=True)
class PoleInPickup:
    """A pole of a pickup with the field of all of it; places are counted from the middle of the pole's face."""

    pickup: Pickup
    number: int

    @property
    def diameter(self):
        """Of the pole, m."""
        return self.pickup.poles[self.number].diameter

    def flux_density(self, points):
        """B (T) at points (m), both of shape (..., 3)."""
        pole = self.pickup.poles[self.number]
        return self.pickup.flux_density(np.asarray(points) + (pole.x, pole.y, 0.0))


@lru_cache(maxsize=8)
def _round_grid(rod, bottom, top, grid, reach):
    """The rod's B_rho and B_z (T) at distances from its axis and heights, and the distances in a row."""
    rho, z = np.arange(0, reach, grid), np.arange(bottom - _BELOW, top + _ABOVE, grid)
    field = rod.flux_density(np.stack(np.broadcast_arrays(rho, 0.0, z[:, None]), axis=-1))
    return np.nan_to_num(field[..., [0, 2]]).reshape(-1, 2), len(rho)


@lru_cache(maxsize=8)
def _grid_in_space(body, bottom, top):
    """The field of a pole in a pickup, kept at places that are closer together near the rim of its face."""
    rim = body.diameter / 2
    out = np.concatenate([rim * np.array([0.0, 0.4, 0.8]), rim + _FROM_RIM])
    along = np.arange(bottom - _BELOW, top + _ABOVE, 2e-3)
    z = np.sort(np.concatenate([along[np.abs(along) > 4e-3], -_FROM_FACE, _FROM_FACE]))
    places = np.stack(np.meshgrid(out, np.concatenate([-out[:0:-1], out]), z, indexing="ij"), axis=-1)
    return RegularGridInterpolator((out, places[0, :, 0, 1], z), np.nan_to_num(body.flux_density(places)),
                                   bounds_error=False, fill_value=None)


def field_of(body, x, y, z, frame=FRAME):
    """B (T) of a body without a string, shape (3, n), looked up in what is kept of it in the *frame*."""
    if isinstance(body, PoleInPickup):
        side = np.where(x < 0, -1.0, 1.0)
        bx, by, bz = _grid_in_space(body, frame["bottom"], frame["top"])(np.stack([side * x, y, z], axis=-1)).T
        return np.stack([side * bx, by, bz])
    grid = frame.get("grid", _GRID)
    table, row_length = _round_grid(body, frame["bottom"], frame["top"], grid, frame.get("reach", _REACH))
    rho = np.hypot(x, y)
    row, column = (z - frame["bottom"] + _BELOW) / grid, rho / grid
    i, j = row.astype(int), column.astype(int)
    up, right, at = (row - i)[:, None], (column - j)[:, None], i * row_length + j
    low = (1 - right) * table[at] + right * table[at + 1]
    high = (1 - right) * table[at + row_length] + right * table[at + row_length + 1]
    outward, upward = (low + up * (high - low)).T
    share = np.divide(outward, rho, out=np.zeros_like(rho), where=rho > 0)
    return np.stack([x * share, y * share, upward])


class StringInSpace:
    """Field of a magnetised string outside of its steel, and where its flux goes in and out.

    Notes
    -----
    Along the string: charge -d(mu0 M A)/dx on every piece between two nodes. Across it: every slice a long cylinder.
    The flux through the string is in even steps from one line to the next, so there are as many lines as there is flux.
    """

    def __init__(self, magnetised, *, height, place):
        self.height, self.place, self.radius = height, place, magnetised.string.magnetic_radius
        M = magnetised.magnetisation
        charge = -mu_0 * magnetised.string.area * np.diff(M[:, 0]) / np.diff(STRING_PLACES)      # Wb/m
        self._steps = -np.diff(charge, prepend=0.0, append=0.0)      # of the charge from piece to piece, at the nodes
        self._across = M[:, 1:].T
        self._flux = np.interp(_TO_THE_RIGHT, STRING_PLACES, magnetised.flux())

    def flux_density(self, x, y, z):
        """B (T), shape (3, n)."""
        off = np.stack([y - self.place, z - self.height])
        away = np.hypot(*off)
        ahead = STRING_PLACES - x[:, None]
        inverse = 1 / np.hypot(ahead, away[:, None])
        along, outward = inverse @ self._steps / (4 * pi), (ahead * inverse) @ self._steps / away / (4 * pi)
        off = off / away
        across, share = self.across(x), mu_0 / 2 * (self.radius / away) ** 2
        return np.stack([along, *(outward * off + share * (2 * (across * off).sum(0) * off - across))])

    def across(self, x):
        """The part of its magnetisation (A/m) that is not along the string, shape (2, n): y and z."""
        return np.stack([np.interp(x, STRING_PLACES, part) for part in self._across])

    def ways(self, tube):
        """Where lines go into the steel and come out again, for x > 0: two arrays of x (m), NaN: beyond the frame."""
        peak = self._flux.argmax()
        levels = tube * (np.arange(int(self._flux[peak] / tube) + 1) + 0.5)
        levels = levels[levels < self._flux[peak]]
        into = np.interp(levels, self._flux[:peak + 1], _TO_THE_RIGHT[:peak + 1])
        return into, np.interp(levels, self._flux[:peak - 1:-1], _TO_THE_RIGHT[:peak - 1:-1], left=np.nan)

    def surface(self, x, side):
        """Places (3, n) just outside the steel, where the field across it goes in (side -1) or comes out (1)."""
        across = self.across(x)
        return self._near(x, side * across / np.hypot(*across))

    def _near(self, x, direction):
        return np.stack([x, *(np.array([[self.place], [self.height]]) + 1.05 * self.radius * direction)])

    def out_of_the_steel(self, body, x):
        """Places (3, n) where lines come out: every second one on the other side, where flux comes out there, too."""
        places, others = self.surface(x, 1), self.surface(x, -1)
        outward = (others - places)[1:]
        other = (outward * (field_of(body, *others) + self.flux_density(*others))[1:]).sum(0) > 0
        return np.where(other & (np.arange(len(x)) % 2 == 1), others, places)

    def round_the_middle(self, body, tube):
        """Places (3, n) round the steel at x = 0 where lines come in: one for each tube of what a slice gathers."""
        angles = np.linspace(0, 2 * pi, 73)
        direction = np.stack([np.cos(angles), np.sin(angles)])
        places = self._near(0 * angles, direction)
        inward = -(direction * (field_of(body, *places) + self.flux_density(*places))[1:]).sum(0)
        turned = np.roll(np.maximum(inward[:-1], 0), -inward[:-1].argmin())      # begin where nothing comes in
        share = np.concatenate([[0.0], np.cumsum(turned)]) / turned.sum()
        gathered = SLICE * (self._flux[1] - self._flux[0]) / (_TO_THE_RIGHT[1] - _TO_THE_RIGHT[0])
        lines = round(gathered / tube)
        found = np.interp((np.arange(lines) + 0.5) / lines, share, angles) + angles[inward[:-1].argmin()]
        return self._near(0 * found, np.stack([np.cos(found), np.sin(found)]))


def trace(body, start, sense, string=None, frame=FRAME):
    """Follow the field of body and string from places (3, n) by the midpoint rule.

    With it (sense 1) or against it (-1). Returns shape (3, n, steps), NaN after a line has left the frame or come to
    the steel.
    """
    def direction(place):
        field = field_of(body, *place, frame)
        if string is not None:
            field = field + string.flux_density(*place)
        return field / np.linalg.norm(field, axis=0)

    sense, going = np.asarray(sense, dtype=float), np.arange(start.shape[1])
    lines = np.full((*start.shape, _STEPS), np.nan)
    lines[..., 0] = place = start
    for step in range(1, _STEPS):
        length = 0.6e-3
        if string is not None:
            away = np.hypot(place[1] - string.place, place[2] - string.height)
            length = np.clip(0.4 * away, 0.12e-3, 0.8e-3)
        half = place + direction(place) * sense * length / 2
        place = place + direction(half) * sense * length
        lines[:, going, step] = place
        x, y, z = place
        stays = ((np.abs(x) < frame["half_width"] + _BEYOND) & (np.abs(y) < 16e-3)
                 & (z > frame["bottom"] - _BEYOND) & (z < frame["top"] + _BEYOND))
        if string is not None:
            stays &= np.hypot(y - string.place, z - string.height) > 0.95 * string.radius
        if not stays.all():
            place, sense, going = place[:, stays], sense[stays], going[stays]
        if not len(going):
            break
    return lines


@lru_cache(maxsize=2)
def pale_lines(body):
    """Lines of the body without a string, in a plane through its axis: x and z (m) on both sides, parted by NaN."""
    start = body.diameter / 2 * (np.arange(PALE_LINES) + 0.5) / PALE_LINES
    lines = trace(body, np.stack([start, 0 * start, 0 * start + FRAME["bottom"]]), np.ones(PALE_LINES))
    x, _, z = one_path(lines)
    return np.concatenate([x, -x]), np.concatenate([z, z])


def one_path(lines):
    """Many lines as one path, parted by NaN: (3, n)."""
    path = np.pad(lines, ((0, 0), (0, 0), (0, 1)), constant_values=np.nan).reshape(3, -1)
    void = np.isnan(path[0])
    return path[:, ~void | ~np.roll(void, 1)]


def lines_through(body, string, tube):
    """Lines (3, n, steps) that the string carries to the right, and those that come to it in the plane x = 0.

    Returns
    -------
    (from the body to the steel, in the steel, out of it, from the body to the steel in the plane x = 0)
    """
    into, out = string.ways(tube)
    stays, count = ~np.isnan(out), len(into)
    ends = [string.surface(into, -1), string.round_the_middle(body, tube), string.out_of_the_steel(body, out[stays])]
    to_steel, to_middle, away = np.split(
        trace(body, np.concatenate(ends, axis=1), np.repeat([-1.0, -1.0, 1.0], [one.shape[1] for one in ends]), string),
        np.cumsum([one.shape[1] for one in ends[:2]]), axis=1)
    goes_out = np.full((3, count), np.nan)
    goes_out[0] = FRAME["half_width"] + _BEYOND
    goes_out[:, stays] = ends[2]
    # in the steel, whose thickness is a few dots: what came in first runs inmost
    level = string.height + string.radius * (0.7 - 1.4 * (np.arange(count) + 0.5) / max(1, count))
    turn = np.minimum(0.3e-3, (goes_out[0] - into) / 2)
    inside = np.stack([np.stack([into, into + turn, goes_out[0] - turn, goes_out[0]], axis=1),
                       np.full((count, 4), string.place),
                       np.stack([ends[0][2], level, level, np.where(stays, goes_out[2], level)], axis=1)])
    return to_steel, inside, away, to_middle
