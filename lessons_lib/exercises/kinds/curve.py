"""A curve is chosen among some that are drawn for the bench's own numbers; their letters differ from bench to bench."""
import inspect
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from lessons_lib.base.checks import one_of, refuse
from lessons_lib.base.units import read_unit
from lessons_lib.exercises.kinds.choice import ChoiceRecord
from lessons_lib.exercises.kinds.kind import WithGiven
from lessons_lib.exercises.paper import Boxes, Curves, Entries, Grid, Right
from lessons_lib.exercises.parts import Derived, Given, Slip, check_fields, check_formula, check_unit, evaluate
from lessons_lib.exercises.sealing import sealed_letters

_POINTS = 41
_APART = 0.1        # of the largest value: two curves that differ less anywhere look the same
ALONG = "along"     # the name of the column that the curves are drawn over


@dataclass(frozen=True)
class CurveAxis:
    """What is drawn along an axis, in *unit*, with so many *decimals*; from *low* to *high* where curves run along it.

    Examples
    --------
    >>> CurveAxis("time", "ms", 1, 0, 8).values[:3].round(6).tolist()
    [0.0, 0.0002, 0.0004]
    """

    label: str
    unit: str
    decimals: int
    low: float = 0.0
    high: float = 1.0

    def __post_init__(self):
        check_unit(self.unit)
        if not self.low < self.high:
            refuse("high", f"above low = {self.low:g}", self.high)

    @property
    def values(self):
        """Evenly spaced values along it, SI."""
        return np.linspace(self.low, self.high, _POINTS) * read_unit(self.unit).factor


@dataclass(frozen=True, kw_only=True)
class CurveExercise(WithGiven):
    """One letter is asked: which of the drawn curves it is.

    Parameters
    ----------
    x, y : CurveAxis
    curves : callable
        Of ``x`` (SI, shape (41,)) and the given values (SI): name -> values, SI, shape (41,). The names are the
        declaration's; a student sees letters, in an order of each bench's own.
    right : str
        A name.
    notes : mapping of name to str
        What is read after each choice, the right one too; no letters in it.
    worked : str
        With ``{letter}``, and the names of given values.
    given : mapping of name to `Given`

    Notes
    -----
    A page shows the curves by ``curves(sheet.given("4.9"))`` (`lessons_lib.page.curves`); on paper they are above the
    place for the answer.
    """

    x: CurveAxis
    y: CurveAxis
    curves: Callable
    right: str
    notes: Mapping
    kind = "curve"
    right_field = "letter"
    is_drawn = is_in_key = True

    def __post_init__(self):
        one_of("right", self.right, self.notes)
        if not 2 <= len(self.notes) <= 6:
            refuse("notes", "2 to 6 curves, a text for each", sorted(self.notes))
        check_formula(self.id, self.curves, ["x", *self.given])
        check_fields(self.id, self.worked, ["letter", *self.given])

    @property
    def letters(self):
        """The letters of the curves, as many as there are."""
        return "abcdef"[:len(self.notes)]

    @property
    def hidden(self):
        """The number of a bench's order of letters."""
        orders = math.factorial(len(self.notes))
        return {"order": Given("order of the letters", unit="1", low=0, high=orders - 1, step=1)}

    @property
    def derived(self):
        """The columns that a student sees: along the axis, then a curve for each letter."""
        return {ALONG: Derived(self.x.label, unit=self.x.unit, decimals=self.x.decimals, formula=lambda: self.x.values),
                **{letter: Derived(f"{self.y.label} ({letter})", unit=self.y.unit, decimals=self.y.decimals,
                                   formula=self._curve(letter)) for letter in self.letters}}

    def _curve(self, letter):
        """The formula of the curve of a letter: of the given values and the hidden order."""
        def formula(order, **given):
            return evaluate(self.curves, {"x": self.x.values, **given})[self.names_by_letter(order)[letter]]

        formula.__signature__ = inspect.Signature([
            inspect.Parameter(name, inspect.Parameter.KEYWORD_ONLY) for name in ("order", *self.given)])
        return formula

    def names_by_letter(self, order):
        """Return letter -> name of its curve, in the order of letters of that number."""
        left, names, order = sorted(self.notes), {}, round(order)
        for letter in self.letters:
            order, place = divmod(order, len(left))
            names[letter] = left.pop(place)
        return names

    def _names(self, drawn):
        return self.names_by_letter(drawn.hidden["order"])

    def _letter(self, drawn):
        return next(letter for letter, name in self._names(drawn).items() if name == self.right)

    @property
    def slips(self):
        """The wrong curves, by name, with their notes."""
        return tuple(Slip(name, None, note) for name, note in self.notes.items() if name != self.right)

    def sheet_fields(self, drawn, salt):
        """Return the curves by their letters in the open; sealed which is right, and the notes."""
        notes = {letter: self.notes[name] for letter, name in self._names(drawn).items()}
        return {"given": drawn.records(), "options": {letter: f"curve ({letter})" for letter in self.letters},
                **sealed_letters(self.id, salt, self._letter(drawn), notes)}

    def model_answer(self, drawn=None):
        return self._letter(drawn), None, {}

    def key_value(self, drawn):
        return f"({self._letter(drawn)})"

    def right_on_paper(self, drawn=None):
        """Return the curves, and which is right, by letter and name."""
        return (*_numbers(drawn.records()), Curves.of(drawn.records(), self.letters),
                Right(self.key_value(drawn), after=f" {self.right}. The others: " + ", ".join(
                    f"({letter}) {name}" for letter, name in self._names(drawn).items() if name != self.right)))

    def slips_by_try(self, drawn):
        """Return wrong letter -> the name of its curve."""
        return {letter: [name] for letter, name in self._names(drawn).items() if name != self.right}

    def why_refused(self, drawn):
        """Return which two curves look the same, or an empty text."""
        curves = {name: np.array(drawn.shown[letter]) for letter, name in self._names(drawn).items()}
        largest = np.abs([*curves.values()]).max()
        if not math.isfinite(largest):
            return "a curve is not finite"
        pairs = ((one, other) for one in curves for other in curves if one < other)
        return next((f"{one} looks like {other}" for one, other in pairs
                     if np.abs(curves[one] - curves[other]).max() < _APART * largest), "")


class CurveRecord(ChoiceRecord):
    """The record side: a letter looked up; on paper the curves are above its box."""

    kind = "curve"

    def place(self):
        return (*_numbers(self["given"]), Curves.of(self["given"], self["options"]),
                Entries((Boxes(self["id"], "a letter", 1),)))


def _numbers(records):
    """The table of the given values that are no curves."""
    return Grid.of_given([one for one in records if isinstance(one["text"], str)])
