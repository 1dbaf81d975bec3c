"""Lessons on paper: every exercise with given values and room for the answer, three states of each panel, no answer."""
import base64
import re
from html.parser import HTMLParser

import pytest

import lessons_lib
from lab import chromium, need_browser
from lessons_lib.__main__ import main
from lessons_lib.base.units import shown_unit
from lessons_lib.course.folder import Course
from lessons_lib.course.given_out import GivenOut
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.pack import give_out
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw_lesson
from lessons_lib.exercises.parts import value_text
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.exercises.verdicts import State
from lessons_lib.handouts.page import Handout
from lessons_lib.handouts.prose import formula, to_html
from lessons_lib.handouts.states import STATES, states_of
from notebooks import LIVE, NOTEBOOKS, lessons, read

LESSONS = {lesson.id: lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers")}
every_lesson = pytest.mark.parametrize("lesson_id", LESSONS)
VOID = {"meta", "img", "br", "hr"}      # of the elements that a handout has, those that HTML never closes


class Reader(HTMLParser):
    """The elements of a page in order, each with what stands in it; a tag that does not fit is an error."""

    def __init__(self, page):
        super().__init__()
        self.open, self.elements = [], []
        self.feed(page)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag, attributes):
        element = {"tag": tag, "text": "", **dict(attributes)}
        self.elements.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_startendtag(self, tag, attributes):
        self.elements.append({"tag": tag, "text": "", **dict(attributes)})

    def handle_endtag(self, tag):
        assert self.open.pop()["tag"] == tag, (tag, self.getpos())

    def handle_data(self, data):
        for element in self.open:
            element["text"] += data

    def of(self, **wanted):
        return [one for one in self.elements if all(one.get(name) == value for name, value in wanted.items())]


def words(text):
    return " ".join(text.split())


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """The handouts of all lessons for b000."""
    folder = tmp_path_factory.mktemp("handouts")
    assert main(["handouts", str(folder)]) == 0
    return folder


@pytest.fixture
def page(folder, lesson_id):
    return (folder / f"handout_{lesson_id}_b000.html").read_text(encoding="utf-8")


def drawn(exercise_id):
    return draw_lesson(LESSONS[exercise_id], secret=SELF_STUDY_SECRET, bench="b000")


# ---- what is in it ---------------------------------------------------------------------------------------------------

def test_every_lesson_has_a_handout(folder):
    assert sorted(path.name for path in folder.glob("*.html")) == [
        f"handout_{lesson_id}_b000.html" for lesson_id in LESSONS]


@every_lesson
def test_every_exercise_is_there_with_all_given_values(lesson_id, page):
    reader, values = Reader(page), drawn(lesson_id)
    for exercise in LESSONS[lesson_id].exercises:
        if exercise.kind == "prediction":
            continue
        [section] = reader.of(tag="section", id=f"exercise-{exercise.id}")
        if exercise.id != "0.1":        # the page works this one out itself
            assert reader.of(**{"data-exercise": exercise.id}), exercise.id
        for name, value in values[exercise.id].shown.items() if exercise.id in values else ():
            shown = value_text(value, exercise.shown[name])
            for text in [shown] if isinstance(shown, str) else shown:
                assert text in section["text"], (exercise.id, name)
        for letter, option in getattr(exercise, "options", {}).items():
            assert f"({letter}) {option}" in words(section["text"])
        if exercise.kind in ("number", "measured") and exercise.id != "0.1":
            assert (shown_unit(exercise.unit) or "(a plain number)") in section["text"].rpartition(":")[2]
            assert reader.of(**{"class": "box"})


@every_lesson
def test_every_panel_of_the_page_shows_three_states(lesson_id, page):
    notebook = read(next(path for path in lessons() if path.name.startswith(lesson_id)))
    live = [found[1] for cell in notebook.cells if LIVE in cell.metadata.get("tags", ())
            for found in re.finditer(r"^panels\.(\w+)\(sheet", cell.source, re.MULTILINE)]
    assert [one["data-panel"] for one in Reader(page).of(**{"class": "figures"})] == live
    for panel in live:
        assert len(states_of(lesson_id, panel)) == 3
        block = page.split(f'data-panel="{panel}"')[1].split("</div><section")[0].split("<hr>")[0]
        pictures = re.findall(r'src="data:image/svg\+xml;base64,([^"]+)"', block)
        assert len(set(pictures)) == 3, panel
        captions = re.findall(r"</dl><p>(.*?)</p></figcaption>", block)
        assert len(captions) == 3 and all(len(re.findall(r"\d", text)) >= 3 for text in captions)
        assert len(set(re.findall(r'<p class="state">\d\. (.*?)</p>', block))) == 3, panel


def test_the_table_names_no_panel_that_is_not_on_a_page():
    code = {path.name[:2]: "".join(cell.source for cell in read(path).cells) for path in lessons()}
    assert set(code) <= set(STATES)
    for lesson_id, page in code.items():
        assert all(f"panels.{panel}(sheet" in page for panel in STATES[lesson_id]), lesson_id


