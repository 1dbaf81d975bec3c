"""Tables for spreadsheets: written so that no cell runs as a formula, read as people save them."""
import csv
import io
import re

_NUMBER = re.compile(r"[+-]?\d+([.,]\d+)?(e[+-]?\d+)?", re.ASCII | re.IGNORECASE)


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
    sink = io.StringIO(newline="")
    writer = csv.writer(sink, delimiter=";" if decimal_comma else ",", lineterminator="\r\n")
    for row in (head, *rows):
        writer.writerow([_cell(value, decimal_comma) for value in row])
    return sink.getvalue().encode("utf-8-sig", "replace")


def _cell(value, decimal_comma):
    if value is None:
        return ""
    if isinstance(value, str):
        return defused(value)
    text = f"{value:.10g}"
    return text.replace(".", ",") if decimal_comma else text


def defused(text):
    """Return *text* as a cell that no spreadsheet runs: what begins like a formula gets an apostrophe before it.

    Examples
    --------
    >>> defused("=1+1"), defused("-3.86")
    ("'=1+1", '-3.86')
    """
    bare = text.lstrip()
    blanks = text[:len(text) - len(bare)]
    if _NUMBER.fullmatch(text) or not (bare[:1] in tuple("=+-@＝＋－＠") or "\t" in blanks or "\r" in blanks):
        return text
    return f"'{text}"


def as_typed(cell):
    """Return a cell as it was before `defused`.

    Examples
    --------
    >>> as_typed("'=1+1"), as_typed("'quoted'")
    ('=1+1', "'quoted'")
    """
    return cell[1:] if cell[:1] == "'" and defused(cell[1:]) == cell else cell


def read_table(data):
    """Return the rows of a CSV file's bytes as dicts, as `numbered_rows` reads them."""
    return [row for _, row in numbered_rows(data)]


def numbered_rows(data):
    """Return (line in the file, row) of a CSV file's bytes; column names in small letters, cells without outer blanks.

    Missing cells are read as empty ones; the rest is as `lines_in` reads it.

    Raises
    ------
    ValueError
        Where the bytes are no table; the message is part of a sentence.
    """
    _, lines = lines_in(data)
    lines = [(number, [cell.strip() for cell in line]) for number, line in lines]
    head = [name.lower() for name in lines[0][1]] if lines else []
    return [(number, dict(zip(head, [*line, *[""] * len(head)]))) for number, line in lines[1:]]


def lines_in(data):
    """Return (separator, list of (line in the file, cells)) of a CSV file's bytes, the heading first.

    Commas, semicolons or tabs between cells, a byte-order mark and the Western European letters of older spreadsheets
    are all read; empty lines are left out. Cells are as they were typed.

    Raises
    ------
    ValueError
        Where the bytes are no table; the message is part of a sentence.
    """
    text = _text(data)
    first = text.partition("\n")[0]
    delimiter = max(",;\t", key=first.count)
    try:
        reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter)
        lines = [(reader.line_num, line) for line in reader]
    except csv.Error as error:
        raise ValueError(f"it is not a table: {error}") from None
    return delimiter, [(number, line) for number, line in lines if any(cell.strip() for cell in line)]


def _text(data):
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return data.decode("utf-16", "replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", "replace")
