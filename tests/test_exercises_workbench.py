"""A design and an answer with its own readings: whatever is typed, what comes back, marks, declarations, a class."""
import json
import math
from dataclasses import replace
from datetime import datetime

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from exercises_workbench import LESSON, pickup, spring, write_course
from invented_class import compare
from invented_class import play as play_class
from invented_student import unpack
from invented_work import EventSheet, Worker
from lessons_lib.course.folder import Course, bench_card
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.mark import mark
from lessons_lib.course.marking import Marker
from lessons_lib.course.pack import give_out
from lessons_lib.course.play import play
from lessons_lib.course.right_answers import self_study_page, worked_page
from lessons_lib.course.settings import Settings
from lessons_lib.exercises.declaration import Entry, Given, Limit
from lessons_lib.exercises.draws import draw, draw_lesson
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.models import HOMES, model
from lessons_lib.exercises.returns import NotRead, read_return, return_bytes
from lessons_lib.exercises.verdicts import State, Table
from test_returns import of_parts
from workbench_page import FLAT, KNOWN, READINGS, SELF, SHEET, STIFFNESS, open_page


@pytest.fixture
def sheet(tmp_path, monkeypatch):
    return open_page(tmp_path, monkeypatch)


# ---- whatever is typed -----------------------------------------------------------------------------------------------

class Strange:
    """Looks like a list, and is none."""

    def __len__(self):
        return 5

    def __getitem__(self, place):
        raise RuntimeError("no")


ODD = st.recursive(st.none() | st.booleans() | st.integers() | st.text(max_size=9) | st.floats() | st.just(...)
                   | st.builds(Strange) | st.builds(object),
                   lambda inner: st.lists(inner, max_size=6) | st.dictionaries(
                       st.sampled_from(["magnet", "wire", "turns", "tops", "load", "stretch", "x"]) | st.integers(),
                       inner,
                       max_size=4) | st.tuples(inner, inner), max_leaves=12)


