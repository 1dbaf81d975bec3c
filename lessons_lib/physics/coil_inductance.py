"""Inductances of the coils of `winding`: their vector potential summed along the wire."""
from functools import lru_cache

import numpy as np
from scipy.special import roots_legendre

from lessons_lib.physics.smeared_current import hyperbolic_rule


@lru_cache(maxsize=64)
def inductance(coil):
    """Inductance (H) in air of a RoundCoil or LongCoil: twice the vector potential along half of its own wire.

    Round a round coil one place stands for all.
    """
    points, steps = _half_of_the_wire(coil, *((6, 8) if coil.straight_length else (16, 1)))
    return float(2 * coil.turns * coil.winding_sense * np.sum(coil.vector_potential(points) * steps))


@lru_cache(maxsize=64)
def mutual_inductance(coil, other):
    """Mutual inductance (H) in air of two coils of winding sense 1: the vector potential of one along the other's wire.

    Kept for the next pair that lies like this one.
    """
    points, steps = _half_of_the_wire(other)
    middle = np.array([other.x, other.y, 0.0])
    turned = (points - middle) * (-1.0, -1.0, 1.0) + middle
    along = coil.vector_potential(points) - coil.vector_potential(turned)
    return float(other.turns * np.sum(along * steps))


def _half_of_the_wire(coil, section=6, along=12):
    """Points on the right straight and the upper half round, and the piece of the mean turn that each stands for.

    Gauss's rule over the section and along the wire; points and steps of shape (n, 3), m. The other half is the same
    turned by half a turn, its steps reversed.
    """
    radius, z, weight = _section_rule(coil, section)
    node, share = gauss = roots_legendre(along)
    end = coil.straight_length / 2
    upper, upper_share = hyperbolic_rule(end, 0.0, end, coil.outer_radius, gauss)   # the ends bend the integrand most
    place, length = np.concatenate([upper, -upper])[:, None], -np.concatenate([upper_share, upper_share])[:, None]
    angle, turn = np.pi / 2 * (1 + node)[:, None], np.pi / 2 * share[:, None]
    bar = _in_columns(radius + 0 * place, place + 0 * radius, z + 0 * place)
    bar_steps = _in_columns(0 * length * weight, length * weight, 0 * length * weight)
    arc = _in_columns(radius * np.cos(angle), end + radius * np.sin(angle), z + 0 * angle)
    piece = turn * radius * weight
    arc_steps = _in_columns(-piece * np.sin(angle), piece * np.cos(angle), 0 * piece)
    return np.concatenate([bar, arc]) + (coil.x, coil.y, 0.0), np.concatenate([bar_steps, arc_steps])


def _in_columns(*columns):
    return np.stack([column.ravel() for column in columns], axis=-1)


def _section_rule(coil, order):
    """Gauss's rule over the winding's section: radius, z and weights that add up to one, each of shape (n,)."""
    node, share = roots_legendre(order)
    (inner, outer), (bottom, top) = coil._section
    radius = (inner + outer) / 2 + (outer - inner) / 2 * np.repeat(node, order)
    z = (bottom + top) / 2 + (top - bottom) / 2 * np.tile(node, order)
    return radius, z, np.outer(share, share).ravel() / 4
