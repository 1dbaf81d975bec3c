"""What the bench measures, turned into a magnet's and a coil's numbers: each model put through its readings."""
import numpy as np

from lessons_lib.base.checks import from_zero, positive, refuse
from lessons_lib.physics.adjustment import (  # noqa: F401  (the record is offered with the fits)
    Fit,
    adjust,
    column_above_zero,
    columns_of_one_length,
)
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.gauss_readings import (  # noqa: F401  (all fits are offered here)
    fit_gauss_readings,
    fit_stated_gauss_readings,
)

_LOAD = 5e5             # ohm, where the search begins


def fit_added_capacitance(capacitance, frequency, *, uncertainty=None):
    """Inductance and self-capacitance of a coil from its resonance with known capacitors across it.

    Parameters
    ----------
    capacitance : array_like, shape (n,), F
        What was added, 0 for none; two different values at least.
    frequency : array_like, shape (n,), Hz
        Of the resonance.
    uncertainty : float or array_like of shape (n,), Hz, optional
        One sigma of the frequencies; without it the same percentage of all.

    Returns
    -------
    Fit
        ``"inductance"`` (H) and ``"capacitance"`` (F): the coil's own and all that stayed across it (probe, leads).

    Raises
    ------
    ValueError
        For columns of different length, fewer than three readings (two with an uncertainty), frequencies that do not
        fall as capacitance is added.

    Notes
    -----
    1/(2 pi f)^2 = L (C + added). An error that all capacitors share is not in the residuals: capacitors 2 % above
    their print make the inductance come out 2 % high and the capacitance 2 % low. The peak of a response is lower
    than the resonance by a fraction of 1/(4 Q^2), 1 % at Q = 5; correct it, or fit the whole response.

    Examples
    --------
    >>> added = np.array([0.0, 300e-12, 800e-12])
    >>> fit = fit_added_capacitance(added, 1 / (2 * np.pi * np.sqrt(3.0 * (200e-12 + added))))
    >>> round(fit["inductance"], 6), round(fit["capacitance"] * 1e12, 3)
    (3.0, 200.0)
    """
    capacitance, frequency = columns_of_one_length(2, capacitance=capacitance, frequency=frequency)
    from_zero(capacitance=capacitance)
    column_above_zero(frequency=frequency)
    inductance, own = _line(capacitance, frequency)

    def resonance(p):
        return 1 / (2 * np.pi * np.sqrt(inductance * p[0] * np.maximum(own * p[1] + capacitance, 1e-15)))

    return adjust(resonance, [1.0, 1.0], frequency, uncertainty=uncertainty, names=("inductance", "capacitance"),
                  units=("H", "F"), quantities=lambda p: (inductance * p[0], own * p[1]), order=np.argsort(capacitance))


def _line(capacitance, frequency):
    """Inductance and self-capacitance from the straight line of 1/(2 pi f)^2 against the added capacitance."""
    if np.ptp(capacitance) == 0:
        refuse("capacitance", "two different values or more", float(capacitance[0]))
    inductance, start = np.polyfit(capacitance, (2 * np.pi * frequency) ** -2, 1, w=frequency ** 2)
    if inductance <= 0:
        refuse("frequency", "lower with more capacitance", [round(float(f)) for f in frequency])
    if start <= 0:
        refuse("self-capacitance that the frequencies ask for", "above zero", float(start / inductance))
    return inductance, start / inductance


def fit_exciter_response(frequency, voltage, *, added_capacitance, resistance, uncertainty=None):
    """Inductance, capacitance and Q from runs with an exciter coil of constant current and different capacitors.

    Parameters
    ----------
    frequency, voltage, added_capacitance : array_like, shape (n,), Hz, V (or any unit), F
        One row a reading; two different capacitances at least.
    resistance : float, ohm
        DC resistance of the coil.
    uncertainty : float or array_like of shape (n,), optional
        One sigma of the voltages; without it the same percentage of all.

    Returns
    -------
    Fit
        ``"coupling"`` (V/Hz), ``"inductance"`` (H), ``"capacitance"`` (F, the coil's and all that stayed across it),
        ``"load_resistance"`` (ohm, across the coil: input and eddy losses in one number), ``"q_factor"`` (nothing
        added).

    Notes
    -----
    The model is `LoadedCoil` driven by a voltage in proportion to frequency. With one capacitance alone inductance and
    capacitance cannot be told apart. Left out: that eddy losses and inductance change with frequency.

    Examples
    --------
    >>> frequency, added = np.tile(np.geomspace(500, 12e3, 12), 2), np.repeat([0.0, 470e-12], 12)
    >>> def coil(extra):
    ...     return LoadedCoil(resistance=6e3, inductance=3.0, capacitance=200e-12 + extra, input_resistance=3e5)
    >>> voltage = [1e-6 * f * abs(coil(extra).response(f)) for f, extra in zip(frequency, added)]
    >>> fit = fit_exciter_response(frequency, voltage, added_capacitance=added, resistance=6e3)
    >>> [float(f"{value:.5g}") for value in fit.values[:4]]
    [1e-06, 3.0, 2e-10, 300000.0]
    """
    frequency, voltage, added = columns_of_one_length(
        4, frequency=frequency, voltage=voltage, added_capacitance=added_capacitance)
    column_above_zero(frequency=frequency, voltage=voltage)
    from_zero(added_capacitance=added)
    positive(resistance=resistance)
    order = np.lexsort([frequency, added])
    runs = [(value, np.flatnonzero(added == value)) for value in np.unique(added)]

    def coil(p, extra=0.0):
        _, inductance, capacitance, load = np.exp(p)
        return LoadedCoil(resistance=resistance, inductance=inductance, capacitance=capacitance + extra,
                          input_resistance=load)

    def model(p):
        level = np.empty_like(frequency)
        for extra, run in runs:
            level[run] = np.abs(coil(p, extra).response(frequency[run]))
        return np.exp(p[0]) * frequency * level

    peaks = np.array([frequency[run[np.argmax(voltage[run] / frequency[run])]] for _, run in runs])
    inductance, own = _line(np.unique(added), peaks)
    start = np.log([voltage[order[0]] / frequency[order[0]], inductance, own, _LOAD])
    return adjust(model, start, voltage, uncertainty=uncertainty,
                  names=("coupling", "inductance", "capacitance", "load_resistance", "q_factor"),
                  units=("V/Hz", "H", "F", "ohm", ""), quantities=lambda p: (*np.exp(p), coil(p).q_factor), order=order)
