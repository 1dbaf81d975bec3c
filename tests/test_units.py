"""The closed table of units, against pint and the SI Brochure; what pint cannot say is held by its definition."""
import math
from decimal import Decimal

import numpy as np
import pint
import pytest

from lessons_lib.base.units import (
    UNITS,
    column_units,
    in_unit,
    prefixed,
    read_unit,
    resistance_words,
    said,
    spellings_like,
    unit_of,
)
from lessons_lib.exercises.reading import asked_words, into

REGISTRY = pint.UnitRegistry()
# Our spelling -> pint's, where they differ.
PINT_SPELLING = {"m2": "m**2", "cm2": "cm**2", "mm2": "mm**2", "gauss": "gauss", "ohm": "ohm", "Ohm": "ohm",
                 "kohm": "kohm", "kOhm": "kohm", "Mohm": "megaohm", "MOhm": "megaohm", "V s/m": "V*s/m", "V s": "V*s",
                 "At": "A", "A-turns": "A", "J/m3": "J/m**3", "kJ/m3": "kJ/m**3", "1": "", "%": "percent",
                 "°": "degree"}
# SI units of the dimensions, so that factor 1 means SI in every row.
SI = {"a length": "m", "an area": "m**2", "a flux density": "T", "a flux": "Wb", "a current": "A",
      "a field strength": "A/m", "a reluctance": "A/Wb", "a flux per unit length": "Wb/m", "a resistance": "ohm",
      "an inductance": "H", "a capacitance": "F", "a voltage": "V", "a frequency": "Hz", "a time": "s", "a force": "N",
      "a stiffness": "N/m", "a mass": "kg", "a mass per unit length": "kg/m", "a mechanical impedance": "kg/s",
      "a speed": "m/s",
      "an angle": "rad", "an energy product": "J/m**3", "a plain number": ""}
BY_DEFINITION = {"G", "gauss", "Oe", "kOe", "dB", "cent", "cents"}
# BIPM, The International System of Units (SI Brochure), 9th edition (2019), Table 7
PREFIXES = {"p": -12, "n": -9, "u": -6, "μ": -6, "m": -3, "c": -2, "k": 3, "M": 6}


@pytest.mark.parametrize("spelling", sorted(set(UNITS) - BY_DEFINITION))
def test_factor_is_that_of_pint(spelling):
    unit = UNITS[spelling]
    theirs = REGISTRY.Quantity(1.0, PINT_SPELLING.get(spelling, spelling)).to(SI[unit.dimension]).magnitude
    assert unit.factor == pytest.approx(theirs, rel=1e-14)  # both are powers of ten or pi/180 in doubles


def without_prefix(part):
    """Exponent of ten and unit without prefix of what is above or below a stroke; the kilogram has none to lose."""
    symbol = part.rstrip("23")
    if len(symbol) < 2 or symbol == "kg" or symbol[0] not in PREFIXES:
        return 0, part
    return PREFIXES[symbol[0]] * int(part[len(symbol):] or 1), part[1:]


@pytest.mark.parametrize("spelling", sorted(set(UNITS) - {"cent", "cents"}))
def test_a_prefix_is_that_of_the_si_brochure(spelling):
    above, slash, below = spelling.partition("/")
    (size, upper), (size_below, lower) = without_prefix(above), without_prefix(below)
    plain = UNITS[upper + slash + lower]
    assert plain.dimension == UNITS[spelling].dimension
    assert UNITS[spelling].factor == pytest.approx(plain.factor * float(Decimal(10) ** (size - size_below)), rel=1e-15)


def test_what_an_answer_may_have_is_a_promise():
    assert set(UNITS) == set(
        "m cm mm um μm m2 cm2 mm2 T mT uT μT G gauss Wb mWb uWb μWb nWb A mA At A-turns A/m kA/m Oe kOe A/Wb MA/Wb 1/H "
        "Wb/m nWb/mm ohm Ohm Ω kohm kOhm kΩ Mohm MOhm MΩ H mH F uF μF nF pF V mV uV μV Hz kHz s ms N mN N/m kg g kg/m "
        "g/m kg/s m/s mm/s rad deg ° J/m3 kJ/m3 1 % dB cent cents".split()) | {"V s", "V s/m"}


@pytest.mark.parametrize("spelling", ["", "AWG", "mV per m/s", "cm3", "kG", "C", "k", "ohms", "MB"])
def test_what_the_course_says_besides_no_answer_may_have(spelling):
    assert unit_of(spelling)
    with pytest.raises(ValueError, match="is not one of the units read here"):
        read_unit(spelling)


def test_a_unit_outside_of_the_table_is_refused():
    with pytest.raises(ValueError) as caught:
        said(1.0, "furlong", ".1f")
    assert str(caught.value) == "unit must be one of the spellings of the table in base/units.py; got 'furlong'."


