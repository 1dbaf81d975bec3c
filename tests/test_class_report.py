"""The class report: its counts against a count of the returns by hand, what it advises, what it must not tell."""
import json
import re
import shutil

import numpy as np
import pytest

from exercises_following import GARDEN
from invented_term import AWAY, DAMAGED, WRONG_CODE
from lessons_lib.base.units import UNITS
from lessons_lib.course import teach_again
from lessons_lib.course.class_report import report_page
from lessons_lib.course.folder import Course
from lessons_lib.course.given_out import GivenOut
from lessons_lib.course.mark import mark
from lessons_lib.course.tally import BUILDS_ON, GENERAL_NOTES, SIZE, LessonTally
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
            assert n > 20 and shown[exercise.id][1:] == [
                share_text(first, n), share_text(right, n), f"{n} of {returned}"]


def test_it_says_who_many_returned_and_what_waits(term):
    page = page_of(term)
    counts = dict(re.findall(r"(\d\d): (\d+)", re.search("Returned, lesson by lesson: .*?[.]", page)[0]))
    assert set(counts) == set(Course(term).lessons) and all(25 < int(count) < 40 for count in counts.values())
    texts = {row[0]: row for exercise_id in counts for row in rows(lesson_part(page, exercise_id), "Open questions")}
    assert texts["1.7"][4] == texts["1.7"][2].split()[0] and texts["1.7"][5] == "0"       # marked by hand, all
    last = max(texts)
    assert texts[last][4] == "0" and int(texts[last][5]) > 20 and texts[last][6] == ""     # the last lesson waits


# ---- one student after the other, counted by hand --------------------------------------------------------------------

def tally_of(small):
    """The tally that marking makes of the small class."""
    seen = {}

    def page(course, tallies, unclear):
        seen.update(tallies)
        return report_page(course, tallies, unclear)

    small.patch("lessons_lib.course.mark.report_page", page)
    small.mark()
    return seen["01"]


def test_slips_notes_and_unexplained_values(small):
    first, second, third = (small.student(bench) for bench in ("b010", "b011", "b012"))
    pond = GARDEN["1.1"]
    first.right(pond)
    first.wrong(pond, 1.2)          # after the right one nothing counts
    _, slip, note = second.drawn(pond).own_slips[0]
    second.type("1.1", float(f"{slip:.5g}"))
    second.type("1.1", float(f"{slip * 1.001:.5g}"))        # the same bin is no new try
    second.right(pond)
    third.wrong(pond, 0.7)
    third.wrong(pond, 0.95)
    third.type("1.1", 5e6)
    for one in (first, second, third):
        small.give_back(one)
    tally = tally_of(small).exercises["1.1"]
    assert (tally.answered, tally.first, tally.right) == (3, 1, 2)
    assert tally.slips == {("open part", note): 1}
    assert (tally.wrong_first, tally.unexplained_first) == (2, 1)
    assert tally.unexplained == {
        "0.7 × the right value": 1, "near miss, within 10 %": 1, "far outside the expected range": 1}
    notes = {name: (one.read, one.tried, one.right) for name, one in tally.notes.items()}
    assert notes == {("open part", note): (1, 1, 1), GENERAL_NOTES[0]: (1, 1, 0), GENERAL_NOTES[1]: (1, 1, 0),
                     SIZE: (1, 0, 0)}


def test_what_builds_on_a_wrong_answer(small):
    student = small.student()
    student.wrong(GARDEN["1.1"], 1.15)
    student.wrong(GARDEN["1.6"], 1.3)           # read: it builds on 1.1
    student.right(GARDEN["1.1"])
    student.wrong(GARDEN["1.6"], 0.8)           # now its own note
    small.give_back(student)
    tally = tally_of(small).exercises["1.6"]
    assert {name: one.read for name, one in tally.notes.items()} == {BUILDS_ON: 1, GENERAL_NOTES[1]: 1}


def test_choices_levels_and_predictions(small):
    student = small.student()
    student.type("1.4", "a")
    level = student.drawn(GARDEN["1.3"]).answer
    student.type("1.3", round(level + 0.7, 2), "dB")
    with student._desk():
        student.sheet.predict("p1", "b", 3, "wind")
        student.sheet.predict("p1", "a", 1, "after all")        # the first is the one before looking
        student.sheet.saw("p1", "b")
        student.sheet.saw("p1", "a")
    small.give_back(student)
    tally = tally_of(small)
    assert tally.exercises["1.4"].slips == {("(a) left", "And the other one?"): 1}
    assert tally.exercises["1.3"].unexplained == {"+0.7 dB from the right value": 1}
    one = tally.exercises["p1"]
    assert (one.predicted, one.sure, one.saw) == ({"b": 1}, {("b", 3): 1}, {"b": 1})


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
    assert values["m1"] == "" and re.fullmatch(r"[+−]\d\.\d\d", values["1.1"])


