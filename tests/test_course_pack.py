"""The pack: what is in it and what is not, and that it runs in the student's hands."""
import ast
import hashlib
import json
import os
import re
import shutil
import struct
import subprocess
import sys
import zipfile

import numpy as np
import pytest

from fixed_course import TOP, course_in
from invented_student import unpack
from lessons_lib.base.units import read_unit
from lessons_lib.course.folder import bench_card
from lessons_lib.course.given_out import GivenOut
from lessons_lib.course.pack import files_below, give_out
from lessons_lib.exercises.self_study import load_lessons


@pytest.fixture(scope="module")
def autumn(tmp_path_factory):
    """A course that gave out lesson 01 of the real answers; its pack, and the pack unpacked."""
    folder = tmp_path_factory.mktemp("autumn")
    course = course_in(folder / "course")
    path, _, left_out = give_out(course, ["01"])
    assert left_out == []
    return course, path, unpack(path, folder / "student").parent


def names(folder):
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


# ---- what is in it ---------------------------------------------------------------------------------------------------

def test_the_pack_has_the_pages_the_library_and_a_sheet_for_every_bench(autumn):
    course, _, folder = autumn
    inside = names(folder)
    assert {"README.md", "requirements.txt", "pyproject.toml", "lessons_lib/__init__.py"} <= set(inside)
    assert [name for name in inside if name.endswith(".ipynb")] == [
        "notebooks/00_start_here.ipynb", "notebooks/01_the_magnet_and_its_flux.ipynb", "notebooks/whole_pickup.ipynb",
        "notebooks/words_and_symbols.ipynb"]
    page = TOP / "lessons_lib/page"
    assert {f"lessons_lib/page/{one.name}" for one in page.iterdir() if one.is_file()} <= set(inside)
    assert [name for name in inside if "/sheets/" in name] == sorted(
        f"notebooks/sheets/{lesson}/{bench}.json" for lesson in ("00", "01")
        for bench in [*course.students, *course.spares])


def test_the_pack_has_nothing_that_is_the_instructors(autumn):
    _, _, folder = autumn
    for name in names(folder):
        parts = name.split("/")
        assert parts[0] in ("README.md", "requirements.txt", "pyproject.toml", "lessons_lib", "notebooks"), name
        assert not {"course", "desk", "handouts", "answers", "tests", "worked", "my_work",
                    "__main__.py"} & set(parts), name
        assert "instructor_desk" not in name
        assert not re.search(r"/b00\d\.json", name), name


def test_the_pack_has_the_invented_readings_and_the_guide_beside_the_pages(autumn):
    inside, stored = autumn[2] / "notebooks/data", TOP / "notebooks/data"
    assert {path.name: path.read_bytes() for path in inside.iterdir()} == {
        path.name: path.read_bytes() for path in stored.iterdir()}
    assert {"WORKBENCH.md", "README.md", "exciter_response.csv", "pluck_near.wav"} <= set(names(inside))


def test_one_folder_is_unpacked_and_the_start_line_is_the_readmes(autumn):
    _, path, folder = autumn
    with zipfile.ZipFile(path) as file:
        assert {name.split("/")[0] for name in file.namelist()} == {path.stem}
    text = (folder / "README.md").read_text(encoding="utf-8")
    line = re.search(r"<!-- start command -->\n```\n(.+)\n```", text)[1]
    assert line in (TOP / "README.md").read_text(encoding="utf-8")
    assert "-e ." in (folder / "requirements.txt").read_text(encoding="utf-8")
    assert all((folder / name).exists() for name in re.findall(r"`(notebooks/\d\d_[^`]+)`:", text))


def test_pages_come_without_another_benchs_numbers(autumn):
    for path in (autumn[2] / "notebooks").glob("*.ipynb"):
        for cell in json.loads(path.read_bytes())["cells"]:
            assert not ("sheet" in "".join(cell["source"]) and cell.get("outputs")), cell["source"]
    assert b"image/svg+xml" in (autumn[2] / "notebooks/01_the_magnet_and_its_flux.ipynb").read_bytes()


