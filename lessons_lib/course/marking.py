"""From the events of a bench to its marks: computed again from what was given out; no verdict in a return counts."""
import hashlib
import json
import math
from dataclasses import dataclass, replace

from lessons_lib.exercises.checking import judge, shown_entry
from lessons_lib.exercises.draws import named_slips
from lessons_lib.exercises.function_parts import slips_claimed
from lessons_lib.exercises.history import History
from lessons_lib.exercises.sealing import scale_for
from lessons_lib.exercises.units import into, read_unit
from lessons_lib.exercises.verdicts import State


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """What an exercise earned: *marks* of *most*, None for a text that waits for its marker.

    *how* says it in a few words, *answer* is the one that counted, *note* the sentence beside it. *because* maps what
    the marks rest on (answers, settings, version, marks by hand) to something that changes when it does.
    """

    marks: float | None
    most: float
    how: str
    answer: str = ""
    note: str = ""
    because: dict


class ReturnedHistory(History):
    """The history of a lesson in returned *events*, in their order; every answer is judged once."""

    def __init__(self, events, lesson):
        super().__init__(None, lesson)
        self._by_exercise, self._judged = {}, {}
        for place, event in enumerate(events):
            self._by_exercise.setdefault(event["exercise"], []).append((place, event))

    def placed(self, exercise_id, record):
        """Return (place among all events, judgement) of every readable answer."""
        if exercise_id not in self._judged:
            judged = ((place, judge(exercise_id, record, *_answer(event)))
                      for place, event in self._by_exercise.get(exercise_id, ()) if event["event"] == "answer")
            self._judged[exercise_id] = [(place, one) for place, one in judged if one.is_readable]
        return self._judged[exercise_id]

    def answers(self, exercise_id, record):
        """Return the judgements on the readable answers, in their order."""
        return [one for _, one in self.placed(exercise_id, record)]

    def told(self, exercise_id, event):
        """Return the events of one kind on an exercise, in their order."""
        return self._events(exercise_id, event)

    def _events(self, exercise_id, event):
        return [one for _, one in self._by_exercise.get(exercise_id, ()) if one["event"] == event]


def _answer(event):
    """Value, unit and readings, as far as they are there."""
    return event["value"], event.get("unit"), event.get("readings")


