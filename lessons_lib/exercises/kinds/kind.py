"""What every kind of exercise has: a declared side, a record side, and the judgement on an answer.

A kind is one file beside this one. Its `Exercise` stands in the model answers: it makes what a bench's sheet holds, and
knows what is right. Its `Record` has that part of a sheet alone: it reads and judges answers, on the student's machine
and at marking. What a kind does not say for itself is said here.
"""
from collections.abc import Mapping
from dataclasses import dataclass, field

from lessons_lib.exercises import reading
from lessons_lib.exercises.common_slips import note_of
from lessons_lib.exercises.entries import entries_text, read_entries
from lessons_lib.exercises.paper import Entries, PageOnly
from lessons_lib.exercises.sealing import bins_together, scale_for
from lessons_lib.exercises.verdicts import State

_TRIES_BEFORE_WORKED = 3


@dataclass(frozen=True, kw_only=True)
class Judgement:
    """What is said of one answer.

    *try_name* tells tries apart (the bin, the letter); two answers of one bin are one try, no name is no try.
    *entry* is what the log keeps. *unmatched* says that no slip fits: the next general note is due. *share* is how much
    an answer that is not right earns by itself, *how* says so; *slips* names what a number from own readings fits.
    """

    state: State
    text: str
    try_name: str = ""
    entry: dict = field(default_factory=dict)
    unmatched: bool = False
    share: float = 0.0
    how: str = ""
    slips: tuple = ()


@dataclass(frozen=True, kw_only=True)
class Exercise:
    """The declared side of a kind; a subclass is a frozen dataclass. The *id* is "1.1".

    What is *further* may be left out by a class that has little time; everything else is core. *points*, a tuple of
    (marks, what earns them), says step by step how work on paper is marked.

    Where a subclass must be given what has a value here, its field is written ``unit: str = field()``: without that the
    value here would be its default.
    """

    id: str
    further: bool = False
    points: tuple = ()
    kind = ""
    unit = tolerance = None
    given, derived, hidden = {}, {}, {}
    is_drawn = False        # has values of each bench's own
    is_by_hand = False      # a person reads and marks it
    is_text = False         # kept as a text, and no answer of it is right or wrong
    is_scored = True
    is_in_key = False       # has a column of the key
    quick = False
    follows = None
    slips = common = ()
    marks = 0
    worked = teaching_note = ""

    @property
    def called(self):
        """Its id, with the word where it is further."""
        return f"{self.id} (further)" if self.further else self.id

    @property
    def shown(self):
        """Name to declaration of every value the student sees, of a kind with given values."""
        return {**self.given, **self.derived}

    @property
    def is_on_a_step(self):
        """Whether it is a quick question on a step of a worked example: s1, s2, ...; others are from memory: m1, ..."""
        return self.quick and self.id.startswith("s")

    @property
    def is_marked(self):
        """Whether it may carry marks."""
        return self.is_scored and not self.quick

    def sheet_record(self, drawn, salt):
        """Return the part of a sheet that belongs to this exercise; *drawn* is None without given values."""
        return {"kind": self.kind, "salt": salt, **self.sheet_fields(drawn, salt)}

    def sheet_fields(self, drawn, salt):
        """Return what a student may have: all that judging needs, and nothing that says the right answer."""
        raise NotImplementedError

    def model_answer(self, drawn=None):
        """Return (value, unit, readings) as ``sheet.answer(id, value, unit, **readings)`` takes what is right."""
        raise NotImplementedError

    def worked_answer(self, drawn=None):
        """Return the worked answer with the bench's own numbers."""
        return self.worked

    def right_on_paper(self, drawn=None):
        """Return what is right for a bench, as blocks of `lessons_lib.exercises.paper`."""
        return ()

    def right_for_all(self):
        """Return in words what is right for every bench alike; nothing where it is each bench's own."""
        return ""

    def key_value(self, drawn):
        """Return what is right for a bench in a few letters, for the key; only of a kind that is in it."""
        raise NotImplementedError

    def faults(self):
        """Yield what is wrong with the declaration, each fault one sentence."""
        yield from ()

    def why_refused(self, drawn):
        """Return why a draw is not given out, or an empty text."""
        return ""

    def faults_of(self, drawn):
        """Yield what is wrong with an accepted draw, each fault one sentence."""
        yield from ()

    def slips_by_try(self, drawn):
        """Return name of a try -> names of the slips that it fits; None where the judgement itself names them."""
        return None

    def slip_words(self, judged, names):
        """Return (name, note) of the slips *names* that a wrong answer fits, an empty text where there is none."""
        notes = dict.fromkeys(note_of(name, self.slips) for name in names)
        return (" or ".join(names), " Or: ".join(notes)) if names else ""

    def value_words(self, judged, drawn):
        """Return a few words on a wrong answer that no slip fits, alike for benches that made the same mistake."""
        return "another answer"


