"""The README's rules of marking once more, as short as can be and without a line of the library's marking.

Formulas of the made-up lesson typed here, every answer looked at alone, every pair of answers tried.
"""
import math
from dataclasses import replace
from datetime import datetime, timedelta, timezone
from itertools import product

import numpy as np

from exercises_all_kinds import ALL
from exercises_workbench import EXAMPLE
from lessons_lib.exercises.draws import draw_lesson
from lessons_lib.exercises.functions import claim_text
from lessons_lib.exercises.making import make_sheet
from test_exercises_function import walk

FURTHER = ("1.3", "1.9")
LESSON = replace(ALL, exercises=tuple(replace(one, further=True) if one.id in FURTHER else one
                                      for one in ALL.exercises))
BENCH, SECRET = "b010", "a fixed secret of at least thirty-two characters"
DRAWN = draw_lesson(LESSON, secret=SECRET, bench=BENCH)
SHEET = make_sheet(LESSON, secret=SECRET, bench=BENCH, drawn=DRAWN)
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
MOST = {"1.1": 2, "1.2": 1, "1.3": 1, "1.4": 1, "1.5": 3, "1.6": 3, "1.7": 2, "1.8": 3, "1.9": 3,
        "2.1": 2, "2.2": 1, "2.3": 1, "2.4": 1, "2.5": 4}
SLIP_MARKS = {"1.1": {"open part": 0.5, "all of it": 1.5}, "1.7": {"backwards": 1}, "1.8": {"one reading": 2},
              "2.1": {"parallel": 1}, "2.2": {"turning counts": 0.25}, "2.4": {"uphill": 0.5},
              "2.5": {"sign of end": 2.5}}
FORCE, STRETCH = np.array([row[0] for row in EXAMPLE["table"]]), np.array([row[1] for row in EXAMPLE["table"]]) / 1e3
STIFFNESS, LAST_READING = float(np.polyfit(STRETCH, FORCE, 1)[0]), 5 / 43.8e-3
LIMITS = GIVEN["1.9"]
TEXTS = ("oops", "A spade.", "A spade, because the soil is heavy and wet after the winter.",
         "A fork, since it goes between the stones where a spade stops at the first of them, and lifts more.")


SWINGS = {one["name"]: (one["value"][0], one["value"][-1]) for one in SHEET["exercises"]["2.4"]["given"]
          if one["name"] in "abcd"}
PACE, DROP = GIVEN["2.4"]["pace"], GIVEN["2.5"]["drop"]
REASON = {"because": "four metres times five"}


def claim(factor, shift=0.0):
    """Readings of a function that gives *factor* times the cart's speed, and *shift* more."""
    return claim_text(SHEET["exercises"]["1.7"]["parts"],
                      walk.numbers(lambda place, time: factor * np.gradient(place, time) + shift))


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
    "2.1": [("mmf/(r_air + r_magnet)",), ("mmf/r_magnet + mmf/r_air",), ("mmf/r_air",), ("mmf + r_air",), ("2x",),
            (3,)],
    "2.2": [("b > a = c > d",), ("d<c=a<b",), ("b > a > c > d",), ("b > d > a = c",), ("b > a",), ({"a": 1.0},)],
    "2.3": [(number, "m2", REASON) for number in (20.0, 59.0, 61.0, 2e5)] + [(20.0, "m2"), (2e5, "cm2", REASON)],
    "2.4": [(letter,) for letter in "abcdz"],
    "2.5": [({"begin": begin, "middle": middle, "end": end},)
            for begin, middle, end in product((DROP, -1.0), (DROP / 2, 9.0), (0.1, 1.0))] + [("all",)],
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
    if exercise in IN_WORDS:
        return IN_WORDS[exercise](value, unit, readings)
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


def of_points(value):
    """Four shares of the marks, or the marks of the slip where they are more."""
    if isinstance(value, str):
        return None
    begin, middle, end = value["begin"], value["middle"], value["end"]
    met = (begin - middle > 0.1 * max(abs(begin), abs(middle)), middle - end > 0.1 * max(abs(middle), abs(end)),
           abs(end) <= 0.2, DROP / 1.3 < begin < 1.3 * DROP)
    return max(sum(met), 0 if met[2] else 2.5)


IN_WORDS = {
    "2.1": lambda value, *_: {"mmf/(r_air + r_magnet)": 2, "mmf/r_magnet + mmf/r_air": 1, "mmf/r_air": 0,
                              "mmf + r_air": 0}.get(value),
    "2.2": lambda value, *_: None if isinstance(value, dict) else {
        "b > a = c > d": 1, "d<c=a<b": 1, "b > a > c > d": 0.25, "b > d > a = c": 0}.get(value),
    "2.3": lambda value, unit, readings: readings and int(20 / 3 < value * {"cm2": 1e-4}.get(unit, 1) < 60),
    "2.4": lambda value, *_: {(0, PACE): 1, (PACE, 0): 0.5}.get(SWINGS[value], 0) if value in SWINGS else None,
    "2.5": lambda value, *_: of_points(value)}


def from_own(value, earlier):
    """Whether a depth is right by an own pond, which has to be a possible one."""
    own, unit = earlier
    own = own * {"cm2": 100}.get(unit, 1) if isinstance(own, float) else math.nan
    return 4 <= own <= 14 and is_near(value, own / DEPTH, 0.02)


def full_marks(rule):
    """Exercise -> full mark: the core's, and of what is further that which the settings name, or all of it."""
    return {exercise: most for exercise, most in MOST.items()
            if exercise not in FURTHER or rule["further_counts"] or exercise in rule["marks"]}


def plain_marks(returns, rule, by_hand):
    """Exercise -> marks, from (received, events) of each return."""
    answers = [(one["exercise"], one["value"], one.get("unit"), one.get("readings"), taken_off(received, rule))
               for received, events in returns for one in events if one["event"] == "answer"]
    best = dict.fromkeys(full_marks(rule), 0.0)
    for exercise, value, unit, readings, off in answers:
        if exercise == "1.5":
            earned = by_hand.get(value)
        else:
            earned = stands_for(exercise, value, unit, readings) if exercise in best else None
        if earned is not None:
            best[exercise] = max(best[exercise], earned * (1 - off))
    for exercise, value, _, _, off in answers:
        for before, earlier, unit, _, off_before in answers:
            if (exercise, before) == ("1.6", "1.1") and from_own(value, (earlier, unit)):
                best["1.6"] = max(best["1.6"], 3 * rule["carried_forward"] * (1 - max(off, off_before)))
    return best
