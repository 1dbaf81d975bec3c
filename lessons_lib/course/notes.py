"""The page a student gets back: each exercise with the answer that counted, its marks and its note. No right values."""
from html import escape

from lessons_lib.course.pages import page_bytes, table


def notes_page(course, bench, lessons, comments):
    """Return the page of a bench, as bytes.

    *lessons* is lesson id -> `LessonMarks`, *comments* exercise id -> what a marker wrote to the student.
    """
    return page_bytes(f"Bench {bench}: {course.settings.title}",
                      *(_section(one, comments) for one in lessons.values()))


def _section(one, comments):
    rows = [(exercise_id, outcome.answer, _marks(outcome),
             "\n".join([_says(outcome), *(f"From your instructor: {said}" for said in comments.get(exercise_id, ()))]))
            for exercise_id, outcome in one.outcomes.items()]
    late = f" {one.late_percent:g} % was taken off because {_what_is_late(one)} came late." if one.late_percent else ""
    waits = ", without what is not yet marked" if any(one.marks is None for one in one.outcomes.values()) else ""
    return (f"<section><h2>Lesson {escape(one.lesson.id)}, {escape(one.lesson.title)}</h2>"
            f"<p>{one.total:g} of {one.most:g} marks{waits}.{late} "
            f"Check code of the return: {escape(', '.join(one.checks))}.</p>"
            f"{table(('exercise', 'your answer', 'marks', 'comment'), rows)}</section>" if rows else "")


def _what_is_late(one):
    return "it" if min(one.offs.values()) else "some of it"


def _marks(outcome):
    if outcome.marks is None:
        return f"not yet marked (out of {outcome.most:g})"
    return f"{outcome.marks:g} of {outcome.most:g}"


def _says(outcome):
    if outcome.marks is None:
        return "Your instructor will read this one."
    head = outcome.how.partition(":")[0]
    if head == "slip":
        head = "not yet"
    late = f"{outcome.off:g} % was taken off because it came late." if outcome.off and outcome.earned else ""
    return " ".join(filter(None, (f"{head[0].upper()}{head[1:]}.", outcome.note, late)))
