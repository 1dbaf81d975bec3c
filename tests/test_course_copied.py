"""Work that is not a bench's own: what is told of it, and that nothing is taken off or given for what is not right."""
import json
import shutil

from handing_in import hand_in
from lessons_lib.course.folder import bench_card
from lessons_lib.exercises.returns import return_bytes
from small_class import exercise

TEXT = "A spade, because the soil is heavy. " * 4


def hand_in_as(small, bench, path):
    """The return at *path* under another bench's card, written as a sheet writes it; return where it is."""
    content = json.loads(path.read_text())
    code = bench_card(small.course.secret, bench).partition("-")[2]
    target = small.folder / "returned" / f"copied-{bench}.json"
    target.write_bytes(return_bytes(bench=bench, code=code, **{
        name: content[name] for name in ("lesson", "version", "events")})[0])
    return target


def test_a_return_under_another_benches_card_is_told_and_earns_no_more_than_it_is_right(small):
    student = small.student()
    student.all_right()
    copied = hand_in_as(small, "b011", small.give_back(student))
    hand_in(small, small.student("b012"), "b012")
    told, text = small.mark().remarks
    assert told.startswith("b010 and b011 lesson 01: the same entries are in the returns of both "
                           "(b010/return-b010-01.json, copied-b011.json).")
    assert text.startswith("1.5: b010, b011 handed in the same text, word for word.")
    assert float(small.rows["b011"]["1.1"]) < float(small.rows["b010"]["1.1"])      # other numbers
    copied.unlink()
    assert small.mark().remarks == [] and small.rows["b011"]["1.1"] == ""


def test_the_same_text_is_told_whatever_its_capitals_and_blanks_and_a_short_one_is_not(small):
    for bench, text in (("b010", TEXT), ("b011", TEXT.upper().replace(" ", "  ")), ("b012", TEXT + "So there.")):
        student = small.student(bench)
        student.type("1.5", text)
        hand_in(small, student, bench)
    told, = small.mark().remarks
    assert told.startswith("1.5: b010, b011 handed in the same text")


def test_a_spare_that_replaces_a_lost_card_is_the_same_student(small):
    (small.folder / "class_list.csv").write_text("bench,student,instead of\nb010,Ida,\nb901,,b010\nb011,Per,\n")
    for bench in ("b010", "b901"):
        student = small.student(bench)
        student.type("1.5", TEXT)
        hand_in(small, student, bench)
    assert small.mark().remarks == []


def test_very_many_tries_before_the_right_one_are_told(small):
    student, other = small.student(), small.student("b011")
    pond = exercise(student, "1.1")
    for one, low in ((student, 70), (other, 55)):       # the first comes past the right one soon, and goes on
        right = one.drawn(pond).answer
        for step in range(low, 190, 2):
            if one is student or abs(step - 100) > 5:
                one.type("1.1", float(f"{right * step / 100:.4g}"))
    student.right(pond)
    few = small.student("b012")
    for step in range(5):
        few.wrong(pond, 1.2 + 0.1 * step)
    few.right(pond)
    for one in (student, other, few):
        hand_in(small, one, one.bench)
    assert small.mark().remarks == []       # one was right in time, the other not yet
    shutil.rmtree(small.folder / "returned" / "b010")
    other.right(pond)
    hand_in(small, other, "again")
    told, = small.mark().remarks
    assert told.startswith("b011: right only after 15 or more different wrong answers: 1.1 (")
