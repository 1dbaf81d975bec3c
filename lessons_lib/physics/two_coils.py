"""Two coils of one pickup: wired in series, in parallel or out of phase, and the comb of the two places they hear."""
import math
from dataclasses import dataclass

import numpy as np

from lessons_lib.base.checks import finite, finite_array, from_zero, not_negative, one_of, positive, refuse
from lessons_lib.physics.coil_response import LoadedCoil

WIRINGS = ("series", "parallel", "out of phase")


@dataclass(frozen=True, kw_only=True)
class TwoCoils:
    """Two coils with their mutual inductance; "out of phase" is series with the second coil's leads swapped.

    Parameters
    ----------
    resistances, inductances : (float, float)
        Of the two coils, ohm and H, above zero.
    mutual : float, optional
        H, positive where the two fluxes help each other in "series"; at most sqrt(L1 L2) in magnitude.

    Notes
    -----
    In series the impedances add, with 2 M; in parallel (Z1 Z2 - Zm^2)/(Z1 + Z2 - 2 Zm): any text on circuits. Left
    out: eddy currents; capacitances, but for `loaded`.

    Examples
    --------
    >>> pair = TwoCoils(resistances=(8e3, 8e3), inductances=(2.0, 2.0), mutual=0.2)
    >>> [pair.resistance(wiring) / 1e3 for wiring in WIRINGS]
    [16.0, 4.0, 16.0]
    >>> [round(pair.inductance(wiring), 2) for wiring in WIRINGS]
    [4.4, 1.1, 3.6]
    """

    resistances: tuple
    inductances: tuple
    mutual: float = 0.0

    def __post_init__(self):
        for name in ("resistances", "inductances"):
            values = tuple(getattr(self, name))
            if len(values) != 2:
                refuse(name, "two numbers", values)
            positive(**{f"first_of_{name}": values[0], f"second_of_{name}": values[1]})
        finite(mutual=self.mutual)
        if self.mutual ** 2 > math.prod(self.inductances):
            refuse("mutual", "at most the root of the product of both inductances", self.mutual)

    def resistance(self, wiring):
        """DC resistance between the two ends, ohm."""
        first, second = self.resistances
        return first * second / (first + second) if _is_parallel(wiring) else first + second

    def inductance(self, wiring):
        """Inductance (H) at low frequencies: that of one coil for all frequencies if both coils are equal."""
        (r, s), (L, K) = self.resistances, self.inductances
        if _is_parallel(wiring):
            return (L * s ** 2 + K * r ** 2 + 2 * self.mutual * r * s) / (r + s) ** 2
        return L + K + (2 if wiring == "series" else -2) * self.mutual

    def impedance(self, wiring, frequency):
        """Impedance between the two ends, ohm, complex, of the frequency's shape (Hz)."""
        first, second, both = self._impedances(frequency)
        if _is_parallel(wiring):
            return (first * second - both ** 2) / (first + second - 2 * both)
        return first + second + (2 if wiring == "series" else -2) * both

    def shares(self, wiring, frequency=0.0):
        """How much of each coil's voltage is at the open ends: two numbers, complex for parallel coils that differ."""
        first, second, both = self._impedances(frequency)
        if _is_parallel(wiring):
            return (second - both) / (first + second - 2 * both), (first - both) / (first + second - 2 * both)
        return 1.0, 1.0 if wiring == "series" else -1.0

    def loaded(self, wiring, *, capacitance=0.0, **load):
        """The pair as one coil with a load, as a LoadedCoil; *capacitance* is each coil's self-capacitance, F.

        Halved in series, doubled in parallel: exact if both coils are equal and have the same voltage.
        """
        return LoadedCoil(resistance=self.resistance(wiring), inductance=self.inductance(wiring),
                          capacitance=capacitance * (2 if _is_parallel(wiring) else 0.5), **load)

    def _impedances(self, frequency):
        s = 2j * np.pi * from_zero(frequency=frequency)
        first, second = (R + s * L for R, L in zip(self.resistances, self.inductances))
        return first, second, s * self.mutual


def _is_parallel(wiring):
    one_of("wiring", wiring, WIRINGS)
    return wiring == "parallel"


def comb(frequency, *, apart, wave_speed, shares=(1.0, 1.0)):
    """What a pair of coils makes of a wave on the string, in units of what one coil in the middle makes of it.

    Parameters
    ----------
    frequency : array_like
        Hz, zero or above.
    apart : float
        Distance of the two coils along the string, m; zero or above.
    wave_speed : float
        m/s.
    shares : (float, float), optional
        With which the two voltages count, signs included: `TwoCoils.shares`.

    Returns
    -------
    float or ndarray
        |a + b exp(-2 pi j f d/c)|: 2|cos(pi f d/c)| for (1, 1), 2|sin(pi f d/c)| for (1, -1).

    Notes
    -----
    The wave arrives at the second coil d/c later. For the standing waves of a string it is the same factor with equal
    shares: sin k x1 + sin k x2 = 2 sin(k x) cos(k d/2), x the middle. Flexible string, coils that hear a point;
    a stiff string's higher partials are faster, and the nulls move up by the same per cent. Against partials of a
    plucked string: tests/test_two_coils.py.

    Examples
    --------
    >>> comb([0.0, 1000.0], apart=0.05, wave_speed=100.0).round(6)
    array([2., 0.])
    """
    frequency = from_zero(frequency=frequency)
    not_negative(apart=apart)
    positive(wave_speed=wave_speed)
    first, second = finite_array(shares=shares)
    return np.abs(first + second * np.exp(-2j * np.pi * frequency * apart / wave_speed))[()]


def first_null(*, apart, wave_speed, wiring="series"):
    """Lowest frequency (Hz, above zero) that two equal coils cancel: c/(2d), out of phase c/d; infinite at d = 0.

    Examples
    --------
    >>> first_null(apart=0.05, wave_speed=100.0)
    1000.0
    """
    not_negative(apart=apart)
    positive(wave_speed=wave_speed)
    one_of("wiring", wiring, WIRINGS)
    of_one = wave_speed / apart if apart > 0 else math.inf
    return of_one if wiring == "out of phase" else of_one / 2
