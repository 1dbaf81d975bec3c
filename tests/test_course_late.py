"""Lateness: what each day costs, extensions, files that are not on the list."""
from unicodedata import normalize

import pytest

from lessons_lib.__main__ import main
from small_class import exercise

LATE = """
deadlines = { "01" = 2030-03-01T18:00:00+01:00 }
late = { percent_a_day = 10, at_most = 35, grace_hours = 2 }
extensions = { b011 = 1 }
"""


@pytest.mark.parametrize("received, off", [
    ("2030-03-01T20:00:00+01:00", 0), ("2030-03-01T20:00:01+01:00", 10), ("2030-03-02T20:00:00+01:00", 10),
    ("2030-03-02 20:00:01+01:00", 20), ("2031-01-01T00:00:00Z", 35), ("2030-03-01T19:00:00Z", 0)])
def test_each_day_begun_costs_up_to_a_limit(small, received, off):
    student = small.student()
    student.right(exercise(student, "1.1"))
    student.right(exercise(student, "1.4"))
    path = small.give_back(student)
    small.settings(LATE)
    small.mark()
    assert small.rows["b010"]["total"] == "3"       # without a list nothing is late
    (small.folder / "received.csv").write_text(f"file,received\n{path.relative_to(path.parents[1])},{received}\n")
    small.mark()
    assert (float(small.rows["b010"]["total"]), small.rows["b010"]["01 late %"]) == (3 * (100 - off) / 100, str(off))
    assert float(small.rows["b010"]["1.1"]) == 2 * (100 - off) / 100      # cells add up to the total
    assert (f"{off} % was taken off because it came late." in small.text("notes/b010.html")) == bool(off)
    assert ("came late" in small.text("notes/b010.html")) == bool(off)


def test_an_extension_is_for_its_bench(small):
    rows = []
    for bench in ("b010", "b011"):
        student = small.student(bench)
        student.right(exercise(student, "1.1"))
        rows.append(f"{bench}/{small.give_back(student).name};2030-03-02T19:00:00+01:00")
    small.settings(LATE)
    (small.folder / "received.csv").write_text("\ufeff" + "\n".join(["File;Received", *rows]), encoding="utf-8")
    small.mark()
    assert (small.rows["b010"]["total"], small.rows["b011"]["total"]) == ("1.8", "2")


def test_sending_more_never_costs_anything(small):
    student = small.student()
    student.all_right()
    first = small.give_back(student, "first")
    student.wrong(exercise(student, "1.1"))
    second = small.give_back(student, "second")
    small.settings(LATE)
    (small.folder / "received.csv").write_text(
        f"file,received\nfirst/{first.name},2030-03-01T18:00:00+01:00\n"
        f"second/{second.name},2030-03-09T18:00:00+01:00\n")
    small.mark()
    assert (small.rows["b010"]["total"], small.rows["b010"]["01 late %"]) == ("8", "0")


def test_what_moved_by_lateness_is_explained(small):
    student = small.student()
    student.right(exercise(student, "1.1"))
    path = small.give_back(student)
    small.settings(LATE)
    small.mark()
    (small.folder / "received.csv").write_text(f"file,received\nb010/{path.name},2030-03-03T18:00:00+01:00\n")
    assert small.mark().moved == ["b010 lesson 01: in time, now 20 % off for being late; the time of receipt or "
                                  "the rule for lateness changed."]


def test_a_file_that_is_not_on_the_list_is_in_time_and_said(small):
    small.give_back(small.student())
    small.settings(LATE)
    (small.folder / "received.csv").write_text("file,received\nother.json,2030-03-03T18:00:00\n")
    assert small.mark().remarks == ["Not in received.csv, so counted as in time: b010/return-b010-01.json.",
                                    "received.csv names what is not in the folder returned: other.json."]


def test_a_folder_counts_in_either_spelling_of_an_accent(small):
    """Unpacked on one system, the same letter may be two characters; the list was typed on another."""
    for composed, other in (("NFC", "NFD"), ("NFD", "NFC")):
        path = small.give_back(small.student(), normalize(composed, "Zoë"))
        listed = normalize(other, f"Zoë/{path.name}")
        small.settings(LATE)
        (small.folder / "received.csv").write_text(f"file,received\n{listed},2030-03-03T18:00:00\n", encoding="utf-8")
        assert small.mark().remarks == []
        path.unlink()


def test_a_time_that_cannot_be_read_is_one_sentence(small, capsys):
    (small.folder / "received.csv").write_text("file,received\nb010/x.json,yesterday\n")
    assert main(["mark", str(small.folder)]) == 1
    assert 'received.csv, line 2: "yesterday" for "b010/x.json" is not a date and time' in capsys.readouterr().err
