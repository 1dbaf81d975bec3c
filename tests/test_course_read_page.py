"""One reader of pages: what each cell is, one by one on invented cells, and that nothing of a lesson gets lost."""
import re
from types import SimpleNamespace

import pytest

from lessons_lib.course import read_page as cells
from lessons_lib.course.class_report import questions_of
from lessons_lib.course.read_page import SOUND, WORKED, read_page
from lessons_lib.exercises.self_study import load_lessons
from notebooks import FOLD, LIVE, NOTEBOOKS, lessons, read


def text(source):
    return {"cell_type": "markdown", "source": source}


def code(source, *outputs, tags=()):
    return {"cell_type": "code", "source": source, "outputs": list(outputs), "metadata": {"tags": list(tags)}}


def only(*written):
    """The one thing that is read off a page's first cell."""
    return next(iter(read_page({"cells": list(written)})))


@pytest.mark.parametrize("cell, kind, more", [
    (text("Look at the rod."), cells.Prose, {}),
    (text("### Exercise 1.1\n\nHow long?"), cells.Question, {"exercise_id": "1.1", "text": "\n\nHow long?"}),
    (text("### Exercise 1.1  \nHow long?"), cells.Question, {"exercise_id": "1.1"}),
    (text("**m2.** How many?\n\n- (a) two"), cells.Question, {"exercise_id": "m2", "text": " How many?\n\n- (a) two"}),
    (text("**What it means.** See Exercise 1.1."), cells.Prose, {}),
    (text('<details class="x"><summary>Open it</summary>\n\nTwice $f$.\n\n</details>\n\nGo on.'), cells.Folded,
     {"source": "\n\nTwice $f$.\n\n"}),
    (code("panels.rod(sheet)", tags=[LIVE]), cells.PanelCell, {"name": "rod", "of_a_bench": True}),
    (code('data = 3\npanels.rod(sheet, data, "x")', tags=[LIVE]), cells.PanelCell, {"name": "rod"}),
    (code("panels.rod().still(height=4e-3)"), cells.StillPanel, {"name": "rod", "of_a_bench": False}),
    (code("panels.hear()", tags=[LIVE, SOUND]), cells.Sound, {"of_a_bench": False}),
    (code("from x import panels\npanels.opening()", tags=[LIVE]), cells.Opening, {"sounds": False}),
    (code("panels.opening([1, 2])", tags=[LIVE, SOUND]), cells.Opening, {"sounds": True}),
    (code('sheet.given("1.1")\n'), cells.GivenCell, {"exercise_id": "1.1"}),
    (code('sheet.answer("1.1", ..., "mm")'), cells.Ask, {"exercise_id": "1.1", "empty": "..."}),
    (code('sheet.answer("m1", "...")'), cells.Ask, {"exercise_id": "m1", "empty": '"..."'}),
    (code('sheet.answer("1.7", """\n\n""")'), cells.Ask, {"exercise_id": "1.7", "empty": '"""\n\n"""'}),
    (code('x = 2\nsheet.answer("1.8", {"wire": ...})'), cells.Ask, {"exercise_id": "1.8", "empty": '{"wire": ...}'}),
    (code('values = sheet.given("1.1")\nsheet.answer("1.1", round(5.0, 1), "mm")  # ...', tags=[WORKED]),
     cells.WorkedOut, {"exercise_id": "1.1"}),
    (code('sheet.answer("1.1", round(5.0, 1), "mm")  # ...'), cells.TypedIn, {"exercise_id": "1.1", "empty": ""}),
    (code('sheet.answer("1.7", "It is ... so.")'), cells.TypedIn, {"exercise_id": "1.7"}),
    (code('sheet.answer("1.1", 5 mm)'), cells.TypedIn, {"exercise_id": "1.1"}),
    (code('sheet.answer("1.8", {"wire": 44, "turns": ...})'), cells.TypedIn, {"exercise_id": "1.8"}),
    (code('# sheet.unclear("1.1", "why?")'), cells.Unclear, {"of_a_bench": True}),
    (code("from lessons_lib import open_sheet"), cells.Machinery, {"of_a_bench": True}),
    (code("sheet.progress()"), cells.Machinery, {}), (code('use_card("...")'), cells.Machinery, {}),
    (code('# sheet.answer("1.1", ...)'), cells.Machinery, {}),
    (code("print(sheets_of_paper)"), cells.Listing, {"of_a_bench": False})])
def test_what_a_cell_is(cell, kind, more):
    found = only(cell)
    assert type(found) is kind and found.place == 0
    assert {name: getattr(found, name) for name in more} == more


def test_a_text_with_several_questions_comes_in_pieces():
    first, *pieces = read_page({"cells": [text("Warm up.\n\n**m1.** One?\n\n**m2.** Two?\n"), code("print(1)")]})[:-1]
    assert type(first) is cells.Prose and first.source == "Warm up.\n\n"
    assert [(piece.exercise_id, piece.text, piece.place) for piece in pieces] == [
        ("m1", " One?\n\n", 0), ("m2", " Two?\n", 0)]


def test_what_only_tells_how_to_hand_in_is_known_by_what_follows():
    send = code("sheet.return_work()")
    assert type(only(text("Run this to hand in."), send)) is cells.HowToHandIn
    assert type(only(text("## What we found\n\nMuch."), send)) is cells.Prose
    assert type(only(text("Run this to hand in."))) is cells.Prose


def test_results_are_the_plain_texts_that_a_cell_gave():
    result = {"output_type": "execute_result", "data": {"text/plain": ["1.1: ", "right."], "text/html": "<b>"}}
    shown = {"output_type": "display_data", "data": {"text/plain": "a picture"}}
    assert only(code("sheet.progress()", shown, result, {"output_type": "stream", "text": "x"})).results == [
        "1.1: right."]


@pytest.mark.parametrize("path", lessons(), ids=lambda path: path.stem)
def test_no_word_and_no_cell_of_a_lesson_is_lost(path):
    notebook = read(path)
    found = read_page(notebook)
    for place, cell in enumerate(notebook.cells):
        pieces = [piece for piece in found if piece.place == place]
        assert "".join(piece.source for piece in pieces) == re.sub(f"{FOLD}|</details>", "", cell.source)
        assert all(isinstance(piece, cells.Code) == (cell.cell_type == "code") for piece in pieces)
    assert [piece.place for piece in found] == sorted(piece.place for piece in found)


@pytest.mark.parametrize("broken", [
    b"", b"{}", b"[1]", b'{"cells": 5}', b'{"cells": [5]}', b'{"cells": [{"cell_type": "markdown", "source": 1}]}',
    b'{"cells": [{"cell_type": "code", "source": "", "metadata": []}]}', b"\xff"])
def test_a_broken_page_costs_its_questions_and_nothing_else(broken, tmp_path):
    lesson = load_lessons(NOTEBOOKS.parent / "answers")[0]
    (tmp_path / "00_broken.ipynb").write_bytes(broken)
    found = questions_of(SimpleNamespace(settings=SimpleNamespace(notebooks=tmp_path)), lesson)
    assert list(found) == [exercise.id for exercise in lesson.exercises if exercise.kind == "prediction"]
