"""The class report: its counts against a count of the returns by hand, shares, what it must not tell."""
import json
import re
import shutil
from types import SimpleNamespace

import numpy as np
import pytest

from invented_term import AWAY, DAMAGED, WRONG_CODE
from lessons_lib.base.units import UNITS
from lessons_lib.course import class_report, teach_again
from lessons_lib.course.folder import Course
from lessons_lib.course.given_out import GivenOut
from lessons_lib.course.mark import mark
from lessons_lib.course.teach_again import discrimination, share_text, standard_error
from lessons_lib.exercises.returns import merged, read_return


def page_of(folder):
    return (folder / "marks" / "class_report.html").read_text(encoding="utf-8")


def lesson_part(page, lesson_id):
    return re.search(rf"<h2>Lesson {lesson_id}, .*?</section>", page, re.DOTALL)[0]


def rows(part, title):
    """The rows under a title, each a list of plain texts."""
    found = re.search(rf"<h3>{title}</h3>.*?</table>", part, re.DOTALL)
    lines = re.findall(r"<tr>(.*?)</tr>", found[0], re.DOTALL)[1:] if found else []
    return [[re.sub(r"<svg.*?</svg>|<[^>]+>", "", cell) for cell in re.findall(r"<td[^>]*>(.*?)</td>", line, re.DOTALL)]
            for line in lines]


# ---- the counts, done again in another way ---------------------------------------------------------------------------

def counted_again(folder, lesson_id, exercise):
    """(answered, right at first, right in the end) from the files and the formula alone: no seals, no marking."""
    course, events = Course(folder), {}
    for path in (folder / "returned").rglob("*.json"):
        found = read_return(path.read_bytes())
        if getattr(found, "lesson", None) == lesson_id and found.bench != WRONG_CODE:
            events.setdefault(found.bench, []).append(found)
    given_out, counts = GivenOut(course, course.lessons[lesson_id]), np.zeros(3, int)
    for bench, returns in events.items():
        answers = [one for one, _ in merged(returns) if one["event"] == "answer" and one["exercise"] == exercise.id]
        if exercise.kind == "choice":
            right = [one["value"] == exercise.right for one in answers]
        else:
            wanted, factor = given_out.drawn(bench)[exercise.id].answer, UNITS[exercise.unit.replace("µ", "u")].factor
            right = [abs(one["value"] * UNITS[one["unit"]].factor / factor - wanted) <= exercise.tolerance * (
                1 if exercise.unit in ("dB", "cents") else abs(wanted)) for one in answers]
        if right:
            counts += [1, right[0], any(right)]
    return counts


@pytest.mark.parametrize("lesson_id", ["01", "02", "05"])
def test_the_counts_are_those_of_the_returned_files(term, lesson_id):
    lesson = Course(term).lessons[lesson_id]
    shown = {row[0]: row[2:] for row in rows(lesson_part(page_of(term), lesson_id),
                                             "Right at the first try, and in the end")}
    returned = len({path.name for path in (term / "returned").rglob(f"return-*-{lesson_id}.json")
                    if WRONG_CODE not in path.name})
    for exercise in lesson.exercises:
        if exercise.kind in ("number", "choice"):
            n, first, right = counted_again(term, lesson_id, exercise)
            word = " (further)" if exercise.further else ""
            assert n > (10 if exercise.further else 20) and shown[exercise.id + word][1:] == [
                share_text(first, n), share_text(right, n), f"{n} of {returned}"]


def given(term):
    """The lessons of this class; tests and examinations are tried elsewhere."""
    return [lesson_id for lesson_id, lesson in Course(term).lessons.items() if not lesson.silent]


def test_it_says_who_many_returned_and_what_waits(term):
    page = page_of(term)
    counts = dict(re.findall(r"(\d\d): (\d+)", re.search("Returned, lesson by lesson: .*?[.]", page)[0]))
    assert set(counts) == set(given(term)) and all(25 < int(count) < 40 for count in counts.values())
    texts = {row[0]: row for exercise_id in counts for row in rows(lesson_part(page, exercise_id), "Open questions")}
    core = [called for called in texts if "further" not in called and called[0].isdigit()]     # no line from memory
    marked, last = texts[min(core)], max(core)
    assert marked[4] == marked[2].split()[0] and marked[5] == "0"       # marked by hand, all
    assert texts[last][4] == "0" and int(texts[last][5]) > 20 and texts[last][6] == ""     # the last lesson waits


def test_the_newest_lesson_comes_first_and_the_rules_are_on_the_page(term):
    page = page_of(term)
    again = re.search("<section class=again>.*?</section>", page, re.DOTALL)[0]
    newest = max(given(term))
    assert again.index(f"Lesson {newest}") < 100 and "Still open from lesson" in again
    assert page.index(f"<h2>Lesson {newest}") < page.index("<h2>Lesson 00")
    assert all(rule.split(":")[0] in page for rule in teach_again.TEACHING_RULES)


# ---- shares ----------------------------------------------------------------------------------------------------------

def test_standard_error_of_a_half_of_twenty():
    """sqrt(0.5 * 0.5 / 20) = 0.1118 by hand; none and all are not certain."""
    assert standard_error(10, 20) == pytest.approx(0.1118, abs=5e-5)
    assert standard_error(0, 20) == pytest.approx(standard_error(20, 20)) and standard_error(0, 20) > 0.04


