"""What a magnetised string does to the magnet under it: its own field there, and the magnet's answer."""
import numpy as np
from scipy.constants import mu_0, pi
from scipy.special import roots_legendre

from lessons_lib.base.checks import finite, points_in_space, refuse
from lessons_lib.physics.magnetised import as_rod
from lessons_lib.physics.magnets import RodMagnet  # noqa: F401  (what the functions here take)
from lessons_lib.physics.steel import STRING_PLACES, STRING_WEIGHTS, SteelString, string_line  # noqa: F401
from lessons_lib.physics.surface_currents import magnetise

_AT_ONCE = 4096     # points at a time


def string_field(magnetised, points, *, height, y=0.0):
    """B (T) of a string's magnetisation, at a distance from it.

    Parameters
    ----------
    magnetised : MagnetisedString
        One string, of shape (nodes, 3).
    points : array_like, shape (..., 3)
        m; a millimetre or more from the string's axis.
    height, y : float
        Place (m) of the string's axis; its middle is at x = 0.

    Returns
    -------
    ndarray, shape (..., 3), T

    Notes
    -----
    Every piece of the string is a point dipole. The pieces are 0.5 mm long over the pole: a millimetre away their sum
    is that of the smooth string to 1e-4. Against short magnets in a row: tests/test_string_answer.py.

    Examples
    --------
    >>> string = SteelString(diameter=0.5e-3)
    >>> unmagnetised = string.magnetise(np.zeros((len(STRING_PLACES), 3)))
    >>> string_field(unmagnetised, [0.0, 0.0, 0.0], height=2e-3).tolist()
    [0.0, 0.0, 0.0]
    """
    points = points_in_space(points)
    finite(height=height, y=y)
    flat = points.reshape(-1, 3)
    moments = magnetised.magnetisation * (magnetised.string.area * STRING_WEIGHTS)[:, None]
    places = string_line(height=height, y=y)
    batches = np.split(flat, range(_AT_ONCE, len(flat), _AT_ONCE))
    return np.concatenate([_dipoles(batch, places, moments) for batch in batches]).reshape(points.shape)


def _dipoles(points, places, moments):
    away = points[:, None, :] - places
    inverse_square = 1 / np.einsum("pnk,pnk->pn", away, away)
    inverse_cube = inverse_square * np.sqrt(inverse_square)
    along = 3 * inverse_cube * inverse_square * np.einsum("pnk,nk->pn", away, moments)
    return mu_0 / (4 * pi) * (np.einsum("pn,pnk->pk", along, away) - inverse_cube @ moments)


def added_midplane_flux(rod, string, *, height, y=0.0):
    """How much a string laid over a rod magnet changes the flux through the middle of the rod.

    Parameters
    ----------
    rod : RodMagnet
        Alone, at x = 0.
    string : SteelString
    height, y : float
        Place (m) of the string's axis: above z = 0, and across.

    Returns
    -------
    float
        Wb, positive upward.

    Raises
    ------
    ValueError
        For a string nearer to the rod's face than a millimetre, or a place that is not a finite number.

    Notes
    -----
    The rod magnetises the string; the string's field is put on the rod, which answers with its recoil permeability;
    string's field and answer are counted through the round section in the rod's middle. What the answer does to the
    string again is left out (about 1 %). The same computation gives a coil's linkage in agreement with reciprocity to
    0.1 %, and the flux through a ring round the rod to 1.5 % (tests/test_string_answer.py).

    Examples
    --------
    >>> rod = RodMagnet(diameter=5e-3, length=17e-3, remanence=0.75, recoil_permeability=3.6)
    >>> near, far = (added_midplane_flux(rod, SteelString(diameter=0.46e-3), height=h) for h in (2e-3, 4e-3))
    >>> near > far > 0
    True
    """
    finite(height=height, y=y)
    if height - rod.top < 1e-3:
        refuse("height", "a millimetre above the rod's face, or more", height)
    magnetised = string.magnetise(rod.field_strength(string_line(height=height, y=y)))
    answer = answer_of_rod(rod, magnetised, height=height, y=y)
    middle = rod.top - rod.length / 2
    return (float(answer.section_flux(0, rod.diameter / 2, middle))
            + disc_flux(answer.applied_field, rod.diameter / 2, (rod.x, rod.y, middle)) * mu_0)


def answer_of_rod(rod, magnetised, *, height, y=0.0):
    """The magnetisation that the field of a magnetised string adds to a rod, as MagnetisedRods."""
    return magnetise([as_rod(rod, steady=False)],
                     lambda points: string_field(magnetised, points, height=height, y=y) / mu_0)


def disc_flux(field, radius, middle):
    """Integral of the upward part of a smooth field over a level disc, by Gauss circles."""
    node, share = roots_legendre(4)
    rho, angle = radius * np.sqrt((1 + node) / 2), 2 * pi * np.arange(8) / 8
    offsets = np.stack([np.outer(rho, np.cos(angle)), np.outer(rho, np.sin(angle)), np.zeros((4, 8))], axis=-1)
    return float(pi * radius ** 2 * share / 2 @ field(np.array(middle) + offsets)[..., 2].mean(axis=-1))
