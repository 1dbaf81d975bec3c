"""``play``: is all ready for a class? What it needs is looked at, then one bench works through all lessons."""
import json
import os
import shutil
import tempfile
from contextlib import chdir, contextmanager
from dataclasses import dataclass
from pathlib import Path

from lessons_lib.course.clean_page import asked_of, clean_page
from lessons_lib.course.folder import Course, bench_card
from lessons_lib.course.given_out import GivenOut
from lessons_lib.course.marking import Marker
from lessons_lib.course.read_page import Ask, read_page
from lessons_lib.course.ready import look_over
from lessons_lib.course.telling import counted
from lessons_lib.exercises.bench import use_card
from lessons_lib.exercises.draws import draw_lesson
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.open_sheet import sheet_beside_page
from lessons_lib.exercises.returns import NotRead, read_return
from lessons_lib.exercises.sheet_file import sheet_bytes, write_whole
from lessons_lib.exercises.verdicts import State
from lessons_lib.lessons.own_instrument import FILE


def play(course, bench, pages=False):
    """Return what fails, each a sentence, when *bench* works through every lesson with the model answers.

    Parameters
    ----------
    course : Course
    bench : str
        One of the class list; its own numbers are used, those that were given out where they were.
    pages : bool
        Whether the pages are run, too, every cell of them.

    Notes
    -----
    All is done in a folder of its own that is removed at the end: nothing is given out, kept or returned.
    """
    course, faults = Course(course.folder.resolve()), []    # it is read from within another folder
    # on some systems a kernel that has just ended holds its folder for a moment
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as home, _at_desk(Path(home)) as desk:
        use_card(bench_card(course.secret, bench))
        for lesson in counted(course.lessons.values(), "lessons played"):
            faults += _play_lesson(course, lesson, bench, desk)
        if pages:
            faults += _run_pages(course, desk)
    return faults


@contextmanager
def _at_desk(home):
    """Stand in the folder *home*, with a work folder in it."""
    work = os.environ.get("LESSONS_WORK_FOLDER")
    os.environ["LESSONS_WORK_FOLDER"] = str(home / "my_work")
    try:
        with chdir(home):
            yield home
    finally:
        os.environ.pop("LESSONS_WORK_FOLDER")
        if work is not None:
            os.environ["LESSONS_WORK_FOLDER"] = work


def _play_lesson(course, lesson, bench, desk):
    try:
        drawn = draw_lesson(lesson, secret=course.secret, bench=bench, kept=GivenOut(course, lesson).drawn(bench))
        made = {"secret": course.secret, "bench": bench, "drawn": drawn}
        with_right = make_sheet(lesson, **made, for_marking=True)
        content = make_sheet(lesson, **made) if lesson.silent else with_right
    except Exception as error:      # a formula of the answers may fail in any way
        return [f"Lesson {lesson.id}: no sheet can be made for {bench}: {type(error).__name__}: {error}."]
    write_whole(desk / "sheets" / lesson.id / f"{bench}.json", sheet_bytes(content))
    sheet = sheet_beside_page(lesson.id)
    if sheet.trouble:
        return [f"Lesson {lesson.id}: {sheet.trouble}"]
    faults = [fault for exercise in lesson.exercises
              if (fault := _answer_right(sheet, exercise, drawn.get(exercise.id), lesson.silent))]
    return faults + _hand_in(lesson, Marker(lesson, with_right, drawn, course.settings, {}), sheet, desk)


def _answer_right(sheet, exercise, drawn, is_silent):
    """Answer an exercise; return what is wrong with the verdict, or an empty text."""
    if not exercise.is_scored:
        sheet.predict(exercise.id, next(iter(exercise.options)), 2, "")
        verdict, wanted = sheet.saw(exercise.id, exercise.seen), (State.RIGHT,)
    else:
        try:
            value, unit, readings = exercise.model_answer(drawn)
        except Exception as error:      # as above
            return f"{exercise.id}: its model answer fails: {type(error).__name__}: {error}."
        verdict = sheet.answer(exercise.id, value, unit, **readings)
        wanted = (State.KEPT,) if exercise.is_text or is_silent else (State.RIGHT,)
    if verdict.state in wanted:
        return ""
    return f"{exercise.id}: the model answer is not right. The page says: {verdict.text}"


