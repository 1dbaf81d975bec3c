"""How far a pluck of the whole pickup is above the hiss of coil and load, and above the hum."""
from functools import lru_cache

from lessons_lib.lessons.whole_pickup.parts import HUM_AT
from lessons_lib.physics.noise import johnson_voltage, signal_to_noise, window_rms

_SILENT = 1e-10     # V, a hum under it is rounding: a pair's cancels


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
    hum = one.hum * abs(one.coil.response(HUM_AT))
    return float(signal_to_noise(signal, _hiss(one.coil))), (
        float(signal_to_noise(signal, hum)) if hum > _SILENT else None)
