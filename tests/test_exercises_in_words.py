"""Formulas, orders, curves and estimates in a class: returned, marked, reported, on paper, and pages made clean."""
import ast
import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import lessons_lib
from exercises_in_words import EMPTY, LESSON, RIGHT_WORDS, SLIPS
from exercises_lesson import lay_answers, lay_sheet
from lessons_lib.course.clean_page import asked_of, clean_page
from lessons_lib.course.play import play
from lessons_lib.course.right_answers import self_study_page, worked_page, write_key
from lessons_lib.exercises.bench import check_character
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw_lesson
from lessons_lib.exercises.kinds import read_records
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.returns import NotRead, read_return, return_bytes
from lessons_lib.exercises.review import review
from lessons_lib.exercises.sheet_file import read_sheet, sheet_bytes
from lessons_lib.exercises.verdicts import State
from lessons_lib.handouts.page import Handout
from small_class import SmallClass
from test_exercises_inputs import ANYTHING

SHEET = make_sheet(LESSON, secret=SELF_STUDY_SECRET, bench="b000")
DRAWN = draw_lesson(LESSON, secret=SELF_STUDY_SECRET, bench="b000")
RECORDS = read_records(SHEET)
IDS = list(RECORDS)
CODE = f"23456{check_character('b010', '23456')}"


@pytest.fixture
def sheet(desk):
    lay_sheet(desk, "b000", SHEET)
    lay_answers(desk, "exercises_in_words")
    return lessons_lib.open_sheet("01")


@pytest.mark.parametrize("exercise", LESSON.exercises, ids=IDS)
def test_the_declarations_have_no_faults(exercise):
    assert list(review(exercise)) == []


@pytest.mark.parametrize("exercise", LESSON.exercises, ids=IDS)
def test_the_model_answer_is_right_and_shown_again(sheet, exercise):
    value, unit, readings = exercise.model_answer(DRAWN.get(exercise.id))
    assert sheet.answer(exercise.id, value, unit, **readings).state == State.RIGHT
    again = sheet.answer(exercise.id, ...)
    assert again.state == State.RIGHT and again.text.startswith("Kept from before: ")


@pytest.mark.parametrize("exercise_id", IDS)
def test_an_empty_cell_is_still_empty(sheet, exercise_id):
    more = ast.parse(f"answer({EMPTY[exercise_id]})", mode="eval").body
    value, *unit = (ast.literal_eval(one) for one in more.args)
    assert sheet.answer(exercise_id, value, *unit, **{
        one.arg: ast.literal_eval(one.value) for one in more.keywords}).state == State.NOT_ANSWERED


@pytest.mark.parametrize("exercise_id", IDS)
def test_the_worked_answer_opens_after_the_right_one(sheet, exercise_id):
    exercise = LESSON[exercise_id]
    assert sheet.worked_answer(exercise_id).state == State.NOT_YET
    value, unit, readings = exercise.model_answer(DRAWN.get(exercise_id))
    sheet.answer(exercise_id, value, unit, **readings)
    assert sheet.worked_answer(exercise_id).text == exercise.worked_answer(DRAWN.get(exercise_id))


def test_sheets_are_made_the_same_again_and_read():
    data = sheet_bytes(SHEET)
    assert data == sheet_bytes(make_sheet(LESSON, secret=SELF_STUDY_SECRET, bench="b000")) and read_sheet(data) == SHEET


@pytest.mark.parametrize("exercise_id", IDS)
def test_nothing_sealed_is_the_same_at_two_benches(exercise_id):
    def digests(bench):
        text = json.dumps(make_sheet(LESSON, secret="test", bench=bench)["exercises"][exercise_id])
        return {one for one in text.replace('"', " ").split() if len(one) == 20 and set(one) <= set("0123456789abcdef")}
    assert digests("b000") and not digests("b000") & digests("b001")


# ---- whatever is typed, and whatever comes back ----------------------------------------------------------------------

DEEP = st.recursive(ANYTHING, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(
    st.text(max_size=5) | st.integers(), inner, max_size=4), max_leaves=10)
READINGS = st.dictionaries(st.sampled_from(["because", "table", "size"]), DEEP, max_size=3)


