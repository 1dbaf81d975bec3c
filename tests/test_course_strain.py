"""Marking under strain: a thousand damaged files, runs that are killed, disks that are full; large classes."""
import builtins
import errno
import random
import re
import shutil
from pathlib import Path

import pytest

from benchmark_course import make_returns, outputs
from lessons_lib.__main__ import main
from lessons_lib.course import marks_folder
from lessons_lib.course.folder import Course
from lessons_lib.course.mark import mark
from lessons_lib.course.settings import CHECKOUT
from small_class import exercise

# ---- damaged files ---------------------------------------------------------------------------------------------------

def damaged(data, dice):
    """A return that was cut, flipped, doubled, or that has something put in."""
    place, other = sorted(dice.randrange(len(data)) for _ in range(2))
    return dice.choice((
        data[:place], data[:place] + data[other:], data[:other] + data[place:],
        data[:place] + bytes([data[place] ^ 1 << dice.randrange(8)]) + data[place + 1:],
        data[:place] + dice.choice((b"NaN", b"[" * 5000, b"\xff", b"9" * 5000, b"\\ud800", b'"a":1,')) + data[place:]))


def test_a_thousand_damaged_files_change_no_mark(tmp_path):
    course = make_returns(tmp_path / "course", 48)
    mark(course)
    before, dice = (course.folder / "marks/marks.csv").read_bytes(), random.Random(5)
    whole = sorted((course.folder / "returned").rglob("*.json"))
    (course.folder / "returned" / "damaged").mkdir()
    for number in range(1000):
        data = damaged(dice.choice(whole).read_bytes(), dice)
        (course.folder / "returned" / "damaged" / f"{number}.json").write_bytes(data)
    done = mark(Course(course.folder))
    assert (course.folder / "marks/marks.csv").read_bytes() == before and done.moved == []
    # a flipped blank harms nobody; all the others are listed, each with a reason
    assert len(done.not_read) > 900 and all(reason and len(reason) < 200 for _, reason in done.not_read)


def test_a_file_that_changes_while_marking_is_one_sentence(small, monkeypatch, capsys):
    path = small.give_back(small.student())
    monkeypatch.setattr("lessons_lib.course.mark.read_returned",
                        lambda course, given_out, times: read_then_lost(course, path))
    assert main(["mark", str(small.folder)]) == 1
    assert "return-b010-01.json changed while marking: it is incomplete" in capsys.readouterr().err


def read_then_lost(course, path):
    from lessons_lib.course.returned import Arrival
    path.write_bytes(b"{")
    folder = course.folder / "returned"
    return {("b010", "01"): [Arrival(folder=folder, file=path.relative_to(folder).as_posix(), received=None)]}, []


# ---- killed ----------------------------------------------------------------------------------------------------------

class Killed(BaseException):
    """Like the end of a process: nothing in the program catches it."""


