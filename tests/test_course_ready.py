"""Is all ready for a class? A page beside its declaration, and each thing that would go wrong, in one command."""
import json
import os
import shutil

import pytest

from desk_buttons import press, said
from lessons_lib.__main__ import main
from lessons_lib.course.folder import Course
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.play import ready
from lessons_lib.course.ready import page_faults
from lessons_lib.desk import instructor_desk
from notebooks import NOTEBOOKS, lessons

CHECKS = ["course.toml", "class_list.csv", "model answers", "secret.txt", "folders", "given out", "dates", "tables",
          "pages"]


class Class:
    """A course of two benches on copies of lessons 00 and 01, which a test may change."""

    def __init__(self, home):
        self.folder, self.pages, self.answers = home / "course", home / "pages", home / "answers"
        new_course(self.folder, 2)
        for folder, top, names in ((self.pages, NOTEBOOKS, ("00_*", "01_*")),
                                   (self.answers, NOTEBOOKS.parent / "answers", ("lesson_00.py", "lesson_01.py"))):
            folder.mkdir()
            for path in (path for name in names for path in top.glob(name)):
                shutil.copy(path, folder)
        self.settings()

    def settings(self, more=""):
        (self.folder / "course.toml").write_text(f"answers = '{self.answers}'\nnotebooks = '{self.pages}'\n{more}",
                                                 encoding="utf-8")

    def page(self, old, new, begin="01"):
        """Put other words into a page; without new words the cell goes, without old ones a cell comes."""
        path, = self.pages.glob(f"{begin}_*")
        page = json.loads(path.read_bytes())
        found = [cell for cell in page["cells"] if old and old in "".join(cell["source"])]
        for cell in found:
            cell["source"] = "".join(cell["source"]).replace(old, new or "")
        if not old:
            page["cells"].append({"cell_type": "code", "id": "x", "metadata": {}, "outputs": [], "source": new,
                                  "execution_count": None})
        if not new:
            page["cells"].remove(*found)
        path.write_text(json.dumps(page), encoding="utf-8")

    def wrong(self, pages=False):
        """What is said to be wrong, without the words of every run."""
        *lines, last = ready(Course(self.folder), pages).lines
        return [line.removeprefix("wrong  ") for line in lines if not line.startswith("ok ")]


@pytest.fixture
def two(tmp_path):
    return Class(tmp_path)


def test_where_all_is_ready_every_line_says_ok(two, capsys):
    assert main(["play", str(two.folder)]) == 0
    *lines, last = capsys.readouterr().out.splitlines()
    assert [line.split(":")[0] for line in lines] == [f"ok     {name}" for name in CHECKS]
    assert last.startswith("2 lessons, ") and last.endswith("all of it right. Next: give out.")


# ---- a page beside its declaration -----------------------------------------------------------------------------------

@pytest.mark.parametrize("path", lessons(), ids=lambda path: path.stem)
def test_the_lessons_pages_ask_what_their_answers_declare(path, tmp_path):
    new_course(tmp_path, 1)
    course = Course(tmp_path)
    assert page_faults(course, course.lessons[path.name[:2]], path) == []


PAGE = "pages: 01_the_magnet_and_its_flux.ipynb: "


@pytest.mark.parametrize("old, new, fault", [
    ('sheet.answer("1.8", ..., "uWb")', None, "exercise 1.8 is declared, but not asked: every student would get 0 of 3 "
     'for it. Ask it on the page, or write "1.8" = 0 below [marks] in course.toml.'),
    ('sheet.answer("m2", "...")', None, "exercise m2 is declared, but not asked: it would stay empty for everybody."),
    ('sheet.answer("1.3", ..., "uWb")', '# sheet.answer("1.3", ..., "uWb")', "exercise 1.3 is declared, but not asked"),
    ("", 'sheet.answer("1.99", ..., "mm")', "it asks for 1.99, which lesson_01.py does not declare"),
    ("", 'values = sheet.given("1.99")', "it asks for 1.99, which lesson_01.py does not declare"),
    ('sheet.given("1.1")', None, 'the given values of 1.1 are not shown: put sheet.given("1.1") before its answer.'),
    ("- (a)", "- (A)", "option (a) of m1 is not on the page word for word"),
    ("- (b)", "- (e) none of them\n- (b)",
     "option (e) of m1 is on the page, but the model answers have no such letter."),
    ('"1.1", ..., "uWb"', '"1.1", ..., "mm"', '1.1 is asked in "mm" on the page, and in "uWb" in the model answers.'),
    ('open_sheet("01")', 'open_sheet("00")', 'it opens the sheet of lesson 00: write open_sheet("01").'),
    ('sheet = open_sheet("01")', 'from lessons_lib import presenting\npresenting()\nsheet = open_sheet("01")',
     "presenting() opens its panels without predictions: take it out.")])
def test_what_students_would_stumble_over_is_said(two, old, new, fault, capsys):
    two.page(old, new)
    assert any(line.startswith(PAGE + fault) for line in two.wrong())
    assert main(["play", str(two.folder)]) == 1
    error = capsys.readouterr().err
    assert "before you give anything out." in error.splitlines()[-1] and "ok     folders: " in error


def test_an_exercise_that_was_taken_out_on_purpose_is_no_fault(two):
    two.page('sheet.answer("1.3", ..., "uWb")', None)
    two.settings('[marks]\n"1.3" = 0\n')
    assert two.wrong() == []


def test_the_same_number_in_another_unit_is_no_fault(two):
    two.page('"1.1", ..., "uWb"', '"1.1", ..., "nWb"')
    assert two.wrong() == []


