"""The folder of a student's work: homes and variables, private to one person, whether Jupyter's file list shows it."""
import base64
import json
import os
import re
from pathlib import Path

import pytest

import lessons_lib
from exercises_lesson import lay_sheet
from lessons_lib.exercises.bench import check_character
from lessons_lib.exercises.verdicts import State
from lessons_lib.exercises.work_folder import VARIABLE, claim, is_in_file_list, work_folder

CARD = "b017-7QK4M" + check_character("b017", "7QK4M")
posix_only = pytest.mark.skipif(os.name != "posix", reason="folders have no mode and no owner there")


@pytest.fixture
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("USERPROFILE", str(tmp_path))    # what Windows goes by
    monkeypatch.setenv("PLACE", "kept")
    return tmp_path


@pytest.mark.parametrize("named, below", [("~/my_work", "my_work"), ("$HOME/kept/my_work", "kept/my_work"),
                                          ("~/${PLACE}/w", "kept/w"),
                                          # as `set NAME="..." && ...` of the Command Prompt leaves it
                                          ('"~/my work" ', "my work"), (" ~/my_work ", "my_work")])
def test_homes_and_variables_are_understood(home, monkeypatch, named, below):
    monkeypatch.setenv(VARIABLE, named)
    assert work_folder() == home / below


@pytest.mark.parametrize("named, says", [
    ("$NOWHERE/w", "must name variables that are set; got '$NOWHERE/w', and $NOWHERE is not."),
    ("%NOWHERE%/w", "must name variables that are set; got '%NOWHERE%/w', and %NOWHERE% is not."),
    ("~nobody-of-this-name/w", "must name a home folder that is known; got '~nobody-of-this-name/w'.")])
def test_what_cannot_be_found_is_said_and_no_folder_of_that_name_is_made(desk, monkeypatch, named, says):
    if named.startswith("~") and os.name != "posix":
        pytest.skip("Windows takes any name for a home beside one's own")
    monkeypatch.setenv(VARIABLE, named)
    before = sorted(desk.iterdir())
    for verdict in (lessons_lib.use_card(CARD), lessons_lib.open_sheet("01").answer("1.1", 5.0)):
        assert verdict.text == f"The variable {VARIABLE} {says}"
    assert sorted(desk.iterdir()) == before


@posix_only
@pytest.mark.parametrize("begin", [lambda: lessons_lib.use_card("b003"),
                                   lambda: lessons_lib.open_sheet("01").answer("1.1", 5.0)])
def test_a_new_work_folder_is_private(desk, begin):
    mask = os.umask(0)
    try:
        begin()
    finally:
        os.umask(mask)
    assert (desk / "my_work").stat().st_mode & 0o777 == 0o700


# ---- a hub whose users share one folder by mistake -------------------------------------------------------------------

def test_two_users_of_a_hub_never_meet_in_one_folder(desk, tmp_path, monkeypatch):
    monkeypatch.setenv(VARIABLE, str(tmp_path / "shared"))
    monkeypatch.setenv("JUPYTERHUB_USER", "ada")
    assert lessons_lib.use_card(CARD).state == State.KEPT
    monkeypatch.setenv("JUPYTERHUB_USER", "bert")
    for verdict in (lessons_lib.use_card("b003"), lessons_lib.open_sheet("01").answer("1.1", 5.0)):
        assert "keeps another person's work" in verdict.text and str(tmp_path / "shared") in verdict.text
        assert "b017" not in verdict.text and "ada" not in verdict.text
    monkeypatch.setenv("JUPYTERHUB_USER", "ada")
    assert lessons_lib.open_sheet("01").bench == "b017"
    assert "ada" not in "".join(path.read_text() for path in (tmp_path / "shared").iterdir())


def test_the_way_out_that_is_told_works(desk, monkeypatch):
    monkeypatch.setenv("JUPYTERHUB_USER", "ada")
    lessons_lib.use_card(CARD)
    monkeypatch.setenv("JUPYTERHUB_USER", "ada.l")      # the same person, renamed
    name = re.search(r"remove the file (\S+) there", lessons_lib.use_card(CARD).text)[1]
    (desk / "my_work" / name).unlink()
    assert lessons_lib.use_card("...").state == State.KEPT
    monkeypatch.delenv("JUPYTERHUB_USER")               # and at home, with a copy
    assert lessons_lib.open_sheet("01").bench == "b017"


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="who may read everything sees no refusal")
def test_a_folder_that_refuses_to_be_read_is_anothers(tmp_path, monkeypatch):
    claim(tmp_path / "w")
    (tmp_path / "w").chmod(0)
    monkeypatch.setenv(VARIABLE, str(tmp_path / "w"))
    with pytest.raises(ValueError, match="another person's work"):
        work_folder()
    (tmp_path / "w").chmod(0o700)


# ---- Jupyter's file list ---------------------------------------------------------------------------------------------

@pytest.fixture
def server(tmp_path, monkeypatch):
    """A server whose file list begins at a folder, as it says of itself in its runtime folder."""
    (tmp_path / "shown").mkdir()
    monkeypatch.setattr("sys.argv", ["ipykernel_launcher.py", "-f", str(tmp_path / "kernel-1.json")])
    record = tmp_path / f"jpserver-{os.getppid()}.json"
    record.write_text(json.dumps({"root_dir": str(tmp_path / "shown")}))
    return record


@pytest.mark.parametrize("below, shown", [("shown/my_work", True), ("shown", True), ("elsewhere", False),
                                          ("shown/.hidden/w", False), ("shown/../w", False)])
def test_what_the_file_list_shows(server, below, shown):
    assert is_in_file_list(server.parent / below) is shown


@pytest.mark.parametrize("record", ["", "[]", "{}", '{"root_dir": 3}'])
def test_what_cannot_be_found_out_is_not_said(server, record, monkeypatch):
    server.write_text(record)
    assert is_in_file_list(Path("anywhere")) is None
    server.unlink()
    assert is_in_file_list(Path("anywhere")) is None
    monkeypatch.setattr("sys.argv", ["pytest"])
    assert is_in_file_list(Path("anywhere")) is None


def test_a_folder_out_of_sight_is_said_and_the_return_is_saved_from_the_page(desk, server, monkeypatch):
    monkeypatch.setenv(VARIABLE, str(server.parent / "elsewhere"))
    lay_sheet(desk, "b017")
    assert "which the file list does not show" in lessons_lib.use_card(CARD).text
    sheet = lessons_lib.open_sheet("01")
    sheet.answer("1.1", 5.0)
    handed = sheet.return_work()
    assert "elsewhere, which the file list does not show." in handed.text
    name, link = re.search(r'<a download="(\S+)" href="data:application/json;base64,(\S+)">', handed._repr_html_()
                           ).groups()
    assert base64.b64decode(link) == (server.parent / "elsewhere" / name).read_bytes()
    assert "base64" not in repr(handed)
