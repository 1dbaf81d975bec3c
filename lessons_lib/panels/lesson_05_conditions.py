"""What breaks "the peak is the same at every fret", one condition at a time, and the plucks that are played."""
import math
from dataclasses import dataclass

import numpy as np

from lessons_lib.base.wire import magnet_wire
from lessons_lib.base.workshop import house_load
from lessons_lib.panels.instrument import (
    shown_coil,
    shown_gauge,
    shown_inductance,
    shown_pickup,
    shown_place,
    shown_string,
    shown_winding,
)
from lessons_lib.panels.lesson_05_numbers import FORCE, flexible, fret_measures, sensitivity, steel_of, y_of
from lessons_lib.panels.sound import sounds
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.induction import pickup_voltage
from lessons_lib.pictures.style import signed

OCTAVE, FRETS_HEARD = 12, (0, 5, 12, 19)
FINGER, LISTENS = 5e-3, 10e-3       # m of string under a finger and over a pickup; assumed
_RATE, _HIGHEST = 96000, 20e3       # samples a second; Hz, a steep edge cut off there overshoots a little
_PLUCK, _PICKUP, _HEIGHT = (shown_place[name] for name in ("pluck_place", "pickup_place", "string_height"))


@dataclass(frozen=True, kw_only=True)
class Broken:
    """One condition given up: what is done instead, and the figure that comes out, a factor or a level in dB."""

    condition: str
    instead: str
    value: float
    is_level: bool = False

    def __str__(self):
        figure = signed(f"{self.value:+.1f} dB") if self.is_level else f"x {self.value:.2f}"
        return f"{self.condition:24s}{self.instead:62s}{figure}"


def loaded_coil():
    """The house coil with its load, both controls up."""
    return LoadedCoil(resistance=shown_winding(shown_coil["turns"]).resistance(magnet_wire(awg=shown_gauge)),
                      inductance=shown_inductance(), **house_load)


def _pluck(string, fret, angle=0.0, width=FINGER, highest=_HIGHEST):
    return string.at_fret(fret).pluck(force=FORCE, place=_PLUCK, width=width, angle=angle, highest_frequency=highest)


def largest_voltage(name, fret, angle):
    """Peak (V) over the curved map in the first 20 ms; *angle* 0 is a pluck away from the coil, pi one towards it."""
    time = np.arange(0, 0.02, 1 / _RATE)
    return np.abs(pickup_voltage(shown_pickup(), steel_of(name), _pluck(flexible(name), fret, angle), time,
                                 height=_HEIGHT, place=_PICKUP, y=y_of(name))).max()


def _largest_speed(string, fret, start):
    time = np.arange(start, start + 0.03, 1 / _RATE)
    return np.abs(_pluck(string, fret).velocity(time, _PICKUP)[0]).max()


def _treble(name, width, aperture):
    """RMS of the velocity's partials from 3 to 6 kHz at the octave, m/s."""
    lines = _pluck(flexible(name), OCTAVE, width=width).partials(_PICKUP, aperture=aperture)
    band = (lines.frequency >= 3e3) & (lines.frequency < 6e3)
    return math.sqrt((lines.velocity_up[band] ** 2).sum() / 2)


def _ringing(name):
    """Peak behind the loaded coil relative to the peak before it, at the octave."""
    time = np.arange(0, 0.1, 1 / _RATE)
    speed = _pluck(flexible(name), OCTAVE).velocity(time, _PICKUP, aperture=LISTENS)[0]
    return np.abs(loaded_coil().apply(speed, _RATE)).max() / np.abs(speed).max()


def broken_conditions(name="VI"):
    """Six conditions of the rule, each given up alone, as a list of Broken.

    String *name*, house places, 1 N; the octave relative to the open string where nothing else is said.

    Examples
    --------
    >>> str(broken_conditions()[1]).split()[-2:]
    ['x', '2.00']
    """
    same_distance = fret_measures(fret=OCTAVE, string=name, pluck_place=_PLUCK, pickup_place=_PICKUP,
                                  rule="displacement", hand="fraction")
    loud = {string: sensitivity(string, _HEIGHT) / (2 * flexible(string).impedance) for string in ("I", name)}
    towards = [largest_voltage(name, fret, math.pi) for fret in (OCTAVE, 0)]
    stiff = [_largest_speed(shown_string(name), fret, start=0.0) for fret in (OCTAVE, 0)]
    treble = _treble(name, FINGER, LISTENS) / _treble(name, 0.0, 0.0)
    return [
        Broken(condition="same string", instead="string I, relative to this one: peak voltage",
               value=loud["I"] / loud[name]),
        Broken(condition="same force", instead="pulled equally far, same share of the string",
               value=same_distance.times_open("velocity", "peak")),
        Broken(condition="flexible, undamped", instead="real string: fast ripples run ahead of the corner",
               value=stiff[0] / stiff[1]),
        Broken(condition="small swing", instead="1 N towards the coil: S is not constant",
               value=towards[0] / towards[1]),
        Broken(condition="point and point", instead="5 mm finger, 10 mm pickup, relative to points: 3 to 6 kHz",
               value=20 * math.log10(treble), is_level=True),
        Broken(condition="no load, no resonance", instead="coil, cable, controls: pulse rings, relative to no load",
               value=_ringing(name))]


def plucks(name="VI", *, seconds=1.5, rate=44100):
    """The same pluck at four frets: caption -> signal, displacement and voltage each over its own open-string peak.

    Notes
    -----
    The real string with its decay, 5 mm of finger, 10 mm of pickup, the curved map; 1 N, up. Partials to 10 kHz.
    """
    time = np.arange(int(seconds * rate)) / rate
    motions = {fret: _pluck(shown_string(name), fret, highest=10e3) for fret in FRETS_HEARD}
    signals = {
        "displacement": [motion.displacement(time, _PICKUP, aperture=LISTENS)[0] for motion in motions.values()],
        "voltage": [pickup_voltage(shown_pickup(), steel_of(name), motion, time, height=_HEIGHT, place=_PICKUP,
                                   y=y_of(name), aperture=LISTENS) for motion in motions.values()]}
    return {f"{quantity}, {f'fret {fret}' if fret else 'open string'}": signal / np.abs(at_frets[0]).max()
            for quantity, at_frets in signals.items() for fret, signal in zip(FRETS_HEARD, at_frets)}


def hear_four_frets(name="VI"):
    """Players for plucks(name), on one level scale."""
    return sounds(plucks(name), 44100)
