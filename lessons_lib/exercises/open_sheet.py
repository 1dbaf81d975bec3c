"""What lies beside a notebook: sheets, or answers to make them from, for the bench that works here; how far each is."""
import re
from pathlib import Path

from lessons_lib.exercises.bench import SELF_STUDY_BENCHES, remembered_card
from lessons_lib.exercises.self_study import load_lesson, self_study_records, self_study_sheet, self_study_worked
from lessons_lib.exercises.sheet import Sheet
from lessons_lib.exercises.sheet_file import read_sheet
from lessons_lib.exercises.verdicts import State, Table, Verdict, sentence
from lessons_lib.exercises.work_folder import work_folder


def sheet_beside_page(lesson):
    """Return the `Sheet` of a lesson, "01", for the bench that works here.

    The sheet is read from ``sheets/<lesson>/<bench>.json`` beside the running notebook, as a pack has it. Where there
    is none, that of a self-study bench is made from ``answers/lesson_NN.py`` beside the notebook's folder. The bench is
    the remembered card's, else b000. Without a sheet every answer says why, in one sentence.
    """
    if not (isinstance(lesson, str) and re.fullmatch(r"\d{2}", lesson, re.ASCII)):
        return Sheet(trouble=Verdict(
            State.NO_SHEET, 'Name the lesson with two digits in quotes: open_sheet("01").'))
    return _opened(lesson)


def _opened(lesson):
    try:
        work_folder()
    except ValueError as error:
        return Sheet(trouble=Verdict(State.NO_SHEET, str(error)))
    card, answers = remembered_card(), answers_beside_page(lesson)
    bench = card[0] if card else SELF_STUDY_BENCHES[0]
    try:
        content = read_sheet((_sheets() / lesson / f"{bench}.json").read_bytes())
        if (content["lesson"], content["bench"]) != (lesson, bench):
            raise ValueError("it belongs to another bench or lesson")
    except OSError:
        if bench not in SELF_STUDY_BENCHES or not answers.is_file():
            return Sheet(trouble=_no_sheet(lesson, bench, card))
        try:
            content = self_study_sheet(load_lesson(answers), bench)
        except ValueError as error:
            return Sheet(trouble=Verdict(State.NO_SHEET, sentence(str(error))))
    except ValueError as error:
        return Sheet(trouble=Verdict(State.NO_SHEET, f"The sheet of lesson {lesson} for {bench} is damaged: {error}. "
                                                     "Get a fresh copy from where you got the course."))
    return Sheet(content=content, worked=lambda exercise_id: self_study_worked(
        load_lesson(answers), bench, exercise_id), loud=lambda: self_study_records(load_lesson(answers), bench))


def _sheets():
    return Path("sheets").absolute()


def answers_beside_page(lesson):
    """Return the path of a lesson's model answers beside the running page's folder, whether or not it is there."""
    return Path.cwd().parent / "answers" / f"lesson_{lesson}.py"


def _no_sheet(lesson, bench, card):
    if card is None and (_sheets() / lesson).is_dir():
        return Verdict(State.NO_BENCH, "Type your card on the page 00_start_here, then run this again.")
    if (_sheets() / lesson).is_dir() or answers_beside_page(lesson).is_file():
        return Verdict(State.NO_SHEET, f"There is no sheet of lesson {lesson} for {bench}. "
                                       "Is the card on the page 00_start_here yours?")
    return Verdict(State.NO_SHEET, f"There is no sheet of lesson {lesson}: neither a folder sheets/{lesson} beside "
                                   f"this notebook, nor a file answers/lesson_{lesson}.py beside its folder. Open "
                                   "the notebook in the folder it came in.")


def progress():
    """Return a `Table` of all lessons beside this notebook and how far each is."""
    lessons = sorted({path.name for path in _sheets().glob("[0-9][0-9]") if path.is_dir()}
                     | {path.stem[-2:] for path in answers_beside_page("").parent.glob("lesson_[0-9][0-9].py")})
    if not lessons:
        return Verdict(State.NO_SHEET, "There are no sheets beside this notebook. Open it in the folder it came in.")
    rows = [_progress_row(lesson) for lesson in lessons]
    if any(further for *_, further in rows):
        return Table(caption="Progress", head=("lesson", "title", "core done", "further done"), rows=tuple(rows))
    return Table(caption="Progress", head=("lesson", "title", "done"), rows=tuple(row[:3] for row in rows))


def _progress_row(lesson):
    sheet = _opened(lesson)
    if sheet.trouble:
        return lesson, str(sheet.trouble.state), "", ""
    core, further = sheet.done(), sheet.done(further=True)
    return lesson, sheet.title, "{} of {}".format(*core), "{} of {}".format(*further) if further[1] else ""