def dying_at(monkeypatch, moment):
    """Let the process end at its n-th touch of the disk: before a write, in the middle of it, or between two moves."""
    touches = iter(range(10_000))
    write, replace = Path.write_bytes, marks_folder.os.replace

    def write_bytes(path, data):
        if next(touches) == moment:
            raise Killed
        if next(touches) == moment:
            write(path, data[:len(data) // 2])
            raise Killed
        return write(path, data)

    def moved(source, target):
        if next(touches) == moment:
            raise Killed
        replace(source, target)

    monkeypatch.setattr(Path, "write_bytes", write_bytes)
    monkeypatch.setattr(marks_folder.os, "replace", moved)
    monkeypatch.setattr(marks_folder.Staged, "_drop", lambda self: None)      # a dead process tidies nothing up


def test_killed_at_fifty_moments_a_next_run_ends_the_same(tmp_path, monkeypatch):
    start = make_returns(tmp_path / "start", 13, ids=["00"]).folder
    shutil.copytree(start, tmp_path / "whole")
    mark(Course(tmp_path / "whole"))
    undisturbed, died = outputs(tmp_path / "whole"), 0
    for moment in range(50):
        folder = tmp_path / "killed"
        shutil.copytree(start, folder)
        with monkeypatch.context() as patch:
            dying_at(patch, moment)
            try:
                mark(Course(folder))
            except Killed:
                died += 1
        mark(Course(folder))
        assert outputs(folder) == undisturbed, moment
        shutil.rmtree(folder)
    assert died == 50


# ---- no space, read-only ---------------------------------------------------------------------------------------------

@pytest.fixture
def marked_twice(essays, monkeypatch):
    """Marked once, then more was returned; the old results are kept beside."""
    student = essays.student("b012")
    student.all_right()
    essays.give_back(student)
    essays.old = outputs(essays.folder)
    return essays


@pytest.mark.parametrize("number", range(8))
def test_a_disk_that_is_full_leaves_the_old_results_and_one_sentence(marked_twice, number, monkeypatch, capsys):
    write, calls = Path.write_bytes, iter(range(99))

    def full(path, data):
        if next(calls) == number:
            write(path, data[:3])
            raise OSError(errno.ENOSPC, "No space left on device", str(path))
        return write(path, data)

    monkeypatch.setattr(Path, "write_bytes", full)
    assert main(["mark", str(marked_twice.folder)]) == 1
    said = capsys.readouterr().err
    assert said.count("\n") == 1 and "could not be written: No space left on device" in said and "is unchanged" in said
    assert outputs(marked_twice.folder) == marked_twice.old
    monkeypatch.undo()
    marked_twice.mark()
    assert outputs(marked_twice.folder) != marked_twice.old


def test_a_folder_that_may_only_be_read(marked_twice, monkeypatch, capsys):
    def read_only(path, *_, **__):
        raise OSError(errno.EROFS, "Read-only file system", str(path))

    monkeypatch.setattr(marks_folder.shutil, "copyfile", read_only)
    assert main(["mark", str(marked_twice.folder)]) == 1
    said = capsys.readouterr().err
    assert "history.jsonl could not be written: Read-only file system" in said and said.count("\n") == 1
    assert outputs(marked_twice.folder) == marked_twice.old


def test_a_history_that_cannot_be_lengthened(marked_twice, monkeypatch, capsys):
    class Full:
        def __init__(self, file):
            self._file = file

        def __getattr__(self, name):
            return getattr(self._file, name)

        def __enter__(self):
            return self

        def __exit__(self, *_):
            self._file.close()

        def write(self, data):
            raise OSError(errno.ENOSPC, "No space left on device")

    real = builtins.open
    monkeypatch.setattr(builtins, "open", lambda *words, **more: Full(real(*words, **more)) if words[1:] == ("ab",)
                        and str(words[0]).endswith("history.jsonl.new") else real(*words, **more))
    assert main(["mark", str(marked_twice.folder)]) == 1
    assert "No space left on device" in capsys.readouterr().err and outputs(marked_twice.folder) == marked_twice.old


# ---- extensions ------------------------------------------------------------------------------------------------------

LATE = """
deadlines = { "01" = 2030-03-01T18:00:00+01:00 }
late = { percent_a_day = 10, at_most = 35 }
extensions = { b012 = 1 }
"""


@pytest.mark.parametrize("table, totals", [
    ("bench,lesson,days\nb010,1,2\n", ("1.8", "1.4", "1.6")), ("bench;days\nB011;2,5\n", ("1.4", "2", "1.6")),
    ("Bench,Days,Lesson\nb010,1,01\nb010,2,\nb012,3,00\n", ("1.8", "1.4", "1.6")),
    ("bench,days\nb012,3\nb012,1\n", ("1.4", "1.4", "2"))])
def test_extensions_by_a_table(small, table, totals):
    """Three benches, each two and a half days late, which is three begun: 30 % off."""
    received = ["file,received"]
    for bench in ("b010", "b011", "b012"):
        student = small.student(bench)
        student.right(exercise(student, "1.1"))
        received.append(f"{bench}/{small.give_back(student).name},2030-03-04T06:00:00+01:00")
    small.settings(LATE)
    (small.folder / "received.csv").write_text("\n".join(received))
    (small.folder / "extensions.csv").write_text(table, encoding="utf-8-sig")
    small.mark()
    assert tuple(small.rows[bench]["total"] for bench in ("b010", "b011", "b012")) == totals


@pytest.mark.parametrize("table, said", [
    ("bench,days\nb999,2\n", 'line 2: "b999" is not in class_list.csv'), ("bench,days\nb11,2\n", "Did you mean b011?"),
    ("x,days\nb010,2\n", "column called bench"),
    ("bench,days\nb010,soon\n", 'line 2: "soon" is not a number of days'), ("bench\nb010\n", "is not a number of days"),
    ("bench,days\nb010,-1\n", "not a number of days"), ("bench,days\nb010,nan\n", "not a number of days"),
    ("bench,lesson,days\nb010,77,2\n", 'there is no lesson "77"')])
def test_extensions_that_cannot_be_used(small, table, said, capsys):
    (small.folder / "extensions.csv").write_text(table)
    assert main(["mark", str(small.folder)]) == 1
    error = capsys.readouterr().err
    assert said in error and error.startswith("extensions.csv, line 2") and error.count("\n") == 1


# ---- nothing goes out, nothing runs ----------------------------------------------------------------------------------

def test_the_instructors_rooms_know_no_network_and_start_no_program():
    """git is asked whether it ignores a new course folder, and for stored pages; nothing else is started or called."""
    allowed = {"folder.py": {"subprocess"}}
    for path in (CHECKOUT / "lessons_lib" / "course").glob("*.py"):
        words = set(re.findall(r"^\s*(?:import|from) (\w+)", path.read_text(encoding="utf-8"), re.MULTILINE))
        forbidden = {"socket", "urllib", "http", "requests", "smtplib", "ftplib", "ssl", "subprocess", "pickle",
                     "webbrowser"}
        assert words & forbidden <= allowed.get(path.name, set()), path.name


def test_output_names_come_from_the_class_list_only(term):
    names = {path.relative_to(term / "marks").as_posix() for path in (term / "marks").rglob("*") if path.is_file()}
    benches = Course(term).students
    assert names - {f"notes/{bench}.html" for bench in benches} == {
        "marks.csv", "class_report.html", "history.jsonl", "not_read.csv", "open_questions.csv", "unclear.csv"}


def test_names_stand_nowhere_but_on_the_class_list_and_the_cards(own_term):
    main(["give-out", str(own_term)])
    main(["mark", str(own_term)])
    main(["key", str(own_term)])
    main(["worked-answers", str(own_term), "--bench", "b010"])
    named = {path.name for path in own_term.rglob("*")
             if path.is_file() and b"Namesake" in path.read_bytes()}
    assert named == {"class_list.csv", "cards.csv", "cards.html"}
