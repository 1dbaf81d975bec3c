"""What a class did in one lesson, as counts, added up bench by bench.

No bench is kept by its name, but for the items of tests: what one did before and after is compared.
"""
import math
from collections import Counter
from dataclasses import dataclass, field

from lessons_lib.exercises.kinds.kind import up_to_done
from lessons_lib.exercises.reading import words
from lessons_lib.exercises.verdicts import State

GENERAL_NOTES = ("general note 1, where to look", "general note 2, which principle", "general note 3, a worked twin")
BUILDS_ON, SIZE = "it builds on an exercise that is not right yet", "look at the units first"


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
    waiting: int = 0        # for marks: none, where it carries none
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
    items : dict
        Of a test, bench -> idea -> what was answered last, as (is right, how sure, what a wrong letter tells).
    """

    def __init__(self, lesson):
        self.lesson, self.returned, self.firsts, self.items = lesson, 0, [], {}
        self.exercises = {one.id: TextTally() if one.is_text else ExerciseTally() if one.is_scored
                          else PredictionTally() for one in lesson.exercises}
        self.scored = [one.id for one in lesson.exercises   # what is further may be left out: it ranks nobody
                       if one.is_marked and not one.is_by_hand and not one.further]

    def add(self, marker, one, bench):
        """Add what a *bench* did, from its `Marker` and its `LessonMarks`; another course's has another name."""
        self.returned += 1
        if self.lesson.test:
            self.items[bench] = dict(_item_answers(one, marker))
        firsts = {}
        for exercise in one.lesson.exercises:
            if exercise.id not in marker.records:
                continue
            tally = self.exercises[exercise.id]
            if exercise.is_by_hand:
                _add_text(tally, exercise, one)
            elif exercise.is_text:
                tally.answered += bool(one.history.answers(marker.records[exercise.id]))
            elif exercise.is_scored:
                firsts[exercise.id] = _add_tries(tally, exercise, marker, one)
            else:
                _add_prediction(tally, exercise, one.history)
        self.firsts.append(tuple(firsts.get(exercise_id) for exercise_id in self.scored))


def _item_answers(one, marker):
    for item in one.lesson.exercises:
        if item.kind == "item" and (judged := one.history.answers(marker.records[item.id])):
            letter, sure = judged[-1].entry["value"], judged[-1].entry["readings"]["sure"]
            yield item.idea, (letter == item.right, sure, item.tells.get(letter, ""))


def by_frequency(counter):
    """Return the (thing, count) pairs of a Counter, the most frequent first, things of one count in their order.

    Examples
    --------
    >>> by_frequency(Counter("abcb"))
    [('b', 2), ('a', 1), ('c', 1)]
    """
    return sorted(counter.items(), key=lambda pair: (-pair[1], pair[0]))


def _add_text(tally, exercise, one):
    text = one.last_text(exercise.id)
    if text is not None:
        outcome = one.outcomes.get(exercise.id)
        tally.answered += 1
        tally.short += words(text.text) < exercise.least_words
        tally.waiting += bool(outcome) and outcome.marks is None
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
        if said := exercise.slip_words(judged, marker.slips(exercise, judged)):
            slips.add(said)
        else:
            unexplained.add("far outside the expected range" if judged.state == State.FAR
                            else exercise.value_words(judged, marker.drawn.get(exercise.id)))
            tally.unexplained_first += number == 0
        after = tries[number + 1][1] if number + 1 < len(tries) else None
        if one.lesson.silent:
            continue        # no note was read
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
    for place, judged, _ in history.handed_in(marker.records[exercise.id]):
        tries.setdefault(judged.try_name, (place, judged))
    done = len(list(up_to_done(judged for _, judged in tries.values())))
    return list(tries.values())[:done]


def _right_from(exercise, marker, history):
    """The place from which on the exercise before is right: before all without one, behind all where it never was."""
    before = exercise.follows
    if not before:
        return -1
    return next((place for place, judged, _ in history.handed_in(marker.records[before.id])
                 if judged.state == State.RIGHT), math.inf)


def _notes_read(exercise, marker, judged, unmatched):
    """What the page said to a wrong try, after so many *unmatched* ones."""
    if judged.state == State.FAR:
        return [SIZE]
    record = marker.records[exercise.id]
    if judged.unmatched and record.get("notes"):
        return [GENERAL_NOTES[min(unmatched, len(record["notes"]) - 1, 2)]]
    said = exercise.slip_words(judged, marker.slips(exercise, judged))
    return [said] if said else []
