"""A course whose secret is fixed, so that every run searches the same pack."""
from pathlib import Path

from lessons_lib.course.folder import Course
from lessons_lib.course.make_and_remove import new_course

TOP = Path(__file__).resolve().parent.parent
SECRET = "a fixed secret of at least thirty-two characters\n"


def course_in(folder, students=12, answers=None):
    new_course(folder, students)
    (folder / "secret.txt").write_text(SECRET)
    if answers:
        (folder / "course.toml").write_text(f"title = 'autumn'\nanswers = '{answers}'\n", encoding="utf-8")
    return Course(folder)
