"""The plain functions behind the panels of lesson 4: SI numbers in, small records and arrays out.

The string is the plain third over its own rod of the instrument's pickup. Its flux linkage is computed once over all
the places it can reach; every slider then reads that map. Other coils are compared with the instrument's.
"""
import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from lessons_lib.base.materials import magnet_wire
from lessons_lib.base.units import said
from lessons_lib.base.workshop import house_load
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.physics.induction import harmonic_levels, linkage_map

PLAIN_THIRD = "III"
NEAREST, FARTHEST, ASIDE, WIDEST = 2e-3, 4e-3, 3e-3, 0.8e-3     # m: heights, offset and amplitude of the sliders
SHOWN, SAMPLES = 10e-3, 97                      # s, the time axis, one period of the slowest swing; points of a trace
HARMONICS = 5
HEARD_RATE = 22050                              # samples a second: the highest harmonics of a swing are far below
BASS_AND_TREBLE = np.array([100.0, 5e3])        # Hz, where levels at the amplifier are read
_NO_TONE = house_load | {"tone_resistance": math.inf}      # the tone control is left out


@lru_cache(maxsize=4)
def _reached(instrument):
    """The map of flux linkage wherever the sliders can take the string."""
    pole, steel = instrument.y_of(PLAIN_THIRD), instrument.steel_of(PLAIN_THIRD)
    return linkage_map(instrument.pickup, steel, height=(NEAREST - WIDEST, FARTHEST + WIDEST),
                       y=(pole - WIDEST, pole + ASIDE + WIDEST))


@dataclass(frozen=True, kw_only=True)
class Swing:
    """Readings of a string that swings as a sine: linkage from lowest to highest (Wb), voltages (V); levels (dB) of the
    first harmonics of the voltage, relative to harmonic 1 of the same swing up and down over the middle of the pole;
    first instant of highest linkage (s)."""

    linkage_swing: float
    peak: float
    rms: float
    peak_to_peak: float
    at_highest_linkage: float
    levels: np.ndarray
    highest_linkage_time: float


def _way(direction):
    """Unit vector of the motion, (across, up)."""
    return np.round([math.sin(direction), math.cos(direction)], 12)


def _traces(time, *, height, offset, direction, amplitude, frequency, turns, instrument, decay=0.0):
    """Displacement (m) along a motion that dies away at *decay* (1/s), linkage (Wb) from that at rest, voltage (V)."""
    omega, amplitude = 2 * math.pi * frequency, amplitude * np.exp(-decay * time)
    moved = amplitude * np.sin(omega * time)
    speed = amplitude * (omega * np.cos(omega * time) - decay * np.sin(omega * time))
    across, up = _way(direction)
    reached, rest = _reached(instrument), instrument.y_of(PLAIN_THIRD) + offset
    place = height + up * moved, rest + across * moved
    share = turns / instrument.coil["turns"]        # the same window: every turn links what it linked before
    by_height, by_y = reached.gradient(*place)
    linkage = reached.linkage(*place) - reached.linkage(height, rest)
    return moved, share * linkage, -share * (by_height * up + by_y * across) * speed


def _harmonics(height, offset, direction, amplitude, instrument):
    """Amplitudes of the first harmonics of the voltage at 1 Hz with the instrument's coil."""
    time = np.arange(256) / 64
    voltage = _traces(time, height=height, offset=offset, direction=direction, amplitude=amplitude, frequency=1.0,
                      turns=instrument.coil["turns"], instrument=instrument)[2]
    return harmonic_levels(voltage, time, fundamental=1.0, count=HARMONICS)


