"""A design is asked: computed by a named model, each limit met or not, by how much, and what moves it."""
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from lessons_lib.base.checks import one_of, refuse
from lessons_lib.base.units import read_unit, said, with_unit
from lessons_lib.exercises.entries import entries_text, entry_records, in_si
from lessons_lib.exercises.kinds.kind import EntriesRecord, Judgement, WithGiven
from lessons_lib.exercises.models import HOMES, model, why
from lessons_lib.exercises.paper import Grid, Right
from lessons_lib.exercises.parts import check_fields, check_formula
from lessons_lib.exercises.verdicts import State

_ROUNDING = 1e-6   # a share: another machine's last digits turn no design away


@dataclass(frozen=True, kw_only=True)
class Limit:
    """A limit on one *quantity* of the model's report.

    Parameters
    ----------
    quantity : str
        A name in the report.
    label : str
        "resonance with the cable".
    least, most : str or None
        Names of the exercise's shown values: the bounds; one may be missing.
    too_low, too_high : str
        What is said there: which chosen things move the quantity, and which way. Nothing where there is no such bound.
    """

    quantity: str
    label: str
    least: str | None = None
    most: str | None = None
    too_low: str = ""
    too_high: str = ""

    def __post_init__(self):
        if not (self.least or self.most):
            refuse("least or most", "the name of a shown value", None)
        for bound, advice in ((self.least, self.too_low), (self.most, self.too_high)):
            if bool(bound) != bool(advice):
                refuse(f"what is said of {self.label}", "a text for each bound and for no other", advice)


@dataclass(frozen=True, kw_only=True)
class Finding:
    """How one limit is met: *value*, *least* and *most* in *unit*; *too_low* and *too_high* are said there."""

    quantity: str
    label: str
    unit: str
    factor: float
    value: float
    least: float | None
    most: float | None
    too_low: str
    too_high: str

    @property
    def miss(self):
        """How far outside of the bounds, in the unit: above 0 where it is too high, 0 where the limit is met."""
        for bound, sign in ((self.least, -1), (self.most, 1)):
            if bound is not None and sign * (self.value - bound) > _ROUNDING * abs(bound):
                return self.value - bound
        return 0.0

    @property
    def met(self):
        """Whether the limit is met."""
        return self.miss == 0

    def words(self):
        """The limit in one line: met or not, by how much, what is asked."""
        return f"{self.label}: {self.outcome()}"

    def outcome(self):
        """The same without the label."""
        value = with_unit(f"{self.value:.3g}", self.unit)
        if self.met:
            return f"{value}, met ({self.asked()})"
        side, bound = ("low", self.least) if self.miss < 0 else ("high", self.most)
        if read_unit(self.unit).absolute:
            amount = with_unit(f"{abs(self.miss):.2g}", self.unit)
        else:
            share = abs(self.miss / bound)
            amount = f"{max(100 * share, 0.1):.2g} %" if share < 1 else f"{share + 1:.2g} times"
        return f"{value}, {amount} too {side} ({self.asked()})"

    def asked(self):
        """What is asked, in words: "4.5 to 5.2 kHz"."""
        least, most = (None if bound is None else f"{bound:g}" for bound in (self.least, self.most))
        if least and most:
            return with_unit(f"{least} to {most}", self.unit)
        return with_unit(f"at least {least}" if least else f"at most {most}", self.unit)


def findings(limits, report):
    """Return a `Finding` for each limit of a sheet's record, from the model's report."""
    return [Finding(**limit, value=float(getattr(report, limit["quantity"])) / limit["factor"]) for limit in limits]