# ---- and what must not be in it --------------------------------------------------------------------------------------

def right_values(course):
    """Every right value of every bench, in the asked unit and in SI."""
    for lesson_id in ("00", "01"):
        given_out = GivenOut(course, course.lessons[lesson_id])
        for bench in [*course.students, *course.spares]:
            for one in given_out.drawn(bench).values():
                yield from (one.answer, one.answer * read_unit(one.exercise.unit).factor)


def answer_lines(course):
    """Lines of the model answers longer than 40 characters, without imports and without what students are to read."""
    said = "\x00".join(" ".join(text.split()) for lesson in load_lessons(course.settings.answers)
                       for exercise in lesson.exercises for text in student_texts(exercise))
    for path in course.settings.answers.glob("*.py"):
        source = path.read_text(encoding="utf-8")
        imports = {number for node in ast.walk(ast.parse(source)) if isinstance(node, (ast.Import, ast.ImportFrom))
                   for number in range(node.lineno, node.end_lineno + 1)}
        for number, line in enumerate(source.splitlines(), start=1):
            # an option's letter is before its text in a sheet as in the answers
            pieces = [re.sub(r'^"\w": ', "", line.strip()), *re.findall(r'"([^"]*)"', line)]
            yield from (piece for piece in pieces if len(piece) > 40 and number not in imports
                        and " ".join(piece.strip('", ()').split()) not in said)


def student_texts(exercise):
    yield from getattr(exercise, "options", {}).values()
    yield from (one.label for name in ("given", "derived", "symbols", "entries")
                for one in getattr(exercise, name, {}).values())
    yield from (getattr(exercise, name, "") for name in ("question", "seen_question", "because", "where", "sentence"))
    yield from getattr(exercise, "seen_options", {}).values()
    yield from getattr(exercise, "seen_notes", {}).values()
    notes = getattr(exercise, "notes", ())
    yield from notes.values() if isinstance(notes, dict) else notes
    yield from (slip.note for slip in getattr(exercise, "slips", ()))
    if hasattr(exercise, "twin"):
        yield exercise.twin.text
        # a twin's text is given out filled in: what stands between its fields
        yield from re.split(r"\{\w+\}", exercise.twin.text)


def leaks(folder, course):
    """What of the model answers is found in the files of a folder, each a sentence."""
    data = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    lines, values = list(answer_lines(course)), np.array(sorted(set(right_values(course))))
    # digits as far as eight, rounded or cut, the point anywhere
    digits = {f"{abs(value):.{places}e}".replace(".", "")[:8] for value in values for places in (7, 12)}
    assert len(lines) > 100 and len(values) > 100
    for path, content in data.items():
        text = content.decode("utf-8", "replace")
        yield from (f"{path.name}: {line}" for line in lines if line in text)
        numbers = (found.replace(".", "").lstrip("0")[:8] for found in re.findall(r"\d[\d.]{7,}", text))
        yield from (f"{path.name}: digits {number}" for number in numbers if number in digits)
        for start in range(8):
            cut = content[start:len(content) - (len(content) - start) % 8]
            for order in "<>":
                found = np.isin(np.frombuffer(cut, dtype=f"{order}f8"), values)
                yield from (f"{path.name}: a double" for _ in range(int(found.sum())))


def test_no_answer_is_in_the_pack(autumn):
    course, _, folder = autumn
    assert list(leaks(folder, course)) == []


@pytest.mark.parametrize("plant", ["digits", "digits in SI", "double", "big-endian double", "formula", "worked text",
                                   "a copy"])
