"""What breaks "the peak is the same at every fret", one condition at a time, and the plucks that are played."""
import math
from dataclasses import dataclass

import numpy as np

from lessons_lib.base.units import said
from lessons_lib.base.workshop import house_load
from lessons_lib.lessons.instrument import LISTENS, house_instrument, shown
from lessons_lib.lessons.lesson_05.model import FINGER, FORCE, flexible, fret_measures, sensitivity
from lessons_lib.page.sound import sounds
from lessons_lib.physics.induction import pickup_voltage

OCTAVE, FRETS_HEARD = 12, (0, 5, 12, 19)
_HEARD_AS = [f"fret {fret}" if fret else "open string" for fret in FRETS_HEARD]
_OPENING_RATE = 22050               # samples a second: the partials that are played end at 10 kHz
_RATE, _HIGHEST = 96000, 20e3       # samples a second; Hz, a steep edge cut off there overshoots a little


@dataclass(frozen=True)
class Broken:
    """One condition given up: what is done instead, and the figure that comes out, a factor or a level in dB."""

    condition: str
    instead: str
    value: float
    is_level: bool = False

    def __str__(self):
        figure = said(self.value, "dB", "+.1f") if self.is_level else f"x {self.value:.2f}"
        return f"{self.condition:24s}{self.instead:62s}{figure}"


def _pluck(instrument, string, fret, angle=0.0, width=FINGER, highest=_HIGHEST):
    return string.at_fret(fret).pluck(force=FORCE, place=instrument.place["pluck_place"], width=width, angle=angle,
                                      highest_frequency=highest)


def _over_the_map(instrument, name, motion, time, **listens):
    return pickup_voltage(instrument.pickup, instrument.steel_of(name), motion, time, y=instrument.y_of(name),
                          height=instrument.place["string_height"], place=instrument.place["pickup_place"], **listens)


def largest_voltage(name, fret, angle, instrument=house_instrument):
    """Peak (V) over the curved map in the first 20 ms; *angle* 0 is a pluck away from the coil, pi one towards it."""
    motion = _pluck(instrument, flexible(name, instrument), fret, angle)
    return np.abs(_over_the_map(instrument, name, motion, np.arange(0, 0.02, 1 / _RATE))).max()


def _largest_speed(instrument, name, fret):
    motion = _pluck(instrument, instrument.string(name), fret)
    return np.abs(motion.velocity(np.arange(0, 0.03, 1 / _RATE), instrument.place["pickup_place"])[0]).max()


def _treble(instrument, name, width, aperture):
    """RMS of the velocity's partials from 3 to 6 kHz at the octave, m/s."""
    motion = _pluck(instrument, flexible(name, instrument), OCTAVE, width=width)
    lines = motion.partials(instrument.place["pickup_place"], aperture=aperture)
    band = (lines.frequency >= 3e3) & (lines.frequency < 6e3)
    return math.sqrt((lines.velocity_up[band] ** 2).sum() / 2)


def _ringing(instrument, name):
    """Peak behind the loaded coil relative to the peak before it, at the octave."""
    time, motion = np.arange(0, 0.1, 1 / _RATE), _pluck(instrument, flexible(name, instrument), OCTAVE)
    speed = motion.velocity(time, instrument.place["pickup_place"], aperture=LISTENS)[0]
    return np.abs(instrument.loaded(**house_load).apply(speed, _RATE)).max() / np.abs(speed).max()


def broken_conditions(name="VI", instrument=house_instrument):
    """Six conditions of the rule, each given up alone, as a list of Broken.

    String *name* of the instrument, its places, 1 N; octave/open is the octave relative to the open string.

    Examples
    --------
    >>> str(broken_conditions()[1]).split()[-2:]
    ['x', '2.00']
    """
    place = instrument.place
    same_distance = fret_measures(fret=OCTAVE, string=name, pluck_place=place["pluck_place"], instrument=instrument,
                                  pickup_place=place["pickup_place"], rule="displacement", hand="fraction")
    loud = {string: sensitivity(string, place["string_height"], instrument)
            / (2 * flexible(string, instrument).impedance) for string in ("I", name)}
    towards = [largest_voltage(name, fret, math.pi, instrument) for fret in (OCTAVE, 0)]
    stiff = [_largest_speed(instrument, name, fret) for fret in (OCTAVE, 0)]
    treble = _treble(instrument, name, FINGER, LISTENS) / _treble(instrument, name, 0.0, 0.0)
    return [
        Broken("same string", "string I, relative to this one: peak voltage", loud["I"] / loud[name]),
        Broken("same force", "pulled equally far, same share of the string: octave/open",
               same_distance.times_open("velocity", "peak")),
        Broken("flexible, undamped", "real string, fast ripples ahead of the corner: octave/open", stiff[0] / stiff[1]),
        Broken("small swing", "1 N towards the coil, S is not constant: octave/open", towards[0] / towards[1]),
        Broken("point and point", "5 mm finger, 10 mm pickup, relative to points: 3 to 6 kHz", 20 * math.log10(treble),
               is_level=True),
        Broken("no load, no resonance", "coil, cable, controls: pulse rings, relative to no load",
               _ringing(instrument, name))]


def plucks(name="VI", *, seconds=1.5, rate=44100, instrument=house_instrument):
    """The same pluck at four frets: caption -> signal, displacement and voltage each relative to its open-string peak.

    Notes
    -----
    The real string with its decay, 5 mm of finger, 10 mm of pickup, the curved map; 1 N, up. Partials to 10 kHz.
    """
    time = np.arange(int(seconds * rate)) / rate
    motions = [_pluck(instrument, instrument.string(name), fret, highest=10e3) for fret in FRETS_HEARD]
    pickup_place = instrument.place["pickup_place"]
    signals = {
        "displacement": [motion.displacement(time, pickup_place, aperture=LISTENS)[0] for motion in motions],
        "voltage": [_over_the_map(instrument, name, motion, time, aperture=LISTENS) for motion in motions]}
    return {f"{quantity}, {words}": signal / np.abs(at_frets[0]).max()
            for quantity, at_frets in signals.items() for words, signal in zip(_HEARD_AS, at_frets)}


def opening(instrument=None):
    """Players of the same pluck at four frets in a row: as the string moves over the pickup, and as the voltage."""
    signals, together = plucks(seconds=0.7, rate=_OPENING_RATE, instrument=shown(instrument)), {}
    for caption, signal in signals.items():
        damped = np.minimum(1, np.arange(signal.size)[::-1] / (0.05 * _OPENING_RATE))      # the last 50 ms, by the hand
        together.setdefault(caption.partition(",")[0], []).append(signal * damped)
    frets = ", ".join(_HEARD_AS)
    return sounds({f"{quantity}: {frets}": np.concatenate(parts) for quantity, parts in together.items()},
                  _OPENING_RATE)


def hear_four_frets(name="VI", instrument=None):
    """Players for plucks(name), on one level scale."""
    return sounds(plucks(name, instrument=shown(instrument)), 44100)
