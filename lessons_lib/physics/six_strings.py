"""Six strings over one pickup: how loud each is, and what bending one aside does.

A row is a sequence of `PlacedString`. Levels are sizes in dB; heights and places are metres, so a level per height is
dB/m (a thousandth of it per mm).
"""
from dataclasses import dataclass, replace

import numpy as np

from lessons_lib.base.checks import finite, finite_array, not_negative, one_of, positive, refuse
from lessons_lib.base.workshop import ROW, house_place, house_strings
from lessons_lib.physics.plucked_string import TunedString
from lessons_lib.physics.steel import SteelString

NICKEL_PLATED = 8.0     # effective permeability of a wrap of nickel-plated steel along the string; assumed: 5 to 20


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


def workshop_row(*, third="III", wrap_permeability=1.0, height=house_place["string_height"], strings=house_strings,
                 place=house_place):
    """The six strings of the workshop's instrument, VI first, each over its own pole.

    Parameters
    ----------
    third : "III" or "III wound"
    wrap_permeability : float
        Effective, of all wraps: 1 for bronze, `NICKEL_PLATED` for nickel-plated steel.
    height : float
        Of every string's axis above z = 0, m.
    strings, place : mapping
        Other records of the same form, for another instrument.

    Returns
    -------
    tuple of PlacedString

    Notes
    -----
    With wraps of bronze the steel is the core. Impedance of the flexible string; a wrap of steel is taken as heavy as
    one of bronze (it is 5 % lighter).

    Examples
    --------
    >>> [round(string.impedance, 2) for string in workshop_row()]    # kg/s, thick to thin
    [0.76, 0.59, 0.44, 0.28, 0.21, 0.16]
    """
    one_of("third", third, ("III", "III wound"))
    rows = [strings[third if name == "III" else name] for name in ROW]
    tuned = [TunedString.tuned(frequency=row["frequency"], length=place["scale_length"],
                               linear_density=row["linear_density"]) for row in rows]
    return tuple(PlacedString(steel=_steel(row, wrap_permeability), impedance=string.impedance, height=height, y=y)
                 for row, string, y in zip(rows, tuned, place["string_y"]))


def _steel(row, wrap_permeability):
    if wrap_permeability == 1 or row["diameter"] <= row["core"]:
        return SteelString(diameter=row["core"])
    return SteelString(diameter=row["core"], wrap_diameter=row["diameter"], wrap_permeability=wrap_permeability)


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
    """20 log10 of magnitudes relative to a reference (any one unit; the first value if None); -inf for nothing.

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
    """Each steel's cross-section times speed per newton, 1/(2Z), m3/(N s): a law for the hand, as the voltages are.

    Leaves out how the poles' field differs along the row and that a core far from saturation is weakened by its own
    poles, thick ones more: over the workshop's magnets it is 0.9 dB off at most, over steel screws on a bar 1.5 dB
    (tests/test_six_strings.py).
    """
    return np.array([string.steel.area / (2 * string.impedance) for string in row])
