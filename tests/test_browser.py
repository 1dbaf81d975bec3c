"""Lessons and the desk in a real JupyterLab in a real browser, by keyboard as a student and an instructor would."""
import math

import pytest

from invented_class import everything_right, with_a_slip
from invented_student import Student, unpack
from lab import (
    cell_with,
    chromium,
    end_all_kernels,
    lab_server,
    need_browser,
    open_notebook,
    run_all,
    save,
    status_of,
    type_and_run,
)
from lessons_lib.course.folder import Course, bench_card
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw
from lessons_lib.exercises.self_study import load_lessons
from notebooks import NOTEBOOKS, copy_of_notebooks

need_browser()
from playwright.sync_api import expect  # noqa: E402  (after the check that it is there)

PATIENCE = 90_000       # ms; a shared machine may be slow, and no test is about speed
REASON = "that is what I think"
RADIUS_NOTE = "is it a radius or a diameter?"      # the note on a quarter of the right value
# where a quarter betrays something else, or another factor is tried
OTHER_SLIPS = {"03": (2, "over what distance did the flux change?"), "05": (1 / 4, "a whole one, or half of one?"),
               "06": (2 * math.pi, "radians per second"), "07": (6, "How many rods are inside a turn"),
               "08": (4 * math.pi ** 2, "that makes 4π²")}

