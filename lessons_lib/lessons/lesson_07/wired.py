"""Lesson 7: the pair of coils wired three ways, and the comb of the two places that it hears."""
import math
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from scipy.interpolate import CubicSpline

from lessons_lib.base.wire import magnet_wire
from lessons_lib.base.workshop import house_load
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_07.pair import ASIDE, level_of, pair
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.two_coils import TwoCoils, comb, first_null

FREQUENCIES = np.geomspace(100.0, 20e3, 500)        # Hz
PAIR_REACH = 16e-3, 60e-3        # m, of the distance of the coils
FLOOR = -60.0       # dB: a null of the comb on paper is a hole without a bottom


@dataclass(frozen=True, kw_only=True)
class Wired:
    """One coil of the pair, or both in one of three ways, with the workshop's cable and controls.

    resistance (ohm); inductance (H); signal and hum between the open ends (dB re one coil; -inf for nothing), signal of
    the lowest partials; null: the first that the comb has (Hz, inf for none); coil: with its load; shares of the two
    coils' voltages.
    """

    resistance: float
    inductance: float
    signal: float
    hum: float
    null: float
    coil: LoadedCoil
    shares: tuple

    @property
    def peak(self):
        """The resonance (Hz), None without one."""
        place, _ = self.coil.peak()
        return place or None


@lru_cache(maxsize=4)
def _solved(instrument):
    """L of one coil of the pair and by what factor the rods make the mutual inductance larger, at 18 mm.

    From 14 to 60 mm that factor moves by 4 %, and L by 0.4 %.
    """
    both = pair(-1, instrument)
    one = Pickup(poles=both.poles, coils=both.coils[0]).inductance()
    return one, (both.inductance() / 2 - one) / both.coils[0].mutual_inductance(both.coils[1])


@lru_cache(maxsize=4)
def _alike(instrument):
    """Mutual inductance (H, below zero) of two coils wound alike in air, as a spline of the logarithms."""
    coil, distances = instrument.long_coil, np.geomspace(*PAIR_REACH, 5)
    mutual = [coil.mutual_inductance(replace(coil, x=coil.x + apart)) for apart in distances]
    return CubicSpline(np.log(distances), np.log(np.negative(mutual)))


def two_coils(apart=2 * ASIDE, instrument=house_instrument):
    """The instrument's coil twice, *apart* (m), the second one's winding and magnets reversed, as TwoCoils.

    Wound alike, each one's flux comes back down through the other: M is below zero; reversed, it is above.
    """
    inductance, by_rods = _solved(instrument)
    resistance = float(instrument.long_coil.resistance(magnet_wire(awg=instrument.gauge)))
    return TwoCoils(resistances=(resistance,) * 2, inductances=(inductance,) * 2,
                    mutual=float(by_rods * np.exp(_alike(instrument)(np.log(apart)))))


def wave_speed(name, instrument=house_instrument):
    """Speed of a wave on one of the strings, flexible, m/s: twice its length in one period."""
    return 2 * instrument.place["scale_length"] * instrument.strings[name]["frequency"]


def wired(*, wiring, apart, name, instrument=house_instrument):
    """The pair as Wired.

    Parameters
    ----------
    wiring : "one", "series", "parallel" or "out of phase"
    apart : float
        Distance of the two coils along the string, m.
    name : str
        Of the string.

    Examples
    --------
    >>> one = wired(wiring="series", apart=18e-3, name="VI")
    >>> round(one.null), one.hum
    (2910, -inf)
    """
    both = two_coils(apart, instrument)
    if wiring == "one":
        coil = LoadedCoil(resistance=both.resistances[0], inductance=both.inductances[0], **house_load)
        shares, null = (1.0, 0.0), math.inf
    else:
        coil = both.loaded(wiring, **house_load)
        shares = tuple(float(np.real(share)) for share in both.shares(wiring))
        null = first_null(apart=apart, wave_speed=wave_speed(name, instrument), wiring=wiring)
    hum = shares[0] - shares[1]     # the second winding is reversed
    return Wired(resistance=coil.resistance, inductance=coil.inductance, shares=shares, null=null, coil=coil,
                 signal=level_of(sum(shares)), hum=level_of(hum))


def curves(one, *, apart, name, instrument=house_instrument, **_):
    """Levels over FREQUENCIES, dB re one open coil: of the comb, with the load, and of one coil alone with its load."""
    heard = comb(FREQUENCIES, apart=apart, wave_speed=wave_speed(name, instrument), shares=one.shares)
    alone = wired(wiring="one", apart=apart, name=name, instrument=instrument)
    levels = {"comb": heard, "this": heard * np.abs(one.coil.response(FREQUENCIES)),
              "alone": np.abs(alone.coil.response(FREQUENCIES))}
    return {words: np.maximum(20 * np.log10(np.maximum(level, 1e-9)), FLOOR) for words, level in levels.items()}
