"""The panels of lesson 5: partials and the curved map by other ways; foreseeable pictures; words, films and grips."""
import math

import numpy as np
import pytest
from numpy.testing import assert_allclose

from lessons_lib.base.workshop import house_strings
from lessons_lib.lessons.lesson_05 import panels as lesson_05
from lessons_lib.lessons.lesson_05.model import (
    FRETS,
    HOUSE,
    MEASURES,
    bent,
    curved_map_instants,
    flexible,
    fret_measures,
    partial_curves,
    partial_levels,
    sensitivity,
)
from lessons_lib.page.controls import Choice
from lessons_lib.physics.induction import harmonic_levels
from shown import alt

# ------------------------------------------------------------------ partials

def test_partials_against_the_formula():
    levels = partial_levels(string="V", fret=3, pluck_place=0.11, pickup_place=0.07, finger=0.004, aperture=0.012)
    length, n = flexible("V").at_fret(3).length, np.arange(1, 25)
    comb = np.sin(n * np.pi * 0.11 / length) * np.sin(n * np.pi * 0.07 / length)
    # mean of a sine over a width w: sin(k w/2)/(k w/2) with k = n pi/L
    for width in (0.004, 0.012):
        comb = comb * np.sin(n * np.pi * width / (2 * length)) / (n * np.pi * width / (2 * length))
    assert_allclose(levels.velocity, comb / n, atol=1e-12)
    assert_allclose(levels.displacement, comb / n ** 2, atol=1e-12)


def test_no_fret_moves_the_comb_and_no_partial_is_above_it():
    at = {"string": "V", "pluck_place": 0.11, "pickup_place": 0.07, "finger": 0.0, "aperture": 0.012}
    opened, fretted = (partial_curves(partial_levels(fret=fret, **at), fret=fret, **at) for fret in (0, 12))
    assert_allclose(opened["comb"], fretted["comb"]) and opened["pickup_gap"] == fretted["pickup_gap"]
    assert_allclose(fretted["frequency"], 2 * opened["frequency"])
    frequency, level = fretted["comb"]
    # the gap of a place is where a whole wave fits twice between it and the bridge: f = c/(2 x), c = 2 L f1
    assert frequency[level < -30][0] == pytest.approx(2 * 0.6 * house_strings["V"]["frequency"] / (2 * 0.07), rel=0.01)
    high = fretted["velocity"] > -40        # between the comb's points only a straight line
    assert (fretted["velocity"] <= np.interp(fretted["frequency"], frequency, level) + 0.6)[high].all()


def test_another_string_has_another_comb():
    at = {"fret": 0, "pluck_place": 0.1, "pickup_place": 0.15, "finger": 0.0, "aperture": 0.0}
    thick, thin = (partial_curves(partial_levels(string=name, **at), string=name, **at) for name in ("VI", "I"))
    assert thin["pickup_gap"] / thick["pickup_gap"] == pytest.approx(349.2 / 87.3)
    assert not np.allclose(thin["comb"][1], thick["comb"][1])


# ------------------------------------------------------------------ the curved map

def test_harmonics_by_another_way():
    time = np.arange(4000) / 4000 / 10      # a tenth of a second
    omega = 2 * np.pi * house_strings["III"]["frequency"]
    voltage = sensitivity("III", 2.2e-3 + 0.7e-3 * np.sin(omega * time)) * 0.7e-3 * omega * np.cos(omega * time)
    lines = harmonic_levels(voltage, time, fundamental=house_strings["III"]["frequency"], count=6)
    harmonics = bent(string="III", height=2.2e-3, amplitude=0.7e-3).harmonics
    assert_allclose(harmonics, lines.amplitude[:4], rtol=1e-3, atol=1e-5)


def test_bent_curves_meet_where_the_string_passes_its_rest():
    at = {"string": "I", "height": 3e-3, "amplitude": 1e-3}
    waves = curved_map_instants(bent(**at), [0.0], **at)[0]["waves"]
    assert waves["bent"][0] == pytest.approx(1, abs=1e-6) and waves["turn"][-1] == 1
    assert waves["bent"].shape == waves["straight"].shape == waves["turn"].shape


def test_the_second_harmonic_alone_is_that_of_the_bent_wave():
    at = {"string": "VI", "height": 2.5e-3, "amplitude": 0.6e-3}
    now = bent(**at)
    waves = curved_map_instants(now, [0.0], **at)[0]["waves"]
    straight = now.slope_at_rest * 2 * math.pi * 87.3 * 0.6e-3
    assert np.abs(waves["second"]).max() == pytest.approx(now.harmonics[1] / straight, rel=0.01)
    # the formula of the page: -a/(2 delta) sin 2wt
    assert_allclose(waves["second"], -now.by_law * np.sin(4 * np.pi * waves["turn"]), atol=0.01)
    left = waves["bent"] - waves["second"]
    assert abs((left[:-1] * np.exp(-4j * np.pi * waves["turn"][:-1])).mean()) < 1e-9


