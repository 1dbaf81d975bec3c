"""The examination as a student has it: a silent sheet, a mock examination with its result, a paper."""
import json
import re

import pytest

from examination_plain import FORMS, NUMBERS, SECRET, every_form, plain
from handout_reader import Reader
from lessons_lib.__main__ import main
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.verdicts import State


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
def sheet(beside_answers):
    """Form A beside the model answers, for b000."""
    return beside_answers("95")


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
