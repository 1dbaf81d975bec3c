"""A line from memory: kept, laid beside the page's own sentence, counted in the report, never marked."""
import pytest

import lessons_lib
from exercises_lesson import lay_answers, lay_sheet
from lessons_lib.course.clean_page import asked_of, clean_page
from lessons_lib.course.play import play
from lessons_lib.course.right_answers import worked_page, write_key
from lessons_lib.exercises.declaration import ChoiceExercise, Lesson, RecallExercise
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.verdicts import State
from lessons_lib.handouts.page import Handout
from small_class import SmallClass

SENTENCE = "The voltage is the rate at which the flux linkage changes."
line = RecallExercise(id="m3", sentence=SENTENCE, where="lesson 4")
pond = ChoiceExercise(id="1.1", options={"a": "wet", "b": "dry"}, right="a", notes={"a": "Yes.", "b": "Touch it."},
                      worked="It is wet.")
LESSON = Lesson(id="01", title="A pond", version=1, exercises=(line, pond))
SHEET = make_sheet(LESSON, secret="test", bench="b000")


@pytest.fixture
def sheet(desk):
    lay_sheet(desk, "b000", SHEET)
    lay_answers(desk, "test_exercises_recall")
    return lessons_lib.open_sheet("01")


def test_a_line_is_kept_and_the_sentence_comes_after_it(sheet):
    assert SENTENCE not in repr(sheet.answer("m3", "..."))
    verdict = sheet.answer("m3", "  a voltage needs\n a change of flux ")
    assert verdict.state == State.KEPT and f'In lesson 4 it reads: "{SENTENCE}"' in verdict.text
    assert 'Kept from before: "a voltage needs a change of flux".' in sheet.answer("m3", ...).text
    assert "m3" in repr(sheet.progress()) and "kept" in repr(sheet.progress())


@pytest.mark.parametrize("value", ["", "flux", "two words", 3, ["a line of words"], {"a": "b c d"}, "x" * 301, len,
                                   b"a line of words"])
def test_what_is_no_line_gets_a_sentence_and_no_help(sheet, value):
    verdict = sheet.answer("m3", value)
    assert verdict.state in (State.UNREADABLE, State.NOT_ANSWERED)
    assert verdict.text.count("\n") == 0 and SENTENCE not in verdict.text


@pytest.fixture(scope="module")
def small(tmp_path_factory):
    small = SmallClass(tmp_path_factory.mktemp("recall"), "from test_exercises_recall import LESSON\n")
    for bench in ("b010", "b011"):
        student = small.student(bench)
        student.all_right()
        small.give_back(student)
    small.mark()
    return small


def test_it_carries_no_marks_and_nobody_has_to_read_it(small):
    assert all("m3" not in row for row in small.rows.values())
    assert small.rows["b010"]["1.1"] == "1"
    assert SENTENCE not in small.text("open_questions.csv")


def test_the_report_counts_it_and_play_finds_nothing_wrong(small):
    report = small.text("class_report.html")
    assert "m3" in report and "2 of 2" in report
    assert play(small.course, "b010") == []


def test_key_and_worked_page_have_the_sentence(small):
    assert SENTENCE in worked_page(small.course, "b010").decode()
    assert SENTENCE in write_key(small.course, "b010", "01")[0].read_text(encoding="utf-8")


def test_paper_has_lines_and_a_page_is_made_clean():
    def page(answer):
        return {"cells": [{"cell_type": "markdown", "metadata": {}, "source": "**m3.** When is there a voltage?"},
                          {"cell_type": "code", "metadata": {}, "outputs": [],
                           "source": f'sheet.answer("m3", {answer})'}], "metadata": {}}

    clean, found = clean_page(page('"while it changes, always"'), asked_of(LESSON.exercises))
    assert clean["cells"][1]["source"] == ['sheet.answer("m3", "...")'] and found == [("answer", "m3")]
    handout = Handout(page('"..."'), name="01_pond.ipynb", content=SHEET, figures={}).page().decode()
    assert "Afterwards compare with lesson 4." in handout and SENTENCE not in handout
