"""A report of the bench to keep: one page of HTML that needs nothing else and prints well."""
import re
from base64 import b64encode
from functools import partial
from io import BytesIO
from math import floor, isfinite, log10
from pathlib import Path

from lessons_lib.base.pages import page_bytes, piece
from lessons_lib.base.units import prefixed

ROWS_SHOWN = 300
_LONGEST_TEXT = 20_000  # characters

_CALLED = {"stand_off": "depth of the spot", "q_factor": "Q", "load_resistance": "resistance across the coil",
           "flux": "flux through the middle", "strength": "strength (1: as in the table)"}

# a section of the report, which no other place escapes again
_section = partial(piece, "workbench/templates/sections.html")


def heading(text):
    """A heading within the report."""
    return _section("heading", _as_text(text))


def prose(text):
    """What the bench wrote, in paragraphs at its empty lines; nothing in it is HTML."""
    return _section("prose", [one for one in re.split(r"\n\s*\n", _as_text(text)) if one])


def points(title, sentences):
    """A list of sentences under a title: remarks, or what the model leaves out; nothing for an empty list."""
    return _section("points", _as_text(title), [_as_text(one) for one in sentences])


def readings_table(readings, title):
    """The readings in the units of their file, with the remarks about how they were read.

    Parameters
    ----------
    readings : BenchReadings
    title : str
    """
    columns = [readings.as_written(name) for name in readings.columns]
    rows = [[f"{value:.6g}" for value in row] for row in list(zip(*columns))[:ROWS_SHOWN]]
    head = [f"{name} ({readings.units[name]})" for name in readings.columns]
    more = [f"The first {ROWS_SHOWN} of {len(readings)} rows are shown."] if len(readings) > ROWS_SHOWN else []
    remarks = [_as_text(one) for one in (*readings.remarks, *more)]
    return _section("readings", _as_text(title), head, _text_rows(rows), remarks)


def words_table(table):
    """A table of words with a caption, a head and rows, such as a list of parts; nothing where it has no rows."""
    rows = getattr(table, "rows", ())
    return _section("table", _as_text(table.caption), table.head, _text_rows(rows)) if rows else ""


def fit_table(fit, title):
    """Values of a fit with one sigma and 95 % interval, and what its residuals say."""
    rows = []
    for name, unit, value, sigma, (low, high) in zip(fit.names, fit.units, fit.values, fit.uncertainties,
                                                     fit.intervals):
        factor, shown = prefixed(value, unit)
        sigma_shown = sigma * factor        # with two digits
        digits = min(max(0, 1 - floor(log10(sigma_shown))), 9) if sigma_shown > 0 and isfinite(sigma_shown) else 4
        rows.append([_CALLED.get(name, name.replace("_", " ")),
                     *(f"{number * factor:.{digits}f}" for number in (value, sigma, low, high)), shown])
    chi = fit.reduced_chi_square
    said = [fit.remark] + ([f"The residuals' mean square is {chi:.2g} times what was stated."] if isfinite(chi) else [])
    if isfinite(fit.scatter):
        said.append("No uncertainty of the readings was stated: it was taken from their scatter.")
    return _section("fit", _as_text(title), _text_rows(rows), [_as_text(one) for one in said])


def figure(drawing, *, alt, caption=""):
    """A figure within the page.

    Parameters
    ----------
    drawing : bytes, or an object with ``savefig``
        PNG, or a figure that is stored as one.
    alt : str
        What the figure shows, in words.
    caption : str
        Under the figure.
    """
    if hasattr(drawing, "savefig"):
        file = BytesIO()
        drawing.savefig(file, format="png", dpi=150)
        drawing = file.getvalue()
    if not isinstance(drawing, bytes) or drawing[:8] != b"\x89PNG\r\n\x1a\n":
        raise TypeError(f"drawing must be a PNG or a figure; got {type(drawing).__name__}.")
    if not alt.strip():
        raise ValueError(f"alt must be a sentence about the figure; got {alt!r}.")
    return _section("figure", b64encode(drawing).decode(), _as_text(alt), _as_text(caption))


def write_report(path, title, *sections):
    """Write the report and return its path; three dots in its place write nothing and return a sentence.

    Parameters
    ----------
    path : path
        Ends with .html; what was there is replaced. "..." is what a page has, so that running it all writes nothing.
    title : str
    *sections : str
        In order, what the functions above return. A plain text is taken as prose.

    Raises
    ------
    ValueError
        For another ending, or a text of more than 20 000 characters.

    Notes
    -----
    No script, no network, no names asked for.

    Examples
    --------
    >>> from tempfile import mkdtemp
    >>> page = write_report(Path(mkdtemp()) / "report.html", "Bench 7", "Warm in here: 27 degrees, R < 6.5 kohm.")
    >>> "R &lt; 6.5 kohm" in page.read_text(encoding="utf-8")
    True
    """
    if path in (..., "..."):
        return 'Nothing is written yet. For a report, type a name such as "bench_report.html" in place of "...".'
    path = Path(path)
    if path.suffix != ".html":
        raise ValueError(f"path must be a name that ends with .html; got {path.name!r}.")
    path.write_bytes(page_bytes("workbench/templates/bench_report.html", title=_as_text(title), sections=[
        section if hasattr(section, "__html__") else prose(section) for section in sections]))
    return path


def _as_text(text):
    """A text that may be long, never too long, without signs that no page can hold."""
    text = str(text)
    if len(text) > _LONGEST_TEXT:
        raise ValueError(f"A text of the report has {len(text)} characters; at most {_LONGEST_TEXT} are kept.")
    return re.sub(r"[\x00-\x08\x0b-\x1f\x7f]", " ", text.replace("\r\n", "\n")).strip()


def _text_rows(rows):
    """Each cell as text, and whether it is a number."""
    return [[(str(cell), bool(re.fullmatch(r"-?[\d.]+(e[+-]?\d+)?", str(cell)))) for cell in row] for row in rows]