@dataclass(frozen=True, kw_only=True)
class DesignExercise(WithGiven):
    """A design is asked that meets limits; the limits are a bench's own and public, nothing is sealed.

    Parameters
    ----------
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

    entries: Mapping
    model: str
    parts: str
    limits: tuple
    derived: Mapping = field()
    hidden: Mapping = field()
    known: Callable
    kind = "design"
    right_field = "design"
    is_drawn = True

    def __post_init__(self):
        one_of("model", self.model, HOMES)
        one_of("parts", self.parts, HOMES)
        for limit in self.limits:
            for name in filter(None, (limit.least, limit.most)):
                one_of(f"bound of {limit.quantity}", name, self.shown)
        for formula in (self.known, *(derived.formula for derived in self.derived.values())):
            check_formula(self.id, formula, [*self.given, *self.hidden])
        check_fields(self.id, self.worked, [*self.shown, "design"])

    def why_refused(self, drawn):
        """Return which limit the known design of a draw misses, or an empty text."""
        found = self.findings(self.sheet_fields(drawn, ""), drawn.known_design)
        return next((f"the known design misses a limit, {one.words()}" for one in found if not one.met), "")

    def sheet_fields(self, drawn, salt):
        """Return entries, limits and advice: all in the open."""
        return {"given": drawn.records(), "model": self.model, "parts": self.parts,
                "entries": entry_records(self.entries), "limits": [self._limit(limit, drawn) for limit in self.limits]}

    def _limit(self, limit, drawn):
        bounds = {side: drawn.shown[name] if (name := getattr(limit, side)) else None for side in ("least", "most")}
        unit = self.shown[limit.least or limit.most].unit
        return {"quantity": limit.quantity, "label": limit.label, "unit": unit, "factor": read_unit(unit).factor,
                **bounds, "too_low": limit.too_low, "too_high": limit.too_high}

    def findings(self, fields, design):
        """Return what a sheet's *fields* of this exercise find in a design."""
        return DesignRecord(fields).findings(design)

    def model_answer(self, drawn=None):
        return drawn.known_design, None, {}

    def key_value(self, drawn):
        """Return the known design of a bench as one line."""
        return entries_text(entry_records(self.entries), drawn.known_design)

    def right_on_paper(self, drawn=None):
        """Return the bounds, and the known design with how it meets each limit."""
        found = self.findings(self.sheet_fields(drawn, ""), drawn.known_design)
        return (*Grid.of_given(drawn.records()),
                Right(self.key_value(drawn), before="One design that meets all limits:"),
                Grid(("limits, with that design",), tuple((one.words(),) for one in found)))

    def right_for_all(self):
        return "any design within the limits"

    def faults_of(self, drawn):
        if not self.worked_answer(drawn).strip():
            yield f"{self.id}: a worked text is empty."


class DesignRecord(EntriesRecord):
    """The record side: a named model computes what a design gives, and each limit is met or not."""

    kind = "design"
    is_computed = True
    on_paper = "Your design is computed on the page itself."

    def findings(self, design):
        """Return a `Finding` for each limit; ValueError where the model says that such a thing cannot be built."""
        design = self.read(design)
        try:
            report = model(self["model"])(**in_si(self["entries"], design))
        except Exception as error:      # whatever a design does to the model, page and marking go on
            raise ValueError(f"this design cannot be computed: {why(error)}") from None
        return findings(self["limits"], report)

    def judge(self, value, unit=None, readings=None):
        design = self.read(value)
        found = self.findings(design)
        met, missed = [one for one in found if one.met], [one for one in found if not one.met]
        head = f"{len(met)} of {len(found)} limits are met." if missed else f"All {len(met)} limits are met."
        lines = [head, *(f"{one.words()}. {one.too_low if one.miss < 0 else one.too_high}" for one in missed),
                 *(f"{one.words()}." for one in met)]
        share = len(met) / len(found)
        return Judgement(state=State.NOT_YET if missed else State.RIGHT, text="\n".join(lines), share=share,
                         how=f"{said(share, '%', '.0f')} of the limits met", try_name=self.text(design),
                         entry={"value": design})

    def parts_rows(self, design):
        """Return (part, how much) of a read design, in words."""
        return tuple(model(self["parts"])(**in_si(self["entries"], design)))
