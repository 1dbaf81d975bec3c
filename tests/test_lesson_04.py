"""Lesson 04: every number of its prose computed again, and its predictions checked against what the panels show."""
import math
from functools import lru_cache

import numpy as np
import pytest

from lesson_04_swing import POLE_Y, STRING, UPRIGHT, sideways
from lessons_lib.base.materials import magnet_wire
from lessons_lib.base.workshop import house_coil, house_place, house_strings
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_03.model import over_heights
from lessons_lib.lessons.lesson_04.hiss import hiss
from lessons_lib.lessons.lesson_04.model import swing
from lessons_lib.lessons.lesson_04.window import winding
from lessons_lib.physics.induction import induced_voltage
from lessons_lib.physics.noise import amplifier_voltage, impedance_at_input, johnson_density
from lessons_lib.physics.winding import LongCoil
from notebooks import NOTEBOOKS, assert_printed, lessons, prose, read

PROSE = prose("04")
COIL = LongCoil(**house_coil)
ANSWERS = next(lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers") if lesson.id == "04")


@lru_cache
def slope():
    return float(house_instrument.pickup.sensitivity(STRING, height=2.5e-3, y=POLE_Y))


def copper(length, diameter):
    return 1.72e-8 * length / (math.pi * diameter ** 2 / 4)


HOUSE = hiss(turns=7600, density=10e-9)
ALIKE = hiss(turns=HOUSE.alike, density=10e-9)

# what the page prints: the number computed here, the words in which it stands there
NUMBERS = [
    (lambda: 2000 * 15e-9 * 1e6, "= 30 µWb"), (lambda: 30e-6 / 0.5e-3 * 1e3, "mean voltage of 60 mV"),
    (lambda: slope() * 2 * math.pi * 200 * 0.6e-3 * 1e3, "at rest gives 82 mV"),
    (lambda: swing(**UPRIGHT).peak * 1e3, "full curve 83 mV"),
    (lambda: 2 * math.pi * 100 * 0.5e-3, "= 0.314 m/s"),
    (lambda: 30e-6 / 0.5e-3, "= 0.060 Wb/s"), (lambda: 3000 * 8e-9 * 1e6, "changes by 24 µWb"),
    (lambda: 24e-6 / 0.3e-3 * 1e3, "should find 80 mV"), (lambda: 4000 * 12e-6, "= 0.048 V s/m"),
    (lambda: 4000 * 12e-6 * 2 * math.pi * 100 * 0.5e-3 * 1e3, "find 15.1 mV"),
    (lambda: math.pi * 0.080 ** 2 / 4 * 1e3, "= $5.03\\cdot"), (lambda: 20e-6 / 2e-3 * 1e3, "(b) 10 mV"),
    (lambda: -2 / 1, "ms, so −2 mV"), (lambda: -6 / 2, "ms, so −3 mV"), (lambda: -(3 - 8) / 1, "find +5 mV"),
    (lambda: 25 / math.sqrt(2), "find 17.7 mV"),
    (lambda: 2 * math.sqrt(2), "a factor of 2.8"),
    (lambda: house_place["string_height"] * 1e3, "of rest is 2.5 mm above"),
    (lambda: -sideways().levels[1], "weak, 30 dB below"),
    (lambda: -sideways(offset=2e-3).levels[0], "it is 15 dB below"),
    (lambda: -swing(**UPRIGHT).levels[1], "too, 21 dB below"),
    (lambda: house_strings["III"]["frequency"], "at 208 Hz"), (lambda: 2 * house_strings["III"]["frequency"], "at 415 "
                                                                                                              "Hz"),
    (lambda: swing(**UPRIGHT).peak / 7600 * 1e6, "alone would give 11 µV"),
    (lambda: swing(**UPRIGHT).peak / 7600 * 1e6, "turn gives 11 µV"),
    (lambda: 20 * math.log10(winding(turns=50000, gauge=44).voltage), "50 000: 16 dB"),
    (lambda: -winding(turns=50000, gauge=44).level_at_5_khz, "24 dB less than"),
    (lambda: COIL.resistance(magnet_wire(awg=44)) / COIL.resistance(magnet_wire(awg=42)), "has 1.6 times"),
    (lambda: amplifier_voltage(math.sqrt(johnson_density(winding(turns=7600, gauge=44).resistance))) * 1e6,
     "give 1.68 µV"),
    (lambda: winding(turns=7600, gauge=44).resistance / 1e3, "the house coil's 8.70 kΩ"),
    (lambda: amplifier_voltage(10e-9) * 1e6, "hisses, too: 1.41 µV"),
    (lambda: HOUSE.above_coil, "(92.5 dB throughout"), (lambda: HOUSE.above_hum, "from outside (50.6 dB"),
    (lambda: hiss(turns=100, density=10e-9).above_both, "the signal is 55 dB with"),
    (lambda: hiss(turns=1000, density=10e-9).above_both, "turns, 75 dB with"),
    (lambda: HOUSE.above_both, ", 89 dB with"), (lambda: HOUSE.above_both - HOUSE.above_hum, "hum is 39 dB"),
    (lambda: hiss(turns=2 * HOUSE.alike, density=10e-9).above_both - ALIKE.above_both, "left to gain, 2 dB with twice"),
    (lambda: hiss(turns=1e9, density=10e-9).above_both - ALIKE.above_both, "3 dB with any number"),
    (lambda: 6000 * 0.110, "= 660 m"), (lambda: copper(660, 0.080e-3) / 1e3, "find 2.26 kΩ")]


@pytest.mark.parametrize("value, words", NUMBERS, ids=[words for _, words in NUMBERS])
def test_numbers_of_the_prose(value, words):
    said = words.split(": ")[1] if words.startswith("50 000") else words
    assert words in PROSE
    assert_printed(value(), said, PROSE)


def test_the_window_of_the_prose():
    assert house_instrument.window == pytest.approx(3e-3 * 12e-3) and "3 mm by 12 mm" in PROSE


def test_the_voltage_is_zero_at_the_highest_linkage():
    """Prediction p1; and twice the frequency or the turns doubles the voltage, twice the height lowers it."""
    one = swing(**UPRIGHT)
    assert abs(one.at_highest_linkage) < 0.01 * one.peak
    assert swing(**UPRIGHT | {"frequency": 100.0}).peak == pytest.approx(one.peak / 2, rel=1e-9)
    assert swing(**UPRIGHT | {"turns": 3800}).peak == pytest.approx(one.peak / 2, rel=1e-9)


def test_what_twice_the_height_leaves_here_and_in_lesson_3():
    six = swing(**UPRIGHT | {"height": 4e-3}).peak / swing(**UPRIGHT | {"height": 2e-3}).peak
    one = over_heights(0.46e-3, 100.0, True)
    assert six == pytest.approx(1 / 2, rel=0.1) and "from 2 to 4 mm about half is left" in PROSE
    assert one.signal(4e-3) / one.signal(2e-3) == pytest.approx(1 / 3, rel=0.1)


def test_the_swing_is_a_small_part_of_the_linkage_and_a_held_string_gives_nothing():
    """Quick question m1, and the claims about cut lines and about position."""
    pickup = house_instrument.pickup
    assert pickup.flux_linkage(STRING, height=2.5e-3, y=POLE_Y) / pickup.steady_linkage() < 0.002
    assert swing(**UPRIGHT).linkage_swing / pickup.steady_linkage() == pytest.approx(0.00035, abs=1e-5)
    held = np.full(5, pickup.flux_linkage(STRING, height=3.5e-3, y=POLE_Y))
    assert induced_voltage(held, np.arange(5.0)) == pytest.approx(np.zeros(5), abs=1e-15)


def test_sideways_over_the_middle_harmonic_two_is_the_highest():
    """Prediction p2, and what the answers' notes say: the linkage falls to both sides."""
    levels = sideways().levels
    assert np.argmax(levels) == 1 and levels[1] < -20 and levels[0] < levels[1] - 10
    places = POLE_Y + np.array([0.0, -1e-3, 1e-3])
    here, left, right = house_instrument.pickup.flux_linkage(STRING, height=2.5e-3, y=places)
    assert here > left and here > right
    assert sideways(offset=2e-3).levels[0] > sideways(offset=2e-3).levels[1] + 10
    small = sideways(height=4e-3, amplitude=0.1e-3).levels
    assert small[0] > small[1] + 3 and "at 4 mm and 0.1 mm harmonic 1 is the stronger" in PROSE


def test_from_about_6500_turns_on_more_of_them_take_treble_away():
    levels = {turns: winding(turns=turns, gauge=44).level_at_5_khz for turns in range(1000, 10000, 500)}
    assert max(levels, key=levels.get) == 6500 and levels[1000] < levels[3000] < levels[5000] < 0
    assert "from about 6500 turns on the treble falls" in PROSE and "beyond some 6500 turns more bass" in PROSE


def test_twice_the_turns_in_a_full_window_have_four_times_the_resistance():
    """Prediction p3."""
    few, many = (winding(turns=turns, gauge=44) for turns in (5000, 10000))
    assert many.filling_resistance / few.filling_resistance == pytest.approx(4, rel=1e-9)
    assert many.inductance / few.inductance == pytest.approx(4, rel=1e-9) and many.voltage == 2 * few.voltage


def test_where_the_hisses_are_alike():
    """At R = e^2/(4 k T); and one turn's signal above the amplifier's hiss, as the page says it in section 1."""
    assert "At 7800 turns the two hisses are alike" in PROSE and HOUSE.alike == pytest.approx(7800, abs=50)
    assert "5 nV/√Hz it is at 3900 turns" in PROSE
    assert hiss(turns=100, density=5e-9).alike == pytest.approx(3900, abs=50)
    full = winding(turns=7800, gauge=44).filling_resistance
    assert full == pytest.approx((10e-9) ** 2 / (4 * 1.380649e-23 * 293.15), rel=0.002)
    one_turn = swing(**UPRIGHT | {"turns": 1}).rms
    assert 20 * math.log10(one_turn / amplifier_voltage(10e-9)) == pytest.approx(15, abs=0.5)
    assert "amplifier is only some 15 dB lower" in PROSE


def test_more_turns_gain_less_and_less():
    """Prediction p4."""
    levels = {turns: hiss(turns=turns, density=10e-9).above_both for turns in (1000, 2000, 20000, 40000)}
    assert levels[2000] - levels[1000] == pytest.approx(5.9, abs=0.1) and 0.1 < levels[40000] - levels[20000] < 1


def test_the_load_leaves_signal_and_hiss_of_the_wire_as_they_were():
    """A cable acts on both alike: at each frequency the wire's hiss at the amplifier is 4 k T R |H|^2."""
    coil = house_instrument.loaded(capacitance=100e-12, cable_capacitance=500e-12, input_resistance=math.inf)
    frequency = np.geomspace(100, 10e3, 7)
    at_amplifier = johnson_density(impedance_at_input(coil, frequency=frequency))
    of_the_wire = johnson_density(coil.resistance) * np.abs(coil.response(frequency)) ** 2
    assert at_amplifier == pytest.approx(of_the_wire, rel=1e-9, abs=0)


def test_awg_42_just_does_not_fit():
    assert 7000 < COIL.turns_that_fit(magnet_wire(awg=42)) < 7600 < 1.15 * COIL.turns_that_fit(magnet_wire(awg=42))
    assert "do not quite fit" in PROSE


def test_the_prediction_stands_before_the_law():
    """Prediction p1: nothing above its panel may tell that only the slope counts."""
    cells = [cell.source for cell in read(next(path for path in lessons() if path.name.startswith("04"))).cells]
    panel = next(i for i, source in enumerate(cells) if "panels.moving_string(sheet)" in source)
    assert not any("d\\Lambda" in source or "how *fast*" in source for source in cells[:panel])


def test_the_evening_is_as_long_as_the_page_says():
    evening, = ANSWERS.evenings
    assert evening.minutes == 75 and "one evening of about 75 minutes" in PROSE
