"""The examination: two forms of one difficulty, marks for steps and slips, silence, and what the instructor reads."""
import json
import math
import re
from dataclasses import replace
from itertools import combinations
from types import SimpleNamespace

import numpy as np
import pytest
from scipy.stats import ks_2samp

from handout_reader import Reader
from invented_work import EventSheet
from lessons_lib.__main__ import main
from lessons_lib.course.folder import Course, bench_card
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.mark import mark
from lessons_lib.course.marking import Marker
from lessons_lib.course.pack import give_out
from lessons_lib.course.play import play
from lessons_lib.course.right_answers import self_study_page, write_key, write_worked
from lessons_lib.course.settings import Settings
from lessons_lib.course.tables import read_table
from lessons_lib.exercises.declaration import Lesson
from lessons_lib.exercises.draws import draw, draw_lesson
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.parts import value_text
from lessons_lib.exercises.self_study import load_lesson
from lessons_lib.exercises.verdicts import State
from notebooks import ANSWERS, NOTEBOOKS, read

A, B = (load_lesson(ANSWERS / f"lesson_{one}.py") for one in ("95", "96"))
FORMS = {"95": A, "96": B}
PAGES = {one: next(NOTEBOOKS.glob(f"{one}_*.ipynb")) for one in FORMS}
PAIRS = list(zip(A.exercises, B.exercises, strict=True))
NUMBERS = [one.id.partition(".")[2] for one in A.exercises if one.kind == "number"]
SECRET = "a fixed secret of at least thirty-two characters\n"
every_form = pytest.mark.parametrize("form", FORMS)
every_number = pytest.mark.parametrize("number", NUMBERS)


def text_of(form):
    return "\n".join(cell.source for cell in read(PAGES[form]).cells if cell.cell_type == "markdown")


def questions(form):
    """Exercise id -> its question on the page, as it stands under the head."""
    return dict(re.findall(r"^### Exercise (\S+)\n(.*)$", text_of(form), re.MULTILINE))


# ---- two forms, one difficulty ---------------------------------------------------------------------------------------

def code(function):
    """What a formula does, alike when its file was loaded twice."""
    inner = [cell.cell_contents for cell in function.__closure__ or ()]
    return function.__code__, [code(one) if callable(one) else one for one in inner]


def rules(exercise):
    """All that makes an exercise harder or easier, without its words."""
    values = {**exercise.given, **exercise.hidden}
    return {"ranges": {name: (one.unit, one.low, one.high, one.step) for name, one in values.items()},
            "derived": {name: (one.unit, one.decimals, code(one.formula)) for name, one in exercise.derived.items()},
            "answer": code(exercise.answer), "tolerance": exercise.tolerance, "size": exercise.size,
            "unit": exercise.unit, "marks": exercise.marks, "points": exercise.points,
            "slips": [(slip.name, code(slip.formula), slip.marks) for slip in exercise.slips]}


def test_the_forms_have_the_same_rules_and_other_words():
    for one, other in PAIRS:
        assert one.id.removeprefix("95") == other.id.removeprefix("96")
        assert (one.kind, one.marks) == (other.kind, other.marks)
        assert questions("95")[one.id] != questions("96")[other.id]
        if one.kind == "number":
            assert rules(one) == rules(other), one.id
            assert all(one.shown[name].label != other.shown[name].label for name in one.shown), one.id
        elif one.kind == "choice":
            assert set(one.options) == set(other.options) == set("abcd") and one.right != other.right
            assert not set(one.options.values()) & set(other.options.values())
        else:
            assert [marks for marks, _ in one.rubric] == [marks for marks, _ in other.rubric] == [1] * 4


@every_number
def test_benches_get_numbers_of_one_difficulty(number):
    """300 benches: answers of both forms from one distribution, given values with as many figures, and not the same."""
    drawn = {form: [draw(FORMS[form][f"{form}.{number}"], secret=SECRET, bench=f"b{bench:03d}")
                    for bench in range(300)] for form in FORMS}
    answers = {form: [one.answer for one in here] for form, here in drawn.items()}
    assert ks_2samp(answers["95"], answers["96"]).pvalue > 0.001
    assert np.median(answers["95"]) == pytest.approx(np.median(answers["96"]), rel=0.1)
    decimals = [[value_text(value, one.exercise.shown[name]) for name, value in one.shown.items()]
                for here in drawn.values() for one in here[:20]]
    assert len({tuple(len(str(text).rpartition(".")[2]) if "." in str(text) else 0 for text in row)
                for row in decimals if not isinstance(row[-1], list)}) <= 1
    assert sum(one == other for one, other in zip(*answers.values())) < 15      # by chance
    assert len(set(answers["95"])) > 100        # neighbours have other numbers


