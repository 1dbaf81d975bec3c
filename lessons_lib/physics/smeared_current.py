"""Vector potential and field of a current spread evenly over a rectangular section: a round arc and a straight bar.

Elementary integrals but for the angle of the arc. Potential (T m) and field (T) are for 1 A/m2, of shape (P, 3) for
points (m) of that shape, finite and continuous everywhere.
"""
import numpy as np
from scipy.constants import mu_0
from scipy.special import roots_legendre

_BIOT_SAVART = mu_0 / (4 * np.pi)
_FAR, _NEAR = roots_legendre(12), roots_legendre(48)
_NEAR_ANGLE, _SMALLEST_ANGLE = 0.1, 0.02
_TINY = 1e-150   # m2: makes 0 * log(0) zero on the lines where two of three distances vanish


def angle_rule(low, high, centre, scale):
    """Gauss nodes and weights (P, n) for an arc's angle from low to high, crowded around centre.

    The integrand bends there over the angle scale (distance from the conductor over its radius), and has a kink at
    centre inside the conductor. low, high and centre are numbers or arrays (P,), scale is an array (P,); a call is as
    fine as its nearest point needs.
    """
    scale = np.maximum(scale, _SMALLEST_ANGLE)[:, None]
    low, high, centre = (np.broadcast_to(np.asarray(a, float), scale.shape[:1])[:, None] for a in (low, high, centre))
    near = scale.min(initial=np.inf) < _NEAR_ANGLE
    pieces = ((low, centre), (centre, high)) if near and (low < centre).any() else ((low, high),)
    rules = [hyperbolic_rule(*piece, centre, scale, _NEAR if near else _FAR) for piece in pieces]
    return tuple(np.concatenate(part, axis=1) for part in zip(*rules))


def hyperbolic_rule(low, high, centre, scale, gauss):
    """Nodes and weights from low to high, crowded around centre: Gauss's rule in u, place = centre + scale sinh(u)."""
    start, end = np.arcsinh((low - centre) / scale), np.arcsinh((high - centre) / scale)
    u = (start + end) / 2 + (end - start) / 2 * gauss[0]
    return centre + scale * np.sinh(u), (end - start) / 2 * gauss[1] * scale * np.cosh(u)


def _arcsinh(a, square, distance):
    """arcsinh(a / sqrt(square)), where distance = sqrt(a^2 + square) is known: several times faster."""
    return np.copysign(np.log(((np.abs(a) + distance)**2 + _TINY) / (square + _TINY)) / 2, a)


def _over_limits(values, axes):
    """Value at the upper minus value at the lower limit, along each of the last axes."""
    for _ in range(axes):
        values = values[..., 1] - values[..., 0]
    return values


class _ArcTerms:
    """What the integrals over the section share; shapes (P, n angles, 2 sides, 2 faces)."""

    def __init__(self, points, radii, heights, angles):
        x, y, z = points.T[:, :, None]
        self.cos, self.sin = np.cos(angles), np.sin(angles)
        self.along = (x * self.cos + y * self.sin)[..., None, None]
        across = np.abs(y * self.cos - x * self.sin)[..., None, None]
        self.side = radii[:, None] - self.along              # from the point to the sides, along the source's radius
        self.face = (heights - z)[:, None, None, :]          # ... and up to the faces
        self.side_squared = self.side**2 + across**2
        self.distance = np.sqrt(self.side_squared + self.face**2)
        self.log_side = _arcsinh(self.side, self.face**2 + across**2, self.distance)
        self.log_face = _arcsinh(self.face, self.side_squared, self.distance)
        self.line = self.face * self.log_side - across * np.arctan2(self.side * self.face, across * self.distance)


def arc_potential(points, radii, heights, angles, weights):
    """Vector potential of an arc about the z axis, current anticlockwise seen from above.

    radii and heights hold the section's two limits each; angles and weights are a rule (P, n) for the arc's angle.
    """
    s = _ArcTerms(points, radii, heights, angles)
    both = (s.face * s.distance + s.side_squared * s.log_face) / 2 + s.along * (s.line + s.side * s.log_face)
    strength = _over_limits(both, 2) * weights
    return _BIOT_SAVART * np.stack([-strength * s.sin, strength * s.cos, 0 * strength], axis=-1).sum(axis=1)


def arc_field(points, radii, heights, angles, weights):
    """Flux density of the arc of `arc_potential`."""
    s = _ArcTerms(points, radii, heights, angles)
    radial = _over_limits(s.distance + s.along * s.log_side, 2) * weights
    upward = _over_limits(s.line - s.along * s.log_face, 2) * weights
    return _BIOT_SAVART * np.stack([radial * s.cos, radial * s.sin, upward], axis=-1).sum(axis=1)


class _BarTerms:
    """Distances to the corners of the bar, logarithms and arctangents; shapes (P, 2, 2, 2)."""

    def __init__(self, points, x_limits, y_limits, z_limits):
        self.x = (x_limits - points[:, :1])[:, :, None, None]
        self.y = (y_limits - points[:, 1:2])[:, None, :, None]
        self.z = (z_limits - points[:, 2:])[:, None, None, :]
        distance = np.sqrt(self.x**2 + self.y**2 + self.z**2)
        self.log_x, self.log_y, self.log_z = (
            _arcsinh(a, b**2 + c**2, distance)
            for a, b, c in ((self.x, self.y, self.z), (self.y, self.z, self.x), (self.z, self.x, self.y)))
        self.angle_x, self.angle_y, self.angle_z = (
            np.abs(a) * np.arctan2(b * c, np.abs(a) * distance)
            for a, b, c in ((self.x, self.y, self.z), (self.y, self.z, self.x), (self.z, self.x, self.y)))


def bar_potential(points, x_limits, y_limits, z_limits):
    """Vector potential of a bar (three arrays of two limits), current along +y."""
    s = _BarTerms(points, x_limits, y_limits, z_limits)
    inverse_distance = (s.x * s.y * s.log_z + s.y * s.z * s.log_x + s.z * s.x * s.log_y
                        - (s.x * s.angle_x + s.y * s.angle_y + s.z * s.angle_z) / 2)
    strength = _BIOT_SAVART * _over_limits(inverse_distance, 3)
    return np.stack([0 * strength, strength, 0 * strength], axis=-1)


def bar_field(points, x_limits, y_limits, z_limits):
    """Flux density of the bar of `bar_potential`."""
    s = _BarTerms(points, x_limits, y_limits, z_limits)
    east = _over_limits(s.y * s.log_x + s.x * s.log_y - s.angle_z, 3)
    up = -_over_limits(s.y * s.log_z + s.z * s.log_y - s.angle_x, 3)
    return _BIOT_SAVART * np.stack([east, 0 * east, up], axis=-1)
