"""Lessons where a screen is small, is touched or has few colours, and where the kernel is slow, in a real browser."""
from pathlib import Path

import pytest

from lab import chromium, lab_server, need_browser, open_notebook, run_all, write_notebook
from notebooks import ANSWERS

need_browser()
from playwright.sync_api import expect  # noqa: E402  (after the check that it is there)

PATIENCE = 90_000       # ms; a shared machine may be slow, and no test is about speed
expect.set_options(timeout=PATIENCE)
HERE = Path(__file__).resolve().parent
HERE_TOO = f"import sys, time; sys.path.insert(0, {str(HERE)!r})\nfrom small_panel import *\n"
LESSONS = tuple(f"0{number}" for number in range(9))
# each field of the card keeps the kernel for a while when its value comes, and holds the next values back meanwhile
SLOW = """panel = a_panel(sheet=FakeSheet(), prediction="p1")
for field in (panel.card.choice, panel.card.sureness):
    field.observe(lambda _: time.sleep(1), "value")
panel"""
PANELS = HERE_TOO + """from shown import panel_makers
from IPython.display import display
for lesson in LESSONS:
    for make in panel_makers(lesson).values():
        display(make())""".replace("LESSONS", repr(LESSONS))
HOUR = HERE_TOO + """from lessons_lib.page.class_hour import ClassHour
from lessons_lib.exercises.self_study import load_lesson
from pathlib import Path
ClassHour(load_lesson(Path("FILE")))""".replace("FILE", str(ANSWERS / "lesson_01.py"))
CELLS = {"slow": [HERE_TOO + SLOW], "panels": [PANELS],
         "board": [HERE_TOO + "a_moving_panel()", "print(90 * 'below\\n')"],
         "cards": [HERE_TOO + 'a_panel(sheet=FakeSheet(), prediction="p1")',
                   "from lessons_lib.page.votes import vote\nvote(FakeSheet(), 'p1')", HOUR,
                   "a_keeping_panel(many=13)", "from lessons_lib.desk import instructor_desk\ninstructor_desk()"]}

# what can be pressed, moved or typed into, and what is smaller than WCAG 2.2 wants it (2.5.8: 24 by 24 CSS pixels);
# of a tick or a choice its words are pressed, too
SMALL = """() => [...document.querySelectorAll(
        '.lesson-widgets :is(input, select, button, summary, audio, .lesson-grip)')]
    .filter(one => one.checkVisibility() && one.type !== 'file').map(one => {
        const {width, height} = (['radio', 'checkbox'].includes(one.type) && one.closest('label') || one)
            .getBoundingClientRect();
        return [one.getAttribute('class') ?? one.type, one.ariaLabel ?? one.innerText ?? '', width, height];
    }).filter(([,, width, height]) => Math.min(width, height) < 23.9)"""


@pytest.fixture(scope="module")
def lab(tmp_path_factory):
    folder = tmp_path_factory.mktemp("rooms")
    for name, cells in CELLS.items():
        write_notebook(folder / f"{name}.ipynb", *cells)
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


@pytest.mark.parametrize("name, controls", [("panels", 100), ("cards", 40)])
def test_no_control_is_too_small_to_hit(show, name, controls):
    page = show(name)
    page.evaluate("() => window.jupyterapp.shell.collapseLeft()")     # on a phone the list of files leaves 60 pixels
    for width, height in ((1280, 900), (820, 1180), (390, 844)):
        page.set_viewport_size({"width": width, "height": height})
        page.wait_for_timeout(1000)
        assert page.locator(".lesson-widgets").locator("input, select, button, .lesson-grip").count() > controls
        assert page.evaluate(SMALL) == [], f"at a width of {width}"


TABLET = {"viewport": {"width": 820, "height": 1180}, "has_touch": True, "is_mobile": True}
SCROLLED = """() => [...document.querySelectorAll('.jp-Notebook, .jp-WindowedPanel-outer')].map(
    one => [one.scrollTop, one.scrollHeight > one.clientHeight])"""


def test_a_finger_drags_what_is_in_the_picture_and_the_page_stays(show):
    page = show("board", **TABLET)
    ring, box = page.locator(".lesson-grip"), page.get_by_label("slope (mm)", exact=True)
    slider = page.get_by_role("slider", name="slope (mm), slider")
    for one in (page.locator(".lesson-picture"), slider, box):
        expect(one).to_be_in_viewport(ratio=1)
    assert page.evaluate("() => matchMedia('(pointer: coarse)').matches")
    before = page.evaluate(SCROLLED)
    assert any(could for _, could in before)
    where = ring.bounding_box()
    assert where["width"] >= 31.5
    x, y = where["x"] + where["width"] / 2, where["y"] + where["height"] / 2
    finger = page.context.new_cdp_session(page)

    def touch(kind, *points):
        finger.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [{"x": x, "y": y} for x, y in points]})

    touch("touchStart", (x, y))
    for step in range(1, 11):
        touch("touchMove", (x, y - 6 * step))
    touch("touchEnd")
    page.wait_for_function("up => { const ring = document.querySelector('.lesson-grip').getBoundingClientRect();"
                           " return Math.abs((ring.top + ring.bottom) / 2 - up) < 4; }", arg=y - 60)
    assert float(box.input_value()) > 2500
    assert page.evaluate(SCROLLED) == before


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_forced_colours_leave_edges_and_states(show, scheme):
    page = show("cards", forced_colors="active", color_scheme=scheme)
    edges = page.locator(".lesson-widgets button:visible").evaluate_all(
        """all => all.map(one => [one.innerText, getComputedStyle(one).borderTopStyle,
            getComputedStyle(one).borderTopColor, getComputedStyle(document.body).backgroundColor])""")
    words = {one[0] for one in edges}
    assert {"Save my prediction", "Vote", "Count", "Start again", "Make a new course", "Give out"} <= words
    for name, line, colour, ground in edges:
        assert line == "solid" and colour != ground, name
    # the browser's own rails and ticks, which it draws in the colours of the screen
    own = page.locator(".lesson-widgets :is(input[type=range], input[type=radio])")
    assert set(own.evaluate_all("all => all.map(one => getComputedStyle(one).appearance)")) == {"auto"}
    sure = page.get_by_role("radio", name="guessing").first
    sure.check()
    page.get_by_role("button", name="Save my prediction").focus()
    expect(sure).to_be_checked()


def test_forced_colours_leave_what_is_held_in_the_picture(show):
    page = show("board", forced_colors="active")
    ring = page.locator(".lesson-grip")
    line, ground = ring.evaluate(
        "one => [getComputedStyle(one).stroke, getComputedStyle(document.body).backgroundColor]")
    assert line not in ("none", ground)
