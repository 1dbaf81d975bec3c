"""The functions under the panels of lesson 5 against sums, closed forms and each other; pictures, panels, sound."""
import math

import numpy as np
import pytest
from numpy.testing import assert_allclose

from lessons_lib.base.workshop import house_strings
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_05 import panels as lesson_05
from lessons_lib.lessons.lesson_05.conditions import FRETS_HEARD, plucks
from lessons_lib.lessons.lesson_05.corners import displaced, plucked_shape, pulse_train, pulses
from lessons_lib.lessons.lesson_05.frets import fret_film, fret_instants, fretted_pluck, heard_pluck
from lessons_lib.lessons.lesson_05.model import (
    FRETS,
    HOUSE,
    MEASURES,
    PLUCK_RULES,
    SIGNALS,
    STRINGS_TO_CHOOSE,
    bent,
    curved_map_instants,
    flexible,
    fret_measures,
    fret_table,
    heard_bend,
    partial_curves,
    partial_levels,
    sensitivity,
)
from lessons_lib.page.controls import Choice
from lessons_lib.page.sound import RATE
from lessons_lib.physics.induction import harmonic_levels
from shown import alt

PLACES = [(0.1, 0.15), (0.02, 0.18), (0.18, 0.02), (0.05, 0.05)]


# ------------------------------------------------------------------ one string over its frets

@pytest.mark.parametrize("x0, x", PLACES)
@pytest.mark.parametrize("fret", [0, 12, 19])
def test_pulses_are_the_sum_of_the_partials(fret, x0, x):
    string = flexible("VI").at_fret(fret)
    time = (np.arange(300) + 0.37) / 300 / string.frequency(1)      # no sample on an edge
    velocity = pulses(string, 1.0, x0, x, time)
    levels = np.unique(velocity.round(9))
    assert set(np.abs(levels)) <= {0.0, round(1 / (2 * string.impedance), 9)}     # nothing, or F/(2Z)
    n = np.arange(1, 4001)[:, np.newaxis]
    comb = np.sin(n * np.pi * x0 / string.length) * np.sin(n * np.pi * x / string.length)
    size = 2 / (np.pi * string.impedance) / n * comb
    added = -(size * np.sin(2 * np.pi * n * string.frequency(1) * time)).sum(0)
    away = np.ones_like(time, dtype=bool)       # from the edges, where a cut series ripples
    for edge in np.flatnonzero(np.diff(velocity)):
        away[max(edge - 3, 0):edge + 5] = False
    assert away.sum() > 100
    # after one step of 1/300 period the ripple of 4000 partials is under 2 % of the pulse
    assert_allclose(added[away], velocity[away], atol=0.02 / (2 * string.impedance))


@pytest.mark.parametrize("x0, x", PLACES)
@pytest.mark.parametrize("fret", [0, 12, 19])
def test_the_running_corners_are_the_sum_of_the_partials(fret, x0, x):
    string = flexible("VI").at_fret(fret)
    time = np.arange(60) / 60 / string.frequency(1)
    n = np.arange(1, 2001)[:, np.newaxis]
    comb = np.sin(n * np.pi * x0 / string.length) * np.sin(n * np.pi * x / string.length)
    added = (2 * string.length / (n ** 2 * np.pi ** 2 * string.tension) * comb
             * np.cos(2 * np.pi * n * string.frequency(1) * time)).sum(0)
    # what 2000 partials leave out: below the sum of 1/n^2 from 2001 on, 5e-4
    assert_allclose(displaced(string, 1.0, x0, x, time), added,
                    atol=5e-4 * 2 * string.length / (np.pi ** 2 * string.tension))


@pytest.mark.parametrize("time", [0.0, 2e-4, 1e-3, 4e-3, 0.0113])
def test_between_its_corners_the_string_is_straight(time):
    string = flexible("VI")
    x, y = plucked_shape(string, 1.0, 0.1, time)
    assert x[0] == 0 and x[-1] == string.length and (np.diff(x) >= 0).all() and y[[0, -1]] == pytest.approx([0, 0])
    places = np.linspace(0, string.length, 200)
    assert_allclose(displaced(string, 1.0, 0.1, places, time), np.interp(places, x, y), atol=1e-12)
    if time < 0.1 / string.wave_speed:      # until the first one is turned back at the bridge
        assert x[1:3] == pytest.approx([0.1 - string.wave_speed * time, 0.1 + string.wave_speed * time])


