"""A number is asked: given values of each bench's own, the right bin sealed, a note for each slip."""
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from lessons_lib.base.checks import positive, refuse
from lessons_lib.base.units import read_unit, said, shown_unit, with_unit
from lessons_lib.exercises import reading
from lessons_lib.exercises.common_slips import check_common
from lessons_lib.exercises.draws import twin_of
from lessons_lib.exercises.kinds.kind import Judgement, Marked, Record
from lessons_lib.exercises.paper import Box, Grid, Right, Working
from lessons_lib.exercises.parts import Twin, check_fields, check_formula, check_unit, evaluate, text_fields
from lessons_lib.exercises.sealing import (
    APART,
    RIGHT,
    Scale,
    digest,
    notes_by_bin,
    scale_for,
    sealed_notes,
    slips_by_bin,
)
from lessons_lib.exercises.verdicts import State

_NEAR_MISS = 0.1     # within a tenth of the right value: a near miss


@dataclass(frozen=True, kw_only=True)
class NumberExercise(Marked):
    """One number is asked.

    Parameters
    ----------
    given : mapping of name to `Given`
    unit : str
        The asked unit. In decibel and cent the tolerance is absolute, else relative.
    tolerance : float
    size : (float, float)
        Where every bench's answer lies, in the asked unit.
    answer : callable
        Of shown values, SI in and SI out.
    notes : (str, str)
        Where to look; which principle.
    twin : Twin
        The third note.
    worked : str
        The worked answer, with ``{name}`` fields as in a twin.
    hidden : mapping of name to `Given`
        Drawn and not shown; only derived values and the fuller model see them.
    derived : mapping of name to `Derived`
    slips : tuple of `Slip`
    common : tuple of str
        Names from `COMMON_SLIPS`, tried after the own slips.
    steps : mapping of name to `Step`
    fuller : callable or None
        A fuller model, hidden values allowed: what it gives must never be marked wrong.
    not_in : tuple of str
        Units that are not taken, where changing the unit is the exercise.
    follows : NumberExercise or None
        The exercise before, on whose result this one builds. Its given values are shown here again, with the same
        numbers, and formulas may name ``earlier``: its answer in SI.
    """

    given: Mapping = field()
    unit: str = field()
    tolerance: float = field()
    size: tuple
    answer: Callable
    notes: tuple
    twin: Twin
    hidden: Mapping = field(default_factory=dict)
    derived: Mapping = field(default_factory=dict)
    slips: tuple = ()
    common: tuple = ()
    steps: Mapping = field(default_factory=dict)
    fuller: Callable | None = None
    not_in: tuple = ()
    follows: "NumberExercise | None" = None
    kind = "number"
    is_drawn = is_in_key = True

    def __post_init__(self):
        check_unit(self.unit)
        self._check_tolerance()
        if not self.size[0] < self.size[1]:
            refuse("size", "(low, high) with low below high", self.size)
        if len(self.notes) != 2:
            refuse("notes", "two texts: where to look, which principle", self.notes)
        check_common(self.common)
        known = {*self.shown, *(["earlier"] if self.follows else [])}
        for formula in (self.answer, *(slip.formula for slip in self.slips), *(s.formula for s in self.steps.values())):
            check_formula(self.id, formula, sorted(known))
        for formula in (*(d.formula for d in self.derived.values()), *filter(None, [self.fuller])):
            check_formula(self.id, formula, sorted({*self.shown, *self.hidden}))
        for text in (self.worked, self.twin.text):
            check_fields(self.id, text, sorted({*known, *self.steps, "answer"}))
        if self.twin.given == {} and text_fields(self.twin.text):
            refuse(f"the twin's text of exercise {self.id}", "without fields where it has no values", self.twin.text)
        if self.twin.given and set(self.twin.given) != set(self.shown):
            refuse(f"the twin's given values of exercise {self.id}", ", ".join(self.shown), sorted(self.twin.given))

    def _check_tolerance(self):
        positive(tolerance=self.tolerance)

    @property
    def shown(self):
        """Name to declaration of every value the student sees, in the order of the table."""
        return {**(self.follows.shown if self.follows else {}), **self.given, **self.derived}

    # ---- what a bench is given ----

    def why_refused(self, drawn):
        right, (low, high) = drawn.answer, self.size
        if not math.isfinite(right) or (right == 0 and not read_unit(self.unit).absolute):
            return f"the answer is {right:g}"
        if not low <= right <= high:
            return f"the answer {right:.4g} {self.unit} is outside of {low:g} to {high:g}"
        for name, number in (*((name, number) for name, number, _ in drawn.slips),
                             *([("worked twin", twin_of(self).answer)] if self.twin.given else [])):
            if not math.isfinite(number):
                return f"{name} gives {number:g}"
            if drawn.scale.distance(number, right) < APART:
                return f"{name} gives {number:.4g}, within twice the tolerance of the answer {right:.4g}"
        return ""

    def sheet_fields(self, drawn, salt):
        """Return the given values in the open, the right bin and those of the slips sealed."""
        scale = drawn.scale
        # values that were given out before a slip was written may lie too near to it: that bench goes without the slip
        named = notes_by_bin(scale, drawn.answer, *drawn.told_slips())
        notes, sealed = sealed_notes(self.id, salt, "number", named)
        return {
            "given": drawn.records(),
            "unit": self.unit, "size": list(self.size),
            "tolerance": scale.tolerance, "absolute": scale.absolute, "phase": scale.phase,
            "sealed": sealed, "slip_notes": notes,
            "notes": [*self.notes, self.worked_twin],
            **({"not_in": list(self.not_in)} if self.not_in else {}),
            **({"follows": self.follows.id} if self.follows else {})}

    @property
    def worked_twin(self):
        """The twin's text with its own numbers; as it is where it has none."""
        return self.filled(self.twin.text, twin_of(self)) if self.twin.given else self.twin.text

    def scale_of(self, right):
        """Return the `Scale` with the *right* number in the middle of a bin."""
        return scale_for(right, tolerance=self.tolerance, absolute=read_unit(self.unit).absolute)

    def rounded(self, number):
        """Return a number in the asked unit with as many figures as it is said with."""
        return f"{number:.4g}"

    def said(self, number):
        """Return a number in the asked unit as it is said."""
        return with_unit(self.rounded(number), self.unit)

    def filled(self, text, drawn):
        """Return *text* with its ``{name}`` fields filled in from the values of *drawn*."""
        fields = drawn.texts()
        for name, step in self.steps.items():
            fields[name] = said(evaluate(step.formula, drawn.si), step.unit, ".4g")
        if self.follows:
            fields["earlier"] = said(drawn.si["earlier"], self.follows.unit, ".4g")
        return text.format(**fields, answer=self.said(drawn.answer))

    # ---- what is right ----

    def worked_answer(self, drawn=None):
        return self.filled(self.worked, drawn)

    def model_answer(self, drawn=None):
        """Return what is right for the bench, with five figures."""
        return float(f"{drawn.answer:.5g}"), self.unit, {}

    def right_on_paper(self, drawn=None):
        """Return given values, the right one, and what each slip gives."""
        earns = {slip.name: f"{slip.marks:g}" for slip in self.slips if slip.marks}
        head = ("slip", "gives", "earns") if earns else ("slip", "gives")
        slips = tuple((name, self.said(number), earns.get(name, "0"))[:len(head)] for name, number, _ in drawn.slips)
        return *Grid.of_given(drawn.records()), Right(self.said(drawn.answer)), *Grid.where_any(head, slips)

    def key_value(self, drawn):
        return with_unit(self.rounded(drawn.answer), "")

    def slips_by_try(self, drawn):
        """Return bin -> names of the slips that lead there."""
        return {one: names for one, (names, _) in slips_by_bin(drawn.scale, *drawn.told_slips()).items()}

    def typed(self, judged):
        """Return the number of a judged answer, in the asked unit."""
        return reading.into(judged.entry["value"], judged.entry["unit"], self.unit)

    def value_words(self, judged, drawn):
        """Return how a number lies to the right one, in two figures."""
        typed, right = self.typed(judged), drawn.answer
        if read_unit(self.unit).absolute:
            return with_unit(f"{typed - right:+.2g}", self.unit) + " from the right value"
        share = typed / right
        if abs(share - 1) <= _NEAR_MISS:
            return "near miss, within 10 %"
        times = with_unit(f"{float(f'{share:.2g}'):g}", "")
        return f"{times} × the right value"

    def faults_of(self, drawn):
        """Yield where an answer or a slip is not told as declared, each fault one sentence."""
        scale, right, where = drawn.scale, drawn.answer, f"{self.id} with {drawn.shown}"
        if scale.distance(from_print := drawn.as_printed().answer, right) > 0.5:
            yield f"{where}: the printed values lead to {from_print:.5g}, not to {right:.5g}."
        if self.fuller and not scale.is_right(drawn.fuller_answer, right):
            yield f"{where}: the fuller model gives {drawn.fuller_answer:.4g}, which would not be right by {right:.4g}."
        named = notes_by_bin(scale, right, drawn.own_slips, drawn.common_slips)
        for _, number, note in drawn.own_slips:
            read = named[scale.bin(number)]
            if read == RIGHT or note not in read:
                yield f"{where}: the slip of {number:.4g} is not told."
        for text in (self.filled(self.worked, drawn), self.worked_twin):
            if not text.strip():
                yield f"{where}: a worked text is empty."


