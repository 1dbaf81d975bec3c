"""The whole pickup nearer to the world: metal that answers, a wrap of steel; and where each vanishes."""
import math
import re
from dataclasses import replace

import numpy as np
import pytest
from numpy.testing import assert_allclose

from lessons_lib.base.as_made import as_made
from lessons_lib.base.materials import magnet_grade, steel
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.whole_pickup import panels, parts
from lessons_lib.lessons.whole_pickup.changes import changes
from lessons_lib.lessons.whole_pickup.film import lines
from lessons_lib.lessons.whole_pickup.model import above_hiss_and_hum
from lessons_lib.lessons.whole_pickup.parts import WRAP, pickup_of
from lessons_lib.lessons.whole_pickup.settings import GRADES, OWN, WRAPS
from lessons_lib.physics.pickup import Pickup
from notebooks import WHOLE, read
from shown import message
from whole_settings import OWN_MAGNET, OWN_STRING, START, of

ON, STEEL = {"metal": "answers"}, {"wrap": WRAPS[1]}
BARE = {"volume": math.inf, "tone": math.inf, "amplifier": 1e6}     # behind a cable of 500 pF, no controls


def inductance_at(one, frequency):
    """Of the coil with its loops, H."""
    s = 2j * math.pi * frequency
    seen = one.coil.inductance * s + sum(s * L * R / (R + s * L) for L, R in one.coil.loops)
    return seen.imag / abs(s)


# ---- metal that answers ----------------------------------------------------------------------------------------------

@pytest.fixture
def their_steel(monkeypatch):
    """The other program's screws have 0.10 microohm metres, the table of materials has 0.15."""
    monkeypatch.setattr(parts, "steel", lambda name: replace(steel(name), resistivity=0.10e-6))


@pytest.mark.parametrize("form, load, level, place", [
    ("rods", {}, (5.4, 4.65), (4.19, 4.11)), ("rods", BARE, (13.9, 11.7), None),
    ("screws", BARE, (14.6, 10.8), (3.13, 3.27))])
def test_the_peak_is_that_of_another_program(form, load, level, place, their_steel):
    """Surface currents of a program that shares no code with the library, complex permeability of a long cylinder."""
    off, on = (of(form=form, pluck_place=0.0999, **load, **more) for more in ({}, ON))
    assert [one.coil.peak()[1] - one.coil.low_frequency_level for one in (off, on)] == pytest.approx(level, abs=0.15)
    if place:
        assert [one.response_peak[0] / 1e3 for one in (off, on)] == pytest.approx(place, abs=0.015)


def test_screws_lose_inductance_as_in_another_program(their_steel):
    on = of(form="screws", pluck_place=0.0999, **ON)       # of no other test: results are kept
    assert on.inductance == pytest.approx(4.28, abs=0.01) == of(form="screws").inductance
    assert [inductance_at(on, at) for at in (1e3, 4e3)] == pytest.approx([4.01, 3.72], rel=0.003)


@pytest.mark.parametrize("form, resistivity", [
    ("rods", magnet_grade("alnico 5").resistivity), ("screws", steel("screw steel").resistivity),
    ("pair", magnet_grade("alnico 5").resistivity)])
def test_behind_the_load_it_is_a_divider_of_impedances(form, resistivity):
    one, frequency = of(form=form, **BARE, **ON), np.array([100.0, 1e3, 3e3, 5e3, 12e3])
    all_coils = parts._all_coils(pickup_of(one.settings))
    metal = Pickup(poles=[replace(pole, resistivity=float(resistivity)) for pole in all_coils.poles],
                   coils=all_coils.coils, bars=all_coils.bars)
    load = 1 / (2j * math.pi * frequency * (one.coil.capacitance + 500e-12) + 1e-6)
    expected = load / (load + one.coil.resistance + metal.impedance(frequency))
    assert_allclose(one.coil.response(frequency), expected, rtol=0.02)


def test_metal_that_does_not_conduct_does_not_answer(monkeypatch):
    """A resistivity without end is the switch off; ferrite's is as good as that."""
    for changed in ({"grade": "ferrite"}, {"grade": OWN, "recoil_permeability": 1.1}):
        assert of(**changed, **ON).coil.loops == ()
        assert_allclose(of(**changed, **ON).amplifier, of(**changed).amplifier, rtol=1e-6, atol=1e-9)
    monkeypatch.setattr(parts, "magnet_grade", lambda name: replace(magnet_grade(name), resistivity=math.inf))
    on, off = of(OWN_MAGNET, turns=5050, **ON), of(OWN_MAGNET, turns=5050)
    assert on.coil.loops == () and on.inductance == off.inductance
    assert_allclose(on.amplifier, off.amplifier, rtol=1e-12)


def test_an_own_magnet_answers_as_the_instruments_does():
    assert_allclose(of(OWN_MAGNET, **ON).coil.loops, house_instrument.metal.loops)
    assert_allclose(of(turns=3800, **ON).coil.loops, house_instrument.metal.with_turns(0.5).loops)


