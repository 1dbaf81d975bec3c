"""A page on the next day, in a real browser: its kernel has ended, its widgets are gone, and a line says what to do."""
from pathlib import Path

import pytest

from lab import chromium, end_all_kernels, lab_server, need_browser, open_notebook, run_all, save, write_notebook

need_browser()
from playwright.sync_api import expect  # noqa: E402  (after the check that it is there)

PATIENCE = 90_000       # ms; a shared machine may be slow, and no test is about speed
HERE = Path(__file__).resolve().parent
CELL = f"import sys; sys.path.insert(0, {str(HERE)!r})\nfrom small_panel import a_panel\na_panel()"


@pytest.fixture(scope="module")
def lab(tmp_path_factory):
    folder = tmp_path_factory.mktemp("next_day")
    write_notebook(folder / "page.ipynb", CELL)
    with lab_server(folder) as address, chromium() as browser:
        yield browser, address


def test_a_page_that_sleeps_says_how_it_wakes(lab):
    browser, address = lab
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    page.set_default_timeout(PATIENCE)
    says, slider = page.get_by_text("This page sleeps."), page.get_by_role("slider").first
    open_notebook(page, address, "page.ipynb")
    assert run_all(page)
    expect(slider).to_be_visible(timeout=PATIENCE)
    expect(says).to_be_hidden()
    save(page)
    end_all_kernels(page)
    open_notebook(page, address, "page.ipynb")
    expect(says).to_be_visible(timeout=PATIENCE)
    assert run_all(page)
    expect(slider).to_be_visible(timeout=PATIENCE)
    expect(says).to_be_hidden()
    page.close()
