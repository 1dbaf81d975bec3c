"""Poles turned up and down under six strings: what one does to every level, and heights that make levels equal."""
from dataclasses import dataclass
from functools import cache

import numpy as np
from scipy.optimize import least_squares

from lessons_lib.base.checks import finite_array, refuse
from lessons_lib.physics.six_strings import decibels, first_pulses, with_tops

_TURN = 0.1e-3          # m, a small turn of a screw
_HOLD = 20.0            # dB/m: keeps poles near where they stood, for any common level would do
_SETTLED = 0.01         # dB: where the search may end, far less than any ear hears
_EQUAL = 0.1            # dB: nobody hears less
_ON_BOUND = 1e-3        # share of a pole's range that counts as standing on its bound


def turning_effect(pickup, row, *, turn=_TURN, hears=first_pulses):
    """What moving one pole up does to the level of every string.

    Parameters
    ----------
    pickup : Pickup
    row : sequence of PlacedString
    turn : float or array of shape (poles,)
        How far each pole, one after the other, is moved, m; negative: down.
    hears : function
        Of (pickup, row): what the level is of, `first_pulses` or `sensitivities`.

    Returns
    -------
    ndarray, shape (strings, poles)
        dB/m: level of the string, over the turn of the pole.

    Raises
    ------
    ValueError
        For a turn of nothing, and one that moves a pole into a string or another part.
    """
    tops = np.array([pole.top for pole in pickup.poles])
    turn = np.broadcast_to(finite_array(turn=turn), tops.shape)
    if (turn == 0).any():
        refuse("turn", "up or down, not zero", 0.0)
    before = _levels(pickup, row, hears)
    moved = [with_tops(pickup, tops + turned) for turned in np.diag(turn)]
    return np.stack([_levels(pickup, row, hears) - before for pickup in moved], axis=-1) / turn


def _levels(pickup, row, hears):
    return decibels(hears(pickup, row), reference=1.0)


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


class _Settled(Exception):
    """Tells the search that it may stop; carries the tops."""


def equal_levels(pickup, row, *, lowest, highest, hears=first_pulses):
    """Pole heights that make all strings equally loud, as nearly as the bounds allow.

    Parameters
    ----------
    pickup : Pickup
        Its poles start where they are; the common level is free and comes out near theirs.
    row : sequence of PlacedString
        One over each pole, in the order of the poles.
    lowest, highest : float or array of shape (poles,)
        Bounds of the tops, m.
    hears : function
        Of (pickup, row): `first_pulses` (equal plucks) or `sensitivities` (equal speeds).

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
        hears(with_tops(pickup, bound), row)

    @cache
    def levels_at(*tops):
        return _levels(with_tops(pickup, tops), row, hears)

    @cache
    def unequal(*tops):
        levels = levels_at(*tops)
        if np.ptp(levels) < _SETTLED:
            raise _Settled(tops)
        return np.append(levels - levels.mean(), _HOLD * (tops - start))

    def first_slopes(tops):
        """As if each pole moved its own string alone: all are turned at once."""
        room = np.where(highest - tops > tops - lowest, highest - tops, lowest - tops)
        turn = np.clip(room, -_TURN, _TURN)
        effect = np.diag((levels_at(*(tops + turn)) - levels_at(*tops)) / turn)
        return np.vstack([effect - effect.mean(axis=0), _HOLD * np.eye(len(start))])

    known = []  # last place and the slopes there

    def slopes(tops):
        if known:
            last, matrix = known
            step = tops - last
            missed = unequal(*tops) - unequal(*last) - matrix @ step
            known[:] = tops, matrix + np.outer(missed, step) / (step @ step)
        else:
            known[:] = tops, first_slopes(tops)
        return known[1]

    try:
        found = least_squares(lambda tops: unequal(*tops), np.clip(start, lowest, highest), slopes,
                              bounds=(lowest, highest), x_scale=1e-3, ftol=1e-5, xtol=1e-4)
    except _Settled as reached:
        return _balance(np.array(reached.args[0]), levels_at(*reached.args[0]), lowest, highest)
    if found.status < 1:
        raise RuntimeError(f"heights of the poles must settle; got {found.message}.")
    return _balance(found.x, levels_at(*found.x), lowest, highest)


def _balance(tops, levels, lowest, highest):
    spread = float(np.ptp(levels))
    on_bound = np.minimum(tops - lowest, highest - tops) < _ON_BOUND * (highest - lowest)
    if spread <= _EQUAL:
        message = f"All levels within {spread:.2f} dB."
    else:
        stuck = ", ".join(str(number) for number in np.flatnonzero(on_bound)) or "none"
        message = f"The bounds leave {spread:.1f} dB between the strings; poles on a bound: {stuck}."
    return Balance(tops, levels, spread, spread <= _EQUAL, message)
