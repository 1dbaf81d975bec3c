"""A round cover of thin metal over a round coil: the currents that the coil drives in it, and what the coil gains."""
import math
from dataclasses import dataclass

import numpy as np
from scipy.constants import mu_0, pi

from lessons_lib.base.checks import finite, from_zero, not_negative, positive, positive_or_infinite, refuse
from lessons_lib.physics.eddy_currents import heard_as_loops, permeability_with_eddy_currents
from lessons_lib.physics.loops import loop_field, loop_flux
from lessons_lib.physics.magnetised import as_rod
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.winding import RoundCoil

_RINGS = 3              # to a thickness
_APART = 1 / 3          # of a thickness: mean distance of two points of a sheet, across it


@dataclass(frozen=True, kw_only=True)
class RoundCover:
    """A cap of thin metal that is no magnet: a round wall about the z axis and a level top, with a round hole or none.

    Parameters
    ----------
    outer_radius, bottom, top : float
        m; top is the height of the top's upper face. The wall goes from bottom to top.
    thickness : float
        Of wall and top, m, above zero.
    resistivity : float
        ohm m; infinite: no current flows.
    hole_radius : float, optional
        m; 0: closed.

    Notes
    -----
    The currents run in rings round the axis, evenly through the thickness: thin relative to the skin depth (brass has
    0.9 mm at 20 kHz). Each ring has its resistance and its inductances, with the others and with the coil (Maxwell's
    formula); the coil gains w^2 m (R + j w L)^-1 m. Against finite elements with conductivity, 0.3 to 0.5 mm of brass
    or nickel silver, 100 Hz to 10 kHz: L within 0.05 % and added resistance within 0.5 %; with a pole as near as the
    pole is alone, 1 and 5 % (tests/test_cover.py). One round coil and at most one pole, all on one axis: a long coil's
    cover, a slit, other coils and a cover of steel are left out. Common practice, no source: 0.3 to 0.5 mm of brass
    (0.07e-6 ohm m) or nickel silver (0.3e-6 ohm m); the resistivities are textbook values, from memory.

    Examples
    --------
    >>> sizes = {"outer_radius": 7.1e-3, "bottom": -15e-3, "top": 0.6e-3, "thickness": 0.4e-3}
    >>> coil = RoundCoil(inner_radius=3.2e-3, outer_radius=6.2e-3, bottom=-14.5e-3, top=-2.5e-3, turns=7600)
    >>> brass, nickel_silver = (RoundCover(**sizes, resistivity=rho).impedance_gained(Pickup(poles=(), coils=coil), 1e3)
    ...                         for rho in (0.07e-6, 0.3e-6))
    >>> bool(brass.real > nickel_silver.real > 0 > nickel_silver.imag > brass.imag)    # resistance up, inductance down
    True
    """

    outer_radius: float
    bottom: float
    top: float
    thickness: float
    resistivity: float
    hole_radius: float = 0.0

    def __post_init__(self):
        positive(outer_radius=self.outer_radius, thickness=self.thickness)
        finite(bottom=self.bottom, top=self.top)
        not_negative(hole_radius=self.hole_radius)
        positive_or_infinite(resistivity=self.resistivity)
        if self.bottom >= self.top:
            refuse("bottom", f"below top = {self.top!r}", self.bottom)
        if self.hole_radius >= self.outer_radius - self.thickness:
            refuse("hole_radius", f"below the wall's inner radius = {self.outer_radius - self.thickness!r}",
                   self.hole_radius)

    def _rings(self):
        """Radius, height (m) and conductance (S) of each ring: of the wall, then of the top inside of it."""
        inside, half = self.outer_radius - self.thickness, self.thickness / 2
        z, height = self._cut(self.bottom, self.top)
        rho, width = self._cut(self.hole_radius, inside)
        radius = np.concatenate([np.full_like(z, inside + half), rho])
        width = np.concatenate([np.full_like(z, height), np.full_like(rho, width)])
        conductance = width * self.thickness / (2 * pi * radius * self.resistivity)
        return radius, np.concatenate([z, np.full_like(rho, self.top - half)]), conductance

    def _cut(self, low, high):
        """Middles of even pieces from low to high, and the width of one."""
        pieces = math.ceil(_RINGS * (high - low) / self.thickness)
        width = (high - low) / pieces
        return low + width * (np.arange(pieces) + 0.5), width

    def impedance_gained(self, pickup, frequency):
        """Impedance that the coil of a pickup gains from this cover.

        Parameters
        ----------
        pickup : Pickup
            One RoundCoil about the z axis, and inside of it one pole about the z axis or none; no bars.
        frequency : array_like
            Hz, zero or above.

        Returns
        -------
        complex or ndarray of complex
            ohm, of the frequency's shape, to be added to `Pickup.impedance`. The currents in the cover take energy and
            push flux out of the coil; what less of it in the pole saves there is counted in.

        Raises
        ------
        TypeError, ValueError
            For another pickup, or one that does not fit under the cover; a frequency below zero.

        Notes
        -----
        The pole answers to the rings as to the coil, with the permeability that its eddy currents leave it. Without
        that (what a coil of air gains added to the pole's impedance) brass over alnico has 12 % too much inductance at
        4 kHz, and at 1 kHz two fifths of the resistance are missing.
        """
        frequency = from_zero(frequency=frequency)
        coil, pole = self._parts(pickup)
        radius, z, conductance = self._rings()
        potential = coil.vector_potential(np.stack([radius, 0 * radius, z], axis=-1))[:, 1]
        apart = np.hypot(z[:, None] - z, _APART * self.thickness)       # two rings of a sheet are no nearer
        of_rings = loop_flux(radius[:, None], apart, radius=radius)
        in_air = np.column_stack([2 * pi * radius * potential, of_rings])
        answer = _answer_of(pole, coil, radius, z) if pole else lambda _: 0.0

        def at(one):
            linked = in_air + answer(one)
            m, j_w_L = linked[:, 0], 2j * pi * one * linked[:, 1:]
            currents = np.linalg.solve(np.eye(len(m)) + conductance[:, None] * j_w_L, conductance * m)
            return (2 * pi * one) ** 2 * (m @ currents)
        return np.array([at(one) for one in frequency.ravel()], complex).reshape(frequency.shape)[()]

    def metal_of(self, pickup):
        """Cover and pole as what they are to the pickup's coil, a `MetalInField` of four loops, for `LoadedCoil`."""
        return heard_as_loops(lambda frequency: pickup.impedance(frequency) + self.impedance_gained(pickup, frequency))

    def _parts(self, pickup):
        """The coil and the pole (or None) of a pickup that this cover fits."""
        if not isinstance(pickup, Pickup):
            raise TypeError(f"pickup must be a Pickup; got {pickup!r}.")
        bodies = (*pickup.coils, *pickup.poles)
        if (len(pickup.coils) != 1 or not isinstance(pickup.coils[0], RoundCoil) or len(pickup.poles) > 1
                or pickup.bars or any(body.x or body.y for body in bodies)):
            refuse("pickup", "one RoundCoil and at most one pole, about the z axis, without bars", pickup)
        coil, pole = pickup.coils[0], next(iter(pickup.poles), None)
        spaces = [("coil", coil.outer_radius, coil.top)] + ([("pole", pole.diameter / 2, pole.top)] if pole else [])
        for name, radius, top in spaces:
            beneath = top <= self.top - self.thickness or radius <= self.hole_radius
            if radius > self.outer_radius - self.thickness or not beneath:
                refuse(name, f"inside of the cover, {self!r}", (radius, top))
        return coil, pole


