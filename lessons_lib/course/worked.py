"""``worked-answers``: the model answers with one bench's numbers, rubrics and teaching notes, for the instructor."""
from lessons_lib.base.pages import page_bytes
from lessons_lib.course.given_out import GivenOut, lessons_given_out
from lessons_lib.course.settings import Settings
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw_lesson
from lessons_lib.exercises.making import make_worked_answers
from lessons_lib.exercises.paper import Paragraph
from lessons_lib.exercises.sheet_file import write_whole


def worked_page(course, bench):
    """Return the page of a bench for all lessons given out so far, as bytes.

    Raises
    ------
    ValueError
        Where the bench was given nothing; the message is one sentence.
    """
    lessons = []
    for lesson_id in lessons_given_out(course):
        given_out = GivenOut(course, course.lessons[lesson_id])
        if bench in given_out:
            lessons.append(_lesson(course.lessons[lesson_id], bench, given_out.drawn(bench), secret=course.secret,
                                   settings=course.settings))
    if not lessons:
        raise ValueError(f"Nothing has been given out to {bench[:20]}; write a bench such as "
                         f"{next(iter(course.students))}.")
    return page_bytes("course/templates/worked.html", bench=bench, course=course.settings.title, lessons=lessons)


def self_study_page(lessons, bench):
    """Return the page of a self-study bench for *lessons*, as bytes."""
    return page_bytes("course/templates/worked.html", bench=bench, course=None, lessons=[
        _lesson(lesson, bench, draw_lesson(lesson, secret=SELF_STUDY_SECRET, bench=bench), secret=SELF_STUDY_SECRET,
                settings=Settings()) for lesson in lessons])


def _lesson(lesson, bench, drawn, *, secret, settings):
    worked = make_worked_answers(lesson, secret=secret, bench=bench, drawn=drawn)
    return {"id": lesson.id, "title": lesson.title, "teaching_note": lesson.teaching_note, "exercises": [
        {"id": exercise.id, "most": settings.most_marks(exercise),
         "blocks": worked_blocks(exercise, drawn.get(exercise.id)), "worked": worked.get(exercise.id, ""),
         "note": exercise.teaching_note}
        for exercise in lesson.exercises]}


def worked_blocks(exercise, drawn):
    """Return what is right for an exercise, as blocks of `lessons_lib.exercises.paper`."""
    if exercise.is_drawn and not drawn:
        return (Paragraph("This bench was given no values for it."),)
    return exercise.right_on_paper(drawn)


def write_worked(course, bench):
    """Write the page of a bench into the course folder; return its path."""
    with course.busy():
        page = worked_page(course, bench)       # refuses what is no bench before it becomes a file's name
        path = course.folder / "worked" / f"{bench}.html"
        write_whole(path, page)
    return path