def swing(*, height, offset, direction, amplitude, frequency, turns, instrument=house_instrument):
    """What a swinging string gives, as a `Swing`; one even period is looked at.

    Parameters
    ----------
    height, offset : float
        Of the string's rest above the pole and beside its middle, m.
    direction : float
        Of the motion, rad; 0 is up and down, pi/2 sideways.
    amplitude, frequency : float
        m, Hz.
    turns : float
        Of the coil, in the window of the instrument's.
    """
    time = np.arange(720) / 720 / frequency
    _, linkage, voltage = _traces(time, height=height, offset=offset, direction=direction, amplitude=amplitude,
                                  frequency=frequency, turns=turns, instrument=instrument)
    straight, highest = _harmonics(height, 0.0, 0.0, amplitude, instrument).amplitude[0], np.argmax(linkage)
    return Swing(linkage_swing=np.ptp(linkage), peak=np.abs(voltage).max(), rms=math.sqrt(np.mean(voltage ** 2)),
                 peak_to_peak=np.ptp(voltage), at_highest_linkage=voltage[highest], highest_linkage_time=time[highest],
                 levels=_harmonics(height, offset, direction, amplitude, instrument).level(straight))


def swing_path(*, height, offset, direction, amplitude, **_):
    """The straight path of the string over its pole, as `OverPole` takes it: middle and ends, (y, z) from the pole."""
    reach = amplitude * _way(direction)
    rest = np.array([offset, height])
    return {"rest": rest, "ends": np.array([rest - reach, rest + reach])}


def swing_instants(time, *, instrument=house_instrument, **motion):
    """What `SwingingString.update` takes, at each of some instants (s): the whole traces, and all that holds just then.

    Returns
    -------
    list of dict
        path, traces (time, displacement, linkage, voltage: s, m, Wb, V), instant, string (y and z from the middle of
        the pole's face, m), and now: displacement, linkage, voltage at that instant.
    """
    time, axis = np.asarray(time), np.linspace(0, SHOWN, SAMPLES)
    path, traces = swing_path(**motion), (axis, *_traces(axis, instrument=instrument, **motion))
    now = np.transpose(_traces(time, instrument=instrument, **motion))
    return [{"path": path, "traces": traces, "instant": one, "now": at, "grows": False,
             "string": path["rest"] + at[0] * _way(motion["direction"])} for one, at in zip(time, now)]


def sideways_instants(one, time, *, instrument=house_instrument, **motion):
    """What `sideways_figure` draws at each of some instants (s): levels of a `Swing` at 200 Hz, voltage over its peak.

    Time is in swings of the string, from 0 to 2; the first swing comes again in the second.
    """
    motion |= {"frequency": 1.0, "turns": instrument.coil["turns"]}
    axis = np.linspace(0, 2, 2 * SAMPLES)
    voltage, now = (_traces(at, instrument=instrument, **motion)[2] for at in (axis, np.asarray(time)))
    peak = np.abs(voltage).max()
    instants = swing_instants(time, instrument=instrument, **motion)
    return [{"path": instant["path"], "string": instant["string"], "levels": one.levels,
             "wave": (axis, voltage / peak), "swings": at, "wave_now": here / peak}
            for instant, at, here in zip(instants, time, now)]


def swing_film(*, instrument=house_instrument, frames=48, **motion):
    """The instants of as many whole periods as the time axis holds, even steps; the traces grow with them."""
    length = math.floor(SHOWN * motion["frequency"] + 1e-9) / motion["frequency"]
    instants = swing_instants(length * np.arange(frames) / frames, instrument=instrument, **motion)
    return [instant | {"grows": True} for instant in instants], length


def swing_at_200_hz(*, instrument=house_instrument, **motion):
    """A `Swing` at 200 Hz with the instrument's coil."""
    return swing(frequency=200.0, turns=instrument.coil["turns"], instrument=instrument, **motion)


# ---- what is heard ---------------------------------------------------------------------------------------------------

def dying_swing(*, rate=HEARD_RATE, length=1.5, instrument=house_instrument, **motion):
    """Voltage (V) of a swing that dies away by 1.2 a second, *length* seconds of it."""
    return _traces(np.arange(int(rate * length)) / rate, decay=1.2, instrument=instrument, **motion)[2]


