"""The panel of the first page: a string is made shorter and its note rises."""
import numpy as np

from lessons_lib.base.units import in_unit, said
from lessons_lib.page.controls import Slider
from lessons_lib.page.panel import Panel
from lessons_lib.pictures.sounding_string import CurveWithPoint, SoundingString
from lessons_lib.pictures.style import new_figure


def frequency(speed, length):
    """Frequency (Hz) of the fundamental of a string of *length* (m) on which waves run at *speed* (m/s)."""
    return speed / (2 * length)


def shorter_string(sheet=None):
    """Panel: length of a string and speed of its waves against the frequency of its note."""
    lengths = np.linspace(0.2, 0.6, 161)
    figure = new_figure(width=8.0, height=4.6)
    string = SoundingString(figure.add_axes((0.10, 0.74, 0.86, 0.24)), longest=600, unit="mm")
    curve = CurveWithPoint(figure.add_axes((0.10, 0.13, 0.86, 0.44)), x_label="sounding length (mm)",
                           y_label="frequency (Hz)", x_limits=(180, 660), y_limits=(0, 1100))

    def draw(data):
        return string.update(length=data["at"]) + curve.update(**data)

    return Panel(
        sliders=(Slider(name="length", label="sounding length", unit="mm", low=200, high=600, start=600, step=10),
                 Slider(name="speed", label="speed of the wave", unit="m/s", low=100, high=420, start=250, step=10)),
        compute=frequency, figure=figure, draw=draw, sheet=sheet, prediction="p1",
        data=lambda note, speed, length: {
            "x": in_unit(lengths, "mm"), "y": frequency(speed, lengths), "at": in_unit(length, "mm"), "value": note,
            "text": said(note, "Hz", ".0f")},
        shown=lambda note: {"frequency": said(note, "Hz", ".1f")},
        message=lambda note, speed, length: (
            "The shorter the string, the higher the frequency of its note, in inverse proportion: "
            f"{said(length, 'mm', '.0f')}, with waves at {said(speed, 'm/s', '.0f')}, gives "
            f"{said(note, 'Hz', '.1f')}."))
