"""The course folder: what is made, what is refused and in which sentence; tables and settings as people write them."""
import csv
import io
import os
import subprocess
import sys
from pathlib import Path

import pytest

from exercises_following import write_answers
from lessons_lib.__main__ import main
from lessons_lib.course.cards import bench_card
from lessons_lib.course.folder import Course, new_course
from lessons_lib.course.pack import read_lessons
from lessons_lib.course.settings import TEMPLATE, Late, read_settings
from lessons_lib.course.tables import defused, read_table, table_bytes
from lessons_lib.exercises.bench import read_card
from lessons_lib.exercises.sheet_file import write_whole


@pytest.fixture
def folder(tmp_path):
    new_course(tmp_path / "autumn", 12)
    return tmp_path / "autumn"


def one_sentence(words, capsys):
    """Run a command that fails; return what it said."""
    assert main(list(map(str, words))) == 1
    said = capsys.readouterr().err
    assert said.count("\n") == 1 and "Traceback" not in said
    return said


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
                                     "remove-course", "sheets", "received", "marks-table", "missing",
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


# ---- class list, benches, cards --------------------------------------------------------------------------------------

@pytest.mark.parametrize("text", ["bench;student\r\nB010;Ada, the first\r\n\r\nb1234;\r\n",
                                  "\ufeffBench,Student\nb010,\"Ada, the first\"\n b1234 \n",
                                  "bench\tstudent\nb010\tx\nb1234\t"])
def test_class_lists_as_people_save_them(folder, text):
    (folder / "class_list.csv").write_text(text, encoding="utf-8")
    assert list(Course(folder).students) == ["b010", "b1234"]


@pytest.mark.parametrize("text, words", [
    ("bench\nb010\nb010\n", "line 3: b010 is there twice"),
    ("bench,student\n\nb010,Ada\n,Eve\n", "line 4 has a name but no bench."), ("bench\n\nb17\n", "line 3: \"b17\""),
    ("bench\nb005\n", '"b005" is not a bench of a class'),
    ("bench\n../../x\n", "is not a bench of a class"), ("name\nb010\n", "in a column called bench"),
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


def test_a_missing_secret_is_one_sentence(folder):
    (folder / "secret.txt").unlink()
    with pytest.raises(ValueError, match="secret.txt is missing or empty"):
        Course(folder).secret


# ---- settings --------------------------------------------------------------------------------------------------------

def settings_of(tmp_path, text):
    path = tmp_path / "course.toml"
    path.write_text(text, encoding="utf-8")
    return read_settings(path)


def test_the_template_can_be_read_as_it_is_and_with_every_example_switched_on(tmp_path):
    plain = settings_of(tmp_path, TEMPLATE.format(title="autumn"))
    assert plain.title == "autumn" and plain.late == Late() and not plain.decimal_comma
    every = TEMPLATE.format(title="autumn").replace("\n# ", "\n").replace("Settings of this course. Lines that", "#")
    every = "\n".join(line for line in every.splitlines() if line[:1] in "[\"" or "=" in line)
    on = settings_of(tmp_path, every)
    assert on.answers == tmp_path / "../answers" and on.decimal_comma and on.late.percent_a_day == 10
    assert on.marks == {"1.3": 3} and on.slip_marks == {"1.1": {"pi": 0.5}} and on.extensions == {"b017": 2}


@pytest.mark.parametrize("text, words", [
    ("title = ", "cannot be read"), ("tolerance = 3", '"tolerance" is not a setting; there are title, answers'),
    ("title = 3", "title must be a text in quotes; got 3."), ("decimal_comma = 1", "must be true or false"),
    ("carried_forward = 2", "a share from 0 to 1"), ('[marks]\n"1.3" = -1', "a number from 0 for each name"),
    ('[marks]\n"1.3" = true', "a number from 0"), ('[marks]\n"1.3" = nan', "a number from 0"),
    ('[tolerances]\n"1.3" = 0', "a number above 0"), ('[slip_marks]\n"1.1" = 1', "a table of slip and marks"),
    ('[deadlines]\n"01" = 3', "such as 2030-10-10T18:00:00"),
    ('[late]\npercent = 3', '"percent" is not a setting of [late]'),
    ("late = 3", "late must be"), ("\udcff", "cannot be read"),
])
def test_settings_that_cannot_be_used(tmp_path, text, words):
    path = tmp_path / "course.toml"
    path.write_bytes(text.encode("utf-8", "surrogateescape"))
    with pytest.raises(ValueError, match="course.toml") as caught:
        read_settings(path)
    assert words in str(caught.value)


@pytest.mark.parametrize("text, words", [
    ('[marks]\n"9.9" = 1', "marks in course.toml names exercise 9.9, which no lesson has."),
    ('[slip_marks."1.1"]\nx = 1', 'exercise 1.1 has no slip "x"; it has open part, all of it, diameter for radius'),
    ('[slip_marks."1.4"]\nx = 1', "it has none"),
    ('[tolerances]\n"1.1" = 1.5', "exercise 1.1 takes a share below 1; got 1.5."),
    ('[tolerances]\n"1.4" = 0.1', "exercise 1.4 takes none; got 0.1."),
])
def test_settings_for_what_is_not_there(folder, tmp_path, text, words):
    answers = write_answers(tmp_path / "answers")
    (folder / "course.toml").write_text(f"answers = '{answers}'\n{text}", encoding="utf-8")
    with pytest.raises(ValueError) as caught:
        Course(folder).lessons
    assert words in str(caught.value)


@pytest.mark.parametrize("text, ids", [("1", ["01"]), ("1-3", ["01", "02", "03"]), ("00", ["00"]),
                                       (" 1 , 4-5,2", ["01", "02", "04", "05"])])
def test_lists_of_lessons(text, ids):
    assert read_lessons(text) == ids


@pytest.mark.parametrize("text", ["", "one", "1-", "3-1", "1..3", "٣", "100", "1,"])
def test_what_is_no_list_of_lessons(text):
    with pytest.raises(ValueError, match="names no lessons"):
        read_lessons(text)


# ---- lock ------------------------------------------------------------------------------------------------------------

def test_a_second_command_on_the_folder_is_told_busy(folder, capsys):
    with Course(folder).busy():
        assert f"{folder} is busy" in one_sentence(["mark", folder], capsys)
    with Course(folder).busy():     # the lock is gone with whoever held it
        pass


def test_the_lock_goes_with_a_process_that_is_killed(folder):
    code = f"from lessons_lib.course.folder import Course\nimport os\nfrom pathlib import Path\n" \
           f"with Course(Path({str(folder)!r})).busy(): os._exit(9)"
    assert subprocess.run([sys.executable, "-c", code]).returncode == 9
    with Course(folder).busy():
        pass


def test_a_file_is_the_old_one_or_the_new_one(tmp_path, monkeypatch):
    path = tmp_path / "marks.csv"
    write_whole(path, b"old")
    monkeypatch.setattr(Path, "write_bytes", lambda target, data: [target.open("wb").write(data[:2]), 1 / 0])
    with pytest.raises(ZeroDivisionError):
        write_whole(path, b"newer")
    assert path.read_bytes() == b"old"
    monkeypatch.undo()
    write_whole(path, b"newer")
    assert path.read_bytes() == b"newer" and [one.name for one in tmp_path.iterdir()] == ["marks.csv"]


# ---- tables ----------------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("text", ["=1+1", "+cmd", "-cmd", "@x",
                                  "  =1", "\t1", "\r=1", "\n\t=1", " \t x", "\xa0=1", "-1+1",
                                  "=", "-", "＝1", "-3.86 dB"])
