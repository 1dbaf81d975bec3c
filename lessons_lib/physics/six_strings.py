"""Six strings over one pickup: how loud each is, what bending and turning a screw do, heights that make them equal.

A row is a sequence of `PlacedString`. Levels are sizes in dB; heights and places are metres, so a level per height is
dB/m (a thousandth of it per mm).
"""
from dataclasses import dataclass, replace
from functools import cache

import numpy as np
from scipy.optimize import least_squares

from lessons_lib.base.checks import finite, finite_array, not_negative, positive, refuse
from lessons_lib.base.workshop import house_place, house_strings
from lessons_lib.physics.plucked_string import TunedString
from lessons_lib.physics.steel import SteelString

_TURN = 0.1e-3          # m, a small turn of a screw
_HOLD = 20.0            # dB/m: keeps poles near where they stood, for any common level would do
_SETTLED = 0.01         # dB: where the search may end, far less than any ear hears
_EQUAL = 0.1            # dB: nobody hears less
_ON_BOUND = 1e-3        # share of a pole's range that counts as standing on its bound


@dataclass(frozen=True, kw_only=True)
class PlacedString:
    """A string where it lies over the pickup: its steel, its impedance sqrt(T mu) (kg/s), axis height and y (m)."""

    steel: SteelString
    impedance: float
    height: float
    y: float = 0.0

    def __post_init__(self):
        if not isinstance(self.steel, SteelString):
            raise TypeError(f"steel must be a SteelString; got {self.steel!r}.")
        positive(impedance=self.impedance, height=self.height)
        finite(y=self.y)


def workshop_row(*, third="III", height=house_place["string_height"], strings=house_strings, place=house_place):
    """The six strings of the workshop's instrument, VI first, each over its own pole.

    Parameters
    ----------
    third : "III" or "III wound"
    height : float
        Of every string's axis above z = 0, m.
    strings, place : mapping
        Other records of the same form, for another instrument.

    Returns
    -------
    tuple of PlacedString

    Notes
    -----
    Wraps are bronze: the steel is the core. Impedance of the flexible string.

    Examples
    --------
    >>> [round(string.impedance, 2) for string in workshop_row()]    # kg/s, thick to thin
    [0.76, 0.59, 0.44, 0.28, 0.21, 0.16]
    """
    if third not in ("III", "III wound"):
        refuse("third", "one of 'III', 'III wound'", third)
    rows = [strings[name] for name in ("VI", "V", "IV", third, "II", "I")]
    tuned = [TunedString.tuned(frequency=row["frequency"], length=place["scale_length"],
                               linear_density=row["linear_density"]) for row in rows]
    return tuple(PlacedString(steel=SteelString(diameter=row["core"]), impedance=string.impedance, height=height, y=y)
                 for row, string, y in zip(rows, tuned, place["string_y"]))


def in_a_row(part, places, tops=None):
    """Copies of a pole or a coil side by side at y = places (m), poles with their tops (m) where given, as a tuple.

    Examples
    --------
    >>> from lessons_lib.physics.steel import SteelPole
    >>> screw = SteelPole(diameter=4.8e-3, length=17e-3, relative_permeability=500)
    >>> [pole.y for pole in in_a_row(screw, [-5e-3, 5e-3])]
    [-0.005, 0.005]
    """
    parts = tuple(replace(part, y=float(y)) for y in finite_array(places=places))
    return parts if tops is None else _lifted(parts, tops)


def with_tops(pickup, tops):
    """The pickup with its poles moved up or down, whole, until their tops are at these heights (m, one a pole)."""
    return replace(pickup, poles=_lifted(pickup.poles, tops))


def _lifted(poles, tops):
    tops = finite_array(tops=tops)
    if tops.shape != (len(poles),):
        refuse("tops", f"one height for each of {len(poles)} poles", f"shape {tops.shape}")
    return tuple(replace(pole, top=float(top)) for pole, top in zip(poles, tops))


def sensitivities(pickup, row):
    """Each string's own sensitivity, V per m/s of its motion up and down, shape (strings,); sign as in `Pickup`."""
    return np.array([pickup.sensitivity(string.steel, height=string.height, y=string.y) for string in row])


def first_pulses(pickup, row, *, force=1.0):
    """Voltage of each string's first pulse after a small pluck up and down, scaled up to a force.

    Parameters
    ----------
    pickup : Pickup
    row : sequence of PlacedString
    force : float
        N at release, the same on every string.

    Returns
    -------
    ndarray, shape (strings,)
        V: sensitivity at rest times F/(2Z). A strong pluck swings into the bend of the linkage (`pickup_voltage`).
    """
    not_negative(force=force)
    return sensitivities(pickup, row) * force / (2 * np.array([string.impedance for string in row]))


def decibels(values, reference=None):
    """20 log10 of sizes over a reference (any one unit; the first value if None); -inf for nothing.

    Examples
    --------
    >>> decibels([2.0, -20.0, 0.0])
    array([  0.,  20., -inf])
    """
    sizes = np.abs(finite_array(values=values))
    reference = float(sizes.flat[0] if reference is None else np.abs(reference))
    positive(reference=reference)
    with np.errstate(divide="ignore"):
        return 20 * np.log10(sizes / reference)


def simple_law(row):
    """Steel's cross-section times speed per newton, 1/(2Z): a law for the hand, in proportion to the voltage.

    Returns
    -------
    ndarray, shape (strings,)
        m3/(N s).

    Notes
    -----
    Leaves out how the poles' field differs along the row and that thin cores saturate more deeply: over the workshop's
    magnets it is 0.9 dB off at most, over steel screws on a bar 1.5 dB (tests/test_six_strings.py).
    """
    return np.array([string.steel.area / (2 * string.impedance) for string in row])


def bent_levels(pickup, string, y):
    """Level of a string pushed sideways to y.

    Parameters
    ----------
    pickup : Pickup
    string : PlacedString
    y : array_like
        Places across, m, any shape.

    Returns
    -------
    ndarray, of y's shape
        dB re the string at its own y, by sensitivity; its tension and its impedance are taken as they were.
    """
    y = finite_array(y=y)
    at = pickup.sensitivity(string.steel, height=string.height, y=np.append(string.y, y))
    return decibels(at)[1:].reshape(y.shape)


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
        For bounds that cross, and for a pole that would touch a string or another part at its bound.
    RuntimeError
        When the search does not settle.

    Notes
    -----
    Bounded least squares of the levels about their mean (scipy's trust region), and a pull back to the start that is
    worth 0.02 dB per mm. Each pole is turned once for the slopes; steps then keep them up to date (Broyden's formula).
    Levels within 0.01 dB are called equal, and the search ends there.
    """
    start = np.array([pole.top for pole in pickup.poles])
    lowest, highest = (np.broadcast_to(bound, start.shape) for bound in finite_array(lowest=lowest, highest=highest))
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
        room = np.where(highest - tops > tops - lowest, highest - tops, lowest - tops)
        effect = turning_effect(with_tops(pickup, tops), row, turn=np.clip(room, -_TURN, _TURN), hears=hears)
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
