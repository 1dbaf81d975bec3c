"""The course folder: what is made and what is refused, and in which sentence; class list, cards and secret."""
import os
import subprocess
import sys
from pathlib import Path

import pytest

from lessons_lib.__main__ import main
from lessons_lib.course.folder import Course, bench_card
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.exercises.bench import read_card
from one_sentence import one_sentence

# ---- new-course ------------------------------------------------------------------------------------------------------

def test_a_new_course_says_what_it_made_and_what_to_do_next(tmp_path, capsys):
    assert main(["new-course", str(tmp_path / "autumn"), "--students", "12"]) == 0
    said = capsys.readouterr().out
    assert "course.toml, class_list.csv, secret.txt" in said and "Next: fill in class_list.csv" in said
    course = Course(tmp_path / "autumn")
    assert list(course.students) == [f"b{number:03d}" for number in range(10, 22)] and course.settings.title == "autumn"
    assert len(course.secret) == 64


def test_the_next_command_runs_as_it_is_printed(tmp_path):
    """In a folder with a space, and with the interpreter that was called."""
    done = subprocess.run([sys.executable, "-m", "lessons_lib", "new-course", "autumn term", "--students", "1"],
                          cwd=tmp_path, capture_output=True, text=True)
    assert "its title is what students read" in done.stdout
    command = done.stdout.splitlines()[-1].strip()
    assert command.startswith(sys.executable) and command.endswith(" --lessons 1")
    done = subprocess.run(command, shell=True, cwd=tmp_path, capture_output=True, text=True)
    assert done.returncode == 0 and list((tmp_path / "autumn term" / "packs").glob("*.zip")), done.stderr


def test_again_it_changes_nothing_and_never_the_secret(folder, capsys):
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    (folder / "class_list.csv").unlink()
    assert main(["new-course", str(folder), "--students", "12"]) == 0 and "New in" in capsys.readouterr().out
    assert main(["new-course", str(folder)]) == 0 and capsys.readouterr().out == (
        f"{folder} already has everything. Nothing was changed.\n")
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps other people's eyes off by the folder's rights")
def test_the_secret_is_for_its_owners_eyes(folder):
    assert (folder / "secret.txt").stat().st_mode & 0o077 == 0


def test_a_used_folder_without_its_secret_gets_no_new_one(folder, capsys):
    (folder / "given_out").mkdir()
    (folder / "secret.txt").unlink()
    assert "Put it back from your copy" in one_sentence(["new-course", folder], capsys)


@pytest.mark.parametrize("ignore, is_refused", [("", True), ("autumn/\n", False), ("autumn/secret.txt\n", True),
                                                ("*.txt\n", True)])
def test_a_git_checkout_must_ignore_the_folder(tmp_path, ignore, is_refused, capsys):
    subprocess.run(["git", "init", "-q", tmp_path], check=True)
    (tmp_path / ".gitignore").write_text(ignore)
    if is_refused:
        assert "which does not ignore it" in one_sentence(["new-course", tmp_path / "autumn"], capsys)
        assert not (tmp_path / "autumn").exists()
    else:
        assert main(["new-course", str(tmp_path / "autumn")]) == 0


def test_in_a_git_checkout_without_git_it_is_refused(tmp_path, capsys, monkeypatch):
    (tmp_path / ".git").mkdir()
    monkeypatch.setenv("PATH", "")
    assert "does not ignore it" in one_sentence(["new-course", tmp_path / "autumn"], capsys)


@pytest.mark.parametrize("command", ["new-course", "give-out", "mark", "worked-answers", "play", "key",
                                     "remove-course", "handouts", "received", "marks-table", "missing",
                                     "oneroster", "joint-report", "notes-by-name"])
def test_every_command_has_help_with_an_example(command, capsys):
    with pytest.raises(SystemExit):
        main([command, "--help"])
    assert f"example: python -m lessons_lib {command}" in " ".join(capsys.readouterr().out.split())


@pytest.mark.parametrize("students", [0, -3, 9001])
def test_a_silly_number_of_students(tmp_path, students, capsys):
    said = one_sentence(["new-course", tmp_path / "a", "--students", students], capsys)
    assert "students must be from 1 to 9000" in said


@pytest.mark.parametrize("command", [["mark"], ["give-out", "--lessons", "1"], ["worked-answers", "--bench", "b010"]])
def test_what_is_no_course_folder_is_said(tmp_path, command, capsys):
    said = one_sentence([command[0], tmp_path, *command[1:]], capsys)
    assert "is not a course folder" in said and list(tmp_path.iterdir()) == []


def test_a_mistyped_course_folder_is_asked_back_before_a_new_one_is_proposed(tmp_path, capsys):
    main(["new-course", str(tmp_path / "autumn")])
    capsys.readouterr()
    main(["mark", str(tmp_path / "autum")])
    assert "has no course.toml. Did you mean autumn? Make one with" in capsys.readouterr().err


# ---- class list, benches, cards --------------------------------------------------------------------------------------

@pytest.mark.parametrize("text", ["bench;student\r\nB010;Ada, the first\r\n\r\nb1234;\r\n",
                                  "\ufeffBench,Student\nb010,\"Ada, the first\"\n b1234 \n",
                                  "bench\tstudent\nb010\tx\nb1234\t",
                                  "sep=;\r\nbench;student\r\nb010;Ada, Eve, Zoe\r\nb1234;\r\n",
                                  "\ufeffSEP=,\nbench,student,room\nb010,a;b;c,\nb1234,,7\n",
                                  "bench,room\nb010,\nb1234,\n",
                                  'student,bench\n"Ada ""the first""",b010\n"two\nlines",b1234\n'])
