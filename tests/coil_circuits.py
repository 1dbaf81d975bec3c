"""Circuits that tests of the coil's response and of its filter share."""
import math

from scipy.constants import k as boltzmann

from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.noise import ROOM

HOUSE = LoadedCoil(resistance=8.6e3, inductance=2.17, capacitance=100e-12, volume_resistance=250e3,
                   tone_resistance=500e3, tone_capacitance=22e-9, cable_capacitance=500e-12)


def plain(*, resistance, inductance, capacitance, load=math.inf):
    return LoadedCoil(resistance=resistance, inductance=inductance, capacitance=capacitance, input_resistance=load)


def capacitance_noise(capacitance, *, temperature=ROOM):
    """V, RMS, of all frequencies: equipartition, C V^2/2 = k T/2 in the mean, whatever passive circuit is across it."""
    return math.sqrt(boltzmann * temperature / capacitance)
