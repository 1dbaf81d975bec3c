"""Marks again: what is not read, what moved and why, a run that is killed; worked answers."""
import json
import re
import shutil
from pathlib import Path

import pytest

from exercises_following import write_answers
from lessons_lib.__main__ import main
from lessons_lib.base.units import with_unit
from lessons_lib.course import mark as mark_module
from lessons_lib.course.folder import Course, bench_card
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.pack import give_out
from lessons_lib.course.tables import read_table
from lessons_lib.exercises import returns, sheet_file
from lessons_lib.exercises.returns import LARGEST
from small_class import exercise, write_open_questions

# ---- what is not read ------------------------------------------------------------------------------------------------

def test_reasons_for_whole_returns_that_do_not_count(small):
    def rewritten(path, name, **parts):
        content = json.loads(path.read_bytes())
        del content["check"]
        content |= parts
        content["check"] = returns._check_code(content)
        (small.folder / "returned" / name).write_text(json.dumps(content))

    path, secret = small.give_back(small.student()), small.course.secret
    for bench in ("b901", "b555"):
        rewritten(path, f"{bench}.json", bench=bench, code=bench_card(secret, bench)[5:])
    rewritten(path, "lesson.json", lesson="02")
    with open(small.folder / "returned" / "large.json", "wb") as file:
        file.truncate(LARGEST + 1)
    assert dict(small.mark().not_read) == {
        "b901.json": "bench b901 is not in class_list.csv. It is a spare one: add a line for it there.",
        "b555.json": "bench b555 is not in class_list.csv.", "lesson.json": "lesson 02 was not given out to b010",
        "large.json": "it is larger than 4 MB"}
    assert [row["file"] for row in read_table((small.folder / "marks/not_read.csv").read_bytes())] == [
        "b555.json", "b901.json", "large.json", "lesson.json"]


def test_reasons_say_what_to_do(small):
    student = small.student()
    student.type("1.1", 5.5)
    shutil.copy(student.home / student.machine / "log-b010.jsonl", small.folder / "returned")
    student.card = bench_card("another secret", "b010")
    student.start("own")
    small.give_back(student)
    assert dict(small.mark().not_read) == {
        "log-b010.jsonl": "it is the log of the work: ask for the return that sheet.return_work() writes beside it",
        "b010/return-b010-01.json": "the code is not that of bench b010; it is from another course, or the card was "
                                    "mistyped: ask for a return made with this course's card"}


def test_verdicts_are_not_believed(small):
    """Whatever a student writes into the file, the numbers are looked at afresh."""
    student = small.student()
    student.type("1.1", 5.01)
    path = small.give_back(student)
    path.write_bytes(path.read_bytes().replace(b'"event": "answer"', b'"event": "answer", "state": "right"'))
    small.mark()
    assert small.rows["b010"]["1.1"] == ""


# ---- again, and what moved -------------------------------------------------------------------------------------------

def outputs(folder):
    """Everything that marking wrote, the times of the history left out."""
    found = {path.relative_to(folder).as_posix(): path.read_bytes()
             for path in (folder / "marks").rglob("*") if path.is_file()}
    return {name: re.sub(rb'"time": "[^"]*"', b"", data) for name, data in found.items()}


def test_marking_again_changes_nothing_and_names_no_time(essays):
    before = (essays.folder / "marks/history.jsonl").read_bytes()
    first = outputs(essays.folder)
    assert essays.mark().moved == [] and outputs(essays.folder) == first
    assert (essays.folder / "marks/history.jsonl").read_bytes() == before
    for name, data in first.items():
        assert name == "marks/history.jsonl" or not re.search(rb"20\d\d-\d\d-\d\d|\d\d:\d\d", data), name


def test_what_moved_is_explained_and_kept(small, capsys):
    student = small.student()
    student.wrong(exercise(student, "1.1"), factor=1.15)
    small.give_back(student)
    main(["mark", str(small.folder)])
    assert "Since the last marking" not in capsys.readouterr().out
    student.right(exercise(student, "1.1"))
    small.give_back(student)
    shutil.copytree(small.folder / "returned" / "b010", small.folder / "returned" / "copy")
    main(["mark", str(small.folder)])
    assert "  b010 1.1: 0 (not yet), now 2 (right); other answers were returned.\n" in capsys.readouterr().out
    last = json.loads((small.folder / "marks/history.jsonl").read_text().splitlines()[-1])
    assert last["moved"] == ["b010 1.1: 0 (not yet), now 2 (right); other answers were returned."]
    assert len((small.folder / "marks/history.jsonl").read_text().splitlines()) == 2


def test_a_bench_that_returned_since_is_one_line(small):
    small.give_back(small.student())
    small.mark()
    student = small.student("b012")
    student.all_right()
    small.give_back(student)
    assert small.mark().moved == ["b012 lesson 01: returned since then, 8 marks."]


def test_a_return_taken_away_is_explained_and_its_page_goes(small):
    path = small.give_back(small.student())
    small.mark()
    path.unlink()
    assert small.mark().moved == ["b010 lesson 01: 0 marks, now none; no return of it can be read any more."]
    assert not (small.folder / "marks/notes/b010.html").exists() and small.rows["b010"]["total"] == ""


@pytest.mark.parametrize("version, why", [(2, "the model answers have a new version"),
                                          (1, "the model answers changed under the same version")])
def test_model_answers_that_changed_are_named(small, version, why):
    student = small.student()
    student.right(exercise(student, "1.4"))
    small.give_back(student)
    small.mark()
    write_answers(small.answers, f"""
from dataclasses import replace
from exercises_following import GARDEN
LESSON = replace(GARDEN, version={version}, exercises=tuple(
    replace(one, right="a") if one.id == "1.4" else one for one in GARDEN.exercises))
""")
    done = small.mark()
    assert done.moved == [f"b010 1.4: 1 (right), now 0 (not yet); {why}."]
    assert ("under version 1 of the model answers; marked under version 2" in "".join(done.remarks)) == (version == 2)


