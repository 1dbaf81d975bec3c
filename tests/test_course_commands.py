"""Commands round a class: playing it through before, the key to check work with, taking it away at the end."""
import io
import re
import shutil

import pytest

from exercises_following import write_answers
from lessons_lib.__main__ import main
from lessons_lib.base.units import with_unit
from lessons_lib.course.folder import Course, _secret_mark
from lessons_lib.course.given_out import GivenOut
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.marks_folder import Staged
from lessons_lib.course.play import play

# ---- play ------------------------------------------------------------------------------------------------------------

def test_the_real_lessons_play_through(tmp_path, capsys, monkeypatch):
    monkeypatch.setenv("LESSONS_WORK_FOLDER", "untouched")
    new_course(tmp_path / "autumn", 3)
    before = sorted(path.name for path in (tmp_path / "autumn").rglob("*"))
    (tmp_path / "checkout").mkdir()
    monkeypatch.chdir(tmp_path / "checkout")
    assert main(["play", "../autumn"]) == 0         # as the README writes it
    said = capsys.readouterr().out
    exercises = sum(len(lesson.exercises) for lesson in Course(tmp_path / "autumn").lessons.values())
    assert f"{exercises} exercises were played as b010 with the model answers: all of it right. Next: give out." in said
    assert sorted(path.name for path in (tmp_path / "autumn").rglob("*") if path.name != ".busy") == before


BROKEN = """
from dataclasses import replace
from exercises_following import GARDEN
from lessons_lib.exercises.declaration import Slip
changed = {{{changes}}}
LESSON = replace(GARDEN, exercises=tuple(changed.get(one.id, one) for one in GARDEN.exercises
                                         if one.id in ("1.3", "1.4", "1.5", "p1")))
"""


@pytest.mark.parametrize("changes, said", [
    ("", "1.5: the model answer is not right. The page says: Kept: 7 of at least 20 words."),
    ('"1.3": replace(GARDEN["1.3"], size=(-9, -8))',
     "Lesson 01: no sheet can be made for b010: ValueError: exercise 1.3"),
    ('"1.3": replace(GARDEN["1.3"], answer=lambda ratio: ratio / 0)',
     "no sheet can be made for b010: ZeroDivisionError"),
])
def test_what_fails_is_said(tmp_path, changes, said, capsys):
    new_course(tmp_path / "autumn", 1)
    answers = write_answers(tmp_path / "answers", BROKEN.format(changes=changes))
    (tmp_path / "autumn" / "course.toml").write_text(f"answers = '{answers}'\n")
    assert main(["play", str(tmp_path / "autumn")]) == 1
    error = capsys.readouterr().err
    assert said in error and "before you give anything out." in error.splitlines()[-1]


def test_the_first_page_is_run_too(tmp_path):
    """One page, every cell, in a kernel of its own; the slip that the page makes on purpose is no fault."""
    new_course(tmp_path / "autumn", 1)
    (tmp_path / "answers").mkdir()
    course = Course(tmp_path / "autumn")
    shutil.copy(course.settings.answers / "lesson_00.py", tmp_path / "answers")
    (tmp_path / "autumn" / "course.toml").write_text(f"answers = '{tmp_path / 'answers'}'\n")
    assert play(Course(tmp_path / "autumn"), "b010", pages=True) == []


# ---- key -------------------------------------------------------------------------------------------------------------

def test_the_key_has_the_right_values_of_the_benches_that_were_asked_for(small, capsys):
    assert main(["key", str(small.folder), "--benches", "B011, b902", "--lessons", "1"]) == 0
    assert "right values of 2 benches, for your eyes" in capsys.readouterr().out
    page = (small.folder / "key.html").read_text(encoding="utf-8")
    lines = {found[0]: found[1] for found in re.findall(r"<tr><th scope=row>(b\d+)</th>(.*?)</tr>", page)}
    assert set(lines) == {"b011", "b902"} and "Before the garden" not in page
    for bench, line in lines.items():
        drawn = GivenOut(small.course, small.course.lessons["01"]).drawn(bench)
        wanted = [with_unit(f"{drawn[exercise_id].answer:.4g}", "") for exercise_id in ("1.1", "1.2", "1.3", "1.6")]
        assert re.findall("<td>(.*?)</td>", line) == wanted
    assert ("The same for all: <strong>m1</strong> (b); <strong>p1</strong> the panel shows (a); "
            "<strong>1.4</strong> (c).") in page


def test_without_a_list_the_key_has_the_class(small):
    main(["key", str(small.folder)])
    page = (small.folder / "key.html").read_text(encoding="utf-8")
    assert re.findall("<th scope=row>(b\\d+)", page) == 2 * ["b010", "b011", "b012"]


@pytest.mark.parametrize("words, said", [
    (["--benches", "b999"], '"b999" is not a bench of this course; write one such as b010,b011.'),
    (["--benches", "../x"], "is not a bench"), (["--lessons", "5"], "Lesson 05 has not been given out yet.")])
def test_a_key_that_cannot_be_made(small, words, said, capsys):
    assert main(["key", str(small.folder), *words]) == 1
    assert said in capsys.readouterr().err and not (small.folder / "key.html").exists()


# ---- remove-course ---------------------------------------------------------------------------------------------------

@pytest.fixture
def autumn(tmp_path):
    new_course(tmp_path / "autumn", 3)
    return tmp_path / "autumn"


def typing(monkeypatch, text):
    monkeypatch.setattr("sys.stdin", io.StringIO(text))


