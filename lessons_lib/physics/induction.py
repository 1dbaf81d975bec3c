"""Faraday's law: from flux linkage to voltage, and what is in the voltage."""
import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.polynomial import chebyshev

from lessons_lib.base.checks import array_of_finite, finite, finite_array, not_negative, positive, refuse

_REACH_STEP = 0.2e-3    # m, reaches are rounded up to it: one map serves neighbouring plucks
_DEGREES = (6, 24)      # of the map in each direction: first try, last try
_TAIL = 1e-4            # the two highest terms' share of the map's variation that ends the doubling


def _instants(time):
    time = finite_array(time=time)
    if time.ndim != 1 or time.size < 3:
        refuse("time", "a list of three instants or more", f"shape {time.shape}")
    steps = np.diff(time)
    if not (steps > 0).all():
        refuse("time", "strictly increasing", f"a step of {steps.min():g} s")
    return time, steps


def induced_voltage(flux_linkage, time):
    """The voltage e = -d(flux_linkage)/dt.

    Parameters
    ----------
    flux_linkage : array_like, shape (..., times)
        Wb-turns.
    time : array_like, shape (times,)
        s, three instants or more, strictly increasing, steps may differ.

    Returns
    -------
    ndarray, shape (..., times)
        V.

    Raises
    ------
    ValueError
        For fewer than three instants, time that does not increase, lengths that differ, NaN.

    Notes
    -----
    A parabola through three neighbouring samples, ends too: second order in the step, exact for a parabola.

    Examples
    --------
    >>> induced_voltage([0.0, 1.0, 4.0], [0.0, 1.0, 2.0])
    array([-0., -2., -4.])
    """
    time, _ = _instants(time)
    flux_linkage = finite_array(flux_linkage=flux_linkage)
    if flux_linkage.ndim == 0 or flux_linkage.shape[-1] != time.size:
        refuse("flux_linkage", f"as long as time, {time.size} samples", f"shape {flux_linkage.shape}")
    return -np.gradient(flux_linkage, time, axis=-1, edge_order=2)


@dataclass(frozen=True, eq=False)
class LinkageMap:
    """Flux linkage of one pickup and one string as a smooth function of height and y (`linkage_map` makes it).

    A polynomial through values on Chebyshev points of the rectangle; height and y are (low, high) in m.
    """

    height: tuple
    y: tuple
    coefficients: np.ndarray

    def linkage(self, height, y):
        """Flux linkage at height and y (m; arrays broadcast), Wb-turns."""
        return chebyshev.chebval2d(*self._scaled(height, y), self.coefficients)

    def gradient(self, height, y):
        """Derivatives of the linkage by height and by y, two arrays, Wb-turns per m."""
        scaled = self._scaled(height, y)
        slopes = [chebyshev.chebval2d(*scaled, chebyshev.chebder(self.coefficients, axis=axis)) for axis in (0, 1)]
        return tuple(2 / max(high - low, 1e-30) * slope for slope, (low, high) in zip(slopes, (self.height, self.y)))

    def _scaled(self, height, y):
        scaled = []
        for name, value, (low, high) in (("height", height, self.height), ("y", y, self.y)):
            value = array_of_finite(name, value)
            outside = (value < low) | (value > high)
            if outside.any():
                refuse(name, f"on the map, {low:g} to {high:g} m", value[outside].flat[0])
            scaled.append((value - low) / max(high - low, 1e-30) * 2 - 1)
        return np.broadcast_arrays(*scaled)


