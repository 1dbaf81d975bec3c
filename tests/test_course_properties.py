"""Marks of random histories: tries, returns, deadlines, extensions, marks by hand, on a lesson with every kind.

`plain_marks` is the README's rules once more, as short as can be and without a line of the library's marking: formulas
of the made-up lesson typed here, every answer looked at alone, every pair of answers tried.
"""
import hashlib
import math
import random
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from itertools import product
from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises_all_kinds import ALL
from exercises_workbench import EXAMPLE
from lessons_lib.course.mark import lesson_marks
from lessons_lib.course.marking import Marker
from lessons_lib.course.settings import Late, Settings
from lessons_lib.exercises.draws import draw_lesson
from lessons_lib.exercises.functions import claim_text
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.returns import Returned, merged
from test_exercises_function import walk

BENCH, SECRET = "b010", "a fixed secret of at least thirty-two characters"
DRAWN = draw_lesson(ALL, secret=SECRET, bench=BENCH)
SHEET = make_sheet(ALL, secret=SECRET, bench=BENCH, drawn=DRAWN)
GIVEN = {exercise_id: drawn.shown for exercise_id, drawn in DRAWN.items()}
DEADLINE = datetime(2030, 3, 1, 18, tzinfo=timezone.utc)

# ---- right answers and slips, in the asked units, by formulas typed again --------------------------------------------

DIAMETER, SHARE = GIVEN["1.1"]["diameter"], GIVEN["1.1"]["share"] / 100
WHOLE = math.pi * DIAMETER ** 2 / 4
POND, DEPTH = SHARE * WHOLE, GIVEN["1.6"]["depth"]
RIGHT = {"1.1": POND, "1.2": sum(GIVEN["1.2"]["speed"]) / 5, "1.3": 20 * math.log10(GIVEN["1.3"]["ratio"]),
         "1.6": POND / DEPTH}
UNITS = {"1.1": "mm2", "1.2": "m/s", "1.3": "dB", "1.6": "mm", "1.8": "N/m"}
TOLERANCE = {"1.1": 0.02, "1.2": 0.03, "1.6": 0.02}
MOST = {"1.1": 2, "1.2": 1, "1.3": 1, "1.4": 1, "1.5": 3, "1.6": 3, "1.7": 2, "1.8": 3, "1.9": 3}
SLIP_MARKS = {"1.1": {"open part": 0.5, "all of it": 1.5}, "1.7": {"backwards": 1}, "1.8": {"one reading": 2}}
FORCE, STRETCH = np.array([row[0] for row in EXAMPLE["table"]]), np.array([row[1] for row in EXAMPLE["table"]]) / 1e3
STIFFNESS, LAST_READING = float(np.polyfit(STRETCH, FORCE, 1)[0]), 5 / 43.8e-3
LIMITS = GIVEN["1.9"]
TEXTS = ("oops", "A spade.", "A spade, because the soil is heavy and wet after the winter.",
         "A fork, since it goes between the stones where a spade stops at the first of them, and lifts more.")


def claim(factor, shift=0.0):
    """Readings of a function that gives *factor* times the cart's speed, and *shift* more."""
    return claim_text(SHEET["exercises"]["1.7"]["parts"],
                      walk.readings(lambda place, time: factor * np.gradient(place, time) + shift))


