"""What tests of lesson 8 share: the readings of the invented files, and what is fitted to them."""
import math

import numpy as np

from lessons_lib.base.workshop import house_magnet
from lessons_lib.lessons.lesson_08.model import COIL_RESISTANCE, NOISE, shared_error
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.fits import fit_added_capacitance, fit_exciter_response, fit_gauss_readings
from lessons_lib.workbench.bench import from_bench
from notebooks import NOTEBOOKS

DATA = NOTEBOOKS / "data"
GUIDE = (DATA / "WORKBENCH.md").read_text(encoding="utf-8")
ROD = {name: house_magnet[name] for name in ("diameter", "length")}


def read(name):
    return from_bench(name, DATA)


CAPACITORS, EXCITER, GAUSS, METER = map(read, (
    "resonance_with_capacitors.csv", "exciter_response.csv", "gauss_against_distance.csv", "meter_readings.csv"))
COIL = fit_added_capacitance(CAPACITORS["added capacitance"], CAPACITORS["resonance"])
RESPONSE = fit_exciter_response(EXCITER["frequency"], EXCITER["voltage"], resistance=COIL_RESISTANCE,
                                added_capacitance=EXCITER["added capacitance"], uncertainty=0.02 * EXCITER["voltage"])


def rod_fitted(**model):
    return fit_gauss_readings(GAUSS["distance"], GAUSS["flux density"], **ROD, **model,
                              uncertainty=NOISE * GAUSS["flux density"])


UNIFORM, LINE, ALNICO = rod_fitted(), rod_fitted(recoil_permeability=3.6), rod_fitted(grade="alnico 5")
WRONG, FAR = (shared_error(zero=1e-3, reach=reach) for reach in (10e-3, 20e-3))


def half_of_interval(fit, name):
    low, high = fit.interval(name)
    return (high - low) / 2


def corrected_peak():
    """The peak of the bare coil's response, times 1 + 1/(4Q^2), over its resonance."""
    coil = LoadedCoil(resistance=COIL_RESISTANCE, inductance=RESPONSE["inductance"],
                      capacitance=RESPONSE["capacitance"], input_resistance=RESPONSE["load_resistance"])
    resonance = 1 / (2 * math.pi * math.sqrt(RESPONSE["inductance"] * RESPONSE["capacitance"]))
    frequency = np.linspace(0.9, 1.05, 30_001) * resonance
    peak = frequency[np.abs(coil.response(frequency)).argmax()]
    return peak / resonance * (1 + 1 / (4 * coil.q_factor ** 2))
