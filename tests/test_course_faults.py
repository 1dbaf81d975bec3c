"""Tables with several bad lines: all are named at once; tables in another format are told wherever they are missed."""
import os

import pytest

from desk_buttons import said
from handing_in import cells, hand_in_texts
from lessons_lib.__main__ import main
from lessons_lib.course.class_list import read_class_list
from lessons_lib.course.folder import Course
from lessons_lib.course.play import ready
from lessons_lib.desk import instructor_desk
from one_sentence import one_sentence
from small_class import write_open_questions


def write(folder, name, text):
    (folder / name).write_text(text, encoding="utf-8")


def lines_said(words, capsys):
    assert main(list(map(str, words))) == 1
    return capsys.readouterr().err.splitlines()


# ---- every bad line --------------------------------------------------------------------------------------------------

def test_of_a_class_list(folder, capsys):
    write(folder, "class_list.csv", "bench,student\nb010,Ada\n,Eve\nb010,Bo\nb17,Cy\nb011,Di\nb003,Ed\n")
    begin = "class_list.csv, line "
    assert [line.partition("; write")[0] for line in lines_said(["give-out", folder, "--lessons", 1], capsys)] == [
        f"{begin}3 has a name but no bench.", f"{begin}4: b010 is there twice.",
        f'{begin}5: "b17" is not a bench of a class', f'{begin}7: "b003" is not a bench of a class']
    write(folder, "class_list.csv", "desk\nb010\nb011\n")
    said = one_sentence(["give-out", folder, "--lessons", 1], capsys)
    assert "in a column called bench" in said       # not once for each line


def test_of_lost_cards(folder):
    write(folder, "class_list.csv", "bench,instead of,student\nb010,b099\nb011,b012\nb012,b011\n"
                                    "b901,b010\nb902,x\nb013,b013\n")
    with pytest.raises(ValueError) as caught:
        read_class_list(Course(folder))
    assert [line[:60] for line in str(caught.value).splitlines()] == [
        'class_list.csv, line 2: b010 is there instead of "b099", whi', 'class_list.csv, line 4: b012 is there instead '
        'of "b011", and', 'class_list.csv, line 6: b902 is there instead of "x", which ',
        'class_list.csv, line 7: b013 is there instead of "b013", and']


def test_of_extensions(small, capsys):
    write(small.folder, "extensions.csv",
          "bench,lesson,days\nb999,,2\nb010,01,2\nb010,77,2\nb011,,soon\nb012,,-1\nb011,,31.10.2030\n")
    assert [line[16:46] for line in lines_said(["mark", small.folder], capsys)] == [
        'line 2: "b999" is not in class', 'line 4: there is no lesson "77', 'line 5: "soon" is not a number',
        'line 6: "-1" is not a number o', 'line 7: "31.10.2030" is not a ']
    write(small.folder, "extensions.csv", "desk,days\nb010,2\nb011,2\n")
    assert "in a column called bench" in one_sentence(["mark", small.folder], capsys)


def test_of_dates_five_at_once(small, capsys):
    write(small.folder, "received.csv", "file,received\na,yesterday\nb,31.2.2030\nc,2030-10-31 18:00\nd,10/11/2030\n"
                                        "e,2030-10-31 25:00\nf,18:00\n")
    assert [line[:20] for line in lines_said(["mark", small.folder], capsys)] == [
        f"received.csv, line {line}" for line in (2, 3, 5, 6, 7)]


def test_of_open_questions(essays):
    """Cells that are no marks, lines for nobody, ids that no text has: all are remarks, and the rest counts."""
    ids = [row["text id"] for row in cells(essays)]
    assert len(ids) == 2
    write_open_questions(essays, "which,marks,comment,text id\n"
                         f"b010 1.5,2,,{ids[0]}\nb011 1.5,four,,{ids[1]}\nb011 1.5,1.5,,t12345678\nb010 1.9,2,good,\n"
                         "b099 1.5,3,,\nsum,12,,\nb098 1.5,,,\n")
    assert essays.mark().remarks == [
        'open_questions.csv, line 5: "b010 1.9" is no bench with an exercise of this course, so "2" and "good" counts '
        "nowhere.",
        'open_questions.csv, line 6: "b099 1.5" is no bench with an exercise of this course, so "3" counts nowhere.',
        'open_questions.csv, line 7: "sum" is no bench with an exercise of this course, so "12" counts nowhere.',
        'open_questions.csv, b011 1.5: "four" is not a mark from 0 to 3.',
        'open_questions.csv, b011 1.5: "1.5" is beside the text id t12345678, which none of its texts has, so it '
        "counts nowhere. Put the column text id right, or type the mark again."]
    assert essays.rows["b010"]["1.5"] == "2" and essays.rows["b011"]["1.5"] == "to mark"
    assert essays.mark().remarks == ['open_questions.csv, b011 1.5: "four" is not a mark from 0 to 3.']