def test_sound_and_film_have_the_metal_in_them():
    on, off = of(**ON), of()
    assert on.peak < off.peak and np.array_equal(on.voltage, off.voltage)
    spectrum_on, spectrum_off = (np.abs(np.fft.rfft(one.sound(0.5))) for one in (on, off))
    treble = slice(2000, 2500)      # 4 to 5 kHz
    ratio = np.sqrt((spectrum_on[treble] ** 2).sum() / (spectrum_off[treble] ** 2).sum())
    response = np.interp(np.linspace(4e3, 5e3, 50), np.geomspace(50.0, 20e3, 260), on.response - off.response)
    assert response.min() - 0.1 < 20 * math.log10(ratio) < response.max() + 0.1


def test_the_metal_is_laid_out_once(monkeypatch):
    of(**ON)

    def refuse(*_, **__):
        raise AssertionError("solved again")
    monkeypatch.setattr(Pickup, "impedance", refuse)
    for changed in ({"height": 3.3e-3}, {"turns": 6200}, {"cable": 2e-10}, {"tone_setting": 0.3}):
        assert of(**changed, **ON).response_peak


# ---- a wrap of steel -------------------------------------------------------------------------------------------------

def test_a_wrap_of_permeability_one_is_bronze(monkeypatch):
    bronze = of(string="VI", height=2.9e-3)
    monkeypatch.setattr(parts, "WRAP", 1.0)
    assert_allclose(of(string="VI", height=2.9e-3, **STEEL).voltage, bronze.voltage, rtol=1e-9, atol=1e-15)


@pytest.mark.parametrize("string", ("I", "II", "III"))
def test_plain_strings_have_no_wrap(string):
    assert np.array_equal(of(string=string, **STEEL).amplifier, of(string=string).amplifier)
    sentence = changes(replace(START, string=string), replace(START, string=string, **STEEL))
    assert sentence.startswith(f"String {string} is plain: it has no wrap, and nothing changes")


def test_a_wrap_of_steel_makes_a_wound_string_louder():
    """String VI by 5.3, 7.1 and 9.3 dB for an effective permeability of 5, 10 and 20: each within 0.1 dB."""
    bronze = of(string="VI").first_pulse
    for permeability, gain in ((5.0, 5.3), (10.0, 7.1), (20.0, 9.3)):
        wound = parts.steel_of(replace(START, string="VI", **STEEL))
        louder = pickup_of(START).sensitivity(replace(wound, wrap_permeability=permeability), height=2.5e-3, y=-25.5e-3)
        assert 20 * math.log10(louder * of(string="VI").peak_velocity / bronze) == pytest.approx(gain, abs=0.1)
    gains = [20 * math.log10(of(string=name, **STEEL).first_pulse / of(string=name).first_pulse)
             for name in ("VI", "V", "IV", "III wound")]
    assert 5.3 < gains[0] < 7.1 and sorted(gains, reverse=True) == gains and gains[-1] > 1   # thicker wrap, more


def test_the_motion_and_the_coil_stay_and_more_lines_come_to_the_string():
    bronze, wrapped = of(string="VI"), of(string="VI", **STEEL)
    assert np.array_equal(bronze.up, wrapped.up) and bronze.coil == wrapped.coil
    assert wrapped.sideways > bronze.sideways
    few, many = (np.isnan(lines(one.settings)[0]).sum() for one in (bronze, wrapped))
    assert many > 1.5 * few


def test_a_thick_wrap_of_steel_does_not_reach_into_the_pole():
    thick = replace(OWN_STRING, string_diameter=2e-3, frequency=60.0, force=2.0, height=2e-3, **STEEL)
    here = of(thick)
    assert here.held_back == "pole" and (here.settings.height + here.up).min() >= 1.1e-3
    assert "nearer to the pole than 1.1 mm" in changes(replace(thick, cable=0.0), thick)
    assert of(OWN_STRING, string_diameter=2e-3).peak > 0       # bronze: the core counts


# ---- hiss and hum ----------------------------------------------------------------------------------------------------

def test_the_hiss_is_that_of_a_capacitance_in_a_room():
    """sqrt(k T/C) = 2.60 uV for 600 pF over all frequencies, whatever coil (equipartition); 20 kHz leave most of it."""
    one = of(**BARE)
    hiss, hum = above_hiss_and_hum(one)
    signal = np.sqrt(np.mean(one.amplifier ** 2))
    assert signal / 10 ** (hiss / 20) == pytest.approx(2.60e-6, rel=0.02)
    assert signal / 10 ** (hum / 20) == pytest.approx(one.hum, rel=0.02)       # at 50 Hz the coil passes what it has


def test_half_the_pluck_is_six_decibels_less_and_a_pair_has_no_hum():
    half, whole = (above_hiss_and_hum(of(force=force)) for force in (0.05, 0.1))
    assert np.subtract(whole, half) == pytest.approx((6.02, 6.02), abs=0.1)
    assert above_hiss_and_hum(of(form="pair"))[1] is None and above_hiss_and_hum(of(force=0.0)) == (None, None)
    assert [panels.whole_pickup().at(**values).readouts["above hiss and hum"] for values in (
        {}, {"form": "pair"}, {"force": 0.0})] == ["92 and 55 dB", "97 dB, no hum", "no signal"]


