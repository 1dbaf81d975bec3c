"""What tests of lesson 6 share: the house coil with its controls and cable, alone, and on a meter."""
from lessons_lib.lessons.lesson_06.model import HOUSE, level, loaded_coil, meter, response

COIL = loaded_coil(**HOUSE)
R, L = COIL.resistance, COIL.inductance
C = HOUSE["own"] + HOUSE["cable"]
NO_CABLE = response(cable=0.0)
AT = meter(gauge=44, turns=7600, capacitance=100e-12, frequency=10e3)


def load(volume=250e3, tone=500e3, amplifier=1e6):
    return 1 / (1 / volume + 1 / tone + 1 / amplifier)


def apart(setting, frequency=5e3):
    """Level at a frequency (Hz) relative to that at the lowest ones, dB."""
    coil = loaded_coil(**{**HOUSE, "volume_setting": setting})
    return float(level(coil, frequency)) - coil.low_frequency_level
