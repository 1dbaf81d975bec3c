"""What a magnetised string does to the magnet under it: its own field there, and the magnet's answer."""
import numpy as np
from scipy.constants import mu_0, pi
from scipy.special import roots_legendre

from lessons_lib.physics.steel import STRING_PLACES, STRING_WEIGHTS
from lessons_lib.physics.surface_currents import Rod, magnetise

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
    is that of the smooth string to 1e-5.
    """
    points = np.asarray(points, dtype=float)
    flat = points.reshape(-1, 3)
    moments = magnetised.magnetisation * (magnetised.string.area * STRING_WEIGHTS)[:, None]
    places = np.stack([STRING_PLACES, np.full_like(STRING_PLACES, y), np.full_like(STRING_PLACES, height)], axis=-1)
    batches = np.split(flat, range(_AT_ONCE, len(flat), _AT_ONCE))
    return np.concatenate([_dipoles(batch, places, moments) for batch in batches]).reshape(points.shape)


def _dipoles(points, places, moments):
    away = points[:, None, :] - places
    inverse_square = 1 / np.einsum("pnk,pnk->pn", away, away)
    inverse_cube = inverse_square * np.sqrt(inverse_square)
    along = 3 * inverse_cube * inverse_square * np.einsum("pnk,nk->pn", away, moments)
    return mu_0 / (4 * pi) * (np.einsum("pn,pnk->pk", along, away) - inverse_cube @ moments)


def added_midplane_flux(rod, magnetised, *, height, y=0.0):
    """How much a string changes the flux through the middle of a rod magnet that stands at x = 0, Wb.

    Parameters
    ----------
    rod : RodMagnet
        On its recoil line; only its shape, place and recoil permeability count.
    magnetised : MagnetisedString
        Magnetised by the rod without the change that is asked here.
    height, y : float
        Place (m) of the string's axis.

    Returns
    -------
    float
        Wb, positive upward.

    Notes
    -----
    The string's field is put on the rod; the rod answers with its recoil permeability; both are counted through the
    round section in the rod's middle. What the rod's answer does to the string again is left out (1 %).
    Checked by reciprocity, with a search coil round the rod, in tests/test_string_answer.py.
    """
    def field(points):
        return string_field(magnetised, points, height=height, y=y)

    body = Rod(diameter=rod.diameter, length=rod.length, relative_permeability=rod.recoil_permeability, x=rod.x,
               y=rod.y, top=rod.top)
    answer = magnetise([body], lambda points: field(points) / mu_0)
    middle = rod.top - rod.length / 2
    own = float(answer.section_flux(0, rod.diameter / 2, middle))
    return own + _disc_flux(field, rod, middle)


def _disc_flux(field, rod, height):
    """Flux of a smooth field through the rod's section at a height, by Gauss circles."""
    node, share = roots_legendre(4)
    radius, angle = rod.diameter / 2 * np.sqrt((1 + node) / 2), 2 * pi * np.arange(8) / 8
    points = np.stack([rod.x + np.outer(radius, np.cos(angle)), rod.y + np.outer(radius, np.sin(angle)),
                       np.full((4, 8), height)], axis=-1)
    return float(pi * rod.diameter ** 2 / 4 * share / 2 @ field(points)[..., 2].mean(axis=-1))
