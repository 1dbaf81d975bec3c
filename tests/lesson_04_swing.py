"""What tests of lesson 4 share: string III over its pole, swinging upright or sideways."""
import math

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_04.model import swing

STRING, POLE_Y = house_instrument.steel_of("III"), house_instrument.y_of("III")
UPRIGHT = {"height": 2.5e-3, "offset": 0.0, "direction": 0.0, "amplitude": 0.6e-3, "frequency": 200.0, "turns": 7600}


def sideways(**change):
    return swing(**UPRIGHT | {"direction": math.pi / 2} | change)
