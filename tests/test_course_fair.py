"""Handing in more never costs marks: ways in which it could, one by one; open texts; what holds marking up."""
import json
import os
import shutil
import subprocess
import sys

import numpy as np
import pytest

import exercises_all_kinds
from exercises_all_kinds import ANSWERS
from lessons_lib.__main__ import main
from lessons_lib.course.returned_history import MOST_COMPUTED
from lessons_lib.course.settings import CHECKOUT
from lessons_lib.course.tables import read_table
from lessons_lib.exercises import returns
from lessons_lib.exercises.log import History
from lessons_lib.exercises.sealing import Scale
from small_class import SmallClass, exercise, write_open_questions

LATE = """
deadlines = { "01" = 2030-03-01T18:00:00+01:00 }
late = { percent_a_day = 10, at_most = 50 }
"""
IN_TIME, TEN_DAYS_LATE = "2030-03-01T17:00:00+01:00", "2030-03-11T17:00:00+01:00"


@pytest.fixture(scope="module")
def every_kind_made(tmp_path_factory):
    return SmallClass(tmp_path_factory.mktemp("kinds"), ANSWERS).home


@pytest.fixture
def kinds(every_kind_made, tmp_path):
    """A `SmallClass` on a lesson with every kind of exercise."""
    shutil.copytree(every_kind_made, tmp_path, dirs_exist_ok=True)
    return SmallClass(tmp_path)


def hand_in(small, student, folder, received=None):
    """Hand in what there is now, kept beside what was handed in before; note when it was received."""
    path = small.give_back(student, folder)
    if received:
        table = small.folder / "received.csv"
        before = table.read_text() if table.exists() else "file,received\n"
        table.write_text(f"{before}{path.relative_to(small.folder / 'returned').as_posix()},{received}\n")


def cells(small):
    """The rows of open_questions.csv, without what belongs to the spreadsheet."""
    return read_table((small.folder / "marks/open_questions.csv").read_bytes())


def give_marks(small, *marks):
    """Type marks into the rows of open_questions.csv from above, as a marker does."""
    rows = cells(small)
    assert len(rows) == len(marks)
    head = ",".join(rows[0])
    lines = [",".join(f'"{cell}"' for cell in {**row, "marks": mark, "text": "…", "earlier texts": ""}.values())
             for row, mark in zip(rows, marks)]
    write_open_questions(small, "\n".join([head, *lines]))


# ---- the four ways ---------------------------------------------------------------------------------------------------

def test_a_later_wrong_value_takes_no_method_marks_away(small):
    student = small.student()
    pond, right = exercise(student, "1.1"), student.drawn(exercise(student, "1.1")).answer
    student.wrong(pond, 1.15)
    student.type("1.6", float(f"{1.15 * right / student.sheet.given('1.6')['depth']:.4g}"))
    hand_in(small, student, "first")
    small.mark()
    assert small.rows["b010"]["1.6"] == "3"
    student.wrong(pond, 0.9)
    hand_in(small, student, "second")
    assert small.mark().moved == [] and small.rows["b010"]["1.6"] == "3"


def test_another_wrong_try_takes_no_marks_for_a_slip_away(small):
    student = small.student()
    small.settings('slip_marks = { "1.1" = { "diameter for radius" = 0.5 } }')
    student.type("1.1", float(f"{4 * student.drawn(exercise(student, '1.1')).answer:.4g}"))
    student.wrong(exercise(student, "1.1"), 1.2)
    hand_in(small, student, "first")
    small.mark()
    assert small.rows["b010"]["1.1"] == "0.5"
    assert "Slip" not in small.text("notes/b010.html") and "Not yet." in small.text("notes/b010.html")


def test_a_worse_design_takes_no_marks_of_a_better_away(kinds):
    student = kinds.student()
    bounds = {one["quantity"]: one["least"] or one["most"] for one in student.sheet.limits("1.9")}
    posts = round(bounds["area"] / 1.4)
    student.type("1.9", {"posts": posts, "board": 3, "height": 1.5})      # all but the height
    hand_in(kinds, student, "first")
    kinds.mark()
    assert kinds.rows["b010"]["1.9"] == "2"
    student.type("1.9", {"posts": 2, "board": 1, "height": 1.5})
    hand_in(kinds, student, "second")
    assert kinds.mark().moved == [] and kinds.rows["b010"]["1.9"] == "2"


