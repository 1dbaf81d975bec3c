"""Is all ready for a class? Settings, class list, secret, folders, what was given out, dates, pages: one line each."""
import os
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from lessons_lib.base.words import plural
from lessons_lib.course.given_out import GivenOut, kept_ids, lessons_given_out
from lessons_lib.course.pack import page_of
from lessons_lib.course.page_check import page_faults
from lessons_lib.course.received import read_extensions
from lessons_lib.course.telling import EXPECTED, in_words
from lessons_lib.course.typed_in import in_words as pages_in_words
from lessons_lib.course.typed_in import pack_page
from lessons_lib.panels.own_instrument import read_instrument


@dataclass(frozen=True, kw_only=True)
class Check:
    """One thing that was looked at: its *name*, what is *said* of it where it is in order, and its *faults*.

    *stops*: without it the others cannot be looked at.
    """

    name: str
    said: str = ""
    faults: tuple = ()
    stops: bool = False

    @property
    def lines(self):
        """What to print: a line that begins with ok, or one for each fault."""
        return [f"wrong  {self.name}: {fault}" for fault in self.faults] or [f"ok     {self.name}: {self.said}"]


def checks(course):
    """Yield a `Check` of each thing that a class needs, up to one that stops."""
    for name, look in {**_FIRST, **_THEN}.items():
        yield (check := _looked(course, name, look))
        if check.stops:
            return


def _looked(course, name, look: Callable):
    """The check of look(course), which returns what to say and a list of faults; an error is a fault, too."""
    try:
        said, faults = look(course)
    except EXPECTED as error:
        said, faults = "", [in_words(error)]
    return Check(name=name, said=said, faults=tuple(faults), stops=bool(faults) and name in _FIRST)


def _settings(course):
    return f"“{course.settings.title}”", []


def _class_list(course):
    return f"{_so_many(len(course.students), 'bench', 'benches')} and {len(course.spares)} spare ones", []


def _answers(course):
    exercises = sum(len(lesson.exercises) for lesson in course.lessons.values())
    return f"{_so_many(len(course.lessons), 'lesson', 'lessons')}, {exercises} exercises", []


def _secret(course):
    return "the one that made this course" if course.secret and kept_ids(course) else "nothing was made with it yet", []


def _folders(course):
    """Whether what a command reads and writes is there, and may be read and written."""
    closed, faults = [], []
    for folder in (course.folder, course.settings.notebooks):
        if not folder.is_dir():
            faults.append(f"there is no folder {folder}: name another in course.toml, or put it back.")
    if not os.access(course.folder, os.W_OK):
        faults.append(f"nothing may be written in {course.folder}: give yourself the right to.")
    returned = course.folder / "returned"
    if returned.is_dir():
        for _ in os.walk(returned, onerror=lambda error: closed.append(error.filename)):
            pass
        faults += [f"{name} cannot be opened: give yourself the right to read it." for name in closed]
    else:
        faults.append(f"there is no folder {returned}: make one, for what students send you.")
    if course.settings.instrument:
        read_instrument(course.settings.instrument)
    return f"{course.folder}, pages in {course.settings.notebooks}", faults


def _given_out(course):
    """Whether today's model answers can read the kept values, and no bench of the list is without any."""
    ids, faults, without = lessons_given_out(course), [], {}
    for lesson_id in ids:
        given_out = GivenOut(course, course.lessons[lesson_id])
        for bench in course.students:
            if bench not in given_out:
                without.setdefault(bench, lesson_id)
                continue
            try:
                given_out.drawn(bench)
            except ValueError as error:
                faults.append(str(error))
                break       # the others lack the same
    if without:
        faults.append(f"nothing was given out to {_some(list(without))}: run give-out again, and give them the new "
                      "pack.")
    return f"lessons {', '.join(ids)}" if ids else "nothing yet", faults


def _dates(course):
    """Deadlines that cannot be meant, and what they cost."""
    settings, given = course.settings, lessons_given_out(course)
    late, more, now = settings.late, read_extensions(course), datetime.now().astimezone()
    faults = [f"the deadline of lesson {lesson_id} is past ({when:%Y-%m-%d}), and the lesson has not been given out. "
              "Put the date right in course.toml." for lesson_id, when in sorted(settings.deadlines.items())
              if lesson_id not in given and when.astimezone() < now]
    if late.percent_a_day and not settings.deadlines:
        faults.append("[late] takes marks off, but [deadlines] names no lesson: nothing would ever be late.")
    if not settings.deadlines:
        return "no deadlines", faults
    costs = f"late work loses {late.percent_a_day:g} % a day" if late.percent_a_day else "late work loses nothing"
    return (f"{_so_many(len(settings.deadlines), 'deadline', 'deadlines')}, "
            f"{_so_many(len(more), 'extension', 'extensions')}; {costs}"), faults


def _pages(course):
    faults, pages = [], []
    for lesson in course.lessons.values():
        try:
            path = page_of(course.settings.notebooks, lesson.id)
            pages.append(pack_page(path, lesson))       # refuses what is no page
            faults += page_faults(course, lesson, path)
        except EXPECTED as error:
            faults.append(in_words(error))
    typed, _ = pages_in_words(pages)
    left = f"; give-out takes out what was typed into them: {typed}" if typed else ""
    return f"{_so_many(len(course.lessons), 'page asks', 'pages ask')} what the model answers declare{left}", faults


def _so_many(count, one, several):
    return f"{count} {plural(count, one, several)}"


def _some(benches):
    return ", ".join(benches[:5]) + (f" and {len(benches) - 5} more" if benches[5:] else "")


_FIRST = {"course.toml": _settings, "class_list.csv": _class_list, "model answers": _answers, "secret.txt": _secret}
_THEN = {"folders": _folders, "given out": _given_out, "dates": _dates, "pages": _pages}
