"""What a page opens with, above the floors: its sheet, a line where its panels show an own instrument, a class hour."""
from lessons_lib.exercises.open_sheet import answers_beside_page, sheet_beside_page
from lessons_lib.exercises.showing import open_all_panels
from lessons_lib.exercises.verdicts import State, Verdict


def open_sheet(lesson):
    """Return the `Sheet` of a lesson, as `sheet_beside_page` does; tell of an own instrument in a printed line.

    Parameters
    ----------
    lesson : str
        Two figures, "01".
    """
    from lessons_lib.lessons.own_instrument import in_use  # a sheet alone needs no panels
    if note := in_use().note:
        print(note)
    return sheet_beside_page(lesson)


def presenting(lesson=None):
    """Open every panel without a prediction, for showing a lesson before a class; show its questions to vote on.

    Parameters
    ----------
    lesson : str, optional
        Two figures, "04": its questions to vote on are shown as large pages, from the model answers beside the folder
        of the page.

    Returns
    -------
    Verdict or ClassHour
    """
    verdict = open_all_panels()
    if lesson is None:
        return verdict
    try:
        from lessons_lib.exercises.self_study import load_lesson
        found = load_lesson(answers_beside_page(lesson))
    except ValueError as trouble:
        return Verdict(State.NO_SHEET, f"{trouble} Questions to vote on are in the model answers.")
    if not found.to_vote:
        return Verdict(State.OPEN, f"{verdict.text} Lesson {found.id} has no questions to vote on.")
    from lessons_lib.page.class_hour import ClassHour  # widgets only where they are shown
    return ClassHour(found)
