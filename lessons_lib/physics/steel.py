"""Steel in the pickup's field: the string that sounds, and the pole that is not a magnet itself.

A string is a line of nodes, close together over the pickup. A smooth curve through them is its axial magnetisation;
where it changes, magnetic charge is on the string's surface, whose field works back on the axis.
"""
import math
from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
from scipy.constants import mu_0
from scipy.interpolate import CubicSpline

from lessons_lib.base.checks import at_least, finite_array, positive, positive_or_infinite, refuse
from lessons_lib.physics.rod_surface import UprightRod

_SCALE = 6e-3           # m: nodes are close together up to here from the middle, and wider and wider beyond
_HALF_LENGTH = 120e-3   # m, of the piece of string that is looked at
_INTERVALS = 90         # between its nodes
_FINER = 8              # so many pieces of an interval for the field of the charge


def _parameter(intervals):
    """Even steps of u in x = scale sinh(u): close together in the middle, wide at the ends."""
    return np.linspace(-1, 1, intervals + 1) * math.asinh(_HALF_LENGTH / _SCALE)


# Places (m) along the string where it is looked at, from the middle of the pickup, and their share (m) of an integral.
STRING_PLACES = _SCALE * np.sinh(_parameter(_INTERVALS))
STRING_WEIGHTS = _SCALE * np.cosh(_parameter(_INTERVALS)) * 2 * math.asinh(_HALF_LENGTH / _SCALE) / _INTERVALS
_SLOPE = np.gradient(np.eye(_INTERVALS + 1), axis=0) / STRING_WEIGHTS[:, None]  # d/dx of values at the places
_BEND = _SLOPE @ _SLOPE
for _array in (STRING_PLACES, STRING_WEIGHTS, _BEND):
    _array.setflags(write=False)
_STEPS, _TOLERANCE = 60, 1e-7  # of Newton: its last step is squared in what is left
_NOTHING = np.finfo(float).tiny  # A/m: lets a field near the smallest number settle


def string_line(*, height, y=0.0, middle=0.0):
    """Points (m) along axes of strings at STRING_PLACES, shape (..., nodes, 3); height and y broadcast."""
    height, y = np.expand_dims(height, -1), np.expand_dims(y, -1)
    return np.stack(np.broadcast_arrays(STRING_PLACES + middle, y, height), axis=-1)


@dataclass(frozen=True, kw_only=True)
class SteelPole(UprightRod):
    """An upright steel rod or screw in the coil: no magnet, it only leads the flux of others.

    Parameters
    ----------
    diameter, length : float
        m, above zero.
    relative_permeability : float
        1 (air) or above.
    x, y, top, resistivity : float, optional
        As of a `RodMagnet`.

    Notes
    -----
    A straight line without saturation: a screw on a ferrite bar carries some 0.2 T, far below the knee.

    Examples
    --------
    >>> SteelPole(diameter=4.8e-3, length=17e-3, relative_permeability=500).top
    0.0
    """

    diameter: float
    length: float
    relative_permeability: float
    x: float = 0.0
    y: float = 0.0
    top: float = 0.0
    resistivity: float = math.inf

    def __post_init__(self):
        super().__post_init__()
        at_least(1, relative_permeability=self.relative_permeability)
        positive_or_infinite(resistivity=self.resistivity)


