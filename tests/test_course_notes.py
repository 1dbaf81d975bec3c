"""What a student gets back: a marker's comment on their page, and pages under names that can be sent."""
import re
from html import escape

import pytest

from lessons_lib.__main__ import main
from lessons_lib.course import with_names
from lessons_lib.course.tables import defused, read_table, table_bytes
from lessons_lib.course.with_names import write_named_notes
from small_class import exercise, write_open_questions


def rows(small):
    return read_table((small.folder / "marks/open_questions.csv").read_bytes())


def write(small, text):
    (small.folder / "class_list.csv").write_text(text, encoding="utf-8")


# ---- comments --------------------------------------------------------------------------------------------------------

def test_a_comment_reaches_the_page_of_its_student_and_no_other(essays):
    table = rows(essays)
    table[0]["marks"], table[0]["comment"] = "2", "Good start.\nWhich <b>posts</b>, & why?"
    (essays.folder / "marks/open_questions.csv").write_bytes(table_bytes(tuple(table[0]), [
        tuple(row.values()) for row in table]))
    assert essays.mark().moved == ["b010 1.5: marked by hand: 2."]
    page = essays.text("notes/b010.html")
    assert f"From your instructor: {escape(table[0]['comment'])}</td>" in page and "Which <b>" not in page
    assert "From your instructor" not in essays.text("notes/b011.html")
    assert rows(essays)[0]["comment"] == table[0]["comment"] and essays.mark().moved == []


def test_a_comment_alone_is_no_mark(essays):
    write_open_questions(essays, "which,marks,comment\nb010 1.5,,Say more.\n")
    assert essays.mark().waiting == 2
    assert "Your instructor will read this one.\nFrom your instructor: Say more.</td>" in essays.text("notes/b010.html")


@pytest.mark.parametrize("text, encoding", [
    ("which,marks,comment\nb010 1.5,2.5,=Ü: see 1.4\n", "utf-8"),
    ("which\tcomment\tmarks\nb010 1.5\t=Ü: see 1.4\t2,5\n", "utf-16"),
    ("Which;Marks;COMMENT\nb010 1.5;2,5;'=Ü: see 1.4\n", "cp1252")])
def test_comments_are_read_back_as_spreadsheets_save_them_and_run_nothing(essays, text, encoding):
    write_open_questions(essays, text, encoding)
    for _ in range(3):
        essays.mark()
        assert "From your instructor: =Ü: see 1.4</td>" in essays.text("notes/b010.html")
        assert rows(essays)[0]["comment"] == defused("=Ü: see 1.4") == "'=Ü: see 1.4"


def test_a_comment_stays_where_its_row_or_its_column_is_gone_and_goes_where_it_is_emptied(essays):
    write_open_questions(essays, "which,marks,comment\nb010 1.5,2,one\nb011 1.5,1,two\n")
    essays.mark()
    write_open_questions(essays, "which,marks,comment\nb011 1.5,1,\n")
    essays.mark()
    assert [row["comment"] for row in rows(essays)] == ["one", ""]
    write_open_questions(essays, "which,marks\nb010 1.5,2\nb011 1.5,1\n")
    essays.mark()
    (essays.folder / "marks/open_questions.csv").unlink()
    essays.mark()
    assert [row["comment"] for row in rows(essays)] == ["one", ""]
    assert "From your instructor: one</td>" in essays.text("notes/b010.html")
    assert "From your instructor" not in essays.text("notes/b011.html")


def test_a_comment_stays_beside_its_text_when_another_comes(essays):
    table = rows(essays)
    table[0] |= {"marks": "1", "comment": "Too short."}
    write_open_questions(essays, table_bytes(tuple(table[0]), [tuple(row.values()) for row in table]).decode())
    essays.mark()
    student = essays.student("b010")
    student.type("1.5", "A much longer text about posts, spades and fences. " * 9)
    essays.give_back(student)
    essays.mark()
    found = [(row["marks"], row["comment"], row["text"][:8]) for row in rows(essays) if row["which"] == "b010 1.5"]
    assert found == [("1", "Too short.", "'=HYPERL"), ("", "", "A much l")]


def test_words_are_counted_for_the_marker_as_on_the_page(small):
    student = small.student()
    verdict = student.type("1.5", "庭の杭は石よりも先に打つ。" * 3)
    small.give_back(student)
    small.mark()
    assert f"Kept: {rows(small)[0]['number of words']} of at least 20 words" in verdict.text
    assert rows(small)[0]["number of words"] == "17"     # three times five ideographs and seven kana: 3 (10/3 + 7/3)


# ---- pages by name ---------------------------------------------------------------------------------------------------

@pytest.fixture
def noted(small):
    """b010, b011 and the spare b901 have handed in."""
    for bench, part in (("b010", "1.1"), ("b011", "1.4"), ("b901", "1.3")):
        student = small.student(bench)
        student.right(exercise(student, part))
        small.give_back(student)
    write(small, "bench,student,number,E-Mail,instead of\nb010,Ada Ström,0017,ada@college.invalid,\n"
                 "b011,\"Li/../Чан, =1+1\",,,\nb012,Cy,19,cy@college.invalid,\nb901,,,,b010\n")
    small.mark()
    return small


