"""A panel of one slider and a straight line, a sheet for its prediction, and what tests read off them."""
import base64
import io
import re
from types import SimpleNamespace

import numpy as np
from PIL import Image

from lessons_lib.page import canvas
from lessons_lib.page.controls import Slider
from lessons_lib.page.panel import Panel
from lessons_lib.pictures.style import dress, new_figure


def straight_line(*, slope, offset=0.0):
    if slope > 8:
        raise ValueError(f"slope must be at most 8; got {slope:g}.")
    return {"slope": slope, "offset": offset}


def a_panel(arrays=lambda result, **values: result, **extra):
    """Slope in mm per ... shown as 1000 times its SI value; the picture is a straight line."""
    figure = new_figure(width=3, height=2)
    axes = dress(figure.add_subplot(), x_label="x", y_label="y", x_limits=(0, 1), y_limits=(0, 10))
    line, = axes.plot([0, 1], [0, 0], animated=True)

    def draw(data):
        line.set_ydata([data["offset"], data["offset"] + data["slope"]])
        return [line]

    sliders = extra.pop("sliders", (Slider(name="slope", label="slope", unit="mm", low=1000, high=9000, start=2000,
                                           step=100),))
    return Panel(sliders=sliders, numbers=straight_line, arrays=arrays, figure=figure, draw=draw,
                 readouts=lambda result: {"slope": f"{result['slope']:.1f} m"},
                 alt=lambda result, **values: f"A straight line of slope {result['slope']:.1f}", **extra)


def pixels(tag):
    data = base64.b64decode(re.search(r"base64,([^\"]+)", tag)[1])
    return np.asarray(Image.open(io.BytesIO(data)).convert("RGB")).astype(int)


class FakeSheet:
    """The part of a sheet that a panel uses."""

    trouble = None

    def __init__(self):
        self.made, self.seen = None, None

    def prediction(self, exercise):
        if exercise != "p1":
            return None
        return SimpleNamespace(question="Which way <does> it go?", options={"a": "up", "b": "down"},
                               seen_question="Which way did it go?", seen_options={"a": "up", "b": "down"},
                               made=self.made, seen=self.seen)

    def predict(self, exercise, choice, sureness, reason):
        if len(reason) > 20:
            return SimpleNamespace(state="cannot be read", text="Write one line.")
        self.made = choice, sureness, reason
        return SimpleNamespace(state="kept", text=f"Your prediction is {choice}. Now look.")

    def saw(self, exercise, choice):
        self.seen = choice
        return SimpleNamespace(state="right", text="That is what the panel shows."
                               if choice == "a" else "Look again: it rises.")


def two_texts():
    figure = new_figure(width=3, height=2)
    axes = figure.add_axes((0, 0, 1, 1))
    line, = axes.plot([0, 1], [0, 1], animated=True)
    texts = [axes.text(0.1, y, "", animated=True) for y in (0.3, 0.7)]

    def draw(words):
        for text, word in zip(texts, words):
            text.set_text(word)
        return [line, *texts]
    return canvas.Canvas(figure, draw)


def drawn(one, words):
    one.frame(words, "words")
    return np.array(one.figure.canvas.buffer_rgba()).astype(int)
