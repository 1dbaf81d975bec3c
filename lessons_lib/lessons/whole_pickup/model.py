"""The whole pickup as a function of its settings: from the magnet to the sound at the amplifier, SI throughout.

Nothing is canned: every number comes from the models of lessons 1 to 7. What a magnet, a coil's form and a string's
steel fix is worked out once and kept, so that a moved slider costs only what it changes.
"""
import math
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

import numpy as np

from lessons_lib.base.wire import magnet_wire
from lessons_lib.lessons.instrument import HIGHEST_PARTIAL, LISTENS, PLECTRUM
from lessons_lib.lessons.whole_pickup import parts
from lessons_lib.lessons.whole_pickup.band import bands_of
from lessons_lib.lessons.whole_pickup.settings import SPREADS, Settings
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.induction import Harmonics, LinkageMap, harmonic_levels
from lessons_lib.physics.noise import johnson_voltage, signal_to_noise, window_rms
from lessons_lib.physics.plucked_string import TunedString
from lessons_lib.physics.six_strings import decibels
from lessons_lib.physics.string_motion import PluckedMotion

RATE, SOUND_RATE = 88200, 44100         # samples a second, of the first periods and of what is heard
PERIODS = 4                             # after the release, looked at for peak and harmonics
_ACROSS = 2e-5                          # m, for the slope of the linkage across
_STEEPEST = 0.1                         # force divided by tension, of `TunedString.pluck`
FREQUENCIES = np.geomspace(50.0, 20e3, 260)     # Hz, of the response
LEAST_PEAK = 0.05                       # dB above low frequencies; less is no peak
LEVEL_OF = 1e-3                         # V, 0 dB of a harmonic
_NOTHING = 1e-12                        # V, under every rounding: no harmonic
_SILENT = 1e-10                         # V, a hum under it is rounding: a pair's cancels


