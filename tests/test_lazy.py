"""The names at the top of the package load when they are used; the physics brings no widget and no drawing library."""
import ast
import pkgutil
import subprocess
import sys

import pytest

import lessons_lib
import lessons_lib.physics
from notebooks import lessons, read

HEAVY = "{'ipywidgets', 'IPython', 'matplotlib'}"


def loaded_after(statement):
    """What of the heavy packages, and of the package's floors, a fresh process has loaded after *statement*."""
    code = (f"import sys; {statement}; print(sorted(({HEAVY} | {{'lessons_lib.exercises', 'lessons_lib.lessons'}}) "
            "& set(sys.modules)))")
    return subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True).stdout.strip()


def modules_after(statement):
    """What a fresh process has loaded of scipy and of the library after *statement*, without the way to a name."""
    code = (f"import sys; {statement}; print(*(name for name in sys.modules if name == 'scipy' or "
            "name.startswith(('lessons_lib.base.', 'lessons_lib.physics.'))))")
    result = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    return set(result.stdout.split()) - {"lessons_lib.base.offered", "lessons_lib.base.words"}


@pytest.mark.parametrize("statement", ["import lessons_lib", "import lessons_lib.physics"])
def test_a_fresh_import_brings_no_heavy_package(statement):
    assert loaded_after(statement) == "[]"


def test_opening_a_sheet_brings_the_exercises_alone():
    assert loaded_after("import lessons_lib; lessons_lib.open_sheet") == "['lessons_lib.exercises']"


def test_an_open_sheet_knows_the_instrument_and_brings_no_heavy_package():
    assert loaded_after("import lessons_lib; lessons_lib.open_sheet('01')") == (
        "['lessons_lib.exercises', 'lessons_lib.lessons']")


def test_physics_comes_when_an_answer_needs_it():
    code = ("import sys; from lessons_lib.exercises import declaration, models, open_sheet; "
            "before = 'scipy' in sys.modules; models.model('design_report'); print(before, 'scipy' in sys.modules)")
    result = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert result.stdout.split() == ["False", "True"]


def test_that_test_can_see_a_heavy_package():
    assert loaded_after("import matplotlib") == "['matplotlib']"


@pytest.mark.parametrize("name", ["use_card", "open_sheet", "progress", "presenting", "curves", "vote", "votes_again"])
def test_the_public_names_are_there(name):
    assert callable(getattr(lessons_lib, name)) and name in dir(lessons_lib)


def test_an_unknown_name_is_an_attribute_error():
    with pytest.raises(AttributeError, match="has no attribute 'open_sheets'"):
        lessons_lib.open_sheets


# ---- what the physics offers to a page -------------------------------------------------------------------------------

OFFERED = """RodMagnet BarMagnet recoil_magnet reluctance in_series in_parallel MagneticCircuit working_point RoundCoil
    LongCoil SteelString SteelPole Pickup TunedString induced_voltage pickup_voltage harmonic_levels LoadedCoil
    magnet_grade magnet_wire house_magnet house_coil house_strings house_place""".split()


def test_importing_the_physics_loads_no_physics():
    assert modules_after("import lessons_lib.physics; dir(lessons_lib.physics)") == set()


@pytest.mark.parametrize("name, loads", [
    ("house_magnet", {"base.workshop"}), ("reluctance", {"base.checks", "physics.magnetic_circuit"})])
def test_a_name_loads_its_module_alone(name, loads):
    assert modules_after(f"from lessons_lib.physics import {name}") - {"scipy"} == {f"lessons_lib.{one}"
                                                                                    for one in loads}


def test_what_a_page_needs_is_offered_and_seen():
    physics = lessons_lib.physics
    assert set(OFFERED) <= set(physics.__all__) and set(physics.__all__) <= set(dir(physics))
    from lessons_lib.physics.magnets import RodMagnet
    assert physics.RodMagnet is RodMagnet and physics.house_coil["turns"] == 7600
    assert [name for name in physics.__all__ if getattr(physics, name) is None] == []


def test_no_name_offered_is_that_of_a_module():
    """Else it would depend on what was imported before which of the two is found: so `steel` stays in materials."""
    modules = {found.name for found in pkgutil.iter_modules(lessons_lib.physics.__path__)}
    assert len(modules) > 20 and modules & set(lessons_lib.physics.__all__) == set()
    from lessons_lib.physics import steel
    assert steel.__name__ == "lessons_lib.physics.steel"


def test_a_name_that_is_not_there_is_told_with_the_one_that_is():
    with pytest.raises(AttributeError) as trouble:
        lessons_lib.physics.RodMagnets
    assert str(trouble.value) == "module 'lessons_lib.physics' has no attribute 'RodMagnets'. Did you mean RodMagnet?"


@pytest.mark.parametrize("path", lessons(), ids=lambda path: path.name[:2])
def test_a_page_takes_physics_from_one_place_in_one_statement(path):
    cells = [ast.parse(cell.source) for cell in read(path).cells if cell.cell_type == "code"]
    for cell in cells:
        taken = [node.module for node in cell.body if isinstance(node, ast.ImportFrom)
                 and node.module.startswith(("lessons_lib.physics", "lessons_lib.base"))]
        assert taken in ([], ["lessons_lib.physics"])
    # the first page opens with the pickup alone
    opening = cells[:2] if path.name.startswith("00") else [
        next(cell for cell in cells if "open_sheet(" in ast.unparse(cell))]
    first = [node for cell in opening for node in cell.body if getattr(node, "module", "").startswith("lessons_lib")]
    assert 2 <= len(first) <= 4
