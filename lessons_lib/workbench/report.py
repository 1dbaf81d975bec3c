"""A report of the bench to keep: one page of HTML that needs nothing else and prints well."""
import re
from base64 import b64encode
from html import escape
from io import BytesIO
from math import floor, isfinite, log10
from pathlib import Path

from lessons_lib.base.units import prefixed

MOST_ROWS = 300
_LONGEST_TEXT = 20_000  # characters

_STYLE = """
body { font-family: sans-serif; line-height: 1.5; max-width: 48em; margin: 2em auto; padding: 0 1em; color: #000; }
h2 { margin-top: 1.6em; }
table { border-collapse: collapse; margin: 1em 0; }
caption { text-align: left; font-weight: bold; padding-bottom: 0.3em; }
th, td { border: 1px solid #666; padding: 0.2em 0.7em; text-align: left; }
td.number { text-align: right; font-variant-numeric: tabular-nums; }
figure { margin: 1em 0; }
figure img { max-width: 100%; height: auto; }
p { overflow-wrap: anywhere; }
@media print { body { margin: 0; max-width: none; font-size: 11pt; } figure, li, tr { break-inside: avoid; }
  h2, caption { break-after: avoid; } thead { display: table-header-group; } }
"""
_CALLED = {"stand_off": "depth of the spot", "q_factor": "Q", "load_resistance": "resistance across the coil",
           "flux": "flux through the middle", "strength": "strength (1: as in the table)"}


class Part(str):
    """A piece of HTML made by this file; every other text is escaped."""


def heading(text):
    """A heading within the report."""
    return Part(f"<h2>{escape(_plain(text))}</h2>")


def prose(text):
    """What the bench wrote, in paragraphs at its empty lines; nothing in it is HTML."""
    return Part("".join(f"<p>{escape(one)}</p>" for one in re.split(r"\n\s*\n", _plain(text)) if one))


def points(title, sentences):
    """A list of sentences under a title: remarks, or what the model leaves out; nothing for an empty list."""
    lines = "".join(f"<li>{escape(_plain(one))}</li>" for one in sentences)
    return Part(f"<p><strong>{escape(_plain(title))}</strong></p><ul>{lines}</ul>" if lines else "")


def readings_table(readings, title):
    """The readings in the units of their file, with the remarks about how they were read.

    Parameters
    ----------
    readings : Readings
    title : str
    """
    columns = [readings.as_written(name) for name in readings.columns]
    rows = [[f"{value:.6g}" for value in row] for row in list(zip(*columns))[:MOST_ROWS]]
    head = [f"{name} ({readings.units[name]})" for name in readings.columns]
    more = [f"The first {MOST_ROWS} of {len(readings)} rows are shown."] if len(readings) > MOST_ROWS else []
    return Part(_table(head, rows, title) + points("About these readings", [*readings.remarks, *more]))


def words_table(table):
    """A table of words with a caption, a head and rows, such as a list of parts; nothing where it has no rows."""
    rows = getattr(table, "rows", ())
    return Part(_table(table.head, [list(map(str, row)) for row in rows], table.caption) if rows else "")


def fit_table(fit, title):
    """Values of a fit with one sigma and 95 % interval, and what its residuals say."""
    rows = []
    for name, unit, value, sigma, (low, high) in zip(fit.names, fit.units, fit.values, fit.uncertainties,
                                                     fit.intervals):
        factor, shown = prefixed(value, unit)
        digits = _decimals(sigma * factor)
        rows.append([_CALLED.get(name, name.replace("_", " ")),
                     *(f"{number * factor:.{digits}f}" for number in (value, sigma, low, high)), shown])
    chi = fit.reduced_chi_square
    said = [fit.remark] + ([f"The residuals' mean square is {chi:.2g} times what was stated."] if isfinite(chi) else [])
    if isfinite(fit.scatter):
        said.append("No uncertainty of the readings was stated: it was taken from their scatter.")
    head = ["quantity", "value", "one sigma", "95 % from", "to", "unit"]
    return Part(_table(head, rows, title) + points("What the residuals say", said))


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
    under = f"<figcaption>{escape(_plain(caption))}</figcaption>" if caption else ""
    return Part(f'<figure><img src="data:image/png;base64,{b64encode(drawing).decode()}" '
                f'alt="{escape(_plain(alt))}">{under}</figure>')


def write_report(path, title, *sections):
    """Write the report and return its path.

    Parameters
    ----------
    path : path
        Ends with .html; what was there is replaced.
    title : str
    *sections : Part or str
        In order. A plain text is taken as prose.

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
    path = Path(path)
    if path.suffix != ".html":
        raise ValueError(f"path must be a name that ends with .html; got {path.name!r}.")
    body = "\n".join(section if isinstance(section, Part) else prose(section) for section in sections)
    title = escape(_plain(title))
    path.write_text(f'<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"><title>{title}</title>\n'
                    f"<style>{_STYLE}</style></head><body>\n<h1>{title}</h1>\n{body}\n</body></html>\n",
                    encoding="utf-8", errors="replace")
    return path


def _decimals(sigma):
    """Decimals that show two digits of an uncertainty."""
    return min(max(0, 1 - floor(log10(sigma))), 9) if sigma > 0 and isfinite(sigma) else 4


def _plain(text):
    """A text that may be long, never too long, without signs that no page can hold."""
    text = str(text)
    if len(text) > _LONGEST_TEXT:
        raise ValueError(f"A text of the report has {len(text)} characters; at most {_LONGEST_TEXT} are kept.")
    return re.sub(r"[\x00-\x08\x0b-\x1f\x7f]", " ", text.replace("\r\n", "\n")).strip()


def _table(head, rows, title):
    top = "".join(f"<th scope=col>{escape(cell)}</th>" for cell in head)
    cells = ("".join(f"<td{_number(cell)}>{escape(cell)}</td>" for cell in row) for row in rows)
    lines = "".join(f"<tr>{row}</tr>" for row in cells)
    return (f"<table><caption>{escape(_plain(title))}</caption><thead><tr>{top}</tr></thead>"
            f"<tbody>{lines}</tbody></table>")


def _number(cell):
    return " class=number" if re.fullmatch(r"-?[\d.]+(e[+-]?\d+)?", cell) else ""
