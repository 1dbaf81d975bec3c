"""Lesson 07: wraps of steel, a pair of coils three ways, currents in the metal, the string's memory: page and panel."""
import math
from dataclasses import replace

import numpy as np
import pytest
from matplotlib.text import Text
from scipy.constants import mu_0

from lesson_07_pages import COST, HEIGHT, PLAIN, db, magnetic_wrap
from lessons_lib.base.materials import steel
from lessons_lib.base.units import said
from lessons_lib.base.workshop import house_load, house_place, house_strings
from lessons_lib.exercises.self_study import load_lesson
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_07 import panels
from lessons_lib.lessons.lesson_07.model import arranged, pickup, string_levels
from lessons_lib.lessons.lesson_07.pair import of_metal, pair
from lessons_lib.lessons.lesson_07.wired import FREQUENCIES, PAIR_REACH, curves, two_coils, wired
from lessons_lib.physics.coil_response import LoadedCoil
from lessons_lib.physics.eddy_currents import as_loops
from lessons_lib.physics.pickup import Pickup
from lessons_lib.physics.six_strings import NICKEL_PLATED, workshop_row
from lessons_lib.physics.steel import STRING_PLACES, SteelString
from notebooks import NOTEBOOKS, assert_printed, prose
from shown import alt, readouts
from steel_memory import small_swing

PROSE = prose("07")
LESSON = load_lesson(NOTEBOOKS.parent / "answers" / "lesson_07.py")
WAYS = {wiring: wired(wiring=wiring, apart=18e-3, name="IV")
        for wiring in ("one", "series", "parallel", "out of phase")}
NO_CONTROLS = {"capacitance": 100e-12, "cable_capacitance": 500e-12, "input_resistance": 1e6}


# ---- wraps -----------------------------------------------------------------------------------------------------------

def test_the_switch_lifts_the_wound_strings_and_no_plain_one():
    nickel = string_levels(kind="rods", wrap=NICKEL_PLATED)
    gains = nickel.levels - PLAIN.levels
    assert gains[:3] == pytest.approx(magnetic_wrap(NICKEL_PLATED)) and gains[3:].tolist() == [0, 0, 0]
    for gain, words in zip(gains, ("string VI gains 6.4 dB", "V 4.7, IV", "IV 3.6.")):
        assert_printed(gain, words, PROSE)
    assert nickel.by_law.tolist() == PLAIN.by_law.tolist()      # that law is about bronze
    wound = string_levels(kind="rods", wrap=NICKEL_PLATED, third="III wound").levels
    assert wound[3] > string_levels(kind="rods", third="III wound").levels[3] + 2
    # string VI has the most wrap for its core
    wraps = [(house_strings[name]["diameter"] / house_strings[name]["core"]) ** 2 for name in ("VI", "V", "IV")]
    assert wraps == sorted(wraps, reverse=True) and "it has the most wrap for its core" in PROSE
    assert "the panel takes 8, and 5 to 20 may be true" in PROSE and NICKEL_PLATED == 8


def heard(steel_string):
    return pickup("rods").sensitivity(steel_string, height=HEIGHT, y=workshop_row()[0].y)


def test_a_wrap_as_thin_as_nothing_is_no_wrap():
    core = house_strings["VI"]["core"]
    thin = SteelString(diameter=core, wrap_diameter=core * (1 + 1e-9), wrap_permeability=NICKEL_PLATED)
    assert heard(thin) == pytest.approx(heard(SteelString(diameter=core)), rel=1e-6)


def test_what_steel_across_the_string_does_without_any_along_it():
    """A wrap that carries nothing along still leads flux across: a cylinder's moment is 2 H times its cross-section."""
    bronze, across = (heard(workshop_row(wrap_permeability=one)[0].steel) for one in (1.0, 1 + 1e-9))
    assert_printed(db(across / bronze), "alone makes 2.9 dB", PROSE)
    assert [string.impedance for string in workshop_row(wrap_permeability=8.0)] == [
        string.impedance for string in workshop_row()]


