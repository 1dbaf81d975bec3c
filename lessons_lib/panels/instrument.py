"""The instrument that the panels show: one's own where a file names it, else the workshop's (`base.own_instrument`)."""
from dataclasses import replace
from functools import lru_cache

from lessons_lib.base.own_instrument import in_use
from lessons_lib.base.workshop import house_coil, house_magnet, house_small_coil, house_strings
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.plucked_string import TunedString
from lessons_lib.physics.six_strings import in_a_row, workshop_row
from lessons_lib.physics.winding import LongCoil

_SHOWN = in_use().instrument
shown_magnet, shown_coil, shown_gauge = _SHOWN.magnet, _SHOWN.coil, _SHOWN.gauge
shown_strings, shown_place = _SHOWN.strings, _SHOWN.place
# a coil for each string alone, wide enough for the rod
shown_small_coil = {**house_small_coil,
                    "inner_radius": max(house_small_coil["inner_radius"], shown_magnet["diameter"] / 2 + 1e-4)}


def in_mm(metres):
    """A length of the instrument as a slider begins with it.

    Examples
    --------
    >>> in_mm(5e-3)
    5.0
    """
    return round(metres * 1e3, 4)


@lru_cache(maxsize=1)
def stronger():
    """By how much the rod's field 1 mm above it is larger than the workshop's, 1 where it is not: axes grow with it."""
    if shown_magnet == house_magnet:
        return 1.0
    own, house = (RodMagnet(**magnet).flux_density((0.0, 0.0, 1e-3))[2] for magnet in (shown_magnet, house_magnet))
    return max(1.0, float(own / house))


def louder():
    """By how much a coil's axes grow: with the field, and with turns and steel of string III where these are more."""
    turns = shown_coil["turns"] / house_coil["turns"]
    steel = (shown_strings["III"]["core"] / house_strings["III"]["core"]) ** 2
    return stronger() * max(1.0, turns) * min(max(1.0, steel), 2.0)      # thicker steel has a smaller field inside


def tension(name):
    """Tension (N) of one of the strings at its pitch."""
    string = shown_strings[name]
    return (2 * shown_place["scale_length"] * string["frequency"]) ** 2 * string["linear_density"]


def shown_string(name):
    """One of the strings as it is, with its stiffness and its (assumed) decay, open, as a TunedString."""
    row = shown_strings[name]
    return TunedString.tuned(frequency=row["frequency"], length=shown_place["scale_length"],
                             linear_density=row["linear_density"], core_diameter=row["core"])


@lru_cache(maxsize=1)
def shown_pickup():
    """A rod under each of the six strings, in the long coil; kept, with all that it has worked out."""
    return Pickup(poles=in_a_row(RodMagnet(**shown_magnet), shown_place["string_y"]), coils=LongCoil(**shown_coil))


def shown_winding(turns):
    """So many turns in the long coil's window, as a LongCoil."""
    return replace(LongCoil(**shown_coil), turns=turns)


@lru_cache(maxsize=1)
def _inductance():
    return shown_pickup().inductance()


def shown_inductance(turns=shown_coil["turns"]):
    """Inductance (H) of the long coil with its six rods, with so many turns in its window: as the square of the turns.

    Examples
    --------
    >>> round(shown_inductance(8000) / shown_inductance(4000), 6)
    4.0
    """
    return _inductance() * (turns / shown_coil["turns"]) ** 2


def shown_row(*, third="III"):
    """The six strings, VI first, each over its own pole, as `workshop_row` gives them."""
    return workshop_row(third=third, height=shown_place["string_height"], strings=shown_strings, place=shown_place)