class Marker:
    """Marks one *lesson* for one bench.

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
        Exercise id -> marks of open texts.

    Attributes
    ----------
    records : dict
        Exercise id -> what the bench's sheet holds of it.
    drawn : dict
    """

    def __init__(self, lesson, sheet, drawn, settings, by_hand):
        self._lesson, self.records, self.drawn = lesson, sheet["exercises"], drawn
        self._settings, self._by_hand, self._slips = settings, by_hand, {}

    def history(self, events):
        """Return the `ReturnedHistory` of merged *events*."""
        return ReturnedHistory(events, self._lesson.id)

    def outcomes(self, history):
        """Return exercise id -> `Outcome` of every exercise that carries marks."""
        return {exercise.id: self._outcome(exercise, history)
                for exercise in self._lesson.exercises if self._settings.most_marks(exercise)}

    def texts(self, history):
        """Return exercise id -> the last open text."""
        answers = {exercise.id: history.answers(exercise.id, self.records[exercise.id])
                   for exercise in self._lesson.exercises if exercise.kind == "text"}
        return {exercise_id: given[-1].entry["value"] for exercise_id, given in answers.items() if given}

    def slips(self, exercise, judged):
        """Return the names of the slips that a wrong answer fits; nothing for kinds that know none."""
        key = exercise.id, judged.try_name
        if key not in self._slips:
            self._slips[key] = self._slips_of(exercise, judged)
        return self._slips[key]

    def _slips_of(self, exercise, judged):
        if exercise.kind == "number":
            return slips_met(self.drawn[exercise.id], _in_asked_unit(exercise, judged))
        if exercise.kind == "function":
            return slips_claimed(exercise, judged.entry["value"])
        return list(judged.slips)

    def share_of_right(self, exercise, judged):
        """Return a number over the right one, its distance where tolerances are widths; None for other kinds."""
        if exercise.kind != "number":
            return None
        number, right = _in_asked_unit(exercise, judged), self.drawn[exercise.id].answer
        return number - right if read_unit(exercise.unit).absolute else number / right

    def _outcome(self, exercise, history):
        answers = history.answers(exercise.id, self.records[exercise.id])
        most = self._settings.most_marks(exercise)
        because = {"answers": _short([one.entry for one in answers]), "settings": self._settings_of(exercise),
                   "version": self._lesson.version}
        if not answers:
            return Outcome(marks=0, most=most, how="not answered", because=because)
        counted = _counted(answers)
        marks, how, note = (most, "right", None) if counted.state == State.RIGHT else _WAYS[exercise.kind](
            self, exercise, counted, history)
        if note is None:
            general = history.general_note(exercise.id, self.records[exercise.id], counted)
            note = f"{general} {counted.text}".strip()
        if exercise.kind == "text":
            because["marks by hand"] = marks
        return Outcome(marks=marks, most=most, how=how, note=note, because=because,
                       answer=_shown(self.records[exercise.id], counted))

    def _settings_of(self, exercise):
        settings = self._settings
        return _short([settings.most_marks(exercise), getattr(exercise, "tolerance", None),
                       settings.slip_marks.get(exercise.id), settings.carried_forward])

    def _number(self, exercise, counted, history):
        if self._fits_own_earlier(exercise, counted, history):
            return self._settings.most_marks(exercise) * self._settings.carried_forward, "carried forward", (
                f"Marked with your own answer to {exercise.follows.id}: from there on the method is right.")
        return self._by_slips(exercise, counted, history)

    def _by_slips(self, exercise, counted, history):
        slips = self.slips(exercise, counted)
        marks = [self._settings.slip_marks.get(exercise.id, {}).get(name, 0) for name in slips]
        return (min(self._settings.most_marks(exercise), max(marks, default=0)),
                f"slip: {', '.join(slips)}" if slips else str(counted.state), None)

    def _fits_own_earlier(self, exercise, counted, history):
        """Whether the answer is right by the student's own answer to the exercise that this one follows."""
        before = exercise.follows
        answers = before and history.answers(before.id, self.records[before.id])
        if not answers:
            return False
        earlier = _in_asked_unit(before, _counted(answers))
        if not before.size[0] <= earlier <= before.size[1]:
            return False
        try:
            own = replace(self.drawn[exercise.id], own_earlier=earlier * read_unit(before.unit).factor).answer
        except (ArithmeticError, ValueError):
            return False
        if not math.isfinite(own) or own == 0:
            return False
        scale = scale_for(own, tolerance=exercise.tolerance, absolute=read_unit(exercise.unit).absolute)
        return scale.is_right(_in_asked_unit(exercise, counted), own)

    def _design(self, exercise, counted, history):
        """Each limit that is met has an even share; the model computes the returned numbers again."""
        marks = round(counted.share * self._settings.most_marks(exercise), 4)
        return marks, f"{counted.share:.0%} of the limits met", None

    def _text(self, exercise, counted, history):
        marks = self._by_hand.get(exercise.id)
        return marks, "to mark" if marks is None else "marked by hand", ""


# kind -> (marks, how, note) of an answer that is not right; a note of None is what the page said
_WAYS = {"number": Marker._number, "choice": Marker._by_slips, "text": Marker._text,
         "function": Marker._by_slips, "design": Marker._design, "measured": Marker._by_slips}


def _counted(answers):
    """Once right, right; otherwise the last readable one."""
    return next((one for one in reversed(answers) if one.state == State.RIGHT), answers[-1])


def _in_asked_unit(exercise, judged):
    return into(judged.entry["value"], judged.entry["unit"], exercise.unit)


def _shown(record, judged):
    return judged.entry["value"] if record["kind"] == "text" else shown_entry(record, judged.entry)


def slips_met(drawn, number):
    """Return the names of the slips that a *number* in the asked unit fits; common ones only where no own slip fits."""
    scale, own = drawn.scale, {slip.name for slip in drawn.exercise.slips}
    fitting = [name for name, slip in named_slips(drawn) if drawn.tells(slip) and scale.bin(number) in
               scale.bins_of_slip(slip)]
    return list(dict.fromkeys([name for name in fitting if name in own] or fitting))


def _short(content):
    return hashlib.sha256(json.dumps(content, sort_keys=True).encode()).hexdigest()[:8]
