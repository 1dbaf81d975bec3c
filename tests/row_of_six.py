"""Six strings over six poles: the workshop's rods and screws, and a stand-in whose levels have closed forms."""
from dataclasses import dataclass
from functools import cache

import numpy as np

from lessons_lib.base.workshop import house_bar, house_coil, house_magnet, house_place, house_screw, house_small_coil
from lessons_lib.physics.magnets import BarMagnet, RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.six_strings import in_a_row, workshop_row
from lessons_lib.physics.steel import SteelPole
from lessons_lib.physics.winding import LongCoil, RoundCoil

PLACES = house_place["string_y"]
LONG = LongCoil(**house_coil)
SMALL = RoundCoil(**house_small_coil)
ROW = workshop_row()


@cache
def rods(coils=LONG):
    return Pickup(poles=in_a_row(RodMagnet(**house_magnet), PLACES), coils=coils)


@cache
def screws(top=0.0):
    return Pickup(poles=in_a_row(SteelPole(**house_screw), PLACES, [top] * 6), coils=LONG, bars=BarMagnet(**house_bar))


# --- a stand-in with closed forms

DELTA, LEAK = 3e-3, 0.1


@dataclass(frozen=True)
class Exponential:
    """Each string hears its own pole as exp(-gap/delta), and the neighbours' as a tenth of that."""

    poles: tuple

    def sensitivity(self, string, *, height, y=0.0):
        apart = np.abs(np.asarray(y)[..., None] - [pole.y for pole in self.poles])
        share = np.where(apart < 1e-3, 1.0, np.where(apart < 11e-3, LEAK, 0.0))
        return string.area * share @ np.exp(-(height - np.array([pole.top for pole in self.poles])) / DELTA)


@dataclass(frozen=True)
class Post:
    y: float
    top: float = 0.0


POSTS = Exponential(poles=in_a_row(Post(0.0), PLACES))
