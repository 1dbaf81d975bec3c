"""The panel of the first page: a string is made shorter and its note rises."""
from lessons_lib.base.units import said
from lessons_lib.lessons.lesson_00.model import SHORTEST, WHOLE, shorter_curve, shorter_note
from lessons_lib.page.controls import Slider
from lessons_lib.page.panel import Panel
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import Curve, Dots
from lessons_lib.pictures.strings import WholeString
from lessons_lib.pictures.style import HOUSE_LOOK, new_figure

HIGHEST = 1100.0    # Hz, a little above the highest note of the sliders


def string_figure():
    """A figure and the function that draws a shorter_curve into it."""
    figure = new_figure(width=8.0, height=4.4)
    chart = Lines(figure.add_axes((0.10, 0.125, 0.88, 0.56)), room=0.0,
                  x=Axis("length that sounds, from the bridge", "mm", (-0.02, 0.72), ticks=[n / 10 for n in range(7)]),
                  y=Axis("frequency", "Hz", (0.0, HIGHEST)),
                  parts=[Curve("note"), Dots("whole", HOUSE_LOOK), Dots("now", stems=HIGHEST)])
    above = figure.add_axes((0.10, 0.69, 0.88, 0.30), sharex=chart.axes, ylim=(-0.85, 0.7))
    above.axis("off")
    string = WholeString(above)
    return figure, lambda data: string.update(**data["string"]) + chart.update(**data["chart"])
