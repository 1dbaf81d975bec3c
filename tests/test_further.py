"""What is further: core alone makes the full mark, and everything that shows marks says which is which."""
import json
import re
from dataclasses import replace

import pytest

from exercises_further import FURTHER, FURTHER_ANSWERS, PART_FURTHER
from exercises_lesson import gate
from handout_reader import Reader
from lessons_lib.__main__ import main
from lessons_lib.course.pack_pages import pack_readme
from lessons_lib.course.ready import page_faults
from lessons_lib.course.settings import Settings
from lessons_lib.course.teach_again import easy, teaching_points
from lessons_lib.exercises.declaration import Lesson
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.sheet_file import read_sheet, sheet_bytes
from small_class import SmallClass
from test_class_report import rows
from test_class_teach_again import garden_tally


@pytest.fixture
def small(tmp_path):
    return SmallClass(tmp_path, FURTHER_ANSWERS)


def answered(small, *ids, bench="b010"):
    """A bench that has these exercises right and handed in."""
    student = small.student(bench)
    for exercise_id in ids:
        student.right(PART_FURTHER[exercise_id])
    return student, small.give_back(student)


CORE = ("1.1", "1.3", "1.4", "1.6")     # 2 + 1 + 1 + 3 marks; further are 1.2 with 1 and 1.5 with 3


# ---- marks -----------------------------------------------------------------------------------------------------------

def test_core_alone_makes_the_full_mark(small):
    answered(small, *CORE)
    small.mark()
    assert small.rows["b010"]["total"] == small.rows["b010"]["lesson 01"] == "7"
    assert "total (of 7),lesson 01 (of 7)" in small.text("marks.csv")
    assert not {"1.2", "1.5"} & set(small.rows["b010"]) and "1.5" not in small.text("open_questions.csv")
    assert "7 of 7 marks." in small.text("notes/b010.html") and "Further, beside" not in small.text("notes/b010.html")


def test_further_work_is_on_the_page_of_notes_without_marks(small):
    student, _ = answered(small, *CORE, "1.2", "1.5")
    small.mark()
    assert "<p>Further, beside the marks: 1.2 right; 1.5 handed in.</p>" in small.text("notes/b010.html")
    student = small.student("b011")
    student.type("1.2", student.drawn(PART_FURTHER["1.2"]).own_slips[0][1], "m/s")
    small.give_back(student)
    small.mark()
    assert "<p>Further, beside the marks: 1.2 not yet.</p>" in small.text("notes/b011.html")
    assert small.rows["b011"]["total"] == "0"


@pytest.mark.parametrize("settings, most", [
    ("further_counts = true", 11), ("further_counts = false", 7), ('[marks]\n"1.2" = 5', 12),
    ('further_counts = true\n[marks]\n"1.5" = 0', 8)])
def test_the_course_may_say_otherwise(small, settings, most):
    answered(small, *CORE, "1.2")
    small.settings(settings)
    small.mark()
    assert f"total (of {most})" in small.text("marks.csv")
    assert small.rows["b010"]["total"] == {11: "8", 7: "7", 12: "12", 8: "8"}[most]
    assert ("<td class=answer>1.2 (further)</td>" in small.text("notes/b010.html")) == (most != 7)


def test_marks_that_move_with_the_setting_have_their_reason(small):
    answered(small, *CORE, "1.2")
    small.settings("further_counts = true")
    small.mark()
    small.settings()
    assert small.mark().moved == ["b010 1.2: 1 (right), now nothing; it carries no marks any more.",
                                  "b010 1.5: 0 (not answered), now nothing; it carries no marks any more."]


def test_what_is_neither_true_nor_false_is_one_sentence(small):
    small.settings('further_counts = "yes"')
    with pytest.raises(ValueError, match="further_counts must be true or false; got 'yes'"):
        small.course.settings


def test_core_follows_nothing_further():
    pond, bank = PART_FURTHER["1.1"], PART_FURTHER["1.6"]
    further = replace(pond, further=True)
    with pytest.raises(ValueError, match="what the core exercise 1.6 follows must be core, too; got '1.1'"):
        Lesson(id="01", title="x", version=1, exercises=(further, replace(bank, follows=further)))
    Lesson(id="01", title="x", version=1, exercises=(pond, replace(bank, further=True)))


# ---- the student's side ----------------------------------------------------------------------------------------------

def test_a_sheet_says_what_is_further_and_one_without_says_nothing():
    sheet = read_sheet(sheet_bytes(make_sheet(PART_FURTHER, secret="test", bench="b017")))
    assert set(sheet["further"]) == set(FURTHER)
    assert "further" not in make_sheet(Lesson(id="01", title="x", version=1, exercises=(gate,)), secret="x", bench="b0")


