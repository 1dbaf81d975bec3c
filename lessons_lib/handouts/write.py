"""``handouts``: lessons as files to print, for self-study benches or for the benches of a course."""
import json
from pathlib import Path

from lessons_lib.course.clean_page import clean_page
from lessons_lib.course.folder import Course, command_line
from lessons_lib.course.given_out import NOTHING_YET, GivenOut, lessons_given_out
from lessons_lib.course.pack import chosen_ids, page_of
from lessons_lib.course.right_answers import read_benches, self_study_page
from lessons_lib.course.settings import Settings
from lessons_lib.course.telling import counted
from lessons_lib.exercises.bench import SELF_STUDY_BENCHES
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.self_study import load_lessons, self_study_sheet
from lessons_lib.exercises.sheet_file import write_whole
from lessons_lib.handouts.page import Handout, words_on_paper

WORDS = "words_and_symbols"      # the page that is no lesson's and goes with every handout


def write_handouts(folder, sheets, *, notebooks):
    """Write a handout for each sheet and return the paths.

    Parameters
    ----------
    folder : path
        Files are called ``handout_01_b003.html``.
    sheets : list of dict
        As `make_sheet` gives them; those of one lesson follow each other.
    notebooks : path
        The folder of the lessons' pages.
    """
    paths, lesson = [], None
    for content in counted(sheets, "handouts"):
        if content["lesson"] != lesson:
            lesson, figures = content["lesson"], {}
            page = page_of(notebooks, lesson)
            asked = {name: (one["kind"], one.get("unit")) for name, one in content["exercises"].items()}
            notebook, _ = clean_page(json.loads(page.read_bytes()), asked)
        path = Path(folder) / f"handout_{lesson}_{content['bench']}.html"
        write_whole(path, Handout(notebook, name=page.name, content=content, figures=figures).page())
        paths.append(path)
    return paths


def _self_study(arguments):
    """(sheets, folder of their pages, bench -> page of worked answers, last words) for self-study benches."""
    benches = [bench.strip().lower() for bench in (arguments.benches or SELF_STUDY_BENCHES[0]).split(",")]
    if wrong := [bench for bench in benches if bench not in SELF_STUDY_BENCHES]:
        raise ValueError(f'"{wrong[0][:20]}" is not a bench for self-study; those are {SELF_STUDY_BENCHES[0]} to '
                         f"{SELF_STUDY_BENCHES[-1]}. For the benches of a class, name its folder: --course FOLDER.")
    settings = Settings()
    lessons = {lesson.id: lesson for lesson in load_lessons(settings.answers)}
    ids = chosen_ids(arguments.lessons, lessons, "There is no lesson {}.")
    sheets = [self_study_sheet(lessons[lesson_id], bench) for lesson_id in ids for bench in benches]
    worked = {bench: self_study_page([lessons[lesson_id] for lesson_id in ids], bench) for bench in benches}
    return sheets, settings.notebooks, worked, "Worked answers are kept apart, in the folder worked."


def _from_course(arguments):
    """The same for benches of a course, with the values that were given out; their worked answers have a command."""
    course = Course(arguments.course)
    with course.busy():
        benches = read_benches(course, arguments.benches)
        ids = chosen_ids(arguments.lessons, lessons_given_out(course), "Lesson {} has not been given out yet.")
        if not ids:
            raise ValueError(NOTHING_YET)
        sheets = []
        for lesson in (course.lessons[lesson_id] for lesson_id in ids):
            given_out = GivenOut(course, lesson)
            sheets += [make_sheet(lesson, secret=course.secret, bench=bench, drawn=given_out.drawn(bench))
                       for bench in benches if bench in given_out]
    if not sheets:
        raise ValueError(f"Nothing has been given out to {', '.join(benches)[:60]}. Run give-out again.")
    worked = command_line("worked-answers", arguments.course, "--bench", benches[0])
    return sheets, course.settings.notebooks, {}, f"Worked answers, for your eyes only:\n  {worked}"


def run_handouts(arguments):
    """Run ``handouts`` from the command line; return the words to print."""
    sheets, notebooks, worked, last = _from_course(arguments) if arguments.course else _self_study(arguments)
    paths = write_handouts(arguments.folder, sheets, notebooks=notebooks)
    for bench, page in worked.items():
        write_whole(arguments.folder / "worked" / f"{bench}.html", page)
    words = notebooks / f"{WORDS}.ipynb"
    if words.exists():
        write_whole(arguments.folder / f"{WORDS}.html", words_on_paper(json.loads(words.read_bytes())))
    size = sum(path.stat().st_size for path in paths) / 1e6
    return (f"Handouts in {arguments.folder}: {len(paths)}, {size:.1f} MB, such as {paths[0].name}"
            f"{f'; {WORDS}.html goes with them' if words.exists() else ''}.\n"
            f"Next: open one in a browser and print it, on A4 or Letter. {last}")
