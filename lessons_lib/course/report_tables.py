"""The counts of one lesson, as the rows of the class report's tables."""
from typing import NamedTuple

from lessons_lib.course.charts import Bar, count_bar, tries_bar
from lessons_lib.course.class_shares import LEAST_FOR_DISCRIMINATION, discrimination, share_text
from lessons_lib.course.tally import ExerciseTally, PredictionTally, TextTally, ranked

_MOST_SLIPS, _MOST_VALUES = 5, 6


class Tries(NamedTuple):
    """How an exercise was answered; without an answer there is no bar and no share."""

    exercise_id: str
    question: str
    bar: Bar | None
    first: str
    right: str
    answered: int
    discrimination: str


class SlipOrNote(NamedTuple):
    """A *slip* and its note, or a general note, where *slip* is None: how many benches, and what came after it."""

    exercise_id: str
    slip: str | None
    note: str
    bar: Bar
    count: int
    answered: int
    tried: int
    right: str


class Option(NamedTuple):
    """An option of a prediction with its *count* of benches; *sure*: how sure they were, *shown*: by the panel."""

    count: int
    letter: str
    text: str
    sure: str = ""
    shown: bool = False


class Predicted(NamedTuple):
    """What was predicted, and what was then seen: questions and their options; *as_shown* is a share or empty."""

    exercise_id: str
    question: str
    predicted: list
    seen_question: str
    seen: list
    as_shown: str


def lesson_tables(tally, questions, unclear):
    """Return the rows of a `LessonTally`'s tables by their names; *questions* is exercise id -> its question."""
    tries = _of_kind(tally, ExerciseTally)
    return {
        "lesson": tally.lesson, "returned": tally.returned, "most_slips": _MOST_SLIPS,
        "with_discrimination": tally.returned >= LEAST_FOR_DISCRIMINATION,
        "tries": [_tries(tally, questions, exercise.id, one) for exercise, one in tries],
        "carried": [f"{exercise.id}: {one.carried}" for exercise, one in tries if one.carried],
        "slips": [row for exercise, one in tries if not exercise.quick
                  for row in _slips(exercise.id, one)],
        "unexplained": [(exercise.id, f"{one.unexplained_first} of {one.wrong_first}", ", ".join(
            f"{value} ({count})" for value, count in ranked(one.unexplained)[:_MOST_VALUES]))
            for exercise, one in tries if one.unexplained],
        "predictions": [_prediction(exercise, one) for exercise, one in _of_kind(tally, PredictionTally)
                        if one.predicted],
        "texts": [(exercise.id, questions.get(exercise.id, ""), one) for exercise, one in _of_kind(tally, TextTally)],
        "unclear": [(exercise, line) for lesson, exercise, _, line in unclear if lesson == tally.lesson.id]}


def _of_kind(tally, kind):
    return [(exercise, one) for exercise in tally.lesson.exercises
            if isinstance(one := tally.exercises[exercise.id], kind)]


def _tries(tally, questions, exercise_id, one):
    n = one.answered
    return Tries(exercise_id, questions.get(exercise_id, ""), tries_bar(one.first, one.right, n) if n else None,
                 share_text(one.first, n) if n else "", share_text(one.right, n) if n else "", n,
                 _discrimination(tally, exercise_id))


def _discrimination(tally, exercise_id):
    if tally.returned < LEAST_FOR_DISCRIMINATION or exercise_id not in tally.scored:
        return ""
    found = discrimination(tally.firsts, tally.scored.index(exercise_id))
    return "" if found is None else f"{found:+.2f}".replace("-", "−")


def _slips(exercise_id, one):
    """The most frequent slips of an exercise, then the general notes that were read."""
    counted = [(name, note, count, one.notes.get((name, note)))
               for (name, note), count in ranked(one.slips)[:_MOST_SLIPS]]
    counted += [(None, note, count.read, count)
                for note, count in sorted(one.notes.items(), key=str) if isinstance(note, str)]
    for slip, note, count, after in counted:
        tried, right = (after.tried, after.right) if after else (0, 0)
        yield SlipOrNote(exercise_id, slip, note, count_bar(min(count, one.answered), one.answered), count,
                         one.answered, tried, share_text(right, tried) if tried else "")


def _prediction(exercise, one):
    predicted = [Option(one.predicted[letter], letter, text,
                        sure=", ".join(str(one.sure[letter, sure]) for sure in (1, 2, 3)))
                 for letter, text in exercise.options.items() if one.predicted[letter]]
    seen = [Option(one.saw[letter], letter, text, shown=letter == exercise.seen)
            for letter, text in exercise.seen_options.items() if one.saw[letter] or letter == exercise.seen]
    looked = one.saw.total()
    return Predicted(exercise.id, exercise.question, predicted, exercise.seen_question, seen,
                     share_text(one.saw[exercise.seen], looked) if looked else "")
