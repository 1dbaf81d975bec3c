"""Dimensions of the quantities in the table of units: what may be added, and what comes of a product.

A dimension is a tuple of exponents of kg, m, s and A, in this order.
"""
from fractions import Fraction
from types import MappingProxyType

from lessons_lib.base.checks import refuse
from lessons_lib.base.units import RAISED, unit_of

PLAIN = (Fraction(0),) * 4
_BASE = ("kg", "m", "s", "A")
_LONGEST = 40   # characters of a product of units

# Of every quantity of the table that has one; where two quantities have the same, the first gives its name. Checked
# against pint in tests/test_dimensions.py.
_POWERS = {
    "a plain number": (0, 0, 0, 0), "an angle": (0, 0, 0, 0),
    "a length": (0, 1, 0, 0), "an area": (0, 2, 0, 0), "a volume": (0, 3, 0, 0),
    "a time": (0, 0, 1, 0), "a frequency": (0, 0, -1, 0), "a speed": (0, 1, -1, 0),
    "a mass": (1, 0, 0, 0), "a mass per unit length": (1, -1, 0, 0), "a density": (1, -3, 0, 0),
    "a force": (1, 1, -2, 0), "a stiffness": (1, 0, -2, 0), "a mechanical impedance": (1, 0, -1, 0),
    "an energy product": (1, -1, -2, 0), "a power": (1, 2, -3, 0),
    "a current": (0, 0, 0, 1), "a voltage": (1, 2, -3, -1), "a field strength": (0, -1, 0, 1),
    "a flux": (1, 2, -2, -1), "a flux density": (1, 0, -2, -1), "a flux per unit length": (1, 1, -2, -1),
    "a sensitivity": (1, 1, -2, -1),
    "a reluctance": (-1, -2, 2, 2), "an inductance": (1, 2, -2, -2), "a permeability": (1, 1, -2, -2),
    "a resistance": (1, 2, -3, -2), "a resistivity": (1, 3, -3, -2), "a capacitance": (-1, -2, 4, 2),
    "a noise density": (1, 2, Fraction(-5, 2), -1),     # V times the root of a second
}
_NAMES = MappingProxyType({powers: name for name, powers in reversed(_POWERS.items())} | {PLAIN: "a plain number"})


def dimension_of(unit):
    """Return the exponents of kg, m, s and A of a *unit* of the table.

    ValueError for a unit outside of it, and for one that is no product of these: dB, cent, °C, AWG.

    Examples
    --------
    >>> [str(power) for power in dimension_of("mWb")]
    ['1', '2', '-2', '-1']
    """
    quantity = unit_of(unit).dimension
    if quantity not in _POWERS:
        refuse("unit", "a product of kg, m, s and A", unit)
    return tuple(map(Fraction, _POWERS[quantity]))


def times(one, other):
    """Return the dimension of a product."""
    return tuple(map(sum, zip(one, other)))


def to_power(one, exponent):
    """Return the dimension of a power: each exponent times *exponent*, a Fraction.

    Examples
    --------
    >>> dimension_words(to_power(dimension_of("m2"), Fraction(1, 2)))
    'a length'
    """
    return tuple(power * exponent for power in one)


def dimension_words(one):
    """Return a dimension in words with the article, by its units where it has no common name.

    Examples
    --------
    >>> dimension_words(dimension_of("V s")), dimension_words(times(dimension_of("A"), dimension_of("m2")))
    ('a flux', 'a quantity in m² A')
    """
    if one in _NAMES:
        return _NAMES[one]
    units = [name + ("" if power == 1 else str(power).translate(RAISED)) for name, power in zip(_BASE, one) if power]
    return f"a quantity in {' '.join(units)}" if len(" ".join(units)) <= _LONGEST else "an odd quantity"
