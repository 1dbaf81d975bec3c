"""The panel of a slanting pluck: two notes, two decays, and the level of what the pickup hears of them."""
from functools import partial
from math import isfinite

from lessons_lib.base.units import said
from lessons_lib.lessons.instrument import in_mm, shown
from lessons_lib.lessons.lesson_05.figures import two_decays_figure
from lessons_lib.lessons.lesson_05.model import HEARD_RATE
from lessons_lib.lessons.lesson_05.two_decays import DEEP, HEIGHTS, STRINGS, decay_curves, heard_decays, two_decays
from lessons_lib.page.controls import Choice, Slider, begin
from lessons_lib.page.grips import Grip
from lessons_lib.page.panel import Panel
from lessons_lib.page.sound import Sound

STRING = Choice(name="string", label="string", options={name: name for name in STRINGS}, start="VI")
HEIGHT = Slider(name="height", label="height of the string", unit="mm", low=HEIGHTS[0] * 1e3, high=HEIGHTS[1] * 1e3,
                step=0.1, start=lambda instrument: in_mm(instrument.place["string_height"]))
SLANT = Slider(name="slant", label="neck gives way, outward by", unit="°", low=0, high=45, start=0, step=5)
RATIO = Slider(name="ratio", label="decay at right angles, ×", unit="", low=0.25, high=1, start=0.5, step=0.05)
ANGLE = Slider(name="angle", label="plucked, outward by", unit="°", low=0, high=70, start=45, step=5)


def _decay_words(now, *, string, **_):
    """What the two notes are, and which of them is heard."""
    begins = (f"A string end-on over its pole, and the level of what the pickup hears of string {string}, plucked at a "
              "slant of {plucked, outward by}. The string has two notes, {the two notes differ by} apart, that fall "
              "by {they fall by}; sideways the pickup hears {sideways the pickup hears}. ")
    if now.is_one:
        heard = "One of the two is heard alone: its level falls evenly. "
    elif isfinite(now.slower_by):
        side = "above" if now.slower_by > 0 else "below"
        heard = (f"At the release the note that dies more slowly is {said(abs(now.slower_by), 'dB', '.0f')} {side} the "
                 "other, and both are heard. ")
    else:
        heard = "Here the two have become one. "
    return begins + heard + ("The level changes by {level in the first second} in the first second, and, "
                             f"{said(-DEEP, 'dB', '.0f')} down, by {{level at last}}; it is 20 dB below its loudest "
                             "for good after {20 dB down after}.")


def panel(sheet, instrument):
    """What `panels.two_decays` shows."""
    instrument = shown(instrument)
    figure, draw, axes = two_decays_figure(instrument)

    return Panel(
        title="Two planes, two decays", sliders=begin(instrument, STRING, HEIGHT, SLANT, RATIO, ANGLE),
        compute=partial(two_decays, instrument=instrument), data=partial(decay_curves, instrument=instrument),
        figure=figure, draw=draw, grips=(Grip(axes, y="height"),), sheet=sheet, prediction="p5",
        sound=lambda _, **values: Sound(signals=heard_decays(**values, instrument=instrument), rate=HEARD_RATE,
                                        loudest=1.0),
        on_paper=({"string": "III"}, {}, {"angle": ANGLE.in_si(70)}), message=_decay_words,
        shown=lambda now: {
            "20 dB down after": said(now.quiet_after, "s", ".1f"),
            "level in the first second": said(-now.first_second, "dB", "+z.1f"),
            "level at last": f"{said(-now.last, 'dB', '+z.1f')} a second",
            "the two notes differ by": said(now.planes.beat, "Hz", ".2f"),
            "they fall by": f"{now.falls[0]:.1f} and {said(now.falls[1], 'dB', '.1f')} a second",
            "sideways the pickup hears": f"{said(abs(now.ear[1]), '%', '.1f')} of up and down"})