@pytest.mark.parametrize("spelling, theirs, si", [("V per m/s", "V*s/m", "V*s/m"), ("mV per m/s", "mV*s/m", "V*s/m"),
                                                  ("cm3", "cm**3", "m**3"), ("MB", "megabyte", "byte")])
def test_factors_that_only_the_course_uses(spelling, theirs, si):
    assert unit_of(spelling).factor == pytest.approx(REGISTRY.Quantity(1.0, theirs).to(si).magnitude, rel=1e-14)


def test_gauss_and_oersted_by_definition():
    # In pint's Gaussian context gauss and oersted are cgs units. 1 G = 1e-4 T and 1 Oe = 1000/(4 pi) A/m by their
    # definitions, which tied them to SI with mu_0 = 4e-7 pi H/m.
    assert read_unit("G").factor == read_unit("gauss").factor == 1e-4
    assert read_unit("Oe").factor == pytest.approx(1000 / (4 * math.pi), rel=1e-15)
    assert read_unit("kOe").factor == pytest.approx(1000 * read_unit("Oe").factor, rel=1e-15)
    with REGISTRY.context("Gaussian"):
        assert REGISTRY.Quantity(1, "gauss").to("T").magnitude == pytest.approx(1e-4, rel=1e-8)
        # pint takes the measured mu_0, 5e-10 away from 4e-7 pi
        assert REGISTRY.Quantity(1, "oersted").to("A/m").magnitude == pytest.approx(read_unit("Oe").factor, rel=1e-8)


def test_levels_and_pitch_steps_have_absolute_tolerances_and_nothing_else():
    assert {spelling for spelling, unit in UNITS.items() if unit.absolute} == {"dB", "cent", "cents"}


def test_every_dimension_has_an_si_spelling_and_short_spellings():
    for dimension in {unit.dimension for unit in UNITS.values()}:
        assert 1.0 in [unit.factor for unit in UNITS.values() if unit.dimension == dimension]
    assert max(map(len, UNITS)) <= 20 and len(UNITS) > 50


@pytest.mark.parametrize("typed, same", [("µWb", "uWb"), ("μWb", "uWb"), (" mm² ", "mm2"), ("mm^2", "mm2"),
                                         ("k\u2126", "kOhm"), ("k\u03a9", "kohm")])
def test_spellings_of_one_unit(typed, same):
    assert read_unit(typed) == read_unit(same)


def test_into_the_asked_unit():
    assert into(0.12, "T", "G") == pytest.approx(1200)
    assert into(1.66, None, "uWb") == into(1.66, " ", "uWb") == into(1.66, "uWb", "uWb") == 1.66
    assert into(1660, "nWb", "uWb") == pytest.approx(1.66)


@pytest.mark.parametrize("unit, words", [
    ("T", "the unit T measures a flux density; the answer is a flux, in µWb"),
    ("Wb turn", '"Wb turn" is not one of the units read here; write one of uWb, Wb, mWb, μWb, nWb, V s'),
    ("wb", '"wb" is not one of the units read here; write one of uWb, Wb, mWb, μWb, nWb, V s'),
    ("m" * 500, "the unit is longer than 20 characters; write one of uWb, Wb, mWb, μWb, nWb, V s"),
    (7, 'the unit must be a short text in quotes, such as "mm"; write one of uWb, Wb, mWb, μWb, nWb, V s'),
    ("\ud800", '"?" is not one of the units read here; write one of uWb, Wb, mWb, μWb, nWb, V s'),
])
def test_what_cannot_be_read_is_said_in_one_sentence(unit, words):
    with pytest.raises(ValueError) as caught:
        into(1.0, unit, "uWb")
    assert str(caught.value) == words


def test_words_for_what_is_asked():
    assert asked_words("uWb") == "the answer is a flux, in µWb"
    assert asked_words("1") == "the answer is a plain number"
    assert spellings_like("µWb")[0] == "µWb" and "uWb" in spellings_like("µWb")


@pytest.mark.parametrize("unit, asked", [("1/H", "A/Wb"), ("At", "A"), ("A-turns", "A"), ("V s", "Wb")])
def test_spellings_of_textbooks_for_reluctance_magnetomotive_force_and_flux(unit, asked):
    assert into(3.0, unit, asked) == 3.0


@pytest.mark.parametrize("quantity, units", [
    ("length", "m cm mm um"), ("flux density", "T mT uT G kG"), ("capacitance", "F uF nF pF"), ("inductance", "H mH"),
    ("frequency", "Hz kHz"), ("resistance", "ohm kohm Mohm"), ("voltage", "V mV uV"), ("temperature", "C")])
