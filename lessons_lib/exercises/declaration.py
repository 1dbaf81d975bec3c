"""How a lesson is declared: all that ``answers/lesson_NN.py`` needs, once for each exercise.

Every exercise has an ``id`` ("1.1"); what is marked has a ``worked`` answer, ``marks`` (1 where nothing is said), and a
``teaching_note`` for the instructor.
Numbers of a declaration (ranges, steps, size, tolerance of a level) are in the unit shown to the student. Functions of
a declaration (answer, slips, steps, derived values) get the rounded given values in SI as keyword arguments, each only
those it names, and return SI: the formula in the code is the formula of the text.
"""
from collections.abc import Mapping
from dataclasses import dataclass

from lessons_lib.base.checks import one_of, refuse
from lessons_lib.exercises.entries import Entry
from lessons_lib.exercises.kinds import KINDS
from lessons_lib.exercises.kinds.choice import ChoiceExercise
from lessons_lib.exercises.kinds.curve import CurveAxis, CurveExercise
from lessons_lib.exercises.kinds.design import DesignExercise, Limit
from lessons_lib.exercises.kinds.estimate import EstimateExercise
from lessons_lib.exercises.kinds.formula import FormulaExercise, Symbol
from lessons_lib.exercises.kinds.function import FunctionExercise
from lessons_lib.exercises.kinds.item import ItemExercise
from lessons_lib.exercises.kinds.measured import FitSlip, MeasuredExercise
from lessons_lib.exercises.kinds.number import NumberExercise
from lessons_lib.exercises.kinds.order import OrderExercise
from lessons_lib.exercises.kinds.points import Compared, Near, PointsExercise, Signed
from lessons_lib.exercises.kinds.prediction import PredictionExercise, VoteExercise
from lessons_lib.exercises.kinds.recall import RecallExercise
from lessons_lib.exercises.kinds.text import TextExercise
from lessons_lib.exercises.parts import Derived, Given, ReadOff, Signal, Slip, Step, Twin, evaluate, parameters

__all__ = ["ChoiceExercise", "Compared", "CurveAxis", "CurveExercise", "Derived", "DesignExercise", "Entry",
           "EstimateExercise", "Evening", "FitSlip", "FormulaExercise", "FunctionExercise", "Given", "ItemExercise",
           "Lesson", "Limit", "MeasuredExercise", "Near", "NumberExercise", "OrderExercise", "PointsExercise",
           "PredictionExercise", "ReadOff", "RecallExercise", "Signal", "Signed", "Slip", "Step", "Stretch", "Symbol",
           "TextExercise", "ToVote", "Twin", "VoteExercise", "evaluate", "parameters"]

TESTS = ("before", "half-way", "after")


@dataclass(frozen=True, kw_only=True)
class ToVote:
    """A question for the class hour: vote, talk in pairs, vote again; then its *twin*, the same idea in another dress.

    *because* says in one or two sentences why the letter *right* is right, and what speaks for the others. Questions to
    vote on are the instructor's: they are in no sheet and no pack.
    """

    question: str
    options: Mapping
    right: str
    because: str
    twin: "ToVote | None" = None

    def __post_init__(self):
        one_of("right", self.right, self.options)


@dataclass(frozen=True, kw_only=True)
class Stretch:
    """Some minutes of an evening: *what* is done, from which place of the page, and what to *ask* meanwhile."""

    minutes: int
    what: str
    ask: str = ""


@dataclass(frozen=True, kw_only=True)
class Evening:
    """The plan of one evening: what it is for, what must be on the table, its `Stretch`es, what is left for home."""

    aim: str
    stretches: tuple
    on_the_table: str = ""
    at_home: str = ""

    @property
    def minutes(self):
        """The sum of its stretches."""
        return sum(one.minutes for one in self.stretches)


@dataclass(frozen=True, kw_only=True)
class Lesson:
    """One lesson's exercises, in the order of the notebook. The version goes up when an exercise's answer changes.

    For the instructor: the *teaching_note* (a demonstration, what to ask, what goes wrong), the plan of each of its
    *evenings*, and three questions *to_vote* on.

    A *silent* lesson, an examination or a test, keeps answers and says nothing of them; the last one of each exercise
    counts. A *test* is "before", "half-way" or "after" a course: its items are compared.
    """

    id: str
    title: str
    version: int
    exercises: tuple
    teaching_note: str = ""
    evenings: tuple = ()
    to_vote: tuple = ()
    silent: bool = False
    test: str = ""

    def __post_init__(self):
        if not (isinstance(self.id, str) and len(self.id) == 2 and self.id.isdecimal()):
            refuse("id", 'two figures, such as "01"', self.id)
        names = [exercise.id for exercise in self.exercises]
        if twice := sorted({name for name in names if names.count(name) > 1}):
            refuse("exercises", "of different ids", ", ".join(twice))
        if self.test:
            one_of("test", self.test, TESTS)
        if self.silent and (loud := [one.kind for one in self.exercises if KINDS[one.kind].open_fields is None]):
            refuse("exercises of a silent lesson", "of kinds that can be kept without a word", ", ".join(loud))
        for place, exercise in enumerate(self.exercises):
            _check_points(exercise)
            before = exercise.follows
            if before and not any(one is before for one in self.exercises[:place]):
                refuse(f"what exercise {exercise.id} follows", "an exercise before it in the lesson", before.id)
            if before and before.further and not exercise.further:
                refuse(f"what the core exercise {exercise.id} follows", "core, too", before.id)

    def __getitem__(self, exercise_id):
        return next(exercise for exercise in self.exercises if exercise.id == exercise_id)


def _check_points(exercise):
    """Refuse points that do not add up to the exercise's marks or say nothing, and a slip that earns them all."""
    if points := exercise.points:
        if any(marks <= 0 or not what for marks, what in points):
            refuse(f"points of exercise {exercise.id}", "pairs of marks above 0 and what earns them", points)
        if (total := sum(marks for marks, _ in points)) != exercise.marks:
            refuse(f"points of exercise {exercise.id}", f"{exercise.marks:g} marks in all", total)
    for slip in exercise.slips:
        if (marks := getattr(slip, "marks", 0)) and not 0 <= marks < exercise.marks:
            refuse(f"marks of the slip {slip.name} in exercise {exercise.id}",
                   f"from 0 to below {exercise.marks:g}", marks)
