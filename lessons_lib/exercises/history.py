"""What a bench did in one lesson, read from its log: tries, predictions, how far each exercise is."""
from lessons_lib.exercises import reading
from lessons_lib.exercises.checking import judge
from lessons_lib.exercises.verdicts import State

_TRIES_BEFORE_WORKED = 3
_WORDS_BEFORE_WORKED = 20


class History:
    """The events of one *lesson* in a bench's *log*; nothing is remembered beside the log."""

    def __init__(self, log, lesson):
        self._log, self._lesson = log, lesson

    def keep(self, exercise_id, event, entry):
        """Log an entry unless it repeats the last one; return an empty text or why it could not be kept."""
        last = next(reversed(self._events(exercise_id, event)), {})
        if last and all(last.get(name) == value for name, value in entry.items()):
            return self._log.save()
        return self._log.add(event, lesson=self._lesson, exercise=exercise_id, **entry)

    def answers(self, exercise_id, record):
        """Return the judgements on the readable answers, in their order."""
        judged = (judge(exercise_id, record, event.get("value"), event.get("unit"), event.get("readings"))
                  for event in self._events(exercise_id, "answer"))
        return [one for one in judged if one.is_readable]

    def tries(self, exercise_id, record):
        """Return try name -> first judgement with it, in the order of the tries."""
        tries = {}
        for judged in self.answers(exercise_id, record):
            tries.setdefault(judged.try_name, judged)
        return tries

    def unmatched_tries(self, exercise_id, record):
        """Return the names of the tries that no slip fits, in their order."""
        return [name for name, judged in self.tries(exercise_id, record).items() if judged.unmatched]

    def general_note(self, exercise_id, record, judged):
        """Return the general note that is due where no slip fits, else an empty text; each new try opens the next."""
        if not judged.unmatched:
            return ""
        place = self.unmatched_tries(exercise_id, record).index(judged.try_name)
        return record["notes"][min(place, len(record["notes"]) - 1)]

    def all_events(self):
        """Return every event of the lesson, in order."""
        return self._log.events(self._lesson)

    def last_choice(self, exercise_id, event, options):
        """Return the last event with one of the *options*' letters, or None."""
        return next((kept for kept in reversed(self._events(exercise_id, event))
                     if kept.get("choice") in list(options)), None)

    def how_far(self, exercise_id, record):
        """Return (state, number of tries) of an exercise: once right, right; once a text is long enough, kept."""
        if record["kind"] == "prediction":
            made = self.last_choice(exercise_id, "prediction", record["options"])
            return State.KEPT if made else State.NOT_ANSWERED, 0
        states = [judged.state for judged in self.tries(exercise_id, record).values()]
        best = next((state for state in (State.RIGHT, State.KEPT) if state in states), None)
        return best or (states[-1] if states else State.NOT_ANSWERED), len(states)

    def still_to_do(self, exercise_id, record):
        """Return what is to be done before the worked answer opens, in one sentence; an empty text where it is open."""
        tries = self.tries(exercise_id, record)
        if record["kind"] == "text":
            longest = max((reading.words(text) for text in tries), default=0)
            return "" if longest >= _WORDS_BEFORE_WORKED else (
                f"It opens once you have written {_WORDS_BEFORE_WORKED} words of your own.")
        if len(tries) >= _TRIES_BEFORE_WORKED or any(one.state == State.RIGHT for one in tries.values()):
            return ""
        return f"It opens after {_TRIES_BEFORE_WORKED} different tries; you have made {len(tries)}."

    def _events(self, exercise_id, event):
        return [one for one in self._log.events(self._lesson, exercise_id) if one.get("event") == event]
