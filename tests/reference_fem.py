"""Axially symmetric magnetostatics by finite elements (scikit-fem): a second method, nothing shared with the library.

Unknown u = rho A_phi (flux function over 2 pi), biquadratic elements on a graded grid, u = 0 on the axis and far away.
"""
from dataclasses import dataclass

import numpy as np
from scipy.constants import mu_0, pi
from skfem import Basis, BilinearForm, ElementQuad2, LinearForm, MeshQuad, condense, solve
from skfem.helpers import grad


@dataclass(frozen=True, kw_only=True)
class Region:
    """A ring or rod: inner < rho < outer, bottom < z < top (m); straight-line material, remanence (T) along z, or
    a winding of ampere_turns (A) spread evenly over the section. Later regions win where regions overlap."""

    outer: float
    bottom: float
    top: float
    inner: float = 0.0
    relative_permeability: float = 1.0
    remanence: float = 0.0
    ampere_turns: float = 0.0
    resistivity: float = np.inf     # ohm m; it counts in `alternating_linkage`


@dataclass(frozen=True)
class Solution:
    """Interpolated fields of a finished computation; places in metres."""

    basis: Basis
    u: np.ndarray

    def flux(self, rho, z):
        """Flux (Wb) through level circles of radius rho at height z."""
        places = np.array([np.ravel(rho), np.ravel(z)], dtype=float)
        return 2 * pi * self.basis.probes(places) @ self.u

    def axial_field(self, z, radius=2e-4):
        """B_z (T) on the axis: from the flux through two small circles, free of the square of their radius."""
        z = np.ravel(z)
        small, large = (self.flux(np.full_like(z, r), z) / (pi * r ** 2) for r in (radius, 2 * radius))
        return (4 * small - large) / 3


def _grid(marks, start, far, finest, growth):
    """Grid lines through all marks, finest beside them, growing by a constant factor away from them, out to far."""
    marks = np.unique(np.round(marks, 9))
    lines = []
    for low, high in zip(marks[:-1], marks[1:]):
        half, step = [0.0], finest
        while half[-1] < (high - low) / 2:
            half.append(half[-1] + step)
            step *= growth
        half = np.array(half) * (high - low) / 2 / half[-1]
        lines += [low + half, high - half]
    outward, step = [0.0], finest
    while outward[-1] < far:
        outward.append(outward[-1] + step)
        step *= growth
    lines.append(marks[-1] + np.array(outward))
    if start is None:
        lines.append(marks[0] - np.array(outward))
    return np.unique(np.round(np.concatenate(lines), 9))


def solve_rods(regions, *, applied=0.0, finest=5e-5, growth=1.25, far=0.4):
    """Solve for the regions in free space, plus a uniform applied B (T) along z.

    Parameters
    ----------
    regions : sequence of Region
    applied : float
        T; the flux function returned includes it.
    finest, growth, far : float
        Grid step beside every boundary (m), its growth factor, distance of the outer boundary (m).

    Returns
    -------
    Solution
    """
    x, y, basis = _places(regions, finest, growth, far)
    permeability, remanence, current = np.full_like(x, mu_0), np.zeros_like(x), np.zeros_like(x)
    for region in regions:
        inside = (x > region.inner) & (x < region.outer) & (y > region.bottom) & (y < region.top)
        permeability[inside] = mu_0 * region.relative_permeability
        remanence[inside] = region.remanence
        section = (region.outer - region.inner) * (region.top - region.bottom)
        current[inside] = region.ampere_turns / section
    return Solution(basis, _solve(basis, permeability, permeability, remanence, current, applied))


