"""A return: one readable file made from a bench's log, the only thing that comes back, and the one reader of it.

The reader takes any bytes: it gives a record or a reason, and never raises.
"""
import hashlib
import json
import math
import re
from dataclasses import dataclass
from datetime import datetime

from lessons_lib.base.units import LONGEST
from lessons_lib.exercises.bench import ALPHABET, read_card
from lessons_lib.exercises.entries import LONGEST_WORD, MOST_ENTRIES, MOST_ROWS
from lessons_lib.exercises.reading import LONGEST_TEXT, ONE_LINE

RETURN_FORMAT = 1
_ZIP = b"PK\x03\x04"
LARGEST = 4_000_000  # bytes; a busy student's lesson has a few ten thousand
_PARTS = {"format", "bench", "code", "lesson", "version", "events", "check"}


@dataclass(frozen=True, kw_only=True)
class Returned:
    """What a return holds; *card* is the typed one, *check* the short code that student and instructor compare."""

    card: str
    lesson: str
    version: int
    events: tuple
    check: str

    @property
    def bench(self):
        """The bench that the return says it is from."""
        return self.card.partition("-")[0]


@dataclass(frozen=True)
class NotRead:
    """Why some bytes are no return: *reason* is part of a sentence."""

    reason: str


def return_bytes(*, bench, code, lesson, version, events):
    """Return (bytes of the file, its check code); events that no reader would take are left out."""
    content = {"format": RETURN_FORMAT, "bench": bench, "code": code, "lesson": lesson, "version": version,
               "events": [event for event in events if not _fault(event, lesson)]}
    check = _check_code(content)
    return (json.dumps({**content, "check": check}, indent=1, allow_nan=False) + "\n").encode(), check


def read_return(data):
    """Return the `Returned` in the bytes *data*, or a `NotRead` that says why they are none.

    Refused: more bytes than `LARGEST`; what is not JSON; numbers that are not finite or absurdly long; a name that
    stands twice; anything missing, added, or of another type; a check code that does not fit the content.
    """
    if len(data) > LARGEST:
        return NotRead(f"it is larger than {LARGEST // 1_000_000} MB")
    try:
        return _returned(_content(data))
    except ValueError as error:
        return NotRead(str(error))
    except RecursionError:
        return NotRead("it is nested too deeply")


def _content(data):
    if data.startswith(_ZIP):
        raise ValueError("it is a zip or an office document: unpack it here, or ask for the return itself")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise ValueError("it is not a text file: ask for the return itself") from None
    try:
        return json.loads(text, object_pairs_hook=_without_doubles, parse_constant=_refused_number,
                          parse_int=_short_integer, parse_float=_finite)
    except json.JSONDecodeError:
        raise ValueError("it is incomplete, or not a return: ask for it again") from None


def _without_doubles(pairs):
    found = dict(pairs)
    if len(found) < len(pairs):
        raise ValueError("it has the same name twice")
    return found


def _refused_number(text):
    raise ValueError("a number in it is not finite")


def _short_integer(text):
    if len(text) > 16:
        raise ValueError("a number in it is too long")
    return int(text)


def _finite(text):
    return float(text) if math.isfinite(float(text)) else _refused_number(text)


def _returned(content):
    if not isinstance(content, dict) or set(content) != _PARTS:
        raise ValueError("it is not a return: ask for the file that sheet.return_work() writes")
    if not (type(content["format"]) is int and content["format"] == RETURN_FORMAT):
        raise ValueError("it was made by another version of the library: ask for it again, from the newest pack")
    lesson, version, events, check = (content[name] for name in ("lesson", "version", "events", "check"))
    if not _is_text(lesson, 2) or not re.fullmatch(r"\d\d", lesson, re.ASCII) or type(version) is not int:
        raise ValueError("it names no lesson")
    if not isinstance(events, list):
        raise ValueError("it has no list of events")
    for place, event in enumerate(events, start=1):
        if fault := _fault(event, lesson):
            raise ValueError(f"event {place} {fault}")
    if check != _check_code({name: content[name] for name in content if name != "check"}):
        raise ValueError("something in it was changed or damaged after it was made: ask for the untouched file")
    return Returned(card=_card(content), lesson=lesson, version=version, events=tuple(events), check=check)


def _card(content):
    bench, code = content["bench"], content["code"]
    card = f"{bench}-{code}" if _is_text(bench, 5) and _is_text(code, 6) else ""
    try:
        if "-".join(read_card(card)) == card:
            return card
    except ValueError:
        pass
    raise ValueError("its bench and code are not a card")


