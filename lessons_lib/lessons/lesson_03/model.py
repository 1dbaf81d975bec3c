"""The plain functions behind the panels of lesson 3: SI numbers in, small records and arrays out.

All panels are about one rod: the instrument's, with a round coil of its long coil's cross-section, so that a cut
through the axis shows everything. Fields along the string are worked out once for a place and kept; only the steel is
new.
"""
import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0, pi
from scipy.interpolate import CubicSpline

from lessons_lib.base.workshop import house_place
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.steel import SteelString
from lessons_lib.physics.string_answer import added_midplane_flux, string_line
from lessons_lib.physics.winding import RoundCoil

CURVE_HEIGHTS = 3.75e-3 - 2.25e-3 * np.cos(pi * np.arange(17) / 16)     # closer at the ends, where a spline is weak
DRAWN_HEIGHTS = np.linspace(1.5e-3, 6e-3, 41)
SWING = 0.5e-3             # m up and down: a strong pluck that clears the pole at every height of the sliders
_HEIGHT_STEP = 2e-5        # m, for the slope of the field along the height


@lru_cache(maxsize=4)
def one_pole(instrument=house_instrument):
    """One rod of the instrument with a round coil of its long coil's cross-section and turns, as a Pickup; kept."""
    section = {name: instrument.coil[name] for name in ("inner_radius", "outer_radius", "bottom", "top", "turns")}
    return Pickup(poles=instrument.rod, coils=RoundCoil(**section))


def steel_string(core, permeability, saturates):
    """The string of a panel; with saturates = 0 its steel is a straight line."""
    law = {} if saturates else {"saturation": math.inf}
    return SteelString(diameter=core, relative_permeability=permeability, **law)


@lru_cache(maxsize=1024)
def fields_along(height, place, instrument=house_instrument):
    """Along the string's axis: H (A/m) of the magnet, and B (T) of one ampere in the coil, the rod answering."""
    points, pickup = string_line(height=height, y=place), one_pole(instrument)
    return pickup.flux_density(points) / mu_0, pickup.field_per_ampere(points)


@lru_cache(maxsize=256)
def magnetised(*, height, place, core, permeability, saturates, instrument):
    """The string of a panel in the magnet's field, as `SteelString.magnetise` gives it."""
    return steel_string(core, permeability, saturates).magnetise(fields_along(height, place, instrument)[0])


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

    @property
    def share_of_turn(self):
        """What the string adds to the flux of the coil's turns, as a share of it."""
        return self.added_in_turn / self.turn


def three_fluxes(*, height, place, core, permeability, saturates, instrument=house_instrument):
    """The three fluxes with a string over the rod, as ThreeFluxes.

    Notes
    -----
    In the coil by reciprocity, as `Pickup.flux_linkage`; in the magnet by putting the string's own field on the rod
    and letting it answer (`added_midplane_flux`); in the string its largest flux.
    """
    inside = magnetised(height=height, place=place, core=core, permeability=permeability, saturates=saturates,
                        instrument=instrument)
    string, per_ampere = inside.string, fields_along(height, place, instrument)[1]
    turns, largest = instrument.coil["turns"], float(np.abs(inside.flux()).max())
    return ThreeFluxes(
        magnet=instrument.rod.midplane_flux(), turn=one_pole(instrument).steady_linkage() / turns, string=largest,
        flux_density=largest / string.area, added_in_turn=float(inside.linkage(per_ampere)) / turns,
        added_in_magnet=added_midplane_flux(instrument.rod, string, height=height, y=place))


