"""The evenings on paper: a plan a page, questions to vote on with their answers, and nothing of it for students."""
import re
import zipfile
from html import unescape

import pytest

from desk_buttons import press, said
from exercises_evenings import EVENINGS, EVENINGS_ANSWERS
from handout_reader import Reader
from lessons_lib.__main__ import main
from lessons_lib.course.evenings import evenings_page
from lessons_lib.desk import instructor_desk
from lessons_lib.exercises.declaration import Lesson, ToVote
from small_class import SmallClass


@pytest.fixture
def small(tmp_path):
    return SmallClass(tmp_path, EVENINGS_ANSWERS)


PAGE = evenings_page("Ponds", [EVENINGS]).decode()


def sections(kind, page=PAGE):
    """The text of each section of a kind."""
    found = re.findall(rf"<section class={kind}>.*?</section>", page, re.DOTALL)
    return [" ".join(unescape(re.sub("<[^>]+>", " ", one)).split()) for one in found]


def test_each_evening_is_a_page_of_its_own():
    first, second = sections("plan")
    assert first.startswith("Lesson 01, The garden Evening 1 of 2, 65 minutes Aim. How much of a pond is covered, and "
                            "how to <measure> it.")
    assert "minutes what ask local curriculum 10 0–10 The quick question, the kite. What will it do? 25 10–35" in first
    assert "30 35–65 Beds: 1.2." in first and first.endswith("On the table. A compass, string. At home. 1.3.")
    assert "Evening 2 of 2, 60 minutes Aim. Both gates." in second and "On the table" not in second
    assert Reader(PAGE).open == []


def test_the_last_column_is_empty_for_a_pen():
    rows = re.findall(r"<tr><td class=minutes.*?</tr>", PAGE, re.DOTALL)
    assert len(rows) == 4 and all(row.count("<td") == 4 and row.endswith("<td></td></tr>") for row in rows)


def test_votes_have_letter_reason_and_twin_and_the_note_follows():
    text, = sections("beside")
    assert "go with the <em>square</em>." in PAGE and "*" not in re.sub("<style>.*?</style>", "", PAGE, flags=re.DOTALL)
    assert ("Question 1 A pond twice as wide is how many times as large? (a) twice (b) four times (b) Areas go with "
            "the square . Its twin Half as wide? (a) a quarter (b) half (a) Again the square. Question 2 Which") in text
    assert text.endswith("Teaching note Bring a spade .")


def test_a_lesson_without_plans_has_its_note_alone():
    lesson = Lesson(id="01", title="Old", version=1, exercises=(), teaching_note="Only this.")
    page = evenings_page("x", [lesson]).decode()
    assert sections("plan", page) == [] and sections("beside", page) == ["Lesson 01, Old Teaching note Only this."]
    bare = evenings_page("x", [Lesson(id="01", title="Bare", version=1, exercises=())])
    assert b"<section" not in bare


def test_a_right_letter_is_one_of_the_options():
    with pytest.raises(ValueError, match="right must be"):
        ToVote(question="?", options={"a": "x"}, right="b", because="y")


def test_the_command_writes_it_before_anything_is_given_out(small, capsys):
    assert main(["evenings", str(small.folder), "--lessons", "1"]) == 0
    assert "evenings.html: 2 plans of an evening, one page each, then questions to vote on" in capsys.readouterr().out
    written = (small.folder / "evenings.html").read_bytes()
    assert b"Evening 2 of 2" in written and b"Lesson 00" not in written
    assert main(["evenings", str(small.folder)]) == 0 and main(["evenings", str(small.folder), "--lessons", "7"]) == 1
    assert "There is no lesson 07." in capsys.readouterr().err


def test_the_desk_shows_it_and_asks_before_it_writes_again(small):
    desk = instructor_desk(small.folder)
    press(desk.read, "Plans of the evenings")
    assert said(desk.read) == f"Shown below: {small.folder / 'evenings.html'}"
    assert "Evening 1 of 2" in desk.read.shown.value
    press(desk.read, "Plans of the evenings")
    assert "is there from before." in said(desk.read)


def test_no_pack_holds_a_plan_or_a_vote(small):
    pack, = (small.folder / "packs").glob("*.zip")
    with zipfile.ZipFile(pack) as file:
        for name in file.namelist():
            data = file.read(name)
            assert b"Areas go with" not in data and b"a pond is covered" not in data, name
