"""The coil as a circuit against closed forms, worked examples of a textbook and an independent nodal solution."""
import math
from dataclasses import replace

import numpy as np
import pytest

from coil_circuits import HOUSE, plain
from lessons_lib.physics.coil_response import LoadedCoil


def decibel(response):
    return 20 * np.log10(np.abs(response))


# Independent solution: every element a branch between nodes, its admittance stamped into a matrix, the source as a
# current through the coil's branch. Zero resistances are written as a thousandth of an ohm.

def nodal_solution(coil, frequency, *, unplugged=False):
    """(voltage at the wiper for 1 V induced, the same for 1 A driven into the wiper with the source still)."""
    s = 2j * math.pi * frequency
    hot, middle, wiper = 0, 1, 2
    track, tone = coil.volume_resistance, coil.tone_resistance * coil.tone_setting
    branches = [(hot, None, 1 / (coil.resistance + s * coil.inductance)), (hot, None, s * coil.capacitance),
                (hot, middle, 1 / max(tone, 1e-3)), (middle, None, s * coil.tone_capacitance),
                (hot, wiper, 1 / max(track * (1 - coil.volume_setting), 1e-3)),
                (wiper, None, 1 / max(track * coil.volume_setting, 1e-3))]
    if not unplugged:
        branches += [(wiper, None, s * coil.cable_capacitance), (wiper, None, 1 / coil.input_resistance)]
    matrix = np.zeros((3, 3), dtype=complex)
    for start, end, admittance in branches:
        matrix[start, start] += admittance
        if end is not None:
            matrix[end, end] += admittance
            matrix[start, end] -= admittance
            matrix[end, start] -= admittance
    source = np.zeros(3, dtype=complex)
    source[hot] = branches[0][2]
    return np.linalg.solve(matrix, source)[wiper], np.linalg.solve(matrix, np.eye(3)[wiper])[wiper]


@pytest.mark.parametrize("volume", [0.0, 0.03, 0.5, 0.9, 1.0])
@pytest.mark.parametrize("tone", [0.0, 0.1, 0.6, 1.0])
def test_network_against_a_nodal_matrix(volume, tone):
    coil = replace(HOUSE, volume_setting=volume, tone_setting=tone)
    for frequency in (1.0, 80.0, 1e3, 4e3, 2e4):
        response, _ = nodal_solution(coil, frequency)
        _, impedance = nodal_solution(coil, frequency, unplugged=True)
        # the thousandths of an ohm among kilo-ohms move it by up to 1e-6, and the matrix (1e9) rounds to 1e-7
        assert coil.response(frequency) == pytest.approx(response, rel=2e-6, abs=1e-8)
        assert coil.impedance(frequency) == pytest.approx(impedance, rel=2e-6, abs=2e-3)


@pytest.mark.parametrize("resistance, inductance, capacitance, load", [
    (6.5e3, 3.0, 600e-12, math.inf), (6.5e3, 3.0, 600e-12, 200e3), (9e3, 2.0, 1e-9, 90e3), (5e3, 5.0, 450e-12, 1e6)])
def test_second_order_closed_forms(resistance, inductance, capacitance, load):
    # Any second-order filter chapter, from memory: H = 1 / ((1 + R/RL) + s (L/RL + R C) + s^2 L C)
    coil = plain(resistance=resistance, inductance=inductance, capacitance=capacitance, load=load)
    low = 1 + resistance / load
    omega = math.sqrt(low / (inductance * capacitance))
    quality = math.sqrt(inductance * capacitance * low) / (inductance / load + resistance * capacitance)
    frequency, level = coil.peak()
    assert coil.natural_frequency == pytest.approx(omega / (2 * math.pi), rel=1e-9)
    assert coil.q_factor == pytest.approx(quality, rel=1e-9)
    assert coil.low_frequency_level == pytest.approx(-20 * math.log10(low), abs=1e-12)
    assert frequency == pytest.approx(omega / (2 * math.pi) * math.sqrt(1 - 1 / (2 * quality**2)), rel=1e-9)
    assert level - coil.low_frequency_level == pytest.approx(
        20 * math.log10(quality / math.sqrt(1 - 1 / (4 * quality**2))), abs=1e-9)
    wave = 2j * math.pi * 1234.0
    drive = low + wave * (inductance / load + resistance * capacitance) + wave**2 * inductance * capacitance
    assert coil.response(1234.0) == pytest.approx(1 / drive, rel=1e-12)


