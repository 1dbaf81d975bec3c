"""A design against its limits: computed by a named model, each limit met or not, by how much, and what moves it."""
from dataclasses import dataclass

from lessons_lib.base.checks import refuse
from lessons_lib.base.units import read_unit, with_unit
from lessons_lib.exercises.entries import entries_text, entry_records, in_si, read_entries
from lessons_lib.exercises.models import model, why

_SLACK = 1e-6   # a share: another machine's last digits turn no design away


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
    value: float
    least: float | None
    most: float | None
    too_low: str
    too_high: str

    @property
    def miss(self):
        """How far outside of the bounds, in the unit: above 0 where it is too high, 0 where the limit is met."""
        for bound, sign in ((self.least, -1), (self.most, 1)):
            if bound is not None and sign * (self.value - bound) > _SLACK * abs(bound):
                return self.value - bound
        return 0.0

    @property
    def met(self):
        """Whether the limit is met."""
        return self.miss == 0

    @property
    def advice(self):
        """What moves the quantity, where the limit is not met."""
        return "" if self.met else self.too_low if self.miss < 0 else self.too_high

    def words(self):
        """The limit in one line: met or not, by how much, what is asked."""
        return f"{self.label}: {self.outcome()}"

    def outcome(self):
        """The same without the label."""
        value = with_unit(f"{self.value:.3g}", self.unit)
        if self.met:
            return f"{value}, met ({self._asked()})"
        return f"{value}, {self._amount()} too {'low' if self.miss < 0 else 'high'} ({self._asked()})"

    def _amount(self):
        if read_unit(self.unit).absolute:
            return with_unit(f"{abs(self.miss):.2g}", self.unit)
        share = abs(self.miss / (self.least if self.miss < 0 else self.most))
        return f"{max(100 * share, 0.1):.2g} %" if share < 1 else f"{share + 1:.2g} times"

    def _asked(self):
        least, most = (None if bound is None else f"{bound:g}" for bound in (self.least, self.most))
        if least and most:
            return with_unit(f"{least} to {most}", self.unit)
        return with_unit(f"at least {least}" if least else f"at most {most}", self.unit)


def design_fields(exercise, drawn):
    """Return what a sheet holds of a `DesignExercise`, beside its given values: all in the open."""
    return {"model": exercise.model, "parts": exercise.parts, "entries": entry_records(exercise.entries),
            "limits": [_limit_record(exercise, limit, drawn) for limit in exercise.limits]}


def _limit_record(exercise, limit, drawn):
    bounds = {side: drawn.shown[name] if (name := getattr(limit, side)) else None for side in ("least", "most")}
    unit = exercise.shown[limit.least or limit.most].unit
    return {"quantity": limit.quantity, "label": limit.label, "unit": unit, "factor": read_unit(unit).factor, **bounds,
            "too_low": limit.too_low, "too_high": limit.too_high}


def read_design(record, value):
    """Return a student's design as plain data; ValueError with a sentence."""
    return read_entries(record["entries"], value)


def computed(record, design):
    """Return the model's report on a read design.

    Raises
    ------
    ValueError
        Where the model says that such a thing cannot be built or computed.
    """
    try:
        return model(record["model"])(**in_si(record["entries"], design))
    except Exception as error:      # whatever a design does to the model, page and marking go on
        raise ValueError(f"this design cannot be computed: {why(error)}") from None


def findings(limits, report):
    """Return a `Finding` for each limit of a sheet's record, from the model's report."""
    kept = ("quantity", "label", "unit", "least", "most", "too_low", "too_high")
    return [Finding(value=float(getattr(report, limit["quantity"])) / limit["factor"],
                    **{name: limit[name] for name in kept}) for limit in limits]


def findings_text(found):
    """Return the findings as lines: how many are met, the others with what moves them, then those that are met."""
    met = sum(one.met for one in found)
    head = f"All {met} limits are met." if met == len(found) else f"{met} of {len(found)} limits are met."
    return "\n".join([head, *(f"{one.words()}. {one.advice}" for one in found if not one.met),
                      *(f"{one.words()}." for one in found if one.met)])


def design_text(record, design):
    """Return a kept design as one line."""
    return entries_text(record["entries"], design)


def parts_rows(record, design):
    """Return (part, how much) of a read design, in words."""
    return tuple(model(record["parts"])(**in_si(record["entries"], design)))
