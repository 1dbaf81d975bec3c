"""An item of a test before or after a course: one letter, and how sure somebody is; counted, never marked."""
from collections.abc import Mapping
from dataclasses import dataclass

from lessons_lib.base.checks import one_of, refuse
from lessons_lib.exercises import reading
from lessons_lib.exercises.kinds.choice import ChoiceRecord, LetterExercise
from lessons_lib.exercises.sealing import sealed_letters


@dataclass(frozen=True, kw_only=True)
class ItemExercise(LetterExercise):
    """One letter is asked, and how sure it is, from 1 to 3; it belongs to a silent lesson.

    *idea* is what it is about: items of the same idea in two tests are compared. *tells* says for each wrong letter
    which notion leads to it.
    """

    id: str
    idea: str
    options: Mapping
    right: str
    tells: Mapping
    worked: str = ""
    kind = "item"
    is_marked = False
    unit = tolerance = None

    def __post_init__(self):
        one_of("right", self.right, self.options)
        if set(self.tells) != set(self.options) - {self.right}:
            refuse("tells", "a few words for each wrong letter", sorted(self.tells))

    def sheet_fields(self, drawn, salt):
        """Return the options, the right letter and what the others tell sealed."""
        return {"options": dict(self.options), **sealed_letters(self.id, salt, self.right, {
            letter: self.tells.get(letter, "") for letter in self.options})}

    def model_answer(self, drawn=None):
        """Return the right letter, sure of it."""
        return self.right, None, {"sure": 3}

    def worked_answer(self, drawn=None):
        """Return the right letter, with its reason where there is one."""
        return f"({self.right}) {self.options[self.right]}. {self.worked}".strip()

    def slip_words(self, judged, names):
        """Return the wrong option and the notion behind it."""
        letter = judged.entry["value"]
        return f"({letter}) {self.options[letter]}", self.tells[letter]


class ItemRecord(ChoiceRecord):
    """The record side: a letter, and how sure."""

    kind = "item"
    blank_readings = {"sure": "..."}
    takes_readings = True
    beside = "sure=1, sure=2 or sure=3"

    def is_empty(self, value, readings):
        """Whether there is no letter yet; without saying how sure, it cannot be read."""
        return reading.is_blank(value)

    def read(self, value, unit=None, readings=None):
        """Return the entry of an answer: its letter, and how sure it is."""
        if unit is not None or set(readings or ()) - {"sure"}:
            raise ValueError("write the letter, and behind it sure=1, sure=2 or sure=3")
        sure = (readings or {}).get("sure", ...)
        return {**super().read(value), "readings": {"sure": reading.read_sureness(None if sure is ... else sure)}}

    def shown(self, entry):
        return f'"{entry["value"]}", sure={entry["readings"]["sure"]}'
