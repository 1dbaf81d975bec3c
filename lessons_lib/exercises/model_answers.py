"""What a student would have to type for an exercise to be right: for playing a course through, never in a pack's files."""


def model_answer(exercise, drawn=None):
    """Return (value, unit) of the model answer.

    Parameters
    ----------
    exercise : record of a declaration
    drawn : Drawn or None
        The bench's values, for kinds that have given values.

    Returns
    -------
    (object, str or None) or None
        None for what is not answered (predictions), or where the kind says no model answer.

    Notes
    -----
    A kind that is not named here may have a method ``model_answer(drawn)`` that returns the same.
    """
    if exercise.kind in _BY_KIND:
        return _BY_KIND[exercise.kind](exercise, drawn)
    own = getattr(exercise, "model_answer", None)
    return own(drawn) if own else None


def _number(exercise, drawn):
    return float(f"{drawn.answer:.5g}"), exercise.unit


_BY_KIND = {
    "number": _number,
    "choice": lambda exercise, drawn: (exercise.right, None),
    "text": lambda exercise, drawn: (exercise.worked, None),
    "function": lambda exercise, drawn: (exercise.answer, None),
    "prediction": lambda exercise, drawn: None,
}
