"""A pluck at a fret as it is shown: the string with its running corners, the pulses over the pickup, the measures."""
import numpy as np

from lessons_lib.lessons.instrument import LISTENS, house_instrument
from lessons_lib.lessons.lesson_05.corners import displaced, plucked_shape, pulse_train, pulses
from lessons_lib.lessons.lesson_05.model import FINGER, FORCE, HEARD_RATE, MEASURES, SIGNALS, at_fret, sensitivity

PERIODS_SHOWN = 2       # of the open string, on the time axis


def fretted_pluck(at, *, fret, string, pluck_place, pickup_place, rule, hand, instrument=house_instrument):
    """The pluck behind one fret's measures as corners.py takes it: string, force (N), hand and pickup (m)."""
    fretted, *places = at_fret(string, fret, pluck_place, pickup_place, hand, instrument)
    return fretted, FORCE * at.times_open("velocity", "peak", fret), *places


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
    (fretted, force, hand, pickup), open_string = pluck, opened[0]
    period, peak = 1 / open_string.frequency(1), at.value("velocity", "peak", 0)
    if times is None:
        times = [min(hand, pickup) / 2 / fretted.wave_speed]
    trains = [(seconds / period, speed / peak) for seconds, speed in (pulse_train(*one, PERIODS_SHOWN * period)
                                                                      for one in (opened, pluck))]
    measures = at.table[at.rule][:, SIGNALS.index("voltage")]
    stays = {"length": open_string.length, "stop": fretted.length, "fret": at.fret, "hand": hand, "pickup": pickup}
    lines = {"at": at.fret, **dict(zip(MEASURES, (measures / measures[0]).T))}
    return [{"string": stays | {"shape": plucked_shape(fretted, force, hand, time),
                                "over_pickup": (float(displaced(*pluck, time)), float(pulses(*pluck, time)) / peak)},
             "train": {"open_string": trains[0], "fretted": trains[1], "now": time / period}, "measures": lines}
            for time in times]


def fret_film(at, **values):
    """The instants of one period of the fretted string in even steps, and that period (s)."""
    return fret_instants(at, np.arange(48) / 48 / at.frequency, **values), 1 / at.frequency


def heard_pluck(at, *, string, fret, instrument=house_instrument, **values):
    """Voltage (V) of the real string, with its decay, under the panel's pluck: sensitivity at rest times velocity.

    A finger and a pickup with their usual widths, partials to 8 kHz; a force above a tenth of the tension is refused.
    """
    _, force, hand, pickup = fretted_pluck(at, string=string, fret=fret, instrument=instrument, **values)
    motion = instrument.string(string).at_fret(fret).pluck(force=force, place=hand, width=FINGER, highest_frequency=8e3)
    time = np.arange(int(1.2 * HEARD_RATE)) / HEARD_RATE
    return (sensitivity(string, instrument.place["string_height"], instrument)
            * motion.velocity(time, pickup, aperture=LISTENS)[0])
