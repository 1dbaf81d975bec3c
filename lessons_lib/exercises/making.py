"""From a declared lesson to one bench's sheet: given values in the open, answers sealed, and no worked answer."""
from lessons_lib.exercises.draws import draw_lesson, keyed
from lessons_lib.exercises.kinds import KINDS


def make_sheet(lesson, *, secret, bench, drawn=None, for_marking=False):
    """Return what the student of *bench* may have of *lesson*, as plain data for a sheet file.

    *drawn* is exercise id -> `Drawn` of values that were given out before; without it they are drawn. *for_marking*: of
    a silent lesson, too, what tells right from wrong; it stays with the instructor.
    """
    drawn = draw_lesson(lesson, secret=secret, bench=bench) if drawn is None else drawn
    return {**sheet_head(lesson, bench), "exercises": {
        exercise.id: exercise_record(lesson, exercise, drawn.get(exercise.id), secret=secret, bench=bench,
                                     for_marking=for_marking)
        for exercise in lesson.exercises}}


def sheet_head(lesson, bench):
    """Return what a sheet holds beside its exercises; the ids of what is *further*, where anything is."""
    further = [exercise.id for exercise in lesson.exercises if exercise.further]
    return {"lesson": lesson.id, "title": lesson.title, "version": lesson.version, "bench": bench,
            **({"further": further} if further else {})}


def exercise_record(lesson, exercise, drawn, *, secret, bench, for_marking=False):
    """Return the record of one exercise of a lesson for a bench's sheet; *for_marking* as in `make_sheet`."""
    fields = exercise.sheet_record(drawn, keyed(secret, bench, lesson.id, exercise.id, "salt").hex()[:16])
    if not lesson.silent or for_marking:
        return fields
    in_the_open = KINDS[exercise.kind].open_fields
    return {"kind": exercise.kind, "silent": True, **{name: fields[name] for name in in_the_open if name in fields}}


def make_worked_answers(lesson, *, secret, bench, drawn=None):
    """Return exercise id -> worked answer with the bench's own numbers; *drawn* as in `make_sheet`."""
    drawn = draw_lesson(lesson, secret=secret, bench=bench) if drawn is None else drawn
    return {exercise.id: exercise.worked_answer(drawn.get(exercise.id))
            for exercise in lesson.exercises if exercise.worked}
