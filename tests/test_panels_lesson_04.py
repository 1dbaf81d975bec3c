"""The panels of lesson 4: swings against the pickup itself and textbook formulas, what is heard, films and words."""
import math

import numpy as np
import pytest
from numpy.testing import assert_allclose

from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_04 import panels as lesson_04
from lessons_lib.lessons.lesson_04.model import (
    SHOWN,
    dying_swing,
    heard,
    sideways_instants,
    swing,
    swing_film,
    swing_instants,
)
from lessons_lib.page.sound import QUIET, RATE
from lessons_lib.physics.induction import induced_voltage
from shown import alt, message

UPRIGHT = {"height": 2.5e-3, "offset": 0.0, "direction": 0.0, "amplitude": 0.6e-3, "frequency": 200.0, "turns": 7600}
AT_200_HZ = {"frequency": 200.0, "turns": 7600}
SIDEWAYS = UPRIGHT | {"direction": math.pi / 2}
STRING, POLE_Y = house_instrument.steel_of("III"), house_instrument.y_of("III")
PANELS = ("moving_string", "sideways", "turns_in_a_window")


# ------------------------------------------------------------------ the moving string

@pytest.mark.parametrize("motion", [UPRIGHT, SIDEWAYS | {"offset": 2e-3},
                                    UPRIGHT | {"height": 2e-3, "amplitude": 0.8e-3},
                                    UPRIGHT | {"direction": math.pi / 4, "offset": 3e-3, "height": 4e-3}])
def test_instants_against_the_pickup_itself(motion):
    """The map is checked against the pickup, and the voltage against differences of its linkage."""
    time = np.linspace(0, SHOWN, 601)
    instants = swing_instants(time, **motion)
    moved, linkage, voltage = np.transpose([one["now"] for one in instants])
    across, up = np.transpose([one["string"] for one in instants[:60]])
    direct = house_instrument.pickup.flux_linkage(STRING, height=up, y=POLE_Y + across)
    assert_allclose(linkage[:60], direct - direct[0], atol=2e-3 * np.ptp(linkage))
    assert_allclose(voltage, induced_voltage(linkage, time), atol=0.01 * np.abs(voltage).max())
    assert_allclose(up - motion["height"], math.cos(motion["direction"]) * moved[:60], atol=1e-12)
    whole, *lines = instants[0]["traces"]
    assert_allclose(lines, [np.interp(whole, time, line) for line in (moved, linkage, voltage)],
                    atol=1e-9 + 1e-6 * np.abs(voltage).max())


@pytest.mark.parametrize("frequency, periods", [(100.0, 1), (195.0, 1), (200.0, 2), (250.0, 2)])
def test_a_film_is_whole_periods_and_comes_back_to_its_beginning(frequency, periods):
    motion = UPRIGHT | {"frequency": frequency, "direction": 1.0, "offset": 1e-3}
    frames, length = swing_film(**motion)
    assert length == pytest.approx(periods / frequency) and length <= SHOWN + 1e-12
    steps = np.diff([frame["instant"] for frame in frames])
    assert_allclose(steps, length / len(frames)) and all(frame["grows"] for frame in frames)
    first, after = swing_instants([0.0, frames[-1]["instant"] + steps[0]], **motion)
    assert_allclose(after["now"], first["now"], atol=1e-9)


def test_the_path_is_straight_and_as_long_as_the_swing():
    path = swing_instants([0.0], **UPRIGHT | {"direction": math.pi / 2, "offset": 2e-3})[0]["path"]
    assert_allclose(path["rest"], [2e-3, 2.5e-3])
    assert_allclose(path["ends"], [[1.4e-3, 2.5e-3], [2.6e-3, 2.5e-3]])


