"""Quick questions from memory (m1 ...) and on steps of worked examples (s1 ...), which are in the middle of a page."""
from dataclasses import replace

from exercises_following import GARDEN
from exercises_lesson import recall
from handout_reader import Reader
from lessons_lib.course import teach_again
from lessons_lib.course.clean_page import asked_of, clean_page
from lessons_lib.course.read_page import Ask, Question, read_page
from lessons_lib.course.tally import LessonTally
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.sheet import Sheet
from lessons_lib.handouts.page import Handout

step = replace(recall, id="s1", options={"a": "a share of an area", "b": "an area by its radius"})
WITH_STEP = replace(GARDEN, exercises=(recall, *GARDEN.exercises[1:3], step, *GARDEN.exercises[3:]))


def text(source):
    return {"cell_type": "markdown", "metadata": {}, "source": source}


def code(source):
    return {"cell_type": "code", "metadata": {}, "source": source, "outputs": [], "execution_count": 1}


NOTEBOOK = {"cells": [
    text("## Two quick questions, book closed\n\n**m1.** Ice is ...\n- (a) hot\n- (b) cold"),
    code('sheet.answer("m1", "...")'),
    text("## 1. Ponds (core)\n\n1. The whole pond.\n2. Its part.\n\n**s1.** Which principle is step 2?\n"
         "- (a) a share of an area\n- (b) an area by its radius"),
    code('sheet.answer("s1", "a")'),
    text("### Exercise 1.2 (core)\nThe mean **speed**, in m/s?"), code('sheet.given("1.2")'),
    code('sheet.answer("1.2", ..., "m/s")')], "metadata": {}}


def test_one_in_the_middle_goes_out_clean_and_onto_paper():
    page, found = clean_page(NOTEBOOK, asked_of(WITH_STEP.exercises))
    assert found == [("answer", "s1")] and "".join(page["cells"][3]["source"]) == 'sheet.answer("s1", "...")'
    asked = [(type(cell), cell.exercise_id) for cell in read_page(page) if isinstance(cell, (Question, Ask))]
    assert asked == [(kind, name) for name in ("m1", "s1", "1.2") for kind in (Question, Ask)]
    content = make_sheet(WITH_STEP, secret="test", bench="b017")
    reader = Reader(Handout(page, name="01.ipynb", content=content, figures={}).page().decode())
    section, = reader.of(tag="section", id="exercise-s1")
    assert section["text"].split()[:6] == ["s1.", "Which", "principle", "is", "step", "2?"]
    assert len([one for one in reader.of(tag="li") if one.get("class") == "tick"]) == 4


def test_progress_has_both(tmp_path, monkeypatch):
    monkeypatch.setenv("LESSONS_WORK_FOLDER", str(tmp_path))
    sheet = Sheet(content=make_sheet(WITH_STEP, secret="test", bench="b017"))
    sheet.answer("s1", "b")
    assert [row[:2] for row in sheet.progress().rows if row[0] in ("m1", "s1")] == [
        ("m1", "still empty"), ("s1", "right")]


def test_the_report_tells_memory_from_steps():
    tally = LessonTally(WITH_STEP)
    tally.returned = 20
    for name, first in (("m1", 8), ("s1", 9)):
        tally.exercises[name].answered, tally.exercises[name].first = 20, first
    assert teach_again.forgotten(tally) == [("m1", "8 of 20 (40 ± 11 %) recalled it.")]
    assert teach_again.steps_not_followed(tally) == [("s1", "9 of 20 (45 ± 11 %) named its principle.")]
    assert teach_again.teaching_points(tally, []) and not {"m1", "s1"} & {
        one.about for one in teach_again.teaching_points(tally, [])}
