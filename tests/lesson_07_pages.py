"""What tests of lesson 7 share: levels, bends and coils of the pickups that its page compares."""
import math
from functools import lru_cache

from lessons_lib.base.wire import magnet_wire
from lessons_lib.base.workshop import ROW, house_bar, house_place, house_strings
from lessons_lib.lessons.lesson_07.joined import flux_near, joined
from lessons_lib.lessons.lesson_07.model import BEND, bell_width, pickup, raised, string_levels
from lessons_lib.lessons.lesson_07.pair import ASIDE, what_it_costs
from lessons_lib.physics.magnetic_circuit import reluctance
from lessons_lib.physics.plucked_string import TunedString
from lessons_lib.physics.six_strings import workshop_row
from lessons_lib.physics.steel import SteelString

SCREW, ROD = (raised(kind=kind, number=2, raised=1e-3, look=2.5e-3) for kind in ("screws", "rods"))
HEIGHT, HALF = house_place["string_height"], BEND / 2
PLAIN, WOUND = (string_levels(kind="rods", third=third) for third in ("III", "III wound"))
WIDE, LONG, THICK = house_bar["size"]
BAR = reluctance(length=THICK, area=WIDE * LONG, relative_permeability=house_bar["recoil_permeability"])


def db(ratio):
    return 20 * math.log10(ratio)


def shared(bar, leak=90e6, branch=700e6, drop=0.3):
    """Change of the other five branches: nodes and loops written out by hand."""
    def mmf(one):
        beside = 1 / (1 / leak + 5 / branch + 1 / one)
        return beside / (bar + beside)
    return mmf(branch * (1 - drop)) / mmf(branch) - 1


def bell(name, bend):
    return -db(math.exp((bend / bell_width(name)) ** 2))


def lowered(kind, by):
    return db(string_levels(kind=kind, III=-by).pulses[3] / string_levels(kind=kind).pulses[3])


@lru_cache
def magnetic_wrap(permeability):
    """Gain of VI, V and IV (dB) over rods when the bronze of their wraps becomes steel of this permeability."""
    gains = []
    for name, string in zip(ROW[:3], workshop_row()):
        steel = SteelString(diameter=house_strings[name]["core"], wrap_diameter=house_strings[name]["diameter"],
                            wrap_permeability=permeability)
        heard = pickup("rods").sensitivity(steel, height=HEIGHT, y=string.y)
        gains.append(db(heard / pickup("rods").sensitivity(string.steel, height=HEIGHT, y=string.y)))
    return gains


def flexible_fourth():
    row = house_strings["IV"]
    return TunedString.tuned(frequency=row["frequency"], length=house_place["scale_length"],
                             linear_density=row["linear_density"], decay_up=0.0, decay_across=0.0, decay_growth=0.0)


def spikes():
    """RMS of two flexible strings' rectangles, one coil's less the other's, over that of one, dB: each of two pulses a
    period is twice the plucking place long, and its two edges leave spikes as long as the coils are apart."""
    return db(math.sqrt(2 * 2 * ASIDE / (2 * house_place["pluck_place"])))


LONG_COIL = joined(coils="long", sounding="one", turns=7600)
SIX = {held: joined(coils=held, sounding="one", turns=7600) for held in ("each", "all", "wire", "output")}
WIRE = magnet_wire(awg=44)
ONE_ROD, SIX_RODS = (flux_near(kind) for kind in ("one", "six"))

COST = {row.name: row for row in what_it_costs()}
