"""How far the peak of another coil of the same description may be: its turns, rods and self-capacitance as made."""
from lessons_lib.base.as_made import as_made
from lessons_lib.base.materials import magnet_grade
from lessons_lib.lessons.instrument import alloy_by, house_instrument
from lessons_lib.lessons.lesson_06.model import LEAST_PEAK, loaded_coil, peak_of
from lessons_lib.physics.spread import band

WORDS = {"turns": "the number of turns", "own": "the self-capacitance", "recoil": "the rods' recoil permeability"}


def quantities(own, instrument=house_instrument):
    """What of a coil is not known exactly: turns as a share, self-capacitance (F), recoil permeability of the rods."""
    rod = instrument.rod.recoil_permeability
    return {"turns": as_made.turns, "own": as_made.self_capacitance.like(own),
            "recoil": magnet_grade(alloy_by(rod)).recoil_permeability.like(rod)}


def peak_band(one, *, known=None, instrument=house_instrument):
    """Band of the peak's frequency (Hz) of coils described as a `Response` is; None where not all have a peak.

    *known*: quantities by name; left out: those of `quantities`.

    Notes
    -----
    With metal that answers its loops go with the inductance. Known are wire, cable, controls and amplifier.
    """
    coil, heights = loaded_coil(**one.settings, instrument=instrument), []

    def place(turns, own, recoil):
        share = instrument.inductance_share(max(1.0, recoil))
        frequency, height = peak_of(coil.built(turns=turns, inductance=share, capacitance=own))
        heights.append(height)
        return frequency
    found = band(place, known or quantities(coil.capacitance, instrument))
    return found if min(heights) > LEAST_PEAK else None
