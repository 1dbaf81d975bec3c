"""Marks of random histories: tries, returns, deadlines, extensions, marks by hand, on a lesson with every kind.

They are checked against `plain_marks`, the README's rules once more.
"""
import hashlib
import random
from dataclasses import dataclass
from datetime import timedelta
from types import SimpleNamespace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lessons_lib.course.mark import lesson_marks
from lessons_lib.course.marking import Marker
from lessons_lib.course.settings import Late, Settings
from lessons_lib.exercises.returns import Returned, merged
from plain_marks import (
    BENCH,
    DEADLINE,
    DRAWN,
    LESSON,
    SHEET,
    SLIP_MARKS,
    TEXTS,
    VALUES,
    full_marks,
    plain_marks,
)

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
                     "carried_forward": dice.choice((0.0, 0.5, 1.0)), "further_counts": dice.random() < 0.4,
                     "marks": {"1.9": 3} if dice.random() < 0.4 else {}}

    def marks(self, returns=None):
        """Exercise -> marks, of these *returns*."""
        one = marked(self.returns if returns is None else returns, self.rule, self.by_hand)
        return {exercise_id: outcome.marks or 0 for exercise_id, outcome in one.outcomes.items()}


HISTORIES = st.randoms(use_true_random=True).map(History)


def marked(returns, rule, by_hand):
    """Exercise -> `Outcome`, by the library."""
    late = Late(**{name: rule[name] for name in ("percent_a_day", "at_most", "grace_hours")})
    own = {name: rule[name] for name in ("carried_forward", "further_counts", "marks")}
    course = SimpleNamespace(settings=Settings(deadlines={"01": DEADLINE}, late=late, slip_marks=SLIP_MARKS, **own))
    ids = {hashlib.sha256(text.encode()).hexdigest()[:8]: marks for text, marks in by_hand.items()}
    arrivals = [SimpleNamespace(file=f"{place}.json", received=received, content=Returned(
        card=BENCH, lesson="01", version=1, events=tuple(events), check=f"C{place}"))
        for place, (received, events) in enumerate(returns)]
    marker = Marker(LESSON, SHEET, DRAWN, course.settings, {"1.5": ids})
    return lesson_marks(course, marker, LESSON, BENCH, arrivals, {(BENCH, None): rule["extension"]})


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
    assert {exercise_id: outcome.most for exercise_id, outcome in done.outcomes.items()} == full_marks(one.rule)
    assert all(0 <= outcome.marks <= outcome.most for outcome in done.outcomes.values() if outcome.marks is not None)
    assert 0 <= done.late_percent <= 100


def lower(before, now):
    return [name for name in before if now[name] < before[name]]


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
