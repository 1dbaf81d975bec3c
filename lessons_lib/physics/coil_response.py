"""The coil as a circuit: its resistance, inductance and self-capacitance between volume, tone, cable and amplifier."""
import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.polynomial import Polynomial
from scipy.fft import irfft, next_fast_len, rfft, rfftfreq

from lessons_lib.base.checks import (
    between,
    finite_array,
    from_zero,
    not_negative,
    one_of,
    positive,
    positive_or_infinite,
    refuse,
)

_MOST_LOOPS = 4
_SILENCE = 30.0   # time constants after which the ringing has died away to 1e-13


@dataclass(frozen=True, kw_only=True)
class LoadedCoil:
    """A coil's equivalent circuit with its controls, cable and amplifier.

    Parameters
    ----------
    resistance, inductance : float, ohm and H
        Above zero; in series with each other and with the voltage induced by the strings.
    loops : tuple of (float, float), H and ohm
        Eddy currents in poles: inductances in series with the others, each with a resistance across it
        (`eddy_currents.as_loops`); at most four, so that the peak can be told. None: the metal does not answer.
    capacitance : float, F
        The coil's self-capacitance, across its ends; zero or above.
    volume_resistance : float, ohm
        Whole track of the volume control, across the coil; the output leaves at the wiper. Infinite: no such control,
        the output is the coil's end and volume_setting says nothing.
    volume_setting : float
        Share of the track between ground and wiper, 0 (silent) to 1 (full).
    tone_resistance, tone_setting, tone_capacitance : float, ohm, 1, F
        Across the coil: the capacitor in series with tone_resistance * tone_setting; at 0 the capacitor alone is
        there, at 1 the control does least. Infinite resistance or no capacitance: no such control.
    cable_capacitance : float, F
        Between wiper and ground, after the volume control.
    input_resistance : float, ohm
        The amplifier's, at the same place; infinite: none.

    Notes
    -----
    Settings are shares of the track, not angles of the knob: real volume and tone tracks are often not linear. Left
    out: eddy currents in covers, and in poles where no *loops* are given (they lower inductance and Q towards high
    frequencies), and the spread of the self-capacitance along the winding, which matters above the resonance.

    Examples
    --------
    >>> coil = LoadedCoil(resistance=6.5e3, inductance=3.0, capacitance=600e-12, input_resistance=200e3)
    >>> frequency, level = coil.peak()
    >>> round(frequency), round(level, 1)
    (3624, 7.1)
    """

    resistance: float
    inductance: float
    capacitance: float
    volume_resistance: float = math.inf
    volume_setting: float = 1.0
    tone_resistance: float = math.inf
    tone_setting: float = 1.0
    tone_capacitance: float = 0.0
    cable_capacitance: float = 0.0
    input_resistance: float = 1e6
    loops: tuple = ()

    def __post_init__(self):
        positive(resistance=self.resistance, inductance=self.inductance)
        not_negative(capacitance=self.capacitance, tone_capacitance=self.tone_capacitance,
                     cable_capacitance=self.cable_capacitance)
        positive_or_infinite(volume_resistance=self.volume_resistance, tone_resistance=self.tone_resistance,
                             input_resistance=self.input_resistance)
        for inductance, resistance in self.loops:
            positive(inductance_of_a_loop=inductance, resistance_of_a_loop=resistance)
        if len(self.loops) > _MOST_LOOPS:
            refuse("loops", f"at most {_MOST_LOOPS}", len(self.loops))
        between(0, 1, volume_setting=self.volume_setting, tone_setting=self.tone_setting)

    def built(self, *, turns, inductance=1.0, capacitance=None):
        """The coil with *turns* times the turns, *inductance* times that of its poles, another *capacitance* (F)."""
        more = turns ** 2 * inductance
        return replace(self, resistance=turns * self.resistance, inductance=more * self.inductance,
                       loops=tuple((more * L, more * R) for L, R in self.loops),
                       capacitance=self.capacitance if capacitance is None else capacitance)

    def response(self, frequency):
        """Voltage at the amplifier's input relative to that induced in the coil, complex, of frequency's shape (Hz).

        20 log10 of its magnitude is the level in dB.

        Examples
        --------
        >>> coil = LoadedCoil(resistance=10e3, inductance=3.0, capacitance=100e-12, input_resistance=10e3)
        >>> coil.response(0.0)
        (0.5+0j)
        """
        output, drive = self._network(2j * np.pi * from_zero(frequency=frequency))
        return _scalar_if_single(output / drive)

    def impedance(self, frequency):
        """What cable and amplifier see when they look back into the instrument, ohm, complex, of frequency's shape.

        Between wiper and ground, with the strings at rest; cable and amplifier themselves are unplugged. Without
        controls it is what a component meter shows at the coil's ends.
        """
        s = 2j * np.pi * from_zero(frequency=frequency)
        share, track, tone_capacitance, tone_time = self._controls
        through, parts = self._winding(s)
        coil = 1 / (parts / through + s * self.capacitance + tone_capacitance * s / (1 + s * tone_time))
        if not track:
            return _scalar_if_single(coil)
        below, above = share * track, (1 - share) * track
        return _scalar_if_single(below * (above + coil) / (below + above + coil))

    def apply(self, signal, sample_rate):
        """Voltage at the amplifier's input for an induced voltage in time.

        Parameters
        ----------
        signal : array_like, shape (..., n), V
            Evenly spaced samples along the last axis; taken as zero before and after.
        sample_rate : float, Hz

        Returns
        -------
        ndarray, shape (..., n), V

        Notes
        -----
        By Fourier transform with zeros behind the signal until the ringing has died away, so nothing comes round from
        the end to the beginning. The samples stand for a band-limited signal: what lay above half the sample rate
        before sampling has already folded down, and the part of the response above it is left out. A steady voltage
        passes with the response at zero frequency.
        """
        signal = finite_array(signal=signal)
        positive(sample_rate=sample_rate)
        if signal.ndim == 0 or signal.shape[-1] == 0:
            refuse("signal", "an array of shape (..., n) with n above zero", f"shape {signal.shape}")
        count = signal.shape[-1]
        slowest = min(-self.poles().real)
        padded = next_fast_len(count + math.ceil(_SILENCE / slowest * sample_rate), real=True)
        spectrum = rfft(signal, padded) * self.response(rfftfreq(padded, 1 / sample_rate))
        return irfft(spectrum, padded)[..., :count]

    def poles(self):
        """The circuit's own modes: s in 1/s, complex, slowest first; a complex pair is the resonance."""
        roots = self._polynomials()[1].roots() * self._scale()
        return roots[np.argsort(np.abs(roots))]

    @property
    def natural_frequency(self):
        """Frequency of the resonance but for its damping, |pole| / (2 pi), Hz: 1 / (2 pi sqrt(L C)) without loads."""
        return float(np.sqrt(np.prod(self._resonant_pair()).real) / (2 * np.pi))

    @property
    def q_factor(self):
        """Quality of the resonance, |pole| / (2 |Re pole|); of two real poles, the slowest, sqrt(p1 p2) / (p1 + p2)."""
        pair = self._resonant_pair()
        return float(np.sqrt(np.prod(pair).real) / -np.sum(pair).real)

    @property
    def low_frequency_level(self):
        """Level far below the resonance, dB: what the loads' resistances leave; at or below zero, -inf when silent."""
        gain = abs(self.response(0.0))
        return 20 * math.log10(gain) if gain > 0 else -math.inf

    def peak(self):
        """Frequency (Hz) and level (dB relative to the induced voltage) where the response is largest.

        Exact, from the roots of a polynomial. Without a hump that is at 0 Hz. Subtract low_frequency_level for the
        height of the hump over the low frequencies. Raises ValueError when the volume is turned to silence.
        """
        output, drive = self._sizes_squared()
        turning_points = (output.deriv() * drive - output * drive.deriv()).roots()
        places = np.concatenate([[0.0], np.maximum(0.0, turning_points.real)])
        gains = output(places) / drive(places)
        best = np.argmax(gains)
        return self._scale() * math.sqrt(places[best]) / (2 * math.pi), 10 * math.log10(gains[best])

    def minus_3_db(self, below="low frequencies"):
        """Frequencies (Hz, rising) where the level has fallen to half the power, 3.01 dB, below a reference.

        One below "low frequencies", as a rule; below a "peak" that stands out two, the resonance's width. Raises as
        `peak`.
        """
        one_of("below", below, ("low frequencies", "peak"))
        output, drive = self._sizes_squared()
        level = self.low_frequency_level if below == "low frequencies" else self.peak()[1]
        crossings = (output - 10 ** (level / 10) / 2 * drive).roots()
        real = crossings.real[(np.abs(crossings.imag) < 1e-7 * np.abs(crossings)) & (crossings.real > 0)]
        return tuple(float(f) for f in self._scale() * np.sqrt(np.sort(real)) / (2 * np.pi))

    def _network(self, s):
        """Numerator and denominator of the response at s, a complex frequency or a polynomial."""
        share, track, tone_capacitance, tone_time = self._controls
        output = 1 / self.input_resistance + s * self.cable_capacitance     # admittance from the wiper on
        divider = 1 + share * (1 - share) * track * output
        volume = (1 / track if track else 0.0) + share * output             # admittance times divider
        tone = 1 + s * tone_time
        across = s * (self.capacitance * tone + tone_capacitance) * divider + volume * tone
        through, parts = self._winding(s)
        return share * tone * parts, divider * tone * parts + through * across

    def _winding(self, s):
        """Numerator and denominator of the impedance of wire, inductance and loops at s."""
        parts = math.prod((1 + s * (L / R) for L, R in self.loops), start=1.0)
        through = (self.resistance + s * self.inductance) * parts
        for number, (inductance, _) in enumerate(self.loops):
            others = (1 + s * (L / R) for L, R in (*self.loops[:number], *self.loops[number + 1:]))
            through = through + s * inductance * math.prod(others, start=1.0)
        return through, parts

    @property
    def _controls(self):
        """Volume control: share and track (ohm), 1 and 0 without; tone control: C (F) and R C (s), 0 and 0 without."""
        volume = (1.0, 0.0) if self.volume_resistance == math.inf else (self.volume_setting, self.volume_resistance)
        if self.tone_resistance == math.inf:
            return *volume, 0.0, 0.0
        return *volume, self.tone_capacitance, self.tone_resistance * self.tone_setting * self.tone_capacitance

    def _scale(self):
        """Unit of s in the polynomials, 1/s: keeps their coefficients of similar size."""
        return self.resistance / self.inductance

    def _polynomials(self):
        return tuple(part.trim() for part in self._network(Polynomial([0.0, self._scale()])))

    def _sizes_squared(self):
        """Squared sizes of numerator and denominator as polynomials of the frequency squared."""
        if self._controls[0] == 0:
            refuse("volume_setting", "above 0 for a peak or a level", self.volume_setting)
        return tuple(map(_size_squared, self._polynomials()))

    def _resonant_pair(self):
        poles = self.poles()
        if len(poles) < 2:
            refuse("capacitance", "above zero for a resonance", self.capacitance)
        swinging = poles[poles.imag != 0]   # one inductance: one pair at most
        return swinging if len(swinging) else poles[:2]


def _size_squared(polynomial):
    """|P(j w)|^2 as a polynomial of w^2."""
    coefficients = np.append(polynomial.coef, 0.0)
    even, odd = (Polynomial(part * (-1.0) ** np.arange(len(part))) for part in (coefficients[::2], coefficients[1::2]))
    return even**2 + Polynomial([0.0, 1.0]) * odd**2


def _scalar_if_single(value):
    return value if np.ndim(value) else complex(value)
