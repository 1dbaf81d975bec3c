"""A panel on paper: its figure at three states, the values under it, the read-outs and the words beside it."""
import base64
import re
from typing import NamedTuple

from lessons_lib.lessons.lesson_00 import panels as lesson_00
from lessons_lib.lessons.lesson_01 import panels as lesson_01
from lessons_lib.lessons.lesson_02 import panels as lesson_02
from lessons_lib.lessons.lesson_03 import panels as lesson_03
from lessons_lib.lessons.lesson_04 import panels as lesson_04
from lessons_lib.lessons.lesson_05 import panels as lesson_05
from lessons_lib.lessons.lesson_06 import panels as lesson_06
from lessons_lib.lessons.lesson_07 import panels as lesson_07
from lessons_lib.lessons.lesson_08 import panels as lesson_08
from lessons_lib.lessons.whole_pickup.panels import first_look

_PANELS = {"00": lesson_00, "01": lesson_01, "02": lesson_02, "03": lesson_03, "04": lesson_04, "05": lesson_05,
           "06": lesson_06, "07": lesson_07, "08": lesson_08}
_TALLEST, _NARROWEST, _WIDEST = 68.0, 102.0, 114.0      # mm


class Figure(NamedTuple):
    """A panel's figure at one state.

    *drawing* is an SVG in base 64, *width* in mm; *values* are the sliders', each with whether it differs from state to
    state, *readouts* label -> words, *alt* the words beside the figure.
    """

    drawing: str
    width: float
    values: list
    readouts: dict
    alt: str


def open_panel(lesson, name, sheet):
    """Return a lesson's panel as its page opens it.

    Raises
    ------
    ValueError
        For a lesson whose panels are not named here.
    """
    if lesson not in _PANELS:
        raise ValueError(f"Lesson {lesson} shows the panel {name}, but its panels are not known to handouts; name "
                         "their module in lessons_lib/handouts/figures.py.")
    return first_look() if name == first_look.__name__ else getattr(_PANELS[lesson], name)(sheet)


def three_figures(lesson, name, panel):
    """Return the `Figure` of a panel at each of its three states.

    Raises
    ------
    ValueError
        For a panel that names no states for paper.
    """
    if not panel.on_paper:
        raise ValueError(f"Lesson {lesson} shows the panel {name}, for which no settings are named; give its Panel "
                         "three as on_paper.")
    states, figures = [panel.at(**values) for values in panel.on_paper], []
    for state in states:
        wide, high = map(float, re.search(rb'width="([\d.]+)pt" height="([\d.]+)pt"', state.picture).groups())
        # three figures to a page where their letters stay large enough for that
        width = min(_WIDEST, max(_NARROWEST, _TALLEST * wide / high))
        values = [(f"{label} {words}".replace(" ", "\N{NO-BREAK SPACE}"),
                   any(one.values[label] != words for one in states)) for label, words in state.values.items()]
        figures.append(Figure(base64.b64encode(state.picture).decode("ascii"), width, values, state.readouts,
                              state.alt))
    return figures
