"""Noise: the hiss of a coil and its load at the amplifier's input, and how far a signal is above it.

Johnson found the noise of resistors, Nyquist its density: 4 k T R, in V^2/Hz, and of any two-terminal circuit of one
temperature 4 k T Re Z. (J. B. Johnson, H. Nyquist, Physical Review 32, 97 and 110 (1928); from memory.)
"""
import math

import numpy as np
from scipy.constants import k as boltzmann
from scipy.integrate import trapezoid

from lessons_lib.base.checks import finite_array, from_zero, not_negative, positive, refuse

ROOM = 293.15               # K
HEARD = (20.0, 20e3)        # Hz
_STEPS_AN_OCTAVE = 200      # of a band
_ROUNDING = 1e-12           # of an impedance far above a resonance


def impedance_at_input(coil, *, frequency):
    """Impedance between the two ends of an amplifier's input: a coil's with controls, cable and input resistance.

    Parameters
    ----------
    coil : LoadedCoil
    frequency : array_like
        Hz, zero or above.

    Returns
    -------
    complex or ndarray of complex
        ohm, of the frequency's shape.

    Examples
    --------
    >>> from lessons_lib.physics.coil_response import LoadedCoil
    >>> coil = LoadedCoil(resistance=10e3, inductance=2.0, capacitance=100e-12, input_resistance=30e3)
    >>> print(f"{impedance_at_input(coil, frequency=0.0).real:.0f} ohm")
    7500 ohm
    """
    seen, s = coil.impedance(frequency), 2j * math.pi * from_zero(frequency=frequency)
    behind = s * coil.cable_capacitance + 1 / coil.input_resistance
    return (seen / (1 + seen * behind))[()]


def johnson_density(impedance, *, temperature=ROOM):
    """Spectral density of the noise of a passive circuit of one temperature, 4 k T Re Z.

    Parameters
    ----------
    impedance : array_like of complex
        ohm, between the two ends of the circuit; the real part zero or above.
    temperature : float
        K, zero or above.

    Returns
    -------
    float or ndarray
        V^2/Hz, of the impedance's shape, frequencies counted from zero up. Its root is V per root of a hertz.

    Raises
    ------
    ValueError
        For an impedance that gives energy, a temperature below zero.

    Notes
    -----
    Holds below k T/h, 6 THz at room temperature. Left out is what a real part hisses beyond that: carbon tracks with a
    current in them, an amplifier (`amplifier_voltage`), steel whose magnetisation jumps. For circuits see the tests,
    which add up each resistor's own noise: tests/test_noise.py.

    Examples
    --------
    >>> print(f"{math.sqrt(johnson_density(1e3)) * 1e9:.2f} nV per root of a hertz")
    4.02 nV per root of a hertz
    """
    not_negative(temperature=temperature)
    resistance = np.real(impedance)
    if not np.all(resistance >= -_ROUNDING * np.abs(impedance)):
        refuse("impedance", "of a real part of zero or above", impedance)
    return 4 * boltzmann * temperature * np.maximum(0.0, resistance)


def johnson_voltage(coil, *, band=HEARD, temperature=ROOM):
    """Noise of a coil and its load at an amplifier's input, over a band.

    Parameters
    ----------
    coil : LoadedCoil
        Wire, controls, input resistance and metal of its loops hiss, all of one temperature.
    band : (float, float)
        Hz, above zero.
    temperature : float
        K.

    Returns
    -------
    float
        V, RMS.

    Notes
    -----
    Integral of `johnson_density` over the frequency, 200 steps an octave: 1e-5 for a Q below 50. Of an ideal band
    without ears: no weighting. Over all frequencies it is sqrt(k T/C), C the capacitance across the input.

    Examples
    --------
    >>> from lessons_lib.physics.coil_response import LoadedCoil
    >>> coil = LoadedCoil(resistance=8.7e3, inductance=2.16, capacitance=600e-12)
    >>> print(f"{johnson_voltage(coil) * 1e6:.1f} uV")
    2.6 uV
    """
    low, high = _band(band)
    steps = math.ceil(_STEPS_AN_OCTAVE * math.log2(high / low)) + 1
    frequency = np.geomspace(low, high, steps + 1)
    density = johnson_density(impedance_at_input(coil, frequency=frequency), temperature=temperature)
    return math.sqrt(trapezoid(density * frequency, np.log(frequency)))


def amplifier_voltage(density, *, band=HEARD):
    """Noise that an amplifier adds at its input, over a band, V RMS.

    Parameters
    ----------
    density : float
        V per root of a hertz, the same at every frequency; 5 to 20 nV are common practice, no source.
    band : (float, float)
        Hz, above zero.

    Notes
    -----
    Left out: that it grows towards low frequencies, and the noise current that an input sends through the coil.

    Examples
    --------
    >>> print(f"{amplifier_voltage(10e-9) * 1e6:.2f} uV")
    1.41 uV
    """
    not_negative(density=density)
    low, high = _band(band)
    return density * math.sqrt(high - low)


def together(*voltages):
    """RMS of voltages that know nothing of each other: their squares add.

    Examples
    --------
    >>> print(f"{together(3e-6, 4e-6) * 1e6:.1f} uV")
    5.0 uV
    """
    return np.sqrt(sum(np.square(voltage) for voltage in voltages))


def window_rms(signal, *, sample_rate, window):
    """RMS of the first part of a signal, such as of a pluck that dies away.

    Parameters
    ----------
    signal : array_like, shape (..., n)
        V, evenly spaced along the last axis; a pluck begins with its first sample.
    sample_rate : float
        Hz.
    window : float
        s, from the first sample on; at most the signal's length.

    Returns
    -------
    float or ndarray, shape (...)
        V.

    Examples
    --------
    >>> float(window_rms([3.0, -3.0, 0.0, 0.0], sample_rate=2.0, window=1.0))
    3.0
    """
    signal = finite_array(signal=signal)
    positive(sample_rate=sample_rate, window=window)
    count = round(window * sample_rate)
    if signal.ndim == 0 or not 1 <= count <= signal.shape[-1]:
        refuse("window", f"from one sample to the signal's length, shape {signal.shape}", window)
    return np.sqrt(np.mean(signal[..., :count] ** 2, axis=-1))


def signal_to_noise(signal, noise):
    """Level of a signal above the noise, dB: 20 log10 of two RMS voltages; inf without noise.

    Parameters
    ----------
    signal, noise : array_like
        V, RMS, above zero and zero or above. Whoever gives the signal says of which window it is.

    Examples
    --------
    >>> float(signal_to_noise(50e-3, 5e-6))
    80.0
    """
    with np.errstate(divide="ignore"):
        return 20 * np.log10(np.divide(signal, noise))


def _band(band):
    """Low and high end of a band, Hz."""
    low, high = band
    positive(low_end_of_the_band=low, high_end_of_the_band=high)
    if low >= high:
        refuse("band", "from a lower to a higher frequency", band)
    return low, high
