"""Lesson 06: every number of its prose computed again, and its predictions checked against what the panels show."""
import math

import numpy as np
import pytest

from lessons_lib.base.workshop import house_coil
from lessons_lib.exercises.draws import SELF_STUDY_SECRET, draw
from lessons_lib.exercises.kinds import read_record
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.exercises.verdicts import State
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_06.loads import LOADS, coil_with
from lessons_lib.lessons.lesson_06.model import HOUSE, TONE_CAPACITOR, level, loaded_coil, meter, reading, response
from lessons_lib.physics.coil_response import LoadedCoil
from notebooks import NOTEBOOKS, assert_printed, prose

PROSE = prose("06")
LESSON = next(lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers") if lesson.id == "06")
COIL = loaded_coil(**HOUSE)
R, L = COIL.resistance, COIL.inductance
C = HOUSE["own"] + HOUSE["cable"]
DOUBLE = {"volume": 500e3, "tone": 1e6}
NO_CABLE = response(cable=0.0)
AT = meter(gauge=44, turns=7600, capacitance=100e-12, frequency=10e3)


def load(volume=250e3, tone=500e3, amplifier=1e6):
    return 1 / (1 / volume + 1 / tone + 1 / amplifier)


def round_and_round():
    """Current through the self-capacitance divided by that through the meter, at 10 kHz."""
    own = 2j * math.pi * 10e3 * 100e-12
    return abs(own / (own + 1 / (R + 2j * math.pi * 10e3 * L)))


def changed(name, **settings):
    return getattr(response(**settings), name) - getattr(response(), name)


def apart(setting):
    """Level at 5 kHz relative to that at the lowest frequencies, dB."""
    coil = loaded_coil(**{**HOUSE, "volume_setting": setting})
    return float(level(coil, 5e3)) - coil.low_frequency_level


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
    (AT.self_resonance / 1e3, "would resonate at 10.8 kHz"),
    (response().undamped / 1e3, "with the house cable, at 4.42 kHz"),
    (response().peak_frequency / 1e3, ": 4.19 kHz with the house"),
    (response(gauge=44).resistance / response(gauge=42).resistance, "has 1.6 times the ohms"),
    (NO_CABLE.peak_frequency / 1e3, "the peak goes up to 7.40 kHz"),
    (NO_CABLE.peak_frequency / 1e3, " to 7.40 kHz.)"),
    (1e6 * L / load(), "$L/R_{load}$, 15 µs"),
    (1e6 / (2 * math.pi * response().undamped), "is 36 µs with the house cable"),
    (1e6 / (2 * math.pi * NO_CABLE.undamped), "and 15 µs without"),
    (load() / 1e3, "goes from 143 to"), (load(**DOUBLE) / 1e3, "to 250 kΩ.)"),
    (response().peak_height, "The peak was 5.4 dB above"), (response(**DOUBLE).peak_height, "is now 8.5 dB"),
    (1 / (2 * math.pi * 4e3 * TONE_CAPACITOR) / 1e3, "is 1.8 kΩ at"),
    (100 / (1 - (1e3 / AT.self_resonance) ** 2) - 100, "is higher: 0.9 % up"),
    (100 * R ** 2 * 100e-12 / L, "takes 0.35 % off"),
    (round_and_round(), "5.5 times the meter's own current"),
    (changed("treble_level", **DOUBLE), "just 0.2 dB is gained"),
    (100 * (response(**DOUBLE).peak_frequency / response().peak_frequency - 1), "moves up by only 3 %"),
    (TONE_CAPACITOR / C, "It is 37 times the"),
    (response(tone_setting=0.0).peak_frequency / 1e3, "the peak goes down to 0.56 kHz"),
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
    (house_coil["turns"] ** 2 / L / 1e6, "reluctance is 27 MA/Wb"),
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
    assert in_air / house_instrument.inductance() == pytest.approx(0.75, abs=0.01)
    assert "three quarters of the inductance" in PROSE
    assert "Lesson 2 had 27.6 for" in PROSE and "27.6 MA/Wb" in next(NOTEBOOKS.glob("02*.ipynb")).read_text()
    assert NO_CABLE.peak_height < 1 and "and is nearly gone" in PROSE
    lows = [float(level(coil_with(load), 1e3)) for load in LOADS]
    assert np.ptp(lows) < 1 and "all three are within 1 dB" in PROSE


def test_far_above_the_resonance_the_level_falls_by_12_db_per_octave():
    without_controls = loaded_coil(**{**HOUSE, "volume": math.inf, "tone": math.inf})
    assert level(without_controls, 40e3) - level(without_controls, 80e3) == pytest.approx(12, abs=0.2)


def test_a_peak_of_high_q_stands_q_times_as_high():
    for loaded_with, within in ((400e3, 0.02), (100e3, 0.15)):
        coil = LoadedCoil(resistance=R, inductance=L, capacitance=C, input_resistance=loaded_with)
        assert 10 ** ((coil.peak()[1] - coil.low_frequency_level) / 20) == pytest.approx(coil.q_factor, rel=within)


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


def test_the_two_workbenches_of_the_open_question():
    coil = {"resistance": 6.5e3, "inductance": 3.0, "capacitance": 100e-12}
    high, low = (reading(frequency=frequency, **coil) for frequency in (1000.0, 120.0))
    assert round(high.inductance, 2) == 3.03 and round(low.inductance, 3) == 2.996 and round(low.quality, 2) == 0.35
    self_resonance = 1 / (2 * math.pi * math.sqrt(3.0 * 100e-12))
    assert self_resonance == pytest.approx(9.2e3, abs=50)
    assert 1 / (1 - (1e3 / self_resonance) ** 2) == pytest.approx(1.012, abs=5e-4)
    assert 6.5e3 ** 2 * 100e-12 == pytest.approx(4e-3, abs=3e-4)


def test_the_five_popular_claims_are_numbered():
    places = [PROSE.index(words) for words in (
        "The first of five popular claims:", "The second claim:", "the third claim:", "The fourth claim:",
        "The fifth claim:")]
    assert places == sorted(places) and "correct five popular claims" in PROSE


def test_a_loss_rounded_to_one_decimal_is_asked_for_a_second():
    low_loss, said = LESSON["6.4"], set()
    for bench in range(40):
        drawn = draw(low_loss, secret=SELF_STUDY_SECRET, bench=f"b{bench:03d}")
        judged = read_record(low_loss.id, low_loss.sheet_record(drawn, "salt")).judge(round(drawn.answer, 1), "dB")
        said |= {low_loss.notes[0] if judged.unmatched else judged.text} if judged.state != State.RIGHT else set()
    assert len(said) == 2 and all(note.startswith("Is your answer rounded to one decimal?") for note in said)
