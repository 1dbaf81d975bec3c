"""What a student would have to type for an exercise to be right: for playing a course through."""


def model_answer(exercise, drawn=None):
    """Return (value, unit, readings) of the model answer, as ``sheet.answer(id, value, unit, **readings)`` takes them.

    Parameters
    ----------
    exercise : record of a declaration
    drawn : Drawn or None
        The bench's values, for kinds that have given values.

    Returns
    -------
    (object, str or None, dict) or None
        None for predictions, which have no answer.
    """
    return _BY_KIND[exercise.kind](exercise, drawn)


def _number(exercise, drawn):
    return float(f"{drawn.answer:.5g}"), exercise.unit, {}


def _measured(exercise, drawn):
    return float(f"{exercise.example_result().right:.5g}"), exercise.unit, dict(exercise.example)


_BY_KIND = {
    "number": _number,
    "choice": lambda exercise, drawn: (exercise.right, None, {}),
    "text": lambda exercise, drawn: (exercise.worked, None, {}),
    "function": lambda exercise, drawn: (exercise.answer, None, {}),
    "design": lambda exercise, drawn: (drawn.known_design, None, {}),
    "measured": _measured,
    "prediction": lambda exercise, drawn: None,
}
