"""A round core in a thin winding: the electromagnet that has the field of a rod magnet on its recoil line."""
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.constants import mu_0

from lessons_lib.base.checks import at_least, finite, finite_array, from_zero
from lessons_lib.physics.loops import sheet_field, sheet_flux
from lessons_lib.physics.rod_surface import FluxesOfRod, vectors
from lessons_lib.physics.surface_currents import Rod, magnetise

_JUST_INSIDE = 1 - 1e-9     # radii: the winding is on the core, which feels the field of its inner side


@lru_cache(maxsize=64)
def _unit_core(diameter, length, relative_permeability):
    """The core, its top at z = 0, magnetised by a winding of 1 A/m."""
    core, radius = Rod(diameter=diameter, length=length, relative_permeability=relative_permeability), diameter / 2

    def applied(points):
        rho, height, outward = core.from_axis(points)
        sheet = sheet_field(np.minimum(rho, _JUST_INSIDE * radius), height, radius=radius, bottom=-length / 2,
                            top=length / 2)
        return vectors(*sheet, outward) / mu_0

    return magnetise([core], applied)


@dataclass(frozen=True, kw_only=True)
class WoundRod(FluxesOfRod):
    """A round rod that is no magnet, in a thin, even winding from end to end on its wall; its top is at z = 0.

    Parameters
    ----------
    diameter, length : float
        Of the core and of the winding, m, above zero.
    relative_permeability : float
        Of the core, 1 or above.
    ampere_turns : float
        Turns times current, A; positive: north pole on top.

    Notes
    -----
    The winding is a current sheet in closed form; the currents on the core's surface that answer it are solved for.
    With ``ampere_turns = remanence * length / (mu0 * recoil_permeability)`` and the same permeability this is, outside
    and inside, the B of a `RodMagnet`: B = mu0 mu (H + N I/l) is its recoil line. That is exact; the two ways of
    computing agree to 1e-6 (tests/test_wound_rod.py, which also adds up single loops, and H round a loop to N I). Left
    out: the thickness of the winding, and the bend of a real core's curve.

    Examples
    --------
    >>> coil = WoundRod(diameter=1e-2, length=10.0, relative_permeability=1.0, ampere_turns=1e7)    # B = mu0 N I/l
    >>> round(coil.midplane_flux() / (mu_0 * 1e6 * np.pi * 25e-6), 4)
    1.0
    """

    diameter: float
    length: float
    relative_permeability: float
    ampere_turns: float

    def __post_init__(self):
        super().__post_init__()
        at_least(1, relative_permeability=self.relative_permeability)
        finite(ampere_turns=self.ampere_turns)

    def flux_function(self, rho, z):
        """Flux (Wb) upward through the level circle of radius rho (m, not negative) at height z (m); they broadcast."""
        rho, z = from_zero(rho=rho), finite_array(z=z)
        core = _unit_core(self.diameter, self.length, self.relative_permeability).section_flux(0, rho, z)
        winding = sheet_flux(rho, z, radius=self.diameter / 2, bottom=-self.length, top=0.0)
        return self.ampere_turns / self.length * (core + winding)
