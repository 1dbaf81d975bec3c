"""An invented class of 30 benches, played through the real sheets; what each should get is known.

python tests/invented_class.py FOLDER
makes FOLDER/course, unpacks the pack, lets the students work and return, marks, and compares with what is due.
"""
import argparse
import csv
import os
import shutil
import sys
import zipfile
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from pathlib import Path

import lessons_lib
from lessons_lib.course.cards import bench_card
from lessons_lib.course.folder import Course, new_course
from lessons_lib.course.mark import mark
from lessons_lib.course.pack import give_out
from lessons_lib.course.tables import read_table
from lessons_lib.exercises.bench import ALPHABET, check_character
from lessons_lib.exercises.draws import Drawn, draw
from lessons_lib.exercises.units import into, read_unit, spellings_like

IN_TIME, NEXT_DAY = "2030-03-01 17:59", "2030-03-02 12:00"
THIRD_DAY, NEXT_MONTH = "2030-03-04 09:30", "2030-04-01 00:00"


@contextmanager
def at_desk(notebooks, work):
    """A student's machine: notebooks open in their folder, work kept in a folder of its own."""
    before, was = Path.cwd(), os.environ.get("LESSONS_WORK_FOLDER")
    os.chdir(notebooks)
    os.environ["LESSONS_WORK_FOLDER"] = str(work)
    try:
        yield
    finally:
        os.chdir(before)
        if was is None:
            del os.environ["LESSONS_WORK_FOLDER"]
        else:
            os.environ["LESSONS_WORK_FOLDER"] = was


@dataclass
class Student:
    """One bench of the class: works on the unpacked pack, and knows the model answers of *lesson* to play a part."""

    bench: str
    card: str
    lesson: object
    notebooks: Path
    home: Path
    due: dict = field(default_factory=dict)         # exercise -> marks that should come out; None: waits for its marker
    machine: str = "own"
    secret: str = ""        # of the course: to know a design that meets the bench's limits

    def __post_init__(self):
        self.start(self.machine)
        self.due = {exercise.id: 0 for exercise in self.marked}

    @property
    def marked(self):
        return [one for one in self.lesson.exercises
                if one.kind != "prediction" and not getattr(one, "quick", False) and one.marks]

    @property
    def numbers(self):
        return [one for one in self.marked if one.kind == "number"]

    def start(self, machine):
        self.machine = machine
        with self._desk():
            lessons_lib.use_card(self.card)
            self.sheet = lessons_lib.open_sheet(self.lesson.id)
        assert self.sheet.trouble is None, self.sheet.trouble

    def _desk(self):
        return at_desk(self.notebooks, self.home / self.machine)

    def type(self, id, value, unit=None, **readings):
        with self._desk():
            return self.sheet.answer(id, value, unit, **readings)

    def drawn(self, exercise):
        return Drawn(exercise=exercise, shown=dict(self.sheet.given(exercise.id)), hidden={})

    def right(self, exercise):
        """Answer right, as somebody with a calculator of four figures would."""
        if exercise.kind == "number":
            self.type(exercise.id, float(f"{self.drawn(exercise).answer:.4g}"), exercise.unit)
        elif exercise.kind == "choice":
            self.type(exercise.id, exercise.right)
        elif exercise.kind == "function":
            self.type(exercise.id, exercise.answer)
        elif exercise.kind == "design":
            self.type(exercise.id, draw(exercise, secret=self.secret, bench=self.bench).known_design)
        elif exercise.kind == "measured":
            self.type(exercise.id, float(f"{exercise.example_result().right:.4g}"), exercise.unit, **exercise.example)
        else:
            self.type(exercise.id, f"I would take a probe along the side, and add up. {'And so on. ' * 10}")
        self.due[exercise.id] = None if exercise.kind == "text" else exercise.marks

    def all_right(self, *exceptions):
        for exercise in self.marked:
            if exercise not in exceptions:
                self.right(exercise)

    def wrong(self, exercise, factor=1.3):
        if exercise.kind == "number":
            self.type(exercise.id, float(f"{factor * self.drawn(exercise).answer:.4g}"), exercise.unit)
        elif exercise.kind == "choice":
            self.type(exercise.id, next(letter for letter in exercise.options if letter != exercise.right))
        elif exercise.kind == "design":
            design = draw(exercise, secret=self.secret, bench=self.bench).known_design
            self.type(exercise.id, {**design, "turns": round(factor * design["turns"])})
        elif exercise.kind == "measured":
            self.type(exercise.id, factor * exercise.example_result().right, exercise.unit, **exercise.example)
        elif exercise.kind == "function":
            self.type(exercise.id, lambda values, time: factor * exercise.answer(values, time))

    def unclear(self, id, line):
        with self._desk():
            return self.sheet.unclear(id, line)

    def give_back(self, returned, folder=""):
        """Return the work as the sheet writes it; the file goes where the instructor keeps it."""
        with self._desk():
            verdict = self.sheet.return_work()
        name = f"return-{self.bench}-{self.lesson.id}.json"
        target = returned / (folder or self.bench) / name
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(self.home / self.machine / name, target)
        return target, verdict


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
    number = student.drawn(exercise).own_slips[0][0]
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


def unpack(pack, folder):
    """Unpack a pack as a student does; return its folder of notebooks."""
    with zipfile.ZipFile(pack) as file:
        file.extractall(folder)
    return folder / pack.stem / "notebooks"


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
            totals[bench] = _sum(student.due)
        else:
            totals[bench] = _late(student, returned, LATE_PARTS[place - len(PARTS)], received)
        due[bench] = student.due
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
    """A late part; return the total due."""
    def note(path, time):
        received.append((f"returned\\{path.relative_to(returned)}".replace("/", "\\"), time))

    if when == "in two goes":
        half = student.marked[:len(student.marked) // 2]
        for exercise in half:
            student.right(exercise)
        note(student.give_back(returned, f"{student.bench} first")[0], IN_TIME)
        in_time = _sum(student.due)
        student.all_right()
        note(student.give_back(returned, f"{student.bench} then")[0], THIRD_DAY)
        return max(in_time, _sum(student.due) * 0.7)
    student.all_right()
    note(student.give_back(returned)[0], when)
    return _sum(student.due) * (0.9 if when == NEXT_DAY else 0.7)


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
            id: "" if marks is None else "to mark" if marks[id] is None else _text(marks[id])
            for id in (marks or [name for name in row if name[0].isdigit() and " " not in name])}}
        if wrong := {name: (row[name], cell) for name, cell in expected.items() if row[name] != cell}:
            yield f"{bench}: " + ", ".join(f"{name} is {is_now!r}, due {cell!r}"
                                           for name, (is_now, cell) in wrong.items())


def _text(number):
    return "" if number is None else f"{round(number, 4):.10g}"


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--lesson", default="01")
    arguments = parser.parse_args()
    course, due, totals = play(arguments.folder, lesson=arguments.lesson)
    done = mark(Course(course.folder))
    faults = list(compare(course, due, totals))
    print(f"{len(due)} benches played in {arguments.folder}, {len(done.not_read)} files not read, "
          f"{done.waiting} texts wait. Marks as due: {'yes' if not faults else 'no'}")
    print("\n".join(faults))
    return bool(faults)


if __name__ == "__main__":
    sys.exit(main())
