"""The invented bench data are the script's, are read without trouble, and the fits find what the bench was made of."""
from pathlib import Path

import numpy as np
import pytest

from lessons_lib.base.materials import magnet_grade
from lessons_lib.base.workshop import house_coil, house_magnet, house_place, house_strings
from lessons_lib.physics.alnico_rod import AlnicoRod
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.fits import fit_added_capacitance, fit_exciter_response, fit_gauss_readings
from lessons_lib.physics.recorded_pluck import fit_pluck, fit_string_height, sensitivity_curve
from lessons_lib.physics.steel import SteelString
from lessons_lib.workbench.invented import TRUTH, files, workshop_pickup, write_files
from lessons_lib.workbench.readings import (
    EXCITER_RESPONSE,
    GAUSS_AGAINST_DISTANCE,
    METER_READINGS,
    RESONANCE_WITH_CAPACITORS,
    read_readings,
)
from lessons_lib.workbench.recordings import read_recording

TOP = Path(__file__).resolve().parent.parent
DATA = TOP / "notebooks" / "data"
ROD = {name: house_magnet[name] for name in ("diameter", "length")}


@pytest.fixture(scope="module")
def made():
    return files()


def covered(fit, **truth):
    return {name: fit.interval(name)[0] <= value <= fit.interval(name)[1] for name, value in truth.items()}


def test_the_stored_files_are_those_of_the_script(made):
    assert {path.name for path in DATA.iterdir()} == {*made, "WORKBENCH.md"}      # the guide beside them is written
    for name in made:
        if not name.endswith(".wav"):
            assert (DATA / name).read_bytes() == made[name], name


def test_the_stored_recordings_are_those_of_the_script(made):
    for name in (name for name in made if name.endswith(".wav")):
        stored, again = (read_recording(source) for source in (DATA / name, made[name]))
        # another processor may round the last step of 16 bit otherwise
        assert np.abs(stored.samples - again.samples).max() < 1.5 * 2.0 ** -15 and stored.rate == again.rate


def test_the_command_writes_the_files(tmp_path, made):
    folder = tmp_path / "bench" / "again"
    write_files([str(folder)])
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == made


def test_the_files_are_small():
    assert sum(path.stat().st_size for path in DATA.iterdir()) < 300_000


def test_the_readme_says_invented_and_keeps_the_truth_to_the_script():
    text = (DATA / "README.md").read_text(encoding="utf-8")
    assert "never measured" in text and max(map(len, text.splitlines())) <= 120
    for value in (TRUTH.strength, TRUTH.inductance, TRUTH.capacitance * 1e12, TRUTH.stand_off * 1e3,
                  TRUTH.load_resistance / 1e3, TRUTH.string_height * 1e3):
        assert f"{value:g}" not in text


def test_the_rod_is_found():
    readings = read_readings(DATA / "gauss_against_distance.csv", columns=GAUSS_AGAINST_DISTANCE)
    fit = fit_gauss_readings(readings["distance"], readings["flux density"], **ROD, grade="alnico 5",
                             uncertainty=TRUTH.gauss_noise * readings["flux density"])
    flux = TRUTH.strength * AlnicoRod(grade=magnet_grade("alnico 5"), **ROD).midplane_flux()
    assert all(covered(fit, strength=TRUTH.strength, stand_off=TRUTH.stand_off, flux=flux).values())
    assert "look like noise" in fit.remark


def test_the_coil_is_found_two_ways_that_agree():
    truth = {"inductance": TRUTH.inductance, "capacitance": TRUTH.capacitance}
    readings = read_readings(DATA / "resonance_with_capacitors.csv", columns=RESONANCE_WITH_CAPACITORS)
    by_capacitors = fit_added_capacitance(readings["added capacitance"], readings["resonance"])
    readings = read_readings(DATA / "exciter_response.csv", columns=EXCITER_RESPONSE)
    by_response = fit_exciter_response(readings["frequency"], readings["voltage"], resistance=TRUTH.resistance,
                                       added_capacitance=readings["added capacitance"])
    assert all(covered(by_capacitors, **truth).values()) and all(covered(by_response, **truth).values())
    assert covered(by_response, load_resistance=TRUTH.load_resistance)["load_resistance"]


def test_the_meter_shows_what_the_coil_must_show():
    readings = read_readings(DATA / "meter_readings.csv", columns=METER_READINGS)
    impedance = LoadedCoil(resistance=TRUTH.resistance, inductance=TRUTH.inductance,
                           capacitance=TRUTH.capacitance).impedance(readings["frequency"])
    impedance = 1 / (1 / impedance + 1 / TRUTH.load_resistance)     # probe and losses lie across the coil here too
    shown = np.stack([readings["inductance"] * 2 * np.pi * readings["frequency"], readings["resistance"]])
    # 4 sigma of the meter, and the half of the last digit that the file keeps
    np.testing.assert_allclose(shown, [impedance.imag, impedance.real], rtol=4 * TRUTH.meter_noise + 3e-4)
    assert readings["inductance"][-1] < 0      # above the resonance the coil is a capacitor


def test_the_strings_height_is_found_from_three_recordings():
    plucks = [fit_pluck(recording.samples, recording.rate, near=house_strings["VI"]["frequency"], count=5)
              for recording in (read_recording(DATA / f"pluck_{name}.wav") for name in ("near", "middle", "far"))]
    for pluck in plucks:
        assert pluck.start == pytest.approx(0.1, abs=6e-3)
        assert pluck.frequency[0] == pytest.approx(house_strings["VI"]["frequency"], rel=1e-4)
    curve = sensitivity_curve(workshop_pickup(), SteelString(diameter=house_strings["VI"]["core"]), lowest=1e-3,
                              highest=12e-3, y=house_place["string_y"][0])
    amplitude = np.array([pluck.amplitude[0] for pluck in plucks])
    fit = fit_string_height(TRUTH.lowered, amplitude, curve=curve, uncertainty=TRUTH.pluck_noise * amplitude)
    assert covered(fit, height=TRUTH.string_height)["height"]
    assert 0.1e-3 < fit.uncertainty("height") < 0.3e-3         # the 0.2 mm of the docstring
    assert house_coil["turns"] == workshop_pickup().coils[0].turns


def test_two_recordings_3_mm_apart_do_not_give_the_height_and_a_longer_step_does():
    # the fall from 0 to 3 mm lower is that of two heights
    curve = sensitivity_curve(workshop_pickup(), SteelString(diameter=house_strings["VI"]["core"]), lowest=1e-3,
                              highest=12e-3, y=house_place["string_y"][0])
    amplitude = curve(TRUTH.string_height + np.array([0.0, 3e-3]))
    with pytest.raises(ValueError, match="lower the pickup further"):
        fit_string_height([0.0, 3e-3], amplitude, curve=curve, uncertainty=0.02 * amplitude)
    amplitude = curve(TRUTH.string_height + np.array([0.0, 7e-3]))
    fit = fit_string_height([0.0, 7e-3], amplitude, curve=curve, uncertainty=0.02 * amplitude)
    assert fit["height"] == pytest.approx(TRUTH.string_height, rel=1e-3) and fit.uncertainty("height") < 0.3e-3
