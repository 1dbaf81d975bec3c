"""Poles of metal in a coil that is measured: currents flow in them, and a fit with one R, L and C knows of none."""
import math

import numpy as np

from lessons_lib.base.checks import one_of
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.eddy_currents import MetalInField

# Loops of the workshop's long coil with six rods of 5 x 17 mm: share of its inductance, corner frequency (Hz). They are
# what `metal_of` finds, kept here because it takes a second; tests/test_panels_lesson_08_metal.py computes them again.
_LOOPS = {"none": (), "alnico": ((0.2319, 18.83e3), (0.0987, 107e3)),
          "steel": ((0.0251, 147.2), (0.0545, 1162.0), (0.1054, 6477.0), (0.2410, 38.56e3))}
COIL_RESISTANCE = 7350.0    # ohm, of the invented bench, with a steady current
ADDED = (0.0, 470e-12)      # F, of the two runs
EXAMPLE = {"inductance": 2.8, "own": 140e-12, "load": 800e3}        # H, F, ohm: a coil like the bench's
METER = np.array([120.0, 1e3, 10e3])        # Hz
_FREQUENCIES = np.geomspace(200, 15e3, 24).round(-1)        # Hz, as on the invented bench
_COUPLING = 1.7e-6          # V per Hz


def metal_seen(metal, inductance):
    """What six rods of a metal are to a coil of the workshop's form with this inductance (H) at low frequencies.

    Parameters
    ----------
    metal : "none", "alnico" or "steel"
        "none": no currents flow.
    inductance : float

    Returns
    -------
    MetalInField

    Notes
    -----
    As by `eddy_currents.metal_of`, within 1 % from 20 Hz to 20 kHz; the loops grow with the inductance, as with the
    square of the turns. Steel is screw steel, solid rods of the magnets' size. Left out: currents in covers and plates;
    and that currents in the rods weaken an exciter's own flux as well (alnico: by 0.4 dB at 10 kHz).

    Examples
    --------
    >>> metal_seen("none", 2.0)
    MetalInField(inductance=2.0, loops=())
    """
    one_of("metal", metal, tuple(_LOOPS))
    loops = tuple((share * inductance, 2 * math.pi * corner * share * inductance) for share, corner in _LOOPS[metal])
    return MetalInField(inductance - sum(L for L, _ in loops), loops)


def coil_in_metal(metal, *, inductance, own, load, resistance):
    """A `LoadedCoil` with an inductance at low frequencies (H), self-capacitance (F), a resistance across it (ohm)."""
    seen = metal_seen(metal, inductance)
    return LoadedCoil(resistance=resistance, inductance=seen.inductance, loops=seen.loops, capacitance=own,
                      input_resistance=load)


def coil_guess(*, inductance, own, load, metal="none", resistance=COIL_RESISTANCE, added=ADDED):
    """Two coils as of `coil_in_metal`, without and with a capacitor across: by the capacitances *added* (F)."""
    return tuple(coil_in_metal(metal, inductance=inductance, own=own + extra, load=load, resistance=resistance)
                 for extra in added)


def low_inductance(coil):
    """Inductance (H) of a coil with its loops, at low frequencies."""
    return MetalInField(coil.inductance, coil.loops).at_low_frequency


def shown_by_meter(coil, frequency=METER):
    """Inductance (H) that a component meter shows, of a coil in series with a resistance, at frequencies (Hz)."""
    impedance = 1 / (1 / coil.impedance(frequency) + 1 / coil.input_resistance)
    return impedance.imag / (2 * math.pi * frequency)


def exciter_readings(metal, resistance):
    """Two runs over the coil of `EXAMPLE`, without noise, without and with 470 pF: SI columns, as from a bench.

    Examples
    --------
    >>> sorted(exciter_readings("none", 7350.0))
    ['added capacitance', 'frequency', 'voltage']
    """
    voltage = [_COUPLING * _FREQUENCIES * np.abs(coil.response(_FREQUENCIES))
               for coil in coil_guess(metal=metal, resistance=resistance, **EXAMPLE)]
    return {"added capacitance": np.repeat(ADDED, _FREQUENCIES.size), "frequency": np.tile(_FREQUENCIES, 2),
            "voltage": np.concatenate(voltage)}
