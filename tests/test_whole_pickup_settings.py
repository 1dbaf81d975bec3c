"""Settings of the whole pickup in a file: kept and read again, read from an instrument's file, refused where wrong."""
import math
import re
import textwrap
from dataclasses import fields, replace
from pathlib import Path

import pytest

from lessons_lib.base.units import unit_of
from lessons_lib.base.workshop import house_coil, house_strings
from lessons_lib.lessons.instrument import house_instrument, instrument_of
from lessons_lib.lessons.own_instrument import KEYS, read_instrument
from lessons_lib.lessons.whole_pickup.model import whole_pickup
from lessons_lib.lessons.whole_pickup.settings import (
    FILE_KEYS,
    METALS,
    OWN,
    PRESETS,
    RANGES,
    SPREADS,
    WRAPS,
    Settings,
    begin_with,
    read_settings,
    save_settings,
)

TOP = Path(__file__).resolve().parent.parent
NUMBERS = [field.name for field in fields(Settings) if isinstance(field.default, (int, float))]


def read(tmp_path, text):
    path = tmp_path / "settings.toml"
    path.write_text(text, encoding="utf-8")
    return read_settings(path)


def kept_and_read(tmp_path, settings):
    save_settings(settings, tmp_path / "kept.toml")
    return read_settings(tmp_path / "kept.toml")


def readmes_example():
    shown = re.search(r"^  ```toml\n(.+?)^  ```", (TOP / "README.md").read_text(encoding="utf-8"),
                      re.DOTALL | re.MULTILINE)
    return textwrap.dedent(shown[1])


# ---- there and back --------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("name", PRESETS)
def test_presets_come_back_as_they_were(tmp_path, name):
    assert kept_and_read(tmp_path, PRESETS[name]) == PRESETS[name]


@pytest.mark.parametrize("name", NUMBERS)
@pytest.mark.parametrize("end", [1, 2])
def test_both_ends_of_every_slider_come_back(tmp_path, name, end):
    unit, *_ = RANGES[name]
    settings = replace(Settings(string=OWN), **{name: RANGES[name][end] * unit_of(unit).factor})
    again = kept_and_read(tmp_path, settings)
    for other in NUMBERS:
        assert getattr(again, other) == pytest.approx(getattr(settings, other), rel=1e-9), other
    assert (again.instrument, again.form, again.grade, again.string) == (
        settings.instrument, settings.form, settings.grade, settings.string)


@pytest.mark.parametrize("changed", [
    {"metal": "answers"}, {"wrap": "nickel-plated steel", "string": "VI"}, {"spread": "shown"}])
def test_switches_come_back(tmp_path, changed):
    assert kept_and_read(tmp_path, Settings(**changed)) == Settings(**changed)


def test_a_file_from_before_the_switches_has_them_off(tmp_path):
    save_settings(Settings(cable=1e-9), tmp_path / "new.toml")
    before, switches = (tmp_path / "new.toml").read_text(encoding="utf-8").split("[world]")
    assert "metal" in switches
    assert read(tmp_path, before) == Settings(cable=1e-9, metal=METALS[0], wrap=WRAPS[0], spread=SPREADS[0])


def test_an_own_string_and_magnet_come_back(tmp_path):
    own = Settings(grade=OWN, remanence=0.6, string=OWN, frequency=98.0, string_diameter=1.1e-3, core=0.5e-3,
                   linear_density=6.1e-3, fret=3, direction=math.pi / 2, volume=math.inf)
    assert kept_and_read(tmp_path, own) == replace(own, direction=pytest.approx(math.pi / 2))


def test_an_instrument_of_ones_own_comes_back(tmp_path):
    path = tmp_path / "instrument.toml"
    path.write_text(readmes_example(), encoding="utf-8")
    begun = begin_with(instrument_of(read_instrument(path)))
    assert begun.instrument.strings["VI"] != house_strings["VI"] and begun.gauge == 43 and begun.grade == OWN
    assert kept_and_read(tmp_path, begun) == begun
    assert read_settings(path) == begun         # its file is one of settings, too


def test_the_workshops_instrument_begins_with_the_workshops_settings():
    assert begin_with(house_instrument) == Settings()


def test_an_instruments_parts_are_those_of_the_whole_pickup(tmp_path):
    path = tmp_path / "instrument.toml"
    path.write_text(readmes_example(), encoding="utf-8")
    own = instrument_of(read_instrument(path))
    whole = whole_pickup(replace(begin_with(own), string="VI"))
    assert whole.inductance == pytest.approx(own.inductance(), rel=1e-9)
    assert whole.tuned.frequency(1) == pytest.approx(own.strings["VI"]["frequency"], rel=1e-9)
    assert whole.sensitivity == pytest.approx(own.pickup.sensitivity(
        own.steel_of("VI"), height=own.place["string_height"], y=own.y_of("VI")), rel=1e-3)


# ---- a few lines are enough ------------------------------------------------------------------------------------------

def test_what_is_left_out_stays_the_workshops(tmp_path):
    assert read(tmp_path, 'name = "same"') == Settings()


