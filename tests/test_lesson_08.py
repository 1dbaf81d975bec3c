"""Lesson 08: every number of its prose computed again, its predictions checked against the panels, its files."""
import math
import re

import numpy as np
import pytest
from scipy.io import wavfile
from scipy.optimize import brentq, minimize_scalar

from lessons_lib.base.materials import magnet_grade
from lessons_lib.base.workshop import house_magnet, house_strings
from lessons_lib.exercises.kinds import read_record
from lessons_lib.exercises.self_study import load_lessons
from lessons_lib.panels.lesson_08 import guess_then_data
from lessons_lib.panels.lesson_08_numbers import (
    COIL_RESISTANCE,
    NOISE,
    SPOT,
    coil_guess,
    exciter_runs,
    field_over,
    shared_error,
)
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.design import design_report
from lessons_lib.physics.fits import fit_added_capacitance, fit_exciter_response, fit_gauss_readings
from lessons_lib.physics.recorded_pluck import fit_string_height
from lessons_lib.workbench.bench import from_bench, from_bench_plucks, string_curve
from lessons_lib.workbench.invented import TRUTH
from notebooks import NOTEBOOKS, assert_printed, prose

PROSE = prose("08")
DATA = NOTEBOOKS / "data"
GUIDE = (DATA / "WORKBENCH.md").read_text(encoding="utf-8")
ANSWERS = next(lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers") if lesson.id == "08")
ROD = {name: house_magnet[name] for name in ("diameter", "length")}


def read(name):
    return from_bench(name, DATA)


@pytest.fixture(autouse=True)
def beside_the_page(monkeypatch):
    monkeypatch.chdir(NOTEBOOKS)


CAPACITORS, EXCITER, GAUSS, METER = map(read, (
    "resonance_with_capacitors.csv", "exciter_response.csv", "gauss_against_distance.csv", "meter_readings.csv"))
COIL = fit_added_capacitance(CAPACITORS["added capacitance"], CAPACITORS["resonance"])
RESPONSE = fit_exciter_response(EXCITER["frequency"], EXCITER["voltage"], resistance=COIL_RESISTANCE,
                                added_capacitance=EXCITER["added capacitance"], uncertainty=0.02 * EXCITER["voltage"])


def rod_fitted(**model):
    return fit_gauss_readings(GAUSS["distance"], GAUSS["flux density"], **ROD, **model,
                              uncertainty=NOISE * GAUSS["flux density"])


UNIFORM, LINE, ALNICO = rod_fitted(), rod_fitted(recoil_permeability=3.6), rod_fitted(grade="alnico 5")
IMITATION = rod_fitted(recoil_permeability=10.5)
WRONG, FAR = (shared_error(zero=1e-3, reach=reach) for reach in (10e-3, 20e-3))
FLUSH = {"wire": 44, "turns": 7600, "tops": [0.0] * 6}
ALNICO_5, FERRITE = (design_report(magnet=magnet, **FLUSH) for magnet in ("alnico 5", "ferrite"))


def half_of_interval(fit, name):
    low, high = fit.interval(name)
    return (high - low) / 2


def meter_apart():
    """Each reading of the meter over that of the fitted coil, less one, in per cent."""
    coil = LoadedCoil(resistance=COIL_RESISTANCE, inductance=COIL["inductance"], capacitance=COIL["capacitance"])
    across = 1 / (1 / coil.impedance(METER["frequency"]) + 1 / RESPONSE["load_resistance"])
    should = across.imag / (2 * math.pi * METER["frequency"])
    return 100 * (METER["inductance"] / should - 1)


def corrected_peak():
    """The peak of the bare coil's response, times 1 + 1/(4Q^2), over its resonance."""
    coil = LoadedCoil(resistance=COIL_RESISTANCE, inductance=RESPONSE["inductance"],
                      capacitance=RESPONSE["capacitance"], input_resistance=RESPONSE["load_resistance"])
    resonance = 1 / (2 * math.pi * math.sqrt(RESPONSE["inductance"] * RESPONSE["capacitance"]))
    frequency = np.linspace(0.9, 1.05, 30_001) * resonance
    peak = frequency[np.abs(coil.response(frequency)).argmax()]
    return peak / resonance * (1 + 1 / (4 * coil.q_factor ** 2))


NUMBERS = [
    (100 * COIL.scatter, "The scatter is 0.8 %"),
    (100 * TRUTH.capacitor_noise, "The scatter is 0.8 %"),
    (-meter_apart()[0], "the meter reads 1.6 % and"),
    (-meter_apart()[1], "and 1.5 % less, and"),
    (-meter_apart()[2], "both are negative and 1.1 % apart"),
    (100 * half_of_interval(COIL, "inductance") / COIL["inductance"], "the fit's own interval of ±2.7 %"),
    (20 * math.log10(2), "twice the voltage, 6 dB for"),
    (RESPONSE["inductance"], "Here the coil has 2.84 H give"),
    (half_of_interval(RESPONSE, "inductance"), "give or take 0.03 H"),
    (RESPONSE["capacitance"] * 1e12, ", and 142 pF"),
    (RESPONSE["load_resistance"] / 1e3, "And the 794 kΩ?"),
    (100 * WRONG.off, "the flux is 23 % too high"),
    (100 * WRONG.residual, "the largest residual is 3.5 %"),
    (1e3 * field_over([20e-3], SPOT)[0], "the field is 1.7 mT, the"),
    (100 * FAR.residual, "leaves residuals of 15 %"),
    (100 * FAR.off, "the flux is 52 % too high"),
    (100 * TRUTH.gauss_noise, "noise of 1.5 %. These"),
    (math.sqrt(UNIFORM.reduced_chi_square), "These residuals are 4.1 times"),
    (1e3 * UNIFORM["stand_off"], "would be 2.2 mm deep"),
    (magnet_grade("alnico 5").recoil_permeability, "recoil permeability 3.6. Put"),
    (math.sqrt(LINE.reduced_chi_square), "the residuals are still 3.0 times"),
    (100 * (1 - IMITATION["flux"] / ALNICO["flux"]), "has 3 % less flux inside"),
    (100 / (4 * 5 ** 2), ", 1 % at a Q of"),
    (100 * (corrected_peak() - 1), "still 0.4 % too high"),
    (ALNICO_5.inductance, "falls from 2.16 to"),
    (FERRITE.inductance, "to 1.64 H and the resonance"),
    (ALNICO_5.resonance / 1e3, "rises from 4.39 to"),
    (ALNICO_5.resonance / 1e3, "controls: 4.39 kHz for the house coil"),
    (FERRITE.resonance / 1e3, "to 5.04 kHz, by"),
    (100 * (FERRITE.resonance / ALNICO_5.resonance - 1), "kHz, by 15 %"),
    (house_magnet["recoil_permeability"], "pass 3.6 times"),
]


@pytest.mark.parametrize("value, words", NUMBERS, ids=[words for _, words in NUMBERS])
def test_numbers_of_the_prose(value, words):
    assert_printed(value, words, PROSE)


def test_half_of_the_field_is_gone_where_page_and_guide_say():
    reading = np.interp(2e-3, GAUSS["distance"], GAUSS["flux density"])
    assert reading / GAUSS["flux density"][0] == pytest.approx(0.5, abs=0.02) and "half is gone in some 2 mm" in PROSE
    assert "half the field is lost in 2 mm" in GUIDE
    assert field_over([2e-3], SPOT)[0] / field_over([0.0], SPOT)[0] == pytest.approx(0.5, abs=0.02)


def test_both_ways_to_the_coil_agree_as_the_page_says():
    assert "the wide one of section 2 holds the value found here" in PROSE
    low, high = COIL.interval("inductance")
    assert low < RESPONSE["inductance"] < high and half_of_interval(COIL, "inductance") > 2 * half_of_interval(
        RESPONSE, "inductance")


def test_an_error_of_all_capacitors_shows_in_no_residual():
    high = fit_added_capacitance(CAPACITORS["added capacitance"] / 1.02, CAPACITORS["resonance"])
    assert high["inductance"] / COIL["inductance"] == pytest.approx(1.02, rel=1e-4)
    assert high.standardised == pytest.approx(COIL.standardised, abs=1e-3)


def test_the_uniform_magnet_and_the_recoil_line_are_turned_down_and_the_curve_is_not():
    left = dict(zip((1e3 * GAUSS["distance"]).round(1), UNIFORM.standardised))
    assert left[0.0] < -2 and left[10.0] < -2 and all(left[one] > 2 for one in (1.5, 2.0, 2.5, 3.0))
    assert "times as large as stated" in LINE.remark
    assert "look like noise" in ALNICO.remark and 0.5e-3 < ALNICO["stand_off"] < 1e-3


def left_over(recoil_permeability, chosen):
    distance, flux_density = GAUSS["distance"][chosen], GAUSS["flux density"][chosen]
    fit = fit_gauss_readings(distance, flux_density, **ROD, recoil_permeability=recoil_permeability,
                             uncertainty=NOISE * flux_density)
    return fit.reduced_chi_square * fit.degrees_of_freedom


def test_what_the_readings_tell_of_the_recoil_permeability():
    every, far = GAUSS["distance"] >= 0, GAUSS["distance"] > 1.9e-3
    best = minimize_scalar(left_over, bounds=(5, 25), args=(every,), method="bounded", options={"xatol": 0.01})
    below, above = (brentq(lambda mu: left_over(mu, every) - best.fun - 1, *ends)
                    for ends in ((3.6, best.x), (best.x, 25.0)))
    assert_printed(best.x, "left free, the number comes out as 10.5 give", PROSE)
    assert_printed((above - below) / 2, "give or take 1.2 (one", PROSE)
    assert "the other eight cannot tell 7 from 1" in PROSE and far.sum() == 8
    assert abs(left_over(7.0, far) - left_over(1.0, far)) < 3.84     # 95 % of one unknown
    assert "a slope of 10 to 12, give or take 1.2" in GUIDE
    assert left_over(best.x, every) == pytest.approx(ALNICO.reduced_chi_square * 10, abs=0.5)   # "as well as the curve"


def test_where_the_raw_voltage_is_largest_as_the_guide_says():
    assert "(8 kΩ with 400 kΩ across: 1 %)" in GUIDE
    for load in (4e5, 1e6):
        coil = LoadedCoil(resistance=8e3, inductance=2.8, capacitance=140e-12, input_resistance=load)
        resonance = 1 / (2 * math.pi * math.sqrt(2.8 * 140e-12))
        frequency = np.linspace(0.9, 1.1, 40_001) * resonance
        raw = frequency[(frequency * np.abs(coil.response(frequency))).argmax()]
        assert raw / resonance - 1 == pytest.approx(8e3 / load / 2, rel=0.02)     # half of their ratio


def test_the_worked_example_of_two_resonances():
    bare, loaded = ((2 * math.pi * one) ** -2 * 1e10 for one in (6e3, 3e3))
    for value, words in ((bare, "is $7.04\\cdot"), (loaded, "and $28.14\\cdot"),
                         (loaded - bare, "difference, $21.11\\cdot"), ((loaded - bare) / 6, "= 3.52$ H"),
                         (bare / ((loaded - bare) / 6) * 100, "F = 200 pF")):
        assert_printed(value, words, PROSE)


@pytest.fixture(scope="module")
def height():
    curve, loud = string_curve(), from_bench_plucks(DATA).amplitude
    return curve, loud, fit_string_height(TRUTH.lowered, loud, curve=curve, uncertainty=0.02 * loud)


def test_height_and_levels_of_the_plucks(height):
    curve, loud, fit = height
    assert_printed(1e3 * fit["height"], "2.39 mm with one", PROSE)
    assert_printed(1e3 * fit.uncertainty("height"), "sigma of 0.21 mm", PROSE)
    predicted = curve(2e-3 + np.array(TRUTH.lowered)) / curve(2e-3)
    assert np.abs(loud / loud[0] / predicted - 1).max() < 0.1
    assert "0.2 mm change them by less than 2 %" in PROSE
    for first in (1.8e-3, 2.2e-3):
        assert np.abs(curve(first + np.array(TRUTH.lowered)) / curve(first) / predicted - 1).max() < 0.02
    assert "0.2 mm off changes them by 5 to 8 %" in PROSE
    changes = [abs(curve(2e-3 + step + off) / curve(2e-3 + step) - 1) for step in TRUTH.lowered[1:]
               for off in (-2e-4, 2e-4)]
    assert round(100 * min(changes)) == 5 and round(100 * max(changes)) == 8
    # a gauge of 1.4 mm and half a string's thickness
    assert 1.4e-3 + house_strings["VI"]["diameter"] / 2 == pytest.approx(2.0e-3, abs=0.05e-3) and "1.17 mm" in PROSE
    assert curve(4.6e-3) / curve(1.6e-3) == pytest.approx(curve(6e-3) / curve(3e-3), rel=0.01)
    assert "a string at 1.6 mm and one at 3.0 mm fall by nearly the same ratio" in PROSE
    assert f"{predicted[1]:.3f}" == "0.289" in ANSWERS["8.8"].worked
    assert f"{loud[1] / loud[0]:.3f}" == "0.279" in ANSWERS["8.8"].worked


def test_the_example_of_a_design_meets_few_limits_and_is_no_answer():
    assert '"ferrite", "wire": 42, "turns": 9000' in PROSE
    assert design_report(magnet="ferrite", wire=42, turns=9000, tops=[0.0] * 6).fill > 1


def test_numbers_of_the_worked_report():
    worked = ANSWERS["8.8"].worked
    for value, words in ((RESPONSE["inductance"], "has 2.84 H"), (RESPONSE["capacitance"] * 1e12, "and 142 pF"),
                         (half_of_interval(RESPONSE, "inductance"), "give or take 0.03 H"),
                         (COIL["inductance"], "lead to 2.88 H"),
                         (half_of_interval(COIL, "inductance"), "give or take 0.08 H"),
                         (RESPONSE.reduced_chi_square, "is 1.1 times"), (RESPONSE["load_resistance"] / 1e3, "794 kΩ"),
                         (len(EXCITER), "48 voltages"), (COIL_RESISTANCE, "with 7350 Ω")):
        assert_printed(value, words, worked)
    line = np.polyfit(CAPACITORS["added capacitance"], (2 * np.pi * CAPACITORS["resonance"]) ** -2, 1)
    assert_printed(line[0], "says 2.92 H", ANSWERS["8.2"].worked)
    assert ANSWERS["8.2"].example_result().is_right(line[0])


def test_examples_of_the_answers_are_the_invented_files():
    for exercise_id, readings, names in (("8.2", CAPACITORS, ("added capacitance", "resonance")),
                                ("8.6", GAUSS, ("distance", "flux density"))):
        written = np.stack([readings.as_written(name) for name in names], axis=1)
        assert ANSWERS[exercise_id].example["table"] == pytest.approx(written)


def test_what_the_predictions_say_is_what_the_models_show():
    before, after = (coil_guess(inductance=one, own=own, load=5e5) for one, own in ((2.0, 200e-12), (4.0, 100e-12)))
    assert before.resonances[0] == pytest.approx(after.resonances[0]) and ANSWERS["p1"].seen == "b"
    assert after.resonances[1] < 0.8 * before.resonances[1]
    assert ANSWERS["p2"].seen == "d" and WRONG.off > 0.1 and WRONG.residual < 0.05
    # 140 mT touching the rod, 8 mT at 10 mm, as its question says, to one or two digits
    assert (1e3 * WRONG.readings[[0, -1]]).round() == pytest.approx([136, 8])
    assert ANSWERS["p3"].seen == "c" and FERRITE.resonance > 1.02 * ALNICO_5.resonance


def test_the_exciter_tells_what_was_put_in():
    found = exciter_runs(EXCITER).found.bare
    assert found.inductance == pytest.approx(TRUTH.inductance, rel=0.02)
    assert found.capacitance == pytest.approx(TRUTH.capacitance, rel=0.03)
    assert guess_then_data().still(inductance=TRUTH.inductance) is None


# ---- own files -------------------------------------------------------------------------------------------------------

def test_own_files_take_the_place_of_the_invented_ones(tmp_path, capsys):
    (tmp_path / "resonance_with_capacitors.csv").write_text(
        "added capacitance (nF);resonance (kHz)\n0;9,2\n0,22;5,69\n0,47;4,36\n1;3,18\n", encoding="utf-8")
    readings = from_bench("resonance_with_capacitors.csv", tmp_path)
    assert "your own: 4 rows" in capsys.readouterr().out and readings["resonance"][0] == 9200


FIELD_HEADER = "distance (mm),flux density (G)\n"


@pytest.mark.parametrize("name, content, words", [
    ("resonance_with_capacitors.csv", "added capacitance (pF)\n1\n", 'The column "resonance" is missing'),
    ("resonance_with_capacitors.csv", "added capacitance (pF),resonance (Hz)\n0,4000\n100,5000\n200,6000\n",
     "lower with more capacitance, and these"),
    ("gauss_against_distance.csv", FIELD_HEADER + "1,900\n2,600\n", "It has 2 rows"),
    ("gauss_against_distance.csv", "distance (mm),flux density (T)\n1,900\n2,600\n", "are they in gauss?"),
    ("exciter_response.csv", "added capacitance (pF),frequency (Hz),voltage (mV)\n0,200,1\n0,300,2\n0,400,3\n0,500,4\n"
     "0,600,5\n0,700,6\n0,800,7\n0,900,8\n", "Two runs"),
    ("gauss_against_distance.csv", FIELD_HEADER + "0,14.2\n1,9.2\n2,6.2\n3,4\n", "remanence of 0.00"),
    ("gauss_against_distance.csv", FIELD_HEADER + "0,500\n1,500\n2,500\n3,500\n", "do not fall"),
    ("gauss_against_distance.csv", FIELD_HEADER + "0,900\n1,-600\n2,400\n3,300\n", "one sign"),
    ("gauss_against_distance.csv", "distance (mm),flux density (mT)\n0,1425\n1,919\n2,621\n", "are they in gauss?"),
    ("resonance_with_capacitors.csv", "added capacitance (nF),resonance (Hz)\n0,8700\n100,6800\n470,4200\n",
     "inductance of 0.00"),
    ("meter_readings.csv", "frequency (Hz),inductance (H),resistance (kohm)\n0,2.3,6\n", "above zero"),
    ("meter_readings.csv", "frequency (Hz),inductance (H),resistance (kohm)\n120,2300,6\n", "more than this bench")])
def test_what_is_wrong_with_an_own_file_is_one_sentence_and_the_page_goes_on(tmp_path, capsys, name, content, words):
    (tmp_path / name).write_text(content, encoding="utf-8")
    found, said = from_bench(name, tmp_path), capsys.readouterr().out
    assert words in said.splitlines()[0] and "goes on with the invented file" in said.splitlines()[0]
    assert f"{name}, invented:" in said.splitlines()[1]
    assert found.remarks[0].startswith("Invented by the course's script")


def test_a_file_that_is_not_there_is_one_line(tmp_path, capsys):
    found, said = from_bench("meter_readings.csv", tmp_path), capsys.readouterr().out
    assert len(said.splitlines()) == 1 and "not among your own files, so the invented one" in said and len(found) == 3


TIME = np.arange(33_000) / 22_050
NOISE_ALONE, OTHER_TONE = 0.1 * np.random.default_rng(1).standard_normal(TIME.size), 0.3 * np.sin(440 * np.pi * TIME)


def bench_of_plucks(folder, **plucks):
    """Own recordings: each the invented one of a name, or samples."""
    for name, one in plucks.items():
        if isinstance(one, str):
            (folder / f"pluck_{name}.wav").write_bytes((DATA / f"pluck_{one}.wav").read_bytes())
        else:
            wavfile.write(folder / f"pluck_{name}.wav", 22_050, np.round(32767 * one).astype("<i2"))


@pytest.mark.parametrize("plucks, words", [
    ({"near": "near"}, "pluck_middle.wav is not there"),
    ({"near": "far", "middle": "middle", "far": "near"}, "no height above the workshop's pickup explains"),
    ({"near": "near", "middle": "near", "far": "near"}, "1 : 1 : 1"),
    ({"near": NOISE_ALONE, "middle": "middle", "far": "far"}, "No tone near 87.3 Hz"),
    ({"near": "near", "middle": OTHER_TONE, "far": "far"}, "pluck_middle.wav: No tone near 87.3 Hz"),
    ({"near": 0.3 * np.sin(174.6 * np.pi * TIME), "middle": "middle", "far": "far"}, "does not die away"),
    ({"near": "near", "middle": "middle", "far": np.repeat(NOISE_ALONE, 3)[:9000]}, "pluck_far.wav: No tone"),
    ({"near": "near", "middle": "middle", "far": 0.3 * np.sin(2 * np.pi * 87.3 * TIME[:7000])}, "pluck_far.wav: ")])
def test_own_and_invented_plucks_are_never_mixed(tmp_path, capsys, height, plucks, words):
    bench_of_plucks(tmp_path, **plucks)
    found, said = from_bench_plucks(tmp_path, lowered=[0.0, 2e-3, 5e-3]), capsys.readouterr().out.splitlines()
    assert words in said[0] and "three invented ones" in said[0] and len(said) == 4
    assert found.lowered == TRUTH.lowered and found.amplitude == pytest.approx(height[1])
    assert all(one.remarks[0].startswith("Invented") for one in found.recordings)


def test_own_plucks_that_fit_are_taken_with_their_own_steps(tmp_path, capsys):
    bench_of_plucks(tmp_path, near="near", middle="middle", far="far")
    found = from_bench_plucks(tmp_path, lowered=[0.0, 2.9e-3, 7e-3])
    assert capsys.readouterr().out.count("your own") == 3 and found.lowered == (0.0, 2.9e-3, 7e-3)
    assert found.recordings[0].remarks == ("The bench's own file.",)


def record_of(exercise):
    return read_record(exercise.id, exercise.sheet_record(None, "salt"))


@pytest.mark.parametrize("number", [4.35, 3.513, 3.304])   # mean of each, line through the origin, last reading alone
def test_every_way_without_own_capacitance_gets_its_note(number):
    exercise = ANSWERS["8.2"]
    notes = record_of(exercise).slips_met(exercise.example_result(), number)
    assert {name for name, _ in notes} == {"self-capacitance left out"}


def test_a_size_that_is_not_asked_is_one_sentence():
    with pytest.raises(ValueError, match='"foo" is not asked for$'):
        record_of(ANSWERS["8.2"]).read({**ANSWERS["8.2"].example, "foo": 3})


def test_the_wrong_model_gives_no_right_answer():
    exercise = ANSWERS["8.6"]
    result, record = exercise.example_result(), record_of(exercise)
    assert result.right == pytest.approx(1e6 * ALNICO["flux"]) and result.is_right(1e6 * ALNICO["flux"])
    assert result.tolerance == pytest.approx(1e6 * half_of_interval(ALNICO, "flux"))
    for fit, slip, more in ((UNIFORM, "uniform rod", 9), (LINE, "recoil line", 5)):
        assert not result.is_right(1e6 * fit["flux"])
        assert slip in [name for name, _ in record.slips_met(result, round(1e6 * fit["flux"], 2))]
        assert round(100 * (fit["flux"] / ALNICO["flux"] - 1)) == more
    assert "would say 9 and 5 % more" in exercise.worked and "are 4.1, 3.0 and 1.4 times" in exercise.teaching_note
    assert math.sqrt(ALNICO.reduced_chi_square) == pytest.approx(1.4, abs=0.05)
    ferrite = record.read({**exercise.example, "grade": "ferrite"})
    with pytest.raises(ValueError, match="4.1 times as large as stated. Is the rod of this kind"):
        record.result(ferrite)


def test_each_unit_of_strength_in_the_teaching_notes():
    assert "a strength of 0.95 says of the alloy" in " ".join(ANSWERS["8.6"].teaching_note.split())
    assert ALNICO["strength"] == pytest.approx(0.95, abs=0.005)
    note = next(lesson for lesson in load_lessons(NOTEBOOKS.parent / "answers") if lesson.id == "08").teaching_note
    assert "1.6 times as strong as its data sheet" in " ".join(note.split())
    assert rod_fitted(grade="alnico 2")["strength"] / ALNICO["strength"] == pytest.approx(1.6, abs=0.05)
    assert math.sqrt(rod_fitted(grade="alnico 8").reduced_chi_square) == pytest.approx(3, abs=0.5)


def test_the_page_and_the_guide_carry_the_cautions():
    for text in (PROSE, GUIDE):
        assert all(word in text for word in ("pacemaker", "15 cm", "30 cm", "headphones", "earth", "whip", "brass",
                                             "safety glasses"))
        assert re.search(r"Local rules", text)
    assert "[data/WORKBENCH.md](data/WORKBENCH.md)" in PROSE
