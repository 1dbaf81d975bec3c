"""The plain functions behind the panels of lesson 6: SI numbers in, small records and arrays out.

The coil is the instrument's form with other turns and other wire; the winding always fills the same window.
"""
import math
from dataclasses import dataclass, replace
from functools import lru_cache
from types import MappingProxyType

import numpy as np

from lessons_lib.base.as_made import as_made
from lessons_lib.base.materials import magnet_grade, magnet_wire
from lessons_lib.base.workshop import house_load
from lessons_lib.lessons.instrument import alloy_by, house_instrument
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.spread import band


def first_setting(instrument):
    """The instrument's coil with the house load, as the arguments of `loaded_coil`: where the panels begin."""
    return MappingProxyType({
        "gauge": instrument.gauge, "turns": instrument.coil["turns"], "own": house_load["capacitance"],
        "cable": house_load["cable_capacitance"], "volume": house_load["volume_resistance"], "volume_setting": 1.0,
        "tone": house_load["tone_resistance"], "tone_setting": 1.0, "amplifier": house_load["input_resistance"],
        "metal_answers": False})


HOUSE = first_setting(house_instrument)
TONE_CAPACITOR = house_load["tone_capacitance"]
LOWEST, HIGHEST = 100.0, 20e3   # Hz, the axis of every response
TREBLE = 10e3                   # Hz, far above the house coil's peak
LEAST_PEAK = 0.05               # dB above low frequencies; less is no peak
FREQUENCIES = np.geomspace(LOWEST, HIGHEST, 260)


def loaded_coil(*, gauge, turns, own, cable, volume, volume_setting, tone, tone_setting, amplifier,
                metal_answers=False, instrument=house_instrument):
    """The coil with its controls, cable and amplifier, as a LoadedCoil.

    Parameters
    ----------
    gauge, turns : float
        American gauge of the wire; turns in the window of the instrument's coil.
    own, cable : float
        Capacitance of the coil itself and of the cable, F.
    volume, tone, amplifier : float
        Whole tracks of the two controls and input resistance, ohm; infinite: none.
    volume_setting, tone_setting : float
        Share of the track, 0 to 1.
    metal_answers : bool
        Eddy currents flow in the rods.
    """
    return instrument.loaded(
        turns=turns, metal_answers=metal_answers, wire=magnet_wire(awg=gauge), capacitance=own,
        cable_capacitance=cable, volume_resistance=volume, volume_setting=volume_setting, tone_resistance=tone,
        tone_setting=tone_setting, tone_capacitance=TONE_CAPACITOR, input_resistance=amplifier)


def whole_inductance(coil):
    """Inductance (H) of a LoadedCoil at low frequencies, where no current flows across its loops."""
    return coil.inductance + sum(inductance for inductance, _ in coil.loops)


# ---- the response ----------------------------------------------------------------------------------------------------

@dataclass(frozen=True, kw_only=True)
class Response:
    """Readings of one loaded coil.

    turns_that_fit; resistance (ohm); inductance (H, at low frequencies); undamped, 1/(2 pi sqrt(L C)) of all
    capacitance at the coil but the tone control's (Hz); peak, as `peak_shown`; peak_height above low frequencies,
    low_level, level at 10 kHz relative to the induced voltage, (dB); minus_3_db (Hz); q_factor; settings as given.
    """

    turns_that_fit: int
    resistance: float
    inductance: float
    undamped: float
    peak: tuple | None
    peak_height: float
    low_level: float
    treble_level: float
    minus_3_db: float
    q_factor: float
    settings: MappingProxyType

    @property
    def peak_frequency(self):
        """The peak's, Hz; None without one."""
        return self.peak and self.peak[0]

    @property
    def fits(self):
        """Whether the turns go into the window with this wire."""
        return self.settings["turns"] <= self.turns_that_fit


def level(coil, frequency):
    """Level (dB) at the amplifier relative to the voltage induced in the coil."""
    return 20 * np.log10(np.abs(coil.response(frequency)))


@lru_cache(maxsize=64)
def peak_of(coil):
    """Frequency of a coil's peak (Hz), and its height above the lowest frequencies (dB); kept."""
    place, top = coil.peak()
    return place, top - coil.low_frequency_level


def peak_shown(coil):
    """A coil's peak (Hz, dB relative to the induced voltage); None where it is hardly above the lowest frequencies."""
    place, height = peak_of(coil)
    return (place, coil.low_frequency_level + height) if height > LEAST_PEAK else None


@lru_cache(maxsize=256)
def response(*, instrument=house_instrument, **settings):
    """What a loaded coil does, as a `Response`; settings left out are the instrument's first ones.

    Examples
    --------
    >>> short, long = response(cable=250e-12), response(cable=1000e-12)
    >>> long.peak_frequency < short.peak_frequency
    True
    """
    settings = {**first_setting(instrument), **settings}
    coil = loaded_coil(**settings, instrument=instrument)
    inductance = whole_inductance(coil)
    return Response(
        turns_that_fit=instrument.winding(settings["turns"]).turns_that_fit(magnet_wire(awg=settings["gauge"])),
        resistance=coil.resistance, inductance=inductance,
        undamped=1 / (2 * math.pi * math.sqrt(inductance * (coil.capacitance + coil.cable_capacitance))),
        peak=peak_shown(coil), peak_height=peak_of(coil)[1], low_level=coil.low_frequency_level,
        treble_level=float(level(coil, TREBLE)), minus_3_db=coil.minus_3_db()[0], q_factor=coil.q_factor,
        settings=MappingProxyType(settings))