def test_maximally_flat_and_unit_quality():
    # Q = 1/sqrt 2: no peak, -3.01 dB at f0; Q = 1: peak 1.1547 at 0.7071 f0 (exact)
    flat = plain(resistance=math.sqrt(2), inductance=1.0, capacitance=1.0)
    assert flat.peak() == (0.0, 0.0)
    assert flat.minus_3_db() == (pytest.approx(1 / (2 * math.pi)),)
    unit = plain(resistance=1.0, inductance=1.0, capacitance=1.0)
    frequency, level = unit.peak()
    assert 2 * math.pi * frequency == pytest.approx(math.sqrt(0.5))
    assert 10 ** (level / 20) == pytest.approx(2 / math.sqrt(3))


def test_overdamped_coil_has_two_real_poles():
    coil = plain(resistance=5.0, inductance=1.0, capacitance=1.0)
    assert coil.q_factor == pytest.approx(1 / 5)
    assert coil.peak() == (0.0, 0.0)


# S. J. Ling, J. Sanny, W. Moebs, University Physics, OpenStax 2016. A series circuit driven by a voltage is this
# circuit without load: the current is the response times j w C. Tolerance: half a unit of the printed digits.

def series_current(coil, frequency):
    return coil.response(frequency) * 2j * math.pi * frequency * coil.capacitance


def test_textbook_series_circuit():
    # m58658: R 4.00 ohm, L 3.00 mH, C 0.800 mF, 200 Hz, 0.100 V: Z 4.87 ohm, I0 2.05e-2 A, phase 0.607 rad
    coil = plain(resistance=4.00, inductance=3.00e-3, capacitance=0.800e-3)
    current = series_current(coil, 200.0)
    assert abs(1 / current) == pytest.approx(4.87, abs=0.005)
    assert 0.100 * abs(current) == pytest.approx(2.05e-2, abs=0.005e-2)
    assert -np.angle(current) == pytest.approx(0.607, abs=0.001)   # the book rounds on its way
    # m58492, the same circuit at resonance: 103 Hz, 2.50e-2 A
    assert coil.natural_frequency == pytest.approx(102.73, abs=0.005)
    assert 0.100 * abs(series_current(coil, coil.natural_frequency)) == pytest.approx(2.50e-2, rel=1e-9)


def test_textbook_quality():
    # m58492: R 0.200 ohm, L 4.00 mH, C 2.00 uF: w0 1.12e4 rad/s, Q 224 (223.6), width 50.0 rad/s
    coil = plain(resistance=0.200, inductance=4.00e-3, capacitance=2.00e-6)
    assert 2 * math.pi * coil.natural_frequency == pytest.approx(1.118e4, abs=5)
    assert coil.q_factor == pytest.approx(223.6, abs=0.05)
    lower, upper = coil.minus_3_db("peak")
    assert 2 * math.pi * (upper - lower) == pytest.approx(50.0, abs=0.05)


def test_textbook_oscillation():
    # m58754: L 20 mH, C 8.0 uF: w 2.5e3 rad/s; nearly no resistance
    coil = plain(resistance=1e-6, inductance=20e-3, capacitance=8.0e-6)
    assert 2 * math.pi * coil.natural_frequency == pytest.approx(2.5e3, rel=1e-9)


def test_measured_wound_inductor():
    # C. E. LaForest: 100 mH, 210 ohm, self-resonance 100 kHz: 25.33 pF, series Q 299.20
    coil = plain(resistance=210.0, inductance=0.100, capacitance=25.33e-12)
    assert coil.natural_frequency == pytest.approx(100e3, rel=1e-4)
    assert coil.q_factor == pytest.approx(299.20, abs=0.02)
    sweep = np.linspace(95e3, 105e3, 10001)   # where a meter finds its largest impedance
    assert sweep[np.argmax(np.abs(coil.impedance(sweep)))] == pytest.approx(100e3, rel=1e-4)


# The reference curves of the course (computed when it was designed): levels over the low frequencies.
@pytest.mark.parametrize("capacitance, load, kilohertz, level", [
    (100e-12, 1e6, 9.1, 13.6), (600e-12, 1e6, 3.74, 15.8), (600e-12, 200e3, 3.62, 7.4), (600e-12, 100e3, 3.24, 2.9),
    (1000e-12, 200e3, 2.84, 8.4)])
