"""Invented classes, played through the real sheets.

python tests/invented_class.py FOLDER
makes FOLDER/course: 40 benches over all lessons, given out, worked on, returned and marked; its class report is shown.

python tests/invented_class.py FOLDER --lesson 02
30 benches on one lesson, each with a part to play; what each should get is known and compared with the marks.
"""
import argparse
import csv
import sys
import webbrowser
from dataclasses import replace
from pathlib import Path

from invented_student import Student, unpack
from invented_term import make_term, mark_by_hand
from lessons_lib.base.units import read_unit, spellings_like
from lessons_lib.course.commands import marking_told
from lessons_lib.course.folder import Course, bench_card
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.mark import mark
from lessons_lib.course.pack import give_out
from lessons_lib.course.tables import read_table
from lessons_lib.exercises.bench import ALPHABET, check_character
from lessons_lib.exercises.reading import into

IN_TIME, NEXT_DAY = "2030-03-01 17:59", "2030-03-02 12:00"
THIRD_DAY, NEXT_MONTH = "2030-03-04 09:30", "2030-04-01 00:00"


# ---- the parts they play: each leaves in student.due what should come out ------------------------------------------

def everything_right(student, returned):
    student.all_right()
    student.give_back(returned)


def right_at_last(student, returned):
    for exercise in student.marked:
        student.wrong(exercise)
        student.right(exercise)
        if exercise.kind != "text":
            student.wrong(exercise, 0.7)     # and carelessly once more: once right, right
    student.give_back(returned)


def in_other_units(student, returned):
    student.all_right(*student.numbers)
    for exercise in student.numbers:
        unit = [one for one in spellings_like(exercise.unit) if one not in getattr(exercise, "not_in", ())][-1]
        value = into(student.drawn(exercise).answer, exercise.unit, unit)
        student.type(exercise.id, float(f"{value:.4g}"), unit)
        student.due[exercise.id] = exercise.marks
    student.give_back(returned)


def with_a_slip(student, returned):
    slipping = [one for one in student.numbers if one.slips]
    if not slipping:
        return everything_right(student, returned)
    exercise = slipping[int(student.bench[1:]) % len(slipping)]
    student.all_right(exercise)
    number = student.drawn(exercise).own_slips[0][1]
    student.type(exercise.id, float(f"{number:.5g}"), exercise.unit)
    student.give_back(returned)


