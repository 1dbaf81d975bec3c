"""Two kinds of exercise for the workbench: a design against public limits, and an answer with its own readings."""
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from lessons_lib.base.checks import one_of, positive, refuse
from lessons_lib.exercises.common_slips import COMMON_SLIPS
from lessons_lib.exercises.designs import computed, findings, read_design
from lessons_lib.exercises.entries import MOST_ROWS
from lessons_lib.exercises.measured import TABLE, measured_fields, read_readings, result_of
from lessons_lib.exercises.models import HOMES
from lessons_lib.exercises.parts import check_unit, evaluate, parameters, text_fields


@dataclass(frozen=True, kw_only=True)
class DesignExercise:
    """A design is asked that meets limits; the limits are a bench's own and public, nothing is sealed.

    Parameters
    ----------
    id : str
    entries : mapping of name to `Entry`
        What is chosen: the keys of the student's dict and the arguments of the model.
    model, parts : str
        Names in `models`: the report on a design, and its list of parts.
    limits : tuple of `Limit`
    derived : mapping of name to `Derived`
        The bounds, shown to the student: formulas of the hidden values.
    hidden : mapping of name to `Given`
        Drawn and not shown.
    known : callable
        Of the hidden values (SI): a design, in the entries' units, that meets the limits. A draw whose known design
        does not is refused, so every bench has one.
    worked : str
        With ``{design}`` for the known design and the names of the bounds.
    marks : int
        Shared evenly among the limits.
    """

    id: str
    entries: Mapping
    model: str
    parts: str
    limits: tuple
    derived: Mapping
    hidden: Mapping
    known: Callable
    worked: str
    given: Mapping = field(default_factory=dict)
    marks: int = 1
    teaching_note: str = ""
    kind = "design"
    follows = None
    slips = common = ()

    def __post_init__(self):
        one_of("model", self.model, HOMES)
        one_of("parts", self.parts, HOMES)
        for limit in self.limits:
            for name in filter(None, (limit.least, limit.most)):
                one_of(f"bound of {limit.quantity}", name, self.shown)
        for formula in (self.known, *(derived.formula for derived in self.derived.values())):
            for name in parameters(formula):
                one_of(f"an argument in a formula of exercise {self.id}", name, {*self.given, *self.hidden})
        if unknown := text_fields(self.worked) - {*self.shown, "design"}:
            refuse(f"a field in a text of exercise {self.id}", f"one of {', '.join(self.shown)}, design", min(unknown))

    @property
    def shown(self):
        """Name to declaration of every value the student sees."""
        return {**self.given, **self.derived}

    def known_design(self, values):
        """Return a design that meets the limits, for the drawn *values* in SI."""
        return evaluate(self.known, values)

    def findings(self, record, design):
        """Return what a sheet's *record* of this exercise finds in a design."""
        return findings(record["limits"], computed(record, read_design(record, design)))


@dataclass(frozen=True, kw_only=True)
class MeasuredExercise:
    """A number is asked that the student's own readings lead to; the readings go with it, and nothing is sealed.

    Parameters
    ----------
    id : str
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

    id: str
    columns: Mapping
    fit: str
    quantity: str
    unit: str
    size: tuple
    tolerance: float
    notes: tuple
    example: Mapping
    worked: str
    rows: tuple = (4, 40)
    sizes: Mapping = field(default_factory=dict)
    slips: tuple = ()
    common: tuple = ()
    marks: int = 1
    teaching_note: str = ""
    kind = "measured"

    def __post_init__(self):
        check_unit(self.unit)
        positive(tolerance=self.tolerance)
        one_of("fit", self.fit, HOMES)
        for slip in self.slips:
            one_of(f"function of slip {slip.name}", slip.function, HOMES)
        for name in self.common:
            one_of("common", name, COMMON_SLIPS)
        if not 0 < self.size[0] < self.size[1]:
            refuse("size", "(low, high), both above zero, with low below high", self.size)
        if not 2 <= self.rows[0] <= self.rows[1] <= MOST_ROWS:
            refuse("rows", f"(least, most), from 2 to {MOST_ROWS}", self.rows)
        if len(self.notes) != 3:
            refuse("notes", "three texts: where to look, which principle, a worked twin", self.notes)
        columns, sizes = self.columns.values(), self.sizes.values()
        if (TABLE in self.sizes or any(entry.options for entry in columns)
                or any(entry.count > 1 for entry in (*columns, *sizes))):
            refuse("columns and sizes", "single entries (columns of numbers) with names of their own",
                   sorted(self.sizes))
        if unknown := text_fields(self.worked) - {"answer", "tolerance", "rows"}:
            refuse(f"a field in a text of exercise {self.id}", "one of answer, tolerance, rows", min(unknown))

    def example_result(self):
        """Return the `Result` of the example."""
        record = measured_fields(self)
        return result_of(record, read_readings(record, self.example))
