"""Three benches on the made-up garden lesson, for single questions about marking."""
import pytest

from exercises_following import write_answers
from invented_student import Student, unpack
from lessons_lib.course.cards import bench_card
from lessons_lib.course.folder import Course, new_course
from lessons_lib.course.mark import mark
from lessons_lib.course.pack import give_out
from lessons_lib.course.tables import read_table

SECRET = "a fixed secret of at least thirty-two characters\n"


class SmallClass:
    """Three benches on the garden lesson."""

    def __init__(self, folder):
        self.home = folder
        new_course(folder / "course", 3)
        self.folder = folder / "course"
        (self.folder / "secret.txt").write_text(SECRET)
        self.answers = write_answers(folder / "answers")
        self.settings()
        self.notebooks = unpack(give_out(self.course, ["01"])[0], folder / "unpacked")

    @property
    def course(self):
        return Course(self.folder)

    def settings(self, more=""):
        (self.folder / "course.toml").write_text(f"answers = '{self.answers}'\n{more}", encoding="utf-8")

    def student(self, bench="b010"):
        course = self.course
        return Student(bench=bench, card=bench_card(course.secret, bench), lesson=course.lessons["01"],
                       notebooks=self.notebooks, home=self.home / "students" / bench)

    def give_back(self, student, folder=""):
        return student.give_back(self.folder / "returned", folder)[0]

    def mark(self):
        done = mark(self.course)
        rows = read_table((self.folder / "marks/marks.csv").read_bytes())
        self.rows = {row["bench"]: {name.partition(" (")[0]: cell for name, cell in row.items()} for row in rows}
        return done

    def text(self, name):
        return (self.folder / "marks" / name).read_text(encoding="utf-8-sig")


@pytest.fixture
def small(tmp_path, monkeypatch):
    made = SmallClass(tmp_path)
    made.patch = monkeypatch.setattr
    return made


def exercise(student, exercise_id):
    return student.lesson[exercise_id]


@pytest.fixture
def essays(small):
    for bench in ("b010", "b011"):
        student = small.student(bench)
        student.type("1.5", f"=HYPERLINK({bench}); a spade; \n\"quoted\", and so on" * 3)
        small.give_back(student)
    small.mark()
    return small


def write_open_questions(small, text, encoding="utf-8"):
    (small.folder / "marks/open_questions.csv").write_bytes(text.encode(encoding))
