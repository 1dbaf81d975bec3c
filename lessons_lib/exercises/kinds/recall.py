"""A line from memory: kept, and then laid beside the sentence of an earlier page; never marked."""
from dataclasses import dataclass

from lessons_lib.exercises import reading
from lessons_lib.exercises.kinds.kind import Exercise, Judgement, Record
from lessons_lib.exercises.paper import Lines, Paragraph
from lessons_lib.exercises.verdicts import State

_LEAST = 3      # words


@dataclass(frozen=True, kw_only=True)
class RecallExercise(Exercise):
    """One line is asked, from memory; *sentence* is how an earlier page says it, *where* that is ("lesson 2")."""

    sentence: str
    where: str
    worked: str = ""
    quick: bool = True
    kind = "recall"
    is_text = True

    def sheet_fields(self, drawn, salt):
        """Return the sentence to compare with, and where it is."""
        return {"sentence": self.sentence, "where": self.where}

    def model_answer(self, drawn=None):
        return self.sentence, None, {}

    def right_on_paper(self, drawn=None):
        """Return the sentence."""
        return (Paragraph(f"In {self.where}: {self.sentence}"),)

    def right_for_all(self):
        return self.sentence


class RecallRecord(Record):
    """The record side: a line is kept, and the page's own sentence shown beside it."""

    kind = "recall"
    blank = '"..."'

    def judge(self, value, unit=None, readings=None):
        line = reading.read_line(value)
        if reading.words(line) < _LEAST:
            raise ValueError(f"write at least {_LEAST} words of your own, before you look it up")
        return Judgement(state=State.KEPT, try_name=line, entry={"value": line}, text=(
            f'In {self["where"]} it reads: "{self["sentence"]}" What has yours that this has not, and what is missing '
            "in yours?"))

    def place(self):
        return Lines(2), Paragraph(f"Afterwards compare with {self['where']}.")

    def still_to_do(self, tries):
        return "" if tries else "It opens once you have written a line."