@dataclass(frozen=True, kw_only=True, eq=False)
class WholePickup:
    """What a plucked string gives, from the magnet to the amplifier.

    settings; tuned (TunedString), motion (PluckedMotion), reached (LinkageMap), coil (LoadedCoil).
    force (N): of the pluck as it was computed; held_back says what kept it under the asked one: "" (nothing),
    "tension" (a tenth of it), "pole" (the string would come nearer to the pole than 0.9 mm, or than its wrap of steel
    lets it) or "wide" (it would swing farther than 3 mm over the pickup).
    time (s), up, across (m, from rest; of a pair over the coil nearer to the bridge), linkage (Wb-turns, from rest),
    voltage and amplifier (V, open circuit and at the amplifier's input): arrays over PERIODS periods from the release;
    `one_period` cuts out the first of them.
    pole_flux (Wb): steady, up through the middle of the pole. sensitivity (V per m/s): of the string at rest, up and
    down, positive.
    harmonics: a Harmonics of the open-circuit voltage (V).
    """

    settings: Settings
    tuned: TunedString
    motion: PluckedMotion
    reached: LinkageMap
    coil: LoadedCoil
    force: float
    held_back: str
    time: np.ndarray
    up: np.ndarray
    across: np.ndarray
    linkage: np.ndarray
    voltage: np.ndarray
    amplifier: np.ndarray
    pole_flux: float
    sensitivity: float
    harmonics: Harmonics

    @property
    def period(self):
        """Of the first partial, s."""
        return 1 / float(self.tuned.frequency(1))

    @property
    def one_period(self):
        """A slice: the first period of the arrays."""
        return slice(0, int(self.period * RATE) + 2)

    @property
    def peak(self):
        """Largest voltage at the amplifier, as a magnitude, V."""
        return float(np.abs(self.amplifier).max())

    @property
    def open_peak(self):
        """Largest voltage of the open coil, as a magnitude, V."""
        return float(np.abs(self.voltage).max())

    @property
    def linkage_swing(self):
        """Highest less lowest linkage, Wb-turns."""
        return float(np.ptp(self.linkage))

    @property
    def peak_velocity(self):
        """F/(2Z), m/s."""
        return self.motion.peak_velocity

    @property
    def first_pulse(self):
        """Sensitivity at rest times F/(2Z), V: what lesson 7 compares strings by."""
        return self.sensitivity * self.peak_velocity

    @cached_property
    def sideways(self):
        """Sensitivity of the string at rest to motion across, as a magnitude, V per m/s."""
        s = self.settings
        ends = parts.pickup_of(s).flux_linkage(parts.steel_of(s), height=s.height,
                                         y=s.pole_y + s.aside + np.array([-_ACROSS, _ACROSS]))
        return float(abs(np.diff(ends)[0]) / (2 * _ACROSS) * _turns(s)) * len(parts.places_of(s))

    @property
    def _at_rest(self):
        return 0.0, self.settings.pole_y + self.settings.aside, self.settings.height

    @cached_property
    def field(self):
        """Steady flux density where the string's axis rests, without the string, as a magnitude, T."""
        return float(np.linalg.norm(parts.pickup_of(self.settings).flux_density(self._at_rest)))

    @cached_property
    def per_ampere(self):
        """Flux density of one ampere in the instrument's own coil there, T: how well the pole joins string and coil."""
        return float(np.linalg.norm(parts.pickup_of(self.settings).field_per_ampere(self._at_rest)))

    @property
    def hum(self):
        """Open-circuit voltage (V) of all coils in an upright field of 0.1 uT at 50 Hz; a pair's cancel."""
        return parts.hum_of(parts.pickup_of(self.settings)) * _turns(self.settings)

    @property
    def inductance(self):
        """Of the coil with its poles at low frequency, H."""
        return self.coil.inductance + sum(inductance for inductance, _ in self.coil.loops)

    @property
    def turns_that_fit(self):
        """Turns of this wire for which the coil's window has room."""
        winding = self.settings.instrument.winding(self.settings.turns)
        return winding.turns_that_fit(magnet_wire(awg=self.settings.gauge))

    @property
    def fits(self):
        """Whether the turns go into the window."""
        return self.settings.turns <= self.turns_that_fit

    @cached_property
    def response(self):
        """Level (dB) at the amplifier relative to the induced voltage, at FREQUENCIES."""
        return decibels(np.abs(self.coil.response(FREQUENCIES)), 1.0)

    @cached_property
    def response_peak(self):
        """Where the response is largest: Hz and dB relative to the induced voltage, or None without a peak."""
        place, level = self.coil.peak()
        return (place, level) if level - self.coil.low_frequency_level > LEAST_PEAK else None

    @cached_property
    def levels(self):
        """Harmonics before and behind the load, dB re 1 mV: two arrays."""
        open_circuit = np.maximum(self.harmonics.amplitude, _NOTHING)
        behind = open_circuit * np.abs(self.coil.response(self.harmonics.frequency))
        return decibels(open_circuit, LEVEL_OF), decibels(np.maximum(behind, _NOTHING), LEVEL_OF)

    @cached_property
    def bands(self):
        """Where two of three such pickups have the peak at the amplifier (V) and that of the response (Hz).

        Two `Stretch`; None for what is not there, or with the switch off.
        """
        return bands_of(self) if self.settings.spread == SPREADS[1] else (None, None)

    def sound(self, seconds=1.5, *, rate=SOUND_RATE):
        """Voltage (V) at the amplifier's input from the release on, *rate* samples a second."""
        moved, speed = _over_coils(self.motion, np.arange(int(seconds * rate)) / rate, self.settings)
        return self.coil.apply(_induced(self.settings, self.reached, moved, speed)[1], rate)


