"""The curves of an exercise that asks which one it is, drawn for the bench's own numbers."""
import numpy as np

from lessons_lib.base.units import said, unit_of, with_unit
from lessons_lib.exercises.kinds.curve import ALONG
from lessons_lib.exercises.verdicts import State, Verdict
from lessons_lib.page.panel import Panel
from lessons_lib.pictures.choices import curves_to_choose
from lessons_lib.pictures.lines import Axis

_TOLD = 5       # values of a curve in the alternative text


def curves(given):
    """Return a panel without sliders that shows the curves of a `CurveExercise`; name it last in a cell.

    Parameters
    ----------
    given : GivenValues
        As ``sheet.given("4.9")`` gives them.

    Returns
    -------
    Panel or Verdict
        A sentence where the exercise has no curves, or the sheet is not there.
    """
    records = {one["name"]: one for one in given.records}
    if ALONG not in records:
        return Verdict(State.NO_SHEET, "There are no curves here: name an exercise that has some, and look whether the "
                                       "cell with open_sheet has run.")
    values = {name: np.array(one["value"]) * unit_of(one["unit"]).factor for name, one in records.items()}
    letters = [name for name, one in records.items() if isinstance(one["value"], list) and name != ALONG]
    x, y = records[ALONG], records[letters[0]]
    quantity = y["label"].removesuffix(f" ({letters[0]})")
    up = np.concatenate([values[one] for one in letters])
    figure, draw = curves_to_choose(_axis(x, values[ALONG]), _axis({**y, "label": quantity}, up, room=0.15), letters)
    single = {one["label"]: with_unit(one["text"], one["unit"])
              for one in records.values() if isinstance(one["text"], str)}
    return Panel(title="Which curve?", compute=lambda: values, shown=lambda _: single, figure=figure,
                 draw=draw, message=_told(quantity, x, values, letters, y))


def _axis(record, values, room=0.0):
    low, high = float(values.min()), float(values.max())
    low, high = (min(low, 0.0), max(high, 0.0)) if room else (low, high)
    more = room * (high - low)
    return Axis(record["label"], record["unit"], (low - more, high + more))


def _told(quantity, x, values, letters, y):
    """The curves in words: some values of each, alike for all, so that nothing is told but what is seen."""
    places = np.linspace(0, len(values[ALONG]) - 1, _TOLD).round().astype(int)
    decimals = max(len(text.partition(".")[2]) for text in y["text"])
    at = ", ".join(said(values[ALONG][place], x["unit"], "g") for place in places)
    rows = "; ".join(f"({letter}) " + ", ".join(
        f"{said(values[letter][place], y['unit'], f'z.{decimals}f')}" for place in places)
        for letter in letters)
    return f"{len(letters)} curves of {quantity} over {x['label']}, at {at}: {rows}."
