"""The course folder: what is made, what is refused and in which sentence; tables and settings as people write them."""
import csv
import errno
import io
import os
import subprocess
import sys
from pathlib import Path

import pytest

from exercises_following import write_answers
from lessons_lib.__main__ import main
from lessons_lib.course.folder import Course, bench_card
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.pack import read_lessons
from lessons_lib.course.settings import Late, new_settings, read_settings
from lessons_lib.course.tables import defused, numbered_rows, read_table, table_bytes
from lessons_lib.course.telling import in_words
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


# ---- settings --------------------------------------------------------------------------------------------------------

def settings_of(tmp_path, text):
    path = tmp_path / "course.toml"
    path.write_text(text, encoding="utf-8")
    return read_settings(path)


def test_the_template_can_be_read_as_it_is_and_with_every_example_switched_on(tmp_path):
    plain = settings_of(tmp_path, new_settings("autumn"))
    assert plain.title == "autumn" and plain.late == Late() and not plain.decimal_comma
    every = new_settings("autumn").replace("\n# ", "\n").replace("Settings of this course. Lines that", "#")
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
    ('[deadlines]\n"01" = 0001-01-01T00:00:00', "in the years from 1971 to 2999; got"),
    ('[deadlines]\n"01" = 9999-12-31T23:59:59', "in the years from 1971 to 2999; got"),
    ("[late]\nat_most = 150", "at_most"), ("[late]\nat_most = 150", "100"),
    ("[late]\npercent_a_day = 101", "percent_a_day must be from 0 to 100 (per cent); got 101."),
    ('[tolerance]\n"1.3" = 0.1', "Did you mean tolerances?"), ("[late]\nat_least = 3", "Did you mean at_most?"),
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
    ('[marks]\n"9.9" = 1', 'marks in course.toml must name an exercise; got "9.9".'),
    ('[tolerances]\n"1,3" = 0.1', 'tolerances in course.toml must name an exercise; got "1,3". Did you mean 1.3?'),
    ('[marks]\n"p1" = 3', "p1 is a prediction, which is never scored. Take its line out."),
    ('[marks]\n"m1" = 0.5', "m1 is a quick question, which is"),
    ('[slip_marks."1.1"]\n"open parts" = 1', "Did you mean open part?"),
    ('[deadlines]\n"1" = 2030-10-10T18:00:00',
     'deadlines in course.toml must name a lesson; got "1". Did you mean 01?'),
    ('[deadlines]\n"09" = 2030-10-10T18:00:00', 'must name a lesson; got "09".'),
    ('[extensions]\n"B017" = 2', 'extensions in course.toml must name a bench of the class; got "B017". Did you mean '
                                 'b017?'),
    ('[extensions]\n"b17" = 2', "Did you mean b017?"), ('[extensions]\n"17" = 2', "Did you mean b017?"),
    ('[extensions]\n"Anna" = 2', 'must name a bench of the class; got "Anna".'),
    ('[extensions]\n"b901" = 2', 'must name a bench of the class; got "b901".'),
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


def test_settings_for_what_is_there_are_taken(folder, tmp_path):
    (folder / "course.toml").write_text(f"answers = '{write_answers(tmp_path / 'answers')}'\n" + """
[marks]
"1.1" = 3
"p1" = 0
[deadlines]
"01" = 2030-10-10T18:00:00
[late]
percent_a_day = 100
at_most = 100
[extensions]
"b017" = 2
""", encoding="utf-8")
    assert list(Course(folder).lessons) == ["00", "01"]


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


def full(monkeypatch, from_the=0):
    """Have the disk be full from so many files on: a part is written, then no more; the error names no file."""
    written = []

    def write_bytes(path, data):
        written.append(path)
        with open(path, "wb") as file:
            file.write(data[:7])
        if len(written) <= from_the:
            return whole(path, data)
        raise OSError(errno.ENOSPC, "No space left on device")

    whole = Path.write_bytes
    monkeypatch.setattr(Path, "write_bytes", write_bytes)


@pytest.mark.parametrize("from_the, name", [*enumerate(["made_with.txt", "00.json", "01.json", ".zip", "cards.csv",
                                                        "cards.html"])])
def test_a_full_disk_at_give_out_names_the_file_and_leaves_nothing_beside(folder, from_the, name, monkeypatch, capsys):
    full(monkeypatch, from_the)
    said = one_sentence(["give-out", folder, "--lessons", "1"], capsys)
    assert f"{name} could not be written: No space left on device. What was there before is unchanged. Make" in said
    assert str(folder) in said and not list(folder.rglob("*.new"))
    monkeypatch.undo()
    assert main(["give-out", str(folder), "--lessons", "1"]) == 0


