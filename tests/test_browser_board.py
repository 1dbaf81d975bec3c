"""The board of a panel in a real browser: dragged, played, heard, at rest for who wants no motion."""
import re
from pathlib import Path

import pytest

from lab import chromium, lab_server, need_browser, open_notebook, run_all, write_notebook

need_browser()
from playwright.sync_api import expect  # noqa: E402  (after the check that it is there)

PATIENCE = 90_000       # ms; a shared machine may be slow, and no test is about speed
expect.set_options(timeout=PATIENCE)
HERE = Path(__file__).resolve().parent
HERE_TOO = f"import sys; sys.path.insert(0, {str(HERE)!r})\n"
CELLS = {"board": HERE_TOO + "from small_panel import a_moving_panel\na_moving_panel()",
         "keeps": HERE_TOO + "from small_panel import a_keeping_panel\na_keeping_panel(many=13)",
         "slow": HERE_TOO + "from small_panel import a_slow_panel\na_slow_panel()",
         "whole": "from lessons_lib.lessons.whole_pickup import panels\npanels.whole_pickup()"}
SHOWN = """() => [...document.querySelectorAll('.lesson-picture svg:nth-of-type(2) > g:last-child > g')].map(
    slot => [...slot.children].findIndex(one => one.style.display === '')).join()"""


@pytest.fixture(scope="module")
def lab(tmp_path_factory):
    folder = tmp_path_factory.mktemp("board")
    for name, cell in CELLS.items():
        write_notebook(folder / f"{name}.ipynb", cell)
    with lab_server(folder) as address, chromium() as browser:
        yield browser, address


@pytest.fixture(params=["no-preference", "reduce"])
def page(lab, request):
    browser, address = lab
    page = browser.new_page(viewport={"width": 1366, "height": 768}, reduced_motion=request.param)
    page.set_default_timeout(PATIENCE)
    errors = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.show = lambda name: open_notebook(page, address, f"{name}.ipynb") or run_all(page)
    page.motion = request.param == "no-preference"
    yield page
    page.close()
    assert [error for error in errors if "Canceled future" not in error] == []


def test_a_panel_is_dragged_played_and_heard(page):
    assert page.show("board")
    box, large = page.get_by_label("slope (mm)", exact=True), page.locator(".lesson-large")
    expect(box).to_have_value("2000")

    # the end of the line is dragged upward: slider, box, large number and the pale line of before follow
    ring = page.locator(".lesson-grip").bounding_box()
    page.mouse.move(ring["x"] + ring["width"] / 2, ring["y"] + ring["height"] / 2)
    page.mouse.down()
    page.mouse.move(ring["x"] + ring["width"] / 2, ring["y"] - 60, steps=8)
    page.mouse.up()
    page.wait_for_function("""up => { const ring = document.querySelector('.lesson-grip').getBoundingClientRect();
        return Math.abs((ring.top + ring.bottom) / 2 - up) < 4; }""", arg=ring["y"] - 60)
    dragged = float(box.input_value())
    assert dragged > 2500 and dragged % 100 == 0
    expect(large).to_contain_text(f"{dragged / 1000:.1f} m")
    expect(page.get_by_role("slider", name="slope (mm), slider")).to_have_attribute("aria-valuetext", f"{dragged:g} mm")
    assert "path" in page.locator(".lesson-before").inner_html()

    # a film moves when its box is ticked, and by its slider alone for who wants no motion
    assert page.evaluate(SHOWN) == ""
    page.get_by_label("let it move").check()
    page.wait_for_function(f"({SHOWN})() !== ''")
    first = page.evaluate(SHOWN)
    if page.motion:
        page.wait_for_function(f"({SHOWN})() !== '{first}'")
        page.get_by_label("let it move").uncheck()
    page.wait_for_timeout(300)
    still = page.evaluate(SHOWN)
    page.wait_for_timeout(300)
    assert page.evaluate(SHOWN) == still
    place = page.get_by_label("place in the period")
    place.focus()
    page.keyboard.press("End" if float(place.input_value()) < 0.5 else "Home")
    page.wait_for_function(f"({SHOWN})() !== '{still}'")

    # a sound is made when it is asked for, follows the settings, and never plays by itself
    assert page.locator("audio").count() == 0
    page.get_by_role("button", name="Sound of these settings").click()
    caption = page.locator("figcaption")
    expect(caption).to_contain_text("a tone (0.2 s, peak")
    before = caption.inner_text()
    box.fill("8000")
    page.keyboard.press("Enter")
    expect(large).to_contain_text("8.0 m")
    expect(caption).not_to_have_text(before)
    assert page.locator("audio").evaluate("one => one.paused")

    # one sentence for what cannot be taken; back to the start
    box.fill("abc")
    page.keyboard.press("Enter")
    expect(page.locator(".lesson-message")).to_contain_text("slope must be a number from 1000 to 9000 mm; got 'abc'.")
    expect(box).to_have_value("8000")
    page.get_by_role("button", name="Start again").click()
    expect(large).to_contain_text("2.0 m")


