"""The page a student gets back: each exercise with the answer that counted, its marks and its note. No right values."""
from typing import NamedTuple

from lessons_lib.base.pages import page_bytes
from lessons_lib.course.marking import Outcome


class Row(NamedTuple):
    """An exercise on the page; *says* is what there is to say of an `Outcome` that has its marks."""

    exercise_id: str
    outcome: Outcome
    says: str
    comments: tuple


def notes_page(course, bench, lessons, comments):
    """Return the page of a bench, as bytes.

    *lessons* is lesson id -> `LessonMarks`, *comments* exercise id -> what a marker wrote to the student.
    """
    return page_bytes("course/templates/notes.html", course=course.settings.title, bench=bench, lessons=[
        _lesson(marks, comments) for marks in lessons.values() if marks.outcomes])


def _lesson(marks, comments):
    rows = [Row(exercise_id, outcome, _says(outcome), tuple(comments.get(exercise_id, ())))
            for exercise_id, outcome in marks.outcomes.items()]
    return {"marks": marks, "rows": rows, "waits": any(row.outcome.marks is None for row in rows),
            "all_late": all(marks.offs.values())}


def _says(outcome):
    head = outcome.how.partition(":")[0]
    if head == "slip":
        head = "not yet"
    late = f"{outcome.off:g} % was taken off because it came late." if outcome.off and outcome.earned else ""
    return " ".join(filter(None, (f"{head[:1].upper()}{head[1:]}.", outcome.note, late)))
