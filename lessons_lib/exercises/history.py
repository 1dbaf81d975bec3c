"""What a bench did in one lesson, read from its log: tries, predictions, how far each exercise is."""


class History:
    """What a bench's log says of one *lesson*: a snapshot of its *events*, in their order; each answer is judged once.

    Nothing is remembered beside the log: the next look takes a new snapshot.
    """

    def __init__(self, events, lesson):
        self._all, self._lesson, self._judged = list(events), lesson, {}

    def keep(self, log, exercise_id, event, entry):
        """Log an entry unless it repeats the last one; return an empty text or why it could not be kept."""
        if self._repeats(exercise_id, event, entry):
            return log.save()
        lost = log.add(event, lesson=self._lesson, exercise=exercise_id, after=self._all, **entry)
        self._all.append({"event": event, "lesson": self._lesson, "exercise": exercise_id, **entry})
        return lost

    def keep_answer(self, log, record, judged):
        """Log a judged answer, as `keep` does."""
        if not self._repeats(record.id, "answer", judged.entry):
            self.answers(record).append(judged)
        return self.keep(log, record.id, "answer", judged.entry)

    def _repeats(self, exercise_id, event, entry):
        last = next(reversed(self._events(exercise_id, event)), None)
        return last is not None and all(last.get(name) == value for name, value in entry.items())

    def answers(self, record):
        """Return the judgements on the readable answers, in their order."""
        if record.id not in self._judged:
            judged = (record.judge(event.get("value"), event.get("unit"), event.get("readings"))
                      for event in self._events(record.id, "answer"))
            self._judged[record.id] = [one for one in judged if one.is_readable]
        return self._judged[record.id]

    def tries(self, record):
        """Return try name -> first judgement with it, in the order of the tries."""
        tries = {}
        for judged in self.answers(record):
            tries.setdefault(judged.try_name, judged)
        return tries

    def general_note(self, record, judged):
        """Return the general note that is due where no slip fits, else an empty text; each new try opens the next."""
        if not judged.unmatched:
            return ""
        unmatched = [name for name, one in self.tries(record).items() if one.unmatched]
        return record["notes"][min(unmatched.index(judged.try_name), len(record["notes"]) - 1)]

    def lesson_events(self):
        """Return every event of the lesson, in order."""
        return [event for event in self._all if event.get("lesson") == self._lesson]

    def last_choice(self, exercise_id, event, options):
        """Return the last event with one of the *options*' letters, or None."""
        return next((kept for kept in reversed(self._events(exercise_id, event))
                     if kept.get("choice") in list(options)), None)

    def _events(self, exercise_id, event):
        return [one for one in self.lesson_events() if (one.get("exercise"), one.get("event")) == (exercise_id, event)]
