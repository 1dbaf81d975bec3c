"""A student of an invented class: works on the unpacked pack through the real sheets."""
import os
import shutil
import zipfile
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

import lessons_lib
from lessons_lib.exercises.draws import Drawn, draw


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
                if one.kind != "prediction" and not one.quick and one.marks and not one.further]

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

    def type(self, exercise_id, value, unit=None, **readings):
        with self._desk():
            return self.sheet.answer(exercise_id, value, unit, **readings)

    def drawn(self, exercise):
        return Drawn(exercise=exercise, shown=dict(self.sheet.given(exercise.id)), hidden={})

    def whole(self, exercise):
        """What the bench was given, with what is hidden where the course's secret is known."""
        return (draw(exercise, secret=self.secret, bench=self.bench) if self.secret and exercise.hidden else
                self.drawn(exercise))

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
        elif exercise.kind != "text":
            value, unit, readings = exercise.model_answer(self.whole(exercise) if exercise.is_drawn else None)
            self.type(exercise.id, value, unit, **readings)
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

    def unclear(self, exercise_id, line):
        with self._desk():
            return self.sheet.unclear(exercise_id, line)

    def give_back(self, returned, folder=""):
        """Return the work as the sheet writes it; the file goes where the instructor keeps it."""
        with self._desk():
            verdict = self.sheet.return_work()
        name = f"return-{self.bench}-{self.lesson.id}.json"
        target = returned / (folder or self.bench) / name
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(self.home / self.machine / name, target)
        return target, verdict


def unpack(pack, folder):
    """Unpack a pack as a student does; return its folder of notebooks."""
    with zipfile.ZipFile(pack) as file:
        file.extractall(folder)
    return folder / pack.stem / "notebooks"
