"""A number is asked that the student's own readings lead to: the fit to the table is the right answer.

The fit's interval is the tolerance. Nothing is sealed; the same fit runs at answering and at marking.
"""
import json
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np

from lessons_lib.base.checks import one_of, positive, refuse
from lessons_lib.base.units import read_unit, shown_unit, with_unit
from lessons_lib.exercises import reading
from lessons_lib.exercises.common_slips import check_common, common_numbers
from lessons_lib.exercises.entries import (
    MOST_ROWS,
    TABLE,
    entries_text,
    entry_records,
    in_si,
    read_entries,
    read_rows,
    sizes_of,
)
from lessons_lib.exercises.kinds.kind import Judgement, Marked, Record
from lessons_lib.exercises.models import HOMES, model, why
from lessons_lib.exercises.paper import Box, Entries, Grid, Readings, Right
from lessons_lib.exercises.parts import check_fields, check_notes, check_unit
from lessons_lib.exercises.verdicts import State

VAGUEST = 0.25      # of the result: readings that leave more open than this decide nothing


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


@dataclass(frozen=True, kw_only=True)
class MeasuredExercise(Marked):
    """A number is asked that the student's own readings lead to; the readings go with it, and nothing is sealed.

    Parameters
    ----------
    columns : mapping of name to `Entry`
        Of the table: arguments of the fit.
    fit : str
        Name in `models`. Its result gives ``fit[quantity]`` and ``fit.interval(quantity)`` (95 %, a pair), SI.
    quantity, unit : str
        Which of the fit's quantities is asked, in which unit.
    size : (float, float)
        Where a table that can be used leads to, in the asked unit.
    tolerance : float
        The least one, a share; half of the fit's interval where that is more.
    rows : (int, int)
        How many the table may have.
    sizes : mapping of name to `Entry`
        Numbers, or words of a list, that go with the table, as further arguments of the fit.
    slips : tuple of `FitSlip`
    common : tuple of str
        Names from `COMMON_SLIPS`, tried after the own slips.
    notes : (str, str, str)
        Where to look; which principle; a worked twin.
    example : mapping
        Invented readings as a student gives them: ``table`` and the sizes. The tests and the worked answer use them.
    worked : str
        With ``{answer}`` for what the example leads to, ``{tolerance}`` and ``{rows}``.
    """

    columns: Mapping
    fit: str
    quantity: str
    unit: str = field()
    size: tuple
    tolerance: float = field()
    notes: tuple
    example: Mapping
    rows: tuple = (4, 40)
    sizes: Mapping = field(default_factory=dict)
    slips: tuple = ()
    common: tuple = ()
    kind = "measured"

    def __post_init__(self):
        check_unit(self.unit)
        positive(tolerance=self.tolerance)
        one_of("fit", self.fit, HOMES)
        for slip in self.slips:
            one_of(f"function of slip {slip.name}", slip.function, HOMES)
        check_common(self.common)
        if not 0 < self.size[0] < self.size[1]:
            refuse("size", "(low, high), both above zero, with low below high", self.size)
        if not 2 <= self.rows[0] <= self.rows[1] <= MOST_ROWS:
            refuse("rows", f"(least, most), from 2 to {MOST_ROWS}", self.rows)
        check_notes(self.notes)
        columns, sizes = self.columns.values(), self.sizes.values()
        if (TABLE in self.sizes or any(entry.options for entry in columns)
                or any(entry.count > 1 for entry in (*columns, *sizes))):
            refuse("columns and sizes", "single entries (columns of numbers) with names of their own",
                   sorted(self.sizes))
        check_fields(self.id, self.worked, ["answer", "tolerance", "rows"])

    def sheet_fields(self, drawn, salt):
        """Return columns, fit and slips: all in the open."""
        return {"fit": self.fit, "quantity": self.quantity, "unit": self.unit, "size": list(self.size),
                "tolerance": self.tolerance, "rows": list(self.rows),
                "columns": entry_records(self.columns), "sizes": entry_records(self.sizes),
                "slips": [{"name": slip.name, "function": slip.function, "note": slip.note} for slip in self.slips],
                "common": list(self.common), "notes": list(self.notes)}

    def example_result(self):
        """Return the `Result` of the example."""
        record = MeasuredRecord(self.sheet_fields(None, ""))
        return record.result(record.read(self.example))

    def model_answer(self, drawn=None):
        """Return what the example leads to, with the example's readings."""
        return float(f"{self.example_result().right:.5g}"), self.unit, dict(self.example)

    def worked_answer(self, drawn=None):
        """Return the worked answer with what the example leads to."""
        result = self.example_result()
        return self.worked.format(answer=with_unit(f"{result.right:.4g}", self.unit),
                                  tolerance=with_unit(f"{result.tolerance:.2g}", self.unit),
                                  rows=len(self.example[TABLE]))

    def right_on_paper(self, drawn=None):
        """Return what the example leads to, and its table."""
        result = self.example_result()
        right, wide = (with_unit(f"{number:.4g}", self.unit) for number in (result.right, result.tolerance))
        return (Right(right, before="The right value is what the fit to each student's own readings gives. The "
                                    "invented readings lead to", after=f"; ±{wide} counts as right."),
                Grid(tuple(f"{name} ({shown_unit(entry.unit)})" for name, entry in self.columns.items()),
                     tuple(tuple(f"{number:g}" for number in row) for row in self.example[TABLE])))

    def right_for_all(self):
        return "what the bench's own readings lead to"

    def faults(self):
        """Yield that the example leads nowhere, or a slip that it does not tell apart from the right way."""
        record = MeasuredRecord(self.sheet_fields(None, ""))
        try:
            result = record.result(record.read(self.example))
        except ValueError as error:
            yield f"{self.id}: with the example, {error}."
            return
        for name, number in record.slip_numbers(result):
            if name not in [met for met, _ in record.slips_met(result, number)]:
                yield f"{self.id}: slip {name}, {number:.4g} with the example, is not told."
        self.worked_answer()


