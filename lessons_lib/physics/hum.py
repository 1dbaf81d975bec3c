"""Hum: the voltage that a uniform alternating field induces in a pickup's coils.

A stray field of the mains comes from far away: uniform. Across upright coils and poles it links nothing.
"""
import math

import numpy as np
from scipy.constants import mu_0

from lessons_lib.base.checks import finite, not_negative
from lessons_lib.physics.magnetised import settle


def hum_voltages(pickup, *, flux_density, frequency):
    """Voltage that each coil picks up from a uniform alternating field.

    Parameters
    ----------
    pickup : Pickup
        Poles and bars answer the field and lead more of it through the coils.
    flux_density : float
        Amplitude of the field's upright part without the pickup, T.
    frequency : float
        Hz, zero or above.

    Returns
    -------
    ndarray, shape (coils,)
        V, amplitudes, one a coil; those of coils wound the other way are negative. In series they add.

    Raises
    ------
    ValueError
        For a field that is not finite, a negative frequency.

    Notes
    -----
    2 pi f times the linkage at rest: field times the mean area of the turns, and the linkage from the poles that the
    field magnetises. Left out: eddy currents, the part of the field across the coils, unevenness of the field, what
    comes in electrically. Against finite elements: tests/test_hum.py.

    Examples
    --------
    >>> from lessons_lib.physics.pickup import Pickup
    >>> from lessons_lib.physics.winding import RoundCoil
    >>> coil = RoundCoil(inner_radius=0.99e-2, outer_radius=1.01e-2, bottom=-2e-3, top=-1e-3, turns=1000)
    >>> hum = hum_voltages(Pickup(poles=(), coils=coil), flux_density=1e-6, frequency=50.0)
    >>> (hum * 1e6).round(1)    # 2 pi f, turns, pi r^2, B in microvolts
    array([98.7])
    """
    finite(flux_density=flux_density)
    not_negative(frequency=frequency)
    answer = settle(pickup.poles, pickup.bars, lambda points: np.zeros_like(points) + (0.0, 0.0, flux_density / mu_0))
    linkages = [coil.turns * coil.winding_sense * coil.mean_area() * flux_density + answer.linkage(coil.flux_density)
                for coil in pickup.coils]
    return 2 * math.pi * frequency * np.array(linkages)
