"""A prediction: put down before a panel opens, or as a vote without one; never scored."""
from collections.abc import Mapping
from dataclasses import dataclass, field

from lessons_lib.base.checks import one_of
from lessons_lib.exercises.kinds.kind import Exercise, Record
from lessons_lib.exercises.paper import Right
from lessons_lib.exercises.parts import check_letters
from lessons_lib.exercises.sealing import letter_says, sealed_letters
from lessons_lib.exercises.verdicts import PredictionCard, State


@dataclass(frozen=True, kw_only=True)
class Unscored(Exercise):
    """A letter put down before anybody knows; *seen* is the letter of what is seen in the end."""

    question: str
    options: Mapping
    seen: str
    kind = "prediction"
    is_scored = False
    where = again = ""      # of a vote alone

    def sheet_fields(self, drawn, salt):
        """Return the questions in the open, and sealed what is seen."""
        return {"question": self.question, "options": dict(self.options),
                "seen_question": self.seen_question, "seen_options": dict(self.seen_options),
                **({"where": self.where, "again": self.again} if self.where else {}),
                **sealed_letters(self.id, salt, self.seen, self.seen_notes)}

    def model_answer(self, drawn=None):
        """Return None: there is no answer."""

    def right_on_paper(self, drawn=None):
        """Return the question, and what is seen."""
        return (Right(f"({self.seen})", before=f"{self.name}: {self.question} {self.shows.capitalize()}:",
                      after=f" {self.seen_options[self.seen]}{self.explained}"),)

    def right_for_all(self):
        return f"{self.shows} ({self.seen})"


@dataclass(frozen=True, kw_only=True)
class PredictionExercise(Unscored):
    """A choice put down before a panel opens, never scored, and the question asked after looking.

    *seen* is the letter of what the panel shows; *seen_notes* holds a sentence for each letter.
    """

    seen_question: str
    seen_options: Mapping
    seen_notes: Mapping
    name, shows, explained = "Prediction", "the panel shows", ""

    def __post_init__(self):
        one_of("seen", self.seen, self.seen_options)
        check_letters("seen_notes", self.seen_options, self.seen_notes)


@dataclass(frozen=True, kw_only=True)
class VoteExercise(Unscored):
    """A prediction without a panel: a vote, which a later lesson shows again beside what turned out.

    *seen* is the letter of what turned out, *because* the sentence that explains it, *where* the place in the course
    that shows it, *again* where the vote is shown again.
    """

    because: str
    where: str = field()
    again: str = field()
    name, shows = "Vote", "it turns out"
    seen_question = ""      # nobody is asked what was seen

    def __post_init__(self):
        one_of("seen", self.seen, self.options)
        check_letters("options", self.options, self.options)

    @property
    def seen_options(self):
        """What may turn out."""
        return self.options

    @property
    def seen_notes(self):
        """The explanation, for each letter."""
        return dict.fromkeys(self.options, self.because)

    @property
    def explained(self):
        """What is said behind what turned out."""
        return f". {self.because} ({self.where})"


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
