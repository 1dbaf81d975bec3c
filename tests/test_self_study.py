"""Self-study: from a folder of answers to the sheet that a page opens, and nothing is stored on the way."""
import os
import subprocess
import sys
from dataclasses import replace

import pytest

import lessons_lib
from exercises_lesson import LESSON, lay_answers, lay_sheet, pond
from lessons_lib.exercises.bench import SELF_STUDY_BENCHES, check_character
from lessons_lib.exercises.draws import SELF_STUDY_SECRET
from lessons_lib.exercises.making import make_sheet, make_worked_answers
from lessons_lib.exercises.self_study import load_lessons, self_study_sheet, self_study_worked
from lessons_lib.exercises.sheet_file import sheet_bytes
from lessons_lib.exercises.verdicts import State
from notebooks import NOTEBOOKS

CLASS_CARD = "b017-7QK4M" + check_character("b017", "7QK4M")


@pytest.fixture
def page(tmp_path, monkeypatch):
    """The folder of a page, with model answers beside it and nothing in it."""
    folder = tmp_path / "notebooks"
    folder.mkdir()
    lay_answers(folder)
    monkeypatch.chdir(folder)
    monkeypatch.delenv("LESSONS_WORK_FOLDER", raising=False)
    return folder


def whole(content):
    """A made sheet as the bytes of a file; the exercises are asked for from the last to the first."""
    made = {name: content["exercises"][name] for name in reversed(list(content["exercises"]))}
    return sheet_bytes({**content, "exercises": {name: made[name] for name in content["exercises"]}})


def test_sheets_of_ten_benches_are_those_of_make_sheet_and_again_the_same():
    for bench in SELF_STUDY_BENCHES:
        as_a_whole = sheet_bytes(make_sheet(LESSON, secret=SELF_STUDY_SECRET, bench=bench))
        assert whole(self_study_sheet(LESSON, bench)) == whole(self_study_sheet(LESSON, bench)) == as_a_whole
        worked = make_worked_answers(LESSON, secret=SELF_STUDY_SECRET, bench=bench)
        assert len(worked) == 5 and {name: text for name in self_study_sheet(LESSON, bench)["exercises"]
                                     if (text := self_study_worked(LESSON, bench, name))} == worked


def test_benches_have_different_numbers_and_no_sheet_has_a_worked_answer():
    sheets = [self_study_sheet(LESSON, bench) for bench in SELF_STUDY_BENCHES]
    assert len({str(sheet["exercises"]["1.1"]["given"]) for sheet in sheets}) == 10
    for text in make_worked_answers(LESSON, secret=SELF_STUDY_SECRET, bench="b000").values():
        assert text not in whole(sheets[0]).decode()


def test_a_page_opens_it_and_writes_nothing(page):
    sheet = lessons_lib.open_sheet("01")
    assert str(sheet) == "Lesson 01, The garden: sheet of bench b000." and sheet.answer("1.4", ...).state == (
        State.NOT_ANSWERED)
    assert lessons_lib.progress().rows == (("01", "The garden", "0 of 7"),)
    assert list(page.iterdir()) == []
    lessons_lib.use_card("b004")
    again = lessons_lib.open_sheet("01")
    assert again.bench == "b004" and again.given("1.1") != sheet.given("1.1")
    assert again.answer("1.4", "c").state == State.RIGHT
    assert again.worked_answer("1.4").text == "Both, because they share a post."
    assert again.worked_answer("p1").text == "It opens after 3 different tries; you have made 0."
    assert lessons_lib.progress().rows == (("01", "The garden", "1 of 7"),)


def test_a_change_of_the_answers_is_seen_when_the_sheet_is_opened_again(page):
    assert lessons_lib.open_sheet("01").title == "The garden"
    (page.parent / "answers" / "lesson_01.py").write_text(
        "from dataclasses import replace\nfrom exercises_lesson import LESSON\n"
        "LESSON = replace(LESSON, title='A park')")
    assert lessons_lib.open_sheet("01").title == "A park"


def test_a_file_of_a_sheet_comes_before_the_answers(page):
    lay_sheet(page, "b000", make_sheet(replace(LESSON, title="From a file"), secret="test", bench="b000"))
    assert lessons_lib.open_sheet("01").title == "From a file"


