"""Poles and bars of a pickup as they are magnetised: by themselves and each other, or by the current in the coils."""
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0
from scipy.special import roots_legendre

from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.rod_surface import vectors
from lessons_lib.physics.surface_currents import MagnetisedRods, Rod, linkages_of_answer, magnetise

_PASSES = 1         # of bars and poles acting on each other: a bar is hardly permeable, a second pass moves 1e-5
_BAR_ORDERS = 4, 8  # Gauss nodes along an edge of a bar: four, and as many more as the edge's share of the longest


@dataclass(frozen=True)
class MagnetisedParts:
    """Poles and bars with the magnetisation that they settled on; the fields given here are theirs alone."""

    rods: MagnetisedRods
    bars: tuple

    def field_strength(self, points):
        """H (A/m), shape (..., 3)."""
        return sum((bar.field_strength(points) for bar in self.bars), self.rods.field_strength(points))

    def flux_density(self, points):
        """B (T), shape (..., 3)."""
        return sum((bar.flux_density(points) for bar in self.bars), self.rods.flux_density(points))

    def linkage(self, flux_density):
        """Integral of M . B over poles and bars, for the B (a function of points) of something else."""
        return self.rods.linkage_with(flux_density) + sum(
            bar.polarisation() / mu_0 * (np.prod(bar.size) * _mean_in(bar, flux_density)) for bar in self.bars)


def settle(poles, bars, applied_field=None):
    """Poles and bars magnetised by their remanence and each other; with an applied H (function), by that in its place.

    A bar stays uniformly magnetised along its axis: its line meets the mean of the field that stands in it. Good for
    ferrite and rare earth (recoil permeability up to 1.1); what a coil does to it across its axis is left out.
    """
    steady = applied_field is None
    rods, applied = [as_rod(pole, steady=steady) for pole in poles], () if steady else (applied_field,)
    start = bars if steady else tuple(replace(bar, remanence=0.0) for bar in bars)
    settled, magnetised = start, magnetise(rods, _sum_of(applied + _fields_of(start)))
    for _ in range(_PASSES if bars else 0):
        settled = tuple(_in_field(bar, applied + _fields_of(settled, but=number), magnetised)
                        for number, bar in enumerate(start))
        magnetised = magnetise(rods, _sum_of(applied + _fields_of(settled)))
    return MagnetisedParts(magnetised, settled)


def as_rod(pole, *, steady):
    """A pole (RodMagnet or SteelPole) as a permeable `Rod`, its remanence counted for the steady state only."""
    magnet = isinstance(pole, RodMagnet)
    return Rod(diameter=pole.diameter, length=pole.length, x=pole.x, y=pole.y, top=pole.top,
               relative_permeability=pole.recoil_permeability if magnet else pole.relative_permeability,
               remanence=pole.remanence if magnet and steady else 0.0)


def answer_at(poles, permeabilities, settled, applied_field, flux_density):
    """Linkage of poles and bars with a coil whose field magnetises them, for several permeabilities of each pole.

    *permeabilities* has the shape (states, poles), complex; *settled* are the `MagnetisedParts` without eddy currents:
    their bars, of which no current runs through, answer as they do there.
    """
    field = _sum_of((applied_field, *_fields_of(settled.bars)))
    of_bars = replace(settled, rods=MagnetisedRods((), ())).linkage(flux_density)
    rods = [as_rod(pole, steady=False) for pole in poles]
    return of_bars + linkages_of_answer(rods, permeabilities, field, flux_density)


def _fields_of(bars, but=None):
    return tuple(bar.field_strength for number, bar in enumerate(bars) if number != but)


def _sum_of(fields):
    return (lambda points: sum(field(points) for field in fields)) if fields else None


def _in_field(bar, fields, poles):
    """The bar with the share of its remanence that fields and poles stand for: B_r + mu0 chi H in one number."""
    if bar.recoil_permeability == 1:
        return bar
    mean = sum(_mean_in(bar, field) for field in fields)
    for rod, current in zip(poles.rods, poles.currents):
        mean += _mean_of_currents(bar.size, bar.centre, bar.axis, replace(rod, remanence=0.0)) @ current / mu_0
    return replace(bar, remanence=bar.remanence + mu_0 * (bar.recoil_permeability - 1) * mean)


def _mean_in(bar, field):
    """Mean of a field's part along the bar's axis over its volume."""
    points, shares = _points_in(bar.size, bar.centre)
    return shares @ field(points)[:, "xyz".index(bar.axis)]


@lru_cache(maxsize=256)
def _mean_of_currents(size, centre, axis, rod):
    """The same mean of the B of a unit current at each node of a rod; kept: of several poles most stand still."""
    points, shares = _points_in(size, centre)
    rho, height, outward = rod.from_axis(points)
    across, along = rod.surface.field_matrix(rho, height)
    return shares @ (along if axis == "z" else outward[:, ["xy".index(axis)]] * across)


@lru_cache(maxsize=64)
def _points_in(size, centre):
    """Gauss points in a block, shape (points, 3), m, and their shares of its volume."""
    least, more = _BAR_ORDERS
    nodes, shares = zip(*(roots_legendre(least + round(more * edge / max(size))) for edge in size))
    grid = np.stack(np.meshgrid(*nodes, indexing="ij"), axis=-1).reshape(-1, 3)
    return np.array(centre) + grid * np.array(size) / 2, np.einsum("i,j,k->ijk", *shares).ravel() / 8


def fields_above(states, points):
    """H (A/m) of several states of the same poles and bars at once, shape (states, ..., 3), at points outside of them.

    The geometry, which costs most, is worked out once for all states.
    """
    total = np.stack([sum((bar.field_strength(points) for bar in state.bars), np.zeros(points.shape))
                      for state in states])
    for number, rod in enumerate(states[0].rods.rods):
        rho, height, outward = rod.from_axis(points)
        field = rod.surface.field_outside(rho, height, np.stack([state.rods.currents[number] for state in states]))
        total += vectors(field[:, 0], field[:, 1], outward) / mu_0
    return total
