"""An answer with its own readings: the fit to them, slips, tables that cannot be used."""
import math
from dataclasses import replace

import numpy as np
import pytest

import lessons_lib
from exercises_workbench import EXAMPLE, coil, magnet, spring
from lessons_lib.base.units import read_unit
from lessons_lib.base.workshop import house_magnet
from lessons_lib.exercises.declaration import Entry
from lessons_lib.exercises.models import model
from lessons_lib.exercises.review import review
from lessons_lib.exercises.verdicts import State
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.workbench.readings import GAUSS_AGAINST_DISTANCE, RESONANCE_WITH_CAPACITORS, read_readings
from workbench_page import KNOWN, READINGS, STIFFNESS, events, open_page


@pytest.fixture
def sheet(tmp_path, monkeypatch):
    return open_page(tmp_path, monkeypatch)


# ---- an answer with its own readings ---------------------------------------------------------------------------------

def test_the_fit_to_the_students_readings_is_right(sheet, tmp_path):
    verdict = sheet.answer("8.1", f"{STIFFNESS:.4g}", "N/m", **READINGS)
    assert verdict.state == State.RIGHT and verdict.text.startswith("Within 2 % of the fit to your readings, ±2.5 N/m.")
    (event,) = events(tmp_path)
    assert event["readings"] == READINGS and event["unit"] == "N/m"
    again = lessons_lib.open_sheet("08").answer("8.1", ...)
    assert again.state == State.RIGHT and "125.6 N/m with 5 rows; hook 20 g" in again.text


def scattered(size):
    return [[load, round(stretch + size * (-1) ** place, 2)] for place, (load, stretch) in enumerate(EXAMPLE["table"])]


def test_the_tolerance_is_the_fits_own_interval_where_that_is_wider(sheet):
    table = scattered(0.8)
    load, stretch = np.array(table).T
    slope, start = np.polyfit(stretch / 1e3, load, 1)
    rest = load - slope * stretch / 1e3 - start
    half = 1.96 * math.sqrt(rest @ rest / 3 / np.sum((stretch / 1e3 - stretch.mean() / 1e3) ** 2))
    assert 0.05 < half / slope < 0.2
    for edge in (0.999, -0.999):
        verdict = sheet.answer("8.1", slope + edge * half, table=table, hook=20)
        assert verdict.state == State.RIGHT and "95 % interval" in verdict.text
    for edge in (1.001, -1.001):
        assert sheet.answer("8.1", slope + edge * half, table=table, hook=20).state == State.NOT_YET


def test_slips_are_told_on_the_students_own_readings(sheet):
    assert "One reading" in sheet.answer("8.1", 5 / 43.8e-3, **READINGS).text
    assert "factor of 2" in sheet.answer("8.1", STIFFNESS / 2, **READINGS).text
    other = {"table": [[2 * load, stretch] for load, stretch in EXAMPLE["table"]], "hook": 0}
    assert "One reading" in sheet.answer("8.1", 10 / 43.8e-3, **other).text


def test_unmatched_numbers_open_the_general_notes_then_the_worked_answer(sheet):
    said = [sheet.answer("8.1", share * STIFFNESS, **READINGS).text for share in (1.3, 1.4, 1.6)]
    assert all(note in text for note, text in zip(spring.notes, said))
    assert sheet.worked_answer("8.1").text == "The 5 invented readings lead to 125.6 N/m, ±2.5 N/m."


@pytest.mark.parametrize("readings, words", [
    ({}, "your readings must go with the answer: table=..."), ({"hook": 20}, "your readings must go"),
    ({"table": 5, "hook": 20}, "a table is needed: a list of rows"),
    ({"table": "1 2", "hook": 20}, "a table is needed"),
    ({"table": [], "hook": 20}, "the table must have from 4 to 12 rows; got 0"),
    ({"table": EXAMPLE["table"][:3], "hook": 20}, "rows; got 3"),
    ({"table": [[1, 2]] * 100_000, "hook": 20}, "rows; got 100000"),
    ({"table": [[1, 2, 3]] * 5, "hook": 20}, "row 1 of the table must have 2 numbers: load and stretch"),
    ({"table": [1, 2, 3, 4], "hook": 20}, "row 1 of the table"),
    ({"table": ["ab"] * 4, "hook": 20}, "row 1 of the table"),
    ({"table": [[1, "2,5"]] * 4, "hook": 20}, "row 1, stretch: the comma could mean two things; write 2.5"),
    ({"table": [[1, math.nan]] * 4, "hook": 20}, "row 1, stretch: the number is not finite"),
    ({"table": [[1, 20], [2, 30], [3, -4], [4, 5]], "hook": 20}, "row 3, stretch must be a number from 0 to 500 mm"),
    ({"table": {"load": [1, 2, 3, 4]}, "hook": 20}, "the table's columns must be load and stretch"),
    ({"table": {"load": [1, 2, 3, 4], "stretch": [1, 2]}, "hook": 20}, "lists of the same length"),
    ({"table": {"load": 1, "stretch": 2}, "hook": 20}, "lists of the same length"),
    ({"table": EXAMPLE["table"]}, "hook is missing; give hook"), ({**READINGS, "nail": 3}, '"nail" is not asked'),
    ({"table": EXAMPLE["table"], "hook": "heavy"}, "hook: a number is needed"),
    ({"table": EXAMPLE["table"], "hook": 1e6}, "hook must be a number from 0 to 500 g"),
    ({"table": [[load, 12.0] for load in (1, 2, 3, 4)], "hook": 20}, "stretch must be of two different sizes"),
    ({"table": [[load, stretch / 1e3] for load, stretch in EXAMPLE["table"]], "hook": 20},
     "check the units of its columns: load in N, stretch in mm"),
    ({"table": scattered(4), "hook": 20}, "leave the result uncertain by ±")])
