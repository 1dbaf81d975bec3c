"""What several lessons ask of a free rod magnet: field above it, the map of its flux, its circuit beside its field."""
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0, pi

from lessons_lib.physics.air_paths import free_rod_reluctance
from lessons_lib.physics.magnetic_circuit import air_reluctance, in_series, reluctance
from lessons_lib.physics.magnets import RodMagnet


@lru_cache(maxsize=64)
def _unit_map(diameter, length, recoil_permeability):
    """The grid, the flux function and the shade for a remanence of 1 T; a rod's field is in proportion to it."""
    radius = diameter / 2
    rod = RodMagnet(diameter=diameter, length=length, remanence=1.0, recoil_permeability=recoil_permeability)
    # the slope of the flux function jumps at the wall and at the faces: they are lines of the grid
    inner, outer = np.linspace(0, radius, 14), radius + (28e-3 - radius) * np.linspace(0, 1, 41) ** 1.5
    rho, z = np.concatenate([inner, outer[1:]]), np.linspace(-29e-3, 9e-3, 77)
    flux = rod.flux_function(rho, z[:, None])
    few = np.array([0, 4, 8, inner.size - 1])      # inside B hardly changes: a shade needs few places
    shade = [(_size(flux[:, :inner.size], z, inner)[::2, few], inner[few]),
             (_size(flux[:, inner.size - 1:], z, outer)[::2, ::2], outer[::2])]
    return rho, z, flux, (np.concatenate([distance for _, distance in shade]), z[::2],
                          np.concatenate([size for size, _ in shade], axis=1))


def _size(flux, z, rho):
    """Magnitude of B (T) from the flux function: B_z = dflux/d(pi rho^2), B_rho = -dflux/dz / (2 pi rho)."""
    upward = np.gradient(flux, pi * rho ** 2, axis=1)
    outward = np.gradient(flux, z, axis=0)[:, rho > 0] / (2 * pi * rho[rho > 0])
    upward[:, rho > 0] = np.hypot(upward[:, rho > 0], outward)
    return np.abs(upward)


def upward(rod, rho, z):
    """Vertical flux density (T) of a rod at distances rho from its axis and heights z above its face (m, broadcast)."""
    return rod.flux_density(np.stack(np.broadcast_arrays(rho, 0.0, z), axis=-1))[..., 2]


def flux_map(*, diameter, length, remanence, recoil_permeability):
    """Flux function round a rod whose top is at z = 0, on a grid that is finer near the rod.

    Returns
    -------
    dict
        rho (n,), z (m,) in m, flux (m, n) in Wb, and the rod's diameter and length: what FluxLines.update takes.
    """
    rho, z, flux, _ = _unit_map(diameter, length, recoil_permeability)
    return {"rho": rho, "z": z, "flux": remanence * flux, "diameter": diameter, "length": length}


def flux_density_map(*, diameter, length, remanence, recoil_permeability):
    """Magnitude of B: distances (k,), m, with the wall twice, because B jumps there, heights (m,), m, and T (m, k).

    Notes
    -----
    From differences of the flux function, for a picture's shade: within 3 %, but for the rod's edges.
    """
    *_, (rho, z, size) = _unit_map(diameter, length, recoil_permeability)
    return rho, z, abs(remanence) * size


@dataclass(frozen=True, kw_only=True)
class CircuitAndField:
    """A free rod: mmf (A), reluctances (A/Wb) and its flux (Wb) by Ohm's law and by the field solution."""

    mmf: float
    own_reluctance: float
    air_reluctance: float
    short_formula: float
    circuit_flux: float
    field_flux: float

    @property
    def difference(self):
        """Flux of the circuit divided by that of the field, less one."""
        return self.circuit_flux / self.field_flux - 1


def circuit_and_field(*, diameter, length, remanence, recoil_permeability):
    """Ohm's law for a free rod beside its field, as a CircuitAndField; flux through the middle of the rod.

    Notes
    -----
    The two agree by definition for recoil permeability 1. For the rods of the panel the circuit is up to 5 % high with
    3.6 and 7 % with 5: a rod with recoil permeability is not magnetised uniformly, as the demagnetising factor assumes.
    """
    rod = RodMagnet(diameter=diameter, length=length, remanence=remanence, recoil_permeability=recoil_permeability)
    area = pi * diameter ** 2 / 4
    mmf = remanence * length / (mu_0 * recoil_permeability)
    own = reluctance(length=length, area=area, relative_permeability=recoil_permeability)
    air = air_reluctance(length=length, area=area, demagnetising_factor=rod.fluxmetric_factor())
    return CircuitAndField(mmf=mmf, own_reluctance=own, air_reluctance=air,
                           short_formula=free_rod_reluctance(diameter=diameter, length=length),
                           circuit_flux=mmf / in_series(own, air), field_flux=rod.midplane_flux())
