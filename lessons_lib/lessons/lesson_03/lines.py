"""The flux that the string of lesson 3 carries, in pictures: at rest, and swinging."""
from functools import lru_cache

import numpy as np
from scipy.constants import pi
from scipy.interpolate import CubicSpline

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03.model import ALONG, SWING, magnetised
from lessons_lib.lessons.string_lines import StringInSpace, lines_through, one_path
from lessons_lib.physics.steel import STRING_PLACES

TUBES = (25e-9, 50e-9, 100e-9, 250e-9, 1e-6)      # Wb from one line to the next
MOST_LINES = 20         # to each side, with a tube that follows the steel alone: nearer is always more lines


def tube_for(*, core, permeability, saturates, instrument=house_instrument):
    """Flux (Wb) from one line to the next for a steel, by what it carries when it is nearest to the pole."""
    most = np.abs(magnetised(height=1.5e-3, place=0.0, core=core, permeability=permeability, saturates=saturates,
                             instrument=instrument).flux()).max()
    return next((tube for tube in TUBES if most <= MOST_LINES * tube), TUBES[-1])


@lru_cache(maxsize=64)
def views(*, height, place, core, permeability, saturates, instrument=house_instrument):
    """What StringOverRod.update takes, and the flux (Wb) along the string at places x (m)."""
    steel = {"core": core, "permeability": permeability, "saturates": saturates, "instrument": instrument}
    inside, tube = magnetised(height=height, place=place, **steel), tube_for(**steel)
    *through, towards = lines_through(instrument.rod, StringInSpace(inside, height=height, place=place), tube)
    x, _, z = np.concatenate([one_path(lines) for lines in through], axis=1)
    return {"views": {"lines": (np.concatenate([x, -x]), np.concatenate([z, z])), "towards": one_path(towards)[1:],
                      "height": height, "core": core, "place": place, "tube": tube},
            "along": (ALONG, CubicSpline(STRING_PLACES, inside.flux())(ALONG))}


def picture(gains, **values):
    """The views at rest, with the flux that a turn gains while the string swings: share of a period, Wb, and now."""
    share = np.linspace(0, 1, 49)
    swing = share, gains(np.sin(2 * pi * share))
    return views(**values) | {"swing": swing, "now": (0.0, float(gains(0.0)))}


def swinging(gains, *, height, frames=24, **values):
    """A period of the string's swing, a picture a frame: half of them and one are different."""
    share = np.arange(frames) / frames
    at_rest = picture(gains, height=height, **values)
    return [views(height=round(height + SWING * place, 9), **values) | {
        "swing": at_rest["swing"], "now": (now, float(gains(place)))}
        for now, place in zip(share, np.sin(2 * pi * share).round(9))]
