"""Lessons where a screen is small, is touched or has few colours, and where the kernel is slow, in a real browser."""
from pathlib import Path

import pytest

from lab import chromium, lab_server, need_browser, open_notebook, run_all, write_notebook

need_browser()
from playwright.sync_api import expect  # noqa: E402  (after the check that it is there)

PATIENCE = 90_000       # ms; a shared machine may be slow, and no test is about speed
expect.set_options(timeout=PATIENCE)
HERE = Path(__file__).resolve().parent
HERE_TOO = f"import sys, time; sys.path.insert(0, {str(HERE)!r})\nfrom small_panel import *\n"
# each field of the card keeps the kernel for a while when its value comes, and holds the next values back meanwhile
SLOW = """panel = a_panel(sheet=FakeSheet(), prediction="p1")
for field in (panel.card.choice, panel.card.sureness):
    field.observe(lambda _: time.sleep(1), "value")
panel"""
CELLS = {"slow": HERE_TOO + SLOW}


@pytest.fixture(scope="module")
def lab(tmp_path_factory):
    folder = tmp_path_factory.mktemp("rooms")
    for name, cell in CELLS.items():
        write_notebook(folder / f"{name}.ipynb", cell)
    with lab_server(folder) as address, chromium() as browser:
        yield browser, address


@pytest.fixture
def show(lab):
    """show("name of a notebook", what the browser's window is like): its page."""
    browser, address = lab
    pages = []

    def show(name, **like):
        page = browser.new_page(**{"viewport": {"width": 1280, "height": 900}} | like)
        page.set_default_timeout(PATIENCE)
        pages.append(page)
        open_notebook(page, address, f"{name}.ipynb")
        assert run_all(page), "a cell raised"
        return page

    yield show
    for page in pages:
        page.close()


def test_what_was_chosen_last_goes_with_the_button_of_a_card(show):
    page = show("slow")
    choices = page.get_by_role("radio")
    for name in ("up", "down", "guessing", "would bet on it"):
        choices.and_(page.get_by_label(name)).check()
    page.get_by_label("Why, in a line:").fill("it rises")
    page.get_by_role("button", name="Save my prediction").click()
    expect(page.get_by_text("You expected b) down (would bet on it): it rises")).to_be_visible()
    seen = page.locator(".lesson-question")
    for name in ("down", "up"):
        seen.get_by_label(name).check()
    seen.get_by_role("button", name="That is what I saw").click()
    expect(seen.get_by_role("status")).to_have_text("That is what the panel shows.")
