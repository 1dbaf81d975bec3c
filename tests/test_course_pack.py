"""The pack: what is in it and what is not, who gets which numbers, and what a later pack leaves as it was."""
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
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

import lessons_lib
from exercises_following import GARDEN, write_answers
from invented_student import at_desk, unpack
from lessons_lib.__main__ import main
from lessons_lib.base.units import read_unit
from lessons_lib.course.folder import Course, bench_card
from lessons_lib.course.given_out import GivenOut
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.pack import _pack_name, files_below, give_out
from lessons_lib.course.pack_pages import pack_readme
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.exercises.sheet_file import read_sheet
from lessons_lib.exercises.verdicts import State

TOP = Path(__file__).resolve().parent.parent
SECRET = "a fixed secret of at least thirty-two characters\n"      # so that every run searches the same pack


def course_in(folder, students=12, answers=None):
    new_course(folder, students)
    (folder / "secret.txt").write_text(SECRET)
    if answers:
        (folder / "course.toml").write_text(f"title = 'autumn'\nanswers = '{answers}'\n", encoding="utf-8")
    return Course(folder)


@pytest.fixture(scope="module")
def autumn(tmp_path_factory):
    """A course that gave out lesson 01 of the real answers; its pack, and the pack unpacked."""
    folder = tmp_path_factory.mktemp("autumn")
    course = course_in(folder / "course")
    path, _, left_out = give_out(course, ["01"])
    assert left_out == []
    return course, path, unpack(path, folder / "student").parent


@pytest.fixture
def garden(tmp_path):
    """A small course on the made-up lesson."""
    return course_in(tmp_path / "course", answers=write_answers(tmp_path / "answers"))


def again(course):
    """The course folder as another process finds it."""
    return Course(course.folder)


def names(folder):
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def sheets_of(path):
    with zipfile.ZipFile(path) as file:
        return {name.partition("/sheets/")[2]: file.read(name) for name in file.namelist() if "/sheets/" in name}


# ---- what is in it ---------------------------------------------------------------------------------------------------

def test_the_pack_has_the_pages_the_library_and_a_sheet_for_every_bench(autumn):
    course, _, folder = autumn
    inside = names(folder)
    assert {"README.md", "requirements.txt", "pyproject.toml", "lessons_lib/__init__.py"} <= set(inside)
    assert [name for name in inside if name.endswith(".ipynb")] == [
        "notebooks/00_start_here.ipynb", "notebooks/01_the_magnet_and_its_flux.ipynb"]
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
    assert b"image/png" in (autumn[2] / "notebooks/01_the_magnet_and_its_flux.ipynb").read_bytes()


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
        imports = {number for node in ast.parse(source).body if isinstance(node, (ast.Import, ast.ImportFrom))
                   for number in range(node.lineno, node.end_lineno + 1)}
        for number, line in enumerate(source.splitlines(), start=1):
            pieces = [line.strip(), *re.findall(r'"([^"]*)"', line)]
            yield from (piece for piece in pieces if len(piece) > 40 and number not in imports
                        and " ".join(piece.strip('", ()').split()) not in said)


def student_texts(exercise):
    yield from getattr(exercise, "options", {}).values()
    yield from (getattr(exercise, name, "") for name in ("question", "seen_question"))
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


# ---- the same for everybody, the same again --------------------------------------------------------------------------

def test_the_same_course_gives_the_same_bytes(garden, tmp_path):
    first, _, _ = give_out(garden, ["01"])
    data = first.read_bytes()
    first.unlink()
    assert give_out(again(garden), [])[0] == first and first.read_bytes() == data
    shutil.rmtree(garden.folder / "given_out")
    assert give_out(again(garden), ["01"])[0].read_bytes() == data     # from the secret alone


def test_two_runs_of_give_out_give_the_same_bytes_in_every_file(garden, tmp_path):
    """On two copies of one folder, in two processes that hash texts otherwise; and again on the first."""
    def run(folder, seed):
        subprocess.run([sys.executable, "-m", "lessons_lib", "give-out", folder, "--lessons", "1"], check=True,
                       capture_output=True, env={**os.environ, "PYTHONHASHSEED": seed,
                                                 "PYTHONPATH": os.pathsep.join([str(TOP), str(TOP / "tests")])})
        return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}

    other = shutil.copytree(garden.folder, tmp_path / "other")
    found = run(garden.folder, "0")
    assert {"cards.csv", "cards.html", "given_out/01.json", "given_out/made_with.txt"} < set(found)
    assert any(name.startswith("packs/") for name in found)
    assert run(other, "1") == found == run(garden.folder, "2")


def test_a_bench_added_later_changes_no_other_sheet(garden):
    before = sheets_of(give_out(garden, ["01"])[0])
    with open(garden.folder / "class_list.csv", "a", encoding="utf-8") as file:
        file.write("b901,late comer\nb777,another\n")
    after = sheets_of(give_out(again(garden), [])[0])
    assert {name: after[name] for name in before} == before and "01/b777.json" in after
    assert "b777" not in again(garden).spares and len(after) == len(before) + 2 * 2     # b777, and one more spare


