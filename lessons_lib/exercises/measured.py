"""An answer with its own readings: the fit to the student's table is the right answer, its interval the tolerance.

Nothing is sealed; the same fit runs at answering and at marking.
"""
import json
import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from lessons_lib.base.units import read_unit, shown_unit, with_unit
from lessons_lib.exercises.common_slips import COMMON_SLIPS
from lessons_lib.exercises.entries import columns_in_si, entries_text, entry_records, in_si, read_entries, read_table
from lessons_lib.exercises.models import model, why

VAGUEST = 0.25      # of the result: readings that leave more open than this decide nothing
TABLE = "table"


@dataclass(frozen=True)
class FitSlip:
    """A wrong way to the result, as a named function of `models` on the fit's own inputs, and the note read after it.

    The function returns SI, in the place of the fit's result.
    """

    name: str
    function: str
    note: str


@dataclass(frozen=True, kw_only=True)
class Result:
    """What a table leads to, in the asked unit: *right*, give or take *tolerance*.

    *by_fit* says that the tolerance is half of the fit's 95 % interval, not the least one asked. *inputs* are those of
    the fit.
    """

    right: float
    tolerance: float
    by_fit: bool
    inputs: dict

    def is_right(self, number):
        """Whether a number is right within the tolerance."""
        return abs(number - self.right) <= self.tolerance * (1 + 1e-6)


def measured_fields(exercise):
    """Return what a sheet holds of a `MeasuredExercise`: all in the open."""
    return {"fit": exercise.fit, "quantity": exercise.quantity, "unit": exercise.unit, "size": list(exercise.size),
            "tolerance": exercise.tolerance, "rows": list(exercise.rows),
            "columns": entry_records(exercise.columns), "sizes": entry_records(exercise.sizes),
            "slips": [{"name": slip.name, "function": slip.function, "note": slip.note} for slip in exercise.slips],
            "common": list(exercise.common), "notes": list(exercise.notes)}


def read_readings(record, value):
    """Return the readings that came with an answer as plain data: ``table`` and the named sizes.

    Raises
    ------
    ValueError
        With a sentence that begins with why the table cannot be used.
    """
    if not isinstance(value, Mapping) or TABLE not in value:
        raise ValueError("your readings must go with the answer: table=...")
    try:
        table = read_table(record["columns"], value[TABLE], least=record["rows"][0], most=record["rows"][1])
        sizes = {name: one for name, one in value.items() if name != TABLE}
        return {TABLE: table, **(read_entries(record["sizes"], sizes) if sizes or record["sizes"] else {})}
    except ValueError as error:
        raise ValueError(f"the table cannot be used: {error}") from None


def result_of(record, readings):
    """Return the `Result` of read readings.

    Raises
    ------
    ValueError
        Where no fit is possible, where it leads far from anything, or leaves the result too open.
    """
    sizes = {name: one for name, one in readings.items() if name != TABLE}
    inputs = {**columns_in_si(record["columns"], readings[TABLE]), **in_si(record["sizes"], sizes)}
    try:
        fitted = _fitted(record["fit"], record["quantity"], json.dumps(inputs))
    except Exception as error:      # whatever a table does to a fit, page and marking go on
        raise ValueError(f"the table cannot be used: {why(error)}") from None
    right, low, high = (one / read_unit(record["unit"]).factor for one in fitted)
    _check_usable(record, right, open_by := (high - low) / 2)
    least = record["tolerance"] * abs(right)
    return Result(right=right, tolerance=max(least, open_by), by_fit=open_by > least, inputs=inputs)


@lru_cache(maxsize=512)
def _fitted(name, quantity, inputs):
    """Value and interval, SI, by a named fit; kept, because a page looks at every try again and again."""
    with np.errstate(all="ignore"):     # what comes of it is looked at
        fit = model(name)(**json.loads(inputs))
    return float(fit[quantity]), *(float(end) for end in fit.interval(quantity))


def _check_usable(record, right, open_by):
    low, high = record["size"]
    if not (math.isfinite(right) and math.isfinite(open_by)):
        raise ValueError("the table cannot be used: the fit to it does not converge; are the columns in the right "
                         "order?")
    if not low <= right <= high:
        units = ", ".join(f"{name} in {shown_unit(one['unit'])}" for name, one in record["columns"].items())
        raise ValueError("the table cannot be used: it leads to nothing that a workbench has; check the units of its "
                         f"columns: {units}")
    if open_by > VAGUEST * abs(right):
        share = 100 * open_by / abs(right)
        raise ValueError(f"the table cannot be used: its readings leave the result uncertain by "
                         f"{f'±{share:.0f} %' if share < 100 else 'more than itself'}, and more than "
                         f"{100 * VAGUEST:.0f} % decides nothing. Is a reading misplaced, or the range too narrow?")


def slip_numbers(record, result):
    """Return (name, number in the asked unit) of the own slips, for the result's inputs."""
    factor = read_unit(record["unit"]).factor
    return [(slip["name"], _slip_value(slip["function"], result.inputs) / factor) for slip in record["slips"]]


def slips_met(record, result, number):
    """Return (name, note) of the slips that a number in the asked unit fits: own ones, else common factors."""
    width = result.tolerance / abs(result.right)

    def fits(wrong):
        return math.isfinite(wrong) and not result.is_right(wrong) and abs(number - wrong) <= width * abs(wrong)

    own = [(slip["name"], slip["note"])
           for slip, (_, wrong) in zip(record["slips"], slip_numbers(record, result)) if fits(wrong)]
    return own or [(name, COMMON_SLIPS[name].note) for name in record["common"]
                   if any(fits(one * result.right) for one in COMMON_SLIPS[name].factors)]


def _slip_value(function, inputs):
    try:
        return float(model(function)(**inputs))
    except (ArithmeticError, ValueError):   # this wrong way does not exist for every table
        return math.nan


def result_text(record, result):
    """Return how far a right answer may be off, in words: the fit's own interval, or the least that is asked."""
    wide = with_unit(f"{result.tolerance:.2g}", record["unit"])
    if result.by_fit:
        return f"Within the 95 % interval of the fit to your readings, ±{wide}"
    return f"Within {100 * record['tolerance']:g} % of the fit to your readings, ±{wide}"


def readings_text(record, readings):
    """Return kept readings in a few words: how many rows, and the sizes."""
    sizes = {name: one for name, one in readings.items() if name != TABLE}
    parts = [f"{len(readings[TABLE])} rows"] + ([entries_text(record["sizes"], sizes)] if sizes else [])
    return "; ".join(parts)


def readings_name(readings):
    """Return a name that tells one set of readings from another."""
    return json.dumps(readings, sort_keys=True)
