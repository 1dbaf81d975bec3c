"""The instructor's desk without a browser: its buttons do what the commands do, ask first, and never fall silent."""
import re
import shutil
from datetime import datetime
from html import unescape

import pytest

from lessons_lib.course.folder import Course
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.returned import drop_in
from lessons_lib.course.telling import counted, watched
from lessons_lib.desk import instructor_desk, steps
from lessons_lib.desk.standing import look
from lessons_lib.exercises.returns import LARGEST
from notebooks import LIVE, pages, read, tidy
from small_class import SmallClass


def press(step, words):
    """Press the button of the step whose description begins with the words."""
    next(one for one in step.buttons() if one.description.startswith(words)).click()


def said(step):
    return unescape(re.sub("<[^>]+>", "", step.status.value))


def upload(step, *files):
    """What the browser hands over: (name, bytes)."""
    step.upload.value = tuple({"name": name, "type": "", "size": len(content), "content": memoryview(content),
                               "last_modified": datetime(2030, 3, 1)} for name, content in files)


@pytest.fixture
def desk(small):
    return instructor_desk(small.folder)


# ---- the page --------------------------------------------------------------------------------------------------------

def test_the_desks_page_is_stored_tidy_and_without_output():
    stored = read(pages()[-1])
    assert tidy(read(pages()[-1])) == stored, "run tests/store_notebooks.py"
    code, = (cell for cell in stored.cells if cell.cell_type == "code")
    assert code.metadata.tags == [LIVE] and code.outputs == [] and "instructor_desk()" in code.source


def test_showing_the_desk_does_nothing(small):
    before = {path: path.stat().st_mtime_ns for path in small.folder.rglob("*")}
    instructor_desk(small.folder)
    assert {path: path.stat().st_mtime_ns for path in small.folder.rglob("*")} == before


def test_whoever_reads_the_words_of_a_step_may_press(desk, small):
    """Buttons are held while "Working." stands there and nowhere else; the bar is gone by then."""
    seen = []

    def note(change):
        held = [one.description for step in desk.steps for one in step.buttons() if one.disabled]
        seen.append((unescape(re.sub("<[^>]+>", "", change.new)), held, desk.mark.bar.view.value))

    for step in desk.steps:
        step.status.observe(note, "value")
    press(desk.choose, "Make a new course")
    press(desk.give_out, "Give out")
    upload(desk.returns, (small.give_back(small.student()).name, b"{}"))
    press(desk.mark, "Mark")
    press(desk.mark, "Mark")
    press(desk.mark, "Yes, mark again")
    for words in ("Class report", "Bench cards", "Worked answers", "Key"):
        press(desk.read, words)
    assert [held != [] for text, held, _ in seen] == [text == "Working." for text, _, _ in seen]
    assert not any(bar for *_, bar in seen) and len({text for text, *_ in seen}) > 9


# ---- 1. the folder ---------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("typed, words", [
    ("", "Type where the course folder is"), ("{}/none/yet", "There is no folder"), ("{}", "it is not a course"),
    ("{}/file", "is a file. A course is a folder."), ("\0", "That cannot be used"), ("x" * 5000, "That cannot be used"),
    ("~nobody-is-called-so/x", "That cannot be used")])
def test_each_path_that_is_no_course_is_told_in_one_sentence(tmp_path, typed, words):
    (tmp_path / "file").touch()
    desk = instructor_desk()
    desk.choose.path.value = typed.format(tmp_path)
    assert words in said(desk.choose) and desk.course() is None
    for step, button, answer in ((desk.give_out, "Give out", "Choose a course folder first."),
                                 (desk.mark, "Mark", "Choose a course folder first."),
                                 (desk.read, "Worked", "Choose a course folder first.")):
        press(step, button)
        assert said(step) == answer
    assert sorted(path.name for path in tmp_path.iterdir()) == ["file"]


def test_a_course_says_how_it_stands(small):
    words = "3 benches. Given out: lessons 00, 01. Files in returned: 0. Marked: not yet."
    assert words in look(str(small.folder)).says
    small.settings("titel = 5")
    assert look(str(small.folder)).says.startswith("That cannot be used") and not look(str(small.folder)).is_course


