"""What an exercise is made of: drawn and derived values, slips, steps on the way, the worked twin, signals."""
import inspect
import math
import string
from collections.abc import Callable, Mapping
from dataclasses import KW_ONLY, dataclass
from decimal import Decimal
from functools import lru_cache

from lessons_lib.base.checks import one_of, positive, refuse
from lessons_lib.base.units import read_unit
from lessons_lib.exercises.functions import READERS


def check_unit(unit):
    """Refuse a unit that the table of units does not have."""
    try:
        read_unit(unit)
    except ValueError:
        refuse("unit", "one of the spellings of the table in units.py", unit)


@dataclass(frozen=True)
class Given:
    """A drawn value: from *low* to *high* in steps of *step*, all in the shown *unit*.

    Examples
    --------
    >>> Given("width of the window", unit="mm", low=8, high=10, step=0.5).decimals
    1
    """

    label: str
    _: KW_ONLY
    unit: str
    low: float
    high: float
    step: float

    def __post_init__(self):
        check_unit(self.unit)
        positive(step=self.step)
        if not self.low <= self.high < math.inf:
            refuse("high", "a finite number, low or above", self.high)

    @property
    def decimals(self):
        """Decimals that the step needs."""
        return max(0, -Decimal(str(self.step)).normalize().as_tuple().exponent)

    @property
    def choices(self):
        """How many values there are to draw from."""
        return math.floor((self.high - self.low) / self.step + 1e-9) + 1


@dataclass(frozen=True)
class Derived:
    """A shown value computed from the drawn ones and rounded to *decimals* in the shown *unit*.

    Where *formula* returns a sequence, it is a column of the exercise's table; all columns have one length.
    """

    label: str
    _: KW_ONLY
    unit: str
    decimals: int
    formula: Callable

    def __post_init__(self):
        check_unit(self.unit)


@dataclass(frozen=True)
class Slip:
    """A wrong formula that students really use, on the same values, and the note read after it.

    The formula returns SI like the answer. Where the slip is to give another quantity, it returns what the typed number
    means in the asked unit: 0.06 for "0.06 T" where uWb is asked is ``field * 1e-6``. *marks* are what the steps earn
    that were right all the same; a course may say otherwise.
    """

    name: str
    formula: Callable
    note: str
    marks: float = 0.0


@dataclass(frozen=True)
class Step:
    """A value on the way, which the worked texts may name: shown in *unit*."""

    unit: str
    formula: Callable

    def __post_init__(self):
        check_unit(self.unit)


@dataclass(frozen=True)
class Twin:
    """The same question with other numbers, worked: *given* in the shown units, *text* with ``{name}`` fields.

    The fields are the given values, the steps and ``answer``: the numbers in the text are computed, never typed.
    """

    given: Mapping
    text: str


@dataclass(frozen=True, kw_only=True)
class Signal:
    """What a student's function is called with, *values* and *time* in SI; *label* is "the sine"."""

    label: str
    values: tuple
    time: tuple

    def __post_init__(self):
        if len(self.values) != len(self.time):
            refuse("values", f"as many as instants, {len(self.time)}", len(self.values))


@dataclass(frozen=True, kw_only=True)
class ReadOff:
    """One number read off a function's result on a *signal*: a part of the answer, in *unit*.

    *read* is a name of `READERS`; *between* (s) the part of the time that is looked at, None for all of it.
    """

    label: str
    signal: str
    read: str
    unit: str
    between: tuple | None = None

    def __post_init__(self):
        check_unit(self.unit)
        one_of("read", self.read, READERS)


@lru_cache(maxsize=10_000)
def parameters(formula):
    """Return the names of the arguments of *formula*."""
    return tuple(inspect.signature(formula).parameters)


def evaluate(formula, values):
    """Call *formula* with those of the named *values* (SI) that it asks for."""
    return formula(**{name: values[name] for name in parameters(formula)})


def text_fields(text):
    """Return the names of the ``{name}`` fields of *text*."""
    return {name for _, name, _, _ in string.Formatter().parse(text) if name is not None}


def check_formula(exercise_id, formula, names):
    """Refuse a formula that asks for something that is none of the *names*."""
    for name in parameters(formula):
        if name not in names:
            refuse(f"an argument in a formula of exercise {exercise_id}", f"one of {', '.join(names)}", name)


def check_fields(exercise_id, text, names):
    """Refuse a text with a field that is none of the *names*."""
    if unknown := text_fields(text) - set(names):
        refuse(f"a field in a text of exercise {exercise_id}", f"one of {', '.join(names)}", min(unknown))


def check_notes(notes):
    """Refuse general notes that are not three."""
    if len(notes) != 3:
        refuse("notes", "three texts: where to look, which principle, a worked twin", notes)


def check_letters(name, options, mapping):
    """Refuse options that are no letters, or texts that are not one for each."""
    for letter in options:
        if not (len(letter) == 1 and letter.islower()):
            refuse("an option's letter", "one small letter", letter)
    if set(mapping) != set(options):
        refuse(name, f"one text for each of the options {', '.join(options)}", sorted(mapping))


def value_text(value, declared):
    """Return a shown value as it is printed, a list of texts for a column."""
    if isinstance(value, (list, tuple)):
        return [value_text(one, declared) for one in value]
    return f"{value:.{declared.decimals}f}"
