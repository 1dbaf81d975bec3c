"""A string plucked at a slant: two planes, two notes, two decays, and the level of what the pickup hears of them."""
import math
from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
from numpy.polynomial import Chebyshev
from numpy.polynomial.chebyshev import chebinterpolate
from numpy.polynomial.polyutils import mapdomain

from lessons_lib.base.units import said
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_05.model import HEARD_RATE
from lessons_lib.physics.plucked_string import TunedString
from lessons_lib.physics.two_planes import TwoPlanes, heard_directions, pull_stiffness, spring_shift, turned

STRINGS = ("VI", "III", "I")            # at one end of the row, within it, at the other end
HEIGHTS = 1.5e-3, 6e-3                  # m, ends of the slider
SECONDS, LOWEST = 6.0, -50.0            # s and dB, what the picture shows
DB = 20 / math.log(10)                  # dB a second, of a decay rate of 1/s
QUIET, DEEP = -20.0, -40.0              # dB relative to the loudest
_ALONE = 26.0                           # dB by which a note covers the other: together they change by 0.4 dB
_DECAY = TunedString.decay_up           # 1/s, in the direction in which what holds the string gives way most; assumed
_DEGREE = 6                             # of what the fields are over the height
_PARTIALS = np.arange(1, 9)             # that are heard
_TIME = np.linspace(0.0, SECONDS, 601)


@lru_cache(maxsize=8)
def springs_and_ears(string, instrument=house_instrument):
    """Spring of the magnets' pull (N/m) and what the pickup hears (V per m/s) over the height (m).

    Returns
    -------
    numpy.polynomial.Chebyshev, of the height
        Its values: stiffness up, mixed, across; heard up, across.
    """
    steel, y = instrument.steel_of(string), instrument.y_of(string)

    def values(height):
        stiffness = pull_stiffness(instrument.pickup, steel, height=height, y=y)
        return [*stiffness[np.triu_indices(2)], *heard_directions(instrument.pickup, steel, height=height, y=y)]
    fit = chebinterpolate(lambda at: np.array([values(height) for height in mapdomain(at, (-1, 1), HEIGHTS)]), _DEGREE)
    return [Chebyshev(column, domain=HEIGHTS) for column in fit.T]


def _level_of(amplitude):
    with np.errstate(divide="ignore"):
        return DB * np.log(np.abs(amplitude))


@dataclass(frozen=True, kw_only=True, eq=False)
class TwoDecays:
    """A slanting pluck: its fundamental in two planes, pull and ear as (up, across); level 0: the same pluck upright.

    Of the ear only the direction counts: its weight for up is 1.
    """

    planes: TwoPlanes
    pull: np.ndarray
    ear: np.ndarray

    def level(self, time=_TIME):
        """What is heard over time (s), dB."""
        return _level_of(self.planes.heard(time, pull=self.pull, ear=self.ear))

    @property
    def note_levels(self):
        """Levels of the two notes at the release, dB, the one that dies faster first; NaN where they are no two."""
        return _level_of(self.planes.notes(pull=self.pull, ear=self.ear))

    @property
    def falls(self):
        """How fast the two notes fall, dB a second."""
        return tuple(DB * decay for decay in self.planes.decays)

    @property
    def slower_by(self):
        """Level of the slower note at the release relative to the faster one, dB."""
        fast, slow = self.note_levels
        return slow - fast

    @property
    def first_second(self):
        """How much it falls in the first second, dB."""
        return float(-np.diff(self.level(np.array([0.0, 1.0])))[0])

    @cached_property
    def loudest(self):
        """The largest level, dB."""
        return float(self.level().max())

    def after(self, level):
        """After which time (s) it stays below a *level*, dB relative to its loudest."""
        return self.planes.time_down_to(math.exp((self.loudest + level) / DB), pull=self.pull, ear=self.ear)

    @cached_property
    def quiet_after(self):
        """After which time (s) it stays 20 dB below its loudest."""
        return self.after(QUIET)

    @cached_property
    def _slower_by_at_last(self):
        """The same as `slower_by` when what is heard is 40 dB down."""
        return self.slower_by + (self.falls[0] - self.falls[1]) * self.after(DEEP)

    @property
    def is_one(self):
        """Whether one note covers the other until it is 40 dB down."""
        both = np.array([self.slower_by, self._slower_by_at_last])
        return bool((both > _ALONE).all() or (both < -_ALONE).all())

    @property
    def last(self):
        """How fast the note falls that is the louder one 40 dB down, dB a second."""
        return self.falls[0 if self._slower_by_at_last < 0 else 1]


def _outward(string, instrument):
    """The sign of y away from the middle of the row: there angles are counted to."""
    return math.copysign(1.0, instrument.y_of(string))


