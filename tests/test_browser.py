"""Lesson 01 in a real JupyterLab in a real browser, worked by keyboard as a student would."""
import re

import pytest

from lab import chromium, lab_server, need_browser, open_notebook, run_all, save
from lessons_lib.course.sheets import load_lessons
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw
from notebooks import NOTEBOOKS, copy_of_notebooks

need_browser()
from playwright.sync_api import expect  # noqa: E402  (after the check that it is there)

NAME = "01_the_magnet_and_its_flux.ipynb"
REASON = "flux comes out of the poles"


@pytest.fixture(scope="module")
def student():
    """A page on a fresh copy of the notebooks, and the errors that the page reported."""
    with copy_of_notebooks() as folder, lab_server(folder) as address, chromium() as browser:
        page = browser.new_page(viewport={"width": 1280, "height": 900})
        page.set_default_timeout(90_000)
        errors = []
        page.on("pageerror", lambda error: errors.append(str(error)))
        open_notebook(page, address, NAME)
        yield page, address
        # the end of a kernel cancels what the page still waits for, and says so
        assert [error for error in errors if "Canceled future" not in error] == []


def cell_with(page, text):
    return page.locator(".jp-CodeCell").filter(has=page.locator(".cm-content", has_text=text)).first


def type_and_run(page, cell, source):
    """Replace the source of the cell by keyboard and run it."""
    cell.locator(".cm-content").click()
    page.keyboard.press("Control+A")
    page.keyboard.insert_text(source)
    page.keyboard.press("Control+Enter")


def status_of(cell):
    return cell.locator(".jp-OutputArea [role=status]").last


def test_a_student_works_lesson_01(student):
    page, address = student
    assert run_all(page), "a cell raised"
    panel = cell_with(page, "panels.lines_of_flux(sheet)")

    # the prediction comes first: no slider, no picture
    assert panel.get_by_role("slider").count() == 0
    panel.get_by_role("radio").first.focus()
    page.keyboard.press("Space")
    panel.get_by_role("button", name=re.compile("2: ")).press("Enter")
    panel.get_by_label("Why, in a line").fill(REASON)
    page.keyboard.press("Tab")
    panel.get_by_role("button", name=re.compile("prediction")).press("Enter")

    # then a slider moved by keyboard changes figure, alternative text and read-out
    slider = panel.get_by_role("slider", name=re.compile("remanence"))
    slider.wait_for()
    picture = panel.locator("img")
    before = picture.get_attribute("alt"), picture.get_attribute("src"), panel.locator("[role=status]").all_inner_texts()
    slider.focus()
    for _ in range(3):
        page.keyboard.press("ArrowRight")
    expect(picture).not_to_have_attribute("alt", before[0], timeout=90_000)
    after = picture.get_attribute("alt"), picture.get_attribute("src"), panel.locator("[role=status]").all_inner_texts()
    assert all(old != new for old, new in zip(before, after))

    # an answer with a known slip gets that slip's note, the right one is right
    exercise = next(lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers") if lesson.id == "01")["1.1"]
    drawn = draw(exercise, secret=SELF_STUDY_SECRET, bench="b000")
    answer = cell_with(page, 'sheet.answer("1.1"')
    type_and_run(page, answer, f'sheet.answer("1.1", {drawn.answer * 4:.4g}, "uWb")')
    status_of(answer).filter(has_text="is it a radius or a diameter?").wait_for()
    assert "1.1: not yet." in status_of(answer).inner_text()
    type_and_run(page, answer, f'sheet.answer("1.1", {drawn.answer:.4g}, "uWb")')
    status_of(answer).filter(has_text="1.1: right.").wait_for()

    # next day, with a new kernel: prediction and answer are kept
    type_and_run(page, answer, 'sheet.answer("1.1", ..., "uWb")')
    save(page)
    page.evaluate("""() => { window.__over = null;
        window.jupyterapp.serviceManager.sessions.shutdownAll().finally(() => { window.__over = true; }); }""")
    page.wait_for_function("() => window.__over")
    page.goto("about:blank")
    open_notebook(page, address, NAME)
    assert run_all(page)
    panel = cell_with(page, "panels.lines_of_flux(sheet)")
    panel.get_by_role("slider").first.wait_for()
    assert REASON in panel.inner_text()
    answer = cell_with(page, 'sheet.answer("1.1"')
    status_of(answer).filter(has_text="Kept from before").wait_for()
    assert "1.1: right." in status_of(answer).inner_text()
