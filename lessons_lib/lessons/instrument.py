"""The instrument that the panels show, with the parts it describes: an own one (`own_instrument`) or the house's.

A panel takes the one in use when it is called; a plain function of numbers takes the house's unless it is given one.
"""
from dataclasses import fields, replace
from functools import cache, cached_property, lru_cache

from lessons_lib.base.materials import magnet_grade
from lessons_lib.base.units import in_unit
from lessons_lib.base.wire import magnet_wire
from lessons_lib.base.workshop import ROW, house_coil, house_magnet, house_small_coil, house_strings
from lessons_lib.lessons.own_instrument import InstrumentRecord, house_record, in_use
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.eddy_currents import metal_of
from lessons_lib.physics.magnets import RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.plucked_string import TunedString
from lessons_lib.physics.six_strings import in_a_row, workshop_row
from lessons_lib.physics.steel import SteelString
from lessons_lib.physics.winding import LongCoil, RoundCoil

PLECTRUM, LISTENS = 1e-3, 10e-3     # m of string under a plectrum and over a pickup; assumed
HIGHEST_PARTIAL = 10e3              # Hz, of a pluck that is heard


def alloy_by(recoil_permeability):
    """The grade that a rod is taken for of which only this is known: alnico 5 from 2 on, else ferrite."""
    return "alnico 5" if recoil_permeability >= 2.0 else "ferrite"


class Instrument(InstrumentRecord):
    """An instrument's record and its parts, each made once and kept; hashable, so that a cache is keyed by it.

    Examples
    --------
    >>> house_instrument.rod.length, house_instrument.long_coil.turns
    (0.017, 7600)
    >>> round(house_instrument.tension("VI"), 1)
    79.3
    """

    @cached_property
    def rod(self):
        """The rod magnet under each string, as a RodMagnet at y = 0."""
        return RodMagnet(**self.magnet)

    @cached_property
    def long_coil(self):
        """The one coil round all rods, as a LongCoil."""
        return LongCoil(**self.coil)

    @cached_property
    def small_coil(self):
        """The house's coil for one string alone, wide enough for the rod, as a RoundCoil at y = 0."""
        wide = max(house_small_coil["inner_radius"], self.magnet["diameter"] / 2 + 1e-4)
        return RoundCoil(**{**house_small_coil, "inner_radius": wide})

    @cached_property
    def pickup(self):
        """A rod under each of the six strings, in the long coil; kept, with all that it has worked out."""
        return Pickup(poles=in_a_row(self.rod, self.place["string_y"]), coils=self.long_coil)

    @property
    def whose(self):
        """What its coil is called beside others: the "house" coil, or with an own instrument the "first" one shown."""
        return "house" if self == house_instrument else "first"

    def winding(self, turns):
        """So many turns in the long coil's window, as a LongCoil."""
        return replace(self.long_coil, turns=turns)

    def inductance(self, turns=None):
        """Inductance (H) of the long coil with its rods, with other turns in its window: as the square of the turns.

        Examples
        --------
        >>> round(house_instrument.inductance(8000) / house_instrument.inductance(4000), 6)
        4.0
        """
        return self._inductance * (1 if turns is None else turns / self.coil["turns"]) ** 2

    @lru_cache(maxsize=32)
    def inductance_share(self, recoil_permeability):
        """Inductance of the long coil over rods of another recoil permeability, as a share of what it has; kept."""
        other = replace(self, magnet=self.magnet | {"recoil_permeability": recoil_permeability})
        return other.inductance() / self.inductance()

    def loaded(self, *, turns=None, wire=None, metal_answers=False, **load):
        """The long coil with a load (arguments of `LoadedCoil`), with other turns or another wire where given.

        *metal_answers*: currents flow in the rods, too, as in `metal`.
        """
        turns = self.coil["turns"] if turns is None else turns
        wire = magnet_wire(awg=self.gauge) if wire is None else wire
        seen = self.metal.with_turns(turns / self.coil["turns"]) if metal_answers else None
        return LoadedCoil(resistance=self.winding(turns).resistance(wire),
                          inductance=seen.inductance if seen else self.inductance(turns),
                          loops=seen.loops if seen else (), **load)

    @cached_property
    def metal(self):
        """What the rods are to the long coil when currents flow in them, as a `MetalInField` of its own turns.

        Alnico's resistivity; none in a rod of a recoil permeability below 2, which is taken for ferrite.
        """
        return metal_of(self.pickup, resistivity=magnet_grade(alloy_by(self.rod.recoil_permeability)).resistivity)

    @cached_property
    def _inductance(self):
        return self.pickup.inductance()

    def y_of(self, name):
        """Where one of the strings lies over the pickup, m; both thirds over one pole."""
        return self.place["string_y"][ROW.index(name.removesuffix(" wound"))]

    def steel_of(self, name):
        """The steel of one of the strings: its core, as far as the pickup hears it."""
        return SteelString(diameter=self.strings[name]["core"])

    def tension(self, name):
        """Tension (N) of one of the strings at its pitch."""
        string = self.strings[name]
        return (2 * self.place["scale_length"] * string["frequency"]) ** 2 * string["linear_density"]

    def string(self, name):
        """One of the strings as it is, with its stiffness and its (assumed) decay, open, as a TunedString."""
        row = self.strings[name]
        return TunedString.tuned(frequency=row["frequency"], length=self.place["scale_length"],
                                 linear_density=row["linear_density"], core_diameter=row["core"])

    def row(self, *, third="III", wrap_permeability=1.0):
        """The six strings, VI first, each over its own pole, as `workshop_row` gives them."""
        return workshop_row(third=third, wrap_permeability=wrap_permeability, height=self.place["string_height"],
                            strings=self.strings, place=self.place)

    @cached_property
    def stronger(self):
        """By how much the rod's field 1 mm above it is larger than the house's, else 1: axes grow with it."""
        if self.magnet == house_magnet:
            return 1.0
        own, house = (rod.flux_density((0.0, 0.0, 1e-3))[2] for rod in (self.rod, RodMagnet(**house_magnet)))
        return max(1.0, float(own / house))

    @property
    def louder(self):
        """By how much a coil's axes grow: with the field, and with more turns and more steel in string III."""
        turns = self.coil["turns"] / house_coil["turns"]
        steel = (self.strings["III"]["core"] / house_strings["III"]["core"]) ** 2
        return self.stronger * max(1.0, turns) * min(max(1.0, steel), 2.0)  # thicker steel has a smaller field inside


@cache
def instrument_of(record):
    """Return the `Instrument` of an `InstrumentRecord`, always the same one."""
    return Instrument(**{field.name: getattr(record, field.name) for field in fields(record)})


house_instrument = instrument_of(house_record)


def shown(instrument=None):
    """Return *instrument*, or the one in use where none is given."""
    return instrument or instrument_of(in_use().instrument)


def in_mm(metres):
    """A length of the instrument as a slider begins with it.

    Examples
    --------
    >>> in_mm(5e-3)
    5.0
    """
    return round(in_unit(metres, "mm"), 4)
