"""``marks-table``: marks with names and all that the class list knows, for a college's own system."""
import re

from lessons_lib.base.words import plural
from lessons_lib.course.class_list import read_class_list
from lessons_lib.course.tables import lines_in

FOLDER = "with_names"       # what has names in it is here and nowhere else
_TO_MARK = "to mark"


class NamedMarks:
    """The marks of one course's last marking, student by student.

    Attributes
    ----------
    students : list of Student
    headings : list of str
        Of the class list, as typed there, and *marked*, those of marks.csv without the bench.
    """

    def __init__(self, course):
        self.course, self.students = course, read_class_list(course)
        self.marked, self._rows = _marks(course)
        self.headings = list(self.students[0].cells)

    def row(self, student):
        """Return heading -> cell of a student: the class list's, ``bench``, and the marks.

        Of several benches of one student that one counts, lesson by lesson, which has more marks.
        """
        rows = [self._rows[bench] for bench in student.benches if self._returned(bench)]
        return {**student.cells, "bench": ", ".join(student.benches), **(self._joined(rows) if rows else {})}

    def _returned(self, bench):
        return any(cell is not None for cell in self._rows.get(bench, {}).values())

    def _joined(self, rows):
        if len(rows) == 1:
            return rows[0]
        joined, total = {}, 0.0
        for lesson in self.lessons:
            best = max(rows, key=lambda row: -1.0 if row[lesson] is None else row[lesson])
            joined |= {heading: best[heading] for heading in self.of_lesson(lesson)}
            total += best[lesson] or 0.0
        return {**({self.marked[0]: total} if self.marked else {}), **joined}

    @property
    def lessons(self):
        """The headings with the marks of a whole lesson."""
        return [heading for heading in self.marked if heading.startswith("lesson ")]

    def of_lesson(self, lesson):
        """Return the headings that belong to a lesson, its own first: all up to the next one's."""
        start = self.marked.index(lesson)
        later = [self.marked.index(other) for other in self.lessons if self.marked.index(other) > start]
        return self.marked[start:min(later, default=len(self.marked))]

    def remarks(self):
        """Return sentences on what is not in these marks yet."""
        new = [bench for student in self.students for bench in student.benches if bench not in self._rows]
        waiting = sum(cell == _TO_MARK for row in self._rows.values() for cell in row.values())
        title = self.course.settings.title
        return [*([f"{title}: {', '.join(new)} came to the class list after the last marking. Mark again."]
                  if new else []),
                *([f"{title}: {waiting} {plural(waiting, 'text is', 'texts are')} not yet marked, so not yet in the "
                   "totals."] if waiting else [])]


def _marks(course):
    """(headings after the bench, bench -> heading -> cell) of marks.csv."""
    path = course.folder / "marks" / "marks.csv"
    if not path.exists():
        raise ValueError(f"There are no marks in {course.folder} yet. Mark first.")
    _, ((_, head), *lines) = lines_in(path.read_bytes())
    return head[1:], {cells[0]: dict(zip(head[1:], map(_value, cells[1:]))) for _, cells in lines}


def _value(cell):
    """A number as a number, so that it is written as the settings want it; None for an empty cell."""
    try:
        return float(cell.replace(",", "."))
    except ValueError:
        return cell or None


def marks_table(courses, columns=()):
    """Return (head, rows, remarks) of the marks with names of one or several courses.

    Parameters
    ----------
    courses : list of Course
        Of several, each row begins with its course's title.
    columns : sequence of str
        Headings of the class list or of marks.csv, capitals and " (of 13)" left out or not; without any, those of the
        class list with the total and the lessons.

    Raises
    ------
    ValueError
        For a column that no course has, or a course without marks; the message is one sentence.
    """
    tables = [NamedMarks(course) for course in courses]
    chosen = _chosen(tables, columns)
    titles = _titles(courses)
    rows = []
    for table, title in zip(tables, titles):
        for student in table.students:
            row = table.row(student)
            rows.append([*([title] if len(tables) > 1 else []), *(_first(row, names) for names in chosen)])
    head = [*(["course"] if len(tables) > 1 else []), *(_heading(names) for names in chosen)]
    return head, rows, [remark for table in tables for remark in table.remarks()]


def _chosen(tables, columns):
    """For each column the headings that it has in the courses."""
    own = list(dict.fromkeys(heading for table in tables for heading in ("bench", *table.headings)))
    marked = list(dict.fromkeys(heading for table in tables for heading in table.marked))
    if not columns:
        totals = [heading for heading in marked if heading.startswith(("total", "lesson "))]
        return [*_alike(own).values(), *_alike(totals).values()]
    known = _alike([*own, *marked])
    chosen = []
    for column in columns:
        if _short(column) not in known:
            there = ", ".join(map(_heading, known.values()))
            raise ValueError(f'There is no column "{column[:40]}"; there are {there}.')
        chosen.append(known[_short(column)])
    return chosen


def _alike(headings):
    """Short name -> headings with it: two courses may give a lesson different marks."""
    known = {}
    for heading in headings:
        known.setdefault(_short(heading), []).append(heading)
    return known


def _short(heading):
    bare = re.sub(r" \(of [\d.,]+\)$", "", " ".join(heading.lower().split()))
    return re.sub(r"^lesson (\d)$", r"lesson 0\1", bare)


def _heading(names):
    return names[0] if len(names) == 1 else _short(names[0])


def _first(row, names):
    return next((row[name] for name in names if row.get(name) not in (None, "")), None)


def _titles(courses):
    titles = [course.settings.title for course in courses]
    return titles if len(set(titles)) == len(titles) else [course.folder.resolve().name for course in courses]


def write_marks_table(courses, columns=()):
    """Write the table of `marks_table` into the first course's folder with_names; return (path, rows, remarks)."""
    head, rows, remarks = marks_table(courses, columns)
    name = f"{FOLDER}/marks.csv" if len(courses) == 1 else f"{FOLDER}/joint_marks.csv"
    with courses[0].busy():
        courses[0].write_table(name, head, rows)
    return courses[0].folder / name, len(rows), remarks
