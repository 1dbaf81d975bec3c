"""``worked-answers``: the model answers with one bench's numbers, rubrics and teaching notes, for the instructor."""
from lessons_lib.base.pages import page_bytes
from lessons_lib.course.folder import Course
from lessons_lib.course.given_out import GivenOut, lessons_given_out
from lessons_lib.course.settings import Settings
from lessons_lib.exercises.declaration import DRAWN
from lessons_lib.exercises.designs import design_fields
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw_lesson, named_slips
from lessons_lib.exercises.making import known_text, make_worked_answers, value_text
from lessons_lib.exercises.paper import Grid, Paragraph, Right
from lessons_lib.exercises.sheet_file import write_whole
from lessons_lib.exercises.units import shown_unit, with_unit


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
         "note": getattr(exercise, "teaching_note", "")}
        for exercise in lesson.exercises]}


def worked_blocks(exercise, drawn):
    """Return what is right for an exercise, as blocks of `lessons_lib.exercises.paper`."""
    if exercise.kind in DRAWN and not drawn:
        return (Paragraph("This bench was given no values for it."),)
    return _PARTS[exercise.kind](exercise, drawn)


def _given(exercise, drawn):
    return Grid(("quantity", "name", "value", "unit"), tuple(
        (exercise.shown[name].label, name, _joined(value_text(value, exercise.shown[name])),
         shown_unit(exercise.shown[name].unit)) for name, value in drawn.shown.items()))


def _joined(text):
    return text if isinstance(text, str) else ", ".join(text)


def _number(exercise, drawn):
    right = Right(with_unit(f"{drawn.answer:.4g}", exercise.unit))
    slips = tuple((name, with_unit(f"{number:.4g}", exercise.unit)) for name, number in named_slips(drawn))
    return _given(exercise, drawn), right, *([Grid(("slip", "gives"), slips)] if slips else [])


def _choice(exercise, drawn):
    return (Right(f"({exercise.right})", after=f" {exercise.options[exercise.right]}"),)


def _function(exercise, drawn):
    functions = (("right", exercise.answer), *((slip.name, slip.formula) for slip in exercise.slips))
    return (Grid(("function", *(part.label for part in exercise.parts)), tuple(
        (name, *(with_unit(f"{number:.4g}", part.unit)
                 for part, number in zip(exercise.parts, exercise.readings(function))))
        for name, function in functions)),)


def _design(exercise, drawn):
    found = exercise.findings(design_fields(exercise, drawn), drawn.known_design)
    return (_given(exercise, drawn), Right(known_text(exercise, drawn), before="One design that meets all limits:"),
            Grid(("limits, with that design",), tuple((one.words(),) for one in found)))


def _measured(exercise, drawn):
    result = exercise.example_result()
    right, wide = (with_unit(f"{number:.4g}", exercise.unit) for number in (result.right, result.tolerance))
    return (Right(right, before="The right value is what the fit to each student's own readings gives. The invented "
                                "readings lead to", after=f"; ±{wide} counts as right."),
            Grid(tuple(f"{name} ({shown_unit(entry.unit)})" for name, entry in exercise.columns.items()),
                 tuple(tuple(f"{number:g}" for number in row) for row in exercise.example["table"])))


def _text(exercise, drawn):
    return (Grid(("marks", "for"), tuple((f"{marks:g}", what) for marks, what in exercise.rubric)),)


def _prediction(exercise, drawn):
    return (Right(f"({exercise.seen})", before=f"Prediction: {exercise.question} The panel shows:",
                  after=f" {exercise.seen_options[exercise.seen]}"),)


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
