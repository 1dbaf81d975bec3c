"""Is all ready for a class? What it needs, a line each; a lesson's page beside its declaration, a sentence a fault."""
import ast
import json
import os
import re
from datetime import datetime

from lessons_lib.base.words import plural
from lessons_lib.course.clean_page import asked_of, clean_page
from lessons_lib.course.earlier_marks import read_open_questions
from lessons_lib.course.given_out import GivenOut, kept_ids, lessons_given_out
from lessons_lib.course.pack import page_of
from lessons_lib.course.pack_pages import pack_page, typed_and_changed
from lessons_lib.course.read_page import Code, Prose, Question, answers_in, calls, is_of_sheet, parsed, read_page
from lessons_lib.course.received import read_extensions, received_times
from lessons_lib.course.tables import saved_otherwise
from lessons_lib.course.telling import EXPECTED, in_words, some
from lessons_lib.exercises.reading import into
from lessons_lib.lessons.own_instrument import read_instrument

_LETTER = re.compile(r"^\s*[-*] \((\w)\)", re.MULTILINE)


def look_over(course):
    """Return (lines to print, how many faults, whether one stops) for all that a class needs; an error is a fault, too.

    A line begins with ok, or there is one for each fault; behind a fault that stops nothing can be looked at.
    """
    lines, wrong = [], 0
    for name, look in {**_FIRST, **_THEN}.items():
        try:
            said, faults = look(course)
        except EXPECTED as error:
            said, faults = "", in_words(error).splitlines()
        lines += [f"wrong  {name}: {fault}" for fault in faults] or [f"ok     {name}: {said}"]
        wrong += len(faults)
        if faults and name in _FIRST:
            return lines, wrong, True
    return lines, wrong, False


# ---- what is looked at: (what to say, list of faults) ----

def _whether_open(course):
    """Whether what a command reads and writes is there, and may be read and written."""
    faults = []
    for folder in (course.folder, course.settings.notebooks):
        if not folder.is_dir():
            faults.append(f"there is no folder {folder}: name another in course.toml, or put it back.")
    if not os.access(course.folder, os.W_OK):
        faults.append(f"nothing may be written in {course.folder}: give yourself the right to.")
    returned = course.folder / "returned"
    if returned.is_dir():
        for _ in os.walk(returned, onerror=lambda error: faults.append(
                f"{error.filename} cannot be opened: give yourself the right to read it.")):
            pass
    else:
        faults.append(f"there is no folder {returned}: make one, for what students send you.")
    if course.settings.instrument:
        read_instrument(course.settings.instrument)
    return f"{course.folder}, pages in {course.settings.notebooks}", faults


