"""The flux that the string of lesson 3 carries, in pictures: at rest, and swinging."""
from functools import lru_cache

import numpy as np
from scipy.constants import pi
from scipy.interpolate import CubicSpline

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03.model import ALONG, SWING, gains_of_a_swing, magnetised
from lessons_lib.lessons.string_lines import StringInSpace, lines_through, one_path
from lessons_lib.physics.steel import STRING_PLACES

TUBES = (25e-9, 50e-9, 100e-9, 250e-9, 1e-6)      # Wb from one line to the next
MOST_LINES = 20         # to each side, with a tube that follows the steel alone: nearer is always more lines


def tube_for(*, instrument=house_instrument, **steel):
    """Flux (Wb) from one line to the next for a steel, by what it carries when it is nearest to the pole."""
    most = np.abs(magnetised(height=1.5e-3, instrument=instrument, **steel).flux()).max()
    return next((tube for tube in TUBES if most <= MOST_LINES * tube), TUBES[-1])


def to_both_sides(*lines):
    """Lines (3, n, steps) to the right as one path seen from the side, and the same to the left: x and z (m)."""
    x, _, z = np.concatenate([one_path(part) for part in lines], axis=1)
    return np.concatenate([x, -x]), np.concatenate([z, z])


@lru_cache(maxsize=64)
def _views(*, height, place, instrument, **steel):
    """What StringOverRod.update takes, and the flux (Wb) along the string at places x (m)."""
    inside = magnetised(height=height, place=place, instrument=instrument, **steel)
    tube = tube_for(instrument=instrument, **steel)
    *through, towards = lines_through(instrument.rod, StringInSpace(inside, height=height, place=place), tube)
    return {"views": {"lines": to_both_sides(*through), "towards": one_path(towards)[1:], "height": height,
                      "core": steel["core"], "place": place, "tube": tube},
            "along": (ALONG, CubicSpline(STRING_PLACES, inside.flux())(ALONG))}


def pictures(*, height, shares=(0.0,), instrument=house_instrument, **values):
    """The views at *shares* of a period of the swing (at 0 the string is at rest), with the flux that a turn gains.

    Returns
    -------
    list of dict
        views, along; swing and now: share of a period and Wb, all of a period and at this moment.
    """
    gains = gains_of_a_swing(height=height, instrument=instrument, **values)
    period = np.linspace(0, 1, 49)
    swing = period, gains(np.sin(2 * pi * period))
    return [_views(height=round(height + SWING * place, 9), instrument=instrument, **values)
            | {"swing": swing, "now": (share, gains(place))}
            for share, place in zip(shares, np.sin(2 * pi * np.asarray(shares)).round(9))]
