"""Noise: each resistor's own noise added up, equipartition, energies of a random circuit, closed forms, limits.

What is compared is often below 1e-12: abs=0, else approx would take anything.
"""
import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.constants import k as boltzmann
from scipy.integrate import quad
from scipy.linalg import solve_continuous_lyapunov

from coil_circuits import HOUSE, capacitance_noise, plain
from lessons_lib.base.workshop import house_coil
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.hum import hum_voltages
from lessons_lib.physics.noise import (
    HEARD,
    ROOM,
    amplifier_voltage,
    impedance_at_input,
    johnson_density,
    johnson_voltage,
    signal_to_noise,
    together,
    window_rms,
)
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.winding import LongCoil

FREQUENCIES = np.geomspace(20.0, 20e3, 13)
METAL = replace(HOUSE, loops=((0.2, 3e3), (0.1, 20e3)))


def noise_by_resistors(coil, frequency):
    """Density at the amplifier by node voltages: a noise current of 4 k T/R beside each resistor, powers added.

    Every part by the names of its two ends; the circuit is written here once more.
    """
    s = 2j * math.pi * frequency
    amplifier = "coil" if coil.volume_setting == 1 else "amplifier"      # wiper at the end of its track
    tone = "coil" if coil.tone_setting == 0 else "tone"
    behind = ["wire", *(f"loop {number}" for number in range(len(coil.loops))), "ground"]
    parts = [("coil", "ground", s * coil.capacitance), (amplifier, "ground", s * coil.cable_capacitance),
             (tone, "ground", s * coil.tone_capacitance)]
    parts += [(*behind[number:number + 2], 1 / (s * inductance))
              for number, inductance in enumerate([coil.inductance, *(L for L, _ in coil.loops)])]
    resistors = [("coil", "wire", coil.resistance), (amplifier, "ground", coil.input_resistance),
                 ("coil", tone, coil.tone_setting * coil.tone_resistance),
                 ("coil", amplifier, (1 - coil.volume_setting) * coil.volume_resistance),
                 (amplifier, "ground", coil.volume_setting * coil.volume_resistance),
                 *((*behind[number:number + 2], R) for number, (_, R) in enumerate(coil.loops, start=1))]
    resistors = [part for part in resistors if part[0] != part[1]]
    nodes = sorted({end for part in parts + resistors for end in part[:2]} - {"ground"})

    def step(one, other):
        return np.array([(node == one) - float(node == other) for node in nodes])
    matrix = sum(admittance * np.outer(step(*ends), step(*ends))
                 for *ends, admittance in parts + [(*ends, 1 / ohm) for *ends, ohm in resistors])
    across = np.linalg.solve(matrix, np.transpose([step(*ends) for *ends, _ in resistors]))[nodes.index(amplifier)]
    return sum(4 * boltzmann * ROOM / ohm * abs(one) ** 2 for one, (*_, ohm) in zip(across, resistors))


@pytest.mark.parametrize("coil", [
    HOUSE, replace(HOUSE, volume_setting=0.5, tone_setting=0.3), replace(HOUSE, tone_setting=0.0),
    METAL, replace(METAL, volume_setting=0.2)], ids=["house", "turned down", "dull", "metal", "metal, turned down"])
def test_every_resistors_noise_adds_up_to_nyquists(coil):
    summed = [noise_by_resistors(coil, frequency) for frequency in FREQUENCIES]
    assert johnson_density(impedance_at_input(coil, frequency=FREQUENCIES)) == pytest.approx(summed, rel=1e-8, abs=0)


def test_density_of_a_resistor():
    # 4 nV per root of a hertz for 1 kohm, 0.13 for 1 ohm: rules of thumb of electronics, from memory
    assert math.sqrt(johnson_density(1e3)) == pytest.approx(4e-9, rel=0.01)
    assert math.sqrt(johnson_density(1.0)) == pytest.approx(0.13e-9, rel=0.03)
    # closed form, k from the SI (1.380649e-23 J/K, exact)
    assert johnson_density(8.7e3, temperature=300.0) == pytest.approx(4 * 1.380649e-23 * 300 * 8.7e3, rel=1e-12, abs=0)
    # 8.7 kohm alone in 20 kHz, computed by other hands: 1.68 uV
    assert amplifier_voltage(math.sqrt(johnson_density(8.7e3)), band=(1e-3, 20e3)) == pytest.approx(1.68e-6, abs=5e-9)


@pytest.mark.parametrize("resistance", [1e3, 8.7e3, 30e3])
@pytest.mark.parametrize("inductance", [0.5, 2.16, 8.0])
def test_equipartition_whatever_resistance_and_inductance(resistance, inductance):
    """The integral over all frequencies by scipy; computed by other hands: 2.596 to 2.597 uV for 600 pF."""
    coil = plain(resistance=resistance, inductance=inductance, capacitance=600e-12, load=143e3)
    top = math.log(coil.natural_frequency)

    def of_an_e_fold(log):
        frequency = math.exp(log)
        return johnson_density(impedance_at_input(coil, frequency=frequency)) * frequency
    whole, _ = quad(of_an_e_fold, top - 20, top + 20, points=[top], limit=400, epsabs=0)
    assert math.sqrt(whole) == pytest.approx(capacitance_noise(600e-12), rel=1e-5)
    assert capacitance_noise(600e-12) == pytest.approx(2.5965e-6, abs=1.0e-9)


