"""Handing in more never costs marks: ways in which it could, one by one."""
import shutil

import pytest

from exercises_all_kinds import ANSWERS
from lessons_lib.course.tables import read_table
from small_class import SmallClass, exercise, write_open_questions

LATE = """
deadlines = { "01" = 2030-03-01T18:00:00+01:00 }
late = { percent_a_day = 10, at_most = 50 }
"""
IN_TIME, TEN_DAYS_LATE = "2030-03-01T17:00:00+01:00", "2030-03-11T17:00:00+01:00"


@pytest.fixture(scope="module")
def every_kind_made(tmp_path_factory):
    return SmallClass(tmp_path_factory.mktemp("kinds"), ANSWERS).home


@pytest.fixture
def kinds(every_kind_made, tmp_path):
    """A `SmallClass` on a lesson with every kind of exercise."""
    shutil.copytree(every_kind_made, tmp_path, dirs_exist_ok=True)
    return SmallClass(tmp_path)


def hand_in(small, student, folder, received=None):
    """Hand in what there is now, kept beside what was handed in before; note when it was received."""
    path = small.give_back(student, folder)
    if received:
        table = small.folder / "received.csv"
        before = table.read_text() if table.exists() else "file,received\n"
        table.write_text(f"{before}{path.relative_to(small.folder / 'returned').as_posix()},{received}\n")


def cells(small):
    """The rows of open_questions.csv, without what belongs to the spreadsheet."""
    return read_table((small.folder / "marks/open_questions.csv").read_bytes())


def give_marks(small, *marks):
    """Type marks into the rows of open_questions.csv from above, as a marker does."""
    rows = cells(small)
    assert len(rows) == len(marks)
    head = ",".join(rows[0])
    lines = [",".join(f'"{cell}"' for cell in {**row, "marks": mark, "text": "…", "earlier texts": ""}.values())
             for row, mark in zip(rows, marks)]
    write_open_questions(small, "\n".join([head, *lines]))


# ---- the four ways ---------------------------------------------------------------------------------------------------

def test_a_later_wrong_value_takes_no_method_marks_away(small):
    student = small.student()
    pond, right = exercise(student, "1.1"), student.drawn(exercise(student, "1.1")).answer
    student.wrong(pond, 1.15)
    student.type("1.6", float(f"{1.15 * right / student.sheet.given('1.6')['depth']:.4g}"))
    hand_in(small, student, "first")
    small.mark()
    assert small.rows["b010"]["1.6"] == "3"
    student.wrong(pond, 0.9)
    hand_in(small, student, "second")
    assert small.mark().moved == [] and small.rows["b010"]["1.6"] == "3"


def test_another_wrong_try_takes_no_marks_for_a_slip_away(small):
    student = small.student()
    small.settings('slip_marks = { "1.1" = { "diameter for radius" = 0.5 } }')
    student.type("1.1", float(f"{4 * student.drawn(exercise(student, '1.1')).answer:.4g}"))
    student.wrong(exercise(student, "1.1"), 1.2)
    hand_in(small, student, "first")
    small.mark()
    assert small.rows["b010"]["1.1"] == "0.5"
    assert "Slip" not in small.text("notes/b010.html") and "Not yet." in small.text("notes/b010.html")


def test_a_worse_design_takes_no_marks_of_a_better_away(kinds):
    student = kinds.student()
    bounds = {one["quantity"]: one["least"] or one["most"] for one in student.sheet.limits("1.9")}
    posts = round(bounds["area"] / 1.4)
    student.type("1.9", {"posts": posts, "board": 3, "height": 1.5})      # all but the height
    hand_in(kinds, student, "first")
    kinds.mark()
    assert kinds.rows["b010"]["1.9"] == "2"
    student.type("1.9", {"posts": 2, "board": 1, "height": 1.5})
    hand_in(kinds, student, "second")
    assert kinds.mark().moved == [] and kinds.rows["b010"]["1.9"] == "2"


def test_oops_does_not_replace_a_text(small):
    student, text = small.student(), "A spade, because the soil is heavy. " * 4
    student.type("1.5", text)
    hand_in(small, student, "first")
    student.type("1.5", "oops")
    hand_in(small, student, "second")
    small.mark()
    row, = cells(small)
    assert row["text"] == text.strip()