def test_removed_once_its_name_was_typed(autumn, monkeypatch, capsys):
    (autumn / "returned" / "x").mkdir()
    (autumn / "lesson plan.odt").touch()
    typing(monkeypatch, "autumn\n")
    assert main(["remove-course", str(autumn)]) == 0 and not autumn.exists()
    said = capsys.readouterr().out
    assert "things that do not belong to the course: lesson plan.odt." in said and "files in it will go:" in said


@pytest.mark.parametrize("text", ["", "\n", "yes\n", "Autumn\n", "autumn/\n"])
def test_kept_where_another_text_was_typed(autumn, text, monkeypatch, capsys):
    typing(monkeypatch, text)
    assert main(["remove-course", str(autumn)]) == 1 and (autumn / "secret.txt").exists()
    assert "That is not the folder's name. Nothing was removed." in capsys.readouterr().err


@pytest.mark.parametrize("harm", ["no list", "a checkout", "a link", "stand in it", "not there", "busy"])
def test_what_is_not_to_be_removed(autumn, tmp_path, harm, monkeypatch, capsys):
    typing(monkeypatch, f"{autumn.name}\n")
    target, said = autumn, "Nothing was removed"
    if harm == "no list":
        (autumn / "class_list.csv").unlink()
    elif harm == "a checkout":
        (autumn / ".git").mkdir()
    elif harm == "a link":
        (tmp_path / "link").symlink_to(autumn)
        target, said = tmp_path / "link", "is a link. Name the folder itself."
    elif harm == "stand in it":
        monkeypatch.chdir(autumn / "returned")
    elif harm == "not there":
        target = tmp_path / "nowhere"
    if harm == "busy":
        with Course(autumn).busy():
            assert main(["remove-course", str(autumn)]) == 1
        said = "is busy"
    else:
        assert main(["remove-course", str(target)]) == 1
    assert said in capsys.readouterr().err and (autumn / "course.toml").exists()


# ---- another secret --------------------------------------------------------------------------------------------------

@pytest.fixture
def other_secret(small):
    """The small class, marked, with one character of its secret changed."""
    small.mark()
    path = small.folder / "secret.txt"
    path.write_text(path.read_text().replace("fixed", "mixed"))
    return small


COMMANDS = [["give-out", "{}"], ["give-out", "{}", "--lessons", "0"], ["mark", "{}"], ["key", "{}"],
            ["worked-answers", "{}", "--bench", "b010"], ["play", "{}"], ["handouts", "{}/print", "--course", "{}"]]


def contents(folder):
    return {path: path.read_bytes() for path in folder.rglob("*") if path.is_file() and path.name != ".busy"}


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
@pytest.mark.parametrize("mark_is_kept", [True, False], ids=["with its mark", "known by its cards"])
def test_another_secret_than_the_one_that_made_the_course_is_refused(other_secret, words, mark_is_kept, capsys):
    if not mark_is_kept:
        (other_secret.folder / "given_out/made_with.txt").unlink()
    before = contents(other_secret.folder)
    assert main([word.format(other_secret.folder) for word in words]) == 1
    said = capsys.readouterr().err
    assert "secret.txt is not the one that made this course" in said and "Put the right one back from your copy" in said
    assert contents(other_secret.folder) == before


def test_the_right_secret_back_and_all_is_as_before(other_secret):
    path = other_secret.folder / "secret.txt"
    path.write_text(path.read_text().replace("mixed", "fixed"))
    before = contents(other_secret.folder)
    assert main(["give-out", str(other_secret.folder)]) == main(["mark", str(other_secret.folder)]) == 0
    assert contents(other_secret.folder) == before


@pytest.mark.parametrize("cards", [True, False])
def test_a_course_from_before_gets_its_mark_with_the_next_give_out(small, cards):
    mark = small.folder / "given_out/made_with.txt"
    before = mark.read_bytes()
    mark.unlink()
    if not cards:
        (small.folder / "cards.csv").unlink()
    assert main(["mark", str(small.folder)]) == 0 and not mark.exists()
    assert main(["give-out", str(small.folder)]) == 0 and mark.read_bytes() == before


@pytest.mark.parametrize("damage", [b"", b"\xff\xfe", b"x" * 40])
def test_a_damaged_mark_is_no_mark(small, damage):
    mark = small.folder / "given_out/made_with.txt"
    before = mark.read_bytes()
    mark.write_bytes(damage)
    assert main(["give-out", str(small.folder)]) == 0 and mark.read_bytes() == before


def test_before_anything_was_given_out_any_secret_will_do(tmp_path):
    new_course(tmp_path, 3)
    (tmp_path / "given_out").mkdir()
    (tmp_path / "given_out/made_with.txt").write_text("0" * 32)       # stopped before the first values were kept
    assert main(["give-out", str(tmp_path), "--lessons", "0"]) == 0 == main(["give-out", str(tmp_path)])


def test_the_mark_says_nothing_of_the_secret(small):
    """Two secrets that differ in one character have marks without anything in common but chance."""
    word = small.course.secret
    marks = [bin(int(_secret_mark(one), 16)) for one in (word, word.replace("fixed", "mixed"))]
    apart = bin(int(marks[0], 2) ^ int(marks[1], 2)).count("1")
    assert 40 < apart < 88 and word.encode() not in (small.folder / "given_out/made_with.txt").read_bytes()


def test_a_file_that_was_only_read_is_not_said_to_be_written(tmp_path):
    gone = tmp_path / "given_out.json"
    with pytest.raises(FileNotFoundError, match="given_out.json"):
        with Staged(tmp_path / "marks") as staged:
            staged.write("marks.csv", b"")
            gone.read_bytes()
    assert list((tmp_path / "marks").iterdir()) == []
