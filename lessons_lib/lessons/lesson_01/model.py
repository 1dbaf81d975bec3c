"""The plain functions behind the panels of lesson 1: SI numbers in, small records and arrays out.

For each panel one function gives what the read-outs say and one what the picture takes.
"""
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0, pi

from lessons_lib.base.checks import between, positive
from lessons_lib.base.units import said
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.rod import flux_density_map, flux_map, upward
from lessons_lib.physics.magnets import RodMagnet


@dataclass(frozen=True, kw_only=True)
class Round:
    """A compass carried once round a rod, clockwise from above its upper end, in even steps.

    Height of the middle of the way and its radius (m); places (m) and directions of the needle, (n, 2): x and z.
    """

    middle: float
    radius: float
    places: np.ndarray
    directions: np.ndarray

    @property
    def turns(self):
        """How often the needle turns on the way, clockwise: the field as it is, the earth's (1 % of it) left out."""
        x, z = np.vstack([self.directions, self.directions[:1]]).T
        angle = np.unwrap(np.arctan2(x, z))
        return float(angle[-1] - angle[0]) / (2 * pi)


def compass_round(instrument=house_instrument, *, beyond=7.5e-3):
    """A compass carried round the instrument's rod in 48 steps, *beyond* (m) its ends, as a Round.

    Examples
    --------
    >>> round(compass_round().turns, 6)
    2.0
    """
    rod, turn = instrument.rod, 2 * pi * np.arange(48) / 48
    middle, radius = -rod.length / 2, rod.length / 2 + beyond
    places = np.column_stack([radius * np.sin(turn), middle + radius * np.cos(turn)])
    field = rod.flux_density(np.insert(places, 1, 0.0, axis=1))[:, [0, 2]]
    return Round(middle=middle, radius=radius, places=places,
                 directions=field / np.linalg.norm(field, axis=1, keepdims=True))


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


def counted_map(flux, **rod):
    """What FluxLines.update takes for lines that are counted over a shade of B."""
    return flux_map(**rod) | {"face": flux.face, "shade": flux_density_map(**rod)}


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
        return self.exact / (pi * self.edges[-1] ** 2)

    @property
    def difference(self):
        """Sum of the rings divided by the exact flux, less one."""
        return self.sums[-1] / self.exact - 1


def ring_sum(*, height, radius, rings, instrument=house_instrument):
    """Sum B 2 pi r dr over equally wide rings above the instrument's rod, B in the middle of each, as a RingSum.

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
    values = upward(instrument.rod, middles, height)
    sums = np.cumsum(values * 2 * pi * middles * np.diff(edges))
    return RingSum(edges=edges, ring_values=values, sums=sums,
                   exact=float(instrument.rod.flux_function(radius, height)))


WIDEST_DISC = 8e-3


def tube_end(instrument):
    """Flux (Wb) of a dot of the disc seen from above: larger where the instrument's magnet is stronger."""
    return 25e-9 * max(1, round(instrument.stronger))


def _tube_ends(instrument, height):
    """Places (2, n), m, of tubes of equal flux at a height above the face, spread evenly round the axis."""
    rho = np.linspace(0, 1.45 * WIDEST_DISC, 161)
    flux = instrument.rod.flux_function(rho, height)
    rising = slice(flux.argmax() + 1)
    number = np.arange(int(flux.max() / tube_end(instrument)))
    distance = np.interp((number + 0.5) * tube_end(instrument), flux[rising], rho[rising])
    turn = number * pi * (3 - np.sqrt(5))      # the golden angle: no two of them line up
    return distance * np.array([np.cos(turn), np.sin(turn)])


def ring_curves(taken, *, height, radius, rings, instrument=house_instrument):
    """What the three pictures of adding up take: rings from above, B with its mean, flux with the running sums."""
    rho = np.linspace(0, WIDEST_DISC, 81)
    corners = np.repeat(taken.edges, 3)[1:-1]
    heights = np.column_stack([taken.ring_values, taken.ring_values, np.zeros(rings)]).ravel()
    return {"above": {"edges": taken.edges, "dots": _tube_ends(instrument, height)},
            "density": {"b": (rho, upward(instrument.rod, rho, height)),
                        "rings": (corners, np.concatenate([[0.0], heights])),
                        "mean": ([0.0, radius], [taken.mean] * 2),
                        "words": {"mean": f"mean\n{said(taken.mean, 'mT', '.1f')}"}},
            "flux": {"exact": (rho, instrument.rod.flux_function(rho, height)), "sums": (taken.edges[1:], taken.sums),
                     "now": (radius, taken.exact), "words": {"now": said(taken.exact, "µWb", ".2f")}}}


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
    below, here, above, doubled = upward(instrument.rod, 0.0, [z / 1.01, z, z * 1.01, 2 * z])
    return AxisField(flux_density=float(here), doubled=float(doubled / here),
                     exponent=float(np.log(above / below) / (2 * np.log(1.01))))


