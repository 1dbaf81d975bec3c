"""A formula is asked: judged by its dimension, and by what it gives at several sets of values; never run as code."""
import hashlib
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from keyword import iskeyword

from lessons_lib.base.checks import positive, refuse
from lessons_lib.base.dimensions import dimension_of
from lessons_lib.base.units import shown_unit, unit_of
from lessons_lib.exercises.expressions import NOT_NAMES, DimensionError, read_expression
from lessons_lib.exercises.kinds.kind import Judgement, Record, Together
from lessons_lib.exercises.paper import FormulaLine, Grid, Right
from lessons_lib.exercises.parts import check_formula, check_notes, evaluate
from lessons_lib.exercises.sealing import APART, RIGHT, Scale, digest, sealed_notes
from lessons_lib.exercises.verdicts import State

_SETS = 4       # of values that a formula is tried at


@dataclass(frozen=True)
class Symbol:
    """A quantity that the formula may name, in a *unit* of the table; it is tried from *low* to *high* in that unit.

    A constant has one value: low and high are equal.

    Examples
    --------
    >>> Symbol("radius of the pole", "mm", 2, 4).between
    (0.002, 0.004)
    """

    label: str
    unit: str
    low: float
    high: float

    def __post_init__(self):
        dimension_of(self.unit)
        if not -math.inf < self.low <= self.high < math.inf:
            refuse("high", "a finite number, low or above", self.high)

    @property
    def between(self):
        """Lowest and highest value, SI."""
        factor = unit_of(self.unit).factor
        return self.low * factor, self.high * factor


@dataclass(frozen=True, kw_only=True)
class FormulaExercise(Together):
    """A formula in given symbols is asked, the same for every bench.

    Parameters
    ----------
    symbols : mapping of name to `Symbol`
        With ranges in which the answer and each slip are positive or negative throughout, and finite.
    asked : str
        A unit of what the formula gives; its dimension is what counts.
    answer : callable
        Of the symbols, SI in and SI out.
    written : str
        The same as a student would type it, such as "mmf / (r_magnet + r_air)": shown in the worked answer.
    notes : (str, str, str)
        Where to look; which principle; a worked twin.
    slips : tuple of `Slip`
        Wrong formulas, as functions of the symbols.
    tolerance : float
        A share, at each set of values: wide enough for 3.14 in place of pi.
    """

    symbols: Mapping
    asked: str
    answer: Callable
    written: str
    notes: tuple
    slips: tuple = ()
    tolerance: float = 0.002
    kind = "formula"        # without *unit*: a formula in quantities is typed without one

    def __post_init__(self):
        positive(tolerance=self.tolerance)
        dimension_of(self.asked)
        check_notes(self.notes)
        for name in self.symbols:
            if not name.isidentifier() or iskeyword(name) or name in NOT_NAMES:
                refuse("the name of a symbol", "a name that is no word of Python and no function", name)
        for formula in (self.answer, *(slip.formula for slip in self.slips)):
            check_formula(self.id, formula, self.symbols)

    @property
    def tried_at(self):
        """Sets of values, name -> SI: the same for every bench, four figures each."""
        def one(place, name):
            low, high = self.symbols[name].between
            bits = hashlib.sha256(f"{self.id} {place} {name}".encode()).digest()[:4]
            return float(f"{low + (high - low) * int.from_bytes(bits, 'big') / 2 ** 32:.4g}") if low < high else low
        return [{name: one(place, name) for name in self.symbols} for place in range(_SETS)]

    def numbers(self, formula):
        """Return what a *formula* gives at each set of values."""
        return [float(evaluate(formula, values)) for values in self.tried_at]

    def sheet_fields(self, drawn, salt):
        """Return the symbols and the sets of values in the open, sealed what the right formula and slips give there."""
        scales, said = self.scales(), {names: slips[0].note for names, slips in self.slips_by_bins().items()}
        said[_bins(scales, self.numbers(self.answer))] = RIGHT
        notes, sealed = sealed_notes(self.id, salt, "formula", said)
        return {"symbols": {name: {"label": one.label, "unit": one.unit} for name, one in self.symbols.items()},
                "asked": self.asked, "tried_at": self.tried_at, "phases": [scale.phase for scale in scales],
                "tolerance": self.tolerance, "slip_notes": notes, "notes": list(self.notes), "sealed": sealed}

    def model_answer(self, drawn=None):
        return self.written, None, {}

    def right_for_all(self):
        return self.written

    def right_on_paper(self, drawn=None):
        """Return the right formula, and the slips by name with their notes."""
        slips = tuple((slip.name, slip.note) for slip in self.slips)
        return Right(self.written), *Grid.where_any(("slip", "what is asked then"), slips)

    def value_words(self, judged, drawn):
        """Return what is wrong by its kind: the dimension, no value, or another formula."""
        return judged.how or "another formula"

    def faults(self):
        rights = self.numbers(self.answer)
        if not all(math.isfinite(right) and right for right in rights):
            yield f"{self.id}: the right formula gives {rights} at its sets of values: no share can be taken of that."
            return
        judged = FormulaRecord(self.sheet_fields(None, ""), id=self.id, salt="").judge(self.written)
        if judged.state != State.RIGHT:
            yield f"{self.id}: the written formula {self.written} is not right: {judged.text}"
        for slip in self.slips:
            numbers = self.numbers(slip.formula)
            if not all(map(math.isfinite, numbers)):
                yield f"{self.id}: slip {slip.name} gives {numbers} at its sets of values."
            elif not any(one.distance(*both) >= APART for one, *both in zip(self.scales(), numbers, rights)):
                yield f"{self.id}: slip {slip.name} cannot be told from the right formula."
        for slips in self.slips_by_bins().values():
            if other := next((slip for slip in slips if slip.note != slips[0].note), None):
                yield f"{self.id}: slip {other.name} leads where {slips[0].name} leads, and has another note."
                return


