"""A free alnico rod on the bent demagnetising curve of its alloy: Ohm's law round some thousand rings of rod and air.

Level circles and coaxial cylinders cut rod and air into tubes of flux. Round each crossing of two of them the drops of
MMF add up to zero; in the rod the drop along the axis follows the curve. Places are (rho, z), m, from the middle of the
rod; the lower half mirrors the upper.
"""
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy import sparse
from scipy.constants import mu_0, pi
from scipy.interpolate import CubicSpline, RectBivariateSpline
from scipy.sparse.linalg import splu

from lessons_lib.base.checks import finite_array, from_zero, points_in_space
from lessons_lib.base.materials import MagnetGrade
from lessons_lib.physics.magnetic_circuit import curve_bulge
from lessons_lib.physics.rod_surface import FluxesOfRod, rod_surface, vectors

_FINEST = 0.02                  # step beside an edge, in radii or half lengths, whichever is smaller
_INSIDE, _OUTSIDE = 1.2, 1.1    # every further step over the last one, away from the edge
_BOUNDARY = 15.0                     # of the outer boundary, in diameters or lengths, whichever is larger
_MOST_ROUNDS = 60               # of Newton's method; five to ten are usual
_LAST_CHANGE = 1e-9                 # of the remanence: the last change of B
_BESIDE = 5e-4                    # within this part of a radius outside of the surface B is that inside of it


def _steps(first, growth, reach):
    """Places from 0 to the reach, each step so many times the last one."""
    count = int(np.ceil(np.log1p(reach * (growth - 1) / first) / np.log(growth)))
    places = np.expm1(np.arange(count + 1) * np.log(growth))
    return places * reach / places[-1]


def _grid_lines(size, finest, far):
    """Places of the grid from 0 to far away, finest on both sides of the surface at *size*; the surface's number."""
    inside = size - _steps(finest, _INSIDE, size)[::-1]
    return np.concatenate([inside, size + _steps(finest, _OUTSIDE, far)[1:]]), len(inside) - 1


def _on_curve(grade, B):
    """H (A/m) of B on `demagnetising_curve`, straight beyond its two ends, and how it grows with B (A/m per T)."""
    remanence, coercivity, bulge = float(grade.remanence), float(grade.coercivity), curve_bulge(grade)
    nearest = np.clip(B, 0.0, remanence)
    rest = remanence - bulge * nearest
    steepness = coercivity * remanence * (1 - bulge) / rest ** 2
    return coercivity * (nearest - remanence) / rest + steepness * (B - nearest), steepness


def _rings(rho, z, wall, face):
    """Area (m2) of the rings between neighbouring rho; length (m) of their tubes in the rod and in the air at each z.

    The tube of a ring at a level goes half a step down and half a step up; in the middle of the rod only up.
    """
    half = np.diff(z) / 2
    low, high = np.append(0.0, half[:-1]), half
    rod_below, rod_above = np.arange(len(half)) <= face, np.arange(len(half)) < face
    in_rod = (np.arange(len(rho) - 1) < wall)[:, None] * (low * rod_below + high * rod_above)
    return pi * np.diff(rho ** 2)[:, None], in_rod, low + high - in_rod


def _reluctance_outward(rho, z, wall, face, across):
    """Reluctance (A/Wb) of the tubes through the cylinder at each rho but the ends, between neighbouring z.

    They begin and end where the rings on both sides have half of their area; *across* is the rod's permeability there.
    """
    middle = np.sqrt((rho[:-1] ** 2 + rho[1:] ** 2) / 2)
    inward, outward = np.log(rho[1:-1] / middle[:-1])[:, None], np.log(middle[1:] / rho[1:-1])[:, None]
    in_rod = (np.arange(len(rho) - 1) < wall)[:, None] & (np.arange(len(z) - 1) < face)
    permeability = np.where(in_rod, across, 1.0)
    return (inward / permeability[:-1] + outward / permeability[1:]) / (2 * pi * mu_0 * np.diff(z))


