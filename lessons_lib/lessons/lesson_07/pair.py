"""Lesson 7: the pair of coils against hum, what each arrangement costs, and six plucks to listen to."""
import math
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from lessons_lib.base.materials import magnet_grade, steel
from lessons_lib.base.units import in_unit, said
from lessons_lib.base.wire import magnet_wire
from lessons_lib.base.workshop import ROW
from lessons_lib.lessons.instrument import LISTENS, house_instrument
from lessons_lib.lessons.lesson_07.model import LEVEL, PLACES, arranged, bent_level, of_each_coil, string_levels
from lessons_lib.page.sound import sounds
from lessons_lib.physics.design import COPPER_DENSITY
from lessons_lib.physics.hum import hum_voltages
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.six_strings import in_a_row, sensitivities

ASIDE = 9e-3            # m, each coil from the middle of the pair
WIRINGS = {"neither reversed": (1, 1), "winding alone": (1, -1), "magnets alone": (-1, 1), "both": (-1, -1)}
HUM_FLOOR = -70.0           # dB, where a bar ends
_STRAY = {"flux_density": 1e-7, "frequency": 50.0}      # of the mains; only ratios are used


@lru_cache(maxsize=4)
def pair(magnets, instrument=house_instrument):
    """Two of the instrument's pickups as one Pickup, the second one's magnets reversed for -1; windings alike."""
    rod = instrument.rod
    first, second = (in_a_row(replace(rod, remanence=sense * rod.remanence, x=x), PLACES)
                     for sense, x in ((1, -ASIDE), (magnets, ASIDE)))
    return Pickup(poles=first + second, coils=[replace(instrument.long_coil, x=x) for x in (-ASIDE, ASIDE)])


@lru_cache(maxsize=4)
def _shares(magnets, instrument):
    """Of both coils, windings alike: signal of string IV in shares of one pickup's, hum in shares of the first's."""
    both, fourth = pair(magnets, instrument), instrument.row()[2:3]
    hum = hum_voltages(both, **_STRAY)
    return of_each_coil(both, fourth)[:, 0] / sensitivities(instrument.pickup, fourth), hum / hum[0]


@dataclass(frozen=True, kw_only=True)
class Pair:
    """Levels of signal (dB re one pickup alone) and hum (dB re the first coil's) by wiring; -inf for nothing.

    signal_parts, hum_parts: what the first coil and the second give, by wiring, in shares of the same.
    """

    signal: dict
    hum: dict
    signal_parts: dict
    hum_parts: dict


def hum_pair(*, more_turns, uneven, instrument=house_instrument):
    """A pair of coils in series in each of the WIRINGS, as Pair.

    Parameters
    ----------
    more_turns : float
        By which the second coil has more turns than the first, a share.
    uneven : float
        By which the stray field is stronger at the second coil, a share.

    Examples
    --------
    >>> round(hum_pair(more_turns=0.01, uneven=0.0).hum["both"], 1)
    -40.0
    """
    signal, hum = {}, {}
    for words, (magnets, winding) in WIRINGS.items():
        of_signal, of_hum = _shares(magnets, instrument)
        turns = np.array([1, winding * (1 + more_turns)])   # every turn of the second coil links what it linked before
        signal[words], hum[words] = turns * of_signal, turns * of_hum * (1, 1 + uneven)
    signal_levels, hum_levels = ({words: level_of(both.sum()) for words, both in parts.items()}
                                 for parts in (signal, hum))
    return Pair(signal=signal_levels, hum=hum_levels, signal_parts=signal, hum_parts=hum)


def level_of(share):
    """dB; what is left of a difference by rounding is nothing."""
    return 20 * math.log10(abs(share)) if abs(share) > 1e-9 else -math.inf


# ---- what it costs ---------------------------------------------------------------------------------------------------

@dataclass(frozen=True, kw_only=True)
class Cost:
    """One arrangement: turns of all coils, wire (m, AWG 44), copper (kg), resistance (ohm), magnets (how many, m3 of
    all), inductance (H) at low frequencies and at 4 kHz, where currents flow in rods and screws, sensitivity of string
    IV (V per m/s), and its dip half way to string III (dB)."""

    name: str
    turns: float
    wire: float
    copper: float
    resistance: float
    magnets: int
    magnet_volume: float
    inductance: float
    inductance_at_4_khz: float
    sensitivity: float
    dip: float

    def __str__(self):
        return (f"{self.name:18s}{self.turns:6.0f}{said(self.wire, 'm', '7.0f')}{said(self.copper, 'g', '6.1f')}"
                f"{said(self.resistance, 'kΩ', '6.1f')}{self.magnets:4d}{said(self.magnet_volume, 'cm3', '6.2f')}"
                f"{said(self.inductance, 'H', '6.2f')}{said(self.inductance_at_4_khz, 'H', '6.2f')}"
                f"{in_unit(self.sensitivity, 'mV per m/s'):5.0f}"
                f"{said(self.dip, '', 'z7.1f')}")


