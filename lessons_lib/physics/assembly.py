"""Does it fit? Poles, bars and windings of a pickup apart from each other, and the string clear of all of them.

All are upright: from above a pole is a circle, a winding the ring between two stadiums along y, a bar a rectangle.
"""
from typing import NamedTuple

import numpy as np

from lessons_lib.base.checks import finite_array, refuse

_ROUNDING = 1e-9  # m: faces may touch


def check_fit(poles, coils, bars):
    """Raise ValueError, naming the two bodies, where a pickup's parts overlap or a coil rises above z = 0."""
    for number, coil in enumerate(coils):
        if coil.top > _ROUNDING:
            refuse("coils", "below z = 0, the top of the coil form", f"coil {number} with its top at {coil.top} m")
    parts = [(kind, number, _body(part)) for kind, several in (("pole", poles), ("bar", bars), ("coil", coils))
             for number, part in enumerate(several)]
    for place, (kind, number, part) in enumerate(parts):
        for other_kind, other_number, other in parts[:place]:
            if _overlap(part, other):
                pair = (f"{kind}s {other_number} and {number}" if kind == other_kind
                        else f"{kind} {number} and {other_kind} {other_number}")
                refuse(f"{kind}s", "clear of the other parts", f"{pair} in the same place")


def check_clear(pickup, string, height, y):
    """Return height and y as arrays; raise ValueError where the string meets the coil form, a pole or a bar."""
    height, y = np.broadcast_arrays(*finite_array(height=height, y=y))
    floor = np.zeros(height.shape)
    for body in map(_body, (*pickup.poles, *pickup.bars)):
        over = abs(y - body.middle[1]) < body.half[1] + body.radius + string.outer_radius
        floor = np.where(over, np.maximum(floor, body.top), floor)
    low = height - string.outer_radius < floor - _ROUNDING
    if low.any():
        rule = "the string's axis, its lower side clear of the coil form (z = 0), the poles and the bars"
        refuse("height", rule, float(height[low][0]))
    return height, y


class _Body(NamedTuple):
    """From above all that is within *radius* of a rectangle (its middle, half its edges), but for its *bore*; m."""

    middle: np.ndarray
    half: np.ndarray
    radius: float
    bore: float
    bottom: float
    top: float


def _body(part):
    """A pole, a bar or a coil as a `_Body`."""
    if hasattr(part, "size"):
        middle, half = np.array(part.centre), np.array(part.size) / 2
        return _Body(middle[:2], half[:2], 0.0, 0.0, middle[2] - half[2], middle[2] + half[2])
    middle = np.array([part.x, part.y])
    if hasattr(part, "bottom"):
        half = np.array([0.0, part.straight_length / 2])
        return _Body(middle, half, part.outer_radius, part.inner_radius, part.bottom, part.top)
    return _Body(middle, np.zeros(2), part.diameter / 2, 0.0, part.top - part.length, part.top)


def _overlap(one, other):
    """Whether two bodies are in the same place; one in the bore of the other is not."""
    if min(one.top, other.top) - max(one.bottom, other.bottom) <= _ROUNDING:
        return False
    apart = np.abs(one.middle - other.middle)
    gap = apart - one.half - other.half
    nearest = np.hypot(*np.maximum(gap, 0.0)) + min(0.0, gap.max())
    in_bore = [np.hypot(*np.maximum(apart + inner.half - outer.half, 0.0)) + inner.radius <= outer.bore + _ROUNDING
               for inner, outer in ((one, other), (other, one)) if outer.bore]
    return nearest < one.radius + other.radius - _ROUNDING and not any(in_bore)
