"""The parts of a function's answer: sealed for the sheet, looked over in the tests, named for the marks."""
import itertools
import math

from lessons_lib.base.units import read_unit
from lessons_lib.exercises.functions import claim_text
from lessons_lib.exercises.sealing import RIGHT, digest, scale_for

APART = 2.0     # tolerances between the right reading and that of a slip
_SAME = 0.2     # tolerances: at this part the slip does no harm


def function_fields(exercise, salt):
    """Return what a sheet holds of a `FunctionExercise`: signals in the open, the right readings sealed."""
    notes = sorted({slip.note for slip in exercise.slips})
    return {
        "signals": {name: {"label": signal.label, "values": list(signal.values), "time": list(signal.time)}
                    for name, signal in exercise.signals.items()},
        "parts": [_part(part, scale.phase, {digest(salt, exercise.id, f"part {place}", scale.bin(right)): RIGHT})
                  for place, (part, (scale, right)) in enumerate(zip(exercise.parts, _scales(exercise)))],
        "sealed": dict(sorted((digest(salt, exercise.id, "whole", names), notes.index(note))
                              for names, note in _bins_of_slips(exercise).items())),
        "tolerance": exercise.tolerance, "slip_notes": notes, "notes": list(exercise.notes)}


def open_parts(exercise):
    """Return the parts as a sheet has them, without anything sealed."""
    return [_part(part, 0.0, {}) for part in exercise.parts]


def right_claim(exercise):
    """Return the claim of the right function."""
    return claim_text(open_parts(exercise), exercise.readings(exercise.answer))


def _part(part, phase, sealed):
    return {"label": part.label, "signal": part.signal, "read": part.read, "unit": part.unit,
            "factor": read_unit(part.unit).factor, "between": part.between and list(part.between),
            "phase": phase, "sealed": sealed}


def _scales(exercise):
    """(scale, right reading) of every part."""
    return [(scale_for(right, tolerance=exercise.tolerance, absolute=False), right)
            for right in exercise.readings(exercise.answer)]


def _bins_of_slips(exercise):
    """The bins of all parts together -> note, for every slip: a slip is told where all readings are its own."""
    scales, named = [scale for scale, _ in _scales(exercise)], {}
    for slip in exercise.slips:
        for names in _names_of(exercise.readings(slip.formula), scales):
            named.setdefault(names, slip.note)
    return named


def _names_of(numbers, scales):
    """The bins that a slip's readings may fall into, all parts together; none where a reading is no number."""
    if all(map(math.isfinite, numbers)):
        yield from map(" ".join, itertools.product(*(
            scale.bins_of_slip(number) for scale, number in zip(scales, numbers))))


def slips_by_bins(exercise):
    """Return the bins of all readings together -> names of the slips that lead there."""
    scales, named = [scale for scale, _ in _scales(exercise)], {}
    for slip in exercise.slips:
        for names in _names_of(exercise.readings(slip.formula), scales):
            named.setdefault(names, []).append(slip.name)
    return named


def function_faults(exercise):
    """Yield what is wrong with the signals and slips of a `FunctionExercise`, each fault one sentence."""
    rights = exercise.readings(exercise.answer)
    if nothing := [part.label for part, right in zip(exercise.parts, rights) if not math.isfinite(right) or right == 0]:
        yield f"{exercise.id}: the right {', '.join(nothing)} is nothing that a share can be taken of."
        return
    scales = _scales(exercise)
    for place, (scale, right) in enumerate(scales):
        label = exercise.parts[place].label
        for other in exercise.also_right:
            if not scale.is_right(number := exercise.readings(other)[place], right):
                yield f"{exercise.id}: another right function gives {number:.4g} as {label}, not {right:.4g}."
    notes = {}
    for slip in exercise.slips:
        for names in _names_of(exercise.readings(slip.formula), [scale for scale, _ in scales]):
            if notes.setdefault(names, slip.note) != slip.note:
                yield f"{exercise.id}: slip {slip.name} leads where another one leads, and has another note."
                break
        apart = [scale.distance(number, right) if math.isfinite(number) else math.inf
                 for (scale, right), number in zip(scales, exercise.readings(slip.formula))]
        if any(_SAME < distance < APART for distance in apart):
            yield f"{exercise.id}: slip {slip.name} leads to a reading too near to the right one."
        if not any(distance >= APART for distance in apart):
            yield f"{exercise.id}: slip {slip.name} is never told."
