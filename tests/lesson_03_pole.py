"""What tests of lesson 3 share: one rod of the workshop in its coil, string VI above, and the workshop's six rods."""
import numpy as np

from lessons_lib.base.workshop import house_coil, house_magnet, house_place, house_strings
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03.model import one_pole
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.steel import SteelString
from lessons_lib.physics.winding import LongCoil

PICKUP, ROD = one_pole(house_instrument), house_instrument.rod
STRING = {"place": 0.0, "core": 0.46e-3, "permeability": 100.0, "saturates": 1}
WIRE = SteelString(diameter=0.46e-3)
SIX = SteelString(diameter=house_strings["VI"]["core"])


def six_rods():
    return [RodMagnet(**house_magnet, y=y) for y in house_place["string_y"]]


def cross_section_exponent(height, saturation=1.9):
    """Of the diameter in the slope S of plain strings over the third pole of the workshop's six, 0.23 to 0.61 mm."""
    pickup, y = Pickup(poles=six_rods(), coils=LongCoil(**house_coil)), house_place["string_y"][3]
    diameters = np.array([0.23, 0.28, 0.33, 0.43, 0.52, 0.61]) * 1e-3
    slopes = [pickup.sensitivity(SteelString(diameter=d, saturation=saturation), height=height, y=y) for d in diameters]
    return np.polyfit(np.log(diameters), np.log(slopes), 1)[0]
