"""A current through a coil's resistance and inductance in series: the voltage of each, and that across both."""
import cmath
import math
from dataclasses import dataclass

import numpy as np

from lessons_lib.lessons.instrument import house_instrument

CURRENT = 1e-3                  # A, at its peak: volts are then kilohms
SLOWEST, FASTEST = 100.0, 1500.0    # Hz, of the panel
PERIOD = np.linspace(0.0, 1.0, 81)


@dataclass(frozen=True, kw_only=True)
class InSeries:
    """Voltages of one current in a resistance and an inductance, as turning arrows: complex, heights are the values.

    reactance, impedance (its magnitude), ohm; lead of the sum before the current, rad; wire, inductance,
    both (V) at one moment; turned, by how much the current's arrow has turned until then (rad).
    """

    reactance: float
    impedance: float
    lead: float
    wire: complex
    inductance: complex
    turned: float

    @property
    def both(self):
        """The sum of the two arrows, V."""
        return self.wire + self.inductance


def bare_coil(instrument):
    """The instrument's coil, resistance and inductance alone."""
    return instrument.loaded(capacitance=0.0, input_resistance=math.inf)


def in_series(*, frequency, turned, instrument=house_instrument):
    """The voltages of a current of CURRENT at its peak through the instrument's coil, as an `InSeries`.

    Parameters
    ----------
    frequency : float, Hz
    turned : float, rad
        How far the arrow of the current has turned: at 0 the current passes through zero, rising.

    Examples
    --------
    >>> one = in_series(frequency=640.0, turned=0.0)
    >>> round(abs(one.wire), 1), round(abs(one.inductance), 1), round(abs(one.both), 1)
    (8.7, 8.7, 12.3)
    """
    impedance, current = bare_coil(instrument).impedance(frequency), cmath.rect(CURRENT, turned)
    return InSeries(reactance=impedance.imag, impedance=abs(impedance), lead=cmath.phase(impedance),
                    wire=impedance.real * current, inductance=1j * impedance.imag * current, turned=turned)


def highest_voltage(instrument):
    """Peak across both (V) at the highest frequency that the panel takes."""
    return CURRENT * abs(bare_coil(instrument).impedance(FASTEST))


def arrows_and_waves(one, **_):
    """What TurningArrows.update takes for an `InSeries`."""
    parts = {"wire": one.wire, "inductance": one.inductance, "both": one.both}
    turns = np.exp(1j * (2 * np.pi * PERIOD - one.turned))      # from the beginning of the period on
    return {"arrows": {name: (part.real, part.imag) for name, part in parts.items()}, "time": PERIOD,
            "waves": {name: (part * turns).imag for name, part in parts.items()}, "at": one.turned / (2 * np.pi)}


def one_turn(*, frequency, turned, instrument=house_instrument, frames=48):
    """A period from this moment on, as data of `arrows_and_waves`."""
    moments = [(turned + 2 * np.pi * n / frames) % (2 * np.pi) for n in range(frames)]
    return [arrows_and_waves(in_series(frequency=frequency, turned=at, instrument=instrument)) for at in moments]