def _bins(scales, numbers):
    return " ".join(scale.bin(number) for scale, number in zip(scales, numbers))


class FormulaRecord(Record):
    """The record side: a formula is read, its dimension found, and its values looked up."""

    kind = "formula"
    blank = '"..."'

    def judge(self, value, unit=None, readings=None):
        if unit not in (None, ""):
            raise ValueError("a formula in quantities has no unit behind it; leave the unit out")
        expression = read_expression(value, self["symbols"])
        entry, numbers = {"value": expression.text}, [expression.value(values) for values in self["tried_at"]]
        if not all(map(math.isfinite, numbers)):
            return Judgement(state=State.NOT_YET, try_name=f"no value {expression.text}", entry=entry, how="no value",
                             text="For some values this has no result: it divides by zero, takes a root or logarithm "
                                  "of a negative number, or grows beyond all bounds.")
        scales = [Scale(tolerance=self["tolerance"], absolute=False, phase=phase) for phase in self["phases"]]
        name = _bins(scales, numbers)
        said = self["sealed"].get(digest(self["salt"], self["id"], "formula", name))
        if said not in (None, RIGHT):
            return Judgement(state=State.NOT_YET, text=self["slip_notes"][said], try_name=name, entry=entry)
        if wrong := self._wrong_dimension(expression):
            return Judgement(state=State.NOT_YET, text=wrong, try_name=f"dimension {name}", entry=entry,
                             how="another dimension than asked")
        if said == RIGHT:
            return Judgement(state=State.RIGHT, try_name=name, entry=entry,
                             text="Your formula gives what is asked, for every set of values tried.")
        return Judgement(state=State.NOT_YET, text="", try_name=name, entry=entry, unmatched=True)

    def _wrong_dimension(self, expression):
        known = {name: dimension_of(one["unit"]) for name, one in self["symbols"].items()}
        try:
            found = expression.dimension(known)
            if found == dimension_of(self["asked"]):
                return ""
            asked = unit_of(self["asked"]).dimension
            return f"This is {expression.dimension_said(known)}; {asked} is asked."
        except DimensionError as error:
            return str(error)

    def place(self):
        return (FormulaLine(self["id"], tuple(
            f"{name}, {one['label']}" + (f", in {unit}" if (unit := shown_unit(one["unit"])) else "")
            for name, one in self["symbols"].items())),)
