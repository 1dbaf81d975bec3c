"""Ways from readings to a result that leave something out, as students take them: what a wrong number is held against.

Arguments are those of the fits (`fits`), SI; what comes back stands in the place of the fit's result.
"""
import numpy as np

from lessons_lib.base.checks import finite_array, refuse


def inductance_without_own_capacitance(capacitance, frequency):
    """Inductance (H) from f = 1/(2 pi sqrt(L C)) with the added capacitors (F) alone; mean over the readings with one.

    Examples
    --------
    >>> round(inductance_without_own_capacitance([0.0, 400e-12], [8e3, 1 / (2 * np.pi * np.sqrt(3 * 500e-12))]), 3)
    3.75
    """
    capacitance, frequency = finite_array(capacitance=capacitance, frequency=frequency)
    some = capacitance > 0
    if not some.any():
        refuse("capacitance", "above zero somewhere", capacitance.tolist())
    return float(np.mean((2 * np.pi * frequency[some]) ** -2 / capacitance[some]))


def remanence_from_the_first_reading(distance, flux_density, **sizes):
    """The reading (T) at the least distance, taken for the remanence.

    Examples
    --------
    >>> remanence_from_the_first_reading([2e-3, 1e-3], [0.08, 0.13])
    0.13
    """
    distance, flux_density = finite_array(distance=distance, flux_density=flux_density)
    return float(flux_density[np.argmin(distance)])