def test_progress_and_return_count_core_and_further_apart(small):
    student, _ = answered(small, "1.1", "1.2")
    with student._desk():
        shown, said = repr(student.sheet.progress()), student.sheet.return_work().text
    assert shown.splitlines()[0] == "Lesson 01, The garden, bench b010: core 1 of 5 done, further 1 of 3"
    assert re.search(r"^1\.2 \(further\) +right +1$", shown, re.MULTILINE)
    assert re.search(r"^1\.1 +right", shown, re.MULTILINE)
    assert "holds 1 of 5 core answers and predictions, and 1 of 3 further ones. Missing: m1, 1.3, 1.4, 1.6.\n" in said
    answered(small, *CORE, bench="b011")
    student = small.student("b011")
    student.type("m1", "b")
    student.type("1.2", 99, "m/s")
    with student._desk():
        said = student.sheet.return_work().text
    assert "and 1 of 3 further ones. Nothing of the core is missing. Not right yet: 1.2 (further).\n" in said


def test_the_packs_readme_says_what_carries_marks():
    def said(**settings):
        return pack_readme(Settings(title="x", **settings), [PART_FURTHER, PART_FURTHER], [small_page, small_page])

    small_page = type("Page", (), {"name": "01_garden.ipynb"})
    assert "It carries no marks: the core alone makes the full mark." in said()
    assert "time. It carries marks, too." in said(further_counts=True)
    assert "Of it, 1.5, 1.5 carry marks, too." in said(marks={"1.5": 2})


def test_a_heading_that_says_otherwise_is_named_before_the_class(small, tmp_path):
    page = tmp_path / "01_garden.ipynb"
    heads = {"1.1": "", "1.2": " (core)", "1.3": " (further)", "1.4": " (core)", "1.5": " (further)"}
    cells = [{"cell_type": "markdown", "metadata": {}, "source": f"### Exercise {one}{word}"}
             for one, word in heads.items()]
    page.write_text(json.dumps({"cells": cells, "metadata": {}}), encoding="utf-8")
    said = [fault for fault in page_faults(small.course, PART_FURTHER, page) if "heading" in fault]
    assert said == [f"01_garden.ipynb: exercise {name} is {word} in the model answers, and its heading says otherwise: "
                    f"write ### Exercise {name} ({word})." for name, word in (("1.2", "further"), ("1.3", "core"))]


# ---- the instructor's side -------------------------------------------------------------------------------------------

def test_worked_answers_and_key_have_the_word(small):
    for command in (["worked-answers", str(small.folder), "--bench", "b010"], ["key", str(small.folder)]):
        assert main(command) == 0
    worked = (small.folder / "worked/b010.html").read_text(encoding="utf-8")
    heads = [one["text"] for one in Reader(worked).of(tag="h3")]
    assert "1.1, 2 marks" in heads and "1.2 (further)" in heads and "1.5 (further)" in heads
    key = (small.folder / "key.html").read_text(encoding="utf-8")
    assert "1.2 m/s<br>further</th>" in key and "1.1 mm²</th>" in key


def test_a_further_exercise_that_nobody_touched_is_not_missing():
    tally = garden_tally(**{"1.1": {"answered": 12, "first": 12, "right": 12},
                            "1.2": {"answered": 12, "first": 12, "right": 12}})
    tally.lesson = PART_FURTHER
    assert [one.about for one in teaching_points(tally, [])] == ["1.1"] and "1.2" in easy(tally)
    tally.exercises["1.2"].right = tally.exercises["1.2"].first = 2        # heavier, but behind the core
    assert [one.about for one in teaching_points(tally, [])] == ["1.1", "1.2"]


def test_what_is_further_ranks_nobody(small):
    answered(small, "1.1", "1.2")
    small.mark()
    page = small.text("class_report.html")
    assert "<td class=id>1.2 (further)</td>" in page and "<td class=id>1.5 (further)</td>" in page
    assert "<td class=id>1.1</td>" in page
    student, _ = answered(small, "1.5", bench="b011")
    small.mark()
    assert rows(small.text("class_report.html"), "Open questions")[0][2:] == ["1 of 2", "0", "0", "0", ""]
    small.settings("further_counts = true")
    small.mark()
    assert rows(small.text("class_report.html"), "Open questions")[0][2:] == ["1 of 2", "0", "0", "1", ""]
    assert type(garden_tally())(PART_FURTHER).scored == ["1.1", "1.3", "1.4", "1.6"]
