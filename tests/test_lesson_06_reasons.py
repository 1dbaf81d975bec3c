"""Lesson 06: reasons and rules that its page gives, computed: resonance, Q, losses, what a meter reads."""
import math

import numpy as np
import pytest

from lesson_06_coil import AT, COIL, NO_CABLE, C, L, R, apart, load
from lessons_lib.lessons.lesson_06.model import HOUSE, TONE_CAPACITOR, level, loaded_coil, meter, reading, response
from lessons_lib.physics.coil_response import LoadedCoil
from notebooks import prose

PROSE = prose("06")


def test_far_above_the_resonance_the_level_falls_by_12_db_per_octave():
    without_controls = loaded_coil(**{**HOUSE, "volume": math.inf, "tone": math.inf})
    assert level(without_controls, 40e3) - level(without_controls, 80e3) == pytest.approx(12, abs=0.2)


def test_a_peak_of_high_q_stands_q_times_as_high():
    for loaded_with, within in ((400e3, 0.02), (100e3, 0.15)):
        coil = LoadedCoil(resistance=R, inductance=L, capacitance=C, input_resistance=loaded_with)
        assert 10 ** ((coil.peak()[1] - coil.low_frequency_level) / 20) == pytest.approx(coil.q_factor, rel=within)


def test_turned_down_half_of_the_loss_is_the_coils_and_half_the_wipers():
    """The circuit solved by hand: the level at the coil's end of the track, and the wiper's relative to it."""
    def levels(frequency, setting):
        s = 2j * math.pi * np.asarray(frequency)
        below = 1 / (s * HOUSE["cable"] + 1e-6 + 1 / (250e3 * setting))
        above = 250e3 * (1 - setting)
        end = 1 / (1 / (above + below) + s * HOUSE["own"] + 1 / (500e3 + 1 / (s * TONE_CAPACITOR)))
        return (20 * np.log10(abs(end / (end + R + s * L))), 20 * np.log10(abs(below / (above + below))))
    (house_end, _), (end, wiper) = (np.subtract(levels(5e3, setting), levels(0.01, setting)) for setting in (1.0, 0.5))
    assert house_end - end - wiper == pytest.approx(apart(1.0) - apart(0.5), abs=1e-3)
    assert [house_end - end, -wiper] == pytest.approx([5.5 / 2] * 2, abs=0.15) and "each about half of the 5.5" in PROSE
    flat = levels(np.geomspace(1e3, 20e3, 400), 0.5)[0].max() - levels(0.01, 0.5)[0]
    assert flat == pytest.approx(NO_CABLE.peak_height, abs=0.5) and "as flat as without one" in PROSE


def test_at_10_khz_the_meter_sees_a_small_difference_of_two_currents():
    own, coil = 2j * math.pi * 10e3 * 100e-12, 1 / (R + 2j * math.pi * 10e3 * L)
    assert abs(own / coil) == pytest.approx(0.85, abs=0.01) and abs(own + coil) < abs(own) / 5
    assert "the clips get only their small difference" in PROSE


def test_the_formulas_by_hand_are_the_librarys():
    by_hand = math.sqrt(L * C * (1 + R / load())) / (L / load() + R * C)
    plain = LoadedCoil(resistance=R, inductance=L, capacitance=C, input_resistance=load())
    assert plain.q_factor == pytest.approx(by_hand, rel=1e-9)
    assert COIL.q_factor == pytest.approx(by_hand, rel=0.01)          # the tone capacitor is nearly a short
    assert 20 * math.log10(load() / (R + load())) == pytest.approx(level(COIL, 200), abs=0.03)


def test_more_ohms_of_thinner_wire_are_less_level_everywhere():
    frequency = np.geomspace(20, 20e3, 50)
    thick, thin = (level(loaded_coil(**{**HOUSE, "gauge": gauge}), frequency) for gauge in (42, 44))
    assert (thin < thick).all()
    assert not response(gauge=42).fits and response(gauge=44).fits


def test_the_reading_by_hand_away_from_the_self_resonance():
    for frequency in (120, 1000, 15e3):
        one = meter(gauge=44, turns=7600, capacitance=100e-12, frequency=frequency)
        by_hand = L / (1 - (frequency / one.self_resonance) ** 2) - R ** 2 * 100e-12
        assert one.chosen.inductance == pytest.approx(by_hand, rel=0.01)


def test_the_estimate_of_q_counts_both_losses():
    """1/Q = R/(2 pi f0 L) + 2 pi f0 L/R_load, of a resonance whose losses are small: Q of the poles."""
    turns = 1 / math.sqrt(L * C)
    for part in (0.1, 0.01):
        coil = LoadedCoil(resistance=part * turns * L, inductance=L, capacitance=C, input_resistance=turns * L / part)
        assert 1 / coil.q_factor == pytest.approx(2 * part, rel=part ** 2)


def test_the_two_lines_of_the_meters_reading():
    """Without resistance L/(1 - f^2/f_s^2); far below the self-resonance R^2 C less."""
    free = reading(LoadedCoil(resistance=1e-3, inductance=L, capacitance=100e-12), 5e3).inductance
    assert free == pytest.approx(L / (1 - (5e3 / AT.self_resonance) ** 2), rel=1e-6)
    low = reading(LoadedCoil(resistance=R, inductance=L, capacitance=100e-12), 10.0).inductance
    assert L - low == pytest.approx(R ** 2 * 100e-12, rel=1e-2)
