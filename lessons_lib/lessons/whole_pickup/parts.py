"""The parts of a whole pickup, from its settings: each is worked out once and kept while nothing it needs is moved."""
import math
from dataclasses import replace
from functools import lru_cache

from lessons_lib.base.materials import magnet_grade, steel
from lessons_lib.base.value import Value
from lessons_lib.base.wire import magnet_wire
from lessons_lib.base.workshop import house_bar, house_load, house_screw
from lessons_lib.lessons.instrument import alloy_by
from lessons_lib.lessons.whole_pickup.settings import METALS, OWN, WRAPS
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.design import rod_of
from lessons_lib.physics.eddy_currents import MetalInField, metal_of
from lessons_lib.physics.hum import hum_voltages
from lessons_lib.physics.induction import linkage_map
from lessons_lib.physics.magnets import BarMagnet, RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.plucked_string import TunedString
from lessons_lib.physics.six_strings import in_a_row
from lessons_lib.physics.steel import SteelPole, SteelString
from lessons_lib.physics.string_answer import disc_flux

ASIDE_OF_PAIR = 9e-3                    # m along the strings, each coil of a pair from its middle, as in lesson 7
HUM_AT = 50.0                           # Hz, the mains
LOWEST, WIDEST = 0.9e-3, 3e-3           # m, how near to the poles a string may come, how far from rest
HIGHEST = 6e-3 + WIDEST                 # m, from the highest rest
_ASIDE, _REACH = 3e-3, 1.5e-3           # m, the slider's end; motion sideways is rounded up to it
_DOWN = 0.5e-3                          # m, the way down of such a motion is rounded to it
# effective permeability of a wrap of steel turns that touch
WRAP = Value(8.0, "1", "common practice, no source", (5.0, 20.0))
_CLEAR = 0.1e-3                         # m, between pole and a thick wrap that is steel


def rod(settings):
    """The rod magnet of the settings, at y = 0, as a RodMagnet; never wider than the coil's hole has room for."""
    form = settings.instrument
    room = form.coil["inner_radius"] - max(0.0, form.place["string_y"][-1] - form.coil["straight_length"] / 2)
    sizes = {"diameter": min(settings.diameter, 2 * room), "length": settings.length}
    if settings.grade != OWN:
        return rod_of(settings.grade, **sizes)
    return RodMagnet(remanence=settings.remanence, recoil_permeability=settings.recoil_permeability, **sizes)


@lru_cache(maxsize=16)
def _pickup(pole, instrument, is_pair):
    """Poles like *pole* under the six strings, screws on their bar, in the instrument's long coil; its own turns."""
    bars = BarMagnet(**house_bar) if isinstance(pole, SteelPole) else ()
    poles = in_a_row(pole, instrument.place["string_y"])
    if is_pair:
        poles += in_a_row(replace(pole, x=2 * ASIDE_OF_PAIR, remanence=-pole.remanence), instrument.place["string_y"])
    return Pickup(poles=poles, coils=instrument.long_coil, bars=bars)


def pickup_of(settings):
    """The six poles in the long coil, as a Pickup with the turns of the settings' instrument; kept.

    Of a pair: all twelve poles, and the first coil alone, at x = 0; the second gives the same, mirrored.
    """
    pole = SteelPole(**house_screw) if settings.form == "screws" else rod(settings)
    return _pickup(pole, settings.instrument, settings.form == "pair")


@lru_cache(maxsize=16)
def _all_coils(pickup):
    """The same poles with both coils of a pair, the second reversed."""
    if len(pickup.poles) == 6:
        return pickup
    first, = pickup.coils
    return Pickup(poles=pickup.poles, bars=pickup.bars,
                  coils=(first, replace(first, x=2 * ASIDE_OF_PAIR, winding_sense=-1)))


def places_of(settings):
    """Where its coils are along the string, m from the bridge."""
    middle = settings.pickup_place
    return (middle - ASIDE_OF_PAIR, middle + ASIDE_OF_PAIR) if settings.form == "pair" else (middle,)


@lru_cache(maxsize=16)
def hum_of(pickup):
    """Hum (V) of all coils in series in an upright field of the mains, 0.1 uT at 50 Hz, at their own turns; kept."""
    return float(abs(hum_voltages(_all_coils(pickup), flux_density=1e-7, frequency=HUM_AT).sum()))