def test_class_lists_as_people_save_them(folder, text):
    (folder / "class_list.csv").write_text(text, encoding="utf-8")
    assert list(Course(folder).students) == ["b010", "b1234"]


@pytest.mark.parametrize("text, words", [
    ("bench\nb010\nb010\n", "line 3: b010 is there twice"),
    ("bench,student\n\nb010,Ada\n,Eve\n", "line 4 has a name but no bench."), ("bench\n\nb17\n", "line 3: \"b17\""),
    ("bench\nb005\n", '"b005" is not a bench of a class'),
    ("bench\n../../x\n", "is not a bench of a class"), ("name\nb010\n", "in a column called bench"),
    ("bench,name\nb010,Ada\n",
     "class_list.csv has the columns bench, name: names are read from a column called student."),
    ("bench;number;\nb010;17;\n", "has the columns bench, number: names"),
    ('bench,student\nb010,Ada\nb011,"Eve\nb012,Zoe\n', "line 3: a quotation mark is opened there and not closed"),
    ('bench,student\n\nb010,"Ada\nb011,"Eve\nb012,Zoe\n', "line 3: a quotation mark is opened there and not closed, so "
     "b011 would be lost. Close it, or take it out."), ('"bench,student\nb010,Ada\n', "line 1: a quotation mark"),
    ('bench,student\nb010,"' + "b011,x\n" * 30_000, "class_list.csv is no table from line 2 on: field larger"),
    ("", "has no bench"), ("bench\nb٠١٧\n", "is not a bench of a class"), ("bench\nb17\n", "is not a bench")])
def test_a_class_list_that_cannot_be_used(folder, text, words):
    (folder / "class_list.csv").write_text(text, encoding="utf-8")
    with pytest.raises(ValueError, match="class_list.csv") as caught:
        Course(folder).students
    assert words in str(caught.value)


@pytest.mark.parametrize("size, spares", [(1, 3), (30, 3), (31, 4), (200, 20)])
def test_a_tenth_and_at_least_three_are_spare(tmp_path, size, spares):
    new_course(tmp_path, size)
    assert len(Course(tmp_path).spares) == spares


def test_a_spare_bench_that_is_taken_makes_room_for_the_next(folder):
    first = Course(folder).spares
    with open(folder / "class_list.csv", "a", encoding="utf-8") as file:
        file.write(f"{first[0]},late comer\n")
    assert Course(folder).spares == [*first[1:], "b904"]


def test_cards_are_read_by_the_notebook_and_differ_by_bench_and_secret(folder):
    course = Course(folder)
    cards = [bench_card(course.secret, bench) for bench in course.students]
    assert ["-".join(read_card(card)) for card in cards] == cards and len({card[5:10] for card in cards}) == 12
    assert bench_card("another secret", "b010") != cards[0]


# ---- the secret ------------------------------------------------------------------------------------------------------

def test_a_missing_secret_is_one_sentence(folder):
    (folder / "secret.txt").unlink()
    with pytest.raises(ValueError, match="secret.txt is missing or empty. Put it back from your copy"):
        Course(folder).secret


@pytest.mark.parametrize("data, words", [
    (b"", "secret.txt is missing or empty."), (b" \r\n", "missing or empty"), (b"\xef\xbb\xbf", "missing or empty"),
    (b"too short", "must hold the line that new-course wrote"), ("ü".encode() * 64, "must hold the line"),
    (bytes(range(256)), "must hold the line")])
def test_a_secret_that_cannot_be_used(folder, data, words, capsys):
    (folder / "secret.txt").write_bytes(data)
    said = one_sentence(["give-out", folder, "--lessons", "0"], capsys)
    assert words in said and "Put it back from your copy of the course folder" in said


def test_a_secret_that_cannot_be_read(folder, capsys):
    (folder / "secret.txt").unlink()
    (folder / "secret.txt").mkdir()
    assert "secret.txt cannot be read (" in one_sentence(["give-out", folder, "--lessons", "0"], capsys)


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16"])
def test_a_secret_as_editors_save_it(folder, encoding):
    before = Course(folder).secret
    (folder / "secret.txt").write_bytes(f"{before}\r\n".encode(encoding))
    assert Course(folder).secret == before


# ---- on any console, in any folder -----------------------------------------------------------------------------------

def test_a_console_with_few_letters_stops_no_command(tmp_path):
    done = subprocess.run([sys.executable, "-m", "lessons_lib", "new-course", "jesień Ω"], cwd=tmp_path,
                          env={**os.environ, "PYTHONIOENCODING": "cp1252", "PYTHONUTF8": "1"}, capture_output=True)
    assert done.returncode == 0 and done.stdout.startswith(b"New in jesie? ?: ") and done.stderr == b""


def test_no_command_needs_the_checkout_as_its_folder(tmp_path):
    done = subprocess.run([sys.executable, "-m", "lessons_lib", "new-course", "autumn"], cwd=tmp_path,
                          capture_output=True, text=True)
    assert done.returncode == 0 and (tmp_path / "autumn" / "secret.txt").exists() and done.stderr == ""
    assert Path(tmp_path / "autumn" / ".gitignore").read_text() == "*\n"
