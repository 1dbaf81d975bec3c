"""received.csv: read as people type it, begun from what is in the folder; whatever does not fit is told."""
import os
import zipfile
from datetime import datetime

import pytest

from lessons_lib.__main__ import main
from lessons_lib.course.received import PROPOSAL, begin_received, received_times
from lessons_lib.course.tables import read_table

EVENING = datetime(2030, 3, 3, 18, 0)


def write(small, text, encoding="utf-8"):
    (small.folder / "received.csv").write_bytes(text.encode(encoding))


def table(small):
    return read_table((small.folder / "received.csv").read_bytes())


@pytest.fixture
def two(small):
    """Two benches have handed in; the files have a time of their own."""
    for bench in ("b010", "b011"):
        path = small.give_back(small.student(bench))
        os.utime(path, (EVENING.timestamp(), EVENING.timestamp()))
    return small


FILES = [f"{bench}/return-{bench}-01.json" for bench in ("b010", "b011")]


# ---- read ------------------------------------------------------------------------------------------------------------

def test_lines_as_people_type_them(small):
    write(small, "Received;comment;FILE\n3.3.2030 18:00;by mail;returned\\b010\\x.json\n;;b011/y.json\n"
                 "03/03/2030 6 pm;;./Zoe\u0308.json\n13/03/2030 6 pm;;'=x.json\n", "utf-16")
    assert received_times(small.course) == {
        "b010/x.json": EVENING.astimezone(), "b011/y.json": None, "Zo\xeb.json": EVENING.astimezone(),
        "=x.json": EVENING.replace(day=13).astimezone()}


def test_every_bad_line_is_named_at_once(small, capsys):
    write(small, "file,received\na.json,yesterday\nb.json,2030-03-03 18:00\n,2030-03-03\n\nc.json,10/11/2030 18:00\n"
                 "b.json,2030-03-03 18:00\nb.json,2030-03-04 18:00\nb.json,\n")
    assert main(["mark", str(small.folder)]) == 1
    assert capsys.readouterr().err.splitlines() == [
        'received.csv, line 2: "yesterday" for "a.json" is not a date and time; write one such as 2030-10-10 18:00.',
        "received.csv, line 4 has a time but no file.",
        'received.csv, line 6: "10/11/2030 18:00" for "c.json" could be 10 November 2030 or 11 October 2030, and no '
        "other line tells which: write 2030-11-10 or 2030-10-11.",
        'received.csv, line 8: "b.json" is there twice, with two times.']
    assert not (small.folder / "marks").exists()


@pytest.mark.parametrize("text", ["name,time\na,b\n", "file\na.json\n"])
def test_without_its_columns_it_is_refused(small, text):
    write(small, text)
    for do in (received_times, begin_received):
        with pytest.raises(ValueError, match="has no columns file and received"):
            small.give_back(small.student())
            do(small.course)
    assert (small.folder / "received.csv").read_text() == text


def test_a_heading_alone_that_is_wrong_is_refused_too(two):
    write(two, "name;time\n")
    with pytest.raises(ValueError, match="has no columns file and received"):
        begin_received(two.course)


def test_what_does_not_fit_is_told_file_by_file(two):
    for number in range(7):
        two.give_back(two.student("b012"), f"{number}")
    (two.folder / "returned" / "photo.jpg").write_bytes(b"\xff")
    write(two, f"file,received\n{FILES[0]},\nb010/x.json,2030-03-03\nphoto.jpg,2030-03-03\nb010,2030-03-03\n")
    unlisted = [*(f"{number}/return-b012-01.json" for number in range(7)), FILES[1]]
    assert two.mark().remarks == [
        f"Not in received.csv, so counted as in time: {', '.join(unlisted)}.",
        f"Without a time in received.csv, so counted as in time: {FILES[0]}.",
        "received.csv names what is not in the folder returned: b010/x.json, b010."]


# ---- begun -----------------------------------------------------------------------------------------------------------

def test_begun_it_has_a_line_for_each_return_and_a_proposal(two, capsys):
    (two.folder / "returned" / "photo.jpg").write_bytes(b"\xff")
    assert main(["received", str(two.folder)]) == 0
    said = capsys.readouterr().out
    assert "received.csv: 2 lines were added" in said and "\nNext: " in said and "take it over where it is" in said
    assert table(two) == [{"file": file, "received": "", PROPOSAL: "2030-03-03 18:00"} for file in FILES]
    two.settings('deadlines = { "01" = 2030-03-01T18:00:00 }\nlate = { percent_a_day = 10 }')
    assert two.mark().remarks == [f"Without a time in received.csv, so counted as in time: {', '.join(FILES)}."]
    assert two.rows["b010"]["01 late %"] == "0"     # a proposal makes nobody late


def test_own_times_are_taken_over_when_asked_for(two, capsys):
    main(["received", str(two.folder), "--own-times"])
    assert "check it" in capsys.readouterr().out
    assert received_times(two.course) == dict.fromkeys(FILES, EVENING.astimezone())