def _kept_values(course):
    """Whether today's model answers can read the kept values, and no bench of the list is without any."""
    ids, faults, without = lessons_given_out(course), [], {}
    for lesson_id in ids:
        given_out = GivenOut(course, course.lessons[lesson_id])
        for bench in course.students:
            if bench not in given_out:
                without[bench] = None
                continue
            try:
                given_out.drawn(bench)
            except ValueError as error:
                faults.append(str(error))
                break       # the others lack the same
    if without:
        faults.append(f"nothing was given out to {some(without, most=5)}: run give-out again, and give them the new "
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


def _tables(course):
    """Whether what a person filled in can be read, and was saved as CSV."""
    faults = saved_otherwise(course.folder)
    for read in (received_times, lambda course: read_open_questions(course.folder / "marks/open_questions.csv")):
        try:
            read(course)
        except EXPECTED as error:
            faults += in_words(error).splitlines()
    return "saved as CSV", faults


def _whole_pages(course):
    faults, pages = [], []
    for lesson in course.lessons.values():
        try:
            path = page_of(course.settings.notebooks, lesson.id)
            pages.append(pack_page(path, lesson))       # refuses what is no page
            faults += page_faults(course, lesson, path)
        except EXPECTED as error:
            faults.append(in_words(error))
    typed, _ = typed_and_changed(pages)
    left = f"; give-out takes out what was typed into them: {typed}" if typed else ""
    return f"{_so_many(len(course.lessons), 'page asks', 'pages ask')} what the model answers declare{left}", faults


def _so_many(count, one, several):
    return f"{count} {plural(count, one, several)}"


_FIRST = {"course.toml": lambda course: (f"“{course.settings.title}”", []),
          "class_list.csv": lambda course: (f"{_so_many(len(course.students), 'bench', 'benches')} and "
                                            f"{len(course.spares)} spare ones", []),
          "model answers": lambda course: (
              f"{_so_many(len(course.lessons), 'lesson', 'lessons')}, "
              f"{sum(len(lesson.exercises) for lesson in course.lessons.values())} exercises", []),
          "secret.txt": lambda course: ("the one that made this course" if course.secret and kept_ids(course)
                                        else "nothing was made with it yet", [])}
_THEN = {"folders": _whether_open, "given out": _kept_values, "dates": _dates, "tables": _tables,
         "pages": _whole_pages}


# ---- a page beside its declaration ----


def page_faults(course, lesson, path):
    """Return what students would stumble over on the page of a lesson, each a sentence.

    Parameters
    ----------
    course : Course
        Its marks say which exercises were taken out on purpose.
    lesson : Lesson
    path : path
        The page.
    """
    notebook = json.loads(path.read_bytes())
    page, known = _Page(read_page(notebook)), {exercise.id for exercise in lesson.exercises}
    faults, data = [], path.parent / "data"
    if page.sheets and lesson.id not in page.sheets:
        faults.append(f"it opens the sheet of lesson {', '.join(map(str, page.sheets))}: write "
                      f'open_sheet("{lesson.id}").')
    if missing := sorted(name for name in page.files if not (data / name).is_file()):
        faults.append(f"it reads {', '.join(missing)}, which {data} has not: copy that folder, too, where you copied "
                      "the pages.")
    faults += [f"it asks for {name}, which lesson_{lesson.id}.py does not declare: add it there (to LESSON, too), or "
               "take it off the page." for name in sorted({*page.answers, *page.given} - known, key=str)]
    for exercise in lesson.exercises:
        due = "further" if exercise.further else "core"
        if exercise.is_marked and page.words.get(exercise.id, due) != due:
            faults.append(f"exercise {exercise.id} is {due} in the model answers, and its heading says otherwise: "
                          f"write ### Exercise {exercise.id} ({due}).")
        if not exercise.is_scored:
            continue        # the panel of a prediction asks
        if exercise.id in page.answers:
            faults += _exercise_faults(page, exercise)
        elif course.settings.marks.get(exercise.id) != 0:
            most = course.settings.most_marks(exercise)
            costs = f"every student would get 0 of {most:g} for it" if most else "it would stay empty for everybody"
            faults.append(f"exercise {exercise.id} is declared, but not asked: {costs}. Ask it on the page, or write "
                          f'"{exercise.id}" = 0 below [marks] in course.toml.')
    if ("presenting", "") in clean_page(notebook, asked_of(lesson.exercises))[1]:
        faults.append("presenting() opens its panels without predictions: take it out.")
    return [f"{path.name}: {fault}" for fault in faults]


class _Page:
    """What is read off a page: questions, answers asked, values shown, sheets opened, files of the bench."""

    def __init__(self, cells):
        self.questions = {cell.exercise_id: cell.text for cell in reversed(cells) if isinstance(cell, Question)}
        self.words = {cell.exercise_id: cell.word or "core" for cell in reversed(cells) if isinstance(cell, Question)}
        self.prose = "\n".join(cell.source for cell in cells if isinstance(cell, (Prose, Question)))
        self.answers, self.given, self.sheets, self.files = {}, set(), set(), set()
        for cell in cells:
            if isinstance(cell, Code):
                self.answers |= {answer.exercise_id: answer for answer in answers_in(cell.source)}
                self._note(parsed(cell.source))

    def _note(self, tree):
        for call in calls(tree) if tree else ():
            first = call.args[0].value if call.args and isinstance(call.args[0], ast.Constant) else None
            if is_of_sheet(call, "given"):
                self.given.add(first)
            elif getattr(call.func, "id", "") == "open_sheet":
                self.sheets.add(first)
            elif getattr(call.func, "id", "") == "from_bench" and isinstance(first, str):
                self.files.add(first)


def _exercise_faults(page, exercise):
    """Given values are shown, the unit can be read as the asked one, options are those declared, word for word."""
    if exercise.is_drawn and exercise.shown and exercise.id not in page.given:
        yield f'the given values of {exercise.id} are not shown: put sheet.given("{exercise.id}") before its answer.'
    if exercise.unit:
        call = page.answers[exercise.id].call
        units = [one.value for one in (call.args[2:3] if call else ()) if isinstance(one, ast.Constant)]
        try:
            for unit in units:
                into(1.0, unit, exercise.unit)
        except ValueError:
            yield f'{exercise.id} is asked in "{units[0]}" on the page, and in "{exercise.unit}" in the model answers.'
    if options := getattr(exercise, "options", None):
        text = page.questions.get(exercise.id, page.prose)
        words = " ".join(text.split())
        for letter, option in options.items():
            if f"({letter}) {' '.join(option.split())}" not in words:
                yield f'option ({letter}) of {exercise.id} is not on the page word for word: "{option}".'
        if exercise.id in page.questions and (more := sorted({*_LETTER.findall(text)} - set(options))):
            yield f"option ({more[0]}) of {exercise.id} is on the page, but the model answers have no such letter."
