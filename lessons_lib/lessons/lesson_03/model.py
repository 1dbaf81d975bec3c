"""The plain functions behind the panels of lesson 3: SI numbers in, small records and arrays out.

All panels are about one rod: the instrument's, with a round coil of its long coil's cross-section, so that a cut
through the axis shows everything. Fields along the string are worked out once for a place and kept; only the steel is
new.
"""
import math
from dataclasses import dataclass
from functools import lru_cache
from types import SimpleNamespace

import numpy as np
from scipy.constants import mu_0, pi
from scipy.interpolate import CubicSpline

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.steel import STRING_PLACES, SteelString
from lessons_lib.physics.string_answer import added_midplane_flux, string_line
from lessons_lib.physics.winding import RoundCoil

CURVE_HEIGHTS = 3.75e-3 - 2.25e-3 * np.cos(pi * np.arange(17) / 16)     # closer at the ends, where a spline is weak
DRAWN_HEIGHTS = np.linspace(1.5e-3, 6e-3, 41)
ALONG = np.linspace(-12e-3, 12e-3, 121)         # m, what pictures show of the string
SWING = 0.5e-3             # m up and down: a strong pluck that clears the pole at every height of the sliders
_HEIGHT_STEP, ASIDE = 2e-5, 0.1e-3      # m: for the slope of the field along the height, for the spring across


@lru_cache(maxsize=4)
def one_pole(instrument=house_instrument):
    """One rod of the instrument with a round coil of its long coil's cross-section and turns, as a Pickup; kept."""
    section = {name: instrument.coil[name] for name in ("inner_radius", "outer_radius", "bottom", "top", "turns")}
    return Pickup(poles=instrument.rod, coils=RoundCoil(**section))


def steel_string(core, permeability=100.0, saturates=True):
    """The string of a panel, of what is called *steel* here; with saturates = 0 it is a straight line."""
    law = {} if saturates else {"saturation": math.inf}
    return SteelString(diameter=core, relative_permeability=permeability, **law)


def fields_over(pickup, heights, place=0.0):
    """At some heights along a string: H (A/m) of the magnet and B (T) of one ampere, each (heights, nodes, 3)."""
    lines = np.stack([string_line(height=height, y=place) for height in heights])
    return pickup.flux_density(lines) / mu_0, pickup.field_per_ampere(lines)


@lru_cache(maxsize=1024)
def fields_along(height, place, instrument=house_instrument):
    """The same at one height over one pole, each (nodes, 3)."""
    steady, per_ampere = fields_over(one_pole(instrument), [height], place)
    return steady[0], per_ampere[0]


@lru_cache(maxsize=256)
def magnetised(*, height, place=0.0, instrument=house_instrument, **steel):
    """The string of a panel in the magnet's field, as `SteelString.magnetise` gives it."""
    return steel_string(**steel).magnetise(fields_along(height, place, instrument)[0])


@dataclass(frozen=True, kw_only=True)
class ThreeFluxes:
    """Three fluxes (Wb), never just "the flux": in the magnet, through the mean turn of the coil, along the string."""

    magnet: float
    added_in_magnet: float
    turn: float
    added_in_turn: float
    string: float
    flux_density: float

    @property
    def gathered(self):
        """What the string takes in over the pole and leads away, half of it to each side."""
        return 2 * self.string

    @property
    def share_of_magnet(self):
        """What the string adds to the flux in the magnet, as a share of it."""
        return self.added_in_magnet / self.magnet


def three_fluxes(*, height, place=0.0, instrument=house_instrument, **steel):
    """The three fluxes with a string over the rod, as ThreeFluxes.

    Notes
    -----
    In the coil by reciprocity, as `Pickup.flux_linkage`; in the magnet by putting the string's own field on the rod
    and letting it answer (`added_midplane_flux`); in the string its largest flux.
    """
    inside = magnetised(height=height, place=place, instrument=instrument, **steel)
    string, per_ampere = inside.string, fields_along(height, place, instrument)[1]
    turns, largest = instrument.coil["turns"], float(np.abs(inside.flux()).max())
    return ThreeFluxes(
        magnet=instrument.rod.midplane_flux(), turn=one_pole(instrument).steady_linkage() / turns, string=largest,
        flux_density=largest / string.area, added_in_turn=float(inside.linkage(per_ampere)) / turns,
        added_in_magnet=added_midplane_flux(instrument.rod, string, height=height, y=place))