def gains_of_a_swing(*, height, place, core, permeability, saturates, instrument=house_instrument):
    """Flux (Wb) that the mean turn of the coil gains, over the displacement of the string in shares of SWING.

    Notes
    -----
    A parabola through the middle and both ends: within SWING its third order is a thousandth of the gain.
    """
    at = {"core": core, "permeability": permeability, "saturates": saturates, "instrument": instrument}
    gains = [float(magnetised(height=one, place=place, **at).linkage(fields_along(one, place, instrument)[1]))
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
def _fields_over_heights(instrument):
    """At CURVE_HEIGHTS: H and its slope with the height (A/m, A/m2) and B of one ampere, each (heights, nodes, 3)."""
    centred, pickup = [fields_along(float(height), 0.0, instrument) for height in CURVE_HEIGHTS], one_pole(instrument)
    above, below = (np.stack([pickup.flux_density(string_line(height=height + step)) / mu_0
                              for height in CURVE_HEIGHTS]) for step in (_HEIGHT_STEP, -_HEIGHT_STEP))
    steady, per_ampere = map(np.stack, zip(*centred))
    return steady, (above - below) / (2 * _HEIGHT_STEP), per_ampere


@lru_cache(maxsize=64)
def over_heights(core, permeability, saturates, instrument=house_instrument):
    """Flux, linkage and pull at every height, as OverHeights: splines (0.05 %; the pull's slope 0.4 %)."""
    steady, slope, per_ampere = _fields_over_heights(instrument)
    string = steel_string(core, permeability, saturates)
    magnetised = string.magnetise(steady)
    curves = {"flux": np.abs(magnetised.flux()).max(axis=-1), "linkage": magnetised.linkage(per_ampere),
              "pull": -magnetised.linkage(mu_0 * slope)}
    return OverHeights(area=string.area, **{name: CubicSpline(CURVE_HEIGHTS, values)
                                            for name, values in curves.items()})


@dataclass(frozen=True, kw_only=True)
class StraightAndWire:
    """Straight-line steel and real wire at one height: flux densities (T), fluxes (Wb), signals (V per m/s).

    How full the wire is: its polarisation as a share of saturation, at STRING_PLACES.
    """

    straight_density: float
    wire_density: float
    straight_flux: float
    wire_flux: float
    straight_signal: float
    wire_signal: float
    fullness: np.ndarray

    @property
    def flux_left(self):
        """The wire's flux as a share of that of the straight line."""
        return self.wire_flux / self.straight_flux

    @property
    def signal_left(self):
        """The wire's signal as a share of that of the straight line."""
        return self.wire_signal / self.straight_signal


def straight_and_wire(*, height, core, permeability, instrument=house_instrument):
    """What a straight-line steel would carry and what a wire does, as StraightAndWire."""
    straight, wire = (over_heights(core, permeability, saturates, instrument) for saturates in (False, True))
    inside = magnetised(height=height, place=0.0, core=core, permeability=permeability, saturates=True,
                        instrument=instrument)
    return StraightAndWire(
        straight_density=float(straight.flux_density(height)), wire_density=float(wire.flux_density(height)),
        straight_flux=float(straight.flux(height)), wire_flux=float(wire.flux(height)),
        straight_signal=float(straight.signal(height)), wire_signal=float(wire.signal(height)),
        fullness=mu_0 * np.linalg.norm(inside.magnetisation, axis=-1) / inside.string.saturation)


def saturation_curves(*, core, permeability, instrument=house_instrument):
    """Over DRAWN_HEIGHTS: flux densities (T) of wire and straight line, and the wire's flux and signal as shares of it.

    Returns
    -------
    (wire, straight, share of flux, share of signal)
    """
    straight, wire = (over_heights(core, permeability, saturates, instrument) for saturates in (False, True))
    heights = DRAWN_HEIGHTS
    return (wire.flux_density(heights), straight.flux_density(heights),
            wire.flux(heights) / straight.flux(heights), wire.signal(heights) / straight.signal(heights))


# ---- pull and pitch --------------------------------------------------------------------------------------------------

PARTIALS = np.arange(1, 9)      # that are heard
_ASIDE = 0.1e-3             # m, for the spring across


def detuning(pull_gradient, tension, place, length=house_place["scale_length"], partial=1):
    """How far a negative spring at a share of the string's length (m) detunes its lowest note, or a partial, cents.

    Notes
    -----
    First order: df/f = -K L sin^2(n pi q) / (n^2 pi^2 T). For motion up and down; sideways the spring is
    positive, and its gradient is to be given with a minus.
    """
    share = pull_gradient * length * np.sin(partial * pi * place) ** 2 / (partial ** 2 * pi ** 2 * tension)
    return 1200 * np.log2(1 - share)


@lru_cache(maxsize=4)
def _fields_aside(instrument):
    pickup = one_pole(instrument)
    return np.stack([pickup.flux_density(string_line(height=height, y=_ASIDE)) / mu_0 for height in CURVE_HEIGHTS])


@lru_cache(maxsize=64)
def across_gradient(core, instrument=house_instrument):
    """Gradient of the pull sideways (N/m) over the height (m): a spline, below zero, for it pulls back to the middle.

    By the co-energy of the string in the middle and beside it: with its slope it is even in the place across.
    """
    string = steel_string(core, 100.0, True)
    middle, aside = (string.magnetise(fields).coenergy()
                     for fields in (_fields_over_heights(instrument)[0], _fields_aside(instrument)))
    return CubicSpline(CURVE_HEIGHTS, 2 * (aside - middle) / _ASIDE ** 2)


@dataclass(frozen=True, kw_only=True)
class PullAndPitch:
    """The magnet's pull (N) and its gradients up and across (N/m) on a string with a tension (N) at a place (share).

    length (m) and frequency (Hz) of the string without the magnet; pluck: where it is plucked, as a share.
    """

    pull: float
    pull_gradient: float
    across_gradient: float
    tension: float
    place: float
    length: float
    frequency: float
    pluck: float

    @property
    def share_of_tension(self):
        """The pull as a share of the string's tension."""
        return self.pull / self.tension

    def detuned(self, partial=1):
        """How far the magnet detunes motion up and down, and motion across, cents."""
        return [detuning(gradient, self.tension, self.place, self.length, partial)
                for gradient in (self.pull_gradient, self.across_gradient)]

    @property
    def cents(self):
        """Change of pitch of motion up and down."""
        return float(self.detuned()[0])

    @property
    def across_cents(self):
        """Change of pitch of motion sideways."""
        return float(self.detuned()[1])

    @property
    def beats(self):
        """How often the two notes beat, Hz."""
        return float(self.frequency * (2 ** (self.across_cents / 1200) - 2 ** (self.cents / 1200)))

    def notes(self, seconds, rate):
        """The two notes (up and down, sideways) of an aslant pluck, as velocities that do not die; together up to 1.

        Returns
        -------
        ndarray, shape (2, samples)
        """
        time = np.arange(round(seconds * rate)) / rate
        heights = np.sin(PARTIALS * pi * self.pluck) / PARTIALS
        cents = np.array([self.detuned(partial) for partial in PARTIALS])
        notes = np.einsum("n,nwt->wt", heights, np.cos(2 * pi * self.frequency * (
            PARTIALS[:, None] * 2 ** (cents / 1200))[..., None] * time))
        return notes / (2 * np.abs(heights).sum())


def pull_and_pitch(*, height, core, tension, place, instrument=house_instrument):
    """Pull and detuning of string VI over one rod, as a PullAndPitch."""
    wire, length = over_heights(core, 100.0, True, instrument), instrument.place["scale_length"]
    frequency = math.sqrt(tension / instrument.strings["VI"]["linear_density"]) / (2 * length)
    return PullAndPitch(
        pull=float(wire.pull(height)), pull_gradient=float(wire.pull_gradient(height)),
        across_gradient=float(across_gradient(core, instrument)(height)), tension=tension, place=place, length=length,
        frequency=frequency, pluck=instrument.place["pluck_place"] / length)


def envelope(beats, seconds):
    """How loud two equal notes are together over time (s): from 1 to -1 and back in two beats, of which the size counts.

    Returns
    -------
    (times, shares)
    """
    time = np.linspace(0, seconds, 241)
    return time, np.cos(pi * beats * time)


def aslant(share, turns=3):
    """Path (m) of a string whose swings up and down and sideways get out of step, and where it is on it.

    Parameters
    ----------
    share : float
        Of the time from one swell of the two notes to the next.
    turns : int
        Swings in that time: far fewer than in truth, so that an eye can follow.

    Returns
    -------
    ((sideways, upward), (sideways, upward)), 0.35 mm at most each way
    """
    lag, turn = 2 * pi * share, np.linspace(0, 2 * pi, 49)
    return [(0.7 * SWING * np.sin(one), 0.7 * SWING * np.sin(one + lag)) for one in (turn, 2 * pi * turns * share)]


def pull_curves(*, core, tension, place, instrument=house_instrument):
    """Over DRAWN_HEIGHTS: the pull (N), and the change of pitch up and down and across (cents)."""
    wire, heights, length = over_heights(core, 100.0, True, instrument), DRAWN_HEIGHTS, instrument.place["scale_length"]
    return wire.pull(heights), *(detuning(gradient(heights), tension, place, length)
                                 for gradient in (wire.pull_gradient, across_gradient(core, instrument)))
