"""What several files of tests share: the invented class of 40 over all lessons, played once a session."""
import contextlib
import shutil
from pathlib import Path

import pytest

from invented_term import make_term, mark_by_hand
from lessons_lib.course.folder import Course
from lessons_lib.course.mark import mark


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
