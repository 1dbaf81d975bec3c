"""Permeable bodies of any shape in space, for tests: potential on triangles, nothing shared with the library.

Inside a body of susceptibility chi, M = -chi grad(phi). Green's theorem turns the potential of M into a double layer on
the body's surface, so the total potential there obeys

    phi(x) = phi_0(x) + sum over bodies of chi / (4 pi) * sum over vertices of I_j(x) (phi_j - phi(x)),

I_j the integral of vertex j's hat function over solid angle. It is exact on flat triangles (D. A. Lindholm, IEEE Trans.
Magn. 20, 2025 (1984)), so a constant potential is answered by none at all, however permeable the body. No symmetry
about an axis, no surface current or charge as the unknown, potentials of sources by line integrals of their field.
"""
from dataclasses import dataclass

import numpy as np
from scipy.constants import mu_0, pi

_LINE = np.polynomial.legendre.leggauss(12)
_CORNERS = np.array([[4, 1, 1], [1, 4, 1], [1, 1, 4]]) / 6   # three places of a triangle, exact for parabolas
_PAIRS = 400_000                                            # of places and triangles worked on at once


@dataclass(frozen=True, eq=False)
class Solid:
    """A closed surface: vertices (n, 3) in m, triangles (m, 3) anticlockwise from outside, middle, susceptibility."""

    vertices: np.ndarray
    triangles: np.ndarray
    middle: np.ndarray
    susceptibility: float


def cylinder(*, diameter, length, permeability, y=0.0, top=0.0, round_it=28, face=(0.35, 0.62, 0.82, 0.94), wall=14):
    """An upright rod; its corners stand a little outside, so that the section's area is the circle's."""
    radius = diameter / 2 * np.sqrt(2 * pi / round_it / np.sin(2 * pi / round_it))
    heights = -length / 2 * (1 + np.cos(pi * np.arange(wall + 1) / wall))   # from the bottom, closer at both ends
    rings = [(1.0, z) for z in heights]
    rings = [(share, -length) for share in face] + rings + [(share, 0.0) for share in face[::-1]]
    angle = 2 * pi * (np.arange(round_it) + 0.5) / round_it
    circle = np.stack([np.cos(angle), np.sin(angle), 0 * angle], axis=-1)
    points = np.concatenate([share * radius * circle + (0, y, top + z) for share, z in rings]
                            + [[(0, y, top - length), (0, y, top)]])
    here = np.arange(round_it)
    after, last = (here + 1) % round_it, len(rings) * round_it
    triangles = [np.stack([0 * here + last, after, here], axis=-1)]
    for ring in range(len(rings) - 1):
        low, high = ring * round_it, (ring + 1) * round_it
        triangles += [np.stack([low + here, low + after, high + after], axis=-1),
                      np.stack([low + here, high + after, high + here], axis=-1)]
    upper = (len(rings) - 1) * round_it
    triangles.append(np.stack([0 * here + last + 1, upper + here, upper + after], axis=-1))
    return Solid(points, np.concatenate(triangles), np.array([0.0, y, top - length / 2]), permeability - 1)


def box(*, size, centre, permeability, cells):
    """A block; cells along each edge."""
    points, triangles, count = [], [], 0
    for axis in range(3):
        u, v = (axis + 1) % 3, (axis + 2) % 3
        grid_u, grid_v = np.meshgrid(np.linspace(-1, 1, cells[u] + 1), np.linspace(-1, 1, cells[v] + 1), indexing="ij")
        corner = np.arange(grid_u.size).reshape(grid_u.shape)
        a, b, c, d = (part.ravel() for part in (corner[:-1, :-1], corner[1:, :-1], corner[1:, 1:], corner[:-1, 1:]))
        for side in (-1, 1):
            place = np.empty((grid_u.size, 3))
            place[:, axis], place[:, u], place[:, v] = side, grid_u.ravel(), grid_v.ravel()
            points.append(place)
            faces = np.concatenate([np.stack([a, b, c], axis=-1), np.stack([a, c, d], axis=-1)])[:, ::side]
            triangles.append(faces + count)
            count += len(place)
    points = np.concatenate(points) * np.array(size) / 2 + np.array(centre)
    kept, index = np.unique(np.round(points, 9), axis=0, return_inverse=True)
    return Solid(kept, index.ravel()[np.concatenate(triangles)], np.array(centre, dtype=float), permeability - 1)


def _hats(places, corners):
    """Integrals of the hat functions over solid angle, shape (places, triangles, 3), for corners (triangles, 3, 3)."""
    edges = np.roll(corners, -1, axis=1) - corners                  # from corner i to corner i + 1
    lengths = np.linalg.norm(edges, axis=-1)
    normal = np.cross(edges[:, 0], edges[:, 1])
    area = np.linalg.norm(normal, axis=-1) / 2
    normal = normal / (2 * area[:, None])
    inward = np.cross(normal[:, None], edges / lengths[..., None])
    away = corners - places[:, None, None]
    distance = np.linalg.norm(away, axis=-1)
    height = (away[:, :, 0] * normal).sum(-1)
    a, b, c = np.moveaxis(away, 2, 0)
    ra, rb, rc = np.moveaxis(distance, 2, 0)
    angle = 2 * np.arctan2((a * np.cross(b, c)).sum(-1), ra * rb * rc + ra * (b * c).sum(-1) + rb * (c * a).sum(-1)
                           + rc * (a * b).sum(-1))
    around = distance + np.roll(distance, -1, axis=-1)
    with np.errstate(divide="ignore", invalid="ignore"):
        line = np.log((around + lengths) / (around - lengths))
    opposite = np.roll(inward, -1, axis=1), np.roll(away, -1, axis=2), np.roll(lengths, -1, axis=1)
    along = np.einsum("nij,nkj,tnk->tni", opposite[0], inward, np.where(np.isfinite(line), line, 0.0))
    offset = np.einsum("nij,tnij->tni", opposite[0], opposite[1])
    hats = opposite[2] / (2 * area[:, None]) * (height[..., None] * along - offset * angle[..., None])
    in_plane = np.abs(height) < 1e-12
    hats[in_plane] = 0.0
    return hats


