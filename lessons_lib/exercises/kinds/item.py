"""An item of a test before or after a course: one letter, and how sure somebody is; counted, never marked."""
from collections.abc import Mapping
from dataclasses import dataclass

from lessons_lib.base.checks import refuse
from lessons_lib.exercises import reading
from lessons_lib.exercises.kinds.choice import ChoiceRecord, LetterExercise


@dataclass(frozen=True, kw_only=True)
class ItemExercise(LetterExercise):
    """One letter is asked, and how sure it is, from 1 to 3; it belongs to a silent lesson.

    *idea* is what it is about: items of the same idea in two tests are compared. *tells* says for each wrong letter
    which notion leads to it.
    """

    idea: str
    tells: Mapping
    kind = "item"
    is_marked = False

    def __post_init__(self):
        super().__post_init__()
        if set(self.tells) != set(self.options) - {self.right}:
            refuse("tells", "a few words for each wrong letter", sorted(self.tells))

    @property
    def notes(self):
        """What each letter tells; nothing of the right one."""
        return {letter: self.tells.get(letter, "") for letter in self.options}

    def model_answer(self, drawn=None):
        return self.right, None, {"sure": 3}

    def worked_answer(self, drawn=None):
        return f"({self.right}) {self.options[self.right]}. {self.worked}".strip()


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
        if unit is not None or set(readings or ()) - {"sure"}:
            raise ValueError("write the letter, and behind it sure=1, sure=2 or sure=3")
        sure = (readings or {}).get("sure", ...)
        return {**super().read(value), "readings": {"sure": reading.read_sureness(None if sure is ... else sure)}}

    def shown(self, entry):
        return f'"{entry["value"]}", sure={entry["readings"]["sure"]}'
