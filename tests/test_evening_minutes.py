"""Every lesson is one evening or two, of 60 to 75 minutes for the core by the rule of `evening_minutes`; twelve in all.

The rule itself is tried on small made-up pages.
"""
import json

import pytest

from evening_minutes import SECOND, answering, evenings, said
from exercises_all_kinds import ALL
from exercises_further import PART_FURTHER
from lessons_lib.course.read_page import LIVE, SOUND
from lessons_lib.exercises.self_study import load_lesson
from notebooks import ANSWERS, lessons

LESSONS = [path for path in lessons() if path.name[:2] != "00"]
LOW, HIGH, NEAR = 60, 75, 5         # minutes
each_lesson = pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.name[:2])


def text(source):
    return {"cell_type": "markdown", "source": source}


def code(source, *tags):
    return {"cell_type": "code", "source": source, "outputs": [], "metadata": {"tags": list(tags)}}


def minutes(*page):
    return [tuple(round(part, 6) for part in one) for one in evenings({"cells": list(page)}, PART_FURTHER)]


WORDS = " ".join(["word"] * 130)


@pytest.mark.parametrize("page, core, further", [
    ([text(WORDS)], 1, 0), ([text("$a = b + c$ " * 65 + "<br> $$x\ny$$ " * 32 + "on")], 1, 0),
    ([text("one two three"), text(f"## Sources\n\n{WORDS}")], 3 / 130, 0),
    ([text("<details><summary>What it means</summary>\n\n" + WORDS + "</details>")], 1, 0),
    ([text("Run it."), code("sheet.return_work()")], 0, 0),
    ([text("x"), code("panels.load(sheet)", LIVE)], 7 + 1 / 130, 0),
    ([text("x"), code("panels.opening()", LIVE, SOUND)], 1 + 1 / 130, 0),
    ([text("x"), code("panels.hear(1)", LIVE, SOUND)], 1 + 1 / 130, 0),
    ([text("x"), code("1 + 1")], 1 + 1 / 130, 0), ([text("x"), code('sheet.given("1.1")')], 1 / 130, 0),
    ([text("## 2. More (further)"), code("panels.load(sheet)", LIVE)], 0, 7 + 4 / 130),
    ([text("## 2. More (further)"), text("## 3. Less (core)"), code("1")], 1 + 4 / 130, 4 / 130),
    ([text("### Exercise 1.2 (further)\na b c"), code('sheet.answer("1.2", ..., "m/s")')], 0, 5 + 7 / 130),
    ([text("### Exercise 1.2 (further)\na\n\n## Summary\nb")], 3 / 130, 5 / 130),
    ([text("x"), code('sheet.answer("1.1", ..., "mm2")'), code('sheet.answer("1.1", ..., "mm2")')], 7 + 1 / 130, 0),
    ([text("x"), code('sheet.answer("m1", "...")')], 1 + 1 / 130, 0)])
def test_each_thing_has_its_price(page, core, further):
    assert minutes(*page) == [(round(core, 6), round(further, 6))]


def test_each_kind_has_its_price():
    due = {"m1": 1, "p1": 0, "1.1": 7, "1.2": 5, "1.3": 5, "1.4": 2, "1.5": 10, "1.6": 7, "1.7": 12, "1.8": 10,
           "1.9": 15}
    assert {name: answering(ALL[name]) for name in due} == due


def test_the_second_evening_begins_at_its_heading():
    first, second = minutes(text("## 1. A (core)"), code("1"), text(f"## {SECOND}\nBring a pen."), code("1"), code("2"),
                            text("## 2. B (further)\nx"))
    assert first == (round(1 + 4 / 130, 6), 0) and second == (round(2 + 6 / 130, 6), round(5 / 130, 6))


@pytest.mark.parametrize("line, core, further", [
    ("one evening of about 75 minutes for the core (what is marked *further* takes 45 more), a pen", [75], [45]),
    ("two evenings, of about 65 and 60 minutes; all of it is core. Also lessons 2, 4 and 5.", [65, 60], []),
    ("two evenings, of about 65 and 60 minutes; what is *further* takes about 20 and 15 minutes more.", [65, 60],
     [20, 15]),
    ("two evenings of about 65 minutes each for the core; what is marked *further* takes 20 more.", [65, 65], [20]),
    ("60 to 90 minutes, a calculator", [], [])])
def test_what_the_page_says_is_read(line, core, further):
    assert said({"cells": [text(f"# Title\n\n**You need** {line}\n\n45 more")]}) == (core, further)


# ---- the lessons -----------------------------------------------------------------------------------------------------

def by_the_rule(path):
    lesson, notebook = load_lesson(ANSWERS / f"lesson_{path.name[:2]}.py"), json.loads(path.read_bytes())
    return lesson, notebook, evenings(notebook, lesson)


@each_lesson
def test_the_core_of_each_evening_takes_60_to_75_minutes(path):
    cores = [round(core) for core, _ in by_the_rule(path)[2]]
    assert all(LOW <= core <= HIGH for core in cores), f"{path.stem}: {cores}; python tests/evening_minutes.py says why"


@each_lesson
def test_the_page_says_the_time_that_it_takes(path):
    _, notebook, found = by_the_rule(path)
    core, further = said(notebook)
    assert len(core) == len(found), f'{path.stem}: "You need" must say "of about {round(found[0][0])} minutes"'
    assert all(abs(one - by_rule) <= NEAR for one, (by_rule, _) in zip(core, found)), f"{path.stem}: {core}, {found}"
    more = [by_rule for _, by_rule in found]
    more = more if len(further) == len(found) else [sum(more)]
    assert len(further or [0]) == len(more) and all(
        abs(one - by_rule) <= NEAR for one, by_rule in zip(further or [0], more)), f"{path.stem}: {further}, {found}"


@each_lesson
def test_the_plan_of_each_evening_is_as_long_as_its_core(path):
    lesson, _, found = by_the_rule(path)
    planned = [one.minutes for one in lesson.evenings]
    assert len(planned) == len(found) and all(
        abs(one - core) <= NEAR for one, (core, _) in zip(planned, found)), f"{path.stem}: {planned}, {found}"


def test_there_are_twelve_evenings():
    assert sum(len(by_the_rule(path)[2]) for path in LESSONS) == 12
