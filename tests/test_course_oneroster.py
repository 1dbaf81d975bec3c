"""Results by OneRoster 1.2: columns, words and references as the standard has them, as far as they are known here."""
import csv
import io
import os
import re
import zipfile
from datetime import datetime, timezone

import pytest

from lessons_lib.__main__ import main
from lessons_lib.course.folder import Course
from lessons_lib.course.make_and_remove import new_course
from lessons_lib.course.oneroster import Ids, oneroster_files

# columns of the CSV binding 1.2 and words for scoreStatus: from memory, and alike in public programs that read them
LINE_ITEMS = ("sourcedId,status,dateLastModified,title,description,assignDate,dueDate,classSourcedId,categorySourcedId,"
              "academicSessionSourcedId,resultValueMin,resultValueMax,schoolSourcedId")
RESULTS = ("sourcedId,status,dateLastModified,lineItemSourcedId,studentSourcedId,scoreStatus,score,scoreDate,comment,"
           "textScore,classSourcedId,inProgress,incomplete,late,missing")
STATUS = {"exempt", "fully graded", "not submitted", "partially graded", "submitted"}
FILLED = {"lineItems.csv": LINE_ITEMS.replace("description,", "").split(","),
          "results.csv": RESULTS.split(",")[:6] + ["scoreDate"]}      # a delta needs status and dateLastModified, too
MARKS = ("bench,total (of 19.5),lesson 01 (of 13),01 late %,01 check code,1.1 (of 2),1.7 (of 6),lesson 02 (of 6.5),"
         "02 check code,2.1 (of 2)\n"
         'b010,11.25,6.75,10,ABC-DEF,2,4,4.5,GHJ-KLM,2\nb011,2,2,0,NPQ-RST,2,to mark,,,\nb012,0,,,,,,0,XYZ-234,0\n')
MARKED = datetime(2030, 3, 3, 12, 0, tzinfo=timezone.utc)


@pytest.fixture
def course(tmp_path):
    new_course(tmp_path, 3)
    (tmp_path / "course.toml").write_text('title = "Coils & Strings, autumn"\n'
                                          '[deadlines]\n"01" = 2030-03-01T18:00:00\n')
    (tmp_path / "class_list.csv").write_text("bench,student,Number\nb010,Ada,0017\nb011,Bo,0018\nb012,Cy,0019\n")
    (tmp_path / "marks").mkdir()
    (tmp_path / "marks/marks.csv").write_text(MARKS)
    os.utime(tmp_path / "marks/marks.csv", (MARKED.timestamp(), MARKED.timestamp()))
    return Course(tmp_path)


def rows(files, name):
    return list(csv.DictReader(io.StringIO(files[name].decode(), newline="")))


def test_columns_are_the_standards_and_the_needed_ones_are_filled(course):
    files = oneroster_files(course, Ids())
    assert files["lineItems.csv"].decode().splitlines()[0] == LINE_ITEMS
    assert files["results.csv"].decode().splitlines()[0] == RESULTS
    assert files["categories.csv"].decode().splitlines()[0] == "sourcedId,status,dateLastModified,title,weight"
    for name, needed in FILLED.items():
        assert len(rows(files, name)) > 1
        assert [row for row in rows(files, name) for heading in needed if not row[heading]] == []


def test_every_reference_leads_somewhere_and_every_id_is_there_once(course):
    files = oneroster_files(course, Ids())
    items, results = rows(files, "lineItems.csv"), rows(files, "results.csv")
    ids = [row["sourcedId"] for name in ("categories.csv", "lineItems.csv", "results.csv") for row in rows(files, name)]
    assert len(ids) == len(set(ids)) == 1 + 2 + 6
    assert {row["lineItemSourcedId"] for row in results} == {row["sourcedId"] for row in items}
    assert {row["categorySourcedId"] for row in items} == {rows(files, "categories.csv")[0]["sourcedId"]}
    assert {row["scoreStatus"] for row in results} <= STATUS
    assert all(re.fullmatch(r"20\d\d-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z", row["dateLastModified"]) for row in results)


