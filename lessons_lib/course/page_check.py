"""A lesson's page beside its declaration: what one has and the other has not, each a sentence with what to do."""
import ast
import json
import re

from lessons_lib.course.clean_page import asked_of, clean_page
from lessons_lib.course.page_code import answers_in, calls, is_of_sheet, parsed
from lessons_lib.course.read_page import Code, Prose, Question, read_page
from lessons_lib.exercises.reading import into

_OPTION = re.compile(r"^\s*[-*] \((\w)\)", re.MULTILINE)


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
    page = _Page(read_page(notebook))
    faults = [*_opened(page, lesson), *_files(page, path.parent / "data"), *_not_declared(page, lesson)]
    for exercise in lesson.exercises:
        if not exercise.is_scored:
            continue        # the panel of a prediction asks
        if exercise.id in page.answers:
            faults += [*_shown(page, exercise), *_unit(page, exercise), *_choice(page, exercise)]
        elif course.settings.marks.get(exercise.id) != 0:
            faults.append(_not_asked(exercise, course.settings.most_marks(exercise)))
    if ("presenting", "") in clean_page(notebook, asked_of(lesson.exercises))[1]:
        faults.append("presenting() opens its panels without predictions: take it out.")
    return [f"{path.name}: {fault}" for fault in faults]


class _Page:
    """What is read off a page: questions, answers asked, values shown, sheets opened, files of the bench."""

    def __init__(self, cells):
        self.questions = {cell.exercise_id: cell.text for cell in reversed(cells) if isinstance(cell, Question)}
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


def _opened(page, lesson):
    if page.sheets and lesson.id not in page.sheets:
        yield f'it opens the sheet of lesson {", ".join(map(str, page.sheets))}: write open_sheet("{lesson.id}").'


def _files(page, data):
    if missing := sorted(name for name in page.files if not (data / name).is_file()):
        yield f"it reads {', '.join(missing)}, which {data} has not: copy that folder, too, where you copied the pages."


def _not_declared(page, lesson):
    known = {exercise.id for exercise in lesson.exercises}
    for name in sorted({*page.answers, *page.given} - known, key=str):
        yield (f"it asks for {name}, which lesson_{lesson.id}.py does not declare: add it there (to LESSON, too), or "
               "take it off the page.")


def _not_asked(exercise, most):
    costs = f"every student would get 0 of {most:g} for it" if most else "it would stay empty for everybody"
    return (f"exercise {exercise.id} is declared, but not asked: {costs}. Ask it on the page, or write "
            f'"{exercise.id}" = 0 below [marks] in course.toml.')


def _shown(page, exercise):
    if exercise.is_drawn and exercise.id not in page.given:
        yield f'the given values of {exercise.id} are not shown: put sheet.given("{exercise.id}") before its answer.'


def _unit(page, exercise):
    """The unit on the page must be one that can be read as the asked one."""
    call = page.answers[exercise.id].call
    units = [one.value for one in (call.args[2:3] if call and exercise.unit else ()) if isinstance(one, ast.Constant)]
    try:
        for unit in units:
            into(1.0, unit, exercise.unit)
    except ValueError:
        yield f'{exercise.id} is asked in "{units[0]}" on the page, and in "{exercise.unit}" in the model answers.'


def _choice(page, exercise):
    """Options on the page are those of the declaration, word for word."""
    options = getattr(exercise, "options", None)
    if not options:
        return
    text = page.questions.get(exercise.id, page.prose)
    words = " ".join(text.split())
    for letter, option in options.items():
        if f"({letter}) {' '.join(option.split())}" not in words:
            yield f'option ({letter}) of {exercise.id} is not on the page word for word: "{option}".'
    if exercise.id in page.questions and (more := sorted({*_OPTION.findall(text)} - set(options))):
        yield f"option ({more[0]}) of {exercise.id} is on the page, but the model answers have no such letter."