@lru_cache(maxsize=64)
def linkage_map(pickup, string, *, height, y):
    """The `LinkageMap` of a pickup and a string over a rectangle; kept, so that asking again costs nothing.

    Parameters
    ----------
    pickup, string
        Any object with ``flux_linkage(string, *, height, y)`` that broadcasts, and what it takes for a string.
    height, y : tuple of float
        (low, high), m; low = high holds that coordinate fixed.

    Raises
    ------
    ValueError
        Where the linkage is too rough for a polynomial of degree 24, and what the pickup itself refuses.

    Notes
    -----
    In each direction the degree (6, 12, 24) is doubled until the two highest terms are under 1e-4 of the map's
    variation; slopes are then within 5e-4 of the steepest one.
    """
    degrees = [0 if low == high else _DEGREES[0] for low, high in (height, y)]
    while max(degrees) <= _DEGREES[1]:
        coefficients = _fit(pickup, string, height, y, degrees)
        size = np.abs(coefficients)
        variation = size.sum() - size[0, 0]
        # the last two terms, for an even or odd function has nothing in every other one
        rough = [degree > 0 and terms[-2:].sum() > _TAIL * variation for degree, terms in zip(degrees, (size, size.T))]
        if not any(rough):
            return LinkageMap(height=height, y=y, coefficients=coefficients)
        degrees = [2 * degree if still else degree for degree, still in zip(degrees, rough)]
    refuse("range of the motion", "one over which the flux linkage is smooth",
           f"heights {height[0]:g} to {height[1]:g} m, y {y[0]:g} to {y[1]:g} m")


def _fit(pickup, string, height, y, degrees):
    """Chebyshev coefficients of the polynomial through the pickup's values, shape (height terms, y terms)."""
    roots = [chebyshev.chebpts1(degree + 1) for degree in degrees]
    heights, ys = [low + (high - low) * (root + 1) / 2 for (low, high), root in zip((height, y), roots)]
    values = pickup.flux_linkage(string, height=heights[:, np.newaxis], y=ys[np.newaxis, :])
    along_height, along_y = [chebyshev.chebvander(root, root.size - 1) for root in roots]
    return np.linalg.solve(along_y, np.linalg.solve(along_height, values).T).T


def _rounded_up(reach):
    """The next step above the reach, never just short of it; none stays none."""
    return math.ceil(reach / _REACH_STEP + 1e-6) * _REACH_STEP if reach > 0 else 0.0


def pickup_voltage(pickup, string, motion, time, *, height, place, y=0.0, aperture=0.0):
    """Open-circuit voltage of a pickup under a moving string.

    Parameters
    ----------
    pickup, string : Pickup, SteelString
        The string is the steel that the pickup hears.
    motion : PluckedMotion
        Any object with ``displacement`` and ``velocity`` of (time, place, aperture=...) that give (up, across).
    time : array_like
        s, any shape; even steps are the fastest.
    height, y : float
        Where the string's axis rests above the pickup, m.
    place : float
        Of the pickup, m from the bridge.
    aperture : float
        Length of string whose mean motion counts, m; 0 for the place alone.

    Returns
    -------
    ndarray, of time's shape, V

    Raises
    ------
    ValueError
        For a motion that hits the coil form or the height of the pole faces, and what motion and pickup refuse.

    Notes
    -----
    e = -(dPsi/dheight v_up + dPsi/dy v_across) with the linkage's own curved map (`linkage_map`), never a slope at
    rest. The bend makes sums and differences of the partials' frequencies. To sample without folding, keep the
    motion's highest_frequency under a quarter of the sampling rate: second-order products then stay below half the
    rate, third-order ones above it are weak (a test measures them). The piece of string over the pickup moves as
    one: its bend over the pickup is left out but for the mean over *aperture*; so are eddy currents and hysteresis.

    Examples
    --------
    >>> from lessons_lib.physics import magnets, pickup, plucked_string, steel, winding
    >>> coil = winding.RoundCoil(inner_radius=3.5e-3, outer_radius=6.5e-3, bottom=-13e-3, top=-3e-3, turns=7000)
    >>> single = pickup.Pickup(poles=magnets.RodMagnet(diameter=5e-3, length=16e-3, remanence=1.0), coils=coil)
    >>> string = plucked_string.TunedString(length=0.6, tension=60.0, linear_density=0.001)
    >>> motion, held = string.pluck(displacement=1e-3, place=0.1), [-2e-3, -1e-3]
    >>> abs(pickup_voltage(single, steel.SteelString(diameter=4e-4), motion, held, height=3e-3, place=0.15)).round(12)
    array([0., 0.])
    """
    positive(height=height)
    finite(y=y)
    up, across = motion.displacement(time, place, aperture=aperture)
    floor = max([0.0] + [pole.top for pole in pickup.poles]) + string.outer_radius
    lowest = height + np.min(up)
    if lowest <= floor:
        refuse("lowest height of the moving string", f"above {floor:g} m, or it hits the pickup", float(lowest))
    # rounding must not carry the map itself into the pole
    down = min(_rounded_up(-np.min(up)), height - (lowest + floor) / 2)
    upward, reach = _rounded_up(np.max(up)), _rounded_up(np.max(np.abs(across)))
    around = linkage_map(pickup, string, height=(height - down, height + upward), y=(y - reach, y + reach))
    by_height, by_y = around.gradient(height + up, y + across)
    v_up, v_across = motion.velocity(time, place, aperture=aperture)
    return -(by_height * v_up + by_y * v_across)


