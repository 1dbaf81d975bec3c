"""The plain functions behind the panels of lesson 1: SI numbers in, small records and arrays out.

For each panel one function gives what the read-outs say and one what the picture takes.
"""
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from lessons_lib.base.checks import between, positive
from lessons_lib.base.units import in_unit
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.physics.magnets import RodMagnet


@dataclass(frozen=True, kw_only=True)
class RodFlux:
    """Flux of a rod, Wb: through its middle and its end face; side_share leaves through the side wall between them."""

    middle: float
    face: float

    @property
    def side_share(self):
        """Share of the flux of the middle that leaves through the side wall before the end face."""
        return 1 - self.face / self.middle


def rod_flux(*, diameter, length, remanence, recoil_permeability):
    """Flux through the middle and through the upper face of a rod magnet, as a RodFlux."""
    rod = RodMagnet(diameter=diameter, length=length, remanence=remanence, recoil_permeability=recoil_permeability)
    return RodFlux(middle=rod.midplane_flux(), face=rod.end_flux())


@dataclass(frozen=True, kw_only=True)
class RingSum:
    """Flux through a disc above the pole: edges (k + 1,) m, ring_values (k,) T, sums (k,) and exact Wb."""

    edges: np.ndarray
    ring_values: np.ndarray
    sums: np.ndarray
    exact: float

    @property
    def mean(self):
        """Mean flux density over the disc, T."""
        return self.exact / (np.pi * self.edges[-1] ** 2)

    @property
    def difference(self):
        """Sum of the rings divided by the exact flux, less one."""
        return self.sums[-1] / self.exact - 1


def ring_sum(*, height, radius, rings, instrument=house_instrument):
    """Sum B 2 pi r dr over equally wide rings above the instrument's rod, B taken in the middle of each ring.

    Returns
    -------
    RingSum

    Raises
    ------
    ValueError
        If height or radius is not above zero, or rings below 1.

    Examples
    --------
    >>> len(ring_sum(height=1e-3, radius=2.5e-3, rings=5).sums)
    5
    """
    positive(height=height, radius=radius)
    between(1, 1000, rings=rings)
    edges = np.linspace(0, radius, rings + 1)
    middles = (edges[1:] + edges[:-1]) / 2
    values = _upward(instrument.rod, middles, height)
    sums = np.cumsum(values * 2 * np.pi * middles * np.diff(edges))
    return RingSum(edges=edges, ring_values=values, sums=sums,
                   exact=float(instrument.rod.flux_function(radius, height)))


def _upward(rod, rho, z):
    """Vertical flux density (T) of a rod at distances rho from its axis and heights z above its face (m, broadcast)."""
    return rod.flux_density(np.stack(np.broadcast_arrays(rho, 0.0, z), axis=-1))[..., 2]


def ring_curves(taken, *, height, instrument=house_instrument, **_):
    """What the two pictures of adding up take: the RingSum and the curves of B and flux out to 8 mm."""
    rho = np.linspace(0, 8e-3, 81)
    return {"rings": taken, "rho": rho, "flux_density": _upward(instrument.rod, rho, height),
            "flux": instrument.rod.flux_function(rho, height)}


@dataclass(frozen=True, kw_only=True)
class AxisField:
    """Flux density (T) on the axis at a distance z (m) above the pole, its local exponent, and B(2 z)/B(z)."""

    flux_density: float
    exponent: float
    doubled: float


def axis_field(*, z, instrument=house_instrument):
    """Flux density of the instrument's rod on its axis at z above the pole, as an AxisField.

    Notes
    -----
    The exponent is d(log B)/d(log z), from two places 1 % below and above z: good to 1e-3.
    """
    positive(z=z)
    below, here, above, doubled = _upward(instrument.rod, 0.0, [z / 1.01, z, z * 1.01, 2 * z])
    return AxisField(flux_density=float(here), doubled=float(doubled / here),
                     exponent=float(np.log(above / below) / (2 * np.log(1.01))))


def axis_curve(field, *, z, instrument=house_instrument):
    """What FallingCurve.update takes, in mm and mT."""
    places = np.geomspace(0.3e-3, 300e-3, 240)
    return {"x": in_unit(places, "mm"), "y": in_unit(_upward(instrument.rod, 0.0, places), "mT"),
            "at": in_unit(z, "mm"), "value": in_unit(field.flux_density, "mT"), "slope": field.exponent}


@dataclass(frozen=True, kw_only=True)
class InsideField:
    """B (T), H (A/m) and J (T) at a place of the axis, upward positive."""

    b: float
    h: float
    j: float

    @property
    def inside(self):
        """Whether the place is in the magnet."""
        return self.j != 0

    @property
    def sentence(self):
        """The signs, in words."""
        if self.inside:
            return "in the rod: H points against B, because J is larger than B"
        return "outside: H points with B, because J is zero"


def _of_its_alloy(instrument, diameter, length, recoil_permeability):
    """A rod of other sizes with the remanence of the instrument's."""
    return RodMagnet(diameter=diameter, length=length, remanence=instrument.magnet["remanence"],
                     recoil_permeability=recoil_permeability)


def _axis_points(place, length):
    """Points on the axis at places from the middle of a rod whose top is at z = 0."""
    place = np.asarray(place, dtype=float)
    return np.stack([np.zeros_like(place), np.zeros_like(place), place - length / 2], axis=-1)


def inside_field(*, place, diameter, length, recoil_permeability, instrument=house_instrument):
    """B, H and J on the axis of a rod of the instrument's remanence; on a face the values just outside."""
    rod, point = _of_its_alloy(instrument, diameter, length, recoil_permeability), _axis_points(place, length)
    return InsideField(b=float(rod.flux_density(point)[2]), h=float(rod.field_strength(point)[2]),
                       j=float(rod.polarisation(point)[2]))


@lru_cache(maxsize=64)
def _axis_lines(diameter, length, recoil_permeability, instrument):
    face, beside = length / 2, 1e-7     # m from a face, on either side of the jump of H
    place = np.concatenate([np.linspace(-12e-3, -face - beside, 40), np.linspace(-face + beside, face - beside, 120),
                            np.linspace(face + beside, 20e-3, 60)])
    rod, points = _of_its_alloy(instrument, diameter, length, recoil_permeability), _axis_points(place, length)
    b, j = rod.flux_density(points)[:, 2], rod.polarisation(points)[:, 2]
    return place, b, np.where(np.abs(place) < face, j, np.nan), b - j


def inside_curves(*, place, diameter, length, recoil_permeability, instrument=house_instrument):
    """What AlongAxis.update takes."""
    places, b, j, mu0_h = _axis_lines(diameter, length, recoil_permeability, instrument)
    return {"place": places, "b": b, "j": j, "mu0_h": mu0_h, "at": place, "length": length}
