"""What the instructor reads of an examination: worked answers, a class's marks, the key and the report."""
import json
import re
from types import SimpleNamespace

import pytest

from examination_plain import FORMS, NUMBERS, SECRET, A, B, plain
from invented_work import EventSheet
from lessons_lib.course.folder import Course, bench_card
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.mark import mark
from lessons_lib.course.pack import give_out
from lessons_lib.course.play import play
from lessons_lib.course.right_answers import self_study_page, write_key, write_worked
from lessons_lib.course.tables import read_table
from lessons_lib.exercises.making import make_sheet
from notebooks import ANSWERS


def test_worked_answers_show_the_points_and_what_a_slip_earns():
    page = self_study_page([A, B], "b003").decode()
    for lesson in FORMS.values():
        for one in lesson.exercises:
            part = page.split(f"<h3>{one.id}, {one.marks} mark")[1].split("</section>")[0]
            assert all(f"<td class=answer>{what}</td>" in part for _, what in one.points)
            assert ("<th scope=col>earns</th>" in part) == bool(one.slips)


@pytest.fixture(scope="module")
def sat(tmp_path_factory):
    """24 benches, half with form A, half with B; the first of each all right, the last with gaps, the rest slips."""
    folder = tmp_path_factory.mktemp("sat") / "course"
    new_course(folder, 24)
    (folder / "secret.txt").write_text(SECRET)
    course = Course(folder)
    give_out(course, ["95", "96"])
    plans, given = {}, {}
    for place, bench in enumerate(course.students):
        form = "95" if place < 12 else "96"
        lesson = FORMS[form]
        sheet = make_sheet(lesson, secret=course.secret, bench=bench)
        given[bench] = {name: {one["name"]: one["value"] for one in fields.get("given", ())}
                        for name, fields in sheet["exercises"].items()}
        work = EventSheet(lesson, bench, bench_card(course.secret, bench), {})
        plans[bench] = form, "right" if place % 12 == 0 else "gap" if place % 12 == 11 else "slip"
        for one in lesson.exercises:
            number = one.id.partition(".")[2]
            if plans[bench][1] == "gap" and number in ("7", "9"):
                continue
            if one.kind == "number":
                right, slips = plain(number, given[bench][one.id])
                value = right if plans[bench][1] != "slip" else next(iter(slips.values()))[0]
                if plans[bench][1] == "gap" and number in ("11", "12"):
                    value = 1.7 * right      # fits no slip
                work.answer(one.id, float(f"{value:.6g}"))
            elif one.kind == "choice":
                work.answer(one.id, one.right if plans[bench][1] != "slip" else "abcd"["bcda".index(one.right)])
            else:
                work.answer(one.id, one.worked)
        (folder / "returned" / f"return-{bench}-{form}.json").write_bytes(work.data())
    done = mark(course)
    assert done.not_read == [] and done.returned == 24
    return SimpleNamespace(course=course, plans=plans, given=given)


def test_marks_of_a_class_are_those_of_the_plain_rules(sat):
    """From the returned files and the tables of given values: computed here by the formulas of `examination_plain`."""
    rows = read_table((sat.course.folder / "marks/marks.csv").read_bytes())
    rows = {row["bench"]: {name.partition(" (")[0]: cell for name, cell in row.items()} for row in rows}
    for bench, (form, _) in sat.plans.items():
        file = json.loads((sat.course.folder / "returned" / f"return-{bench}-{form}.json").read_bytes())
        last = {one["exercise"]: one["value"] for one in file["events"] if one["event"] == "answer"}
        for one in FORMS[form].exercises:
            if one.kind == "text":
                continue
            number, expected = one.id.partition(".")[2], 0
            if one.id in last and one.kind == "choice":
                expected = int(last[one.id] == {"95": dict(zip(("2", "8", "9", "15"), "cbda")),
                                                "96": dict(zip(("2", "8", "9", "15"), "adbc"))}[form][number])
            elif one.id in last:
                right, slips = plain(number, sat.given[bench][one.id])
                expected = one.marks if abs(last[one.id] - right) < 1e-4 * abs(right) else max(
                    [0, *(marks for typed, marks in slips.values() if abs(last[one.id] - typed) <= 1e-4 * abs(typed))])
            assert float(rows[bench][one.id] or 0) == expected, (bench, one.id)


def test_the_key_has_every_number_and_the_points(sat):
    path, benches = write_key(sat.course)
    page = path.read_text(encoding="utf-8")
    assert len(benches) == 24
    for bench, (form, _) in sat.plans.items():
        for number in NUMBERS:
            right = plain(number, sat.given[bench][f"{form}.{number}"])[0]
            assert f"<td>{right:.4g}</td>".replace("-", "−") in page, (bench, number)
    for form, lesson in FORMS.items():
        part = page.split(f"<h2>Lesson {form}")[1].split("</section>")[0]
        assert "For marking on paper, step by step" in part
        for one in lesson.exercises:
            assert all(what in part for _, what in one.points or getattr(one, "rubric", ()))
    assert write_worked(sat.course, "b010").is_file()


def test_the_report_speaks_of_one_try(sat):
    page = " ".join((sat.course.folder / "marks/class_report.html").read_text(encoding="utf-8").split())
    part = page.split("<h2>Lesson 95")[1].split("<section class=lesson>")[0].split("<h2>How to read")[0]
    assert "<h3>Right</h3>" in part and "By the last answer, the one that counts." in part
    assert not re.search("first try|in the end|at first|tried again|then right|general note|helped", part)
    again = page.split("<h2>What to teach again</h2>")[1].split("</section>")[0]
    assert "got it right." in again and "made the same slip" in again
    assert not re.search("in the end|at first|Move quickly past", again)


def test_the_report_of_a_lesson_speaks_of_tries_as_before():
    from lessons_lib.course.class_report import tries_bar
    assert tries_bar(3, 5, 9).words == "3 right at first, 5 in the end, of 9"
    assert tries_bar(5, 5, 9, is_silent=True).words == "5 right of 9"


def test_a_bench_can_play_both_forms(tmp_path):
    new_course(tmp_path / "course", 2)
    answers = tmp_path / "answers"
    answers.mkdir()
    for form in FORMS:
        (answers / f"lesson_{form}.py").write_text((ANSWERS / f"lesson_{form}.py").read_text(encoding="utf-8"),
                                                   encoding="utf-8")
    (tmp_path / "course/course.toml").write_text(f"answers = '{answers}'\n", encoding="utf-8")
    course = Course(tmp_path / "course")
    assert list(course.lessons) == ["95", "96"] and play(course, next(iter(course.students))) == []