def test_sideways_over_the_middle_the_voltage_comes_twice_in_a_swing():
    motion = {"height": 2.5e-3, "offset": 0.0, "direction": math.pi / 2, "amplitude": 0.6e-3}
    now, half_a_swing_later = sideways_instants(swing(**motion, **AT_200_HZ), [0.1, 0.6], **motion)
    assert now["wave_now"] == pytest.approx(half_a_swing_later["wave_now"], abs=0.25)     # harmonic 1 is 18 dB below
    assert now["string"][0] == pytest.approx(-half_a_swing_later["string"][0])
    swings, wave = now["wave"]
    assert np.abs(wave).max() == pytest.approx(1) and np.interp(0.1, swings, wave) == pytest.approx(now["wave_now"],
                                                                                                    abs=2e-3)
    upright = motion | {"direction": 0.0}
    now, half_a_swing_later = sideways_instants(swing(**upright, **AT_200_HZ), [0.1, 0.6], **upright)
    assert now["wave_now"] == pytest.approx(-half_a_swing_later["wave_now"], abs=0.25)


def test_a_small_swing_gives_slope_times_speed():
    small = UPRIGHT | {"amplitude": 0.1e-3}
    by_slope = house_instrument.pickup.sensitivity(STRING, height=2.5e-3, y=POLE_Y) * 2 * math.pi * 200 * 0.1e-3
    assert_allclose(swing(**small).peak, by_slope, rtol=2e-3)
    assert_allclose(swing(**small).rms, by_slope / math.sqrt(2), rtol=2e-3)
    assert_allclose(swing(**small).peak_to_peak, 2 * by_slope, rtol=3e-3)


def test_the_sensitivity_is_the_courses():
    # the workshop's reference: plain third over a middle rod, 0.108 V per m/s at 2.5 mm (finite-element fields)
    small = swing(**UPRIGHT | {"amplitude": 0.1e-3})
    assert_allclose(small.peak / (2 * math.pi * 200 * 0.1e-3), 0.108, rtol=0.02)


def test_lines_of_a_bent_curve_by_taylor():
    """Second line of the voltage: a/2 times curvature over slope, for a small swing."""
    step = 0.1e-3
    slopes = house_instrument.pickup.sensitivity(STRING, height=2.5e-3 + step * np.array([-1, 0, 1]), y=POLE_Y)
    expected = 0.2e-3 / 2 * abs(slopes[2] - slopes[0]) / (2 * step) / slopes[1]
    levels = swing(**UPRIGHT | {"amplitude": 0.2e-3}).levels
    assert_allclose(10 ** ((levels[1] - levels[0]) / 20), expected, rtol=0.02)


def test_reference_of_the_levels_is_the_upright_swing():
    assert swing(**UPRIGHT).levels[0] == pytest.approx(0, abs=1e-9)
    of_panel = lesson_04.sideways()._compute(height=2.5e-3, offset=0.0, direction=0.0, amplitude=0.6e-3)
    assert_allclose(of_panel.levels, swing(**UPRIGHT).levels)
    assert swing(**SIDEWAYS).levels[0] < -40


# ------------------------------------------------------------------ what is heard

def spectrum(samples):
    samples = samples[2000:2000 + 16384] * np.hanning(16384)
    return np.fft.rfftfreq(16384, 1 / RATE), np.abs(np.fft.rfft(samples))


def test_level_and_note_of_what_is_played():
    up, middle, off, louder = lesson_04.hear()
    assert louder.peak == pytest.approx(QUIET, abs=0.01) and up.peak == pytest.approx(QUIET, abs=0.6)
    # the swings die away evenly, so levels of the clips differ as the lines of steady swings do
    assert middle.peak - up.peak == pytest.approx(-30, abs=1.5) and off.peak - up.peak == pytest.approx(-15, abs=1)
    assert louder.peak - middle.peak == pytest.approx(30, abs=0.1)
    for clip, note in ((up, 207.7), (off, 207.7), (middle, 415.4)):
        frequency, size = spectrum(clip.samples)
        assert frequency[np.argmax(size)] == pytest.approx(note, abs=2)
    assert all(abs(clip.samples).max() <= 10 ** (QUIET / 20) * 1.01 for clip in lesson_04.hear())


def test_what_is_heard_is_the_voltage_of_the_panel_at_first():
    first = next(iter(heard().values()))
    assert np.abs(first).max() == pytest.approx(swing(**UPRIGHT | {"frequency": 207.7}).peak, rel=0.01)


