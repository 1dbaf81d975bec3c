"""The evenings on paper, for the instructor: each plan on a page of its own, questions to vote on, the note."""
from itertools import accumulate

from lessons_lib.base.pages import page_bytes
from lessons_lib.course.pack import chosen_ids
from lessons_lib.exercises.sheet_file import write_whole

EVENINGS = "evenings.html"


def evenings_page(title, lessons):
    """Return the page of *lessons* as bytes; *title* is the course's."""
    return page_bytes("course/templates/evenings.html", course=title, lessons=[
        {"id": lesson.id, "title": lesson.title, "plans": [_plan(one) for one in lesson.evenings],
         "votes": lesson.to_vote, "note": lesson.teaching_note} for lesson in lessons])


def _plan(evening):
    """An evening with its stretches as rows (minutes, from, until, what, ask)."""
    untils = list(accumulate(one.minutes for one in evening.stretches))
    return {"evening": evening, "rows": [(one.minutes, until - one.minutes, until, one.what, one.ask)
                                         for one, until in zip(evening.stretches, untils)]}


def write_evenings(course, lessons_text=""):
    """Write the page into the course folder; return (its path, how many plans it holds).

    Parameters
    ----------
    course : Course
    lessons_text : str
        Such as "1-2"; an empty text for all lessons of the model answers, whether they were given out or not.

    Raises
    ------
    ValueError
        For a lesson that there is not; the message is one sentence.
    """
    ids = chosen_ids(lessons_text, course.lessons, "There is no lesson {}.")
    lessons = [course.lessons[lesson_id] for lesson_id in ids]
    with course.busy():
        path = course.folder / EVENINGS
        write_whole(path, evenings_page(course.settings.title, lessons))
    return path, sum(len(lesson.evenings) for lesson in lessons)
