"""A recorded pluck taken apart into partials, and the string's height from the levels of equal plucks."""
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from scipy.interpolate import CubicSpline

from lessons_lib.base.checks import finite_array, from_zero, positive, refuse
from lessons_lib.base.units import in_unit, said
from lessons_lib.physics.adjustment import adjust, column_above_zero, columns_of_one_length

_FRAME = 5e-3           # s, in which the beginning is looked for
_BEGUN = 0.25           # of the loudest frame's size: the string sounds
_PERIODS = 8            # in a block: neighbouring partials are eight bins of its spectrum away
_LEAST_BLOCKS = 4
_DETUNED = 0.06         # a semitone, how far the fundamental is looked for
_STEP_OF_HEIGHT = 0.25e-3   # m, between the computed points of a sensitivity curve
_HEIGHTS_TRIED = 200
_THREE_SIGMA = 9.0      # another height this much worse in chi-square is ruled out


@dataclass(frozen=True, kw_only=True, eq=False)
class RecordedPluck:
    """Partials of a recorded pluck.

    start: when the string begins to sound, s. number, frequency (Hz), amplitude (at the start, in the signal's unit),
    decay (1/s): one entry a partial. fits: a `Fit` for each, with uncertainties.
    """

    start: float
    number: np.ndarray
    frequency: np.ndarray
    amplitude: np.ndarray
    decay: np.ndarray
    fits: tuple

    @property
    def level(self):
        """Level of each partial, dB relative to the fundamental."""
        return 20 * np.log10(self.amplitude / self.amplitude[0])


