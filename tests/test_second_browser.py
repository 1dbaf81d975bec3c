"""Three lessons and the desk's first step in a second engine: Firefox, by its own driver, as a student would there."""
import math

import pytest

from firefox import firefox, need_firefox
from lab import end_all_kernels, lab_server, open_notebook, run_all, save
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw
from lessons_lib.exercises.self_study import load_lesson
from notebooks import ANSWERS, NOTEBOOKS, copy_of_notebooks

need_firefox()

REASON = "that is what I think"

# the part of a page that a test looks at: the cell whose code says so, or a step of the desk
CELL = """[...document.querySelectorAll('.jp-Notebook .jp-Cell')].find(
    cell => cell.querySelector('.cm-content')?.innerText.includes(%s))"""
LAST_SAID = "[...(%s).querySelectorAll('.jp-OutputArea [role=status]')].at(-1)?.innerText"
SEEN = """() => { const look = getComputedStyle(document.activeElement);
    return look.outlineStyle === 'solid' && look.outlineWidth === '3px'; }"""


@pytest.fixture(scope="module")
def lab():
    with copy_of_notebooks() as folder, lab_server(folder) as address:
        yield address


@pytest.fixture
def page(lab):
    with firefox() as page:
        yield page
    # the end of a kernel cancels what the page still waits for, and says so
    assert [error for error in page.errors if "Canceled future" not in error] == []


def cell_with(text):
    return CELL % repr(text)


def focus(page, place, selector, number=0):
    """Give the keyboard to a control in a place once it is there; whoever looks sees that it has it."""
    page.wait_for_function(f"() => {{ const one = ({place})?.querySelectorAll({selector!r})[{number}];"
                           " one?.focus(); return Boolean(one) && document.activeElement === one; }")


def type_and_run(page, cell, source):
    focus(page, cell, ".cm-content")
    page.keyboard.press("Control+A")
    page.keyboard.insert_text(source)
    page.keyboard.press("Control+Enter")


def wait_until_said(page, cell, words):
    page.wait_for_function(f"words => ({LAST_SAID % cell})?.includes(words)", words)
    return page.evaluate(f"() => {LAST_SAID % cell}")


def predict_by_keyboard(page, cell):
    """From choice to sureness, reason and button by the Tab key."""
    focus(page, cell, "input[type=radio]")
    page.keyboard.press("Space")
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    assert page.evaluate(SEEN)
    assert page.evaluate(f"() => ({cell}).querySelectorAll('input[type=radio]:checked').length") == 2
    page.keyboard.press("Tab")
    page.keyboard.insert_text(REASON)
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.innerText") == "Save my prediction" and page.evaluate(SEEN)
    page.keyboard.press("Enter")


@pytest.mark.parametrize("lesson, call, exercise, slip, note", [
    ("01", "panels.lines_of_flux(sheet)", "1.1", 1 / 4, "is it a radius or a diameter?"),
    ("03", "panels.string_in_field(sheet)", "3.3", 2, "over what distance did the flux change?"),
    ("06", "panels.coil_and_cable(sheet)", "6.2", 2 * math.pi, "radians per second")])
def test_a_student_works_a_lesson(lab, page, lesson, call, exercise, slip, note):
    name = next(NOTEBOOKS.glob(f"{lesson}_*.ipynb")).name
    declared = load_lesson(ANSWERS / f"lesson_{lesson}.py")[exercise]
    drawn, unit = draw(declared, secret=SELF_STUDY_SECRET, bench="b000"), declared.unit
    panel, answer = cell_with(call), cell_with(f'sheet.answer("{exercise}"')
    picture = f"({panel}).querySelector('.lesson-picture')?.getAttribute('aria-label')"
    open_notebook(page, lab, name)
    assert run_all(page), "a cell raised"

    page.wait_for_function(f"() => Boolean(({panel}).querySelector('input[type=radio]'))")
    assert page.evaluate(f"() => ({panel}).querySelectorAll('input[type=range]').length") == 0
    predict_by_keyboard(page, panel)
    page.wait_for_function(f"() => ({panel}).innerText.includes({REASON!r}) && {picture}")
    for key in ("ArrowRight", "Home", "End"):
        was = page.evaluate(f"() => {picture}")
        focus(page, panel, ".lesson-control input[type=range]")
        assert page.evaluate(SEEN)
        page.keyboard.press(key)
        page.wait_for_function(f"was => {picture} !== was", was)

    # an answer with a known slip gets that slip's note, the right one is right
    type_and_run(page, answer, f'sheet.answer("{exercise}", {drawn.answer * slip:.4g}, "{unit}")')
    assert f"{exercise}: not yet." in wait_until_said(page, answer, note)
    type_and_run(page, answer, f'sheet.answer("{exercise}", {drawn.answer:.4g}, "{unit}")')
    wait_until_said(page, answer, f"{exercise}: right.")

    # next day, with a new kernel: prediction and answer are kept
    type_and_run(page, answer, f'sheet.answer("{exercise}", ..., "{unit}")')
    wait_until_said(page, answer, "Kept from before")
    save(page)
    end_all_kernels(page)
    open_notebook(page, lab, name)
    assert run_all(page)
    page.wait_for_function(f"() => {picture} && ({panel}).innerText.includes({REASON!r})")
    assert f"{exercise}: right." in wait_until_said(page, answer, "Kept from before")


def test_an_instructor_makes_a_course_at_the_desk(lab, page, tmp_path):
    folder, step = tmp_path / "autumn", "document.querySelector('.desk-step')"
    field = "[...document.querySelectorAll('input')].find(one => one.labels?.[0]?.innerText.startsWith(%r))"
    said = f"words => [...{step}.querySelectorAll('[role=status]')].some(one => one.innerText.includes(words))"
    open_notebook(page, lab, "instructor_desk.ipynb")
    assert run_all(page), "a cell raised"
    for label, typed in (("Course folder:", str(folder)), ("Benches of a new course:", "4")):
        page.wait_for_function(f"() => {{ const one = {field % label}; one?.select(); return Boolean(one); }}")
        page.keyboard.insert_text(typed)
        page.keyboard.press("Tab")
    page.wait_for_function(said, "There is no folder")
    page.wait_for_function(f"""() => {{ const one = [...{step}.querySelectorAll('button')].find(
        one => one.innerText === 'Make a new course'); one?.focus(); return Boolean(one); }}""")
    page.keyboard.press("Enter")
    page.wait_for_function(said, "4 benches")
    assert folder.is_dir()
    end_all_kernels(page)
