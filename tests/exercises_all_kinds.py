"""The made-up garden lesson with an exercise of every kind: a shed to design, a spring to measure, a function."""
import sys
from dataclasses import dataclass, replace

from exercises_following import GARDEN
from exercises_in_words import ladders, loop, pond, slope, swing
from exercises_workbench import spring
from lessons_lib.exercises.declaration import Derived, DesignExercise, Entry, Given, Limit
from lessons_lib.exercises.models import HOMES
from test_exercises_function import walk


@dataclass(frozen=True)
class Shed:
    """What a shed of posts and boards comes to."""

    area: float         # m2
    weight: float       # kg
    height: float       # m


def shed_report(posts, board, height):
    return Shed(area=posts * board / 2, weight=30 * posts * height + 12 * board, height=height)


def shed_parts(posts, board, height):
    return [("post", f"{posts:g} of {height:g} m")]


HOMES.update(dict.fromkeys(("shed_report", "shed_parts"), lambda: sys.modules[__name__]))

shed = DesignExercise(
    id="1.9", model="shed_report", parts="shed_parts", marks=3,
    entries={"posts": Entry("posts", low=2, high=20, whole=True), "board": Entry("board", unit="m", low=1, high=6),
             "height": Entry("height", unit="m", low=1, high=4)},
    hidden={"many": Given("posts", unit="1", low=6, high=9, step=1)},
    derived={"least_area": Derived("area at least", unit="m2", decimals=1, formula=lambda many: 1.4 * many),
             "most_weight": Derived("weight at most", unit="kg", decimals=0, formula=lambda many: 62 * many + 40),
             "least_height": Derived("height at least", unit="m", decimals=1, formula=lambda many: 1.9)},
    limits=(Limit(quantity="area", label="area", least="least_area", too_low="More posts or longer boards."),
            Limit(quantity="weight", label="weight", most="most_weight", too_high="Fewer posts, or shorter ones."),
            Limit(quantity="height", label="height", least="least_height", too_low="Can you stand in it?")),
    known=lambda many: {"posts": int(many), "board": 3.0, "height": 2.0},
    worked="One that does is {design}.")

IN_WORDS = tuple(replace(one, id=f"2.{number}") for number, one in enumerate(
    (loop, ladders, pond, swing, slope), start=1))
ALL = replace(GARDEN, exercises=(*GARDEN.exercises, replace(walk, id="1.7"), replace(spring, id="1.8"), shed,
                                 *IN_WORDS))