def test_a_text_that_was_taken_away_is_none_of_these(small):
    hand_in_texts(small, ("A spade for the soil. " * 5, None), ("A fork, and a rake. " * 9, None))
    small.mark()
    write_open_questions(small, "which,marks,text id\n" + "".join(
        f"b010 1.5,{mark},{row['text id']}\n" for mark, row in zip((1, 2), cells(small))))
    small.mark()
    (small.folder / "returned/b010 1/return-b010-01.json").unlink()
    assert not any("text id" in remark for remark in small.mark().remarks)


def test_doubled_rows_are_named_together(essays, capsys):
    write_open_questions(essays, "which,marks\nb010 1.5,1\nb010 1.5,2\nb011 1.5,1\nb011 1.5,2\n")
    assert "has b010 1.5, b011 1.5 twice and not both text ids" in one_sentence(["mark", essays.folder], capsys)


# ---- saved in another format -----------------------------------------------------------------------------------------

LIST = "class_list.ods is not read: in the spreadsheet, save it as CSV under the name class_list.csv."


@pytest.mark.parametrize("command", ["give-out --lessons 1", "mark", "missing", "marks-table", "notes-by-name", "play",
                                     "evenings", "key", "handouts"])
def test_without_its_class_list_every_command_says_where_it_is(small, command, capsys):
    folder = small.folder
    (folder / "class_list.csv").rename(folder / "class_list.ods")
    name, *more = command.split()
    words = [name, folder, *more] if name != "handouts" else [name, folder / "print", "--course", folder]
    out = lines_said(words, capsys)
    assert any(f"There is no class_list.csv in {folder}. {LIST}" in line for line in out)
    assert not any("No such file" in line for line in out)


def test_without_any_it_says_to_put_it_back(folder, capsys):
    (folder / "class_list.csv").unlink()
    assert one_sentence(["give-out", folder, "--lessons", 1], capsys) == (
        f"There is no class_list.csv in {folder}. Put it back from your copy of the course folder.\n")


def test_no_empty_list_is_made_beside_one(folder, capsys):
    (folder / "class_list.csv").rename(folder / "class_list.ods")
    assert one_sentence(["new-course", folder], capsys) == f"{LIST}\n" and not (folder / "class_list.csv").exists()


def newer(path):
    path.write_bytes(b"")
    os.utime(path, (4e9, 4e9))


@pytest.mark.parametrize("command", ["give-out", "marks-table", "notes-by-name", "missing", "mark"])
def test_a_newer_list_is_told_by_all_that_say_names(essays, command, capsys):
    newer(essays.folder / "class_list.xlsx")
    assert main([command, str(essays.folder)]) == 0
    assert capsys.readouterr().out.count("class_list.xlsx is newer than class_list.csv, and is not read: in the") == 1


@pytest.mark.parametrize("name", ["class_list", "received", "extensions", "marks/open_questions"])
def test_is_all_ready_and_the_desk_say_it_of_every_table(essays, name):
    for is_there in (False, True):
        if is_there or name != "class_list":
            newer(essays.folder / f"{name}.ods")
            only = name.rpartition("/")[2]
            has_table = (essays.folder / f"{name}.csv").exists()
            sentence = (f"{only}.ods {f'is newer than {only}.csv, and ' if has_table else ''}is not read: in the "
                        f"spreadsheet, save it as CSV under the name {only}.csv.")
            assert f"wrong  tables: {sentence}" in ready(essays.course).lines
            desk = instructor_desk(str(essays.folder))
            assert sentence in said(desk.choose)
        if not (essays.folder / f"{name}.csv").exists():
            (essays.folder / f"{name}.csv").write_bytes(b"")


def test_the_desk_says_it_where_the_list_is_missing(essays):
    (essays.folder / "class_list.csv").rename(essays.folder / "class_list.ods")
    assert LIST in said(instructor_desk(str(essays.folder)).choose)


def test_is_all_ready_names_every_bad_line(essays):
    write(essays.folder, "received.csv", "file,received\na,soon\nb,later\n")
    write_open_questions(essays, "x\ny\n")
    lines = ready(essays.course).lines
    assert [line[15:40] for line in lines if line.startswith("wrong  tables: ")] == [
        'received.csv, line 2: "so', 'received.csv, line 3: "la', str(essays.folder)[:25]]


def test_received_is_not_begun_beside_one_in_another_format(essays, capsys):
    (essays.folder / "received.ods").write_bytes(b"")
    assert one_sentence(["received", essays.folder], capsys) == (
        "received.ods is not read: in the spreadsheet, save it as CSV under the name received.csv.\n")
    assert not (essays.folder / "received.csv").exists()
