"""What a page opens with, above the floors: its sheet, and a line where its panels show an own instrument."""
from lessons_lib.exercises import open_sheet as sheets


def open_sheet(lesson):
    """Return the `Sheet` of a lesson, as `exercises.open_sheet` does; tell of an own instrument in a printed line.

    Parameters
    ----------
    lesson : str
        Two figures, "01".
    """
    from lessons_lib.panels.own_instrument import in_use  # a sheet alone needs no panels
    if note := in_use().note:
        print(note)
    return sheets.open_sheet(lesson)
