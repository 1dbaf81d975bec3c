"""Zips among the returns: read where they are, with limits; what does not count is listed as archive.zip/member."""
import io
import random
import zipfile

import pytest

from lessons_lib.course import zips
from lessons_lib.course.tables import read_table
from lessons_lib.course.zips import zip_member, zip_members
from lessons_lib.exercises.returns import LARGEST, NotRead
from small_class import exercise


def zipped(*members, method=zipfile.ZIP_DEFLATED):
    """The bytes of a zip of (name, content)."""
    sink = io.BytesIO()
    with zipfile.ZipFile(sink, "w", method) as archive:
        for name, content in members:
            archive.writestr(name, content)
    return sink.getvalue()


@pytest.fixture
def look(tmp_path):
    """Read the bytes of a zip: name -> content, or the reason why there is none."""
    def read(data):
        path = tmp_path / "x.zip"
        path.write_bytes(data)
        return {name: found.reason if isinstance(found, NotRead) else found for name, _, found in zip_members(path)}
    return read


@pytest.fixture
def handed_in(small):
    """A right return of b010, as bytes; the folder returned is empty."""
    student = small.student()
    student.right(exercise(student, "1.1"))
    path = small.give_back(student)
    content = path.read_bytes()
    path.unlink()
    return content


def not_read(small):
    return {row["file"]: row["why"] for row in read_table((small.folder / "marks/not_read.csv").read_bytes())}


# ---- in a class ------------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("method", [zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED, zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA])
def test_a_return_in_a_zip_counts_and_the_rest_is_listed(small, handed_in, method):
    (small.folder / "returned" / "all work.zip").write_bytes(zipped(
        ("b010/Aufgabe/return.json", handed_in), ("b010/photo.jpg", b"\xff\xd8\xff"), ("b010/work.jsonl", b"{}\n{}"),
        ("b011/", b""), ("__MACOSX/b010/._return.json", b"x"), ("b010/.DS_Store", b"x"), method=method))
    before = sorted(small.folder.rglob("*"))
    small.mark()
    assert small.rows["b010"]["1.1"] == "2"
    assert not_read(small) == {
        "all work.zip/b010/photo.jpg": "it is not a text file: ask for the return itself",
        "all work.zip/b010/work.jsonl": "it is the log of the work: ask for the return that sheet.return_work() writes "
                                        "beside it"}
    new = {path.relative_to(small.folder).parts[0] for path in set(small.folder.rglob("*")) - set(before)}
    assert new == {"marks"}     # nothing was unpacked


def test_zips_in_a_zip_as_a_college_collects_them(small, handed_in):
    inner = zipped(("my_work/return.json", handed_in), ("my_work/again.zip", zipped(("deep.zip", zipped(("x", b"x"))))))
    (small.folder / "returned" / "all.zip").write_bytes(zipped(("Berg, Ada/work.zip", inner), ("b.json", b"{}")))
    small.mark()
    assert small.rows["b010"]["1.1"] == "2"
    assert set(not_read(small)) == {"all.zip/b.json", "all.zip/Berg, Ada/work.zip/my_work/again.zip/deep.zip"}
    assert "packed too deep" in not_read(small)["all.zip/Berg, Ada/work.zip/my_work/again.zip/deep.zip"]


LATE = 'deadlines = { "01" = 2030-03-01T18:00:00+01:00 }\nlate = { percent_a_day = 10 }\n'


@pytest.mark.parametrize("lines, off", [
    (["all.zip,2030-03-03T12:00:00+01:00"], "20"), (["all.zip/a/return.json,2030-03-02T12:00:00+01:00"], "10"),
    (["all.zip,2030-03-09T12:00:00+01:00", "all.zip/a/return.json,2030-03-02T12:00:00+01:00"], "10")])
def test_received_is_the_zips_own_line_or_the_members(small, handed_in, lines, off):
    (small.folder / "returned" / "all.zip").write_bytes(zipped(("a/return.json", handed_in)))
    (small.folder / "received.csv").write_text("\n".join(["file,received", *lines]))
    small.settings(LATE)
    small.mark()
    assert small.rows["b010"]["01 late %"] == off


def test_a_zip_that_changes_while_marking_is_one_sentence(small, handed_in):
    path = small.folder / "returned" / "all.zip"
    path.write_bytes(zipped(("return.json", handed_in)))
    (_, place, content), = zip_members(path)
    assert content == handed_in == zip_member(path, place)
    path.write_bytes(zipped(("other", b"")))
    assert zip_member(path, place) == b""
    path.write_bytes(b"PK\x03\x04")
    assert zip_member(path, place) == NotRead("it is not in the zip any more")


# ---- names -----------------------------------------------------------------------------------------------------------

def test_names_that_lead_out_of_the_zip_are_labels_only(look):
    found = look(zipped(("../../secret.txt", b"1"), ("/etc/passwd", b"2"), ("a\\..\\b\\c.json", b"3"), ("..", b"4"),
                        ("a/./d.json", b"5")))
    assert found == {"secret.txt": b"1", "etc/passwd": b"2", "a/b/c.json": b"3", "a/d.json": b"5"}


