"""What the folder of marks holds from before: earlier marks, and what was typed beside open texts."""
import json
from datetime import datetime

from lessons_lib.course.tables import as_number, as_typed, numbered_rows_of
from lessons_lib.exercises.reading import words

_REASONS = {"answers": "other answers were returned",
            "earlier answers": "other answers to the exercise before it were returned",
            "settings": "its settings changed", "version": "the model answers have a new version",
            "marks by hand": "marked by hand"}
_LATE, _RULES = "the time of receipt or the rule for lateness changed", "the rules of marking are newer (README)"
OPEN_QUESTIONS_HEAD = ("which", "most", "marks", "comment", "late %", "number of words", "text", "earlier texts",
                       "text id")
_MOST_NAMED = 20
_MOST_CHARACTERS = 20_000       # characters of earlier texts: a cell of a spreadsheet holds 32 767


class EarlierMarks:
    """The file ``history.jsonl`` of the marks folder: one line for each bench and lesson whose marks changed in a run.

    The last line of a bench and lesson is how they stand. Only the places of these lines are kept in memory.

    Attributes
    ----------
    texts : dict
        (bench, exercise) -> {"text": id of the open text that was shown last, "cells": id of a text -> what its marker
        had typed}.
    begun : dict
        Lesson -> time of the run that first marked work of it, as text.
    """

    def __init__(self, path):
        self._path, self._places, self.texts, self.begun = path, {}, {}, {}
        self._time = datetime.now().astimezone().isoformat(timespec="seconds")
        for place, entry in _entries(path):
            bench, lesson = entry["bench"], entry["lesson"]
            self._places[bench, lesson] = place
            self.begun.setdefault(lesson, entry.get("time", ""))
            for exercise_id, kept in entry["texts"].items():
                # before marks belonged to texts, what was typed was one cell
                self.texts[bench, exercise_id] = kept if "cells" in kept else {
                    "text": kept["text"], "cells": {kept["text"]: kept["cell"]}}

    def others(self, marked):
        """Return every (bench, lesson) that has marks and is not among those *marked* now."""
        return sorted(where for where in set(self._places) - set(marked) if self._last(*where)["marks"] is not None)

    def compare(self, bench, lesson, marks, texts, gone="no return of it can be read any more"):
        """Return (line to append or nothing, sentences on what moved) for the marks of one bench and lesson.

        *marks* is name (an exercise, or "receipt") -> {"marks", "how", "because"}, or None where no return is left.
        *texts* is exercise id -> what `texts` holds; *gone* says why where no return is left.
        """
        before = self._last(bench, lesson) if (bench, lesson) in self._places else {"marks": None, "texts": {}}
        if before["marks"] == marks and before["texts"] == texts:
            return b"", []
        self.begun.setdefault(lesson, self._time)
        moved = list(_moved(bench, lesson, before["marks"], marks, gone)) if self._places else []
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


def _moved(bench, lesson, before, now, gone):
    """A sentence for each exercise; one for all together where lateness alone moved them, or all came or went."""
    if before is None:
        yield f"{bench} lesson {lesson}: returned since then, {_sum(now)} marks."
        return
    if now is None:
        yield f"{bench} lesson {lesson}: {_sum(before)} marks, now none; {gone}."
        return
    another_rule, by_lateness = before["receipt"]["because"] != now["receipt"]["because"], []
    for name in sorted({*before, *now} - {"receipt"}):
        old, new = before.get(name), now.get(name)
        if _in_short(old) != _in_short(new):
            why = _why(old, new, another_rule)
            if why == _LATE:
                by_lateness.append((old, new))
            else:
                by_hand = why == _REASONS["marks by hand"]
                change = f"{_in_short(old)}, now {_in_short(new)}"
                if by_hand and old["marks"] is None:
                    change = f"{why}: {new['marks']:g}"
                yield f"{bench} {name}: {change if by_hand else f'{change}; {why}'}."
    if by_lateness:
        olds, news = zip(*by_lateness)
        yield f"{bench} lesson {lesson}: {_offs(olds)}, now {_offs(news)}; {_LATE}."


