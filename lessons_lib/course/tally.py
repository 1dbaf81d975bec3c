"""What a class did in one lesson, as counts: added up bench by bench, no bench is kept by its name."""
import math
from collections import Counter
from dataclasses import dataclass, field

from lessons_lib.base.units import read_unit
from lessons_lib.exercises.common_slips import COMMON_SLIPS
from lessons_lib.exercises.reading import words
from lessons_lib.exercises.verdicts import State

GENERAL_NOTES = ("general note 1, where to look", "general note 2, which principle", "general note 3, a worked twin")
BUILDS_ON, SIZE = "it builds on an exercise that is not right yet", "look at the units first"
NEAR = 0.1      # within a tenth of the right value: a near miss


@dataclass
class NoteCount:
    """How often a note was *read*, how often the student *tried* again after it, and was *right* with that try."""

    read: int = 0
    tried: int = 0
    right: int = 0


@dataclass
class ExerciseTally:
    """Counts of benches over one exercise that is answered."""

    answered: int = 0
    first: int = 0              # right with the first try
    right: int = 0              # right in the end
    carried: int = 0            # not right, and marked by the own earlier value
    wrong_first: int = 0
    unexplained_first: int = 0  # wrong at first, and outside all slips
    slips: Counter = field(default_factory=Counter)         # (slip, its note) -> benches that made it
    unexplained: Counter = field(default_factory=Counter)   # words on a value outside all slips -> benches
    notes: dict = field(default_factory=dict)               # (slip, its note), or a general note -> NoteCount


@dataclass
class TextTally:
    """Counts of benches over one open text."""

    answered: int = 0
    short: int = 0
    marked: int = 0
    marks: float = 0.0
    most: float = 0.0


@dataclass
class PredictionTally:
    """Counts of benches over one prediction: letters, how sure they were, and what they saw first."""

    predicted: Counter = field(default_factory=Counter)
    sure: Counter = field(default_factory=Counter)          # (letter, 1 to 3) -> benches
    saw: Counter = field(default_factory=Counter)


class LessonTally:
    """Counts over one *lesson*.

    Attributes
    ----------
    returned : int
        Benches with a return of this lesson.
    exercises : dict
        Exercise id -> its tally.
    firsts : list
        A tuple a bench, which exercises it had right at the first try, in the order of `scored`; None: not answered.
    """

    def __init__(self, lesson):
        self.lesson, self.returned, self.firsts = lesson, 0, []
        kinds = {"text": TextTally, "prediction": PredictionTally}
        self.exercises = {one.id: kinds.get(one.kind, ExerciseTally)() for one in lesson.exercises}
        self.scored = [one.id for one in lesson.exercises
                       if one.kind not in kinds and not getattr(one, "quick", False)]

    def add(self, marker, one):
        """Add what a bench did, from its `Marker` and its `LessonMarks`."""
        self.returned += 1
        firsts = {}
        for exercise in one.lesson.exercises:
            if exercise.id not in marker.records:
                continue
            tally = self.exercises[exercise.id]
            if exercise.kind == "text":
                _add_text(tally, exercise, one)
            elif exercise.kind == "prediction":
                _add_prediction(tally, exercise, one.history)
            else:
                firsts[exercise.id] = _add_tries(tally, exercise, marker, one)
        self.firsts.append(tuple(firsts.get(exercise_id) for exercise_id in self.scored))


def ranked(counter):
    """Return the (thing, count) pairs of a Counter, the most frequent first, things of one count in their order.

    Examples
    --------
    >>> ranked(Counter("abcb"))
    [('b', 2), ('a', 1), ('c', 1)]
    """
    return sorted(counter.items(), key=lambda pair: (-pair[1], pair[0]))


def _add_text(tally, exercise, one):
    text = one.last_text(exercise.id)
    if text is not None:
        outcome = one.outcomes.get(exercise.id)
        tally.answered += 1
        tally.short += words(text.text) < exercise.least_words
        if outcome and outcome.marks is not None:
            tally.marked, tally.marks, tally.most = tally.marked + 1, tally.marks + outcome.earned, outcome.most