def test_own_times_are_taken_over_in_lines_that_were_begun_without(two, capsys):
    main(["received", str(two.folder)])
    text = (two.folder / "received.csv").read_bytes().decode("utf-8-sig")
    write(two, text.replace(f"{FILES[0]},,", f"{FILES[0]},5.3.2030,"))
    main(["received", str(two.folder), "--own-times"])
    assert "0 lines were added, and 1 that had no time got the file's own." in capsys.readouterr().out
    assert table(two)[0]["received"] == "5.3.2030" and table(two)[1]["received"] == f"{EVENING:%Y-%m-%d %H:%M}"
    main(["received", str(two.folder), "--own-times"])
    assert "Nothing was changed" in capsys.readouterr().out


def test_own_times_are_taken_over_where_a_line_ends_before_its_empty_cells(two):
    write(two, f"file,{PROPOSAL},received\n{FILES[0]},2030-03-03 18:00\n")
    main(["received", str(two.folder), "--own-times"])
    assert table(two)[0] == {"file": FILES[0], PROPOSAL: "2030-03-03 18:00", "received": "2030-03-03 18:00"}


def test_many_files_without_a_time_are_counted_and_the_first_of_them_named(two):
    path = two.folder / "returned" / FILES[0]
    for number in range(20):
        (two.folder / "returned" / f"copy{number:02d}.json").write_bytes(path.read_bytes())
    begin_received(two.course)
    write(two, (two.folder / "received.csv").read_text(encoding="utf-8-sig") + "copy00.json,1.3.2030\n")
    told, = [one for one in two.mark().remarks if one.startswith("Without a time")]
    assert told.endswith(" and 13 more.") and "copy08" not in told


@pytest.mark.parametrize("text, encoding, after", [
    (f"File;Received\r\n{FILES[0]}; 13/11/2030 5 pm\r\n", "cp1252",
     f"File;Received;{PROPOSAL}\r\n{FILES[0]}; 13/11/2030 5 pm\r\n{FILES[1]};;2030-03-03 18:00\r\n"),
    (f"received\tby\tfile\n3.3.2030\tZo\xeb\t{FILES[0]}\n", "utf-16",
     f"received\tby\tfile\t{PROPOSAL}\r\n3.3.2030\tZo\xeb\t{FILES[0]}\r\n\t\t{FILES[1]}\t2030-03-03 18:00\r\n")])
def test_what_is_there_is_not_changed(two, text, encoding, after):
    write(two, text, encoding)
    assert begin_received(two.course) == FILES[1:]
    assert (two.folder / "received.csv").read_bytes().decode("utf-8-sig") == after


def test_a_table_with_a_bad_line_is_left_as_it_is(two):
    write(two, f"file,received\n{FILES[0]},10/11/2030 5 pm\n")
    with pytest.raises(ValueError, match="line 2: .* could be 10 November 2030 or 11 October 2030"):
        begin_received(two.course)
    assert (two.folder / "received.csv").read_text() == f"file,received\n{FILES[0]},10/11/2030 5 pm\n"


def test_again_it_changes_nothing_and_adds_what_is_new(two, capsys):
    begin_received(two.course)
    before = (two.folder / "received.csv").read_bytes()
    assert main(["received", str(two.folder)]) == 0 and "Nothing was changed" in capsys.readouterr().out
    assert (two.folder / "received.csv").read_bytes() == before
    two.give_back(two.student("b012"), "=cmd")
    assert begin_received(two.course) == ["=cmd/return-b012-01.json"]
    assert table(two)[-1]["file"] == "'=cmd/return-b012-01.json" and table(two)[:2] != []
    assert begin_received(two.course) == [] and "=cmd/return-b012-01.json" in received_times(two.course)


def test_a_zip_has_lines_for_its_members_unless_it_has_its_own(two):
    path = two.folder / "returned" / FILES[0]
    with zipfile.ZipFile(two.folder / "returned" / "all.zip", "w") as archive:
        archive.writestr(zipfile.ZipInfo("a.json", (2030, 3, 2, 9, 30, 0)), path.read_bytes())
        archive.writestr(zipfile.ZipInfo("b.json"), path.read_bytes())        # a zip's "not known": 1980
    write(two, f"file,received\n{FILES[0]},\n{FILES[1]},\nall.zip,2030-03-03\n")
    assert begin_received(two.course) == []
    write(two, f"file,received\n{FILES[0]},\n{FILES[1]},\n")
    begin_received(two.course)
    assert [(row["file"], row[PROPOSAL]) for row in table(two)[2:]] == [("all.zip/a.json", "2030-03-02 09:30"),
                                                                       ("all.zip/b.json", "")]


def test_a_course_with_decimal_commas_gets_semicolons(two):
    two.settings("decimal_comma = true")
    begin_received(two.course)
    assert (two.folder / "received.csv").read_text(encoding="utf-8-sig").startswith("file;received;the")