def test_oops_does_not_replace_a_text(small):
    student, text = small.student(), "A spade, because the soil is heavy. " * 4
    student.type("1.5", text)
    hand_in(small, student, "first")
    student.type("1.5", "oops")
    hand_in(small, student, "second")
    small.mark()
    row, = cells(small)
    assert row["text"] == text.strip()


# ---- open texts: a mark belongs to the text that its marker saw ------------------------------------------------------

STUB, REAL = "asdf", "A spade, because the soil is heavy, and a fork where it is full of stones. " * 3


def hand_in_texts(small, *texts, bench="b010"):
    """Hand in one text after the other, each with the time when it was received."""
    student = small.student(bench)
    for text, received in texts:
        student.type("1.5", text)
        before = len(list((small.folder / "returned").glob(f"{bench} *")))
        hand_in(small, student, f"{bench} {before}", received)


def test_a_late_text_is_priced_as_late_though_a_stub_came_in_time(small):
    small.settings(LATE)
    hand_in_texts(small, (STUB, IN_TIME), (REAL, TEN_DAYS_LATE))
    hand_in_texts(small, (REAL, TEN_DAYS_LATE), bench="b011")
    assert small.mark().waiting == 3
    assert [(row["which"], row["late %"], row["text"]) for row in cells(small)] == [
        ("b010 1.5", "", STUB), ("b010 1.5", "50", REAL.strip()), ("b011 1.5", "50", REAL.strip())]
    assert [row["earlier texts"] for row in cells(small)] == ["", f"[1 words] {STUB}", ""]
    give_marks(small, 0, 3, 3)
    done = small.mark()
    assert small.rows["b010"]["1.5"] == small.rows["b011"]["1.5"] == "1.5" and done.waiting == 0
    assert small.rows["b010"]["01 late %"] == "50" and done.moved == ["b010 1.5: marked by hand: 1.5.",
                                                                      "b011 1.5: marked by hand: 1.5."]
    assert "50 % was taken off because it came late." in small.text("notes/b010.html")


@pytest.mark.parametrize("first, second, counts", [(2, 3, "2"), (1, 3, "1.5"), (3, 3, "3"), (0, 0, "0")])
def test_a_text_that_was_marked_in_time_keeps_its_mark_and_the_better_counts(small, first, second, counts):
    small.settings(LATE)
    hand_in_texts(small, ("A spade for the soil. " * 5, IN_TIME))
    small.mark()
    give_marks(small, first)
    small.mark()
    hand_in_texts(small, (REAL, TEN_DAYS_LATE))
    done = small.mark()
    assert small.rows["b010"]["1.5"] == str(first) and done.moved == []
    if first >= 1.5:        # half of the marks is left for the late one at best: nobody has to read it
        assert [row["marks"] for row in cells(small)] == [str(first)] and done.remarks == []
        return
    assert done.waiting == 1 and "the better of the two counts" in done.remarks[0]
    give_marks(small, first, second)
    small.mark()
    assert small.rows["b010"]["1.5"] == counts


def test_a_mark_that_was_being_typed_when_another_text_came_is_for_the_one_beside_it(small):
    hand_in_texts(small, ("A spade for the soil. " * 5, None))
    small.mark()
    give_marks(small, 2)
    hand_in_texts(small, (REAL, None))
    done = small.mark()
    assert [(row["marks"], row["text"][:7]) for row in cells(small)] == [("2", "A spade"), ("", "A spade")]
    assert done.moved == ["b010 1.5: marked by hand: 2."] and done.waiting == 1
    assert cells(small)[1]["earlier texts"] == f"[25 words, marked 2] {('A spade for the soil. ' * 5).strip()}"
    give_marks(small, 1, "")        # and it can still be mended
    assert small.mark().moved == ["b010 1.5: 2 (marked by hand), now 1 (marked by hand)."]
    give_marks(small, "", 3)
    small.mark()
    assert small.rows["b010"]["1.5"] == "3" and len(cells(small)) == 1


def test_a_row_without_text_id_is_for_the_text_shown_last_and_two_such_rows_are_refused(small, capsys):
    hand_in_texts(small, ("A spade for the soil. " * 5, None))
    small.mark()
    give_marks(small, 1)
    hand_in_texts(small, (REAL, None))
    small.mark()
    write_open_questions(small, "which,marks\nb010 1.5,2.5\n")
    small.mark()
    assert small.rows["b010"]["1.5"] == "2.5" and [row["marks"] for row in cells(small)] == ["1", "2.5"]
    write_open_questions(small, "which,marks\nb010 1.5,1\nb010 1.5,2.5\n")
    assert main(["mark", str(small.folder)]) == 1
    assert "has b010 1.5 twice and not both text ids" in capsys.readouterr().err