def test_the_words_of_the_wraps():
    panel = panels.levels_of_six()
    assert "wrapped in bronze" in alt(panel) and "VI: 75.6 mV, +0.0 dB" in readouts(panel)
    panel.asked(wrap="nickel-plated steel")
    assert "wrapped in nickel-plated steel" in alt(panel) and "+6.4 dB" in readouts(panel)


# ---- the pair three ways ---------------------------------------------------------------------------------------------

def test_the_table_of_three_ways():
    """From R, L, M of the instrument's own pair, by hand."""
    both = pair(-1)
    L = Pickup(poles=both.poles, coils=both.coils[0]).inductance()
    M = L - both.inductance() / 2       # the panel's pair has its second winding reversed, this one has not
    R = house_instrument.loaded(**house_load).resistance
    letters = {"one": ("$R$", "$L$", R, L), "series": ("$2R$", "$2(L+M)$", 2 * R, 2 * (L + M)),
               "parallel": ("$R/2$", "$(L+M)/2$", R / 2, (L + M) / 2),
               "out of phase": ("$2R$", "$2(L-M)$", 2 * R, 2 * (L - M))}
    names = {"one": "one coil alone", "series": "series", "parallel": "parallel", "out of phase": "out of phase"}
    levels = {"one": ("0 dB", "0 dB"), "series": ("+6.0 dB", "nothing"), "parallel": ("0 dB", "nothing"),
              "out of phase": ("nothing", "+6.0 dB")}
    for way, (r, henries, resistance, inductance) in letters.items():
        one = WAYS[way]
        assert (one.resistance, one.inductance) == pytest.approx((resistance, inductance), rel=1e-4)
        row = [names[way], f"{r} = {said(resistance, 'kΩ', '.1f')}", f"{henries} = {said(inductance, 'H', '.2f')}",
               said(one.peak, "kHz", ".2f"), *levels[way]]
        assert "| " + " | ".join(row) + " |" in PROSE
        for level, words in zip((one.signal, one.hum), levels[way]):
            assert {"0 dB": level == 0, "+6.0 dB": abs(level - db(2)) < 1e-9, "nothing": level == -math.inf}[words]
    assert_printed(M, "It is 0.20 H", PROSE)
    assert f"from {house_instrument.pickup.inductance():.3f} H to {L:.3f} H" in PROSE


def test_the_pair_at_other_distances_is_solved_with_its_rods():
    """The panel scales the mutual inductance of air by the rods' factor at 18 mm."""
    for apart in (PAIR_REACH[0], 40e-3):
        coils = [replace(house_instrument.long_coil, x=x) for x in (-apart / 2, apart / 2)]
        rods = [replace(pole, x=math.copysign(apart / 2, pole.x)) for pole in pair(-1).poles]
        alike = Pickup(poles=rods, coils=coils).inductance()
        opposed = Pickup(poles=rods, coils=[coils[0], replace(coils[1], winding_sense=-1)]).inductance()
        for wiring, expected in (("series", opposed), ("out of phase", alike)):
            assert two_coils(apart).inductance(wiring) == pytest.approx(expected, rel=5e-3)


def test_nulls_of_the_prose():
    """c = 2 L f of each string, half a wave in 18 mm."""
    for name, words in (("VI", "the first null is at 2.9 kHz"), ("IV", "null at 5.19 kHz"),
                        ("I", "above the peak, at 11.6 kHz")):
        null = 2 * house_place["scale_length"] * house_strings[name]["frequency"] / (2 * 18e-3)
        assert wired(wiring="series", apart=18e-3, name=name).null == pytest.approx(null)
        assert_printed(null / 1e3, words, PROSE)
    assert_printed(WAYS["parallel"].null / 1e3, "null at 5.19 kHz", PROSE)
    assert max(WAYS, key=lambda way: WAYS[way].peak) == "parallel" and "the highest of all, at 5.39 kHz" in PROSE
    wide = wired(wiring="series", apart=60e-3, name="VI").null
    assert_printed(wide / 1e3, "VI is at 0.87 kHz", PROSE)
    assert wide / house_strings["VI"]["frequency"] == pytest.approx(10) and "its tenth partial" in PROSE


