"""The functions under the panels of lesson 5 against sums, closed forms and each other; pictures, panels, sound."""
import math

import numpy as np
import pytest
from numpy.testing import assert_allclose

from lessons_lib.base.workshop import house_strings
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_05 import panels as lesson_05
from lessons_lib.lessons.lesson_05.conditions import FRETS_HEARD, plucks
from lessons_lib.lessons.lesson_05.model import (
    FRETS,
    HOUSE,
    MEASURES,
    PLUCK_RULES,
    SIGNALS,
    STRINGS_TO_CHOOSE,
    bent,
    curved_map_curves,
    flexible,
    fret_curves,
    fret_measures,
    fret_table,
    partial_curves,
    partial_levels,
    pulses,
    sensitivity,
)
from lessons_lib.page.controls import Choice
from lessons_lib.page.sound import RATE
from lessons_lib.physics.induction import harmonic_levels
from lessons_lib.pictures.over_frets import OverFrets, PartialStems, Pulses
from lessons_lib.pictures.style import new_figure
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


def test_the_curves_mark_the_fret_that_is_shown():
    at = {"fret": 12, "rule": "displacement", "hand": "fraction", **HOUSE}
    data = fret_curves(fret_measures(**at), **at)
    assert data["curves"]["frequency"][12] == pytest.approx(2 * 87.3)
    assert np.abs(data["pulses"]["open_string"]).max() == pytest.approx(1)
    assert np.abs(data["pulses"]["fretted"]).max() == pytest.approx(2)


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
    at = {"string": "V", "fret": 3, "pluck_place": 0.11, "pickup_place": 0.07, "finger": 0.004, "aperture": 0.012}
    data = partial_curves(partial_levels(**at), **at)
    high = data["velocity"] > -60       # between the comb's own points only a straight line
    assert_allclose(np.interp(n, *data["comb"])[high], data["velocity"][high], atol=0.6)


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
    data = curved_map_curves(bent(**at), **at)["voltage"]
    assert data["bent"][0] == pytest.approx(1, abs=1e-6) and data["turn"][-1] == 1
    assert data["bent"].shape == data["straight"].shape == data["turn"].shape


# ------------------------------------------------------------------ pictures, with numbers a person can foresee

def test_over_frets_draws_shares_of_the_open_peak_and_says_what_one_is():
    picture = OverFrets(new_figure().add_subplot(), name="displacement", unit="mm")
    table = {rule: np.array([[[4e-3, 2e-3, 1e-3]], [[k * 4e-3, 2e-3, 1e-3]]])
             for k, rule in ((1, "force"), (2, "energy"), (3, "displacement"))}
    artists = picture.update(frequency=np.array([100.0, 200.0]), table=table, rule="energy", fret=1)
    peak = artists[6]
    assert peak.get_xdata() == pytest.approx(np.log10([1, 2])) and peak.get_ydata() == pytest.approx(np.log10([1, 2]))
    assert artists[9].get_ydata() == pytest.approx(np.log10([2, 0.5, 0.25]))
    assert [artist.get_text() for artist in artists[10:]] == ["1 = 4 mm"]


def test_stems_stand_at_their_partials_and_a_missing_one_is_not_drawn():
    picture = PartialStems(new_figure().add_subplot(), lines=3)
    _, stem, _, dots, _ = picture.update(displacement=[0, -20, -30], velocity=[0, -120, -10], comb=([1, 2], [0, -10]))
    assert dots.get_xdata() == pytest.approx([0.86, 1.86, 2.86])
    assert np.isnan(dots.get_ydata()[1]) and dots.get_ydata()[2] == -10
    assert list(stem.get_ydata()[:2]) == [-75, 0]


def test_pulses_show_both_strings():
    pale, bright = Pulses(new_figure().add_subplot()).update(periods=[0, 1], open_string=[1, 1], fretted=[0, 2])
    assert list(pale.get_ydata()) == [1, 1] and list(bright.get_ydata()) == [0, 2]


# ------------------------------------------------------------------ the choice of words

def test_a_choice_must_start_at_one_of_its_values():
    with pytest.raises(ValueError, match="start must be one of 'force'"):
        Choice(name="rule", label="", options={"the force": "force"}, start="the force")


# ------------------------------------------------------------------ the panels themselves

def test_the_open_string_is_not_compared_with_itself():
    said = alt(lesson_05.over_the_frets())
    assert "stays" not in said and "at fret 12: peak x 1.00, RMS x 1.41, fundamental x 2.45" in said
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
    assert "the peak stays the same (x 1.00), the RMS rises (x 1.41), the fundamental rises (x 2.45)" in alt(panel)
    assert "stay where they are" in alt(panel)
    panel.asked(pickup_place=20)
    panel.asked(rule="displacement")
    assert "pulled equally far" in alt(panel) and "the peak rises (x 1.25)" in alt(panel)


# ------------------------------------------------------------------ what is played

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
