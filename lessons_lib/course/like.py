"""``new-course --like``: a new course with the settings of an old one; and where two folders share one secret."""
import json
import os
import re
import shutil
import tomllib
from pathlib import Path

from lessons_lib.base.words import plural
from lessons_lib.course.class_list import INSTEAD_OF, read_class_list
from lessons_lib.course.folder import FIRST_BENCH, Course, new_course
from lessons_lib.course.settings import read_settings
from lessons_lib.course.tables import lines_in, table_bytes
from lessons_lib.exercises.sheet_file import write_whole

_LEFT_OUT = ("deadlines", "extensions")     # they belong to one class
_NOT_COPIED = ("__pycache__", ".ipynb_checkpoints", "my_work")
_PATHS = ("answers", "notebooks", "instrument")


def new_course_like(folder, old, students=None):
    """Make a course in *folder* with the settings of the course *old*; return sentences on what was taken along.

    Deadlines and extensions stay behind, and so do secret, names, returns and marks. The class list is empty, with the
    old one's columns, for as many *students* as that has where no number is given. What course.toml names inside of the
    old folder is copied, what it names elsewhere is named from the new one.

    Raises
    ------
    ValueError
        Where *folder* is a course already, *old* is none, or its settings cannot be taken along; nothing was made then.
    """
    folder, old = Path(folder).resolve(), Course(Path(old).resolve())
    if (folder / "course.toml").exists() or (folder / "secret.txt").exists():
        raise ValueError(f"{folder} is a course already. With --like only a new folder is made.")
    settings, people = old.settings, read_class_list(old)
    text, copies = _text_for(folder, old.folder)
    students = len(people) if students is None else students
    new_course(folder, students)
    for name in copies:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        if (old.folder / name).is_dir():
            shutil.copytree(old.folder / name, folder / name, ignore=shutil.ignore_patterns(*_NOT_COPIED))
        else:
            shutil.copyfile(old.folder / name, folder / name)
    write_whole(folder / "course.toml", text.encode())
    head = _headings(old)
    write_whole(folder / "class_list.csv", table_bytes(
        head, ([f"b{FIRST_BENCH + place:03d}" if name.lower() == "bench" else "" for name in head]
               for place in range(students)), decimal_comma=settings.decimal_comma))
    return _said(settings, head, students, copies)


def same_secret(course):
    """Return a sentence in a list where a folder beside has the secret of this course; else an empty list."""
    here = course.folder.resolve()
    for path in sorted(here.parent.glob("*/secret.txt")):
        try:
            is_same = path.parent != here and path.read_text(encoding="ascii").strip() == course.secret
        except (OSError, ValueError):
            continue
        if is_same:
            return [f"{path.parent} has the same secret as {here}, so the same numbers and cards: one is a copy of the "
                    "other. For another class or year make a folder of its own with new-course --like."]
    return []


def _text_for(folder, old):
    """(course.toml for the new folder, what is to be copied from the old one, by names below it)."""
    before, lines, copies, table = (old / "course.toml").read_text(encoding="utf-8-sig"), [], [], ""
    for line in before.splitlines():
        if header := re.match(r"\s*\[+\s*([\w-]+)", line):
            table = header[1]
        key = table or (re.match(r"\s*([\w-]+)", line) or [""] * 2)[1]
        is_value = "=" in line.partition("#")[0] and not header
        if key in _LEFT_OUT and is_value:
            continue
        if not table and key in _PATHS and is_value:
            line = _path_line(key, folder, old, copies)
        lines.append(line)
    text = "\n".join(lines) + "\n"
    if _rest(text, ()) != _rest(before, _LEFT_OUT):
        raise ValueError(f"{old / 'course.toml'} is written in a way that cannot be taken along. Make the course "
                         "without --like, and copy what you want to keep by hand.")
    return text, copies


def _rest(text, left_out):
    """The settings in a text but for paths and what is *left_out*; empty tables say nothing."""
    return {name: value for name, value in tomllib.loads(text).items()
            if name not in (*_PATHS, *left_out) and value != {}}


def _path_line(key, folder, old, copies):
    """The line of a path as the new folder names it; what is in the old one is copied to the same place."""
    path = Path(os.path.normpath(getattr(read_settings(old / "course.toml"), key)))
    if path.is_relative_to(old):
        path = path.relative_to(old)
        copies.append(path.as_posix())
    else:
        try:
            path = Path(os.path.relpath(path, folder))
        except ValueError:
            pass        # on another drive: there is no way from one to the other
    return f"{key} = {json.dumps(path.as_posix(), ensure_ascii=False)}"


def _headings(old):
    _, ((_, head), *_) = lines_in((old.folder / "class_list.csv").read_bytes())
    return [name.strip() for name in head if name.strip() and name.strip().lower() != INSTEAD_OF]


def _said(settings, head, students, copies):
    behind = [f"{name} ({len(getattr(settings, name))})" for name in _LEFT_OUT if getattr(settings, name)]
    return [f"Its settings were taken along; students still read the title “{settings.title}”.",
            f"Left out: {', '.join(behind) or 'no deadline, no extension'}, and all that belongs to the old class.",
            *([f"Copied with them: {', '.join(copies)}."] if copies else []),
            f"A new secret; class_list.csv with the columns {', '.join(head)} is empty, for {students} "
            f"{plural(students, 'bench', 'benches')}."]
