"""Eddy currents in round rods along an alternating field: the permeability that the rod shows at a frequency."""
import math
from dataclasses import dataclass, replace

import numpy as np
from scipy.constants import mu_0, pi
from scipy.optimize import least_squares, nnls
from scipy.special import jve

from lessons_lib.base.checks import at_least, from_zero, positive, positive_or_infinite, refuse

_NOTHING = 1e-9     # of an inductance: what least squares leave of nothing
_CORNERS = np.geomspace(100.0, 1e6, 17)     # Hz, of the parts that a winding's impedance is laid out in
_HEARD = np.geomspace(20.0, 20e3, 20)       # Hz, where a pickup's impedance is looked at


def skin_depth(*, resistivity, relative_permeability, frequency):
    """Depth at which an alternating field in thick metal has fallen to 1/e, m.

    Parameters
    ----------
    resistivity : float
        ohm m.
    relative_permeability : float
    frequency : float
        Hz, above zero.

    Examples
    --------
    >>> print(f"{skin_depth(resistivity=1.724e-8, relative_permeability=1.0, frequency=60.0) * 1e3:.2f} mm")  # copper
    8.53 mm
    """
    positive(resistivity=resistivity, frequency=frequency)
    at_least(1, relative_permeability=relative_permeability)
    return math.sqrt(resistivity / (pi * frequency * mu_0 * relative_permeability))


def permeability_with_eddy_currents(*, relative_permeability, resistivity, diameter, frequency):
    """Relative permeability, complex, that a round rod shows along its axis at a frequency.

    Parameters
    ----------
    relative_permeability : float
        Of the material, 1 or above.
    resistivity : float
        ohm m; infinite: no current flows in the rod.
    diameter : float
        m.
    frequency : array_like
        Hz, zero or above.

    Returns
    -------
    complex or ndarray of complex
        Of the frequency's shape: mean B along the axis over mu0 times H at the surface. The imaginary part is negative
        (B lags behind), and with the convention exp(+j w t) it takes energy.

    Notes
    -----
    mu 2 J1(ka)/(ka J0(ka)), a the radius, k = (1 - j)/skin depth: the skin effect in a long round cylinder in a field
    along it, as in any text on electrodynamics (L. D. Landau, E. M. Lifshitz, Electrodynamics of Continuous Media,
    section 59; from memory). For a rod a few diameters long it is a good recipe: tests/test_eddy_currents.py.

    Examples
    --------
    >>> steel = {"relative_permeability": 500.0, "resistivity": 0.15e-6, "diameter": 5e-3}
    >>> print(permeability_with_eddy_currents(**steel, frequency=0.0))
    (500+0j)
    >>> shown = permeability_with_eddy_currents(**steel, frequency=10e3)
    >>> bool(abs(shown) < 50 and shown.imag < 0)
    True
    """
    ka = (1 - 1j) * diameter / 2 * _per_depth(relative_permeability, resistivity, diameter, frequency)
    with np.errstate(invalid="ignore"):
        share = np.where(ka == 0, 1.0, 2 * jve(1, ka) / (ka * jve(0, ka)))      # jve: both would overflow alike
    return (relative_permeability * share)[()]


def flux_density_across(distance, *, relative_permeability, resistivity, diameter, frequency):
    """Flux density along a round rod at a distance from its axis, relative to that at its surface.

    Parameters
    ----------
    distance : array_like
        m, from zero to half the diameter.
    relative_permeability, resistivity, diameter : float
        As of `permeability_with_eddy_currents`.
    frequency : float
        Hz, zero or above.

    Returns
    -------
    complex or ndarray of complex
        Of the distance's shape; 1 at the surface. Its mean over the cross-section is the permeability that the rod
        shows, relative to that of its material.

    Notes
    -----
    J0(kr)/J0(ka) of the same long cylinder. Near the faces of a short rod the field is not along it, and this is a
    guide only.

    Examples
    --------
    >>> steel = {"relative_permeability": 500.0, "resistivity": 0.15e-6, "diameter": 5e-3}
    >>> bool(abs(flux_density_across(0.0, **steel, frequency=1e3)) < 1e-2)
    True
    """
    k = (1 - 1j) * _per_depth(relative_permeability, resistivity, diameter, frequency)
    distance = from_zero(distance=distance)
    if (distance > diameter / 2 * (1 + 1e-12)).any():
        refuse("distance", "at most half the diameter", float(np.max(distance)))
    kr, ka = k * distance, k * diameter / 2
    # jve lacks the factor exp(|Im z|) of either, which alone would overflow
    return (jve(0, kr) / jve(0, ka) * np.exp(np.abs(kr.imag) - abs(ka.imag)))[()]


