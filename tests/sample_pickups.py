"""Pickups and strings that tests of the whole pickup share: one rod, six rods, six steel screws on a bar."""
import math
from functools import cache

from lessons_lib.physics.magnets import BarMagnet, RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.steel import SteelPole, SteelString
from lessons_lib.physics.winding import LongCoil, RoundCoil

ROD = RodMagnet(diameter=5e-3, length=16e-3, remanence=1.0)
COIL = RoundCoil(inner_radius=3.5e-3, outer_radius=6.5e-3, bottom=-13e-3, top=-3e-3, turns=7000)
SINGLE = Pickup(poles=ROD, coils=COIL)
STRAIGHT = SteelString(diameter=0.5e-3, saturation=math.inf)
BENT = SteelString(diameter=0.5e-3)  # the law that saturates
SIX = [n * 10.2e-3 - 25.5e-3 for n in range(6)]
LONG = LongCoil(straight_length=51e-3, inner_radius=3.2e-3, outer_radius=6.2e-3, bottom=-14.5e-3, top=-2.5e-3,
                turns=7600)


@cache
def six_rods():
    return Pickup(poles=[RodMagnet(diameter=5e-3, length=17e-3, remanence=0.90, recoil_permeability=3.6, y=y)
                         for y in SIX], coils=LONG)


@cache
def screws_on_a_bar():
    bar = BarMagnet(size=(12.7e-3, 60e-3, 3.2e-3), centre=(0, 0, -18.6e-3), remanence=0.38, recoil_permeability=1.08)
    return Pickup(poles=[SteelPole(diameter=4.8e-3, length=17e-3, relative_permeability=500, y=y) for y in SIX],
                  coils=LONG, bars=bar)
