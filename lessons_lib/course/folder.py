"""The course folder: settings, secret, class list, what was given out, returns, marks. It belongs to the instructor."""
import os
import re
import secrets
import subprocess
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from lessons_lib.course.secret import read_secret, refuse_another
from lessons_lib.course.settings import TEMPLATE, check_known, read_settings
from lessons_lib.course.tables import numbered_rows, table_bytes
from lessons_lib.course.telling import command_line
from lessons_lib.exercises.bench import SELF_STUDY_BENCHES
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.exercises.sheet_file import moved_into_place, write_whole

FIRST_BENCH, FIRST_SPARE = 10, 901


# a line of the class list that got into a cell of the line before
_BENCH_BEGINS = re.compile(r"\n\s*\"?\s*(b\d{3,4})\b", re.ASCII | re.IGNORECASE)


def _check_columns(rows):
    """Refuse a class list whose names would be lost."""
    columns = [name for name in (rows[0][1] if rows else {}) if name]
    others = [name for name in columns if name not in ("bench", "student") and any(row[name] for _, row in rows)]
    if others and "bench" in columns and "student" not in columns:
        raise ValueError(f"class_list.csv has the columns {', '.join(columns)}: names are read from a column called "
                         "student. Give the one with the names that heading, or add an empty one; others may have any.")


@dataclass(frozen=True)
class Course:
    """A course *folder*; everything is read when it is first asked for."""

    folder: Path

    @cached_property
    def settings(self):
        """The `Settings` of course.toml."""
        if not (self.folder / "course.toml").is_file():
            raise ValueError(f"{self.folder} is not a course folder: it has no course.toml. "
                             f"Make one with: {command_line('new-course', self.folder)}")
        return read_settings(self.folder / "course.toml")

    @cached_property
    def secret(self):
        """The text that the numbers and codes of all benches come from; another than made the course is refused."""
        secret = read_secret(self.folder)
        refuse_another(self.folder, secret)
        return secret

    @cached_property
    def students(self):
        """Bench -> name, or an empty text, in the order of class_list.csv."""
        students, rows = {}, numbered_rows((self.folder / "class_list.csv").read_bytes(), "class_list.csv")
        _check_columns(rows)
        for line, row in rows:
            if lost := next(filter(None, map(_BENCH_BEGINS.search, row.values())), None):
                raise ValueError(f"class_list.csv, line {line}: a quotation mark is opened there and not closed, so "
                                 f"{lost[1]} would be lost. Close it, or take it out.")
            bench = row.get("bench", "").lower()
            if "bench" in row and not bench and row.get("student"):
                raise ValueError(f"class_list.csv, line {line} has a name but no bench.")
            if not re.fullmatch(r"b\d{3,4}", bench, re.ASCII) or bench in SELF_STUDY_BENCHES:
                raise ValueError(f'class_list.csv, line {line}: "{bench[:20]}" is not a bench of a class; '
                                 "write b and three or four digits, from b010 on, in a column called bench.")
            if bench in students:
                raise ValueError(f"class_list.csv, line {line}: {bench} is there twice.")
            students[bench] = row.get("student", "")
        if not students:
            raise ValueError("class_list.csv has no bench. Write one on each line, under the heading bench.")
        return students

    @property
    def spares(self):
        """Benches for latecomers and lost cards: a tenth of the class, at least three; numbers from b901 up."""
        free = (f"b{number}" for number in range(FIRST_SPARE, 10_000) if f"b{number}" not in self.students)
        return [next(free) for _ in range(max(3, -(-len(self.students) // 10)))]

    @cached_property
    def lessons(self):
        """Id -> `Lesson` of the model answers, with the tolerances of this course."""
        lessons = load_lessons(self.settings.answers)
        check_known(self.settings, lessons, self.students)
        return {lesson.id: self.settings.apply(lesson) for lesson in lessons}

    def write_table(self, name, head, rows):
        """Write a table into the folder, as the settings want decimals."""
        write_whole(self.folder / name, table_bytes(head, rows, decimal_comma=self.settings.decimal_comma))

    @contextmanager
    def busy(self):
        """Hold the folder for one command; ValueError where another one holds it. The lock ends with the process."""
        self.settings     # a folder that is none is told before anything is written
        with open(self.folder / ".busy", "ab") as file:
            try:
                _lock(file)
            except OSError:
                raise ValueError(f"{self.folder} is busy: another command is working there. Wait until it has "
                                 "finished.") from None
            yield


def _lock(file):
    try:
        import fcntl
    except ImportError:
        import msvcrt
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
    else:
        fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)


def new_course(folder, students):
    """Make what a course folder needs and is not there yet; return the names of the new files.

    Raises
    ------
    ValueError
        In a git checkout that does not ignore the folder, where values were given out and the secret is gone, or for a
        number of students out of range.
    """
    if not 1 <= students <= 9000:
        raise ValueError(f"students must be from 1 to 9000; got {students}.")
    folder = Path(folder).resolve()
    _refuse_in_checkout(folder)
    if (folder / "given_out").exists() and not (folder / "secret.txt").exists():
        raise ValueError(f"{folder} has been used, but has no secret.txt. Put it back from your copy.")
    (folder / "returned").mkdir(parents=True, exist_ok=True)
    files = {".gitignore": b"*\n",
             "course.toml": TEMPLATE.format(title=re.sub(r'["\\]', "", folder.name)).encode(),
             "class_list.csv": table_bytes(("bench", "student"),
                                           ((f"b{FIRST_BENCH + place:03d}", "") for place in range(students))),
             "secret.txt": f"{secrets.token_hex(32)}\n".encode()}
    new = [name for name in files if not (folder / name).exists()]
    for name in new:
        _write_new(folder / name, files[name], 0o600 if name == "secret.txt" else 0o666)
    return new


def _write_new(path, data, mode):
    with moved_into_place(path) as beside:
        beside.unlink(missing_ok=True)
        with open(os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode), "wb") as file:
            file.write(data)


def _refuse_in_checkout(folder):
    checkout = next((one for one in (folder, *folder.parents) if (one / ".git").exists()), None)
    if not checkout:
        return
    try:
        asked = subprocess.run(["git", "-C", checkout, "check-ignore", "-q", "--", folder / "x"], capture_output=True)
        ignored = asked.returncode == 0
    except FileNotFoundError:
        ignored = False
    if not ignored:
        raise ValueError(f"{folder} is in the git checkout {checkout}, which does not ignore it: the secret and the "
                         "class list could get into version control. Choose a folder outside, or ignore this one.")


def in_git(path):
    """Return the bytes that a file has in the last commit of its git checkout, or None where there is none."""
    if not any((one / ".git").exists() for one in path.resolve().parents):
        return None
    try:
        asked = subprocess.run(["git", "-C", path.parent, "show", f"HEAD:./{path.name}"], capture_output=True)
    except FileNotFoundError:
        return None
    return asked.stdout if asked.returncode == 0 else None
