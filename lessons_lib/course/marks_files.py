"""The files of the marks folder: a row a bench, texts side by side, a page a student."""
from lessons_lib.course import open_questions
from lessons_lib.course.notes import notes_page
from lessons_lib.course.tables import table_bytes


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
                    self._texts += open_questions.rows(bench, exercise_id, outcome, texts, *typed)
                    said[exercise_id] = [typed[1][text.id] for text in texts if typed[1].get(text.id)]
                    self.waiting += len(outcome.waiting)
        if found:
            self._pages.add(f"{bench}.html")
            self._staged.write(f"notes/{bench}.html", notes_page(self._course, bench, found, said))

    def _row(self, bench, found):
        totals = [found[lesson_id].total for lesson_id in self._marked if lesson_id in found]
        row = [bench, sum(totals) if totals else None]
        for lesson_id, exercises in self._marked.items():
            one = found.get(lesson_id)
            row += [one and one.total, *([one and one.late_percent] if self._late else []),
                    one and " ".join(one.checks)]
            row += [one and _cell(one.outcomes.get(name)) for name in exercises]
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
        self._table("open_questions.csv", open_questions.HEAD, self._texts)
        self._table("unclear.csv", ("lesson", "exercise", "bench", "line"), unclear)
        self._table("not_read.csv", ("file", "why"), not_read)
        for path in (self._course.folder / "marks" / "notes").glob("b*.html"):
            if path.name not in self._pages:
                self._staged.remove(f"notes/{path.name}")

    def _table(self, name, head, rows):
        self._staged.write(name, table_bytes(head, rows, decimal_comma=self._course.settings.decimal_comma))


def _cell(outcome):
    if outcome is None:
        return None
    return "to mark" if outcome.marks is None else outcome.marks
