"""One winding over poles of three kinds, with and without the currents that its alternating flux drives in them."""
import math
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from lessons_lib.base.materials import magnet_grade, magnet_wire, steel
from lessons_lib.base.workshop import house_bar, house_load, house_screw
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_06.model import FREQUENCIES, level
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.eddy_currents import flux_density_across, metal_of, skin_depth
from lessons_lib.physics.magnets import BarMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.six_strings import in_a_row
from lessons_lib.physics.steel import SteelPole

_ACROSS = np.linspace(-1.0, 1.0, 121)       # of a pole, in radii


@dataclass(frozen=True, kw_only=True)
class Poles:
    """What poles are made of: relative_permeability, resistivity (ohm m; infinite: none flows), diameter (m)."""

    relative_permeability: float
    resistivity: float
    diameter: float


@lru_cache(maxsize=12)
def poles_and_metal(kind, instrument=house_instrument):
    """The `Poles` of a kind, and what they are to the instrument's coil, a `MetalInField`; kept.

    Kinds: "alnico" and "ferrite", rods of the instrument's dimensions; "screws", the workshop's, on its bar magnet.
    """
    bars = ()
    if kind == "screws":
        pole, bars = SteelPole(**house_screw), BarMagnet(**house_bar)
        of = Poles(relative_permeability=pole.relative_permeability, diameter=pole.diameter,
                   resistivity=float(steel("screw steel").resistivity))
    else:
        grade = magnet_grade("alnico 5" if kind == "alnico" else "ferrite")
        pole = replace(instrument.rod, recoil_permeability=float(grade.recoil_permeability))
        # ferrite's resistivity is ten thousand million times alnico's: taken as infinite
        of = Poles(relative_permeability=pole.recoil_permeability, diameter=pole.diameter,
                   resistivity=math.inf if kind == "ferrite" else float(grade.resistivity))
    if pole == instrument.rod and kind == "alnico":
        return of, instrument.metal
    pickup = Pickup(poles=in_a_row(pole, instrument.place["string_y"]), coils=instrument.long_coil, bars=bars)
    return of, metal_of(pickup, resistivity=of.resistivity)


@dataclass(frozen=True, kw_only=True)
class OverPoles:
    """The winding over poles, with a cable and the amplifier alone, and what is in the metal at one frequency.

    still, flowing: the coil without and with eddy currents; inductance (H) and added resistance (ohm) of the winding
    at the frequency (Hz); skin_depth (m; infinite: no current flows); middle: flux density on a pole's axis relative
    to its surface; across: the same along a diameter, (m, share).
    """

    of: Poles
    still: LoadedCoil
    flowing: LoadedCoil
    frequency: float
    inductance: float
    added: float
    skin_depth: float
    middle: float
    across: tuple


@lru_cache(maxsize=64)
def _peak(coil):
    """Place and level of a coil's peak, Hz and dB; kept, for picture and words both ask for it."""
    return coil.peak()


def peak_of(coil):
    """Frequency of a coil's peak (Hz), and its height above the lowest frequencies (dB)."""
    place, top = _peak(coil)
    return place, top - coil.low_frequency_level


@lru_cache(maxsize=256)
def over_poles(*, poles, cable, frequency, instrument=house_instrument):
    """The instrument's winding over *poles* of a kind with a *cable* (F), as `OverPoles` at a *frequency* (Hz).

    Examples
    --------
    >>> one = over_poles(poles="ferrite", cable=500e-12, frequency=4e3)
    >>> one.added, one.middle, one.flowing == one.still
    (0.0, 1.0, True)
    """
    of, metal = poles_and_metal(poles, instrument)
    still = LoadedCoil(
        resistance=instrument.winding(instrument.coil["turns"]).resistance(magnet_wire(awg=instrument.gauge)),
        inductance=metal.at_low_frequency, capacitance=house_load["capacitance"], cable_capacitance=cable,
        input_resistance=house_load["input_resistance"])
    seen = metal.impedance(frequency)
    rod = {"relative_permeability": of.relative_permeability, "resistivity": of.resistivity, "frequency": frequency}
    share = np.abs(flux_density_across(np.abs(_ACROSS) * of.diameter / 2, diameter=of.diameter, **rod))
    return OverPoles(
        of=of, still=still, flowing=replace(still, inductance=metal.inductance, loops=metal.loops), frequency=frequency,
        inductance=seen.imag / (2 * math.pi * frequency), added=float(seen.real),
        skin_depth=math.inf if of.resistivity == math.inf else skin_depth(**rod),
        middle=float(share[len(share) // 2]), across=(_ACROSS * of.diameter / 2, share))


def metal_and_curves(one, **_):
    """What MetalInCoil.update and ResponseOverFrequency.update take for an `OverPoles`."""
    still, flowing = one.still, one.flowing
    radius, low = one.of.diameter / 2, flowing.low_frequency_level
    return {"metal": {"across": one.across, "radius": radius, "without": flowing.inductance, "skin_depth":
                      one.skin_depth if one.skin_depth < radius else None,
                      "loops": sum(inductance for inductance, _ in flowing.loops)},
            "response": {"frequency": FREQUENCIES, "house": level(still, FREQUENCIES),
                         "this": level(flowing, FREQUENCIES), "low_level": low, "peak": _peak(flowing),
                         "house_peak": _peak(still),
                         "minus_3_db": (flowing.minus_3_db()[0], low - 10 * math.log10(2))}}
