"""Signal, hum and hiss of a coil against its turns: SI numbers in, a small record and arrays out.

The wire just fills the window of the instrument's coil, whatever the turns; the coil is open, without a load.
"""
import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_04.model import swing
from lessons_lib.lessons.lesson_04.window import filling_wire
from lessons_lib.physics.hum import hum_voltages
from lessons_lib.physics.noise import amplifier_voltage, johnson_density, signal_to_noise, together

FEWEST, MOST = 100, 50_000      # turns that are shown
STRAY, MAINS = 1e-7, 50.0       # T, RMS, Hz: an assumed field round the pickup
SWUNG, AT = 0.6e-3, 200.0       # m, Hz: the swing that is the signal


@dataclass(frozen=True, kw_only=True)
class Hiss:
    """At the amplifier with an open coil of so many turns, V RMS: signal, hum, coil, amplifier (their hiss in the band
    that is heard); alike: turns with which both hisses are equal."""

    signal: float
    hum: float
    coil: float
    amplifier: float
    alike: float

    @property
    def alike_in_words(self):
        """To two figures."""
        return f"{float(f'{self.alike:.2g}'):.0f}"

    @property
    def above_both(self):
        """Signal above coil's and amplifier's hiss together, dB."""
        return signal_to_noise(self.signal, together(self.coil, self.amplifier))

    @property
    def above_coil(self):
        """Signal above the coil's own hiss, dB."""
        return signal_to_noise(self.signal, self.coil)

    @property
    def above_hum(self):
        """Signal above hum, dB."""
        return signal_to_noise(self.signal, self.hum)


@lru_cache(maxsize=4)
def _of_its_coil(instrument):
    """Signal and hum (V, RMS) of the instrument's coil, and its resistance (ohm) with a wire that just fills."""
    turns = instrument.coil["turns"]
    signal = swing(height=instrument.place["string_height"], offset=0.0, direction=0.0, amplitude=SWUNG, frequency=AT,
                   turns=turns, instrument=instrument).rms
    hum, = hum_voltages(instrument.pickup, flux_density=STRAY, frequency=MAINS)
    return signal, abs(float(hum)), instrument.long_coil.resistance(filling_wire(turns, instrument))


def hiss(*, turns, density, instrument=house_instrument):
    """Signal, hum and hiss of so many *turns* with an amplifier of a noise *density* (V per root Hz), as a `Hiss`.

    Notes
    -----
    Each turn links what it linked before, and enamel takes the same share of the window: signal and hum go with the
    turns, resistance with their square. The signal is the RMS of the plain third that swings 0.6 mm at 200 Hz over its
    pole. Left out: the load, that an amplifier's noise grows towards low frequencies, hum that comes in electrically.

    Examples
    --------
    >>> few, many = (hiss(turns=turns, density=10e-9) for turns in (1000, 50000))
    >>> bool(abs(few.above_coil - many.above_coil) < 1e-9 and many.above_both > few.above_both + 15)
    True
    """
    signal, hum, resistance = _of_its_coil(instrument)
    more, own = np.divide(turns, instrument.coil["turns"]), math.sqrt(johnson_density(resistance))
    return Hiss(signal=signal * more, hum=hum * more, coil=amplifier_voltage(own) * more,
                amplifier=amplifier_voltage(density), alike=instrument.coil["turns"] * density / own)


def hiss_curves(one, *, turns, density, instrument=house_instrument):
    """What `hiss_figure` draws."""
    counts = np.geomspace(FEWEST, MOST, 41)
    over = hiss(turns=counts, density=density, instrument=instrument)
    return {"turns": counts, "at": turns, "alike": one.alike,
            "words": f"hisses alike at {one.alike_in_words}",
            "voltages": {"signal": over.signal, "hum": over.hum, "coil": over.coil,
                         "amplifier": np.full(counts.shape, over.amplifier)},
            "levels": {"above_coil": over.above_coil, "above_both": over.above_both, "above_hum": over.above_hum}}
