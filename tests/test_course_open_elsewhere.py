"""A table that is open in a spreadsheet, as Windows has it: it can be neither replaced nor read; one sentence says so.

There a program that has a file open keeps others from replacing it, some from reading it, too; here both are played.
"""
import os
from pathlib import Path

import pytest

from desk_buttons import press, said
from lessons_lib.__main__ import main
from lessons_lib.desk import instructor_desk
from one_sentence import one_sentence
from small_class import write_open_questions


def keep_open(monkeypatch, name, reading=False):
    """Have every file called *name* be open elsewhere until the monkeypatch is undone."""
    replace, read_bytes = os.replace, Path.read_bytes

    def replacing(source, target):
        if Path(target).name == name:
            raise PermissionError(13, "Permission denied", str(source), None, str(target))
        replace(source, target)

    def read(path):
        if path.name == name:
            raise PermissionError(13, "Permission denied", str(path))
        return read_bytes(path)

    monkeypatch.setattr(os, "replace", replacing)
    if reading:
        monkeypatch.setattr(Path, "read_bytes", read)


def said_of(path):
    return f"{path} cannot be written or read. Is it open in another program? Close it there and run this again.\n"


@pytest.mark.parametrize("command, below", [
    ("give-out", "cards.csv"), ("give-out", "cards.html"), ("mark", "marks/marks.csv"),
    ("mark", "marks/open_questions.csv"), ("mark", "marks/class_report.html"), ("mark", "marks/notes/b010.html"),
    ("mark", "marks/history.jsonl"), ("received", "received.csv"), ("marks-table", "with_names/marks.csv"),
    ("notes-by-name", "with_names/letters.csv"), ("key", "key.html"), ("evenings", "evenings.html"),
    ("worked-answers --bench b010", "worked/b010.html"), ("oneroster", "with_names/oneroster/results.csv")])
def test_one_sentence_says_to_close_it_and_then_all_is_well(essays, command, below, monkeypatch, capsys):
    name, *more = command.split()
    words, path = [name, str(essays.folder), *more], essays.folder / below
    with monkeypatch.context() as patch:
        keep_open(patch, path.name)
        assert one_sentence(words, capsys) == said_of(path)
        if name != "mark":      # there the next run moves all that was written beside
            assert not list(essays.folder.rglob("*.new"))
    assert main(words) == 0
    assert path.exists() and not list(essays.folder.rglob("*.new"))


def test_marks_that_were_typed_are_not_lost(essays, monkeypatch, capsys):
    write_open_questions(essays, "which,marks\nb010 1.5,2\nb011 1.5,1.5\n")
    typed = (essays.folder / "marks/open_questions.csv").read_bytes()
    with monkeypatch.context() as patch:
        keep_open(patch, "open_questions.csv")
        one_sentence(["mark", essays.folder], capsys)
    assert (essays.folder / "marks/open_questions.csv").read_bytes() == typed
    assert essays.mark().moved == ["b010 1.5: marked by hand: 2.", "b011 1.5: marked by hand: 1.5."]


@pytest.mark.parametrize("below", ["class_list.csv", "received.csv", "extensions.csv", "marks/open_questions.csv"])
def test_a_table_that_cannot_even_be_read(essays, below, monkeypatch, capsys):
    path = essays.folder / below
    if not path.exists():
        path.write_bytes(b"file,received\n" if "received" in below else b"bench,days\n")
    with monkeypatch.context() as patch:
        keep_open(patch, path.name, reading=True)
        assert one_sentence(["mark", essays.folder], capsys) == said_of(path)
        assert main(["play", str(essays.folder)]) == 1
        assert said_of(path).strip() in capsys.readouterr().err
    assert main(["mark", str(essays.folder)]) == 0


def test_a_return_that_is_open_elsewhere_is_listed(essays, monkeypatch):
    keep_open(monkeypatch, "return-b010-01.json", reading=True)
    assert essays.mark().not_read == [("b010/return-b010-01.json", "the file cannot be opened: Permission denied")]


def test_the_desk_says_the_same(essays, monkeypatch):
    desk = instructor_desk(str(essays.folder))
    keep_open(monkeypatch, "received.csv")
    press(desk.returns, "Begin or continue received.csv")
    assert said_of(essays.folder / "received.csv").strip() in said(desk.returns)