def _answer_of(pole, coil, radius, z):
    """Flux through rings (radius, z, m) of the pole magnetised by one ampere in the coil, then in each of the rings.

    A function of the frequency (Hz); its values have the shape (rings, 1 + rings), Wb. As `surface_currents.magnetise`.
    """
    rod = as_rod(pole, steady=False)
    surface, middle = rod.surface, rod.middle[2]
    rho, height = surface.nodes.T
    of_coil = coil.flux_density(np.stack([rho, 0 * rho, height + middle], axis=-1))[:, ::2]
    of_rings = np.stack(loop_field(rho[:, None], height[:, None] + middle - z, radius=radius), axis=-1)
    fields = np.concatenate([of_coil[:, None], of_rings], axis=1) / mu_0
    along = np.einsum("ni,nsi->ns", surface.tangents, fields)
    through = surface.flux(radius, z - middle, np.eye(len(rho))).T

    def answer(frequency):
        mu = permeability_with_eddy_currents(relative_permeability=rod.relative_permeability,
                                             resistivity=pole.resistivity, diameter=pole.diameter,
                                             frequency=frequency)
        twice = 2 * (mu - 1) / (mu + 1)
        return through @ np.linalg.solve(np.eye(len(rho)) - twice * surface.self_action, twice * along)
    return answer