def test_discrimination_from_forty_benches_on():
    strong, weak = (True, True, True), (False, False, True)
    rows_of = [strong] * 20 + [weak] * 20
    assert discrimination(rows_of[:39], 0) is None
    assert discrimination(rows_of, 0) == 1 and discrimination(rows_of, 2) == 0
    # upper and lower 27 % of 100 benches with scores of their own, by hand: 27 of 27 against 0 of 27
    scores = [tuple(place >= column for column in range(0, 100, 2)) + (place >= 50,) for place in range(100)]
    assert discrimination(scores, 50) == 1
    assert discrimination([(True,)] * 50, 0) is None


def test_discrimination_does_not_depend_on_the_order_of_the_class_list():
    dice = np.random.default_rng(3)
    table = [tuple(row) for row in dice.random((60, 6)) < 0.6]
    assert discrimination(table, 2) == pytest.approx(discrimination(table[::-1], 2), abs=1e-12)
    assert -1 <= discrimination(table, 2) <= 1


def test_it_is_shown_from_forty_returns_on(term):
    """Forty benches, and one of them away: fewer than forty returns."""
    assert "<th scope=col class=number>discrimination</th>" not in page_of(term)


def test_with_forty_returns_it_is_shown(term, tmp_path, monkeypatch):
    shutil.copytree(term, tmp_path / "course")
    monkeypatch.setattr("lessons_lib.course.class_report.LEAST_FOR_DISCRIMINATION", 20)
    monkeypatch.setattr(teach_again, "LEAST_FOR_DISCRIMINATION", 20)
    mark(Course(tmp_path / "course"))
    shown = rows(lesson_part(page_of(tmp_path / "course"), "01"), "Right at the first try, and in the end")
    values = {row[0]: row[6] for row in shown}
    assert values["m1"] == "" and re.fullmatch(r"[+−]\d\.\d\d", values["1.8"])


# ---- what it must not tell -------------------------------------------------------------------------------------------

def test_no_names_no_benches_no_clock_nothing_from_elsewhere(term):
    page = page_of(term)
    for bench, name in Course(term).students.items():
        assert name.startswith("Ada") and name not in page and bench not in page
    assert not re.search(r"20\d\d-\d\d|\d\d:\d\d:\d\d|Namesake", page)
    assert not re.search(r"<script|<img|<link|src=|href=|https?:|url\(|@import", page)
    assert AWAY not in page and DAMAGED not in page


def test_students_lines_are_escaped(term):
    page = page_of(term)
    assert "&lt;b&gt;bold&lt;/b&gt; &amp; =1+1" in page and "<b>" not in page


def test_marking_again_gives_the_same_bytes(term, own_term):
    mark(Course(own_term))
    assert page_of(own_term) == page_of(term)


def test_every_chart_has_its_words(term):
    charts = re.findall("<svg.*?</svg>", page_of(term), re.DOTALL)
    assert len(charts) > 50 and all(re.search(r"<title>\d+ .*?of \d+</title>", one) for one in charts)


def test_a_page_that_cannot_be_read_only_costs_the_questions(own_term, tmp_path):
    (tmp_path / "notebooks").mkdir()
    (tmp_path / "notebooks" / "01_x.ipynb").write_text("{")
    with open(own_term / "course.toml", "r+", encoding="utf-8") as file:
        text = file.read()
        file.seek(0)
        file.write(f"notebooks = '{tmp_path / 'notebooks'}'\n{text}")
    mark(Course(own_term))
    shown = rows(lesson_part(page_of(own_term), "01"), "Right at the first try, and in the end")
    assert shown[0][0] == "m1" and shown[0][1] == ""


def test_questions_are_those_of_the_page(term):
    shown = rows(lesson_part(page_of(term), "02"), "Right at the first try, and in the end")
    assert {row[0]: row[1] for row in shown}["2.9"] == "How many turns does it need?"


def test_returned_files_hold_no_name_and_no_clock_of_the_reader(term):
    one = next((term / "returned").rglob("return-*.json"))
    assert set(json.loads(one.read_bytes())) == {"format", "bench", "code", "lesson", "version", "events", "check"}


# ---- which lesson is the newest, and how its questions read ----------------------------------------------------------

def tally_with(lesson_id, *, silent):
    return SimpleNamespace(returned=9, lesson=SimpleNamespace(id=lesson_id, silent=silent))


@pytest.mark.parametrize("begun, newest", [
    ({"03": "2030-01-01", "95": "2030-01-08"}, "95"),                           # the week of the examination
    ({"03": "2030-01-01", "95": "2030-01-08", "04": "2030-01-15"}, "04"),       # the lesson after it
    ({}, "95")])                                                                # nothing is known: by their numbers
def test_an_examination_in_mid_course_is_the_newest_until_a_lesson_comes_after_it(begun, newest):
    returned = {one: tally_with(one, silent=one == "95") for one in ("03", "04", "95") if one in begun or not begun}
    assert class_report._newest(returned, 20, begun) == newest


def test_a_question_reads_without_markup():
    assert class_report._plain(r"Is `turns * root` or **less**; * is times, $f_0$, $\mu_0$ and $50\,000$ *so*?") == (
        "Is turns * root or less; * is times, f₀, μ₀ and 50 000 so?")
    assert class_report._question("The voltage falls off. Which?") == "The voltage falls off. Which?"
    assert class_report._question("It is so. How large is the peak voltage?") == "How large is the peak voltage?"
