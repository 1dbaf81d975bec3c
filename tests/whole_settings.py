"""Settings from which tests of the whole pickup start, and both ends of every slider."""
import math
from dataclasses import fields, replace

from lessons_lib.base.units import unit_of
from lessons_lib.lessons.whole_pickup.model import whole_pickup
from lessons_lib.lessons.whole_pickup.settings import OWN, RANGES, Settings

START = Settings()
OWN_MAGNET, OWN_STRING = replace(START, grade=OWN), replace(START, string=OWN)


def of(start=START, **change):
    return whole_pickup(replace(start, **change))


def in_si(name, value):
    value = {"volume": 1e3, "tone": 1e3}.get(name, value) if math.isinf(value) else value      # kΩ
    return int(value) if name in ("turns", "gauge", "fret") else value * unit_of(RANGES[name][0]).factor


def start_of(name):
    """Settings in which a slider has an effect."""
    return OWN_MAGNET if name in ("remanence", "recoil_permeability") else OWN_STRING if name in (
        "frequency", "string_diameter", "core", "linear_density") else START


SLIDERS = {field.name for field in fields(Settings)} & RANGES.keys()
ENDS = [(start_of(name), name, end) for name in sorted(SLIDERS) for end in RANGES[name][1:]
        if in_si(name, end) != getattr(START, name)]
