"""Open questions side by side in a table, to be marked by people; on the next run the marks column is read back."""
from lessons_lib.course.tables import read_table

HEAD = ("which", "most", "marks", "number of words", "text")


def read_marks(path):
    """Return (bench, exercise) -> the cell of the column *marks*, as it was typed; an empty dict without a file.

    Raises
    ------
    ValueError
        Where the table has not the columns it was written with; the message is one sentence.
    """
    if not path.exists():
        return {}
    rows = read_table(path.read_bytes())
    if rows and not {"which", "marks"} <= set(rows[0]):
        raise ValueError(f"{path} has no columns which and marks any more. Put them back, or delete the file to start "
                         "the marks of open questions again from the history.")
    return {tuple(row["which"].split(" ", 1)): row["marks"].lstrip("'") for row in rows if " " in row["which"]}


def mark_in(cell, most):
    """Return the marks in a typed cell, None for an empty one.

    Raises
    ------
    ValueError
        Where it is no number from 0 to *most*.
    """
    if not cell:
        return None
    try:
        marks = float(cell.replace(",", "."))
    except ValueError:
        marks = -1.0
    if not 0 <= marks <= most:
        raise ValueError(f'"{cell[:40]}" is not a mark from 0 to {most:g}')
    return marks


def row(bench, exercise, most, cell, text):
    """Return a line of the table. The first cell has letters, so that no spreadsheet makes a number or a date of it."""
    return (f"{bench} {exercise}", most, cell, len(text.split()), text)