def test_a_new_course_is_made_and_nothing_is_written_over(tmp_path):
    desk = instructor_desk(tmp_path / "autumn")
    desk.choose.benches.value = 5
    press(desk.choose, "Make")
    assert len(Course(tmp_path / "autumn").students) == 5 and "Next: fill in class_list.csv" in said(desk.choose)
    assert [box.description[:2] for box in desk.give_out.boxes.children][:2] == ["01", "02"]
    secret = (tmp_path / "autumn/secret.txt").read_text()
    press(desk.choose, "Make")
    assert "Nothing was changed." in said(desk.choose) and (tmp_path / "autumn/secret.txt").read_text() == secret


def test_a_checkout_is_refused(tmp_path):
    (tmp_path / ".git").mkdir()
    desk = instructor_desk(tmp_path / "autumn")
    press(desk.choose, "Make")
    assert "is in the git checkout" in said(desk.choose) and not (tmp_path / "autumn").exists()


# ---- 2. give out -----------------------------------------------------------------------------------------------------

def test_giving_out_asks_before_it_writes_the_cards_anew(desk, small):
    box, = desk.give_out.boxes.children
    assert box.disabled and box.value and "(given out before)" in box.description
    (small.folder / "cards.html").write_text("mine")
    press(desk.give_out, "Give out")
    assert "will be written again" in said(desk.give_out) and (small.folder / "cards.html").read_text() == "mine"
    press(desk.give_out, "No")
    assert said(desk.give_out) == "Nothing was changed." and (small.folder / "cards.html").read_text() == "mine"
    press(desk.give_out, "Give out")
    press(desk.give_out, "Yes")
    assert "the same pack for everybody" in said(desk.give_out) and "python" not in said(desk.give_out)
    assert "b010" in (small.folder / "cards.html").read_text()


def test_nothing_chosen_is_told(tmp_path, small):
    new_course(tmp_path / "spring", 1)
    shutil.copy(small.folder / "course.toml", tmp_path / "spring")
    desk = instructor_desk(tmp_path / "spring")
    press(desk.give_out, "Give out")
    assert said(desk.give_out) == "Choose at least one lesson." and not (tmp_path / "spring/packs").exists()


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
    ("a/b/c.json", "c.json"), ("a:b*.json", "a_b_.json"), ("x" * 300, "x" * 120), (".hidden.json", "hidden.json")])
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


def test_a_course_with_the_settings_of_another(tmp_path, small):
    small.settings('title = "Coils"\n[extensions]\nb010 = 1')
    desk = instructor_desk(tmp_path / "next")
    desk.choose.like.value, desk.choose.benches.value = str(small.folder), 5
    press(desk.choose, "Make a new course")
    assert "still read the title “Coils”" in said(desk.choose) and "extensions (1)" in said(desk.choose)
    assert len(Course(tmp_path / "next").students) == 5
    press(desk.choose, "Make a new course")
    assert "is a course already" in said(desk.choose)


# ---- what goes wrong -------------------------------------------------------------------------------------------------

def test_busy_and_open_files_come_through_as_sentences(desk, small, monkeypatch):
    with small.course.busy():
        press(desk.mark, "Mark")
        assert "is busy: another command is working there." in said(desk.mark)

    def held_by_a_spreadsheet(course):
        raise PermissionError(13, "Permission denied", "marks.csv")
    monkeypatch.setattr(steps, "mark", held_by_a_spreadsheet)
    press(desk.mark, "Mark")
    assert said(desk.mark) == ("marks.csv cannot be written or read. Is it open in another program? Close it there and "
                               "run this again.")


def test_a_fault_of_the_program_is_told_and_frees_the_buttons(desk, monkeypatch):
    def broken(course):
        assert all(one.disabled for one in desk.mark.buttons())
        raise KeyError("b017")
    monkeypatch.setattr(steps, "mark", broken)
    press(desk.mark, "Mark")
    assert "The program made a mistake here (KeyError: 'b017')" in said(desk.mark)
    assert not any(one.disabled for step in desk.steps for one in step.buttons())


def test_the_bar_follows_the_work_and_is_gone_afterwards(desk, small, monkeypatch):
    seen = []
    desk.mark.bar.view.observe(lambda change: seen.append(change.new), "value")
    press(desk.mark, "Mark")
    assert any('<progress aria-label="benches marked" max="3" value="3">' in bar for bar in seen) and seen[-1] == ""


def test_who_watches_is_told_and_then_no_longer():
    told = []
    with watched(lambda *news: told.append(news)):
        list(counted("ab", "letters"))
    list(counted("ab", "letters"))
    assert told == [("letters", 1, 2), ("letters", 2, 2)]