@settings(max_examples=200, deadline=None, derandomize=True,
          suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(value=ODD, table=ODD, name=st.sampled_from(["magnet", "wire", "turns", "tops"]))
def test_nothing_that_is_typed_stops_a_page(sheet, value, table, name):
    allowed = (State.UNREADABLE, State.NOT_ANSWERED, State.NOT_YET, State.RIGHT)
    for verdict in (sheet.answer("8.5", value), sheet.answer("8.5", {**KNOWN, name: value}),
                    sheet.answer("8.1", 125, table=table, hook=value), sheet.answer("8.1", value, table=table),
                    sheet.parts_list("8.5", value)):
        assert isinstance(verdict, Table) or verdict.state in allowed and len(verdict.text) < 900
        assert verdict._repr_html_()


# ---- what comes back, and marks --------------------------------------------------------------------------------------

def an_event(exercise_id, number=1, **what):
    return {"id": f"{number:016x}", "number": number, "time": datetime(2030, 1, 1).astimezone().isoformat(),
            "event": "answer", "lesson": "08", "exercise": exercise_id, **what}


def read_again(*these):
    data, _ = return_bytes(bench="b017", code="7QK4MX", lesson="08", version=1, events=these)
    return [one for one in json.loads(data)["events"]]


DESIGN = an_event("8.5", value=KNOWN)
MEASURED = an_event("8.1", value=STIFFNESS, unit="N/m", readings=READINGS)


def test_a_return_holds_both():
    assert read_again(DESIGN, MEASURED) == [DESIGN, MEASURED]


@pytest.mark.parametrize("event", [
    {**DESIGN, "value": {}}, {**DESIGN, "value": {f"n{n}": 1 for n in range(13)}}, {**DESIGN, "value": {"a": {"b": 1}}},
    {**DESIGN, "value": {"a": [[1]]}}, {**DESIGN, "value": {"a": [1] * 13}}, {**DESIGN, "value": {"a": []}},
    {**DESIGN, "value": {"a": True}}, {**DESIGN, "value": {"a": "x" * 41}}, {**DESIGN, "value": {"x" * 41: 1}},
    {**DESIGN, "value": {"a": "\ud800"}}, {**DESIGN, "value": {"\ud800": 1}}, {**DESIGN, "value": {"a": [math.nan]}},
    {**MEASURED, "readings": {}}, {**MEASURED, "readings": [[1, 2]]}, {**MEASURED, "readings": {"table": []}},
    {**MEASURED, "readings": {"table": [[1, 2]] * 101}}, {**MEASURED, "readings": {"table": [[]]}},
    {**MEASURED, "readings": {"table": [[1] * 13]}}, {**MEASURED, "readings": {"table": [["x"]]}},
    {**MEASURED, "readings": {"table": [[[1]]]}}, {**MEASURED, "readings": {"table": "x"}},
    {**MEASURED, "readings": {"table": [[True]]}}, {**MEASURED, "readings": {"table": {"a": 1}}},
    {**MEASURED, "readings": None}])
def test_what_no_answer_holds_is_in_no_return(event):
    assert read_again(event) == []
    if "NaN" not in json.dumps(event):
        assert isinstance(read_return(of_parts(lesson="08", events=[event])), NotRead)


def marked(*these, **settings):
    marker = Marker(LESSON, SHEET, draw_lesson(LESSON, **SELF), Settings(**settings), {})
    return marker.outcomes(marker.history(these))


def test_a_design_earns_its_share_of_the_limits_computed_afresh():
    assert (marked(DESIGN)["8.5"].marks, marked(DESIGN)["8.5"].how) == (6, "right")
    more = marked(an_event("8.5", value={**KNOWN, "turns": round(1.2 * KNOWN["turns"])}))["8.5"]
    assert (more.marks, more.how) == (2, "33 % of the limits met") and "under the root" in more.note
    assert more.answer.startswith("magnet alnico")
    assert marked(an_event("8.5", value={**KNOWN, "turns": round(1.2 * KNOWN["turns"])}),
                  marks={"8.5": 1})["8.5"].marks == 0.3333


def test_once_right_right_and_hostile_values_do_no_harm():
    later = an_event("8.5", 2, value=FLAT)
    silly = [an_event("8.5", n, value=value) for n, value in enumerate(
        ({"magnet": "<b>", "wire": 44}, 5, "alnico 5", {**KNOWN, "tops": [9e9] * 6}), start=3)]
    assert marked(DESIGN, later, *silly)["8.5"].how == "right"
    assert marked(*silly)["8.5"].how == "not answered"


def test_readings_earn_their_marks_by_the_same_fit():
    assert (marked(MEASURED)["8.1"].marks, marked(MEASURED)["8.1"].how) == (3, "right")
    slip = {**MEASURED, "value": 5 / 43.8e-3}
    assert marked(slip)["8.1"].how == "slip: one reading" and marked(slip)["8.1"].marks == 0
    assert marked(slip, slip_marks={"8.1": {"one reading": 1}})["8.1"].marks == 1
    wrong = {**MEASURED, "value": 1.3 * STIFFNESS}
    assert marked(wrong)["8.1"].how == "not yet" and "Draw load over stretch" in marked(wrong)["8.1"].note
    assert "with 5 rows; hook 20 g" in marked(MEASURED)["8.1"].answer
    for readings in ({"table": [[1, 1]] * 5, "hook": 20}, {"hook": 20}, {**READINGS, "nail": 1}, {"table": 5}):
        assert marked({**MEASURED, "readings": readings})["8.1"].how == "not answered"
    assert marked({name: one for name, one in MEASURED.items() if name != "readings"})["8.1"].how == "not answered"


def test_a_course_may_widen_the_least_tolerance():
    wide = Settings(tolerances={"8.1": 0.2}).apply(LESSON)
    record = make_sheet(wide, **SELF)["exercises"]["8.1"]
    assert wide["8.1"].tolerance == record["tolerance"] == 0.2


def test_the_instructors_page_shows_a_design_and_the_example():
    page = self_study_page([LESSON], SELF["bench"]).decode()
    assert f"turns {KNOWN['turns']}" in page and page.count("met (") == 6
    assert "125.6 N/m" in page and "43.8" in page and "Bring springs" in page


# ---- declarations ----------------------------------------------------------------------------------------------------

def test_every_named_function_is_there():
    for name in HOMES:
        assert callable(model(name))
    with pytest.raises(ValueError, match="a computation that the library does not have: os.system"):
        model("os.system")


@pytest.mark.parametrize("make, words", [
    (lambda: replace(pickup, model="guess"), "model must be one of"),
    (lambda: replace(pickup, worked="{answer}"), "a field in a text of exercise 8.5"),
    (lambda: replace(pickup, known=lambda wood: {}), "an argument in a formula of exercise 8.5"),
    (lambda: replace(pickup, limits=(Limit(quantity="fill", label="fill", most="no", too_high="x"),)),
     "must be one of"),
    (lambda: Limit(quantity="fill", label="fill"), "least or most"),
    (lambda: Limit(quantity="fill", label="fill", most="most_fill"), "a text for each bound"),
    (lambda: Entry("no range"), "high must be above low"), (lambda: Entry("x", low=0, high=1, count=13), "count"),
    (lambda: replace(spring, fit="polyfit"), "fit must be one of"),
    (lambda: replace(spring, rows=(1, 500)), "rows must be"),
    (lambda: replace(spring, notes=("one",)), "three texts"), (lambda: replace(spring, size=(0, 5)), "size must be"),
    (lambda: replace(spring, sizes={"table": Entry("x", low=0, high=1)}), "names of their own"),
    (lambda: replace(spring, worked="{bench}"), "a field in a text of exercise 8.1")])
def test_a_wrong_declaration_is_told(make, words):
    with pytest.raises(ValueError, match=words):
        make()


def test_kept_limits_stay_when_the_model_answers_change():
    drawn = draw(pickup, **SELF)
    other = replace(pickup, hidden={**pickup.hidden, "turns": Given("turns", unit="1", low=7000, high=7000, step=1)})
    record = make_sheet(replace(LESSON, exercises=(other,)), **SELF, drawn={"8.5": replace(drawn, exercise=other)})
    assert record["exercises"]["8.5"]["limits"] == SHEET["exercises"]["8.5"]["limits"]


# ---- a class ---------------------------------------------------------------------------------------------------------

def test_each_of_thirty_benches_gets_what_is_due(tmp_path):
    answers, pages = write_course(tmp_path)
    course, due, totals = play_class(tmp_path, answers=answers, lesson="08", more_settings=f"notebooks = '{pages}'")
    done = mark(Course(course.folder))
    assert len(due) == 30 and list(compare(course, due, totals)) == []
    note = (course.folder / "marks" / "notes" / "b010.html").read_text(encoding="utf-8")
    assert "All 6 limits are met." in note and "with 5 rows; hook 20 g" in note
    assert not any("<script>" in path.read_text(encoding="utf-8") for path in (course.folder / "marks").rglob("*.html"))
    assert "One design that meets all limits" in worked_page(Course(course.folder), "b010").decode()
    assert done.waiting > 0
    report = (course.folder / "marks" / "class_report.html").read_text(encoding="utf-8")
    assert all(f"<td class=id>{exercise_id}</td>" in report for exercise_id in ("8.1", "8.5"))


def test_an_invented_class_works_with_both_kinds_and_a_bench_plays_them(tmp_path):
    answers, pages = write_course(tmp_path)
    settings = f"answers = '{answers}'\nnotebooks = '{pages}'\n"
    for bench in ("b010", "b011", "b012", "b013"):
        drawn = draw_lesson(LESSON, secret="invented", bench=bench)
        sheet = EventSheet(LESSON, bench, bench_card("invented", bench), drawn)
        Worker(LESSON, sheet, drawn, bench).whole()
        assert not isinstance(read_return(sheet.data()), NotRead)
    new_course(tmp_path / "course", 1)
    (tmp_path / "course" / "course.toml").write_text(settings, encoding="utf-8")
    course = Course(tmp_path / "course")
    assert [fault for fault in play(course, "b010") if "8.1" in fault or "8.5" in fault] == []


def test_no_pack_holds_the_known_design(tmp_path):
    answers, pages = write_course(tmp_path)
    new_course(tmp_path / "course", 3)
    (tmp_path / "course" / "course.toml").write_text(f"answers = '{answers}'\nnotebooks = '{pages}'\n",
                                                     encoding="utf-8")
    course = Course(tmp_path / "course")
    pack, _, left_out = give_out(course, ["08"])
    assert left_out == []
    notebooks = unpack(pack, tmp_path / "unpacked")
    for bench in course.students:
        text = (notebooks / "sheets" / "08" / f"{bench}.json").read_text(encoding="utf-8")
        record = json.loads(text)["exercises"]["8.5"]
        tops = draw(pickup, secret=course.secret, bench=bench).known_design["tops"]
        assert set(record) == {"kind", "salt", "given", "model", "parts", "entries", "limits"}
        assert json.dumps(tops) not in " ".join(text.split())
    library = "".join(path.read_text(encoding="utf-8") for path in notebooks.parent.rglob("*.py"))
    assert "physics/design.py" in str(list(notebooks.parent.rglob("design.py")))
    assert "Let two benches compare" not in library