def test_a_text_taken_away_takes_its_mark_along_and_brings_it_back(small):
    hand_in_texts(small, ("A spade for the soil. " * 5, None), (REAL, None))
    small.mark()
    give_marks(small, 3)
    small.mark()
    away = small.folder / "returned" / "b010 1"
    shutil.move(away, small.home / "away")
    small.mark()
    assert small.rows["b010"]["1.5"] == "to mark"
    shutil.move(small.home / "away", away)
    small.mark()
    assert small.rows["b010"]["1.5"] == "3"


def test_a_killed_run_loses_no_mark_though_another_text_had_come(small, monkeypatch):
    """The table that held the mark is written anew in the run that reads it, and the history after it."""
    from lessons_lib.course import marks_folder
    hand_in_texts(small, ("A spade for the soil. " * 5, None))
    small.mark()
    give_marks(small, 2)
    hand_in_texts(small, (REAL, None))
    replace = marks_folder.os.replace

    def dies_before_the_history(source, target):
        if target.name == "history.jsonl":
            raise KeyboardInterrupt
        replace(source, target)

    monkeypatch.setattr(marks_folder.os, "replace", dies_before_the_history)
    with pytest.raises(KeyboardInterrupt):
        small.mark()
    monkeypatch.undo()
    small.mark()
    assert small.rows["b010"]["1.5"] == "2"


@pytest.mark.parametrize("letters, shown", [(10, "b" * 10), (9, "a" * 20)])
def test_the_last_text_is_shown_unless_it_is_shorter_than_half_of_the_longest(small, letters, shown):
    hand_in_texts(small, ("a" * 20, None), ("b" * letters, None))
    small.mark()
    assert [row["text"] for row in cells(small)] == [shown]


# ---- what moved, and the true reason ---------------------------------------------------------------------------------

def test_another_value_of_the_exercise_before_is_named_as_the_reason(small):
    student = small.student()
    right = student.drawn(exercise(student, "1.1")).answer
    student.type("1.6", float(f"{1.15 * right / student.sheet.given('1.6')['depth']:.4g}"))
    hand_in(small, student, "first")
    small.mark()
    student.wrong(exercise(student, "1.1"), 1.15)
    hand_in(small, student, "second")
    assert small.mark().moved[-1] == ("b010 1.6: 0 (not yet), now 3 (carried forward); other answers to the exercise "
                                      "before it were returned.")


def test_lateness_alone_is_one_line_and_a_late_answer_says_its_price(small):
    small.settings(LATE)
    student = small.student()
    student.right(exercise(student, "1.4"))
    hand_in(small, student, "first", IN_TIME)
    small.mark()
    student.right(exercise(student, "1.1"))
    hand_in(small, student, "second", "2030-03-03T17:00:00+01:00")
    assert small.mark().moved == ["b010 1.1: 0 (not answered), now 1.6 (right, 20 % off); other answers were returned."]
    assert (small.rows["b010"]["total"], small.rows["b010"]["01 late %"]) == ("2.6", "13.33")
    assert "13.33 % was taken off because some of it came late." in small.text("notes/b010.html")
    (small.folder / "extensions.csv").write_text("bench,days\nb010,1\n")
    assert small.mark().moved == ["b010 lesson 01: 20 % off for being late, now 10 % off for being late; the time "
                                  "of receipt or the rule for lateness changed."]


def test_marks_from_before_these_rules_say_so_and_keep_what_was_given_by_hand(small):
    student = small.student()
    student.wrong(exercise(student, "1.1"), 1.15)
    student.type("1.5", REAL)
    hand_in(small, student, "first")
    small.mark()
    path = small.folder / "marks" / "history.jsonl"
    entry = json.loads(path.read_text().splitlines()[-1])
    for name, one in entry["marks"].items():        # as they were kept then
        one.pop("off", None)
        one["because"] = {"answers": "0" * 8, "settings": "0" * 8, "version": 1} if name != "receipt" else {"late": 0}
    entry["marks"]["1.1"] |= {"marks": 1, "how": "another rule"}
    entry["texts"] = {"1.5": {"text": entry["texts"]["1.5"]["text"], "cell": "2"}}
    path.write_text(json.dumps(entry) + "\n")
    (small.folder / "marks" / "open_questions.csv").unlink()
    assert small.mark().moved == [
        "b010 1.1: 1 (another rule), now 0 (not yet); the rules of marking are newer (README).",
        "b010 1.5: to mark, now 2 (marked by hand); the rules of marking are newer (README)."]
    assert small.mark().moved == []


