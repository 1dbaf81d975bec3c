"""Marks: an invented class gets what is due; what moved is explained; nothing that comes back can do harm."""
import json
import re
import shutil
from pathlib import Path
from types import MappingProxyType

import pytest

from invented_class import NOT_READ, PARTS, compare, play
from invented_student import Student, unpack
from lessons_lib.__main__ import main
from lessons_lib.course import mark as mark_module
from lessons_lib.course.cards import bench_card
from lessons_lib.course.folder import Course, new_course
from lessons_lib.course.mark import mark
from lessons_lib.course.pack import give_out
from lessons_lib.course.tables import read_table
from lessons_lib.exercises import common_slips, declaration, draws, returns, sheet_file
from lessons_lib.exercises.returns import LARGEST
from lessons_lib.exercises.units import with_unit
from lessons_lib.exercises.verdicts import State
from exercises_following import write_answers

SECRET = "a fixed secret of at least thirty-two characters\n"


# ---- the invented class ----------------------------------------------------------------------------------------------

@pytest.mark.parametrize("made_up", [False, True], ids=["lesson 01", "garden"])
def test_each_of_thirty_benches_gets_what_is_due(tmp_path, made_up):
    answers = write_answers(tmp_path / "answers") if made_up else None
    course, due, totals = play(tmp_path, answers=answers)
    done = mark(Course(course.folder))
    assert len(due) == 30 and list(compare(course, due, totals)) == []
    unread = {file.split("/")[0].split(" ")[0]: reason for file, reason in done.not_read}
    parts = dict(zip(due, PARTS))
    assert {bench for bench in unread if bench in due} == {bench for bench, part in parts.items() if part in NOT_READ}
    assert {"photo.jpg", "empty.json", "=cmd.json"} < set(unread) and ".DS_Store" not in unread
    assert "the code is not the one of bench" in unread[next(b for b, p in parts.items() if p.__name__ == "wrong_code")]
    # and a mark that is not due would be seen
    path = course.folder / "marks" / "marks.csv"
    path.write_bytes(re.sub(rb"(?m)^(b010,)([\d.]+)", rb"\g<1>1\2", path.read_bytes()))
    assert [line[:4] for line in compare(course, due, totals)] == ["b010"]


# ---- a small class for single questions ------------------------------------------------------------------------------

class SmallClass:
    """Three benches on the garden lesson."""

    def __init__(self, folder):
        self.home = folder
        new_course(folder / "course", 3)
        self.folder = folder / "course"
        (self.folder / "secret.txt").write_text(SECRET)
        self.answers = write_answers(folder / "answers")
        self.settings()
        self.notebooks = unpack(give_out(self.course, ["01"])[0], folder / "unpacked")

    @property
    def course(self):
        return Course(self.folder)

    def settings(self, more=""):
        (self.folder / "course.toml").write_text(f"answers = '{self.answers}'\n{more}", encoding="utf-8")

    def student(self, bench="b010"):
        course = self.course
        return Student(bench=bench, card=bench_card(course.secret, bench), lesson=course.lessons["01"],
                       notebooks=self.notebooks, home=self.home / "students" / bench)

    def give_back(self, student, folder=""):
        return student.give_back(self.folder / "returned", folder)[0]

    def mark(self):
        done = mark(self.course)
        rows = read_table((self.folder / "marks/marks.csv").read_bytes())
        self.rows = {row["bench"]: {name.partition(" (")[0]: cell for name, cell in row.items()} for row in rows}
        return done

    def text(self, name):
        return (self.folder / "marks" / name).read_text(encoding="utf-8-sig")


@pytest.fixture
def small(tmp_path, monkeypatch):
    made = SmallClass(tmp_path)
    made.patch = monkeypatch.setattr
    return made


def exercise(student, id):
    return student.lesson[id]


def test_empty_is_not_returned_and_0_is_returned_and_wrong(small):
    student = small.student()
    small.give_back(student)
    small.mark()
    assert small.rows["b010"]["total"] == small.rows["b010"]["1.1"] == "0"
    assert set(small.rows["b011"].values()) == {"b011", ""}
    assert list(small.rows["b010"]) == ["bench", "total", "lesson 01", "01 check code",
                                        "1.1", "1.2", "1.3", "1.4", "1.5", "1.6"]