def test_a_torn_line_of_the_history_is_passed_over(small):
    student = small.student()
    small.give_back(student)
    small.mark()
    path = small.folder / "marks/history.jsonl"
    with open(path, "ab") as file:
        file.write(b'{"time": "20')
    student.right(exercise(student, "1.1"))
    small.give_back(student)
    assert len(small.mark().moved) == 1 and small.mark().moved == []
    assert len(path.read_bytes().splitlines()) == 3


def test_killed_at_any_moment_a_second_run_ends_the_same(essays, monkeypatch):
    write_open_questions(essays, "which,marks\nb010 1.5,2\n")
    student = essays.student("b012")
    student.all_right()
    essays.give_back(student)
    start = essays.home / "start"
    shutil.copytree(essays.folder, start)
    essays.mark()
    undisturbed = outputs(essays.folder)
    replaced = sheet_file.os.replace
    for moment in range(40):
        shutil.rmtree(essays.folder)
        shutil.copytree(start, essays.folder)
        calls = iter(range(99))

        def dying(*paths):
            if next(calls) == moment:
                raise KeyboardInterrupt
            replaced(*paths)

        monkeypatch.setattr(sheet_file.os, "replace", dying)
        try:
            essays.mark()
            died = False
        except KeyboardInterrupt:
            died = True
        monkeypatch.setattr(sheet_file.os, "replace", replaced)
        essays.mark()
        assert outputs(essays.folder) == undisturbed, moment
        if not died:
            break
    assert 5 < moment < 39


def test_a_table_that_is_open_elsewhere_is_one_sentence(essays, monkeypatch, capsys):
    def refused(source, target):
        raise PermissionError(13, "Permission denied", str(source), None, str(target))

    monkeypatch.setattr(sheet_file.os, "replace", refused)
    assert main(["mark", str(essays.folder)]) == 1
    said = capsys.readouterr().err
    assert "marks.csv cannot be written or read. Is it open in another program?" in said and said.count("\n") == 1


def test_the_command_says_what_it_wrote_and_what_next(essays, capsys):
    assert main(["mark", str(essays.folder)]) == 0
    said = capsys.readouterr()
    assert "Work from 2 of 3 benches" in said.out and "(texts not yet marked: 2)" in said.out
    assert ("\nNext: read class_report.html; write marks into the column marks of open_questions.csv and mark "
            "again.\n") in said.out
    assert said.err == "" and mark_module.__doc__
    write_open_questions(essays, "which,marks\nb010 1.5,2\nb011 1.5,1\n")
    (essays.folder / "returned/empty.json").touch()
    main(["mark", str(essays.folder)])
    assert ("\nNext: look at not_read.csv; read class_report.html; give each student the page of their bench in "
            "notes.\n"
            in capsys.readouterr().out)


# ---- worked answers --------------------------------------------------------------------------------------------------

def test_worked_answers_have_the_benchs_own_numbers_rubrics_and_notes(small, capsys):
    assert main(["worked-answers", str(small.folder), "--bench", " B011 "]) == 0
    page = (small.folder / "worked/b011.html").read_text(encoding="utf-8")
    student = small.student("b011")
    for exercise_id in ("1.1", "1.2", "1.3", "1.6"):
        one = exercise(student, exercise_id)
        assert with_unit(f"{student.drawn(one).answer:.4g}", one.unit) in page
    assert "names a tool" in page and "Bring a compass." in page and "Both, because they share a post." in page
    assert "b011.html: for your eyes" in capsys.readouterr().out


@pytest.mark.parametrize("bench", ["b999", "../../x", "", "b000"])
def test_a_bench_that_was_given_nothing_is_one_sentence(small, bench, capsys):
    assert main(["worked-answers", str(small.folder), "--bench", bench]) == 1
    assert "Nothing has been given out to" in capsys.readouterr().err and not (small.folder / "worked").exists()


def test_worked_answers_of_the_real_lessons(tmp_path):
    new_course(tmp_path, 1)
    give_out(Course(tmp_path), ["01"])
    main(["worked-answers", str(tmp_path), "--bench", "b010"])
    page = Path(tmp_path / "worked/b010.html").read_text(encoding="utf-8")
    assert "<h3>1.8, " in page and "**" not in page


def test_files_that_do_not_count_are_named_when_they_are_new(small, capsys):
    small.give_back(small.student())
    (small.folder / "returned" / "page.ipynb").write_text("{}")
    assert main(["mark", str(small.folder)]) == 0 and "New in not_read.csv" not in capsys.readouterr().out
    (small.folder / "returned" / "photo.png").write_bytes(b"\x89PNG")
    main(["mark", str(small.folder)])
    assert "New in not_read.csv: photo.png." in capsys.readouterr().out
    (small.folder / "marks" / "not_read.csv").write_bytes(b"\xff\xfe\x00")
    assert main(["mark", str(small.folder)]) == 0


def test_who_leaves_the_class_list_is_not_said_to_have_no_return(small):
    small.give_back(small.student())
    small.mark()
    table = small.folder / "class_list.csv"
    table.write_text(table.read_text(encoding="utf-8-sig").replace("b010,\n", "").replace("b010,\r\n", ""))
    told, = small.mark().moved
    assert told == ("b010 lesson 01: 0 marks, now none; the bench is not in class_list.csv any more, and its returns "
                    "stay where they are.")
