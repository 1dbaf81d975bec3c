"""What a panel means in a real browser: closed until something was seen, then open, by keyboard alone."""
import pytest

from lab import chromium, lab_server, need_browser, open_notebook, run_all
from notebooks import copy_of_notebooks

need_browser()
from playwright.sync_api import expect  # noqa: E402  (after the check that it is there)

PATIENCE = 90_000       # ms; a shared machine may be slow, and no test is about speed
PAGE = "notebooks/06_the_coil_as_a_circuit.ipynb"
SUMMARY = "What it means: open it when you have looked"


@pytest.fixture(scope="module")
def lab():
    with copy_of_notebooks() as folder, lab_server(folder.parent) as address, chromium() as browser:
        yield address, browser


@pytest.fixture
def page(lab):
    page = lab[1].new_page(viewport={"width": 1280, "height": 900})
    page.set_default_timeout(PATIENCE)
    yield page
    page.close()


def folds(page):
    """The two folds of the page's first panel: words and still."""
    words = page.locator("details.lesson-fold").filter(has=page.locator("summary", has_text=SUMMARY))
    return words, page.locator("details.lesson-fold:has(img)")


def has_focus(locator):
    return locator.evaluate("one => one === document.activeElement || one.contains(document.activeElement)")


def test_it_opens_when_something_was_seen_and_on_another_day(lab, page):
    open_notebook(page, lab[0], PAGE)
    assert run_all(page)
    words, still = (one.nth(1) for one in folds(page))      # of the lesson's second panel
    others = folds(page)[0].nth(2), folds(page)[1].nth(2)
    expect(words).to_have_js_property("open", False)
    expect(still).to_have_js_property("open", False)
    expect(words.locator("strong").first).to_be_hidden()

    panel = page.locator(".jp-CodeCell").filter(has_text="panels.coil_and_cable(sheet)")
    panel.locator("input[type=radio]").first.focus()
    page.keyboard.press("Space")
    panel.get_by_role("radio", name="leaning this way").focus()
    page.keyboard.press("Space")
    save = panel.get_by_role("button", name="Save my prediction")
    save.focus()
    page.keyboard.press("Enter")
    expect(panel.locator(".lesson-large")).not_to_be_empty()
    expect(words).to_have_js_property("open", False)

    panel.locator(".lesson-question input[type=radio]").first.focus()
    page.keyboard.press("Space")
    saw = panel.get_by_role("button", name="That is what I saw")
    saw.focus()
    page.keyboard.press("Enter")
    expect(words).to_have_js_property("open", True)
    expect(still).to_have_js_property("open", True)
    expect(words.locator("strong").first).to_have_text("What it means.")
    expect(words.locator("mjx-container").first).to_be_visible()        # formulas inside
    assert has_focus(saw)
    for other in others:        # those of the next panel stay closed
        expect(other).to_have_js_property("open", False)

    # who closes it again has it closed; a button opens it; another day it is open at once
    words.locator("summary").focus()
    page.keyboard.press("Enter")
    expect(words).to_have_js_property("open", False)
    panel.get_by_role("button", name="Show what it means").focus()
    page.keyboard.press("Enter")
    expect(words).to_have_js_property("open", True)
    assert run_all(page)
    expect(words).to_have_js_property("open", True)
    expect(still).to_have_js_property("open", True)
