"""How far the peak of another coil of the same description may be: its turns, rods and self-capacitance as made."""
from dataclasses import replace
from functools import lru_cache

from lessons_lib.base.as_made import as_made
from lessons_lib.base.materials import magnet_grade
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_06.model import LEAST_PEAK, loaded_coil, response
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.spread import band

WORDS = {"turns": "the number of turns", "own": "the self-capacitance", "recoil": "the rods' recoil permeability"}


def quantities(own, instrument=house_instrument):
    """What of a coil is not known exactly: turns as a share, self-capacitance (F), recoil permeability of the rods."""
    rod = instrument.rod.recoil_permeability
    grade = magnet_grade("alnico 5" if rod >= 2 else "ferrite")
    return {"turns": as_made.turns, "own": as_made.self_capacitance.like(own),
            "recoil": grade.recoil_permeability.like(rod)}


@lru_cache(maxsize=16)
def _more_inductance(recoil, instrument):
    """Of the coil over rods of another recoil permeability, as a share of what it has."""
    pickup = instrument.pickup
    rods = [replace(rod, recoil_permeability=max(1.0, recoil)) for rod in pickup.poles]
    return Pickup(poles=rods, coils=pickup.coils).inductance() / pickup.inductance()


@lru_cache(maxsize=256)
def peak_band(*, instrument=house_instrument, known=None, **settings):
    """Band of the peak's frequency (Hz) of a coil with settings as of `response`; None where not all have a peak.

    *known*: quantities by name, as (name, Value) pairs; left out: those of `quantities`.

    Notes
    -----
    With metal that answers its loops go with the inductance. Known are wire, cable, controls and amplifier.
    """
    coil = loaded_coil(**response(instrument=instrument, **settings).settings, instrument=instrument)
    heights = []

    def place(turns, own, recoil):
        more = turns ** 2 * _more_inductance(recoil, instrument)
        built = replace(coil, resistance=turns * coil.resistance, inductance=more * coil.inductance, capacitance=own,
                        loops=tuple((more * L, more * R) for L, R in coil.loops))
        frequency, top = built.peak()
        heights.append(top - built.low_frequency_level)
        return frequency
    found = band(place, dict(known or quantities(coil.capacitance, instrument)))
    return found if min(heights) > LEAST_PEAK else None