def first_half_only(student, returned):
    for exercise in student.marked[:len(student.marked) // 2]:
        student.right(exercise)
    student.give_back(returned)


def unreadable(student, returned):
    for exercise in student.numbers:
        for silly in ("1,66", True, [1], "x" * 9000, float("nan"), ...):
            student.type(exercise.id, silly)
        student.type(exercise.id, 3, "acre")
    for exercise in student.marked:
        if exercise.kind in ("design", "measured"):
            for silly in ({}, {"turns": 5}, {"magnet": "<script>"}, 5, "big", [[1, 2]] * 999):
                student.type(exercise.id, silly)
            student.type(exercise.id, 5, table=[[1, "<b>"]])
    student.give_back(returned)


def nothing_but_a_return(student, returned):
    student.give_back(returned)


def nothing_returned(student, returned):
    student.all_right()
    student.due = None


def two_machines(student, returned):
    half = len(student.marked) // 2
    for exercise in student.marked[:half]:
        student.right(exercise)
    student.give_back(returned, f"{student.bench} at home")
    student.start("school")
    for exercise in student.marked[half:]:
        student.right(exercise)
    student.wrong(student.marked[0])
    student.give_back(returned, f"{student.bench} at school")


def damaged(student, returned):
    student.all_right()
    path, _ = student.give_back(returned)
    path.write_bytes(path.read_bytes()[:-40])
    student.due = None


def damaged_and_sent_again(student, returned):
    damaged_path, _ = student.give_back(returned, f"{student.bench} first")
    damaged_path.write_bytes(damaged_path.read_bytes().replace(b'"version": ', b'"version": 1'))
    everything_right(student, returned)


def wrong_code(student, returned):
    """The code of another bench, with a check character that fits: only marking can tell."""
    code = "".join(ALPHABET[(ALPHABET.index(one) + 1) % 32] for one in student.card[5:10])
    student.card = f"{student.bench}-{code}{check_character(student.bench, code)}"
    student.start("own")
    everything_right(student, returned)
    student.due = None


def own_way_from_a_wrong_value(student, returned):
    """Where an exercise follows another: the first wrong but possible, the second right from there."""
    student.all_right()
    for exercise in student.numbers:
        if exercise.follows:
            student.start("afresh")
            student.all_right(exercise, exercise.follows)
            _carry(student, exercise, factor=1.15)
            student.due |= {exercise.follows.id: 0, exercise.id: exercise.marks}
    student.give_back(returned)


def own_way_from_an_impossible_value(student, returned):
    student.all_right()
    for exercise in student.numbers:
        if exercise.follows:
            student.start("afresh")
            student.all_right(exercise, exercise.follows)
            _carry(student, exercise, factor=1.001 * exercise.follows.size[1] / student.drawn(exercise.follows).answer)
            student.due |= {exercise.follows.id: 0, exercise.id: 0}
    student.give_back(returned)


def _carry(student, exercise, factor):
    before = exercise.follows
    own = float(f"{factor * student.drawn(before).answer:.5g}")
    student.type(before.id, own, before.unit)
    mine = replace(student.drawn(exercise), own_earlier=own * read_unit(before.unit).factor).answer
    student.type(exercise.id, float(f"{mine:.5g}"), exercise.unit)


PARTS = (5 * [everything_right] + 4 * [with_a_slip] + 3 * [right_at_last] + 2 * [in_other_units] + 2 * [first_half_only]
         + 2 * [two_machines] + 2 * [own_way_from_a_wrong_value] + [own_way_from_an_impossible_value]
         + [unreadable, nothing_but_a_return, nothing_returned, damaged, damaged_and_sent_again, wrong_code])
LATE_PARTS = (NEXT_DAY, NEXT_MONTH, "in two goes")      # 27 parts and three late ones: 30 benches
NOT_READ = {damaged, damaged_and_sent_again, wrong_code}


def play(folder, *, answers=None, lesson="01", more_settings=""):
    """Play the class for one lesson; return (course, bench -> {exercise: marks due} or None, bench -> total due)."""
    folder = Path(folder).resolve()
    course = Course(folder / "course")
    new_course(course.folder, 30)
    (course.folder / "course.toml").write_text(encoding="utf-8", data=SETTINGS.format(
        answers=f"answers = '{answers}'" if answers else "", lesson=lesson, more=more_settings))
    pack, _, _ = give_out(course, [lesson])
    notebooks, returned = unpack(pack, folder / "unpacked"), course.folder / "returned"
    due, totals, received = {}, {}, [("file", "received")]
    for place, bench in enumerate(course.students):
        student = Student(bench=bench, card=bench_card(course.secret, bench), lesson=course.lessons[lesson],
                          notebooks=notebooks, home=folder / "students" / bench, secret=course.secret)
        if place < len(PARTS):
            PARTS[place](student, returned)
        else:
            _late(student, returned, LATE_PARTS[place - len(PARTS)], received)
        due[bench], totals[bench] = student.due, _sum(student.due)
    _litter(returned)
    with open(course.folder / "received.csv", "w", encoding="utf-8-sig", newline="") as file:
        csv.writer(file, delimiter=";").writerows(received)
    return course, due, totals


SETTINGS = """
title = "An invented class"
{answers}
deadlines = {{ "{lesson}" = 2030-03-01T18:00:00 }}
late = {{ percent_a_day = 10, at_most = 30 }}
{more}
"""


def _late(student, returned, when, received):
    """A late part: what came late has its price, what came in time before keeps its marks."""
    def note(path, time):
        received.append((f"returned\\{path.relative_to(returned)}".replace("/", "\\"), time))

    if when == "in two goes":
        half = student.marked[:len(student.marked) // 2]
        for exercise in half:
            student.right(exercise)
        note(student.give_back(returned, f"{student.bench} first")[0], IN_TIME)
        student.all_right()
        note(student.give_back(returned, f"{student.bench} then")[0], THIRD_DAY)
        _take_off(student, 0.7, *(one for one in student.marked if one not in half))
    else:
        student.all_right()
        note(student.give_back(returned)[0], when)
        _take_off(student, 0.9 if when == NEXT_DAY else 0.7, *student.marked)


def _take_off(student, left, *exercises):
    for exercise in exercises:
        if student.due[exercise.id] is not None:
            student.due[exercise.id] *= left


def _sum(due):
    return None if due is None else sum(marks or 0 for marks in due.values())


def _litter(returned):
    """What else lies about in a folder of returns."""
    (returned / "photo.jpg").write_bytes(b"\xff\xd8\xff\xe0" * 50)
    (returned / ".DS_Store").write_bytes(b"\x00\x01")
    (returned / "=cmd.json").write_text("[]")
    (returned / "empty.json").write_bytes(b"")


def compare(course, due, totals):
    """Yield a sentence for every bench whose row in marks.csv is not what is due."""
    rows = {row["bench"]: row for row in read_table((course.folder / "marks" / "marks.csv").read_bytes())}
    for bench, marks in due.items():
        row = {name.partition(" (")[0]: cell for name, cell in rows[bench].items()}
        expected = {"total": _text(totals[bench]), **{
            exercise_id: "" if marks is None else "to mark" if marks[exercise_id] is None else _text(marks[exercise_id])
            for exercise_id in (marks or [name for name in row if name[0].isdigit() and " " not in name])}}
        if wrong := {name: (row[name], cell) for name, cell in expected.items() if row[name] != cell}:
            yield f"{bench}: " + ", ".join(f"{name} is {is_now!r}, due {cell!r}"
                                           for name, (is_now, cell) in wrong.items())


def _text(number):
    return "" if number is None else f"{round(number, 4):.10g}"


def show_term(folder, open_page):
    """Make, mark and show the class of 40; the open questions of all lessons but the last are marked by hand."""
    course = make_term(folder)
    mark(course)
    mark_by_hand(course)
    print(marking_told(course, mark(Course(course.folder))))
    report = course.folder / "marks" / "class_report.html"
    print(f"The class report: {report}")
    if open_page:
        webbrowser.open(report.as_uri())


def compare_lesson(folder, lesson):
    """Play the 30 parts on one lesson; return how many benches did not get what is due."""
    course, due, totals = play(folder, lesson=lesson)
    done = mark(Course(course.folder))
    faults = list(compare(course, due, totals))
    print(f"{len(due)} benches played in {folder}, {len(done.not_read)} files not read, "
          f"{done.waiting} texts wait. Marks as due: {'yes' if not faults else 'no'}")
    print("\n".join(faults))
    return len(faults)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--lesson", help="play the 30 parts on this lesson, such as 01")
    parser.add_argument("--open", action="store_true", help="open the class report in a browser")
    arguments = parser.parse_args()
    if arguments.lesson:
        return bool(compare_lesson(arguments.folder, arguments.lesson))
    show_term(arguments.folder, arguments.open)
    return False


if __name__ == "__main__":
    sys.exit(main())
