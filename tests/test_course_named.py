"""Marks with names: joined with the class list, a spare card with its student, columns as chosen; who is missing."""
import csv
import io

import pytest

from lessons_lib.__main__ import main
from lessons_lib.course.class_list import read_class_list
from lessons_lib.course.folder import Course
from lessons_lib.course.tables import read_table
from lessons_lib.course.with_names import marks_table
from small_class import exercise

LIST = "Number;Student;Bench;E-mail\n0017;Ada Ström;b010;ada@college.invalid\n;=Bo;B011;\n0042;Чан, Li;b012;\n"


def write(folder, name, text, encoding="utf-8"):
    path = folder / name
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(text.encode(encoding))


def class_list(folder, *lines, head="bench,student,instead of"):
    write(folder, "class_list.csv", "\n".join([head, *lines]))
    return read_class_list(Course(folder))


@pytest.fixture
def marked(small):
    """b010 has 1.1 right, b011 has handed in nothing, b012 a text that is not yet marked."""
    for bench, do in (("b010", lambda one: one.right(exercise(one, "1.1"))),
                      ("b012", lambda one: one.type("1.5", "x"))):
        student = small.student(bench)
        do(student)
        small.give_back(student)
    write(small.folder, "class_list.csv", LIST)
    small.mark()
    return small


def rows_of(folder, name="with_names/marks.csv", delimiter=","):
    text = (folder / name).read_bytes().decode("utf-8-sig")
    return list(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter))


# ---- the class list --------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_all_columns_are_kept_as_they_are(small, encoding):
    write(small.folder, "class_list.csv", LIST, encoding)
    students = read_class_list(small.course)
    assert [one.benches for one in students] == [("b010",), ("b011",), ("b012",)]
    assert students[0].cells == {"Number": "0017", "Student": "Ada Ström", "E-mail": "ada@college.invalid"}
    assert (students[0].email, students[2].name, students[2].email) == ("ada@college.invalid", "Чан, Li", "")


def test_a_spare_bench_is_joined_to_its_student(small):
    students = class_list(small.folder, "b010,Ada,17,", "b011,,,", "b012,Cy,19,", "b902,,,b901", "b901,Bo,18,B011-XYZ",
                          head="bench,student,number,Instead of")
    assert [(one.benches, one.name, one.cells["number"], one.called) for one in students] == [
        (("b010",), "Ada", "17", "Ada (b010)"), (("b011", "b902", "b901"), "Bo", "18", "Bo (b901)"),
        (("b012",), "Cy", "19", "Cy (b012)")]


@pytest.mark.parametrize("lines, said", [
    (["b010,Ada,", "b901,Ada,b099"], 'line 3: b901 is there instead of "b099", which is not in the list'),
    (["b010,Ada,b010"], 'line 2: b010 is there instead of "b010", and that one instead of it'),
    (["b010,Ada,b901", "b901,Ada,b010"], 'line 3: b901 is there instead of "b010", and that one instead of it'),
    (["b901,Ada,b902", "b010,Ada,b901", "b902,,b010"], "line 4: b902 is there instead of")])
def test_an_instead_of_that_cannot_be(small, lines, said):
    write(small.folder, "class_list.csv", "\n".join(["bench,student,instead of", *lines]))
    small.course.students
    with pytest.raises(ValueError, match="class_list.csv, line") as caught:
        read_class_list(small.course)
    assert said in str(caught.value)


# ---- the table -------------------------------------------------------------------------------------------------------

def test_the_table_has_the_class_lists_columns_and_the_totals(marked, capsys):
    assert main(["marks-table", str(marked.folder)]) == 0
    said = capsys.readouterr().out
    assert "with_names/marks.csv: 3 students, with names." in said and "1 text is not yet marked" in said
    assert rows_of(marked.folder) == [
        ["bench", "Number", "Student", "E-mail", "total (of 11)", "lesson 01 (of 11)"],
        ["b010", "0017", "Ada Ström", "ada@college.invalid", "2", "2"],
        ["b011", "", "'=Bo", "", "", ""],                       # nothing returned: empty, and no formula
        ["b012", "0042", "Чан, Li", "", "0", "0"]]


