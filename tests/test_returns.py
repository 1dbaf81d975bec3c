"""Returns: what a student hands in, and the one function that reads it, whatever it is given."""
import json
import math
import random
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import lessons_lib
from exercises_lesson import drawn
from lessons_lib.exercises import returns
from lessons_lib.exercises.bench import check_character
from lessons_lib.exercises.returns import LARGEST, NotRead, Returned, merged, read_return, return_bytes
from lessons_lib.exercises.verdicts import State

CODE = "7QK4M" + check_character("b017", "7QK4M")
IDS = [f"{number:016x}" for number in range(99)]


def event(number=1, time="2030-03-01T18:00:00+01:00", **what):
    return {"id": IDS[number], "number": number, "time": time, "event": "answer", "lesson": "01", "exercise": "1.1",
            "value": 5.5, "unit": "mm2", **what}


def file_of(*events, bench="b017", code=CODE, lesson="01", version=1):
    return return_bytes(bench=bench, code=code, lesson=lesson, version=version, events=events)[0]


def of_parts(**parts):
    """A file as somebody makes it who knows how: any parts, with a check code that fits."""
    content = {"format": 1, "bench": "b017", "code": CODE, "lesson": "01", "version": 1, "events": [event()], **parts}
    return json.dumps({**content, "check": returns._check_code(content)}).encode()


@pytest.fixture
def sheet(desk):
    lessons_lib.use_card(f"b017-{CODE}")
    return lessons_lib.open_sheet("01")


# ---- what the student does -------------------------------------------------------------------------------------------

def test_a_return_says_where_it_is_what_it_holds_and_what_is_missing(desk, sheet):
    sheet.answer("1.1", round(drawn("1.1", "b017").answer, 3), "mm2")
    sheet.answer("1.4", "a")
    sheet.answer("1.5", "a spade " * 12)
    sheet.predict("p1", "a", 2, "wind")
    sheet.unclear("1.2", "which posts?")
    verdict = sheet.return_work()
    path = desk / "my_work" / "return-b017-01.json"
    content = read_return(path.read_bytes())
    assert verdict.state == State.READY and verdict.text == (
        f"return-b017-01.json is in the folder {desk / 'my_work'}.\n"
        "It holds 4 of 7 answers and predictions. Missing: m1, 1.2, 1.3. Not right yet: 1.4.\n"
        f"Its check code is {content.check}; your instructor's list shows the same.")
    assert (content.card, content.bench, content.lesson, content.version) == (f"b017-{CODE}", "b017", "01", 1)
    assert [one["event"] for one in content.events] == ["answer", "answer", "answer", "prediction", "unclear"]
    assert "status" in verdict._repr_html_() and b"which posts?" in path.read_bytes()


def test_the_same_work_gives_the_same_file_and_more_work_another_code(desk, sheet):
    sheet.answer("1.1", 5.01)
    first, data = sheet.return_work().text, (desk / "my_work/return-b017-01.json").read_bytes()
    assert sheet.return_work().text == first and (desk / "my_work/return-b017-01.json").read_bytes() == data
    sheet.answer("1.1", 6.01)
    assert sheet.return_work().text.splitlines()[2] != first.splitlines()[2]


def test_other_lessons_and_damaged_lines_stay_at_home(desk, sheet):
    sheet.answer("1.1", 5.01)
    with open(desk / "my_work" / "log-b017.jsonl", "a", encoding="ascii") as log:
        for line in (event(7, value=math.nan), event(8, value=True), event(9, lesson="02"), event(10, time="noon"),
                     event(11, value=10 ** 400), event(12, more=1), event(13, value="\ud800"), event(14)):
            log.write(json.dumps(line) + "\n")
    sheet.return_work()
    content = read_return((desk / "my_work/return-b017-01.json").read_bytes())
    assert [one["value"] for one in content.events] == [5.01, 5.5]


def test_a_self_study_bench_has_nothing_to_return(desk):
    assert str(lessons_lib.open_sheet("01").return_work()) == (
        "Open. Bench b000 is for self-study: there is nothing to hand in.")
    assert not (desk / "my_work").exists()


def test_another_card_since_the_sheet_was_opened(sheet):
    lessons_lib.use_card("b000")
    assert str(sheet.return_work()) == ("Not yet. The card was changed: it is now that of b000, and this sheet is for "
                                        "b017. Run the cell with open_sheet again.")


def test_a_card_that_is_gone_since_the_sheet_was_opened(desk, sheet):
    (desk / "my_work" / "bench_card.txt").unlink()
    assert str(sheet.return_work()) == ("No bench yet. There is no card of b017 any more. Type it again on the "
                                        "page 00_start_here.")


def test_without_a_sheet_the_trouble_is_said(desk):
    assert lessons_lib.open_sheet("07").return_work().state == State.NO_SHEET