def _differences(count_rho, count_z):
    """Matrices from the flux through every circle to that up through each ring and out through each cylinder."""
    step_rho = sparse.diags([1.0, -1.0], [0, -1], shape=(count_rho + 1, count_rho))
    step_z = sparse.diags([1.0, -1.0], [0, 1], shape=(count_z, count_z))
    return (sparse.kron(step_rho, sparse.identity(count_z), format="csr"),
            sparse.kron(sparse.identity(count_rho), step_z, format="csr"))


def _flux_on_grid(radius, half, grade):
    """Grid lines rho and z, which of them are the surface, and the flux (Wb) through the circle at each crossing."""
    finest, far = _FINEST * min(radius, half), _BOUNDARY * 2 * max(radius, half)
    (rho, wall), (z, face) = _grid_lines(radius, finest, far), _grid_lines(half, finest, far)
    count_rho, count_z = len(rho) - 2, len(z) - 1       # the flux is zero on the axis and far away
    up, out = _differences(count_rho, count_z)
    area, in_rod, in_air = _rings(rho, z, wall, face)
    outward = _reluctance_outward(rho, z, wall, face, float(grade.recoil_permeability))
    straight = (out.T @ sparse.diags(outward.ravel()) @ out
                + up.T @ sparse.diags((in_air / (mu_0 * area)).ravel()) @ up)
    B = np.where(in_rod > 0, grade.remanence / 2, 0.0)
    for _ in range(_MOST_ROUNDS):       # Newton: each round is a circuit of straight lines, laid to the curve
        H, steepness = _on_curve(grade, B)
        rod = up.T @ sparse.diags((in_rod * steepness / area).ravel()) @ up
        flux = splu((straight + rod).tocsc()).solve(-up.T @ (in_rod * (H - steepness * B)).ravel())
        last, B = B, np.where(in_rod > 0, (up @ flux).reshape(in_rod.shape) / area, 0.0)
        if np.abs(B - last).max() < _LAST_CHANGE * grade.remanence:
            return rho, z, wall, face, np.pad(flux.reshape(count_rho, count_z), ((1, 1), (0, 1)))
    raise RuntimeError(f"the flux in the rod must settle within {_MOST_ROUNDS} rounds; got none for {grade}.")


@lru_cache(maxsize=64)
def _solved(diameter, length, grade):
    """The rod's surface, the current on it (A/m) that has the rod's field outside, the flux inside as a spline."""
    radius, half = diameter / 2, length / 2
    rho, z, wall, face, flux = _flux_on_grid(radius, half, grade)
    surface = rod_surface(radius, length)
    at_rho, at_z = surface.nodes[:, 0], np.abs(surface.nodes[:, 1])
    on_wall = CubicSpline(z[:face + 1], flux[wall, :face + 1], bc_type=((1, 0.0), "not-a-knot"))
    on_face = CubicSpline(rho[:wall + 1] ** 2, flux[:wall + 1, face])
    wanted = np.where(at_z < half * (1 - 1e-12), on_wall(np.minimum(at_z, half)), on_face(at_rho ** 2))
    currents = np.linalg.solve(surface.flux(*surface.nodes.T, np.eye(len(at_rho))).T, wanted)
    both = np.concatenate([-z[face:0:-1], z[:face + 1]])
    upper = flux[:wall + 1, :face + 1]
    inside = RectBivariateSpline(rho[:wall + 1] ** 2, both, np.concatenate([upper[:, :0:-1], upper], axis=1))
    return surface, currents, inside


