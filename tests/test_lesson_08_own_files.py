"""Lesson 08: files of one's own in place of the invented ones, and what the three plucks say."""
import numpy as np
import pytest
from scipy.io import wavfile

from lessons_lib.base.workshop import house_strings
from lessons_lib.exercises.self_study import load_lesson
from lessons_lib.physics.recorded_pluck import fit_string_height
from lessons_lib.workbench.bench import from_bench, from_bench_plucks, string_curve
from lessons_lib.workbench.invented import TRUTH
from notebooks import NOTEBOOKS, assert_printed, prose

PROSE = prose("08")
DATA = NOTEBOOKS / "data"
ANSWERS = load_lesson(NOTEBOOKS.parent / "answers" / "lesson_08.py")


@pytest.fixture(autouse=True)
def beside_the_page(monkeypatch):
    monkeypatch.chdir(NOTEBOOKS)


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
    assert round(curve(4.6e-3) / curve(1.6e-3), 2) == round(curve(6e-3) / curve(3e-3), 2) == 0.30
    assert "the signals of a string at 1.6 mm and of one at 3.0 mm fall to 0.30, both" in PROSE
    assert f"{predicted[1]:.3f}" == "0.289" in ANSWERS["8.8"].worked
    assert f"{loud[1] / loud[0]:.3f}" == "0.279" in ANSWERS["8.8"].worked


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