def test_a_second_give_out_says_what_is_new_and_who_needs_it(garden, capsys):
    def said(*words):
        assert main(["give-out", str(garden.folder), *words]) == 0
        return capsys.readouterr().out.partition("Next: ")[2].partition(" Put what")[0]

    def late(bench):
        with open(garden.folder / "class_list.csv", "a", encoding="utf-8") as file:
            file.write(f"{bench},late comer\n")

    assert said("--lessons", "0") == "print cards.html, and give everybody the zip."
    late("b777")
    assert said("--lessons", "1") == ("new since last time: lesson 1, b777. Print the card of b777. Give everybody the "
                                      "zip; cards given out before stay valid.")
    late("b901")
    assert said() == ("new since last time: no lesson, no bench. All may keep the pack they have, unless you changed "
                      "pages or exercises.")
    late("b778")
    assert said() == ("new since last time: b778. Print the card of b778. Those who are new need this zip; the others "
                      "may keep the pack they have, unless you changed pages or exercises.")


@pytest.mark.parametrize("ids, span", [(["00"], "lesson 0"), (["00", "01"], "lesson 1"),
                                       (["00", "01", "02"], "lessons 1 and 2"),
                                       (["00", "01", "02", "10"], "lessons 1, 2 and 10")])
def test_the_packs_readme_names_its_lessons(ids, span):
    lessons = [replace(GARDEN, id=lesson_id) for lesson_id in ids]
    pages = [Path(f"{lesson_id}.ipynb") for lesson_id in ids]
    assert f"the pages of {span} and the exercises" in pack_readme("autumn", lessons, pages)


def test_lessons_given_out_before_are_in_every_later_pack(garden):
    first, sheets, _ = give_out(garden, [])
    assert first.stem.startswith("pickup_lessons_00_") and sheets == 15
    later, sheets, _ = give_out(again(garden), ["01"])
    assert later.stem.startswith("pickup_lessons_00-01_") and sheets == 30


@pytest.mark.parametrize("ids, said", [(["00"], "00"), (["00", "01", "02"], "00-02"), (["00", "08"], "00+08"),
                                       (["00", "01", "02", "03", "04", "08", "09"], "00-04+08-09")])
def test_the_packs_name_says_which_lessons_are_in_it(ids, said):
    assert _pack_name(ids, {}).startswith(f"pickup_lessons_{said}_")


def test_cards_are_written_for_print_and_for_a_spreadsheet(garden):
    (garden.folder / "class_list.csv").write_text("bench,student\nb010,<i>Ada</i>\nb011,=1+1\n", encoding="utf-8")
    give_out(again(garden), ["01"])
    page = (garden.folder / "cards.html").read_text(encoding="utf-8")
    table = (garden.folder / "cards.csv").read_text(encoding="utf-8-sig")
    card = bench_card(garden.secret, "b010")
    assert f'use_card("{card}")' in page and "&lt;i&gt;Ada" in page and page.count("(spare)") == 3
    assert f"b010,{card},<i>Ada</i>" in table and "'=1+1" in table and "b903" in table


# ---- model answers that change after giving out ----------------------------------------------------------------------

ONE_MORE_SLIP = """
from dataclasses import replace
from lessons_lib.exercises.declaration import Slip
from exercises_following import GARDEN
pond = GARDEN["1.1"]
more = replace(pond, slips=(*pond.slips, {slip}))
bank = replace(GARDEN["1.6"], follows=more)
LESSON = replace(GARDEN, version={version}, exercises=tuple({{"1.1": more, "1.6": bank}}.get(one.id, one)
                                                     for one in GARDEN.exercises))
"""


HALF = "Slip('half', lambda diameter: diameter ** 2 * 0.7854 / 2, 'Only half of it?')"


def with_slip(garden, tmp_path, slip, version=1):
    write_answers(tmp_path / "answers", ONE_MORE_SLIP.format(slip=slip, version=version))
    return again(garden)


def test_a_slip_added_later_changes_nobodys_numbers(garden, tmp_path):
    before = sheets_of(give_out(garden, ["01"])[0])
    kept = (garden.folder / "given_out/01.json").read_bytes()
    # on many benches this number lies near the right answer: fresh draws would come out otherwise
    course = with_slip(garden, tmp_path, HALF, 2)
    path, _, left_out = give_out(course, [])
    after = sheets_of(path)
    assert (garden.folder / "given_out/01.json").read_bytes() == kept and b'"version": 1' in kept
    changed = 0
    for name in before:
        old, new = (read_sheet(sheets[name])["exercises"] for sheets in (before, after))
        assert {exercise_id: one.get("given") for exercise_id,
                one in old.items()} == {exercise_id: one.get("given") for exercise_id, one in new.items()}
        changed += old != new
    assert changed == 15 - len(left_out) > 0       # the new note is in every other sheet of lesson 01


