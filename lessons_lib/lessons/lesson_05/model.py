"""The plain functions behind the panels of lesson 5: SI numbers in, small records and arrays out.

The strings are flexible and undamped, plucked at a point and heard at a point, unless a function says otherwise.
"""
import math
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

import numpy as np

from lessons_lib.base.workshop import house_place
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_05.corners import pulled
from lessons_lib.physics.induction import linkage_map
from lessons_lib.physics.plucked_string import TunedString

STRINGS_TO_CHOOSE = ("VI", "V", "IV", "III", "III wound", "II", "I")
FRETS = np.arange(20)
FORCE = 1.0             # N, on the open string; every other strength follows from it
PLUCK_RULES = ("force", "displacement", "energy")
FINGER = 5e-3           # m of string under a finger; assumed
HEARD_RATE = 22050                  # samples a second
SIGNALS = ("displacement", "velocity", "voltage")
MEASURES = ("peak", "RMS", "fundamental")
_MANY = 800             # partials: what is left out of an RMS is under 3e-3 of it
_HEIGHTS = (0.9e-3, 5e-3)
HOUSE = MappingProxyType({"string": "VI", "pluck_place": house_place["pluck_place"],
                          "pickup_place": house_place["pickup_place"]})


def sensitivity(string, height, instrument=house_instrument):
    """V per m/s of motion up and down at a height (m, arrays broadcast), positive."""
    y = instrument.y_of(string)
    linkage = linkage_map(instrument.pickup, instrument.steel_of(string), height=_HEIGHTS, y=(y, y))
    slope = linkage.gradient(np.atleast_1d(height), y)[0]
    return -slope.reshape(np.shape(height))[()]


def decay_length(string, instrument=house_instrument):
    """The delta of the fitted law S = S0 exp(-h/delta), fitted from 2 to 3 mm, m."""
    near, far = sensitivity(string, np.array([2e-3, 3e-3]), instrument)
    return 1e-3 / math.log(near / far)


@lru_cache(maxsize=16)
def flexible(string, instrument=house_instrument):
    """One of the STRINGS_TO_CHOOSE without stiffness, open."""
    row = instrument.strings[string]
    return TunedString.tuned(frequency=row["frequency"], length=instrument.place["scale_length"],
                             linear_density=row["linear_density"])


# ---- one string, all frets -------------------------------------------------------------------------------------------

def at_fret(string, fret, pluck_place, pickup_place, hand, instrument=house_instrument):
    """The flexible string at a fret with hand and pickup, which stay or keep their share of the string (m)."""
    open_string = flexible(string, instrument)
    fretted = open_string.at_fret(fret)
    shrink = fretted.length / open_string.length if hand == "fraction" else 1.0
    return fretted, pluck_place * shrink, pickup_place * shrink


@lru_cache(maxsize=4096)
def _at_unit_force(string, fret, pluck_place, pickup_place, hand, instrument):
    """Peak, RMS, fundamental of displacement (m), velocity (m/s), shape (2, 3); what 1 N pulls (m) and stores (J)."""
    fretted, x0, x = at_fret(string, fret, pluck_place, pickup_place, hand, instrument)
    motion = fretted.pluck(force=1.0, place=x0, highest_frequency=(_MANY + 0.5) * fretted.frequency(1))
    lines = motion.partials(x)
    # half a period later the shape stands on its head at the mirrored place
    highest = max(pulled(fretted, 1.0, x0, np.array([x, fretted.length - x])))
    sizes = [[peak, math.sqrt((amplitudes ** 2).sum() / 2), abs(amplitudes[0])] for peak, amplitudes in
             ((highest, lines.displacement_up), (motion.peak_velocity, lines.velocity_up))]
    return np.array(sizes), motion.release_displacement, motion.release_energy


