"""Formula, order, curve, points, estimate, a line from memory and an item of a test, typed in a real browser."""
import pytest

from lab import chromium, lab_server, need_browser, open_notebook, run_all, write_notebook
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw
from lessons_lib.exercises.self_study import load_lessons
from notebooks import NOTEBOOKS, copy_of_notebooks

need_browser()

PATIENCE = 90_000       # ms; a shared machine may be slow, and no test is about speed
LESSONS = {lesson.id: lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers")}
MATERIAL = LESSONS["04"]["4.16"]
RIGHT = draw(MATERIAL, secret=SELF_STUDY_SECRET, bench="b000")
OTHER = next(letter for letter in "abcd" if letter != MATERIAL.model_answer(RIGHT)[0])

# lesson, exercise -> what is typed behind its id, and words of the verdict
TYPED = {
    ("02", "2.11"): (('"B_r*l/(mu_0*mu_rec) / (R_air + l/(mu_0*mu_rec*A))"', "2.11: right."),
                     ('"B_r*l/(mu_0*mu_rec) / R_air"', "2.11: not yet."),
                     ('"B_r*l/R_air"', "2.11: not yet."),       # no flux at all
                     ('"B_r*l/(mu_0*mu_rec"', "2.11: cannot be read."), ('"__import__(1)"', "2.11: cannot be read.")),
    ("02", "2.13"): (('"c > b = d > a"', "2.13: right."), ('"c > b > d > a"', "2.13: not yet."),
                     ('"c > b"', "2.13: cannot be read.")),
    ("04", "4.16"): ((f'"{MATERIAL.model_answer(RIGHT)[0]}"', "4.16: right."), (f'"{OTHER}"', "4.16: not yet."),
                     ('"z"', "4.16: cannot be read.")),
    ("05", "5.13"): (("[71, 0, 0, 20]", "5.13: right."), ("[71, 40, 0, 20]", "5.13: not yet."),
                     ("[71, 0]", "5.13: cannot be read.")),
    ("03", "3.16"): (('20000, "nWb", because="full steel has two tesla, times the area"', "3.16: right."),
                     ('1.9, "nWb", because="that is the flux density"', "3.16: "),
                     ('20000, "nWb", because=""', "Kept from before"), ('20000, "nWb"', "3.16: cannot be read.")),
    ("06", "m3"): (('"the voltage follows how the flux changes with height"', "m3: kept."),
                   ('"no idea"', "m3: cannot be read.")),
    ("90", "t1"): (('"b", sure=2', "t1: kept."), ('"b"', "t1: cannot be read."),
                     ('"q", sure=1', "t1: cannot be read."))}


@pytest.fixture(scope="module")
def page():
    """A page with an empty cell for each of these exercises, in a real JupyterLab."""
    with copy_of_notebooks() as folder:
        opened = "\n".join(f'sheet_{lesson} = open_sheet("{lesson}")' for lesson in sorted({one for one, _ in TYPED}))
        name = write_notebook(folder / "kinds.ipynb", f"from lessons_lib import open_sheet\n{opened}",
                              *(f'sheet_{lesson}.answer("{exercise}", ...)' for lesson, exercise in TYPED))
        with lab_server(folder) as address, chromium() as browser:
            page = browser.new_page(viewport={"width": 1280, "height": 900})
            page.set_default_timeout(PATIENCE)
            open_notebook(page, address, name)
            assert run_all(page)
            yield page


@pytest.mark.parametrize("lesson, exercise", TYPED, ids=[exercise for _, exercise in TYPED])
def test_right_wrong_and_silly_are_told_apart(page, lesson, exercise):
    call = f'sheet_{lesson}.answer("{exercise}"'
    cell = page.locator(".jp-CodeCell").filter(has=page.locator(".cm-content", has_text=call)).first
    for typed, says in TYPED[lesson, exercise]:
        cell.locator(".cm-content").click()
        page.keyboard.press("Control+A")
        page.keyboard.insert_text(f"{call}, {typed})")
        page.keyboard.press("Control+Enter")
        cell.locator(".jp-OutputArea [role=status]").filter(has_text=says).wait_for()
        said = cell.locator(".jp-OutputArea [role=status]").inner_text()
        assert "Traceback" not in cell.inner_text() and said.count("\n") < 3