def test_reference_curves(capacitance, load, kilohertz, level):
    coil = plain(resistance=6.5e3, inductance=3.0, capacitance=capacitance, load=load)
    frequency, peak = coil.peak()
    assert frequency == pytest.approx(kilohertz * 1e3, rel=3e-3)
    assert peak - coil.low_frequency_level == pytest.approx(level, abs=0.05)
    assert peak == pytest.approx(decibel(coil.response(frequency)), abs=1e-9)


def test_reference_corner():
    coil = plain(resistance=6.5e3, inductance=3.0, capacitance=600e-12, load=200e3)
    (corner,) = coil.minus_3_db()
    assert corner == pytest.approx(5.7e3, rel=5e-3)
    assert decibel(coil.response(corner)) == pytest.approx(coil.low_frequency_level - 10 * math.log10(2), abs=1e-9)


@pytest.mark.parametrize("volume", [0.2, 0.7, 1.0])
@pytest.mark.parametrize("tone", [0.0, 0.05, 0.3, 1.0])
def test_peak_is_the_largest_of_a_fine_sweep(volume, tone):
    coil = replace(HOUSE, volume_setting=volume, tone_setting=tone)
    sweep = np.append(0.0, np.geomspace(1.0, 1e5, 20001))
    levels = decibel(coil.response(sweep))
    frequency, level = coil.peak()
    assert level == pytest.approx(levels.max(), abs=1e-5)
    assert frequency == pytest.approx(sweep[levels.argmax()], rel=1e-3, abs=1.0)


@pytest.mark.parametrize("tone", [0.0, 0.2, 1.0])
def test_poles_are_the_zeros_of_the_nodal_determinant(tone):
    coil = replace(HOUSE, volume_setting=0.6, tone_setting=tone)
    for pole in coil.poles():
        at_pole, _ = nodal_solution(coil, pole / (2j * math.pi))
        beside, _ = nodal_solution(coil, 1.1 * pole / (2j * math.pi))
        assert abs(at_pole) > 1e4 * abs(beside)


def test_house_load():
    # volume 250k, tone 500k at full treble, amplifier 1M. The parallel value 142k of the exercise counts the tone
    # control as a plain resistance: far above 1/(2 pi R C) = 14 Hz it is one.
    at_200 = abs(HOUSE.response(200.0))
    parallel = 1 / (1 / 250e3 + 1 / 500e3 + 1 / 1e6)
    # far below the resonance: the response has already risen by (200/4500)^2 = 2e-3
    assert at_200 == pytest.approx(parallel / (parallel + 8.6e3), rel=4e-3)


def test_resonance_is_told_from_the_tone_controls_own_slow_pole():
    # with full treble the tone control loads the resonance as its plain resistance: second-order forms, to 22n's share
    load = 1 / (1 / 250e3 + 1 / 500e3 + 1 / 1e6)
    alike = plain(resistance=8.6e3, inductance=2.17, capacitance=600e-12, load=load)
    assert len(HOUSE.poles()) == 3 and abs(HOUSE.poles()[0]) < 100 * 2 * math.pi
    assert HOUSE.q_factor == pytest.approx(alike.q_factor, rel=1e-2)
    assert HOUSE.natural_frequency == pytest.approx(alike.natural_frequency, rel=1e-2)


def test_meter_readings_of_one_coil():
    # A meter takes the imaginary part over w for the inductance: self-capacitance raises the reading at 1 kHz by
    # 1/(1 - f^2/fs^2), and at 120 Hz R^2 C = 4 mH is missing (first order, so to a percent of the difference)
    coil = plain(resistance=6.5e3, inductance=3.0, capacitance=100e-12)
    at_1000 = coil.impedance(1000.0).imag / (2 * math.pi * 1000.0)
    assert at_1000 == pytest.approx(3.0 / (1 - (1000.0 / coil.natural_frequency) ** 2), rel=3e-3)
    assert at_1000 == pytest.approx(3.03, abs=0.005)
    assert coil.impedance(120.0).imag / (2 * math.pi * 120.0) == pytest.approx(2.996, abs=0.001)


