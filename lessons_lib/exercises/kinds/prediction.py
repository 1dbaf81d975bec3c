"""A prediction: put down before a panel opens, or as a vote without one; never scored."""
from collections.abc import Mapping
from dataclasses import dataclass

from lessons_lib.base.checks import one_of
from lessons_lib.exercises.kinds.kind import Exercise, Record, check_letters
from lessons_lib.exercises.paper import Right
from lessons_lib.exercises.sealing import letter_says, sealed_letters
from lessons_lib.exercises.verdicts import PredictionCard, State


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


@dataclass(frozen=True, kw_only=True)
class VoteExercise(Exercise):
    """A prediction without a panel: a vote, which a later lesson shows again beside what turned out.

    *seen* is the letter of what turned out, *because* the sentence that explains it, *where* the place in the course
    that shows it, *again* where the vote is shown again.
    """

    id: str
    question: str
    options: Mapping
    seen: str
    because: str
    where: str
    again: str
    kind = "prediction"
    is_scored = False
    unit = tolerance = None
    worked = seen_question = ""     # nobody is asked what was seen

    def __post_init__(self):
        one_of("seen", self.seen, self.options)
        check_letters("options", self.options, self.options)

    @property
    def seen_options(self):
        """What may turn out."""
        return self.options

    def sheet_fields(self, drawn, salt):
        """Return the question, and sealed what turned out."""
        return {"question": self.question, "options": dict(self.options), "seen_question": "",
                "seen_options": dict(self.options), "where": self.where, "again": self.again,
                **sealed_letters(self.id, salt, self.seen, dict.fromkeys(self.options, self.because))}

    def model_answer(self, drawn=None):
        """Return None: a vote has no answer."""

    def right_on_paper(self, drawn=None):
        """Return the question, and what turned out."""
        return (Right(f"({self.seen})", before=f"Vote: {self.question} It turns out:",
                      after=f" {self.options[self.seen]}. {self.because} ({self.where})"),)

    def right_for_all(self):
        """Return what turned out."""
        return f"it turns out ({self.seen})"


class PredictionRecord(Record):
    """The record side: the card of a panel or of a vote takes it, and not an answer."""

    kind = "prediction"

    @property
    def is_vote(self):
        """Whether it has no panel."""
        return "where" in self

    def card(self, history, *, needs_reason):
        """Return the `PredictionCard`; what turned out is on it once there is a vote."""
        made = history.last_choice(self["id"], "prediction", self["options"])
        seen = history.last_choice(self["id"], "saw", self["seen_options"])
        return PredictionCard(
            question=self["question"], options=self["options"],
            seen_question=self["seen_question"], seen_options=self["seen_options"], needs_reason=needs_reason,
            made=(made["choice"], made.get("sureness"), made.get("reason")) if made else None,
            seen=seen["choice"] if seen else None, where=self.get("where", ""), again=self.get("again", ""),
            turned_out=self._turned_out() if made and self.is_vote else None)

    def _turned_out(self):
        says = {letter: letter_says(self, letter) for letter in self["options"]}
        return next((letter, because) for letter, (is_right, because) in says.items() if is_right)

    def judge(self, value, unit=None, readings=None):
        raise ValueError("this is a prediction; make it on the card of its panel")

    def how_far(self, history):
        """Return (state, no tries): kept once it is put down."""
        made = history.last_choice(self["id"], "prediction", self["options"])
        return State.KEPT if made else State.NOT_ANSWERED, 0
