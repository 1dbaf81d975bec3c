"""An open question: a text that a person reads and marks."""
from dataclasses import dataclass, field

from lessons_lib.base.checks import positive
from lessons_lib.exercises import reading
from lessons_lib.exercises.kinds.kind import Exercise, Judgement, Record
from lessons_lib.exercises.paper import Grid, Lines
from lessons_lib.exercises.verdicts import State

_WORDS_BEFORE_WORKED = 20


@dataclass(frozen=True, kw_only=True)
class TextExercise(Exercise):
    """An open question, marked by hand: *rubric* is a tuple of (marks, what earns them)."""

    rubric: tuple
    worked: str = field()
    least_words: int = 20
    teaching_note: str = ""
    kind = "text"
    is_by_hand = is_text = True

    def __post_init__(self):
        positive(least_words=self.least_words)

    @property
    def marks(self):
        """The sum of the rubric."""
        return sum(marks for marks, _ in self.rubric)

    def sheet_fields(self, drawn, salt):
        """Return how many words are asked."""
        return {"least_words": self.least_words}

    def model_answer(self, drawn=None):
        return self.worked, None, {}

    def right_on_paper(self, drawn=None):
        """Return the rubric."""
        return (Grid(("marks", "for"), tuple((f"{marks:g}", what) for marks, what in self.rubric)),)


class TextRecord(Record):
    """The record side: words are counted, and nothing is judged."""

    kind = "text"
    open_fields = ("least_words",)
    blank = '"""\n\n"""'

    def judge(self, value, unit=None, readings=None):
        text = reading.read_text(value)
        written, least = reading.words(text), self["least_words"]
        if written < least:
            return Judgement(state=State.NOT_YET, try_name=text, entry={"value": text},
                             text=f"Kept: {written} of at least {least} words. Say a little more.")
        return Judgement(state=State.KEPT, try_name=text, entry={"value": text}, text=(
            f"{written} words. A person reads this: your instructor, or you beside the worked answer."))

    def place(self):
        return (Lines(max(9, self["least_words"] // 6)),)      # words to a line of handwriting

    def still_to_do(self, tries):
        longest = max((reading.words(text) for text in tries), default=0)
        return "" if longest >= _WORDS_BEFORE_WORKED else (
            f"It opens once you have written {_WORDS_BEFORE_WORKED} words of your own.")
