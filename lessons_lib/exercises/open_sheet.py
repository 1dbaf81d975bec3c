"""What lies beside a notebook: the sheets of its folder, opened for the bench that works here, and how far each is."""
import re
from pathlib import Path

from lessons_lib.exercises.bench import remembered_card
from lessons_lib.exercises.sheet import Sheet
from lessons_lib.exercises.sheet_file import read_sheet
from lessons_lib.exercises.verdicts import State, Table, Verdict


def open_sheet(lesson):
    """Return the `Sheet` of a lesson for the bench that works here.

    Parameters
    ----------
    lesson : str
        Two figures, "01".

    Notes
    -----
    The sheet is read from ``sheets/<lesson>/<bench>.json`` beside the running notebook. The bench is the remembered
    card's, else b000 where its sheet is there. Without a sheet every answer says why, in one sentence.
    """
    if not (isinstance(lesson, str) and re.fullmatch(r"\d{2}", lesson, re.ASCII)):
        return Sheet(trouble=Verdict(
            State.NO_SHEET, 'Name the lesson with two digits in quotes: open_sheet("01").'))
    folder, card = _sheets_folder() / lesson, remembered_card()
    bench = card[0] if card else "b000"
    trouble, content = None, None
    try:
        content = read_sheet((folder / f"{bench}.json").read_bytes())
        if (content["lesson"], content["bench"]) != (lesson, bench):
            raise ValueError("it belongs to another bench or lesson")
    except OSError:
        trouble = _no_file(folder, lesson, bench, card)
    except ValueError as error:
        trouble = Verdict(State.NO_SHEET, f"The sheet of lesson {lesson} for {bench} is damaged: {error}. "
                                          "Get a fresh copy from where you got the course.")
    return Sheet(trouble=trouble) if trouble else Sheet(content=content, folder=folder)


def _sheets_folder():
    return Path("sheets").absolute()


def _no_file(folder, lesson, bench, card):
    if not folder.is_dir():
        return Verdict(State.NO_SHEET, f"There is no sheet of lesson {lesson} beside this notebook. Open the notebook "
                                       "in the folder it came in, with the folder sheets beside it.")
    if card is None and any(folder.glob("b00[0-9].json")):
        return Verdict(State.NO_SHEET, f"The file sheets/{lesson}/{bench}.json is missing. "
                                       "Get a fresh copy from where you got the course.")
    if card is None:
        return Verdict(State.NO_BENCH, "Type your card on the page 00_start_here, then run this again.")
    return Verdict(State.NO_SHEET, f"There is no sheet of lesson {lesson} for {bench}. "
                                   "Is the card on the page 00_start_here yours?")


def progress():
    """Return a `Table` of all lessons beside this notebook and how far each is."""
    lessons = sorted(path.name for path in _sheets_folder().glob("[0-9][0-9]") if path.is_dir())
    if not lessons:
        return Verdict(State.NO_SHEET, "There are no sheets beside this notebook. Open it in the folder it came in.")
    return Table(caption="Progress", head=("lesson", "title", "done"), rows=tuple(map(_progress_row, lessons)))


def _progress_row(lesson):
    sheet = open_sheet(lesson)
    if sheet.trouble:
        return lesson, str(sheet.trouble.state), ""
    done, all_of_them = sheet.done()
    return lesson, sheet.title, f"{done} of {all_of_them}"