def test_the_dot_is_on_the_curve_at_the_height_of_the_string():
    at = {"string": "VI", "height": 2.5e-3, "amplitude": 0.6e-3}
    rest, highest = curved_map_instants(bent(**at), [0.0, 0.25], **at)
    assert (rest["height"], highest["height"]) == pytest.approx((2.5e-3, 3.1e-3))
    slope, heights = highest["slope"]
    assert np.interp(3.1e-3, heights, slope) == pytest.approx(highest["slope_now"], rel=1e-3)
    assert highest["swing"][1].max() == pytest.approx(3.1e-3) and highest["slope_now"] < rest["slope_now"]


# ------------------------------------------------------------------ pictures, with numbers a person can foresee

def test_three_lines_over_the_frets_begin_together_and_are_named():
    panel = lesson_05.over_the_frets()
    panel.at(fret=12)
    chart = panel._drawing.figure.axes[2]
    lines = [one for one in chart.lines if len(one.get_xdata()) == len(FRETS)]
    assert [one.get_ydata()[0] for one in lines] == [1, 1, 1]
    assert [one.get_ydata()[12] for one in lines] == pytest.approx([1, math.sqrt(2), 2.45], abs=5e-3)
    assert {text.get_text() for text in chart.texts} >= set(MEASURES)


def test_the_string_is_drawn_with_its_finger_and_the_speed_over_the_pickup():
    panel = lesson_05.over_the_frets()
    panel.at()
    axes = panel._drawing.figure.axes[0]
    marks = {line.get_marker(): line for line in axes.lines}
    assert marks["v"].get_color() and not marks["o"].get_xdata()[0] != 150      # the dot is over the pickup
    panel.at(fret=12)
    # it is at rest between the 12th fret, 300 mm, and the nut
    string = next(line for line in axes.lines if len(line.get_xdata()) == 5)
    assert string.get_xdata()[-2:] == pytest.approx([300, 600]) and string.get_ydata()[-2:] == pytest.approx([0, 0])


def test_stems_stand_at_the_frequencies_of_the_partials_and_a_missing_one_is_not_drawn():
    panel = lesson_05.partials()
    panel.at()
    levels = panel._drawing.figure.axes[1]
    dots = next(line for line in levels.lines if line.get_marker() == "o")
    assert dots.get_xdata()[:4] == pytest.approx([87.3, 174.6, 261.9, 349.2])
    assert np.isnan(dots.get_ydata()[3]) and dots.get_ydata()[0] == pytest.approx(20 * math.log10(0.5 * math.sqrt(0.5)))
    assert {"the pickup misses 349 Hz", "the hand misses 524 Hz"} <= {text.get_text() for text in levels.texts}


# ------------------------------------------------------------------ the choice of words

def test_a_choice_must_start_at_one_of_its_values():
    with pytest.raises(ValueError, match="start must be one of 'force'"):
        Choice(name="rule", label="", options={"the force": "force"}, start="the force")


# ------------------------------------------------------------------ the panels themselves

def test_the_open_string_is_not_compared_with_itself():
    said = alt(lesson_05.over_the_frets())
    assert "stays" not in said and "at fret 12: peak × 1.00, RMS × 1.41, fundamental × 2.45" in said
    kept = fret_measures(fret=0, rule="energy", hand="fraction", **HOUSE)
    assert kept.times_open("velocity", "peak", 12) == pytest.approx(math.sqrt(2), rel=1e-9)


def test_the_words_say_what_the_widths_take():
    panel = lesson_05.partials()
    assert "take 0.0 dB from partial 24" in alt(panel)
    panel.asked(finger="10")
    # by hand: sin(k w/2)/(k w/2) with k = 24 pi/L
    by_hand = 20 * math.log10(math.sin(0.2 * math.pi) / (0.2 * math.pi))
    assert f"take {-by_hand:.1f} dB from partial 24" in alt(panel)


def test_the_words_say_what_falls_and_what_rises():
    panel = lesson_05.over_the_frets()
    panel.asked(fret=12)
    assert "the peak stays the same (× 1.00), the RMS rises (× 1.41), the fundamental rises (× 2.45)" in alt(panel)
    assert "stay where they are" in alt(panel)
    panel.asked(pickup_place=20)
    panel.asked(rule="displacement")
    assert "pulled equally far" in alt(panel) and "the peak rises (× 1.25)" in alt(panel)


@pytest.mark.parametrize("name, values", [("over_the_frets", {"fret": 12}), ("curved_map", {"amplitude": 1})])
def test_a_film_is_light(name, values):
    panel = getattr(lesson_05, name)()
    assert panel.view
    panel.asked(**values)
    film = panel._of_these(panel._film).described(panel._drawing)
    assert len(film["frames"]) == 48 and sum(len(piece) for slot in film["slots"] for piece in slot) < 100_000


def test_hand_and_pickup_are_taken_hold_of_where_they_are():
    panel = lesson_05.over_the_frets()
    assert panel.view
    panel.asked(fret=12)
    stays = [grip["x"] for grip in panel.board.frame["grips"]]
    panel.asked(hand="keep their share of the string")
    moved = [grip["x"] for grip in panel.board.frame["grips"]]
    a_millimetre = (stays[0] - stays[1]) / (300 + 7.5 - 100)     # a finger is a little behind its fret
    assert moved[0] == stays[0]
    assert [stays[n] - moved[n] for n in (1, 2)] == pytest.approx([50 * a_millimetre, 75 * a_millimetre], abs=0.2)
