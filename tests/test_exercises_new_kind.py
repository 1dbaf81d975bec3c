"""A kind that the library does not know works once its record is in the table of kinds: what the guide promises.

A number and a letter are asked together, half of the marks for each; no place in the library asks for it by its name.
"""
import json
import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
import pytest

import lessons_lib
from exercises_lesson import lay_answers, lay_sheet
from lessons_lib.base.units import shown_unit
from lessons_lib.course.clean_page import asked_of, clean_page
from lessons_lib.course.play import play
from lessons_lib.course.ready import page_faults
from lessons_lib.course.right_answers import self_study_page, worked_page, write_key
from lessons_lib.exercises import reading
from lessons_lib.exercises.declaration import Given, Lesson, NumberExercise, Slip, Twin
from lessons_lib.exercises.draws import draw
from lessons_lib.exercises.kinds import KINDS, read_records
from lessons_lib.exercises.kinds.number import NumberRecord
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.paper import Boxes, Entries, Right, Working
from lessons_lib.exercises.review import review
from lessons_lib.exercises.sealing import letter_says, sealed_letters
from lessons_lib.exercises.sheet_file import read_sheet, sheet_bytes
from lessons_lib.exercises.verdicts import State
from lessons_lib.handouts.page import Handout
from small_class import SmallClass

_NAMES = "number", "letter"


@dataclass(frozen=True, kw_only=True)
class NumberLetterExercise(NumberExercise):
    options: Mapping
    right: str
    letter_notes: Mapping
    kind = "number and letter"

    def sheet_fields(self, drawn, salt):
        return {**super().sheet_fields(drawn, salt),
                "letters": {"options": dict(self.options),
                            **sealed_letters(self.id, salt, self.right, self.letter_notes)}}

    def model_answer(self, drawn=None):
        number, unit, _ = super().model_answer(drawn)
        return {"number": number, "letter": self.right}, unit, {}

    def right_on_paper(self, drawn=None):
        return *super().right_on_paper(drawn), Right(f"({self.right})", after=f" {self.options[self.right]}")

    def key_value(self, drawn):
        return f"{super().key_value(drawn)} ({self.right})"

    def typed(self, judged):
        return reading.into(judged.entry["value"]["number"], judged.entry["unit"], self.unit)

    def slips_by_try(self, drawn):
        return {f"{one} {letter}": names for one, names in super().slips_by_try(drawn).items()
                for letter in self.options}

    def slip_words(self, judged, names):
        letter = judged.entry["value"]["letter"]
        if names or letter == self.right:
            return super().slip_words(judged, names)
        return f"({letter}) {self.options[letter]}", self.letter_notes[letter]


class NumberLetterRecord(NumberRecord):
    """The record side: a number looked up and a letter looked up, half of the marks for each."""

    kind = "number and letter"
    blank = '{"number": ..., "letter": "..."}'

    def judge(self, value, unit=None, readings=None):
        if not isinstance(value, Mapping) or set(value) != set(_NAMES):
            raise ValueError('a number and a letter are needed, as {"number": 1.5, "letter": "a"}')
        letter = reading.read_letter(value["letter"], self["letters"]["options"])
        of_number = super().judge(value["number"], unit)
        right, note = letter_says({**self["letters"], "id": self["id"], "salt": self["salt"]}, letter)
        is_right = right, of_number.state == State.RIGHT
        return replace(
            of_number, state=State.RIGHT if all(is_right) else State.NOT_YET if any(is_right) else of_number.state,
            text=f"The number: {of_number.text or 'not yet.'} The letter: {note}",
            try_name=f"{of_number.try_name} {letter}", share=sum(is_right) / 2,
            how="" if sum(is_right) != 1 else "the letter is right" if right else "the number is right",
            entry={**of_number.entry, "value": {"number": of_number.entry["value"], "letter": letter}})

    def place(self):
        return Working(), Entries((Boxes("number", shown_unit(self["unit"]), 1),
                                   Boxes("letter", ", ".join(self["letters"]["options"]), 1)))

    def shown(self, entry):
        return f"{super().shown({**entry, 'value': entry['value']['number']})} and ({entry['value']['letter']})"