def test_a_planted_answer_is_found(autumn, tmp_path, plant):
    course, _, _ = autumn
    one = GivenOut(course, course.lessons["01"]).drawn("b013")["1.4"]
    source = (course.settings.answers / "lesson_01.py").read_text(encoding="utf-8")
    formula = next(line for line in source.splitlines() if "answer=lambda diameter, field" in line)
    worked = next(line for line in source.splitlines() if "Divided by μ₀ = 4π" in line)
    planted = {"digits": f'{{"x": {one.answer:.7e}}}'.encode(), "digits in SI": f" {one.answer:.9f} ".encode(),
               "double": b"abc" + struct.pack("<d", one.answer) + b"d", "formula": formula.encode(),
               "big-endian double": b"a" + struct.pack(">d", one.answer), "worked text": worked.strip().encode(),
               "a copy": source.encode()}[plant]
    (tmp_path / "planted.bin").write_bytes(planted)
    assert list(leaks(tmp_path, course))


def test_what_systems_and_editors_hide_stays_out_of_the_pack(tmp_path):
    for name in ("a.csv", ".DS_Store", ".ipynb_checkpoints/a-checkpoint.csv", "deep/b.csv", "deep/._b.csv"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_bytes(b"x")
    assert list(files_below(tmp_path)) == ["a.csv", "deep/b.csv"]


def test_neither_a_code_nor_anything_made_from_it_is_in_the_pack(autumn, tmp_path, monkeypatch):
    course, path, folder = autumn
    given = [bench_card(course.secret, bench) for bench in [*course.students, *course.spares]]
    text = "".join(one.read_text(encoding="utf-8") for one in folder.rglob("*")
                   if one.suffix in (".py", ".md", ".json"))
    for card in given:
        for secret in (card, card[5:], card[5:10]):
            assert secret not in text
            for name in ("md5", "sha1", "sha256", "blake2b"):
                assert hashlib.new(name, secret.encode()).hexdigest()[:16] not in text
    # with other codes the pack is the same, byte for byte: nothing in it is made from them
    monkeypatch.setattr("lessons_lib.course.folder.bench_card", lambda secret, bench: f"{bench}-AAAAAA")
    other = course_in(tmp_path / "course")
    (other.folder / "course.toml").write_bytes((course.folder / "course.toml").read_bytes())
    assert give_out(other, ["01"])[0].read_bytes() == path.read_bytes()
    assert "b010-AAAAAA" in (other.folder / "cards.csv").read_text(encoding="utf-8")


# ---- in the student's hands ------------------------------------------------------------------------------------------

STUDENT = """
import sys
sys.path.insert(0, {folder!r})
sys.meta_path[:] = [one for one in sys.meta_path if "ditable" not in repr(one)]     # the checkout's own installation
import lessons_lib
from lessons_lib import open_sheet, use_card, progress
from lessons_lib.lessons.lesson_01 import panels as lesson_01
assert lessons_lib.__file__.startswith({folder!r}), lessons_lib.__file__
print(use_card({card!r}))
sheet = open_sheet("01")
print(sheet.answer("1.1", 3, "uWb").state, sheet.return_work(), progress())
try:
    import lessons_lib.course
except ModuleNotFoundError:
    print("no course")
"""


def test_the_packs_own_library_runs_its_sheets(autumn):
    course, _, folder = autumn
    code = STUDENT.format(folder=str(folder), card=bench_card(course.secret, "b012"))
    done = subprocess.run([sys.executable, "-c", code], cwd=folder / "notebooks", capture_output=True, text=True,
                          env={name: value for name, value in os.environ.items()
                               if name not in ("PYTHONPATH", "LESSONS_WORK_FOLDER")})
    shutil.rmtree(folder / "notebooks" / "my_work", ignore_errors=True)
    for cache in folder.rglob("__pycache__"):
        shutil.rmtree(cache)
    assert done.stderr == "" and "You are working at bench b012" in done.stdout and "no course" in done.stdout
    assert "return-b012-01.json is in the folder" in done.stdout and "The magnet and its flux" in done.stdout