def test_the_instructors_list_shows_the_code_that_the_student_saw(small):
    student = small.student()
    student.all_right()
    _, verdict = student.give_back(small.folder / "returned")
    small.mark()
    assert f"Its check code is {small.rows['b010']['01 check code']};" in verdict.text


def test_right_in_the_notebook_is_right_in_the_marks_at_both_edges(small):
    for number, factor in enumerate((0.98, 0.9799999, 1.02, 1.0200001)):
        shutil.rmtree(small.home / "students", ignore_errors=True)
        student = small.student()
        verdict = student.type("1.1", student.drawn(exercise(student, "1.1")).answer * factor)
        small.give_back(student)
        small.mark()
        assert (verdict.state == State.RIGHT) == (small.rows["b010"]["1.1"] == "2") == (number % 2 == 0)


def test_marking_draws_nothing_again(small, monkeypatch):
    student = small.student()
    student.all_right()
    small.give_back(student)
    monkeypatch.setattr(draws, "draw_once", lambda *_, **__: pytest.fail("a draw"))
    (small.folder / "secret.txt").write_text(SECRET)
    small.mark()
    assert small.rows["b010"]["1.1"] == "2"


def test_marks_and_tolerances_of_the_course(small):
    student = small.student()
    student.wrong(exercise(student, "1.1"), factor=1.05)
    student.right(exercise(student, "1.4"))
    small.give_back(student)
    small.mark()
    assert small.rows["b010"]["1.1"] == "0"
    small.settings('[marks]\n"1.1" = 5\n"1.4" = 0\n[tolerances]\n"1.1" = 0.06')
    small.mark()
    assert small.rows["b010"]["1.1"] == "5" and "1.4" not in small.rows["b010"]


def test_marks_for_a_slip_are_a_setting_and_0_without_it(small):
    student = small.student()
    right = student.drawn(exercise(student, "1.1")).answer
    student.type("1.1", float(f"{4 * right:.4g}"))      # diameter for radius, one of the common ones
    small.give_back(student)
    small.mark()
    assert small.rows["b010"]["1.1"] == "0"
    small.settings('slip_marks = { "1.1" = { "diameter for radius" = 0.5 } }')
    done = small.mark()
    assert small.rows["b010"]["1.1"] == "0.5" and "its settings changed" in done.moved[0]
    student.type("1.1", float(f"{1.2 * right:.4g}"))    # the last readable answer counts
    small.give_back(student)
    assert "0.5 (slip: diameter for radius), now 0 (not yet); other answers were returned." in small.mark().moved[0]


def test_an_own_slip_is_meant_before_a_common_one(small):
    student = small.student()
    given = student.sheet.given("1.2")      # the first of five speeds; their mean is 0.645 of it for every bench
    student.type("1.2", given["speed"][0])
    small.give_back(student)
    write_answers(small.answers, """
from dataclasses import replace
from lessons_lib.exercises import common_slips
from exercises_following import GARDEN
LESSON = replace(GARDEN, exercises=tuple(
    replace(one, common=("half pi",)) if one.id == "1.2" else one for one in GARDEN.exercises))
""")
    half_pi = common_slips.CommonSlip((1.55,), "A factor of 1.55?")
    wider = MappingProxyType({**common_slips.COMMON_SLIPS, "half pi": half_pi})
    for module in (common_slips, declaration, draws):
        small.patch(module, "COMMON_SLIPS", wider)
    small.settings('slip_marks = { "1.2" = { "half pi" = 1, "first only" = 0.25 } }')
    small.mark()
    assert small.rows["b010"]["1.2"] == "0.25"


def test_carried_forward_is_shown_and_its_share_is_a_setting(small):
    student = small.student()
    pond, bank = exercise(student, "1.1"), exercise(student, "1.6")
    student.wrong(pond, factor=1.15)
    own = 1.15 * student.drawn(pond).answer
    assert "builds on 1.1" in student.type("1.6", float(f"{own / student.sheet.given('1.6')['depth']:.4g}")).text
    small.give_back(student)
    small.mark()
    assert (small.rows["b010"]["1.1"], small.rows["b010"]["1.6"]) == ("0", str(bank.marks))
    page = small.text("notes/b010.html")
    assert "Carried forward. Marked with your own answer to 1.1: from there the way is right." in page
    small.settings("carried_forward = 0.5")
    small.mark()
    assert small.rows["b010"]["1.6"] == "1.5"