@lru_cache(maxsize=32)
def whole_pickup(settings):
    """What the settings give, as a `WholePickup`; the last ones are kept.

    Parameters
    ----------
    settings : Settings

    Returns
    -------
    WholePickup

    Notes
    -----
    A stiff, damped string, plucked with a plectrum 1 mm wide (partials up to 10 kHz); the mean of its motion over 10 mm
    counts. The flux linkage is a curved map of height and place, so that a wide swing makes harmonics of its own. Poles
    and bar are straight lines; eddy currents flow in the poles where the settings say so. Left out: those in bars and
    covers, hysteresis, the magnets' pull on the string.

    Examples
    --------
    >>> near, far = (whole_pickup(Settings(height=height)) for height in (2.5e-3, 5e-3))
    >>> near.peak > far.peak
    True
    """
    tuned = parts.string_of(settings)
    most = _STEEPEST * tuned.tension
    force, held_back = (most, "tension") if settings.force > most else (settings.force, "")
    motion = tuned.pluck(force=force, place=settings.pluck_place, width=PLECTRUM, angle=settings.direction,
                         highest_frequency=HIGHEST_PARTIAL)
    time = np.arange(math.ceil(PERIODS * RATE / tuned.frequency(1)) + 1) / RATE
    moved, speed = _over_coils(motion, time, settings)
    share, why = _room(settings, moved)
    if share < 1:
        force, moved, speed, held_back = share * force, share * moved, share * speed, why
        motion = replace(motion, release_force=force)
    reached = parts.linkage_of(settings, float(np.abs(moved[:, 1]).max()), settings.height + float(moved[:, 0].min()))
    linkage, voltage = _induced(settings, reached, moved, speed)
    coil, rest = parts.coil_of(settings), (settings.height, settings.pole_y + settings.aside)
    return WholePickup(
        settings=settings, tuned=tuned, motion=motion, reached=reached, coil=coil, force=force, held_back=held_back,
        time=time, up=moved[0, 0], across=moved[0, 1], linkage=linkage, voltage=voltage,
        amplifier=coil.apply(voltage, RATE), harmonics=_harmonics(voltage, time, tuned),
        pole_flux=parts.pole_flux(parts.pickup_of(settings), settings.pole_number),
        sensitivity=-len(moved) * _turns(settings) * reached.gradient(*rest)[0].item())


_hiss = lru_cache(maxsize=64)(johnson_voltage)


def above_hiss_and_hum(one):
    """Signal at the amplifier's input above the hiss of coil and load, and above the hum, dB; None: no such thing.

    Parameters
    ----------
    one : WholePickup

    Returns
    -------
    tuple of (float or None)

    Notes
    -----
    The signal is the RMS of the pluck from the release on, as long as `one.time`, four periods. The hiss is that of
    20 Hz to 20 kHz (`physics.noise.johnson_voltage`), of currents in the metal too where it answers; the hum that of
    0.1 uT, RMS, at 50 Hz, upright. Left out: the amplifier's own noise, the mains' harmonics.
    """
    if not one.peak:
        return None, None
    signal = float(window_rms(one.amplifier, sample_rate=(one.time.size - 1) / one.time[-1], window=one.time[-1]))
    hum = one.hum * abs(one.coil.response(parts.HUM_AT))
    return float(signal_to_noise(signal, _hiss(one.coil))), (
        float(signal_to_noise(signal, hum)) if hum > _SILENT else None)


def _over_coils(motion, time, settings):
    """Displacement and velocity over each coil, up and across: two arrays of shape (coils, 2, n)."""
    return (np.stack([np.stack(quantity(time, place, aperture=LISTENS)) for place in parts.places_of(settings)])
            for quantity in (motion.displacement, motion.velocity))


def _room(settings, moved):
    """The share of a motion (up and across, m) for which there is room, and what takes the rest."""
    down, far = -float(moved[:, 0].min()), float(np.abs(moved).max())
    shares = {"pole": (settings.height - parts.lowest_of(settings)) / max(down, 1e-9),
              "wide": parts.WIDEST / max(far, 1e-9)}
    why = min(shares, key=shares.get)
    return 0.999 * shares[why] if shares[why] < 1 else 1.0, why


def _turns(settings):
    """Turns divided by the instrument's: in the same window every turn links what it linked before."""
    return settings.turns / settings.instrument.coil["turns"]


def _induced(settings, reached, moved, speed):
    """Linkage from that at rest (Wb-turns), and the open-circuit voltage (V), of all coils in series."""
    rest = settings.height, settings.pole_y + settings.aside
    place = rest[0] + moved[:, 0], rest[1] + moved[:, 1]
    by_height, by_y = reached.gradient(*place)
    share = _turns(settings)
    return (share * (reached.linkage(*place) - reached.linkage(*rest)).sum(axis=0),
            -share * (by_height * speed[:, 0] + by_y * speed[:, 1]).sum(axis=0))


def _harmonics(voltage, time, tuned):
    """Lines up to the highest partial; every second sample is enough for them."""
    count = int(HIGHEST_PARTIAL / tuned.frequency(1))
    while tuned.frequency(count) > HIGHEST_PARTIAL:
        count -= 1
    return harmonic_levels(voltage[::2], time[::2], fundamental=float(tuned.frequency(1)), count=count,
                           inharmonicity=tuned.inharmonicity)
