"""Tables for spreadsheets: written so that no cell runs as a formula, read as people save them."""
import csv
import io
import re
from pathlib import Path

_NUMERAL = re.compile(r"[+-]?\d+([.,]\d+)?(e[+-]?\d+)?", re.ASCII | re.IGNORECASE)
# what begins like a formula behind a separator or a line's end: a program set to the other separator splits cells there
_INSIDE = re.compile(rf"([,;\t\r\n][\s\"]*)(?=[=+\-@＝＋－＠])(?!{_NUMERAL.pattern}\s*(?:[,;\t\r\n]|$))", re.IGNORECASE)
_NAMED = re.compile(r"sep=([,;\t])(\r\n|\r|\n)", re.IGNORECASE)
_OTHER_FORMATS = (".ods", ".xlsx", ".xls", ".numbers", ".tsv", ".txt")
_TYPED = ("class_list.csv", "received.csv", "extensions.csv", "marks/open_questions.csv")
_MOST_FAULTS = 20
_HIDDEN = "\u200b"      # a space without width


def table_bytes(head, rows, *, decimal_comma=False):
    """Return a table as the bytes of a CSV file.

    Parameters
    ----------
    head : sequence of str
    rows : iterable of sequences
        Texts, numbers, or None for an empty cell.
    decimal_comma : bool
        Decimal commas, and semicolons between cells.

    Notes
    -----
    UTF-8 with a byte-order mark, without which spreadsheets misread letters outside of ASCII; line ends and quotes
    after RFC 4180.
    """
    lines = []
    for row in (head, *rows):
        cells = ["" if value is None else defused(value) if isinstance(value, str) else f"{value:.10g}"
                 for value in row]
        if decimal_comma:
            cells = [cell if isinstance(value, str) else cell.replace(".", ",") for cell, value in zip(cells, row)]
        lines.append(cells)
    return csv_bytes(";" if decimal_comma else ",", lines)


def csv_bytes(separator, lines):
    """Return *lines* of cells, texts as they stand, as the bytes of a CSV file."""
    sink = io.StringIO(newline="")
    csv.writer(sink, delimiter=separator, lineterminator="\r\n").writerows(lines)
    return sink.getvalue().encode("utf-8-sig", "replace")


def defused(text):
    """Return *text* as a cell that no spreadsheet runs: what begins like a formula gets an apostrophe before it.

    Inside of a text, behind a comma, a semicolon, a tab or a line's end, a space without width does the same; there it
    is needed only where a program is set to another separator, and a list with dashes must stay readable.

    Examples
    --------
    >>> defused("=1+1"), defused("-3.86"), defused("x ;=1+1") == "x ;\u200b=1+1"
    ("'=1+1", '-3.86', True)
    """
    bare = text.lstrip()
    blanks, inside = text[:len(text) - len(bare)], _INSIDE.sub(rf"\1{_HIDDEN}", text)
    if _NUMERAL.fullmatch(text) or not (bare[:1] in tuple("=+-@＝＋－＠") or "\t" in blanks or "\r" in blanks):
        return inside
    return f"'{inside}"


def as_typed(cell):
    """Return a cell as it was before `defused`.

    Examples
    --------
    >>> as_typed("'=1+1"), as_typed("'quoted'")
    ('=1+1', "'quoted'")
    """
    bare = cell.replace(_HIDDEN, "")
    return bare[1:] if bare[:1] == "'" and defused(bare[1:]) == cell else bare


def numbered_rows_of(path):
    """Return what `numbered_rows` does for the file at *path*; nothing where there is none."""
    return numbered_rows(path.read_bytes(), path.name) if path.exists() else []


def needed_rows(path):
    """Return what `numbered_rows` does for a table that must be there; ValueError, with what to do, where it is not."""
    if not path.exists():
        raise ValueError(" ".join([f"There is no {path.name} in {path.parent}.", *(
            saved_otherwise(path.parent, path.name) or ["Put it back from your copy of the course folder."])]))
    return numbered_rows_of(path)


def saved_otherwise(folder, *names):
    """Return a sentence for each file that a spreadsheet saved in another format beside one of the tables *names*.

    It counts where it is newer than the table, or the table is not there. Without names: all tables of a course that a
    person fills in.
    """
    found = []
    for table in map(folder.joinpath, names or _TYPED):
        others = [table.with_name(f"{name}{suffix}") for name in (table.stem, table.name) for suffix in _OTHER_FORMATS]
        for other in filter(Path.exists, [*others, table.with_name(f"{table.name}.csv")]):
            if table.exists() and other.stat().st_mtime <= table.stat().st_mtime:
                continue
            newer = f"is newer than {table.name}, and " if table.exists() else ""
            found.append(f"{other.name} {newer}is not read: in the spreadsheet, save it as CSV under the name "
                         f"{table.name}.")
    return found


def refuse(faults):
    """Raise ValueError with a line for each of the *faults*, so many as a person reads; nothing without any."""
    if faults:
        more = len(faults) - _MOST_FAULTS
        raise ValueError("\n".join([*faults[:_MOST_FAULTS], *([f"And {more} more such lines."] if more > 0 else [])]))


def as_number(cell):
    """Return the number that somebody typed into a cell, with a decimal point or comma; None where it is none."""
    try:
        return float(cell.replace(",", "."))
    except ValueError:
        return None


def read_table(data):
    """Return the rows of a CSV file's bytes as dicts, as `numbered_rows` reads them."""
    return [row for _, row in numbered_rows(data)]


def numbered_rows(data, of=""):
    """Return (line in the file, row) of a CSV file's bytes; column names in small letters, cells without outer blanks.

    Missing cells are read as empty ones; the rest, and what is refused, is as in `lines_in`.
    """
    _, lines = lines_in(data, of)
    lines = [(number, [cell.strip() for cell in line]) for number, line in lines]
    head = [name.lower() for name in lines[0][1]] if lines else []
    return [(number, dict(zip(head, [*line, *[""] * len(head)]))) for number, line in lines[1:]]


def lines_in(data, of=""):
    """Return (separator, list of (line in the file, cells)) of a CSV file's bytes, the heading first.

    Commas, semicolons or tabs between cells, a byte-order mark and the Western European letters of older spreadsheets
    are all read, and a first line such as ``sep=;`` that some of them write; empty lines are left out. Cells are as
    they were typed.

    Raises
    ------
    ValueError
        Where the bytes are no table; the message is a sentence that begins with the name *of* the file.
    """
    text = _decoded(data)
    named = _NAMED.match(text)
    first = re.match(r"[^\r\n]*", text)[0]
    delimiter = named[1] if named else max(",;\t", key=first.count)
    reader, lines, begun = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter), [], 1
    try:
        for line in reader:
            lines.append((begun, line))
            begun = reader.line_num + 1
    except csv.Error as error:
        raise ValueError(f"{of or 'A table'} is no table from line {begun} on: {error}.") from None
    try:
        for _ in csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True):
            pass
    except csv.Error as error:
        if lines and "unexpected end" in str(error):
            raise ValueError(f"{of or 'A table'}, line {lines[-1][0]}: a quotation mark is opened there and not "
                             "closed, so that what follows it would not be read. Close it, or take it out.") from None
    return delimiter, [(number, line) for number, line in lines[1 if named else 0:] if any(map(str.strip, line))]


def _decoded(data):
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return data.decode("utf-16", "replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", "replace")