def test_letters_do_not_give_it_away():
    for form in FORMS.values():
        letters = [one for one in form.exercises if one.kind == "choice"]
        assert sorted(one.right for one in letters) == list("abcd")
        assert sum(max(one.options, key=lambda name: len(one.options[name])) == one.right for one in letters) <= 2


@every_form
def test_sixty_minutes_of_it(form):
    """Marks on the page are the declared ones; in all 34 to 40, at least 1.5 minutes for each."""
    lesson, asked = FORMS[form], questions(form)
    assert list(asked) == [one.id for one in lesson.exercises] and len(asked) == 16
    for one in lesson.exercises:
        assert asked[one.id].endswith(f"*({one.marks} mark{'s' * (one.marks > 1)})*")
    total = sum(one.marks for one in lesson.exercises)
    assert 34 <= total <= 40 and f"**60 minutes, 16 exercises, {total} marks.**" in text_of(form)
    rows = re.findall(r"^\| marks \| (.*) \|$", text_of(form), re.MULTILINE)
    assert [int(cell) for row in rows for cell in row.split(" | ")] == [one.marks for one in lesson.exercises]


# ---- marks for steps and slips ---------------------------------------------------------------------------------------

def test_points_add_up_and_a_slip_earns_whole_steps():
    for one, _ in PAIRS:
        if one.kind == "number":
            steps = [marks for marks, _ in one.points]
            sums = {sum(some) for count in range(len(steps)) for some in combinations(steps, count)}
            assert sum(steps) == one.marks and all(slip.marks in sums for slip in one.slips), one.id
            assert all(len(what) <= 110 for _, what in one.points)


@pytest.mark.parametrize("points, says", [
    (((1, "area"),), "points of exercise 95.1 must be 2 marks in all; got 1"),
    (((2, "area"), (0, "flux")), "points of exercise 95.1 must be pairs of marks above 0"),
    (((1, "area"), (1, "")), "points of exercise 95.1 must be pairs")])
def test_points_that_do_not_add_up_are_refused(points, says):
    with pytest.raises(ValueError, match=re.escape(says)):
        Lesson(id="95", title="x", version=1, exercises=(replace(A["95.1"], points=points),))


@pytest.mark.parametrize("marks", [2, 3, -1])
def test_a_slip_does_not_earn_what_right_earns(marks):
    slip = replace(A["95.1"].slips[0], marks=marks)
    with pytest.raises(ValueError, match="slip diameter for radius in exercise 95.1 must be from 0 to below 2; got"):
        Lesson(id="95", title="x", version=1, exercises=(replace(A["95.1"], slips=(slip,)),))


# Every formula once more, in the units that are shown and asked: exercise -> (right, slip -> (number, marks)).

def circle(diameter):
    return math.pi * (diameter / 2) ** 2