@dataclass(frozen=True, kw_only=True)
class Marked(Exercise):
    """A kind that earns *marks* and has a *worked* answer; the *teaching_note* is for the instructor."""

    worked: str = field()
    marks: int = 1
    teaching_note: str = ""


@dataclass(frozen=True, kw_only=True)
class WithGiven(Marked):
    """A kind with given values; *worked* has fields for the shown ones, and one for what is right."""

    given: Mapping = field(default_factory=dict)
    right_field = ""        # its name in the worked answer

    def worked_answer(self, drawn=None):
        return self.worked.format(**(drawn.texts() if drawn else {}), **{self.right_field: self.key_value(drawn)})


@dataclass(frozen=True, kw_only=True)
class OwnOrSame(WithGiven):
    """A kind that may go without given values: what is right is each bench's own, or the same for all."""

    derived: Mapping = field(default_factory=dict)

    @property
    def is_drawn(self):
        """Whether each bench has given values of its own."""
        return bool(self.given)

    is_in_key = is_drawn

    def right_for_all(self):
        """Return what is right where it is the same for all."""
        return "" if self.is_drawn else self.key_value(None)

    def faults(self):
        """Yield why what is the same for all cannot be given out, as one sentence."""
        if not self.is_drawn and (why := self.why_refused(None)):
            yield f"{self.id}: {why}."


class Together(Marked):
    """Several numbers are the answer, alike for all benches, each within the *tolerance*; a slip gives them all."""

    def numbers(self, formula):
        """Return what the right *formula* or a slip's gives, a number for each place."""
        raise NotImplementedError

    def scales(self):
        """Return the `Scale` of each number."""
        return [scale_for(right, tolerance=self.tolerance, absolute=False) for right in self.numbers(self.answer)]

    def slips_by_bins(self):
        """Return the bins of all numbers together -> slips that lead there."""
        scales, named = self.scales(), {}
        for slip in self.slips:
            for names in bins_together(self.numbers(slip.formula), scales):
                named.setdefault(names, []).append(slip)
        return named

    def slips_by_try(self, drawn):
        return {names: [slip.name for slip in slips] for names, slips in self.slips_by_bins().items()}


class Record(dict):
    """The record side of a kind: what a sheet holds of one exercise, by name, and its ``id``."""

    kind = ""
    blank = "..."           # how an empty answer stands on a page
    blank_readings = {}     # name of what goes with an answer -> how it stands there, where that is typed in, too
    takes_readings = takes_function = False
    beside = "table= before the readings"   # how what goes with an answer is named, where it takes readings
    is_computed = False     # judging runs a model or a fit
    open_fields = None      # what a silent lesson's sheet has of it, sealed fields left out; None: it has no such form

    def is_empty(self, value, readings):
        """Whether nothing was answered yet."""
        return reading.is_blank(value) or (self.takes_readings and reading.is_blank(readings))

    def read(self, value, unit=None, readings=None):
        """Return the entry of an answer without judging it; ValueError as in `judge`."""
        return self.judge(value, unit, readings).entry

    def judge(self, value, unit=None, readings=None):
        """Return the `Judgement` on an answer; ValueError with a sentence for a student where it cannot be read."""
        raise NotImplementedError

    def shown(self, entry):
        """Return a kept answer as the student wrote it."""
        return f'"{reading.shortened(entry["value"], 80)}"'

    def place(self):
        """Return the room for an answer on paper, as blocks of `lessons_lib.exercises.paper`."""
        return ()

    def how_far(self, history):
        """Return (state, number of tries): once right, right; once a text is long enough, kept."""
        tries = history.tries(self)
        states = [judged.state for judged in up_to_done(tries.values())]
        return states[-1] if states else State.NOT_ANSWERED, len(tries)

    def still_to_do(self, tries):
        """Return what is to be done before the worked answer opens, in one sentence; an empty text where it is open."""
        if len(tries) >= _TRIES_BEFORE_WORKED or any(one.state == State.RIGHT for one in tries.values()):
            return ""
        return f"It opens after {_TRIES_BEFORE_WORKED} different tries; you have made {len(tries)}."


class EntriesRecord(Record):
    """The record side of a kind whose answer is a dict of entries."""

    on_paper = ""           # a sentence below its boxes

    def read(self, value):
        """Return the dict as plain data; ValueError with a sentence."""
        return read_entries(self["entries"], value)

    def text(self, values):
        """Return a read dict as one line."""
        return entries_text(self["entries"], values)

    def shown(self, entry):
        return self.text(entry["value"])

    def place(self):
        return Entries.of(self["entries"]), PageOnly(self.on_paper)


def up_to_done(judgements):
    """Yield judgements up to the first that is right, or kept for a person to read: what comes after takes nothing."""
    for judged in judgements:
        yield judged
        if judged.state in (State.RIGHT, State.KEPT):
            return
