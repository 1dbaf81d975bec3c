"""Round rods of permeable material, magnets or steel, that magnetise each other and stand in any applied field.

Outside and inside, a rod's magnetisation has the field of a current round its surface, M x n (A/m), which is solved for
on all rods at once; all else comes from loops.
"""
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0, pi
from scipy.sparse.linalg import LinearOperator, gmres

from lessons_lib.base.checks import at_least, finite, points_in_space, refuse
from lessons_lib.physics.rod_surface import UprightRod, vectors

_ROUND = 8  # angles round a rod over which another body's field is averaged (error: the power 8 of radius / distance)
_TURN = 2 * pi * (np.arange(_ROUND) + 0.5) / _ROUND


@dataclass(frozen=True, kw_only=True)
class Rod(UprightRod):
    """An upright round rod: diameter, length, x, y, top (m), remanence (T), relative_permeability (also complex)."""

    diameter: float
    length: float
    relative_permeability: float = 1.0
    remanence: float = 0.0
    x: float = 0.0
    y: float = 0.0
    top: float = 0.0

    def __post_init__(self):
        super().__post_init__()
        finite(remanence=self.remanence)
        if not isinstance(self.relative_permeability, complex):
            at_least(1, relative_permeability=self.relative_permeability)

    @property
    def contrast(self):
        """(mu - 1)/(mu + 1), mu the relative permeability."""
        return (self.relative_permeability - 1) / (self.relative_permeability + 1)

    def rings(self, radii, heights):
        """Points round the axis, shape (rings, angles, 3), on circles of the radii (m) at heights above the middle."""
        rings = np.stack(np.broadcast_arrays(radii[:, None] * np.cos(_TURN), radii[:, None] * np.sin(_TURN),
                                             heights[:, None]), axis=-1)
        return rings + self.middle

    def tangential(self, vectors):
        """Mean round each ring of nodes of the vectors' part along the meridian; vectors: (nodes, angles, 3)."""
        along = self.surface.tangents
        outward = vectors[..., 0] * np.cos(_TURN) + vectors[..., 1] * np.sin(_TURN)
        return (along[:, :1] * outward + along[:, 1:] * vectors[..., 2]).mean(axis=1)