def test_one_file_that_came_twice_came_when_it_came_first(small):
    small.settings(LATE)
    student = small.student()
    for folder, time in (("second", TEN_DAYS_LATE), ("first", IN_TIME), ("third", TEN_DAYS_LATE)):
        hand_in(small, student, folder, time)
    small.mark()
    assert (small.rows["b010"]["01 late %"], small.rows["b010"]["total"]) == ("0", "0")
    shutil.rmtree(small.folder / "returned" / "first")
    small.mark()
    assert (small.rows["b010"]["01 late %"], small.rows["b010"]["total"]) == ("50", "0")    # nothing earned, all late


def test_more_than_all_marks_cannot_be_off(small, capsys):
    small.settings("late = { percent_a_day = 60, at_most = 150 }")
    assert main(["mark", str(small.folder)]) == 1
    assert "late must be a number from 0 for each name, and at_most no more than 100" in capsys.readouterr().err


# ---- a file that no sheet wrote --------------------------------------------------------------------------------------

def test_two_contents_under_one_id_are_told_and_take_nothing_away(small):
    student = small.student()
    student.right(exercise(student, "1.1"))
    path = small.give_back(student, "own")
    small.mark()
    content = json.loads(path.read_bytes())
    del content["check"]
    content["events"][0] |= {"value": 1.0, "time": "2020-01-01T00:00:00+00:00"}
    content["check"] = returns._check_code(content)
    (small.folder / "returned" / "another.json").write_text(json.dumps(content))
    done = small.mark()
    assert small.rows["b010"]["1.1"] == "2" and done.moved == [] and done.not_read == []
    assert done.remarks == [
        "b010 lesson 01: 1 of its entries exist in two forms, in another.json, own/return-b010-01.json. A sheet never "
        "writes that: a file was changed, by the bench or by somebody who has its return. Both forms are read and the "
        "best counts, so nobody loses by it."]


def test_names_and_order_of_files_change_no_mark(kinds):
    student = kinds.student()
    kinds.settings(LATE)
    received = (IN_TIME, None, TEN_DAYS_LATE)
    for number, time in enumerate(received):
        student.wrong(exercise(student, "1.1"), 0.9 + 0.2 * number)
        student.type("1.5", f"{REAL} {number}")
        student.right(exercise(student, ("1.2", "1.7", "1.8")[number]))
        hand_in(kinds, student, f"{number}", time)
    kinds.mark()
    before = kinds.rows, [{**row} for row in cells(kinds)]
    table = (kinds.folder / "received.csv").read_text()
    for number, name in enumerate("zyx"):
        (kinds.folder / "returned" / f"{number}").rename(kinds.folder / "returned" / name)
        table = table.replace(f"\n{number}/", f"\n{name}/")
    (kinds.folder / "received.csv").write_text(table)
    shutil.rmtree(kinds.folder / "marks")
    kinds.mark()
    assert (kinds.rows, cells(kinds)) == before and kinds.rows["b010"]["1.8"] == "1.5"


# ---- the same readings from several benches --------------------------------------------------------------------------

def test_readings_that_are_alike_and_not_the_usual_ones_are_remarked_on(kinds):
    own = lambda factor: lambda place, time: factor * np.gradient(place, time)      # noqa: E731
    for bench, factor in (("b010", 1.001), ("b011", 1.001), ("b012", 1.002)):
        student = kinds.student(bench)
        student.right(exercise(student, "1.7"))     # all three have the usual one, too
        student.type("1.7", own(factor))
        student.type("1.7", own(1.3))               # and the same wrong one
        hand_in(kinds, student, bench)
    remarks = kinds.mark().remarks
    assert len(remarks) == 1 and remarks[0].startswith("1.7: b010, b011 handed in the same right readings")
    assert [kinds.rows[bench]["1.7"] for bench in ("b010", "b011", "b012")] == ["2"] * 3


