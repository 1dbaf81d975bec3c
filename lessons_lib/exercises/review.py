"""What the tests ask of a declared exercise over many draws, each fault one sentence."""
from lessons_lib.exercises.declaration import DRAWN
from lessons_lib.exercises.draws import Drawn, draw_once, twin_of, why_refused
from lessons_lib.exercises.function_parts import function_faults
from lessons_lib.exercises.making import value_text, worked_design, worked_readings, worked_text
from lessons_lib.exercises.measured import measured_fields, slip_numbers, slips_met
from lessons_lib.exercises.sealing import RIGHT, notes_by_bin

LEAST_ACCEPTED = 0.2  # of all draws: with fewer, benches differ by luck and the ranges should be mended


def review(exercise, draws=300):
    """Yield the faults of an exercise.

    Parameters
    ----------
    exercise : record of a declaration
        Kinds without given values are checked where they are declared and have no faults here.
    draws : int
        How many accepted draws are looked at.

    Yields
    ------
    str
        Too few draws accepted (with a reason met), a slip that is never told, an answer that the printed values do not
        lead to, a fuller model that would be marked wrong, a worked text that cannot be filled in.
    """
    if exercise.kind == "function":
        yield from function_faults(exercise)
    if exercise.kind == "measured":
        yield from _measured_faults(exercise)
    if exercise.kind not in DRAWN:
        return
    accepted, reason, tried = [], "", 0
    while len(accepted) < draws and tried < draws / LEAST_ACCEPTED:
        drawn = draw_once(exercise, secret="review", bench="b999", number=tried)
        why = why_refused(drawn)
        tried, reason = tried + 1, why or reason
        if not why:
            accepted.append(drawn)
    if len(accepted) < draws:
        yield f"{exercise.id}: only {len(accepted)} of {tried} draws are accepted; for one, {reason}."
    for drawn in accepted:
        yield from _faults(drawn) if exercise.kind == "number" else _design_faults(drawn)


def _design_faults(drawn):
    if not worked_design(drawn.exercise, drawn).strip():
        yield f"{drawn.exercise.id}: a worked text is empty."


def _measured_faults(exercise):
    """An example that leads nowhere, or a slip that it does not tell apart from the right way."""
    record = measured_fields(exercise)
    try:
        result = exercise.example_result()
    except ValueError as error:
        yield f"{exercise.id}: with the example, {error}."
        return
    for name, number in slip_numbers(record, result):
        if name not in [met for met, _ in slips_met(record, result, number)]:
            yield f"{exercise.id}: slip {name}, {number:.4g} with the example, is not told."
    worked_readings(exercise)


def _faults(drawn):
    exercise, scale, right = drawn.exercise, drawn.scale, drawn.answer
    where = f"{exercise.id} with {drawn.shown}"
    if scale.distance(_from_print(drawn).answer, right) > 0.5:
        yield f"{where}: the printed values lead to {_from_print(drawn).answer:.5g}, not to {right:.5g}."
    if exercise.fuller and not scale.is_right(drawn.fuller_answer, right):
        yield f"{where}: the fuller model gives {drawn.fuller_answer:.4g}, which would not be right by {right:.4g}."
    named = notes_by_bin(scale, right, drawn.own_slips, drawn.common_slips)
    for number, note in drawn.own_slips:
        said = named[scale.bin(number)]
        if said == RIGHT or note not in said:
            yield f"{where}: the slip of {number:.4g} is not told."
    for text, values in ((exercise.worked, drawn), (exercise.twin.text, twin_of(exercise))):
        if not worked_text(text, values).strip():
            yield f"{where}: a worked text is empty."


def _from_print(drawn):
    """The same draw as a student reads it: values from their printed texts."""
    def read(text):
        return [float(one) for one in text] if isinstance(text, list) else float(text)

    declared = drawn.exercise.shown
    return Drawn(exercise=drawn.exercise, hidden=drawn.hidden,
                 shown={name: read(value_text(value, declared[name])) for name, value in drawn.shown.items()})
