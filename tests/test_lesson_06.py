"""Lesson 06: every number of its prose computed again, and its predictions checked against what the panels show."""
import math
import re

import numpy as np
import pytest

from lesson_06_coil import AT, COIL, NO_CABLE, C, L, R, apart, load
from lessons_lib.base.workshop import house_coil, house_place
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_06.loads import LOADS, coil_with
from lessons_lib.lessons.lesson_06.model import HOUSE, TONE_CAPACITOR, level, meter, response
from lessons_lib.lessons.lesson_06.series import in_series
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.six_strings import in_a_row
from lessons_lib.physics.steel import SteelPole
from lessons_lib.physics.winding import LongCoil
from notebooks import NOTEBOOKS, assert_printed, prose

PROSE = prose("06")
LESSON = next(lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers") if lesson.id == "06")
DOUBLE = {"volume": 500e3, "tone": 1e6}
SIDES = in_series(frequency=640.0, turned=0.0)
TONE_AT_200 = 1 / (2 * math.pi * 200 * TONE_CAPACITOR)     # ohm


def changed(name, **settings):
    return getattr(response(**settings), name) - getattr(response(), name)


def treble(first, second, frequency=8e3):
    """Level behind one of the three loads relative to that behind another, dB."""
    names = list(LOADS)
    return float(level(coil_with(names[first]), frequency) - level(coil_with(names[second]), frequency))


# what the page prints: the number computed here, the words in which it is said there
NUMBERS = [
    (R / 1e3, "of the wire, 8.70 kΩ"),
    (L, "$L$, 2.16 H"),
    (L, "flux linkage of 2.16 Wb"),
    (R / (2 * math.pi * L), "from 640 Hz upwards"),
    (AT.self_resonance / 1e3, "Without a cable $f_0$ is at 10.8 kHz"),
    (response(cable=250e-12).undamped / 1e3, "pF at 5.78,"),
    (response().undamped / 1e3, " pF at 4.42,"),
    (response(cable=1000e-12).undamped / 1e3, " pF at 3.26 kHz"),
    (abs(SIDES.both), "12.3 V, not"), (abs(SIDES.wire) + abs(SIDES.inductance), "not 17.4 V"),
    (math.degrees(SIDES.lead), "45° where both parts are equal"),
    (response().peak_frequency / 1e3, ": 4.19 kHz with the house"),
    (response(gauge=44).resistance / response(gauge=42).resistance, "has 1.6 times the ohms"),
    (NO_CABLE.peak_frequency / 1e3, "it is at 7.40 kHz, and"),
    (COIL.q_factor, "the Q falls from 1.8 to"), (NO_CABLE.q_factor, "to 0.95."),
    (100 * math.sqrt(1 + R / load()) - 100, "comes in, 3 % for the house coil"),
    (COIL.q_factor, "has a Q of 1.8, whatever"), (AT.at_1000.quality, "a Q_m of 1.5 at"),
    (AT.at_120.quality, "and of 0.19 at"),
    (L / (1 - (10e3 / AT.self_resonance) ** 2) - R ** 2 * 100e-12, "says 14.8 H"),
    (AT.self_resonance / 1e3, "(10.8 kHz alone"), (response().undamped / 1e3, " alone, 4.42 kHz with"),
    (response(gauge=44).resistance / response(gauge=42).resistance, "(1.6 times the ohms, a"),
    (changed("peak_height", **DOUBLE), "(3 dB at the peak"), (changed("treble_level", **DOUBLE), "peak, 0.2 dB at"),
    (apart(1.0) - apart(0.5), "(5.5 dB at"),
    (load() / 1e3, "goes from 143 to"), (load(**DOUBLE) / 1e3, "to 250 kΩ.)"),
    (response().peak_height, "The peak was 5.4 dB above"), (response(**DOUBLE).peak_height, "is now 8.5 dB"),
    (TONE_AT_200 / 1e3, "= 36 kΩ. At right"), (math.hypot(500, TONE_AT_200 / 1e3), "that makes 501 kΩ, and"),
    (1 / (2 * math.pi * 500e3 * TONE_CAPACITOR), "far below 14 Hz the"),
    (1 / (2 * math.pi * 5e3 * HOUSE["cable"]) / 1e3, ", 64 kΩ at"),
    (100 / (1 - (1e3 / AT.self_resonance) ** 2) - 100, "is higher: 0.9 % up"),
    (100 * R ** 2 * 100e-12 / L, "takes 0.35 % off"),
    (changed("treble_level", **DOUBLE), "just 0.2 dB is gained"),
    (100 * (response(**DOUBLE).peak_frequency / response().peak_frequency - 1), "moves up by only 3 %"),
    (TONE_CAPACITOR / C, "It is 37 times the"),
    (1 / (2 * math.pi * math.sqrt(L * (C + TONE_CAPACITOR))) / 1e3, "$f_0$ goes down to 0.72 kHz"),
    (apart(0.5, 10e3) - apart(1.0, 10e3), "way round, by 3.7 dB"),
    (response(tone_setting=0.0).peak_frequency / 1e3, "wire damps now, to 0.56 kHz"),
    (apart(1.0) - apart(0.5), " loses 5.5 dB more"),
    (100 * math.sqrt(0.5), "and 71 % of the voltage"),
    (response().low_level, "is −0.37 dB: far below"),
    (treble(0, 1), "is 14 dB above the second"),
    (treble(1, 2), "10 dB above the third"),
    (AT.at_120.inductance, "coil reads 2.157 H"),
    (AT.at_1000.inductance, "on another 2.175 H"),
    (AT.chosen.inductance, "on a third 12.7 H"),
    (AT.chosen.inductance, "it reads 12.7 H"),
    (AT.self_resonance / 1e3, "$f_s$, 10.8 kHz for the house coil"),
    (R ** 2 * 100e-12 * 1e3, "is still missing, 8 mH"),
    (AT.at_120.quality, "$Q_m$ is only 0.19"),
    (house_coil["turns"] ** 2 / L / 1e6, "reluctance is 26.7 MA/Wb"),
    (house_instrument.winding(7600).self_inductance(), "the coil would have 1.62 H"),
]


@pytest.mark.parametrize("value, words", NUMBERS, ids=[words for _, words in NUMBERS])
def test_numbers_of_the_prose(value, words):
    assert_printed(value, words, PROSE)


def test_fractions_in_words():
    assert 1 / AT.at_120.quality == pytest.approx(5, abs=0.4)
    assert "five parts of resistance and one of reactance" in PROSE
    assert AT.at_1000.inductance / L - 1 == pytest.approx(0.005, abs=0.0005) and "half a per cent high" in PROSE
    in_air = house_instrument.winding(7600).self_inductance()
    assert house_instrument.inductance() / in_air == pytest.approx(4 / 3, abs=0.01) and "raise it by a third" in PROSE
    unresisting = in_a_row(SteelPole(diameter=5e-3, length=17e-3, relative_permeability=1e5), house_place["string_y"])
    free = Pickup(poles=unresisting, coils=LongCoil(**house_coil)).inductance()
    assert free == pytest.approx(4.4, abs=0.05) and "would make it 4.4 H" in PROSE
    assert house_instrument.inductance() / free == pytest.approx(0.5, abs=0.02) and "half is the rods'" in PROSE
    assert "Lesson 2 had 27.6 for" in PROSE and "27.6 MA/Wb" in next(NOTEBOOKS.glob("02*.ipynb")).read_text()
    assert NO_CABLE.peak_height < 1 and "and is nearly gone" in PROSE and "nearly vanishes without a cable" in PROSE
    lows = [float(level(coil_with(load), 1e3)) for load in LOADS]
    assert np.ptp(lows) < 1 and "all three are within 1 dB" in PROSE


def test_turned_down_it_is_duller_from_2_to_6_kilohertz_alone():
    change = [apart(0.5, f) - apart(1.0, f) for f in (2e3, 3e3, 4e3, 5e3, 6e3)]
    assert max(change) < -1.5 and apart(0.5, 7e3) > apart(1.0, 7e3) and "from 2 to 6 kHz the sound is duller" in PROSE


@pytest.mark.parametrize("amplifier, peak", [(10e3, 0), (50e3, 0.2), (1e6, 13.9)])
def test_a_line_input_shows_no_peak_of_the_pickup_alone(amplifier, peak):
    coil = LoadedCoil(resistance=R, inductance=L, capacitance=100e-12, cable_capacitance=HOUSE["cable"],
                      input_resistance=amplifier)
    assert coil.peak()[1] - coil.low_frequency_level == pytest.approx(peak, abs=0.2)


def test_prediction_p1_capacitance_moves_the_peak_and_the_control_lowers_it():
    house, cable, control = response(), response(cable=1000e-12), response(volume=125e3)
    assert cable.peak_frequency / house.peak_frequency == pytest.approx(0.75, abs=0.01)
    assert abs(cable.peak_height - house.peak_height) < 1
    assert 0.9 < control.peak_frequency / house.peak_frequency < 1
    assert 2 < house.peak_height - control.peak_height < 3


def test_prediction_p2_double_pots_damp_less_and_gain_nothing_in_the_treble():
    assert changed("peak_height", **DOUBLE) == pytest.approx(3, abs=0.2)
    assert 0 < changed("treble_level", **DOUBLE) < 0.5
    assert 0 < changed("low_level", **DOUBLE) < 0.5
    house, question = response(), LESSON["p2"].seen_question
    for level_ in (house.peak_height, house.low_level, house.treble_level):
        assert f"{level_:+.2f} dB".replace("-", "−") in question
    assert response(**DOUBLE).peak_frequency < 4 / 3 * response().peak_frequency


def test_prediction_p3_above_the_self_resonance_the_meter_reads_a_negative_inductance():
    above = meter(gauge=44, turns=7600, capacitance=100e-12, frequency=15e3).chosen
    assert above.inductance < 0 < AT.at_1000.inductance


def test_the_five_popular_claims_are_numbered():
    places = [PROSE.lower().index(f"**claim {number}: \"") for number in (1, 2, 3)]
    places += [PROSE.index('**claim 4: "'), PROSE.index('**Claim 5: "'), PROSE.index("**The five claims.** 1:")]
    assert places == sorted(places) and "correct five popular claims" in PROSE


# results and steps of the worked examples: the number computed here, words of which it is the last number
EXAMPLES = [
    (2 * math.pi * 1000 * 1.50 / 1e3, "= 9.42 kΩ"), (12.0 ** 2 + 9.42 ** 2, "= 232.7, in"),
    (math.hypot(12.0, 2 * math.pi * 1.50), "The root: 15.3 kΩ"), (2 * math.pi * 2000 / 1e3, "= 12.57 kΩ"),
    (15.0 ** 2 + (4 * math.pi) ** 2, "= 383, in"), (math.hypot(15.0, 4 * math.pi), "find 19.6 kΩ"),
    (1e6 * math.sqrt(1.20 * 240e-12), "= 17.0 µs, so"), (1e-3 / math.sqrt(1.20 * 240e-12), "= 58.9·"),
    (1e-3 / (2 * math.pi * math.sqrt(1.20 * 240e-12)), "by $2\\pi$: 9.38 kHz"),
    (1e6 * math.sqrt(8.00 * 200e-12), "= 40.0 µs, so"), (1e-3 / (2 * math.pi * 40.0e-6), "find 3.98 kHz"),
    (1 / 150 + 1 / 300 + 1 / 600, "= 0.01167 in"), (load(150, 300, 600), "the load is 85.7 kΩ"),
    (load(150, 300, 600) / (6.0 + load(150, 300, 600)), "= 0.935 of"),
    (20 * math.log10(load(150, 300, 600) / (6.0 + load(150, 300, 600))), "= −0.59 dB"),
    (1 / 60 + 1 / 120 + 1 / 200, "= 0.0300 in"), (load(60, 120, 200), "the load is 33.3 kΩ"),
    (load(60, 120, 200) / (5.0 + load(60, 120, 200)), "33.3/38.3 = 0.870"),
    (20 * math.log10(load(60, 120, 200) / (5.0 + load(60, 120, 200))), "find −1.21 dB"),
    (1e6 * math.sqrt(1.60 * 250e-12 * 1.01), "= 20.1 µs"), (1.60 / 400e3 * 1e6, " = 4.0 µs"),
    (4.0e3 * 250e-12 * 1e6, " + 1.0 µs"), (math.sqrt(1.60 * 250e-12 * 1.01) / 5.0e-6, "20.1/5.0 = 4.02"),
    (1e6 * math.sqrt(6.40 * 250e-12 * 1.02), "= 40.4 µs"), (6.40 / 600e3 * 1e6, "2. 10.67 µs"),
    (12.0e3 * 250e-12 * 1e6, " + 3.00 µs"),
    (LoadedCoil(resistance=12.0e3, inductance=6.40, capacitance=250e-12, input_resistance=600e3).q_factor, "find 2.96"),
    (0.90 / 3000 * 1e6, "Wb/3000 = 300 µWb"), (3000 ** 2 / 0.90 / 1e6, "µWb = 10.0 MA/Wb"),
    (4000 ** 2 / 0.80 / 1e6, "find 20.0 MA/Wb")]


@pytest.mark.parametrize("value, words", EXAMPLES, ids=[words for _, words in EXAMPLES])
def test_worked_examples_are_right(value, words):
    printed = re.findall(r"−?\d+(?:\.\d+)?", words)[-1]
    assert words in PROSE and f"{value:.{len(printed.partition('.')[2])}f}".replace("-", "−") == printed


@pytest.mark.parametrize("exercise, example", [
    ("6.1", {"resistance": 12.0, "inductance": 1.50, "frequency": 1000}),
    ("6.1", {"resistance": 15.0, "inductance": 1.00, "frequency": 2000}),
    ("6.2", {"inductance": 1.20, "own": 40, "cable": 200}), ("6.2", {"inductance": 8.00, "own": 30, "cable": 170}),
    ("6.3", {"volume": 150, "tone": 300, "amplifier": 600}), ("6.3", {"volume": 60, "tone": 120, "amplifier": 200}),
    ("6.5", {"load": 400, "capacitance": 250, "inductance": 1.60, "resistance": 4.0}),
    ("6.5", {"load": 600, "capacitance": 250, "inductance": 6.40, "resistance": 12.0}),
    ("6.6", {"turns": 3000, "inductance": 0.90}), ("6.6", {"turns": 4000, "inductance": 0.80})])
def test_worked_examples_are_no_benchs_numbers(exercise, example):
    ranges = LESSON[exercise].given
    assert all(not ranges[name].low <= value <= ranges[name].high for name, value in example.items())


def test_prediction_p4_the_peak_of_the_sum_is_less_than_the_sum_of_the_peaks():
    question = LESSON["p4"]
    assert_printed(abs(SIDES.wire), "voltages: 8.7 V", question.question)
    assert_printed(abs(SIDES.inductance), "voltages: 8.7 V", question.question)
    assert_printed(abs(SIDES.both), "12.3 V", question.options[question.seen])
    assert_printed(abs(SIDES.wire) + abs(SIDES.inductance), "17.4 V", question.options["a"])


def test_two_evenings_of_an_hour_or_a_little_more():
    assert [60 <= one.minutes <= 75 for one in LESSON.evenings] == [True, True]
    assert PROSE.count("## Second evening\n") == 1 and "two evenings, of about 70 and 75 minutes" in PROSE
