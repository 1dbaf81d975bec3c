"""A curve is set by a few points, and judged by what matters: which is larger, the sign, about how large; no pixels."""
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from lessons_lib.base.checks import one_of, positive, refuse
from lessons_lib.base.units import read_unit
from lessons_lib.exercises.entries import entries_text, entry_records
from lessons_lib.exercises.kinds.kind import EntriesRecord, Judgement, OwnOrSame
from lessons_lib.exercises.paper import Grid, Right
from lessons_lib.exercises.parts import Slip, check_fields, check_formula, evaluate
from lessons_lib.exercises.sealing import Scale, digest, scale_within
from lessons_lib.exercises.verdicts import State


@dataclass(frozen=True)
class Compared:
    """Which of two points is higher, or whether they are alike within a share *same* of the larger one.

    A slope is this, of two points along the curve. The *note* asks, whichever of the wrong outcomes it is.

    Examples
    --------
    >>> Compared("neck", "bridge", "Where does the string move more?").outcome({"neck": 3.0, "bridge": 2.9})
    'alike'
    """

    first: str
    other: str
    note: str
    same: float = 0.1

    @property
    def name(self):
        """What is judged, without the answer."""
        return f"{self.first} and {self.other}"

    @property
    def points(self):
        """The points that it looks at."""
        return self.first, self.other

    def outcome(self, values, scale=None):
        """Return in a word how the *values* compare."""
        first, other = values[self.first], values[self.other]
        if abs(first - other) <= self.same * max(abs(first), abs(other)):
            return "alike"
        return "higher" if first > other else "lower"


@dataclass(frozen=True)
class _OfOnePoint:
    point: str
    note: str

    @property
    def points(self):
        """The point that it looks at."""
        return (self.point,)


@dataclass(frozen=True)
class Signed(_OfOnePoint):
    """Whether a point is above zero, below it, or on it: within *zero* of it, in the point's unit."""

    zero: float

    @property
    def name(self):
        """What is judged, without the answer."""
        return f"sign of {self.point}"

    def outcome(self, values, scale=None):
        """Return in a word where the point is."""
        value = values[self.point]
        return "zero" if abs(value) <= self.zero else "above" if value > 0 else "below"


@dataclass(frozen=True)
class Near(_OfOnePoint):
    """Whether a point is right within a *factor*, up and down."""

    factor: float

    @property
    def name(self):
        """What is judged, without the answer."""
        return f"magnitude of {self.point}"

    def outcome(self, values, scale):
        """Return the bin of the point on the *scale* that was made for the right one."""
        return scale.bin(values[self.point])


_FEATURES = {one.__name__: one for one in (Compared, Signed, Near)}


