"""One return with many tries cannot hold up marking."""
import json
import shutil

import pytest

import exercises_all_kinds
from handing_in import hand_in
from lessons_lib.course.returned_history import MOST_COMPUTED
from lessons_lib.exercises.log import History
from lessons_lib.exercises.sealing import Scale


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
