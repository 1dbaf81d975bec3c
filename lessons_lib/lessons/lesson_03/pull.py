"""The magnet's pull on a string, what its slope does to the pitch, and the two notes that beat."""
import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.constants import pi
from scipy.interpolate import CubicSpline

from lessons_lib.base.workshop import house_place
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03.model import (
    ASIDE,
    CURVE_HEIGHTS,
    SWING,
    fields_at_curve_heights,
    over_heights,
    steel_string,
)

PARTIALS = np.arange(1, 9)      # that are heard


def detuning(pull_gradient, tension, place, length=house_place["scale_length"], partial=1):
    """How far a negative spring at a share of the string's length (m) detunes its lowest note, or a partial, cents.

    Notes
    -----
    First order: df/f = -K L sin^2(n pi q) / (n^2 pi^2 T). For motion up and down; sideways the spring is
    positive, and its gradient is to be given with a minus.
    """
    share = pull_gradient * length * np.sin(partial * pi * place) ** 2 / (partial ** 2 * pi ** 2 * tension)
    return 1200 * np.log2(1 - share)


@lru_cache(maxsize=64)
def across_gradient(core, instrument=house_instrument):
    """Gradient of the pull sideways (N/m) over the height (m): a spline, below zero, for it pulls back to the middle.

    By the co-energy of the string in the middle and beside it: with its slope it is even in the place across.
    """
    fields, string = fields_at_curve_heights(instrument), steel_string(core)
    middle, aside = (string.magnetise(steady).coenergy() for steady in (fields.steady, fields.aside))
    return CubicSpline(CURVE_HEIGHTS, 2 * (aside - middle) / ASIDE ** 2)


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

    def detuned(self, partial=1):
        """How far the magnet detunes motion up and down, and motion across, cents."""
        return [detuning(gradient, self.tension, self.place, self.length, partial)
                for gradient in (self.pull_gradient, self.across_gradient)]

    @property
    def cents(self):
        """Change of pitch of motion up and down."""
        return self.detuned()[0]

    @property
    def across_cents(self):
        """Change of pitch of motion sideways."""
        return self.detuned()[1]

    @property
    def beats(self):
        """How often the two notes beat, Hz."""
        return self.frequency * (2 ** (self.across_cents / 1200) - 2 ** (self.cents / 1200))

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
    """Pull and detuning of string VI over one rod at a height or several (m), as a PullAndPitch."""
    wire, length = over_heights(core, instrument=instrument), instrument.place["scale_length"]
    frequency = math.sqrt(tension / instrument.strings["VI"]["linear_density"]) / (2 * length)
    return PullAndPitch(
        pull=wire.pull(height), pull_gradient=wire.pull_gradient(height),
        across_gradient=across_gradient(core, instrument)(height), tension=tension, place=place, length=length,
        frequency=frequency, pluck=instrument.place["pluck_place"] / length)


def envelope(beats, seconds):
    """How loud two equal notes are together over time (s); its magnitude counts, the sign changes where they cancel.

    Returns
    -------
    (times, shares)
    """
    time = np.linspace(0, seconds, 241)
    return time, np.cos(pi * beats * time)


def aslant(share):
    """Path (m) of a string whose swings up and down and sideways get out of step, and where it is on it.

    Parameters
    ----------
    share : float
        Of the time from one swell of the two notes to the next: three swings here, so that an eye can follow.

    Returns
    -------
    ((sideways, upward), (sideways, upward)), 0.35 mm at most each way
    """
    lag, turn = 2 * pi * share, np.linspace(0, 2 * pi, 49)
    return [(0.7 * SWING * np.sin(one), 0.7 * SWING * np.sin(one + lag)) for one in (turn, 3 * lag)]