lamp = NumberLetterExercise(
    id="1.9", unit="V", tolerance=0.02, size=(4, 60), marks=2,
    given={"current": Given("current", unit="mA", low=20, high=40, step=1),
           "resistance": Given("resistance", unit="ohm", low=300, high=900, step=10)},
    answer=lambda current, resistance: current * resistance,
    slips=(Slip("quarter", lambda current, resistance: current * resistance / 4,
                "Where does the four come from?"),),
    notes=("Which law joins the three?", "Voltage is current times resistance."),
    twin=Twin({"current": 10, "resistance": 100}, "{current} through {resistance}: {answer}."),
    worked="{current} times {resistance} is {answer}; the lamp goes out.",
    options={"a": "it is brighter", "b": "it goes out"}, right="b",
    letter_notes={"a": "What is left for the lamp?", "b": "It goes out, as nothing is left for the lamp."})

LESSON = Lesson(id="01", title="The lamp", version=1, exercises=(lamp,))
SHEET = make_sheet(LESSON, secret="test", bench="b000")
ANSWERS = "from test_exercises_new_kind import LESSON\n"
RIGHT = draw(lamp, secret="test", bench="b000").answer


@pytest.fixture(autouse=True, scope="module")
def in_the_table():
    with pytest.MonkeyPatch.context() as patch:
        patch.setitem(KINDS, NumberLetterRecord.kind, NumberLetterRecord)
        yield


@pytest.fixture
def sheet(desk):
    lay_sheet(desk, "b000", SHEET)
    lay_answers(desk, "test_exercises_new_kind")
    return lessons_lib.open_sheet("01")


def test_the_declaration_has_no_faults_and_the_sheet_does_not_say_what_is_right():
    assert list(review(lamp)) == []
    data = sheet_bytes(SHEET)
    record = read_sheet(data)["exercises"]["1.9"]
    assert f"{RIGHT:.4g}" not in data.decode() and record["letters"]["right"] not in ("a", "b")


@pytest.mark.parametrize("number, letter, state, words", [
    (RIGHT, "b", State.RIGHT, "It goes out"), (RIGHT, "a", State.NOT_YET, "What is left for the lamp?"),
    (1.3 * RIGHT, "(B)", State.NOT_YET, "Which law"), (RIGHT / 4, "b", State.NOT_YET, "the four"),
    (1.3 * RIGHT, "a", State.NOT_YET, "Which law"), (1e9, "a", State.FAR, "units first"),
    (1e9, "b", State.NOT_YET, "units first")])
def test_right_and_wrong_by_halves(sheet, number, letter, state, words):
    verdict = sheet.answer("1.9", {"number": number, "letter": letter}, "V")
    assert verdict.state == state and words in verdict.text
    assert sheet.answer("1.9", ...).text.startswith("Kept from before: ")


def test_other_units_are_read(sheet):
    assert sheet.answer("1.9", {"number": 1e3 * RIGHT, "letter": "b"}, "mV").state == State.RIGHT
    assert sheet.answer("1.9", {"letter": "b", "number": f"{RIGHT:.4f}"}).state == State.RIGHT


@pytest.mark.parametrize("value", [
    12.5, "b", "12.5 V and (b)", [12.5, "b"], (12.5, "b"), {"number": 12.5}, {"letter": "b"}, {1: 2}, {},
    {"number": 12.5, "letter": "b", "more": 1}, {"number": "big", "letter": "b"}, {"number": 12.5, "letter": "z"},
    {"number": math.nan, "letter": "b"}, {"number": True, "letter": "b"}, {"number": 12.5, "letter": 2},
    {"number": {"number": 1}, "letter": "b"}, {"number": np.arange(3), "letter": "b"}, np.arange(3), object(), len,
    {"number": 10 ** 400, "letter": "b"}, {"number": "1,5", "letter": "b"}, {"number": 1j, "letter": []},
    {"number": 12.5, "letter": {"b": "b"}}, {"number": 12.5, "letter": "\ud800"}])
def test_a_silly_answer_gets_one_sentence_and_is_not_kept(sheet, value):
    verdict = sheet.answer("1.9", value, "V")
    assert verdict.state == State.UNREADABLE and verdict.text.count("\n") == 0
    assert sheet.answer("1.9", ...).state == State.NOT_ANSWERED


@pytest.mark.parametrize("value", [..., None, {"number": ..., "letter": "..."},
                                   {"number": 12.5, "letter": "..."}, {"number": ..., "letter": "b"}])
def test_an_answer_with_a_gap_is_still_empty(sheet, value):
    assert sheet.answer("1.9", value, "V").state == State.NOT_ANSWERED


def test_a_wrong_unit_gets_a_sentence(sheet):
    assert "measures" in sheet.answer("1.9", {"number": 12.5, "letter": "b"}, "mm").text


