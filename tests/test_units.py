"""The closed table of units, against pint; what pint cannot say is held by its definition."""
import math

import pint
import pytest

from lessons_lib.base.units import UNITS, asked_words, into, read_unit, spellings_like

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


@pytest.mark.parametrize("spelling", sorted(set(UNITS) - BY_DEFINITION))
def test_factor_is_that_of_pint(spelling):
    unit = UNITS[spelling]
    theirs = REGISTRY.Quantity(1.0, PINT_SPELLING.get(spelling, spelling)).to(SI[unit.dimension]).magnitude
    assert unit.factor == pytest.approx(theirs, rel=1e-14)  # both are powers of ten or pi/180 in doubles


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