def test_nothing_is_made_for_a_bench_of_a_class(page):
    lessons_lib.use_card(CLASS_CARD)
    sheet = lessons_lib.open_sheet("01")
    assert sheet.trouble.state == State.NO_SHEET and "no sheet of lesson 01 for b017" in sheet.trouble.text
    assert lessons_lib.progress().rows == (("01", "no sheet", ""),)


@pytest.mark.parametrize("text, words", [
    ("1 / 0", "lesson_01.py cannot be used: ZeroDivisionError"),
    ("def", "lesson_01.py cannot be used: SyntaxError"),
    ("x = 1", "lesson_01.py has no LESSON = Lesson(...)"),
    ("from dataclasses import replace\nfrom exercises_lesson import LESSON\nLESSON = replace(LESSON, id='02')",
     "holds lesson 02; call it lesson_02.py"),
])
def test_an_answers_file_that_fails_is_one_sentence(page, text, words):
    (page.parent / "answers" / "lesson_01.py").write_text(text)
    sheet = lessons_lib.open_sheet("01")
    assert sheet.trouble.state == State.NO_SHEET and words in repr(sheet) and "\n" not in repr(sheet)
    assert lessons_lib.progress().rows == (("01", "no sheet", ""),) and list(page.iterdir()) == []


@pytest.mark.parametrize("change, words", [
    ("answer=lambda share: share / 0", "Exercise 1.1 cannot be made for b000: ZeroDivisionError"),
    ("size=(90, 91)", "exercise 1.1: none of 200 draws for b000 is accepted"),
])
def test_an_exercise_that_fails_is_one_sentence_and_the_others_go_on(page, change, words):
    lessons_lib.open_sheet("01").answer("1.1", 3)
    (page.parent / "answers" / "lesson_01.py").write_text(
        "from dataclasses import replace\nfrom exercises_lesson import LESSON, gate, pond\n"
        f"LESSON = replace(LESSON, exercises=(replace(pond, {change}), gate))")
    sheet = lessons_lib.open_sheet("01")
    for verdict in (sheet.answer("1.1", 3), sheet.worked_answer("1.1"), sheet.unclear("1.1", "x"),
                    sheet.saw("9.9", "a")):
        assert verdict.state == State.NO_SHEET and words in verdict.text and "\n" not in verdict.text
    assert words in repr(sheet.given("1.1")) and sheet.prediction("p1") is None
    assert sheet.answer("1.4", "c").state == State.RIGHT
    assert sheet.progress().rows == (("1.1", "no sheet", ""), ("1.4", "right", "1"))
    assert lessons_lib.progress().rows == (("01", "The garden", "1 of 2"),)


def test_an_empty_folder_is_one_sentence(tmp_path):
    with pytest.raises(ValueError, match="name the folder of the model answers"):
        load_lessons(tmp_path)


def test_lessons_load_in_order(page):
    (page.parent / "answers" / "lesson_00.py").write_text(
        "from dataclasses import replace\nfrom exercises_lesson import LESSON\nLESSON = replace(LESSON, id='00')\n")
    assert [lesson.id for lesson in load_lessons(page.parent / "answers")] == ["00", "01"]


def test_all_lessons_open_without_loading_what_takes_long(tmp_path):
    """Half a second of a page's first cell would be scipy; only some exercises need it, when they are asked for."""
    code = ("import sys, lessons_lib; sheets = [lessons_lib.open_sheet(f'0{n}') for n in range(9)]; "
            "print([sheet.trouble for sheet in sheets] == [None] * 9, len(lessons_lib.progress().rows), "
            "'scipy' in sys.modules, len(sheets[8].limits('8.7')), 'scipy' in sys.modules)")
    done = subprocess.run([sys.executable, "-c", code], cwd=NOTEBOOKS, capture_output=True, text=True,
                          env={**os.environ, "LESSONS_WORK_FOLDER": str(tmp_path)})
    assert (done.stdout, done.stderr) == ("True 14 False 6 True\n", "")


def test_an_exercise_is_made_once(monkeypatch):
    made = []
    slow = replace(pond, answer=lambda diameter, share: made.append(share) or pond.answer(diameter, share))
    records = self_study_sheet(replace(LESSON, exercises=(slow,)), "b000")["exercises"]
    assert made == [] and records["1.1"] is records["1.1"] and (count := len(made))
    assert records["1.1"]["unit"] == "mm2" and len(made) == count and len(records) == 1
