"""Dimensions of the table of units, against pint; products, powers, and their names."""
from fractions import Fraction

import pytest

from lessons_lib.base.dimensions import _POWERS, PLAIN, dimension_of, dimension_words, times, to_power
from lessons_lib.base.units import _ALL
from test_units import PINT_SPELLING, REGISTRY

BASE = ("[mass]", "[length]", "[time]", "[current]")
# no product of kg, m, s, A: levels and intervals, degrees on a scale with another zero, numbers of gauges, bytes
OTHERS = {"a level", "a musical interval", "a temperature", "a wire gauge", "an amount of data"}
SPELLING = PINT_SPELLING | {"V per m/s": "V*s/m", "mV per m/s": "mV*s/m", "kg/m3": "kg/m**3", "ohm m": "ohm*m",
                            "cm3": "cm**3", "nV/√Hz": "nV*s**0.5", "gs": "gauss", "kG": "gauss", "kilogauss": "gauss",
                            "k": "kohm", "G": "tesla", "gauss": "tesla", "Oe": "A/m", "kOe": "A/m"}    # cgs in pint


@pytest.mark.parametrize("spelling", sorted(name for name, unit in _ALL.items() if unit.dimension not in OTHERS))
def test_exponents_are_those_of_pint(spelling):
    theirs = REGISTRY.Quantity(1.0, SPELLING.get(spelling, spelling).replace("gauss", "tesla")).dimensionality
    assert dimension_of(spelling) == tuple(Fraction(theirs.get(one, 0)).limit_denominator(4) for one in BASE)


def test_every_quantity_of_the_table_has_a_dimension_or_is_known_to_have_none():
    assert set(_POWERS) | OTHERS == {unit.dimension for unit in _ALL.values()}


@pytest.mark.parametrize("unit", ["dB", "cent", "degC", "AWG"])
def test_what_is_no_product_of_units_is_refused(unit):
    with pytest.raises(ValueError, match="unit must be a product of kg, m, s and A; got"):
        dimension_of(unit)


@pytest.mark.parametrize("parts, words", [
    ([("A", 1), ("A/Wb", -1)], "a flux"), ([("Wb", 1), ("Wb", -1)], "a plain number"), ([("Wb", 1), ("m2", -1)],
     "a flux density"), ([("N/m", "1/2"), ("kg", "-1/2")], "a frequency"), ([("H", "1/2"), ("F", "1/2")], "a time"),
    ([("ohm", 1), ("F", 1)], "a time"), ([("m", 4)], "a quantity in m⁴"), ([("m", "1/2")], "a quantity in m¹ᐟ²"),
    ([("m", -1)], "a quantity in m⁻¹"), ([("m", 10 ** 50)], "an odd quantity"), ([("deg", 1)], "a plain number")])
def test_products_and_their_names(parts, words):
    found = PLAIN
    for unit, power in parts:
        found = times(found, to_power(dimension_of(unit), Fraction(power)))
    assert dimension_words(found) == words