def test_the_page_of_notes_escapes_and_shows_no_right_value(small):
    student = small.student()
    student.type("1.5", "<script>alert('x')</script> =1+1 " * 9)
    student.type("1.1", 5.5)
    small.give_back(student)
    small.mark()
    page = small.text("notes/b010.html")
    assert "<script" not in page and "&lt;script&gt;" in page
    assert "0 of 11 marks without what waits for reading." in page
    assert "waits, of 3" in page and with_unit("5.5", "mm2") in page
    for id in ("1.1", "1.2", "1.3", "1.6"):
        assert f"{abs(student.drawn(exercise(student, id)).answer):.3g}" not in page
    student.type("1.5", "shorter")
    small.give_back(student)
    small.mark()
    assert "&lt;script" not in small.text("notes/b010.html")        # of open texts the last


# ---- open questions --------------------------------------------------------------------------------------------------

@pytest.fixture
def essays(small):
    for bench in ("b010", "b011"):
        student = small.student(bench)
        student.type("1.5", f"=HYPERLINK({bench}); a spade; \n\"quoted\", and so on" * 3)
        small.give_back(student)
    small.mark()
    return small


def write_open_questions(small, text, encoding="utf-8"):
    (small.folder / "marks/open_questions.csv").write_bytes(text.encode(encoding))


def test_texts_stand_side_by_side_with_a_blank_column(essays):
    rows = read_table((essays.folder / "marks/open_questions.csv").read_bytes())
    assert [(row["which"], row["most"], row["marks"]) for row in rows] == [("b010 1.5", "3", ""), ("b011 1.5", "3", "")]
    assert rows[0]["text"].startswith("'=HYPERLINK(b010); a spade; \n\"quoted\"")
    assert essays.rows["b010"]["1.5"] == "to mark" and essays.rows["b010"]["total"] == "0"


@pytest.mark.parametrize("text, encoding", [
    ("which,marks\r\nb010 1.5,2.5\r\n", "utf-8"), ("\ufeffWhich;most;Marks;text\r\nb010 1.5;3;2,5;x\r\n", "utf-8"),
    ("which\tmarks\nb010 1.5\t2,5\n", "utf-16"), ("which;marks;text\nb010 1.5;'2,5;ü\n", "cp1252")])
def test_marks_are_read_back_as_spreadsheets_save_them(essays, text, encoding):
    write_open_questions(essays, text, encoding)
    done = essays.mark()
    assert essays.rows["b010"]["1.5"] == essays.rows["b010"]["total"] == "2.5" and done.waiting == 1
    assert done.moved == ["b010 1.5: marked by hand: 2.5."]
    assert essays.mark().moved == [] and essays.rows["b010"]["1.5"] == "2.5"
    assert "2.5 of 3" in essays.text("notes/b010.html")


def test_a_decimal_comma_by_setting_comes_back(essays):
    write_open_questions(essays, "which,marks\nb010 1.5,2.5\n")
    essays.settings("decimal_comma = true")
    essays.mark()
    assert "b010 1.5;3;2,5;" in essays.text("open_questions.csv") and ";2,5;" in essays.text("marks.csv")
    assert essays.mark().moved == []


def test_only_the_marks_column_is_read_back(essays):
    write_open_questions(essays, "which,most,marks,text\nb010 1.5,99,2,another text\n"
                                 "b999 1.5,3,3,\nb011 9.9,3,1,\nx,,3,\n")
    essays.mark()
    text = essays.text("open_questions.csv")
    assert "b010 1.5,3,2," in text and "another text" not in text and "b999" not in text and "9.9" not in text


@pytest.mark.parametrize("cell", ["4", "-1", "good", "nan", "=2", "1e9", "2 of 3"])
def test_what_is_no_mark_is_said_and_left_as_typed(essays, cell):
    write_open_questions(essays, f"which,marks\nb010 1.5,{cell}\n")
    done = essays.mark()
    assert f'open_questions.csv, b010 1.5: "{cell}" is no mark from 0 to 3.' in done.remarks
    assert essays.rows["b010"]["1.5"] == "to mark"
    rows = read_table((essays.folder / "marks/open_questions.csv").read_bytes())
    assert rows[0]["marks"].lstrip("'") in (cell, "1000000000")


