"""One pluck of lesson 5 through three loads of the instrument's coil: what is heard, and what the loads do."""
import math
from types import MappingProxyType

import numpy as np

from lessons_lib.lessons.instrument import house_instrument, shown
from lessons_lib.lessons.lesson_06.model import first_setting, loaded_coil
from lessons_lib.page.sound import QUIET, sounds
from lessons_lib.physics.induction import pickup_voltage

PLECTRUM, LISTENS = 1e-3, 10e-3     # m of string under a plectrum and over a pickup; assumed
HIGHEST_PARTIAL = 10e3              # Hz
LOADS = MappingProxyType({
    "no cable, no controls": {"cable": 0.0, "volume": math.inf, "tone": math.inf},
    "house cable and house controls": {},
    "cable of 1500 pF, both controls of 100 kΩ": {"cable": 1500e-12, "volume": 100e3, "tone": 100e3}})


def coil_with(load, instrument=house_instrument):
    """The instrument's coil with one of the LOADS, as a LoadedCoil."""
    return loaded_coil(**{**first_setting(instrument), **LOADS[load]}, instrument=instrument)


def pluck(name="III", *, seconds=1.5, rate=44100, instrument=house_instrument):
    """Voltage (V) that one pluck of a string induces in the instrument's coil: 1 N, its places."""
    time, place = np.arange(int(seconds * rate)) / rate, instrument.place
    motion = instrument.string(name).pluck(force=1.0, place=place["pluck_place"], width=PLECTRUM,
                                           highest_frequency=HIGHEST_PARTIAL)
    return pickup_voltage(instrument.pickup, instrument.steel_of(name), motion, time, height=place["string_height"],
                          place=place["pickup_place"], y=instrument.y_of(name), aperture=LISTENS)


def through_three_loads(*, seconds=1.5, rate=44100, instrument=house_instrument):
    """That voltage at the amplifier's input behind each of the LOADS: caption -> V."""
    induced = pluck(seconds=seconds, rate=rate, instrument=instrument)
    return {load: coil_with(load, instrument).apply(induced, rate) for load in LOADS}


def hear_three_loads(level=QUIET, instrument=None):
    """Players for through_three_loads, on one level scale."""
    return sounds(through_three_loads(instrument=shown(instrument)), 44100, level=level)
