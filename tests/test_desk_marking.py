"""The instructor's desk: what comes in, is marked, read, and listed by name; it asks before it writes over."""
import re

import pytest

from desk_buttons import press, said, upload
from lessons_lib.course.returned import drop_in
from lessons_lib.desk import instructor_desk
from lessons_lib.exercises.returns import LARGEST
from small_class import SmallClass


@pytest.fixture
def desk(small):
    return instructor_desk(small.folder)


# ---- 3. returns ------------------------------------------------------------------------------------------------------

def test_dropped_files_are_kept_and_none_is_written_over(desk, small):
    student = small.student()
    student.all_right()
    content = small.give_back(student, "elsewhere").read_bytes()
    upload(desk.returns, ("return.json", content), ("return.json", b"{}"))
    upload(desk.returns, ("return.json", b"{}"), ("..\\..\\secret.txt", b"x"))
    kept = {path.name: path.read_bytes() for path in (small.folder / "returned").glob("*.*")}
    assert kept == {"return.json": content, "return 2.json": b"{}", "secret.txt": b"x"}
    assert "New: 1 of 2 files" in said(desk.returns) and "return 2.json, was there already" in desk.returns.shown.value
    assert desk.returns.upload.value == () and "Files in returned: 4." in said(desk.choose)


def test_a_return_that_a_mail_program_renamed_can_be_chosen_and_what_is_none_is_told(desk, small):
    assert ".txt" in desk.returns.upload.accept.split(",")
    upload(desk.returns, ("return-b010-01.json.txt", small.give_back(small.student(), "elsewhere").read_bytes()),
           ("notes.txt", b"buy milk"))
    assert "work from bench b010 on lesson 01" in desk.returns.shown.value
    assert "cannot be read: " in desk.returns.shown.value


@pytest.mark.parametrize("name, kept", [
    ("a/b/c.json", "c.json"), ("a:b*.json", "a_b_.json"), ("x" * 300, "x" * 120), (".hidden.json", "hidden.json"),
    ("NUL.json", "_NUL.json"), ("con", "_con"), ("contact.json. ", "contact.json"),
    ("y" * 20 + " ." + "x" * 118, "x" * 118)])
def test_names_of_files_that_came_in(tmp_path, name, kept):
    assert drop_in(tmp_path / "returned", name, b"1")[0] == tmp_path / "returned" / kept


@pytest.mark.parametrize("name, content, words", [
    ("...", b"1", "is not a name for a file"), ("a.json", bytes(LARGEST + 1), "is larger than")])
def test_files_that_are_not_kept(tmp_path, name, content, words):
    with pytest.raises(ValueError, match=words):
        drop_in(tmp_path / "returned", name, content)
    assert not (tmp_path / "returned").exists()


# ---- 4. mark, 5. read ------------------------------------------------------------------------------------------------

def test_marking_shows_what_came_and_asks_before_marking_again(desk, small):
    student = small.student()
    student.all_right()
    upload(desk.returns, ("a.json", small.give_back(student).read_bytes()), ("b.json", b"<script>"))
    press(desk.mark, "Mark")
    assert "Work from 1 of 3 benches is marked." in said(desk.mark) and "run" not in said(desk.mark)
    for words in ("<td class=answer>1 of 3</td><td class=answer>b011, b012</td>", "b.json", "not returned"):
        assert words in desk.mark.shown.value
    marks = small.folder / "marks/marks.csv"
    marks.write_text("mine")
    press(desk.mark, "Mark")
    press(desk.mark, "No")
    assert marks.read_text() == "mine"
    press(desk.mark, "Mark")
    press(desk.mark, "Yes")
    assert "b010" in marks.read_text(encoding="utf-8-sig") and "Marked: yes." in said(desk.choose)


def test_pages_are_shown_closed_off_and_their_place_is_said(desk, small):
    press(desk.read, "Class report")
    assert "class_report.html yet. Mark first." in said(desk.read)
    desk.read.bench.value = "b011"
    press(desk.read, "Worked")
    assert said(desk.read).endswith("worked/b011.html") and "Worked answers for b011" in desk.read.shown.value
    assert re.match('<iframe title="b011" sandbox srcdoc="&lt;!DOCTYPE html&gt;', desk.read.shown.value)
    (small.folder / "worked/b011.html").write_text("mine")
    press(desk.read, "Worked")
    press(desk.read, "Show it")
    assert 'srcdoc="mine"' in desk.read.shown.value
    press(desk.read, "Worked")
    press(desk.read, "Write it again")
    assert 'srcdoc="mine"' not in desk.read.shown.value
    press(desk.read, "Key")
    assert "Key: Course" in desk.read.shown.value


# ---- 6. names and sections -------------------------------------------------------------------------------------------

@pytest.fixture
def named(desk, small):
    """b010 has handed in and is marked; the list has names."""
    student = small.student()
    student.all_right()
    small.give_back(student)
    (small.folder / "class_list.csv").write_text("bench,student,number\nb010,Ada,17\nb011,<b>Bo</b>,18\n")
    press(desk.mark, "Mark")
    return desk


def test_who_is_missing_is_said_by_name(named):
    press(named.named, "Who has not handed in")
    assert said(named.named).startswith("Lesson 01, The garden: 1 of 2 have handed in. Missing: <b>Bo</b> (b011).")


def test_the_table_and_the_pages_by_name_ask_before_they_are_written_again(named, small):
    folder = small.folder / "with_names"
    for name, button, words in (("marks.csv", "Table", "2 students, with names"),
                                ("letters.csv", "Pages", "1 page, one")):
        press(named.named, button)
        assert words in said(named.named)
        (folder / name).write_text("mine")
        press(named.named, button)
        press(named.named, "No")
        assert (folder / name).read_text() == "mine" and said(named.named) == "Nothing was changed."
        press(named.named, button)
        press(named.named, "Yes")
        assert "Ada" in (folder / name).read_text(encoding="utf-8-sig")
    named.named.columns.value, named.named.by.value = "number, total", "number"
    for button in ("Table", "Pages"):
        press(named.named, button)
        press(named.named, "Yes")
    assert (folder / "marks.csv").read_text(encoding="utf-8-sig") == "number,total (of 11)\n17,8\n18,\n"
    assert [path.name for path in (folder / "notes").iterdir()] == ["17.html"]
    named.named.columns.value = "grade"
    press(named.named, "Table")
    press(named.named, "Yes")
    assert 'There is no column "grade"' in said(named.named)


def test_sections_together(named, small):
    press(named.named, "One report")
    assert "needs at least two different course folders" in said(named.named)
    other = SmallClass(small.home / "b")
    named.named.others.value = f" {other.folder} ;"
    press(named.named, "One report")
    assert "work from 1 of 2 benches was marked." in said(named.named)
    assert "joint_report.html: the report of all together." in said(named.named)
    press(named.named, "Table")
    assert "joint_marks.csv: 5 students" in said(named.named)


def test_received_csv_is_begun_and_added_to(named, small):
    press(named.returns, "Begin or continue")
    assert "1 line was added" in said(named.returns) and (small.folder / "received.csv").exists()
    press(named.returns, "Begin or continue")
    assert "Nothing was changed." in said(named.returns)


def test_own_times_are_taken_over_in_the_lines_that_have_none(named, small):
    press(named.returns, "Begin or continue")
    press(named.returns, "Take over")
    assert "0 lines were added, and 1 that had no time got the file's own." in said(named.returns)
    press(named.returns, "Take over")
    assert "0 lines were added, and 0 that had no time" in said(named.returns)
