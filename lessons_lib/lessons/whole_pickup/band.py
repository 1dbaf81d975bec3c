"""How far another pickup of the same description may be from the one that is computed: a band, and what it comes from.

What a range of each part does to the sensitivity is worked out at a few places of the string at rest, and kept, so that
a moved slider solves no field.
"""
from dataclasses import dataclass, replace
from functools import lru_cache
from types import MappingProxyType

import numpy as np
from scipy.constants import mu_0
from scipy.fft import irfft, next_fast_len, rfft, rfftfreq

from lessons_lib.base.as_made import as_made
from lessons_lib.base.materials import magnet_grade, steel
from lessons_lib.base.value import Value
from lessons_lib.lessons.whole_pickup.parts import WRAP, alloy_of, inductance_of, pickup_of, steel_of
from lessons_lib.physics.spread import band
from lessons_lib.physics.steel import STRING_PLACES
from lessons_lib.physics.string_answer import string_line

# what each quantity is called on the page, behind "the"
NAMES = MappingProxyType({
    "height": "height of the string", "magnet": "strength of the magnet", "poles": "permeability of the poles",
    "permeability": "permeability of the wire", "saturation": "saturation of the wire",
    "wrap": "permeability of the wrap", "memory": "hysteresis in the string", "turns": "number of turns",
    "capacitance": "self-capacitance"})
_HEIGHTS, _ASIDE = np.array([1.8, 2.8, 4.3, 6.2]) * 1e-3, np.array([0.0, 3e-3])     # m, where the string is looked at
_STEP = 2e-5            # m, for slopes


@dataclass(frozen=True)
class Stretch:
    """Median, 16 and 84 % of a quantity (SI); *shares*: name in NAMES -> share of the variance, the largest first."""

    median: float
    low: float
    high: float
    shares: dict

    @property
    def most(self):
        """What contributes most, as the page calls it."""
        return NAMES[next(iter(self.shares))]


def quantities_of(settings):
    """What of the settings is not known exactly: name in NAMES -> Value with its spread.

    magnet: as a factor. poles: recoil permeability of a rod, permeability of a screw.
    """
    wire, alloy, poles = steel("music wire"), alloy_of(settings), pickup_of(settings).poles
    found = {
        "height": Value(settings.height, "m", as_made.string_height.source, tuple(
            settings.height + end - as_made.string_height for end in as_made.string_height.spread)),
        "magnet": as_made.magnet_strength, "permeability": wire.relative_permeability, "saturation": wire.saturation,
        "memory": as_made.string_memory, "turns": as_made.turns,
        "capacitance": as_made.self_capacitance.like(settings.own)}
    if settings.form == "screws":
        found |= {"magnet": magnet_grade("ferrite").remanence.like(1.0),
                  "poles": steel("screw steel").relative_permeability.like(poles[0].relative_permeability)}
    elif alloy == "ferrite":        # its recoil permeability is 1 within a tenth
        found["magnet"] = magnet_grade(alloy).remanence.like(1.0)
    else:
        found["poles"] = magnet_grade(alloy).recoil_permeability.like(poles[0].recoil_permeability)
    return found | ({"wrap": WRAP} if steel_of(settings).wrap_permeability > 1 else {})


