"""The plain functions behind the panels of lesson 4: SI numbers in, small records and arrays out.

The string is the plain third over its own rod of the instrument's pickup. Its flux linkage is computed once over all
the places it can reach; every slider then reads that map.
"""
import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.physics.induction import harmonic_levels, linkage_map

PLAIN_THIRD = "III"
NEAREST, FARTHEST, ASIDE, WIDEST = 2e-3, 4e-3, 3e-3, 0.8e-3     # m: heights, offset and amplitude of the sliders
SHOWN, SAMPLES = 10e-3, 61                      # s, the time axis, one period of the slowest swing; points of a trace
HARMONICS = 5
HEARD_RATE = 22050                              # samples a second: the highest harmonics of a swing are far below


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


def swing_instants(time, *, grows=False, instrument=house_instrument, **motion):
    """What `moving_string_figure` draws at each of some instants (s): the whole traces, and all that holds just then.

    Returns
    -------
    list of dict
        path, traces (time, displacement, linkage, voltage: s, m, Wb, V), instant, string (y and z from the middle of
        the pole's face, m), and now: displacement, linkage, voltage at that instant.
    """
    time, axis = np.asarray(time), np.linspace(0, SHOWN, SAMPLES)
    path, traces = swing_path(**motion), (axis, *_traces(axis, instrument=instrument, **motion))
    now = np.transpose(_traces(time, instrument=instrument, **motion))
    return [{"path": path, "traces": traces, "instant": one, "now": at, "grows": grows,
             "string": path["rest"] + at[0] * _way(motion["direction"])} for one, at in zip(time, now)]


def sideways_instants(one, time, *, instrument=house_instrument, **motion):
    """What `sideways_figure` draws at each of some instants (in swings, 0 to 2): the voltage relative to its peak."""
    motion |= {"frequency": 1.0, "turns": instrument.coil["turns"]}
    axis = np.linspace(0, 2, 193)
    voltage = _traces(axis, instrument=instrument, **motion)[2]
    peak = np.abs(voltage).max()
    return [{"path": now["path"], "string": now["string"], "levels": one.levels, "wave": (axis, voltage / peak),
             "swings": now["instant"], "wave_now": now["now"][2] / peak}
            for now in swing_instants(time, instrument=instrument, **motion)]


def swing_film(*, instrument=house_instrument, **motion):
    """The instants of as many whole periods as the time axis holds, 40 even steps, and how long they are (s)."""
    length = math.floor(SHOWN * motion["frequency"] + 1e-9) / motion["frequency"]
    return swing_instants(length * np.arange(40) / 40, grows=True, instrument=instrument, **motion), length


# ---- what is heard ---------------------------------------------------------------------------------------------------

def dying_swing(*, instrument=house_instrument, **motion):
    """Voltage (V) of a swing that dies away by 1.2 a second, 1.5 s of it."""
    return _traces(np.arange(int(HEARD_RATE * 1.5)) / HEARD_RATE, decay=1.2, instrument=instrument, **motion)[2]


def heard(instrument=house_instrument):
    """Voltages (V) to listen to, by what the string does: three swings that die away, and the faintest made louder.

    Every swing is one sine of the string's own frequency, 0.6 mm at first.
    """
    motion = {"height": instrument.place["string_height"], "frequency": instrument.strings[PLAIN_THIRD]["frequency"],
              "amplitude": 0.6e-3, "turns": instrument.coil["turns"]}
    ways = {"swinging up and down over the middle of the pole": (0.0, 0.0),
            "swinging sideways over the middle of the pole": (0.0, math.pi / 2),
            "swinging sideways, 2 mm off the middle": (2e-3, math.pi / 2)}
    signals = {words: dying_swing(offset=offset, direction=direction, instrument=instrument, **motion)
               for words, (offset, direction) in ways.items()}
    faint = signals["swinging sideways over the middle of the pole"]
    return signals | {"that sideways swing again, made 30 dB louder": faint * 10 ** (30 / 20)}


# ---- held still, then let go -----------------------------------------------------------------------------------------

PRESSED, STILL, SILENCE, FILMED = 0.6e-3, 6e-3, 1.0, 24e-3      # m towards the pole; s held: seen, heard; s of the film


def _held_and_let_go(time, instrument, decay=0.0):
    """Displacement, linkage, voltage (m, Wb, V) of the plain third, pressed down over its pole and let go at time 0."""
    frequency = instrument.strings[PLAIN_THIRD]["frequency"]
    return _traces(np.maximum(time, 0.0) - 1 / (4 * frequency), height=instrument.place["string_height"], offset=0.0,
                   direction=0.0, amplitude=PRESSED, frequency=frequency, turns=instrument.coil["turns"],
                   instrument=instrument, decay=decay)      # a quarter of a period before it passes its rest upwards


def held_instants(instrument=house_instrument):
    """What the opening draws: a string that is held pressed down and then swings, frame by frame.

    Returns
    -------
    list of dict
        path and string as `OverPole` takes them; traces (time, displacement, voltage: s, m, V), grown up to now; held:
        whether it still is.
    """
    motion = {"height": instrument.place["string_height"], "offset": 0.0, "direction": 0.0, "amplitude": PRESSED}
    path, axis = swing_path(**motion), np.linspace(0, FILMED, 481)       # a frame every tenth
    moved, _, voltage = _held_and_let_go(axis - STILL, instrument)
    return [{"path": path, "string": path["rest"] + moved[last] * _way(0.0), "held": bool(axis[last] < STILL),
             "traces": (axis[:last + 1], moved[:last + 1], voltage[:last + 1])} for last in range(0, axis.size - 1, 10)]


def heard_held(instrument=house_instrument):
    """Voltage (V) of the same string: a second of silence, then 2 s of the swing, which dies away by 1.2 a second."""
    swinging = _held_and_let_go(np.arange(2 * HEARD_RATE) / HEARD_RATE, instrument, decay=1.2)[2]
    return np.concatenate([np.zeros(int(HEARD_RATE * SILENCE)), swinging])


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


ASIDE_SWING, ASIDE_FALL = 0.6e-3, 5.6       # m to each side; Wb/m2: k of a linkage that is lower by k y2 at y


def sideways_graphs():
    """What `sideways_graphs_figure` takes: linkage across the pole, a swing at 200 Hz, four voltages; one is right.

    The linkage is taken as equally low on both sides, as under a pole with as many neighbours on the left as on the
    right; k is that of the workshop's plain third at its height.
    """
    swings, y = np.linspace(0, 2, 201), np.linspace(-ASIDE_SWING, ASIDE_SWING, 61)
    turn = 2 * math.pi * swings
    peak = ASIDE_FALL * ASIDE_SWING ** 2 * 2 * math.pi * 200.0       # k a2 omega
    return {"across": (y, -ASIDE_FALL * y ** 2), "time": swings, "place": ASIDE_SWING * np.sin(turn), "voltages": {
        "a": np.zeros_like(turn), "b": peak * np.cos(2 * turn), "c": peak * np.cos(turn), "d": peak * np.sin(2 * turn)}}
