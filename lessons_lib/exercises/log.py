"""The log of a bench, one line of JSON per event, appended at once, never rewritten; and what it says of a lesson."""
import json
import secrets
from contextlib import suppress
from datetime import datetime

from lessons_lib.exercises.work_folder import make_private


class Log:
    """Events of one bench in the file *path*, which is made with the first event.

    Events that could not be written are kept in memory, so that the lesson goes on.
    """

    def __init__(self, path):
        self._path = path
        self._unwritten = []

    def events(self):
        """Return the readable events in their order."""
        try:
            lines = self._path.read_bytes().split(b"\n")
        except OSError:
            lines = []
        found = []
        for line in lines:
            with suppress(ValueError, RecursionError):      # torn or damaged
                found.append(json.loads(line))
        return [*(event for event in found if isinstance(event, dict)), *self._unwritten]

    def add(self, event, *, lesson, exercise, after, **what):
        """Append one event, numbered after the events *after* which it comes; return what `save` returns."""
        number = 1 + max((known["number"] for known in after if type(known.get("number")) is int), default=0)
        entry = {"id": secrets.token_hex(8), "number": number,
                 "time": datetime.now().astimezone().isoformat(timespec="seconds"),
                 "event": event, "lesson": lesson, "exercise": exercise, **what}
        self._unwritten.append(entry)
        return self.save()

    def save(self):
        """Write what is not yet written; return an empty text, or a sentence saying why it could not be kept."""
        try:
            while self._unwritten:
                self._append(self._unwritten[0])
                del self._unwritten[0]
        except OSError as error:
            return (f"This could not be saved in the folder {self._path.parent} "
                    f"({error.strerror or 'access was refused'}), and will be lost when the page closes.")
        return ""

    def _append(self, entry):
        line = json.dumps(entry, ensure_ascii=True, allow_nan=False).encode() + b"\n"
        make_private(self._path.parent)
        with open(self._path, "ab", buffering=0) as file:
            # after a torn last line the new one starts on its own
            file.write(line if ends_whole(self._path) else b"\n" + line)


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
        if not self._repeats(record["id"], "answer", judged.entry):
            self.answers(record).append(judged)
        return self.keep(log, record["id"], "answer", judged.entry)

    def _repeats(self, exercise_id, event, entry):
        last = next(reversed(self._events(exercise_id, event)), None)
        return last is not None and all(last.get(name) == value for name, value in entry.items())

    def answers(self, record):
        """Return the judgements on the readable answers, in their order."""
        if record["id"] not in self._judged:
            self._judged[record["id"]] = [judged for event in self._events(record["id"], "answer")
                                          if (judged := read_again(record, event))]
        return self._judged[record["id"]]

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
        # of all answers: the bin of a try that is judged as far off may reach over the limit, to one that is not
        unmatched = list(dict.fromkeys(one.try_name for one in self.answers(record) if one.unmatched))
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


def ends_whole(path):
    """Return whether the last line of a file has its end; an empty file has nothing torn."""
    with open(path, "rb") as file:
        if not file.seek(0, 2):
            return True
        file.seek(-1, 2)
        return file.read(1) == b"\n"


def read_again(record, event):
    """Return the judgement on a logged answer to the exercise of a record; None where it cannot be read."""
    try:
        return record.judge(event.get("value"), event.get("unit"), event.get("readings"))
    except ValueError:
        return None
