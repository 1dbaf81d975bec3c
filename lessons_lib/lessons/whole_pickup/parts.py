"""The parts of a whole pickup, from its settings: each is worked out once and kept while nothing it needs is moved."""
import math
from dataclasses import replace
from functools import lru_cache

from lessons_lib.base.wire import magnet_wire
from lessons_lib.base.workshop import house_bar, house_load, house_screw
from lessons_lib.lessons.whole_pickup.settings import OWN
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.design import rod_of
from lessons_lib.physics.hum import hum_voltages
from lessons_lib.physics.induction import linkage_map
from lessons_lib.physics.magnets import BarMagnet, RodMagnet
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.plucked_string import TunedString
from lessons_lib.physics.six_strings import in_a_row
from lessons_lib.physics.steel import SteelPole, SteelString
from lessons_lib.physics.string_answer import disc_flux

ASIDE_OF_PAIR = 9e-3                    # m along the strings, each coil of a pair from its middle, as in lesson 7
LOWEST, WIDEST = 0.9e-3, 3e-3           # m, how near to the poles a string may come, how far from rest
HIGHEST = 6e-3 + WIDEST                 # m, from the highest rest
_ASIDE, _REACH = 3e-3, 1.5e-3           # m, the slider's end; motion sideways is rounded up to it
_DOWN = 0.5e-3                          # m, the way down of such a motion is rounded to it


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
def hum_of(pickup, *, flux_density=1e-7, frequency=50.0):
    """Hum (V) of all coils in series in an upright field of the mains, 0.1 uT at 50 Hz, at their own turns; kept."""
    return float(abs(hum_voltages(_all_coils(pickup), flux_density=flux_density, frequency=frequency).sum()))


@lru_cache(maxsize=16)
def _inductance(pickup):
    return pickup.inductance()


@lru_cache(maxsize=16)
def pole_flux(pickup, number):
    """Flux (Wb) up through the middle of a pole (0: under string VI) with all poles and bars, without string; kept."""
    pole = pickup.poles[number]
    return disc_flux(pickup.flux_density, pole.diameter / 2, (pole.x, pole.y, pole.top - pole.length / 2))


def linkage_of(settings, across=0.0, lowest=LOWEST):
    """Flux linkage over height and y of the settings' string, as a LinkageMap of the instrument's own turns; kept.

    Up and down: one for all heights, at its own place aside. For a string that moves *across* (m, to either side) and
    comes down to *lowest* (m): one for all places aside, ten times as costly; over an edge of a pole the linkage is
    rough, so it reaches no lower than it must.
    """
    y, reach = settings.pole_y, math.ceil(across / _REACH - 1e-6) * _REACH
    ends = (y - reach, y + max(_ASIDE, settings.aside) + reach) if reach else (y + settings.aside,) * 2
    low = max(LOWEST, math.floor(lowest / _DOWN) * _DOWN) if reach else LOWEST
    steel = SteelString(diameter=settings.row["core"])
    return linkage_map(pickup_of(settings), steel, height=(round(low, 6), HIGHEST), y=ends)


@lru_cache(maxsize=64)
def _string(frequency, length, linear_density, core, fret):
    return TunedString.tuned(frequency=frequency, length=length, linear_density=linear_density,
                             core_diameter=core).at_fret(fret)


def string_of(settings):
    """The string as it is held at its fret, stiff and damped, as a TunedString."""
    row = settings.row
    return _string(row["frequency"], settings.scale_length, row["linear_density"], row["core"], settings.fret)


def coil_of(settings):
    """The coil with its controls, cable and amplifier, as a LoadedCoil: inductance as the square of the turns.

    Two coils in series have twice the resistance and half of one's self-capacitance.
    """
    inst, wire, count = settings.instrument, magnet_wire(awg=settings.gauge), len(places_of(settings))
    return LoadedCoil(
        resistance=count * inst.winding(settings.turns).resistance(wire),
        inductance=_inductance(_all_coils(pickup_of(settings))) * (settings.turns / inst.coil["turns"]) ** 2,
        capacitance=settings.own / count, cable_capacitance=settings.cable, volume_resistance=settings.volume,
        volume_setting=settings.volume_setting, tone_resistance=settings.tone, tone_setting=settings.tone_setting,
        tone_capacitance=house_load["tone_capacitance"], input_resistance=settings.amplifier)
