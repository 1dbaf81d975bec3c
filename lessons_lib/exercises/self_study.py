"""Self-study: the lessons of a folder of model answers, and sheets of the benches whose numbers everybody may have.

Nothing is stored: each part of a sheet is made when it is first looked at.
"""
import importlib.util
from collections.abc import Mapping
from pathlib import Path

from lessons_lib.exercises.declaration import Lesson
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw
from lessons_lib.exercises.making import exercise_record


def load_lessons(answers):
    """Return the `Lesson` that each ``lesson_NN.py`` of the folder *answers* calls ``LESSON``, in order.

    Raises
    ------
    ValueError
        Where there is no such file, or one cannot be used; the message is one sentence.
    """
    paths = sorted(Path(answers).glob("lesson_*.py"))
    if not paths:
        raise ValueError(f"There is no lesson_*.py in {answers}; name the folder of the model answers.")
    return [load_lesson(path) for path in paths]


def load_lesson(path):
    """Return the `Lesson` of one file of model answers, as it is now; ValueError as in `load_lessons`."""
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
    """Return what `make_sheet` gives for a self-study bench; each exercise's record is made when it is asked for."""
    return {"lesson": lesson.id, "title": lesson.title, "version": lesson.version, "bench": bench,
            "exercises": _Records(lesson, bench)}


def self_study_worked(lesson, bench, exercise_id):
    """Return the worked answer of one exercise with a self-study bench's numbers; an empty text where it has none."""
    exercise = lesson[exercise_id]
    return exercise.worked_answer(_drawn(exercise, bench)) if exercise.worked else ""


class _Records(Mapping):
    """Exercise id -> its record of a sheet. The limits of a design take a fifth of a second: opening does not wait.

    One that cannot be made is a ValueError with one sentence, whenever it is asked for.
    """

    def __init__(self, lesson, bench):
        self._lesson, self._bench, self._made = lesson, bench, {}
        self._exercises = {exercise.id: exercise for exercise in lesson.exercises}

    def __iter__(self):
        return iter(self._exercises)

    def __len__(self):
        return len(self._exercises)

    def __getitem__(self, exercise_id):
        exercise = self._exercises[exercise_id]
        if exercise_id not in self._made:
            try:
                self._made[exercise_id] = exercise_record(self._lesson, exercise, _drawn(exercise, self._bench),
                                                          secret=SELF_STUDY_SECRET, bench=self._bench)
            except Exception as error:  # a formula of the answers may fail in any way
                why = error if isinstance(error, ValueError) else f"{type(error).__name__}: {error}"
                raise ValueError(f"Exercise {exercise_id} cannot be made for {self._bench}: {why}") from error
        return self._made[exercise_id]


def _drawn(exercise, bench):
    return draw(exercise, secret=SELF_STUDY_SECRET, bench=bench) if exercise.is_drawn else None
