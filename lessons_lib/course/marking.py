"""From what a bench handed in to its marks: computed again from what was given out; no verdict in a return counts."""
import math
from bisect import bisect
from dataclasses import dataclass, replace
from typing import NamedTuple

from lessons_lib.base.units import read_unit
from lessons_lib.course.returned_history import ReturnedHistory, short, to_mark
from lessons_lib.exercises.kinds import read_records
from lessons_lib.exercises.sealing import scale_for
from lessons_lib.exercises.verdicts import State

MARKING_RULES = 3       # of marking: raised when the same returns may earn other marks than before


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """What an exercise earned: *marks* of *most*, None for a text that waits for its marker.

    *marks* is what counts: *earned* less the per cent that lateness takes *off*. *how* says it in a few words,
    *answer* is the one that counted, *note* the sentence beside it, *waiting* holds the ids of texts to be marked.
    *because* maps what the marks rest on (answers, settings, version, rules, marks by hand) to something that changes
    when it does.
    """

    marks: float | None
    most: float
    earned: float = 0.0
    off: float = 0.0
    how: str
    answer: str = ""
    note: str = ""
    waiting: tuple = ()
    because: dict


class AnswerWorth(NamedTuple):
    """What one answer would earn, less the per cent *off*; *way* is "right", "carried forward" or an empty text."""

    earned: float
    off: float
    way: str
    place: int
    judged: object


_WAYS = ("", "carried forward", "right")        # the better ones later


def priced(earned, off):
    """Return what counts of marks when lateness takes some per cent off.

    Examples
    --------
    >>> priced(2, 30)
    1.4
    """
    return round(earned * (1 - off / 100), 4)