def test_a_new_slip_that_collides_is_left_out_for_that_bench_and_listed(garden, tmp_path, capsys):
    give_out(garden, ["01"])
    course = with_slip(garden, tmp_path, HALF)
    near = {bench for bench, drawn in ((one, GivenOut(course, course.lessons["01"]).drawn(one)["1.1"])
                                       for one in [*course.students, *course.spares])
            if abs(np.log(50 / drawn.shown["share"])) < 2 * np.log(1.02)}      # half by mistake, about half in truth
    assert main(["give-out", str(course.folder)]) == 0
    listed = (course.folder / "given_out/left_out.csv").read_text(encoding="utf-8-sig").splitlines()
    assert near and listed == ["bench,exercise,slip", *(f"{bench},1.1,half" for bench in sorted(near))]
    assert f"{len(near)} slips are too near" in capsys.readouterr().out
    newest = max((course.folder / "packs").glob("*.zip"), key=lambda path: path.stat().st_mtime_ns)
    for name, data in sheets_of(newest).items():
        if name.startswith("01/"):
            notes = read_sheet(data)["exercises"]["1.1"]["slip_notes"]
            assert any("Only half of it?" in note for note in notes) == (name[3:7] not in near)


def test_a_slip_that_fails_for_kept_values_is_one_sentence(garden, tmp_path, capsys):
    give_out(garden, ["01"])
    course = with_slip(garden, tmp_path, "Slip('x', lambda diameter: 1 / 0 , 'Never by nothing?')")
    assert main(["give-out", str(course.folder)]) == 1
    assert "Lesson 01 cannot be made for b010: ZeroDivisionError" in capsys.readouterr().err


def test_an_exercise_that_asks_for_other_values_is_refused(garden, tmp_path, capsys):
    give_out(garden, ["01"])
    write_answers(tmp_path / "answers", """
from dataclasses import replace
from lessons_lib.exercises.declaration import Given, Twin
from exercises_lesson import LESSON, pond
wider = replace(pond, given={**pond.given, "depth": Given("depth", unit="mm", low=1, high=9, step=1)},
                twin=Twin({"diameter": 8.0, "share": 25, "depth": 3}, "{answer}"))
LESSON = replace(LESSON, exercises=(wider, *LESSON.exercises[3:]))
""")
    assert main(["give-out", str(garden.folder)]) == 1
    assert "Exercise 1.1 now asks for depth, which b010 was not given." in capsys.readouterr().err


@pytest.mark.parametrize("words, said", [
    (["--lessons", "2"], "There is no lesson 02 in"), (["--lessons", "one"], "names no lessons"),
    ([], "Nothing has been given out"),
])
def test_what_cannot_be_given_out_is_one_sentence(garden, words, said, capsys):
    assert main(["give-out", str(garden.folder), *words]) == 1
    assert said in capsys.readouterr().err and not (garden.folder / "packs").exists()


def test_a_lesson_without_page_is_one_sentence(garden, tmp_path):
    (tmp_path / "answers" / "lesson_77.py").write_text("from dataclasses import replace\n"
                                                       "from exercises_lesson import LESSON\n"
                                                       "LESSON = replace(LESSON, id='77')\n")
    with pytest.raises(ValueError, match=r"has 0 pages 77_\*.ipynb for lesson 77; one is needed"):
        give_out(again(garden), ["77"])


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


def test_a_renewed_pack_keeps_a_students_work(garden, tmp_path):
    """As the pack's README says: unpack anywhere, copy my_work over."""
    old = unpack(give_out(garden, ["01"])[0], tmp_path / "student")
    with at_desk(old, old / "my_work"):
        lessons_lib.use_card(bench_card(garden.secret, "b011"))
        sheet = lessons_lib.open_sheet("01")
        given = dict(sheet.given("1.1"))
        right = given["share"] / 100 * np.pi * given["diameter"] ** 2 / 4
        assert sheet.answer("1.1", round(right, 3)).state == State.RIGHT
        sheet.predict("p1", "a", 2, "wind")
        (old / "my_own_page.ipynb").write_text("{}")
    before = {path: path.read_bytes() for path in old.rglob("*") if path.is_file()}
    course = with_slip(garden, tmp_path, "Slip('x', lambda diameter: 7 * diameter ** 2, 'Seven times too much?')")
    new = unpack(give_out(course, [])[0], tmp_path / "student")
    assert new != old and {path: path.read_bytes() for path in before} == before
    shutil.copytree(old / "my_work", new / "my_work")
    with at_desk(new, new / "my_work"):
        sheet = lessons_lib.open_sheet("01")
        assert sheet.bench == "b011" and dict(sheet.given("1.1")) == given
        assert sheet.answer("1.1", ...).state == State.RIGHT and sheet.prediction("p1").made == ("a", 2, "wind")
        assert sheet.return_work().state == State.READY


def test_the_garden_is_what_these_tests_think(garden):
    assert [one.id for one in GARDEN.exercises if one.kind == "number"] == ["1.1", "1.2", "1.3", "1.6"]
    assert garden.settings.answers != TOP / "answers"
