"""Self-study: the lessons of a folder of model answers, and sheets of the benches whose numbers everybody may have.

Nothing is stored: each part of a sheet is made when it is first looked at.
"""
import importlib.util
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from lessons_lib.exercises.declaration import Lesson
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw
from lessons_lib.exercises.kinds import read_records
from lessons_lib.exercises.making import exercise_record, make_sheet, sheet_head


class WhenAsked(Mapping):
    """Name -> what make(name) gives, made when it is first asked for, and kept."""

    def __init__(self, names, make):
        self._names, self._make = dict.fromkeys(names), cache(make)

    def __iter__(self):
        return iter(self._names)

    def __len__(self):
        return len(self._names)

    def __contains__(self, name):
        return name in self._names

    def __getitem__(self, name):
        if name not in self._names:
            raise KeyError(name)
        return self._make(name)


def lessons_in(answers):
    """Return id -> the `Lesson` that ``lesson_NN.py`` of the folder *answers* calls ``LESSON``, in order.

    Each file is loaded when its lesson is first asked for. ValueError with one sentence where there is none, or, once
    it is asked for, one cannot be used.
    """
    paths = {path.stem.removeprefix("lesson_"): path for path in sorted(Path(answers).glob("lesson_*.py"))}
    if not paths:
        raise ValueError(f"There is no lesson_*.py in {answers}; name the folder of the model answers.")
    return WhenAsked(paths, lambda lesson_id: load_lesson(paths[lesson_id]))


def load_lessons(answers):
    """Return all that `lessons_in` finds, as a list."""
    return list(lessons_in(answers).values())


def load_lesson(path):
    """Return the `Lesson` of one file of model answers, as it is now; ValueError as in `lessons_in`."""
    if not path.is_file():
        raise ValueError(f"There is no file {path}.")
    spec = importlib.util.spec_from_file_location(f"answers_{path.stem}", path)
    module = importlib.util.module_from_spec(spec)
    try:
        spec.loader.exec_module(module)
    except Exception as error:  # whatever the file does wrong, people read one sentence
        raise ValueError(f"{path} cannot be used: {type(error).__name__}: {error}") from error
    lesson = getattr(module, "LESSON", None)
    if not isinstance(lesson, Lesson):
        raise ValueError(f"{path} has no LESSON = Lesson(...).")
    if path.stem != f"lesson_{lesson.id}":
        raise ValueError(f"{path} holds lesson {lesson.id}; call it lesson_{lesson.id}.py.")
    return lesson


def self_study_sheet(lesson, bench):
    """Return what `make_sheet` gives for a self-study bench; each exercise's record is made when it is asked for.

    The limits of a design take a fifth of a second: opening does not wait. A record that cannot be made is a ValueError
    with one sentence, whenever it is asked for.
    """
    def record(exercise_id):
        exercise = lesson[exercise_id]
        try:
            return exercise_record(lesson, exercise, _drawn(exercise, bench), secret=SELF_STUDY_SECRET, bench=bench)
        except Exception as error:  # a formula of the answers may fail in any way
            why = error if isinstance(error, ValueError) else f"{type(error).__name__}: {error}"
            raise ValueError(f"Exercise {exercise_id} cannot be made for {bench}: {why}") from error

    return {**sheet_head(lesson, bench),
            "exercises": WhenAsked([exercise.id for exercise in lesson.exercises], record)}


def self_study_records(lesson, bench):
    """Return exercise id -> `Record` that tells right from wrong, of a silent lesson, too."""
    return read_records(make_sheet(lesson, secret=SELF_STUDY_SECRET, bench=bench, for_marking=True))


def self_study_worked(lesson, bench, exercise_id):
    """Return the worked answer of one exercise with a self-study bench's numbers; an empty text where it has none."""
    exercise = lesson[exercise_id]
    return exercise.worked_answer(_drawn(exercise, bench)) if exercise.worked else ""


def _drawn(exercise, bench):
    return draw(exercise, secret=SELF_STUDY_SECRET, bench=bench) if exercise.is_drawn else None
