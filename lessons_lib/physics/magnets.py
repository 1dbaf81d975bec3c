"""Permanent magnets: rods and bars, uniformly magnetised, with a recoil permeability, or (alnico) on their curve."""
import math
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0, pi
from scipy.special import ellipe, ellipkm1

from lessons_lib.base.checks import (
    at_least,
    finite,
    finite_array,
    from_zero,
    points_in_space,
    positive_or_infinite,
    refuse,
)
from lessons_lib.physics.alnico_rod import AlnicoRod  # noqa: F401  (all magnets are offered together)
from lessons_lib.physics.bar_magnet import BarMagnet  # noqa: F401
from lessons_lib.physics.loops import sheet_field, sheet_flux
from lessons_lib.physics.magnetic_circuit import working_point
from lessons_lib.physics.rod_surface import FluxesOfRod, vectors
from lessons_lib.physics.surface_currents import Rod, magnetise


@lru_cache(maxsize=64)
def _unit_currents(diameter, length, recoil_permeability):
    """Current round a rod's surface (A/m at its nodes) per tesla of remanence."""
    rod = Rod(diameter=diameter, length=length, relative_permeability=recoil_permeability, remanence=1.0)
    return magnetise([rod]).currents[0]


@dataclass(frozen=True, kw_only=True)
class RodMagnet(FluxesOfRod):
    """A round rod magnet that stands upright, magnetised along its axis.

    Parameters
    ----------
    diameter, length : float
        m, above zero.
    remanence : float
        Remanence of its (recoil) line, T; positive: north pole on top; negative turns it over.
    recoil_permeability : float
        Slope of the line over mu0; 1 (a uniformly magnetised rod) or above.
    x, y, top : float
        Place of the axis and height of the upper face, m.
    resistivity : float
        ohm m; infinite: no eddy currents. It counts in `Pickup.impedance` alone.

    Notes
    -----
    Recoil permeability 1: closed forms (N. Derby, S. Olbert, Am. J. Phys. 78, 229 (2010)), exact. Above 1 the rod is
    not uniformly magnetised: the current round its surface is solved for once per shape and kept (0.02 %). Left out:
    the grain of the alloy, its demagnetising curve (see `AlnicoRod` and `recoil_magnet`) and other bodies.
    Against magpylib, finite elements and published values: tests/test_magnets.py, test_recoil_magnets.py.

    Examples
    --------
    >>> rod = RodMagnet(diameter=5e-3, length=1.0, remanence=1.0)   # so long that the far face is not felt
    >>> rod.flux_density([0.0, 0.0, 0.0]).round(4).tolist()         # half the remanence in the middle of the face
    [0.0, 0.0, 0.5]
    """

    diameter: float
    length: float
    remanence: float
    recoil_permeability: float = 1.0
    x: float = 0.0
    y: float = 0.0
    top: float = 0.0
    resistivity: float = math.inf

    def __post_init__(self):
        super().__post_init__()
        positive_or_infinite(resistivity=self.resistivity)
        finite(remanence=self.remanence)
        at_least(1, recoil_permeability=self.recoil_permeability)

    def with_recoil_permeability(self, recoil_permeability):
        """The rod of another recoil permeability with the same field one radius above its face: another remanence.

        What is known of a rod is its field, not the remanence of its line.

        Examples
        --------
        >>> rod = RodMagnet(diameter=5e-3, length=17e-3, remanence=0.75, recoil_permeability=3.6)
        >>> round(rod.with_recoil_permeability(1.0).remanence, 2)
        0.48
        """
        other = replace(self, recoil_permeability=recoil_permeability)
        place = 0.0, (self.length + self.diameter) / 2
        return replace(other, remanence=self.remanence * float(self._field(*place)[1] / other._field(*place)[1]))

    @property
    def _currents(self):
        return _unit_currents(self.diameter, self.length, self.recoil_permeability)

    def _field(self, rho, height):
        """B_rho, B_z per remanence at a distance from the axis and a height above the middle."""
        if self.recoil_permeability == 1:
            sheet = sheet_field(rho, height, radius=self.diameter / 2, bottom=-self.length / 2, top=self.length / 2)
            return np.divide(sheet, mu_0)
        return self.surface.field(rho, height, self._currents)

    def flux_density(self, points):
        """Flux density B (T), shape (..., 3), at points (m) of that shape, inside as well as outside.

        On the side wall, where B_z jumps, the mean of both sides (with recoil permeability the jump is smoothed over
        0.04 % of the radius, on the faces too); NaN on the two edges.
        """
        rho, height, outward = self.from_axis(points_in_space(points))
        return self.remanence * vectors(*self._field(rho, height), outward)

    def field_strength(self, points):
        """Field strength H (A/m), shape (..., 3), at points (m) of that shape; those on the surface count as outside.

        B/mu0 outside, (B - remanence)/(mu0 recoil_permeability) inside, where it points against the magnetisation.
        """
        points = points_in_space(points)
        inside = self.holds(points)[..., None]
        line = np.where(inside, (0.0, 0.0, self.remanence), 0.0)
        return (self.flux_density(points) - line) / (mu_0 * np.where(inside, self.recoil_permeability, 1.0))

    def polarisation(self, points):
        """Polarisation J = B - mu0 H, T, shape (..., 3) at points (m) of that shape; zero outside."""
        points = points_in_space(points)
        return np.where(self.holds(points)[..., None],
                        self.flux_density(points) - mu_0 * self.field_strength(points), 0.0)

    def flux_function(self, rho, z):
        """Flux upward through the level circle of radius rho round the rod's axis at height z.

        Parameters
        ----------
        rho : array_like
            Distance from the rod's axis, m, not negative.
        z : array_like
            Height, m; broadcasts with rho.

        Returns
        -------
        ndarray
            2 pi rho A_phi, Wb, in proportion to the remanence. Its contours are flux lines; equal steps carry equal
            flux.
        """
        rho, z = from_zero(rho=rho), finite_array(z=z)
        height = z - self.top + self.length / 2
        if self.recoil_permeability == 1:
            half = self.length / 2
            unit = sheet_flux(rho, height, radius=self.diameter / 2, bottom=-half, top=half) / mu_0
        else:
            unit = self.surface.flux(rho, height, self._currents)
        return self.remanence * unit

    def magnetometric_factor(self):
        """Demagnetising factor averaged over the volume of a uniformly magnetised rod of this shape.

        1 minus Nagaoka's coefficient of a coil of the same shape: the mean B of both is the same current sheet's.

        Examples
        --------
        >>> round(RodMagnet(diameter=1e-3, length=1e-3, remanence=1.0).magnetometric_factor(), 4)
        0.3116
        """
        aspect = self.diameter / self.length
        kc2 = 1 / (1 + aspect ** 2)
        k2 = 1 - kc2
        K, E, k = ellipkm1(kc2), ellipe(k2), np.sqrt(k2)
        nagaoka = 4 / (3 * pi * np.sqrt(kc2)) * (kc2 / k2 * (K - E) + E - k)
        return float(1 - nagaoka)

    def fluxmetric_factor(self):
        """Demagnetising factor averaged over the mid-plane of a uniformly magnetised rod of this shape.

        Examples
        --------
        >>> round(RodMagnet(diameter=1e-3, length=1e-3, remanence=1.0).fluxmetric_factor(), 4)
        0.2322
        """
        radius, half = self.diameter / 2, self.length / 2
        flux = sheet_flux(radius, 0.0, radius=radius, bottom=-half, top=half)
        return float(1 - flux / (mu_0 * pi * radius ** 2))


