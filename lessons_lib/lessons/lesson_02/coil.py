"""The plain functions behind lesson 2's magnet beside a coil: SI numbers in, a record and arrays out."""
from dataclasses import dataclass
from functools import lru_cache

from scipy.constants import mu_0, pi

from lessons_lib.base.wire import magnet_wire
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.rod import CircuitAndField, circuit_and_field, flux_map
from lessons_lib.physics.magnetic_circuit import in_series
from lessons_lib.physics.wound_rod import WoundRod

WINDING, FILLED = 1e-3, 0.5     # m, thickness of the winding whose heat is said, and its share of copper


@dataclass(frozen=True, kw_only=True)
class MagnetAndCoil:
    """A magnet and a coil on a core of its shape and permeability.

    The *magnet* as circuit and field; *ampere_turns* of the coil (A); its flux through the middle (Wb) by the circuit
    and by the field; H (A/m) in the middle cross-section of both, with B positive; *heat* of the coil, W.
    """

    magnet: CircuitAndField
    ampere_turns: float
    circuit_flux: float
    field_flux: float
    magnet_h: float
    coil_h: float
    heat: float

    @property
    def share(self):
        """The coil's flux divided by the magnet's."""
        return self.field_flux / self.magnet.field_flux


def heat_of_winding(*, ampere_turns, diameter, length):
    """Heat (W) of a copper winding 1 mm thick, half of it copper, at 20 °C, on a rod (m) with so many ampere-turns.

    Notes
    -----
    rho (N I)^2 times the length of a mean turn, divided by the copper's cross-section: neither N nor I counts alone.

    Examples
    --------
    >>> twice = heat_of_winding(ampere_turns=200, diameter=5e-3, length=17e-3)
    >>> round(twice / heat_of_winding(ampere_turns=100, diameter=5e-3, length=17e-3), 9)
    4.0
    """
    wire = magnet_wire(diameter=1e-4)       # any: what is taken is the copper's resistivity
    resistivity = float(wire.resistance_per_metre) * float(wire.area)
    return resistivity * ampere_turns ** 2 * pi * (diameter + WINDING) / (FILLED * WINDING * length)


def magnet_and_coil(*, length, remanence, recoil_permeability, turns, current, instrument=house_instrument):
    """A magnet as thick as the instrument's and a coil on a core like it, as a MagnetAndCoil.

    Examples
    --------
    >>> both = magnet_and_coil(length=17e-3, remanence=0.75, recoil_permeability=3.6, turns=2000, current=1.0)
    >>> round(both.magnet.mmf), round(both.ampere_turns), round(both.share, 2)
    (2818, 2000, 0.71)
    """
    diameter, ampere_turns = instrument.magnet["diameter"], turns * current
    magnet = circuit_and_field(diameter=diameter, length=length, remanence=remanence,
                               recoil_permeability=recoil_permeability)
    flux = WoundRod(diameter=diameter, length=length, relative_permeability=recoil_permeability,
                    ampere_turns=ampere_turns).midplane_flux()
    to_h = mu_0 * recoil_permeability * pi * diameter ** 2 / 4
    return MagnetAndCoil(
        magnet=magnet, ampere_turns=ampere_turns, field_flux=flux,
        circuit_flux=ampere_turns / in_series(magnet.own_reluctance, magnet.air_reluctance),
        magnet_h=magnet.field_flux / to_h - remanence / (mu_0 * recoil_permeability), coil_h=flux / to_h,
        heat=heat_of_winding(ampere_turns=ampere_turns, diameter=diameter, length=length))


@lru_cache(maxsize=64)
def _unit_map(diameter, length, relative_permeability):
    """The coil's flux function for 1 A, on the grid of the magnet's map."""
    grid = flux_map(diameter=diameter, length=length, remanence=1.0, recoil_permeability=relative_permeability)
    coil = WoundRod(diameter=diameter, length=length, relative_permeability=relative_permeability, ampere_turns=1.0)
    return coil.flux_function(grid["rho"], grid["z"][:, None])


def magnet_and_coil_maps(both, *, length, remanence, recoil_permeability, turns, current, instrument=house_instrument):
    """What MagnetBesideCoil takes."""
    diameter = instrument.magnet["diameter"]
    magnet = flux_map(diameter=diameter, length=length, remanence=remanence, recoil_permeability=recoil_permeability)
    coil = both.ampere_turns * _unit_map(diameter, length, recoil_permeability)
    return {"magnet": magnet, "coil": magnet | {"flux": coil}, "thickness": WINDING,
            "mmf": both.magnet.mmf, "turns": turns, "current": current,
            "fluxes": (both.magnet.field_flux, both.field_flux),
            "by_circuit": (both.magnet.circuit_flux, both.circuit_flux)}