class Marker:
    """Marks one *lesson* for one bench: of everything that was handed in, the best counts.

    Parameters
    ----------
    lesson : Lesson
        With the tolerances of the course.
    sheet : dict
        As `make_sheet` gives it for the kept values.
    drawn : dict
        Exercise id -> `Drawn`, the kept values.
    settings : Settings
    by_hand : dict
        Exercise id -> id of a text -> its marks; "" stands for the text that is to be marked last.

    Attributes
    ----------
    drawn : dict
        The same.
    records : dict
        Exercise id -> the `Record` of the bench's sheet.
    """

    def __init__(self, lesson, sheet, drawn, settings, by_hand):
        self._lesson, self.records, self.drawn = lesson, read_records(sheet), drawn
        self._settings, self._by_hand, self._tables = settings, by_hand, {}

    def history(self, events):
        """Return the `ReturnedHistory` of *events* that all came in time."""
        return self.history_of([(event, (0,)) for event in events], (0.0,))

    def history_of(self, came, offs):
        """Return the `ReturnedHistory` of events that *came* in several returns."""
        return ReturnedHistory(came, offs, self._lesson.id, last_only=self._lesson.silent)

    def outcomes(self, history):
        """Return exercise id -> `Outcome` of every exercise that carries marks."""
        return {exercise.id: self._outcome(exercise, history)
                for exercise in self._lesson.exercises if self._settings.most_marks(exercise)}

    def without_marks(self, history):
        """Return exercise id -> `Outcome` of every further exercise that carries no marks and was answered."""
        return {exercise.id: self._outcome(exercise, history) for exercise in self._lesson.exercises
                if exercise.further and exercise.is_marked and not self._settings.most_marks(exercise)
                and history.handed_in(self.records[exercise.id])}

    def texts(self, history):
        """Return exercise id -> list of `Text`s, for every open question with an answer."""
        texts = {exercise.id: history.texts(self.records[exercise.id])
                 for exercise in self._lesson.exercises if exercise.is_by_hand}
        return {exercise_id: given for exercise_id, given in texts.items() if given}

    def slips(self, exercise, judged):
        """Return the names of the slips that a wrong answer fits; nothing for kinds that know none."""
        if exercise.id not in self._tables:
            self._tables[exercise.id] = exercise.slips_by_try(self.drawn.get(exercise.id))
        table = self._tables[exercise.id]
        return list(judged.slips) if table is None else table.get(judged.try_name, [])

    def _outcome(self, exercise, history):
        answers = history.handed_in(self.records[exercise.id])
        basis = {"most": self._settings.most_marks(exercise), "because": self._because(exercise, history)}
        if not answers:
            return Outcome(marks=0, how="not answered", **basis)
        if exercise.is_by_hand:
            return self._of_texts(exercise, history, **basis)
        # by what counts, then by what it stood for, the better way, the later answer
        best = max(self._standings(exercise, answers, history), key=lambda one: (
            priced(one.earned, one.off), one.earned, _WAYS.index(one.way), one.place))
        return Outcome(marks=priced(best.earned, best.off), earned=best.earned, off=best.off,
                       how=best.way or self._how(exercise, best.judged), note=self._note(exercise, history, best),
                       answer=self.records[exercise.id].shown(best.judged.entry), **basis)

    def _because(self, exercise, history):
        settings, before = self._settings, exercise.follows
        return {"answers": history.digest(exercise.id), "version": self._lesson.version, "rules": MARKING_RULES,
                "settings": short([settings.most_marks(exercise), exercise.tolerance,
                                   self._slip_marks(exercise), settings.carried_forward]),
                **({"earlier answers": history.digest(before.id)} if before else {})}

    def _standings(self, exercise, answers, history):
        """Every answer as it stands by itself, and again where it is right by an own earlier answer."""
        most = self._settings.most_marks(exercise)
        for place, judged, off in answers:
            if judged.state == State.RIGHT:
                yield AnswerWorth(most, off, "right", place, judged)
            else:
                yield AnswerWorth(self._part(exercise, judged, most), off, "", place, judged)
        if exercise.follows:
            for place, judged, off in self._right_by_own(exercise, answers, history):
                yield AnswerWorth(most * self._settings.carried_forward, off, "carried forward", place, judged)

    def _part(self, exercise, judged, most):
        """What an answer earns that is not right: its share, or the marks of its slip where they are more."""
        marks = self._slip_marks(exercise)
        of_slips = max((marks.get(name, 0) for name in self.slips(exercise, judged)), default=0) if marks else 0
        return max(min(most, of_slips), round(judged.share * most, 4))

    def _slip_marks(self, exercise):
        """Name of a slip -> marks: as the model answers have it, and over that as the course does; None without any."""
        declared = {slip.name: slip.marks for slip in exercise.slips if getattr(slip, "marks", 0)}
        return {**declared, **self._settings.slip_marks.get(exercise.id, {})} or None

    def _how(self, exercise, judged):
        slips = self.slips(exercise, judged)
        return judged.how or (f"slip: {', '.join(slips)}" if slips else str(judged.state))

    def _note(self, exercise, history, best):
        if best.way == "carried forward":
            return f"Marked with your own answer to {exercise.follows.id}: from there on the method is right."
        general = history.general_note(self.records[exercise.id], best.judged)
        return f"{general} {best.judged.text}".strip()

    def _right_by_own(self, exercise, answers, history):
        """Yield (place, judgement, per cent off) of the wrong answers that are right by one to the exercise before.

        Both have to be there: the later one's lateness counts.
        """
        wrong = [(exercise.typed(judged), place, judged, off) for place, judged, off in answers
                 if judged.state != State.RIGHT]
        own, absolute = self._from_own(exercise, history) if wrong else [], read_unit(exercise.unit).absolute
        for level in sorted({off for _, off in own} | {off for *_, off in wrong}):
            here = sorted(number for number, off in own if off <= level)
            for number, place, judged, off in wrong:
                at = bisect(here, number)       # no other lies nearer than these two
                if off <= level and any(
                        scale_for(one, tolerance=exercise.tolerance, absolute=absolute).is_right(number, one)
                        for one in here[max(0, at - 1):at + 1]):
                    yield place, judged, level

    def _from_own(self, exercise, history):
        """(what each own answer to the exercise before leads to, in the asked unit; per cent off)."""
        before, offs, found = exercise.follows, {}, []
        for _, judged, off in history.handed_in(self.records[before.id]):
            earlier = before.typed(judged)
            if before.size[0] <= earlier <= before.size[1]:
                offs[earlier] = min(off, offs.get(earlier, off))
        for earlier, off in offs.items():
            try:
                in_si = earlier * read_unit(before.unit).factor
                number = replace(self.drawn[exercise.id], own_earlier=in_si).answer
            except (ArithmeticError, ValueError):
                continue        # the formula has no answer there
            if math.isfinite(number) and number != 0:
                found.append((number, off))
        return found

    def _of_texts(self, exercise, history, **basis):
        """The best of what was marked by hand; a mark belongs to the text that its marker saw."""
        texts, by_hand = history.texts(self.records[exercise.id]), self._by_hand.get(exercise.id, {})
        shown = to_mark(texts)
        by_hand = {text_id or shown[-1].id: marks for text_id, marks in by_hand.items()}
        marks = {one.id: by_hand[one.id] for one in texts if one.id in by_hand}
        basis["because"]["marks by hand"] = short(by_hand)
        if not marks:
            return Outcome(marks=None, how="to mark", answer=shown[-1].text,
                           waiting=tuple(one.id for one in shown), **basis)
        best = max((one for one in texts if one.id in marks), key=lambda one: priced(marks[one.id], one.off))
        counts = priced(marks[best.id], best.off)
        waiting = tuple(one.id for one in shown if one.id not in marks and priced(basis["most"], one.off) > counts)
        return Outcome(marks=counts, earned=marks[best.id], off=best.off, how="marked by hand", answer=best.text,
                       note="Another text of yours waits for reading." if waiting else "", waiting=waiting, **basis)
