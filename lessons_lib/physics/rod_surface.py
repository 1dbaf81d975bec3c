"""The surface of a round rod in panels: the field and the flux of a current that runs round it.

The meridian line of the surface (lower face outward, wall upward, upper face inward) is cut into straight panels, finer
towards the two edges. On a panel the current density is a cubic through its values at four Gauss nodes.
Places are (rho, z), m, from the middle of the rod.
"""
from functools import cached_property, lru_cache

import numpy as np
from numpy.polynomial import legendre
from scipy.constants import mu_0

from lessons_lib.base.checks import finite, positive
from lessons_lib.physics.loops import loop_field, loop_flux

_ORDER = 4                # Gauss nodes on a panel
_CLOSE = 0.75              # a point closer than this part of a panel's length is near it
_NEAR_ORDER = 24          # Gauss nodes of the rule for a near point
_SMALLEST = 1 / 12        # length of the panels at an edge, in radii or half lengths
_LARGEST = 8              # of any panel, in radii
_FLOOR = 1e-6             # distances below this part of a panel's length do not refine the near rule any more
_SKIN = 4e-4              # within this part of a radius from the surface the jump of B is smoothed
_ROWS = 256               # points evaluated at a time
_KEPT = 128               # points of a place that comes again, such as a string's, at most

_GAUSS, _GAUSS_WEIGHTS = legendre.leggauss(_ORDER)
_NEAR_GAUSS, _NEAR_WEIGHTS = legendre.leggauss(_NEAR_ORDER)
_TO_LEGENDRE = np.linalg.inv(legendre.legvander(_GAUSS, _ORDER - 1))
_TO_POWERS = np.linalg.inv(np.vander(_GAUSS, increasing=True))


def _graded(length, smallest):
    """Places from 0 to length, the first panel of the smallest size, every further place about three times as far."""
    levels = max(1, round(np.log(length / smallest) / np.log(3.0)))
    return np.concatenate([[0.0], smallest * (length / smallest) ** (np.arange(levels + 1) / levels)])