class MeasuredRecord(Record):
    """The record side: the fit runs on the student's readings, at answering and at marking."""

    kind = "measured"
    takes_readings = is_computed = True

    def read(self, value):
        """Return the readings of an answer as plain data; ValueError with why the table cannot be used."""
        if not isinstance(value, Mapping) or TABLE not in value:
            raise ValueError("your readings must go with the answer: table=...")
        try:
            least, most = self["rows"]
            return {TABLE: read_rows(self["columns"], value[TABLE], least=least, most=most),
                    **read_entries(self["sizes"], sizes_of(value))}
        except ValueError as error:
            raise ValueError(f"the table cannot be used: {error}") from None

    def result(self, readings):
        """Return the `Result` of read readings; ValueError where no fit is possible, or it leaves too much open."""
        columns = dict(zip(self["columns"], map(list, zip(*readings[TABLE]))))
        inputs = in_si({**self["columns"], **self["sizes"]}, {**columns, **sizes_of(readings)})
        try:
            fitted = _fitted(self["fit"], self["quantity"], json.dumps(inputs))
        except Exception as error:      # whatever a table does to a fit, page and marking go on
            raise ValueError(f"the table cannot be used: {why(error)}") from None
        right, low, high = (one / read_unit(self["unit"]).factor for one in fitted)
        self._check_usable(right, open_by := (high - low) / 2)
        least = self["tolerance"] * abs(right)
        return Result(right=right, tolerance=max(least, open_by), by_fit=open_by > least, inputs=inputs)

    def _check_usable(self, right, open_by):
        low, high = self["size"]
        if not (math.isfinite(right) and math.isfinite(open_by)):
            raise ValueError("the table cannot be used: the fit to it does not converge; are the columns in the right "
                             "order?")
        if not low <= right <= high:
            units = ", ".join(f"{name} in {shown_unit(one['unit'])}" for name, one in self["columns"].items())
            raise ValueError("the table cannot be used: it leads to nothing that a workbench has; check the units of "
                             f"its columns: {units}")
        if open_by > VAGUEST * abs(right):
            share = 100 * open_by / abs(right)
            raise ValueError(f"the table cannot be used: its readings leave the result uncertain by "
                             f"{f'±{share:.0f} %' if share < 100 else 'more than itself'}, and more than "
                             f"{100 * VAGUEST:.0f} % decides nothing. Is a reading misplaced, or the range too narrow?")

    def slip_numbers(self, result):
        """Return (name, number in the asked unit) of the own slips, for the result's inputs."""
        factor = read_unit(self["unit"]).factor
        return [(slip["name"], _slip_value(slip["function"], result.inputs) / factor) for slip in self["slips"]]

    def slips_met(self, result, number):
        """Return (name, note) of the slips that a number in the asked unit fits: own ones, else common factors."""
        width = result.tolerance / abs(result.right)

        def fits(wrong):
            return math.isfinite(wrong) and not result.is_right(wrong) and abs(number - wrong) <= width * abs(wrong)

        own = [(slip["name"], slip["note"])
               for slip, (_, wrong) in zip(self["slips"], self.slip_numbers(result)) if fits(wrong)]
        return own or list(dict.fromkeys((name, note) for name, wrong, note in common_numbers(
            self["common"], result.right) if fits(wrong)))

    def judge(self, value, unit=None, readings=None):
        typed = reading.read_number(value)
        number = reading.read_number(reading.into(typed, unit, self["unit"]))
        readings = self.read(readings)
        result, kept = self.result(readings), json.dumps(readings, sort_keys=True)
        entry = {"value": typed, "unit": (unit or "").strip() or self["unit"], "readings": readings}
        if result.is_right(number):
            wide = with_unit(f"{result.tolerance:.2g}", self["unit"])
            within = "the 95 % interval" if result.by_fit else f"{100 * self['tolerance']:g} %"
            return Judgement(state=State.RIGHT, try_name=f"right {kept}", entry=entry,
                             text=f"Within {within} of the fit to your readings, ±{wide}.")
        met = self.slips_met(result, number)
        slips = tuple(name for name, _ in met)
        return Judgement(state=State.NOT_YET, text=" Or: ".join(dict.fromkeys(note for _, note in met)), entry=entry,
                         try_name=f"{', '.join(slips) or f'{number:.3g}'} {kept}", unmatched=not met, slips=slips)

    def place(self):
        """Return an empty table, boxes for the sizes, and one for the number."""
        columns = tuple(f"{one['label']} ({shown_unit(one['unit'])})" for one in self["columns"].values())
        sizes = [Entries.of(self["sizes"])] if self["sizes"] else []
        return Readings(columns), *sizes, Box(self["id"], shown_unit(self["unit"]))

    def shown(self, entry):
        """Return a kept answer with its readings in a few words: how many rows, and the sizes."""
        sizes = sizes_of(entry["readings"])
        readings = "; ".join([f"{len(entry['readings'][TABLE])} rows"]
                             + ([entries_text(self["sizes"], sizes)] if sizes else []))
        number = with_unit(f"{entry['value']:.6g}", entry["unit"])
        return f"{number} with {readings}"


@lru_cache(maxsize=512)
def _fitted(name, quantity, inputs):
    """Value and interval, SI, by a named fit; kept, because a page looks at every try again and again."""
    with np.errstate(all="ignore"):     # what comes of it is looked at
        fit = model(name)(**json.loads(inputs))
    return float(fit[quantity]), *(float(end) for end in fit.interval(quantity))


def _slip_value(function, inputs):
    try:
        return float(model(function)(**inputs))
    except (ArithmeticError, ValueError):   # this wrong way does not exist for every table
        return math.nan
