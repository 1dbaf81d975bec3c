"""The floors of the library as DEVELOPERS.md draws them: every arrow is drawn and there, and points down."""
import ast
import graphlib
import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parent.parent
LIBRARY = TOP / "lessons_lib"
DRAWN = re.findall(r"^(\w+) +\|(.*)", (TOP / "DEVELOPERS.md").read_text(encoding="utf-8"), re.MULTILINE)
ARROWS = {floor: line.split() for floor, line in DRAWN}     # a narrow one in brackets, as it is drawn
PACKAGES = {floor: set(re.sub(r"\(.*?\)", "", packages).replace(",", " ").split()) for floor, packages in re.findall(
    r"^\| `(\w+)` \|.*\| (.*) \|$", (TOP / "DEVELOPERS.md").read_text(encoding="utf-8"), re.MULTILINE)
    if floor in ARROWS}
FLOORS = list(PACKAGES)


def modules(floor):
    """The files of a floor, or of what stands beside the floors."""
    where = {"top": LIBRARY.glob("*.py"), "answers": (TOP / "answers").glob("*.py"),
             "notebooks": (TOP / "notebooks").glob("*.ipynb")}
    return sorted(where[floor] if floor in where else (LIBRARY / floor).rglob("*.py"))


def code(path):
    if path.suffix == ".py":
        return path.read_text(encoding="utf-8")
    cells = json.loads(path.read_text(encoding="utf-8"))["cells"]
    return "\n".join("".join(cell["source"]) for cell in cells if cell["cell_type"] == "code")


def imported(path):
    """Absolute dotted names of all that the file imports: at the top, inside a function, by a name in a string."""
    for node in ast.walk(ast.parse(code(path))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield from (f"{node.module}.{alias.name}" for alias in node.names)
        elif isinstance(node, ast.Constant) and re.fullmatch(r"lessons_lib\.\w[\w.]*", str(node.value)):
            yield node.value
        elif isinstance(node, ast.Constant) and re.fullmatch(r"[a-z]+\.\w+", str(node.value)) and (
                LIBRARY / f"{node.value.replace('.', '/')}.py").exists():   # as a table of modules names them
            yield f"lessons_lib.{node.value}"


def module_of(name):
    """The module of the library that a dotted name means: itself, or the one that holds it."""
    parts = name.split(".")
    while not (path := TOP.joinpath(*parts)).is_dir() and not path.with_suffix(".py").exists():
        parts.pop()
    return ".".join(parts)


def floor_of(name):
    """The floor of a module of the library."""
    return name.split(".")[1] if name.split(".")[1:2] and name.split(".")[1] in FLOORS else "top"


def arrows(floor):
    """Floor -> (files here that need it, modules there that they need)."""
    found = {}
    for path in modules(floor):
        for name in filter(re.compile(r"lessons_lib\b").match, imported(path)):
            if (other := floor_of(name)) != floor:
                here, there = found.setdefault(other, (set(), set()))
                here.add(path.name), there.add(module_of(name))
    return found


@pytest.mark.parametrize("floor", ARROWS)
def test_every_arrow_is_drawn_and_there(floor):
    assert {arrow.strip("()") for arrow in ARROWS[floor]} == set(arrows(floor))


@pytest.mark.parametrize("floor", FLOORS)
def test_every_package_is_named_and_used(floor):
    names = {name.split(".")[0] for path in modules(floor) for name in imported(path)}
    assert names - {"lessons_lib"} - set(sys.stdlib_module_names) == PACKAGES[floor]


def test_arrows_point_down_only():
    order = list(ARROWS)
    assert [(floor, arrow) for floor in order for arrow in ARROWS[floor]
            if order.index(arrow.strip("()")) <= order.index(floor)] == []


def test_a_narrow_arrow_has_one_file_at_an_end():
    assert {(floor, arrow) for floor in ARROWS for arrow in ARROWS[floor] if arrow[0] == "("} == {
        ("top", "(lessons)"), ("course", "(lessons)"), ("exercises", "(physics)")}
    assert arrows("exercises")["physics"][0] == {"models.py"}
    assert arrows("top")["lessons"][1] == arrows("course")["lessons"][1] == {"lessons_lib.lessons.own_instrument"}


def test_lessons_never_import_each_other():
    for path in (LIBRARY / "lessons").glob("*/*.py"):       # the whole pickup is a folder of its own, too
        of_lessons = [name for name in imported(path)
                      if name.startswith(("lessons_lib.lessons.lesson_", "lessons_lib.lessons.whole_"))]
        assert all(name.split(".")[2] == path.parent.name for name in of_lessons), path.relative_to(TOP)
        if path.name == "model.py":
            assert not [name for name in imported(path) if name.startswith(("lessons_lib.page", "matplotlib"))], path


def test_no_circle_of_modules():
    graph = {".".join(path.relative_to(TOP).with_suffix("").parts).removesuffix(".__init__"):
             {module_of(name) for name in imported(path) if name.startswith("lessons_lib.")}
             for path in LIBRARY.rglob("*.py")}
    assert len(list(graphlib.TopologicalSorter(graph).static_order())) > 100


def test_modules_are_loaded_by_a_name_that_is_worked_out_in_two_places_alone():
    """The offered names are read above; answers lie in a folder that somebody names."""
    loading = re.compile(r"import_module\(|__import__\(|spec_from_file_location\(|exec\(")
    assert {path.relative_to(LIBRARY).as_posix() for path in LIBRARY.rglob("*.py") if loading.search(code(path))} == {
        "base/offered.py", "exercises/self_study.py"}


@pytest.mark.parametrize("floor", FLOORS)
def test_files_are_short(floor):
    for path in modules(floor):
        assert len(path.read_text(encoding="utf-8").splitlines()) <= 300, path.relative_to(TOP)


def test_the_linter_has_nothing_to_say():
    """Rules in pyproject.toml: line length, unused names, imports in one order, no name of a builtin."""
    found = subprocess.run([sys.executable, "-m", "ruff", "check", "--no-cache", "--output-format", "concise", "."],
                           cwd=TOP, capture_output=True, text=True)
    assert found.returncode == 0, found.stdout + found.stderr


@pytest.mark.parametrize("floor", ARROWS)
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
                assert name == "lessons_lib.exercises.self_study.load_lesson" or name.startswith((   # one bank
                    "lessons_lib.physics", "lessons_lib.base", "lessons_lib.exercises.declaration",
                    "lessons_lib.exercises.common_slips")), f"{path.name} imports {name}"


@pytest.mark.parametrize("module", ["physics.magnets", "course.pack"])
def test_what_stands_below_or_beside_the_panels_brings_neither_widgets_nor_drawing(module):
    code = (f"import sys, lessons_lib.{module}; "
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
