"""Earlier marks: kept with every run that changed something, so that the next one can say what moved and why."""
import json
from datetime import datetime

_REASONS = {"answers": "other answers were returned", "settings": "its settings changed",
            "version": "the model answers have another version", "marks by hand": "marked by hand",
            "late": "another time of receipt or rule for lateness"}


class EarlierMarks:
    """The file ``history.jsonl`` of the marks folder: one line a run, with its time; the last whole one counts."""

    def __init__(self, path):
        self._path = path
        self.last = self._read_last()

    def differences(self, marks):
        """Return what moved against the last run, one sentence each.

        *marks* is bench -> lesson -> name (an exercise, or "receipt") -> {"marks", "how", "because"}.
        """
        if self.last is None:
            return []
        before = self.last["marks"]
        return [sentence for bench in sorted({*before, *marks})
                for sentence in _moved(bench, before.get(bench, {}), marks.get(bench, {}))]

    def keep(self, marks, texts, differences):
        """Append a line if it differs from the last one."""
        entry = {"marks": marks, "texts": texts}
        if self.last is not None and {name: self.last[name] for name in entry} == entry:
            return
        line = json.dumps({"time": datetime.now().astimezone().isoformat(timespec="seconds"),
                           "moved": differences, **entry})
        torn = self._path.exists() and not self._path.read_bytes().endswith(b"\n")
        with open(self._path, "ab") as file:
            file.write(b"\n" * torn + line.encode() + b"\n")

    def _read_last(self):
        lines = self._path.read_bytes().splitlines() if self._path.exists() else []
        for line in reversed(lines):
            try:
                entry = json.loads(line)
            except ValueError:
                continue    # torn when a run was killed
            if isinstance(entry, dict) and {"marks", "texts"} <= set(entry):
                return entry
        return None


def _moved(bench, before, now):
    for id in sorted({*before, *now}):
        if id not in before:
            yield f"{bench} lesson {id}: returned since, {_sum(now[id])} marks."
        elif id not in now:
            yield f"{bench} lesson {id}: {_sum(before[id])} marks, now nothing; no return of it is read any more."
        else:
            yield from _moved_in(bench, before[id], now[id])


def _moved_in(bench, before, now):
    for name in sorted({*before, *now}):
        old, new = before.get(name), now.get(name)
        if _words(old) != _words(new):
            yield f"{bench} {name}: {_change(old, new)}."


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
