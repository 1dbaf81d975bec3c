"""Named entries of an answer: words of a list, numbers in a range, several numbers, and tables of readings.

A declared `Entry` goes into the sheet as a plain record; the readers here take a student's dict or table against it and
give plain data that can be kept, returned and read again, or raise with a sentence for a student.
"""
from collections.abc import Mapping
from dataclasses import asdict, dataclass

from lessons_lib.base.checks import refuse
from lessons_lib.base.units import read_unit, with_unit
from lessons_lib.base.words import plural
from lessons_lib.exercises import reading
from lessons_lib.exercises.parts import check_unit

MOST_ROWS = 100     # of a table of readings
MOST_ENTRIES = 12   # of a dict, numbers of one entry, columns of a table
LONGEST_WORD = 40   # characters
TABLE = "table"


@dataclass(frozen=True)
class Entry:
    """What a student enters: one of *options*; or a number from *low* to *high* in *unit*, *count* of them if above 1.

    Examples
    --------
    >>> Entry("height of each pole's top", unit="mm", low=-3, high=1, count=6).options
    ()
    """

    label: str
    unit: str = "1"
    low: float = 0.0
    high: float = 0.0
    whole: bool = False
    count: int = 1
    options: tuple = ()

    def __post_init__(self):
        check_unit(self.unit)
        if not self.options and not self.low < self.high:
            refuse("high", f"above low = {self.low:g}, where there are no options", self.high)
        if not 1 <= self.count <= MOST_ENTRIES:
            refuse("count", f"from 1 to {MOST_ENTRIES}", self.count)


def entry_records(entries):
    """Return name -> record of declared entries, for a sheet."""
    return {name: {**asdict(entry), "options": list(entry.options), "factor": read_unit(entry.unit).factor}
            for name, entry in entries.items()}


def read_entries(records, value):
    """Return a student's mapping as plain data: name -> word, number or list of numbers, in the order of the *records*.

    ValueError with a sentence for a missing or unknown name, a word outside the options, a number outside the range.
    """
    if not isinstance(value, Mapping):
        raise ValueError(f"a dict with {_listed(records)} is needed")
    if unknown := [name for name in value if name not in records]:
        instead = f"; give {_listed(records)}" if records else ""
        raise ValueError(f'"{reading.shortened(unknown[0])}" is not asked for{instead}')
    if missing := [name for name in records if name not in value]:
        raise ValueError(f"{' and '.join(missing)} {plural(len(missing), 'is', 'are')} missing; "
                         f"give {_listed(records)}")
    return {name: _read_entry(name, record, value[name]) for name, record in records.items()}


def read_rows(columns, value, *, least, most):
    """Return a student's table as a list of rows of numbers, in the columns' units.

    *columns* are name -> record. *value* is a sequence of rows, an array of shape (n, columns), a mapping of a column's
    name to its values, or readings of the workbench, whose ``columns`` by name or label are in SI. From *least* to
    *most* rows may come. Anything else is a ValueError with a sentence for a student.
    """
    try:
        rows = _rows_of(columns, value, least, most)
    except ValueError:
        raise
    except Exception:       # something of a student's own that only looks like a list
        raise ValueError("a table is needed: a list of rows of numbers") from None
    if not least <= len(rows) <= most:
        raise _wrong_count(len(rows), least, most)
    table = []
    for place, row in enumerate(rows, start=1):
        if not _is_sequence(row) or len(row) != len(columns):
            raise ValueError(f"row {place} of the table must have {len(columns)} numbers: {_listed(columns)}")
        table.append([_number_within(f"row {place}, {name}", record, one)
                      for (name, record), one in zip(columns.items(), row)])
    return table


def in_si(records, values):
    """Return name -> value of read entries with numbers in SI, lists as lists."""
    def one(record, value):
        if isinstance(value, list):
            return [number * record["factor"] for number in value]
        return value if isinstance(value, str) else value * record["factor"]
    return {name: one(records[name], value) for name, value in values.items()}


def sizes_of(readings):
    """Return what goes with the table of *readings*, by name."""
    return {name: one for name, one in readings.items() if name != TABLE}


def entries_text(records, values):
    """Return read entries as one line: "wire 43; tops 0, 0.2 mm"."""
    def one(record, value):
        if isinstance(value, str):
            return value
        numbers = value if isinstance(value, list) else [value]
        return with_unit(", ".join(f"{number:g}" for number in numbers), record["unit"])
    return "; ".join(f"{name} {one(records[name], value)}" for name, value in values.items())


def _listed(records):
    *first, last = records
    return f"{', '.join(first)} and {last}" if first else last


def _is_sequence(value):
    return hasattr(value, "__len__") and hasattr(value, "__getitem__") and not isinstance(value, (str, bytes, Mapping))


def _wrong_count(count, least, most):
    return ValueError(f"the table must have from {least} to {most} rows; got {count}")


def _rows_of(columns, value, least, most):
    """Any of the ways to write a table, as a list of rows; too many are refused before the list is made."""
    if isinstance(inner := getattr(value, "columns", None), Mapping):
        value = _shown_columns(columns, inner)
    if isinstance(value, Mapping):
        if set(value) != set(columns):
            raise ValueError(f"the table's columns must be {_listed(columns)}")
        lists = [value[name] for name in columns]
        if not all(_is_sequence(one) for one in lists) or len({len(one) for one in lists}) != 1:
            raise ValueError("the table's columns must be lists of the same length")
        if len(lists[0]) > most:
            raise _wrong_count(len(lists[0]), least, most)
        return list(zip(*lists))
    if not _is_sequence(value):
        raise ValueError(f"a table is needed: a list of rows, each with {_listed(columns)}")
    if len(value) > most:
        raise _wrong_count(len(value), least, most)
    return list(value)


def _shown_columns(columns, readings):
    """Readings from a file, in SI: each column by its name or by its label, in the unit that is asked."""
    found = {name: next((readings[one] for one in (name, record["label"]) if one in readings), None)
             for name, record in columns.items()}
    if missing := [columns[name]["label"] for name, values in found.items() if values is None]:
        raise ValueError(f"the readings have no column {missing[0]}")
    return {name: [one / columns[name]["factor"] for one in values] for name, values in found.items()}


def _read_entry(name, record, value):
    if record["options"]:
        words = ", ".join(record["options"])
        word = " ".join(value.split()).lower() if isinstance(value, str) and len(value) <= LONGEST_WORD else None
        if word not in record["options"]:
            raise ValueError(f"{name} must be one of {words}")
        return word
    if record["count"] == 1:
        return _number_within(name, record, value)
    if not _is_sequence(value) or len(value) != record["count"]:
        raise ValueError(f"{name} must be a list of {record['count']} numbers")
    return [_number_within(f"{name}, number {place}", record, one) for place, one in enumerate(value, start=1)]


def _number_within(name, record, value):
    try:
        number = float(f"{reading.read_number(value):.6g}")
    except ValueError as error:
        raise ValueError(f"{name}: {error}") from None
    if not record["low"] <= number <= record["high"] or record["whole"] and number != int(number):
        kind = "a whole number" if record["whole"] else "a number"
        upto = with_unit(f"{record['high']:g}", record["unit"])
        low = f"{record['low']:g}".replace("-", "−")
        raise ValueError(f"{name} must be {kind} from {low} to {upto}; "
                         f"got {f'{number:g}'.replace('-', '−')}")
    return number
