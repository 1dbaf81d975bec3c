"""The folder of a student's work: where it is, that it is one person's, and whether Jupyter's file list shows it."""
import hashlib
import json
import os
import re
import sys
from pathlib import Path

from lessons_lib.exercises.sheet_file import write_whole

VARIABLE = "LESSONS_WORK_FOLDER"
_WHOSE = "whose.txt"        # a fingerprint of the hub's user; on one's own machine there is none
_UNSET = re.compile(r"\$\{?\w+\}?|%\w+%")


def work_folder():
    """Return the folder of the student's work: ``my_work`` beside the notebook, or where LESSONS_WORK_FOLDER says.

    ValueError with a sentence for a variable that is not set, a home that is not known, another person's folder.
    ``~``, ``$NAME`` and on Windows ``%NAME%`` are understood; quotation marks around it, which the Command Prompt
    keeps, are taken off. Two users of a hub (JUPYTERHUB_USER) are told apart by what `claim` left in the folder, also
    where both have one user id.
    """
    named = os.environ.get(VARIABLE, "").strip(' "') or "my_work"
    text = os.path.expandvars(named)
    if left := _UNSET.search(text):
        raise ValueError(f"The variable {VARIABLE} must name variables that are set; got {named!r}, and {left[0]} is "
                         "not.")
    try:
        folder = Path(text).expanduser().absolute()
    except RuntimeError:
        raise ValueError(f"The variable {VARIABLE} must name a home folder that is known; got {named!r}.") from None
    if _is_anothers(folder):
        raise ValueError(f"The folder {folder} keeps another person's work: {VARIABLE} must name a folder for each "
                         f"user, such as ~/my_work. Tell your instructor. (Is all in it yours, from another account? "
                         f"Then remove the file {_WHOSE} there.)")
    return folder


def make_private(folder):
    """Make the folder, where there is none, so that other users of the machine cannot look into it."""
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)


def claim(folder):
    """Make the folder, and leave in it whose it is where a hub says who works; OSError where that cannot be done."""
    make_private(folder)
    if mine := _fingerprint():
        write_whole(folder / _WHOSE, f"{mine}\n".encode())


def is_in_file_list(folder):
    """Whether Jupyter's file list can show a folder: True, False, or None where that cannot be found out."""
    try:
        connection = Path(sys.argv[sys.argv.index("-f") + 1])   # of this kernel; its server's record is beside it
        record = json.loads(connection.with_name(f"jpserver-{os.getppid()}.json").read_text("utf-8"))
        root = Path(record["root_dir"]).resolve()
    except (OSError, ValueError, IndexError, KeyError, TypeError):
        return None
    folder = folder.resolve()
    return folder.is_relative_to(root) and not any(part.startswith(".") for part in folder.relative_to(root).parts)


def _fingerprint():
    user = os.environ.get("JUPYTERHUB_USER")
    return hashlib.sha256(user.encode()).hexdigest()[:12] if user else ""


def _is_anothers(folder):
    try:
        found = (folder / _WHOSE).read_text(encoding="ascii").strip()
    except PermissionError:
        return True
    except (OSError, ValueError):
        found = ""
    if found and _fingerprint():
        return found != _fingerprint()
    return (hasattr(os, "getuid") and folder.is_dir() and folder.stat().st_uid != os.getuid()
            and not os.access(folder, os.W_OK))