def plain(number, g):
    """(right answer, {slip: (number typed, marks)}) from what the table of given values shows."""
    if number == "1":       # mT on mm² is nWb
        right = circle(g["diameter"]) * g["field"] / 1e3
        return right, {"diameter for radius": (4 * right, 1), "square for circle": (right * 4 / math.pi, 1),
                       "power of ten, 10³": (1e3 * right, 1), "power of ten, 10⁻³": (right / 1e3, 1)}
    if number == "3":       # A by MA/Wb is µWb
        both = g["magnet"] + g["air"]
        right = g["mmf"] / both
        return right, {"air alone": (g["mmf"] / g["air"], 1), "magnet alone": (g["mmf"] / g["magnet"], 1),
                       "in parallel": (g["mmf"] * both / (g["magnet"] * g["air"]), 1),
                       "power of ten, 10³": (1e3 * right, 1), "power of ten, 10⁻³": (right / 1e3, 1),
                       "power of ten, 10⁶": (1e6 * right, 1)}
    if number == "4":       # mm by mm² is 10³/m, divided by 4π·10⁻⁷ and by 10⁶
        right = g["length"] / circle(g["diameter"]) * 1e3 / (4e-7 * math.pi) / 1e6
        return right, {"diameter for radius": (right / 4, 2), "square for circle": (right * math.pi / 4, 2),
                       "upside down": (1 / (1e6 * right), 1),
                       "no constant": (g["length"] / circle(g["diameter"]) * 1e3, 1),
                       "power of ten, 10³": (1e3 * right, 2), "power of ten, 10⁻³": (right / 1e3, 2),
                       "power of ten, 10⁶": (1e6 * right, 2), "power of ten, 10⁻⁶": (right / 1e6, 2)}
    if number == "5":
        near, branch = g["near"], g["branch"]
        flux = 1e3 * g["mmf"] / (g["magnet"] + g["far"] + 1 / (1 / near + 1 / branch))
        right = flux * near / (near + branch)
        air = near + g["far"]
        return right, {"whole flux": (flux, 2), "near air's share": (flux - right, 2),
                       "all of the air": (1e3 * g["mmf"] / (g["magnet"] + 1 / (1 / air + 1 / branch)) * air /
                                          (air + branch), 2),
                       "all of the MMF": (1e3 * g["mmf"] / branch, 0),
                       "in series": (1e3 * g["mmf"] / (g["magnet"] + air + branch), 1),
                       "power of ten, 10³": (1e3 * right, 2), "power of ten, 10⁻³": (right / 1e3, 2)}
    if number == "6":
        left = math.exp(-g["away"] / g["decay"])
        right = 20 * math.log10(left)
        return right, {"sign": (-right, 1), "ten log": (10 * math.log10(left), 1), "exponent": (math.log(left), 1),
                       "ratio": (left, 1), "upside down": (-8.6859 * g["decay"] / g["away"], 1)}
    if number == "7":       # nWb/mm times m/s is µV
        right = g["turns"] * g["slope"] * g["speed"] / 1e3
        return right, {"single turn": (right / g["turns"], 1), "no speed": (g["turns"] * g["slope"] / 1e3, 0),
                       "power of ten, 10³": (1e3 * right, 1), "power of ten, 10⁻³": (right / 1e3, 1),
                       "power of ten, 10⁻⁶": (right / 1e6, 1)}
    if number == "10":      # nWb by ms is µV
        (first, second, _, last), (begin, from_here, _, to) = g["flux"], g["time"]
        mean = g["turns"] / 1e3
        right = mean * (last - second) / (to - from_here)
        return right, {"whole table": (mean * (last - first) / (to - begin), 1), "single turn": (right / g["turns"], 1),
                       "flux by time": (mean * last / to, 1), "whole time": (mean * (last - second) / to, 1),
                       "power of ten, 10³": (1e3 * right, 1), "power of ten, 10⁻³": (right / 1e3, 1)}
    if number == "11":
        force, tension, density = g["force"], g["tension"], g["density"] / 1e3
        z = (tension * density) ** 0.5
        return force / z / 2, {"grams": (force / z / 2 / 1000 ** 0.5, 2), "no half": (force / z, 2),
                               "no root": (force / z ** 2 / 2, 2),
                               "speed of the wave": (force / 2 / (tension / density) ** 0.5, 2), "impedance": (z, 2)}
    if number == "12":      # H times Hz is Ω
        resistance, turning = g["resistance"], g["inductance"] * g["frequency"] / 1e3
        x = 2 * math.pi * turning
        right = (resistance ** 2 + x ** 2) ** 0.5
        return right, {"plain sum": (resistance + x, 1), "reactance": (x, 1),
                       "no two pi": ((resistance ** 2 + turning ** 2) ** 0.5, 1), "no root": (right ** 2, 1),
                       "power of ten, 10³": (1e3 * right, 1), "power of ten, 10⁻³": (right / 1e3, 1)}
    if number == "13":
        def f0(picofarad):
            return 1 / (2 * math.pi * (g["inductance"] * picofarad * 1e-12) ** 0.5) / 1e3
        own, cable = g["own"], g["cable"]
        right = f0(own + cable)
        return right, {"cable alone": (f0(cable), 2), "coil alone": (f0(own), 2),
                       "in series": (f0(1 / (1 / own + 1 / cable)), 2), "no two pi": (2 * math.pi * right, 2),
                       "no root": (1 / (2 * math.pi * g["inductance"] * (own + cable) * 1e-12) / 1e3, 2),
                       "power of ten, 10³": (1e3 * right, 2), "power of ten, 10⁻³": (right / 1e3, 2),
                       "power of ten, 10⁻⁶": (right / 1e6, 2)}
    if number == "14":
        share = g["load"] / (g["load"] + g["resistance"])
        right = 20 * math.log10(share)
        return right, {"sign": (-right, 1), "ten log": (right / 2, 1), "share": (share, 1),
                       "natural log": (20 * math.log(share), 1), "coil's share": (20 * math.log10(1 - share), 1),
                       "coil by load": (20 * math.log10(g["resistance"] / g["load"]), 1)}
    raise KeyError(number)


