"""An order of magnitude is asked, with the reason in one line: right within a factor that the exercise says."""
import math
from collections.abc import Mapping
from dataclasses import dataclass, field

from lessons_lib.base.checks import finite, refuse
from lessons_lib.base.units import read_unit, shown_unit
from lessons_lib.exercises import reading
from lessons_lib.exercises.kinds.number import NumberExercise, NumberRecord
from lessons_lib.exercises.paper import Box, Lines, Right
from lessons_lib.exercises.sealing import scale_within

_LEAST_WORDS = 3


@dataclass(frozen=True, kw_only=True)
class EstimateExercise(NumberExercise):
    """A rough number is asked, and how one gets there.

    Parameters
    ----------
    factor : float
        How far off a right answer may be, up and down: 3 or 10; the page says it.
    because : str
        A reason in one line, as a student might give it.
    **others
        As of `NumberExercise`, but for a tolerance. *given* may be left out: then all benches are asked the same, and
        the third note is a text without numbers, ``Twin({}, "...")``. A slip must be off by the square of the factor.
    """

    factor: float
    because: str
    given: Mapping = field(default_factory=dict)
    tolerance: None = field(default=None, init=False)
    kind = "estimate"

    def __post_init__(self):
        super().__post_init__()
        if read_unit(self.unit).absolute:
            refuse("unit", "one whose numbers can be off by a factor", self.unit)
        if self.follows:
            refuse("follows", "None: an estimate begins anew", self.follows.id)
        _read_reason({"because": self.because})

    def _check_tolerance(self):
        finite(factor=self.factor)
        if not 1 < self.factor <= 1000:
            refuse("factor", "above 1 and at most 1000", self.factor)

    def scale_of(self, right):
        """Return the `Scale` with the right number in the middle of a bin, as wide as the factor says."""
        return scale_within(right, factor=self.factor)

    def sheet_fields(self, drawn, salt):
        """Return what a number has, and the factor."""
        return {**super().sheet_fields(drawn, salt), "factor": self.factor}

    def rounded(self, number):
        """Return an estimate with two figures."""
        return f"{float(f'{number:.2g}'):g}"

    def model_answer(self, drawn=None):
        """Return the bench's number with two figures, and the reason."""
        return float(f"{drawn.answer:.2g}"), self.unit, {"because": self.because}

    def right_on_paper(self, drawn=None):
        """Return what a number has, with the factor and the reason."""
        return *super().right_on_paper(drawn), Right(f"{self.factor:g}", before="Right within a factor of",
                                                     after=f". A reason: {self.because}")

    def value_words(self, judged, drawn):
        """Return how far off an estimate is, as a power of ten."""
        share = self.typed(judged) / drawn.answer
        if share <= 0:
            return "zero, or another sign"
        return f"about {10.0 ** round(math.log10(share)):g} × the right value"


def _read_reason(readings):
    """What stands behind ``because=``, as one line; ValueError with a sentence where it says nothing."""
    if not isinstance(readings, Mapping) or set(readings) != {"because"}:
        raise ValueError('say in one line how you got there: because="..." and nothing else behind the unit')
    line = reading.read_line(readings["because"])
    if reading.words(line) < _LEAST_WORDS:
        raise ValueError("say in a few words more how you got there, behind because=")
    return line


class EstimateRecord(NumberRecord):
    """The record side: a number looked up in wide bins, its reason kept for a person to read."""

    kind = "estimate"
    takes_readings = True
    beside = "because= before the reason"
    blank_readings = {"because": '"..."'}
    most_figures, figures_enough = 2, "One figure, or two, is enough for an estimate."

    def read(self, value, unit=None, readings=None):
        return {**super().read(value, unit), "readings": {"because": _read_reason(readings)}}

    def right_words(self):
        return f"Within a factor of {self['factor']:g}. Is the reason one that another could follow?"

    def place(self):
        return Box(self["id"], shown_unit(self["unit"])), Lines(2)

    def shown(self, entry):
        return f"{super().shown(entry)}, because {entry['readings']['because']}"