@pytest.mark.parametrize("raw, name", [
    ("Zoë.json".encode(), "Zoë.json"), ("宿題.json".encode(), "宿題.json"),       # UTF-8 without its mark
    (b"Zo\x89.json", "Zoë.json"),                                                   # code page 437, as of old
    ("домашняя.json".encode("cp866"), None)])
def test_names_in_any_encoding(look, raw, name):
    """The bytes of a name are put in by hand, in place of as many letters x, so that no mark for UTF-8 is set."""
    data = zipped(("x" * len(raw), b"content")).replace(b"x" * len(raw), raw)
    found = look(data)
    assert list(found.values()) == [b"content"] and (name is None or list(found) == [name])


# ---- limits ----------------------------------------------------------------------------------------------------------

def test_a_bomb_is_told_and_not_unpacked(look):
    bomb = zipped(("a", bytes(50_000_000)), ("b", b"kept"))
    assert len(bomb) < 60_000
    assert look(bomb) == {"a": "it is larger than 4 MB", "b": b"kept"}


def test_photos_do_not_use_up_what_may_be_read(look, monkeypatch):
    monkeypatch.setattr(zips, "MOST_BYTES", LARGEST + 1000)
    found = look(zipped(*((f"{number}.jpg", b"\xff" * (LARGEST + 1)) for number in range(5)), ("return.json", b"{}")))
    assert found == {**{f"{number}.jpg": "it is larger than 4 MB" for number in range(5)}, "return.json": b"{}"}


def test_a_bomb_that_lies_about_its_size(look):
    """Its headers are changed by hand to say 100 bytes: what is unpacked does not fit its check sum."""
    size, small = (LARGEST * 3).to_bytes(4, "little"), (100).to_bytes(4, "little")
    assert look(zipped(("a", bytes(LARGEST * 3))).replace(size, small)) == {
        "a": "it is damaged in its zip: ask for it again"}


def test_a_zip_with_too_many_files_or_too_much_is_read_up_to_there(look, monkeypatch):
    monkeypatch.setattr(zips, "MOST_FILES", 3)
    found = look(zipped(*((str(number), b"x") for number in range(9))))
    assert list(found) == ["0", "1", "2", ""] and "more than 3 files" in found[""]
    monkeypatch.setattr(zips, "MOST_FILES", 99)
    monkeypatch.setattr(zips, "MOST_BYTES", 1_000_000)
    found = look(zipped(*((str(number), bytes(400_000)) for number in range(9))))
    assert list(found) == ["0", "1", ""] and "or 1 MB: the rest of it was not read" in found[""]


def test_zips_in_a_zip_share_its_limits(look, monkeypatch):
    monkeypatch.setattr(zips, "MOST_FILES", 10)
    inner = zipped(*((str(number), b"x") for number in range(7)))
    found = look(zipped(*((f"{number}.zip", inner) for number in range(7))))
    assert len(found) == 7 + 1 + 1      # the first whole, the second zip's first file
    monkeypatch.setattr(zips, "MOST_BYTES", 1_000_000)
    found = look(zipped(("big.zip", zipped(("x", random.Random(1).randbytes(2_000_000))))))
    assert set(found) == {""}


def test_a_zip_that_is_too_large_as_it_came(look, monkeypatch):
    monkeypatch.setattr(zips, "LARGEST_ZIP", 50)
    assert "it is a zip of more than" in look(zipped(("a", b"x")))[""]


# ---- what is none ----------------------------------------------------------------------------------------------------

def test_a_password_is_told(look):
    """Bit 0 of the flags says "encrypted" (APPNOTE 4.4.4): at offset 6 of a file's header, 8 of the directory's."""
    data = bytearray(zipped(("a", b"x")))
    data[6] |= 1
    data[data.index(b"PK\x01\x02") + 8] |= 1
    assert "locked with a password" in look(bytes(data))["a"]


@pytest.mark.parametrize("data, reason", [
    (zipped(("[Content_Types].xml", b""), ("word/document.xml", b"")), "it is an office document"),
    (zipped(("mimetype", b"application/vnd.oasis.opendocument.text"), ("content.xml", b"")), "an office document"),
    (zipped(), "it is an empty zip"), (b"PK\x03\x04", "it is a damaged zip"),
    (zipped(("a", b"x" * 999))[:-30], "it is a damaged zip")],
    ids=("document", "open document", "empty", "begun", "cut off"))      # the bytes of a zip tell the time
def test_what_is_no_zip_of_returns_is_one_line(look, data, reason):
    found = look(data)
    assert list(found) == [""] and reason in found[""]


def test_a_thousand_damaged_zips_stop_nothing(look):
    whole, dice = zipped(("a/b.json", b"{}" * 99), ("c.zip", zipped(("d", b"x" * 99)))), random.Random(7)
    for _ in range(1000):
        data = bytearray(whole)
        for _ in range(dice.randrange(1, 6)):
            data[dice.randrange(4, len(data))] = dice.randrange(256)
        assert all(isinstance(found, (str, bytes)) for found in look(bytes(data)).values())
