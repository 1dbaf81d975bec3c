"""Ways from readings to a result that leave something out, as students take them: what a wrong number is compared with.

Arguments are those of the fits (`fits`), SI; what comes back takes the place of the fit's result.
"""
import numpy as np

from lessons_lib.base.checks import finite_array, refuse
from lessons_lib.base.materials import magnet_grade
from lessons_lib.physics.gauss_readings import fit_gauss_readings


def _added(capacitance, frequency):
    """Added capacitance (F), one at least above zero, and 1/(2 pi f)^2 (s2), as arrays."""
    capacitance, frequency = finite_array(capacitance=capacitance, frequency=frequency)
    if not (capacitance > 0).any():
        refuse("capacitance", "above zero somewhere", capacitance.tolist())
    return capacitance, (2 * np.pi * frequency) ** -2


def inductance_without_own_capacitance(capacitance, frequency):
    """Inductance (H) from f = 1/(2 pi sqrt(L C)) with the added capacitors (F) alone; mean over the readings with one.

    Examples
    --------
    >>> round(inductance_without_own_capacitance([0.0, 400e-12], [8e3, 1 / (2 * np.pi * np.sqrt(3 * 500e-12))]), 3)
    3.75
    """
    capacitance, square = _added(capacitance, frequency)
    some = capacitance > 0
    return float(np.mean(square[some] / capacitance[some]))


def flux_of_the_first_reading(distance, flux_density, *, diameter, **others):
    """The reading (T) at the least distance times the rod's area (diameter in m), taken for the flux (Wb) in the rod.

    Examples
    --------
    >>> round(flux_of_the_first_reading([2e-3, 1e-3], [0.08, -0.13], diameter=5e-3) * 1e6, 2)
    2.55
    """
    distance, flux_density = finite_array(distance=distance, flux_density=flux_density)
    return float(abs(flux_density[np.argmin(distance)]) * np.pi / 4 * diameter ** 2)


def flux_of_a_uniform_rod(distance, flux_density, *, diameter, length, **others):
    """The flux (Wb) in the middle of a rod with a recoil permeability of 1 that fits the readings best, sizes in m.

    Examples
    --------
    >>> round(flux_of_a_uniform_rod([0.0, 1e-3, 3e-3], [0.13, 0.086, 0.037], diameter=5e-3, length=17e-3) * 1e6, 1)
    15.5
    """
    return abs(fit_gauss_readings(distance, flux_density, diameter=diameter, length=length)["flux"])


def flux_on_the_recoil_line(distance, flux_density, *, diameter, length, grade, **others):
    """The flux (Wb) in the middle of a rod on a straight line with the grade's recoil permeability, sizes in m.

    Examples
    --------
    >>> readings = [0.0, 1e-3, 3e-3, 8e-3], [0.134, 0.096, 0.045, 0.011]    # on its curve: 16 uWb
    >>> round(flux_on_the_recoil_line(*readings, diameter=5e-3, length=17e-3, grade="alnico 5") * 1e6, 1)
    17.9
    """
    recoil_permeability = float(magnet_grade(grade).recoil_permeability)
    return abs(fit_gauss_readings(distance, flux_density, diameter=diameter, length=length,
                                  recoil_permeability=recoil_permeability)["flux"])


def inductance_by_a_line_through_the_origin(capacitance, frequency):
    """Inductance (H) by the line through the origin that misses 1/(2 pi f)^2 against the added capacitance (F) least.

    Examples
    --------
    >>> round(inductance_by_a_line_through_the_origin([0.0, 400e-12], [8e3, 1 / (2 * np.pi * (15e-10) ** 0.5)]), 3)
    3.75
    """
    capacitance, square = _added(capacitance, frequency)
    return float(capacitance @ square / (capacitance @ capacitance))


def inductance_from_the_last_reading(capacitance, frequency):
    """Inductance (H) from the largest added capacitance (F) and its resonance (Hz) alone.

    Examples
    --------
    >>> round(inductance_from_the_last_reading([0.0, 400e-12], [8e3, 1 / (2 * np.pi * (15e-10) ** 0.5)]), 3)
    3.75
    """
    capacitance, square = _added(capacitance, frequency)
    last = np.argmax(capacitance)
    return float(square[last] / capacitance[last])
