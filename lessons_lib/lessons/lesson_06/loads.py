"""One pluck of lesson 5 behind the instrument's coil and any load: what is heard, and what the loads do."""
import math
from functools import lru_cache
from types import MappingProxyType

import numpy as np

from lessons_lib.base.units import said
from lessons_lib.lessons.instrument import HIGHEST_PARTIAL, LISTENS, PLECTRUM, house_instrument, shown
from lessons_lib.lessons.lesson_06.model import FREQUENCIES, first_setting, level, loaded_coil
from lessons_lib.page.canvas import show
from lessons_lib.page.sound import QUIET, Sound, sounds
from lessons_lib.physics.induction import pickup_voltage
from lessons_lib.pictures.lines import Axis, Lines
from lessons_lib.pictures.marks import Curve, Dots
from lessons_lib.pictures.response import KHZ, ZERO, said_frequency
from lessons_lib.pictures.style import HOUSE_LOOK, INK, VOLTAGE, new_figure

RATE = 44100
LOADS = MappingProxyType({
    "no cable, no controls": {"cable": 0.0, "volume": math.inf, "tone": math.inf},
    "house cable and house controls": {},
    "cable of 1500 pF, both controls of 100 kΩ": {"cable": 1500e-12, "volume": 100e3, "tone": 100e3}})
OPENING_RATE = 22050            # samples a second: the partials end below half of it
CABLES = MappingProxyType({100e-12: "short lead", 500e-12: "house cable", 1500e-12: "long cable"})     # F
_LOOKS = ({"color": INK, "linestyle": "--"}, HOUSE_LOOK, VOLTAGE)
_SHORT = ("no cable,\nno controls", "house cable,\nhouse controls", "1500 pF,\n100 kΩ twice")


def coil_with(load, instrument=house_instrument):
    """The instrument's coil with one of the LOADS, as a LoadedCoil."""
    return loaded_coil(**{**first_setting(instrument), **LOADS[load]}, instrument=instrument)


@lru_cache(maxsize=2)
def pluck(name="III", *, seconds=1.5, rate=RATE, instrument=house_instrument):
    """Voltage (V) that one pluck of a string induces in the instrument's coil: 1 N, its places."""
    time, place = np.arange(int(seconds * rate)) / rate, instrument.place
    motion = instrument.string(name).pluck(force=1.0, place=place["pluck_place"], width=PLECTRUM,
                                           highest_frequency=HIGHEST_PARTIAL)
    return pickup_voltage(instrument.pickup, instrument.steel_of(name), motion, time, height=place["string_height"],
                          place=place["pickup_place"], y=instrument.y_of(name), aperture=LISTENS)


def heard(settings, instrument=house_instrument):
    """That voltage (V, RATE samples a second) at the amplifier's input behind other settings of `loaded_coil`.

    Other turns in the same window induce a voltage in proportion to their number.
    """
    induced = pluck(instrument=instrument) * (settings["turns"] / instrument.coil["turns"])
    return loaded_coil(**settings, instrument=instrument).apply(induced, RATE)


def sound_of(one, instrument=house_instrument, **_):
    """The pluck behind the first setting and behind that of a `Response`, as a `Sound`."""
    return Sound(signals={f"{instrument.whose} setting": heard(first_setting(instrument), instrument),
                          "this setting": heard(one.settings, instrument)},
                 rate=RATE, loudest=1.5 * float(np.abs(pluck(instrument=instrument)).max()))


def through_three_loads(*, seconds=1.5, instrument=house_instrument):
    """That voltage at the amplifier's input behind each of the LOADS: caption -> V."""
    induced = pluck(seconds=seconds, instrument=instrument)
    return {load: coil_with(load, instrument).apply(induced, RATE) for load in LOADS}


def opening(instrument=None):
    """Players of one pluck behind the usual controls and each of three cables, on one level scale."""
    instrument = shown(instrument)
    induced = pluck(seconds=1.2, rate=OPENING_RATE, instrument=instrument)
    coils = {f"{words}, {said(cable, 'pF', 'g')}":
             loaded_coil(**first_setting(instrument) | {"cable": cable}, instrument=instrument)
             for cable, words in CABLES.items()}
    return sounds({words: coil.apply(induced, OPENING_RATE) for words, coil in coils.items()}, OPENING_RATE)


def hear_three_loads(level=QUIET, instrument=None):
    """Players for through_three_loads, on one level scale, under a picture of the three responses."""
    instrument = shown(instrument)
    show(*three_responses(instrument))
    return sounds(through_three_loads(instrument=instrument), RATE, level=level)


def three_responses(instrument=house_instrument):
    """A figure of the responses with each of the LOADS, their peaks marked, and what it shows in words."""
    coils = {load: coil_with(load, instrument) for load in LOADS}
    peaks = {f"peak of {load}": coil.peak() for load, coil in coils.items()}
    figure = new_figure(width=8.0, height=3.6)
    lines = Lines(
        figure.add_axes((0.085, 0.155, 0.905, 0.825)), x=KHZ, y=Axis("level at the amplifier", "dB", (-40.0, 20.0)),
        parts=[ZERO, *(Curve(load, word, look, width=2.4) for load, word, look in zip(LOADS, _SHORT, _LOOKS)),
               *(Dots(name, look) for name, look in zip(peaks, _LOOKS))])
    lines.update(FREQUENCIES, words={name: said_frequency(place) for name, (place, _) in peaks.items()}, **peaks,
                 **{load: level(coil, FREQUENCIES) for load, coil in coils.items()})
    for artist in figure.findobj(lambda one: one.get_animated()):
        artist.set_animated(False)
    tops = "; ".join(f"{load}: peak at {said_frequency(place)}, {said(top, 'dB', '+.1f')}"
                     for load, (place, top) in zip(LOADS, peaks.values()))
    return figure, f"Level at the amplifier relative to the induced voltage, against frequency. {tops}."