NEAREST, FARTHEST = 0.3e-3, 300e-3


def axis_curve(field, *, z, instrument=house_instrument):
    """What RodAndProbe and the chart of the falling field take: the curve, whole powers of z, the slope at the dot."""
    places, beyond = np.geomspace(NEAREST, FARTHEST, 161), np.geomspace(NEAREST / 1.2, 1.8 * FARTHEST, 81)
    begin = z if 1.8 * z < FARTHEST else z / 1.8      # of the triangle, which has its right angle above the curve
    high, low = field.flux_density * (np.array([begin, 1.8 * begin]) / z) ** field.exponent
    powers = {f"power {power}": (beyond, field.flux_density * (beyond / z) ** -power) for power in (1, 2, 3)}
    return {"rod": {"distance": z, "diameter": instrument.rod.diameter, "length": instrument.rod.length},
            "chart": powers | {
                "b": (places, upward(instrument.rod, 0.0, places)), "now": (z, field.flux_density),
                "slope": ([begin, 1.8 * begin, 1.8 * begin, begin], [high, high, low, high]),
                "corner": (1.8 * begin, high), "words": {"corner": f"slope {said(field.exponent, '', '.2f')}"}}}


@dataclass(frozen=True, kw_only=True)
class InsideField:
    """B (T), H (A/m) and J (T) at a place of the axis, upward positive."""

    b: float
    h: float
    j: float

    @property
    def sentence(self):
        """The signs, in words; outside of the magnet J is zero."""
        if self.j:
            return "in the rod: H points against B, because J is larger than B"
        return "outside: H points with B, because J is zero"


def _on_axis(place, diameter, length, recoil_permeability, instrument):
    """B (T), H (A/m) and J (T) on the axis at places (m) from the middle of a rod of the instrument's remanence."""
    rod = RodMagnet(diameter=diameter, length=length, remanence=instrument.magnet["remanence"],
                    recoil_permeability=recoil_permeability)
    points = np.stack(np.broadcast_arrays(0.0, 0.0, np.subtract(place, length / 2)), axis=-1)
    return [field(points)[..., 2] for field in (rod.flux_density, rod.field_strength, rod.polarisation)]


def inside_field(*, place, diameter, length, recoil_permeability, instrument=house_instrument):
    """B, H and J on the axis of a rod of the instrument's remanence; on a face the values just outside."""
    b, h, j = _on_axis(place, diameter, length, recoil_permeability, instrument)
    return InsideField(b=float(b), h=float(h), j=float(j))


@lru_cache(maxsize=64)
def _axis_lines(diameter, length, recoil_permeability, instrument):
    face, beside = length / 2, 1e-7     # m from a face, on either side of the jump of H
    place = np.concatenate([np.linspace(-12e-3, -face - beside, 40), np.linspace(-face + beside, face - beside, 120),
                            np.linspace(face + beside, 20e-3, 60)])
    b, _, j = _on_axis(place, diameter, length, recoil_permeability, instrument)
    return place, b, np.where(np.abs(place) < face, j, np.nan), b - j


def inside_curves(field, *, place, diameter, length, recoil_permeability, instrument=house_instrument):
    """What FieldArrows and the two charts beside it take; the charts have the place upright."""
    places, b, j, mu0_h = _axis_lines(diameter, length, recoil_permeability, instrument)
    rod = (-length / 2, length / 2)
    return {"rod": {"at": place, "b": field.b, "mu0_h": mu_0 * field.h, "diameter": diameter, "length": length},
            "b": {"rod": rod, "b": (b, places), "j": (j, places), "now": (field.b, place),
                  "j name": (np.interp(-length / 4, places, j) + 0.09, -length / 4), "words": {"j name": "J"}},
            "h": {"rod": rod, "mu0_h": (mu0_h, places), "now": (mu_0 * field.h, place)}}
