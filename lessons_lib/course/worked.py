"""``worked-answers``: the model answers with one bench's numbers, rubrics and teaching notes, for the instructor."""
from html import escape

from lessons_lib.base.units import shown_unit, with_unit
from lessons_lib.base.words import plural
from lessons_lib.course.folder import Course
from lessons_lib.course.given_out import GivenOut, lessons_given_out
from lessons_lib.course.pages import page_bytes, prose, table
from lessons_lib.course.settings import Settings
from lessons_lib.exercises.declaration import DRAWN
from lessons_lib.exercises.designs import design_fields
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw_lesson, named_slips
from lessons_lib.exercises.making import known_text, make_worked_answers, value_text
from lessons_lib.exercises.sheet_file import write_whole


def worked_page(course, bench):
    """Return the page of a bench for all lessons given out so far, as bytes.

    Raises
    ------
    ValueError
        Where the bench was given nothing; the message is one sentence.
    """
    sections = []
    for lesson_id in lessons_given_out(course):
        given_out = GivenOut(course, course.lessons[lesson_id])
        if bench in given_out:
            sections.append(_lesson(course.lessons[lesson_id], bench, given_out.drawn(bench), secret=course.secret,
                                    settings=course.settings))
    if not sections:
        raise ValueError(f"Nothing has been given out to {bench[:20]}; write a bench such as "
                         f"{next(iter(course.students))}.")
    return page_bytes(f"Worked answers for {bench}: {course.settings.title}",
                      "<p><strong>For the instructor.</strong> Do not give this to students.</p>", *sections)


def self_study_page(lessons, bench):
    """Return the page of a self-study bench for *lessons*, as bytes."""
    sections = [_lesson(lesson, bench, draw_lesson(lesson, secret=SELF_STUDY_SECRET, bench=bench),
                        secret=SELF_STUDY_SECRET, settings=Settings()) for lesson in lessons]
    return page_bytes(f"Worked answers for {bench}", "<p><strong>Not before you have tried.</strong></p>", *sections)


def _lesson(lesson, bench, drawn, *, secret, settings):
    worked = make_worked_answers(lesson, secret=secret, bench=bench, drawn=drawn)
    exercises = [_exercise(settings, exercise, drawn.get(exercise.id), worked.get(exercise.id, ""))
                 for exercise in lesson.exercises]
    return (f"<h2>Lesson {lesson.id}, {escape(lesson.title)}</h2>{prose(lesson.teaching_note)}{''.join(exercises)}")


def _exercise(settings, exercise, drawn, worked):
    most = settings.most_marks(exercise)
    marks = f", {most:g} {plural(most, 'mark', 'marks')}" if most else ""
    parts = _PARTS[exercise.kind](exercise, drawn) if exercise.kind not in DRAWN or drawn else [
        "<p>This bench was given no values for it.</p>"]
    note = getattr(exercise, "teaching_note", "")
    return "".join((f"<section><h3>{exercise.id}{marks}</h3>", *parts, prose(worked),
                    f"<p><em>{escape(note)}</em></p>" if note else "", "</section>"))


def _given(exercise, drawn):
    return table(("quantity", "name", "value", "unit"), [
        (exercise.shown[name].label, name, _joined(value_text(value, exercise.shown[name])),
         shown_unit(exercise.shown[name].unit)) for name, value in drawn.shown.items()])


def _number(exercise, drawn):
    slips = [(name, with_unit(f"{number:.4g}", exercise.unit)) for name, number in named_slips(drawn)]
    return [_given(exercise, drawn),
            f"<p>Right: <strong>{escape(with_unit(f'{drawn.answer:.4g}', exercise.unit))}</strong></p>",
            table(("slip", "gives"), slips) if slips else ""]


def _joined(text):
    return text if isinstance(text, str) else ", ".join(text)


def _choice(exercise, drawn):
    return [f"<p>Right: <strong>({exercise.right})</strong> {escape(exercise.options[exercise.right])}</p>"]


def _function(exercise, drawn):
    functions = (("right", exercise.answer), *((slip.name, slip.formula) for slip in exercise.slips))
    rows = [(name, *(with_unit(f"{number:.4g}", part.unit)
                     for part, number in zip(exercise.parts, exercise.readings(function))))
            for name, function in functions]
    return [table(("function", *(part.label for part in exercise.parts)), rows)]


def _design(exercise, drawn):
    found = exercise.findings(design_fields(exercise, drawn), drawn.known_design)
    return [_given(exercise, drawn),
            f"<p>One design that meets all limits: <strong>{escape(known_text(exercise, drawn))}</strong></p>",
            table(("limits, with that design",), [(one.words(),) for one in found])]


def _measured(exercise, drawn):
    result = exercise.example_result()
    right, wide = (with_unit(f"{number:.4g}", exercise.unit) for number in (result.right, result.tolerance))
    return [f"<p>The right value is what the fit to each student's own readings gives. The invented readings lead to "
            f"<strong>{escape(right)}</strong>; ±{escape(wide)} counts as right.</p>",
            table(tuple(f"{name} ({shown_unit(entry.unit)})" for name, entry in exercise.columns.items()),
                  [tuple(f"{number:g}" for number in row) for row in exercise.example["table"]])]


def _text(exercise, drawn):
    return [table(("marks", "for"), [(f"{marks:g}", what) for marks, what in exercise.rubric])]


def _prediction(exercise, drawn):
    return [f"<p>Prediction: {escape(exercise.question)} The panel shows: "
            f"<strong>({exercise.seen})</strong> {escape(exercise.seen_options[exercise.seen])}</p>"]


_PARTS = {"number": _number, "choice": _choice, "text": _text, "function": _function,
          "design": _design, "measured": _measured, "prediction": _prediction}


def write_worked(course, bench):
    """Write the page of a bench into the course folder; return its path."""
    with course.busy():
        page = worked_page(course, bench)       # refuses what is no bench before it becomes a file's name
        path = course.folder / "worked" / f"{bench}.html"
        write_whole(path, page)
    return path


def run(arguments):
    """Run ``worked-answers`` from the command line; return the words to print."""
    path = write_worked(Course(arguments.folder), arguments.bench.strip().lower())
    return f"{path}: for your eyes only. Next: open it in a browser."
