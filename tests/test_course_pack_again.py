"""Packs again: the same course gives the same bytes, and a later pack leaves as it was what was given out before."""
import os
import shutil
import subprocess
import sys
import zipfile
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

import lessons_lib
from exercises_following import GARDEN, write_answers
from fixed_course import TOP, course_in
from invented_student import at_desk, unpack
from lessons_lib.__main__ import main
from lessons_lib.course.folder import Course, bench_card
from lessons_lib.course.given_out import GivenOut
from lessons_lib.course.pack import _pack_name, give_out
from lessons_lib.course.pack_pages import pack_readme
from lessons_lib.course.settings import Settings
from lessons_lib.exercises.sheet_file import read_sheet
from lessons_lib.exercises.verdicts import State


@pytest.fixture
def garden(tmp_path):
    """A small course on the made-up lesson."""
    return course_in(tmp_path / "course", answers=write_answers(tmp_path / "answers"))


def again(course):
    """The course folder as another process finds it."""
    return Course(course.folder)


def sheets_of(path):
    with zipfile.ZipFile(path) as file:
        return {name.partition("/sheets/")[2]: file.read(name) for name in file.namelist() if "/sheets/" in name}


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
    assert f"the pages of {span} and the exercises" in pack_readme(Settings(title="autumn"), lessons, pages)


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