def test_the_string_is_pulled_to_the_triangle_of_statics_and_upside_down_half_a_period_later():
    string = flexible("I")
    start = displaced(string, 1.0, 0.1, np.array([0.05, 0.1, 0.35]), 0.0)
    top = 0.1 * 0.5 / 0.6 / string.tension      # F x (L - x)/(L T)
    assert_allclose(start, [top / 2, top, top / 2])
    half = displaced(string, 1.0, 0.1, np.array([0.55, 0.5, 0.25]), string.length / string.wave_speed)
    assert_allclose(half, -start)


@pytest.mark.parametrize("x0, x", PLACES)
def test_a_train_of_pulses_has_the_corners_of_the_velocity(x0, x):
    string = flexible("V").at_fret(7)
    last = 2.3 / string.frequency(1)
    time, speed = pulse_train(string, 1.5, x0, x, last)
    assert time[0] == 0 and time[-1] == pytest.approx(last) and (np.diff(time) >= 0).all()
    middle = (time[::2] + time[1::2]) / 2
    assert_allclose(speed[::2], pulses(string, 1.5, x0, x, middle)) and (speed[::2] == speed[1::2]).all()
    # the area of the pulses so far is the way that the place has moved
    moved = np.cumsum(speed[::2] * np.diff(time)[::2])
    assert_allclose(moved, displaced(string, 1.5, x0, x, time[1::2]) - displaced(string, 1.5, x0, x, 0.0), atol=1e-9)


@pytest.mark.parametrize("x0, x", PLACES)
def test_rms_and_peaks_against_closed_forms(x0, x):
    table = fret_table(string="IV", pluck_place=x0, pickup_place=x, hand="place")["force"]
    for fret in (0, 7, 19):
        string = flexible("IV").at_fret(fret)
        share = min(x0, x, string.length - x0, string.length - x) / string.length
        level = 1 / (2 * string.impedance)
        assert_allclose(table[fret, 1], [level, level * math.sqrt(2 * share), table[fret, 1, 2]], rtol=3e-3)
        # displacement in time, added up: its largest size within a period
        motion = string.pluck(force=1.0, place=x0, highest_frequency=60 * string.frequency(1))
        n = np.arange(1, 2001)[:, np.newaxis]
        time = np.linspace(0, 1, 401)
        a = 2 * string.length / (n ** 2 * np.pi ** 2 * string.tension)
        a = a * np.sin(n * np.pi * x0 / string.length) * np.sin(n * np.pi * x / string.length)
        moved = (a * np.cos(2 * np.pi * n * time)).sum(0)
        assert_allclose(table[fret, 0, 0], np.abs(moved).max(), rtol=5e-3)
        assert_allclose(table[fret, 0, 1], moved[:-1].std(), rtol=5e-3)
        assert motion.peak_velocity == pytest.approx(level)


def test_every_rule_agrees_on_the_open_string_and_the_voltage_follows_the_velocity():
    table = fret_table(string="II", pluck_place=0.1, pickup_place=0.15, hand="fraction")
    for rule in PLUCK_RULES:
        assert table[rule].shape == (len(FRETS), len(SIGNALS), len(MEASURES))
        assert_allclose(table[rule][0], table["force"][0])
        assert_allclose(table[rule][:, 2], float(sensitivity("II", 2.5e-3)) * table[rule][:, 1])


def test_the_map_gives_the_pickups_own_sensitivity():
    for name in STRINGS_TO_CHOOSE:
        steel, y = house_instrument.steel_of(name), house_instrument.y_of(name)
        direct = house_instrument.pickup.sensitivity(steel, height=2.5e-3, y=y)
        assert sensitivity(name, 2.5e-3) == pytest.approx(direct, rel=2e-3)
    # finite elements of the course: 0.138, 0.1145, 0.0935 V per m/s for string VI at 2, 2.5, 3 mm
    assert_allclose(sensitivity("VI", np.array([2e-3, 2.5e-3, 3e-3])), [0.138, 0.1145, 0.0935], rtol=0.01)


def test_what_is_drawn_is_relative_to_the_open_string():
    at = {"fret": 12, "rule": "displacement", "hand": "fraction", **HOUSE}
    data, = fret_instants(fret_measures(**at), **at)
    assert data["measures"]["at"] == 12
    assert all(data["measures"][name][12] == pytest.approx(2) for name in MEASURES)     # equally far, same share
    assert np.abs(data["train"]["open_string"][1]).max() == pytest.approx(1)
    assert np.abs(data["train"]["fretted"][1]).max() == pytest.approx(2)
    string = data["string"]
    assert (string["stop"], string["hand"], string["pickup"]) == pytest.approx((0.3, 0.05, 0.075))
    assert abs(string["over_pickup"][1]) == pytest.approx(2) or string["over_pickup"][1] == 0