def test_the_units_of_a_column_are_named_once_each(quantity, units):
    assert list(dict.fromkeys(column_units(quantity).values())) == units.split()


@pytest.mark.parametrize("quantity, spelling, unit", [
    ("flux density", "gs", "G"), ("flux density", "kilogauss", "kG"), ("flux density", "millitesla", "mT"),
    ("resistance", "kω", "kohm"), ("resistance", "k", "kohm"), ("resistance", "ohms", "ohm"),
    ("temperature", "°c", "C"), ("length", "μm", "um"), ("length", "s", None), ("voltage", "t", None)])
def test_other_spellings_in_the_head_of_a_column(quantity, spelling, unit):
    assert column_units(quantity).get(spelling) == unit


@pytest.mark.parametrize("spelling", ["m", "cm", "mm", "um", "nWb", "pF", "kHz", "MΩ", "G", "kA/m", "mm2", "%"])
def test_a_number_in_si_comes_back_as_it_was_written(spelling):
    for written in ("0.1", "0.3", "2.675", "4.7", "470", "999.5", "12345.6", "7e-3"):
        value = float(Decimal(written) * Decimal(str(unit_of(spelling).factor)))
        assert f"{in_unit(value, spelling):.15g}" == f"{float(written):.15g}"


def test_a_number_is_multiplied_by_a_whole_number_and_not_divided_by_a_decimal_share():
    # 1/1e-9 is 999999999.9999999 in doubles, and 0.0043/0.001 is 4.3 less its last digit
    assert in_unit(4.7e-9, "nF") == 4.7e-9 * 1e9 and in_unit(0.0043, "mm") == 0.0043 * 1000
    assert in_unit(1.0, "nWb") == 1e9 and in_unit(1.0, "pF") == 1e12
    assert in_unit(math.pi / 4, "°") == pytest.approx(45, rel=1e-15)


def test_arrays_are_put_into_a_unit_whole():
    np.testing.assert_array_equal(in_unit(np.array([0.0, 1e-3, -2e-3]), "mm"), [0.0, 1.0, -2.0])


@pytest.mark.parametrize("value, unit, spec, text", [
    (-2.5e-3, "mT", "+.1f", "−2.5 mT"), (2.5e-3, "mT", "+.1f", "+2.5 mT"), (0.0, "mm", ".2f", "0.00 mm"),
    (-1e-9, "mm", ".1f", "−0.0 mm"), (-1e-9, "mm", "z.1f", "0.0 mm"), (-0.04, "dB", "+z.1f", "+0.0 dB"),
    (math.nan, "mm", ".1f", "nan mm"), (-math.inf, "dB", "+.1f", "−inf dB"), (1e300, "pF", "g", "inf pF"),
    (1e30, "T", ".3g", "1 × 10³⁰ T"), (1e-30, "T", ".3g", "1 × 10⁻³⁰ T"), (2e-6, "uWb", ".1f", "2.0 µWb"),
    (2e-6, "μWb", "g", "2 μWb"), (5.0, "cent", ".0f", "5 cents"), (math.pi / 4, "deg", ".0f", "45 °"),
    (3.0, "", ".1f", "3.0"), (-3.0, "1", ".0f", "−3"), (-0.12, "%", "+.1f", "−12.0 %"), (0.12, "%", ".1f", "12.0 %"),
    (44, "AWG", ".0f", "44 AWG"), (0.2, "mV per m/s", ".0f", "200 mV per m/s"), (2e-6, "cm3", ".2f", "2.00 cm³"),
    (43.8e3, "kJ/m³", ".1f", "43.8 kJ/m³"), (2345.0, "kHz", "8.2f", "    2.35 kHz")])
def test_how_a_number_is_said(value, unit, spec, text):
    assert said(value, unit, spec) == text


def test_a_resistance_is_said_in_kilohm_below_what_is_written_as_one_megohm():
    assert [resistance_words(ohm) for ohm in (47.0, 999.4e3, 999.5e3, 10e6)] == ["0.047 kΩ", "999 kΩ", "1 MΩ", "10 MΩ"]


@pytest.mark.parametrize("prefix, size", [*PREFIXES.items()])
def test_a_value_gets_the_prefix_that_leaves_one_to_three_figures(prefix, size):
    if prefix not in "uc":       # printed as µ; hundredths have no prefix of their own
        prefix = prefix.replace("μ", "µ")
        assert prefixed(4.7 * float(Decimal(10) ** size), "V") == (float(Decimal(10) ** -size), prefix + "V")


def test_beyond_the_prefixes_of_the_table_the_last_one_is_kept():
    assert prefixed(1e-16, "F") == (1e12, "pF") and prefixed(3e11, "Hz") == (1e-6, "MHz")