@dataclass(frozen=True, kw_only=True)
class SteelString:
    """A steel string: a plain wire, or the core of a wound string with its wrap.

    Parameters
    ----------
    diameter : float
        Of the plain wire or of the steel core, m, above zero.
    relative_permeability : float, optional
        Initial relative permeability of the steel, 1 or above.
    saturation : float, optional
        Largest polarisation of the steel, T, above zero; infinite: the law is a straight line.
    wrap_diameter : float, optional
        Outer diameter of a wound string, m, above that of the core; needed only for a magnetic wrap.
    wrap_permeability : float, optional
        Effective relative permeability of the wrap along the string: 1 for bronze (magnetically it is not there).

    Notes
    -----
    Law of the steel: mu0 M = J s / sqrt(1 + s^2), s = mu0 chi H / J. No hysteresis, no lasting magnetisation. The
    law is assumed: permeability 100 and 1.9 T are common practice, and the choice of law moves the result by 20 to
    25 %, far more than the numerics do. Papers on such steel are named in base/materials.py; no number is theirs.

    A magnetic wrap is assumed, not measured: steel that fills pi/4 of its ring, with one effective permeability along
    the string that the gaps between turns keep low, some 5 to 15 where they touch. Across there are no gaps, so core
    and wrap act as one round rod of the wrap's diameter, be that permeability never so near 1: exactly 1 is no wrap.

    Examples
    --------
    >>> wire = SteelString(diameter=0.5e-3, saturation=math.inf)
    >>> field = np.zeros((len(STRING_PLACES), 3))
    >>> float(wire.magnetise(field).linkage(field))
    0.0
    """

    diameter: float
    relative_permeability: float = 100.0
    saturation: float = 1.9
    wrap_diameter: float | None = None
    wrap_permeability: float = 1.0

    def __post_init__(self):
        positive(diameter=self.diameter)
        at_least(1, relative_permeability=self.relative_permeability, wrap_permeability=self.wrap_permeability)
        positive_or_infinite(saturation=self.saturation)
        if self.wrap_diameter is not None:
            positive(wrap_diameter=self.wrap_diameter)
            if self.wrap_diameter <= self.diameter:
                refuse("wrap_diameter", "larger than the core's diameter", self.wrap_diameter)
        elif self.wrap_permeability > 1:
            refuse("wrap_diameter", "given with a magnetic wrap", self.wrap_diameter)

    @property
    def outer_radius(self):
        """Radius (m) that must clear the pickup, wrap included."""
        return (self.wrap_diameter or self.diameter) / 2

    @property
    def magnetic_radius(self):
        """Radius (m) of the part that is steel."""
        return self.outer_radius if self.wrap_permeability > 1 else self.diameter / 2

    @property
    def area(self):
        """Cross-section (m2) of the part that is steel, gaps of the wrap included."""
        return math.pi * self.magnetic_radius**2

    @cached_property
    def _parts(self):
        """Rows of (share of the area, susceptibility, 1 / the field of the knee): core and wrap."""
        core_share = (self.diameter / 2 / self.magnetic_radius)**2
        rows = ((core_share, self.relative_permeability - 1, self.saturation),
                (1 - core_share, self.wrap_permeability - 1, self.saturation * math.pi / 4))
        return [(share, chi, mu_0 * chi / saturation) for share, chi, saturation in rows if share > 0]

    def susceptibility(self, field_strength):
        """Mean M/H over the section and its derivative by H^2, for the size of H (A/m) in the steel."""
        square = np.square(field_strength)
        ratio, slope = np.zeros_like(square), np.zeros_like(square)
        for share, chi, inverse_knee in self._parts:
            root = np.sqrt(1 + inverse_knee**2 * square)
            ratio += share * chi / root
            slope -= share * chi * inverse_knee**2 / (2 * root**3)
        return ratio, slope

    def coenergy_density(self, field_strength):
        """Integral of mu0 M dH from 0 to H (J/m3), mean over the section, for the size of H (A/m) in the steel."""
        square = np.square(field_strength)
        return sum(mu_0 * share * chi * square / (1 + np.sqrt(1 + inverse_knee**2 * square))
                   for share, chi, inverse_knee in self._parts)

    def magnetise(self, applied):
        """The string in an applied field, as a `MagnetisedString`.

        Parameters
        ----------
        applied : array, shape (..., len(STRING_PLACES), 3)
            Field strength H (A/m) of everything but the string, on the string's axis at STRING_PLACES.

        Raises
        ------
        RuntimeError
            When Newton's method does not settle.

        Notes
        -----
        Along the string: M = chi(H) H with H = applied + field of the surface charge -(a/2) dM/dx, met at the nodes.
        Across it every slice is a long cylinder, H = applied - M/2. Both are solved together, because the law sees the
        size of H. The applied field counts by its mean round the surface. The string ends 120 mm either side of the
        middle; its work back on the magnets is left out (0.5 to 1.3 % of the linkage, over magnets of recoil
        permeability 3.6). Checked in tests/test_steel.py: 0.1 % of an exact wire, 0.4 % for one 1 mm thick.
        """
        applied = finite_array(applied=applied)
        if applied.shape[-2:] != (len(STRING_PLACES), 3):
            refuse("applied", f"an array of shape (..., {len(STRING_PLACES)}, 3)", f"shape {applied.shape}")
        applied = _round_the_surface(applied, self.magnetic_radius)
        across = np.hypot(applied[..., 1], applied[..., 2])
        along, inside = _solve(self, applied[..., 0], across)
        share = np.divide(inside, across, out=np.zeros_like(across), where=across > 0)
        field = np.stack([along, share * applied[..., 1], share * applied[..., 2]], axis=-1)
        return MagnetisedString(string=self, applied=applied, field_strength=field)