def test_a_folder_that_cannot_be_written_is_one_sentence(sheet, monkeypatch):
    sheet.answer("1.1", 5.01)
    monkeypatch.setattr(Path, "write_bytes", lambda *_: (_ for _ in ()).throw(OSError(28, "No space left on device")))
    assert sheet.return_work().text == "return-b017-01.json could not be written: No space left on device."


def test_more_than_a_return_may_hold_is_one_sentence(sheet, monkeypatch):
    monkeypatch.setattr("lessons_lib.exercises.sheet.LARGEST", 100)
    assert "more tries" in sheet.return_work().text


# ---- the reader ------------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("data, reason", [
    (b"", "incomplete, or not a return: ask for it again"),
    (b"PK\x03\x04", "it is a zip or an office document: unpack"), (b"\xff\xfe\x00", "not a text file: ask"),
    (b"[]", "it is not a return"),
    (b"null", "it is not a return"), (b'{"a": 1, "a": 2}', "it has the same name twice"),
    (b'{"a": NaN}', "not finite"), (b'{"a": -Infinity}', "not finite"), (b'{"a": 1e999}', "not finite"),
    (b'{"a": ' + b"9" * 5000 + b"}", "a number in it is too long"), (b'{"a": ' + b"9" * 17 + b"}", "too long"),
    (b"[" * 100_000, "nested too deeply"), (b'{"a":' * 100_000, "nested too deeply"),
    (b" " * (LARGEST + 1), "larger than 4 MB"),
    (file_of(event())[:-40], "incomplete"),
    (file_of(event()).replace(b"5.5", b"5.6"), "after it was made: ask for the untouched file"),
    (file_of(event()).replace(b'"version": 1', b'"version": 2'), "changed or damaged"),
])
def test_bytes_that_are_no_return(data, reason):
    read = read_return(data)
    assert isinstance(read, NotRead) and reason in read.reason


@pytest.mark.parametrize("parts, reason", [
    ({"format": 2}, "another version of the library"), ({"format": True}, "another version"),
    ({"more": 1}, "is not a return"),
    ({"bench": "b17"}, "not a card"), ({"bench": "b001", "code": ""}, "not a card"), ({"bench": 17}, "not a card"),
    ({"bench": "../b"}, "not a card"), ({"bench": "B017"}, "not a card"), ({"bench": "b٠١٧"}, "not a card"),
    ({"code": CODE.lower()}, "not a card"), ({"code": "7QK4M" + CODE[0]}, "not a card"),
    ({"code": None}, "not a card"),
    ({"lesson": "1"}, "names no lesson"),
    ({"lesson": "٠١"}, "names no lesson"), ({"lesson": ["01"]}, "names no lesson"),
    ({"version": 1.0}, "names no lesson"), ({"version": False}, "names no lesson"),
    ({"events": {}}, "no list of events"), ({"events": [3]}, "event 1 is of an unknown kind"),
    ({"events": [event(), event(event="hack")]}, "event 2 is of an unknown kind"),
    ({"events": [event(event=["answer"])]}, "of an unknown kind"),
    ({"events": [event(more=1)]}, "not have the parts"), ({"events": [{"event": "answer"}]}, "not have the parts"),
    ({"events": [event(lesson="02")]}, "belongs to another lesson"),
    ({"events": [event(value=True)]}, "at value"), ({"events": [event(value=None)]}, "at value"),
    ({"events": [event(value=[5])]}, "at value"), ({"events": [event(value="x" * 8001)]}, "at value"),
    ({"events": [event(value="\ud800")]}, "at value"), ({"events": [event(unit="m" * 21)]}, "at unit"),
    ({"events": [event(number=0)]}, "at number"), ({"events": [event(number=True)]}, "at number"),
    ({"events": [event(id="x" * 16)]}, "at id"), ({"events": [event(time="yesterday")]}, "at time"),
    ({"events": [event(time="2030-03-01T18:00:00")]}, "at time"), ({"events": [event(time=5)]}, "at time"),
    ({"events": [event(exercise="1" * 11)]}, "at exercise"),
])
def test_a_forged_return_is_refused_with_the_place(parts, reason):
    read = read_return(of_parts(**parts))
    assert isinstance(read, NotRead) and reason in read.reason


def test_every_kind_of_event_is_read():
    plain = {name: value for name, value in event().items() if name not in ("value", "unit")}
    kinds = [event(), {**plain, "value": "a"}, event(value=3), {**plain, "event": "saw", "choice": "a"},
             {**plain, "event": "prediction", "choice": "b", "sureness": 3, "reason": "ü"},
             {**plain, "event": "unclear", "line": "why?"}]
    read = read_return(b"\xef\xbb\xbf" + file_of(*kinds))     # some editor put a byte-order mark before it
    assert isinstance(read, Returned) and len(read.events) == 6
    assert isinstance(read_return(of_parts()), Returned)


GOOD = file_of(*(event(number, value=number / 7) for number in range(1, 20)))


