"""Three benches on the made-up garden lesson, for single questions about marking."""
from exercises_following import GARDEN_ANSWERS, write_answers
from invented_student import Student, unpack
from lessons_lib.course.folder import Course, bench_card
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.mark import mark
from lessons_lib.course.pack import give_out
from lessons_lib.course.tables import read_table

SECRET = "a fixed secret of at least thirty-two characters\n"


class SmallClass:
    """Three benches on the garden lesson; made anew where the folder holds none, else taken as it lies there.

    *answers* may hold the text of another lesson 01.
    """

    def __init__(self, folder, answers=GARDEN_ANSWERS):
        self.home, self.folder, self.answers = folder, folder / "course", folder / "answers"
        is_new = not self.folder.exists()
        if is_new:
            new_course(self.folder, 3)
            (self.folder / "secret.txt").write_text(SECRET)
            write_answers(self.answers, answers)
        self.settings()
        if is_new:
            unpack(give_out(self.course, ["01"])[0], folder / "unpacked")
        self.notebooks, = (folder / "unpacked").glob("**/notebooks")

    @property
    def course(self):
        return Course(self.folder)

    def settings(self, more=""):
        (self.folder / "course.toml").write_text(f"answers = '{self.answers}'\n{more}", encoding="utf-8")

    def student(self, bench="b010"):
        course = self.course
        return Student(bench=bench, card=bench_card(course.secret, bench), lesson=course.lessons["01"],
                       notebooks=self.notebooks, home=self.home / "students" / bench, secret=course.secret)

    def give_back(self, student, folder=""):
        return student.give_back(self.folder / "returned", folder)[0]

    def mark(self):
        done = mark(self.course)
        rows = read_table((self.folder / "marks/marks.csv").read_bytes())
        self.rows = {row["bench"]: {name.partition(" (")[0]: cell for name, cell in row.items()} for row in rows}
        return done

    def text(self, name):
        return (self.folder / "marks" / name).read_text(encoding="utf-8-sig")


def exercise(student, exercise_id):
    return student.lesson[exercise_id]


def write_open_questions(small, text, encoding="utf-8"):
    (small.folder / "marks/open_questions.csv").write_bytes(text.encode(encoding))
