"""Work handed in more than once, in time or late, and marks typed into open_questions.csv."""
from lessons_lib.course.tables import read_table
from small_class import write_open_questions

LATE = """
deadlines = { "01" = 2030-03-01T18:00:00+01:00 }
late = { percent_a_day = 10, at_most = 50 }
"""
STUB, REAL = "asdf", "A spade, because the soil is heavy, and a fork where it is full of stones. " * 3
IN_TIME, TEN_DAYS_LATE = "2030-03-01T17:00:00+01:00", "2030-03-11T17:00:00+01:00"


def hand_in(small, student, folder, received=None):
    """Hand in what there is now, kept beside what was handed in before; note when it was received."""
    path = small.give_back(student, folder)
    if received:
        table = small.folder / "received.csv"
        before = table.read_text() if table.exists() else "file,received\n"
        table.write_text(f"{before}{path.relative_to(small.folder / 'returned').as_posix()},{received}\n")


def cells(small):
    """The rows of open_questions.csv, without what belongs to the spreadsheet."""
    return read_table((small.folder / "marks/open_questions.csv").read_bytes())


def give_marks(small, *marks):
    """Type marks into the rows of open_questions.csv from above, as a marker does."""
    rows = cells(small)
    assert len(rows) == len(marks)
    head = ",".join(rows[0])
    lines = [",".join(f'"{cell}"' for cell in {**row, "marks": mark, "text": "…", "earlier texts": ""}.values())
             for row, mark in zip(rows, marks)]
    write_open_questions(small, "\n".join([head, *lines]))


def hand_in_texts(small, *texts, bench="b010"):
    """Hand in one text after the other, each with the time when it was received."""
    student = small.student(bench)
    for text, received in texts:
        student.type("1.5", text)
        before = len(list((small.folder / "returned").glob(f"{bench} *")))
        hand_in(small, student, f"{bench} {before}", received)
