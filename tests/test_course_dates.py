"""Dates as people type them: ISO 8601, spreadsheets of several countries, mails; what could be two days is refused."""
import os
import time
from datetime import datetime, timezone
from email.utils import format_datetime

import pytest

from lessons_lib.course.dates import NotADate, read_dates

TENTH = datetime(2025, 11, 10, 17, 0).astimezone()


def one(text, *others):
    return read_dates([text, *others])[0]


@pytest.mark.parametrize("text", [
    "2025-11-10 17:00", "2025-11-10T17:00:00", "20251110T1700", "2025-W46-1T17:00",         # ISO 8601
    "10.11.2025 17:00", "10.11.2025 17.00", "10.11.25 17:00:00", "10. 11. 2025 17:00", "10.11.2025 um 17 Uhr",
    "10.11.2025, 17:00 Uhr", "2025/11/10 17:00", "2025. 11. 10. 17:00", "10.11.2025 17h", "10.11.2025 17h00",
    "10 Nov 2025 17:00", "10-Nov-2025 5:00 PM", "10th of November 2025, 5 p.m.", "November 10, 2025 5 pm",
    "Nov 10 2025 at 5pm", "Monday, November 10, 2025 5:00 PM", "  10\u00a0Nov\u00a02025  5:00\u202fPM ",
    "１０.１１.２０２５ １７:００", "١٠.١١.٢٠٢٥ ١٧:٠٠"])
def test_usual_spellings_of_one_evening(text):
    assert one(text) == TENTH


@pytest.mark.parametrize("text, hour, minute", [
    ("10.11.2025", 0, 0), ("10.11.2025 12 am", 0, 0), ("10.11.2025 12 pm", 12, 0), ("10.11.2025 12:30 a.m.", 0, 30),
    ("10.11.2025 00:00", 0, 0), ("10.11.2025 9:05", 9, 5), ("10.11.2025 23:59:59", 23, 59)])
def test_the_time_of_day(text, hour, minute):
    found = one(text)
    assert (found.date(), found.hour, found.minute) == (TENTH.date(), hour, minute)


def test_the_date_line_of_a_mail():
    """RFC 5322, as the standard library's email package writes it."""
    moment = datetime(2025, 11, 10, 17, 0, 5, tzinfo=timezone.utc)
    assert one(format_datetime(moment)) == one(f"{format_datetime(moment)} (UTC)") == moment
    assert one("Mon, 10 Nov 2025 18:00:05 +0100 (CET)") == moment == one("10.11.2025 17:00:05 GMT")
    assert one("2025-11-10 12:00:05-05:00") == moment == one("10 Nov 2025 12:00:05 -0500")


@pytest.mark.skipif(not hasattr(time, "tzset"), reason="no tzset here")
def test_without_a_zone_it_is_the_time_of_this_machine(monkeypatch):
    """A machine two hours east of Greenwich, POSIX's spelling."""
    monkeypatch.setenv("TZ", "XXX-2")
    time.tzset()
    try:
        assert one("10.11.2025 17:00") == datetime(2025, 11, 10, 15, tzinfo=timezone.utc)
    finally:
        monkeypatch.delenv("TZ")
        time.tzset()
        assert "TZ" not in os.environ


# ---- day and month ---------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("text, day", [("25/11/2025 17:00", 25), ("11/25/2025 17:00", 25), ("11/11/2025 17:00", 11),
                                       ("25-11-2025 17:00", 25), ("13/11/25 17:00", 13), ("25-11-10 17:00", 10)])
def test_what_can_be_one_day_only(text, day):
    assert (one(text).year, one(text).month, one(text).day) == (2025, 11, day)


@pytest.mark.parametrize("text, words", [
    ("10/11/2025 5 pm", "could be 10 November 2025 or 11 October 2025"), ("1-2-2026", "1 February 2026 or 2 January"),
    ("10/11/25", "10 November 2025 or 11 October 2025"), ("26/11/25", "26 November 2025 or 25 November 2026")])
def test_what_can_be_two_days_is_refused_and_both_are_named(text, words):
    assert words in one(text).reason and "no other line tells which: write 202" in one(text).reason


@pytest.mark.parametrize("others, month", [(["25/11/2025"], 11), (["11/25/2025"], 10), (["", "13-1-2026", "x"], 11),
                                           (["25/11/2025", "2025/11/25", "25.11.2025"], 11),
                                           (["25/11/2025", "30/11/2025 9:00"], 11)])
def test_other_lines_of_the_table_settle_it(others, month):
    assert one("10/11/2025 17:00", *others).month == month


@pytest.mark.parametrize("others", [["25/11/2025", "11/25/2025"], ["13/11/25", "25-11-10"],
                                    ["25.11.2025", "2025-11-25", "25 Nov 2025"],
                                    ["11/11/2025"], ["12/11/2025"]])
def test_a_table_that_speaks_for_both_or_for_none_settles_nothing(others):
    assert isinstance(one("10/11/2025 17:00", *others), NotADate)


def test_two_figures_of_the_year_are_settled_by_the_others():
    assert one("26/11/25", "13/11/25").date().isoformat() == "2025-11-26"
    assert isinstance(one("26/11/25", "2025-11-25 18:00"), NotADate)


# ---- what is none ----------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("text", [
    "soon", "10", "17:00", "10.11.", "10.11.2025 17", "10.11.2025 25:00", "10.11.2025 13 pm", "10.11.2025 0 am",
    "30.2.2026", "32/1/2026", "13/13/2026", "2025-13-01", "10.11.1925", "10.11.2205 17:00", "0001-01-01",
    "9999-12-31", "10 Nevember 2025", "10.11-2025", "10.11.2025 17:00 CET", "10.11.2025 17:00 tomorrow", "=NOW()",
    "10.11.2025 17:60", "10/2025/11", "2025-11-10 17:00+99:99", "10.11.2025 17:00 +9999", "1" * 5000, "\0"])
def test_what_is_no_date_gets_one_reason(text):
    found = one(text)
    assert isinstance(found, NotADate) and found.reason.startswith("is not a date and time; write one such as 2030")


def test_nothing_is_none_and_each_text_has_its_place():
    assert read_dates(["", " \u00a0", "x", "2025-11-10 17:00"])[:2] == [None, None]
    assert read_dates(["", "x", "2025-11-10 17:00"])[2] == TENTH
    assert read_dates([]) == []
