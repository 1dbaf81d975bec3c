"""Earlier marks: kept whenever something changed, so that the next run can say what moved and why."""
import json
from datetime import datetime

_REASONS = {"answers": "other answers were returned", "settings": "its settings changed",
            "version": "the model answers have a new version", "marks by hand": "marked by hand",
            "late": "the time of receipt or the rule for lateness changed"}


class EarlierMarks:
    """The file ``history.jsonl`` of the marks folder: one line for each bench and lesson whose marks changed in a run.

    The last line of a bench and lesson is how they stand. Only the places of these lines are kept in memory.

    Attributes
    ----------
    texts : dict
        (bench, exercise) -> {"text": digest of the open text, "cell": what its marker had typed}.
    """

    def __init__(self, path):
        self._path, self._places, self.texts = path, {}, {}
        self._time = datetime.now().astimezone().isoformat(timespec="seconds")
        for place, entry in _entries(path):
            bench, lesson = entry["bench"], entry["lesson"]
            self._places[bench, lesson] = place
            for exercise_id, kept in entry["texts"].items():
                self.texts[bench, exercise_id] = kept

    @property
    def is_empty(self):
        """Whether nothing was ever marked here."""
        return not self._places

    def others(self, marked):
        """Return every (bench, lesson) that has marks and is not among those *marked* now."""
        return sorted(where for where in set(self._places) - set(marked) if self._last(*where)["marks"] is not None)

    def compare(self, bench, lesson, marks, texts):
        """Return (line to append or nothing, sentences on what moved) for the marks of one bench and lesson.

        *marks* is name (an exercise, or "receipt") -> {"marks", "how", "because"}, or None where no return is left.
        *texts* is exercise id -> what `texts` holds.
        """
        before = self._last(bench, lesson) if (bench, lesson) in self._places else {"marks": None, "texts": {}}
        if before["marks"] == marks and before["texts"] == texts:
            return b"", []
        moved = [] if self.is_empty else list(_moved(bench, lesson, before["marks"], marks))
        entry = {"time": self._time, "bench": bench, "lesson": lesson, "moved": moved, "marks": marks, "texts": texts}
        return json.dumps(entry).encode() + b"\n", moved

    def _last(self, bench, lesson):
        with open(self._path, "rb") as file:
            file.seek(self._places[bench, lesson])
            return json.loads(file.readline())


def _entries(path):
    """Yield (place, entry) of every whole line."""
    if not path.exists():
        return
    with open(path, "rb") as file:
        place = 0
        for line in file:
            try:
                entry = json.loads(line)
            except ValueError:
                entry = None
            if isinstance(entry, dict) and {"bench", "lesson", "marks", "texts"} <= set(entry):
                yield place, entry
            place += len(line)


def _moved(bench, lesson, before, now):
    if before is None and now is not None:
        yield f"{bench} lesson {lesson}: returned since then, {_sum(now)} marks."
    elif now is None:
        yield f"{bench} lesson {lesson}: {_sum(before)} marks, now none; no return of it can be read any more."
    else:
        yield from _moved_in(bench, lesson, before, now)


def _moved_in(bench, lesson, before, now):
    for name in sorted({*before, *now}):
        old, new = before.get(name), now.get(name)
        if _words(old) != _words(new):
            yield f"{bench} {f'lesson {lesson}' if name == 'receipt' else name}: {_change(old, new)}."


def _change(old, new):
    was, is_now, why = _words(old), _words(new), _why(old, new)
    if why != _REASONS["marks by hand"]:
        return f"{was}, now {is_now}; {why}"
    return f"{why}: {new['marks']:g}" if old["marks"] is None else f"{was}, now {is_now}"


def _sum(lesson):
    return f"{sum(one['marks'] or 0 for one in lesson.values()):g}"


def _words(one):
    if one is None:
        return "nothing"
    return one["how"] if one["marks"] is None else f"{one['marks']:g} ({one['how']})"


def _why(old, new):
    if old is None:
        return "it carries marks now"
    if new is None:
        return "it carries no marks any more"
    changed = [reason for name, reason in _REASONS.items() if old["because"].get(name) != new["because"].get(name)]
    return " and ".join(changed) or "the model answers changed under the same version"