def _offs(outcomes):
    found = sorted({one["off"] for one in outcomes})
    return "in time" if found == [0] else f"{' to '.join(f'{one:g}' for one in found)} % off for being late"


def _sum(lesson):
    return f"{round(sum(one['marks'] or 0 for one in lesson.values()), 4):g}"


def _in_short(one):
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


def read_open_questions(path, name="marks"):
    """Return (bench, exercise) -> id of a text -> the cell of the column *name*, as it was typed.

    The id is empty where the table has no column of ids any more: then what was typed is for the text that was shown
    last. Without a column ``comment`` nothing is said of comments. An empty dict without a file.

    Raises
    ------
    ValueError
        Where the table has not the columns it was written with; the message is one sentence.
    """
    rows, doubled = [row for _, row in numbered_rows_of(path)], []
    if rows and not {"which", "marks"} <= set(rows[0]):
        raise ValueError(f"{path} has no columns which and marks any more. Put them back, or delete the file to start "
                         "the marks of open questions again from the history.")
    cells = {}
    for row in rows:
        if " " in row["which"]:
            here = cells.setdefault(tuple(row["which"].split(" ", 1)), {})
            text_id = row.get("text id", "").removeprefix("t")
            if "" in here or here and not text_id:
                doubled.append(row["which"][:40])
            here[text_id] = row["marks"].lstrip("'") if name == "marks" else as_typed(row.get(name, ""))
    if doubled:
        raise ValueError(f"{path} has {', '.join(doubled[:_MOST_NAMED])} twice and not both text ids. Put the column "
                         "text id back, or leave one row of the two.")
    return cells if rows and name in rows[0] else {}


def rows_of_nobody(path, benches, exercises):
    """Return a sentence for each line in which something was typed and which is for no bench and exercise there is."""
    found = []
    for line, row in numbered_rows_of(path):
        bench, _, exercise_id = row["which"].partition(" ")
        typed = [f'"{cell[:40]}"' for name in ("marks", "comment") if (cell := row.get(name, ""))]
        if typed and not (bench in benches and exercise_id in exercises):
            found.append(f'{path.name}, line {line}: "{row["which"][:40]}" is no bench with an exercise of this '
                         f"course, so {' and '.join(typed)} counts nowhere.")
    return found


def marks_in(cells, most):
    """Return (id of a text -> marks, a sentence's part for each cell that holds none) of one bench's open question."""
    marks, faults = {}, []
    for text_id, cell in cells.items():
        number = as_number(cell)
        if number is not None and 0 <= number <= most:
            marks[text_id] = number
        elif cell:
            faults.append(f'"{cell[:40]}" is not a mark from 0 to {most:g}')
    return marks, faults


def open_question_rows(bench, exercise, outcome, texts, cells, comments):
    """Return the lines of the table for one bench's open question, in the order in which its *texts* came.

    A line for each `Text` that waits by its *outcome*, and for each beside which a marker typed something: *cells* and
    *comments* are id of a text -> cell. The first cell has letters, so that no spreadsheet makes a number or a date of
    it, and so has the last.
    """
    found = []
    for one in texts:
        cell, comment = cells.get(one.id, ""), comments.get(one.id, "")
        if one.id in outcome.waiting or cell or comment:
            number = as_number(cell)        # written as the settings want numbers
            found.append((f"{bench} {exercise}", outcome.most, cell if number is None else number, comment,
                          one.off or None, words(one.text), one.text, _earlier_texts(one, texts, cells), f"t{one.id}"))
    return found


def _earlier_texts(shown, texts, cells):
    """The other texts that had come by then, the last first, each with its words and its mark."""
    said, left = [], _MOST_CHARACTERS
    others = [one for one in reversed(texts) if one is not shown and one.off <= shown.off]
    for one in others:
        left -= len(one.text)
        if left < 0:
            said.append(f"[and {len(others) - len(said)} more]")
            break
        mark = f", marked {cells[one.id]}" if cells.get(one.id) else ""
        said.append(f"[{words(one.text)} words{mark}] {one.text}")
    return "\n\n".join(said)
