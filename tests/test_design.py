"""A pickup by its choices, against the parts put together by hand, textbook formulas and the workshop's record."""
import math

import numpy as np
import pytest
from numpy.testing import assert_allclose

from lessons_lib.base.materials import magnet_grade, magnet_wire
from lessons_lib.base.workshop import ROW, house_coil, house_magnet, house_place
from lessons_lib.physics.design import (
    COPPER_DENSITY,
    GRADES,
    design_report,
    designed_coil,
    parts_list,
    response_curve,
    rod_of,
    turns_for,
)
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.six_strings import decibels, first_pulses, in_a_row, workshop_row
from lessons_lib.physics.winding import LongCoil

HOUSE = {"magnet": "alnico 5", "wire": 44, "turns": 7600, "tops": [0.0] * 6}
OTHER = {"magnet": "alnico 2", "wire": 45, "turns": 9000, "tops": [0.6e-3, 0.4e-3, 0.4e-3, -2e-3, -1.5e-3, -0.4e-3]}


@pytest.mark.parametrize("design", [HOUSE, OTHER], ids=["house", "other"])
def test_the_report_is_that_of_the_parts_put_together(design):
    report, wire = design_report(**design), magnet_wire(awg=design["wire"])
    coil = LongCoil(**{**house_coil, "turns": design["turns"]})
    pickup = Pickup(poles=in_a_row(rod_of(design["magnet"]), house_place["string_y"], design["tops"]), coils=coil)
    pulses = first_pulses(pickup, workshop_row())
    # one turn's numbers are scaled: rounding alone
    assert_allclose(report.sensitivity, pickup.sensitivity(workshop_row()[0].steel, height=2.5e-3, y=-25.5e-3),
                    rtol=1e-9)
    assert_allclose(report.levels, decibels(pulses), atol=1e-9)
    assert report.spread == pytest.approx(decibels(max(pulses), min(pulses)), abs=1e-9)
    assert_allclose([report.inductance, report.resistance, report.fill],
                    [pickup.inductance(), coil.resistance(wire), coil.fill_factor(wire)], rtol=1e-9)


def test_the_house_design_is_the_houses():
    report = design_report(**HOUSE)
    # the workshop's record (finite-element fields): 2.17 H, about 1000 m, 8.6 kohm by a rounded wire table,
    # 0.1145 V per m/s of string VI at 2.5 mm, 8 dB from string VI to the plain third
    assert_allclose([report.inductance, report.wire_length, report.resistance, report.sensitivity],
                    [2.17, 1000, 8.6e3, 0.1145], rtol=0.015)
    assert report.levels[3] - report.levels[0] == pytest.approx(8, abs=0.2)


def test_resonance_and_copper_by_textbook_formulas():
    report = design_report(**HOUSE)
    # undamped: 1/(2 pi sqrt(L C)), C = 600 pF; the resistances pull the highest output down by less than 1 %
    assert report.resonance == pytest.approx(1 / (2 * math.pi * math.sqrt(report.inductance * 600e-12)), rel=0.01)
    assert turns_for(magnet="alnico 5", tops=HOUSE["tops"], resonance=report.resonance) == pytest.approx(7600, rel=0.01)
    frequency = np.geomspace(200, 2e4, 4001)
    assert frequency[np.argmax(response_curve(report, frequency))] == pytest.approx(report.resonance, rel=2e-3)
    assert designed_coil(report).peak()[1] == report.resonance_level
    assert report.copper == pytest.approx(math.pi / 4 * 50.2e-6 ** 2 * 1000 * COPPER_DENSITY, rel=3e-3)
    # 8.89 g/cm3: the hand formula R = rho l^2 density / mass with 1/58 ohm mm2/m
    assert report.copper == pytest.approx(report.wire_length ** 2 * COPPER_DENSITY / 58e6 / report.resistance, rel=1e-9)


def test_what_each_choice_moves():
    report = design_report(**HOUSE)
    more = design_report(**{**HOUSE, "turns": 8360})
    assert_allclose([more.inductance / report.inductance, more.sensitivity / report.sensitivity,
                     more.copper / report.copper], [1.21, 1.1, 1.1])
    assert_allclose(more.levels, report.levels)
    thinner = design_report(**{**HOUSE, "wire": 45})
    # one gauge: the diameter by 92^(1/39), so the cross-section by 1.2610
    assert_allclose(thinner.resistance / report.resistance, 92 ** (2 / 39))
    assert_allclose(report.fill / thinner.fill, 92 ** (2 / 39))
    lower = design_report(**{**HOUSE, "tops": [0, 0, 0, -2e-3, 0, 0]})
    assert lower.levels[3] < report.levels[3] - 2 and abs(lower.sensitivity / report.sensitivity - 1) < 0.02
    weak = design_report(**{**HOUSE, "magnet": "ferrite"})
    assert weak.sensitivity < 0.7 * report.sensitivity and weak.resonance > report.resonance


def test_rods_of_the_grades():
    assert rod_of("alnico 5") == RodMagnet(**house_magnet)
    assert rod_of("alnico 8").remanence == magnet_grade("alnico 8").remanence       # above the knee: straight
    assert 0 < rod_of("alnico 2").remanence < magnet_grade("alnico 2").remanence
    with pytest.raises(ValueError, match="magnet must be one of 'alnico 2'"):
        rod_of("neodymium")


def test_the_parts_list_names_what_to_order():
    for grade in GRADES:
        rows = dict(parts_list(**{**OTHER, "magnet": grade}))
        assert rows["rod magnets"].startswith(f"6 of {grade}")
    assert rows["length of wire"].startswith("1184 m in 9000 turns")    # 9000 times 2 · 51 mm + π · 9.4 mm
    assert rows["pole tops over the form (mm)"] == "VI +0.60, V +0.40, IV +0.40, III −2.00, II −1.50, I −0.40"


def test_a_coil_that_does_not_fit_is_not_to_be_ordered():
    rows = dict(parts_list(**{**HOUSE, "wire": 40, "turns": 15000}))
    assert "it does not fit into the window" in rows["length of wire"] and rows["coil form"].endswith(" %")
    assert rows["pole tops over the form (mm)"].startswith("VI flush, V flush")


@pytest.mark.parametrize("change, words", [
    ({"tops": [0.0] * 5}, "tops must be six heights"), ({"tops": [0, 0, 0, 0, 0, math.nan]}, "tops must be an array"),
    ({"turns": 0}, "turns must be"), ({"wire": 50}, "awg must be"), ({"magnet": "cobalt"}, "magnet must be one of"),
    ({"tops": [2.4e-3] * 6}, "height must be the string's axis")])
def test_choices_that_cannot_be_are_refused(change, words):
    with pytest.raises(ValueError, match=words):
        design_report(**{**HOUSE, **change})
    assert len(ROW) == 6