def gains_of_a_swing(*, height, place, instrument=house_instrument, **steel):
    """Flux (Wb) that the mean turn of the coil gains, over the displacement of the string in shares of SWING.

    Notes
    -----
    A parabola through the middle and both ends: within SWING its third order is a thousandth of the gain.
    """
    gains = [magnetised(height=one, place=place, instrument=instrument, **steel)
             .linkage(fields_along(one, place, instrument)[1])
             for one in (round(height - SWING, 9), height, round(height + SWING, 9))]
    return np.polynomial.Polynomial.fit([-1, 0, 1], np.array(gains) / instrument.coil["turns"], 2, domain=[-1, 1])


# ---- curves over the height: flux density, signal, pull --------------------------------------------------------------

@dataclass(frozen=True, kw_only=True)
class OverHeights:
    """A string centred over the rod: smooth functions of the height (m).

    flux (Wb) in the string, linkage (Wb-turns), pull (N).
    """

    area: float
    flux: CubicSpline
    linkage: CubicSpline
    pull: CubicSpline

    def flux_density(self, height):
        """In the string, T."""
        return self.flux(height) / self.area

    def signal(self, height):
        """V per m/s, as `Pickup.sensitivity`."""
        return -self.linkage(height, 1)

    def pull_gradient(self, height):
        """N/m, as `Pickup.pull_gradient`."""
        return -self.pull(height, 1)


@lru_cache(maxsize=4)
def fields_at_curve_heights(instrument):
    """H of the magnet (A/m): steady, aside (by ASIDE), its slope with the height; B (T) per_ampere."""
    pickup = one_pole(instrument)
    steady, per_ampere = fields_over(pickup, CURVE_HEIGHTS)
    above, below = (fields_over(pickup, CURVE_HEIGHTS + step)[0] for step in (_HEIGHT_STEP, -_HEIGHT_STEP))
    return SimpleNamespace(steady=steady, aside=fields_over(pickup, CURVE_HEIGHTS, ASIDE)[0],
                           slope=(above - below) / (2 * _HEIGHT_STEP), per_ampere=per_ampere)


@lru_cache(maxsize=64)
def over_heights(core, permeability=100.0, saturates=True, instrument=house_instrument):
    """Flux, linkage and pull at every height, as OverHeights: splines (0.05 %; the pull's slope 0.4 %)."""
    fields, string = fields_at_curve_heights(instrument), steel_string(core, permeability, saturates)
    inside = string.magnetise(fields.steady)
    return OverHeights(
        area=string.area, flux=CubicSpline(CURVE_HEIGHTS, np.abs(inside.flux()).max(axis=-1)),
        linkage=CubicSpline(CURVE_HEIGHTS, inside.linkage(fields.per_ampere)),
        pull=CubicSpline(CURVE_HEIGHTS, -inside.linkage(mu_0 * fields.slope)))


@dataclass(frozen=True, kw_only=True)
class StraightAndWire:
    """Straight-line steel and real wire over the same heights: flux densities (T), fluxes (Wb), signals (V per m/s)."""

    straight_density: np.ndarray
    wire_density: np.ndarray
    straight_flux: np.ndarray
    wire_flux: np.ndarray
    straight_signal: np.ndarray
    wire_signal: np.ndarray

    @property
    def flux_left(self):
        """The wire's flux as a share of that of the straight line."""
        return self.wire_flux / self.straight_flux

    @property
    def signal_left(self):
        """The wire's signal as a share of that of the straight line."""
        return self.wire_signal / self.straight_signal


def straight_and_wire(*, height, core, permeability, instrument=house_instrument):
    """What a straight-line steel would carry and what a wire does at a height or several (m), as StraightAndWire."""
    straight, wire = (over_heights(core, permeability, saturates, instrument) for saturates in (False, True))
    return StraightAndWire(
        straight_density=straight.flux_density(height), wire_density=wire.flux_density(height),
        straight_flux=straight.flux(height), wire_flux=wire.flux(height),
        straight_signal=straight.signal(height), wire_signal=wire.signal(height))


def fullness(*, height, core, permeability, instrument=house_instrument):
    """How full the wire is at ALONG: its polarisation as a share of saturation."""
    inside = magnetised(height=height, core=core, permeability=permeability, instrument=instrument)
    polarisation = mu_0 * np.linalg.norm(inside.magnetisation, axis=-1)
    return CubicSpline(STRING_PLACES, polarisation)(ALONG) / inside.string.saturation