def heard(*, rate=HEARD_RATE, length=1.5, amplitude=0.6e-3, instrument=house_instrument):
    """Voltages (V) to listen to, by what the string does: three swings that die away, and the faintest made louder.

    Every swing is one sine of the string's own frequency, 0.6 mm at first, dying away by 1.2 a second.
    """
    motion = {"height": instrument.place["string_height"], "frequency": instrument.strings[PLAIN_THIRD]["frequency"],
              "amplitude": amplitude, "turns": instrument.coil["turns"], "rate": rate, "length": length}
    ways = {"swinging up and down over the middle of the pole": (0.0, 0.0),
            "swinging sideways over the middle of the pole": (0.0, math.pi / 2),
            "swinging sideways, 2 mm off the middle": (2e-3, math.pi / 2)}
    signals = {words: dying_swing(offset=offset, direction=direction, instrument=instrument, **motion)
               for words, (offset, direction) in ways.items()}
    faint = signals["swinging sideways over the middle of the pole"]
    return signals | {"that sideways swing again, made 30 dB louder": faint * 10 ** (30 / 20)}


# ---- turns and wire --------------------------------------------------------------------------------------------------

@dataclass(frozen=True, kw_only=True)
class Winding:
    """A coil in the window of the instrument's: turns, turns_that_fit with this wire, wire_length (m), resistance
    (ohm), that of a wire that just fills the window and its copper diameter (m), inductance (H), open-circuit voltage
    divided by that of the instrument's, frequency of the peak with its load (Hz), levels (dB) at the amplifier relative
    to the instrument's."""

    turns: int
    turns_that_fit: int
    wire_length: float
    resistance: float
    filling_resistance: float
    filling_diameter: float
    inductance: float
    voltage: float
    peak_frequency: float
    level_at_100_hz: float
    level_at_5_khz: float

    @property
    def fits(self):
        """Whether the turns fit in with this wire."""
        return self.turns <= self.turns_that_fit


def filling_wire(turns, instrument=house_instrument):
    """The wire with which so many turns just fill the window, each in a square of the insulated diameter."""
    thick = magnet_wire(diameter=1e-4)
    return magnet_wire(diameter=math.sqrt(instrument.window / turns) * thick.diameter / thick.insulated_diameter)


DRAWN_ONCE_IN = 100     # turns: one wire is drawn for so many, as thick as all of them
_SEEN = 2               # windows' widths that are drawn


def drawn_turns(turns, diameter, instrument=house_instrument):
    """Where the drawn wires of a coil are: in layers from the inside, in proportion to the room that all turns take.

    Parameters
    ----------
    turns : int
    diameter : float
        Of the insulated wire, m; each turn takes a square of it.

    Returns
    -------
    dict
        outward and up, shape (wires,): from the inner and lower corner of the window, m; thickness of a drawn wire, m;
        fits, shape (wires,): whether there is room for it. Wires further out than twice the window's width are left away.

    Examples
    --------
    >>> wires = drawn_turns(6000, 60e-6)
    >>> wires["fits"].size, bool(wires["fits"].all()), round(float(wires["thickness"]), 6)
    (60, True, 0.0006)
    """
    coil = instrument.long_coil
    width, length = coil.outer_radius - coil.inner_radius, coil.top - coil.bottom
    square = DRAWN_ONCE_IN * diameter ** 2
    room = max(1, round(width / math.sqrt(square)))     # layers that fill the window: the room stays in proportion
    thickness = width / room
    along = square / thickness
    layer = ((np.arange(round(turns / DRAWN_ONCE_IN)) + 0.5) * along / length).astype(int)
    layer = layer[layer < _SEEN * room]
    first, number = (count[layer] for count in (np.searchsorted(layer, np.arange(layer[-1] + 1)), np.bincount(layer)))
    step = np.where(layer < layer[-1], length / number, np.minimum(along, length / number))
    up = (np.arange(layer.size) - first + 0.5) * step
    return {"outward": (layer + 0.5) * thickness, "up": np.where(layer % 2, length - up, up),  # to and fro, as is wound
            "thickness": min(along, thickness), "fits": layer < room}


