"""Open questions side by side in a table, to be marked by people; on the next run marks and comments are read back.

Both belong to the text that stands beside them: the column *text id* says which one that is, whatever comes later.
"""
from lessons_lib.course.tables import as_typed, read_table
from lessons_lib.exercises.reading import words

HEAD = ("which", "most", "marks", "comment", "late %", "number of words", "text", "earlier texts", "text id")
_LONGEST = 20_000       # characters of earlier texts: a cell of a spreadsheet holds 32 767


def read_column(path, name="marks"):
    """Return (bench, exercise) -> id of a text -> the cell of the column *name*, as it was typed.

    The id is empty where the table has no column of ids any more: then what was typed is for the text that was shown
    last. Without a column ``comment`` nothing is said of comments. An empty dict without a file.

    Raises
    ------
    ValueError
        Where the table has not the columns it was written with; the message is one sentence.
    """
    if not path.exists():
        return {}
    rows = read_table(path.read_bytes(), path.name)
    if rows and not {"which", "marks"} <= set(rows[0]):
        raise ValueError(f"{path} has no columns which and marks any more. Put them back, or delete the file to start "
                         "the marks of open questions again from the history.")
    cells = {}
    for row in rows:
        if " " in row["which"]:
            here = cells.setdefault(tuple(row["which"].split(" ", 1)), {})
            text_id = row.get("text id", "").removeprefix("t")
            if "" in here or here and not text_id:
                raise ValueError(f"{path} has {row['which'][:40]} twice and not both text ids. Put the column text id "
                                 "back, or leave one row of the two.")
            here[text_id] = row["marks"].lstrip("'") if name == "marks" else as_typed(row.get(name, ""))
    return cells if rows and name in rows[0] else {}


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


def marks_in(cells, most):
    """Return (id of a text -> marks, a sentence's part for each cell that holds none) of one bench's open question."""
    marks, faults = {}, []
    for text_id, cell in cells.items():
        try:
            if (one := mark_in(cell, most)) is not None:
                marks[text_id] = one
        except ValueError as error:
            faults.append(str(error))
    return marks, faults


def rows(bench, exercise, outcome, texts, cells, comments):
    """Return the lines of the table for one bench's open question, in the order in which its *texts* came.

    A line for each `Text` that waits by its *outcome*, and for each beside which a marker typed something: *cells* and
    *comments* are id of a text -> cell. The first cell has letters, so that no spreadsheet makes a number or a date of
    it, and so has the last.
    """
    return [(f"{bench} {exercise}", outcome.most, _typed(cells.get(one.id, "")), comments.get(one.id, ""),
             one.off or None, words(one.text), one.text, _earlier(one, texts, cells), f"t{one.id}")
            for one in texts if one.id in outcome.waiting or cells.get(one.id) or comments.get(one.id)]


def _earlier(shown, texts, cells):
    """The other texts that had come by then, the last first, each with its words and its mark."""
    said, left = [], _LONGEST
    others = [one for one in reversed(texts) if one is not shown and one.off <= shown.off]
    for one in others:
        left -= len(one.text)
        if left < 0:
            said.append(f"[and {len(others) - len(said)} more]")
            break
        mark = f", marked {cells[one.id]}" if cells.get(one.id) else ""
        said.append(f"[{words(one.text)} words{mark}] {one.text}")
    return "\n\n".join(said)


def _typed(cell):
    """A cell as it was typed, a number as a number so that it is written as the settings want it."""
    try:
        return float(cell.replace(",", "."))
    except ValueError:
        return cell
