"""Handing in more never costs marks: ways in which it could, one by one; and the same report from run to run."""
import json
import os
import shutil
import subprocess
import sys

import numpy as np

from handing_in import IN_TIME, LATE, REAL, TEN_DAYS_LATE, cells, hand_in
from lessons_lib.__main__ import main
from lessons_lib.course.settings import CHECKOUT
from lessons_lib.exercises import returns
from small_class import exercise

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