@lru_cache(maxsize=16)
def inductance_of(pickup):
    """Inductance (H) of all coils in series, at their own turns and without currents in the poles; kept."""
    return _all_coils(pickup).inductance()


_with_currents = lru_cache(maxsize=16)(metal_of)


def alloy_of(settings):
    """Grade of the settings' rods; one of one's own is taken for alnico 5 or ferrite."""
    return alloy_by(settings.recoil_permeability) if settings.grade == OWN else settings.grade


def metal_in(settings):
    """Poles and air to all coils in series, as a `MetalInField` of the settings' turns; kept.

    With metal that answers: a screw has the screw steel's resistivity, a rod its grade's, and one of one's own alnico's
    from a recoil permeability of 2 on. The bar under screws does not answer.
    """
    pickup, turns = pickup_of(settings), settings.turns / settings.instrument.coil["turns"]
    if settings.metal == METALS[0]:
        return MetalInField(inductance_of(pickup), ()).with_turns(turns)
    material = steel("screw steel") if settings.form == "screws" else magnet_grade(alloy_of(settings))
    return _with_currents(_all_coils(pickup), resistivity=float(material.resistivity)).with_turns(turns)


@lru_cache(maxsize=16)
def pole_flux(pickup, number):
    """Flux (Wb) up through the middle of a pole (0: under string VI) with all poles and bars, without string; kept."""
    pole = pickup.poles[number]
    return disc_flux(pickup.flux_density, pole.diameter / 2, (pole.x, pole.y, pole.top - pole.length / 2))


def is_wound(settings):
    """Whether the settings' string has a wrap round its core."""
    return settings.row["diameter"] > settings.row["core"]


def steel_of(settings):
    """The steel of the settings' string, as a SteelString: the core, and a wrap of steel with it."""
    core = settings.row["core"]
    if settings.wrap == WRAPS[0] or not is_wound(settings):
        return SteelString(diameter=core)
    return SteelString(diameter=core, wrap_diameter=settings.row["diameter"], wrap_permeability=float(WRAP))


def lowest_of(settings):
    """How near to the poles the settings' string may come with its axis, m: LOWEST, or as its wrap lets it."""
    return max(LOWEST, steel_of(settings).outer_radius + _CLEAR)


def linkage_of(settings, across=0.0, lowest=0.0):
    """Flux linkage over height and y of the settings' string, as a LinkageMap of the instrument's own turns; kept.

    Up and down: one for all heights, at its own place aside. For a string that moves *across* (m, to either side) and
    comes down to *lowest* (m): one for all places aside, ten times as costly; over an edge of a pole the linkage is
    rough, so it reaches no lower than it must.
    """
    y, reach = settings.pole_y, math.ceil(across / _REACH - 1e-6) * _REACH
    ends = (y - reach, y + max(_ASIDE, settings.aside) + reach) if reach else (y + settings.aside,) * 2
    nearest = lowest_of(settings)
    low = max(nearest, math.floor(lowest / _DOWN) * _DOWN) if reach else nearest
    return linkage_map(pickup_of(settings), steel_of(settings), height=(round(low, 6), HIGHEST), y=ends)


@lru_cache(maxsize=64)
def _string(frequency, length, linear_density, core, fret):
    return TunedString.tuned(frequency=frequency, length=length, linear_density=linear_density,
                             core_diameter=core).at_fret(fret)


def string_of(settings):
    """The string as it is held at its fret, stiff and damped, as a TunedString."""
    row = settings.row
    return _string(row["frequency"], settings.scale_length, row["linear_density"], row["core"], settings.fret)


def coil_of(settings):
    """The coil with its controls, cable and amplifier, as a LoadedCoil: as the square of the turns.

    Two coils in series have twice the resistance and half of one's self-capacitance.
    """
    wire, count, seen = magnet_wire(awg=settings.gauge), len(places_of(settings)), metal_in(settings)
    return LoadedCoil(
        resistance=count * settings.instrument.winding(settings.turns).resistance(wire),
        inductance=seen.inductance, loops=seen.loops,
        capacitance=settings.own / count, cable_capacitance=settings.cable, volume_resistance=settings.volume,
        volume_setting=settings.volume_setting, tone_resistance=settings.tone, tone_setting=settings.tone_setting,
        tone_capacitance=house_load["tone_capacitance"], input_resistance=settings.amplifier)
