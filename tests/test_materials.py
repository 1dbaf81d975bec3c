"""The records of materials and of the workshop: complete, sourced, and consistent with each other."""
import pickle
from dataclasses import fields

import pytest
from numpy.testing import assert_allclose
from scipy.constants import mu_0, pi

from lessons_lib.base.materials import MagnetGrade, Steel, Value, magnet_grade, steel
from lessons_lib.base.workshop import house_coil, house_magnet, house_place, house_strings

GRADES = ("alnico 5", "alnico 2", "alnico 3", "alnico 8", "ferrite", "neodymium")
STEELS = ("music wire", "screw steel")
UNITS = {"remanence": "T", "coercivity": "A/m", "energy_product": "J/m3", "recoil_permeability": "1",
         "relative_permeability": "1", "saturation": "T", "density": "kg/m3", "young_modulus": "Pa",
         "resistivity": "ohm m"}
RECORDS = [magnet_grade(name) for name in GRADES] + [steel(name) for name in STEELS]
VALUES = [(record.name, field.name, getattr(record, field.name)) for record in RECORDS for field in fields(record)
          if field.name != "name"]


@pytest.mark.parametrize("record, name, value", VALUES)
def test_every_value_has_unit_source_and_a_spread_that_holds_it(record, name, value):
    assert isinstance(value, Value) and value > 0
    assert value.unit == UNITS[name]
    assert len(value.source) > 10
    if value.spread is not None:
        low, high = value.spread
        assert low <= value <= high and low < high


def test_records_are_known_by_their_own_names_and_cannot_be_changed():
    for record, kind in zip(RECORDS, [MagnetGrade] * len(GRADES) + [Steel] * len(STEELS)):
        assert isinstance(record, kind)
        with pytest.raises(AttributeError):
            record.name = "other"
    assert [record.name for record in RECORDS] == [*GRADES, *STEELS]


def test_value_is_a_float_that_survives_copies():
    value = magnet_grade("alnico 5").remanence
    again = pickle.loads(pickle.dumps(value))
    assert (again, again.unit, again.source, again.spread) == (value, value.unit, value.source, value.spread)
    assert value * 2 == 2.56


@pytest.mark.parametrize("name", GRADES)
def test_energy_product_fits_remanence_and_coercivity(name):
    grade = magnet_grade(name)
    fullness = grade.energy_product / (grade.remanence * grade.coercivity)
    # a curve that bulges above the straight line (1/4) and lies within the rectangle (1)
    assert 0.25 <= round(fullness, 6) < 1
    # B cannot fall more steeply than the straight line to the coercivity: mu_rec mu0 H_c stays below or near B_r
    if name in ("ferrite", "neodymium"):
        assert mu_0 * grade.recoil_permeability * grade.coercivity < 1.01 * grade.remanence


# MMPA Standard 0100-00, table II-1: MGOe and Oe beside kJ/m3 and kA/m, from memory; 1 MGOe = 7.9577 kJ/m3,
# 1 Oe = 79.577 A/m. The two columns of a row say the same to the printed digits.
@pytest.mark.parametrize("name, gauss, oersted, mega_gauss_oersted", [
    ("alnico 5", 12800, 640, 5.5), ("alnico 2", 7500, 560, 1.7), ("alnico 3", 7000, 480, 1.35)])
def test_alnico_in_both_systems_of_units(name, gauss, oersted, mega_gauss_oersted):
    grade = magnet_grade(name)
    assert_allclose(grade.remanence, gauss * 1e-4, rtol=1e-9)
    assert_allclose(grade.coercivity, oersted * 1e3 / (4 * pi), rtol=0.012)
    assert_allclose(grade.energy_product, mega_gauss_oersted * 1e5 / (4 * pi), rtol=0.006)


def test_alnico_5_lies_within_the_range_of_the_standard():
    # ASTM A1070-16, scope: alnico 0.52 to 1.35 T, 38 to 175 kA/m
    for name in ("alnico 5", "alnico 2", "alnico 3", "alnico 8"):
        grade = magnet_grade(name)
        assert 0.52 <= grade.remanence <= 1.35 and 38e3 <= grade.coercivity <= 175e3


def test_alnico_5_curve_is_full():
    grade = magnet_grade("alnico 5")
    # 43.8 / (1.28 x 51): far from the 0.25 of a straight-line magnet
    assert_allclose(grade.energy_product / (grade.remanence * grade.coercivity), 0.671, atol=5e-4)


@pytest.mark.parametrize("look_up, kind, known", [(magnet_grade, "magnet grade", GRADES), (steel, "steel", STEELS)])
@pytest.mark.parametrize("name", ["unobtainium", "", 5, None, ["alnico 5"]])
def test_unknown_names_are_told_the_known_ones(look_up, kind, known, name):
    with pytest.raises(ValueError) as refusal:
        look_up(name)
    assert str(refusal.value) == f"name of a {kind} must be one of {', '.join(map(repr, known))}; got {name!r}."


# ---- the workshop

def test_house_magnet_is_cast_alnico_5():
    grade = magnet_grade("alnico 5")
    assert house_magnet["recoil_permeability"] == grade.recoil_permeability
    assert house_magnet["remanence"] < grade.remanence  # a free rod works below the knee


def test_house_strings_are_made_of_the_steel_in_the_records():
    density = steel("music wire").density
    for name, string in house_strings.items():
        core = density * pi * string["core"] ** 2 / 4
        # a round wrap fills pi/4 of its ring; its alloy 8300 kg/m3
        wrap = 8300 * pi / 4 * pi / 4 * (string["diameter"] ** 2 - string["core"] ** 2)
        # mass per metre is given to 0.001 g/m; diameters are rounded to 0.01 mm in the wound ones
        assert_allclose(string["linear_density"], core + wrap, rtol=0.004, err_msg=name)


def test_house_strings_have_the_tensions_of_the_course():
    # the course's table, N to 0.1: T = (2 L f)^2 mu
    tensions = {"I": 67.7, "II": 66.2, "III": 70.8, "III wound": 78.4, "IV": 82.5, "V": 82.9, "VI": 79.3}
    for name, tension in tensions.items():
        string = house_strings[name]
        computed = (2 * house_place["scale_length"] * string["frequency"]) ** 2 * string["linear_density"]
        assert_allclose(computed, tension, rtol=3e-3, err_msg=name)


def test_house_rods_stand_inside_the_house_coil():
    assert house_magnet["diameter"] / 2 < house_coil["inner_radius"] < house_coil["outer_radius"]
    assert -house_magnet["length"] <= house_coil["bottom"] < house_coil["top"] <= 0
    places = house_place["string_y"]
    assert len(places) == 6 and places[-1] == -places[0]
    assert_allclose(places[-1] - places[0], house_coil["straight_length"], rtol=1e-9)


def test_workshop_records_cannot_be_changed():
    for record in (house_magnet, house_coil, house_strings, house_strings["I"], house_place):
        with pytest.raises(TypeError):
            record["length"] = 1.0
