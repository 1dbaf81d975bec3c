"""What several files of tests share, made once a session and copied where a test changes it; who runs which test."""
import contextlib
import os
import shutil
from pathlib import Path

for _library in ("OPENBLAS", "OMP", "MKL"):      # before numpy comes: one thread each, for every core has a worker
    os.environ.setdefault(f"{_library}_NUM_THREADS", "1")

import pytest
from xdist.scheduler import LoadScopeScheduling

from exercises_lesson import lay_answers, lay_desk
from invented_term import make_term, mark_by_hand
from lessons_lib.course.folder import Course
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.mark import mark
from notebooks import ANSWERS
from small_class import SmallClass

FIRST = ("test_browser.py", "test_notebooks.py", "test_own_instrument.py")      # long, so that none is left at the end
ONE_BY_ONE = "test_notebooks.py"        # its tests share nothing
# these ask for the term
TOGETHER = dict.fromkeys(("test_course_strain.py", "test_readme.py"), "test_class_report.py")


def pytest_collection_modifyitems(items):
    """Put the files that take long first."""
    items.sort(key=lambda item: FIRST.index(item.path.name) if item.path.name in FIRST else len(FIRST))


class ByFile(LoadScopeScheduling):
    """Gives each file to one worker, which makes once what its tests share."""

    def _split_scope(self, nodeid):
        name = nodeid.partition("::")[0].rpartition("/")[2]
        return nodeid if name == ONE_BY_ONE else TOGETHER.get(name, name)


def pytest_xdist_make_scheduler(config, log):
    return ByFile(config, log)


@pytest.fixture(scope="session")
def term(tmp_path_factory):
    """The folder of a course that was played, marked, marked by hand and marked again; leave it as it is."""
    with contextlib.chdir(tmp_path_factory.mktemp("term")):
        course = make_term(Path("class"))       # a folder beside, as the README's command names one
    lines = [f"{bench},Ada Namesake {bench[1:]}" for bench in course.students]
    (course.folder / "class_list.csv").write_text("\n".join(["bench,student", *lines]), encoding="utf-8")
    mark(Course(course.folder))
    mark_by_hand(course)
    mark(Course(course.folder))
    return course.folder


@pytest.fixture
def own_term(term, tmp_path):
    """A copy of the term's course folder to work in."""
    return shutil.copytree(term, tmp_path / "course")


@pytest.fixture
def folder(tmp_path):
    """The folder of a new course with twelve students."""
    new_course(tmp_path / "autumn", 12)
    return tmp_path / "autumn"


@pytest.fixture(scope="session")
def small_made(tmp_path_factory):
    """The folder of a small class, given out; leave it as it is."""
    return SmallClass(tmp_path_factory.mktemp("small")).home


@pytest.fixture
def small(small_made, tmp_path, monkeypatch):
    """A `SmallClass` to work in."""
    shutil.copytree(small_made, tmp_path, dirs_exist_ok=True)
    made = SmallClass(tmp_path)
    made.patch = monkeypatch.setattr
    return made


@pytest.fixture(scope="session")
def every_kind_made(tmp_path_factory):
    """The folder of a small class on a lesson with every kind of exercise, given out; leave it as it is."""
    return SmallClass(tmp_path_factory.mktemp("kinds"), "from exercises_all_kinds import ALL as LESSON\n").home


@pytest.fixture
def kinds(every_kind_made, tmp_path):
    """A `SmallClass` on a lesson with every kind of exercise."""
    shutil.copytree(every_kind_made, tmp_path, dirs_exist_ok=True)
    return SmallClass(tmp_path)


@pytest.fixture
def essays(small):
    """The small class, in which two benches have handed in a text, marked."""
    for bench in ("b010", "b011"):
        student = small.student(bench)
        student.type("1.5", f"=HYPERLINK({bench}); a spade; \n\"quoted\", and so on" * 3)
        small.give_back(student)
    small.mark()
    return small


@pytest.fixture
def beside_answers(tmp_path, monkeypatch):
    """`open_sheet` for b000, in a folder of pages beside the model answers, as the checkout has it."""
    from lessons_lib import open_sheet
    (tmp_path / "notebooks").mkdir()
    (tmp_path / "answers").symlink_to(ANSWERS)
    monkeypatch.chdir(tmp_path / "notebooks")
    monkeypatch.delenv("LESSONS_WORK_FOLDER", raising=False)
    return open_sheet


@pytest.fixture
def desk(tmp_path, monkeypatch):
    """A folder with the sheets of b000 and of class bench b017, as a notebook would find it; work goes to my_work."""
    folder = tmp_path / "notebooks"
    lay_desk(folder)
    monkeypatch.chdir(folder)
    monkeypatch.delenv("LESSONS_WORK_FOLDER", raising=False)
    return folder


@pytest.fixture
def answers(desk):
    """The file of model answers beside that folder."""
    return lay_answers(desk)
