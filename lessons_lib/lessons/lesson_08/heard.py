"""Six equal plucks through a design of a pickup: what the designs of the bench sound like."""
from functools import lru_cache

import numpy as np

from lessons_lib.base.workshop import ROW
from lessons_lib.lessons.instrument import HIGHEST_PARTIAL, LISTENS, PLECTRUM, house_instrument
from lessons_lib.physics.design import designed_coil

RATE = 44100
APART, LASTS = 0.3, 1.2             # s between two plucks; s that each is heard


@lru_cache(maxsize=1)
def _velocities():
    """Upward velocities (m/s) over the pickup, one string a row, of plucks with 1 N; the strings' impedances (kg/s)."""
    place, time = house_instrument.place, np.arange(int(LASTS * RATE)) / RATE
    strings = [house_instrument.string(name) for name in ROW]
    motions = [string.pluck(force=1.0, place=place["pluck_place"], width=PLECTRUM, highest_frequency=HIGHEST_PARTIAL)
               for string in strings]
    return (np.array([motion.velocity(time, place["pickup_place"], aperture=LISTENS)[0] for motion in motions]),
            np.array([string.impedance for string in strings]))


def six_plucks(report):
    """Voltage (V) at the amplifier of plucks of strings VI to I, one after the other, through a `DesignReport`.

    Notes
    -----
    A string's voltage is its velocity times its sensitivity at rest: small plucks, the map of the field is straight.

    Examples
    --------
    >>> from lessons_lib.physics.design import design_report
    >>> six_plucks(design_report(magnet="alnico 5", wire=44, turns=7600, tops=[0.0] * 6)).shape
    (119070,)
    """
    velocities, impedances = _velocities()
    slopes = report.sensitivity * impedances / impedances[0] * 10 ** (np.array(report.levels) / 20)
    step, count = int(APART * RATE), velocities.shape[1]
    induced = np.zeros(step * (len(ROW) - 1) + count)
    for n, voltage in enumerate(slopes[:, None] * velocities):
        induced[n * step:n * step + count] += voltage
    return designed_coil(report).apply(induced, RATE)
