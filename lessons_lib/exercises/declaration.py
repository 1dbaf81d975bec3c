"""How an exercise is declared: the records that ``answers/lesson_NN.py`` fills in, once for each exercise.

Numbers of a declaration (ranges, steps, size, tolerance of a level) are in the unit shown to the student. Functions of
a declaration (answer, slips, steps, derived values) get the rounded given values in SI as keyword arguments, each only
those it names, and return SI: the formula in the code is the formula of the text.
"""
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

import numpy as np

from lessons_lib.base.checks import one_of, positive, refuse
from lessons_lib.base.units import read_unit
from lessons_lib.exercises.bench_kinds import DesignExercise, MeasuredExercise
from lessons_lib.exercises.common_slips import COMMON_SLIPS
from lessons_lib.exercises.designs import Limit
from lessons_lib.exercises.entries import Entry
from lessons_lib.exercises.functions import read_off
from lessons_lib.exercises.measured import FitSlip
from lessons_lib.exercises.parts import (
    Derived,
    Given,
    ReadOff,
    Signal,
    Slip,
    Step,
    Twin,
    check_unit,
    evaluate,
    parameters,
    text_fields,
)

__all__ = ["ChoiceExercise", "Derived", "DesignExercise", "Entry", "FitSlip", "FunctionExercise", "Given", "Lesson",
           "Limit", "MeasuredExercise", "NumberExercise", "PredictionExercise", "ReadOff", "Signal", "Slip", "Step",
           "TextExercise", "Twin", "evaluate", "parameters"]

DRAWN = ("number", "design")    # kinds with values of each bench's own


def _check_letters(name, options, mapping):
    for letter in options:
        if not (len(letter) == 1 and letter.islower()):
            refuse("an option's letter", "one small letter", letter)
    if set(mapping) != set(options):
        refuse(name, f"one text for each of the options {', '.join(options)}", sorted(mapping))


@dataclass(frozen=True, kw_only=True)
class NumberExercise:
    """One number is asked.

    Parameters
    ----------
    id : str
        "1.1".
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
    marks : int
    teaching_note : str
        For the instructor.
    """

    id: str
    given: Mapping
    unit: str
    tolerance: float
    size: tuple
    answer: Callable
    notes: tuple
    twin: Twin
    worked: str
    hidden: Mapping = field(default_factory=dict)
    derived: Mapping = field(default_factory=dict)
    slips: tuple = ()
    common: tuple = ()
    steps: Mapping = field(default_factory=dict)
    fuller: Callable | None = None
    not_in: tuple = ()
    follows: "NumberExercise | None" = None
    marks: int = 1
    teaching_note: str = ""
    kind = "number"

    def __post_init__(self):
        check_unit(self.unit)
        positive(tolerance=self.tolerance)
        if not self.size[0] < self.size[1]:
            refuse("size", "(low, high) with low below high", self.size)
        if len(self.notes) != 2:
            refuse("notes", "two texts: where to look, which principle", self.notes)
        for name in self.common:
            one_of("common", name, COMMON_SLIPS)
        self._check_formulas()
        self._check_texts()

    def _check_formulas(self):
        for formula in (self.answer, *(slip.formula for slip in self.slips), *(s.formula for s in self.steps.values())):
            self._known(formula, {*self.shown, *self._earlier})
        for formula in (*(d.formula for d in self.derived.values()), *filter(None, [self.fuller])):
            self._known(formula, {*self.shown, *self.hidden})

    def _known(self, formula, names):
        for name in parameters(formula):
            if name not in names:
                refuse(f"an argument in a formula of exercise {self.id}", f"one of {', '.join(sorted(names))}", name)

    def _check_texts(self):
        names = {*self.shown, *self.steps, *self._earlier, "answer"}
        for text in (self.worked, self.twin.text):
            if unknown := text_fields(text) - names:
                refuse(f"a field in a text of exercise {self.id}", f"one of {', '.join(sorted(names))}", min(unknown))
        if set(self.twin.given) != set(self.shown):
            refuse(f"the twin's given values of exercise {self.id}", ", ".join(self.shown), sorted(self.twin.given))

    @property
    def shown(self):
        """Name to declaration of every value the student sees, in the order of the table."""
        return {**(self.follows.shown if self.follows else {}), **self.given, **self.derived}

    @property
    def _earlier(self):
        return ["earlier"] if self.follows else []


