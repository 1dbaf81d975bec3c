"""How long the evenings of a lesson are, core and further, by a rule over the cells of its page.

python tests/evening_minutes.py [01 ...]
prints the table: each section's minutes, then each evening's, what the page says, and what the plans add up to.

The rule: 130 words a minute (a formula is one word), a panel with its prediction 7 minutes, sound or film 1, a listing
1, a quick question 1, a number 5 (7 where it carries 2 marks or more), a choice 2, an open text 10, a function 12, own
readings 10, a design 15, any other kind 5. Sources, and how to hand in, take nothing. The heading "## Second evening"
begins the next evening. A panel, a sound and a text are core or further as their section is, an answer as it is
declared.
"""
import json
import re
import sys
from typing import NamedTuple

from lessons_lib.course import read_page as cells
from lessons_lib.exercises.self_study import load_lesson
from notebooks import ANSWERS, lessons

WORDS_A_MINUTE, PANEL, SOUND, LISTING, QUICK, OTHER_KIND = 130, 7, 1, 1, 1, 5
BY_KIND = {"number": 5, "choice": 2, "text": 10, "function": 12, "measured": 10, "design": 15,
           "formula": 4, "order": 4, "curve": 4, "points": 4, "estimate": 5, "recall": 1,
           "prediction": 0, "vote": 0}      # these are asked by their panel
SECOND = "Second evening"
_HEADING = re.compile(r"^## +(.+?)(?: \((core|further)\))?[ \t]*$", re.MULTILINE)
_ONE_WORD = re.compile(r"\$\$[\s\S]+?\$\$|\$[^$\n]+\$|<[^>]+>")
_YOU_NEED = re.compile(r"\*\*You need\*\*(.+)")
_CORE = re.compile(r"of about ([\d, and]+?) minutes")
_FURTHER = re.compile(r"takes (?:about )?([\d, and]+?) (?:minutes )?more")


class Spent(NamedTuple):
    """*minutes* spent on something of a *section*, in which *evening* (from 0), core or *further*."""

    evening: int
    section: str
    further: bool
    minutes: float


def spent(notebook, lesson):
    """Yield `Spent` for each piece of a lesson's page, in order."""
    evening, section, further, asked = 0, "beginning", False, set()
    exercises = {exercise.id: exercise for exercise in lesson.exercises}
    for cell in cells.read_page(notebook):
        if isinstance(cell, cells.Prose) and not isinstance(cell, cells.HowToHandIn):
            own = getattr(cell, "word", "") == "further"
            for head, text in _sections(cell.source):
                if head:
                    section, further, own = head[1], head[2] == "further", False
                    evening += section == SECOND
                if section != "Sources":
                    yield Spent(evening, section, further or own, _words(text) / WORDS_A_MINUTE)
        elif isinstance(cell, (cells.Ask, cells.WorkedOut)):
            if cell.exercise_id in exercises and cell.exercise_id not in asked:
                asked.add(cell.exercise_id)
                exercise = exercises[cell.exercise_id]
                yield Spent(evening, section, further or exercise.further, answering(exercise))
        else:
            price = {cells.PanelCell: PANEL, cells.Sound: SOUND, cells.Opening: SOUND, cells.Listing: LISTING}
            yield Spent(evening, section, further, price.get(type(cell), 0))


def answering(exercise):
    """Return the minutes that answering an exercise takes."""
    if exercise.quick:
        return QUICK
    return BY_KIND.get(exercise.kind, OTHER_KIND) + 2 * (exercise.kind == "number" and exercise.marks >= 2)


def _sections(text):
    """(heading or None, text up to the next one); what comes before the first heading has none."""
    heads = list(_HEADING.finditer(text))
    ends = [head.start() for head in heads] + [len(text)]
    return [(None, text[:ends[0]]), *((head, text[head.start():end]) for head, end in zip(heads, ends[1:]))]


def _words(text):
    return len(_ONE_WORD.sub(" x ", text).split())


def evenings(notebook, lesson):
    """Return (minutes of the core, minutes of what is further) of each evening."""
    found = list(spent(notebook, lesson))
    return [tuple(sum(one.minutes for one in found if (one.evening, one.further) == (evening, further))
                  for further in (False, True)) for evening in range(found[-1].evening + 1)]


def said(notebook):
    """Return what "You need" says: (minutes of each evening's core, minutes of what is further), lists of numbers.

    It is read from "of about 65 and 70 minutes" ("two evenings of about 65 minutes each") and "takes 20 and 15 more",
    or "takes 35 more" in all.
    """
    text = "\n".join(cell.source for cell in cells.read_page(notebook) if isinstance(cell, cells.Prose))
    line = _YOU_NEED.search(text)
    core, further = ([int(number) for number in re.findall(r"\d+", found[1])]
                     if line and (found := pattern.search(line[1])) else [] for pattern in (_CORE, _FURTHER))
    return (core * 2 if line and "minutes each" in line[1] else core), further


def _table(path):
    lesson, notebook = load_lesson(ANSWERS / f"lesson_{path.name[:2]}.py"), json.loads(path.read_bytes())
    yield f"{path.stem}: You need says {said(notebook)}; the plans say {[one.minutes for one in lesson.evenings]}"
    found = list(spent(notebook, lesson))
    for evening, (core, further) in enumerate(evenings(notebook, lesson)):
        for section in dict.fromkeys(one.section for one in found if one.evening == evening):
            here = [sum(one.minutes for one in found if one[:3] == (evening, section, word)) for word in (False, True)]
            yield f"    {here[0]:5.1f} {here[1]:5.1f}  {section}"
        yield f"  evening {evening + 1}: core {core:.0f}, further {further:.0f}"


if __name__ == "__main__":
    for page in lessons():
        if page.name[:2] in (sys.argv[1:] or [f"{number:02d}" for number in range(1, 9)]):
            print(*_table(page), sep="\n")
