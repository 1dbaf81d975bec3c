"""``key``: the right values of a set of benches on one page, to check work as you walk round. For instructors only."""
from lessons_lib.base.pages import page_bytes
from lessons_lib.base.units import shown_unit
from lessons_lib.course.folder import Course
from lessons_lib.course.given_out import GivenOut, lessons_given_out
from lessons_lib.course.pack import read_lessons
from lessons_lib.exercises.sheet_file import write_whole


def key_page(course, benches, ids):
    """Return the page of the right values of *benches* in the lessons *ids*, as bytes."""
    return page_bytes("course/templates/key.html", course=course.settings.title,
                      lessons=[_lesson(course, course.lessons[lesson_id], benches) for lesson_id in ids])


def _lesson(course, lesson, benches):
    given_out = GivenOut(course, lesson)
    drawn = {bench: given_out.drawn(bench) for bench in benches if bench in given_out}
    columns = [one for one in lesson.exercises if one.is_in_key]
    alike = [f"{one.id} {said}" for one in lesson.exercises if (said := one.right_for_all())]
    return {"id": lesson.id, "title": lesson.title, "alike": alike,
            "heads": [f"{one.id} {shown_unit(one.unit)}" for one in columns],
            "rows": [(bench, [one.key_value(here[one.id]) if one.id in here else "" for one in columns])
                     for bench, here in drawn.items()]}


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
        benches, ids = read_benches(course, benches_text), lessons_given_out(course)
        if lessons_text:
            wanted = read_lessons(lessons_text)
            if not_given := sorted(set(wanted) - set(ids)):
                raise ValueError(f"Lesson {not_given[0]} has not been given out yet.")
            ids = wanted
        if not ids:
            raise ValueError("Nothing has been given out yet. Run give-out first.")
        path = course.folder / "key.html"
        write_whole(path, key_page(course, benches, ids))
    return path, benches


def run(arguments):
    """Run ``key`` from the command line; return the words to print."""
    path, benches = write_key(Course(arguments.folder), arguments.benches, arguments.lessons)
    whose = "one bench" if len(benches) == 1 else f"{len(benches)} benches"
    return f"{path}: right values of {whose}, for your eyes only. Next: open it in a browser."