VALUES = {
    "1.1": [(factor * POND, "mm2") for factor in (1, 1.011, 1.15, 0.85, 4, -1)]
    + [(WHOLE, "mm2"), (WHOLE - POND, "mm2"), (POND / 100, "cm2"), (4.4, "mm2"), (1e9, "mm2"), ("1,5", "mm2")],
    "1.2": [(factor * RIGHT["1.2"], "m/s") for factor in (1, 1.2)] + [(GIVEN["1.2"]["speed"][0], "m/s")],
    "1.3": [(RIGHT["1.3"] + more, "dB") for more in (0, 0.09, 0.3)],
    "1.4": [("a",), ("b",), ("c",), ("z",)],
    "1.5": [(text,) for text in TEXTS],
    "1.6": [(float(f"{factor * POND / DEPTH:.4g}"), "mm") for factor in (1, 1.011, 1.15, 0.85, 4, -1, 1.3)]
    + [(float(f"{WHOLE / DEPTH:.4g}"), "mm"), (4.4 / DEPTH, "mm")],
    "1.7": [(claim(1),), (claim(-1),), (claim(1.2),), (claim(1, 0.001),), ("largest speed",)],
    "1.8": [(number, "N/m", {"table": EXAMPLE["table"], "hook": 20.0}) for number in (STIFFNESS, LAST_READING, 90.0)]
    + [(STIFFNESS, "N/m")],
    "1.9": [({"posts": posts, "board": board, "height": height},)
            for posts, board, height in product((2, round(LIMITS["least_area"] / 1.4), 20), (1, 3.0), (1.5, 2.0))],
    "m1": [("a",), ("b",)],
}


# ---- the rules, once more --------------------------------------------------------------------------------------------

def days_begun(late):
    """Days, begun ones counted, of a time after the deadline."""
    return max(0, math.ceil(late / timedelta(days=1)))


def taken_off(received, rule):
    """Share that a return received then loses; one that is not on the list came in time."""
    if received is None:
        return 0
    late = received - DEADLINE - timedelta(hours=rule["grace_hours"]) - timedelta(days=rule["extension"])
    return min(rule["percent_a_day"] * days_begun(late), rule["at_most"], 100) / 100


def is_near(number, right, tolerance):
    return number * right > 0 and right * (1 - tolerance) <= number <= right * (1 + tolerance) if right > 0 else (
        right * (1 + tolerance) <= number <= right * (1 - tolerance))


def stands_for(exercise, value, unit=None, readings=None):
    """What one answer earns by itself; None for an answer that cannot be read."""
    if exercise == "1.4":
        return {"a": 0, "b": 0, "c": 1}.get(value)
    if exercise == "1.7":
        return {claim(1): 2, claim(-1): 1, claim(1.2): 0, claim(1, 0.001): 2}.get(value)
    if exercise == "1.8":
        if readings is None:
            return None
        return 3 if abs(value - STIFFNESS) <= 0.02 * STIFFNESS else 2 if value == LAST_READING else 0
    if exercise == "1.9":
        area, weight = value["posts"] * value["board"] / 2, 30 * value["posts"] * value["height"] + 12 * value["board"]
        return sum((area >= LIMITS["least_area"], weight <= LIMITS["most_weight"],
                    value["height"] >= LIMITS["least_height"]))
    if not isinstance(value, float):
        return None
    value = value * {"cm2": 100}.get(unit, 1)
    right = RIGHT[exercise]
    if exercise == "1.3":
        return int(abs(value - right) <= 0.1)
    if is_near(value, right, TOLERANCE[exercise]):
        return MOST[exercise]
    slips = {"1.1": {WHOLE - POND: 0.5, WHOLE: 1.5}}.get(exercise, {})
    return max((marks for number, marks in slips.items() if value == number), default=0)


def from_own(value, earlier):
    """Whether a depth is right by an own pond, which has to be a possible one."""
    own, unit = earlier
    own = own * {"cm2": 100}.get(unit, 1) if isinstance(own, float) else math.nan
    return 4 <= own <= 14 and is_near(value, own / DEPTH, 0.02)


def plain_marks(returns, rule, by_hand):
    """Exercise -> marks, from (received, events) of each return."""
    answers = [(one["exercise"], one["value"], one.get("unit"), one.get("readings"), taken_off(received, rule))
               for received, events in returns for one in events if one["event"] == "answer"]
    best = dict.fromkeys(MOST, 0.0)
    for exercise, value, unit, readings, off in answers:
        if exercise == "1.5":
            earned = by_hand.get(value)
        else:
            earned = stands_for(exercise, value, unit, readings) if exercise in MOST else None
        if earned is not None:
            best[exercise] = max(best[exercise], earned * (1 - off))
    for exercise, value, _, _, off in answers:
        for before, earlier, unit, _, off_before in answers:
            if (exercise, before) == ("1.6", "1.1") and from_own(value, (earlier, unit)):
                best["1.6"] = max(best["1.6"], 3 * rule["carried_forward"] * (1 - max(off, off_before)))
    return best


