"""``remove-course``: takes away a course folder with everything in it, once its name was typed."""
import shutil
from pathlib import Path

from lessons_lib.course.folder import Course

_NEEDED = ("course.toml", "class_list.csv", "returned")
_KNOWN = {*_NEEDED, "secret.txt", ".gitignore", ".busy", "cards.csv", "cards.html", "given_out", "packs", "marks",
          "worked", "with_names", "joint_report.html", "received.csv", "extensions.csv", "key.html", "instrument.toml"}


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