@every_lesson
def test_a_prediction_stands_before_the_figures_and_what_they_mean_after(lesson_id, page):
    text = words(page)
    for exercise in LESSONS[lesson_id].exercises:
        if exercise.kind == "prediction":
            reader = Reader(page)
            [card] = [one for one in reader.of(**{"class": "prediction"}) if exercise.question in words(one["text"])]
            assert all(option in words(card["text"]) for option in exercise.options.values())
            assert "How sure?" in card["text"] and "Why, in a line:" in card["text"]
            seen = [one for one in reader.of(**{"class": "seen"}) if exercise.seen_question in words(one["text"])]
            assert len(seen) == 1
    parts = re.findall(r'class="prediction"|class="panel next-page"|class="seen"|<strong>What it means\.', text)
    assert parts and parts == len(parts) // 4 * ['class="prediction"', 'class="panel next-page"', 'class="seen"',
                                                 "<strong>What it means."]


@every_lesson
def test_machinery_stays_on_the_page(lesson_id, page):
    listings = "\n".join(one["text"] for one in Reader(page).of(**{"class": "listing"}))
    machinery = "open_sheet"
    if lesson_id != "00":
        machinery = r"open_sheet|sheet\.given|sheet\.answer|sheet\.return_work|\.still\("
    assert not re.search(machinery, listings)
    assert lesson_id == "00" or "print(" in listings
    assert ("plays sounds" in page) == (lesson_id in ("04", "05", "06", "07", "08"))


# ---- the file --------------------------------------------------------------------------------------------------------

@every_lesson
def test_the_file_stands_alone_and_is_whole(lesson_id, page):
    Reader(page)
    ids = re.findall(r' id="([^"]+)"', page)
    assert len(ids) == len(set(ids))
    assert "://" not in page and not re.search(r"<(script|link|iframe)\b", page)
    assert all(one.startswith("data:image/") for one in re.findall(r'(?:src|href)="([^"]*)"', page))
    for drawing in re.findall(r"svg\+xml;base64,([^\"]+)", page):
        svg = base64.b64decode(drawing).decode()
        assert all(one.startswith(("#", "data:")) for one in re.findall(r'href="([^"]*)"', svg))
    assert not re.search(r"Traceback|cannot be used|no such exercise|\bnan\b|\$", Reader(page).elements[0]["text"])


def test_the_same_again_gives_the_same_bytes(folder, tmp_path):
    assert main(["handouts", str(tmp_path), "--lessons", "1"]) == 0
    name = "handout_01_b000.html"
    assert (tmp_path / name).read_bytes() == (folder / name).read_bytes()


def test_what_was_typed_on_this_machine_is_not_in_it(folder, tmp_path, monkeypatch):
    work = tmp_path / "work"
    monkeypatch.setenv("LESSONS_WORK_FOLDER", str(work))
    monkeypatch.chdir(NOTEBOOKS)
    sheet = lessons_lib.open_sheet("00")
    assert sheet.predict("p1", "a", 1, "a mere guess").state == State.KEPT
    assert sheet.prediction("p1").made and sheet.answer("0.2", 77, "Hz").state == State.FAR
    assert main(["handouts", str(tmp_path), "--lessons", "0"]) == 0
    assert (tmp_path / "handout_00_b000.html").read_bytes() == (folder / "handout_00_b000.html").read_bytes()
    assert [path.name for path in work.iterdir()] == ["log-b000.jsonl"]


def test_formulas_and_options_and_links():
    assert "<msub><mi>f</mi><mn>0</mn></msub>" in formula("f_0")
    html = to_html("a $a_b * c_d$ and\n\n$$\\frac{1}{2}$$\n\n- (a) up\n- (b) down\n\n[page](01_x.ipynb) <b>no</b>")
    assert html.count("<math") == 2 and 'display="block"' in html and "<em>" not in html
    assert html.count('<li class="tick">') == 2 and "href" not in html and "<b>" not in html


# ---- and what must not be in it --------------------------------------------------------------------------------------

def given_away(page, values):
    """Right values that are found: within the tolerance in a place for answers, or with five figures anywhere."""
    reader = Reader(page)
    for exercise_id, one in values.items():
        if one.exercise.kind == "design":
            continue
        digits = f"{abs(one.answer):.12e}".replace(".", "")[:5]
        numbers = re.findall(r"\d[\d.]{4,}", reader.elements[0]["text"])
        yield from (f"{exercise_id}: {found}" for found in numbers if found.replace(".", "").lstrip("0")[:5] == digits)
        for place in reader.of(**{"data-exercise": exercise_id}):
            own = place["text"].replace(f"{exercise_id}:", "")
            yield from (f"{exercise_id}: {found} in its place" for found in re.findall(r"[-−]?\d+\.?\d*", own)
                        if one.scale.distance(float(found.replace("−", "-")), one.answer) < 2)


