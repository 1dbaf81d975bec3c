"""No page says before a prediction what its panel will show: what it means is closed, and nothing earlier tells it."""
import importlib
import re

import pytest

from lessons_lib.course.read_page import Folded, PanelCell, Prose, StillPanel, read_page
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.page.cards import STILL
from notebooks import ANSWERS, FOLD, lessons, read

PREDICTIONS = {lesson.id: {one.id: one for one in lesson.exercises if one.kind == "prediction" and one.seen_question}
               for lesson in load_lessons(ANSWERS)}
# words with which the answer would be told; each is said in the fold or with the observation, and nowhere earlier
TELLING = {
    "00": {"p1": "twice as often|doubles|twice the frequency"},
    "01": {"p1": "two thirds|more than half", "p2": "mean falls|opposite directions",
           "p3": "two thirds|inverse-square law is for|not a point",
           "p4": r"reverses|points \*\*against|backward field"},
    "02": {"p1": "several times|lamp of small resistance", "p2": "B (simply )?follows the load line",
           "p3": "far less than half|less than a third|1\\.7 times",
           "p4": "everywhere|same lines|line for line", "p5": r"0\.98 T|at the wall"},
    "03": {"p1": r"0\.12 %|tenths? of a per cent", "p2": "36 %|about a third",
           "p3": "by about two thirds|nearly full|1\\.81 T", "p4": r"negative spring|note lower|1[1-9] cents",
           "p5": r"94 %|nine tenths|passed the turn before", "p6": r"of one steel|known to 1 %"},
    "04": {"p1": "no voltage|tangent is level|follows not the linkage",
           "p2": "twice the frequency|twice in every swing", "p3": r"\*?four\*? times|half the cross-section",
           "p4": "hisses are alike|little is left to gain|knows? nothing of the turns"},
    "05": {"p1": r"peak stays the same|2\.45", "p2": "gap stays", "p3": "doubles, within|the larger its share",
           "p4": "flatter by as much|have all dropped out",
           "p5": r"0\.4 %|does not beat|the output has one"},
    "06": {"p1": "moves the peak sideways|decides where the peak is", "p2": r"8\.5 dB|just 0\.2 dB|No door",
           "p3": "negative|passes through zero|both sides", "p4": r"12\.3|Pythagoras|right angles",
           "p5": "insulator|order round|nothing is lost"},
    "07": {"p1": r"0\.10 dB|nobody hears|adjusted one by one", "p2": r"8(\.0)? dB|plain third is",
           "p3": r"−5\.9 dB|dip deeper|small ones lose",
           "p4": "winding alone reversed|neither hum nor signal|changes the sign",
           "p5": r"17\.5 dB|about an eighth|below −12 dB", "p6": "91 %|outside the copper\\.|more than 75 %",
           "p7": "takes away just what|nothing is left to lift|20 dB below"},
    "08": {"p1": r"leave it where it is|product\*? \$L|first (one )?stay", "p2": "23 %|together they hide",
           "p3": r"5\.04 kHz|core as well"},
}
STATED = {("03", "p3"): {"1.9"}}      # the law's saturation in tesla, which the page gives
HEADING = re.compile(r"^#+ ", re.MULTILINE)
every_lesson = pytest.mark.parametrize("path", lessons(), ids=lambda path: path.stem)


def panels_of(path):
    """(the page's cells, place of the panel among them, its prediction) of each panel that has one."""
    lesson, page = path.name[:2], read_page(read(path))
    panels = importlib.import_module(f"lessons_lib.lessons.lesson_{lesson}.panels")
    for place, cell in enumerate(page):
        if isinstance(cell, PanelCell) and hasattr(panels, cell.name):
            yield page, place, _prediction(panels, cell, lesson)


def _prediction(panels, cell, lesson):
    if cell.name == "guess_then_data":      # it wants readings first
        return PREDICTIONS[lesson]["p1"]
    return PREDICTIONS[lesson][getattr(panels, cell.name)().prediction]


def in_view(cells):
    return [cell for cell in cells if isinstance(cell, Prose) and not isinstance(cell, Folded)]


def until_heading(cells):
    """The cells before the next heading."""
    for cell in cells:
        if isinstance(cell, Prose) and HEADING.search(cell.source):
            return
        yield cell


def section_before(page, place):
    """The text in view between the last heading and a panel."""
    texts = [cell.source for cell in in_view(page[:place])]
    start = max(number for number, text in enumerate(texts) if HEADING.search(text))
    return " ".join([HEADING.split(texts[start])[-1], *texts[start + 1:]])


def numbers(words):
    """The numbers of a text that tell something: a share, a level other than 0 dB, or two digits and more."""
    return {one for one in re.findall(r"[−+]?\d+(?:\.\d+)?(?: (?:%|dB|cents))?", words)
            if one[-1] in "%Bs" or len(re.findall(r"\d", one)) > 1} - {"0 dB"}


@every_lesson
def test_what_a_panel_means_is_closed(path):
    found = list(panels_of(path))
    assert {exercise.id for *_, exercise in found} == set(PREDICTIONS[path.name[:2]])
    for page, place, exercise in found:
        means, *others = list(until_heading(page[place + 1:]))
        assert type(means) is Folded and means.source.startswith("\n\n**What it means.**"), exercise.id
        assert means.source.endswith("\n\n")
        assert not any("What it means" in cell.source for cell in in_view(others))
        for still in (cell for cell in others if isinstance(cell, StillPanel)):
            [output] = still.outputs
            assert output["data"]["text/html"].startswith(f'<details class="lesson-fold"><summary>{STILL}</summary>')


@every_lesson
def test_each_fold_is_one_that_the_page_can_open_and_paper_can_read(path):
    for cell in read(path).cells:
        if "<details" in cell.source or "What it means.**" in cell.source:
            assert cell.source.startswith(FOLD) and cell.source.count("details>") == cell.source.count("<details") == 1


@every_lesson
def test_nothing_in_view_tells_the_answer_before_it_is_predicted(path):
    for page, place, exercise in panels_of(path):
        telling = TELLING[path.name[:2]][exercise.id]
        said = exercise.seen_notes[exercise.seen] + exercise.seen_options[exercise.seen]
        assert re.search(telling, page[place + 1].source + said)
        others = [words for letter, words in exercise.seen_options.items() if letter != exercise.seen]
        asked = " ".join([exercise.question, exercise.seen_question, *exercise.options.values(), *others])
        for cell in in_view([*page[:place], *until_heading(page[place + 2:])]):
            assert not re.search(telling, cell.source), (exercise.id, re.search(telling, cell.source), cell.source)
        told = numbers(said) - numbers(asked) - STATED.get((path.name[:2], exercise.id), set())
        assert not told & numbers(section_before(page, place)), exercise.id
