"""Does it fit? Poles, bars and windings of a pickup apart from each other, and the string clear of all of them.

From above a pole is a circle, a winding the ring between two stadiums (a line along y with a half round at each end),
a bar a rectangle. All stand upright, so two bodies touch only where their heights overlap, too.
"""
import math
from itertools import combinations

import numpy as np

from lessons_lib.base.checks import finite_array, refuse

_ROUNDING = 1e-9  # m: faces may touch


def check_fit(poles, coils, bars):
    """Raise ValueError, naming the two bodies, where a pickup's parts overlap or a coil rises above z = 0."""
    for number, coil in enumerate(coils):
        if coil.top > _ROUNDING:
            refuse("coils", "below z = 0, the top of the coil form", f"coil {number} with its top at {coil.top} m")
    for (i, one), (j, other) in combinations(enumerate(poles), 2):
        _refuse_if(math.hypot(one.x - other.x, one.y - other.y) < (one.diameter + other.diameter) / 2 - _ROUNDING,
                   one, other, "poles", f"poles {i} and {j}")
    for i, coil in enumerate(coils):
        for j, pole in enumerate(poles):
            _refuse_if(_cuts(coil, pole, pole.diameter / 2), coil, pole, "coils", f"coil {i} and pole {j}")
        for j, other in enumerate(coils[:i]):
            cut = _cuts(coil, other, other.outer_radius) and _cuts(other, coil, coil.outer_radius)
            _refuse_if(cut, coil, other, "coils", f"coils {j} and {i}")
        for j, bar in enumerate(bars):
            _refuse_if(_cuts_bar(coil, bar), coil, bar, "coils", f"coil {i} and bar {j}")
    for i, bar in enumerate(bars):
        for j, pole in enumerate(poles):
            gap = math.hypot(*_outside(bar, pole.x, pole.y))
            _refuse_if(gap < pole.diameter / 2 - _ROUNDING, bar, pole, "bars", f"bar {i} and pole {j}")
        for j, other in enumerate(bars[:i]):
            apart = np.abs(np.subtract(bar.centre, other.centre)) - np.add(bar.size, other.size) / 2
            _refuse_if((apart[:2] < -_ROUNDING).all(), bar, other, "bars", f"bars {j} and {i}")


def check_clear(pickup, string, height, y):
    """Return height and y as arrays; raise ValueError where the string meets the coil form, a pole or a bar."""
    height, y = np.broadcast_arrays(*finite_array(height=height, y=y))
    bodies = [(abs(y - pole.y) < pole.diameter / 2 + string.outer_radius, pole) for pole in pickup.poles]
    bodies += [(abs(y - bar.centre[1]) < bar.size[1] / 2 + string.outer_radius, bar) for bar in pickup.bars]
    floor = np.zeros(height.shape)
    for over, body in bodies:
        floor = np.where(over, np.maximum(floor, _heights(body)[1]), floor)
    low = height - string.outer_radius < floor - _ROUNDING
    if low.any():
        rule = "the string's axis, its lower side clear of the coil form (z = 0), the poles and the bars"
        refuse("height", rule, float(height[low][0]))
    return height, y


def _heights(body):
    """Bottom and top (m) of a pole, a coil or a bar."""
    if hasattr(body, "size"):
        return body.centre[2] - body.size[2] / 2, body.centre[2] + body.size[2] / 2
    return (body.bottom if hasattr(body, "bottom") else body.top - body.length), body.top


def _refuse_if(overlap_from_above, one, other, name, pair):
    (bottom, top), (other_bottom, other_top) = _heights(one), _heights(other)
    if overlap_from_above and min(top, other_top) - max(bottom, other_bottom) > _ROUNDING:
        refuse(name, "clear of the other parts", f"{pair} in the same place")


def _half_line(body):
    return getattr(body, "straight_length", 0.0) / 2


def _cuts(coil, body, radius):
    """Whether a round or stadium-shaped body meets the ring of a winding, seen from above."""
    x, y = abs(body.x - coil.x), abs(body.y - coil.y)
    nearest = math.hypot(x, max(0.0, y - _half_line(coil) - _half_line(body)))
    farthest = math.hypot(x, max(0.0, y + _half_line(body) - _half_line(coil)))
    return nearest < coil.outer_radius + radius - _ROUNDING and farthest + radius > coil.inner_radius + _ROUNDING


def _outside(bar, x, y):
    """How far (m) a place is outside of a bar, along x and along y; zero inside."""
    return (max(0.0, abs(x - bar.centre[0]) - bar.size[0] / 2), max(0.0, abs(y - bar.centre[1]) - bar.size[1] / 2))


def _cuts_bar(coil, bar):
    """Whether a bar meets the ring of a winding, seen from above."""
    x, y = abs(bar.centre[0] - coil.x), abs(bar.centre[1] - coil.y)
    half_x, half_y = bar.size[0] / 2, bar.size[1] / 2
    nearest = math.hypot(max(0.0, x - half_x), max(0.0, y - half_y - _half_line(coil)))
    farthest = math.hypot(x + half_x, max(0.0, y + half_y - _half_line(coil)))
    return nearest < coil.outer_radius - _ROUNDING and farthest > coil.inner_radius + _ROUNDING
