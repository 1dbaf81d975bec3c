"""What a page opens with, above the floors: its sheet, and a line where its panels show an own instrument."""
from lessons_lib.exercises.open_sheet import sheet_beside_page


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
