"""One winding over poles of three kinds, with and without the currents that its alternating flux drives in them."""
import math
from dataclasses import dataclass, replace
from functools import lru_cache
from types import MappingProxyType

import numpy as np

from lessons_lib.base.materials import magnet_grade, magnet_wire, steel
from lessons_lib.base.workshop import house_bar, house_load, house_screw
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_06.model import beside
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.eddy_currents import flux_density_across, metal_of, skin_depth
from lessons_lib.physics.magnets import BarMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.six_strings import in_a_row
from lessons_lib.physics.steel import SteelPole

_ACROSS = np.linspace(-1.0, 1.0, 121)       # of a pole, in radii


@lru_cache(maxsize=12)
def poles_and_metal(kind, instrument=house_instrument):
    """What poles of a kind are made of, and what they are to the instrument's coil, a `MetalInField`; kept.

    Kinds: "alnico" and "ferrite", rods of the instrument's dimensions; "screws", the workshop's, on its bar magnet.
    The first is a mapping: relative_permeability, resistivity (ohm m; infinite: none flows), diameter (m).
    """
    if kind == "screws":
        pole, bars = SteelPole(**house_screw), BarMagnet(**house_bar)
        permeability, resistivity = pole.relative_permeability, float(steel("screw steel").resistivity)
    else:
        grade, bars = magnet_grade("alnico 5" if kind == "alnico" else "ferrite"), ()
        permeability = float(grade.recoil_permeability)
        pole = replace(instrument.rod, recoil_permeability=permeability)
        # ferrite's resistivity is ten thousand million times alnico's: taken as infinite
        resistivity = math.inf if kind == "ferrite" else float(grade.resistivity)
    of = MappingProxyType({"relative_permeability": permeability, "resistivity": resistivity,
                           "diameter": pole.diameter})
    if pole == instrument.rod and kind == "alnico":
        return of, instrument.metal
    pickup = Pickup(poles=in_a_row(pole, instrument.place["string_y"]), coils=instrument.long_coil, bars=bars)
    return of, metal_of(pickup, resistivity=resistivity)


@dataclass(frozen=True, kw_only=True)
class OverPoles:
    """The winding over poles, with a cable and the amplifier alone, and what is in the metal at one frequency.

    still, flowing: the coil without and with eddy currents; inductance (H) and added resistance (ohm) of the winding
    at the chosen frequency; skin_depth (m; infinite: no current flows); across: flux density along a pole's diameter
    relative to that at its surface, (m, share).
    """

    still: LoadedCoil
    flowing: LoadedCoil
    inductance: float
    added: float
    skin_depth: float
    across: tuple

    @property
    def middle(self):
        """Flux density on a pole's axis relative to its surface."""
        return float(self.across[1][_ACROSS.size // 2])


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
    across, metal_alone = _ACROSS * of["diameter"] / 2, {name: of[name] for name in of if name != "diameter"}
    return OverPoles(
        still=still, flowing=replace(still, inductance=metal.inductance, loops=metal.loops),
        inductance=seen.imag / (2 * math.pi * frequency), added=float(seen.real),
        skin_depth=math.inf if math.isinf(of["resistivity"]) else skin_depth(**metal_alone, frequency=frequency),
        across=(across, np.abs(flux_density_across(np.abs(across), **of, frequency=frequency))))


def metal_and_curves(one, **_):
    """What MetalInCoil.update and ResponseOverFrequency.update take for an `OverPoles`."""
    still, flowing, radius = one.still, one.flowing, one.across[0][-1]
    return {"metal": {"across": one.across, "radius": radius, "without": flowing.inductance, "skin_depth":
                      one.skin_depth if one.skin_depth < radius else None,
                      "loops": sum(inductance for inductance, _ in flowing.loops)},
            "response": beside(still, flowing)}