@every_lesson
def test_no_right_value_is_in_it(lesson_id, page):
    values = drawn(lesson_id)
    assert values and list(given_away(page, values)) == []


@pytest.mark.parametrize("lesson_id", ["01"])
@pytest.mark.parametrize("plant", ["in the box", "in the text"])
def test_a_planted_value_is_found(lesson_id, page, plant):
    values = drawn(lesson_id)
    right = values["1.4"].answer
    planted = {"in the box": page.replace("1.4: <span", f"1.4: {right:.3g} <span"),
               "in the text": page.replace("<h1>", f"<p>It is {right:.6f}.</p><h1>")}[plant]
    assert planted != page and list(given_away(planted, values))


# ---- commands --------------------------------------------------------------------------------------------------------

def test_worked_answers_of_self_study_stand_apart(folder):
    worked = (folder / "worked" / "b000.html").read_text(encoding="utf-8")
    assert f"{drawn('01')['1.1'].answer:.4g}" in worked and "Not before you have tried" in worked


@pytest.fixture
def course(tmp_path):
    new_course(tmp_path / "autumn", 3)
    course = Course(tmp_path / "autumn")
    give_out(course, ["00"])
    return course


def test_a_course_gets_the_numbers_that_were_given_out(course, tmp_path, capsys):
    assert main(["handouts", str(tmp_path / "print"), "--course", str(course.folder)]) == 0
    assert "worked-answers" in capsys.readouterr().out
    kept = GivenOut(course, course.lessons["00"])
    assert sorted(path.name for path in (tmp_path / "print").iterdir()) == [
        f"handout_00_{bench}.html" for bench in course.students]
    for bench in course.students:
        page = (tmp_path / "print" / f"handout_00_{bench}.html").read_text(encoding="utf-8")
        values = kept.drawn(bench)
        for exercise_id in ("0.1", "0.2"):
            [section] = Reader(page).of(tag="section", id=f"exercise-{exercise_id}")
            for name, value in values[exercise_id].shown.items():
                assert value_text(value, values[exercise_id].exercise.shown[name]) in section["text"]
        assert f"bench {bench}" in page and list(given_away(page, values)) == []


@pytest.mark.parametrize("more, said", [
    (["--benches", "b017"], "is not a bench for self-study; those are b000 to b009. For the benches of a class, name"),
    (["--benches", "../x"], "is not a bench for self-study"), (["--lessons", "77"], "There is no lesson 77."),
    (["--course", "nowhere"], "is not a course folder")])
def test_what_cannot_be_written_is_one_sentence(tmp_path, more, said, capsys):
    assert main(["handouts", str(tmp_path / "print"), *more]) == 1
    assert said in capsys.readouterr().err and not (tmp_path / "print").exists()


@pytest.mark.parametrize("more, said", [
    (["--benches", "b999"], "is not a bench of this course"),
    (["--lessons", "1"], "Lesson 01 has not been given out yet.")])
def test_what_a_course_has_not_is_one_sentence(course, tmp_path, more, said, capsys):
    assert main(["handouts", str(tmp_path / "print"), "--course", str(course.folder), *more]) == 1
    assert said in capsys.readouterr().err and not (tmp_path / "print").exists()


def test_a_panel_without_states_is_one_sentence():
    with pytest.raises(ValueError, match="Lesson 01 shows the panel new_one, for which no settings are named; write"):
        states_of("01", "new_one")


def test_an_exercise_that_the_answers_have_not_is_said_on_the_page():
    content = {"lesson": "01", "title": "Garden", "bench": "b000", "version": 1, "exercises": {}}
    cells = [{"cell_type": "code", "metadata": {}, "outputs": [], "source": 'sheet.answer("9.9", ..., "m")'}]
    page = Handout({"cells": cells}, name="x.ipynb", content=content, figures={}).page().decode()
    assert "no such exercise here" in page


# ---- on paper --------------------------------------------------------------------------------------------------------

def test_it_prints_without_a_network(folder, tmp_path):
    need_browser()
    with chromium() as browser:
        page, asked = browser.new_page(), []
        page.on("request", lambda request: asked.append(request.url))
        page.goto((folder / "handout_03_b000.html").as_uri())
        paper = {form: page.pdf(format=form) for form in ("A4", "Letter")}
        page.emulate_media(media="print")
        height = page.evaluate("Math.max(...[...document.querySelectorAll('section.exercise, section.prediction, "
                               "figure')].map(one => one.offsetHeight))")
    assert all(url.startswith(("file:", "data:")) for url in asked)
    for data in paper.values():     # 17 pages when it was looked at
        assert 14 <= len(re.findall(rb"/Type\s*/Page\b", data)) <= 20
    assert height < (279 - 31) / 25.4 * 96      # mm between the margins of a Letter page, in pixels of 1/96 inch