def test_a_row_that_is_gone_keeps_its_mark_and_an_emptied_one_loses_it(essays):
    write_open_questions(essays, "which,marks\nb010 1.5,2\nb011 1.5,1\n")
    essays.mark()
    write_open_questions(essays, "which,marks\nb011 1.5,\n")
    essays.mark()
    assert (essays.rows["b010"]["1.5"], essays.rows["b011"]["1.5"]) == ("2", "to mark")
    (essays.folder / "marks/open_questions.csv").unlink()
    essays.mark()
    assert essays.rows["b010"]["1.5"] == "2"


def test_a_text_that_changed_after_its_mark_is_pointed_out(essays):
    write_open_questions(essays, "which,marks\nb010 1.5,2\n")
    essays.mark()
    student = essays.student("b010")
    student.type("1.5", "Quite another text.")
    essays.give_back(student)
    assert essays.mark().remarks == [
        "b010 1.5: the text is another one than at the last marking; look at its mark again."]
    assert essays.rows["b010"]["1.5"] == "2" and essays.mark().remarks == []


def test_without_its_columns_the_table_is_refused(essays, capsys):
    write_open_questions(essays, "a,b\n1,2\n")
    assert main(["mark", str(essays.folder)]) == 1
    assert "has no columns which and marks any more" in capsys.readouterr().err


# ---- what was unclear ------------------------------------------------------------------------------------------------

def test_what_was_unclear_reaches_the_instructor_and_earns_nothing(small, capsys):
    second, first = small.student("b011"), small.student("b010")
    for student, line in ((second, "=HYPERLINK(which posts?)"), (first, "which\nside?")):
        small.give_back(student)
        small.mark()
        history = small.text("history.jsonl")
        assert student.unclear("1.2", line).state == student.unclear("1.2", line).state == State.KEPT
        small.give_back(student)
        assert small.mark().moved == [] and small.text("history.jsonl") == history
    second.unclear("1.1", "how deep?")
    small.give_back(second)
    assert main(["mark", str(small.folder)]) == 0
    assert "unclear.csv (lines on what was unclear: 3)" in capsys.readouterr().out
    assert small.text("unclear.csv").splitlines() == [
        "lesson,exercise,bench,line", "01,1.1,b011,how deep?", "01,1.2,b010,which side?",
        "01,1.2,b011,'=HYPERLINK(which posts?)"]


def test_with_nothing_unclear_the_table_has_its_head(small):
    small.mark()
    assert small.text("unclear.csv").splitlines() == ["lesson,exercise,bench,line"]


# ---- lateness --------------------------------------------------------------------------------------------------------

LATE = """
deadlines = { "01" = 2030-03-01T18:00:00+01:00 }
late = { percent_a_day = 10, at_most = 35, grace_hours = 2 }
extensions = { b011 = 1 }
"""


@pytest.mark.parametrize("received, off", [
    ("2030-03-01T20:00:00+01:00", 0), ("2030-03-01T20:00:01+01:00", 10), ("2030-03-02T20:00:00+01:00", 10),
    ("2030-03-02 20:00:01+01:00", 20), ("2031-01-01T00:00:00Z", 35), ("2030-03-01T19:00:00Z", 0)])
def test_each_day_begun_costs_up_to_a_limit(small, received, off):
    student = small.student()
    student.right(exercise(student, "1.1"))
    student.right(exercise(student, "1.4"))
    path = small.give_back(student)
    small.settings(LATE)
    small.mark()
    assert small.rows["b010"]["total"] == "3"       # without a list nothing is late
    (small.folder / "received.csv").write_text(f"file,received\n{path.relative_to(path.parents[1])},{received}\n")
    small.mark()
    assert (float(small.rows["b010"]["total"]), small.rows["b010"]["01 late %"]) == (3 * (100 - off) / 100, str(off))
    assert small.rows["b010"]["1.1"] == "2" and ("came late" in small.text("notes/b010.html")) == bool(off)


def test_an_extension_is_for_its_bench(small):
    rows = []
    for bench in ("b010", "b011"):
        student = small.student(bench)
        student.right(exercise(student, "1.1"))
        rows.append(f"{bench}/{small.give_back(student).name};2030-03-02T19:00:00+01:00")
    small.settings(LATE)
    (small.folder / "received.csv").write_text("\ufeff" + "\n".join(["File;Received", *rows]), encoding="utf-8")
    small.mark()
    assert (small.rows["b010"]["total"], small.rows["b011"]["total"]) == ("1.8", "2")


