"""Readings of the bench from a CSV file: columns found by their header, units read there, numbers in SI."""
import csv
import math
import re
from dataclasses import dataclass
from io import StringIO
from os import PathLike
from pathlib import Path
from types import MappingProxyType

import numpy as np

from lessons_lib.base.units import column_units, said, unit_of
from lessons_lib.base.words import plural

LARGEST_TABLE = 1_000_000    # bytes
LONGEST_TABLE = 5000

# what a column may have -> the magnitude (SI) that no reading of this bench reaches, the unit a bench most often writes
_QUANTITIES = MappingProxyType({
    "length": (2.0, "mm"), "flux density": (0.7, "G"), "capacitance": (1e-4, "pF"), "inductance": (100.0, "H"),
    "frequency": (1e6, "Hz"), "resistance": (1e9, "kohm"), "voltage": (1e3, "mV"), "temperature": (200.0, "C")})
# what the workbench's own files hold: column -> quantity
GAUSS_AGAINST_DISTANCE = MappingProxyType({"distance": "length", "flux density": "flux density"})
RESONANCE_WITH_CAPACITORS = MappingProxyType({"added capacitance": "capacitance", "resonance": "frequency"})
METER_READINGS = MappingProxyType({"frequency": "frequency", "inductance": "inductance", "resistance": "resistance"})
EXCITER_RESPONSE = MappingProxyType({"added capacitance": "capacitance", "frequency": "frequency",
                                     "voltage": "voltage"})

_HEADER = re.compile(r"(?P<name>[^()\[\]]+)(?:[(\[](?P<unit>[^()\[\]]*)[)\]])?\s*")
_POINT = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d{1,3})?", re.ASCII)


@dataclass(frozen=True, kw_only=True, eq=False)
class BenchReadings:
    """Columns of readings in SI (temperatures in degrees Celsius), all of one length.

    columns: name to array. units: name to the unit they were written in. remarks: sentences about how they were read.
    ``readings["distance"]`` is a column.
    """

    columns: dict
    units: dict
    remarks: tuple

    def __getitem__(self, name):
        return self.columns[name]

    def __len__(self):
        return len(next(iter(self.columns.values())))

    def as_written(self, name):
        """A column in the unit of its file."""
        return self.columns[name] / unit_of(self.units[name]).factor


def read_readings(source, *, columns):
    """Read a table of readings.

    Parameters
    ----------
    source : path or bytes
        A CSV file, or what it holds.
    columns : dict
        Name of each column that must be there, and its quantity: length, flux density, capacitance, inductance,
        frequency, resistance, voltage, temperature.

    Returns
    -------
    BenchReadings
        Sorted by the first of *columns*; rows that share its value stay in their order.

    Raises
    ------
    ValueError
        With one sentence that says what is wrong with the file, and in which line.

    Notes
    -----
    The first line that is not a comment (``#``) names the columns, each with its unit in brackets: ``distance (mm)``.
    Columns are separated by commas, semicolons or tabs; with the last two a decimal comma is read. Other columns in the
    file are left out, and a remark says so.

    Examples
    --------
    >>> file = b"distance (mm),flux density (G)\\n1,900\\n2,600\\n"
    >>> readings = read_readings(file, columns=GAUSS_AGAINST_DISTANCE)
    >>> readings["flux density"].round(6).tolist(), readings.remarks
    ([0.09, 0.06], ('Flux density was written in gauss: 10 000 G are 1 T.',))
    """
    text, on_letters = _decoded(source)
    separator, (_, header), *rows = _cells(text)
    places = _find_columns(header, columns)
    if not rows:
        raise ValueError("The file has a header and no readings under it.")
    if len(rows) > LONGEST_TABLE:
        raise ValueError(f"The file has {len(rows)} rows; at most {LONGEST_TABLE} are read.")
    units = {name: unit for name, (_, unit) in places.items()}
    arrays, on_commas = _columns(rows, header, places, separator)
    arrays = {name: _in_si(name, values, columns[name], units[name]) for name, values in arrays.items()}
    first = next(iter(columns))
    remarks = [on_letters, _on_left_out(header, places), on_commas]
    remarks += [f"{name.capitalize()} was written in gauss: 10 000 G are 1 T."
                for name in arrays if units[name] in ("G", "kG")]
    if (np.diff(arrays[first]) < 0).any():
        remarks.append(f"The rows were not in order; they are sorted by {first}.")
    remarks.append(_on_repeats(arrays))
    order = np.argsort(arrays[first], kind="stable")
    return BenchReadings(columns={name: values[order] for name, values in arrays.items()}, units=units,
                         remarks=tuple(filter(None, remarks)))


def file_bytes(source, largest):
    """What a file holds, or the bytes given, refused with a sentence where they are too many or no file is there."""
    if isinstance(source, (bytes, bytearray)):
        data = bytes(source)
    elif isinstance(source, (str, PathLike)):
        path = Path(source)
        if not path.is_file():
            raise ValueError(f"There is no file {path}; is its name written exactly as in its folder?")
        with path.open("rb") as file:
            data = file.read(largest + 1)
    else:
        raise TypeError(f"source must be a path or bytes; got {type(source).__name__}.")
    if len(data) > largest:
        raise ValueError(f"The file is too large; at most {said(largest, 'MB', 'g')} are read.")
    return data