def _planes(partial, *, string, height, slant, ratio, instrument):
    """One partial of a string in its two planes, as `TwoPlanes`."""
    up, mixed, across = (one(height) for one in springs_and_ears(string, instrument)[:3])
    tuned = instrument.string(string)
    frequency = float(tuned.frequency(partial))
    shift = spring_shift([[up, mixed], [mixed, across]], frequency=frequency, tension=tuned.tension,
                         length=tuned.length, place=instrument.place["pickup_place"], partial=partial)
    growth = tuned.decay_growth * (2 * math.pi * frequency) ** 2
    decay = turned(_DECAY, ratio * _DECAY, _outward(string, instrument) * slant) + growth * np.eye(2)
    return TwoPlanes(frequency=frequency, shift=shift, decay=decay)


def _pull(angle, string, instrument):
    return np.array([math.cos(angle), _outward(string, instrument) * math.sin(angle)])


def two_decays(*, string, height, slant, ratio, angle, instrument=house_instrument):
    """The fundamental of a string of the row that is plucked at an angle, as `TwoDecays`.

    Parameters
    ----------
    string : one of STRINGS
    height : float
        m.
    slant : float
        By how much the direction in which neck and bridge give way most is turned from up, radians; outward.
    ratio : float
        Decay rate square to that direction, relative to that in it.
    angle : float
        Direction of the pluck from up, radians; outward, away from the middle of the row.

    Examples
    --------
    >>> upright = two_decays(string="III", height=2.5e-3, slant=0.0, ratio=0.5, angle=0.0)
    >>> print(f"{upright.first_second:.1f} dB, one note: {upright.is_one}")     # 1.2 a second x 8.7 dB
    10.5 dB, one note: True
    """
    up, across = (one(height) for one in springs_and_ears(string, instrument)[3:])
    return TwoDecays(pull=_pull(angle, string, instrument), ear=np.array([1.0, across / up]),
                     planes=_planes(1, string=string, height=height, slant=slant, ratio=ratio, instrument=instrument))


def decay_curves(now, *, string, height, slant, angle, instrument=house_instrument, **_):
    """What `two_decays_figure` draws: the string end-on (m), and levels (dB) over time (s)."""
    swing, place = 0.7e-3, np.array([0.0, height])

    def line(turn, reach):
        return place + reach * np.outer([-1, 1], _pull(turn, string, instrument)[::-1])
    path, ends, row = line(angle, swing), np.array([0.0, SECONDS]), instrument.strings[string]
    quiet, words = (now.quiet_after, now.loudest + QUIET), {}
    levels = {"heard": (_TIME, now.level()), "quiet": quiet[1], "words": words}
    if quiet[0] <= SECONDS:
        levels["then"] = quiet
    for name, level, fall, corner in zip(("fast", "slow"), now.note_levels, now.falls, (-45.4, -48.4)):
        if np.isfinite(level):
            levels[name] = ends, level - fall * ends
        if level > LOWEST:      # in the corner to which no curve comes: all begin higher up
            levels[f"{name}, sample"] = [0.1, 0.4], [corner, corner]
            words[f"{name}, sample"] = f"{said(-fall, 'dB', '.1f')} a second"
    return {"end-on": {"rest": place, "ends": path, "string": path[1], "core": row["core"],
                       "diameter": row["diameter"]}, "gives way": line(slant, 2 * swing), "levels": levels}


def heard_decays(*, string, height, slant, ratio, angle, instrument=house_instrument):
    """Voltages of the pluck and of the same one upright, 1 at most for the upright: partials 1 to 8, as they decay."""
    time, coarse = np.arange(round(SECONDS * HEARD_RATE)) / HEARD_RATE, np.linspace(0, SECONDS, 600)
    place, length = instrument.place, instrument.place["scale_length"]
    at = {"string": string, "height": height, "slant": slant, "ratio": ratio, "instrument": instrument}
    ear = two_decays(**at, angle=angle).ear
    weights = [math.prod(math.sin(n * math.pi * place[where] / length) for where in ("pluck_place", "pickup_place")) / n
               for n in _PARTIALS]
    signals = {}
    for words, turn in (("as it is plucked here", angle), ("plucked straight up", 0.0)):
        signal = np.zeros(time.size)
        for n, weight in zip(_PARTIALS, weights):
            planes = _planes(int(n), **at)
            swell = np.interp(time, coarse, planes.heard(coarse, pull=_pull(turn, string, instrument), ear=ear))
            signal += weight * (swell * np.exp(2j * math.pi * planes.frequency * time)).imag
        signals[words] = signal / np.abs(weights).sum()
    return signals
