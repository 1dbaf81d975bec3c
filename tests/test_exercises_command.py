"""``python -m lessons_lib sheets``: from a folder of answers to the self-study sheets, the same bytes each time."""
import subprocess
import sys
from pathlib import Path

import pytest

from lessons_lib.__main__ import main
from lessons_lib.course.sheets import load_lessons
from lessons_lib.exercises.sheet_file import read_sheet

TOP = Path(__file__).resolve().parent.parent


@pytest.fixture
def answers(tmp_path):
    folder = tmp_path / "answers"
    folder.mkdir()
    (folder / "lesson_01.py").write_text("from tests.exercises_lesson import LESSON\n")
    return folder


def run(answers, notebooks):
    return main(["sheets", "--answers", str(answers), "--notebooks", str(notebooks)])


def tree(folder):
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_sheets_of_ten_benches_are_written_and_again_the_same(answers, tmp_path, capsys):
    assert run(answers, tmp_path / "n") == 0
    assert "20 files in" in capsys.readouterr().out
    first = tree(tmp_path / "n")
    assert sorted(first) == sorted(f"sheets/01/{part}b00{n}.json" for n in range(10) for part in ("", "worked/"))
    assert run(answers, tmp_path / "n") == 0 and ", 0 of them new or changed" in capsys.readouterr().out
    assert run(answers, tmp_path / "m") == 0 and tree(tmp_path / "m") == first


def test_benches_have_different_numbers_and_no_sheet_has_a_worked_answer(answers, tmp_path):
    run(answers, tmp_path)
    folder = tmp_path / "sheets" / "01"
    sheets = [read_sheet((folder / f"b00{n}.json").read_bytes()) for n in range(10)]
    assert len({str(sheet["exercises"]["1.1"]["given"]) for sheet in sheets}) == 10
    worked = read_sheet((folder / "worked" / "b000.json").read_bytes())["worked"]
    for text in worked.values():
        assert text not in (folder / "b000.json").read_text(encoding="utf-8")


def test_from_the_command_line(answers, tmp_path):
    done = subprocess.run([sys.executable, "-m", "lessons_lib", "sheets", "--answers", str(answers),
                           "--notebooks", str(tmp_path)], cwd=TOP, capture_output=True, text=True)
    assert done.returncode == 0 and "Next: run the tests" in done.stdout and done.stderr == ""


def test_help_has_an_example(capsys):
    with pytest.raises(SystemExit) as stop:
        main(["sheets", "--help"])
    assert stop.value.code == 0 and "example: python -m lessons_lib sheets" in capsys.readouterr().out


@pytest.mark.parametrize("text, words", [
    ("1 / 0", "lesson_01.py cannot be used: ZeroDivisionError"),
    ("def", "lesson_01.py cannot be used: SyntaxError"),
    ("x = 1", "lesson_01.py has no LESSON = Lesson(...)"),
    ("from dataclasses import replace\nfrom tests.exercises_lesson import LESSON\nLESSON = replace(LESSON, id='02')",
     "holds lesson 02; call it lesson_02.py"),
    ("from dataclasses import replace\nfrom tests.exercises_lesson import LESSON, pond\n"
     "LESSON = replace(LESSON, exercises=(replace(pond, answer=lambda share: share / 0),))",
     "Lesson 01 cannot be made for b000: ZeroDivisionError"),
    ("from dataclasses import replace\nfrom tests.exercises_lesson import LESSON, pond\n"
     "LESSON = replace(LESSON, exercises=(replace(pond, size=(90, 91)),))",
     "exercise 1.1: none of 200 draws for b000 is accepted"),
])
def test_an_answers_file_that_fails_is_one_sentence_and_nothing_is_written(answers, tmp_path, capsys, text, words):
    (answers / "lesson_01.py").write_text(text)
    assert run(answers, tmp_path / "n") == 1
    said = capsys.readouterr().err
    assert words in said and said.count("\n") == 1 and not (tmp_path / "n").exists()


def test_an_empty_folder_is_one_sentence(tmp_path, capsys):
    assert run(tmp_path, tmp_path) == 1
    assert "name the folder of the model answers" in capsys.readouterr().err


def test_lessons_load_in_order(answers):
    (answers / "lesson_00.py").write_text("from dataclasses import replace\nfrom tests.exercises_lesson import LESSON\n"
                                          "LESSON = replace(LESSON, id='00')\n")
    assert [lesson.id for lesson in load_lessons(answers)] == ["00", "01"]