@dataclass(frozen=True, kw_only=True)
class PointsExercise(OwnOrSame):
    """Some points of a curve are set, as numbers.

    Parameters
    ----------
    entries : mapping of name to `Entry`
        2 to 5 points, each a number with its range.
    right : callable
        Of the given values (SI): name -> right value, SI. Only its features count.
    features : tuple of `Compared`, `Signed`, `Near`
        Each an equal share of the marks.
    worked : str
        With ``{points}`` for right ones, and the names of given values.
    given : mapping of name to `Given`
        Left out: the same for all benches.
    derived : mapping of name to `Derived`
    """

    entries: Mapping
    right: Callable
    features: tuple
    kind = right_field = "points"

    def __post_init__(self):
        if not 2 <= len(self.entries) <= 5 or any(one.options or one.count > 1 for one in self.entries.values()):
            refuse("entries", "2 to 5 points, each a number", ", ".join(self.entries))
        for feature in self.features:
            for point in feature.points:
                one_of("a point of a feature", point, self.entries)
            positive(**{name: getattr(feature, name) for name in ("same", "zero", "factor") if hasattr(feature, name)})
        names = [feature.name for feature in self.features]
        if not names or len(set(names)) < len(names):
            refuse("features", "one or more, each once", names)
        check_formula(self.id, self.right, self.shown)
        check_fields(self.id, self.worked, ["points", *self.shown])

    @property
    def slips(self):
        """What may be wrong, by the names of the features, with their notes."""
        return tuple(Slip(feature.name, None, feature.note) for feature in self.features)

    def _right(self, drawn):
        """Right points in their units."""
        right = evaluate(self.right, drawn.si if drawn else {})
        return {name: float(right[name]) / read_unit(entry.unit).factor for name, entry in self.entries.items()}

    def sheet_fields(self, drawn, salt):
        """Return points and features in the open, the outcome of each sealed."""
        right = self._right(drawn)
        return {"entries": entry_records(self.entries), **({"given": drawn.records()} if drawn else {}),
                "features": [self._sealed(feature, right, salt) for feature in self.features]}

    def _sealed(self, feature, right, salt):
        scale = scale_within(right[feature.point], factor=feature.factor) if isinstance(feature, Near) else None
        return {"feature": type(feature).__name__, "fields": dict(vars(feature)),
                **({"scale": {"phase": scale.phase, "tolerance": scale.tolerance}} if scale else {}),
                "right": digest(salt, self.id, feature.name, feature.outcome(right, scale))}

    def model_answer(self, drawn=None):
        return {name: float(f"{value:.4g}") for name, value in self._right(drawn).items()}, None, {}

    def key_value(self, drawn):
        return entries_text(entry_records(self.entries), self.model_answer(drawn)[0])

    def right_on_paper(self, drawn=None):
        """Return given values, right points, and what is judged."""
        right = self._right(drawn)
        rows = tuple((one.name, f"within a factor of {one.factor:g}" if isinstance(one, Near) else one.outcome(right))
                     for one in self.features)
        return (*Grid.of_given(drawn.records() if drawn else ()),
                Right(self.key_value(drawn), before="Right, for example:"), Grid(("judged", "right"), rows))

    def why_refused(self, drawn):
        """Return why a draw is not given out: right points must be in their ranges, and judged right when rounded."""
        right = self._right(drawn)
        for name, entry in self.entries.items():
            if not entry.low <= right[name] <= entry.high:
                return f"{name} is {right[name]:.4g}, outside of {entry.low:g} to {entry.high:g}"
        if any(isinstance(one, Near) and right[one.point] == 0 for one in self.features):
            return "a point is zero that is judged by its magnitude"
        for shift in (0.98, 1.02):      # a hand at a slider is no better than that
            moved = {name: value * (shift if place % 2 else 1 / shift) for place, (name, value) in enumerate(
                right.items())}
            if wrong := next((one.name for one in self.features if not isinstance(one, Near)
                              and one.outcome(moved) != one.outcome(right)), ""):
                return f"{wrong} can hardly be decided"
        return ""


class PointsRecord(EntriesRecord):
    """The record side: the outcome of each feature is looked up."""

    kind = "points"
    on_paper = "What counts is which is larger, its sign, and about how large."

    def read(self, value):
        """Return points as plain data, from a mapping or from a list in their order; ValueError with a sentence."""
        if isinstance(value, (list, tuple)) and len(value) == len(self["entries"]):
            value = dict(zip(self["entries"], value))
        if not isinstance(value, Mapping):
            raise ValueError(f"write {len(self['entries'])} numbers in square brackets: {', '.join(self['entries'])}")
        return super().read(value)

    def judge(self, value, unit=None, readings=None):
        values, outcomes, wrong = self.read(value), [], []
        for sealed in self["features"]:
            feature = _FEATURES[sealed["feature"]](**sealed["fields"])
            scale = Scale(absolute=False, **sealed["scale"]) if "scale" in sealed else None
            outcomes.append(feature.outcome(values, scale))
            if digest(self["salt"], self["id"], feature.name, outcomes[-1]) != sealed["right"]:
                wrong.append(feature)
        count, good = len(outcomes), len(outcomes) - len(wrong)
        about = {"try_name": ", ".join(outcomes), "entry": {"value": values}}
        if not wrong:
            return Judgement(state=State.RIGHT, text=f"All that counts is right: {self.text(values)}.", **about)
        return Judgement(state=State.NOT_YET, text=f"{good} of {count} things that count are right. {wrong[0].note}",
                         share=good / count, how=f"{good} of {count} features right",
                         slips=tuple(feature.name for feature in wrong), **about)
