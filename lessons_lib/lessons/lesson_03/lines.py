"""The cut through the string over the instrument's rod, with the string and without it."""
from functools import lru_cache

import numpy as np

from lessons_lib.lessons.flux_cut import (
    FRAME,
    StringInCut,
    both_sides,
    lines_with,
    lines_without,
    rod_field,
    seeds_of_rod,
)
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03.model import magnetised
from lessons_lib.physics.steel import STRING_PLACES


@lru_cache(maxsize=64)
def cut(*, height, place, core, permeability, saturates, instrument=house_instrument):
    """What StringCut.update and FluxAlongString.update take."""
    inside = magnetised(height=height, place=place, core=core, permeability=permeability, saturates=saturates,
                        instrument=instrument)
    field, seeds = rod_field(instrument.rod, place), seeds_of_rod(instrument.rod)
    up, down = lines_without(field, tuple(seeds), place > instrument.rod.diameter / 2)
    through = lines_with(field, seeds, StringInCut(inside, height))
    near = np.abs(STRING_PLACES) < FRAME["half_width"]
    return {"cut": {"with_string": both_sides(down, through), "without": both_sides(down, up), "height": height,
                    "core": core, "place": place},
            "along": {"x": STRING_PLACES[near], "flux": inside.flux()[near]}}
