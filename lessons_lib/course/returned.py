"""The folder of returned work: which files are read for which bench, and why the others are not."""
import os
import re
from dataclasses import dataclass
from datetime import datetime
from itertools import count
from pathlib import Path
from unicodedata import normalize

from lessons_lib.course.file_names import bare_name, is_reserved
from lessons_lib.course.folder import bench_card
from lessons_lib.course.given_out import all_given_out
from lessons_lib.course.telling import counted
from lessons_lib.course.zips import LARGEST_ZIP, is_zip, zip_member, zip_members
from lessons_lib.exercises.returns import LARGEST, NotRead, read_return

_LOG = NotRead("it is the log of the work: ask for the return that sheet.return_work() writes beside it")
_CARD = NotRead("it is the card that a sheet remembers, and is not needed")
_OF_MY_WORK = re.compile(r"/(log-b\d+\.jsonl|bench_card\.txt)$")


@dataclass(frozen=True, kw_only=True)
class Arrival:
    """A return that counts: its *file* below *folder*, and when it was *received*, where known.

    Where the file is in a zip, *zipped* is the zip's own path and the place in it.

    What it holds is read again when it is needed, so that a large class takes no more memory than a small one.
    """

    folder: Path
    file: str
    received: datetime | None
    zipped: tuple = ()

    @property
    def content(self):
        """The `Returned`; ValueError where the file is not what it was when the folder was looked through."""
        content = _from_bytes(zip_member(*self.zipped)) if self.zipped else _from_file(self.folder / self.file)
        if isinstance(content, NotRead):
            raise ValueError(f"{self.file} changed while marking: {content.reason}. Run mark again.")
        return content


def read_returned(course, given_out, times):
    """Read everything below the course's folder ``returned``.

    Parameters
    ----------
    course : Course
    given_out : dict of lesson id to GivenOut
    times : dict
        As `received_times` gives it.

    Returns
    -------
    (dict, list)
        (bench, lesson) -> list of `Arrival`; (file, reason) of every file that does not count, and of every folder
        that could not be looked through.

    Raises
    ------
    ValueError, OSError
        Where there is no folder ``returned``, or it cannot be opened.
    """
    files, not_read = _all_files(course.folder / "returned")
    arrivals = {}
    for file, path in counted(files, "returns read"):
        before, came = len(not_read), False
        for name, content, zipped in _contents(file, path):
            reason = content.reason if isinstance(content, NotRead) else _why_not(course, given_out, content)
            if reason:
                not_read.append((name, reason))
            else:
                arrivals.setdefault((content.bench, content.lesson), []).append(
                    Arrival(folder=course.folder / "returned", file=name, zipped=zipped,
                            received=times.get(one_spelling(name)) or times.get(one_spelling(file))))
                came = True
        if came:        # of a zip: somebody sent the whole folder my_work, and all is there
            not_read[before:] = [one for one in not_read[before:] if not _OF_MY_WORK.search(one[0])]
    return arrivals, not_read


def arrived(course):
    """Return what `read_returned` does for all lessons given out so far, without times."""
    return read_returned(course, all_given_out(course), {})


def drop_in(folder, name, content):
    """Keep a file that came in below *folder* without touching any other; return its path and whether it is new.

    A file of the same name that holds the same is the one that is kept; another gets a number behind its name.

    Raises
    ------
    ValueError
        For a file that is larger than any return, or a name without letters and figures.
    """
    if len(content) > (largest := LARGEST_ZIP if is_zip(content) else LARGEST):
        raise ValueError(f"{name[:80]} is larger than {largest // 1_000_000} MB. No return is that large; it was "
                         "not kept.")
    bare = bare_name(name.replace("\\", "/").rpartition("/")[2][-120:])
    bare = f"_{bare}" if is_reserved(bare) else bare
    if not re.search(r"\w", bare):
        raise ValueError(f'"{name[:80]}" is not a name for a file. It was not kept.')
    folder.mkdir(parents=True, exist_ok=True)
    stem, dot, ending = bare.rpartition(".") if "." in bare else (bare, "", "")
    for number in count(1):
        path = folder / (f"{stem} {number}{dot}{ending}" if number > 1 else bare)
        try:
            with open(path, "xb") as file:
                file.write(content)
            return path, True
        except FileExistsError:
            if path.is_file() and path.read_bytes() == content:
                return path, False


def _all_files(folder):
    """Return (name below the folder, path) of every file in order, and (name, reason) of folders not looked through."""
    if not folder.is_dir():
        raise ValueError(f"The folder {folder} is missing. Make it again, and put what students sent into it.")
    found, closed = {}, []

    def refused(error):
        if Path(error.filename) == folder:
            raise error
        closed.append((_below(folder, error.filename), f"the folder cannot be opened: {error.strerror}"))

    for place, folders, names in os.walk(folder, onerror=refused):
        links = [name for name in folders if os.path.islink(os.path.join(place, name))]
        closed += [(_below(folder, place, name), "it is a link to a folder: put the folder itself there")
                   for name in links]
        paths = [Path(place, name) for name in names if not name.startswith(".")]
        found |= {_below(folder, path): path for path in paths if path.is_file()}
    return sorted(found.items()), closed


def _below(folder, *path):
    return Path(*path).relative_to(folder).as_posix()


def _contents(file, path):
    """(name, what it holds, where in a zip) of a file; of a zip, every file in it."""
    try:
        with open(path, "rb") as begun:
            zipped = is_zip(begun.read(4))
    except OSError:
        zipped = False
    if not zipped:
        yield file, _from_file(path), ()
        return
    for name, place, data in zip_members(path):
        yield f"{file}/{name}".rstrip("/"), _from_bytes(data, name), (path, place)


def _from_bytes(data, name=""):
    content = data if isinstance(data, NotRead) else read_return(data)
    if isinstance(content, NotRead):    # two of them lie beside a return in the folder my_work
        return _LOG if name.endswith(".jsonl") else _CARD if name.endswith("bench_card.txt") else content
    return content


def _from_file(path):
    try:
        if os.path.getsize(path) > LARGEST:      # told before it is read
            return NotRead(f"it is larger than {LARGEST // 1_000_000} MB")
        data = path.read_bytes()
    except OSError as error:
        return NotRead(f"the file cannot be opened: {error.strerror}")
    return _from_bytes(data, path.name)


def _why_not(course, given_out, content):
    """Return why a whole return does not count, or an empty text."""
    bench, lesson = content.bench, content.lesson
    if bench not in course.students:
        spare = " It is a spare one: add a line for it there." if bench in course.spares else ""
        return f"bench {bench} is not in class_list.csv.{spare}"
    if content.card != bench_card(course.secret, bench):
        return (f"the code is not that of bench {bench}; it is from another course, or the card was mistyped: "
                "ask for a return made with this course's card")
    if lesson not in given_out or bench not in given_out[lesson]:
        return f"lesson {lesson} was not given out to {bench}"
    return ""


def one_spelling(file):
    """Return a name as it is compared: some systems write an accented letter as two characters, others as one."""
    return normalize("NFC", file)