def test_the_sound_of_a_panel_follows_its_sliders_on_one_scale():
    panel = lesson_04.moving_string()
    def peak():
        players = panel._of_these(panel._sound).players()
        return float(players.partition("peak ")[2].partition(" dB")[0].replace("−", "-"))
    assert panel.view and peak() == pytest.approx(QUIET + 20 * math.log10(83.1 / 225), abs=0.6)
    near = peak()
    panel.asked(height=4)
    # as the peak falls from 83 to 50 mV
    assert peak() - near == pytest.approx(20 * math.log10(swing(**UPRIGHT | {"height": 4e-3}).peak / 83.1e-3), abs=1.1)
    frequency, size = spectrum(dying_swing(**UPRIGHT))
    assert frequency[np.argmax(size)] == pytest.approx(200, abs=2)


def test_the_faint_sideways_swing_is_played_louder_too():
    panel = lesson_04.sideways()
    assert panel.view and list(panel._of_these(panel._sound).signals) == ["the voltage of this swing, dying away"]
    panel.asked(direction=90)
    faint, louder = panel._of_these(panel._sound).signals.items()
    assert louder[0] == "the same, made 30 dB louder"
    assert np.abs(louder[1]).max() / np.abs(faint[1]).max() == pytest.approx(10 ** 1.5)
    frequency, size = spectrum(faint[1])
    assert frequency[np.argmax(size)] == pytest.approx(400, abs=2)      # an octave up


# ------------------------------------------------------------------ the panels themselves

@pytest.mark.parametrize("name, values", [("moving_string", {"frequency": 250, "direction": 45}), ("sideways", {})])
def test_a_film_is_light(name, values):
    panel = getattr(lesson_04, name)()
    assert panel.view
    panel.asked(**values)
    film = panel._of_these(panel._film).described(panel._drawing)
    assert 24 <= len(film["frames"]) <= 48
    assert sum(len(piece) for slot in film["slots"] for piece in slot) < 165_000


def test_the_string_is_taken_hold_of_where_it_rests():
    panel = lesson_04.moving_string()
    assert panel.view
    before, = panel.board.frame["grips"]
    panel.asked(height=3.5, offset=1)
    after, = panel.board.frame["grips"]
    # both along and up a millimetre is as long as in the drawing: 0.2 inch
    assert (after["x"] - before["x"], before["y"] - after["y"]) == pytest.approx((14.4, 14.4), abs=0.15)


@pytest.fixture(scope="module", params=PANELS)
def panel(request):
    return getattr(lesson_04, request.param)()


def test_all_sliders_together_at_their_ends(panel):
    for end in ("low", "high"):
        panel.asked(**{name: f"{getattr(spec, end):g}" for name, spec in panel.specs.items()})
        assert message(panel) == ""
    panel.asked(**{name: f"{spec.start:g}" for name, spec in panel.specs.items()})


def test_levels_are_dots_and_what_is_too_low_is_said_to_be_under():
    panel = lesson_04.sideways()
    panel.at(direction=math.pi / 2)
    levels = panel._drawing.figure.axes[2]
    heard_ones, too_low = (np.array(line.get_ydata()) for line in levels.lines if line.get_marker() in "ov")
    assert_allclose(heard_ones[:2], swing(**SIDEWAYS).levels[:2]) and np.isnan(heard_ones[2:]).all()
    assert np.isnan(too_low[:2]).all() and (too_low[2:] == -60).all()
    assert [tick.get_text() for tick in levels.get_yticklabels()][0] == "under −60"


def test_the_words_say_how_the_string_swings():
    panel = lesson_04.moving_string()
    assert "swings up and down, over the middle of the pole at 200 Hz" in alt(panel)
    panel.asked(direction="90")
    panel.asked(offset="2")
    assert "swings sideways, 2.0 mm off the middle of the pole at 200 Hz" in alt(panel)
    panel.asked(direction="30")
    assert "swings at 30°" in alt(panel)
