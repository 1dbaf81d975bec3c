"""Memory of a string's steel, estimated: Rayleigh's loops, and how much of a small swing the steel follows.

The string's law in `steel.py` is one curve, there and back. Real wire runs on loops: wide ones are near the curve, and
small ones inside it are flatter.
"""
from dataclasses import dataclass

import numpy as np
from scipy.constants import mu_0

from lessons_lib.base.checks import at_least, finite_array, not_negative, refuse
from lessons_lib.physics.steel import STRING_PLACES, STRING_WEIGHTS

_STEP = 2e-5        # m, for slopes along the height
_NEWTON = 8


@dataclass(frozen=True, kw_only=True)
class RayleighSteel:
    """Steel in weak fields: B = mu0 ((mu_i + nu Hm) H -+ nu/2 (Hm^2 - H^2)) between -Hm and Hm.

    Parameters
    ----------
    initial_permeability : float
        mu_i, 1 or above.
    constant : float
        nu, m/A, zero or above: what the permeability gains per A/m. At zero there is no loop.

    Notes
    -----
    Lord Rayleigh, Phil. Mag. 23, 225 (1887), as in R. M. Bozorth, Ferromagnetism (from memory). For fields up to about
    the coercivity; beyond it the loop is narrower than this.

    Examples
    --------
    >>> steel = RayleighSteel(initial_permeability=100.0, constant=0.1)
    >>> rising, falling = steel.branches(0.0, amplitude=500.0)
    >>> bool(falling == -rising == steel.remanence(500.0))
    True
    """

    initial_permeability: float
    constant: float

    def __post_init__(self):
        at_least(1, initial_permeability=self.initial_permeability)
        not_negative(constant=self.constant)

    def branches(self, field_strength, *, amplitude):
        """B (T) while H (A/m) rises and while it falls, of a loop from -amplitude to amplitude."""
        H = finite_array(field_strength=field_strength)
        not_negative(amplitude=amplitude)
        if (np.abs(H) > amplitude).any():
            refuse("field_strength", "within the amplitude", float(np.abs(H).max()))
        middle = (self.initial_permeability + self.constant * amplitude) * H
        half_width = self.constant / 2 * (amplitude ** 2 - H ** 2)
        return mu_0 * (middle - half_width), mu_0 * (middle + half_width)

    def remanence(self, amplitude):
        """B (T) at H = 0 after *amplitude* (A/m): mu0 nu Hm^2/2."""
        not_negative(amplitude=amplitude)
        return mu_0 * self.constant * amplitude ** 2 / 2

    def loss(self, amplitude):
        """Energy that one cycle takes, J/m3: (4/3) mu0 nu Hm^3."""
        not_negative(amplitude=amplitude)
        return 4 / 3 * mu_0 * self.constant * amplitude ** 3


def reversible_slope(share):
    """Slope of M against H when H goes back a little, as a share of the initial one.

    Parameters
    ----------
    share : array_like
        M as a share of its saturation, between -1 and 1.

    Returns
    -------
    float or ndarray

    Notes
    -----
    3 (1/x^2 - 1/sinh^2 x) with coth x - 1/x = M/Ms: the curve that R. Gans found for many steels (1910), in the form of
    W. F. Brown, Phys. Rev. 54, 279 (1938); from memory, as in Bozorth's Ferromagnetism. Measured materials keep to it
    within some 20 %; stress spreads them further.

    Examples
    --------
    >>> reversible_slope([0.0, 0.9]).round(3)
    array([1.  , 0.03])
    """
    size = np.abs(finite_array(share=share))
    if (size >= 1).any():
        refuse("share", "between -1 and 1", float(size.max()))
    x = np.maximum(size * (3 - size ** 2) / (1 - size ** 2), 1e-3)      # a rational guess for the inverse of coth x-1/x
    for _ in range(_NEWTON):
        x = np.maximum(x - (1 / np.tanh(x) - 1 / x - size) / _slope_of_langevin(x), 1e-3)
    return (3 * _slope_of_langevin(x))[()]


def _slope_of_langevin(x):
    return np.where(x < 0.05, 1 / 3 - x ** 2 / 15, 1 / x ** 2 - 1 / np.sinh(np.minimum(x, 300.0)) ** 2)


@dataclass(frozen=True, kw_only=True)
class SmallSwing:
    """What a pickup hears of a small swing, V per m/s, by what the steel does meanwhile.

    by_curve: it follows its curve there and back, as `Pickup.sensitivity` has it; carried: nothing in it changes, its
    magnetisation is carried through the coil's field; reversible: it follows along the flatter reversible slope.
    """

    by_curve: float
    carried: float
    reversible: float


def small_swing(pickup, string, *, height, y=0.0):
    """Three answers to a small swing of a plain string over a pickup, as a `SmallSwing`: an estimate with its range.

    Parameters
    ----------
    pickup : Pickup
    string : SteelString
        Without a magnetic wrap.
    height, y : float
        Of its axis, m.

    Raises
    ------
    ValueError
        For a string with a magnetic wrap.

    Notes
    -----
    Small: the swing of H in the string stays below its coercivity; one that is wide against it follows the curve. A
    small loop is flatter than the curve it hangs on, so the truth is between *carried* and *by_curve*. In *reversible*
    each place of the string follows by the reversible slope over the curve's, from the same initial permeability; how
    its change acts back on itself is not solved anew (1 % of the sensitivity: tests/test_steel_memory.py). With half
    that initial permeability the reversible part is half as large. Where the law is a straight line (saturation to
    infinity) *reversible* is *by_curve*.
    """
    if string.wrap_permeability > 1:
        refuse("wrap_permeability", "1: the estimate is for plain wire", string.wrap_permeability)

    def line(place):
        return np.stack(np.broadcast_arrays(STRING_PLACES, y, place), axis=-1)

    def at(place):
        return string.magnetise(pickup.flux_density(line(place)) / mu_0)

    answers = {up: pickup.field_per_ampere(line(height + up * _STEP)) for up in (-1, 0, 1)}
    still = at(height)
    carried = (still.linkage(answers[-1]) - still.linkage(answers[1])) / (2 * _STEP)
    change = (at(height - _STEP).magnetisation - at(height + _STEP).magnetisation) / (2 * _STEP)
    by_place = string.area * STRING_WEIGHTS * np.einsum("ij,ij->i", change, answers[0])
    return SmallSwing(carried=float(carried), by_curve=float(carried + by_place.sum()),
                      reversible=float(carried + by_place @ _shares_followed(string, still)))


def _shares_followed(string, still):
    """Reversible slope over the curve's, at each place along the string."""
    H = np.linalg.norm(still.field_strength, axis=-1)
    ratio, by_square = string.susceptibility(H)
    saturation = mu_0 * ratio * H / string.saturation
    of_curve = ratio + 2 * by_square * H ** 2
    return (string.relative_permeability - 1) * reversible_slope(saturation) / of_curve