def _hand_in(lesson, marker, sheet, desk):
    """Hand in, read what was handed in, and mark it; return what does not earn all marks."""
    verdict = sheet.return_work()
    path = desk / "my_work" / f"return-{sheet.bench}-{lesson.id}.json"
    if verdict.state != State.READY:
        return [f"Lesson {lesson.id} cannot be handed in: {verdict.text}"]
    content = read_return(path.read_bytes())
    if isinstance(content, NotRead):
        return [f"Lesson {lesson.id}: what was handed in cannot be read: {content.reason}."]
    outcomes = marker.outcomes(marker.history(content.events))
    return [f"{exercise_id}: the model answer earns {one.marks:g} of {one.most:g} marks ({one.how})."
            for exercise_id, one in outcomes.items() if one.marks is not None and one.marks < one.most]


def _run_pages(course, desk):
    """Run every cell of every page that a lesson has, where the model answers were already put down."""
    import nbformat  # loaded only where pages are run
    from nbclient import NotebookClient
    from nbclient.exceptions import CellExecutionError, CellTimeoutError, DeadKernelError
    data = course.settings.notebooks / "data"
    if data.is_dir():
        shutil.copytree(data, desk / "data", dirs_exist_ok=True)
    if course.settings.instrument:
        shutil.copyfile(course.settings.instrument, desk / FILE)
    for lesson_id in counted(course.lessons, "pages run"):
        found = sorted(course.settings.notebooks.glob(f"{lesson_id}_*.ipynb"))
        if len(found) != 1:
            yield (f"Lesson {lesson_id} has {len(found)} pages {lesson_id}_*.ipynb in {course.settings.notebooks}; "
                   "one is needed.")
            continue
        clean, _ = clean_page(json.loads(found[0].read_bytes()), asked_of(course.lessons[lesson_id].exercises))
        page = nbformat.reads(json.dumps(clean), as_version=4)      # as students get it
        client = NotebookClient(page, timeout=180, kernel_name="python3", extra_arguments=["--log-level=ERROR"],
                                resources={"metadata": {"path": str(desk)}})
        try:
            client.execute()
        except (CellExecutionError, CellTimeoutError, DeadKernelError) as error:
            yield f"{found[0].name} stops: {str(error).strip().splitlines()[-1]}"
        # verdicts that are neither right nor kept; slips that a page makes on purpose aside, and open texts
        yield from (f"{found[0].name}: {text}" for cell in read_page(page)
                    if isinstance(cell, Ask) and "..." in cell.empty for text in cell.results
                    if not any(f": {state}." in text for state in (State.RIGHT, State.KEPT)))


@dataclass(frozen=True, kw_only=True)
class Readiness:
    """What was looked at before a class: *lines* to read, and *faults*, how many."""

    lines: tuple
    faults: int


def ready(course, pages=False):
    """Look whether all is ready for a class, then play the lessons as its first bench; return the `Readiness`."""
    with course.busy():
        lines, wrong, is_stopped = look_over(course)
        if is_stopped:
            return Readiness(faults=wrong, lines=(*lines, "Put right what is wrong; the rest was not looked at."))
        bench = next(iter(course.students))
        faults = play(course, bench, pages)
    exercises = sum(len(lesson.exercises) for lesson in course.lessons.values())
    what = (f"{len(course.lessons)} lessons, {exercises} exercises{' and all pages' if pages else ''} were played as "
            f"{bench}")
    wrong += len(faults)
    last = (f"{what}. Put right what fails, {wrong} in all, before you give anything out." if wrong else
            f"{what} with the model answers: all of it right. Next: give out.")
    return Readiness(faults=wrong, lines=(*lines, *faults, last))
