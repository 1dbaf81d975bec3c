"""Curves to choose from: one above the other over one axis, each with its letter."""
from dataclasses import replace

from lessons_lib.pictures.lines import Lines
from lessons_lib.pictures.marks import Curve, Level
from lessons_lib.pictures.style import HOUSE_LOOK, INK, TEXT, VOLTAGE, label, new_figure

_TALL, _GAP, _FOOT = 0.95, 0.12, 0.55     # inches


def curves_to_choose(x, y, letters):
    """Return (figure, draw) of a row for each of the *letters*, over the axis *x*; each as high as the axis *y*.

    ``draw(data)`` takes ``data["along"]`` and ``data[letter]``, SI.
    """
    high = _FOOT + len(letters) * (_TALL + _GAP)
    figure, rows = new_figure(width=8.0, height=high), {}
    for number, letter in enumerate(letters):
        is_last = number == len(letters) - 1
        bottom = _FOOT + (len(letters) - 1 - number) * (_TALL + _GAP)
        axes = figure.add_axes((0.13, bottom / high, 0.80, _TALL / high))
        rows[letter] = Lines(axes, room=0.0, x=replace(x, bare=not is_last), y=y,
                             parts=[Level(value=0.0, look=HOUSE_LOOK), Curve("line", look=VOLTAGE, width=2.6)])
        axes.set_ylabel("")
        label(axes, f"({letter})", position=(1.01, 0.5), transform=axes.transAxes, fontsize=TEXT + 1, va="center")
    figure.text(0.012, 0.5, y.words, rotation=90, fontsize=TEXT, va="center", color=INK)

    def draw(data):
        return [artist for letter, row in rows.items() for artist in row.update(data["along"], line=data[letter])]
    return figure, draw