def test_files_that_a_page_reads_must_be_beside_it(tmp_path):
    new_course(tmp_path / "course", 1)
    course, path = Course(tmp_path / "course"), tmp_path / "08_design.ipynb"
    shutil.copy(lessons()[8], path)
    fault, = page_faults(course, course.lessons["08"], path)
    assert "exciter_response.csv" in fault and f"{tmp_path / 'data'} has not: copy that folder, too" in fault


def test_what_was_typed_is_told_and_does_no_harm_to_the_run(two):
    """Another bench's card and an answer on the first page; the page is run as students get it."""
    (two.answers / "lesson_01.py").unlink()
    two.page('use_card("...")', 'use_card("b004")', "00")
    two.page('sheet.answer("0.2", ..., "Hz")', 'sheet.answer("0.2", 3, "Hz")', "00")
    found = ready(Course(two.folder), pages=True)
    assert found.faults == 0 and any(
        line.endswith("; give-out takes out what was typed into them: 00 (a bench card, the answer to 0.2)")
        for line in found.lines)


# ---- what else a class needs -----------------------------------------------------------------------------------------

def break_it(two, harm):
    if harm == "secret":
        main(["give-out", str(two.folder), "--lessons", "1"])
        (two.folder / "secret.txt").write_text("x" * 40)
    elif harm == "class list":
        (two.folder / "class_list.csv").write_text("bench,name\nb010,Ada\n")
    elif harm == "settings":
        two.settings('[extensions]\n"B010" = 2\n')
    elif harm == "answers":
        (two.answers / "lesson_01.py").write_text("1 / 0")
    elif harm == "no returned":
        (two.folder / "returned").rmdir()
    elif harm == "no pages":
        two.pages.rename(two.pages.parent / "elsewhere")
    elif harm == "no instrument":
        two.settings("instrument = 'mine.toml'\n")
    elif harm == "late comer":
        main(["give-out", str(two.folder), "--lessons", "1"])
        with open(two.folder / "class_list.csv", "a", encoding="utf-8") as file:
            file.write("b777,late comer\n")
    elif harm == "other values":
        main(["give-out", str(two.folder), "--lessons", "1"])
        path = two.folder / "given_out/01.json"
        path.write_text(path.read_text().replace('"diameter"', '"width"'))
    elif harm == "past":
        two.settings('[deadlines]\n"01" = 2001-10-10T18:00:00\n')
    elif harm == "no deadline":
        two.settings("[late]\npercent_a_day = 10\n")
    elif harm == "extensions":
        (two.folder / "extensions.csv").write_text("bench,days\nb11,soon\n")


@pytest.mark.parametrize("harm, fault", [
    ("secret", "secret.txt: secret.txt is not the one that made this course"),
    ("class list", "class_list.csv: class_list.csv has the columns bench, name"),
    ("settings", 'model answers: extensions in course.toml must name a bench of the class; got "B010". Did you mean'),
    ("answers", "model answers: "), ("no returned", "folders: there is no folder "),
    ("no pages", "folders: there is no folder "), ("no instrument", "folders: "),
    ("late comer", "given out: nothing was given out to b777: run give-out again, and give them the new pack."),
    ("other values", "given out: Exercise 1."), ("past", "dates: the deadline of lesson 01 is past (2001-10-10), and"),
    ("no deadline", "dates: [late] takes marks off, but [deadlines] names no lesson"),
    ("extensions", "dates: extensions.csv, line 2: \"b11\" is not in class_list.csv")])
def test_each_thing_that_would_go_wrong_in_class_is_one_line(two, harm, fault, capsys):
    break_it(two, harm)
    capsys.readouterr()
    assert main(["play", str(two.folder)]) == 1
    lines = capsys.readouterr().err.splitlines()
    assert any(line.startswith(f"wrong  {fault}") for line in lines)
    assert any(line.startswith("ok ") for line in lines)
    stops = harm in ("secret", "class list", "settings", "answers")
    assert lines[-1].startswith("Put right what is wrong; the rest was not looked at.") == stops


def test_a_closed_folder_among_the_returns_is_named(two, monkeypatch):
    (two.folder / "returned/b010").mkdir()
    scandir = os.scandir

    def refusing(path="."):
        if str(path).endswith("b010"):
            raise PermissionError(13, "Permission denied", str(path))
        return scandir(path)

    monkeypatch.setattr(os, "scandir", refusing)
    closed = two.folder / "returned/b010"
    assert two.wrong() == [f"folders: {closed} cannot be opened: give yourself the right to read it."]


def test_dates_in_order_are_counted(two):
    two.settings('[deadlines]\n"01" = 2990-10-10T18:00:00\n[late]\npercent_a_day = 10\n[extensions]\n"b010" = 2\n')
    lines = ready(Course(two.folder)).lines
    assert "ok     dates: 1 deadline, 1 extension; late work loses 10 % a day" in lines


def test_the_desk_has_a_button_for_it(two):
    desk = instructor_desk(two.folder)
    press(desk.give_out, "Is all ready?")
    assert said(desk.give_out).endswith("all of it right. Next: give out.")
    assert desk.give_out.shown.value.count("<li>ok ") == len(CHECKS) and not (two.folder / "given_out").exists()
    two.page('sheet.given("1.1")', None)
    press(desk.give_out, "Is all ready?")
    assert "1 in all, before you give anything out." in said(desk.give_out)
    assert "<li>wrong  pages: 01_" in desk.give_out.shown.value
