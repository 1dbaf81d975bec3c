"""Permanent magnets: rods and bars, uniformly magnetised or with a recoil permeability."""
from dataclasses import dataclass

import numpy as np
from scipy.constants import mu_0, pi
from scipy.special import ellipe, ellipkm1

from lessons_lib.base.checks import finite, finite_array, points_in_space, positive, refuse

from .loops import sheet_field, sheet_flux


def _check_magnet(remanence, recoil_permeability):
    finite(remanence=remanence, recoil_permeability=recoil_permeability)
    if recoil_permeability < 1:
        refuse("recoil_permeability", "1 or above", recoil_permeability)


@dataclass(frozen=True, kw_only=True)
class RodMagnet:
    """A round rod magnet that stands upright, magnetised along its axis.

    Parameters
    ----------
    diameter, length : float
        m.
    remanence : float
        Remanence of its (recoil) line, T; positive: north pole on top; negative turns it over.
    recoil_permeability : float
        Slope of the line over mu0; 1 (a uniformly magnetised rod) or above.
    x, y, top : float
        Place of the axis and height of the upper face, m.

    Raises
    ------
    TypeError, ValueError
        For a size that is not a positive number, or a recoil permeability below 1.

    Notes
    -----
    Recoil permeability 1: closed forms (N. Derby, S. Olbert, Am. J. Phys. 78, 229 (2010)), exact. Left out: the grain
    of the alloy, its demagnetising curve (see `recoil_magnet`) and other bodies.

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

    def __post_init__(self):
        positive(diameter=self.diameter, length=self.length)
        finite(x=self.x, y=self.y, top=self.top)
        _check_magnet(self.remanence, self.recoil_permeability)

    @property
    def _sheet(self):
        """The current sheet that a uniformly magnetised rod amounts to."""
        return {"radius": self.diameter / 2, "bottom": self.top - self.length, "top": self.top}

    def flux_density(self, points):
        """Flux density B, inside as well as outside.

        Parameters
        ----------
        points : array_like, shape (..., 3)
            m.

        Returns
        -------
        ndarray, shape (..., 3)
            T. On the side wall, where B_z jumps, the mean of both sides; NaN on the two edges.
        """
        points = points_in_space(points)
        across = points[..., :2] - (self.x, self.y)
        rho = np.hypot(across[..., 0], across[..., 1])
        B_rho, B_z = sheet_field(rho, points[..., 2], **self._sheet)
        outward = across / np.where(rho > 0, rho, 1.0)[..., None]
        return self.remanence / mu_0 * np.concatenate([B_rho[..., None] * outward, B_z[..., None]], axis=-1)

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
            2 pi rho A_phi, Wb. Its contours are flux lines; equal steps carry equal flux.
        """
        rho, z = finite_array(rho=rho, z=z)
        if (rho < 0).any():
            refuse("rho", "zero or above", rho.min())
        return self.remanence / mu_0 * sheet_flux(rho, z, **self._sheet)

    def midplane_flux(self):
        """Flux through the middle of the rod, Wb."""
        return float(self.flux_function(self.diameter / 2, self.top - self.length / 2))

    def end_flux(self):
        """Flux that leaves through the upper face, Wb; the rest of the mid-plane flux leaves by the side wall."""
        return float(self.flux_function(self.diameter / 2, self.top))

    def magnetometric_factor(self):
        """Demagnetising factor averaged over the volume of a uniformly magnetised rod of this shape.

        Returns
        -------
        float

        Notes
        -----
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

        Returns
        -------
        float

        Examples
        --------
        >>> round(RodMagnet(diameter=1e-3, length=1e-3, remanence=1.0).fluxmetric_factor(), 4)
        0.2322
        """
        radius, half = self.diameter / 2, self.length / 2
        flux = sheet_flux(radius, 0.0, radius=radius, bottom=-half, top=half)
        return float(1 - flux / (mu_0 * pi * radius ** 2))