def beside(first, coil):
    """What ResponseOverFrequency.update takes for a coil beside another one."""
    low = coil.low_frequency_level
    return {"frequency": FREQUENCIES, "house": level(first, FREQUENCIES), "this": level(coil, FREQUENCIES),
            "low_level": low, "peak": peak_shown(coil), "house_peak": peak_shown(first),
            "minus_3_db": (coil.minus_3_db()[0], low - 10 * math.log10(2))}


def response_curves(one, instrument=house_instrument, **_):
    """What ResponseOverFrequency.update takes for a `Response`."""
    return beside(*(loaded_coil(**settings, instrument=instrument)
                    for settings in (first_setting(instrument), one.settings)))


def circuit_and_curves(one, instrument=house_instrument, **_):
    """What CoilCircuit.update and ResponseOverFrequency.update take for a `Response`."""
    names = ("own", "cable", "volume", "volume_setting", "tone", "tone_setting", "amplifier")
    values, first = {name: one.settings[name] for name in names}, first_setting(instrument)
    changed = tuple(name for name, value in values.items() if not math.isclose(value, first[name]))
    return {"circuit": {"resistance": one.resistance, "inductance": one.inductance, "tone_capacitor": TONE_CAPACITOR,
                        "changed": changed} | values, "response": response_curves(one, instrument)}


# ---- coils of one description ----------------------------------------------------------------------------------------

AS_BUILT = {"turns": "the number of turns", "own": "the self-capacitance", "recoil": "the rods' recoil permeability"}


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


# ---- what a meter reads ----------------------------------------------------------------------------------------------

@dataclass(frozen=True, kw_only=True)
class Reading:
    """What a component meter says at one frequency (Hz): series inductance (H) and resistance (ohm), quality."""

    frequency: float
    inductance: float
    resistance: float

    @property
    def quality(self):
        """Reactance divided by resistance, as a magnitude."""
        return abs(2 * math.pi * self.frequency * self.inductance / self.resistance)


@dataclass(frozen=True, kw_only=True)
class Meter:
    """Readings at 120 Hz, at 1 kHz and at the chosen frequency; the coil at the clips; its self-resonance (Hz)."""

    at_120: Reading
    at_1000: Reading
    chosen: Reading
    coil: LoadedCoil

    @property
    def inductance(self):
        """What is put in, at low frequencies, H."""
        return whole_inductance(self.coil)

    @property
    def resistance(self):
        """The wire's, ohm."""
        return self.coil.resistance

    @property
    def self_resonance(self):
        """The coil's with nothing but its capacitance, but for damping, Hz: 1/(2 pi sqrt(L C)) without loops."""
        return replace(self.coil, input_resistance=math.inf).natural_frequency


def reading(coil, frequency):
    """What a component meter reads on a `LoadedCoil` at a frequency (Hz; arrays broadcast), as a `Reading`.

    Notes
    -----
    The meter takes whatever is at its clips for an inductance and a resistance in series: Im Z / (2 pi f) and Re Z.

    Examples
    --------
    >>> one = reading(LoadedCoil(resistance=6.5e3, inductance=3.0, capacitance=100e-12), 10e3)
    >>> round(one.inductance, 1)
    -15.6
    """
    impedance = coil.impedance(frequency)
    return Reading(frequency=frequency, inductance=impedance.imag / (2 * math.pi * frequency),
                   resistance=impedance.real)


def meter(*, gauge, turns, capacitance, frequency, metal_answers=False, instrument=house_instrument):
    """Readings on a coil without controls and cable, *capacitance* (F) across its ends, as a `Meter`."""
    coil = instrument.loaded(turns=turns, wire=magnet_wire(awg=gauge), capacitance=capacitance,
                             metal_answers=metal_answers)
    return Meter(at_120=reading(coil, 120.0), at_1000=reading(coil, 1000.0), chosen=reading(coil, frequency), coil=coil)


def meter_curves(one, **_):
    """What MeterOverFrequency.update takes for a `Meter`."""
    # close to the resonance the sign changes within a few hertz
    near = one.self_resonance * (1 + np.array([-0.02, -0.01, -0.005, -0.002, 0.002, 0.005, 0.01, 0.02]))
    frequencies = np.sort(np.append(FREQUENCIES, near[(near > LOWEST) & (near < HIGHEST)]))
    return {"frequency": frequencies, "read": reading(one.coil, frequencies).inductance, "true": one.inductance,
            "self_resonance": one.self_resonance, "quality": one.chosen.quality,
            "marks": [(r.frequency, r.inductance) for r in (one.at_120, one.at_1000, one.chosen)]}
