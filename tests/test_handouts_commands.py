"""Handouts as a command: of a course, the numbers that were given out; and what cannot be written."""
import pytest

from handout_reader import Reader, given_away
from lessons_lib.__main__ import main
from lessons_lib.course.folder import Course
from lessons_lib.course.given_out import GivenOut
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.pack import give_out
from lessons_lib.exercises.parts import value_text
from lessons_lib.handouts.figures import three_figures
from lessons_lib.handouts.page import Handout
from small_panel import a_panel


@pytest.fixture
def course(tmp_path):
    new_course(tmp_path / "autumn", 3)
    course = Course(tmp_path / "autumn")
    give_out(course, ["00"])
    return course


def test_a_course_gets_the_numbers_that_were_given_out(course, tmp_path, capsys):
    assert main(["handouts", str(tmp_path / "print"), "--course", str(course.folder)]) == 0
    assert "worked-answers" in capsys.readouterr().out
    kept = GivenOut(course, course.lessons["00"])
    assert sorted(path.name for path in (tmp_path / "print").iterdir()) == [
        *(f"handout_00_{bench}.html" for bench in course.students), "words_and_symbols.html"]
    for bench in course.students:
        page = (tmp_path / "print" / f"handout_00_{bench}.html").read_text(encoding="utf-8")
        values = kept.drawn(bench)
        for exercise_id in ("0.1", "0.2"):
            [section] = Reader(page).of(tag="section", id=f"exercise-{exercise_id}")
            for name, value in values[exercise_id].shown.items():
                assert value_text(value, values[exercise_id].exercise.shown[name]) in section["text"]
        assert f"bench {bench}" in page and list(given_away(page, values)) == []


@pytest.mark.parametrize("more, said", [
    (["--benches", "b017"], "is not a bench for self-study; those are b000 to b009. For the benches of a class, name"),
    (["--benches", "../x"], "is not a bench for self-study"), (["--lessons", "77"], "There is no lesson 77."),
    (["--course", "nowhere"], "is not a course folder")])
def test_what_cannot_be_written_is_one_sentence(tmp_path, more, said, capsys):
    assert main(["handouts", str(tmp_path / "print"), *more]) == 1
    assert said in capsys.readouterr().err and not (tmp_path / "print").exists()


@pytest.mark.parametrize("more, said", [
    (["--benches", "b999"], "is not a bench of this course"),
    (["--lessons", "1"], "Lesson 01 has not been given out yet.")])
def test_what_a_course_has_not_is_one_sentence(course, tmp_path, more, said, capsys):
    assert main(["handouts", str(tmp_path / "print"), "--course", str(course.folder), *more]) == 1
    assert said in capsys.readouterr().err and not (tmp_path / "print").exists()


def test_a_panel_without_states_is_one_sentence():
    with pytest.raises(ValueError, match="Lesson 01 shows the panel new_one, for which no settings are named; give"):
        three_figures("01", "new_one", a_panel())


def test_an_exercise_that_the_answers_have_not_is_said_on_the_page():
    content = {"lesson": "01", "title": "Garden", "bench": "b000", "version": 1, "exercises": {}}
    cells = [{"cell_type": "code", "metadata": {}, "outputs": [], "source": 'sheet.answer("9.9", ..., "m")'}]
    page = Handout({"cells": cells}, name="x.ipynb", content=content, figures={}).page().decode()
    assert "no such exercise here" in page