def test_columns_are_chosen_by_their_headings(marked):
    assert main(["marks-table", str(marked.folder), "--columns", "number, TOTAL,lesson 1,1.1 (of 2),1.5"]) == 0
    assert rows_of(marked.folder) == [["Number", "total (of 11)", "lesson 01 (of 11)", "1.1 (of 2)", "1.5 (of 3)"],
                                      ["0017", "2", "2", "2", "0"], ["", "", "", "", ""],
                                      ["0042", "0", "0", "0", "to mark"]]


def test_decimal_commas(marked):
    marked.settings('decimal_comma = true\n[marks]\n"1.1" = 2.5')
    marked.mark()
    main(["marks-table", str(marked.folder), "--columns", "student,total"])
    assert rows_of(marked.folder, delimiter=";")[:2] == [["Student", "total (of 11.5)"], ["Ada Ström", "2,5"]]


def test_a_column_that_is_not_there_is_one_sentence(marked, capsys):
    assert main(["marks-table", str(marked.folder), "--columns", "number,mark"]) == 1
    said = capsys.readouterr().err
    assert 'There is no column "mark"; there are bench, Number, Student, E-mail, total (of 11), lesson 01' in said
    assert said.count("\n") == 1 and not (marked.folder / "with_names").exists()


def test_without_marks_it_says_so_and_what_is_newer_is_told(small, marked, capsys):
    with open(marked.folder / "class_list.csv", "a") as file:
        file.write(";Late Comer;b901;\n")
    assert "b901 came to the class list after the last marking. Mark again." in marks_table([marked.course])[2][0]
    (marked.folder / "marks/marks.csv").unlink()
    assert main(["marks-table", str(marked.folder)]) == 1
    assert "There are no marks in" in capsys.readouterr().err


MARKS = ("bench,total (of 20),lesson 01 (of 10),01 late %,01 check code,1.1 (of 10),lesson 02 (of 10),02 late %,"
         "02 check code,2.1 (of 10)\n"
         "b010,7,7,0,AAA,7,,,,\nb011,9,5.5,10,BBB,6,3.5,0,CCC,3.5\nb012,,,,,,,,,\nb901,12,,,,,8,20,DDD,10\n"
         "b902,4,4,0,EEE,4,0,0,FFF,0\n")


@pytest.mark.parametrize("lines, total, cells", [
    (["b901,,b010"], "15", ["7", "0", "AAA", "7", "8", "20", "DDD", "10"]),     # each lesson on another bench
    (["b902,,b011"], "9", ["5.5", "10", "BBB", "6", "3.5", "0", "CCC", "3.5"]),     # the better one, lesson by lesson
    (["b901,,b011", "b902,,b901"], "13.5", ["5.5", "10", "BBB", "6", "8", "20", "DDD", "10"]),
    (["b901,,b012"], "12", ["", "", "", "", "8", "20", "DDD", "10"])])
def test_a_lost_card_and_its_spare_are_one_row(small, lines, total, cells):
    """Totals added by hand."""
    write(small.folder, "marks/marks.csv", MARKS)
    class_list(small.folder, "b010,Ada,", "b011,Bo,", "b012,Cy,", *lines)
    head, rows, _ = marks_table([small.course], ["student", *MARKS.split("\n")[0].split(",")[1:]])
    assert len(rows) == 3
    joined = next(row for row in rows if row[0] == {"b010": "Ada", "b011": "Bo", "b012": "Cy"}[lines[0][-4:]])
    assert [f"{cell:g}" if isinstance(cell, float) else cell or "" for cell in joined[1:]] == [total, *cells]


# ---- two sections ----------------------------------------------------------------------------------------------------