def fit_pluck(signal, rate, *, near, count=6):
    """Frequencies, decays and levels of the partials of a recorded pluck.

    Parameters
    ----------
    signal : array_like, shape (n,)
        Any unit.
    rate : float, Hz
    near : float, Hz
        What the string is tuned to; the fundamental is looked for within a semitone.
    count : int
        Number of partials.

    Returns
    -------
    RecordedPluck
        Each fit has ``"amplitude"``, ``"frequency"`` and ``"decay"``.

    Raises
    ------
    ValueError
        For a signal that ends too early (32 periods after its start), partials above half the rate.

    Notes
    -----
    From its start on the signal is cut into blocks of eight periods. In each a partial has a size and an angle (Hann
    window); a single decaying wave is fitted to these. Two planes that decay or beat differently, and products of the
    bend of the flux law, leave waves in the residuals, and the fit's remark says so. The levels are those of the whole
    chain (coil, load, amplifier, sound card).

    Examples
    --------
    >>> time = np.arange(16000) / 8000
    >>> signal = np.exp(-2 * time) * np.sin(2 * np.pi * 100 * time) + 0.1 * np.sin(2 * np.pi * 200 * time)
    >>> pluck = fit_pluck(signal, 8000, near=101.0, count=2)
    >>> pluck.frequency.round(2).tolist(), abs(pluck.decay).round(2).tolist(), pluck.level.round().tolist()
    ([100.0, 200.0], [2.0, 0.0], [0.0, -20.0])
    """
    signal = finite_array(signal=signal)
    positive(rate=rate, near=near, count=count)
    if signal.ndim != 1 or not signal.any():
        refuse("signal", "a list of samples that are not all zero", f"shape {signal.shape}")
    if count * near * (1 + _DETUNED) >= rate / 2:
        refuse("highest partial", f"below half the rate, {rate / 2:g} Hz", count * near)
    frame = max(1, round(_FRAME * rate))
    sizes = signal[:signal.size // frame * frame].reshape(-1, frame).std(axis=1)
    first = int(np.argmax(sizes > _BEGUN * sizes.max())) * frame     # where the string begins to sound
    ringing = signal[first:]
    if ringing.size / rate * near * (1 - _DETUNED) < _LEAST_BLOCKS * _PERIODS:
        refuse("sound after the pluck", f"{_LEAST_BLOCKS * _PERIODS} periods or longer",
               f"{ringing.size / rate * near:.3g} periods")
    fundamental = _strongest(ringing, rate, near * (1 - _DETUNED), near * (1 + _DETUNED))
    fits = tuple(_fit_partial(ringing, rate, fundamental, n) for n in range(1, count + 1))
    columns = {name: np.array([fit[name] for fit in fits]) for name in ("frequency", "amplitude", "decay")}
    return RecordedPluck(start=first / rate, number=np.arange(1, count + 1), fits=fits, **columns)


def _strongest(signal, rate, low, high):
    """Frequency between low and high where the spectrum is largest; a parabola finds it between two bins."""
    padded = 4 * signal.size
    spectrum = np.abs(np.fft.rfft(signal * np.hanning(signal.size), padded))
    bins = np.arange(max(1, int(low * padded / rate)), min(spectrum.size - 1, int(high * padded / rate) + 1))
    best = bins[np.argmax(spectrum[bins])]
    before, at, after = np.log(spectrum[best - 1:best + 2] + 1e-300)
    bend = before - 2 * at + after
    return (best + (0.5 * (before - after) / bend if bend else 0.0)) * rate / padded


def _fit_partial(signal, rate, fundamental, n):
    """The decaying wave that serves the blocks of partial n best."""
    guess = fundamental if n == 1 else _strongest(signal, rate, (n - 0.3) * fundamental, (n + 0.3) * fundamental)
    length = round(_PERIODS * rate / fundamental)
    count, window = signal.size // length, np.hanning(length + 1)[:-1]
    turning = signal[:count * length] * np.exp(-2j * np.pi * guess * (np.arange(count * length) / rate))
    values = 2 * (turning.reshape(count, length) @ window) / window.sum()      # size and angle in each block
    time = (np.arange(count) + 0.5) * length / rate                            # the middle of each
    slope, log_size = np.polyfit(time, np.log(np.abs(values) + 1e-300), 1, w=np.abs(values))
    start = np.exp(log_size) * np.exp(1j * np.angle(values[0]))

    def model(p):
        wave = (p[0] + 1j * p[1]) * np.exp((2j * np.pi * p[2] - p[3]) * time)
        return np.concatenate([wave.real, wave.imag])

    return adjust(model, [start.real, start.imag, 0.0, -slope], np.concatenate([values.real, values.imag]),
                  uncertainty=None, sizes=np.ones(2 * time.size), names=("amplitude", "frequency", "decay"),
                  units=("", "Hz", "1/s"), quantities=lambda p: (np.hypot(p[0], p[1]), guess + p[2], p[3]))


@dataclass(frozen=True, eq=False)
class SensitivityCurve:
    """Sensitivity against height as a smooth function (`sensitivity_curve` computes it).

    heights (m, rising) and sensitivities (V per m/s, above zero) at the computed points. A cubic spline through the
    logarithm: over the workshop's rods within 3e-5 between points 0.25 mm apart.

    Examples
    --------
    >>> curve = SensitivityCurve(np.array([1e-3, 2e-3, 3e-3, 4e-3]), np.array([0.8, 0.4, 0.2, 0.1]))
    >>> round(float(curve(2.5e-3)), 4)
    0.2828
    """

    heights: np.ndarray
    sensitivities: np.ndarray

    def __call__(self, height):
        """Sensitivity (V per m/s) at heights (m) on the curve; ValueError outside."""
        height = finite_array(height=height)
        outside = (height < self.heights[0]) | (height > self.heights[-1])
        if outside.any():
            refuse("height", f"on the curve, {self.heights[0]:g} to {self.heights[-1]:g} m", height[outside].flat[0])
        return np.exp(self.logarithm(height))

    @cached_property
    def logarithm(self):
        """The spline of the logarithm against height."""
        return CubicSpline(self.heights, np.log(self.sensitivities))


def sensitivity_curve(pickup, string, *, lowest, highest, y=0.0):
    """The `SensitivityCurve` of a pickup and a string between two heights (m) at one place across (m)."""
    positive(lowest=lowest, highest=highest)
    if highest - lowest < 3 * _STEP_OF_HEIGHT:
        refuse("highest", f"above lowest by {3 * _STEP_OF_HEIGHT:g} m or more", highest)
    heights = np.linspace(lowest, highest, int(np.ceil((highest - lowest) / _STEP_OF_HEIGHT)) + 1)
    return SensitivityCurve(heights, np.abs(pickup.sensitivity(string, height=heights, y=y)))


def fit_string_height(lowered, amplitude, *, curve, uncertainty=None):
    """Height of a string from the levels of equal plucks with the pickup lowered by known steps.

    Parameters
    ----------
    lowered : array_like, shape (n,), m
        How far the pickup was lowered from its nearest place, 0 for that place; two different values at least.
    amplitude : array_like, shape (n,)
        Of the fundamental at the start of each pluck, any unit, the same gain for all.
    curve : SensitivityCurve
        Of the pickup and the string at hand.
    uncertainty : float or array_like of shape (n,), optional
        One sigma of the amplitudes, from pluck to pluck; without it the same percentage of all.

    Returns
    -------
    Fit
        ``"height"`` (m, of the string above the pickup at its nearest place) and ``"gain"`` (amplitude
        divided by sensitivity).

    Raises
    ------
    ValueError
        Besides bad columns: where no height on the curve serves best.

    Notes
    -----
    What tells is how the fall of the levels changes, so the height is far less sure than they are, and two places near
    each other are not enough: over the workshop's rods a string at 1.6 mm and one at 3.0 mm fall by the same ratio when
    the pickup is lowered by 3 mm. With a longer step, or better a third place, one height is left. Plucks equal to 2 %
    at 0, 2, 5 and 8 mm give string VI's height to 0.2 mm (one sigma). A single recording, or its second partial, does
    not give it: the pluck's strength and place change that as much.
    Left out: that a wide swing bends the law (0.4 N on string VI moves the height by 0.07 mm), and the magnet's pull.

    Examples
    --------
    >>> heights = np.arange(1e-3, 9e-3, 0.25e-3)
    >>> curve = SensitivityCurve(heights, (heights + 3e-3) ** -4.0)
    >>> lowered = np.array([0.0, 1e-3, 3e-3])
    >>> round(fit_string_height(lowered, 5 * curve(2e-3 + lowered), curve=curve)["height"], 6)
    0.002
    """
    lowered, amplitude = columns_of_one_length(2, lowered=lowered, amplitude=amplitude)
    from_zero(lowered=lowered)
    column_above_zero(amplitude=amplitude)
    if np.ptp(lowered) == 0:
        refuse("lowered", "two different values or more", float(lowered[0]))
    log_curve = curve.logarithm
    start = _best_height(lowered, amplitude, curve, uncertainty)
    gain = np.mean(np.log(amplitude) - log_curve(start + lowered))
    return adjust(lambda p: np.exp(p[1] + log_curve(1e-3 * p[0] + lowered)), [1e3 * start, gain], amplitude,
                  uncertainty=uncertainty, names=("height", "gain"), units=("m", ""),
                  quantities=lambda p: (1e-3 * p[0], np.exp(p[1])), order=np.argsort(lowered, kind="stable"))


def _best_height(lowered, amplitude, curve, uncertainty):
    """The height that serves best of many tried; refused at an end of the curve, or where another serves as well."""
    low, high = curve.heights[0], curve.heights[-1] - lowered.max()
    if high - low < _STEP_OF_HEIGHT:
        refuse("curve", f"longer than the lowering of {said(lowered.max(), 'mm', 'g')}",
               f"{in_unit(low, 'mm'):g} to {said(curve.heights[-1], 'mm', 'g')}")
    tried = np.linspace(low, high, _HEIGHTS_TRIED)
    share = 1.0 if uncertainty is None else np.divide(uncertainty, amplitude)
    gaps = (np.log(amplitude) - curve.logarithm(tried[:, np.newaxis] + lowered)) / share
    misfit = lowered.size * gaps.var(axis=1)
    best = int(np.argmin(misfit))
    if best in (0, _HEIGHTS_TRIED - 1):
        refuse("levels",
               f"such that a height between {in_unit(low, 'mm'):.3g} and {said(high, 'mm', '.3g')} serves best",
               "levels that fall otherwise than anywhere on the curve")
    chance = max(misfit[best], 1e-6) / max(lowered.size - 2, 1) if uncertainty is None else 1.0
    valleys = [i for i in range(1, _HEIGHTS_TRIED - 1) if misfit[i] < min(misfit[i - 1], misfit[i + 1])]
    alike = [said(tried[i], "mm", ".2f") for i in valleys if misfit[i] - misfit[best] < _THREE_SIGMA * chance]
    if len(alike) > 1:
        refuse("levels", "such that one height serves best",
               " and ".join(alike) + ", which serve alike; lower the pickup further")
    return tried[best]
