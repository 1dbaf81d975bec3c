"""The folder of marks: its tables and each bench's page of notes; all files of a run are moved into place together."""
import os
import shutil

from lessons_lib.base.pages import page_bytes
from lessons_lib.course.earlier_marks import OPEN_QUESTIONS_HEAD, open_question_rows
from lessons_lib.course.tables import table_bytes


class Staged:
    """New files below *folder*; as a context manager it moves them into place at its end.

    Where writing fails (no space left, a folder that may not be written), what was there before stays as it was. Where
    a run is killed between two moves, the next run writes and moves all of them again.
    """

    def __init__(self, folder):
        self._folder, self._beside, self._gone, self._last = folder, {}, [], set()

    def __enter__(self):
        for left_over in self._folder.rglob("*.new"):
            left_over.unlink()
        return self

    def place(self, name, begin_as=None):
        """Return the path where the coming content of file *name* is written, begun as a copy of *begin_as*.

        A file that was begun as a copy is moved into place after all others.
        """
        target = self._folder / name
        self._beside[target] = beside = target.with_name(target.name + ".new")
        try:
            beside.parent.mkdir(parents=True, exist_ok=True)
            if begin_as:
                self._last.add(target)
                if begin_as.exists():
                    shutil.copyfile(begin_as, beside)
        except OSError as error:
            raise _refused(target, error) from None
        return beside

    def write(self, name, data):
        """Write the coming content of file *name*, bytes."""
        beside = self.place(name)
        try:
            beside.write_bytes(data)
        except OSError as error:
            raise _refused(self._folder / name, error) from None

    def remove(self, name):
        """Have the file *name* removed at the end."""
        self._gone.append(self._folder / name)

    def __exit__(self, kind, error, trace):
        if kind is not None:
            self._drop()
            named = getattr(error, "filename", None)       # a file that was only read is none of these
            is_read = isinstance(named, (str, os.PathLike)) and not os.fspath(named).endswith(".new")
            if isinstance(error, OSError) and not is_read:
                raise _refused(self._folder, error) from None
            return
        # tables before pages, and what was begun as a copy last
        for target in sorted(self._beside, key=lambda target: (target in self._last, len(target.parts))):
            os.replace(self._beside[target], target)
        for path in self._gone:
            path.unlink(missing_ok=True)

    def _drop(self):
        for beside in self._beside.values():
            try:
                beside.unlink(missing_ok=True)
            except OSError:
                pass    # where nothing may be written, nothing may be removed


def _refused(path, error):
    return ValueError(f"{path} could not be written: {error.strerror or error}. What was in {path.parent} before is "
                      "unchanged. Make room or choose another place, then run this again.")


class MarksFiles:
    """Collects the rows of one run, bench by bench, and writes them into a `Staged` folder.

    *late* says whether lateness has a column.
    """

    def __init__(self, course, lessons, staged, late):
        self._course, self._staged, self._late = course, staged, late
        most_marks = course.settings.most_marks
        marked = {lesson_id: {one.id: most_marks(one) for one in lesson.exercises if most_marks(one)}
                  for lesson_id, lesson in lessons.items()}
        self._marked = {lesson_id: exercises for lesson_id, exercises in marked.items() if exercises}
        self._rows, self._texts, self._pages = [], [], set()
        self.waiting = 0

    def add(self, bench, found, cells, comments):
        """Take the marks of a bench, lesson id -> `LessonMarks`.

        *cells* and *comments* are (bench, exercise) -> id of a text -> what its marker typed.
        """
        said = {}
        self._rows.append(self._row(bench, found))
        for one in found.values():
            for exercise_id, texts in one.texts.items():
                if outcome := one.outcomes.get(exercise_id):
                    typed = [column.get((bench, exercise_id), {}) for column in (cells, comments)]
                    self._texts += open_question_rows(bench, exercise_id, outcome, texts, *typed)
                    said[exercise_id] = [typed[1][text.id] for text in texts if typed[1].get(text.id)]
                    self.waiting += len(outcome.waiting)
        if found:
            self._pages.add(f"{bench}.html")
            self._staged.write(f"notes/{bench}.html", page_bytes(
                "course/templates/notes.html", course=self._course.settings.title, bench=bench,
                lessons=[_lesson_notes(one, said) for one in found.values() if one.outcomes or one.without_marks]))

    def _row(self, bench, found):
        totals = [found[lesson_id].total for lesson_id in self._marked if lesson_id in found]
        row = [bench, sum(totals) if totals else None]
        for lesson_id, exercises in self._marked.items():
            one = found.get(lesson_id)
            row += [one and one.total, *([one and one.late_percent] if self._late else []),
                    one and " ".join(one.checks)]
            outcomes = [one and one.outcomes.get(name) for name in exercises]
            row += [each and ("to mark" if each.marks is None else each.marks) for each in outcomes]
        return row

    def _head(self):
        head = ["bench", f"total (of {sum(sum(one.values()) for one in self._marked.values()):g})"]
        for lesson_id, exercises in self._marked.items():
            head += [f"lesson {lesson_id} (of {sum(exercises.values()):g})",
                     *([f"{lesson_id} late %"] if self._late else []),
                     f"{lesson_id} check code", *(f"{name} (of {most:g})" for name, most in exercises.items())]
        return head

    def write(self, unclear, not_read):
        """Write the tables; pages of benches that have none any more go."""
        self._table("marks.csv", self._head(), self._rows)
        self._table("open_questions.csv", OPEN_QUESTIONS_HEAD, self._texts)
        self._table("unclear.csv", ("lesson", "exercise", "bench", "line"), unclear)
        self._table("not_read.csv", ("file", "why"), not_read)
        for path in (self._course.folder / "marks" / "notes").glob("b*.html"):
            if path.name not in self._pages:
                self._staged.remove(f"notes/{path.name}")

    def _table(self, name, head, rows):
        self._staged.write(name, table_bytes(head, rows, decimal_comma=self._course.settings.decimal_comma))


def _lesson_notes(marks, comments):
    """A lesson on a page of notes, from its `LessonMarks` and exercise id -> what a marker wrote to the student."""
    rows = []
    for exercise_id, outcome in marks.outcomes.items():
        head = outcome.how.partition(":")[0]
        head = "Not yet" if head == "slip" else f"{head[:1].upper()}{head[1:]}"
        late = f"{outcome.off:g} % was taken off because it came late." if outcome.off and outcome.earned else ""
        says = " ".join(filter(None, (f"{head}.", outcome.note, late)))
        rows.append({"called": marks.lesson[exercise_id].called, "outcome": outcome, "says": says,
                     "comments": comments.get(exercise_id, ())})
    beside = [f"{exercise_id} {'handed in' if outcome.marks is None else outcome.how.partition(':')[0]}"
              for exercise_id, outcome in marks.without_marks.items()]
    return {"marks": marks, "rows": rows, "waits": any(one.marks is None for one in marks.outcomes.values()),
            "all_late": all(marks.offs.values()), "beside": [one.replace(" slip", " not yet") for one in beside]}