def bands_of(one, quantities=None):
    """Peak at the amplifier (V) and peak of the response (Hz) as two `Stretch`; None for what is not there.

    Parameters
    ----------
    one : WholePickup
    quantities : mapping of str to Value, optional
        Left out: `quantities_of` its settings.

    Notes
    -----
    Each quantity is equally likely anywhere in its range and independent of the others (`physics.spread.band`). What a
    part does to the sensitivity up and down is taken at rest, between places where it is kept (2 % of its effect), and
    stands for the whole pluck, sideways motion too. With metal that answers its loops go with the inductance. Known are
    the pluck, the wire, controls and cable.
    """
    if not one.peak or not one.sensitivity:
        return None, None
    known = quantities_of(one.settings) if quantities is None else quantities
    as_set, own = pickup_of(one.settings), one.settings.own
    per_coil = one.coil.capacitance / own if own else 1.0       # of two coils in series it is half of one's
    coils, padded = {}, next_fast_len(2 * one.time.size, real=True)
    frequency, spectrum = rfftfreq(padded, one.time[1] - one.time[0]), rfft(one.voltage, padded)

    def given(**values):
        part = {name: values.get(name, float(value)) for name, value in known.items()}
        pickup = _with_poles(as_set, part["poles"]) if "poles" in part else as_set
        coil = one.coil.built(turns=part["turns"], inductance=inductance_of(pickup) / inductance_of(as_set),
                              capacitance=part["capacitance"] * per_coil)
        if coil not in coils:
            behind = irfft(spectrum * coil.response(frequency), padded)[:one.time.size]
            coils[coil] = np.abs(behind).max(), _peak_place(coil)
        loudest, place = coils[coil]
        return np.array([part["turns"] * _sensitivity(one.settings, pickup, part) * loudest, place])
    found = band(given, known)

    def stretch(n, scale):
        shares = {name: float(share[n]) for name, share in found.shares.items()}
        return Stretch(*(float(ends[n] * scale) for ends in (found.median, found.low, found.high)),
                       dict(sorted(shares.items(), key=lambda one: -one[1])))
    return stretch(0, one.peak / found.nominal[0]), stretch(1, 1.0) if one.response_peak else None


@lru_cache(maxsize=64)
def _peak_place(coil):
    return coil.peak()[0]


@lru_cache(maxsize=64)
def _with_poles(pickup, permeability):
    """The pickup with poles of another permeability, rods of the same field."""
    return replace(pickup, poles=[
        pole.with_recoil_permeability(permeability) if hasattr(pole, "recoil_permeability") else
        replace(pole, relative_permeability=permeability) for pole in pickup.poles])


def _sensitivity(settings, pickup, part):
    """Up and down at rest, but for a factor: a magnet k times as strong does k times what one does in J/k of steel."""
    strength = part["magnet"]
    string = replace(steel_of(settings), relative_permeability=part["permeability"],
                     saturation=part["saturation"] / strength,
                     **({"wrap_permeability": part["wrap"]} if "wrap" in part else {}))
    height, aside = (part["height"] - 3e-3) * 1e3, (settings.aside / _ASIDE[1]) ** 2
    middle, beside = np.vander([height], len(_HEIGHTS))[0] @ _logarithms(pickup, string, settings.pole_y)
    return strength * part["memory"] * np.exp(middle + aside * (beside - middle))


@lru_cache(maxsize=256)
def _logarithms(pickup, string, y):
    """Polynomials in the height (mm, from 3 mm on) of the sensitivity's logarithm, over the pole and aside of it."""
    applied, per_ampere = _fields(pickup, y)
    linked = string.magnetise(applied).linkage(per_ampere)
    slopes = np.log(np.abs(np.diff(linked, axis=-1)[..., 0]))
    return np.linalg.solve(np.vander((_HEIGHTS - 3e-3) * 1e3), slopes)


@lru_cache(maxsize=16)
def _fields(pickup, y):
    """H (A/m) and B of one ampere (T) along strings, of shape (heights, places aside, 2, nodes, 3); kept."""
    lines = np.stack([[[string_line(height=height + step, y=y + aside) for step in (-_STEP, _STEP)]
                       for aside in _ASIDE] for height in _HEIGHTS])
    if any(pole.x for pole in pickup.poles):
        return pickup.flux_density(lines) / mu_0, pickup.field_per_ampere(lines)
    half = lines[..., len(STRING_PLACES) // 2:, :]      # both halves of a string see the same
    return tuple(np.concatenate([field[..., :0:-1, :] * (-1, 1, 1), field], axis=-2)
                 for field in (pickup.flux_density(half) / mu_0, pickup.field_per_ampere(half)))
