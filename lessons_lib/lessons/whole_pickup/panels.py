"""The whole pickup on one screen, its file, and a first look at it.

The functions of numbers under it are beside it, in model.py, views.py and changes.py, the figures in figures.py.
"""
from dataclasses import replace

from lessons_lib.base.units import in_unit, said
from lessons_lib.lessons.instrument import shown
from lessons_lib.lessons.whole_pickup import model, views
from lessons_lib.lessons.whole_pickup.figures import first_figure
from lessons_lib.lessons.whole_pickup.settings import RANGES, begin_with
from lessons_lib.page.controls import Slider
from lessons_lib.page.film import Film
from lessons_lib.page.grips import Grip
from lessons_lib.page.panel import Panel
from lessons_lib.page.sound import Sound

_LOUDEST = 0.15         # V of the workshop's pickup that play at the level of all sounds; at most 9 dB more
_FILM = 2.4             # s


def _slider(start, name, label, step, **more):
    """A slider over the range that a file may have, beginning with a value of *start*."""
    unit, low, high = RANGES[name]
    unit = "" if unit == "1" else unit
    return Slider(**{"name": name, "label": label, "unit": unit, "low": low, "high": high, "step": step,
                     "start": round(in_unit(getattr(start, name), unit), 6)} | more)


def _film(one):
    return Film(frames=tuple(views.swinging(one)), seconds=_FILM,
                words=f"one period, {said(one.period, 'ms', '.1f')}, takes {said(_FILM, 's', 'g')}")


def _sound(one, louder):
    return Sound(signals={"this pluck at the amplifier": one.sound()}, rate=model.SOUND_RATE,
                 loudest=_LOUDEST * louder)


def first_look(sheet=None, instrument=None):
    """Panel: a string over its magnet in a coil, still and silent until it is asked; height and turns."""
    instrument = shown(instrument)
    start = begin_with(instrument)
    figure, draw, axes = first_figure(instrument)
    return Panel(
        title="A string, a magnet, a coil",
        sliders=(_slider(start, "height", "height of string", 0.1), _slider(start, "turns", "turns of the coil", 100,
                                                                            whole=True)),
        compute=lambda **values: model.whole_pickup(replace(start, **values)), figure=figure, draw=draw, sheet=sheet,
        data=lambda one, **_: views.picture(one), film=lambda one, **_: _film(one),
        sound=lambda one, **_: _sound(one, instrument.louder), grips=(Grip(axes, y="height"),),
        on_paper=({}, {"height": 4e-3}, {"turns": 4000}),
        shown=lambda one: {"peak at the amplifier": said(one.peak, "mV", ".0f")},
        message=("A steel string end-on over a magnet, and a coil of {turns of the coil} turns round it; lines of flux "
                 "go from the magnet to the string. The string is at a height of {height of string}; plucked, it gives "
                 "{peak at the amplifier} at the amplifier."))
