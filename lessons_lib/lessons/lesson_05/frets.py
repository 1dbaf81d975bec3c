"""A pluck at a fret as it is shown: the string with its running corners, the pulses over the pickup, the measures."""
from dataclasses import dataclass

import numpy as np

from lessons_lib.lessons.instrument import LISTENS, house_instrument
from lessons_lib.lessons.lesson_05.corners import displaced, plucked_shape, pulse_train, pulses
from lessons_lib.lessons.lesson_05.model import (
    FINGER,
    FORCE,
    HEARD_RATE,
    MEASURES,
    SIGNALS,
    flexible,
    places_at_fret,
    sensitivity,
)
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
    return FrettedPluck(string=fretted, pluck_place=x0, pickup_place=x,
                        force=FORCE * at.times_open("velocity", "peak", fret))


PERIODS_SHOWN = 2       # of the open string, on the time axis


def fret_instants(at, times=None, *, instrument=house_instrument, **values):
    """What `frets_figure` draws at each of some instants (s): else at one after the release, when the corners part.

    Returns
    -------
    list of dict
        string (places in m, shape, displacement and speed over the pickup), train (velocity over time, open and
        fretted, now), measures of the voltage at all frets; velocities relative to the open string's peak, times in its
        periods, measures relative to the open string.
    """
    pluck, opened = (fretted_pluck(at, instrument=instrument, **values | {"fret": fret}) for fret in (at.fret, 0))
    period, peak = 1 / opened.string.frequency(1), at.value("velocity", "peak", 0)
    if times is None:
        times = [min(pluck.pluck_place, pluck.pickup_place) / 2 / pluck.string.wave_speed]
    trains = [(seconds / period, speed / peak) for seconds, speed in (one.train(PERIODS_SHOWN * period)
                                                                      for one in (opened, pluck))]
    measures = at.table[at.rule][:, SIGNALS.index("voltage")]
    stays = {"length": opened.string.length, "stop": pluck.string.length, "fret": at.fret, "hand": pluck.pluck_place,
             "pickup": pluck.pickup_place}
    lines = {"at": at.fret, **dict(zip(MEASURES, (measures / measures[0]).T))}
    instants = []
    for time in times:
        moved, speed = pluck.over_pickup(time)
        string = stays | {"shape": pluck.shape(time), "over_pickup": (moved, speed / peak)}
        instants.append({"string": string, "measures": lines,
                         "train": {"open_string": trains[0], "fretted": trains[1], "now": time / period}})
    return instants


def fret_film(at, *, frames=48, **values):
    """The instants of one period of the fretted string in even steps, and that period (s)."""
    return fret_instants(at, np.arange(frames) / frames / at.frequency, **values), 1 / at.frequency


def heard_pluck(at, *, seconds=1.2, instrument=house_instrument, **values):
    """Voltage (V) of the real string, with its decay, under the panel's pluck: sensitivity at rest times velocity.

    A finger and a pickup with their usual widths, partials to 8 kHz; a force above a tenth of the tension is refused.
    """
    pluck, name = fretted_pluck(at, instrument=instrument, **values), values["string"]
    motion = instrument.string(name).at_fret(at.fret).pluck(force=pluck.force, place=pluck.pluck_place, width=FINGER,
                                                            highest_frequency=8e3)
    time = np.arange(int(seconds * HEARD_RATE)) / HEARD_RATE
    return (sensitivity(name, instrument.place["string_height"], instrument)
            * motion.velocity(time, pluck.pickup_place, aperture=LISTENS)[0])