def test_a_list_stays_where_the_hand_is_while_older_pictures_come(page):
    assert page.show("slow")
    page.get_by_label("slope").focus()
    page.evaluate("""() => { const list = document.querySelector('.lesson-list select'); let chosen = list.value;
        window.seen = [];
        list.addEventListener('change', () => { chosen = list.value; });
        new MutationObserver(() => window.seen.push([chosen, list.value])).observe(
            document.querySelector('.lesson-picture'), {attributes: true}); }""")
    for key in ("End", "ArrowUp"):
        page.keyboard.press(key)
    expect(page.locator(".lesson-large")).to_contain_text("4.0 m")
    seen = page.evaluate("window.seen")
    assert seen and all(chosen == shown for chosen, shown in seen)
    expect(page.get_by_label("slope")).to_have_value("middle")


def test_a_setting_is_kept_gone_to_and_let_go(page):
    assert page.show("keeps")
    box, kept = page.get_by_label("slope (mm)", exact=True), page.locator(".lesson-kept")
    told = page.locator(".lesson-told")
    go, pale = page.get_by_role("button", name="Go to the kept one"), page.locator(".lesson-before")
    large = page.locator(".lesson-large")
    expect(kept).to_be_hidden()
    expect(go).to_be_hidden()

    # many sliders are in two columns, each under its name
    first, second = (page.get_by_label(name, exact=True).bounding_box() for name in ("slope (mm)", "more 0"))
    assert first["y"] == second["y"] and first["x"] < second["x"]

    page.get_by_role("button", name="Keep this one").click()
    expect(kept).to_have_text("kept: 2.0 m")
    stays = pale.inner_html()
    assert "path" in stays

    # a list to begin from; what it did is told when the hand rests; the kept picture stays
    page.get_by_label("begin from").select_option("steep")
    expect(large).to_contain_text("7.0 m")
    expect(told).to_have_text("From 2 to 7.")
    box.fill("4000")
    page.keyboard.press("Enter")
    expect(large).to_contain_text("4.0 m")
    expect(told).to_have_text("From 7 to 4.")
    assert pale.inner_html() == stays

    page.get_by_role("button", name="Sound of these settings").click()
    expect(page.locator("figcaption")).to_have_text([re.compile("^now: a tone"), re.compile("^kept: a tone")])

    go.click()
    expect(large).to_contain_text("2.0 m")
    page.get_by_role("button", name="Let go").click()
    expect(kept).to_be_hidden()
    assert pale.inner_html() == ""
    page.get_by_role("button", name="Start again").click()


def test_the_whole_pickup_is_worked_by_keyboard(page):
    assert page.show("whole")
    panel, large = page.locator(".lesson-panel"), page.locator(".lesson-large b")
    picture = page.locator(".lesson-picture")
    expect(large).to_have_text("255 mV")
    controls = panel.locator("select:visible, input:visible, button:visible")
    names = controls.evaluate_all("all => all.map(one => one.getAttribute('aria-label') ?? one.textContent)")
    controls.first.focus()
    passed = []
    for _ in names:
        passed.append(page.evaluate("(document.activeElement.getAttribute('aria-label')"
                                    " ?? document.activeElement.textContent)"))
        page.keyboard.press("Tab")
    assert passed == names

    page.get_by_label("height (mm), slider").focus()
    page.keyboard.press("ArrowRight")
    expect(large).not_to_have_text("255 mV")
    expect(page.locator(".lesson-told")).to_contain_text("lesson 4.")
    words = picture.get_attribute("aria-label")
    page.get_by_label("let it move").focus()
    page.keyboard.press("Space")
    page.wait_for_function(f"({SHOWN})() !== ''")
    first = page.evaluate(SHOWN)
    if page.motion:
        page.wait_for_function(f"({SHOWN})() !== '{first}'")
    else:
        page.wait_for_timeout(400)
        assert page.evaluate(SHOWN) == first
    page.keyboard.press("Space")
    page.get_by_label("string", exact=True).focus()
    page.keyboard.press("v")        # VI, by its first letter
    page.wait_for_function("words => document.querySelector('.lesson-picture').getAttribute('aria-label') !== words",
                           arg=words)


def test_switches_nearer_to_the_world_are_worked_by_keyboard(page):
    assert page.show("whole")
    group, large = page.get_by_role("group", name="Nearer to the world"), page.locator(".lesson-large b")
    expect(group.locator("select")).to_have_count(3)
    expect(large).to_have_text("255 mV")
    group.get_by_label("metal answers").focus()
    page.keyboard.press("y")        # yes
    expect(large).to_have_text("252 mV")
    expect(page.locator(".lesson-told")).to_contain_text("lesson 6.")
    page.keyboard.press("Tab")
    page.keyboard.press("n")        # nickel-plated steel; string III has no wrap
    expect(page.locator(".lesson-told")).to_contain_text("String III is plain")
    page.keyboard.press("Tab")
    page.keyboard.press("s")        # shown
    expect(page.locator("p.lesson-small")).to_contain_text("two of three give")
