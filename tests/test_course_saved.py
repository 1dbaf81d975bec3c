"""Tables that a real spreadsheet saved, in two locales and with two separators: all are read alike.

How the files were made, by which program, says the README beside them.
"""
import shutil
from pathlib import Path

import pytest

from lessons_lib.course.earlier_marks import read_open_questions
from lessons_lib.course.received import read_extensions, received_times
from lessons_lib.course.with_names import write_named_notes
from saved_class import TABLES, TEXTS, SavedClass

SAVED = Path(__file__).parent / "saved_by_a_spreadsheet"
SETS = [f"{locale}/{separator}" for locale in ("en-US", "de-DE") for separator in ("comma", "semicolon")]


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    made = SavedClass(tmp_path_factory.mktemp("saved"))
    made.mark()
    return made.home


@pytest.fixture(params=SETS)
def saved(request, made, tmp_path):
    shutil.copytree(made, tmp_path, dirs_exist_ok=True)
    for name in TABLES:
        shutil.copy(SAVED / request.param / Path(name).name, tmp_path / "course" / name)
    return SavedClass(tmp_path, hands_in=False)


def test_every_cell_is_read_as_it_was_typed(saved):
    assert list(saved.course.students.values()) == [
        "Zoë Müller-Ångström", 'Łukasz "Luk" Ødegård; jun.', "René D'Été, 2nd"]
    assert [f"{time:%Y-%m-%d %H:%M}" for time in received_times(saved.course).values()] == [
        "2030-10-31 18:00", "2030-10-31 18:00", "2030-11-02 18:00"]
    assert read_extensions(saved.course) == {("b011", None): 1.5, ("b012", "01"): 1}
    comments = read_open_questions(saved.folder / "marks/open_questions.csv", "comment")
    assert [list(cells.values()) for cells in comments.values()] == [
        ["Good: see 1.4"], [""], ["Why? Say which soil, für wen"]]


def test_the_class_is_marked_alike(saved):
    """By hand: the deadline is the 30th at 18:00, 10 % a day; one day late, none (1.5 days more), three less one."""
    done = saved.mark()
    assert done.remarks == [] and done.waiting == 0
    rows = [[saved.rows[bench][name] for name in ("1.1", "1.5", "01 late %", "total")] for bench in TEXTS]
    assert rows == [["1.8", "2.25", "10", "4.05"], ["2", "0.5", "0", "2.5"], ["1.6", "2.4", "20", "4"]]
    assert "Why? Say which soil, für wen" in saved.text("notes/b012.html")
    before = [read_open_questions(saved.folder / "marks/open_questions.csv", name) for name in ("marks", "comment")]
    assert saved.mark().moved == [] and before == [
        read_open_questions(saved.folder / "marks/open_questions.csv", name) for name in ("marks", "comment")]


def test_the_names_come_to_the_pages(saved):
    saved.mark()
    write_named_notes(saved.course)
    assert sorted(path.name for path in (saved.folder / "with_names/notes").iterdir()) == [
        "René D_Été_ 2nd.html", "Zoë Müller-Ångström.html", "Łukasz _Luk_ Ødegård_ jun.html"]