def test_a_folder_without_rights_is_told_as_a_folder(tmp_path):
    said = in_words(PermissionError(errno.EACCES, "Permission denied", str(tmp_path)))
    assert said.startswith(f"The folder {tmp_path} cannot be opened: you have no right to.")
    assert in_words(PermissionError(errno.EACCES, "Permission denied", "marks.csv")).startswith("marks.csv cannot be")


def test_a_full_disk_at_new_course_names_the_file(tmp_path, monkeypatch, capsys):
    def no_space(*where):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "replace", no_space)
    said = one_sentence(["new-course", tmp_path / "a"], capsys)
    assert ".gitignore could not be written: No space left on device." in said and not list(tmp_path.rglob("*.new"))


# ---- tables ----------------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("text", ["=1+1", "+cmd", "-cmd", "@x",
                                  "  =1", "\t1", "\r=1", "\n\t=1", " \t x", "\xa0=1", "-1+1",
                                  "=", "-", "＝1", "-3.86 dB"])
def test_cells_that_would_run_are_defused(text):
    assert defused(text).replace("\u200b", "") == f"'{text}"


INSIDE = ["x ;=1+1", "x ,=1+1", "x\t=1", "x\r\n=1", "x\n\t=1", 'x ;"=1+1; y', 'x\n"+cmd|x', "x;\xa0@SUM(1)",
          "a, -b, -c", "\n\t=1", "- one\n- two", "=1;=2", "x ;-1+1", 'x;""""=1', "x,＝1", "a;;=1;"]


@pytest.mark.parametrize("text", INSIDE)
@pytest.mark.parametrize("comma", [True, False])
def test_no_formula_in_a_program_that_is_set_to_another_separator(text, comma):
    """What Python's reader makes of the table, quotes and all, is what a spreadsheet would have to run."""
    table = table_bytes(("a", "b", "c"), [("b010", text, "z"), (text, "b", text)], decimal_comma=comma)
    for delimiter in ",;\t":
        for quoting in (csv.QUOTE_MINIMAL, csv.QUOTE_NONE):
            for row in csv.reader(io.StringIO(table.decode("utf-8-sig"), newline=""), delimiter=delimiter,
                                  quoting=quoting):
                assert [cell for cell in row if cell.strip().lstrip('"').strip()[:1] in tuple("=+-@＝")] == []


@pytest.mark.parametrize("text", INSIDE)
def test_a_text_reads_as_it_was(text):
    (row,) = read_table(table_bytes(("a", "b"), [("x", text)]))
    assert row["b"].removeprefix("'").replace("\u200b", "").strip() == text.strip()


@pytest.mark.parametrize("text", ["-3.86", "+4", "-3,86", "1e-5", "-1E+5", "b017", "", "a = b", " x", "3-4", "'=1",
                                  "ü\nx", "1,5; -3.86; +2", "a, b; c\nd", "x, -3,86", "1;-2e-3\n-4"])
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


def test_lines_are_counted_where_they_begin():
    table = b'a,b\n\n1,"two\nlines"\n2,x\n'
    assert [line for line, _ in numbered_rows(table)] == [3, 5]
    with pytest.raises(ValueError, match="^A table, line 5: a quotation mark is opened there and not closed"):
        numbered_rows(table.replace(b"x", b'"x'))


def test_a_console_with_few_letters_stops_no_command(tmp_path):
    done = subprocess.run([sys.executable, "-m", "lessons_lib", "new-course", "jesień Ω"], cwd=tmp_path,
                          env={**os.environ, "PYTHONIOENCODING": "cp1252", "PYTHONUTF8": "1"}, capture_output=True)
    assert done.returncode == 0 and done.stdout.startswith(b"New in jesie? ?: ") and done.stderr == b""


def test_no_command_needs_the_checkout_as_its_folder(tmp_path):
    done = subprocess.run([sys.executable, "-m", "lessons_lib", "new-course", "autumn"], cwd=tmp_path,
                          capture_output=True, text=True)
    assert done.returncode == 0 and (tmp_path / "autumn" / "secret.txt").exists() and done.stderr == ""
    assert Path(tmp_path / "autumn" / ".gitignore").read_text() == "*\n"