HEAD = (f"{'':18}{'turns':>6}{'wire':>9}{'copper':>8}{'resist.':>9}{'magnets':>14}{'induct.':>8}{'4 kHz':>8}{'S':>5}"
        f"{'dip':>7}\n{'':78}mV per m/s  dB")
_COSTED = {"rods": "rods, long coil", "screws": "screws on a bar", "six coils": "rods, six coils",
           "alternating": "rods, alternating", "blade": "blade, long coil"}
_TREBLE = 4e3       # Hz


def _volume(part):
    return math.prod(part.size) if hasattr(part, "size") else math.pi / 4 * part.diameter ** 2 * part.length


def of_metal(whole):
    """The same Pickup with poles that currents flow in: rods of alnico 5, screws of screw steel."""
    alnico, soft = magnet_grade("alnico 5").resistivity, steel("screw steel").resistivity
    return replace(whole, poles=[replace(pole, resistivity=float(alnico if hasattr(pole, "remanence") else soft))
                                 for pole in whole.poles])


@lru_cache(maxsize=4)
def what_it_costs(instrument=house_instrument):
    """Every arrangement of the lesson but the pair, with the instrument's wire and strings, as a tuple of Cost."""
    wire, string, found = magnet_wire(awg=instrument.gauge), instrument.row()[2], []
    for name, words in _COSTED.items():
        whole = arranged(name, instrument)
        length = sum(coil.wire_length() for coil in whole.coils)
        magnets = [part for part in (*whole.poles, *whole.bars) if hasattr(part, "remanence")]
        half_way = bent_level(name, string.height, instrument.place["string_spacing"] / 2, instrument)
        found.append(Cost(
            name=words, turns=sum(coil.turns for coil in whole.coils), wire=length,
            copper=COPPER_DENSITY * length * float(wire.area), resistance=wire.resistance(length),
            magnets=len(magnets), magnet_volume=sum(map(_volume, magnets)), inductance=whole.inductance(),
            inductance_at_4_khz=float(of_metal(whole).impedance(_TREBLE).imag / (2 * math.pi * _TREBLE)),
            sensitivity=whole.sensitivity(string.steel, height=string.height, y=string.y), dip=float(half_way)))
    return tuple(found)


# ---- what is heard ---------------------------------------------------------------------------------------------------

RATE, _NOTE, _REST, _FORCE, _FINGER = 44100, 0.7, 0.05, 1.0, 5e-3


@lru_cache(maxsize=28)
def _speed(name, note, instrument):
    """Velocity (m/s) at the pickup of one string of the row, plucked up with 1 N, for a *note* (s); real and damped."""
    motion = instrument.string(name).pluck(force=_FORCE, place=instrument.place["pluck_place"], width=_FINGER,
                                           highest_frequency=8e3)
    time = np.arange(int(note * RATE)) / RATE
    ends = np.minimum(1, (note - time) / 0.05)         # the hand damps it
    return ends * motion.velocity(time, instrument.place["pickup_place"], aperture=LISTENS)[0]


def six_plucks(levels, third="III", note=_NOTE, instrument=house_instrument):
    """Voltage (V) of the six strings plucked one after the other, VI first; sensitivity as at rest.

    Parameters
    ----------
    levels : StringLevels
    third : "III" or "III wound"
    note : float
        Length of each, s.
    """
    at_rest = levels.pulses * 2 * np.array([string.impedance for string in instrument.row(third=third)])
    rest = np.zeros(int(_REST * RATE))
    return np.concatenate([part for name, slope in zip(ROW, at_rest)
                           for part in (slope * _speed(third if name == "III" else name, note, instrument), rest)])


def hear_six_strings(found, instrument=house_instrument):
    """Players for six plucks over short screws, flush and then at the heights *found* for them, on one scale."""
    return _over_short_screws({"all screws flush": LEVEL, "at the solver's heights": found.tops}, _NOTE, instrument)


EVENED = (1.4e-3, 0.8e-3, 0.5e-3, -2.8e-3, -1.8e-3, -0.1e-3)    # m: what make_equal("short screws") finds, to 0.1 mm


def opening(instrument=house_instrument):
    """Players of six equal plucks one after the other over short screws: all flush, and turned until they are even."""
    return _over_short_screws({"all screws level": LEVEL, "each screw turned to a height of its own": EVENED}, 0.45,
                              instrument)


def _over_short_screws(tops_by_words, note, instrument):
    return sounds({f"{words}: {', '.join(ROW)}": six_plucks(
        string_levels(kind="short screws", instrument=instrument, **dict(zip(ROW, tops))), note=note,
        instrument=instrument) for words, tops in tops_by_words.items()}, RATE)