# ---- what is said ----------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("changed", [ON, {"form": "screws", **ON}, {"form": "pair", **ON}])
def test_the_sentence_on_metal_says_what_the_model_gives(changed):
    before = replace(START, form=changed.get("form", "rods"))
    was, now, sentence = of(before), of(before, **changed), changes(before, replace(before, **changed))
    new, old = map(float, re.search(r"has ([\d.]+) instead of ([\d.]+) H", sentence).groups())
    assert (new, old) == pytest.approx((inductance_at(now, 5e3), was.inductance), abs=0.006) and new < old
    there = re.search(r"response is ([\d.]+) instead of ([\d.]+) dB high, at ([\d.]+) instead of ([\d.]+) kHz",
                      sentence)
    heights = [one.coil.peak()[1] - one.coil.low_frequency_level for one in (now, was)]
    assert tuple(map(float, there.groups())) == pytest.approx(
        (*heights, *(one.response_peak[0] / 1e3 for one in (now, was))), abs=0.06) and heights[0] < heights[1]
    assert sentence.endswith("lesson 6.") and "any more" in changes(now.settings, before)


@pytest.mark.parametrize("grade", GRADES)
def test_only_what_conducts_answers(grade):
    before = replace(START, grade=grade)
    assert ("nothing changes" in changes(before, replace(before, **ON))) == (grade == "ferrite")


def test_the_sentence_on_a_wrap():
    before = replace(START, string="VI")
    sentence, back = changes(before, replace(before, **STEEL)), changes(replace(before, **STEEL), before)
    assert "effective permeability of 8" in sentence and "only the core is magnetised" in back
    assert re.search(r"swings by 273 instead of 134 µWb", sentence) and sentence.endswith("lesson 7.")
    both = changes(replace(before, **STEEL), replace(before, string="V", **STEEL))
    assert "its core is 0.42 instead of 0.46 mm thick" in both


def test_a_thicker_wrap_counts_if_it_is_steel():
    own = replace(OWN_STRING, string_diameter=0.8e-3)
    assert "changes nothing" in changes(own, replace(own, string_diameter=1.1e-3))
    sentence = changes(replace(own, **STEEL), replace(own, string_diameter=1.1e-3, **STEEL))
    assert sentence.startswith("With more of a wrap of steel, 1.10 instead of 0.80 mm outside, the flux linkage swings")
    assert of(own, string_diameter=1.1e-3, **STEEL).linkage_swing > of(own, **STEEL).linkage_swing


# ---- the panel -------------------------------------------------------------------------------------------------------

def test_the_switches_are_together_under_one_heading():
    controls = [spec.described() for spec in panels.whole_pickup().specs.values()]
    grouped = [control["name"] for control in controls if control.get("group")]
    assert grouped == [control["name"] for control in controls[-len(grouped):]]
    assert {control["group"] for control in controls[-len(grouped):]} == {"Nearer to the world"}


def test_switches_are_kept_in_a_file(tmp_path):
    panel = panels.whole_pickup()
    panel.asked(metal="answers", wrap="nickel-plated steel", string="VI")
    assert message(panel) == "" and panel.result.peak == pytest.approx(of(string="VI", **ON, **STEEL).peak)
    panels.save_pickup(panel, tmp_path / "mine.toml")
    assert dict(panels.whole_pickup(tmp_path / "mine.toml").values) == dict(panel.values)


def test_what_the_page_says_of_the_switches():
    page = "".join(cell.source for cell in read(WHOLE).cells if "Nearer to the world" in cell.source)
    third, bronze, plated = (of(**changed).peak for changed in ({}, {"string": "VI"}, {"string": "VI", **STEEL}))
    assert 20 * math.log10(third / bronze) == pytest.approx(8, abs=0.5) and 20 * math.log10(third / plated) < 2
    assert "8 dB fainter becomes less than 2 dB" in page
    assert (float(WRAP), WRAP.spread) == (8, (5, 20)) and "permeability of 8, and 5 to 20 are possible" in page
    assert as_made.string_memory.spread == (0.7, 1.3) and "Its 30 % either way is our own estimate" in page
    assert of(form="screws").field < 0.5 * of().field and "Over screws the field is weaker" in page
    lost = {form: of(**changed).coil.peak()[1] - of(**changed, **ON).coil.peak()[1] for form, changed in {
        "rods": {}, "screws": {"form": "screws"}, "ferrite": {"grade": "ferrite"}}.items()}
    assert lost["rods"] > 0.5 and lost["screws"] > 0.5 and lost["ferrite"] < 1e-3
    hiss, hum = above_hiss_and_hum(of())
    assert hiss - hum > 30 and "more than 30 dB above the hiss" in page