@dataclass(frozen=True, kw_only=True)
class AlnicoRod(FluxesOfRod):
    """A round alnico rod that stands alone in air, upright, as it is after being magnetised: north pole on top.

    Parameters
    ----------
    grade : MagnetGrade
        From `magnet_grade(name)`: remanence, coercivity, energy product, recoil permeability. Made for alnico;
        of ferrite and rare earth the curve is nearly straight, and `RodMagnet` has it within a few per cent.
    diameter, length : float
        m, above zero.
    x, y, top : float
        Place of the axis and height of the upper face, m.

    Notes
    -----
    Along the axis B follows `demagnetising_curve`, each point of the rod on its own; across it the relative
    permeability is the grade's recoil permeability (no data sheet gives one across: with 6 in place of 3.6 an alnico 5
    rod of 5 x 17 mm has 2 % less field 1 mm above its face). Newton's method on a grid of rings, once for a shape and a
    grade, then kept: 0.1 to 0.5 s, some seconds for a needle. From there on the field outside is that of a current
    round the surface with the same flux through every circle of it, and is as quick as that of a `RodMagnet`.
    Within 0.5 % of finite elements from 0.3 mm on, for diameters of 0.2 to 2.5 lengths and all four grades; on a
    straight line it is `RodMagnet` (tests/test_alnico_rod.py). In proportion: the field of a curve whose B and H are
    both s times as large is s times as large. Left out: the grain of the alloy, what happened to the rod before
    (a keeper, another magnet), other bodies; for a small change the rod answers on recoil lines, not on this curve.

    Examples
    --------
    >>> from lessons_lib.base.materials import magnet_grade
    >>> rod = AlnicoRod(grade=magnet_grade("alnico 5"), diameter=5e-3, length=0.5)    # so long that it keeps its flux
    >>> round(rod.midplane_flux() / (pi / 4 * 5e-3 ** 2), 2)
    1.28
    """

    grade: MagnetGrade
    diameter: float
    length: float
    x: float = 0.0
    y: float = 0.0
    top: float = 0.0

    def __post_init__(self):
        super().__post_init__()
        curve_bulge(self.grade)

    def _outside(self, rho, height):
        skin = 1 + _BESIDE
        return (rho > skin * self.diameter / 2) | (np.abs(height) > self.length / 2 + _BESIDE * self.diameter / 2)

    def flux_density(self, points):
        """Flux density B (T), shape (..., 3), at points (m) of that shape, outside as well as inside.

        On the surface (and within 0.05 % of the radius of it) that of the inner side; inside by a spline, some per cent
        off beside the edges, where B has no bound.
        """
        rho, height, outward = self.from_axis(points_in_space(points))
        surface, currents, inside = _solved(self.diameter, self.length, self.grade)
        outside, field = self._outside(rho, height), np.empty((2, *rho.shape))
        field[:, outside] = surface.field(rho[outside], height[outside], currents)
        at_rho, at_z = rho[~outside], height[~outside]
        # B_z is the slope of the flux by the circle's area, B_rho by the height
        field[0, ~outside] = -inside.ev(at_rho ** 2, at_z, dy=1) / (2 * pi * np.where(at_rho > 0, at_rho, np.inf))
        field[1, ~outside] = inside.ev(at_rho ** 2, at_z, dx=1) / pi
        return vectors(*field, outward)

    def field_strength(self, points):
        """Field strength H (A/m), shape (..., 3), at points (m) of that shape.

        B/mu0 outside; inside, where it points against the magnetisation, the curve's H for the B along the axis, and
        B/(mu0 recoil permeability) across.

        Examples
        --------
        >>> from lessons_lib.base.materials import magnet_grade
        >>> rod = AlnicoRod(grade=magnet_grade("alnico 5"), diameter=5e-3, length=17e-3)
        >>> print(f"{rod.field_strength([0, 0, -8.5e-3])[2] / 1e3:.0f} kA/m in the middle, on the axis")
        -49 kA/m in the middle, on the axis
        """
        B, (rho, height, _) = self.flux_density(points), self.from_axis(points_in_space(points))
        inside = B / (mu_0 * float(self.grade.recoil_permeability))
        inside[..., 2], _ = _on_curve(self.grade, B[..., 2])
        return np.where(self._outside(rho, height)[..., None], B / mu_0, inside)

    def flux_function(self, rho, z):
        """Flux (Wb) upward through the level circle of radius rho (m) at height z (m), as of a `RodMagnet`."""
        rho, height = np.broadcast_arrays(from_zero(rho=rho), finite_array(z=z))
        height = height - self.top + self.length / 2
        surface, currents, inside = _solved(self.diameter, self.length, self.grade)
        outside, flux = self._outside(rho, height), np.empty(rho.shape)
        flux[outside] = surface.flux(rho[outside], height[outside], currents)
        flux[~outside] = inside.ev(rho[~outside] ** 2, height[~outside])
        return flux
