"""``notes-by-name``: each student's page of notes under a name that can be sent, and a table for a mail merge."""
import re
from itertools import count

from lessons_lib.course.class_list import read_class_list
from lessons_lib.course.named_marks import FOLDER
from lessons_lib.exercises.sheet_file import write_whole

_RESERVED = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)", re.IGNORECASE)     # no names for files on Windows
_BODY = re.compile(rb"(<body[^>]*>)(.*)(</body>.*)\Z", re.DOTALL)


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
    folder = course.folder / FOLDER / "notes"
    with course.busy():
        students = read_class_list(course)
        _check(course, students, column)
        pages = {student: page for student in students if (page := _page(course, student))}
        names = _file_names({student: _wanted(student, column) for student in pages})
        for student, page in pages.items():
            write_whole(folder / names[student], page)
        for path in folder.glob("*.html"):
            if path.name not in names.values():
                path.unlink()
        course.write_table(f"{FOLDER}/letters.csv", ("bench", "name", "e-mail", "file"), (
            (student.benches[-1], student.name, student.email, f"notes/{names[student]}") for student in pages))
    return course.folder / FOLDER / "letters.csv", len(pages), [one.called for one in students if one not in pages]


def _check(course, students, column):
    if not (course.folder / "marks" / "marks.csv").exists():
        raise ValueError(f"There are no notes in {course.folder} yet. Mark first.")
    headings = list(students[0].cells)
    if column and column.lower() not in map(str.lower, headings):
        raise ValueError(f'class_list.csv has no column "{column[:40]}"; it has {", ".join(headings)}.')


def _page(course, student):
    """The bytes of a student's page, or nothing where no bench of theirs has handed in."""
    paths = [course.folder / "marks" / "notes" / f"{bench}.html" for bench in student.benches]
    pages = [path.read_bytes() for path in paths if path.exists()]
    if len(pages) < 2:
        return b"".join(pages)
    first = _BODY.search(pages[0])
    return b"".join((pages[0][:first.end(1)], *(_BODY.search(page)[2] for page in pages), first[3]))


def _wanted(student, column):
    if not column:
        return student.name
    return next(cell for heading, cell in student.cells.items() if heading.lower() == column.lower())


def _file_names(wanted):
    """Student -> name of a file: letters and figures of all scripts stay, and no two differ by capitals alone."""
    taken, names = set(), {}
    for student, text in wanted.items():
        bare = re.sub(r"[^\w.() -]", "_", " ".join(text.split())).strip(" .")[:80].rstrip(" .")
        if not re.search(r"\w", bare) or _RESERVED.fullmatch(bare.partition(".")[0]):
            bare = f"{bare} {student.benches[-1]}".strip(" _")
        names[student] = next(name for number in count(1) if (
            name := f"{bare} {number}.html" if number > 1 else f"{bare}.html").lower() not in taken)
        taken.add(names[student].lower())
    return names
