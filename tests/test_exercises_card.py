"""Which sheet opens: the bench's card and its memory, a sheet that is missing, damaged or another bench's."""
import re

import pytest

import lessons_lib
from exercises_lesson import drawn, lay_sheet
from lessons_lib.exercises.bench import check_character
from lessons_lib.exercises.sheet_file import read_sheet
from lessons_lib.exercises.verdicts import State

CARD = "b017-7QK4M" + check_character("b017", "7QK4M")


def test_a_class_bench_has_no_worked_answers(desk):
    lessons_lib.use_card(CARD)
    sheet = lessons_lib.open_sheet("01")
    sheet.answer("1.4", "c")
    assert sheet.bench == "b017"
    assert str(sheet.worked_answer("1.4")) == "1.4: open. Your instructor has the worked answers for this bench."


def test_a_card_without_its_code_is_one_sentence(desk):
    assert str(lessons_lib.use_card("b010")).startswith("Cannot be read. Bench b010 needs its code: type the whole")


def everything(sheet):
    """Every verdict that a student can ask a sheet for."""
    return [sheet.answer("1.1", 3), sheet.answer("1.1"), sheet.predict("p1", "a", 1), sheet.saw("p1", "a"),
            sheet.unclear("1.1", "x"), sheet.worked_answer("1.1"), sheet.progress()]


def test_without_a_card_and_without_b000_there_is_no_bench_yet(desk):
    (desk / "sheets/01/b000.json").unlink()
    sheet = lessons_lib.open_sheet("01")
    assert {verdict.state for verdict in everything(sheet)} == {State.NO_BENCH}
    assert str(sheet.answer("1.1", 3)) == ("1.1: no bench yet. Type your card on the page 00_start_here, then run this "
                                           "again.")
    assert sheet.prediction("p1") is None and sheet.trouble.state == State.NO_BENCH
    assert lessons_lib.progress().rows == (("01", "no bench yet", ""),)
    assert not (desk / "my_work").exists()


@pytest.mark.parametrize("lesson", ["02", "1", 1, None, "../01", "٠١", "01\n", ["01"]])
def test_a_lesson_without_sheet_says_so(desk, lesson):
    sheet = lessons_lib.open_sheet(lesson)
    assert {verdict.state for verdict in everything(sheet)} == {State.NO_SHEET}
    assert len(sheet.trouble.text) < 200 and "Traceback" not in sheet.given("1.1")._repr_html_()


def test_in_another_folder_there_is_one_sentence(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert "in the folder it came in" in repr(lessons_lib.open_sheet("01"))
    assert "no sheets beside this notebook" in repr(lessons_lib.progress())


@pytest.mark.parametrize("damage", [
    lambda data: data[:-100], lambda data: b"", lambda data: b"[]", lambda data: b"\xff\xfe",
    lambda data: b"[" * 100_000,
    lambda data: re.sub(rb'"unit": "mm2"', b'"unit": "m2"', data),
    lambda data: data.replace(b'"format": 1', b'"format": 2'),
    lambda data: data.replace(b'"b000"', b'"b001"'),
])
def test_a_damaged_sheet_gives_one_sentence(desk, damage):
    path = desk / "sheets/01/b000.json"
    path.write_bytes(damage(path.read_bytes()))
    sheet = lessons_lib.open_sheet("01")
    assert {verdict.state for verdict in everything(sheet)} == {State.NO_SHEET}
    assert "is damaged" in sheet.trouble.text
    with pytest.raises(ValueError):
        read_sheet(path.read_bytes())


def test_a_whole_sheet_in_another_benchs_place_is_refused(desk):
    path = lay_sheet(desk, "b000")
    path.write_bytes((desk / "sheets/01/b017.json").read_bytes())
    assert "belongs to another bench" in repr(lessons_lib.open_sheet("01"))


def test_a_card_is_remembered_and_opens_its_own_sheet(desk):
    assert str(lessons_lib.use_card(f"  {CARD.lower()} ")) == "Kept. You are working at bench b017."
    sheet = lessons_lib.open_sheet("01")
    assert sheet.bench == "b017" and dict(sheet.given("1.1")) == drawn("1.1", "b017").shown
    assert str(lessons_lib.use_card("b003")) == (
        "Kept. You are now working at bench b003; the answers of b017 are kept. Run the cells with open_sheet again.")
    assert "no sheet of lesson 01 for b003" in repr(lessons_lib.open_sheet("01"))


@pytest.mark.parametrize("dash", [" - ", "- ", " – ", "—", " \t‑ ", "−"])
def test_blanks_and_long_dashes_in_a_card_are_read(desk, dash):
    assert str(lessons_lib.use_card(CARD.replace("-", dash).upper())) == "Kept. You are working at bench b017."
    assert (desk / "my_work/bench_card.txt").read_text() == f"{CARD}\n"


def test_a_damaged_memory_of_the_card_counts_as_none(desk):
    lessons_lib.use_card("b003")
    (desk / "my_work/bench_card.txt").write_bytes(b"\xffb0")
    assert lessons_lib.open_sheet("01").bench == "b000"


@pytest.mark.parametrize("typed", [
    "", "b17", "b017", "b999", "017-7QK4MX", "b017-7QK4M", "b017-7QK4M0", "b017-7QK4MXX", "b017 7QK4MX", "b٠١٧", None,
    3, "b017-" + "\ud800" * 6, "x" * 10_000, "b071" + CARD[4:], CARD[:5] + CARD[6] + CARD[5] + CARD[7:]])
def test_what_is_no_card_is_said_and_not_kept(desk, typed):
    verdict = lessons_lib.use_card(typed)
    assert verdict.state == State.UNREADABLE and len(verdict.text) < 200
    assert not (desk / "my_work").exists()


def test_every_single_wrong_character_of_a_card_shows():
    bench, code = CARD.split("-")
    for place in range(5):
        for other in set("23456789ABCDEFGHJKLMNPQRSTUVWXYZ") - {code[place]}:
            assert check_character(bench, code[:place] + other + code[place + 1:5]) != code[5]


def test_the_work_folder_can_be_elsewhere(desk, tmp_path, monkeypatch):
    monkeypatch.setenv("LESSONS_WORK_FOLDER", str(tmp_path / "elsewhere"))
    lessons_lib.use_card("b000")
    lessons_lib.open_sheet("01").answer("1.1", 5)
    assert sorted(path.name for path in (tmp_path / "elsewhere").iterdir()) == ["bench_card.txt", "log-b000.jsonl"]
    assert not (desk / "my_work").exists()


def test_three_dots_say_at_which_bench_one_works(desk, tmp_path, monkeypatch):
    assert str(lessons_lib.use_card("...")) == (
        "No bench yet. Type your card in place of the three dots, between the quotation marks.")
    (tmp_path / "on_my_own").mkdir()
    monkeypatch.chdir(tmp_path / "on_my_own")      # no sheets: numbers come from the answers beside the pages
    assert str(lessons_lib.use_card("...")).startswith("Open. You are working at bench b000, for self-study.")