LESSONS = {lesson.id: lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers")}


@pytest.fixture(scope="module")
def lab():
    """The address of a JupyterLab on a fresh copy of the notebooks, and a browser."""
    with copy_of_notebooks() as folder, lab_server(folder) as address, chromium() as browser:
        yield address, browser


@pytest.fixture
def page(lab):
    page = lab[1].new_page(viewport={"width": 1280, "height": 900})
    page.set_default_timeout(PATIENCE)
    errors = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    yield page
    page.close()
    # the end of a kernel cancels what the page still waits for, and says so
    assert [error for error in errors if "Canceled future" not in error] == []


CHOOSE_CELL = """number => { const notebook = window.jupyterapp.shell.currentWidget.content;
    notebook.activeCellIndex = number; notebook.mode = 'command'; notebook.activeCell.node.focus(); }"""
CELL_OF = """call => [...document.querySelectorAll('.jp-Notebook .jp-Cell')].findIndex(
    cell => cell.querySelector('.cm-content')?.innerText.includes(call))"""
# where the keyboard is: cell (-1 for none), what kind of control, and whether a reader sees it
STOP = """() => { const has = document.activeElement, notebook = window.jupyterapp.shell.currentWidget.content;
    const cells = [...document.querySelectorAll('.jp-Notebook .jp-Cell')], look = getComputedStyle(has);
    return {cell: has.closest('.lesson-widgets') ? cells.indexOf(has.closest('.jp-Cell')) : -1,
            chosen: notebook.activeCellIndex, cells: cells.length,
            kind: has.getAttribute('role') || has.type || has.tagName.toLowerCase(),
            text: has.innerText,
            shows: String(has.type === 'range' ? has.getAttribute('aria-valuetext') : has.selectedIndex ?? null),
            seen: look.outlineStyle === 'solid' && look.outlineWidth === '3px'}; }"""
KEYS = {"range": ("ArrowRight", "PageUp", "PageDown", "Home", "End", "ArrowLeft"), "checkbox": ("Space", "b", "Space"),
        "select-one": ("End", "b", "ArrowUp", "Home", "ArrowDown"), "radio": ("Space", "b", "ArrowDown"),
        # b alone would make a cell
        "text": ("ArrowUp",), "submit": ("Enter",), "button": ("Enter",), "summary": ("Enter",), "audio": ()}


def tab_until(page, wanted, key="Tab"):
    for _ in range(10):
        page.keyboard.press(key)
        if wanted(stop := page.evaluate(STOP)):
            return stop
    raise AssertionError(f"ten times {key} do not lead there")


def press_its_keys(page, stop, picture):
    """The control does something, the picture or its words follow, and the notebook keeps out of it."""
    # inside of a player the browser marks its own buttons
    assert stop["seen"] or stop["kind"] == "audio", f"nobody sees that it has the keyboard: {stop}"
    was, places = picture.get_attribute("aria-label") if picture.count() else None, {stop["shows"]}
    for key in KEYS[stop["kind"]]:
        page.keyboard.press(key)
        now = page.evaluate(STOP)
        places.add(now["shows"])
        assert now["chosen"] == stop["cell"] and now["cells"] == stop["cells"], f"{key} went to the notebook: {now}"
    if stop["kind"] in ("range", "select-one") and stop["shows"] != "null":      # the place in a film says nothing
        if now["shows"] == stop["shows"]:
            page.keyboard.press("Home")     # not where it began, or the picture would be the same again
        assert len(places) > 1, f"no key moves it: {stop}"
        expect(picture).not_to_have_attribute("aria-label", was, timeout=PATIENCE)


def shown(panel):
    picture = panel.locator(".lesson-picture")
    return picture.get_attribute("aria-label"), panel.locator("[role=status]").all_inner_texts()


def work_by_keyboard(page, number):
    """From Tab to Tab through the panel of a cell; a prediction comes first and leads on to the first control."""
    panel = page.locator(".jp-Notebook .jp-Cell").nth(number).locator(".lesson-widgets")
    panel.wait_for()
    picture, passed = panel.locator(".lesson-picture"), []
    assert panel.get_by_role("slider").count() == 0 and picture.count() == 0
    page.evaluate(CHOOSE_CELL, number)
    stop = tab_until(page, lambda stop: stop["cell"] == number)
    while stop["cell"] == number:
        passed.append(stop["kind"])
        if stop["kind"] == "text" and not picture.count():
            page.keyboard.type(REASON)
        press_its_keys(page, stop, picture)
        if "prediction" in stop["text"]:
            picture.wait_for()
            page.wait_for_function(f"({STOP})().cell === {number}")
            before = shown(panel)
        else:
            if stop["text"] == "Start again":
                expect(picture).to_have_attribute("aria-label", before[0], timeout=PATIENCE)
            page.keyboard.press("Tab")
        stop = page.evaluate(STOP)
    assert {"range", "radio"} <= set(passed), passed
    for _ in range(PATIENCE // 250):
        if shown(panel)[1] != before[1]:
            break
        page.wait_for_timeout(250)
    assert shown(panel)[1] != before[1]      # what was answered is said
    tab_until(page, lambda stop: stop["cell"] == number, key="Shift+Tab")


@pytest.mark.parametrize("lesson, call, exercise", [
    ("01", "panels.lines_of_flux(sheet)", "1.1"),
    ("02", "panels.circuit_beside_field(sheet)", "2.1"),
    ("03", "panels.string_in_field(sheet)", "3.3"),
    ("04", "panels.moving_string(sheet)", "4.4"),
    ("05", "panels.over_the_frets(sheet)", "5.1"),
    ("06", "panels.coil_and_cable(sheet)", "6.2"),
    ("07", "panels.field_over_six(sheet)", "7.9"),
    ("08", "panels.guess_then_data(sheet, exciter, R)", "8.1")])
def test_a_student_works_a_lesson(lab, page, lesson, call, exercise):
    address, name = lab[0], next(NOTEBOOKS.glob(f"{lesson}_*.ipynb")).name
    drawn = draw(LESSONS[lesson][exercise], secret=SELF_STUDY_SECRET, bench="b000")
    unit = drawn.exercise.unit
    open_notebook(page, address, name)
    assert run_all(page), "a cell raised"
    work_by_keyboard(page, page.evaluate(CELL_OF, call))

    # an answer with a known slip gets that slip's note, the right one is right
    answer = cell_with(page, f'sheet.answer("{exercise}"')
    factor, note = OTHER_SLIPS.get(lesson, (1 / 4, RADIUS_NOTE))
    type_and_run(page, answer, f'sheet.answer("{exercise}", {drawn.answer * factor:.4g}, "{unit}")')
    status_of(answer).filter(has_text=note).wait_for()
    assert f"{exercise}: not yet." in status_of(answer).inner_text()
    type_and_run(page, answer, f'sheet.answer("{exercise}", {drawn.answer:.4g}, "{unit}")')
    status_of(answer).filter(has_text=f"{exercise}: right.").wait_for()

    # next day, with a new kernel: prediction and answer are kept
    type_and_run(page, answer, f'sheet.answer("{exercise}", ..., "{unit}")')
    save(page)
    end_all_kernels(page)
    open_notebook(page, address, name)
    assert run_all(page)
    panel = cell_with(page, call)
    panel.get_by_role("slider").first.wait_for()
    assert REASON in panel.inner_text()
    answer = cell_with(page, f'sheet.answer("{exercise}"')
    status_of(answer).filter(has_text="Kept from before").wait_for()
    assert f"{exercise}: right." in status_of(answer).inner_text()


# ---- the instructor's desk -------------------------------------------------------------------------------------------

def two_returns(folder, home):
    """Two students of the invented class work on lesson 02 of the course's pack; the files they hand in."""
    course = Course(folder)
    pack, = (folder / "packs").glob("*.zip")
    notebooks, files = unpack(pack, home / "unpacked"), []
    for bench, part in (("b010", everything_right), ("b011", with_a_slip)):
        student = Student(bench=bench, card=bench_card(course.secret, bench), lesson=course.lessons["02"],
                          notebooks=notebooks, home=home / bench, secret=course.secret)
        part(student, home / "mail")
        files += (home / "mail" / bench).iterdir()
    return files


def test_an_instructor_runs_a_class_from_the_desk(lab, page, tmp_path):
    """By keyboard, but for the browser's own window for files."""
    folder = tmp_path / "autumn"
    open_notebook(page, lab[0], "instructor_desk.ipynb")
    assert run_all(page), "a cell raised"
    steps = page.locator(".desk-step")

    def press(step, name, until):
        button = steps.nth(step - 1).get_by_role("button", name=name, exact=True)
        button.focus()
        page.keyboard.press("Enter")
        status = steps.nth(step - 1).get_by_role("status").filter(has_text=until)
        status.wait_for()
        return status.inner_text()

    page.get_by_label("Course folder:").fill(str(folder))
    steps.first.get_by_role("status").filter(has_text="There is no folder").wait_for()
    page.get_by_label("Benches of a new course:").fill("4")
    page.keyboard.press("Tab")
    press(1, "Make a new course", until="4 benches")
    for lesson in ("01 ", "02 "):
        page.get_by_label(lesson).focus()
        page.keyboard.press("Space")
    assert "print cards.html, and give everybody the zip" in press(2, "Give out", until="Next:")

    files = two_returns(folder, tmp_path / "students")
    with page.expect_file_chooser() as chooser:
        steps.nth(2).get_by_role("button").first.press("Enter")
    chooser.value.set_files(files)
    steps.nth(2).get_by_role("status").filter(has_text="New: 2 of 2 files").wait_for()
    assert "2 of 4 benches is marked" in press(4, "Mark", until="Next:")
    assert "b012, b013" in steps.nth(3).inner_text()

    assert str(folder / "marks" / "class_report.html") in press(5, "Class report", until="class_report.html")
    assert "What to teach again" in page.frame_locator("iframe").locator("body").inner_text()
    page.get_by_label("Bench:").select_option("b011")
    press(5, "Worked answers for this bench", until="b011.html")
    expect(page.frame_locator("iframe").locator("h1")).to_have_text("Worked answers for b011: autumn")
    end_all_kernels(page)
