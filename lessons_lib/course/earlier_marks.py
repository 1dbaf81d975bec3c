"""Earlier marks: kept whenever something changed, so that the next run can say what moved and why."""
import json
from datetime import datetime

_REASONS = {"answers": "other answers were returned",
            "earlier answers": "other answers to the exercise before it were returned",
            "settings": "its settings changed", "version": "the model answers have a new version",
            "marks by hand": "marked by hand"}
_LATE, _RULES = "the time of receipt or the rule for lateness changed", "the rules of marking are newer (README)"


class EarlierMarks:
    """The file ``history.jsonl`` of the marks folder: one line for each bench and lesson whose marks changed in a run.

    The last line of a bench and lesson is how they stand. Only the places of these lines are kept in memory.

    Attributes
    ----------
    texts : dict
        (bench, exercise) -> {"text": id of the open text that was shown last, "cells": id of a text -> what its marker
        had typed}.
    """

    def __init__(self, path):
        self._path, self._places, self.texts = path, {}, {}
        self._time = datetime.now().astimezone().isoformat(timespec="seconds")
        for place, entry in _entries(path):
            bench, lesson = entry["bench"], entry["lesson"]
            self._places[bench, lesson] = place
            for exercise_id, kept in entry["texts"].items():
                self.texts[bench, exercise_id] = _of_today(kept)

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


def _of_today(kept):
    """What is kept of a text; before marks belonged to texts, it was one cell."""
    return kept if "cells" in kept else {"text": kept["text"], "cells": {kept["text"]: kept["cell"]}}


def _moved(bench, lesson, before, now):
    if before is None and now is not None:
        yield f"{bench} lesson {lesson}: returned since then, {_sum(now)} marks."
    elif now is None:
        yield f"{bench} lesson {lesson}: {_sum(before)} marks, now none; no return of it can be read any more."
    else:
        yield from _moved_in(bench, lesson, before, now)


def _moved_in(bench, lesson, before, now):
    """A sentence for each exercise; one for all together where lateness alone moved them."""
    another_rule, by_lateness = before["receipt"]["because"] != now["receipt"]["because"], []
    for name in sorted({*before, *now} - {"receipt"}):
        old, new = before.get(name), now.get(name)
        if _words(old) != _words(new):
            why = _why(old, new, another_rule)
            if why == _LATE:
                by_lateness.append((old, new))
            else:
                yield f"{bench} {name}: {_change(old, new, why)}."
    if by_lateness:
        olds, news = zip(*by_lateness)
        yield f"{bench} lesson {lesson}: {_offs(olds)}, now {_offs(news)}; {_LATE}."


def _offs(outcomes):
    found = sorted({one["off"] for one in outcomes})
    return "in time" if found == [0] else f"{' to '.join(f'{one:g}' for one in found)} % off for being late"


def _change(old, new, why):
    was, is_now = _words(old), _words(new)
    if why != _REASONS["marks by hand"]:
        return f"{was}, now {is_now}; {why}"
    return f"{why}: {new['marks']:g}" if old["marks"] is None else f"{was}, now {is_now}"


def _sum(lesson):
    return f"{round(sum(one['marks'] or 0 for one in lesson.values()), 4):g}"


def _words(one):
    if one is None:
        return "nothing"
    late = f", {one['off']:g} % off" if one.get("off") else ""
    return one["how"] if one["marks"] is None else f"{one['marks']:g} ({one['how']}{late})"


def _why(old, new, another_rule):
    if old is None:
        return "it carries marks now"
    if new is None:
        return "it carries no marks any more"
    if old["because"].get("rules") != new["because"].get("rules"):
        return _RULES       # what else changed cannot be told from what was kept then
    changed = [reason for name, reason in _REASONS.items() if old["because"].get(name) != new["because"].get(name)]
    if _REASONS["marks by hand"] in changed:        # another text alone moves nothing
        changed = [reason for reason in changed if reason != _REASONS["answers"]]
    if old["off"] != new["off"] and (another_rule or not changed):
        changed.append(_LATE)
    return " and ".join(changed) or "the model answers changed under the same version"
