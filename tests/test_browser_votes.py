"""The first page in a real JupyterLab by keyboard: the pickup moves and sounds, votes are kept and come again."""
import pytest

from lab import chromium, lab_server, need_browser, open_notebook, run_all
from lessons_lib.exercises.self_study import load_lesson
from notebooks import ANSWERS, NOTEBOOKS, copy_of_notebooks

need_browser()
from playwright.sync_api import expect  # noqa: E402  (after the check that it is there)

PATIENCE = 90_000       # ms; a shared machine may be slow, and no test is about speed
VOTES = [one for one in load_lesson(ANSWERS / "lesson_00.py").exercises if one.id.startswith("v")]
CHOSEN = {"v1": "d", "v2": "a"}     # one right, one wrong, one left out
TEXT_OF_FOCUS = "() => document.activeElement.innerText || document.activeElement.type"


@pytest.fixture
def lab():
    with copy_of_notebooks() as folder, lab_server(folder) as address, chromium() as browser:
        page = browser.new_page(viewport={"width": 1280, "height": 900})
        page.set_default_timeout(PATIENCE)
        yield address, page


KERNEL_RESTS = """() => new Promise(done => setTimeout(() => done(
    window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.status === 'idle'), 200))"""


def tab_until(page, wanted):
    for _ in range(15):
        page.keyboard.press("Tab")
        if page.evaluate(TEXT_OF_FOCUS) == wanted:
            return
    raise AssertionError(f"no Tab leads to {wanted}")


def vote_by_keyboard(page, letter):
    """From the focus on to the next card: choose, vote."""
    tab_until(page, "radio")
    page.keyboard.press("Space")
    for _ in range("abcd".index(letter)):
        page.keyboard.press("ArrowDown")
    page.wait_for_function(KERNEL_RESTS)    # the page sends what is chosen when the kernel has answered what was before
    tab_until(page, "Vote")
    page.keyboard.press("Enter")


def test_a_newcomer_sees_hears_votes_and_finds_the_votes_again(lab):
    address, page = lab
    open_notebook(page, address, "00_start_here.ipynb")
    page.evaluate("() => { window.jupyterapp.shell.currentWidget.content.activeCell.node.focus(); }")
    page.keyboard.press("Shift+Enter")      # the words, then the box with the pickup
    page.keyboard.press("Shift+Enter")
    first = page.locator(".lesson-widgets").first
    first.locator(".lesson-picture").wait_for()
    assert page.locator("audio[autoplay]").count() == 0
    box = first.get_by_role("checkbox", name="let it move")
    assert not box.is_checked()
    box.focus()
    page.keyboard.press("Space")
    expect(box).to_be_checked()
    first.get_by_role("button", name="Sound of these settings").focus()
    page.keyboard.press("Enter")
    first.locator("audio").wait_for()
    assert "Set your volume low" in first.inner_text()

    assert run_all(page), "a cell raised"
    expect(page.locator(".jp-RenderedMarkdown").filter(has_text="The whole pickup").last).to_be_in_viewport()
    cards = page.locator(".lesson-vote")
    expect(cards).to_have_count(len(VOTES))
    cards.first.get_by_role("radio").first.focus()
    page.keyboard.press("Shift+Tab")
    for place, letter in enumerate(CHOSEN.values()):
        vote_by_keyboard(page, letter)
        expect(cards.nth(place).get_by_role("status")).to_have_text(
            "Kept. You will see it again at the end of lesson 4.")

    open_notebook(page, address, next(NOTEBOOKS.glob("04_*.ipynb")).name)
    assert run_all(page), "a cell raised"
    again = page.locator(".jp-OutputArea").filter(has_text=VOTES[0].question).last
    for vote in VOTES[:2]:
        letter = CHOSEN[vote.id]
        expect(again).to_contain_text(f"You voted {letter}) {vote.options[letter]}.")
        expect(again).to_contain_text(vote.because)
    expect(again).to_contain_text("That is what turned out.")
    expect(again).to_contain_text(f"It turned out otherwise: c) {VOTES[1].options['c']}.")
    expect(again).to_contain_text("You did not vote on this one")
    assert VOTES[2].because not in again.inner_text()
