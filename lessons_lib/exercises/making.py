"""From a declared lesson to one bench's sheet: given values in the open, answers sealed, and no worked answer."""
from lessons_lib.base.units import read_unit, with_unit
from lessons_lib.exercises.declaration import evaluate
from lessons_lib.exercises.designs import design_fields, design_text
from lessons_lib.exercises.draws import draw_lesson, keyed, twin_of
from lessons_lib.exercises.function_parts import function_fields
from lessons_lib.exercises.measured import measured_fields
from lessons_lib.exercises.sealing import RIGHT, digest, notes_by_bin


def make_sheet(lesson, *, secret, bench, drawn=None):
    """Return what the student of *bench* may have of *lesson*, as plain data for a sheet file.

    *drawn* is exercise id -> `Drawn` of values that were given out before; without it they are drawn.
    """
    drawn = draw_lesson(lesson, secret=secret, bench=bench) if drawn is None else drawn
    salts = {exercise.id: keyed(secret, bench, lesson.id, exercise.id, "salt").hex()[:16]
             for exercise in lesson.exercises}
    return {"lesson": lesson.id, "title": lesson.title, "version": lesson.version, "bench": bench,
            "exercises": {exercise.id: sheet_record(exercise, drawn.get(exercise.id), salts[exercise.id])
                          for exercise in lesson.exercises}}


def make_worked_answers(lesson, *, secret, bench, drawn=None):
    """Return exercise id -> worked answer with the bench's own numbers; *drawn* as in `make_sheet`."""
    drawn = draw_lesson(lesson, secret=secret, bench=bench) if drawn is None else drawn
    return {exercise.id: _WORKED.get(exercise.kind, _as_it_is)(exercise, drawn.get(exercise.id))
            for exercise in lesson.exercises if getattr(exercise, "worked", "")}


def sheet_record(exercise, drawn, salt):
    """Return the part of a sheet that belongs to one exercise; *drawn* is None for kinds without given values."""
    return {"kind": exercise.kind, "salt": salt, **_FIELDS[exercise.kind](exercise, drawn, salt)}


def worked_text(text, drawn):
    """Return *text* with its ``{name}`` fields filled in from the values of *drawn*."""
    exercise, fields = drawn.exercise, _shown_texts(drawn)
    for name, step in exercise.steps.items():
        fields[name] = _in_unit(evaluate(step.formula, drawn.si), step.unit)
    if exercise.follows:
        fields["earlier"] = _in_unit(drawn.si["earlier"], exercise.follows.unit)
    return text.format(**fields, answer=with_unit(f"{drawn.answer:.4g}", exercise.unit))


def _shown_texts(drawn):
    return {name: _list_with_unit(value_text(value, declared), declared.unit)
            for (name, declared), value in zip(drawn.exercise.shown.items(), drawn.shown.values())}


def worked_design(exercise, drawn):
    """Return the worked answer of a `DesignExercise` with the bench's bounds and the design that is known."""
    return exercise.worked.format(**_shown_texts(drawn), design=known_text(exercise, drawn))


def known_text(exercise, drawn):
    """Return the known design of a bench as one line."""
    return design_text(design_fields(exercise, drawn), drawn.known_design)


def worked_readings(exercise):
    """Return the worked answer of a `MeasuredExercise` with what its example leads to."""
    result = exercise.example_result()
    return exercise.worked.format(answer=with_unit(f"{result.right:.4g}", exercise.unit),
                                  tolerance=with_unit(f"{result.tolerance:.2g}", exercise.unit),
                                  rows=len(exercise.example["table"]))


def _as_it_is(exercise, drawn):
    return exercise.worked


_WORKED = {"number": lambda exercise, drawn: worked_text(exercise.worked, drawn), "design": worked_design,
           "measured": lambda exercise, drawn: worked_readings(exercise)}


def value_text(value, declared):
    """Return a shown value as it is printed, a list of texts for a column."""
    if isinstance(value, (list, tuple)):
        return [value_text(one, declared) for one in value]
    return f"{value:.{declared.decimals}f}"


def _in_unit(number, unit):
    return with_unit(f"{number / read_unit(unit).factor:.4g}", unit)


def _list_with_unit(text, unit):
    return with_unit(text if isinstance(text, str) else ", ".join(text), unit)


def _number_fields(exercise, drawn, salt):
    scale = drawn.scale
    # values that were given out before a slip was written may lie too near to it: that bench goes without the slip
    named = notes_by_bin(scale, drawn.answer, drawn.told(drawn.own_slips), drawn.told(drawn.common_slips))
    notes = sorted(set(named.values()) - {RIGHT})
    return {
        "given": _given(exercise, drawn),
        "unit": exercise.unit, "size": list(exercise.size),
        "tolerance": scale.tolerance, "absolute": scale.absolute, "phase": scale.phase,
        "sealed": dict(sorted((digest(salt, exercise.id, "number", name), said if said == RIGHT else notes.index(said))
                              for name, said in named.items())),
        "slip_notes": notes,
        "notes": [*exercise.notes, worked_text(exercise.twin.text, twin_of(exercise))],
        **({"not_in": list(exercise.not_in)} if exercise.not_in else {}),
        **({"follows": exercise.follows.id} if exercise.follows else {})}


def _given(exercise, drawn):
    return [{"name": name, "label": declared.label, "unit": declared.unit, "value": value,
             "text": value_text(value, declared)}
            for (name, declared), value in zip(exercise.shown.items(), drawn.shown.values())]


def _design_fields(exercise, drawn, salt):
    return {"given": _given(exercise, drawn), **design_fields(exercise, drawn)}


def _measured_fields(exercise, drawn, salt):
    return measured_fields(exercise)


def _choice_fields(exercise, drawn, salt):
    return {"options": dict(exercise.options), **_sealed_letters(exercise.id, salt, exercise.right, exercise.notes)}


def _text_fields(exercise, drawn, salt):
    return {"least_words": exercise.least_words}


def _function_fields(exercise, drawn, salt):
    return function_fields(exercise, salt)


def _prediction_fields(exercise, drawn, salt):
    return {"question": exercise.question, "options": dict(exercise.options),
            "seen_question": exercise.seen_question, "seen_options": dict(exercise.seen_options),
            **_sealed_letters(exercise.id, salt, exercise.seen, exercise.seen_notes)}


def _sealed_letters(exercise_id, salt, right, notes):
    """Seal which letter is right apart from which note goes with a letter, so that no note stands beside "right"."""
    texts = sorted(set(notes.values()))
    said = sorted((digest(salt, exercise_id, "note", letter), texts.index(note)) for letter, note in notes.items())
    return {"right": digest(salt, exercise_id, "letter", right), "notes": texts, "said": dict(said)}


_FIELDS = {"number": _number_fields, "choice": _choice_fields, "text": _text_fields, "function": _function_fields,
           "design": _design_fields, "measured": _measured_fields, "prediction": _prediction_fields}
