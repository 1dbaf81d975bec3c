"""A course folder begins, with settings of its own or like an old one's, and ends: all of it is removed."""
import json
import os
import re
import secrets
import shutil
import tomllib
from pathlib import Path

from lessons_lib.base.words import plural
from lessons_lib.course.class_list import INSTEAD_OF, read_class_list
from lessons_lib.course.folder import FIRST_BENCH, Course, git_says
from lessons_lib.course.settings import new_settings, read_settings
from lessons_lib.course.tables import lines_in, refuse, saved_otherwise, table_bytes
from lessons_lib.exercises.sheet_file import moved_into_place, write_whole

_LEFT_OUT = ("deadlines", "extensions")     # they belong to one class
_NOT_COPIED = ("__pycache__", ".ipynb_checkpoints", "my_work")
_PATHS = ("answers", "notebooks", "instrument")
_NEEDED = ("course.toml", "class_list.csv", "returned")
_KNOWN = {*_NEEDED, "secret.txt", ".gitignore", ".busy", "cards.csv", "cards.html", "given_out", "packs", "marks",
          "worked", "with_names", "joint_report.html", "received.csv", "extensions.csv", "key.html", "instrument.toml"}


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
    checkout = next((one for one in (folder, *folder.parents) if (one / ".git").exists()), None)
    if checkout and git_says(checkout, "check-ignore", "-q", "--", folder / "x") is None:
        raise ValueError(f"{folder} is in the git checkout {checkout}, which does not ignore it: the secret and the "
                         "class list could get into version control. Choose a folder outside, or ignore this one.")
    if (folder / "given_out").exists() and not (folder / "secret.txt").exists():
        raise ValueError(f"{folder} has been used, but has no secret.txt. Put it back from your copy.")
    if not (folder / "class_list.csv").exists():        # an empty one would be the newer of the two
        refuse(saved_otherwise(folder, "class_list.csv"))
    (folder / "returned").mkdir(parents=True, exist_ok=True)
    files = {".gitignore": b"*\n",
             "course.toml": new_settings(folder.name).encode(),
             "class_list.csv": table_bytes(("bench", "student"),
                                           ((f"b{FIRST_BENCH + place:03d}", "") for place in range(students))),
             "secret.txt": f"{secrets.token_hex(32)}\n".encode()}
    new = [name for name in files if not (folder / name).exists()]
    for name in new:
        with moved_into_place(folder / name) as beside:
            beside.unlink(missing_ok=True)
            mode = 0o600 if name == "secret.txt" else 0o666
            with open(os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode), "wb") as file:
                file.write(files[name])
    return new


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
    _, ((_, head), *_) = lines_in((old.folder / "class_list.csv").read_bytes())
    head = [name.strip() for name in head if name.strip() and name.strip().lower() != INSTEAD_OF]
    write_whole(folder / "class_list.csv", table_bytes(
        head, ([f"b{FIRST_BENCH + place:03d}" if name.lower() == "bench" else "" for name in head]
               for place in range(students)), decimal_comma=settings.decimal_comma))
    behind = [f"{name} ({len(getattr(settings, name))})" for name in _LEFT_OUT if getattr(settings, name)]
    return [f"Its settings were taken along; students still read the title “{settings.title}”.",
            f"Left out: {', '.join(behind) or 'no deadline, no extension'}, and all that belongs to the old class.",
            *([f"Copied with them: {', '.join(copies)}."] if copies else []),
            f"A new secret; class_list.csv with the columns {', '.join(head)} is empty, for {students} "
            f"{plural(students, 'bench', 'benches')}."]


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


def what_goes(folder):
    """Return a sentence on what would be removed.

    Raises
    ------
    ValueError
        Where the folder does not look like a course, or holds more than one may lose by mistake.
    """
    folder = Path(folder)
    if folder.is_symlink():
        raise ValueError(f"{folder} is a link. Name the folder itself.")
    if missing := [name for name in _NEEDED if not (folder / name).exists()]:
        raise ValueError(f"{folder} does not look like a course folder: it has no {' and no '.join(missing)}. "
                         "Nothing was removed.")
    if any((folder / name).exists() for name in (".git", "lessons_lib", "pyproject.toml")) or folder.resolve() in (
            Path.home(), *Path.cwd().resolve().parents, Path.cwd().resolve()):
        raise ValueError(f"{folder} holds more than a course, or you are in it. Nothing was removed.")
    files = sum(path.is_file() for path in folder.rglob("*"))
    others = sorted(path.name for path in folder.iterdir() if path.name not in _KNOWN)
    more = f" Among them are things that do not belong to the course: {', '.join(others[:9])}." if others else ""
    return f"{folder.resolve()} and the {files} files in it will go: class list, secret, returned work, marks.{more}"


def remove_course(folder, typed):
    """Remove the course in *folder*, if *typed* is the folder's name.

    Raises
    ------
    ValueError
        For another text, where another command works there, or where it does not look like a course.
    """
    folder = Path(folder)
    what_goes(folder)
    if typed.strip() != folder.resolve().name:
        raise ValueError("That is not the folder's name. Nothing was removed.")
    with Course(folder).busy():
        pass        # nobody else works there; on some systems a held lock could not be removed
    shutil.rmtree(folder)