def _check_code(content):
    text = json.dumps(content, sort_keys=True, ensure_ascii=True, allow_nan=False)
    bits = int.from_bytes(hashlib.sha256(text.encode()).digest()[:4], "big")
    characters = [ALPHABET[bits >> 5 * place & 31] for place in range(6)]
    return f"{''.join(characters[:3])}-{''.join(characters[3:])}"


# ---- events ----------------------------------------------------------------------------------------------------------

def _is_text(value, longest):
    # lone surrogates are JSON but can be written to no file
    return isinstance(value, str) and len(value) <= longest and not re.search("[\ud800-\udfff]", value)


def _is_number(value):
    return type(value) is float and math.isfinite(value) or type(value) is int and abs(value) < 10 ** 16


def _is_time(value):
    if not _is_text(value, 40):
        return False
    try:
        time = datetime.fromisoformat(value)
        return time.tzinfo is not None and math.isfinite(time.timestamp())
    except (ValueError, OverflowError):
        return False


def _is_letter(value):
    return _is_text(value, 1) and "a" <= value <= "z"


def _is_row(value):
    return isinstance(value, list) and 0 < len(value) <= MOST_ENTRIES and all(map(_is_number, value))


def _is_table(value):
    return isinstance(value, list) and 0 < len(value) <= MOST_ROWS and all(map(_is_row, value))


def _has_entries(value, is_one):
    """Whether a value is a small dict of plain names, each with what *is_one* takes."""
    return (isinstance(value, dict) and 0 < len(value) <= MOST_ENTRIES
            and all(_is_text(name, LONGEST_WORD) and is_one(one) for name, one in value.items()))


def _is_design(value):
    return _has_entries(value, lambda one: _is_number(one) or _is_text(one, LONGEST_WORD) or _is_row(one))


def _is_readings(value):
    return (_has_entries(value, lambda one: _is_number(one) or _is_text(one, ONE_LINE) or _is_table(one))
            and not isinstance(value.get("table"), str))


def _is_sureness(value):
    return type(value) is int and 1 <= value <= 3


_ALWAYS = {"id": lambda value: _is_text(value, 16) and bool(re.fullmatch("[0-9a-f]{16}", value)),
           "number": lambda value: type(value) is int and 0 < value < 10 ** 9,
           "time": _is_time, "event": lambda value: _is_text(value, 20),
           "lesson": lambda value: _is_text(value, 2), "exercise": lambda value: _is_text(value, 10)}
_EVENTS = {
    "answer": {"value": lambda value: _is_number(value) or _is_text(value, LONGEST_TEXT) or _is_design(value),
               "unit": lambda value: _is_text(value, LONGEST), "readings": _is_readings},
    "prediction": {"choice": _is_letter, "sureness": lambda value: value is None or _is_sureness(value),
                   "reason": lambda value: _is_text(value, ONE_LINE)},
    "saw": {"choice": _is_letter},
    "unclear": {"line": lambda value: _is_text(value, ONE_LINE)},
}


def _fault(event, lesson):
    """Return what is wrong with an event of *lesson*, or an empty text."""
    if not isinstance(event, dict) or not _is_text(event.get("event"), 20) or event["event"] not in _EVENTS:
        return "is of an unknown kind"
    known = {**_ALWAYS, **_EVENTS[event["event"]]}
    # a letter, a text or a design is answered without unit, and few answers come with readings
    if not set(known) - {"unit", "readings"} <= set(event) <= set(known):
        return "does not have the parts it should"
    if wrong := [name for name in event if not known[name](event[name])]:
        return f"cannot be read at {wrong[0]}"
    return "" if event["lesson"] == lesson else "belongs to another lesson"


def merged(returns):
    """Return (event, places of those that hold it) of every different event of several `Returned`, in order.

    Notes
    -----
    Within a return the running number orders, whatever the clock said. Between returns it is the clock, held where it
    was set back: no event is earlier than one with a smaller number in the same return. Two contents under one id are
    two events. In which order the returns come changes nothing but the places.
    """
    found = {}
    for place, one in enumerate(returns):
        latest = -math.inf
        for number, instant, content, event in sorted(map(_sortable, one.events), key=lambda known: known[:3]):
            latest = max(latest, instant)
            kept = found.setdefault(content, [latest, number, event, set()])
            kept[0] = min(kept[0], latest)
            kept[3].add(place)
    ordered = sorted(found.items(), key=lambda pair: (*pair[1][:2], pair[0]))
    return [(event, places) for _, (_, _, event, places) in ordered]


def _sortable(event):
    """(running number, instant, the whole as text, event)."""
    return (event["number"], datetime.fromisoformat(event["time"]).timestamp(), json.dumps(event, sort_keys=True),
            event)
