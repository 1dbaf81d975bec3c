"""Magnet wire against published wire tables."""
import math
import subprocess
import sys

import pytest

from lessons_lib.base.materials import magnet_wire

FOOT = 0.3048

# The Hardware Book's wire table (credits Standard Handbook for Electrical Engineers, 14th ed. 2000): mm, mm2, ohm/km.
# Tolerances from the digits printed: half a unit of the last, and a unit of the third digit where it truncates.
TABLE_A = [(36, 0.127, 0.0127, 1360), (38, 0.101, 0.00797, 2160), (39, 0.0897, 0.00632, 2730),
           (40, 0.0799, 0.00501, 3440), (41, 0.0711, 0.00397, 4340), (42, 0.0633, 0.00315, 5470),
           (43, 0.0564, 0.0025, 6900), (44, 0.0502, 0.00198, 8700)]


@pytest.mark.parametrize("awg, millimetres, square_millimetres, ohm_per_kilometre", TABLE_A)
def test_gauge_table(awg, millimetres, square_millimetres, ohm_per_kilometre):
    wire = magnet_wire(awg=awg)
    assert wire.diameter * 1e3 == pytest.approx(millimetres, rel=4e-3)
    assert wire.area * 1e6 == pytest.approx(square_millimetres, rel=4e-3)
    assert wire.resistance_per_metre * 1e3 == pytest.approx(ohm_per_kilometre, rel=4e-3)


@pytest.mark.parametrize("awg, ohm_per_1000_ft", [(36, 414.8), (38, 659.6), (39, 831.8), (40, 1049.0)])
def test_table_with_exact_diameters(awg, ohm_per_1000_ft):
    # HyperPhysics wire table (credits Floyd): exact law, four digits
    assert magnet_wire(awg=awg).resistance_per_metre * 1000 * FOOT == pytest.approx(ohm_per_1000_ft, rel=2e-4)


@pytest.mark.parametrize("mil, ohm_per_metre", [(5.0, 1.3611), (3.1, 3.5407), (2.5, 5.4442), (2.0, 8.5066)])
def test_rounded_diameters_by_diameter(mil, ohm_per_metre):
    # ASTM B258 diameters; 36 read (414.8 ohm/1000 ft), the others 10371/d^2 from memory and recomputed. The constant
    # 10371 in circular mil and feet agrees with 1/58 ohm mm2/m to 1e-4.
    assert magnet_wire(diameter=mil * 25.4e-6).resistance_per_metre == pytest.approx(ohm_per_metre, rel=2e-4)


@pytest.mark.parametrize("awg, mil, percent", [(40, 3.1, 2.9), (42, 2.5, -0.5), (44, 2.0, -2.3)])
def test_exact_law_and_rounded_tables_differ(awg, mil, percent):
    # the trap: the library's gauge is the exact law, a rounded table is up to 3 % away
    rounded = magnet_wire(diameter=mil * 25.4e-6).resistance_per_metre
    assert 100 * (rounded / magnet_wire(awg=awg).resistance_per_metre - 1) == pytest.approx(percent, abs=0.1)


def test_gauge_law():
    # defined by AWG 36 = 5 mil and 0000 (-3) = 460 mil in 39 equal ratios: ten gauges are 92^(10/39)
    assert magnet_wire(awg=36).diameter == pytest.approx(0.127e-3, rel=1e-12)
    assert magnet_wire(awg=36).diameter / magnet_wire(awg=46).diameter == pytest.approx(92 ** (10 / 39), rel=1e-12)


def test_thicker_wire_has_less_resistance_by_the_square():
    thin, thick = magnet_wire(diameter=0.05e-3), magnet_wire(diameter=0.1e-3)
    assert thin.resistance_per_metre / thick.resistance_per_metre == pytest.approx(4)


def test_insulation():
    wire = magnet_wire(awg=42)
    low, high = wire.insulated_diameter.spread
    assert wire.diameter < low < wire.insulated_diameter < high
    # single coat of AWG 42 about 0.0028 inch over all, from memory: loose
    assert wire.insulated_diameter == pytest.approx(0.0028 * 0.0254, rel=0.05)


def test_every_number_knows_unit_and_source():
    wire = magnet_wire(awg=43)
    units = {"diameter": "m", "insulated_diameter": "m", "area": "m2", "resistance_per_metre": "ohm/m",
             "temperature_coefficient": "1/K"}
    for name, unit in units.items():
        assert getattr(wire, name).unit == unit and getattr(wire, name).source


def test_resistance_rises_with_temperature():
    # 0.393 % per degree (IEC 60028): 10 K are 3.93 %
    wire = magnet_wire(awg=42)
    assert wire.resistance(100.0, 30.0) / wire.resistance(100.0) == pytest.approx(1.0393)


@pytest.mark.parametrize("given, message", [
    ({"awg": 35}, "awg must be a number from 36 to 46; got 35."),
    ({"awg": 47}, "awg must be a number from 36 to 46; got 47."),
    ({"awg": math.nan}, "awg must be a number from 36 to 46; got nan."),
    ({"diameter": 0.0}, "diameter must be a number from 1e-05 to 0.001; got 0.0."),
    ({"diameter": 0.063}, "diameter must be a number from 1e-05 to 0.001; got 0.063."),   # millimetres for metres
])
def test_refused_values(given, message):
    with pytest.raises(ValueError) as caught:
        magnet_wire(**given)
    assert str(caught.value) == message


@pytest.mark.parametrize("given, message", [
    ({}, "magnet_wire must be given awg or diameter; got awg=None and diameter=None."),
    ({"awg": 42, "diameter": 63e-6}, "magnet_wire must be given awg or diameter; got awg=42 and diameter=6.3e-05."),
    ({"awg": "42"}, "awg must be a number from 36 to 46; got '42'."),
])
def test_refused_calls(given, message):
    with pytest.raises(TypeError) as caught:
        magnet_wire(**given)
    assert str(caught.value) == message


def test_refused_length_and_temperature():
    wire = magnet_wire(awg=42)
    with pytest.raises(ValueError, match="length must be a finite number above zero; got 0"):
        wire.resistance(0)
    with pytest.raises(ValueError, match="temperature must be a number from -50 to 200; got 293.15"):   # kelvin
        wire.resistance(1.0, 293.15)


@pytest.mark.parametrize("module", ["lessons_lib.base.wire", "lessons_lib.base.materials"])
def test_either_file_can_be_imported_first(module):
    code = f"import {module} as first; first.magnet_wire(awg=42)"
    assert subprocess.run([sys.executable, "-c", code], capture_output=True).returncode == 0