def _batches(places, triangles):
    step = max(1, _PAIRS // triangles)
    return [slice(i, i + step) for i in range(0, len(places), step)]


@dataclass(frozen=True, eq=False)
class Magnetised:
    """Solids with the potential at their vertices, and the field that magnetises them (H in A/m, of points)."""

    solids: tuple
    potentials: tuple
    applied: object

    def field_strength(self, points):
        """H (A/m) outside of the solids, applied field and all; the solids' share from the currents on their faces."""
        points = np.asarray(points, dtype=float)
        flat = points.reshape(-1, 3)
        H = np.array(self.applied(flat), dtype=float).reshape(flat.shape)
        for solid, potential in zip(self.solids, self.potentials):
            corners = solid.vertices[solid.triangles]
            moments, places = _currents(solid, potential, corners)
            for part in _batches(flat, len(places)):
                away = flat[part, None] - places
                pull = away / (4 * pi * np.linalg.norm(away, axis=-1, keepdims=True)**3)
                H[part] += np.cross(moments, pull).sum(axis=1)
        return H.reshape(points.shape)

    def linkage(self, field):
        """Integral of M . mu0 H over all solids for another H (of points): a surface sum of phi times the normal H."""
        total = 0.0
        for solid, potential in zip(self.solids, self.potentials):
            corners = solid.vertices[solid.triangles]
            areas = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]) / 2
            places = np.einsum("ck,nkj->ncj", _CORNERS, corners)
            values = np.einsum("ck,nk->nc", _CORNERS, potential[solid.triangles])
            normal_H = (np.asarray(field(places.reshape(-1, 3))).reshape(places.shape) * areas[:, None]).sum(-1)
            total -= solid.susceptibility * mu_0 * (values * normal_H).sum() / 3
        return total


def _currents(solid, potential, corners):
    """Current times area (A m) on parts of the faces, and where: M x n = chi n x grad(phi), even on a triangle."""
    edges = np.roll(corners, -1, axis=1) - corners
    # n x grad(phi) times area: minus half the sum over corners of phi times the opposite edge
    around = np.einsum("nk,nkj->nj", potential[solid.triangles], np.roll(edges, -1, axis=1))
    strength = -solid.susceptibility / 2 * around
    places = np.einsum("ck,nkj->ncj", _CORNERS, corners)
    return np.repeat(strength / 3, 3, axis=0), places.reshape(-1, 3)


def magnetise_solids(solids, *applied, folded=False):
    """Solve for the potential on all solids in each of the applied H (A/m, of points); a `Magnetised` for each.

    Remanence is a source like others. folded: the scene is its own mirror image in the planes x = 0 and y = 0; only a
    quarter is solved for.
    """
    vertices, sizes = np.concatenate([solid.vertices for solid in solids]), [len(solid.vertices) for solid in solids]
    middles = np.repeat([solid.middle for solid in solids], sizes, axis=0)
    keys = np.round(np.concatenate([vertices, middles], axis=1), 9)
    if folded:
        keys[:, [0, 1, 3, 4]] = np.abs(keys[:, [0, 1, 3, 4]])
    _, chosen, index = np.unique(keys, axis=0, return_index=True, return_inverse=True)
    index, places = index.ravel(), vertices[chosen]
    matrix, first = np.eye(len(places)), 0
    sources = np.stack([_line_potential(places, middles[chosen], field) for field in applied], axis=-1)
    for solid in solids:
        corners, to = solid.vertices[solid.triangles], index[first + solid.triangles]
        for part in _batches(places, len(corners)):
            hats = solid.susceptibility / (4 * pi) * _hats(places[part], corners)
            rows = np.arange(len(places))[part]
            matrix[rows, rows] += hats.sum(axis=(1, 2))
            for row, hat in zip(rows, hats):
                matrix[row] -= np.bincount(to.ravel(), hat.ravel(), minlength=len(places))
        first += len(solid.vertices)
    cuts = np.cumsum(sizes)[:-1]
    return [Magnetised(tuple(solids), tuple(np.split(potential, cuts)), field)
            for potential, field in zip(np.linalg.solve(matrix, sources)[index].T, applied)]


def _line_potential(places, middles, applied):
    """-integral of H along the line from the middle of each place's solid; a constant on a solid moves nothing."""
    node, share = _LINE
    steps = places - middles
    points = middles[:, None] + steps[:, None] * (1 + node[:, None]) / 2
    H = np.asarray(applied(points.reshape(-1, 3))).reshape(points.shape)
    return -(np.einsum("pnj,n,pj->p", H, share / 2, steps))
