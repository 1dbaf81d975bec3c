"""The log of a bench: appended line by line, read past damage, never rewritten."""
import json
import os

import pytest

import lessons_lib
from exercises_lesson import drawn
from lessons_lib.exercises.kinds.number import NumberRecord
from lessons_lib.exercises.log import Log
from lessons_lib.exercises.verdicts import State


@pytest.fixture
def path(tmp_path):
    return tmp_path / "work" / "log-b000.jsonl"


def add(log, exercise="1.1", event="answer", **what):
    return log.add(event, lesson="01", exercise=exercise, after=log.events(), **what)


def test_no_file_before_the_first_event(path):
    log = Log(path)
    assert log.events() == [] and not path.parent.exists()
    assert add(log, value=5.0) == "" and path.read_bytes().endswith(b"\n")


def test_events_come_back_in_order_and_numbered(path):
    log = Log(path)
    add(log, value=5.0), add(log, "1.2", value=6.0), add(log, value=7.0)
    assert [(event["exercise"], event["value"]) for event in Log(path).events()] == [
        ("1.1", 5.0), ("1.2", 6.0), ("1.1", 7.0)]
    assert [event["number"] for event in Log(path).events()] == [1, 2, 3]
    assert len({event["id"] for event in log.events()}) == 3


def test_a_torn_last_line_is_skipped_and_not_touched(path):
    log = Log(path)
    add(log, value=5.0), add(log, value=6.0)
    torn = path.read_bytes()[:-20]
    path.write_bytes(torn)
    assert [event["value"] for event in Log(path).events()] == [5.0]
    add(Log(path), value=7.0)
    assert [event["value"] for event in Log(path).events()] == [5.0, 7.0]
    assert path.read_bytes().startswith(torn + b"\n")


@pytest.mark.parametrize("line", [
    b"{", b"\xff\xfe", b"3", b"[" * 100_000, b'{"number": ' + b"9" * 5000 + b"}", b"\x00" * 9, b'{"number": true}',
    b'{"number": "7", "exercise": ["1.1"]}'])
def test_damaged_lines_are_passed_over(path, line):
    log = Log(path)
    add(log, value=5.0)
    with open(path, "ab") as file:
        file.write(line + b"\n")
    add(log, value=6.0)
    assert [event["value"] for event in log.events() if "value" in event] == [5.0, 6.0]
    assert log.events()[-1]["number"] == 2


def test_two_sheets_at_once_lose_nothing(path):
    first, second = Log(path), Log(path)
    for value in range(20):
        add(first, value=value), add(second, value=-value)
    assert len(Log(path).events()) == 40


def test_each_event_is_one_write(path, monkeypatch):
    add(Log(path), value=5.0)
    before = path.read_bytes()
    add(Log(path), value="ü" * 50)
    line = path.read_bytes()[len(before):]
    assert line.count(b"\n") == 1 and line.endswith(b"\n") and line.isascii()


def test_events_of_other_shapes_do_not_stop_a_sheet(desk):
    log = Log(desk / "my_work" / "log-b000.jsonl")
    for what in ({"value": [1]}, {}, {"value": "x", "unit": 3}, {"value": None}, {"value": {"a": 1}, "unit": []}):
        add(log, **what)
        add(log, "1.4", **what)
        add(log, "1.5", **what)
    add(log, "p1", "prediction")
    add(log, "p1", "saw", choice=[])
    sheet = lessons_lib.open_sheet("01")
    assert sheet.answer("1.1").state == sheet.answer("1.4").state == State.NOT_ANSWERED
    assert sheet.progress().rows and sheet.prediction("p1").made is None and sheet.prediction("p1").seen is None


def test_a_call_reads_the_log_once_and_judges_each_answer_once(desk, monkeypatch):
    reads, judged = [], []
    events, judge = Log.events, NumberRecord.judge
    monkeypatch.setattr(Log, "events", lambda log: reads.append(1) or events(log))
    monkeypatch.setattr(NumberRecord, "judge", lambda record, *answer: judged.append(1) or judge(record, *answer))
    sheet = lessons_lib.open_sheet("01")
    for number in range(11):
        reads.clear(), judged.clear()
        sheet.answer("1.1", 5 + number)
    assert (len(reads), len(judged)) == (1, 11)
    reads.clear()
    sheet.progress()
    assert len(reads) == 1


@pytest.fixture
def blocked(desk):
    """A work folder that cannot be made (whoever runs the tests): a file stands in its place."""
    (desk / "my_work").write_text("in the way")
    return desk


def test_an_answer_is_judged_where_nothing_can_be_kept(blocked):
    sheet = lessons_lib.open_sheet("01")
    right = round(drawn("1.1").answer, 2)
    for _ in range(2):
        verdict = sheet.answer("1.1", right)
        assert verdict.state == State.RIGHT and "This could not be saved in the folder " in verdict.text
    assert "could not be saved" in lessons_lib.use_card("b003").text


def test_notes_and_tries_go_on_in_memory_and_are_written_later(blocked):
    sheet = lessons_lib.open_sheet("01")
    first, second = (sheet.answer("1.1", typed).text for typed in (5.01, 6.03))
    assert first.split(" This could")[0] != second.split(" This could")[0]
    (blocked / "my_work").unlink()
    assert "could not be kept" not in sheet.answer("1.1", 8.03).text
    lines = (blocked / "my_work" / "log-b000.jsonl").read_text().splitlines()
    assert [json.loads(line)["value"] for line in lines] == [5.01, 6.03, 8.03]


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="who may write everywhere sees no refusal")
def test_a_read_only_work_folder(desk):
    (desk / "my_work").mkdir(mode=0o500)
    assert "Permission denied" in lessons_lib.open_sheet("01").answer("1.1", 5.01).text