def sat_by(lesson, bench, answers):
    """(given values of the student's sheet, `Outcome`s) of a bench that gives the *answers*, (exercise, value)s."""
    drawn = draw_lesson(lesson, secret=SECRET, bench=bench)
    sheets = [make_sheet(lesson, secret=SECRET, bench=bench, drawn=drawn, for_marking=one) for one in (False, True)]
    given = {name: {value["name"]: value["value"] for value in one.get("given", ())}
             for name, one in sheets[0]["exercises"].items()}
    work = EventSheet(lesson, bench, f"{bench}-cardno", {})
    for exercise_id, value in answers(given):
        work.answer(exercise_id, value)
    marker = Marker(lesson, sheets[1], drawn, Settings(), {})
    return given, marker.outcomes(marker.history(work.events))


@every_form
@every_number
@pytest.mark.parametrize("bench", ["b010", "b011", "b023"])
def test_right_earns_all_and_each_slip_what_it_names(form, number, bench):
    lesson, exercise_id = FORMS[form], f"{form}.{number}"
    most = lesson[exercise_id].marks
    given, outcomes = sat_by(lesson, bench, lambda given: [(exercise_id, plain(number, given[exercise_id])[0])])
    assert (outcomes[exercise_id].marks, outcomes[exercise_id].how) == (most, "right")
    right, slips = plain(number, given[exercise_id])
    assert set(slips) == {slip.name for slip in lesson[exercise_id].slips}
    for name, (typed, marks) in slips.items():
        outcome = sat_by(lesson, bench, lambda given: [(exercise_id, typed)])[1][exercise_id]
        assert name in outcome.how and outcome.marks >= marks, (name, outcome)
        if outcome.how == f"slip: {name}":      # else two slips share a bin, and the better counts
            assert outcome.marks == marks, name
    wrong = right * 1.37 if number not in ("6", "14") else right - 0.37
    if all(abs(math.log(abs(typed / wrong))) > 0.1 for typed, _ in slips.values() if typed):
        assert sat_by(lesson, bench, lambda given: [(exercise_id, wrong)])[1][exercise_id].marks == 0


@every_form
def test_the_last_answer_counts_and_nothing_before_it(form):
    lesson, first = FORMS[form], f"{form}.1"
    letter = f"{form}.2"
    other = next(one for one in "abcd" if one != lesson[letter].right)

    def changed_mind(given):
        right = plain("1", given[first])[0]
        return [(first, right), (first, 4 * right), (letter, other), (letter, lesson[letter].right)]
    outcomes = sat_by(lesson, "b010", changed_mind)[1]
    assert outcomes[first].marks == 1 and outcomes[first].how == "slip: diameter for radius"
    assert outcomes[letter].marks == 1 and outcomes[f"{form}.15"].marks == 0


def test_a_course_may_say_otherwise():
    settings = Settings(slip_marks={"95.1": {"diameter for radius": 0.5}})
    marker = Marker(A, make_sheet(A, secret=SECRET, bench="b010", for_marking=True),
                    draw_lesson(A, secret=SECRET, bench="b010"), settings, {})
    work = EventSheet(A, "b010", "b010-cardno", {})
    right = draw(A["95.1"], secret=SECRET, bench="b010").answer
    for factor, marks in ((4, 0.5), (1e3, 1)):
        work.answer("95.1", factor * right)
        assert marker.outcomes(marker.history(work.events))["95.1"].marks == marks