def test_two_sections_in_one_table(marked, tmp_path, capsys):
    other = tmp_path / "course b"
    other.mkdir()
    write(other, "course.toml", 'title = "B"')
    write(other, "class_list.csv", "bench,student,group\nb010,Dora,x\n")
    write(other, "marks/marks.csv", "bench,total (of 9),lesson 01 (of 9)\nb010,4,4\n")
    assert main(["marks-table", str(marked.folder), "--with", str(other)]) == 0
    assert "with_names/joint_marks.csv: 4 students" in capsys.readouterr().out
    assert rows_of(marked.folder, "with_names/joint_marks.csv") == [
        ["course", "bench", "Number", "student", "E-mail", "group", "total", "lesson 01"],
        ["Course", "b010", "0017", "Ada Ström", "ada@college.invalid", "", "2", "2"],
        ["Course", "b011", "", "'=Bo", "", "", "", ""], ["Course", "b012", "0042", "Чан, Li", "", "", "0", "0"],
        ["B", "b010", "", "Dora", "", "x", "4", "4"]]


# ---- who is missing --------------------------------------------------------------------------------------------------

def test_who_is_missing_by_name_without_marking_first(small, capsys):
    student = small.student("b010")
    student.all_right()
    small.give_back(student)
    (small.folder / "returned/photo.jpg").write_bytes(b"\xff")
    write(small.folder, "class_list.csv", LIST)
    assert main(["missing", str(small.folder)]) == 0
    assert capsys.readouterr().out.splitlines() == [
        "Lesson 01, The garden: 1 of 3 have handed in. Missing: =Bo (b011); Чан, Li (b012).",
        "Files in returned that do not count: 1. Somebody above may have sent one; mark, and not_read.csv says why."]
    assert not (small.folder / "marks").exists()
    (small.folder / "returned/Return-B012-01 (1).json").write_text("{")
    (small.folder / "returned/b0110.json").write_text("{")       # of no bench that is missing
    main(["missing", str(small.folder)])
    assert capsys.readouterr().out.endswith("not_read.csv says why. By their names, from: Чан, Li (b012).\n")


def test_a_spare_card_and_addresses(small, capsys):
    small.give_back(small.student("b010"))
    class_list(small.folder, "b010,Ada,a@college.invalid,", "b011,Bo,b@college.invalid,", "b012,,c@college.invalid,",
               "b901,,,b012", "b902,Di,,", head="bench,student,mail,instead of")
    main(["missing", str(small.folder), "--lessons", "1"])
    assert capsys.readouterr().out.splitlines() == [
        "Lesson 01, The garden: 1 of 4 have handed in. Missing: Bo (b011); b901; Di (b902).",
        "  Addresses: b@college.invalid, c@college.invalid"]
    small.give_back(small.student("b901"))
    main(["missing", str(small.folder)])
    assert "2 of 4 have handed in. Missing: Bo (b011); Di (b902)." in capsys.readouterr().out


def test_when_all_have_handed_in(small, capsys):
    small.give_back(small.student("b010"))
    class_list(small.folder, "b010,Ada,")
    main(["missing", str(small.folder)])
    assert capsys.readouterr().out == "Lesson 01, The garden: 1 of 1 have handed in.\n"
    assert main(["missing", str(small.folder), "--lessons", "1,5"]) == 1
    assert "Lesson 05 has not been given out yet." in capsys.readouterr().err
    small.settings("[marks]\n" + "\n".join(f'"1.{number}" = 0' for number in range(1, 7)))
    main(["missing", str(small.folder)])
    assert "No lesson that carries marks" in capsys.readouterr().out


# ---- files with names ------------------------------------------------------------------------------------------------

def test_names_are_in_one_folder_that_goes_with_the_course(marked):
    main(["marks-table", str(marked.folder)])
    named = {path.relative_to(marked.folder).as_posix() for path in marked.folder.rglob("*")
             if path.is_file() and "Ström".encode() in path.read_bytes()}
    assert named == {"class_list.csv", "with_names/marks.csv"}
    assert read_table((marked.folder / "with_names/marks.csv").read_bytes())[0]["student"] == "Ada Ström"
