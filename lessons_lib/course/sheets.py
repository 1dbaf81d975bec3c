"""Self-study sheets: every lesson of a folder of answers, for the benches whose numbers everybody may have."""
import importlib.util
from pathlib import Path

from lessons_lib.exercises.bench import SELF_STUDY_BENCHES
from lessons_lib.exercises.declaration import Lesson
from lessons_lib.exercises.draws import SELF_STUDY_SECRET
from lessons_lib.exercises.making import make_sheet, make_worked_answers
from lessons_lib.exercises.sheet_file import sheet_bytes, write_whole


def load_lessons(answers):
    """Return the `Lesson` that each ``lesson_NN.py`` of the folder *answers* calls ``LESSON``, in order.

    Raises
    ------
    ValueError
        Where there is no such file, or one cannot be used; the message is one sentence.
    """
    paths = sorted(Path(answers).glob("lesson_*.py"))
    if not paths:
        raise ValueError(f"There is no lesson_*.py in {answers}; name the folder of the model answers.")
    return [_load(path) for path in paths]


def _load(path):
    spec = importlib.util.spec_from_file_location(f"answers_{path.stem}", path)
    module = importlib.util.module_from_spec(spec)
    try:
        spec.loader.exec_module(module)
    except Exception as error:  # whatever the file does wrong, the instructor reads one sentence
        raise ValueError(f"{path} cannot be used: {type(error).__name__}: {error}") from error
    lesson = getattr(module, "LESSON", None)
    if not isinstance(lesson, Lesson):
        raise ValueError(f"{path} has no LESSON = Lesson(...).")
    if path.stem != f"lesson_{lesson.id}":
        raise ValueError(f"{path} holds lesson {lesson.id}; call it lesson_{lesson.id}.py.")
    return lesson


def write_sheets(*, answers, notebooks):
    """Write the self-study sheets of all lessons and return (path, whether it changed) of each file.

    Parameters
    ----------
    answers : path
        The folder of ``lesson_NN.py``.
    notebooks : path
        The sheets go to its folder ``sheets``, worked answers apart from them.

    Raises
    ------
    ValueError
        Where the lessons cannot be used; nothing is written then.
    """
    files = _files(load_lessons(answers), Path(notebooks) / "sheets")
    return [(path, _write(path, content)) for path, content in files]


def _files(lessons, folder):
    files = []
    for lesson in lessons:
        for bench in SELF_STUDY_BENCHES:
            sheet, worked = _contents(lesson, bench)
            files.append((folder / lesson.id / f"{bench}.json", sheet))
            files.append((folder / lesson.id / "worked" / f"{bench}.json", worked))
    return files


def _contents(lesson, bench):
    try:
        return (make_sheet(lesson, secret=SELF_STUDY_SECRET, bench=bench),
                {"worked": make_worked_answers(lesson, secret=SELF_STUDY_SECRET, bench=bench)})
    except Exception as error:  # a formula of the answers may fail in any way
        raise ValueError(f"Lesson {lesson.id} cannot be made for {bench}: {type(error).__name__}: {error}") from error


def _write(path, content):
    data = sheet_bytes(content)
    if path.is_file() and path.read_bytes() == data:
        return False
    write_whole(path, data)
    return True


def run(arguments):
    """Run ``sheets`` from the command line; return the words to print."""
    written = write_sheets(answers=arguments.answers, notebooks=arguments.notebooks)
    folder = Path(arguments.notebooks) / "sheets"
    changed = sum(new for _, new in written)
    return (f"{len(written)} files in {folder}, {changed} of them new or changed. "
            "Next: run the tests, then commit the folder.")