# ---- random histories ------------------------------------------------------------------------------------------------

EVERY_TRY = [(exercise, which) for exercise, values in VALUES.items() for which in range(len(values))]
# what is rare among them: wrong values and depths that fit them; texts of all lengths; designs
METHOD = [("1.1", which) for which in (2, 3, 9)] + [("1.6", which) for which in (2, 3, 8, 6)]
SOME = [METHOD, [one for one in EVERY_TRY if one[0] == "1.5"], [one for one in EVERY_TRY if one[0] in ("1.7", "1.9")]]


def try_of(which, clock, machine, number):
    """An event; its time may go back, as clocks do that are set."""
    exercise, which = which
    value, *more = VALUES[exercise][which]
    time = DEADLINE - timedelta(days=2) + timedelta(hours=clock)
    return {"id": f"{machine:08x}{number:08x}", "number": number, "time": time.isoformat(), "event": "answer",
            "lesson": "01", "exercise": exercise, "value": value, **dict(zip(("unit", "readings"), more))}


HOURS = (None, -30, -1, 1, 5, 6, 30, 47, 100, 200)     # after the deadline; None is not on the list


def a_log(dice, machine):
    """The tries on one machine: on all exercises, or on a few again and again."""
    these = dice.choice([EVERY_TRY, METHOD, *SOME])
    return [try_of(dice.choice(these), dice.randint(0, 200), machine, number)
            for number in range(1, dice.randint(0, 14) + 1)]


def a_time(dice):
    hours = dice.choice(HOURS)
    return None if hours is None else DEADLINE + timedelta(hours=hours)


@dataclass
class History:
    """What one bench did, under which rule of lateness, and what its marker gave each text; drawn from *dice*."""

    dice: random.Random

    def __post_init__(self):
        dice = self.dice
        self.logs = [a_log(dice, machine) for machine in range(dice.choice((1, 1, 2)))]
        self.returns = [(a_time(dice), log[:dice.choice((len(log), dice.randint(0, len(log))))])
                        for log in self.logs for _ in range(dice.randint(1, 3))]
        self.by_hand = {text: dice.choice((0.0, 1.0, 2.5, 3.0)) for text in TEXTS if dice.random() < 0.6}
        self.rule = {"percent_a_day": dice.choice((10, 10, 33.3, 100)), "at_most": dice.choice((0, 35, 50, 100, 100)),
                     "grace_hours": dice.choice((0, 5)), "extension": dice.choice((0, 1, 2.5)),
                     "carried_forward": dice.choice((0.0, 0.5, 1.0))}

    def marks(self, returns=None):
        """Exercise -> marks, of these *returns*."""
        one = marked(self.returns if returns is None else returns, self.rule, self.by_hand)
        return {exercise_id: outcome.marks or 0 for exercise_id, outcome in one.outcomes.items()}


HISTORIES = st.randoms(use_true_random=True).map(History)


def marked(returns, rule, by_hand):
    """Exercise -> `Outcome`, by the library."""
    late = Late(**{name: rule[name] for name in ("percent_a_day", "at_most", "grace_hours")})
    course = SimpleNamespace(settings=Settings(deadlines={"01": DEADLINE}, late=late, slip_marks=SLIP_MARKS,
                                               carried_forward=rule["carried_forward"]))
    ids = {hashlib.sha256(text.encode()).hexdigest()[:8]: marks for text, marks in by_hand.items()}
    arrivals = [SimpleNamespace(file=f"{place}.json", received=received, content=Returned(
        card=BENCH, lesson="01", version=1, events=tuple(events), check=f"C{place}"))
        for place, (received, events) in enumerate(returns)]
    marker = Marker(ALL, SHEET, DRAWN, course.settings, {"1.5": ids})
    return lesson_marks(course, marker, ALL, BENCH, arrivals, {(BENCH, None): rule["extension"]})


