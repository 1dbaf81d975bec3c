"""A string that swings in two planes at once: two notes, each with its own decay, and what a pickup hears of both."""
import cmath
import math
from dataclasses import dataclass

import numpy as np
from scipy.constants import mu_0, pi

from lessons_lib.base.checks import array_of_finite, finite, finite_array, from_zero, not_negative, positive, refuse
from lessons_lib.physics.steel import string_line

_STEP = 1e-4            # m, up and across, for the slopes of the co-energy: 0.5 % of them at 1.5 mm, less above
_LINKAGE_STEP = 2e-5    # m, for those of the linkage
_ONE_RATE = 1e-6        # of the two rates' size: nearer to each other they count as one


def turned(first, second, angle):
    """A 2 x 2 symmetric matrix (up, across) with principal values *first* and *second*.

    *first* belongs to the direction that is turned by *angle* (radians) from up towards across.

    Examples
    --------
    >>> turned(1.0, 3.0, pi / 2).diagonal().round(9).tolist()
    [3.0, 1.0]
    """
    finite(first=first, second=second, angle=angle)
    along = np.array([math.cos(angle), math.sin(angle)])
    return second * np.eye(2) + (first - second) * np.outer(along, along)


def pull_stiffness(pickup, string, *, height, y=0.0):
    """The spring that a magnet's pull is to a string: stiffness (N/m), shape (2, 2), for motion up and across.

    Parameters
    ----------
    pickup : Pickup
    string : SteelString
    height, y : float
        Place (m) of the string's axis; its middle is at x = 0.

    Returns
    -------
    ndarray, shape (2, 2)
        Symmetric. Over the middle of a pole it is negative upward (the negative of `Pickup.pull_gradient`) and positive
        across; beside it the two directions are mixed.

    Notes
    -----
    Minus the second differences of the co-energy that the string gives to the field, which the sources keep. Left out,
    as in `Pickup`: the string's work back on the magnets. Checked in tests/test_two_planes.py: slope of the pull, 1 %.
    """
    finite(height=height, y=y)
    up, across = np.meshgrid(_STEP * np.arange(-1, 2), _STEP * np.arange(-1, 2), indexing="ij")
    W = string.magnetise(pickup.flux_density(string_line(height=height + up, y=y + across)) / mu_0).coenergy()
    mixed = (W[2, 2] + W[0, 0] - W[2, 0] - W[0, 2]) / 4
    return -np.array([[W[2, 1] + W[0, 1] - 2 * W[1, 1], mixed],
                      [mixed, W[1, 2] + W[1, 0] - 2 * W[1, 1]]]) / _STEP ** 2


def heard_directions(pickup, string, *, height, y=0.0):
    """What a pickup gives for a speed up and for one across, V per m/s, shape (2,); upward it is -`sensitivity`.

    Over the middle of a pole that stands alone the second one is zero: to first order no pickup hears sideways there.
    """
    step = _LINKAGE_STEP * np.array([1.0, -1.0])
    up = pickup.flux_linkage(string, height=height + step, y=y)
    across = pickup.flux_linkage(string, height=height, y=y + step)
    return np.array([up[0] - up[1], across[0] - across[1]]) / (2 * _LINKAGE_STEP)


def spring_shift(stiffness, *, frequency, tension, length, place, partial=1):
    """By how much a weak spring on a string moves the angular frequency of a partial, rad/s; Rayleigh's first order.

    Parameters
    ----------
    stiffness : float or array_like, shape (2, 2)
        N/m; negative: pulled away from rest.
    frequency : float
        Of the partial, without the spring, Hz.
    tension, length : float
        N, m.
    place : float
        Of the spring, m from the bridge.
    partial : int

    Returns
    -------
    float or ndarray, of the stiffness's shape

    Notes
    -----
    df/f = K L sin^2(n pi x/L)/(n^2 pi^2 T): the spring's energy relative to twice that of the string. The next term is
    the share's square. With a spring of 17 N/m on 79 N and 0.6 m it is 1.7 % of the shift
    (tests/test_two_planes.py, against the string's own equation).

    Examples
    --------
    >>> shift = spring_shift(-10.0, frequency=100.0, tension=80.0, length=0.6, place=0.3)
    >>> print(f"{shift / (2 * pi):.2f} Hz")     # 100 Hz x 10 x 0.6/(pi^2 x 80)
    -0.76 Hz
    """
    positive(frequency=frequency, tension=tension, length=length, partial=partial)
    finite(place=place)
    share = length * math.sin(partial * pi * place / length) ** 2 / ((partial * pi) ** 2 * tension)
    return 2 * pi * frequency * share * finite_array(stiffness=stiffness)[()]


def _direction(name, pair):
    pair = array_of_finite(name, pair)
    if pair.shape != (2,) or not pair.any():
        refuse(name, "two numbers (up, across), not both zero", pair.tolist())
    return pair