def test_curves_are_comb_times_load():
    for way, one in WAYS.items():
        seen = curves(one, apart=18e-3, name="IV")
        delay = np.exp(-2j * np.pi * FREQUENCIES * 18e-3 / (2 * 0.6 * 155.6))
        first, second = {"one": (1, 0), "series": (1, 1), "parallel": (0.5, 0.5), "out of phase": (1, -1)}[way]
        by_hand = 20 * np.log10(np.abs((first + second * delay) * one.coil.response(FREQUENCIES)))
        assert seen["this"] == pytest.approx(np.maximum(by_hand, -60), abs=1e-6)


def test_the_picture_names_the_null_and_says_how_the_pair_is_joined():
    panel = panels.two_coils_three_ways()
    assert "5.19 kHz" in readouts(panel) and "Both coils in series: 17.4 kΩ, 4.74 H" in alt(panel)
    panel.asked(wiring="series, out of phase", name="VI", apart=60)
    assert "first null at 1.75 kHz, but for 0 Hz" in alt(panel) and "hum: +6.0 dB" in readouts(panel)
    panel.asked(wiring="one coil alone")
    assert "first null of the comb: none" in readouts(panel) and "no comb" in alt(panel)


def test_prediction_p7_the_comb_takes_what_the_resonance_lifts():
    one = WAYS["parallel"]
    seen = curves(one, apart=18e-3, name="IV")
    at_null = np.abs(FREQUENCIES - one.null).argmin()
    assert seen["this"][at_null] < seen["alone"][at_null] - 20 and LESSON["p7"].seen == "c"
    assert all(said(place, "kHz", ".1f") in LESSON["p7"].question for place in (one.peak, one.null))


def test_the_string_has_half_a_wave_between_the_coils():
    figure_panel = panels.two_coils_three_ways()
    drawn = figure_panel._drawing._draw(figure_panel._data(WAYS["series"], wiring="series", apart=18e-3, name="IV"))
    texts = [one.get_text() for one in drawn if isinstance(one, Text)]
    assert "half a wave between the coils: 5.19 kHz" in texts
    string = next(one for one in drawn if hasattr(one, "get_xdata") and len(one.get_xdata()) == 241)
    first, second = np.interp([-9, 9], string.get_xdata(), string.get_ydata())
    assert first - 2.5 == pytest.approx(2.5 - second, rel=0.01) and first > 3.5


# ---- metal that answers ----------------------------------------------------------------------------------------------

def test_the_column_of_4_khz():
    rods, screws = COST["rods, long coil"], COST["screws on a bar"]
    for row, words in ((screws, "them loses 11 % of its inductance"), (rods, "over rods 1 %.")):
        assert_printed(100 * (1 - row.inductance_at_4_khz / row.inductance), words, PROSE)
    # other hands' solution of such screws by complex permeability: 3.72 H at 4 kHz of 4.28; alnico, one rod in a round
    # coil, by finite elements with conductivity: 0.3757 of 0.3816 H
    assert screws.inductance_at_4_khz / screws.inductance == pytest.approx(3.72 / 4.28, abs=0.03)
    assert rods.inductance_at_4_khz / rods.inductance == pytest.approx(0.3757 / 0.3816, abs=0.01)
    blade = COST["blade, long coil"]
    assert blade.inductance_at_4_khz == pytest.approx(blade.inductance, rel=1e-9)     # ferrite: no current


