"""Marks: an invented class gets what is due, single questions, open texts, what was unclear."""
import re
import shutil
from types import MappingProxyType

import pytest

from exercises_following import write_answers
from invented_class import NOT_READ, PARTS, compare, play
from lessons_lib.__main__ import main
from lessons_lib.base.units import with_unit
from lessons_lib.course.folder import Course
from lessons_lib.course.mark import mark
from lessons_lib.course.tables import read_table
from lessons_lib.exercises import common_slips, draws
from lessons_lib.exercises.verdicts import State
from small_class import SECRET, exercise, write_open_questions

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
    assert "the code is not that of bench" in unread[next(b for b, p in parts.items() if p.__name__ == "wrong_code")]
    # and a mark that is not due would be seen
    path = course.folder / "marks" / "marks.csv"
    path.write_bytes(re.sub(rb"(?m)^(b010,)([\d.]+)", rb"\g<1>1\2", path.read_bytes()))
    assert [line[:4] for line in compare(course, due, totals)] == ["b010"]


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
    small.settings('slip_marks = { "1.1" = { "diameter for radius" = 0.5, "open part" = 0.25 } }')
    student.type("1.1", float(f"{student.drawn(exercise(student, '1.1')).own_slips[0][1]:.4g}"))
    small.give_back(student)
    assert small.mark().moved == [] and small.rows["b010"]["1.1"] == "0.5"      # the best counts, not the last


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
    small.patch(common_slips, "COMMON_SLIPS", wider)
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
    assert "Carried forward. Marked with your own answer to 1.1: from there on the method is right." in page
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
    assert "0 of 11 marks, without what is not yet marked." in page
    assert "not yet marked (out of 3)" in page and with_unit("5.5", "mm2") in page
    for exercise_id in ("1.1", "1.2", "1.3", "1.6"):
        assert f"{abs(student.drawn(exercise(student, exercise_id)).answer):.3g}" not in page
    student.type("1.5", "shorter")
    small.give_back(student)
    small.mark()
    assert "&lt;script" in small.text("notes/b010.html")            # shorter than half: the longer one stays
    student.type("1.5", "as long, if not longer " * 9)
    small.give_back(student)
    small.mark()
    assert "&lt;script" not in small.text("notes/b010.html")        # of long ones the last


# ---- open questions --------------------------------------------------------------------------------------------------

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
    assert f'open_questions.csv, b010 1.5: "{cell}" is not a mark from 0 to 3.' in done.remarks
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
    student.type("1.5", "Quite another text, and as long as the one before. " * 3)
    essays.give_back(student)
    done = essays.mark()
    assert done.remarks == [
        "b010 1.5: another text came after one that was marked. That mark stands; the new one has a row in "
        "open_questions.csv, and the better of the two counts."]
    assert done.moved == [] and done.waiting == 2
    assert essays.rows["b010"]["1.5"] == "2" and essays.mark().remarks == []
    assert "Marked by hand. Another text of yours waits for reading." in essays.text("notes/b010.html")


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
    assert second.unclear("1.1", "how deep?").text == "Thank you. This goes with your work."
    small.give_back(second)
    assert main(["mark", str(small.folder)]) == 0
    assert "unclear.csv (lines on what was unclear: 3)" in capsys.readouterr().out
    assert small.text("unclear.csv").splitlines() == [
        "lesson,exercise,bench,line", "01,1.1,b011,how deep?", "01,1.2,b010,which side?",
        "01,1.2,b011,'=HYPERLINK(which posts?)"]


def test_with_nothing_unclear_the_table_has_its_head(small):
    small.mark()
    assert small.text("unclear.csv").splitlines() == ["lesson,exercise,bench,line"]
