"""The flux that a string carries, as lines in space: from the rod to the steel, along it and out into the air again."""
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0, pi
from scipy.interpolate import CubicSpline

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03.model import ALONG, SWING, magnetised
from lessons_lib.physics.steel import STRING_PLACES

FRAME = {"half_width": ALONG[-1], "sides": (-7e-3, 9.8e-3), "bottom": -4.5e-3, "top": 8e-3}     # m
TUBES = (25e-9, 50e-9, 100e-9, 250e-9, 1e-6)      # Wb from one line to the next
MOST_LINES = 20         # to each side, with a tube that follows the steel alone: nearer is always more lines
SLICE = 2e-3            # m along the string: of what it gathers there the view of its end shows the lines
PALE_LINES = 7          # of the rod without a string, from its axis to its wall
_GRID = 0.2e-3          # m, of the rod's field as it is kept
_BEYOND = 1e-3          # m, lines end so far outside of the frame
_STEPS = 70
_TO_THE_RIGHT = np.linspace(0, FRAME["half_width"] + _BEYOND, 261)       # m


@lru_cache(maxsize=2)
def _round_grid(rod):
    """The rod's B_rho and B_z (T) at distances from its axis and heights, and the distances in a row."""
    rho, z = np.arange(0, 26e-3, _GRID), np.arange(FRAME["bottom"] - 3e-3, FRAME["top"] + 4e-3, _GRID)
    field = rod.flux_density(np.stack(np.broadcast_arrays(rho, 0.0, z[:, None]), axis=-1))
    return np.nan_to_num(field[..., [0, 2]]).reshape(-1, 2), len(rho)


def rod_field(rod, x, y, z):
    """B (T) of the rod, shape (3, n), looked up in the grid."""
    table, row_length = _round_grid(rod)
    rho = np.hypot(x, y)
    row, column = (z - FRAME["bottom"] + 3e-3) / _GRID, rho / _GRID
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

    def out_of_the_steel(self, rod, x):
        """Places (3, n) where lines come out: every second one on the other side, where flux comes out there, too."""
        places, others = self.surface(x, 1), self.surface(x, -1)
        outward = (others - places)[1:]
        other = (outward * (rod_field(rod, *others) + self.flux_density(*others))[1:]).sum(0) > 0
        return np.where(other & (np.arange(len(x)) % 2 == 1), others, places)

    def round_the_middle(self, rod, tube):
        """Places (3, n) round the steel at x = 0 where lines come in: one for each tube of what a slice gathers."""
        angles = np.linspace(0, 2 * pi, 73)
        direction = np.stack([np.cos(angles), np.sin(angles)])
        places = self._near(0 * angles, direction)
        inward = -(direction * (rod_field(rod, *places) + self.flux_density(*places))[1:]).sum(0)
        turned = np.roll(np.maximum(inward[:-1], 0), -inward[:-1].argmin())      # begin where nothing comes in
        share = np.concatenate([[0.0], np.cumsum(turned)]) / turned.sum()
        gathered = SLICE * (self._flux[1] - self._flux[0]) / (_TO_THE_RIGHT[1] - _TO_THE_RIGHT[0])
        lines = round(gathered / tube)
        found = np.interp((np.arange(lines) + 0.5) / lines, share, angles) + angles[inward[:-1].argmin()]
        return self._near(0 * found, np.stack([np.cos(found), np.sin(found)]))


def trace(rod, start, sense, string=None):
    """Follow the field of rod and string from places (3, n) by the midpoint rule, with it (sense 1) or against it (-1).

    Returns shape (3, n, steps), NaN after a line has left the frame or come to the steel.
    """
    def direction(place):
        field = rod_field(rod, *place)
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
        stays = ((np.abs(x) < FRAME["half_width"] + _BEYOND) & (np.abs(y) < 16e-3)
                 & (z > FRAME["bottom"] - _BEYOND) & (z < FRAME["top"] + _BEYOND))
        if string is not None:
            stays &= np.hypot(y - string.place, z - string.height) > 0.95 * string.radius
        if not stays.all():
            place, sense, going = place[:, stays], sense[stays], going[stays]
        if not len(going):
            break
    return lines


@lru_cache(maxsize=2)
def pale_lines(rod):
    """Lines of the rod without a string, in a plane through its axis: x and z (m) on both sides, parted by NaN."""
    start = rod.diameter / 2 * (np.arange(PALE_LINES) + 0.5) / PALE_LINES
    lines = trace(rod, np.stack([start, 0 * start, 0 * start + FRAME["bottom"]]), np.ones(PALE_LINES))
    x, _, z = _one_path(lines)
    return np.concatenate([x, -x]), np.concatenate([z, z])


def _one_path(lines):
    """Many lines as one path, parted by NaN: (3, n)."""
    path = np.pad(lines, ((0, 0), (0, 0), (0, 1)), constant_values=np.nan).reshape(3, -1)
    void = np.isnan(path[0])
    return path[:, ~void | ~np.roll(void, 1)]


def lines_through(rod, string, tube):
    """Lines (3, n, steps) that the string carries to the right, and those that come to it in the plane x = 0.

    Returns
    -------
    (from the rod to the steel, in the steel, out of it, from the rod to the steel in the plane x = 0)
    """
    into, out = string.ways(tube)
    stays, count = ~np.isnan(out), len(into)
    ends = [string.surface(into, -1), string.round_the_middle(rod, tube), string.out_of_the_steel(rod, out[stays])]
    to_steel, to_middle, away = np.split(
        trace(rod, np.concatenate(ends, axis=1), np.repeat([-1.0, -1.0, 1.0], [one.shape[1] for one in ends]), string),
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


def tube_for(*, core, permeability, saturates, instrument=house_instrument):
    """Flux (Wb) from one line to the next for a steel, by what it carries when it is nearest to the pole."""
    most = np.abs(magnetised(height=1.5e-3, place=0.0, core=core, permeability=permeability, saturates=saturates,
                             instrument=instrument).flux()).max()
    return next((tube for tube in TUBES if most <= MOST_LINES * tube), TUBES[-1])


@lru_cache(maxsize=64)
def views(*, height, place, core, permeability, saturates, instrument=house_instrument):
    """What StringOverRod.update takes, and the flux (Wb) along the string at places x (m)."""
    steel = {"core": core, "permeability": permeability, "saturates": saturates, "instrument": instrument}
    inside, tube = magnetised(height=height, place=place, **steel), tube_for(**steel)
    *through, towards = lines_through(instrument.rod, StringInSpace(inside, height=height, place=place), tube)
    x, _, z = np.concatenate([_one_path(lines) for lines in through], axis=1)
    return {"views": {"lines": (np.concatenate([x, -x]), np.concatenate([z, z])), "towards": _one_path(towards)[1:],
                      "height": height, "core": core, "place": place, "tube": tube},
            "along": (ALONG, CubicSpline(STRING_PLACES, inside.flux())(ALONG))}


def picture(gains, **values):
    """The views at rest, with the flux that a turn gains while the string swings: share of a period, Wb, and now."""
    share = np.linspace(0, 1, 49)
    swing = share, gains(np.sin(2 * pi * share))
    return views(**values) | {"swing": swing, "now": (0.0, float(gains(0.0)))}


def swinging(gains, *, height, frames=24, **values):
    """A period of the string's swing, a picture a frame: half of them and one are different."""
    share = np.arange(frames) / frames
    at_rest = picture(gains, height=height, **values)
    return [views(height=round(height + SWING * place, 9), **values) | {
        "swing": at_rest["swing"], "now": (now, float(gains(place)))}
        for now, place in zip(share, np.sin(2 * pi * share).round(9))]