def test_a_few_lines(tmp_path):
    settings = read(tmp_path, """
        name = "mine"
        magnet = {form = "screws"}
        place = {string_height_mm = 3}
        play = {string = "V", direction_degrees = 90}
        load = {cable_pF = 1500, volume_kohm = inf}
        """)
    assert settings == replace(Settings(), form="screws", height=3e-3, string="V", direction=pytest.approx(
        math.pi / 2), cable=1500e-12, volume=math.inf)


def test_a_remanence_without_a_grade_is_a_magnet_of_ones_own(tmp_path):
    assert read(tmp_path, 'name = "mine"\nmagnet = {remanence_T = 0.5}').grade == OWN
    both = read(tmp_path, 'name = "mine"\nmagnet = {remanence_T = 0.5, grade = "alnico 2"}')
    assert both.grade == "alnico 2" and both.remanence == 0.5


def test_tables_and_keys_of_an_instruments_file_are_all_there():
    for table, keys in KEYS.items():
        assert keys.keys() <= FILE_KEYS[table].keys()
        for key, (_, unit, low, high) in keys.items():      # whatever it may have can be read here, too
            assert FILE_KEYS[table][key][1] == unit
            assert FILE_KEYS[table][key][2] <= low and high <= FILE_KEYS[table][key][3], key
    assert set(NUMBERS) <= RANGES.keys() and house_coil.keys() <= RANGES.keys()


@pytest.mark.parametrize("name", NUMBERS)
def test_the_workshops_value_is_in_its_range(name):
    unit, low, high = RANGES[name]
    assert low - 1e-9 <= getattr(Settings(), name) / unit_of(unit).factor <= high + 1e-9


# ---- refused ---------------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("text, said", [
    ("", "name must be a text of 1 to 60 letters; got None."),
    ('name = "x"\n[plai]', 'the file has no "plai"; did you mean play?'),
    ('name = "x"\n[load]\ncable = 500', '[load] has no "cable"; did you mean cable_pF?'),
    ('name = "x"\n[load]\ncable_pF = -1', "[load] cable_pF must be a number from 0 to 2000; got -1."),
    ('name = "x"\n[load]\nvolume_kohm = 5', "[load] volume_kohm must be a number from 50 to inf; got 5."),
    ('name = "x"\n[load]\nvolume_kohm = nan', "[load] volume_kohm must be a number from 50 to inf; got nan."),
    ('name = "x"\n[load]\nvolume_kohm = "none"', "[load] volume_kohm must be a number from 50 to inf; got 'none'."),
    ('name = "x"\n[place]\nfret = 2.5', "[place] fret must be a whole number from 0 to 19; got 2.5."),
    ('name = "x"\n[place]\nstring_height_mm = 1', "[place] string_height_mm must be a number from 2 to 6; got 1."),
    ('name = "x"\n[magnet]\nform = "blade"', '[magnet] form must be one of "rods", "screws", "pair"; got \'blade\'.'),
    ('name = "x"\n[magnet]\ngrade = 5', '[magnet] grade must be one of "alnico 2"'),
    ('name = "x"\n[magnet]\ngrade = ["own"]', '[magnet] grade must be one of "alnico 2"'),
    ('name = "x"\n[world]\nmetal = true', '[world] metal must be one of "does not answer", "answers"; got True.'),
    ('name = "x"\n[world]\nwrap = 8', '[world] wrap must be one of "bronze", "nickel-plated steel"; got 8.'),
    ('name = "x"\n[play]\nstring = "VII"', '[play] string must be one of "I"'),
    ('name = "x"\n[strings.VII]', '[strings] has no "VII"; did you mean VI?'),
    ('name = "x"\nplay = 3', "play in [play] must be a table of values; got 3."),
    ('name = "x"\n[coil]\ninner_radius_mm = 2.4', "[coil] inner_radius_mm must be 2.92 or more"),
    ('name = "x"\n[strings.III]\nfrequency_Hz = 100',
     "[strings.III] frequency_Hz, density_g_per_m and the scale length must make a tension from 20 to 250 N; got 16."),
    ('name = "x"\n[strings.III]\ncore_mm = 0.5', "[strings.III] core_mm must be diameter_mm or less; got 0.5."),
    ('name = "x', "cannot be read: ")])
def test_wrong_files_are_refused_in_one_sentence(tmp_path, text, said):
    with pytest.raises(ValueError, match=re.escape(said)) as refused:
        read(tmp_path, text)
    assert str(refused.value).startswith(str(tmp_path)) and str(refused.value).endswith((".", "?"))
    assert "\n" not in str(refused.value)


def test_a_file_that_is_not_there(tmp_path):
    with pytest.raises(FileNotFoundError):
        read_settings(tmp_path / "none.toml")


@pytest.mark.parametrize("wrong", [
    {"form": "blade"}, {"grade": "alnico 6"}, {"string": "VII"}, {"metal": True}, {"wrap": "silk"}, {"spread": "wide"}])
def test_settings_refuse_words_they_do_not_know(wrong):
    with pytest.raises(ValueError, match="must be one of"):
        Settings(**wrong)
