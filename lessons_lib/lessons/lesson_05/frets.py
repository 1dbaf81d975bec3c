"""A pluck at a fret as it is shown: the string with its running corners, the pulses over the pickup, the measures."""
from dataclasses import dataclass

import numpy as np

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_05.corners import displaced, plucked_shape, pulse_train, pulses
from lessons_lib.lessons.lesson_05.model import FORCE, MEASURES, SIGNALS, flexible, places_at_fret
from lessons_lib.physics.plucked_string import TunedString


@dataclass(frozen=True, kw_only=True)
class FrettedPluck:
    """A pluck at one fret under a rule: the fretted string, force (N), hand and pickup (m from the bridge)."""

    string: TunedString
    force: float
    pluck_place: float
    pickup_place: float

    def train(self, last):
        """Time (s) and velocity (m/s) over the pickup up to *last*, as `pulse_train` gives them."""
        return pulse_train(self.string, self.force, self.pluck_place, self.pickup_place, last)

    def shape(self, time):
        """The string *time* (s) after the release, as `plucked_shape` gives it."""
        return plucked_shape(self.string, self.force, self.pluck_place, time)

    def over_pickup(self, time):
        """Displacement (m) and velocity (m/s) over the pickup *time* (s) after the release."""
        where = self.string, self.force, self.pluck_place, self.pickup_place, time
        return float(displaced(*where)), float(pulses(*where))


def fretted_pluck(at, *, fret, string, pluck_place, pickup_place, rule, hand, instrument=house_instrument):
    """The pluck behind one fret's measures, as a `FrettedPluck`."""
    open_string = flexible(string, instrument)
    fretted = open_string.at_fret(fret)
    x0, x = places_at_fret(open_string, fretted, pluck_place, pickup_place, hand)
    return FrettedPluck(string=fretted, force=FORCE * at.times_open("velocity", "peak"), pluck_place=x0, pickup_place=x)


PERIODS_SHOWN = 2       # of the open string, on the time axis


def fret_curves(at, *, time=None, instrument=house_instrument, **values):
    """What `OverTheFrets.update` takes, at one instant (s): else a moment after the release, when the corners part."""
    pluck = fretted_pluck(at, instrument=instrument, **values)
    open_string = flexible(values["string"], instrument)
    period, length = 1 / open_string.frequency(1), open_string.length
    opened = fretted_pluck(at, instrument=instrument, **values | {"fret": 0})
    peak = at.value("velocity", "peak", 0)
    last = PERIODS_SHOWN * period
    if time is None:
        time = min(pluck.pluck_place, pluck.pickup_place) / 2 / pluck.string.wave_speed
    moved, speed = pluck.over_pickup(time)
    trains = [(seconds / period, speed / peak) for seconds, speed in (opened.train(last), pluck.train(last))]
    measures = at.table[at.rule][:, SIGNALS.index("voltage")]
    return {"string": {"length": length, "stop": pluck.string.length, "fret": at.fret, "hand": pluck.pluck_place,
                       "pickup": pluck.pickup_place, "shape": pluck.shape(time), "over_pickup": (moved, speed / peak)},
            "train": {"open_string": trains[0], "fretted": trains[1], "now": time / period},
            "measures": {"at": at.fret, **dict(zip(MEASURES, (measures / measures[0]).T))}}
