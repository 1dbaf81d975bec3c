"""The magnet's pull on a string, what its slope does to the pitch, and the two notes that beat."""
import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0, pi
from scipy.interpolate import CubicSpline

from lessons_lib.base.workshop import house_place
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03.model import (
    CURVE_HEIGHTS,
    DRAWN_HEIGHTS,
    SWING,
    fields_along,
    one_pole,
    over_heights,
    steel_string,
)
from lessons_lib.physics.string_answer import string_line

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
def _fields_over_heights(instrument):
    """H (A/m) along the string at CURVE_HEIGHTS, in the middle and a little beside it: two (heights, nodes, 3)."""
    lines = (string_line(height=height, y=_ASIDE) for height in CURVE_HEIGHTS)
    return (np.stack([fields_along(float(height), 0.0, instrument)[0] for height in CURVE_HEIGHTS]),
            np.stack([one_pole(instrument).flux_density(line) / mu_0 for line in lines]))


@lru_cache(maxsize=64)
def across_gradient(core, instrument=house_instrument):
    """Gradient of the pull sideways (N/m) over the height (m): a spline, below zero, for it pulls back to the middle.

    By the co-energy of the string in the middle and beside it: with its slope it is even in the place across.
    """
    string = steel_string(core, 100.0, True)
    middle, aside = (string.magnetise(fields).coenergy()
                     for fields in _fields_over_heights(instrument))
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


def near_and_far(seconds, rate, *, heights=(1.5e-3, 6e-3), instrument=house_instrument):
    """String VI plucked aslant, close over the magnet and far from it: height (m) -> both notes, together up to 1."""
    tells = {"core": instrument.strings["VI"]["core"], "tension": instrument.tension("VI"),
             "place": instrument.place["pickup_place"] / instrument.place["scale_length"], "instrument": instrument}
    return {height: pull_and_pitch(height=height, **tells).notes(seconds, rate).sum(axis=0) for height in heights}


def envelope(beats, seconds):
    """How loud two equal notes are together over time (s); its magnitude counts, the sign changes where they cancel.

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