def fret_table(*, string, pluck_place, pickup_place, hand, instrument=house_instrument):
    """Every measure at every fret under every rule.

    Parameters
    ----------
    string : one of STRINGS_TO_CHOOSE
    pluck_place, pickup_place : float
        m from the bridge, on the open string.
    hand : "place" or "fraction"
        What stays when the string gets shorter: both places, or their shares of the string.

    Returns
    -------
    dict
        rule -> array of shape (frets, quantities, measures), in m, m/s, V. The voltage is the velocity times the
        sensitivity at rest, for small swings.

    Examples
    --------
    >>> table = fret_table(string="VI", pluck_place=0.1, pickup_place=0.15, hand="place")
    >>> velocity = table["force"][:, SIGNALS.index("velocity"), MEASURES.index("peak")]
    >>> bool(np.ptp(velocity) < 1e-12)
    True
    """
    unit = [_at_unit_force(string, int(fret), pluck_place, pickup_place, hand, instrument) for fret in FRETS]
    sizes, pulled, stored = (np.array(one) for one in zip(*unit))
    volts = float(sensitivity(string, instrument.place["string_height"], instrument))
    sizes = np.concatenate([sizes, volts * sizes[:, 1:]], axis=1)
    forces = {"force": np.full(len(FRETS), FORCE), "displacement": FORCE * pulled[0] / pulled,
              "energy": FORCE * np.sqrt(stored[0] / stored)}
    return {rule: force[:, np.newaxis, np.newaxis] * sizes for rule, force in forces.items()}


@dataclass(frozen=True, kw_only=True)
class FretMeasures:
    """One fret under one rule beside all others: frequency (Hz), table as fret_table gives it."""

    fret: int
    rule: str
    frequency: float
    table: dict

    def value(self, quantity, measure, fret=None):
        """One size at this fret or at another, SI."""
        at = self.fret if fret is None else fret
        return float(self.table[self.rule][at, SIGNALS.index(quantity), MEASURES.index(measure)])

    def times_open(self, quantity, measure, fret=None):
        """The same relative to the open string."""
        return self.value(quantity, measure, fret) / self.value(quantity, measure, 0)


def fret_measures(*, fret, string, pluck_place, pickup_place, rule, hand, instrument=house_instrument):
    """The measures at one fret under one rule, as FretMeasures."""
    table = fret_table(string=string, pluck_place=pluck_place, pickup_place=pickup_place, hand=hand,
                       instrument=instrument)
    return FretMeasures(fret=fret, rule=rule, table=table,
                        frequency=float(flexible(string, instrument).at_fret(fret).frequency(1)))


# ---- partials --------------------------------------------------------------------------------------------------------

PARTIALS = 24


@dataclass(frozen=True, kw_only=True)
class PartialLevels:
    """Partials 1 to PARTIALS at one place; displacement and velocity as shares of 2FL/(pi^2 T) and of 2F/(pi Z)."""

    frequency: np.ndarray
    displacement: np.ndarray
    velocity: np.ndarray
    pickup_gap: float       # Hz, first frequency that the place of listening does not hear
    pluck_gap: float        # Hz, first one that the place of plucking does not stir
    smoothing: float        # what finger and pickup leave of the last partial

    def third_over_first(self, quantity):
        """Partial 3 divided by partial 1 of a quantity, as a magnitude."""
        sizes = np.abs(getattr(self, quantity))
        return float(sizes[2] / sizes[0])


def partial_levels(*, string, fret, pluck_place, pickup_place, finger, aperture, instrument=house_instrument):
    """The partials of an ideal string, finger and pickup with a width (m), as PartialLevels."""
    fretted = flexible(string, instrument).at_fret(fret)
    f1 = float(fretted.frequency(1))
    motion = fretted.pluck(force=1.0, place=pluck_place, width=finger, highest_frequency=(PARTIALS + 0.5) * f1)
    lines = motion.partials(pickup_place, aperture=aperture)
    turns = PARTIALS / (2 * fretted.length)
    return PartialLevels(
        frequency=lines.frequency,
        displacement=lines.displacement_up / (2 * fretted.length / (math.pi ** 2 * fretted.tension)),
        velocity=lines.velocity_up / (2 / (math.pi * fretted.impedance)),
        pickup_gap=fretted.wave_speed / (2 * pickup_place), pluck_gap=fretted.wave_speed / (2 * pluck_place),
        smoothing=float(abs(np.sinc(turns * finger) * np.sinc(turns * aperture))))


COMB_FREQUENCIES = np.geomspace(70.0, 12e3, 900)     # Hz, the axis


