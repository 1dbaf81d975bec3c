"""The floors of the library: an arrow points down only, and importing a floor brings nothing it must not know."""
import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parent.parent
LIBRARY = TOP / "lessons_lib"

# floor -> (floors below that it may use, third-party packages that it may use)
FLOORS = {
    "base": (set(), {"numpy"}),
    "physics": ({"base"}, {"numpy", "scipy"}),
    "pictures": ({"base"}, {"numpy", "matplotlib"}),
    "exercises": ({"base", "physics"}, {"numpy"}),       # physics in one file: see below
    "workbench": ({"base", "physics"}, {"numpy", "scipy"}),
    "panels": ({"base", "physics", "pictures", "exercises"},
               {"numpy", "scipy", "matplotlib", "PIL", "ipywidgets", "IPython"}),
    "desk": ({"base", "course", "exercises"}, {"ipywidgets", "IPython"}),
    "course": ({"base", "exercises"}, {"nbformat", "nbclient"}),     # these run the pages, in play alone
    "handouts": ({"base", "exercises", "panels", "course"}, {"mistune", "latex2mathml"}),
}


def modules(floor):
    return sorted((LIBRARY / floor).rglob("*.py"))


def imported(path):
    """Absolute dotted names of all that the file imports: at the top, inside a function, by a name in a string."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield node.module
        elif isinstance(node, ast.Constant) and re.fullmatch(r"lessons_lib\.\w[\w.]*", str(node.value)):
            yield node.value


@pytest.mark.parametrize("floor", FLOORS)
def test_arrows_point_down_only(floor):
    below, packages = FLOORS[floor]
    for path in modules(floor):
        for name in imported(path):
            first, *rest = name.split(".")
            where = f"{path.relative_to(TOP)} imports {name}"
            if first == "lessons_lib":
                assert rest and (rest[0] in below | {floor}), where
            else:
                assert first in packages or first in sys.stdlib_module_names, where


def test_of_the_exercises_only_the_named_models_know_physics():
    found = {path.name for path in modules("exercises") for name in imported(path)
             if name.startswith("lessons_lib.physics")}
    assert found == {"models.py"}


def test_a_module_that_is_named_in_a_string_counts_as_imported():
    assert "lessons_lib.panels.lesson_" in imported(LIBRARY / "handouts" / "figures.py")


@pytest.mark.parametrize("floor", FLOORS)
def test_files_are_short(floor):
    for path in modules(floor):
        assert len(path.read_text(encoding="utf-8").splitlines()) <= 300, path.relative_to(TOP)


def test_the_linter_has_nothing_to_say():
    """Rules in pyproject.toml: line length, unused names, imports in one order, no name of a builtin."""
    found = subprocess.run([sys.executable, "-m", "ruff", "check", "--no-cache", "--output-format", "concise", "."],
                           cwd=TOP, capture_output=True, text=True)
    assert found.returncode == 0, found.stdout + found.stderr


@pytest.mark.parametrize("floor", FLOORS)
def test_that_test_has_read_files(floor):
    assert len(modules(floor)) > 1
    assert any(list(imported(path)) for path in modules(floor))


def test_every_folder_of_the_library_is_a_floor():
    folders = {path.name for path in LIBRARY.iterdir() if path.is_dir() and path.name != "__pycache__"}
    assert folders == set(FLOORS)


def test_model_answers_import_only_physics_and_the_declarations():
    for path in (TOP / "answers").glob("*.py"):
        for name in imported(path):
            if name.split(".")[0] == "lessons_lib":
                assert name.startswith(("lessons_lib.physics", "lessons_lib.base", "lessons_lib.exercises.declaration",
                                        "lessons_lib.exercises.common_slips")), f"{path.name} imports {name}"


def test_physics_alone_brings_neither_widgets_nor_drawing():
    code = ("import sys, lessons_lib.physics.magnets; "
            "print([name for name in ('ipywidgets', 'IPython', 'matplotlib') if name in sys.modules])")
    result = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert result.stdout.strip() == "[]"


def test_top_level_holds_only_what_a_newcomer_expects():
    tracked = subprocess.run(["git", "ls-files"], cwd=TOP, capture_output=True, text=True)
    if tracked.returncode:
        pytest.skip("not a git checkout")
    top = {name.split("/")[0] for name in tracked.stdout.split()}
    assert {name for name in top if not name.startswith(".")} <= {
        "README.md", "DEVELOPERS.md", "requirements.txt", "pyproject.toml",
        "notebooks", "lessons_lib", "tests", "answers"}