class NumberRecord(Record):
    """The record side: a bin looked up among the sealed ones."""

    kind = "number"
    open_fields = ("given", "unit", "not_in", "follows")
    most_figures, figures_enough = 5, "Three or four figures are enough: the given values carry no more."

    def read(self, value, unit=None, readings=None):
        typed = reading.read_number(value)
        reading.read_number(reading.into(typed, unit, self["unit"]))
        unit = (unit or "").strip() or self["unit"]
        if unit in self.get("not_in", ()):
            raise ValueError(f"give the answer in {shown_unit(self['unit'])} here, not in {unit}: "
                             "changing the unit is the exercise")
        return {"value": typed, "unit": unit}

    def judge(self, value, unit=None, readings=None):
        entry, (low, high) = self.read(value, unit, readings), self["size"]
        number = reading.into(entry["value"], entry["unit"], self["unit"])
        name = Scale(tolerance=self["tolerance"], absolute=self["absolute"], phase=self["phase"]).bin(number)
        said = self["sealed"].get(digest(self["salt"], self["id"], "number", name))
        about = {"try_name": name, "entry": entry}
        if said == RIGHT:
            enough = f" {self.figures_enough}" if reading.figures(entry["value"]) > self.most_figures else ""
            return Judgement(state=State.RIGHT, text=f"{self.right_words()}{enough}", **about)
        if said is not None:
            return Judgement(state=State.NOT_YET, text=self["slip_notes"][said], **about)
        if low <= number <= high or low <= -number <= high:     # a wrong sign alone is no matter of units
            return Judgement(state=State.NOT_YET, text="", unmatched=True, **about)
        if read_unit(self["unit"]).dimension == "a plain number":
            where = "Which quantity goes on top of the fraction, and which below?"
        else:
            where = f"Look at the units first: {reading.asked_words(self['unit'])}."
        return Judgement(state=State.FAR, text=f"No one's numbers lead to an answer like this. {where}", **about)

    def right_words(self):
        """Return what is said of a right answer."""
        within = (with_unit(f"{self['tolerance']:g}", self["unit"]) if self["absolute"] else
                  f"{100 * self['tolerance']:g} %")
        return f"Within {within} of what your given values lead to."

    def place(self):
        return Working(), Box(self["id"], shown_unit(self["unit"]))

    def shown(self, entry):
        return with_unit(f"{entry['value']:.6g}", entry["unit"])