def _per_depth(relative_permeability, resistivity, diameter, frequency):
    """One over the skin depth in a round rod, 1/m, of the frequency's shape; its numbers checked."""
    at_least(1, relative_permeability=relative_permeability)
    positive(diameter=diameter)
    positive_or_infinite(resistivity=resistivity)
    return np.sqrt(pi * from_zero(frequency=frequency) * mu_0 * relative_permeability / resistivity)


@dataclass(frozen=True)
class MetalInField:
    """An impedance of a winding, laid out as coils: *inductance* (H) of no loss, and *loops*, (H, ohm) each.

    Every loop is an inductance with a resistance across it, in series with the others: what a closed path in the metal
    does to the winding.
    """

    inductance: float
    loops: tuple

    def impedance(self, frequency):
        """j w times the inductance with all loops, ohm, complex, of the frequency's shape (Hz)."""
        s = 2j * pi * from_zero(frequency=frequency)
        return (s * self.inductance + sum(s * L * R / (R + s * L) for L, R in self.loops))[()]

    @property
    def at_low_frequency(self):
        """Inductance (H) far below the corners of all loops: no current flows across them."""
        return self.inductance + sum(inductance for inductance, _ in self.loops)

    def with_turns(self, ratio):
        """The same metal seen by a winding of *ratio* times the turns in the same place: everything by its square."""
        square = ratio ** 2
        return MetalInField(square * self.inductance, tuple((square * L, square * R) for L, R in self.loops))


def metal_of(pickup, *, resistivity):
    """What a pickup's poles are to its coils when currents flow in them, as a `MetalInField` of four loops at most.

    Parameters
    ----------
    pickup : Pickup
    resistivity : float
        Of all its poles, ohm m; infinite: its inductance and no loops.

    Notes
    -----
    Within 1 % of `Pickup.impedance` from 20 Hz to 20 kHz.
    """
    if resistivity == math.inf:
        return MetalInField(pickup.inductance(), ())
    poles = [replace(pole, resistivity=resistivity) for pole in pickup.poles]
    return heard_as_loops(replace(pickup, poles=poles).impedance)


def heard_as_loops(impedance):
    """An impedance, a function of the frequency (Hz), as `as_loops` lays it out in four loops from 20 Hz to 20 kHz."""
    return as_loops(impedance(_HEARD), _HEARD, most=4)


def as_loops(impedance, frequency, most=None):
    """Lay an impedance with eddy currents out as a `MetalInField`, by least squares without negative parts.

    Parameters
    ----------
    impedance : array_like of complex
        ohm, without the wire's own resistance.
    frequency : array_like
        Hz, above zero, of the same shape; some twenty from 20 Hz to 20 kHz serve.
    most : int, optional
        So many loops at most, with corners that fit best: four serve within 1 %.

    Returns
    -------
    MetalInField

    Notes
    -----
    Diffusion of flux into metal is a sum of such loops with closer and closer corners (for a cylinder at the zeros of
    J0). Here the corners are fixed, six to a decade or so, and what is fitted is their share: within 0.5 % of the
    impedance for rods and screws (tests/test_eddy_currents.py).
    """
    frequency, impedance = np.ravel(frequency), np.ravel(impedance)
    if len(frequency) != len(impedance) or len(frequency) < 3 or not (frequency > 0).all():
        refuse("frequency", "three or more above zero, as many as impedances", frequency.tolist())
    inductances = impedance / (2j * pi * frequency)
    corners = _CORNERS
    if most is not None:
        even = np.linspace(np.log(_CORNERS[4]), np.log(_CORNERS[-4]), most)
        best = least_squares(lambda place: _laid_out(inductances, frequency, np.exp(place))[1], even,
                             bounds=np.log((_CORNERS[0], _CORNERS[-1])))     # a loop far below rings for minutes
        corners = np.exp(best.x)
    shares, _ = _laid_out(inductances, frequency, corners)
    return MetalInField(float(shares[0]), tuple((float(L), float(2 * pi * corner * L)) for L, corner in zip(
        shares[1:], corners) if L > _NOTHING * shares.sum()))


def _laid_out(inductances, frequency, corners):
    """Shares (H) of what has no loss and of a loop at each corner (Hz); what is left, as a share of each inductance."""
    columns = np.column_stack([np.ones(len(frequency)), 1 / (1 + 1j * frequency[:, None] / corners)])
    columns, wanted = columns / np.abs(inductances)[:, None], inductances / np.abs(inductances)
    columns, wanted = np.concatenate([columns.real, columns.imag]), np.concatenate([wanted.real, wanted.imag])
    shares, _ = nnls(columns, wanted)
    return shares, columns @ shares - wanted