@dataclass(frozen=True, eq=False)
class Harmonics:
    """Lines found in a signal: number, frequency (Hz), amplitude (peak, in the signal's unit), one entry a line."""

    number: np.ndarray
    frequency: np.ndarray
    amplitude: np.ndarray

    def level(self, reference=None):
        """Levels in dB re *reference* (an amplitude; the fundamental's if None); a line of zero is -inf."""
        reference = self.amplitude[0] if reference is None else reference
        positive(reference=reference)
        with np.errstate(divide="ignore"):
            return 20 * np.log10(self.amplitude / reference)


def harmonic_levels(signal, time, *, fundamental, count=10, inharmonicity=0.0):
    """Amplitudes of the first lines of a signal, free of leakage.

    Parameters
    ----------
    signal, time : array_like, shape (times,)
        Any unit, and s; steps may differ.
    fundamental : float
        Frequency of the first line, Hz.
    count : int
        Number of lines.
    inharmonicity : float
        B of a stiff string, for lines at n sqrt(1 + B n^2)/sqrt(1 + B) times the fundamental.

    Returns
    -------
    Harmonics
        Of a signal that decays: the mean amplitude under the window.

    Raises
    ------
    ValueError
        For under four periods, lines at or above half the sampling rate, time that does not increase.

    Notes
    -----
    Least squares with all lines and a constant at once, weighted with a Hann window. Of a further line, above the
    last one counted, 1 % gets in with a signal of four periods, and quickly less with a longer one.

    Examples
    --------
    >>> time = np.arange(4000) / 8000
    >>> signal = 2.0 * np.sin(2 * np.pi * 100 * time) + 0.5 * np.cos(2 * np.pi * 200 * time)
    >>> harmonic_levels(signal, time, fundamental=100.0, count=3).amplitude.round(6)
    array([2. , 0.5, 0. ])
    """
    time, steps = _instants(time)
    signal = finite_array(signal=signal)
    if signal.shape != time.shape:
        refuse("signal", f"as long as time, {time.size} samples", f"shape {signal.shape}")
    positive(fundamental=fundamental, count=count)
    if count % 1:
        refuse("count", "a whole number", count)
    not_negative(inharmonicity=inharmonicity)
    n = np.arange(1, count + 1)
    frequency = n * fundamental * np.sqrt((1 + inharmonicity * n ** 2) / (1 + inharmonicity))
    if frequency[-1] >= 0.5 / steps.max():
        refuse("highest line", f"below half the sampling rate, {0.5 / steps.max():.5g} Hz", float(frequency[-1]))
    time = time - time[0]
    length = time[-1] + steps[-1]
    if length * fundamental < 4 - 1e-6:
        refuse("signal", "four periods of the fundamental or longer", f"{length * fundamental:.3g} periods")
    angle = 2 * np.pi * np.multiply.outer(time, frequency)
    waves = np.concatenate([np.ones((time.size, 1)), np.cos(angle), np.sin(angle)], axis=1)
    weighted = waves * np.sin(np.pi * time / length)[:, np.newaxis] ** 2
    _, cosines, sines = np.split(np.linalg.solve(waves.T @ weighted, weighted.T @ signal), [1, 1 + count])
    return Harmonics(number=n, frequency=frequency, amplitude=np.hypot(cosines, sines))
