"""``key``: the right values of a set of benches on one page, to check work as you walk round. For instructors only."""
from html import escape

from lessons_lib.base.units import shown_unit
from lessons_lib.course.folder import Course
from lessons_lib.course.given_out import GivenOut, lessons_given_out
from lessons_lib.course.pack import read_lessons
from lessons_lib.course.pages import page_bytes
from lessons_lib.exercises.function_parts import right_claim
from lessons_lib.exercises.sheet_file import write_whole

_STYLE = """<style>
@page { size: A4 landscape; margin: 10mm; }
body { max-width: none; margin: 0.5em 1em; font-size: 0.85em; line-height: 1.25; }
h1 { font-size: 1.3em; margin: 0.2em 0; }
h2 { font-size: 1.1em; margin: 0.7em 0 0.1em; } p { margin: 0.2em 0; }
@media print, (min-width: 75em) { main { columns: 2; } }
section { break-inside: avoid; } table { margin: 0.2em 0; }
th, td { padding: 0.05em 0.5em; white-space: nowrap; } td { text-align: right; }
</style>"""


def key_page(course, benches, ids):
    """Return the page of the right values of *benches* in the lessons *ids*, as bytes."""
    return page_bytes(f"Key: {course.settings.title}", _STYLE,
                      "<p><strong>For the instructor.</strong> Right values bench by bench, in the units "
                      "of the questions.</p>",
                      "<main>", *(_lesson(course, course.lessons[lesson_id], benches) for lesson_id in ids), "</main>")


def _lesson(course, lesson, benches):
    given_out = GivenOut(course, lesson)
    drawn = {bench: given_out.drawn(bench) for bench in benches if bench in given_out}
    numbers = [one for one in lesson.exercises if one.kind == "number"]
    head = "".join(f"<th scope=col>{escape(text)}</th>" for text in (
        "bench", *(f"{one.id} {shown_unit(one.unit)}" for one in numbers)))
    rows = "".join("".join((f"<tr><th scope=row>{bench}</th>",
                            *(f"<td>{_value(here.get(one.id))}</td>" for one in numbers), "</tr>"))
                   for bench, here in drawn.items())
    alike = "; ".join(said for one in lesson.exercises if (said := _alike(one)))
    return (f"<section><h2>Lesson {lesson.id}, {escape(lesson.title)}</h2>"
            + (f"<p>The same for all: {escape(alike)}.</p>" if alike else "")
            + (f"<table><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>" if numbers and rows else "")
            + "</section>")


def _value(drawn):
    return f"{drawn.answer:.4g}".replace("-", "−") if drawn else ""


def _alike(exercise):
    """What is right for every bench alike; an empty text where it is each bench's own, or read by people."""
    if exercise.kind == "choice":
        return f"{exercise.id} ({exercise.right})"
    if exercise.kind == "function":
        return f"{exercise.id} {right_claim(exercise).replace('; ', ', ').replace('-', '−')}"
    if exercise.kind == "prediction":
        return f"{exercise.id} the panel shows ({exercise.seen})"
    return {"design": f"{exercise.id} any design within the limits",
            "measured": f"{exercise.id} what the bench's own readings lead to"}.get(exercise.kind, "")


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
