"""Poles turned up and down under six strings: heights that make their levels equal."""
from dataclasses import dataclass

import numpy as np
from scipy.optimize import least_squares

from lessons_lib.base.checks import finite_array, refuse
from lessons_lib.physics.six_strings import decibels, first_pulses, with_tops

_SMALL_TURN = 0.1e-3          # m, a small turn of a screw
_HOLD = 20.0            # dB/m: keeps poles near where they stood, for any common level would do
_SETTLED = 0.01         # dB: where the search may end, far less than any ear hears
_EQUAL = 0.1            # dB: nobody hears less
_ON_BOUND = 1e-3        # share of a pole's range that counts as standing on its bound


@dataclass(frozen=True, eq=False)
class Balance:
    """Outcome of `equal_levels`.

    tops (m, one a pole); levels (dB re 1 V or 1 V per m/s, one a string); spread (dB, highest less lowest level);
    within_bounds: whether the bounds left room for equal levels; message: one sentence.
    """

    tops: np.ndarray
    levels: np.ndarray
    spread: float
    within_bounds: bool
    message: str


def equal_levels(pickup, row, *, lowest, highest):
    """Pole heights that make all strings equally loud when plucked alike, as nearly as the bounds allow.

    Parameters
    ----------
    pickup : Pickup
        Its poles start where they are; the common level is free and comes out near theirs.
    row : sequence of PlacedString
        One over each pole, in the order of the poles.
    lowest, highest : float or array of shape (poles,)
        Bounds of the tops, m.

    Returns
    -------
    Balance
        Bounds that leave more than 0.1 dB between two strings are told in its message.

    Raises
    ------
    ValueError
        For bounds that cross, for a pole that would touch a string or another part at its bound, and where strings and
        poles are not as many.
    RuntimeError
        When the search does not settle.

    Notes
    -----
    Bounded least squares of the levels about their mean (scipy's trust region), and a pull back to the start that is
    worth 0.02 dB per mm. All poles turned a little at once give a first guess of the slopes, and the steps make them
    better (Broyden's formula). Levels within 0.01 dB are called equal, and the search ends there.
    """
    start = np.array([pole.top for pole in pickup.poles])
    lowest, highest = (np.broadcast_to(bound, start.shape) for bound in finite_array(lowest=lowest, highest=highest))
    if len(row) != len(start):
        refuse("row", f"one string over each of {len(start)} poles", len(row))
    if not (lowest < highest).all():
        refuse("lowest", "below highest", f"{lowest} and {highest}")
    for bound in (lowest, highest):
        first_pulses(with_tops(pickup, bound), row)

    search = _Search(lambda tops: decibels(first_pulses(with_tops(pickup, tops), row), 1.0), start, lowest, highest)
    found = least_squares(search.residuals, np.clip(start, lowest, highest), search.slopes,
                          bounds=(lowest, highest), x_scale=1e-3, ftol=1e-5, xtol=1e-4)
    if found.status < 1:
        raise RuntimeError(f"heights of the poles must settle; got {found.message}.")
    levels = search.levels(found.x)
    spread = float(np.ptp(levels))
    if spread <= _EQUAL:
        message = f"All levels within {spread:.2f} dB."
    else:
        room = np.minimum(found.x - lowest, highest - found.x)
        stuck = ", ".join(map(str, np.flatnonzero(room < _ON_BOUND * (highest - lowest)))) or "none"
        message = f"The bounds leave {spread:.1f} dB between the strings; poles on a bound: {stuck}."
    return Balance(found.x, levels, spread, spread <= _EQUAL, message)


class _Search:
    """What least squares asks for on the way to equal levels; *levels_at* is worked out once at each place."""

    def __init__(self, levels_at, start, lowest, highest):
        self._levels_at, self._start, self._lowest, self._highest = levels_at, start, lowest, highest
        self._known = {}        # tops -> levels there
        self._last, self._matrix = None, None       # where slopes were asked last, and what they were

    def levels(self, tops):
        """Level of every string, dB."""
        place = tuple(tops)
        if place not in self._known:
            self._known[place] = self._levels_at(tops)
        return self._known[place]

    def residuals(self, tops):
        """Levels about their mean, then the pull back to the start, dB; nothing where levels are called equal."""
        levels = self.levels(tops)
        if np.ptp(levels) < _SETTLED:
            return np.zeros(2 * len(levels))    # no slope is left, so the search ends here
        return np.append(levels - levels.mean(), _HOLD * (tops - self._start))

    def slopes(self, tops):
        """Slopes of the residuals, dB/m: a first guess, then made better by every step (Broyden's formula)."""
        if self._last is None:
            self._matrix = self._first_slopes(tops)
        else:
            step = tops - self._last
            missed = self.residuals(tops) - self.residuals(self._last) - self._matrix @ step
            self._matrix = self._matrix + np.outer(missed, step) / (step @ step)
        self._last = tops.copy()
        return self._matrix

    def _first_slopes(self, tops):
        """As if each pole moved its own string alone: all are turned at once."""
        up, down = self._highest - tops, self._lowest - tops
        turn = np.clip(np.where(up > -down, up, down), -_SMALL_TURN, _SMALL_TURN)
        effect = np.diag((self.levels(tops + turn) - self.levels(tops)) / turn)
        return np.vstack([effect - effect.mean(axis=0), _HOLD * np.eye(len(tops))])