def _add_prediction(tally, exercise, history):
    for made in history.told(exercise.id, "prediction")[:1]:      # the first is the one before looking
        if made["choice"] in exercise.options:
            tally.predicted[made["choice"]] += 1
            tally.sure[made["choice"], made["sureness"]] += 1
    for seen in history.told(exercise.id, "saw")[:1]:
        if seen["choice"] in exercise.seen_options:
            tally.saw[seen["choice"]] += 1


def _add_tries(tally, exercise, marker, one):
    """Count the tries up to the first right one; return whether the first was right, None without any."""
    tries = _tries(exercise, marker, one.history)
    if not tries:
        return None
    first, is_right = tries[0][1], tries[-1][1].state == State.RIGHT
    tally.answered += 1
    tally.first += first.state == State.RIGHT
    tally.right += is_right
    outcome = one.outcomes.get(exercise.id)
    tally.carried += bool(outcome and outcome.how == "carried forward")
    slips, unexplained, unmatched = set(), set(), 0
    builds_on = _right_from(exercise, marker, one.history)
    for number, (place, judged) in enumerate(tries):
        if judged.state == State.RIGHT:
            break
        if said := _slip_words(exercise, marker, judged):
            slips.add(said)
        else:
            unexplained.add(_value_words(exercise, marker, judged))
            tally.unexplained_first += number == 0
        after = tries[number + 1][1] if number + 1 < len(tries) else None
        for note in [BUILDS_ON] if place <= builds_on else _notes_read(exercise, marker, judged, unmatched):
            count = tally.notes.setdefault(note, NoteCount())
            count.read += 1
            count.tried += after is not None
            count.right += after is not None and after.state == State.RIGHT
        unmatched += judged.unmatched
    tally.wrong_first += first.state != State.RIGHT
    tally.slips.update(slips)
    tally.unexplained.update(unexplained)
    return first.state == State.RIGHT


def _tries(exercise, marker, history):
    """(place, judgement) of the different tries in their order, the first right one the last."""
    tries = {}
    for place, judged, _ in history.handed_in(exercise.id, marker.records[exercise.id]):
        tries.setdefault(judged.try_name, (place, judged))
        if judged.state == State.RIGHT:
            break
    return list(tries.values())


def _slip_words(exercise, marker, judged):
    """(name, note) of the slip that a wrong try fits, an empty text where none does."""
    if exercise.kind == "choice":
        letter = judged.entry["value"]
        return f"({letter}) {exercise.options[letter]}", exercise.notes[letter]
    names = marker.slips(exercise, judged)
    if names:
        said = {slip.name: slip.note for slip in getattr(exercise, "slips", ())}
        return " or ".join(names), " Or: ".join(dict.fromkeys(
            said[name] if name in said else COMMON_SLIPS[name].note for name in names))
    return ""


def _value_words(exercise, marker, judged):
    """A few words on a value outside all slips, alike for benches that made the same mistake."""
    if judged.state == State.FAR:
        return "far outside the expected range"
    share = marker.share_of_right(exercise, judged)
    if share is None:
        return "another answer"
    if read_unit(exercise.unit).absolute:
        return f"{share:+.2g} {exercise.unit} from the right value".replace("-", "−")
    return "near miss, within 10 %" if abs(share - 1) <= NEAR else f"{share:.2g} × the right value".replace("-", "−")


def _right_from(exercise, marker, history):
    """The place from which on the exercise before is right: before all without one, behind all where it never was."""
    before = getattr(exercise, "follows", None)
    if not before:
        return -1
    return next((place for place, judged, _ in history.handed_in(before.id, marker.records[before.id])
                 if judged.state == State.RIGHT), math.inf)


def _notes_read(exercise, marker, judged, unmatched):
    """What the page said to a wrong try, after so many *unmatched* ones."""
    if judged.state == State.FAR:
        return [SIZE]
    record = marker.records[exercise.id]
    if judged.unmatched and record.get("notes"):
        return [GENERAL_NOTES[min(unmatched, len(record["notes"]) - 1, 2)]]
    said = _slip_words(exercise, marker, judged)
    return [said] if said else []