@dataclass(frozen=True, kw_only=True, eq=False)
class TwoPlanes:
    """One partial of a string in two planes.

    Parameters
    ----------
    frequency : float
        Of the partial without the springs, Hz.
    shift : array_like, shape (2, 2)
        What the springs do to its angular frequency, rad/s: symmetric, axes up and across (`spring_shift`).
    decay : array_like, shape (2, 2)
        Its decay rates, 1/s: symmetric, no principal value below zero (`turned`).

    Notes
    -----
    The displacement is the real part of a(t) exp(2 pi j f t), a = (up, across), and da/dt = (j shift - decay) a: the
    equations of G. Weinreich, J. Acoust. Soc. Am. 62, 1474 (1977), for two strings on one bridge, here for two planes
    of one string (source named from memory). First order: shift and decay small beside the frequency; against
    u'' + 2 D u' + K u = 0 in tests/test_two_planes.py. Where the axes of springs and losses agree, each plane keeps to
    itself. Where they do not, losses couple the planes: two frequencies that differ by less than the losses do pull
    each other together, and there is no beat. Left out: the change of tension in a strong swing, which also turns a
    swing from one plane into the other, and all that couples partials.

    Examples
    --------
    >>> alone = TwoPlanes(frequency=100.0, shift=[[-3.0, 0.0], [0.0, 1.0]], decay=[[1.2, 0.0], [0.0, 0.6]])
    >>> [round(rate, 9) for rate in alone.decays], round(alone.beat * 2 * pi, 9)
    ([1.2, 0.6], 4.0)
    >>> float(abs(alone.heard([1.0, 0.0], pull=(1.0, 1.0), ear=(1.0, 0.0))).round(4)[0])    # exp(-1.2)
    0.3012
    """

    frequency: float
    shift: np.ndarray
    decay: np.ndarray

    def __post_init__(self):
        positive(frequency=self.frequency)
        for name in ("shift", "decay"):
            matrix = array_of_finite(name, getattr(self, name))
            if matrix.shape != (2, 2) or abs(matrix[0, 1] - matrix[1, 0]) > 1e-9 * np.abs(matrix).max():
                refuse(name, "a symmetric 2 x 2 matrix", matrix.tolist())
            object.__setattr__(self, name, matrix)
        least = np.linalg.eigvalsh(self.decay)[0]
        if least < -1e-12 * np.abs(self.decay).max():
            refuse("decay", "a matrix without principal values below zero", float(least))

    @property
    def _slow(self):
        """The matrix of da/dt, its mean rate, half the difference of its rates; the faster decay is mean - half."""
        slow = 1j * self.shift - self.decay
        half = cmath.sqrt((slow[0, 0] - slow[1, 1]) ** 2 / 4 + slow[0, 1] ** 2)
        return slow, complex(slow[0, 0] + slow[1, 1]) / 2, half

    @property
    def rates(self):
        """Complex rates (1/s) of the two notes, exp(rate t): minus decay plus j shift; the one that dies faster first.

        With equal decays the lower note comes first.
        """
        _, mean, half = self._slow
        return tuple(sorted((mean - half, mean + half), key=lambda rate: (round(rate.real, 9), rate.imag)))

    @property
    def decays(self):
        """Decay rates of the two notes, 1/s, the faster first."""
        fast, slow = self.rates
        return -fast.real, -slow.real

    @property
    def beat(self):
        """By how much the two notes differ, Hz."""
        fast, slow = self.rates
        return abs(fast.imag - slow.imag) / (2 * pi)

    def swing(self, time, *, pull):
        """Complex amplitudes (up, across) at times (s) after release from *pull*, shape time.shape + (2,).

        In closed form, also where the two rates are one.
        """
        time, pull = from_zero(time=time)[..., np.newaxis], _direction("pull", pull)
        slow, mean, half = self._slow
        turning = (slow - mean * np.eye(2)) @ pull
        plus, minus = np.exp((mean + half) * time), np.exp((mean - half) * time)
        small = abs(half) * time < 1e-4
        quotient = np.where(small, time * np.exp(mean * time), (plus - minus) / (2 * half if half else 1.0))
        return (plus + minus) / 2 * pull + quotient * turning

    def heard(self, time, *, pull, ear):
        """The same as an *ear* hears it, a weight for each direction (up, across); complex, of the time's shape.

        Its magnitude is the envelope.
        """
        return self.swing(time, pull=pull) @ _direction("ear", ear)

    def notes(self, *, pull, ear):
        """Complex amplitudes of the two notes in what is heard, in the order of `rates`; their sum is that at time 0.

        A single note, two equal rates of planes that are not coupled, comes first and leaves nothing to the other. NaN
        for coupled planes whose rates are one: then what is heard is no sum of two exponentials.
        """
        pull, ear = _direction("pull", pull), _direction("ear", ear)
        slow, mean, half = self._slow
        if abs(half) <= _ONE_RATE * np.abs(slow).max():
            alike = np.abs(slow - mean * np.eye(2)).max() <= _ONE_RATE * np.abs(slow).max()
            return np.array([ear @ pull, 0.0] if alike else [np.nan, np.nan], dtype=complex)
        first, second = self.rates
        return np.array([ear @ (slow - other * np.eye(2)) @ pull / (one - other)
                         for one, other in ((first, second), (second, first))])

    def time_down_to(self, level, *, pull, ear, longest=60.0):
        """Time (s) after which what is heard stays below a *level*, in the unit of pull times ear.

        The last crossing on a grid of *longest*/6000, straight between its points; 0 where it is never as loud, NaN
        where the crossing comes later than *longest*.
        """
        not_negative(level=level)
        positive(longest=longest)
        time = np.linspace(0.0, longest, 6001)
        loud = np.abs(self.heard(time, pull=pull, ear=ear))
        above = np.flatnonzero(loud >= level)
        if not above.size or above[-1] == time.size - 1:
            return math.nan if above.size else 0.0
        last = above[-1]
        return float(np.interp(-level, -loud[last:last + 2], time[last:last + 2]))