def test_sending_more_never_costs_anything(small):
    student = small.student()
    student.all_right()
    first = small.give_back(student, "first")
    student.wrong(exercise(student, "1.1"))
    second = small.give_back(student, "second")
    small.settings(LATE)
    (small.folder / "received.csv").write_text(
        f"file,received\nfirst/{first.name},2030-03-01T18:00:00+01:00\n"
        f"second/{second.name},2030-03-09T18:00:00+01:00\n")
    small.mark()
    assert (small.rows["b010"]["total"], small.rows["b010"]["01 late %"]) == ("8", "0")


def test_what_moved_by_lateness_is_explained(small):
    student = small.student()
    student.right(exercise(student, "1.1"))
    path = small.give_back(student)
    small.settings(LATE)
    small.mark()
    (small.folder / "received.csv").write_text(f"file,received\nb010/{path.name},2030-03-03T18:00:00+01:00\n")
    assert small.mark().moved == ["b010 lesson 01: in time, now 20 % off for being late; another time of receipt or "
                                  "rule for lateness."]


def test_a_file_that_is_not_on_the_list_is_in_time_and_said(small):
    small.give_back(small.student())
    small.settings(LATE)
    (small.folder / "received.csv").write_text("file,received\nother.json,2030-03-03T18:00:00\n")
    assert small.mark().remarks == ["Not in received.csv, so in time: b010/return-b010-01.json."]


def test_a_time_that_cannot_be_read_is_one_sentence(small, capsys):
    (small.folder / "received.csv").write_text("file,received\nb010/x.json,yesterday\n")
    assert main(["mark", str(small.folder)]) == 1
    assert 'received.csv: "yesterday" for "b010/x.json" is no day and time' in capsys.readouterr().err


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
        "b901.json": "bench b901 is not in class_list.csv. It is a spare one: give it a line there.",
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
        "b010/return-b010-01.json": "the code is not the one of bench b010; it is from another course, or the card was "
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
    assert small.mark().moved == ["b012 lesson 01: returned since, 8 marks."]


def test_a_return_taken_away_is_explained_and_its_page_goes(small):
    path = small.give_back(small.student())
    small.mark()
    path.unlink()
    assert small.mark().moved == ["b010 lesson 01: 0 marks, now nothing; no return of it is read any more."]
    assert not (small.folder / "marks/notes/b010.html").exists() and small.rows["b010"]["total"] == ""


@pytest.mark.parametrize("version, why", [(2, "the model answers have another version"),
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
    assert "Returned work of 2 of 3 benches" in said.out and "(texts that wait for marks: 2)" in said.out
    assert "\nNext: read class_report.html; write marks into the column of open_questions.csv and run mark again.\n" in (
        said.out)
    assert said.err == "" and mark_module.__doc__
    write_open_questions(essays, "which,marks\nb010 1.5,2\nb011 1.5,1\n")
    (essays.folder / "returned/empty.json").touch()
    main(["mark", str(essays.folder)])
    assert ("\nNext: look at not_read.csv; read class_report.html; give each student the page of their bench in notes.\n"
            in capsys.readouterr().out)


# ---- worked answers --------------------------------------------------------------------------------------------------

def test_worked_answers_have_the_benchs_own_numbers_rubrics_and_notes(small, capsys):
    assert main(["worked-answers", str(small.folder), "--bench", " B011 "]) == 0
    page = (small.folder / "worked/b011.html").read_text(encoding="utf-8")
    student = small.student("b011")
    for id in ("1.1", "1.2", "1.3", "1.6"):
        one = exercise(student, id)
        assert with_unit(f"{student.drawn(one).answer:.4g}", one.unit) in page
    assert "names a tool" in page and "Bring a compass." in page and "Both, because they share a post." in page
    assert "b011.html: for your eyes" in capsys.readouterr().out


@pytest.mark.parametrize("bench", ["b999", "../../x", "", "b000"])
def test_a_bench_that_was_given_nothing_is_one_sentence(small, bench, capsys):
    assert main(["worked-answers", str(small.folder), "--bench", bench]) == 1
    assert "Nothing was given out to" in capsys.readouterr().err and not (small.folder / "worked").exists()


def test_worked_answers_of_the_real_lessons(tmp_path):
    new_course(tmp_path, 1)
    give_out(Course(tmp_path), ["01"])
    main(["worked-answers", str(tmp_path), "--bench", "b010"])
    page = Path(tmp_path / "worked/b010.html").read_text(encoding="utf-8")
    assert "<strong>Time plan</strong>" in page and "<h3>1.7, 6 marks</h3>" in page and "**" not in page
