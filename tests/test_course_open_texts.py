"""Open texts marked by hand: a mark belongs to the text that its marker saw."""
import shutil

import pytest

from handing_in import IN_TIME, LATE, REAL, STUB, TEN_DAYS_LATE, cells, give_marks, hand_in_texts
from lessons_lib.__main__ import main
from small_class import write_open_questions


def test_a_late_text_is_priced_as_late_though_a_stub_came_in_time(small):
    small.settings(LATE)
    hand_in_texts(small, (STUB, IN_TIME), (REAL, TEN_DAYS_LATE))
    hand_in_texts(small, (REAL, TEN_DAYS_LATE), bench="b011")
    assert small.mark().waiting == 3
    assert [(row["which"], row["late %"], row["text"]) for row in cells(small)] == [
        ("b010 1.5", "", STUB), ("b010 1.5", "50", REAL.strip()), ("b011 1.5", "50", REAL.strip())]
    assert [row["earlier texts"] for row in cells(small)] == ["", f"[1 words] {STUB}", ""]
    give_marks(small, 0, 3, 3)
    done = small.mark()
    assert small.rows["b010"]["1.5"] == small.rows["b011"]["1.5"] == "1.5" and done.waiting == 0
    assert small.rows["b010"]["01 late %"] == "50" and done.moved == ["b010 1.5: marked by hand: 1.5.",
                                                                      "b011 1.5: marked by hand: 1.5."]
    assert "50 % was taken off because it came late." in small.text("notes/b010.html")


@pytest.mark.parametrize("first, second, counts", [(2, 3, "2"), (1, 3, "1.5"), (3, 3, "3"), (0, 0, "0")])
def test_a_text_that_was_marked_in_time_keeps_its_mark_and_the_better_counts(small, first, second, counts):
    small.settings(LATE)
    hand_in_texts(small, ("A spade for the soil. " * 5, IN_TIME))
    small.mark()
    give_marks(small, first)
    small.mark()
    hand_in_texts(small, (REAL, TEN_DAYS_LATE))
    done = small.mark()
    assert small.rows["b010"]["1.5"] == str(first) and done.moved == []
    if first >= 1.5:        # half of the marks is left for the late one at best: nobody has to read it
        assert [row["marks"] for row in cells(small)] == [str(first)] and done.remarks == []
        return
    assert done.waiting == 1 and "the better of the two counts" in done.remarks[0]
    give_marks(small, first, second)
    small.mark()
    assert small.rows["b010"]["1.5"] == counts


def test_a_mark_that_was_being_typed_when_another_text_came_is_for_the_one_beside_it(small):
    hand_in_texts(small, ("A spade for the soil. " * 5, None))
    small.mark()
    give_marks(small, 2)
    hand_in_texts(small, (REAL, None))
    done = small.mark()
    assert [(row["marks"], row["text"][:7]) for row in cells(small)] == [("2", "A spade"), ("", "A spade")]
    assert done.moved == ["b010 1.5: marked by hand: 2."] and done.waiting == 1
    assert cells(small)[1]["earlier texts"] == f"[25 words, marked 2] {('A spade for the soil. ' * 5).strip()}"
    give_marks(small, 1, "")        # and it can still be mended
    assert small.mark().moved == ["b010 1.5: 2 (marked by hand), now 1 (marked by hand)."]
    give_marks(small, "", 3)
    small.mark()
    assert small.rows["b010"]["1.5"] == "3" and len(cells(small)) == 1


def test_a_row_without_text_id_is_for_the_text_shown_last_and_two_such_rows_are_refused(small, capsys):
    hand_in_texts(small, ("A spade for the soil. " * 5, None))
    small.mark()
    give_marks(small, 1)
    hand_in_texts(small, (REAL, None))
    small.mark()
    write_open_questions(small, "which,marks\nb010 1.5,2.5\n")
    small.mark()
    assert small.rows["b010"]["1.5"] == "2.5" and [row["marks"] for row in cells(small)] == ["1", "2.5"]
    write_open_questions(small, "which,marks\nb010 1.5,1\nb010 1.5,2.5\n")
    assert main(["mark", str(small.folder)]) == 1
    assert "has b010 1.5 twice and not both text ids" in capsys.readouterr().err


def test_a_text_taken_away_takes_its_mark_along_and_brings_it_back(small):
    hand_in_texts(small, ("A spade for the soil. " * 5, None), (REAL, None))
    small.mark()
    give_marks(small, 3)
    small.mark()
    away = small.folder / "returned" / "b010 1"
    shutil.move(away, small.home / "away")
    small.mark()
    assert small.rows["b010"]["1.5"] == "to mark"
    shutil.move(small.home / "away", away)
    small.mark()
    assert small.rows["b010"]["1.5"] == "3"


def test_a_killed_run_loses_no_mark_though_another_text_had_come(small, monkeypatch):
    """The table that held the mark is written anew in the run that reads it, and the history after it."""
    from lessons_lib.course import marks_folder
    hand_in_texts(small, ("A spade for the soil. " * 5, None))
    small.mark()
    give_marks(small, 2)
    hand_in_texts(small, (REAL, None))
    replace = marks_folder.os.replace

    def dies_before_the_history(source, target):
        if target.name == "history.jsonl":
            raise KeyboardInterrupt
        replace(source, target)

    monkeypatch.setattr(marks_folder.os, "replace", dies_before_the_history)
    with pytest.raises(KeyboardInterrupt):
        small.mark()
    monkeypatch.undo()
    small.mark()
    assert small.rows["b010"]["1.5"] == "2"


@pytest.mark.parametrize("letters, shown", [(10, "b" * 10), (9, "a" * 20)])
def test_the_last_text_is_shown_unless_it_is_shorter_than_half_of_the_longest(small, letters, shown):
    hand_in_texts(small, ("a" * 20, None), ("b" * letters, None))
    small.mark()
    assert [row["text"] for row in cells(small)] == [shown]
