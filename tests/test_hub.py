"""Students of one class on one hub, in a real browser: set up as the README says, and where it is set up wrong."""
import json
import os
import shutil

import pytest

from hub import hub_server, log_in, need_hub
from invented_student import unpack
from lab import cell_with, chromium, need_browser, open_notebook, run_all, status_of, type_and_run
from lessons_lib.course.folder import Course, bench_card
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.mark import mark
from lessons_lib.course.pack import give_out
from lessons_lib.exercises.draws import draw
from notebooks import NOTEBOOKS

need_hub()
need_browser()

USERS = tuple(os.environ.get("LESSONS_HUB_USERS", "ada,bert").split(","))
LESSON = next(NOTEBOOKS.glob("01_*.ipynb"))
PATIENCE = 120_000      # ms; a shared machine may be slow, and no test is about speed


@pytest.fixture(scope="module")
def course(tmp_path_factory):
    """A course with a bench for each user, lesson 01 given out, and its unpacked pack."""
    folder = tmp_path_factory.mktemp("hub_course")
    new_course(folder / "autumn", students=len(USERS))
    course = Course(folder / "autumn")
    pack, *_ = give_out(course, ["01"])
    return course, unpack(pack, folder / "unpacked")


@pytest.fixture
def homes(tmp_path, course):
    for user in USERS:
        shutil.copytree(course[1], tmp_path / "home" / user / "notebooks")
    return tmp_path


def use_card(page, address, user, card):
    """Type the card on the first page; what the page says."""
    open_notebook(page, f"{address}/user/{user}", "notebooks/00_start_here.ipynb")
    assert run_all(page)
    cell = cell_with(page, "use_card(")
    type_and_run(page, cell, f'from lessons_lib import use_card\nuse_card("{card}")')
    status_of(cell).filter(has_text="bench").or_(status_of(cell).filter(has_text="folder")).wait_for()
    return status_of(cell).inner_text()


def test_every_student_of_a_hub_works_alone_and_hands_in_from_the_page(homes, course, tmp_path):
    """The work folder is in every home, where the file list does not begin: a return is saved by the page's link."""
    course, _ = course
    exercise = course.lessons["01"]["1.1"]
    with hub_server(homes, USERS, LESSONS_WORK_FOLDER="~/.kept/my_work") as address, chromium() as browser:
        pages = {user: browser.new_context(viewport={"width": 1280, "height": 900}).new_page() for user in USERS}
        benches = dict(zip(USERS, course.students))
        for user, page in pages.items():        # all are there at once; each goes on where it was
            page.set_default_timeout(PATIENCE)
            log_in(page, address, user)
            said = use_card(page, address, user, bench_card(course.secret, benches[user]))
            assert f"working at bench {benches[user]}" in said and "which the file list does not show" in said
        for user, page in pages.items():
            open_notebook(page, f"{address}/user/{user}", f"notebooks/{LESSON.name}")
            assert run_all(page)
            drawn = draw(exercise, secret=course.secret, bench=benches[user])
            answer = cell_with(page, 'sheet.answer("1.1"')
            type_and_run(page, answer, f'sheet.answer("1.1", {drawn.answer:.4g}, "{exercise.unit}")')
            status_of(answer).filter(has_text="1.1: right.").wait_for()
        for user, page in pages.items():
            cell = cell_with(page, "sheet.return_work()")
            type_and_run(page, cell, "sheet.return_work()")
            with page.expect_download() as coming:
                cell.get_by_role("link", name="Save return-").click()
            to = course.folder / "returned" / coming.value.suggested_filename
            coming.value.save_as(to)
            kept = homes / "home" / user / ".kept" / "my_work"
            assert to.read_bytes() == (kept / to.name).read_bytes() and kept.stat().st_mode & 0o777 == 0o700
            assert json.loads(to.read_bytes())["bench"] == benches[user]
    assert mark(course).returned == len(USERS)


def test_two_users_in_one_folder_are_told(homes, course):
    course, _ = course
    with hub_server(homes, USERS, LESSONS_WORK_FOLDER=str(homes / "shared")) as address, chromium() as browser:
        said = []
        for user, bench in zip(USERS[:2], course.students):
            page = browser.new_context().new_page()
            page.set_default_timeout(PATIENCE)
            log_in(page, address, user)
            said.append(use_card(page, address, user, bench_card(course.secret, bench)))
    assert "You are working at bench" in said[0]
    assert "keeps another person's work" in said[1]