def recoil_magnet(grade, *, permeance_coefficient):
    """The straight line on which a magnet answers small changes, through its working point.

    Parameters
    ----------
    grade : MagnetGrade
        From `magnet_grade(name)`.
    permeance_coefficient : float
        -B / (mu0 H) of the load line that set the working point (see `working_point`).

    Returns
    -------
    remanence, recoil_permeability : float
        T and 1: arguments of `RodMagnet`.

    Raises
    ------
    ValueError
        Where the line would end above the grade's remanence at H = 0: above the knee the curve itself is flatter.
        There, and for ferrite and rare earth (straight to far down), the grade's own remanence serves as it is.

    Examples
    --------
    >>> from lessons_lib.base.materials import magnet_grade
    >>> remanence, recoil_permeability = recoil_magnet(magnet_grade("alnico 5"), permeance_coefficient=7.76)
    >>> round(remanence, 2), recoil_permeability
    (0.71, 3.6)
    """
    B, H = working_point(grade, permeance_coefficient=permeance_coefficient)
    recoil_permeability = float(grade.recoil_permeability)
    remanence = B - mu_0 * recoil_permeability * H
    if remanence > grade.remanence * (1 + 1e-9):
        refuse("permeance_coefficient", f"so low that the recoil line ends below the remanence of {grade.name}, "
               f"{grade.remanence:g} T, at H = 0 (it would end at {remanence:.3g} T)", permeance_coefficient)
    return remanence, recoil_permeability