def damages():
    """A few hundred damaged files, the same each time: cut, flipped, swapped, doubled, with pieces of JSON put in."""
    dice = random.Random(4)
    pieces = [b"[", b"{", b'"', b",", b"NaN", b"null", b"true", b"-1e999", b'"a":1', b"\\ud800", b"\x00",
              b"\xff", b"9" * 400]
    for _ in range(150):
        place, other = sorted(dice.randrange(len(GOOD)) for _ in range(2))
        yield GOOD[:place]
        yield GOOD[:place] + GOOD[other:]
        yield GOOD[:place] + bytes([GOOD[place] ^ 1 << dice.randrange(8)]) + GOOD[place + 1:]
        yield GOOD[:place] + dice.choice(pieces) + GOOD[place:]
        yield GOOD[:other] + GOOD[place:]


def test_a_few_hundred_damaged_files_are_told_or_hold_what_they_held():
    whole = read_return(GOOD)
    reads = [read_return(data) for data in damages()]
    assert len(reads) == 750 and all(isinstance(one, NotRead) or one == whole for one in reads)
    # blanks between the parts may be damaged without any harm, nothing else
    assert sum(isinstance(one, NotRead) for one in reads) > 650
    assert all(one.reason and len(one.reason) < 100 for one in reads if isinstance(one, NotRead))


JSON = st.recursive(st.none() | st.booleans() | st.integers() | st.text(max_size=9)
                    | st.floats(allow_nan=False, allow_infinity=False),
                    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=9), inner, max_size=3))


@settings(max_examples=300, deadline=None, derandomize=True)
@given(st.binary(max_size=300))
def test_any_bytes(data):
    assert isinstance(read_return(data), NotRead)


@settings(max_examples=300, deadline=None, derandomize=True)
@given(name=st.sampled_from(["format", "bench", "code", "lesson", "version", "events"]), value=JSON)
def test_any_value_in_any_place(name, value):
    assert isinstance(read_return(of_parts(**{name: value})), (NotRead, Returned))


@settings(max_examples=300, deadline=None, derandomize=True)
@given(name=st.sampled_from([*event(), "readings"]), value=JSON)
def test_any_value_in_any_place_of_an_event(name, value):
    read = read_return(of_parts(events=[{**event(), name: value}]))
    assert read.reason if isinstance(read, NotRead) else read.events[0][name] == value


def test_readings_may_hold_a_word_of_a_list():
    readings = {"table": [[0, 1280], [1, 895]], "grade": "alnico 5", "length": 17}
    read = read_return(file_of(event(readings=readings)))
    assert read.events[0]["readings"] == readings
    assert isinstance(read_return(of_parts(events=[event(readings={"grade": "x" * 500})])), NotRead)


# ---- two machines ----------------------------------------------------------------------------------------------------

def events_of(these):
    return [one for one, _ in merged(these)]


def returned(*events):
    return read_return(file_of(*events))


def test_two_machines_merge_the_same_in_any_order():
    dice = random.Random(1)
    times = [f"2030-03-01T1{dice.randrange(3)}:00:0{dice.randrange(3)}+01:00" for _ in range(30)]
    events = [event(number, time=times[number]) for number in range(1, 30)]
    a, b = returned(*events[:20]), returned(*events[10:])
    assert events_of([a, b]) == events_of([b, a]) == events_of([a, b, a]) and len(events_of([a, b])) == 29
    assert events_of([a]) == list(a.events)


def test_within_a_return_the_running_number_orders_though_the_clock_was_set_back():
    draft, final = event(5, time="2030-03-01T15:00:00+01:00"), event(6, time="2030-03-01T12:10:00+01:00")
    assert [one["number"] for one in events_of([returned(final, draft), returned(draft)])] == [5, 6]
    # another machine's entry between the two instants is not torn out of its place either
    elsewhere = event(1, time="2030-03-01T14:00:00+01:00")
    assert [one["number"] for one in events_of([returned(draft, final), returned(elsewhere)])] == [1, 5, 6]


def test_between_returns_events_are_ordered_by_the_instant_then_by_running_number():
    noon_in_two_zones = [event(3, time="2030-03-01T12:00:00+01:00"), event(2, time="2030-03-01T11:00:00+00:00"),
                         event(4, time="2030-03-01T11:59:00+01:00")]
    assert [one["number"] for one in events_of(list(map(returned, noon_in_two_zones)))] == [4, 2, 3]


def test_one_id_with_two_contents_is_two_events_in_the_same_order_whichever_is_read_first():
    a, b = returned(event(1, value=1.0)), returned(event(1, value=2.0))
    assert events_of([a, b]) == events_of([b, a]) and [one["value"] for one in events_of([a, b])] == [1.0, 2.0]


def test_each_event_comes_with_the_returns_that_hold_it():
    first, second = returned(event(1)), returned(event(1), event(2))
    assert [(one["number"], places) for one, places in merged([first, second])] == [(1, {0, 1}), (2, {1})]
