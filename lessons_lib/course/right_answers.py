"""Right answers on paper, for the instructor only: worked answers for one bench, and a key for many."""
from lessons_lib.base.pages import page_bytes
from lessons_lib.base.units import shown_unit
from lessons_lib.course.given_out import NOTHING_YET, all_given_out
from lessons_lib.course.pack import chosen_ids
from lessons_lib.course.settings import Settings
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw_lesson
from lessons_lib.exercises.making import make_worked_answers
from lessons_lib.exercises.paper import Grid, Paragraph
from lessons_lib.exercises.sheet_file import write_whole


def worked_page(course, bench):
    """Return the page of a bench for all lessons given out so far, as bytes.

    Raises
    ------
    ValueError
        Where the bench was given nothing; the message is one sentence.
    """
    lessons = [_worked_lesson(given_out.lesson, bench, given_out.drawn(bench), course.secret, course.settings)
               for given_out in all_given_out(course).values() if bench in given_out]
    if not lessons:
        raise ValueError(f"Nothing has been given out to {bench[:20]}; write a bench such as "
                         f"{next(iter(course.students))}.")
    return page_bytes("course/templates/worked.html", bench=bench, course=course.settings.title, lessons=lessons)


def self_study_page(lessons, bench):
    """Return the page of a self-study bench for *lessons*, as bytes."""
    secret = SELF_STUDY_SECRET
    return page_bytes("course/templates/worked.html", bench=bench, course=None, lessons=[
        _worked_lesson(lesson, bench, draw_lesson(lesson, secret=secret, bench=bench), secret, Settings())
        for lesson in lessons])


def _worked_lesson(lesson, bench, drawn, secret, settings):
    worked = make_worked_answers(lesson, secret=secret, bench=bench, drawn=drawn)

    def blocks(one):
        if one.is_drawn and one.id not in drawn:
            yield Paragraph("This bench was given no values for it.")
        else:
            yield from one.right_on_paper(drawn.get(one.id))
        if one.points:
            yield Grid(("marks", "for"), tuple((f"{marks:g}", what) for marks, what in one.points))

    return {"id": lesson.id, "title": lesson.title, "exercises": [
        {"called": one.called, "most": settings.most_marks(one), "worked": worked.get(one.id, ""),
         "note": one.teaching_note, "blocks": list(blocks(one))} for one in lesson.exercises]}


def write_worked(course, bench):
    """Write the page of a bench into the course folder; return its path."""
    with course.busy():
        page = worked_page(course, bench)       # refuses what is no bench before it becomes a file's name
        path = course.folder / "worked" / f"{bench}.html"
        write_whole(path, page)
    return path


def read_benches(course, text):
    """Return the benches in a text such as "b010,b017"; without a text those of the class list.

    Raises
    ------
    ValueError
        For a bench that is neither on the class list nor a spare one.
    """
    benches = [one.strip().lower() for one in text.split(",")] if text else list(course.students)
    for bench in benches:
        if bench not in course.students and bench not in course.spares:
            raise ValueError(f'"{bench[:20]}" is not a bench of this course; write one such as '
                             f"{','.join(list(course.students)[:2])}.")
    return benches


def write_key(course, benches_text="", lessons_text=""):
    """Write the page for benches and lessons in two texts, an empty one for all; return (its path, benches)."""
    with course.busy():
        benches, given_out = read_benches(course, benches_text), all_given_out(course)
        ids = chosen_ids(lessons_text, given_out, "Lesson {} has not been given out yet.")
        if not ids:
            raise ValueError(NOTHING_YET)
        path = course.folder / "key.html"
        write_whole(path, page_bytes("course/templates/key.html", course=course.settings.title,
                                     lessons=[_key_lesson(given_out[lesson_id], benches) for lesson_id in ids]))
    return path, benches


def _key_lesson(given_out, benches):
    """A column for each value of a bench's own, a row for each bench; what is right at all benches is said once."""
    lesson = given_out.lesson
    columns = [one for one in lesson.exercises if one.is_in_key]
    rows = []
    for bench in benches:
        if bench in given_out:
            here = given_out.drawn(bench)
            rows.append((bench, [one.key_value(here[one.id]) if one.id in here else "" for one in columns]))
    return {"id": lesson.id, "title": lesson.title, "rows": rows,
            "alike": [(one.called, said) for one in lesson.exercises if (said := one.right_for_all())],
            "heads": [(f"{one.id} {shown_unit(one.unit or '')}", one.further) for one in columns],
            "points": [(one.id, f"{marks:g}", what) for one in lesson.exercises if lesson.silent
                       for marks, what in one.points or getattr(one, "rubric", ())]}