def test_cells_that_would_run_are_defused(text):
    assert defused(text) == f"'{text}"


@pytest.mark.parametrize("text", ["-3.86", "+4", "-3,86", "1e-5", "-1E+5", "b017", "", "a = b", " x", "3-4", "'=1",
                                  "ü\nx"])
def test_other_cells_are_as_they_were(text):
    assert defused(text) == text


def test_tables_come_back_as_written():
    rows = [("b010", 1.5, None, 'say "x", or;\nnot'), ("=x", -2, 0, "\ud800")]
    for comma in (False, True):
        data = table_bytes(("a", "b", "c", "d"), rows, decimal_comma=comma)
        read = read_table(data)
        assert data.startswith(b"\xef\xbb\xbf") and data.count(b"\r\n") == 3
        assert read[0] == {"a": "b010", "b": "1,5" if comma else "1.5", "c": "", "d": 'say "x", or;\nnot'}
        assert read[1] == {"a": "'=x", "b": "-2", "c": "0", "d": "?"}
    plain = csv.reader(io.StringIO(data.decode("utf-8-sig"), newline=""), delimiter=";")
    assert [len(line) for line in plain] == [4, 4, 4]


def test_tables_in_two_more_encodings():
    assert read_table("bench\tx\r\nb010\tü\r\n".encode("utf-16")) == [{"bench": "b010", "x": "ü"}]
    assert read_table("bench;x\nb010;ü".encode("cp1252")) == [{"bench": "b010", "x": "ü"}]
    assert read_table(b"") == [] and read_table(b"a,b\n1\n") == [{"a": "1", "b": ""}]


def test_a_console_with_few_letters_stops_no_command(tmp_path):
    done = subprocess.run([sys.executable, "-m", "lessons_lib", "new-course", "jesień Ω"], cwd=tmp_path,
                          env={**os.environ, "PYTHONIOENCODING": "cp1252", "PYTHONUTF8": "1"}, capture_output=True)
    assert done.returncode == 0 and done.stdout.startswith(b"New in jesie? ?: ") and done.stderr == b""


def test_no_command_needs_the_checkout_as_its_folder(tmp_path):
    done = subprocess.run([sys.executable, "-m", "lessons_lib", "new-course", "autumn"], cwd=tmp_path,
                          capture_output=True, text=True)
    assert done.returncode == 0 and (tmp_path / "autumn" / "secret.txt").exists() and done.stderr == ""
    assert Path(tmp_path / "autumn" / ".gitignore").read_text() == "*\n"
