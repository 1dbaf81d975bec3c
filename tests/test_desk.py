"""The instructor's desk without a browser: its buttons do what the commands do, ask first, and never fall silent."""
import re
import shutil
from html import unescape

import pytest

from desk_buttons import press, said, upload
from lessons_lib.course.folder import Course
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.telling import counted, watched
from lessons_lib.desk import instructor_desk, steps
from lessons_lib.desk.standing import look
from notebooks import LIVE, pages, read, tidy


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


def test_a_course_with_the_settings_of_another(tmp_path, small):
    small.settings('title = "Coils"\n[extensions]\nb010 = 1')
    desk = instructor_desk(tmp_path / "next")
    desk.choose.like.value, desk.choose.benches.value = str(small.folder), 5
    press(desk.choose, "Make a new course")
    assert "still read the title “Coils”" in said(desk.choose) and "extensions (1)" in said(desk.choose)
    assert len(Course(tmp_path / "next").students) == 5
    press(desk.choose, "Make a new course")
    assert "is a course already" in said(desk.choose)


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


def test_a_yes_is_for_the_folder_that_was_asked_about(desk, small, tmp_path):
    new_course(tmp_path / "spring", 1)
    shutil.copy(small.folder / "course.toml", tmp_path / "spring")
    (small.folder / "cards.html").write_text("mine")
    press(desk.give_out, "Give out")
    desk.choose.path.value = str(tmp_path / "spring")
    press(desk.give_out, "Yes")
    assert "b010" in (small.folder / "cards.html").read_text() and not (tmp_path / "spring" / "packs").exists()
    box, = desk.give_out.boxes.children
    assert not box.disabled


def test_nothing_chosen_is_told(tmp_path, small):
    new_course(tmp_path / "spring", 1)
    shutil.copy(small.folder / "course.toml", tmp_path / "spring")
    desk = instructor_desk(tmp_path / "spring")
    press(desk.give_out, "Give out")
    assert said(desk.give_out) == "Choose at least one lesson." and not (tmp_path / "spring/packs").exists()


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
