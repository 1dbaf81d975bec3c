"""The names at the top of the package load when they are used; the physics brings no widget and no drawing library."""
import subprocess
import sys

import pytest

import lessons_lib

HEAVY = "{'ipywidgets', 'IPython', 'matplotlib'}"


def loaded_after(statement):
    """What of the heavy packages, and of the package's floors, a fresh process has loaded after *statement*."""
    code = (f"import sys; {statement}; print(sorted(({HEAVY} | {{'lessons_lib.exercises', 'lessons_lib.panels'}}) "
            "& set(sys.modules)))")
    return subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True).stdout.strip()


@pytest.mark.parametrize("statement", ["import lessons_lib", "import lessons_lib.physics"])
def test_a_fresh_import_brings_no_heavy_package(statement):
    assert loaded_after(statement) == "[]"


def test_opening_a_sheet_brings_the_exercises_alone():
    assert loaded_after("import lessons_lib; lessons_lib.open_sheet") == "['lessons_lib.exercises']"


def test_physics_comes_when_an_answer_needs_it():
    code = ("import sys; from lessons_lib.exercises import declaration, models, open_sheet; "
            "before = 'scipy' in sys.modules; models.model('design_report'); print(before, 'scipy' in sys.modules)")
    result = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert result.stdout.split() == ["False", "True"]


def test_that_test_can_see_a_heavy_package():
    assert loaded_after("import matplotlib") == "['matplotlib']"


@pytest.mark.parametrize("name", ["use_card", "open_sheet", "progress", "presenting"])
def test_the_public_names_are_there(name):
    assert callable(getattr(lessons_lib, name)) and name in dir(lessons_lib)


def test_an_unknown_name_is_an_attribute_error():
    with pytest.raises(AttributeError, match="has no attribute 'open_sheets'"):
        lessons_lib.open_sheets
