"""How things stand in a course folder, in sentences and rows; nothing here writes anything."""
from dataclasses import dataclass
from pathlib import Path

from lessons_lib.course.folder import Course, same_secret
from lessons_lib.course.given_out import kept_ids
from lessons_lib.course.tables import read_table, saved_otherwise
from lessons_lib.course.telling import EXPECTED, in_words
from lessons_lib.course.zips import is_zip
from lessons_lib.exercises.returns import NotRead, read_return


@dataclass(frozen=True, kw_only=True)
class FolderState:
    """A path as it was typed: a sentence, the folder where a course may be made, and whether there is a course."""

    says: str
    folder: Path | None = None
    is_course: bool = False


def look(text):
    """Return the `FolderState` of the path in a text box; never raises for what people type.

    Examples
    --------
    >>> look("  ").says.split(",")[0]
    'Type where the course folder is'
    """
    if not text.strip():
        return FolderState(says="Type where the course folder is, or where a new one should be, such as ~/autumn.")
    try:
        folder = Path(text.strip()).expanduser().resolve()
        if folder.exists() and not folder.is_dir():
            return FolderState(says=f"{folder} is a file. A course is a folder.")
        if (folder / "course.toml").is_file():
            return FolderState(says=_course_says(Course(folder)), folder=folder, is_course=True)
        there = f"{folder} is there, but it is not a course: it has no course.toml." if folder.exists() else (
            f"There is no folder {folder} yet.")
        return FolderState(says=f"{there} “Make a new course” makes one there.", folder=folder)
    except (*EXPECTED, RuntimeError) as error:       # RuntimeError: "~" and a name that nobody has
        return FolderState(says=f"That cannot be used: {in_words(error)}")


def _course_says(course):
    ids = kept_ids(course)
    files = sum(path.is_file() and not path.name.startswith(".") for path in (course.folder / "returned").rglob("*"))
    return (f"The course “{course.settings.title}” in {course.folder}: {len(course.students)} benches. Given out: "
            f"{'lessons ' + ', '.join(ids) if ids else 'nothing yet'}. Files in returned: {files}. Marked: "
            f"{'yes' if (course.folder / 'marks' / 'marks.csv').exists() else 'not yet'}."
            f"{''.join(f' {one}' for one in (*same_secret(course), *saved_otherwise(course.folder)))}")


def came_and_missing(course):
    """Return what marks.csv says: rows (lesson, how many returned, benches without a return), and rows bench by bench.

    The second part is (head, rows).
    """
    rows = read_table((course.folder / "marks" / "marks.csv").read_bytes())
    columns = list(rows[0]) if rows else []
    lessons, summary = [name for name in columns if name.startswith("lesson ")], []
    for name in lessons:
        missing = [row["bench"] for row in rows if not row[name]]
        summary.append((name.split()[1], f"{len(rows) - len(missing)} of {len(rows)}",
                        "all" if len(missing) == len(rows) else ", ".join(missing) or "none"))
    head = ("bench", *[name for name in columns if name.startswith("total")][:1], *lessons)
    return summary, (head, [tuple(row[name] or "not returned" for name in head) for row in rows])


def what_it_is(content):
    """Return in words what the bytes of a file that came in are."""
    if is_zip(content):
        return "a zip: what is in it is read when you mark"
    found = read_return(content)
    if isinstance(found, NotRead):
        return f"cannot be read: {found.reason}"
    return f"work from bench {found.bench} on lesson {found.lesson}"
