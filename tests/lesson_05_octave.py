"""What tests of lesson 5 share: the open string VI at the house places, and what the octave does to it."""
from lessons_lib.lessons.lesson_05.model import HOUSE, fret_measures

OCTAVE = {"fret": 12, **HOUSE}


def octave(rule, hand, measure="peak"):
    return fret_measures(rule=rule, hand=hand, **OCTAVE).times_open("velocity", measure)
