"""What tests of lesson 3 share: one rod of the workshop in its coil, string VI above, and the workshop's six rods."""
from lessons_lib.base.workshop import house_magnet, house_place, house_strings
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03.model import one_pole
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.steel import SteelString

PICKUP, ROD = one_pole(house_instrument), house_instrument.rod
STRING = {"place": 0.0, "core": 0.46e-3, "permeability": 100.0, "saturates": 1}
WIRE = SteelString(diameter=0.46e-3)
SIX = SteelString(diameter=house_strings["VI"]["core"])


def six_rods():
    return [RodMagnet(**house_magnet, y=y) for y in house_place["string_y"]]
