"""Lessons on paper: every exercise with given values and room for the answer, three states of each panel, no answer."""
import base64
import re

import pytest

import lessons_lib
from handout_reader import Reader, given_away
from lab import chromium, need_browser
from lessons_lib.__main__ import main
from lessons_lib.base.units import shown_unit
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw_lesson
from lessons_lib.exercises.parts import value_text
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.exercises.verdicts import State
from lessons_lib.handouts.figures import open_panel
from lessons_lib.handouts.prose import formula, to_html
from notebooks import LIVE, NOTEBOOKS, lessons, read
from shown import panel_makers

LESSONS = {lesson.id: lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers")}
every_sheet = pytest.mark.parametrize("lesson_id", LESSONS)
every_lesson = pytest.mark.parametrize("lesson_id", [one.id for one in LESSONS.values() if not one.silent])


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

def test_every_lesson_has_a_handout_and_words_and_symbols_go_with_them(folder):
    assert sorted(path.name for path in folder.glob("*.html")) == [
        *(f"handout_{lesson_id}_b000.html" for lesson_id in LESSONS), "words_and_symbols.html"]


@every_sheet
def test_every_exercise_is_there_with_all_given_values(lesson_id, page):
    reader, values = Reader(page), drawn(lesson_id)
    for exercise in LESSONS[lesson_id].exercises:
        if exercise.kind == "prediction":
            continue
        [section] = reader.of(tag="section", id=f"exercise-{exercise.id}")
        if exercise.id != "0.1":        # the page works this one out itself
            assert reader.of(**{"data-exercise": exercise.id}), exercise.id
        for name, value in values[exercise.id].shown.items() if exercise.id in values else ():
            if exercise.kind == "curve" and name in exercise.derived:
                continue        # drawn as lines
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
    live = [found[1] or found[2] for cell in notebook.cells if LIVE in cell.metadata.get("tags", ())
            for found in re.finditer(r"^panels\.(\w+)\(sheet|^(first_look)\(", cell.source, re.MULTILINE)]
    assert [one["data-panel"] for one in Reader(page).of(**{"class": "figures"})] == live
    for panel in live:
        assert len(open_panel(lesson_id, panel, None).on_paper) == 3
        block = page.split(f'data-panel="{panel}"')[1].split("</div><section")[0].split("<hr>")[0]
        pictures = re.findall(r'src="data:image/svg\+xml;base64,([^"]+)"', block)
        assert len(set(pictures)) == 3, panel
        captions = re.findall(r"</dl><p>(.*?)</p></figcaption>", block)
        assert len(captions) == 3 and all(len(re.findall(r"\d", text)) >= 3 for text in captions)
        assert len(set(re.findall(r'<p class="state">\d\. (.*?)</p>', block))) == 3, panel


def test_every_panel_is_on_its_page():
    code = {path.name[:2]: "".join(cell.source for cell in read(path).cells) for path in lessons()}
    for lesson_id, page in code.items():
        assert all(f"panels.{panel}(sheet" in page for panel in panel_makers(lesson_id)), lesson_id


@every_lesson
def test_a_prediction_stands_before_the_figures_and_what_they_mean_after(lesson_id, page):
    text = words(page)
    for exercise in LESSONS[lesson_id].exercises:
        if exercise.kind == "prediction":
            reader = Reader(page)
            if not exercise.seen_question:      # a vote, without a panel
                [card] = [one for one in reader.of(**{"class": "vote"}) if exercise.question in words(one["text"])]
                assert all(f"({letter}) {one}" in words(card["text"]) for letter, one in exercise.options.items())
                continue
            [card] = [one for one in reader.of(**{"class": "prediction"}) if exercise.question in words(one["text"])]
            assert all(option in words(card["text"]) for option in exercise.options.values())
            assert "How sure?" in card["text"] and "Why, in a line:" in card["text"]
            seen = [one for one in reader.of(**{"class": "seen"}) if exercise.seen_question in words(one["text"])]
            assert len(seen) == 1
    parts = re.findall(r'class="(?:prediction|panel next-page|seen|meaning next-page)"|<strong>What it means\.', text)
    assert parts and parts == len(parts) // 5 * ['class="prediction"', 'class="panel next-page"', 'class="seen"',
                                                 'class="meaning next-page"', "<strong>What it means."]
    assert "&lt;details" not in text and "open it when you have looked" not in text


@every_lesson
def test_machinery_stays_on_the_page(lesson_id, page):
    listings = "\n".join(one["text"] for one in Reader(page).of(**{"class": "listing"}))
    machinery = "open_sheet"
    if lesson_id != "00":
        machinery = r"open_sheet|sheet\.given|sheet\.answer|sheet\.return_work|\.still\("
    assert not re.search(machinery, listings)
    assert lesson_id == "00" or "print(" in listings
    assert ("plays sounds" in page) == (lesson_id in ("03", "04", "05", "06", "07", "08"))
    assert ("shows a film" in page) == (lesson_id in ("01", "02", "04"))


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


def test_worked_answers_of_self_study_stand_apart(folder):
    worked = (folder / "worked" / "b000.html").read_text(encoding="utf-8")
    assert f"{drawn('01')['1.1'].answer:.4g}" in worked and "Not before you have tried" in worked


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
    for data in paper.values():     # 33 and 35 pages when it was looked at: each of six panels has three
        assert 25 <= len(re.findall(rb"/Type\s*/Page\b", data)) <= 35
    assert height < (279 - 31) / 25.4 * 96      # mm between the margins of a Letter page, in pixels of 1/96 inch
