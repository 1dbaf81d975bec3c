"""One letter is asked; a note for each option."""
from collections.abc import Mapping
from dataclasses import dataclass

from lessons_lib.base.checks import one_of, refuse
from lessons_lib.exercises import reading
from lessons_lib.exercises.kinds.kind import Exercise, Judgement, Record
from lessons_lib.exercises.paper import Right
from lessons_lib.exercises.parts import check_letters
from lessons_lib.exercises.sealing import letter_says, sealed_letters
from lessons_lib.exercises.verdicts import State


@dataclass(frozen=True, kw_only=True)
class LetterExercise(Exercise):
    """One letter is asked; a subclass has *notes*, a text for each of the *options*."""

    options: Mapping
    right: str
    worked: str = ""

    def __post_init__(self):
        one_of("right", self.right, self.options)

    def sheet_fields(self, drawn, salt):
        """Return the options, the right letter and the notes sealed."""
        return {"options": dict(self.options), **sealed_letters(self.id, salt, self.right, self.notes)}

    def model_answer(self, drawn=None):
        return self.right, None, {}

    def right_on_paper(self, drawn=None):
        """Return the right letter with its option."""
        return (Right(f"({self.right})", after=f" {self.options[self.right]}"),)

    def right_for_all(self):
        return f"({self.right})"

    def slip_words(self, judged, names):
        """Return the wrong option and its note."""
        letter = judged.entry["value"]
        return f"({letter}) {self.options[letter]}", self.notes[letter]


@dataclass(frozen=True, kw_only=True)
class ChoiceExercise(LetterExercise):
    """One letter is asked; *notes* holds a sentence for each option, the right one too.

    A *quick* question is answered at once, logged and never marked: from memory where the page begins (m1, m2, ...), on
    a step of a worked example in its middle (s1, s2, ...).
    """

    notes: Mapping
    quick: bool = False
    marks: int = 1
    teaching_note: str = ""
    kind = "choice"

    def __post_init__(self):
        super().__post_init__()
        check_letters("notes", self.options, self.notes)
        if not self.quick and not self.worked:
            refuse("worked", "a text, unless the question is quick", self.worked)


class ChoiceRecord(Record):
    """The record side: a letter looked up."""

    kind = "choice"
    blank = '"..."'
    open_fields = ("options",)

    def read(self, value, unit=None, readings=None):
        return {"value": reading.read_letter(value, self["options"])}

    def judge(self, value, unit=None, readings=None):
        entry = self.read(value, unit, readings)
        right, note = letter_says(self, entry["value"])
        return Judgement(state=State.RIGHT if right else State.NOT_YET, text=note, try_name=entry["value"],
                         entry=entry)