@dataclass(frozen=True, kw_only=True)
class ChoiceExercise:
    """One letter is asked; *notes* holds a sentence for each option, the right one too.

    A *quick* question is answered at once from memory, logged and never marked.
    """

    id: str
    options: Mapping
    right: str
    notes: Mapping
    worked: str = ""
    quick: bool = False
    marks: int = 1
    teaching_note: str = ""
    kind = "choice"

    def __post_init__(self):
        one_of("right", self.right, self.options)
        _check_letters("notes", self.options, self.notes)
        if not self.quick and not self.worked:
            refuse("worked", "a text, unless the question is quick", self.worked)


@dataclass(frozen=True, kw_only=True)
class TextExercise:
    """An open question, marked by hand: *rubric* is a tuple of (marks, what earns them)."""

    id: str
    rubric: tuple
    worked: str
    least_words: int = 20
    teaching_note: str = ""
    kind = "text"

    def __post_init__(self):
        positive(least_words=self.least_words)

    @property
    def marks(self):
        """The sum of the rubric."""
        return sum(marks for marks, _ in self.rubric)


@dataclass(frozen=True, kw_only=True)
class FunctionExercise:
    """The student writes a function of (values, time); numbers read off its results are the parts of the answer.

    Parameters
    ----------
    signals : mapping of name to `Signal`
        The same for every bench.
    parts : tuple of `ReadOff`
    tolerance : float
        A share, for every part.
    answer : callable
        The right function, SI in and SI out.
    also_right : tuple of callable
        Other ways to do it that must be right, too.
    slips : tuple of `Slip`
        Wrong functions; the note is told at every part that they lead to.
    notes : (str, str, str)
        Where to look; which principle; a worked twin.
    """

    id: str
    signals: Mapping
    parts: tuple
    tolerance: float
    answer: Callable
    notes: tuple
    worked: str
    also_right: tuple = ()
    slips: tuple = ()
    marks: int = 1
    teaching_note: str = ""
    kind = "function"

    def __post_init__(self):
        positive(tolerance=self.tolerance)
        if len(self.notes) != 3:
            refuse("notes", "three texts: where to look, which principle, a worked twin", self.notes)
        for part in self.parts:
            one_of("signal", part.signal, self.signals)

    def readings(self, function):
        """What is read off the results of a *function*, in the units of the parts; NaN where nothing can be read."""
        def one(part):
            signal = self.signals[part.signal]
            values, time = np.array(signal.values), np.array(signal.time)
            try:
                number = read_off(function(values, time), time, read=part.read, between=part.between)
            except ValueError:
                return math.nan
            return float(number) / read_unit(part.unit).factor
        return [one(part) for part in self.parts]


@dataclass(frozen=True, kw_only=True)
class PredictionExercise:
    """A choice put down before a panel opens, never scored, and the question asked after looking.

    *seen* is the letter of what the panel shows; *seen_notes* holds a sentence for each letter.
    """

    id: str
    question: str
    options: Mapping
    seen_question: str
    seen_options: Mapping
    seen: str
    seen_notes: Mapping
    kind = "prediction"

    def __post_init__(self):
        one_of("seen", self.seen, self.seen_options)
        _check_letters("seen_notes", self.seen_options, self.seen_notes)


@dataclass(frozen=True, kw_only=True)
class Lesson:
    """One lesson's exercises, in the order of the notebook. The version goes up when an exercise's answer changes.

    The *teaching_note* is for the instructor: time plan, a demonstration, what to ask, what goes wrong.
    """

    id: str
    title: str
    version: int
    exercises: tuple
    teaching_note: str = ""

    def __post_init__(self):
        if not (isinstance(self.id, str) and len(self.id) == 2 and self.id.isdecimal()):
            refuse("id", 'two figures, such as "01"', self.id)
        names = [exercise.id for exercise in self.exercises]
        if twice := sorted({name for name in names if names.count(name) > 1}):
            refuse("exercises", "of different ids", ", ".join(twice))
        for place, exercise in enumerate(self.exercises):
            before = getattr(exercise, "follows", None)
            if before and not any(one is before for one in self.exercises[:place]):
                refuse(f"what exercise {exercise.id} follows", "an exercise before it in the lesson", before.id)

    def __getitem__(self, exercise_id):
        return next(exercise for exercise in self.exercises if exercise.id == exercise_id)