THOROUGH = settings(max_examples=400, deadline=None, derandomize=True)


@THOROUGH
@given(HISTORIES)
def test_marks_are_those_of_the_rules_written_once_more(one):
    due = plain_marks(one.returns, one.rule, one.by_hand)
    assert one.marks() == pytest.approx(due, abs=1e-4)
    assert marked(one.returns, one.rule, one.by_hand).total == pytest.approx(sum(due.values()), abs=1e-3)


@THOROUGH
@given(HISTORIES)
def test_a_mark_lies_between_nothing_and_the_full_mark(one):
    one.rule["at_most"] = 150.0      # course.toml refuses it; here it gets through
    done = marked(one.returns, one.rule, one.by_hand)
    assert {exercise_id: outcome.most for exercise_id, outcome in done.outcomes.items()} == MOST
    assert all(0 <= outcome.marks <= outcome.most for outcome in done.outcomes.values() if outcome.marks is not None)
    assert 0 <= done.late_percent <= 100


def lower(before, now):
    return [name for name in MOST if now[name] < before[name]]


@THOROUGH
@given(HISTORIES)
def test_a_return_more_lowers_no_mark(one):
    log = one.dice.choice(one.logs)
    more = (a_time(one.dice), log[one.dice.randint(0, len(log)):])      # even one that holds the end of a log alone
    other = (a_time(one.dice), a_log(one.dice, 5))                      # or one of another machine
    assert lower(one.marks(), one.marks([*one.returns, more])) == []
    assert lower(one.marks(), one.marks([*one.returns, other])) == []


@THOROUGH
@given(HISTORIES)
def test_a_try_more_in_a_return_lowers_no_mark(one):
    place = one.dice.randrange(len(one.returns))
    received, events = one.returns[place]
    more = try_of(one.dice.choice(one.dice.choice((EVERY_TRY, METHOD))), one.dice.randint(0, 200), 7, len(events) + 1)
    changed = [*one.returns[:place], (received, [*events, more]), *one.returns[place + 1:]]
    assert lower(one.marks(), one.marks(changed)) == []


@THOROUGH
@given(HISTORIES)
def test_the_order_in_which_files_are_read_changes_nothing(one):
    shuffled = one.dice.sample(one.returns, len(one.returns))
    done, other = (marked(returns, one.rule, one.by_hand) for returns in (one.returns, shuffled))
    assert done.outcomes == other.outcomes and done.texts == other.texts and done.total == other.total


@THOROUGH
@given(HISTORIES)
def test_who_holds_anothers_return_can_lower_nothing(one):
    """A file with the bench's code, written by somebody else: its entries under their ids, with other contents."""
    _, events = one.dice.choice(one.returns)
    forged = [{**event, "value": one.dice.choice(VALUES[event["exercise"]])[0],
               "time": DEADLINE.replace(year=one.dice.choice((2000, 2060))).isoformat()} for event in events]
    returns = [*one.returns, (a_time(one.dice), forged)]
    assert lower(one.marks(), one.marks(returns)) == []
    assert bool(marked(returns, one.rule, one.by_hand).remarks) == bool(forged)


# ---- the order of tries ----------------------------------------------------------------------------------------------

@THOROUGH
@given(HISTORIES)
def test_within_a_log_the_running_number_orders_whatever_the_clock_said(one):
    for log in one.logs:
        parts = [log[:one.dice.randint(0, len(log))] for _ in range(3)] + [log]
        returns = [SimpleNamespace(events=one.dice.sample(part, len(part))) for part in parts]
        assert [event["number"] for event, _ in merged(returns)] == list(range(1, len(log) + 1))


@THOROUGH
@given(HISTORIES)
def test_between_logs_the_clock_orders_where_it_never_went_back(one):
    for log in one.logs:
        clocks = sorted(one.dice.randint(0, 99) for _ in log)
        for event, clock in zip(log, clocks):
            event["time"] = (DEADLINE + timedelta(hours=clock)).isoformat()
    times = [event["time"] for event, _ in merged([SimpleNamespace(events=log) for log in one.logs])]
    assert times == sorted(times)
