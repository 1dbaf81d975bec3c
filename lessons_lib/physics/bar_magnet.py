"""The rectangular bar magnet, uniformly magnetised along one of its edges."""
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0, pi

from lessons_lib.base.checks import array_of_finite, at_least, finite, one_of, points_in_space, positive_number, refuse

_ORDERS = {"x": (1, 2, 0), "y": (2, 0, 1), "z": (0, 1, 2)}  # turned so that the magnetisation comes last


def prism_factor(a, b, c):
    """Demagnetising factor along c of a uniformly magnetised prism a x b x c (A. Aharoni, J. Appl. Phys. 83, 3432)."""
    def log_ratio(diagonal, edge):
        return np.log((diagonal - edge) / (diagonal + edge))
    r, ab, bc, ca = np.sqrt(a * a + b * b + c * c), np.hypot(a, b), np.hypot(b, c), np.hypot(c, a)
    logs = ((b * b - c * c) / (2 * b * c) * log_ratio(r, a) + (a * a - c * c) / (2 * a * c) * log_ratio(r, b)
            - b / (2 * c) * log_ratio(ab, a) - a / (2 * c) * log_ratio(ab, b)
            + c / (2 * a) * log_ratio(bc, b) + c / (2 * b) * log_ratio(ca, a))
    roots = ((a ** 3 + b ** 3 - 2 * c ** 3 + (a * a + b * b - 2 * c * c) * r) / (3 * a * b * c)
             + c / (a * b) * (ca + bc) - (ab ** 3 + bc ** 3 + ca ** 3) / (3 * a * b * c))
    return float((logs + 2 * np.arctan(a * b / (c * r)) + roots) / pi)


@dataclass(frozen=True, kw_only=True)
class BarMagnet:
    """A rectangular magnet with its edges along x, y and z.

    Parameters
    ----------
    size : sequence of 3 floats
        Lengths along x, y and z, m, above zero.
    centre : sequence of 3 floats
        m.
    remanence : float
        T; negative turns it over.
    axis : "x", "y" or "z"
        Direction of the magnetisation.
    recoil_permeability : float
        1 or above.

    Notes
    -----
    Taken as uniformly magnetised, with remanence / (1 + chi N), N the demagnetising factor of A. Aharoni, J. Appl.
    Phys. 83, 3432 (1998), chi = recoil_permeability - 1: exact for 1; for a flat ferrite bar (1.08) up to 1.3 % close
    over its middle, 0.4 % of the field at its edge. Not meant for alnico (3.6). Field: charged rectangles in logarithms
    and arctangents. Checked against magpylib and against cells of their own in tests/test_bar_magnet.py.

    Examples
    --------
    >>> BarMagnet(size=(1.0, 1.0, 1.0), centre=(0.0, 0.0, 0.0), remanence=0.3).flux_density([0, 0, 0]).round(6).tolist()
    [0.0, 0.0, 0.2]
    """

    size: tuple
    centre: tuple
    remanence: float
    axis: str = "z"
    recoil_permeability: float = 1.0

    def __post_init__(self):
        for name in ("size", "centre"):
            if array_of_finite(name, getattr(self, name)).shape != (3,):
                refuse(name, "three lengths in metres", getattr(self, name))
            object.__setattr__(self, name, tuple(float(value) for value in getattr(self, name)))
        for axis, length in zip("xyz", self.size):
            positive_number(f"size along {axis}", length)
        one_of("axis", self.axis, tuple(_ORDERS))
        finite(remanence=self.remanence)
        at_least(1, recoil_permeability=self.recoil_permeability)

    def magnetometric_factor(self):
        """Demagnetising factor along the axis, averaged over the volume."""
        return prism_factor(*np.take(self.size, _ORDERS[self.axis]))

    def polarisation(self):
        """Polarisation J (T) of the whole bar along its axis."""
        return self.remanence / (1 + (self.recoil_permeability - 1) * self.magnetometric_factor())

    def flux_density(self, points):
        """Flux density B (T), shape (..., 3), at points (m) of that shape; those on the surface count as outside.

        NaN or infinite on the edges round the two poles.
        """
        points = points_in_space(points)
        inside = (np.abs(points - self.centre) < np.divide(self.size, 2)).all(axis=-1)
        B = mu_0 * self.field_strength(points)
        B[..., "xyz".index(self.axis)] += np.where(inside, self.polarisation(), 0.0)
        return B

    def field_strength(self, points):
        """Field strength H, A/m, shape (..., 3), at points (m) of that shape; inside it opposes the magnetisation."""
        points = points_in_space(points)
        kept = _field_of_shape(self.size, self.axis, (points - self.centre).tobytes())
        return self.polarisation() / mu_0 * kept.reshape(points.shape)


@lru_cache(maxsize=128)
def _field_of_shape(size, axis, places):
    """H of a bar about the origin with M = 1 A/m at places as bytes; kept: poles and strings come again."""
    order = list(_ORDERS[axis])
    places = np.frombuffer(places).reshape(-1, 3)
    x, y, z = places[:, order].T
    a, b, c = np.take(size, order) / 2
    H = np.empty(places.shape)
    with np.errstate(divide="ignore", invalid="ignore"):
        H[:, order] = _pole(x, y, z - c, a, b, 1) - _pole(x, y, z + c, a, b, -1)
    H.setflags(write=False)
    return H


def _pole(x, y, z, a, b, outside):
    """H of the rectangle |x| < a, |y| < b in the plane z = 0 with unit pole density; outside: sign of z taken on it."""
    side = np.where(z == 0, outside, np.sign(z))
    H_z = sum(sign * side * np.arctan2(u * v, np.abs(z) * np.sqrt(u * u + v * v + z * z))
              for sign, u, v in ((1, x + a, y + b), (-1, x + a, y - b), (-1, x - a, y + b), (1, x - a, y - b)))
    H_x = _edge(x - a, y, z, b) - _edge(x + a, y, z, b)
    H_y = _edge(y - b, x, z, a) - _edge(y + b, x, z, a)
    return np.stack([H_x, H_y, H_z], axis=-1) / (4 * pi)


def _edge(u, v, z, half):
    """The integral of 1/distance along an edge from -half to half, at v along it and (u, z) across it."""
    across = np.hypot(u, z)
    ends = [(np.sign(w), np.log(np.abs(w) + np.sqrt(w * w + across ** 2))) for w in (v + half, v - half)]
    (sign, high), (other, low) = ends
    beyond = sign == other  # there log(across) cancels, also on the edge's own line
    return sign * high - other * low - (sign - other) * np.log(np.where(beyond, 1.0, across))
