"""A plucked string just before and after the release: slopes, the corners that part, and one point that they pass."""
from dataclasses import dataclass

import numpy as np

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_05.corners import displaced, plucked_shape, pulled, pulse_train, pulses
from lessons_lib.lessons.lesson_05.model import flexible

STRING = "VI"
BEFORE, LAST = -0.5e-3, 3.5e-3      # s, what the time axis shows
FORCES = 0.4, 1.2                   # N, ends of the slider
_ROOM = 0.1                         # of the string's length, under which a piece has no word
FARTHEST = 0.180                    # m from the bridge, of plectrum and pickup: the bridge's corner is back first


@dataclass(frozen=True, kw_only=True)
class LetGo:
    """A string that was let go at 0, at one instant; slopes are rise per length, plain numbers."""

    slopes: tuple           # before the release: on the bridge's side, on the nut's side
    wave_speed: float       # m/s
    speed: float            # m/s, half of the slope's jump times the wave speed: F/(2Z)
    velocity: float         # m/s over the pickup, now
    moved: float            # m, how far the string over the pickup has moved since the release
    run: float              # m, how far the corner has run since it passed the pickup; NaN: not passed, or turned back
    pulse: float            # s, from the first corner over the pickup to the second

    @property
    def jump(self):
        """By how much the slope changes at the held corner, F/T."""
        return self.slopes[0] - self.slopes[1]


def let_go(*, time, force, pluck_place, pickup_place, instrument=house_instrument):
    """String VI at a time (s) after the release, plucked with a force (N), as `LetGo`; places in m from the bridge.

    Ideal string; both places nearer the bridge than the nut, times before a corner is back from the nut.

    Examples
    --------
    >>> at = {"force": 1.0, "pluck_place": 0.1, "pickup_place": 0.15}
    >>> held, released = let_go(time=-1e-4, **at), let_go(time=1e-3, **at)
    >>> round(held.velocity, 3), round(released.velocity, 3)
    (0.0, -0.66)
    """
    string = flexible(STRING, instrument)
    where, after = (string, force, pluck_place, pickup_place), max(time, 0.0)
    way = string.wave_speed * after
    run = way - abs(pickup_place - pluck_place)
    off_the_string = pickup_place < pluck_place < way
    passes = 0 < run < 2 * min(pluck_place, pickup_place) and not off_the_string
    share = pluck_place / string.length
    return LetGo(
        slopes=(force / string.tension * (1 - share), -force / string.tension * share),
        wave_speed=string.wave_speed, speed=force / (2 * string.impedance),
        velocity=float(pulses(*where, time)) if time > 0 else 0.0,
        moved=float(displaced(*where, after) - displaced(*where, 0.0)), run=float(run) if passes else np.nan,
        pulse=2 * min(pluck_place, pickup_place) / string.wave_speed)


def let_go_instant(now, *, time, force, pluck_place, pickup_place, instrument=house_instrument):
    """What `let_go_figure` draws of a `LetGo`: places, displacements, velocity, SI.

    Returns
    -------
    dict
        held, string, point; corner: the held one, to_bridge and to_nut: those that run; slopes: places beside the
        pickup on each straight piece, and its slope; old and new: both sides of the wedge that the corner opened, drop:
        its height at the pickup; velocity up to now.
    """
    string, after = flexible(STRING, instrument), max(time, 0.0)
    pluck = string, force, pluck_place
    ends = np.array([0.0, pluck_place, string.length])
    x, y = plucked_shape(*pluck, after)
    here = float(displaced(*pluck, pickup_place, after))
    seen = {"time": time, "held": (ends, pulled(*pluck, ends)), "string": (x, y), "point": (pickup_place, here),
            "slopes": _pieces(x, y, pickup_place)}
    if time <= 0:
        return seen | {"corner": (x[1], y[1]), "velocity": (np.array([BEFORE, time]), np.zeros(2))}
    instants, velocity = pulse_train(*pluck, pickup_place, time)
    seen["velocity"] = np.concatenate([[BEFORE, 0.0], instants]), np.concatenate([[0.0, 0.0], velocity])
    way = string.wave_speed * time
    to_nut = np.array([way > pluck_place, pluck_place + way < string.length])  # one that has come to an end runs back
    for name, goes in (("to_nut", to_nut), ("to_bridge", ~to_nut)):
        seen[name] = x[1:3][goes], y[1:3][goes]
    if np.isfinite(now.run):
        away = 1 if pickup_place >= pluck_place else -1
        wedge = np.sort([pickup_place, pickup_place + away * now.run])
        seen |= {"old": (wedge, pulled(*pluck, wedge)), "new": (wedge, displaced(*pluck, wedge, time)),
                 "drop": (np.full(2, pickup_place), np.array([pulled(*pluck, pickup_place), here]))}
    return seen


def _pieces(x, y, pickup):
    """Place (m), displacement (m), slope of each straight piece that is long enough for a word, beside the pickup."""
    pieces = []
    for n in np.flatnonzero(np.diff(x) > _ROOM * x[-1]):
        cuts = np.array([x[n], np.clip(pickup, x[n], x[n + 1]), x[n + 1]])
        longest = np.argmax(np.diff(cuts))
        place = (cuts[longest] + cuts[longest + 1]) / 2
        pieces.append((place, np.interp(place, x, y), (y[n + 1] - y[n]) / (x[n + 1] - x[n])))
    return pieces


def release_height(*, force, pluck_place, instrument=house_instrument):
    """How far (m) a force (N) pulls string VI aside at a place (m from the bridge)."""
    return float(pulled(flexible(STRING, instrument), force, pluck_place, pluck_place))


def scales(instrument=house_instrument):
    """The largest displacement (m) and speed (m/s) that the sliders can give: what the axes must hold."""
    farthest = release_height(force=FORCES[1], pluck_place=FARTHEST, instrument=instrument)
    return farthest, FORCES[1] / (2 * flexible(STRING, instrument).impedance)
