"""The settings of a course, as the instructor writes them in course.toml."""
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from datetime import date, datetime, time
from pathlib import Path

from lessons_lib.base.pages import LIBRARY
from lessons_lib.base.units import read_unit
from lessons_lib.base.words import did_you_mean

CHECKOUT = LIBRARY.parent
_OTHER_DATE = re.compile(r"=\s*\d{1,2}[./]\d{1,2}[./]\d{4}", re.ASCII)     # 10.10.2030, 10/10/2030


@dataclass(frozen=True, kw_only=True)
class Late:
    """What being late costs: a percentage of the marks of what came late, for each day begun after the grace."""

    percent_a_day: float = 0.0
    at_most: float = 100.0
    grace_hours: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Settings:
    """The settings of a course; mappings are by exercise, lesson or bench."""

    title: str = "Course"
    answers: Path = CHECKOUT / "answers"
    notebooks: Path = CHECKOUT / "notebooks"
    instrument: Path | None = None
    decimal_comma: bool = False
    carried_forward: float = 1.0
    further_counts: bool = False
    marks: Mapping = field(default_factory=dict)
    tolerances: Mapping = field(default_factory=dict)
    slip_marks: Mapping = field(default_factory=dict)
    deadlines: Mapping = field(default_factory=dict)
    late: Late = Late()
    extensions: Mapping = field(default_factory=dict)

    def most_marks(self, exercise):
        """Return the marks that an exercise carries here.

        Predictions and quick questions carry none, and a further exercise none that is not set for it here, unless
        `further_counts`: core alone makes the full mark.
        """
        if not exercise.is_marked:
            return 0
        return self.marks.get(exercise.id, exercise.marks if self.further_counts or not exercise.further else 0)

    def apply(self, lesson):
        """Return the lesson with this course's tolerances."""
        changed = {}
        for exercise in lesson.exercises:
            if exercise.id in self.tolerances and exercise.tolerance:
                exercise = replace(exercise, tolerance=self.tolerances[exercise.id])
            if exercise.follows:
                exercise = replace(exercise, follows=changed[exercise.follows.id])
            changed[exercise.id] = exercise
        return replace(lesson, exercises=tuple(changed.values()))


def new_settings(title):
    """Return the text of a new course.toml: every setting is in it, switched off, with an example."""
    text = (LIBRARY / "course/templates/course.toml").read_text(encoding="utf-8")
    return text.replace("{title}", re.sub(r'["\\]', "", title))


def _what_is_wrong(value, is_right):
    """A value in words: of a table only the lines that are not right, as they are written."""
    if not isinstance(value, dict):
        return repr(value)
    return ", ".join(f'"{name}" = {one if isinstance(one, (date, time)) else repr(one)}' for name, one in value.items()
                     if not is_right({name: one}))


def read_settings(path):
    """Return the `Settings` in a TOML file; folders in it are seen from the file's own.

    Raises
    ------
    ValueError
        Where something in it cannot be used; the message is one sentence.
    """
    text = ""
    try:
        text = path.read_text(encoding="utf-8-sig")
        found = tomllib.loads(text)
    except ValueError as error:
        slashes = ' Write folders with /, on Windows, too, such as "C:/mine/answers".' if "\\" in text else ""
        dates = " Write a date and time as 2030-10-10T18:00:00." if _OTHER_DATE.search(text) else ""
        raise ValueError(f"{path} cannot be read: {error}.{slashes}{dates}") from None
    _check_names(path, found, Settings, "setting")
    for name, (rule, is_right) in _CHECKS.items():
        if name in found and not is_right(found[name]):
            raise ValueError(f"{path}: {name} must be {rule}; got {_what_is_wrong(found[name], is_right)}.")
    for name in ("answers", "notebooks", "instrument"):
        if name in found:
            if re.search(r"[\x00-\x1f]", found[name]):      # "C:\new": TOML makes a line's end of \n
                raise ValueError(f"{path}: {name} must be written with /, on Windows, too; got {found[name]!r}.")
            found[name] = path.parent / found[name]
    _check_names(path, found.get("late", {}), Late, "setting of [late]")
    if (value := found.get("late", {}).get("percent_a_day", 0)) > 100:
        raise ValueError(f"{path}: late: percent_a_day must be from 0 to 100 (per cent); got {value:g}.")
    return Settings(**{**found, "late": Late(**found.get("late", {}))})


