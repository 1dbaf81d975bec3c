"""What has names in it: marks beside all that the class list knows, and each student's page of notes, ready to send."""
import re
from itertools import count

from lessons_lib.base.words import plural
from lessons_lib.course.class_list import heading_of, read_class_list
from lessons_lib.course.file_names import as_compared, bare_name, is_reserved
from lessons_lib.course.tables import as_number, lines_in
from lessons_lib.exercises.sheet_file import write_whole

NAMES_FOLDER = "with_names"       # what has names in it is here and nowhere else
_BODY = re.compile(rb"(<body[^>]*>)(.*)(</body>.*)\Z", re.DOTALL)


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
        self.headings = list(self.students[0].cells)
        path = course.folder / "marks" / "marks.csv"
        if not path.exists():
            raise ValueError(f"There are no marks in {course.folder} yet. Mark first.")
        _, ((_, head), *lines) = lines_in(path.read_bytes())
        self.marked = head[1:]
        # bench -> heading -> cell: numbers as numbers, None for an empty one
        self._rows = {bench: {heading: cell or None if (number := as_number(cell)) is None else number
                              for heading, cell in zip(self.marked, cells)} for _, (bench, *cells) in lines}

    def row(self, student):
        """Return heading -> cell of a student: the class list's, ``bench``, and the marks.

        Of several benches of one student that one counts, lesson by lesson, which has more marks.
        """
        rows = [self._rows[bench] for bench in student.benches
                if any(cell is not None for cell in self._rows.get(bench, {}).values())]
        named = {**student.cells, "bench": ", ".join(student.benches)}
        if len(rows) < 2:
            return named | (rows[0] if rows else {})
        joined, total = {}, 0.0
        for lesson in self.lessons:
            best = max(rows, key=lambda row: -1.0 if row[lesson] is None else row[lesson])
            joined |= {heading: best[heading] for heading in self.of_lesson(lesson)}
            total += best[lesson] or 0.0
        return named | ({self.marked[0]: total} if self.marked else {}) | joined

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
        """Yield sentences on what is not in these marks yet."""
        new = [bench for student in self.students for bench in student.benches if bench not in self._rows]
        waiting = sum(cell == "to mark" for row in self._rows.values() for cell in row.values())
        title = self.course.settings.title
        if new:
            yield f"{title}: {', '.join(new)} came to the class list after the last marking. Mark again."
        if waiting:
            yield (f"{title}: {waiting} {plural(waiting, 'text is', 'texts are')} not yet marked, so not yet in the "
                   "totals.")


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
    titles, rows = [course.settings.title for course in courses], []
    if len(set(titles)) < len(titles):
        titles = [course.folder.resolve().name for course in courses]
    for table, title in zip(tables, titles):
        for student in table.students:
            row = table.row(student)
            rows.append([*([title] if len(tables) > 1 else []), *(
                next((row[name] for name in names if row.get(name) not in (None, "")), None) for names in chosen)])
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
        if _short_heading(column) not in known:
            there = ", ".join(map(_heading, known.values()))
            raise ValueError(f'There is no column "{column[:40]}"; there are {there}.')
        chosen.append(known[_short_heading(column)])
    return chosen


def _alike(headings):
    """Short name -> headings with it: two courses may give a lesson different marks."""
    known = {}
    for heading in headings:
        known.setdefault(_short_heading(heading), []).append(heading)
    return known


def _short_heading(heading):
    bare = re.sub(r" \(of [\d.,]+\)$", "", " ".join(heading.lower().split()))
    return re.sub(r"^lesson (\d)$", r"lesson 0\1", bare)


def _heading(names):
    return names[0] if len(names) == 1 else _short_heading(names[0])


def write_marks_table(courses, columns=()):
    """Write the table of `marks_table` into the first course's folder with_names; return (path, rows, remarks)."""
    head, rows, remarks = marks_table(courses, columns)
    name = f"{NAMES_FOLDER}/marks.csv" if len(courses) == 1 else f"{NAMES_FOLDER}/joint_marks.csv"
    with courses[0].busy():
        courses[0].write_table(name, head, rows)
    return courses[0].folder / name, len(rows), remarks


def write_named_notes(course, column=""):
    """Write one page for each student who has notes, into with_names/notes, and with_names/letters.csv.

    Parameters
    ----------
    course : Course
    column : str
        Of the class list, whose cell names a student's file; without one, the name, or the bench where there is none.

    Returns
    -------
    (path, int, list of str)
        The table, how many pages there are, and who has none.

    Raises
    ------
    ValueError
        Before the first marking, or for a column that the class list has not; the message is one sentence.

    Notes
    -----
    Pages that were there under other names go. A student with several benches has one page with the notes of all.
    """
    folder = course.folder / NAMES_FOLDER / "notes"
    with course.busy():
        students = read_class_list(course)
        if not (course.folder / "marks" / "marks.csv").exists():
            raise ValueError(f"There are no notes in {course.folder} yet. Mark first.")
        heading = heading_of(students, column) if column else None
        pages = {student: page for student in students if (page := _page_of_notes(course, student))}
        names = _file_names({student: student.cells[heading] if heading else student.name for student in pages})
        for path in folder.glob("*.html"):      # first: for some systems an old name is the same as a new one
            if path.name not in names.values():
                path.unlink()
        for student, page in pages.items():
            write_whole(folder / names[student], page)
        course.write_table(f"{NAMES_FOLDER}/letters.csv", ("bench", "name", "e-mail", "file"), (
            (student.benches[-1], student.name, student.email, f"notes/{names[student]}") for student in pages))
    without = [one.called for one in students if one not in pages]
    return course.folder / NAMES_FOLDER / "letters.csv", len(pages), without


def _page_of_notes(course, student):
    """The bytes of a student's page, or nothing where no bench of theirs has handed in."""
    paths = [course.folder / "marks" / "notes" / f"{bench}.html" for bench in student.benches]
    pages = [path.read_bytes() for path in paths if path.exists()]
    if len(pages) < 2:
        return b"".join(pages)
    first = _BODY.search(pages[0])
    return b"".join((pages[0][:first.end(1)], *(_BODY.search(page)[2] for page in pages), first[3]))


def _file_names(wanted):
    """Student -> name of a file: letters and figures of all scripts stay, and no two are alike on any system."""
    taken, names = set(), {}
    for student, text in wanted.items():
        bare = bare_name(text)[:80].rstrip(" .")
        if not re.search(r"[^\W_]", bare) or is_reserved(bare):
            bare = f"{bare.replace('.', '_')} {student.benches[-1]}".strip(" _")     # it would be kept up to the point
        names[student] = next(name for number in count(1) if as_compared(
            name := f"{bare} {number}.html" if number > 1 else f"{bare}.html") not in taken)
        taken.add(as_compared(names[student]))
    return names