def test_settings_at_their_ends_are_exact():
    full = replace(HOUSE, volume_setting=1.0)
    by_hand = 1 / (1 / HOUSE.input_resistance + 1 / HOUSE.volume_resistance)
    merged = replace(HOUSE, volume_resistance=math.inf, input_resistance=by_hand)
    frequency = np.array([0.0, 100.0, 5e3])
    assert full.response(frequency) == pytest.approx(merged.response(frequency), rel=1e-12)
    silent = replace(HOUSE, volume_setting=0.0)
    assert (silent.response(frequency) == 0).all() and (silent.impedance(frequency) == 0).all()
    assert silent.low_frequency_level == -math.inf
    dark = replace(HOUSE, volume_resistance=math.inf, tone_setting=0.0)
    merged = replace(dark, tone_resistance=math.inf, capacitance=HOUSE.capacitance + HOUSE.tone_capacitance)
    assert dark.response(frequency) == pytest.approx(merged.response(frequency), rel=1e-12)


def test_what_is_infinite_or_nothing_is_left_out():
    bare = plain(resistance=6.5e3, inductance=3.0, capacitance=600e-12)
    frequency = np.geomspace(10.0, 2e4, 7)
    for other in (replace(bare, volume_setting=0.3), replace(bare, tone_setting=0.0, tone_capacitance=22e-9),
                  replace(bare, tone_setting=0.0, tone_resistance=5e5)):
        assert (other.response(frequency) == bare.response(frequency)).all()
    nearly_infinite = replace(bare, volume_resistance=1e15)
    assert nearly_infinite.response(frequency) == pytest.approx(bare.response(frequency), rel=1e-9)


def test_low_frequency_level_is_a_divider():
    # direct current: R against the parallel volume and amplifier; the tone capacitor blocks
    load = 1 / (1 / 250e3 + 1 / 1e6)
    assert HOUSE.low_frequency_level == pytest.approx(20 * math.log10(load / (load + 8.6e3)))


# Bad input

GOOD = {"resistance": 8.6e3, "inductance": 2.17, "capacitance": 1e-10}


@pytest.mark.parametrize("change, message", [
    ({"resistance": 0.0}, "resistance must be a finite number above zero; got 0.0."),
    ({"inductance": -1.0}, "inductance must be a finite number above zero; got -1.0."),
    ({"inductance": math.inf}, "inductance must be a finite number above zero; got inf."),
    ({"capacitance": math.nan}, "capacitance must be a finite number, zero or above; got nan."),
    ({"volume_resistance": 0.0}, "volume_resistance must be a finite number above zero; got 0.0."),
    ({"tone_resistance": -5e5}, "tone_resistance must be a finite number above zero; got -500000.0."),
    ({"input_resistance": math.nan}, "input_resistance must be a finite number above zero; got nan."),
    ({"volume_setting": 1.1}, "volume_setting must be a number from 0 to 1; got 1.1."),
    ({"tone_setting": -0.1}, "tone_setting must be a number from 0 to 1; got -0.1."),
    ({"cable_capacitance": -1e-12}, "cable_capacitance must be a finite number, zero or above; got -1e-12."),
])
def test_refused_circuits(change, message):
    with pytest.raises(ValueError) as caught:
        LoadedCoil(**(GOOD | change))
    assert str(caught.value) == message


@pytest.mark.parametrize("action, message", [
    (lambda coil: coil.response(-1.0), "frequency must be zero or above; got -1.0."),
    (lambda coil: coil.impedance([1.0, math.nan]), "frequency must be an array of finite numbers; got "),
    (lambda coil: replace(coil, volume_resistance=1e5, volume_setting=0).peak(),
     "volume_setting must be above 0 for a peak or a level; got 0."),
    (lambda coil: replace(coil, capacitance=0.0).q_factor, "capacitance must be above zero for a resonance; got 0.0."),
    (lambda coil: coil.minus_3_db("here"), "below must be one of 'low frequencies', 'peak'; got 'here'."),
])
def test_refused_calls(action, message):
    with pytest.raises(ValueError) as caught:
        action(LoadedCoil(**GOOD))
    assert str(caught.value).startswith(message)


def test_text_is_refused():
    with pytest.raises(TypeError, match="resistance must be a finite number above zero; got '8k6'."):
        LoadedCoil(**(GOOD | {"resistance": "8k6"}))