@pytest.mark.parametrize("kind, lower, higher", [("screws", "is 3.4 dB lower and", "lower and 0.11 kHz"),
                                                 ("rods", "over rods 2.1 dB lower", "")])
def test_peaks_without_controls(kind, lower, higher):
    whole, cost = arranged(kind), COST["screws on a bar" if kind == "screws" else "rods, long coil"]
    frequency = np.geomspace(100.0, 20e3, 14)
    metal = as_loops(of_metal(whole).impedance(frequency), frequency, most=4)
    (still, high), (place, low) = (LoadedCoil(resistance=cost.resistance, **one, **NO_CONTROLS).peak() for one in (
        {"inductance": cost.inductance}, {"inductance": metal.inductance, "loops": metal.loops}))
    assert_printed(high - low, lower, PROSE)
    if higher:
        assert_printed((place - still) / 1e3, higher, PROSE)


# ---- the string's memory ---------------------------------------------------------------------------------------------

def test_what_the_page_says_of_the_strings_memory():
    string, rods, coercivity = workshop_row()[3], pickup("rods"), 520.0     # Wurster and others: 520 A/m at 24 um
    found = small_swing(rods, string.steel, height=HEIGHT, y=string.y)
    assert_printed(100 * (1 - found.reversible / found.by_curve), "We estimate 11 % less", PROSE)
    assert_printed(-db(found.reversible / found.by_curve), "(1.0 dB)", PROSE)
    half = (found.carried + found.reversible) / 2
    assert_printed(100 * (1 - half / found.by_curve), "25 % less if the steel", PROSE)
    assert_printed(100 * (1 - found.carried / found.by_curve), "and 39 % at most", PROSE)
    assert_printed(100 * found.carried / found.by_curve, "the other 61 % come", PROSE)

    def along(height):
        line = np.stack(np.broadcast_arrays(STRING_PLACES, string.y, height), axis=-1)
        return np.abs(string.steel.magnetise(rods.flux_density(line) / mu_0).field_strength[:, 0])
    field = along(HEIGHT)
    most = field.argmax()
    assert_printed(field[most] / 1e3, "in string III is 20 kA/m", PROSE)
    assert 37 < field[most] / coercivity < 40 and "almost forty times" in PROSE
    M = [np.multiply(string.steel.susceptibility(H)[0], H) for H in field[most] + np.array([-coercivity, coercivity])]
    assert_printed(100 * (M[1] - M[0]) / (M[0] + M[1]), "changes it by 0.9 %", PROSE)
    per_metre = (along(HEIGHT - 1e-5) - along(HEIGHT + 1e-5))[most] / 2e-5
    assert_printed(1e3 * coercivity / per_metre, "below 0.06 mm", PROSE)
    assert_printed(per_metre * 0.5e-3 / 1e3, "swings the field by 4 kA/m", PROSE)
    assert "520 A/m at 24 um" in steel("music wire").relative_permeability.source


# ---- exercises -------------------------------------------------------------------------------------------------------

def test_the_new_exercises_by_hand():
    assert LESSON["7.19"].right == "b > c > d > a"
    henries = {"a": 2 * 1.1, "b": 1.1 / 2, "c": 1.0, "d": 2 * 0.9}
    assert sorted(henries, key=henries.get) == ["b", "c", "d", "a"]
    # half a wave of 4 kHz at 2 * 0.6 * 100 = 120 m/s is 15 mm
    assert LESSON["7.18"].answer(scale=0.6, pitch=100.0, null=4e3) == pytest.approx(15e-3)
    # two places of a string, partial 20: the sum of both sines over twice the sine in the middle
    x = np.array([0.150 - 8e-3, 0.150, 0.150 + 8e-3])
    sines = np.sin(20 * np.pi * x / 0.62)
    assert LESSON["7.20"].answer(scale=0.62, apart=16e-3, number=20) == pytest.approx(
        db(abs((sines[0] + sines[2]) / (2 * sines[1]))))
