"""Folders below returned that cannot be opened: told and listed, never left out without a word."""
import os

import pytest

from lessons_lib.__main__ import main
from lessons_lib.course.tables import read_table


def close(monkeypatch, closed):
    """Have one folder refuse to be listed, also for root."""
    scandir = os.scandir

    def refusing(path="."):
        if os.path.realpath(path) == os.path.realpath(closed):
            raise PermissionError(13, "Permission denied", str(path))
        return scandir(path)

    monkeypatch.setattr(os, "scandir", refusing)


def test_a_folder_that_cannot_be_opened_is_listed_and_told(small, monkeypatch, capsys):
    student = small.student()
    student.all_right()
    small.give_back(student, "open")
    small.give_back(small.student("b011"), "closed")
    close(monkeypatch, small.folder / "returned/closed")
    main(["mark", str(small.folder)])
    said, listed = capsys.readouterr(), small.folder / "marks/not_read.csv"
    assert "returned/closed: the folder cannot be opened: Permission denied. Nothing in it was read." in (
        said.out + said.err)
    assert read_table(listed.read_bytes()) == [
        {"file": "closed", "why": "the folder cannot be opened: Permission denied"}]


def test_a_link_to_a_folder_is_listed(small, tmp_path):
    (tmp_path / "elsewhere").mkdir()
    (small.folder / "returned" / "linked").symlink_to(tmp_path / "elsewhere", target_is_directory=True)
    assert small.mark().not_read == [("linked", "it is a link to a folder: put the folder itself there")]


@pytest.mark.parametrize("harm", ["missing", "closed", "a file"])
def test_the_folder_returned_itself_must_be_there(small, harm, monkeypatch, capsys):
    small.give_back(small.student())
    folder = small.folder / "returned"
    if harm == "closed":
        close(monkeypatch, folder)
    else:
        folder.rename(small.folder / "elsewhere")
    if harm == "a file":
        folder.touch()
    main(["mark", str(small.folder)])
    said = capsys.readouterr()
    # it is not enough that the next step asks for returns in it
    assert "returned" in said.err or any(one in said.out for one in ("cannot be opened", "is missing", "is not there"))