def test_scores(course):
    """Each value from the table of marks above, read by eye."""
    found = {(row["lineItemSourcedId"][-2:], row["studentSourcedId"]): row
             for row in rows(oneroster_files(course, Ids(student="number")), "results.csv")}
    said = {key: (row["scoreStatus"], row["score"], row["late"], row["missing"], row["incomplete"])
            for key, row in found.items()}
    assert said == {
        ("01", "0017"): ("fully graded", "6.75", "true", "false", "false"),
        ("01", "0018"): ("partially graded", "2", "false", "false", "true"),
        ("01", "0019"): ("not submitted", "", "", "true", "false"),
        ("02", "0017"): ("fully graded", "4.5", "", "false", "false"),
        ("02", "0018"): ("not submitted", "", "", "true", "false"),
        ("02", "0019"): ("fully graded", "0", "", "false", "false")}
    assert {row["scoreDate"] for row in found.values()} == {f"{MARKED.astimezone():%Y-%m-%d}"}


def test_lessons_are_line_items_with_their_limits_and_dates(course):
    items = rows(oneroster_files(course, Ids(group="4711", school="S1", session="T1")), "lineItems.csv")
    assert [(row["title"][:9], row["resultValueMin"], row["resultValueMax"], row["dueDate"]) for row in items] == [
        ("Lesson 01", "0", "13", "2030-03-01"), ("Lesson 02", "0", "6.5", f"{MARKED.astimezone():%Y-%m-%d}")]
    assert {(row["classSourcedId"], row["schoolSourcedId"], row["academicSessionSourcedId"]) for row in items} == {
        ("4711", "S1", "T1")}


def test_the_manifest_names_what_is_there(course):
    files = oneroster_files(course, Ids())
    manifest = {row["propertyName"]: row["value"] for row in rows(files, "manifest.csv")}
    assert (manifest["manifest.version"], manifest["oneroster.version"], len(manifest)) == ("1.0", "1.2", 25)
    assert {name for name, value in manifest.items() if value == "delta"} == {
        f"file.{name.removesuffix('.csv')}" for name in files if name.endswith(".csv") and name != "manifest.csv"}
    assert not any(data.startswith(b"\xef\xbb\xbf") for data in files.values())


def test_the_command_writes_a_zip_and_says_what_was_made_up(course, capsys):
    assert main(["oneroster", str(course.folder), "--class-id", "4711"]) == 0
    assert "6 results. Next: read README.txt" in capsys.readouterr().out
    folder = course.folder / "with_names/oneroster"
    with zipfile.ZipFile(folder / "oneroster.zip") as archive:
        assert sorted(archive.namelist()) == ["categories.csv", "lineItems.csv", "manifest.csv", "results.csv"]
        assert all(archive.read(name) == (folder / name).read_bytes() for name in archive.namelist())
    readme = (folder / "README.txt").read_text()
    assert "from memory" in readme and "  school: school\n  academic session: session\n" in readme
    assert "class:" not in readme and "named by their benches" in readme


def test_a_column_sourcedid_is_taken_by_itself(course):
    path = course.folder / "class_list.csv"
    path.write_text("bench,student,sourcedID,instead of\nb010,Ada,u1,\nb011,Bo,u2,\nb012,,,b010\n")
    found = rows(oneroster_files(course, Ids()), "results.csv")
    assert [(row["studentSourcedId"], row["score"]) for row in found] == [("u1", "6.75"), ("u2", "2"), ("u1", "4.5"),
                                                                         ("u2", "")]


@pytest.mark.parametrize("lines, said", [
    ("b010,Ada,\nb011,Bo,1\n", "the Number of b010 is empty"), ("b010,Ada,1\nb011,Bo,1\n", "of b011 is there twice")])
def test_an_id_must_be_there_once(course, lines, said, capsys):
    (course.folder / "class_list.csv").write_text(f"bench,student,Number\n{lines}")
    assert main(["oneroster", str(course.folder), "--student-id", "number"]) == 1
    assert said in capsys.readouterr().err
    assert main(["oneroster", str(course.folder), "--student-id", "id"]) == 1
    assert 'has no column "id"; it has student, Number.' in capsys.readouterr().err