def solve_on_curve(region, *, remanence, coercivity, energy_product, finest=5e-5, growth=1.3, far=0.3):
    """Solve for one magnet whose B_z follows its demagnetising curve (rectangular hyperbola) point by point.

    Across the axis the material has the region's relative_permeability. Newton on H(B), half steps at first.
    Returns the Solution and H_z (A/m) at the places inside.
    """
    x, y, basis = _places([region], finest, growth, far)
    inside = (x < region.outer) & (y > region.bottom) & (y < region.top)
    g = energy_product / (remanence * coercivity)
    a = (2 * np.sqrt(g) - 1) / g
    across = np.where(inside, mu_0 * region.relative_permeability, mu_0)
    slope, line = across, np.where(inside, remanence / 2, 0.0)
    for step in range(20):
        u = _solve(basis, slope, across, line, np.zeros_like(x), 0.0)
        B = np.clip(grad(basis.interpolate(u))[0] / x, -0.2, 0.9999 * remanence)
        H = np.where(inside, coercivity * (B - remanence) / (remanence - a * B), 0.0)
        steep = np.where(inside, remanence * coercivity * (1 - a) / (coercivity + a * H) ** 2, mu_0)
        share = 0.5 if step < 8 else 1.0
        slope = 1 / ((1 - share) / slope + share / steep)
        line, last = np.where(inside, B - slope * H, 0.0), line
    assert np.abs(line - last).max() < 1e-9, "the curve was not met"
    return Solution(basis, u), H[inside]


def alternating_linkage(regions, coil, frequency, *, finest=2e-5, growth=1.4, far=0.2):
    """Linkage (Wb-turns per ampere, complex) of a *coil*, a `Region` whose ampere_turns are its turns, at a frequency.

    The regions' metal carries eddy currents: j w sigma A_phi, against the field that makes them.
    """
    x, y, basis = _places([*regions, coil], finest, growth, far)
    permeability, current, conductivity = np.full_like(x, mu_0), np.zeros_like(x), np.zeros_like(x)
    for region in [*regions, coil]:
        inside = (x > region.inner) & (x < region.outer) & (y > region.bottom) & (y < region.top)
        permeability[inside] = mu_0 * region.relative_permeability
        conductivity[inside] = 1 / region.resistivity
        current[inside] = region.ampere_turns / ((region.outer - region.inner) * (region.top - region.bottom))
    matrix = (_stiffness.assemble(basis, along=permeability, across=permeability)
              + 2j * pi * frequency * _eddies.assemble(basis, conductivity=conductivity))
    vector = _load.assemble(basis, along=permeability, remanence=np.zeros_like(x), current=current)
    u = solve(*condense(matrix, vector.astype(complex), x=np.zeros(basis.N, dtype=complex),
                        D=basis.get_dofs().all()))
    return 2 * pi * vector @ u


@BilinearForm
def _eddies(u, v, w):
    return w.conductivity * u * v / w.x[0]


def _places(regions, finest, growth, far):
    """Coordinates of all integration places, and the basis."""
    rho = _grid(np.array([0.0] + [edge for r in regions for edge in (r.inner, r.outer)]), 0.0, far, finest, growth)
    z = _grid(np.array([edge for r in regions for edge in (r.bottom, r.top)]), None, far, finest, growth)
    basis = Basis(MeshQuad.init_tensor(rho, z), ElementQuad2(), intorder=5)
    return *basis.global_coordinates(), basis


@BilinearForm
def _stiffness(u, v, w):
    return (grad(u)[0] * grad(v)[0] / w.along + grad(u)[1] * grad(v)[1] / w.across) / w.x[0]


@LinearForm
def _load(v, w):
    return w.remanence / w.along * grad(v)[0] + w.current * v


def _solve(basis, along, across, remanence, current, applied):
    """u for permeabilities along and across the axis (H/m), remanence (T), current density (A/m2), applied B (T)."""
    u, fixed = np.zeros(basis.N), basis.get_dofs().all()
    u[fixed] = applied * basis.doflocs[0, fixed] ** 2 / 2
    matrix = _stiffness.assemble(basis, along=along, across=across)
    vector = _load.assemble(basis, along=along, remanence=remanence, current=current)
    return solve(*condense(matrix, vector, x=u, D=fixed))