def test_the_worked_answer_opens_after_three_tries(sheet):
    for number in (1.3, 1.5, 1.7):
        verdict = sheet.answer("1.9", {"number": number * RIGHT, "letter": "b"}, "V")
    assert "worked answer is open now" in verdict.text and "goes out" in sheet.worked_answer("1.9").text


@pytest.fixture(scope="module")
def small(in_the_table, tmp_path_factory):
    """Three benches: all right, the number alone, the letter alone with a slip."""
    small = SmallClass(tmp_path_factory.mktemp("lamp"), ANSWERS)
    for bench, factor, letter in (("b010", 1, "b"), ("b011", 1, "a"), ("b012", 0.25, "b")):
        student = small.student(bench)
        if (factor, letter) == (1, "b"):
            student.all_right()
        else:
            number = float(f"{factor * student.drawn(lamp).answer:.5g}")
            student.type("1.9", {"number": number, "letter": letter}, "V")
        small.give_back(student)
    small.mark()
    return small


def test_a_return_read_again_earns_half_for_each_half(small):
    assert {bench: row["1.9"] for bench, row in small.rows.items()} == {"b010": "2", "b011": "1", "b012": "1"}


def test_play_finds_nothing_wrong(small):
    assert play(small.course, next(iter(small.course.students))) == []


def test_the_notes_and_the_report(small):
    notes = "".join(path.read_text() for path in (small.folder / "marks").rglob("*.html"))
    assert "The number is right" in notes and "The letter is right" in notes and "and (b)" in notes
    report = small.text("class_report.html")
    assert "1.9" in report and "(a) it is brighter" in report and "quarter" in report


def test_key_and_worked_page(small):
    bench = next(iter(small.course.students))
    key = write_key(small.course, bench, "01")[0].read_text(encoding="utf-8")
    worked = worked_page(small.course, bench).decode()
    right = f"{small.student(bench).drawn(small.course.lessons['01']['1.9']).answer:.4g}"
    assert f"<td>{right} (b)</td>" in key
    assert right in worked and "<strong>(b)</strong> it goes out" in worked and "quarter" in worked
    assert "(b)" in self_study_page([LESSON], "b000").decode()


def page(answer):
    cell = {"cell_type": "code", "source": f'sheet.answer("1.9", {answer}, "V")', "outputs": [], "metadata": {}}
    question = {"cell_type": "markdown", "source": "### Exercise 1.9\nHow much?\n\n- (a) it is brighter\n- (b) it goes "
                                                   "out", "metadata": {}}
    return {"cells": [question, cell], "metadata": {}}


def test_a_page_is_made_clean_and_its_handout_has_room():
    empty = '{"number": ..., "letter": "..."}'
    clean, found = clean_page(page('{"number": 12.5, "letter": "b"}'), asked_of(LESSON.exercises))
    assert "".join(clean["cells"][1]["source"]) == f'sheet.answer("1.9", {empty}, "V")' and found == [("answer", "1.9")]
    assert clean_page(page(empty), asked_of(LESSON.exercises))[1] == []
    handout = Handout(page(empty), name="01_lamp.ipynb", content=SHEET, figures={}).page().decode()
    place = handout.partition('data-exercise="1.9"')[2]
    assert "Working" in place and place.count('class="box"') == 2 and "<td>a, b</td>" in place


def test_what_is_kept_is_plain():
    record = read_records(SHEET)["1.9"]
    judged = record.judge({"number": np.float32(12.5), "letter": "(B) "}, " V ")
    assert json.loads(json.dumps(judged.entry)) == {"value": {"number": 12.5, "letter": "b"}, "unit": "V"}
    assert record.judge(**judged.entry).entry == judged.entry and record.shown(judged.entry) == "12.5 V and (b)"


def test_options_that_the_page_lacks_are_found(small, tmp_path):
    path = tmp_path / "01_lamp.ipynb"
    for words, found in (("it goes out", False), ("it glows", True)):
        text = json.dumps(page('{"number": ..., "letter": "..."}')).replace("it goes out", words)
        path.write_text(text, encoding="utf-8")
        assert any("option (b) of 1.9" in fault for fault in page_faults(small.course, LESSON, path)) == found


def test_the_better_of_half_and_a_slips_marks_counts(small):
    marks = {}
    for most in (0.5, 1.5):
        small.settings(f"[slip_marks]\n\"1.9\" = {{\"quarter\" = {most}}}\n")
        small.mark()
        marks[most] = small.rows["b012"]["1.9"]
    assert marks == {0.5: "1", 1.5: "1.5"}