def partial_curves(levels, *, string, fret, pluck_place, pickup_place, finger, aperture, instrument=house_instrument):
    """What `partials_figure` draws: levels (dB) of the partials over the pickup's comb, which no fret moves."""
    open_string = flexible(string, instrument)
    turns = COMB_FREQUENCIES / open_string.wave_speed       # waves a metre
    comb = np.sin(2 * np.pi * turns * pickup_place) * np.sinc(turns * aperture)
    return {"frequency": levels.frequency, "displacement": shown_level(levels.displacement),
            "velocity": shown_level(levels.velocity), "comb": (COMB_FREQUENCIES, shown_level(comb)),
            "pickup_gap": levels.pickup_gap, "pluck_gap": levels.pluck_gap,
            "string": {"length": open_string.length, "stop": open_string.at_fret(fret).length, "fret": fret,
                       "hand": pluck_place, "pickup": pickup_place}}


def shown_level(sizes):
    """Level of sizes against 1, never below -120 dB."""
    return 20 * np.log10(np.maximum(np.abs(sizes), 1e-6))


# ---- the curved map --------------------------------------------------------------------------------------------------

@dataclass(frozen=True, kw_only=True)
class Bent:
    """Voltage of a sine motion over the curved map: its lines and what the fitted law says."""

    slope_at_rest: float        # V per m/s
    harmonics: np.ndarray       # amplitudes 1 to 4, V, at the open string's frequency
    decay_length: float         # m
    amplitude: float

    @property
    def second(self):
        """Second harmonic divided by the fundamental, in the voltage."""
        return float(self.harmonics[1] / self.harmonics[0])

    @property
    def by_law(self):
        """The same by the fitted law, a/(2 delta)."""
        return self.amplitude / (2 * self.decay_length)


_PHASE = 2 * np.pi * np.arange(256) / 256


def _sine_voltage(string, height, amplitude, instrument):
    speed = 2 * math.pi * instrument.strings[string]["frequency"] * amplitude
    return sensitivity(string, height + amplitude * np.sin(_PHASE), instrument) * speed * np.cos(_PHASE)


def bent(*, string, height, amplitude, instrument=house_instrument):
    """A string that swings up and down as a pure sine over its pole, as Bent."""
    lines = 2 * np.abs(np.fft.rfft(_sine_voltage(string, height, amplitude, instrument))) / _PHASE.size
    return Bent(slope_at_rest=float(sensitivity(string, height, instrument)), harmonics=lines[1:5],
                decay_length=decay_length(string, instrument), amplitude=amplitude)


def curved_map_instants(now, turns, *, string, height, amplitude, instrument=house_instrument):
    """What `curved_map_figure` draws at each of some instants (in *turns* of the swing, 0 to 1).

    The string end-on, S (V per m/s) over its height (m), voltage over a turn: with this S, with the S at rest, and the
    second harmonic alone, relative to the peak with the S at rest.
    """
    heights, swing = np.linspace(1e-3, 4.9e-3, 80), np.linspace(height - amplitude, height + amplitude, 40)
    straight = now.slope_at_rest * 2 * math.pi * instrument.strings[string]["frequency"] * amplitude
    wave = np.fft.rfft(_sine_voltage(string, height, amplitude, instrument) / straight)
    turn = np.linspace(0, 1, 129)
    second = 2 / _PHASE.size * (wave[2] * np.exp(4j * np.pi * turn)).real
    bent_wave = np.fft.irfft(wave)[np.arange(129) * 2 % _PHASE.size]
    curves = {"slope": (sensitivity(string, heights, instrument), heights),
              "swing": (sensitivity(string, swing, instrument), swing),
              "waves": {"turn": turn, "straight": np.cos(2 * np.pi * turn), "bent": bent_wave, "second": second},
              "path": {"rest": np.array([0.0, height]),
                       "ends": np.array([[0.0, height - amplitude], [0.0, height + amplitude]])},
              "string": string}
    heights_now = height + amplitude * np.sin(2 * np.pi * np.asarray(turns))
    return [curves | {"turn": at, "height": here, "slope_now": slope}
            for at, here, slope in zip(turns, heights_now, sensitivity(string, heights_now, instrument))]


def heard_bend(now, *, string, height, amplitude, instrument=house_instrument):
    """Voltages (V) of a sine that dies away by 2 a second: with the S at rest throughout, and over the bend."""
    time = np.arange(HEARD_RATE) / HEARD_RATE       # 1 s
    omega = 2 * math.pi * instrument.strings[string]["frequency"]
    reach = amplitude * np.exp(-2 * time)
    speed = reach * omega * np.cos(omega * time)
    return {"S constant: a pure sine": now.slope_at_rest * speed,
            "over the bend": sensitivity(string, height + reach * np.sin(omega * time), instrument) * speed}
