"""The course folder while it is written: busy, killed, a full disk, no rights."""
import errno
import os
import subprocess
import sys
from pathlib import Path

import pytest

from lessons_lib.__main__ import main
from lessons_lib.course.folder import Course
from lessons_lib.course.telling import in_words
from lessons_lib.exercises.sheet_file import write_whole
from one_sentence import one_sentence


def test_a_second_command_on_the_folder_is_told_busy(folder, capsys):
    with Course(folder).busy():
        assert f"{folder} is busy" in one_sentence(["mark", folder], capsys)
    with Course(folder).busy():     # the lock is gone with whoever held it
        pass


def test_the_lock_goes_with_a_process_that_is_killed(folder):
    code = f"from lessons_lib.course.folder import Course\nimport os\nfrom pathlib import Path\n" \
           f"with Course(Path({str(folder)!r})).busy(): os._exit(9)"
    assert subprocess.run([sys.executable, "-c", code]).returncode == 9
    with Course(folder).busy():
        pass


def test_a_file_is_the_old_one_or_the_new_one(tmp_path, monkeypatch):
    path = tmp_path / "marks.csv"
    write_whole(path, b"old")
    monkeypatch.setattr(Path, "write_bytes", lambda target, data: [target.open("wb").write(data[:2]), 1 / 0])
    with pytest.raises(ZeroDivisionError):
        write_whole(path, b"newer")
    assert path.read_bytes() == b"old"
    monkeypatch.undo()
    write_whole(path, b"newer")
    assert path.read_bytes() == b"newer" and [one.name for one in tmp_path.iterdir()] == ["marks.csv"]


def full(monkeypatch, from_the=0):
    """Have the disk be full from so many files on: a part is written, then no more; the error names no file."""
    written = []

    def write_bytes(path, data):
        written.append(path)
        with open(path, "wb") as file:
            file.write(data[:7])
        if len(written) <= from_the:
            return whole(path, data)
        raise OSError(errno.ENOSPC, "No space left on device")

    whole = Path.write_bytes
    monkeypatch.setattr(Path, "write_bytes", write_bytes)


@pytest.mark.parametrize("from_the, name", [*enumerate(["made_with.txt", "00.json", "01.json", ".zip", "cards.csv",
                                                        "cards.html"])])
def test_a_full_disk_at_give_out_names_the_file_and_leaves_nothing_beside(folder, from_the, name, monkeypatch, capsys):
    full(monkeypatch, from_the)
    said = one_sentence(["give-out", folder, "--lessons", "1"], capsys)
    assert f"{name} could not be written: No space left on device. What was there before is unchanged. Make" in said
    assert str(folder) in said and not list(folder.rglob("*.new"))
    monkeypatch.undo()
    assert main(["give-out", str(folder), "--lessons", "1"]) == 0


def test_a_folder_without_rights_is_told_as_a_folder(tmp_path):
    said = in_words(PermissionError(errno.EACCES, "Permission denied", str(tmp_path)))
    assert said.startswith(f"The folder {tmp_path} cannot be opened: you have no right to.")
    assert in_words(PermissionError(errno.EACCES, "Permission denied", "marks.csv")).startswith("marks.csv cannot be")


def test_a_full_disk_at_new_course_names_the_file(tmp_path, monkeypatch, capsys):
    def no_space(*where):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "replace", no_space)
    said = one_sentence(["new-course", tmp_path / "a"], capsys)
    assert ".gitignore could not be written: No space left on device." in said and not list(tmp_path.rglob("*.new"))