@lru_cache(maxsize=256)
def _coupling(target, source, distance, rise):
    """Tangential B/mu0 at the nodes of one rod from unit currents at another's; target, source: (diameter, length)."""
    target, source = (Rod(diameter=diameter, length=length) for diameter, length in (target, source))
    half = slice(0, _ROUND // 2)  # both halves round the rod see the same
    points = target.rings(*target.surface.nodes.T)[:, half] - target.middle + (distance, 0.0, rise)
    rho = np.hypot(points[..., 0], points[..., 1])
    B_rho, B_z = source.surface.field_matrix(rho.ravel(), points[..., 2].ravel()).reshape(2, *rho.shape, -1)
    outward = ((points[..., 0] * np.cos(_TURN[half]) + points[..., 1] * np.sin(_TURN[half])) / rho)[..., None]
    along = target.surface.tangents[..., None, None]
    return (along[:, 0] * outward * B_rho + along[:, 1] * B_z).mean(axis=1) / mu_0


def _action(target, source):
    across = float(np.hypot(target.x - source.x, target.y - source.y))
    rise = float(target.middle[2] - source.middle[2])
    shapes = ((rod.diameter, rod.length) for rod in (target, source))
    coupling = _coupling(*shapes, round(across, 12), abs(round(rise, 12)))  # rounded: places equal but for the last bit
    return coupling if rise >= 0 else coupling[::-1, ::-1]  # the other way up, nodes count from the other end


@lru_cache(maxsize=64)
def _alone(surface, contrast):
    """What drives a rod to the current on it when it stands alone: a matrix."""
    return np.linalg.inv(np.eye(len(surface.nodes)) - 2 * contrast * surface.self_action)


@lru_cache(maxsize=16)
def _feedback(rods):
    """Currents on all rods from unit currents on the others, each rod answering as if alone: a matrix."""
    rows = []
    for target in rods:
        answer = 2 * target.contrast * _alone(target.surface, target.contrast)
        rows.append(np.hstack([np.zeros_like(answer) if source is target else answer @ _action(target, source)
                               for source in rods]))
    return np.vstack(rows)


def _settle(rods, drive):
    """Currents on the rods from what drives each, the rods acting on each other."""
    alone = np.concatenate([_alone(rod.surface, rod.contrast) @ own for rod, own in zip(rods, drive)])
    if len(rods) == 1:
        return alone
    feedback = _feedback(tuple(replace(rod, remanence=0.0) for rod in rods))
    # einsum, not @: threads of a linear-algebra library cost more than these small products
    system = LinearOperator(feedback.shape, lambda K: K - np.einsum("ij,j->i", feedback, K), dtype=feedback.dtype)
    currents, failed = gmres(system, alone, rtol=1e-10, restart=100, maxiter=10)
    if failed:
        raise RuntimeError(f"currents on rods must settle within 1000 steps; got {rods!r}.")
    return currents


def magnetise(rods, applied_field=None):
    """Magnetise rods by their own remanence, by each other and by an applied field.

    Parameters
    ----------
    rods : sequence of Rod
        They must not overlap.
    applied_field : function, optional
        Takes points (m), shape (..., 3); gives the applied H, A/m, of the same shape. Every field that is not the
        rods' own: of a bar magnet, of a coil.

    Returns
    -------
    MagnetisedRods

    Raises
    ------
    TypeError, ValueError
        For something that is no Rod, and for rods that overlap.

    Notes
    -----
    B along the surface jumps by mu0 times the current K, H does not: K = 2 (B_r / (mu0 (1 + mu)) + c H), where H is the
    applied field plus the mean B/mu0 of all currents along the meridian, mu the relative permeability and
    c = (mu - 1)/(mu + 1). Collocation at Gauss nodes on panels graded towards the edges; another body's field counts by
    its mean round each ring, so magnetisation across a rod is left out (0.2 % over six rods 10 mm apart). Straight-line
    material. Against finite elements (tests/test_surface_currents.py): one rod 0.02 %, its end face
    0.1 %; a rod over a steel plate 0.1 % at a gap of 1 mm, 2 % at 0.3 mm, and worse for smaller gaps, whose narrow
    peaks of current the panels do not follow.

    Examples
    --------
    >>> steel = Rod(diameter=5e-3, length=5e-3, relative_permeability=1e3)
    >>> in_field = magnetise([steel], lambda points: np.zeros_like(points) + (0.0, 0.0, 1000.0))
    >>> in_field.flux_density([0.0, 0.0, 1.0]).round(9).tolist()      # far away nothing is left of it
    [0.0, 0.0, 0.0]
    """
    rods = tuple(rods)
    for i, rod in enumerate(rods):
        if not isinstance(rod, Rod):
            raise TypeError(f"rods must be a sequence of Rod; got {rod!r}.")
        for other in rods[:i]:
            apart = np.hypot(rod.x - other.x, rod.y - other.y) >= (rod.diameter + other.diameter) / 2
            if not apart and np.abs(rod.middle - other.middle)[2] < (rod.length + other.length) / 2:
                refuse("rods", "clear of each other", (other, rod))
    if not rods:
        return MagnetisedRods(rods, (), applied_field)
    drive = [2 * rod.remanence / (mu_0 * (1 + rod.relative_permeability)) * rod.surface.tangents[:, 1] for rod in rods]
    if applied_field is not None:
        # rod by rod: where one of several has moved, the fields at the others are still known
        fields = [applied_field(rod.rings(*rod.surface.nodes.T)) for rod in rods]
        drive = [own + 2 * rod.contrast * rod.tangential(field) for rod, own, field in zip(rods, drive, fields)]
    currents = _settle(rods, drive)
    return MagnetisedRods(rods, tuple(np.split(currents, np.cumsum([len(d) for d in drive])[:-1])), applied_field)


@dataclass(frozen=True)
class MagnetisedRods:
    """Rods with the surface current (A/m at the nodes of each rod's panels) that their magnetisation amounts to."""

    rods: tuple
    currents: tuple
    applied_field: object = None

    def flux_density(self, points):
        """B (T) of the rods' magnetisation alone, shape (..., 3), at points (m) of that shape, anywhere.

        On a rod's surface the mean of both sides; NaN on its edges.
        """
        points = points_in_space(points)
        total = np.zeros(points.shape)
        for rod, current in zip(self.rods, self.currents):
            rho, height, outward = rod.from_axis(points)
            total += vectors(*rod.surface.field(rho, height, current), outward)
        return total

    def field_strength(self, points):
        """H (A/m) of the same; points on a surface count as outside."""
        points = points_in_space(points)
        flux_density = self.flux_density(points)
        H = flux_density / mu_0
        for rod in self.rods:
            inside = rod.holds(points)
            if inside.any():
                applied = 0.0 if self.applied_field is None else self.applied_field(points[inside])
                along = flux_density[inside] + mu_0 * applied - (0.0, 0.0, rod.remanence)
                H[inside] = along / (mu_0 * rod.relative_permeability) - applied
        return H

    def section_flux(self, number, rho, z):
        """Flux (Wb) of one rod's own magnetisation through level circles (rho, m, round its axis) at height z (m)."""
        rod = self.rods[number]
        return rod.surface.flux(np.asarray(rho, dtype=float), z - rod.middle[2], self.currents[number])

    def linkage_with(self, flux_density):
        """The integral (J) of M . B over all rods, for the B of something else, a function of points (m, T).

        Of B per ampere of a coil: the linkage (Wb-turns) that the rods give it. Every ring of current times the flux
        through it: B_z averaged over the disc by two Gauss circles.
        """
        return float(sum(K @ _linkage_of_nodes(rod, flux_density) for rod, K in zip(self.rods, self.currents)))


def _linkage_of_nodes(rod, flux_density):
    """The linkage with something else that one A/m at each of a rod's nodes has."""
    share = np.sqrt((1 + np.array([-1, 1]) / np.sqrt(3)) / 2)  # of the radius: Gauss nodes over the area
    radii, heights = rod.surface.nodes.T
    B_z = flux_density(rod.rings(np.outer(radii, share).ravel(), np.repeat(heights, 2)))[..., 2]
    return rod.surface.weights * pi * radii ** 2 * B_z.reshape(len(radii), -1).mean(axis=-1)


def linkages_of_answer(rods, permeabilities, applied_field, flux_density):
    """Linkage that rods give a coil in an applied field, for several permeabilities of each.

    Parameters
    ----------
    rods : sequence of Rod
    permeabilities : array of complex, shape (states, rods)
    applied_field, flux_density : function
        As of `magnetise` and of `MagnetisedRods.linkage_with`.

    Returns
    -------
    ndarray of complex, shape (states,)
        As `linkage_with` for each state, without remanence. Fields are looked up once.
    """
    driven = [rod.tangential(applied_field(rod.rings(*rod.surface.nodes.T))) for rod in rods]
    linked = np.concatenate([_linkage_of_nodes(rod, flux_density) for rod in rods])
    answers = []
    for state in permeabilities:
        own = [complex(mu) if mu.imag else float(mu.real) for mu in state]  # as a key 3.6 + 0j equals 3.6
        now = [replace(rod, remanence=0.0, relative_permeability=mu) for rod, mu in zip(rods, own)]
        answers.append(_settle(now, [2 * rod.contrast * field for rod, field in zip(now, driven)]) @ linked)
    return np.array(answers, dtype=complex)