def test_every_rule_pulls_as_it_says():
    open_one = {"hand": "fraction", **HOUSE}
    pulled = {}
    for rule in PLUCK_RULES:
        at = open_one | {"fret": 12, "rule": rule}
        pluck = fretted_pluck(fret_measures(**at), **at)
        pulled[rule] = pluck.string.pluck(force=pluck.force, place=pluck.pluck_place)
    start = flexible("VI").pluck(force=1.0, place=0.1)
    assert pulled["force"].release_force == pytest.approx(1)
    assert pulled["displacement"].release_displacement == pytest.approx(start.release_displacement)
    assert pulled["energy"].release_energy == pytest.approx(start.release_energy)


def test_a_film_is_one_period_of_the_fretted_string():
    at = {"fret": 7, "rule": "force", "hand": "place", **HOUSE}
    frames, period = fret_film(fret_measures(**at), **at)
    assert period == pytest.approx(2 ** (-7 / 12) / 87.3) and len(frames) == 48
    pluck = fretted_pluck(fret_measures(**at), **at)
    assert_allclose(pluck.shape(period)[1].max(), frames[0]["string"]["shape"][1].max(), rtol=1e-9)
    assert frames[12]["train"]["now"] == pytest.approx(2 ** (-7 / 12) / 4)


def test_the_sound_of_a_pluck_is_the_voltage_of_the_panel():
    at = {"fret": 0, "rule": "force", "hand": "place", **HOUSE}
    one = fret_measures(**at)
    voltage = heard_pluck(one, **at)
    # the fast ripples of a stiff string run ahead and pile up on the pulse, as the page says
    assert 0.9 < np.abs(voltage).max() / one.value("voltage", "peak") < 1.6
    assert line(voltage, 87.3, 0.0) == pytest.approx(one.value("voltage", "fundamental"), rel=0.2)


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


def test_the_sound_of_the_bend_has_its_octave():
    at = {"string": "VI", "height": 2.5e-3, "amplitude": 0.6e-3}
    sine, over = heard_bend(bent(**at), **at).values()
    second = [line(one, 2 * 87.3, 0.0) / line(one, 87.3, 0.0) for one in (sine, over)]
    # in a fifth of a second the swing dies away by a third; the share follows its mean amplitude
    assert second[0] < 1e-3 and second[1] == pytest.approx(bent(**at).second * math.exp(-2 * 0.1), rel=0.05)


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


# ------------------------------------------------------------------ what is played

def test_the_hardest_plucks_are_refused_and_the_others_played():
    panel = lesson_05.over_the_frets()
    assert panel.view
    panel.asked(fret=12, string="III")
    open_string, fretted = panel._of_these(panel._sound).signals
    assert (open_string, fretted) == ("open string", "fret 12")
    assert panel._of_these(panel._sound).players()
    panel.asked(fret=19, pluck_place=180, rule="displacement")
    with pytest.raises(ValueError, match="a pluck that is played must be at most 900 mV; got 1... mV"):
        panel._of_these(panel._sound)


def line(samples, frequency, start):
    """Amplitude of one line in a fifth of a second with soft ends."""
    part = samples[int(start * RATE):int((start + 0.2) * RATE)]
    window = np.hanning(part.size)
    return 2 * abs((part * window) @ np.exp(-2j * np.pi * frequency * np.arange(part.size) / RATE)) / window.sum()


def test_level_and_spectrum_of_what_is_played():
    clips = lesson_05.hear_four_frets()
    assert len(clips) == 2 * len(FRETS_HEARD) and max(clip.peak for clip in clips) == pytest.approx(-16, abs=0.01)
    moved, volts = clips[0].samples, clips[len(FRETS_HEARD)].samples
    moved, volts = (line(samples, 3 * 87.3, 0.1) / line(samples, 87.3, 0.1) for samples in (moved, volts))
    # sin(3 pi p) sin(3 pi q)/(9 sin(pi p) sin(pi q)) with 1/6 and 1/4; widths and decay take under 3 %
    assert moved == pytest.approx(2 / 9, rel=0.03)
    # the coil hears velocity: three times as much of partial 3; the bend of a 1 mm swing takes up to a fifth of that
    assert 2.4 < volts / moved < 3.1
    # no fret changes where the fundamental lies in the note
    for fret, clip in zip(FRETS_HEARD, clips[len(FRETS_HEARD):]):
        note = 87.3 * 2 ** (fret / 12)
        assert line(clip.samples, note, 0.1) > 30 * line(clip.samples, 1.5 * note, 0.1)


def test_both_rows_are_measured_by_their_open_string():
    signals = plucks(seconds=0.1)
    assert [list(signals)[0], list(signals)[4]] == ["displacement, open string", "voltage, open string"]
    for name in ("displacement, open string", "voltage, open string"):
        assert np.abs(signals[name]).max() == pytest.approx(1)
