"""A zip among the returned files, read where it is: nothing of it is ever unpacked to the disk."""
import io
import re
import zipfile
from datetime import datetime
from functools import lru_cache
from pathlib import Path

from lessons_lib.exercises.returns import LARGEST, NotRead

_ZIP_STARTS = (b"PK\x03\x04", b"PK\x05\x06")        # the latter: an empty one
LARGEST_ZIP = 200_000_000       # bytes, as it came
MOST_BYTES = 400_000_000        # unpacked, of one zip with the zips in it
MOST_FILES = 3000
DEEPEST = 3                     # a zip in a zip in a zip: a class's collection of folders that students packed
_TOO_LARGE = NotRead(f"it is larger than {LARGEST // 1_000_000} MB")
_OFFICE = {"[Content_Types].xml", "mimetype", "META-INF/MANIFEST.MF"}


def is_zip(start):
    """Whether bytes that begin with *start* are a zip, or something that is packed like one."""
    return start[:4] in _ZIP_STARTS


def zip_members(path):
    """Yield (name, place, bytes or `NotRead`) for every file in the zip at *path*; it never raises.

    *name* is a label with "/" between folders and nothing that leads out of the zip; it is empty where something is
    said of the whole zip. *place* is what `zip_member` finds the file by. What systems hide in a zip is left out.

    Notes
    -----
    Sizes are limited by what is really unpacked, whatever the zip says of itself: no file above `LARGEST`, at most
    `MOST_FILES` files and `MOST_BYTES` in all, zips in zips down to `DEEPEST`. Names without the mark for UTF-8 are
    read as UTF-8 where they can be, else in the zip's old code page 437 (PKWARE's APPNOTE 6.3, appendix D).
    """
    left = {"files": MOST_FILES, "bytes": MOST_BYTES}
    yield from _members(Path(path), (), left)
    if min(left.values()) < 0:
        yield "", (), NotRead(f"it holds more than {MOST_FILES} files or {MOST_BYTES // 1_000_000} MB: the rest of it "
                              "was not read; unpack it here")


def zip_member(path, place):
    """Return the bytes at a *place* in the zip at *path*, or a `NotRead`."""
    try:
        archive = _archive(path, place[:-1])
        return _unpacked(archive, archive.infolist()[place[-1]], {"bytes": MOST_BYTES})
    except Exception:       # a zip may be damaged in any way
        return NotRead("it is not in the zip any more")


def member_time(path, place):
    """Return the time that a zip has for the file at a *place*, a datetime without zone, or None where it has none."""
    try:
        time = datetime(*_archive(path, place[:-1]).infolist()[place[-1]].date_time)
        return time if time.year > 1980 else None       # 1980 is where the calendar of zips begins: "not known"
    except Exception:       # as above
        return None


def _members(path, place, left):
    try:
        if path.stat().st_size > LARGEST_ZIP:
            yield "", (), NotRead(f"it is a zip of more than {LARGEST_ZIP // 1_000_000} MB: unpack it here")
            return
        members = _archive(path, place).infolist()
    except OSError as error:
        yield "", (), NotRead(f"the file cannot be opened: {error.strerror}")
        return
    except Exception:       # a zip may be damaged in any way
        yield "", (), NotRead("it is a damaged zip: ask for it again")
        return
    if _OFFICE & {member.filename for member in members}:
        yield "", (), NotRead("it is an office document: ask for the return itself")
    elif not members:
        yield "", (), NotRead("it is an empty zip")
    else:
        yield from _each(path, place, members, left)


def _each(path, place, members, left):
    for number, member in enumerate(members):
        name = member.filename
        if not member.flag_bits & 0x800:
            try:
                name = name.encode("cp437").decode("utf-8")
            except UnicodeError:
                pass        # an old program's own letters
        name = "/".join(part for part in re.split(r"[\\/]+", name) if part not in ("", ".", ".."))
        if member.is_dir() or not name or re.search(r"(^|/)(\.|__MACOSX/)", name):
            continue
        left["files"] -= 1
        data = _unpacked(_archive(path, place), member, left)
        if min(left.values()) < 0:
            return
        here = (*place, number)
        if isinstance(data, NotRead) or not is_zip(data):
            yield name, here, data
        elif len(here) == DEEPEST:
            yield name, here, NotRead("it is packed too deep, in a zip in a zip: unpack it here")
        else:
            yield from ((f"{name}/{inner}".rstrip("/"), there, found)
                        for inner, there, found in _members(path, here, left))


def _unpacked(archive, member, left):
    """The bytes of one file, as many as may be read; what was read is taken from *left*."""
    try:
        with archive.open(member) as file:
            start = file.read(4)
            if member.file_size > LARGEST and not is_zip(start):
                return _TOO_LARGE
            most = left["bytes"] if is_zip(start) else LARGEST
            data = start + file.read(max(0, most - len(start) + 1))
    except RuntimeError:        # what zipfile raises for a password
        return NotRead("it is locked with a password, or packed in a way that is not known here: unpack it here")
    except Exception:           # a zip may be damaged in any way
        return NotRead("it is damaged in its zip: ask for it again")
    left["bytes"] -= len(data)
    return data if len(data) <= most else _TOO_LARGE


def _archive(path, place):
    """The zip at a *place* in the file as it is now."""
    found = path.stat()
    return _held(path, (found.st_mtime_ns, found.st_size), place)


@lru_cache(maxsize=DEEPEST)
def _held(path, stamp, place):
    """The zip in memory: the returns of a class may be in one zip, and each is read twice."""
    if not place:
        return zipfile.ZipFile(io.BytesIO(path.read_bytes()))
    outer = _held(path, stamp, place[:-1])
    return zipfile.ZipFile(io.BytesIO(_unpacked(outer, outer.infolist()[place[-1]], {"bytes": MOST_BYTES})))
