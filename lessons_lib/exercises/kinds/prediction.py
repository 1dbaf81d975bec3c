"""A prediction: put down before a panel opens, never scored, with a question after looking."""
from collections.abc import Mapping
from dataclasses import dataclass

from lessons_lib.base.checks import one_of
from lessons_lib.exercises.kinds.kind import Exercise, Record, check_letters
from lessons_lib.exercises.paper import Right
from lessons_lib.exercises.sealing import sealed_letters
from lessons_lib.exercises.verdicts import State


@dataclass(frozen=True, kw_only=True)
class PredictionExercise(Exercise):
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
    is_scored = False
    unit = tolerance = None
    worked = ""

    def __post_init__(self):
        one_of("seen", self.seen, self.seen_options)
        check_letters("seen_notes", self.seen_options, self.seen_notes)

    def sheet_fields(self, drawn, salt):
        """Return both questions, and sealed what the panel shows."""
        return {"question": self.question, "options": dict(self.options),
                "seen_question": self.seen_question, "seen_options": dict(self.seen_options),
                **sealed_letters(self.id, salt, self.seen, self.seen_notes)}

    def model_answer(self, drawn=None):
        """Return None: a prediction has no answer."""

    def right_on_paper(self, drawn=None):
        """Return the question, and what the panel shows."""
        return (Right(f"({self.seen})", before=f"Prediction: {self.question} The panel shows:",
                      after=f" {self.seen_options[self.seen]}"),)

    def right_for_all(self):
        """Return what the panel shows."""
        return f"the panel shows ({self.seen})"


class PredictionRecord(Record):
    """The record side: the card of a panel takes it, and not an answer."""

    kind = "prediction"

    def judge(self, value, unit=None, readings=None):
        """Return the `Judgement` on an answer; ValueError with a sentence where it cannot be read."""
        raise ValueError("this is a prediction; make it on the card of its panel")

    def how_far(self, history):
        """Return (state, no tries): kept once it is put down."""
        made = history.last_choice(self["id"], "prediction", self["options"])
        return State.KEPT if made else State.NOT_ANSWERED, 0