def test_what_a_slip_earns_is_among_the_reasons_why_marks_move():
    def because(exercise):
        lesson = replace(A, exercises=(exercise,))
        marker = Marker(lesson, make_sheet(lesson, secret=SECRET, bench="b010", for_marking=True),
                        draw_lesson(lesson, secret=SECRET, bench="b010"), Settings(), {})
        return marker.outcomes(marker.history([]))["95.1"].because
    slips = A["95.1"].slips
    assert because(A["95.1"]) != because(replace(A["95.1"], slips=(replace(slips[0], marks=0.5), *slips[1:])))


# ---- a student's page ------------------------------------------------------------------------------------------------

@every_form
def test_a_students_sheet_says_nothing_of_what_is_right(form):
    lesson = FORMS[form]
    sheet = make_sheet(lesson, secret=SECRET, bench="b010")
    text = json.dumps(sheet, ensure_ascii=False)
    assert not re.search("sealed|salt|slip|notes|size|tolerance", text)
    for one in lesson.exercises:
        fields = set(sheet["exercises"][one.id])
        assert fields <= {"kind", "silent", "given", "unit", "options", "least_words"}
        said = [*(slip.note for slip in one.slips), *getattr(one, "notes", {}), *(what for _, what in one.points)]
        assert not any(note in text for note in said if len(note) > 1)


@pytest.fixture
def sheet(tmp_path, monkeypatch):
    """Form A beside the model answers, for b000."""
    from lessons_lib import open_sheet
    (tmp_path / "notebooks").mkdir()
    (tmp_path / "answers").symlink_to(ANSWERS)
    monkeypatch.chdir(tmp_path / "notebooks")
    monkeypatch.delenv("LESSONS_WORK_FOLDER", raising=False)
    return open_sheet("95")


def test_a_mock_examination_is_silent_until_the_result_is_asked(sheet):
    right, slips = plain("1", sheet.given("95.1"))
    said = {sheet.answer("95.1", number, "uWb").text for number in (right, slips["diameter for radius"][0], 123.4)}
    assert len(said) == 1 and "Your last answer counts" in said.pop()
    assert "It opens once you have answered" in sheet.worked_answer("95.3").text
    sheet.answer("95.1", right, "uWb")
    sheet.answer("95.2", "a")
    assert sheet.result().text.startswith("1 of 16 right. Not right: 95.2.")
    assert sheet.worked_answer("95.1").text.startswith("A circle")


@pytest.mark.parametrize("value, says", [("many", "number"), ("1,5", "comma"), (float("nan"), "number")])
def test_what_cannot_be_read_gets_a_sentence_and_does_not_count(sheet, value, says):
    sheet.answer("95.1", 1.5, "uWb")
    verdict = sheet.answer("95.1", value, "uWb")
    assert verdict.state == State.UNREADABLE and says in verdict.text
    assert "Kept from before: 1.5 µWb" in sheet.answer("95.1", ..., "uWb").text


# ---- what the instructor reads ---------------------------------------------------------------------------------------

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
    """From the returned files and the tables of given values: computed here by the formulas above."""
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


@pytest.fixture(scope="module")
def paper(tmp_path_factory):
    folder = tmp_path_factory.mktemp("paper")
    assert main(["handouts", str(folder), "--lessons", "95,96", "--benches", "b004"]) == 0
    return {form: (folder / f"handout_{form}_b004.html").read_text(encoding="utf-8") for form in FORMS}


@every_form
def test_on_paper_there_is_room_for_a_name_and_working_and_nothing_of_the_machine(form, paper):
    reader = Reader(paper[form])
    text = " ".join(reader.elements[0]["text"].split())
    assert "Name:" in text and "for bench b004" in text and "Predict before" not in text
    assert len(reader.of(**{"class": "working"})) == len(NUMBERS)
    assert "return_work" not in text and "sheet." not in text and "run this box" not in text
    [cover] = [one for one in reader.of(tag="table") if "earned" in one["text"]]
    assert all(one.id in cover["text"] for one in FORMS[form].exercises)
    for one in FORMS[form].exercises:
        assert one.worked not in text and not any(what in text for _, what in one.points)