def _check_names(path, found, record, what):
    known = [one.name for one in fields(record)]
    for name in found:
        if name not in known:
            raise ValueError(f'{path}: "{name}" is not a {what}; there are {", ".join(known)}.'
                             f"{did_you_mean(name, known)}")


def _is_from(value, low=0.0):
    return isinstance(value, (int, float)) and not isinstance(value, bool) and low <= value < 1e6


def _all_values(is_right):
    return lambda value: isinstance(value, dict) and all(map(is_right, value.values()))


_QUOTED = ("a text in quotes", lambda value: isinstance(value, str))
_YES_OR_NO = ("true or false", lambda value: isinstance(value, bool))
_NUMBERS = ("a number from 0 for each name", _all_values(_is_from))
_CHECKS = {
    "title": _QUOTED, "answers": _QUOTED, "notebooks": _QUOTED, "instrument": _QUOTED,
    "decimal_comma": _YES_OR_NO, "further_counts": _YES_OR_NO,
    "carried_forward": ("a share from 0 to 1", lambda value: _is_from(value) and value <= 1),
    "marks": _NUMBERS, "extensions": _NUMBERS,
    "late": ("a number from 0 for each name, and at_most no more than 100",
             lambda value: _all_values(_is_from)(value) and value.get("at_most", 0) <= 100),
    "tolerances": ("a number above 0 for each exercise, below 1 for shares",
                   _all_values(lambda value: _is_from(value, 1e-9))),
    "slip_marks": ("for each exercise a table of slip and marks", _all_values(_all_values(_is_from))),
    # other years are typing errors, and some machines cannot tell their local time
    "deadlines": ("a date and time for each lesson, such as 2030-10-10T18:00:00, in the years from 1971 to 2999",
                  _all_values(lambda value: isinstance(value, datetime) and 1971 <= value.year <= 2999)),
}


def check_known(settings, lessons, benches):
    """Refuse settings for an exercise or lesson or bench that there is not, or for what an exercise does not have.

    *lessons* is id -> `Lesson`; none is looked into where no setting is for an exercise.
    """
    named = settings.marks or settings.tolerances or settings.slip_marks
    exercises = {exercise.id: exercise for lesson in (lessons.values() if named else ())
                 for exercise in lesson.exercises}
    for name, what, known in (*((name, "an exercise", exercises) for name in ("marks", "tolerances", "slip_marks")),
                              ("deadlines", "a lesson", lessons),
                              ("extensions", "a bench of the class", benches)):
        for word in getattr(settings, name):
            if word not in known:
                raise ValueError(f'{name} in course.toml must name {what}; got "{word}".{did_you_mean(word, known)}')
    for exercise_id, marks in settings.marks.items():
        if marks and not settings.most_marks(exercises[exercise_id]):
            kind = "quick question" if exercises[exercise_id].quick else "prediction"
            raise ValueError(f"marks in course.toml: {exercise_id} is a {kind}, which is never scored. Take its line "
                             "out.")
    for exercise_id, tolerance in settings.tolerances.items():
        takes = exercises[exercise_id].tolerance
        if not takes or tolerance >= 1 and not read_unit(exercises[exercise_id].unit or "1").absolute:
            raise ValueError(f"tolerances in course.toml: exercise {exercise_id} takes "
                             f"{'a share below 1' if takes else 'none'}; got {tolerance:g}.")
    for exercise_id, marks in settings.slip_marks.items():
        exercise = exercises[exercise_id]
        known = [*(slip.name for slip in exercise.slips), *exercise.common]
        for slip in marks:
            if slip not in known:
                raise ValueError(f'slip_marks in course.toml: exercise {exercise_id} has no slip "{slip}"; it has '
                                 f"{', '.join(known) or 'none'}.{did_you_mean(slip, known)}")