class RodSurface:
    """Panels on the surface of one rod, and what a unit of current on each node does."""

    def __init__(self, radius, length):
        self.radius, self.half = radius, length / 2
        smallest = _SMALLEST * min(radius, self.half)  # the same on both sides of an edge: their errors cancel there
        face = radius - _graded(radius, smallest)[::-1]
        wall = _graded(self.half, smallest) - self.half
        parts = np.ceil(np.diff(wall) / (_LARGEST * radius)).astype(int)
        wall = np.concatenate([np.linspace(low, high, n, endpoint=False)
                               for low, high, n in zip(wall[:-1], wall[1:], parts)] + [[0.0]])
        line = np.concatenate([np.stack([face, np.full_like(face, -self.half)], axis=1),
                               np.stack([np.full_like(wall, radius), wall], axis=1)[1:]])
        line = np.concatenate([line, (line * (1, -1))[-2::-1]])
        self.start = line[:-1]
        step = line[1:] - line[:-1]
        self.size = np.hypot(*step.T)
        self.along = step / self.size[:, None]
        place = self.size[:, None] * (_GAUSS + 1) / 2
        self.nodes = (self.start[:, None] + place[..., None] * self.along[:, None]).reshape(-1, 2)
        self.weights = (self.size[:, None] * _GAUSS_WEIGHTS / 2).ravel()
        self.tangents = np.repeat(self.along, _ORDER, axis=0)

    def _nearest(self, rho, z, panels):
        """Place along the panel of its point nearest to each point, and the distance to it."""
        (rho_0, z_0), (along_rho, along_z) = self.start[panels].T, self.along[panels].T
        rho, z = rho - rho_0, z - z_0
        place = np.minimum(np.maximum(rho * along_rho + z * along_z, 0.0), self.size[panels])
        return place, np.sqrt((rho - place * along_rho) ** 2 + (z - place * along_z) ** 2)

    def _near_rule(self, rho, z, panels):
        """Sources (rho, z), share of the panel (-1 to 1) and weights for points close to a panel: a sinh map."""
        place, distance = self._nearest(rho, z, panels)
        size = self.size[panels]
        scale = np.maximum(distance, _FLOOR * size)
        low, high = np.arcsinh(-place / scale), np.arcsinh((size - place) / scale)
        stretched = np.exp((low + high)[:, None] / 2 + (high - low)[:, None] / 2 * _NEAR_GAUSS)
        sinh, cosh = (stretched - 1 / stretched) / 2, (stretched + 1 / stretched) / 2
        t = place[:, None] + scale[:, None] * sinh
        weights = ((high - low) / 2 * scale)[:, None] * _NEAR_WEIGHTS * cosh
        (rho_0, z_0), (along_rho, along_z) = self.start[panels].T[..., None], self.along[panels].T[..., None]
        return rho_0 + t * along_rho, z_0 + t * along_z, 2 * t / size[:, None] - 1, weights

    def field_matrix(self, rho, z):
        """B_rho and B_z (T) at points (flat arrays) per unit current density at each node, shape (2, points, nodes)."""
        near = self._nearest(rho[:, None], z[:, None], np.arange(len(self.size)))[1] < _CLOSE * self.size
        with np.errstate(all="ignore"):  # a point on a node gives no number there: the near rule takes its place
            matrix = _field(rho[:, None], z[:, None] - self.nodes[:, 1], radius=self.nodes[:, 0]) * self.weights
        at, panel = np.nonzero(near)
        source_rho, source_z, share, weights = self._near_rule(rho[at], z[at], panel)
        values = _field(rho[at, None], z[at, None] - source_z, radius=source_rho) * weights
        basis = legendre.legvander(share, _ORDER - 1) @ _TO_LEGENDRE
        matrix.reshape(2, len(rho), -1, _ORDER)[:, at, panel] = np.einsum("fkq,kqn->fkn", values, basis)
        return matrix

    @cached_property
    def self_action(self):
        """Tangential B/mu0 (mean of both sides) at each node from unit current density at each node, a matrix."""
        return np.einsum("ni,inm->nm", self.tangents, self.field_matrix(*self.nodes.T)) / mu_0

    def _sum(self, kernel, rho, z, current):
        """Sum the kernel (of loops) over the current, with the near rule where a point is close to a panel."""
        distance = self._nearest(rho[:, None], z[:, None], np.arange(len(self.size)))[1]
        near = distance < _CLOSE * self.size
        with np.errstate(all="ignore"):  # a point on a node gives no number there: the near rule takes its place
            values = kernel(rho[:, None], z[:, None] - self.nodes[:, 1], radius=self.nodes[:, 0])
        at, panel = np.nonzero(near)
        if not at.size:
            return values @ (self.weights[:, None] * current)
        sums = np.where(np.repeat(near, _ORDER, axis=-1), 0.0, values) @ (self.weights[:, None] * current)
        source_rho, source_z, share, weights = self._near_rule(rho[at], z[at], panel)
        values = kernel(rho[at, None], z[at, None] - source_z, radius=source_rho) * weights
        c = np.einsum("ij,pjs->ips", _TO_POWERS, current.reshape(-1, _ORDER, current.shape[-1]))[:, panel, None]
        share = share[..., None]
        density = c[0] + share * (c[1] + share * (c[2] + share * c[3]))
        first = np.flatnonzero(np.diff(at, prepend=-1))  # of every point's near panels
        sums[..., at[first], :] += np.add.reduceat(np.einsum("...kq,kqs->...ks", values, density), first, axis=-2)
        return sums

    def _over(self, kernel, rho, z, current):
        """The same for arrays of any shape, some hundred points at a time; the current's states come first."""
        rho, z = np.broadcast_arrays(rho, z)
        flat_rho, flat_z = rho.ravel(), z.ravel()
        parts = [self._sum(kernel, flat_rho[i:i + _ROWS], flat_z[i:i + _ROWS], np.atleast_2d(current).T)
                 for i in range(0, max(rho.size, 1), _ROWS)]
        joined = np.moveaxis(np.concatenate(parts, axis=-2), -1, 0)
        return joined.reshape(current.shape[:-1] + joined.shape[1:-1] + rho.shape)

    def flux(self, rho, z, current):
        """Flux function of the current (A/m at the nodes, shape (..., nodes)), Wb, shape (..., *places)."""
        return self._over(loop_flux, rho, z, current)

    def field(self, rho, z, current):
        """B_rho, B_z (T), shape (..., 2, *places), of the current (A/m at the nodes, shape (..., nodes)).

        On the surface the mean of both sides, NaN on the edges. Several currents cost hardly more than one.
        """
        rho, z = np.broadcast_arrays(np.asarray(rho, dtype=float), np.asarray(z, dtype=float))
        skin = _SKIN * self.radius
        field = self._over(_field, rho, z, current)
        beside, above = rho - self.radius, np.abs(z) - self.half
        depth = np.maximum(beside, above)  # below zero inside
        close = np.abs(depth) < skin
        if close.any():
            sides = [self._over(_field, *self._moved(rho[close], z[close], side * skin), current) for side in (-1, 1)]
            share = (1 + depth[close] / skin) / 2
            field[..., close] = (1 - share) * sides[0] + share * sides[1]
        field[..., (beside == 0) & (above == 0)] = np.nan
        return field

    def field_outside(self, rho, z, current):
        """The same off the surface; for few places what a unit of current does there is kept: strings come again."""
        if rho.size > _KEPT:
            return self.field(rho, z, current)
        matrix = _field_matrix(self.radius, 2 * self.half, np.stack([rho, z]).round(12).tobytes())
        return np.moveaxis(matrix @ current.T, -1, 0).reshape(current.shape[:-1] + (2, *rho.shape))

    def _moved(self, rho, z, depth):
        """The points moved along the normal to the given depth, from the wall or the face, whichever is nearer."""
        at_wall = np.abs(rho - self.radius) <= np.abs(np.abs(z) - self.half)
        return np.where(at_wall, self.radius + depth, rho), np.where(at_wall, z, np.sign(z) * (self.half + depth))


