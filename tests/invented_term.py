"""An invented class of 40 benches over all lessons: slips, predictions, unclear lines, lateness, damage, marks by hand.

Everybody works on the unpacked pack through the real sheets; the same course comes out each time.
"""
import csv
import itertools
import random
import shutil
from contextlib import contextmanager
from datetime import datetime, timedelta, timezone
from types import SimpleNamespace
from unittest import mock

import lessons_lib
from invented_student import at_desk, unpack
from invented_work import Worker
from lessons_lib.course.folder import Course, bench_card
from lessons_lib.course.given_out import GivenOut
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.pack import give_out
from lessons_lib.course.settings import CHECKOUT
from lessons_lib.course.tables import read_table, table_bytes
from lessons_lib.exercises import log
from lessons_lib.exercises.bench import ALPHABET, check_character

SECRET = "the fixed secret of an invented class, nobody else's\n"
DAMAGED, WRONG_CODE, TWO_MACHINES, LATE, EXTENDED, AWAY = "b013", "b021", "b017", ("b015", "b030"), "b030", "b049"
SETTINGS = """
title = "An invented class"
{answers}
deadlines = {{ {deadlines} }}
late = {{ percent_a_day = 10, at_most = 30, grace_hours = 2 }}
slip_marks = {{ "1.1" = {{ "diameter for radius" = 0.5 }} }}
"""


def make_term(folder, *, benches=40, answers=None):
    """Make the course in folder/course, all lessons given out, worked on and returned; return the `Course`."""
    folder = folder.resolve()     # its students stand in folders of their own
    folder.mkdir(parents=True, exist_ok=True)
    course = Course(folder / "course")
    new_course(course.folder, benches)
    (course.folder / "secret.txt").write_text(SECRET)
    ids = sorted(path.stem[-2:] for path in (answers or CHECKOUT / "answers").glob("lesson_0*.py"))
    (course.folder / "course.toml").write_text(encoding="utf-8", data=SETTINGS.format(
        answers=f"answers = '{answers}'" if answers else "", deadlines=", ".join(
            f'"{lesson_id}" = 2030-03-{1 + 3 * place:02d}T18:00:00' for place, lesson_id in enumerate(ids))))
    pack, _, _ = give_out(course, ids)
    notebooks = unpack(pack, folder / "unpacked")
    given_out = {lesson_id: GivenOut(course, course.lessons[lesson_id]) for lesson_id in ids}
    received = [("file", "received")]
    with same_ids_and_times():
        for bench in course.students:
            for place, lesson_id in enumerate(ids):
                if _returns(bench, place, len(ids)):
                    home = folder / "students" / bench / lesson_id
                    _work(course, given_out[lesson_id], lesson_id, bench, notebooks, home)
                    _give_back(course, home, bench, place, received)
    _damage(course)
    with open(course.folder / "received.csv", "w", encoding="utf-8-sig", newline="") as file:
        csv.writer(file).writerows(received)
    (course.folder / "extensions.csv").write_text(f"bench;lesson;days\n{EXTENDED};;3\n")
    return course


@contextmanager
def same_ids_and_times():
    """Logs get the same ids and times in every run: what a class did must not depend on the machine's speed."""
    dice, seconds = random.Random(SECRET), itertools.count()

    class Clock(datetime):
        @classmethod
        def now(cls):
            return datetime(2030, 2, 25, 8, tzinfo=timezone.utc) + timedelta(seconds=next(seconds))

    ids = SimpleNamespace(token_hex=lambda size: f"{dice.getrandbits(8 * size):0{2 * size}x}")
    with mock.patch.object(log, "datetime", Clock), mock.patch.object(log, "secrets", ids):
        yield


def _returns(bench, place, count):
    """Most hand in; of the last lesson not all have come yet; one bench never works."""
    share = 0.72 if place == count - 1 else 0.97 - 0.02 * place
    return bench != AWAY and random.Random(f"returns {bench} {place}").random() < share


def _work(course, given_out, lesson_id, bench, notebooks, home):
    card = bench_card(course.secret, bench)
    if bench == WRONG_CODE:     # another's code, with a check character that fits
        code = "".join(ALPHABET[(ALPHABET.index(one) + 1) % 32] for one in card[5:10])
        card = f"{bench}-{code}{check_character(bench, code)}"
    for machine in ("home", "school") if bench == TWO_MACHINES else ("home",):
        with at_desk(notebooks, home / machine):
            lessons_lib.use_card(card)
            sheet = lessons_lib.open_sheet(lesson_id)
            assert sheet.trouble is None, sheet.trouble
            Worker(course.lessons[lesson_id], sheet, given_out.drawn(bench),
                   bench if machine == "home" else "other").whole()
            assert "ready" in sheet.return_work().state


def _give_back(course, home, bench, place, received):
    for machine in sorted(home.iterdir()):
        for path in machine.glob("return-*.json"):
            target = course.folder / "returned" / f"{bench} {machine.name}" / path.name
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(path, target)
            day = 1 + 3 * place + (random.Random(f"late {bench} {place}").choice((1, 2)) if bench in LATE else 0)
            received.append((target.relative_to(course.folder / "returned").as_posix(), f"2030-03-{day:02d} 17:30"))


def _damage(course):
    """A return cut short, one sent again, and what else lies about."""
    returned = course.folder / "returned"
    whole = sorted((returned / f"{DAMAGED} home").glob("return-*.json"))
    shutil.copytree(whole[0].parent, returned / f"{DAMAGED} sent again")
    for path in whole[:2]:
        path.write_bytes(path.read_bytes()[:-40])
    (returned / "photo.jpg").write_bytes(b"\xff\xd8\xff\xe0" * 50)
    (returned / "=cmd.json").write_text("[]")


def mark_by_hand(course):
    """Put marks into the column of open_questions.csv as an instructor does, but for the last lesson's."""
    path = course.folder / "marks" / "open_questions.csv"
    rows = read_table(path.read_bytes())
    last = max(row["which"].split(" ")[1][0] for row in rows)
    for row in rows:
        if not row["which"].split(" ")[1].startswith(last):
            row["marks"] = str(min(float(row["most"]), int(row["number of words"]) // 8))
    path.write_bytes(table_bytes(tuple(rows[0]), (tuple(row.values()) for row in rows)))
