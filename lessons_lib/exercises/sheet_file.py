"""The file of a sheet: readable JSON with a check over its content, so that damage is found in one place."""
import hashlib
import json
import os
from contextlib import contextmanager, suppress

SHEET_FORMAT = 1


def sheet_bytes(content):
    """Return the bytes of a sheet file: the same content, the same bytes; exercises in the order of the page."""
    content = {**content, "format": SHEET_FORMAT, "check": _digest(content)}
    return (json.dumps(content, indent=1, ensure_ascii=False, allow_nan=False) + "\n").encode()


def read_sheet(data):
    """Return the content of a sheet file; ValueError where the bytes are no whole, unchanged one of this format."""
    try:
        content = json.loads(data)
    except (ValueError, RecursionError):
        raise ValueError("it is incomplete") from None
    if not isinstance(content, dict):
        raise ValueError("it is incomplete")
    if content.pop("format", None) != SHEET_FORMAT:
        raise ValueError("it was made for another version of the library")
    if content.pop("check", None) != _digest(content):
        raise ValueError("something in it was changed")
    return content


def write_whole(path, data):
    """Write bytes beside and move them into place: whatever happens, the file is the old one or the new one.

    OSError where that cannot be done; it names the file, and nothing is left beside it.
    """
    with moved_into_place(path) as beside:
        beside.write_bytes(data)


@contextmanager
def moved_into_place(path):
    """Give the path where the coming content of a file is written, as `write_whole` does, and move it at the end."""
    beside = path.with_name(path.name + ".new")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        yield beside
        os.replace(beside, path)
    except OSError as error:
        with suppress(OSError):     # where nothing may be written, nothing may be removed
            beside.unlink(missing_ok=True)
        error.filename, error.filename2 = str(path), None       # a full disk names no file by itself
        raise


def _digest(content):
    text = json.dumps(content, sort_keys=True, ensure_ascii=False, allow_nan=False)
    return hashlib.sha256(text.encode()).hexdigest()[:20]
