"""A number is said in one way: sliders take their factors from the table, and no module has a table of its own."""
import ast
import importlib
import math
from dataclasses import fields
from pathlib import Path

import pytest

from lessons_lib.base.units import _ALL, UNITS, shown_unit
from lessons_lib.page.controls import Slider

LIBRARY = Path(importlib.import_module("lessons_lib").__path__[0])
SHOWING = ("pictures", "lessons", "page", "workbench")       # floors that say numbers to a reader
SPELLED = {*_ALL, *map(shown_unit, _ALL)} - {"", "1"}
POWERS = {float(f"1e{n}") for n in range(-12, 13) if abs(n) > 1} | {100.0}
PREFIXES = {"PICO", "NANO", "MICRO", "MILLI", "CENTI", "KILO", "MEGA", "PERCENT", "PER_CENT"}
# BIPM, The International System of Units (SI Brochure), 9th edition (2019), Tables 7 and 8; a wire gauge is a number
FACTORS = {"A": 1, "ms": 1e-3, "": 1, "AWG": 1, "%": 1e-2, "°": math.pi / 180, "mm": 1e-3, "m/s": 1, "N": 1,
           "T": 1, "mT": 1e-3, "kA/m": 1e3, "kJ/m³": 1e3, "H": 1, "pF": 1e-12, "kΩ": 1e3, "Hz": 1,
           "nV/√Hz": 1e-9}


def sliders():
    for path in sorted((LIBRARY / "lessons").rglob("*.py")):
        module = importlib.import_module(".".join(("lessons_lib", *path.relative_to(LIBRARY).with_suffix("").parts)))
        for name, found in vars(module).items():
            several = found if isinstance(found, tuple) else (found,)
            yield from (pytest.param(one, id=f"{path.parent.name} {name} {one.name}") for one in several
                        if isinstance(one, Slider))


@pytest.mark.parametrize("slider", list(sliders()))
def test_the_factor_of_a_slider_follows_from_its_unit(slider):
    assert slider.in_si(slider.high) == slider.high * FACTORS[slider.unit]
    assert slider.words(slider.in_si(slider.low)).startswith(slider.shown(slider.low).replace("-", "−"))


def test_there_are_sliders_and_none_has_a_factor_of_its_own():
    assert len(list(sliders())) > 60 and "si" not in {field.name for field in fields(Slider)}


def test_a_slider_in_another_unit_is_refused():
    with pytest.raises(ValueError, match="^unit must be one of the spellings of the table in base/units.py; got"):
        Slider(name="x", label="x", unit="ell", low=0, high=1, start=0)


def is_power(node):
    return isinstance(node, ast.Constant) and type(node.value) in (int, float) and float(node.value) in POWERS


def is_put_into_a_unit(node):
    return isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "in_unit"


def scaled_where_it_is_said(node):
    return isinstance(node, ast.FormattedValue) and any(
        isinstance(one, ast.BinOp) and isinstance(one.op, (ast.Mult, ast.Div)) and (is_power(one.left)
                                                                                   or is_power(one.right))
        for one in ast.walk(node.value))


def unit_written_behind(node):
    """A formatted number with a unit of the table behind it, as in f"{x:.1f} mm"."""
    for number, text in zip(node.values, node.values[1:]) if isinstance(node, ast.JoinedStr) else ():
        if isinstance(number, ast.FormattedValue) and number.format_spec and isinstance(text, ast.Constant):
            word = text.value[1:].split(" ")[0].rstrip(".,;:)")
            if text.value.startswith(" ") and word in SPELLED and not is_put_into_a_unit(number.value):
                return True
    return False


def named_power(node):
    """A factor under a unit's or a prefix' name, as in KHZ = 1e-3."""
    pairs = ()
    if isinstance(node, ast.Assign):
        target, value = node.targets[0], node.value
        pairs = zip(target.elts, value.elts) if isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple) else (
            (target, value),)
    return any(isinstance(name, ast.Name) and is_power(value)
               and name.id.strip("_").upper() in PREFIXES | {one.upper() for one in SPELLED} for name, value in pairs)


def table_of_units(node):
    return isinstance(node, ast.Dict) and len([
        key for key, value in zip(node.keys, node.values) if isinstance(key, ast.Constant) and key.value in UNITS
        and isinstance(value, ast.Constant) and isinstance(value.value, (int, float))]) > 1


def minus_by_hand(node):
    return (isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr == "replace"
            and [one.value for one in node.args if isinstance(one, ast.Constant)] == ["-", "−"])


RULES = (scaled_where_it_is_said, unit_written_behind, named_power, table_of_units, minus_by_hand)


def broken(source):
    return [(rule.__name__, node.lineno) for node in ast.walk(ast.parse(source)) for rule in RULES if rule(node)]


@pytest.mark.parametrize("path", [path for floor in SHOWING for path in sorted((LIBRARY / floor).rglob("*.py"))],
                         ids=lambda path: path.relative_to(LIBRARY).as_posix())
def test_no_module_says_numbers_in_a_way_of_its_own(path):
    assert broken(path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize("floor", ["base", "physics", "exercises", "course", "desk", "handouts"])
def test_no_other_floor_has_a_table_of_units(floor):
    for path in sorted((LIBRARY / floor).rglob("*.py")):
        if path != LIBRARY / "base" / "units.py":
            assert not [node for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))) if table_of_units(node)]


@pytest.mark.parametrize("source, rule", [
    ('def _khz(f):\n    return f"{f / 1e3:.2f} kHz"', "scaled_where_it_is_said"),
    ('def _db(level, digits=1):\n    return f"{level:+.{digits}f} dB"', "unit_written_behind"),
    ('def share(x):\n    return f"{100 * x:.0f}"', "scaled_where_it_is_said"),
    ("PICO, KILO = 1e-12, 1e3", "named_power"), ("MM = 1e3", "named_power"), ("_kHz = 1e-3", "named_power"),
    ('SIZES = {"mm": 1e-3, "m": 1.0}', "table_of_units"), ('text.replace("-", "−")', "minus_by_hand")])
def test_these_rules_find_what_they_are_for(source, rule):
    assert rule in [name for name, _ in broken(source)]