# ---- what to teach again ---------------------------------------------------------------------------------------------

def garden_tally(**counts):
    """A tally of 20 returns in which all is right, but for what is said of one exercise."""
    tally = LessonTally(GARDEN)
    tally.returned = 20
    for one in tally.exercises.values():
        for name in ("answered", "first", "right"):
            if hasattr(one, name):
                setattr(one, name, 20)
    tally.exercises["p1"].saw.update({"a": 20})
    for exercise_id, changes in counts.items():
        for name, value in changes.items():
            setattr(tally.exercises[exercise_id], name, value)
    return tally


def said(tally, unclear=()):
    return {one.about: " ".join(one.says) for one in teach_again.teaching_points(tally, list(unclear))}


def test_where_all_is_right_nothing_is_to_teach_again():
    assert said(garden_tally()) == {} and teach_again.easy(garden_tally()) == ["m1", "1.1", "1.2", "1.3", "1.4", "1.6"]
    assert teach_again.unexplained(garden_tally()) == teach_again.forgotten(garden_tally()) == []


@pytest.mark.parametrize("right, named", [(10, True), (12, True), (13, False), (20, False)])
def test_an_exercise_is_named_below_three_quarters_by_more_than_one_error(right, named):
    """13 of 20 and 1 error of 0.10 reach 0.75; 12 of 20 with 0.107 do not."""
    assert ("1.1" in said(garden_tally(**{"1.1": {"first": 5, "right": right}}))) == named


def test_the_heaviest_comes_first_and_a_slip_brings_its_note():
    tally = garden_tally(**{"1.1": {"first": 9, "right": 10}, "1.2": {"first": 1, "right": 2}})
    tally.exercises["1.1"].slips.update({("open part", "Is the covered part asked?"): 5, ("all of it", "Whole."): 4})
    points = teach_again.teaching_points(tally, [])
    assert [one.about for one in points] == ["1.2", "1.1"]
    assert said(tally)["1.1"] == ("10 of 20 (50 ± 11 %) got it right in the end, 9 at the first try. 5 of 20 made the "
                                  "same slip: open part. Its note: “Is the covered part asked?”")
    tally.exercises["1.1"].slips[("open part", "Is the covered part asked?")] = 4
    assert "slip" not in said(tally)["1.1"]      # under a quarter


def test_the_other_rules():
    lines = [("01", "1.5", f"b01{place}", "why?") for place in range(2)]
    assert said(garden_tally(), lines)["1.5"] == "2 lines call it unclear; see below."
    assert said(garden_tally(), lines[:1]) == said(garden_tally(), [("02", *lines[0][1:])] * 2) == {}
    assert said(garden_tally(**{"1.2": {"answered": 14, "first": 14, "right": 14}}))["1.2"] == "6 of 20 left it out."
    assert "vote" in said(garden_tally(**{"1.4": {"first": 10}}))["1.4"]
    tally = garden_tally()
    tally.exercises["p1"].saw.clear()
    tally.exercises["p1"].saw.update({"a": 5, "b": 15})
    assert "15 saw this instead: “It fell.”" in said(tally)["p1"]
    assert teach_again.forgotten(garden_tally(m1={"first": 8})) == [("m1", "8 of 20 (40 ± 11 %) recalled it.")]
    tally = garden_tally(**{"1.1": {"wrong_first": 6, "unexplained_first": 3}})
    assert teach_again.unexplained(tally) == [("1.1", 3, 6)]


def test_fewer_than_ten_get_counts_and_a_warning_and_no_advice(small):
    for bench in ("b010", "b011"):
        student = small.student(bench)
        student.wrong(GARDEN["1.1"], 1.5)
        small.give_back(student)
    small.mark()
    page = small.text("class_report.html")
    assert "Fewer than 10 benches returned lesson 01." in page and "do not pass this page on" in page
    assert "too few for any advice" in page and "±" not in page.partition("How to read")[0] and "0 of 2" in page


def test_nothing_returned_is_said(small):
    small.mark()
    assert "Nothing has been returned yet." in small.text("class_report.html")


def test_the_newest_lesson_comes_first_and_the_rules_are_on_the_page(term):
    page = page_of(term)
    again = re.search("<section class=again>.*?</section>", page, re.DOTALL)[0]
    newest = max(Course(term).lessons)
    assert again.index(f"Lesson {newest}") < 100 and "Still open from lesson" in again
    assert page.index(f"<h2>Lesson {newest}") < page.index("<h2>Lesson 00")
    assert all(rule.split(":")[0] in page for rule in teach_again.TEACHING_RULES)


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
    assert {row[0]: row[1] for row in shown}["2.2"] == "What is its MMF, in A?"


def test_returned_files_hold_no_name_and_no_clock_of_the_reader(term):
    one = next((term / "returned").rglob("return-*.json"))
    assert set(json.loads(one.read_bytes())) == {"format", "bench", "code", "lesson", "version", "events", "check"}
