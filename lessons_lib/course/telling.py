"""What a person reads while a command works: how far it is, what could not be done."""
import errno
import os
import sys
from contextlib import contextmanager
from contextvars import ContextVar

EXPECTED = (OSError, ValueError)      # anything else is a fault of the program
_watcher = ContextVar("watcher", default=None)


def in_words(error):
    """Return the sentence for one of the `EXPECTED` errors.

    Examples
    --------
    >>> in_words(FileNotFoundError(2, "No such file or directory", "class_list.csv"))
    'class_list.csv could not be written or read: No such file or directory.'
    """
    if not isinstance(error, OSError):
        return str(error)
    where = error.filename2 or error.filename or "A file"
    if error.errno in (errno.ENOSPC, getattr(errno, "EDQUOT", None)):
        return (f"{where} could not be written: {error.strerror}. What was there before is unchanged. Make room, then "
                "run this again.")
    if isinstance(error, PermissionError) and os.path.isdir(where):
        return (f"The folder {where} cannot be opened: you have no right to. Give yourself the right to read and write "
                "there, then run this again.")
    if isinstance(error, PermissionError):
        return f"{where} cannot be written or read. Is it open in another program? Close it there and run this again."
    return f"{where} could not be written or read: {error.strerror or error}."


def some(things, most=8):
    """Return the names of *things* in one line, of many the first ones and how many more there are.

    Examples
    --------
    >>> some(["b010", "b011", "b012"], most=2)
    'b010, b011 and 1 more'
    """
    named = list(things)
    more = f" and {len(named) - most} more" if len(named) > most else ""
    return f"{', '.join(named[:most])}{more}"


@contextmanager
def watched(say):
    """Have long work call say(what, done, of how many) after each thing."""
    before = _watcher.set(say)
    try:
        yield
    finally:
        _watcher.reset(before)


def counted(things, what):
    """Yield the *things*; tell whoever watches how many are done, a person at a terminal else."""
    things = list(things)
    say = _watcher.get() or (_on_one_line if sys.stderr.isatty() else None)
    for done, thing in enumerate(things, start=1):
        yield thing
        if say:
            say(what, done, len(things))


def _on_one_line(what, done, of):
    print(f"\r{what}: {done} of {of}", end="\n" if done == of else "", file=sys.stderr)
