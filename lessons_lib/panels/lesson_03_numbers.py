"""The plain functions behind the panels of lesson 3: SI numbers in, small records and arrays out.

All panels are about one rod: the house magnet with a round coil of the house coil's cross-section, so that a cut
through the axis shows everything. Fields along the string are worked out once for a place and kept; only the steel is
new.
"""
import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0, pi
from scipy.interpolate import CubicSpline

from lessons_lib.panels.instrument import shown_coil, shown_magnet, shown_place
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.steel import SteelString
from lessons_lib.physics.string_answer import added_midplane_flux, string_line
from lessons_lib.physics.winding import RoundCoil

ROD = RodMagnet(**shown_magnet)
COIL = RoundCoil(**{name: shown_coil[name] for name in ("inner_radius", "outer_radius", "bottom", "top", "turns")})
PICKUP = Pickup(poles=ROD, coils=COIL)

CURVE_HEIGHTS = 3.75e-3 - 2.25e-3 * np.cos(pi * np.arange(17) / 16)     # closer at the ends, where a spline is weak
DRAWN_HEIGHTS = np.linspace(1.5e-3, 6e-3, 41)
_STEP = 2e-5        # m, for the slope of the field along the height


def steel_string(core, permeability, saturates):
    """The string of a panel; with saturates = 0 its steel is a straight line."""
    law = {} if saturates else {"saturation": math.inf}
    return SteelString(diameter=core, relative_permeability=permeability, **law)


@lru_cache(maxsize=1024)
def fields_along(height, place):
    """Along the string's axis: H (A/m) of the magnet, and B (T) of one ampere in the coil, the rod answering."""
    points = string_line(height=height, y=place)
    return PICKUP.flux_density(points) / mu_0, PICKUP.field_per_ampere(points)


@lru_cache(maxsize=256)
def magnetised(*, height, place, core, permeability, saturates):
    """The string of a panel in the magnet's field, as `SteelString.magnetise` gives it."""
    return steel_string(core, permeability, saturates).magnetise(fields_along(height, place)[0])


@lru_cache(maxsize=1)
def without_string():
    """Flux in the middle of the rod and flux of the mean turn of the coil, Wb."""
    return ROD.midplane_flux(), PICKUP.steady_linkage() / COIL.turns


@dataclass(frozen=True, kw_only=True)
class ThreeFluxes:
    """Three fluxes (Wb), never just "the flux": in the magnet, through the mean turn of the coil, along the string.

    With them the string they belong to, SI.
    """

    height: float
    place: float
    core: float
    permeability: float
    saturates: bool
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

    @property
    def share_of_turn(self):
        """What the string adds to the flux of the coil's turns, as a share of it."""
        return self.added_in_turn / self.turn


@lru_cache(maxsize=256)
def three_fluxes(*, height, place, core, permeability, saturates):
    """The three fluxes with a string over the rod, as ThreeFluxes.

    Notes
    -----
    In the coil by reciprocity, as `Pickup.flux_linkage`; in the magnet by putting the string's own field on the rod
    and letting it answer (`added_midplane_flux`); in the string its largest flux.
    """
    inside = magnetised(height=height, place=place, core=core, permeability=permeability, saturates=saturates)
    string, per_ampere = inside.string, fields_along(height, place)[1]
    magnet, turn = without_string()
    largest = float(np.abs(inside.flux()).max())
    return ThreeFluxes(height=height, place=place, core=core, permeability=permeability, saturates=bool(saturates),
                       magnet=magnet, turn=turn, string=largest, flux_density=largest / string.area,
                       added_in_magnet=added_midplane_flux(ROD, string, height=height, y=place),
                       added_in_turn=float(inside.linkage(per_ampere)) / COIL.turns)


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


@lru_cache(maxsize=1)
def _fields_over_heights():
    """At CURVE_HEIGHTS: H and its slope with the height (A/m, A/m2) and B of one ampere, each (heights, nodes, 3)."""
    centred = [fields_along(float(height), 0.0) for height in CURVE_HEIGHTS]
    above, below = (np.stack([PICKUP.flux_density(string_line(height=height + step)) / mu_0
                              for height in CURVE_HEIGHTS]) for step in (_STEP, -_STEP))
    steady, per_ampere = map(np.stack, zip(*centred))
    return steady, (above - below) / (2 * _STEP), per_ampere


