"""Dates and times as people and spreadsheets write them; where day and month could be swapped, the table must tell."""
import re
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, timezone
from unicodedata import normalize

FIRST_YEAR, LAST_YEAR = 2020, 2099      # a year outside of these is a slip of the keyboard
_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
           "November", "December")
_MONTH = "|".join(f"{name[:3]}(?:{name[3:]}|t)?" for name in _MONTHS)       # t: Sept
_WEEKDAY = r"(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*[.,]* "
_DAY = r"(\d{1,2})(?:st|nd|rd|th)?"
_DATES = (re.compile(r"(?P<first>\d{4}|\d{1,2})(?P<mark>[-/.]) ?(?P<second>\d{1,2})(?P=mark) ?"
                     r"(?P<third>\d{4}|\d{1,2})\.?"),
          re.compile(rf"{_DAY}\.?[ -]?(?:of )?({_MONTH})\.?[ -]?,? ?(\d{{4}})", re.IGNORECASE),
          re.compile(rf"({_MONTH})\.? {_DAY},? (\d{{4}})", re.IGNORECASE))
_TIME = re.compile(r"(?P<hour>\d{1,2})(?:[:.h](?P<minute>\d\d)(?:[:.](?P<second>\d\d)(?:[.,]\d+)?)?)?"
                   r"(?: ?(?P<half>[ap])\.?m\.?)?(?P<word> ?(?:h|uhr))?"
                   r"(?: ?(?P<zone>z|utc|gmt|[+-]\d\d:?\d\d)(?: \(\w+\))?)?", re.IGNORECASE)
_BEFORE_TIME = re.compile(r"(?:,|T| at| um)? ?")


@dataclass(frozen=True)
class NotADate:
    """Why a text is no date and time: *reason* is part of a sentence."""

    reason: str


def read_dates(texts):
    """Return what each of the *texts* of one table says: a datetime, None for an empty one, or a `NotADate`.

    Parameters
    ----------
    texts : sequence of str

    Returns
    -------
    list
        In the order of the texts. Times without a zone are those of this machine; a date alone is its first minute.

    Notes
    -----
    Read are the forms of ISO 8601, 10.11.2025, 10/11/2025 and 10-11-2025 (also with two figures of the year), dates
    with an English month, and the Date line of a mail (RFC 5322); then a time such as 17:00, 17.00, 17h30, 5 pm. Points
    between figures mean that the day comes first. With other marks a line counts where only one order gives a date, or
    where such lines of the same table all have the same order; "10/11/2025" alone is refused.

    Examples
    --------
    >>> [one.isoformat() for one in read_dates(["10/11/2025 5 pm Z", "25/11/2025 17:00 Z"])]
    ['2025-11-10T17:00:00+00:00', '2025-11-25T17:00:00+00:00']
    >>> read_dates(["10/11/2025 5 pm"])[0].reason
    'could be 10 November 2025 or 11 October 2025, and no other line tells which: write 2025-11-10 or 2025-10-11'
    """
    read = [_as_typed_date(" ".join(normalize("NFKC", text).split())) for text in texts]
    settled = {next(iter(one.days)) for one in read if isinstance(one, _Typed) and one.in_table and len(one.days) == 1}
    return [one.settled(settled) if isinstance(one, _Typed) else one for one in read]


@dataclass(frozen=True)
class _Typed:
    """A date as typed: order of its parts ("dmy", ...) -> date; *in_table* where other lines may tell the order."""

    days: dict
    clock: time
    in_table: bool = False

    def settled(self, orders):
        days = set(self.days.values())
        if len(days) > 1 and len(orders) == 1:
            days = {self.days[order] for order in orders & set(self.days)} or days
        if len(days) == 1:
            return datetime.combine(days.pop(), self.clock).astimezone()
        days = list(dict.fromkeys(self.days.values()))
        words = " or ".join(f"{one.day} {_MONTHS[one.month - 1]} {one.year}" for one in days)
        return NotADate(f"could be {words}, and no other line tells which: write {' or '.join(map(str, days))}")


_NO_DATE = NotADate("is not a date and time; write one such as 2030-10-10 18:00")


def _as_typed_date(text):
    """Return a datetime, a `_Typed`, None or a `NotADate`."""
    if not text:
        return None
    try:
        found = datetime.fromisoformat(text)
        return found.astimezone() if FIRST_YEAR <= found.year <= LAST_YEAR else _NO_DATE
    except (ValueError, OverflowError):
        pass
    bare = re.sub(f"^{_WEEKDAY}", "", text, flags=re.IGNORECASE)
    for pattern in _DATES:
        if found := pattern.match(bare):
            rest = bare[found.end():]
            clock = _clock(rest[_BEFORE_TIME.match(rest).end():]) if rest else time()
            if clock is not None and (days := _days_by_order(found)):
                parts = found.groupdict()       # whether another order of these figures would be a date, too
                in_table = bool(parts) and parts["mark"] != "." and len(parts["first"]) < 4
                return _Typed(days, clock, in_table)
    return _NO_DATE


def _days_by_order(found):
    """Return order -> date of a match of one of the `_DATES`, those orders alone that give one."""
    if "mark" not in found.groupdict():
        day, month, year = found.groups() if found[1].isdecimal() else (found[2], found[1], found[3])
        return _possible_days({"dmy": (year, 1 + [name[:3] for name in _MONTHS].index(month[:3].capitalize()), day)})
    first, second, third = found["first"], found["second"], found["third"]
    if len(first) == 4:
        return _possible_days({"ymd": (first, second, third)}) if len(third) < 3 else {}
    if len(third) == 4 or found["mark"] == ".":
        orders = {"dmy": (third, second, first), "mdy": (third, first, second)}
        return _possible_days({"dmy": orders["dmy"]} if found["mark"] == "." else orders)
    return _possible_days({"dmy": (third, second, first), "mdy": (third, first, second), "ymd": (first, second, third)})


def _possible_days(orders):
    days = {}
    for order, (year, month, day) in orders.items():
        year = int(year) + 2000 if len(year) == 2 else int(year)
        if FIRST_YEAR <= year <= LAST_YEAR:
            try:
                days[order] = date(year, int(month), int(day))
            except ValueError:
                pass        # no such day
    return days


def _clock(text):
    """Return the time of day in a text, with its zone where it has one; None where it is none."""
    found = _TIME.fullmatch(text)
    if not found or not (found["minute"] or found["half"] or found["word"]):
        return None
    hour = int(found["hour"])
    if found["half"]:
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + 12 * (found["half"].lower() == "p")
    zone, named = None, found["zone"]
    try:
        if named:
            away = timedelta(hours=int(named[1:3]), minutes=int(named[-2:])) if named[0] in "+-" else timedelta()
            zone = timezone(-away if named[0] == "-" else away)
        return time(hour, int(found["minute"] or 0), int(found["second"] or 0), tzinfo=zone)
    except ValueError:
        return None