def _level_at_amplifier(coil, turns, frequency, instrument):
    """Level (dB) at the amplifier for equal string speed at every frequency; 0 dB is the open voltage of its coil."""
    return 20 * np.log10(turns / instrument.coil["turns"] * np.abs(coil.response(frequency)))


def _level_of_its_coil(frequency, instrument):
    """The same of the instrument's coil."""
    return _level_at_amplifier(instrument.loaded(**_NO_TONE), instrument.coil["turns"], frequency, instrument)


def winding(*, turns, gauge, instrument=house_instrument):
    """A coil of so many *turns* of a wire of that American *gauge*, as a `Winding`.

    Notes
    -----
    The self-capacitance is taken as 100 pF whatever the turns; real coils differ, and a huge coil would have more.
    """
    wire, coil = magnet_wire(awg=gauge), instrument.winding(turns)
    filling, circuit = filling_wire(turns, instrument), instrument.loaded(turns=turns, wire=wire, **_NO_TONE)
    low, high = (_level_at_amplifier(circuit, turns, BASS_AND_TREBLE, instrument)
                 - _level_of_its_coil(BASS_AND_TREBLE, instrument))
    return Winding(turns=turns, turns_that_fit=coil.turns_that_fit(wire), wire_length=coil.wire_length(),
                   resistance=coil.resistance(wire), filling_resistance=coil.resistance(filling),
                   filling_diameter=float(filling.diameter), inductance=circuit.inductance,
                   voltage=turns / instrument.coil["turns"], peak_frequency=circuit.peak()[0],
                   level_at_100_hz=float(low), level_at_5_khz=float(high))


def winding_curves(one, *, turns, gauge, instrument=house_instrument):
    """What `TurnsInWindow.update` takes."""
    frequency, counts, wire = np.geomspace(100, 1e4, 120), np.geomspace(1e3, 5e4, 25), magnet_wire(awg=gauge)
    coils = [(instrument.winding(n), filling_wire(n, instrument)) for n in counts]
    this = instrument.loaded(turns=turns, wire=wire, **_NO_TONE)
    filled = turns / one.turns_that_fit
    words = said(filled, "%", ".0f") + " full" if one.fits else f"{filled:.3g} windows full"
    return {"windows": [drawn_turns(turns, one_wire.insulated_diameter, instrument)
                        for one_wire in (wire, filling_wire(turns, instrument))],
            "words": ((words, one.fits), (f"{said(one.filling_diameter, 'µm', '.1f')} of copper", True)),
            "resistance": {"turns": counts, "same_wire": [coil.resistance(wire) for coil, _ in coils],
                           "full_window": [coil.resistance(filling) for coil, filling in coils],
                           "at": (turns, one.resistance, one.filling_resistance)},
            "output": {"frequency": frequency, "house": _level_of_its_coil(frequency, instrument),
                       "this": _level_at_amplifier(this, turns, frequency, instrument)}}


# ---- a graph to choose -----------------------------------------------------------------------------------------------

def graphs_to_choose_from():
    """What FluxAndFourVoltages.update takes: a trapezoid of flux linkage, and four voltages; one is right."""
    corners = np.array([0.0, 1, 3, 5, 6, 8]) * 1e-3
    time = np.repeat(corners, 2)[1:-1]
    linkage = np.interp(time, corners, np.array([0.0, 0, 60, 60, 0, 0]) * 1e-6)

    def steps(rise, fall):
        return np.repeat([0.0, rise, 0.0, fall, 0.0], 2)
    return {"time": time, "linkage": linkage, "voltages": {
        "a": linkage * 1e3, "b": steps(30e-3, -60e-3), "c": steps(-30e-3, 60e-3), "d": steps(-45e-3, 45e-3)}}