@lru_cache(maxsize=64)
def over_heights(core, permeability, saturates):
    """Flux, linkage and pull at every height, as OverHeights: splines (0.05 %; the pull's slope 0.4 %)."""
    steady, slope, per_ampere = _fields_over_heights()
    string = steel_string(core, permeability, saturates)
    magnetised = string.magnetise(steady)
    curves = {"flux": np.abs(magnetised.flux()).max(axis=-1), "linkage": magnetised.linkage(per_ampere),
              "pull": -magnetised.linkage(mu_0 * slope)}
    return OverHeights(area=string.area, **{name: CubicSpline(CURVE_HEIGHTS, values)
                                            for name, values in curves.items()})


@dataclass(frozen=True, kw_only=True)
class StraightAndWire:
    """Straight-line steel and real wire at one height: flux densities (T), fluxes (Wb), signals (V per m/s)."""

    height: float
    straight_density: float
    wire_density: float
    straight_flux: float
    wire_flux: float
    straight_signal: float
    wire_signal: float


def straight_and_wire(*, height, core, permeability):
    """What a straight-line steel would carry and what a wire does, as StraightAndWire."""
    straight, wire = (over_heights(core, permeability, saturates) for saturates in (False, True))
    return StraightAndWire(
        height=height,
        straight_density=float(straight.flux_density(height)), wire_density=float(wire.flux_density(height)),
        straight_flux=float(straight.flux(height)), wire_flux=float(wire.flux(height)),
        straight_signal=float(straight.signal(height)), wire_signal=float(wire.signal(height)))


def saturation_curves(*, height, core, permeability):
    """What the two OverHeight pictures of the third panel take: flux densities (T) and signals (V per m/s)."""
    straight, wire = (over_heights(core, permeability, saturates) for saturates in (False, True))
    now = straight_and_wire(height=height, core=core, permeability=permeability)
    heights = DRAWN_HEIGHTS
    return {"density": {"heights": heights, "values": (wire.flux_density(heights), straight.flux_density(heights)),
                        "at": (height, now.wire_density, now.straight_density)},
            "signal": {"heights": heights, "values": (wire.signal(heights), straight.signal(heights)),
                       "at": (height, now.wire_signal, now.straight_signal)}}


SCALE_LENGTH = shown_place["scale_length"]


def detuning(pull_gradient, tension, place):
    """How far a negative spring at a share of the string's length detunes its lowest note, cents.

    Notes
    -----
    First order: df/f = -K L sin^2(pi q) / (pi^2 T). For motion up and down; sideways the spring is
    positive, and its gradient is to be given with a minus.
    """
    share = pull_gradient * SCALE_LENGTH * np.sin(pi * place) ** 2 / (pi ** 2 * tension)
    return 1200 * np.log2(1 - share)


@dataclass(frozen=True, kw_only=True)
class PullAndPitch:
    """At a height (m): the magnet's pull (N), its gradient (N/m), the detuning (cents); the string's tension (N)."""

    height: float
    pull: float
    pull_gradient: float
    cents: float
    tension: float


def pull_and_pitch(*, height, core, tension, place):
    """Pull and detuning of a string over one rod, as a PullAndPitch."""
    wire = over_heights(core, 100.0, True)
    gradient = float(wire.pull_gradient(height))
    return PullAndPitch(height=height, pull=float(wire.pull(height)), pull_gradient=gradient, tension=tension,
                        cents=float(detuning(gradient, tension, place)))


def pull_curves(*, height, core, tension, place):
    """What the two OverHeight pictures of the fourth panel take: pull (N) and detuning (cents)."""
    wire, now = over_heights(core, 100.0, True), pull_and_pitch(height=height, core=core, tension=tension, place=place)
    heights = DRAWN_HEIGHTS
    return {"pull": {"heights": heights, "values": (wire.pull(heights),), "at": (height, now.pull)},
            "cents": {"heights": heights, "values": (detuning(wire.pull_gradient(heights), tension, place),),
                      "at": (height, now.cents)}}