# ---- one return cannot hold up marking -------------------------------------------------------------------------------

def many_tries(kinds, exercise_id, values, folder="many"):
    """A return with many tries, made by writing them into the log."""
    student = kinds.student()
    student.type("1.4", "a")
    log = student.home / student.machine / "log-b010.jsonl"
    first = json.loads(log.read_text().splitlines()[0])
    with open(log, "a", encoding="ascii") as file:
        for number, value in enumerate(values, start=100):
            event = {**first, "id": f"{number:016x}", "number": number, "exercise": exercise_id, **value}
            file.write(json.dumps(event) + "\n")
    hand_in(kinds, student, folder)


def counted_calls(monkeypatch, where, name):
    calls, inner = [], getattr(where, name)
    monkeypatch.setattr(where, name, lambda *words, **more: calls.append(1) or inner(*words, **more))
    return calls


def test_of_designs_the_last_different_ones_of_each_return_are_computed(kinds, monkeypatch):
    sheds = [{"value": {"posts": 2, "board": 1 + number / 1000, "height": 1.5}} for number in range(300)]
    best = {"value": {"posts": 2, "board": 1, "height": 2.0}}      # one limit more than the others
    calls = counted_calls(monkeypatch, exercises_all_kinds, "shed_report")
    many_tries(kinds, "1.9", [best, *sheds[:MOST_COMPUTED - 1]], "first")
    calls.clear()
    kinds.mark()
    assert kinds.rows["b010"]["1.9"] == "2" and len(calls) == MOST_COMPUTED
    shutil.rmtree(kinds.home / "students")
    many_tries(kinds, "1.9", [best, *sheds, *sheds[-5:]], "second")
    calls.clear()
    done = kinds.mark()
    # what counted in the first return counts still, and the cost is that of two returns
    assert kinds.rows["b010"]["1.9"] == "2" and done.moved == [] and len(calls) == 2 * MOST_COMPUTED
    assert done.remarks == [f"b010 1.9: {301 - 2 * MOST_COMPUTED} different answers were not looked at; of each return "
                            f"the last {MOST_COMPUTED} are."]


@pytest.mark.parametrize("exercise_id, value", [
    ("1.1", lambda number: {"value": 5 + number / 1000, "unit": "mm2"}),
    ("1.6", lambda number: {"value": 2 + number / 1000, "unit": "mm"}),
    ("1.5", lambda number: {"value": f"spade {number}"})], ids=["numbers", "method marks", "texts"])
def test_work_beside_judging_does_not_grow_with_the_number_of_tries(kinds, monkeypatch, exercise_id, value):
    """Neither the slips nor the tries so far are gone through again for each try."""
    calls = {name: counted_calls(monkeypatch, where, name) for where, name in (
        (Scale, "bins_of_slip"), (History, "tries"))}
    counts = []
    for many in (40, 400):
        many_tries(kinds, exercise_id, map(value, range(many)), str(many))
        for one in calls.values():
            one.clear()
        kinds.mark()
        counts.append({name: len(one) for name, one in calls.items()})
        shutil.rmtree(kinds.home / "students")
    assert all(counts[1][name] <= counts[0][name] + 1 for name in calls)


# ---- the same report from run to run ---------------------------------------------------------------------------------

def test_the_outputs_do_not_depend_on_the_seed_of_hashes(small):
    for bench in ("b010", "b011", "b012"):
        student = small.student(bench)
        for exercise_id in ("1.1", "1.2", "1.6"):
            one = exercise(student, exercise_id)
            for _, number, _ in student.drawn(one).own_slips:
                student.type(exercise_id, float(f"{number:.5g}"))
            for factor in (0.55, 0.66, 0.77, 0.88, 1.22, 1.33, 1.44):
                student.wrong(one, factor)
        hand_in(small, student, bench)
    found = []
    for seed in ("0", "1", "2", "3"):
        shutil.rmtree(small.folder / "marks", ignore_errors=True)
        subprocess.run([sys.executable, "-m", "lessons_lib", "mark", str(small.folder)], check=True,
                       capture_output=True, env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(
                           [str(CHECKOUT), str(CHECKOUT / "tests")])})
        found.append({path.name: path.read_bytes() for path in (small.folder / "marks").rglob("*")
                      if path.is_file() and path.name != "history.jsonl"})
    assert all(one == found[0] for one in found) and b"0.66" in found[0]["class_report.html"]