@dataclass(frozen=True, kw_only=True, eq=False)
class MagnetisedString:
    """A string in a field, shape (..., nodes, 3): `applied` and `field_strength`, H (A/m) without and with its own,
    `applied` as the mean round the string's surface."""

    string: SteelString
    applied: np.ndarray
    field_strength: np.ndarray

    @cached_property
    def magnetisation(self):
        """M (A/m), mean over the section, shape (..., nodes, 3)."""
        ratio, _ = self.string.susceptibility(np.linalg.norm(self.field_strength, axis=-1))
        M = ratio[..., None] * self.field_strength
        M[..., [0, -1], 0] = 0.0  # no steel beyond the ends
        return M

    def flux(self):
        """Flux (Wb) along the string at each node, shape (..., nodes)."""
        return mu_0 * self.string.area * (self.magnetisation + self.field_strength)[..., 0]

    def linkage(self, flux_density):
        """Integral of M . B over the string, B (T) on its axis; of a coil's B per ampere: its linkage (Wb-turns)."""
        return self._sum_with(_round_the_surface(flux_density, self.string.magnetic_radius))

    def coenergy(self):
        """Co-energy (J) the field gains from the string, the sources of `applied` held as they are.

        The integral over the string of (mu0 M dH up to H) - mu0/2 M . (H - applied)."""
        steel = self.string.coenergy_density(np.linalg.norm(self.field_strength, axis=-1))
        own_field = self.field_strength - self.applied
        return (STRING_WEIGHTS * self.string.area * steel).sum(-1) - mu_0 / 2 * self._sum_with(own_field)

    def _sum_with(self, field):
        return self.string.area * np.einsum("i,...ij,...ij->...", STRING_WEIGHTS, self.magnetisation, field)


def _round_the_surface(field, radius):
    """Mean round a string's surface of a field known on the axis, which bends as much across as it does along."""
    return field - radius**2 / 4 * (_BEND @ field)


@lru_cache(maxsize=32)
def _own_field(radius):
    """Matrix from axial M to the axial field of its surface charge, at the inner nodes (M = 0 at both ends)."""
    # A cubic spline through the nodes, looked at on a finer line: straight lines from node to node put all the charge's
    # bends at the nodes, and thin wires of high permeability come out 1 to 3 % low.
    spline = CubicSpline(_parameter(_INTERVALS), np.eye(_INTERVALS + 1)[:, 1:-1], bc_type="natural")
    fine = _parameter(_INTERVALS * _FINER)
    # Field on the axis of a charged tube of radius a, from x1 to x2: (sigma a / 2) [1 / distance] from x1 to x2.
    edges = _SCALE * np.sinh(fine)
    inverse = 1 / np.hypot(STRING_PLACES[1:-1, None] - edges, radius)
    matrix = -radius**2 / 4 * (np.diff(inverse, axis=1) / np.diff(edges)) @ np.diff(spline(fine), axis=0)
    matrix.setflags(write=False)
    return matrix


def _solve(string, applied_along, applied_across):
    """H inside (A/m), along the string and across it, by Newton's method on both at once."""
    matrix, inner = _own_field(string.magnetic_radius), (..., slice(1, -1))
    along, across = np.zeros_like(applied_along), np.zeros_like(applied_across)
    before, share = np.inf, 1.0
    for _ in range(_STEPS):
        ratio, slope = string.susceptibility(np.hypot(along, across))
        # Across: chi(H) Ht/2 + Ht = applied. Its unknown is local, so it is eliminated node by node.
        excess = across * (1 + ratio / 2) - applied_across
        stiffness, cross = 1 + ratio / 2 + across**2 * slope, along * across * slope
        answer = ratio + 2 * slope * along**2 - 2 * cross**2 / stiffness
        pulled = ratio * along - 2 * cross * excess / stiffness
        target = applied_along[inner] - along[inner] + pulled[inner] @ matrix.T
        jacobian = np.eye(len(matrix)) - matrix * answer[inner][..., None, :]
        change = np.zeros_like(along)
        change[inner] = np.linalg.solve(jacobian, target[..., None])[..., 0]
        change[..., [0, -1]] = applied_along[..., [0, -1]] - along[..., [0, -1]]
        change_across = -(excess + cross * change) / stiffness
        moved = np.maximum(np.abs(change), np.abs(change_across)).max(-1)
        # deep in saturation whole steps swing to and fro: where a step is not shorter than the last, go half the way
        share, before = np.where(moved >= before, np.maximum(0.05, share / 2), np.minimum(1.0, 1.3 * share)), moved
        along, across = along + share[..., None] * change, across + share[..., None] * change_across
        if (moved <= _TOLERANCE * np.hypot(along, across).max(-1) + _NOTHING).all():
            return along, across
    raise RuntimeError(f"the string's magnetisation must settle within {_STEPS} steps; got a last step of "
                       f"{moved.max():.3g} A/m.")