@settings(max_examples=200, deadline=None, derandomize=True,
          suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(exercise_id=st.sampled_from(IDS), value=DEEP, unit=ANYTHING, readings=READINGS)
def test_nothing_raises_and_everything_can_be_shown(desk, exercise_id, value, unit, readings):
    lay_sheet(desk, "b000", SHEET)
    sheet = lessons_lib.open_sheet("01")
    for seen in (sheet.answer(exercise_id, value, unit, **readings), sheet.answer(exercise_id), sheet.progress()):
        assert repr(seen).encode() and seen._repr_html_().encode()
    (desk / "my_work" / "log-b000.jsonl").unlink(missing_ok=True)


def event(exercise_id, value, **more):
    return {"id": f"{1:016x}", "number": 1, "time": "2030-03-01T10:00:00+00:00", "event": "answer", "lesson": "01",
            "exercise": exercise_id, "value": value, **more}


PLAIN = st.one_of(st.integers(-10 ** 14, 10 ** 14), st.floats(allow_nan=False, allow_infinity=False), st.text(
    st.characters(exclude_categories=["Cs"]), max_size=60), st.dictionaries(st.text(st.sampled_from("abcm_p"),
     min_size=1, max_size=8), st.floats(-9, 9) | st.text(st.sampled_from("ab>"), max_size=4), min_size=1, max_size=4))


@settings(max_examples=300, deadline=None, derandomize=True)
@given(st.sampled_from(IDS), PLAIN, PLAIN)
def test_a_hostile_return_is_judged_or_refused_in_a_sentence(exercise_id, value, reason):
    for more in ({}, {"readings": {"because": reason}}, {"unit": "Wb", "readings": {"because": "one two three four"}}):
        data, _ = return_bytes(bench="b010", code=CODE, lesson="01", version=1,
                               events=[event(exercise_id, value, **more)])
        found = read_return(data)
        assert not isinstance(found, NotRead)
        for one in found.events:
            try:
                RECORDS[exercise_id].judge(one["value"], one.get("unit"), one.get("readings"))
            except ValueError as error:
                assert str(error)


@pytest.mark.parametrize("exercise_id", IDS)
@pytest.mark.parametrize("value", [
    "(" * 199 + ")", "a" * 8001, "9" * 5000, "__import__('os').system('true')", {"__class__": "x"}, {"a": {"b": 1}},
    {}, [], [[[[]]]], {"mmf": 1}, 1e308, -0.0, "a>" * 90, ">" * 100, "\u202e\u0000", "a = a = a", "-" * 199], ids=repr)
def test_hostile_values_get_a_sentence(exercise_id, value):
    try:
        judged = RECORDS[exercise_id].judge(value, None, {"because": "one and two and three"})
    except ValueError as error:
        assert str(error) and "\n" not in str(error) and len(str(error)) < 300
    else:
        assert judged.state != State.RIGHT


# ---- a class of three ------------------------------------------------------------------------------------------------

@pytest.fixture(scope="module")
def small(tmp_path_factory):
    """Three benches: all right, each a slip, each something else."""
    small = SmallClass(tmp_path_factory.mktemp("words"), "from exercises_in_words import LESSON\n")
    for bench in ("b010", "b011", "b012"):
        student = small.student(bench)
        if bench == "b010":
            student.all_right()
        for exercise_id, wrong in () if bench == "b010" else SLIPS.items():
            value, unit, readings = wrong(student, LESSON[exercise_id])
            student.type(exercise_id, value, unit, **readings)
        small.give_back(student)
    small.mark()
    return small


def test_a_return_read_again_earns_the_same(small):
    assert {name: small.rows["b010"][name] for name in IDS} == {one.id: f"{one.marks:g}" for one in LESSON.exercises}
    assert all(float(small.rows["b011"][name]) < LESSON[name].marks for name in IDS)


def test_play_finds_nothing_wrong(small):
    assert play(small.course, next(iter(small.course.students))) == []


def test_the_report_names_the_slips(small):
    report = small.text("class_report.html")
    for exercise in LESSON.exercises:
        assert exercise.id in report and RIGHT_WORDS[exercise.id][0] in report


def test_reasons_and_orders_are_read_in_the_notes(small):
    notes = "".join(path.read_text() for path in (small.folder / "marks").rglob("*.html"))
    for words in ("because four hundred times five hundred", "&#34;d &gt; c &gt; a &gt; b&#34;", "mmf/r_magnet + mmf"):
        assert words in notes


def test_key_and_worked_page(small):
    bench = next(iter(small.course.students))
    key = write_key(small.course, bench, "01")[0].read_text(encoding="utf-8")
    worked = worked_page(small.course, bench).decode()
    study = self_study_page([LESSON], "b000").decode()
    for exercise in LESSON.exercises:
        drawn = small.student(bench).whole(exercise) if exercise.is_drawn else None
        right = exercise.key_value(drawn) if exercise.is_in_key else exercise.right_for_all()
        assert right.replace(">", "&gt;") in key and RIGHT_WORDS[exercise.id][1] in worked
        assert RIGHT_WORDS[exercise.id][1] in study


def page(exercise_id, answer):
    cell = {"cell_type": "code", "source": f'sheet.answer("{exercise_id}", {answer})', "outputs": [], "metadata": {}}
    question = {"cell_type": "markdown", "source": f"### Exercise {exercise_id}\nWhat?", "metadata": {}}
    return {"cells": [question, cell], "metadata": {}}


@pytest.mark.parametrize("exercise", LESSON.exercises, ids=IDS)
def test_a_page_is_made_clean(exercise):
    empty, asked = EMPTY[exercise.id], asked_of(LESSON.exercises)
    value, unit, readings = exercise.model_answer(DRAWN.get(exercise.id))
    typed = ", ".join([repr(value), *([f'"{unit}"'] if unit else []), *(f"{name}={one!r}" for name, one in
                                                                     readings.items())])
    clean, found = clean_page(page(exercise.id, typed), asked)
    assert "".join(clean["cells"][1]["source"]) == f'sheet.answer("{exercise.id}", {empty})'
    assert found == [("answer", exercise.id)] and clean_page(page(exercise.id, empty), asked)[1] == []


@pytest.mark.parametrize("exercise", LESSON.exercises, ids=IDS)
def test_a_handout_has_room(exercise):
    handout = Handout(page(exercise.id, EMPTY[exercise.id]), name="01_words.ipynb", content=SHEET, figures={})
    place = handout.page().decode().partition(f'data-exercise="{exercise.id}"')[2]
    assert RIGHT_WORDS[exercise.id][2] in place
