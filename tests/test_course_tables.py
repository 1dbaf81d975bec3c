"""Tables as spreadsheets save and read them: cells that would run, separators, encodings, lines."""
import csv
import io
import os

import pytest

from lessons_lib.course.tables import defused, numbered_rows, read_table, refuse, saved_otherwise, table_bytes


@pytest.mark.parametrize("text", ["=1+1", "+cmd", "-cmd", "@x",
                                  "  =1", "\t1", "\r=1", "\n\t=1", " \t x", "\xa0=1", "-1+1",
                                  "=", "-", "＝1", "-3.86 dB"])
def test_cells_that_would_run_are_defused(text):
    assert defused(text).replace("\u200b", "") == f"'{text}"


INSIDE = ["x ;=1+1", "x ,=1+1", "x\t=1", "x\r\n=1", "x\n\t=1", 'x ;"=1+1; y', 'x\n"+cmd|x', "x;\xa0@SUM(1)",
          "a, -b, -c", "\n\t=1", "- one\n- two", "=1;=2", "x ;-1+1", 'x;""""=1', "x,＝1", "a;;=1;"]


@pytest.mark.parametrize("text", INSIDE)
@pytest.mark.parametrize("comma", [True, False])
def test_no_formula_in_a_program_that_is_set_to_another_separator(text, comma):
    """What Python's reader makes of the table, quotes and all, is what a spreadsheet would have to run."""
    table = table_bytes(("a", "b", "c"), [("b010", text, "z"), (text, "b", text)], decimal_comma=comma)
    for delimiter in ",;\t":
        for quoting in (csv.QUOTE_MINIMAL, csv.QUOTE_NONE):
            for row in csv.reader(io.StringIO(table.decode("utf-8-sig"), newline=""), delimiter=delimiter,
                                  quoting=quoting):
                assert [cell for cell in row if cell.strip().lstrip('"').strip()[:1] in tuple("=+-@＝")] == []


@pytest.mark.parametrize("text", INSIDE)
def test_a_text_reads_as_it_was(text):
    (row,) = read_table(table_bytes(("a", "b"), [("x", text)]))
    assert row["b"].removeprefix("'").replace("\u200b", "").strip() == text.strip()


@pytest.mark.parametrize("text", ["-3.86", "+4", "-3,86", "1e-5", "-1E+5", "b017", "", "a = b", " x", "3-4", "'=1",
                                  "ü\nx", "1,5; -3.86; +2", "a, b; c\nd", "x, -3,86", "1;-2e-3\n-4"])
def test_other_cells_are_as_they_were(text):
    assert defused(text) == text


def test_tables_come_back_as_written():
    rows = [("b010", 1.5, None, 'say "x", or;\nnot'), ("=x", -2, 0, "\ud800")]
    for comma in (False, True):
        data = table_bytes(("a", "b", "c", "d"), rows, decimal_comma=comma)
        read = read_table(data)
        assert data.startswith(b"\xef\xbb\xbf") and data.count(b"\r\n") == 3
        assert read[0] == {"a": "b010", "b": "1,5" if comma else "1.5", "c": "", "d": 'say "x", or;\nnot'}
        assert read[1] == {"a": "'=x", "b": "-2", "c": "0", "d": "?"}
    plain = csv.reader(io.StringIO(data.decode("utf-8-sig"), newline=""), delimiter=";")
    assert [len(line) for line in plain] == [4, 4, 4]


def test_tables_in_two_more_encodings():
    assert read_table("bench\tx\r\nb010\tü\r\n".encode("utf-16")) == [{"bench": "b010", "x": "ü"}]
    assert read_table("bench;x\nb010;ü".encode("cp1252")) == [{"bench": "b010", "x": "ü"}]
    assert read_table(b"") == [] and read_table(b"a,b\n1\n") == [{"a": "1", "b": ""}]


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])        # the last one: "CSV (Macintosh)"
@pytest.mark.parametrize("begin", ["", "sep=;"])
def test_every_line_end_is_read(begin, end):
    text = end.join([*filter(None, [begin]), "bench;student", "b010;Ada, B, C, D", "", "b011;Bo", ""])
    assert [row for _, row in numbered_rows(text.encode())] == [{"bench": "b010", "student": "Ada, B, C, D"},
                                                                {"bench": "b011", "student": "Bo"}]


def test_lines_are_counted_where_they_begin():
    table = b'a,b\n\n1,"two\nlines"\n2,x\n'
    assert [line for line, _ in numbered_rows(table)] == [3, 5]
    with pytest.raises(ValueError, match="^A table, line 5: a quotation mark is opened there and not closed"):
        numbered_rows(table.replace(b"x", b'"x'))


@pytest.mark.parametrize("name, is_told", [
    ("open_questions.ods", True), ("open_questions.csv.ods", True), ("open_questions.xlsx", True),
    ("open_questions.csv.csv", True), ("open_questions.csv.txt", True),
    ("open_questions (copy).ods", False), ("notes.ods", False)])
def test_a_table_saved_in_another_format_is_told(tmp_path, name, is_told):
    (tmp_path / name).write_bytes(b"")
    what = "is not read: in the spreadsheet, save it as CSV under the name open_questions.csv."
    assert saved_otherwise(tmp_path, "open_questions.csv") == ([f"{name} {what}"] if is_told else [])
    (tmp_path / "open_questions.csv").write_bytes(b"")      # the table is there, and the newer of the two counts
    told = [f"{name} is newer than open_questions.csv, and {what}"] if is_told else []
    for age, says in ((-60, []), (60, told)):
        now = (tmp_path / "open_questions.csv").stat().st_mtime + age
        os.utime(tmp_path / name, (now, now))
        assert saved_otherwise(tmp_path, "open_questions.csv") == says


def test_faults_are_told_all_at_once_and_no_more_than_a_person_reads():
    refuse([])
    twenty = [str(one) for one in range(20)]
    for count, more in ((20, []), (23, ["And 3 more such lines."])):
        with pytest.raises(ValueError) as caught:
            refuse([str(one) for one in range(count)])
        assert str(caught.value).splitlines() == [*twenty, *more]