def test_one_page_for_each_student_under_their_name(noted, capsys):
    assert main(["notes-by-name", str(noted.folder)]) == 0
    said = capsys.readouterr().out
    assert "with_names/notes: 2 pages" in said and "Nothing handed in, so no page: Cy (b012)." in said
    folder = noted.folder / "with_names/notes"
    assert sorted(path.name for path in folder.iterdir()) == ["Ada Ström.html", "Li_.._Чан_ _1_1.html"]
    assert (folder / "Li_.._Чан_ _1_1.html").read_bytes() == (noted.folder / "marks/notes/b011.html").read_bytes()
    both = (folder / "Ada Ström.html").read_text(encoding="utf-8")
    assert re.findall("<h1>Bench (b\\d+)", both) == ["b010", "b901"]
    assert both.count("<html") == both.count("</html>") == 1
    letters = read_table((noted.folder / "with_names/letters.csv").read_bytes())
    assert letters == [
        {"bench": "b901", "name": "Ada Ström", "e-mail": "ada@college.invalid", "file": "notes/Ada Ström.html"},
        {"bench": "b011", "name": "Li/../Чан, \u200b=1+1", "e-mail": "", "file": "notes/Li_.._Чан_ _1_1.html"}]


def test_pages_by_number_take_the_place_of_the_others(noted, capsys):
    main(["notes-by-name", str(noted.folder)])
    assert main(["notes-by-name", str(noted.folder), "--by", "NUMBER"]) == 0
    assert sorted(path.name for path in (noted.folder / "with_names/notes").iterdir()) == ["0017.html", "b011.html"]
    assert main(["notes-by-name", str(noted.folder), "--by", "id"]) == 1
    assert 'has no column "id"; it has student, number, E-Mail.' in capsys.readouterr().err


def test_names_that_are_alike_or_are_no_names_for_files(noted):
    write(noted, "bench,student\nb010,anna\nb011,ANNA\nb901,con\nb012,Cy\n")
    noted.mark()
    _, pages, _ = write_named_notes(noted.course)
    assert pages == 3 and sorted(path.name for path in (noted.folder / "with_names/notes").iterdir()) == [
        "ANNA 2.html", "anna.html", "con b901.html"]


@pytest.mark.parametrize("names, files", [
    (("Müller", "müller", "Mu\u0308ller"), ["Müller.html", "müller 2.html", "Müller 3.html"]),
    (("Con", "aux.", "COM¹ "), ["Con b010.html", "aux b011.html", "COM¹ b901.html"]),
    (("a/b", "x:y", "a\\b"), ["a_b.html", "x_y.html", "a_b 2.html"]),
    (("Ada. ", " Ada", "nul .Eve"), ["Ada.html", "Ada 2.html", "nul _Eve b901.html"]),
    (("Straße", "STRASSE", "?*"), ["Straße.html", "STRASSE 2.html", "b901.html"]),
    (("李" * 90, "Con Brio", "Auxilia"), ["李" * 66 + ".html", "Con Brio.html", "Auxilia.html"])])
def test_every_system_takes_the_names(noted, names, files):
    """Reserved names, names that end in a point, capitals, accents: as Windows and macOS have it, from memory."""
    lines = [f"{bench},\"{name}\"" for bench, name in zip(("b010", "b011", "b901"), names)]
    write(noted, "\n".join(["bench,student", *lines, "b012,"]))
    noted.mark()
    write_named_notes(noted.course)
    assert {path.name for path in (noted.folder / "with_names/notes").iterdir()} == set(files)
    assert [row["file"] for row in read_table((noted.folder / "with_names/letters.csv").read_bytes())] == [
        f"notes/{name}" for name in files]


def test_an_old_page_goes_before_the_new_one_comes(noted, monkeypatch):
    """Where capitals do not count, the old name is the new page's, too: removed last, the page would be gone."""
    write_named_notes(noted.course)
    folder, seen = noted.folder / "with_names/notes", []
    assert (folder / "Ada Ström.html").exists()
    write(noted, "bench,student\nb010,ADA STRÖM\nb011,Bo\nb012,Cy\nb901,Di\n")
    write_whole = with_names.write_whole
    monkeypatch.setattr(with_names, "write_whole", lambda path, data: [
        seen.append((folder / "Ada Ström.html").exists()), write_whole(path, data)])
    write_named_notes(noted.course)
    assert seen == [False] * 3 and (folder / "ADA STRÖM.html").exists()


def test_before_marking_it_is_one_sentence(small, capsys):
    assert main(["notes-by-name", str(small.folder)]) == 1
    assert "There are no notes in" in capsys.readouterr().err and not (small.folder / "with_names").exists()
