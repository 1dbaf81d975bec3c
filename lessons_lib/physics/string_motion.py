"""The motion of a string after it is let go: where it is and how fast, at any time and place."""
import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from lessons_lib.base.checks import finite, finite_array, not_negative, positive, refuse

_CHUNK = 4096  # times summed at once, to keep the tables small


@dataclass(frozen=True, kw_only=True)
class Partials:
    """Partials heard at one place, one array entry a partial.

    number; frequency (Hz); decay_up, decay_across (1/s, amplitude falls as exp(-decay t)); signed amplitudes at
    release displacement_up, displacement_across (m), velocity_up, velocity_across (m/s).
    """

    number: np.ndarray
    frequency: np.ndarray
    decay_up: np.ndarray
    decay_across: np.ndarray
    displacement_up: np.ndarray
    displacement_across: np.ndarray
    velocity_up: np.ndarray
    velocity_across: np.ndarray


@dataclass(frozen=True, kw_only=True)
class PluckedMotion:
    """The motion of a plucked string; `TunedString.pluck` makes it.

    Before time 0 the string is held still. Results come as a pair (up, across), along z and y.

    The string starts as the static shape under the force: partial n has a_n = 2 F sin(n pi p)/(mu L omega_n^2), for a
    flexible string 2 F L sin(n pi p)/(n^2 pi^2 T), times the mean of its shape over the finger's width; each rings
    as a damped oscillation started at rest. Partials above *highest_frequency* are left out, so a voltage that holds
    their sums (second order in the motion) stays below half a sampling rate of four times that frequency. A series
    cut off so overshoots its own steps by 9 % of their height: levels of F/(2Z) are those of the whole series, and of
    the flexible string; stiffness lets fast ripples run ahead of each step.
    """

    string: object      # a TunedString, whose module imports this one
    release_force: float
    place: float
    width: float
    angle: float
    highest_frequency: float

    def __post_init__(self):
        positive(highest_frequency=self.highest_frequency)
        finite(angle=self.angle)
        if self.string.frequency(1) > self.highest_frequency:
            refuse("highest_frequency", f"above the first partial, {self.string.frequency(1):.4g} Hz",
                   self.highest_frequency)

    @property
    def release_displacement(self):
        """How far the middle of the finger had pulled the string, m (flexible string)."""
        return self.release_force * (self._lever - self.width / 8) / self.string.tension

    @property
    def release_energy(self):
        """Energy put into the string, J (flexible string)."""
        return self.release_force ** 2 * (self._lever - self.width / 6) / (2 * self.string.tension)

    @property
    def peak_velocity(self):
        """F/(2Z), m/s: the one speed, besides none, of the ideal string plucked at a point."""
        return self.release_force / (2 * self.string.impedance)

    @property
    def _lever(self):
        return self.place * (self.string.length - self.place) / self.string.length

    @cached_property
    def _numbers(self):
        fundamental = self.string.wave_speed / (2 * self.string.length)
        n = np.arange(1, int(self.highest_frequency / fundamental) + 1)
        return n[self.string.frequency(n) <= self.highest_frequency]

    @cached_property
    def _planes(self):
        """For up and across: share of the pull in the plane, complex rates lambda of exp(lambda t)."""
        string, omega = self.string, 2 * np.pi * self.string.frequency(self._numbers)
        shares = np.round([math.cos(self.angle), math.sin(self.angle)], 15)
        growth = string.decay_growth * omega ** 2
        return tuple((share, 1j * omega - decay - growth)
                     for share, decay in zip(shares, (string.decay_up, string.decay_across)))

    def _mode(self, place, width):
        """Mean of every partial's shape over *width* about *place*, shape (partials, places)."""
        n, length = self._numbers[:, np.newaxis], self.string.length
        return np.sin(n * np.pi * place / length) * np.sinc(n * width / (2 * length))

    def _amplitudes(self, place, aperture):
        """Signed displacement amplitudes along the pull at release, m, shape (partials, places)."""
        place = finite_array(place=place)
        not_negative(aperture=aperture)
        reach = np.minimum(place, self.string.length - place) - aperture / 2
        if (reach < 0).any():
            refuse("place", f"on the string of {self.string.length:g} m with an aperture of {aperture:g} m",
                   place.flat[np.argmin(reach)])
        omega = 2 * np.pi * self.string.frequency(self._numbers)[:, np.newaxis]
        pull = self._mode(self.place, self.width) * self.release_force
        return (2 * pull / (self.string.linear_density * self.string.length * omega ** 2)
                * self._mode(place.ravel(), aperture))

    def partials(self, place, *, aperture=0.0):
        """The partials at one *place* (m from the bridge), averaged over *aperture* (m), as `Partials`."""
        finite(place=place)
        amplitude = self._amplitudes(place, aperture)[:, 0]
        frequency = self.string.frequency(self._numbers)
        (up, rate_up), (across, rate_across) = self._planes
        speed = 2 * np.pi * frequency * amplitude
        return Partials(number=self._numbers, frequency=frequency, decay_up=-rate_up.real,
                        decay_across=-rate_across.real, displacement_up=up * amplitude,
                        displacement_across=across * amplitude, velocity_up=up * speed, velocity_across=across * speed)

    def displacement(self, time, place, *, aperture=0.0):
        """Displacement from rest, m.

        Parameters
        ----------
        time : array_like
            s, any shape; even steps are the fastest.
        place : array_like
            m from the bridge, any shape.
        aperture : float
            Length of string over which the result is averaged, m.

        Returns
        -------
        up, across : ndarray
            Of shape time.shape + place.shape: every time with every place.

        Raises
        ------
        ValueError
            For a place outside the string, an aperture that reaches over an end, NaN.

        Examples
        --------
        >>> from lessons_lib.physics.plucked_string import TunedString
        >>> pull = TunedString(length=0.6, tension=60.0, linear_density=0.001).pluck(displacement=0.002, place=0.2)
        >>> up, across = pull.displacement(0.0, 0.1)
        >>> round(float(up), 4), float(across)
        (0.001, 0.0)
        """
        return self._motion(time, place, aperture, lambda rates: np.ones_like(rates))

    def velocity(self, time, place, *, aperture=0.0):
        """Velocity, m/s: the time derivative of `displacement`, with the same arguments and shapes."""
        return self._motion(time, place, aperture, lambda rates: rates)

    def _motion(self, time, place, aperture, order):
        time, shape = finite_array(time=time), np.shape(time) + np.shape(place)
        amplitudes = self._amplitudes(place, aperture)
        flying = np.maximum(time.ravel(), 0.0) if (time < 0).any() else time.ravel()
        results = []
        for share, rates in self._planes:
            # 1 + i decay/omega starts the damped oscillation at rest
            start = share * order(rates) * (1 + 1j * rates.real / rates.imag)
            results.append(_ring(rates, start[:, np.newaxis] * amplitudes, flying).reshape(shape) if share
                           else np.zeros(shape))
        return tuple(results)


def _ring(rates, weights, time):
    """Real part of the sum of weights exp(rates t), shape (times, places)."""
    steps = np.diff(time)
    if time.size < _CHUNK or np.ptp(steps) > 1e-6 * abs(steps[0]):
        parts = np.array_split(time, max(1, time.size // _CHUNK))
        return np.concatenate([(np.exp(np.multiply.outer(part, rates)) @ weights).real for part in parts])
    # even steps: exp(rates (t + s)) = exp(rates t) exp(rates s), a few hundred t and s instead of all their sums
    block = math.isqrt(time.size) + 1
    starts = np.exp(np.multiply.outer(time[::block], rates))
    inside = np.exp(np.multiply.outer(rates, steps.mean() * np.arange(block)))
    inside = np.concatenate([inside.real, -inside.imag])
    columns = []
    for weight in weights.T:
        start = starts * weight
        columns.append((np.concatenate([start.real, start.imag], axis=1) @ inside).ravel()[:time.size])
    return np.stack(columns, axis=1)
