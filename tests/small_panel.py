"""A panel of one slider and a straight line, a sheet for its prediction, and what tests read off them."""
import time
from types import SimpleNamespace

import numpy as np

from lessons_lib.page.controls import Choice, Slider
from lessons_lib.page.film import Film
from lessons_lib.page.grips import Grip
from lessons_lib.page.panel import Panel
from lessons_lib.page.sound import Sound
from lessons_lib.pictures.style import dress, new_figure


def straight_line(*, slope, offset=0.0):
    if slope > 8:
        raise ValueError(f"slope must be at most 8; got {slope:g}.")
    return {"slope": slope, "offset": offset}


def a_panel(**extra):
    """Slope in mm per ... shown as 1000 times its SI value; the picture is a straight line."""
    figure = new_figure(width=3, height=2)
    axes = dress(figure.add_subplot(), x_label="x", y_label="y", x_limits=(0, 1), y_limits=(0, 10))
    line, = axes.plot([0, 1], [0, 0], animated=True)

    def draw(data):
        line.set_ydata([data["offset"], data["offset"] + data["slope"]])
        return [line]

    sliders = extra.pop("sliders", (Slider(name="slope", label="slope", unit="mm", low=1000, high=9000, start=2000,
                                           step=100),))
    declared = {"sliders": sliders, "compute": straight_line, "figure": figure, "draw": draw,
                "shown": lambda result: {"rise": f"{result['slope']:.1f} m"},
                "message": "A straight line that rises by {rise}, {slope} a step"}
    return Panel(**declared | extra)


def a_moving_panel():
    """The same with everything a page can do: a line that is dragged by its right end, swings and sounds."""
    panel = a_panel(
        film=lambda result, slope: Film(frames=[result | {"slope": slope * share} for share in np.linspace(0, 1, 48)],
                                        words="one period in 1.6 s"),
        sound=lambda result, slope: Sound(signals={"a tone": slope * np.sin(np.arange(4410))}, rate=22050, loudest=9))
    axes = panel._drawing.figure.axes[0]
    panel._grips = Grip(axes, y="slope", y_of=lambda shown: shown / 1000, at=(1.0, 0.0)),
    return panel


def a_keeping_panel(many=0):
    """A panel that keeps a setting, begins from others, says what changed; *many* sliders besides."""
    others = tuple(Slider(name=f"more{n}", label=f"more {n}", unit="", low=0, high=1, start=0) for n in range(many))
    return a_panel(
        sliders=(*a_panel().specs.values(), *others), compute=lambda slope, **_: straight_line(slope=slope), keeps=True,
        presets={"flat": {"slope": 1.0}, "steep": {"slope": 7.0}},
        told=lambda before, now: f"From {before['slope']:g} to {now['slope']:g}.",
        sound=lambda result, slope, **_: Sound(signals={"a tone": slope * np.sin(np.arange(4410))}, rate=22050,
                                               loudest=9))


def a_slow_panel():
    """A panel of one list, with half a second from a choice to its picture."""
    def slowly(slope):
        time.sleep(0.5)
        return straight_line(slope=slope)

    return a_panel(sliders=(Choice(name="slope", label="slope", options={"flat": 1, "middle": 4, "steep": 7},
                                   start=1),), compute=slowly)


class FakeSheet:
    """The part of a sheet that a panel uses."""

    trouble = None

    def __init__(self, needs_reason=True):
        self.made, self.seen, self.needs_reason = None, None, needs_reason

    def prediction(self, exercise):
        if exercise != "p1":
            return None
        return SimpleNamespace(question="Which way <does> it go?", options={"a": "up", "b": "down"},
                               seen_question="Which way did it go?", seen_options={"a": "up", "b": "down"},
                               made=self.made, seen=self.seen, needs_reason=self.needs_reason)

    def predict(self, exercise, choice, sureness, reason):
        if len(reason) > 20:
            return SimpleNamespace(state="cannot be read", text="Write one line.")
        self.made = choice, sureness, reason
        return SimpleNamespace(state="kept", text=f"Your prediction is {choice}. Now look.")

    def saw(self, exercise, choice):
        self.seen = choice
        return SimpleNamespace(state="right", text="That is what the panel shows."
                               if choice == "a" else "Look again: it rises.")