def test_energy_of_a_random_circuit():
    """Covariance of current and voltage in white noise, by Lyapunov's equation: each store has k T/2."""
    R, L, C, load = 8.7e3, 2.16, 600e-12, 143e3
    scale = math.sqrt(L * C)        # of time: else the equation is badly scaled
    drift = scale * np.array([[-R / L, -1 / L], [1 / C, -1 / (load * C)]])
    push = scale * 2 * boltzmann * ROOM * np.diag([R / L ** 2, 1 / (load * C ** 2)])    # two-sided densities
    current, voltage = np.diag(solve_continuous_lyapunov(drift, -push))
    assert voltage == pytest.approx(capacitance_noise(C) ** 2, rel=1e-9, abs=0)
    assert L * current / 2 == pytest.approx(boltzmann * ROOM / 2, rel=1e-9, abs=0)


def test_band():
    """The band of the ear against scipy's quadrature, where the peak is highest; all frequencies against k T/C."""
    for coil in (HOUSE, METAL, plain(resistance=2e3, inductance=4.0, capacitance=600e-12)):
        peak = coil.peak()[0]
        whole, _ = quad(lambda f: johnson_density(impedance_at_input(coil, frequency=f)), *HEARD, points=[peak],
                        limit=2000, epsabs=0)
        assert johnson_voltage(coil) == pytest.approx(math.sqrt(whole), rel=1e-5)
    assert johnson_voltage(HOUSE, band=(1e-2, 1e10)) == pytest.approx(capacitance_noise(600e-12), rel=1e-4)
    # turned down, the track is between cable and coil: at its highest frequencies the amplifier sees the cable alone
    down = replace(HOUSE, volume_setting=0.5)
    assert johnson_voltage(down, band=(1e-2, 1e10)) == pytest.approx(capacitance_noise(500e-12), rel=1e-4)


def test_limits():
    assert johnson_voltage(HOUSE, temperature=0.0) == 0 == capacitance_noise(600e-12, temperature=0.0)
    assert johnson_voltage(replace(HOUSE, volume_setting=0.0)) == 0
    assert johnson_voltage(HOUSE, temperature=4 * ROOM) == pytest.approx(2 * johnson_voltage(HOUSE))
    # nothing that takes energy does not hiss: to first order in the resistance, far below the resonance
    for resistance in (1.0, 1e-6):
        hiss = johnson_voltage(plain(resistance=resistance, inductance=2.0, capacitance=0.0))
        assert hiss == pytest.approx(amplifier_voltage(math.sqrt(johnson_density(resistance))), rel=1e-5, abs=0)
    # a coil without a load: its wire alone
    lone = plain(resistance=8.7e3, inductance=2.0, capacitance=0.0)
    densities = johnson_density(impedance_at_input(lone, frequency=FREQUENCIES))
    assert densities == pytest.approx(np.full(13, 4 * boltzmann * ROOM * 8.7e3), rel=1e-12, abs=0)


def test_hum_of_the_house_coil_in_the_same_units():
    # by other hands: 0.1 uT at 50 Hz, 131 uV in the air coil; with the mean radius for all turns, half a per cent low
    of_mean_radius = 7600 * (51e-3 * 9.4e-3 + math.pi * 4.7e-3 ** 2)
    assert 2 * math.pi * 50 * of_mean_radius * 1e-7 == pytest.approx(131e-6, abs=0.5e-6)
    hum = hum_voltages(Pickup(poles=(), coils=LongCoil(**house_coil)), flux_density=1e-7, frequency=50.0)
    assert hum == pytest.approx([131e-6], rel=0.006)


def test_signal_over_noise():
    rate = 48000
    time = np.arange(rate) / rate
    dying = np.exp(-time / 0.1) * np.sin(2 * math.pi * 400 * time)
    # closed form: the mean of exp(-2 t/tau)/2 over the window, whole periods; (decay over a period)^2 is left
    expected = math.sqrt(0.1 / (4 * 0.05) * -math.expm1(-2 * 0.05 / 0.1))
    assert window_rms(dying, sample_rate=rate, window=0.05) == pytest.approx(expected, rel=1e-3)
    assert window_rms([dying, 2 * dying], sample_rate=rate, window=0.05) == pytest.approx([expected, 2 * expected],
                                                                                         rel=1e-3)
    assert signal_to_noise(1.0, 1e-3) == pytest.approx(60)
    assert signal_to_noise(1.0, 0.0) == math.inf
    assert together(5e-6, 12e-6, 0.0) == pytest.approx(13e-6)


def test_bad_arguments():
    for call, sentence in (
            (lambda: johnson_density(-1.0), "impedance must be of a real part of zero or above"),
            (lambda: johnson_density(1.0, temperature=-1.0), "temperature must be"),
            (lambda: johnson_voltage(HOUSE, band=(20e3, 20.0)), "band must be from a lower to a higher frequency"),
            (lambda: amplifier_voltage(1e-9, band=(0.0, 20.0)), "low_end_of_the_band must be"),
            (lambda: window_rms([1.0, 2.0], sample_rate=1.0, window=3.0), "window must be from one sample")):
        with pytest.raises(ValueError, match=sentence):
            call()


def test_type_is_that_of_a_loaded_coil():
    assert isinstance(HOUSE, LoadedCoil) and isinstance(johnson_voltage(HOUSE), float)