def _field(rho, z, *, radius):
    return np.stack(loop_field(rho, z, radius=radius))


@lru_cache(maxsize=256)
def _field_matrix(radius, length, places):
    matrix = rod_surface(radius, length).field_matrix(*np.frombuffer(places).reshape(2, -1))
    matrix.setflags(write=False)
    return matrix


@lru_cache(maxsize=64)
def rod_surface(radius, length):
    """The panels of a rod; kept, since their action on themselves is the costly part."""
    return RodSurface(radius, length)


def vectors(B_rho, B_z, outward):
    """Vectors in space, shape (..., 3), from their parts away from an axis and up; *outward*: unit vectors (x, y)."""
    return np.concatenate([B_rho[..., None] * outward, B_z[..., None]], axis=-1)


class UprightRod:
    """What every rod with diameter, length, x, y and top (m) has."""

    x = y = top = 0.0

    def __post_init__(self):
        positive(diameter=self.diameter, length=self.length)
        finite(x=self.x, y=self.y, top=self.top)

    @property
    def middle(self):
        """Centre, m."""
        return np.array([self.x, self.y, self.top - self.length / 2])

    @property
    def surface(self):
        """Its panels."""
        return rod_surface(self.diameter / 2, self.length)

    def from_axis(self, points):
        """Distance from the axis, height above the middle, and the outward unit vector (x, y) of points in space."""
        from_middle = points - self.middle
        rho = np.hypot(from_middle[..., 0], from_middle[..., 1])
        return rho, from_middle[..., 2], from_middle[..., :2] / np.where(rho > 0, rho, 1.0)[..., None]

    def holds(self, points):
        """Whether points lie inside; on the surface they count as outside."""
        rho, height, _ = self.from_axis(points)
        return (rho < self.diameter / 2) & (np.abs(height) < self.length / 2)


class FluxesOfRod(UprightRod):
    """Two fluxes of a rod that has a ``flux_function(rho, z)``."""

    def midplane_flux(self):
        """Flux through the middle of the rod, Wb."""
        return float(self.flux_function(self.diameter / 2, self.top - self.length / 2))

    def end_flux(self):
        """Flux that leaves through the upper face, Wb; the rest of the mid-plane flux leaves by the side wall."""
        return float(self.flux_function(self.diameter / 2, self.top))
