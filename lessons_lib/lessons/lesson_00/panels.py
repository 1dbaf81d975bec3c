"""The panel of the first page: a string is made shorter and its note rises; and the course as a picture of its parts.

Their numbers are beside it, in model.py."""
from lessons_lib.base.units import said
from lessons_lib.lessons.lesson_00.model import LOUDEST, SHORTEST, WHOLE, notes, parts, shorter_curve, shorter_note
from lessons_lib.page.controls import Slider
from lessons_lib.page.grips import Grip
from lessons_lib.page.panel import Panel
from lessons_lib.page.sound import RATE, Sound
from lessons_lib.pictures.course_map import CourseMap
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import Curve, Dots
from lessons_lib.pictures.strings import WholeString
from lessons_lib.pictures.style import HOUSE_LOOK, MM, new_figure

LENGTH = Slider(name="length", label="sounding length", unit="mm", low=SHORTEST * MM, high=WHOLE * MM,
                start=WHOLE * MM, step=10)
SPEED = Slider(name="speed", label="speed of the wave", unit="m/s", low=100, high=420, start=250, step=10)
HIGHEST = 1100.0    # Hz, a little above the highest note of the sliders


def string_figure():
    """A figure, the function that draws a shorter_curve into it, and the axes of the string."""
    figure = new_figure(width=8.0, height=4.4)
    chart = Lines(figure.add_axes((0.10, 0.125, 0.88, 0.56)), room=0.0,
                  x=Axis("sounding length, from the bridge", "mm", (-0.02, 0.72), ticks=[n / 10 for n in range(7)]),
                  y=Axis("frequency", "Hz", (0.0, HIGHEST)),
                  parts=[Curve("note"), Dots("whole", HOUSE_LOOK), Dots("now", stems=HIGHEST)])
    above = figure.add_axes((0.10, 0.69, 0.88, 0.30), sharex=chart.axes, ylim=(-0.85, 0.58))
    above.axis("off")
    string = WholeString(above)
    return figure, lambda data: string.update(**data["string"]) + chart.update(**data["chart"]), above


def shorter_string(sheet=None):
    """Panel: length of a string and speed of its waves against the frequency of its note."""
    figure, draw, string = string_figure()
    return Panel(
        title="Half the string, twice the note", sliders=(LENGTH, SPEED), compute=shorter_note, data=shorter_curve,
        figure=figure, draw=draw, grips=(Grip(string, x="length"),), sheet=sheet, prediction="p1",
        shown=lambda note: {"frequency": said(note.frequency, "Hz", ".1f"),
                            "whole string": said(note.whole, "Hz", ".1f"),
                            "relative to the whole string": f"{note.ratio:.2f} times"},
        message="The shorter the string, the higher the frequency of its note, in inverse proportion: {sounding "
                "length}, with waves at {speed of the wave}, gives {frequency}; the whole string gives {whole "
                "string}.",
        sound=lambda note, **values: Sound(signals=notes(note, RATE, **values), rate=RATE, loudest=LOUDEST),
        on_paper=({}, {"length": 0.4}, {"length": 0.3}))


def course_map():
    """Panel without sliders: the parts of a pickup, each with the number of its lesson; use its still()."""
    figure = new_figure(width=8.0, height=4.0)
    whole = parts()
    CourseMap(figure.add_axes((0, 0, 1, 1)), **whole)
    return Panel(
        title="The course in one picture", compute=lambda: whole, figure=figure,
        draw=lambda _: [], message=(
            "A pickup in cut under a wound string, each part with the number of its lesson: 1 magnet, 2 flux, "
            "3 string, 4 coil, 5 motion of the string, 6 cable and amplifier, 7 six strings over six poles, seen from "
            "above, 8 a meter on the bench."))