def test_a_table_that_cannot_be_used_says_why(sheet, tmp_path, readings, words):
    verdict = sheet.answer("8.1", 125.0, "N/m", **readings)
    assert verdict.state == State.UNREADABLE and words in verdict.text[0].lower() + verdict.text[1:]
    assert len(verdict.text) < 260 and not events(tmp_path)


@pytest.mark.parametrize("table", [
    tuple(map(tuple, EXAMPLE["table"])), np.array(EXAMPLE["table"]),
    {"stretch": np.array(EXAMPLE["table"])[:, 1], "load": [1, 2, 3, 4, 5]}, [["1.0", "12.1"], *EXAMPLE["table"][1:]]])
def test_a_table_may_be_written_in_many_ways(sheet, tmp_path, table):
    assert sheet.answer("8.1", STIFFNESS, table=table, hook=20).state == State.RIGHT
    assert events(tmp_path)[0]["readings"] == READINGS


def test_readings_go_only_where_they_are_asked(sheet):
    assert "takes no readings" in sheet.answer("8.5", KNOWN, table=EXAMPLE["table"]).text
    assert "takes no readings" in sheet.answer("8.9", "a text", hook=20).text


def test_the_review_finds_an_example_that_leads_nowhere_and_a_slip_that_is_right():
    assert list(review(spring)) == []
    (fault,) = review(replace(spring, example={**EXAMPLE, "table": EXAMPLE["table"][:2]}))
    assert "with the example, the table cannot be used" in fault
    through_zero = {"table": [[load, 8.0 * load] for load in (1, 2, 3, 4.0)], "hook": 0}
    (fault,) = review(replace(spring, example=through_zero))
    assert "slip one reading, 125 with the example, is not told" in fault


# ---- with the library's own fits -------------------------------------------------------------------------------------

@pytest.mark.parametrize("exercise", [coil, magnet], ids=["coil", "magnet"])
def test_the_librarys_fits_serve(sheet, exercise):
    assert list(review(exercise)) == []
    right = exercise.example_result().right
    verdict = sheet.answer(exercise.id, f"{right:.3g}", exercise.unit, **exercise.example)
    assert verdict.state == State.RIGHT and "of the fit to your readings" in verdict.text
    for slip in exercise.slips:
        number = model(slip.function)(**exercise.example_result().inputs) / read_unit(exercise.unit).factor
        assert slip.note in sheet.answer(exercise.id, number, exercise.unit, **exercise.example).text
    assert sheet.answer(exercise.id, right, exercise.unit, table=[[1, 1]] * 5).state == State.UNREADABLE


def test_readings_of_a_file_go_with_an_answer_as_they_are(sheet, tmp_path):
    rows = "".join(f"{added},{1e3 * resonance}\n" for added, resonance in coil.example["table"])
    readings = read_readings(f"added capacitance (pF),resonance (Hz)\n{rows}".encode(),
                             columns=RESONANCE_WITH_CAPACITORS)
    assert sheet.answer("8.2", 2.2, "H", table=readings).state == State.RIGHT
    assert events(tmp_path)[0]["readings"] == coil.example
    other = read_readings(b"distance (mm),flux density (mT)\n1,100\n2,60\n", columns=GAUSS_AGAINST_DISTANCE)
    assert "the readings have no column added capacitance" in sheet.answer("8.2", 2.2, "H", table=other).text


def test_what_went_into_the_invented_readings_comes_out():
    # three figures of a reading: 0.3 % at most
    assert coil.example_result().right == pytest.approx(2.2, rel=0.01)
    assert magnet.example_result().right == pytest.approx(1e6 * RodMagnet(**house_magnet).midplane_flux(), rel=0.01)


def test_a_size_may_be_a_word_and_a_column_may_not():
    word = Entry("kind", options=("hard", "soft"))
    with_kind = replace(magnet, sizes={**magnet.sizes, "grade": word})
    assert with_kind.sizes["grade"].options == ("hard", "soft")
    for wrong in ({"columns": {**magnet.columns, "distance": word}}, {"sizes": {"tops": replace(word, options=(),
                                                                                                high=1.0, count=2)}}):
        with pytest.raises(ValueError, match="columns and sizes must be single entries"):
            replace(magnet, **wrong)


def test_factors_on_the_fit_are_told(sheet):
    right = coil.example_result().right
    assert "4π²" in sheet.answer("8.2", 39.478 * right, "H", **coil.example).text
    tesla = [[distance, reading / 1e4] for distance, reading in magnet.example["table"]]
    said = sheet.answer("8.3", 12.4, "uWb", **{**magnet.example, "table": tesla}).text
    assert "check the units of its columns: distance in mm, flux_density in G" in said
