"""Coils that tests of a winding share: the house coil, a round one, a thin one, a loop."""
from lessons_lib.base.workshop import house_coil
from lessons_lib.physics.winding import LongCoil, RoundCoil

HOUSE = LongCoil(**house_coil)
ROUND = RoundCoil(inner_radius=3.5e-3, outer_radius=6.5e-3, bottom=-13e-3, top=-3e-3, turns=7000)


def thin(radius, length, turns=1, *, middle=0.0, thickness=1e-6):
    half = thickness * radius / 2
    return RoundCoil(inner_radius=radius - half, outer_radius=radius + half, bottom=middle - length / 2,
                     top=middle + length / 2, turns=turns)


def loop(radius, height):
    """A coil so thin that it is a single loop: its section moves a mutual inductance by (1e-4)^2."""
    return thin(radius, 1e-4 * radius, middle=height, thickness=1e-4)