def _decoded(source):
    """The text of a file, and a remark on its letters."""
    data = file_bytes(source, LARGEST_TABLE)
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return data.decode("utf-16", "replace"), ""
    if b"\0" in data or data[:2] == b"PK":
        raise ValueError("The file is no text; save the table as CSV, not as a workbook.")
    try:
        return data.decode("utf-8-sig"), ""
    except UnicodeDecodeError:
        return data.decode("cp1252", "replace"), "The file is not UTF-8; it was read as Western European."


def _cells(text):
    """The separator, then (number, cells) of each line that holds something."""
    lines = [(number, line) for number, line in enumerate(text.splitlines(), 1)
             if line.strip(" ;,\t") and not line.lstrip().startswith("#")]
    if not lines:
        raise ValueError("The file has no readings: it is empty.")
    yield (separator := next((sign for sign in ";\t" if sign in lines[0][1]), ","))
    for number, line in lines:
        try:
            yield number, [cell.strip() for cell in next(csv.reader(StringIO(line), delimiter=separator))]
        except csv.Error:
            raise ValueError(f"Line {number} cannot be read as cells of a table.") from None


def _find_columns(header, wanted):
    """Place and unit of each wanted column."""
    titles = [_HEADER.fullmatch(cell) for cell in header]
    names = [" ".join((title["name"] if title else cell).replace("_", " ").lower().split())
             for title, cell in zip(titles, header)]
    missing = [name for name in wanted if name not in names]
    if missing:
        raise ValueError(f'The column "{missing[0]}" is missing; the first line names '
                         + (", ".join(f'"{cell[:40]}"' for cell in header[:8] if cell) or "none") + ".")
    places = {}
    for name in wanted:
        if names.count(name) > 1:
            raise ValueError(f'The column "{name}" is twice in the first line.')
        place = names.index(name)
        places[name] = place, _unit_of_column(name, titles[place]["unit"], wanted[name])
    return places


def _on_left_out(header, places):
    left_out = [cell[:40] for place, cell in enumerate(header) if cell and place not in [p for p, _ in places.values()]]
    return f"Not read: the {plural(len(left_out), 'column', 'columns')} {', '.join(left_out)}." if left_out else ""


def _unit_of_column(name, text, kind):
    units, text = column_units(kind), (text or "").strip()
    unit = units.get(text.lower().replace("µ", "μ"))    # the two micro signs
    if unit is None:
        got = f'the unit "{text[:20]}"' if text else "no unit"
        raise ValueError(f'The column "{name}" has {got}; write it as "{name} ({_QUANTITIES[kind][1]})", with one of '
                         f"{', '.join(dict.fromkeys(units.values()))}.")
    return unit


def _columns(rows, header, places, separator):
    """Columns as written, floats, and a remark on their commas."""
    commas, columns = 0, {name: [] for name in places}
    for number, cells in rows:
        if len(cells) > len(header) and any(cells[len(header):]):
            hint = " Where commas are decimal points, put semicolons between the columns." if separator == "," else ""
            raise ValueError(f"Line {number} has {len(cells)} cells, and the first line names {len(header)} "
                             f"{plural(len(header), 'column', 'columns')}.{hint}")
        for name, (place, _) in places.items():
            value, comma = _value_and_comma(number, name, cells[place] if place < len(cells) else "")
            columns[name].append(value)
            commas += comma
    arrays = {name: np.array(values) for name, values in columns.items()}
    return arrays, "Read with decimal commas." if commas else ""


def _value_and_comma(line, name, cell):
    """The number in a cell, and whether it has a decimal comma."""
    where = f'Line {line}, column "{name}"'
    if not cell:
        raise ValueError(f"{where}: the cell is empty; leave out the whole line, or write the reading.")
    text = cell.replace("\u2212", "-")
    comma = text.count(",") == 1 and "." not in text
    text = text.replace(",", ".") if comma else text
    if text.lower() in ("nan", "inf", "-inf", "+inf", "infinity"):
        raise ValueError(f'{where}: "{cell}" is not a reading; leave out the line.')
    if not _POINT.fullmatch(text) or not math.isfinite(float(text)):
        raise ValueError(f'{where}: "{cell[:20]}" is not a number; the unit belongs in the first line alone.')
    return float(text), comma


def _in_si(name, values, kind, unit):
    values_si = values * unit_of(unit).factor
    if np.abs(values_si).max() > _QUANTITIES[kind][0]:
        extreme = values[np.argmax(np.abs(values_si))]
        advice = "; are they in gauss?" if kind == "flux density" else "; is the unit in the first line right?"
        raise ValueError(f'The column "{name}" reaches {extreme:g} {unit}, more than this bench can give{advice}')
    return values_si


def _on_repeats(arrays):
    table = np.stack(list(arrays.values()), axis=1)
    twice = len(table) - len(np.unique(table, axis=0))
    if not twice:
        return ""
    return (f"{twice} {plural(twice, 'row is', 'rows are')} there again with the same numbers; "
            "each counts as a reading of its own. Was something copied?")
