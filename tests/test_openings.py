"""What each lesson opens with: what its film shows and what is heard, against the lesson's numbers and textbooks."""
import importlib
import math

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.signal import butter, hilbert, sosfiltfilt

from lessons_lib.base.workshop import ROW
from lessons_lib.course.read_page import Opening, read_page
from lessons_lib.lessons.instrument import house_instrument, instrument_of
from lessons_lib.lessons.lesson_01.model import compass_round
from lessons_lib.lessons.lesson_02.model import closing_gap
from lessons_lib.lessons.lesson_03.panels import BEATING
from lessons_lib.lessons.lesson_03.pull import pull_and_pitch
from lessons_lib.lessons.lesson_04.model import HEARD_RATE, PRESSED, STILL, heard_held, held_instants, swing
from lessons_lib.lessons.lesson_06.loads import CABLES
from lessons_lib.lessons.lesson_06.model import HOUSE, level, loaded_coil
from lessons_lib.lessons.lesson_07.model import make_equal, string_levels
from lessons_lib.lessons.lesson_07.pair import EVENED
from lessons_lib.lessons.own_instrument import read_instrument
from lessons_lib.page.sound import QUIET, RATE, TOO_LOUD
from lessons_lib.workbench.bench import PLUCKS
from lessons_lib.workbench.recordings import read_recording
from notebooks import NOTEBOOKS, lessons, read
from test_own_instrument import STRONGEST, WEAKEST
from test_panels_words import faults, faults_of_ground, moving, standing

FILMED, SOUNDED = ("01", "02", "04"), ("03", "05", "06", "07", "08")


def opening(lesson, instrument=None):
    panels = importlib.import_module(f"lessons_lib.lessons.lesson_{lesson}.panels")
    if lesson == "08":
        return panels.opening([read_recording(NOTEBOOKS / "data" / name) for name in PLUCKS])
    return panels.opening(instrument) if instrument else panels.opening()


@pytest.fixture(scope="module")
def heard():
    return {lesson: opening(lesson) for lesson in SOUNDED}


def film_of(panel):
    return panel._film(panel._compute())


def peaks(samples, pieces):
    """Largest sample of so many equally long pieces, dB re full scale."""
    return [20 * math.log10(np.abs(piece).max()) for piece in np.array_split(samples, pieces)]


# ------------------------------------------------------------------ the page

@pytest.mark.parametrize("path", lessons()[1:], ids=lambda path: path.stem)
def test_a_lesson_opens_with_it_after_a_few_lines(path):
    page = read(path)
    first, cell = read_page(page)[:2]
    assert isinstance(cell, Opening) and cell.sounds == (path.name[:2] in SOUNDED)
    assert len(first.source.split()) < 120 and first.source.rstrip().endswith("?") and cell.source.endswith(")")
    assert sum(isinstance(one, Opening) for one in read_page(page)) == 1
    after = page.cells[2].source
    for kept in ("**After this lesson you can**", "**You need**", "> **Take care", "ocal rules and the pe"):
        assert kept in after, kept


# ------------------------------------------------------------------ films

@pytest.mark.parametrize("lesson", FILMED)
def test_a_film_is_short_and_light_and_its_words_are_in_order(lesson):
    panel = opening(lesson)
    drawing, film = panel._drawing, film_of(panel)
    described = film.described(drawing)
    assert 24 <= len(film.frames) <= 48 and 4 <= film.seconds <= 8
    assert sum(len(piece) for slot in described["slots"] for piece in slot) < 150e3
    assert len({len(frame) for frame in described["frames"]}) == 1      # the page would keep what a frame has not
    ground = standing(drawing.figure)
    assert faults_of_ground(drawing.figure, ground) == []
    for frame in film.frames[::4]:
        assert faults(drawing.figure, ground, moving(drawing._draw(frame))) == []
    picture = panel.at()
    assert picture.picture and picture.readouts == picture.values == {} and len(picture.alt) > 100


@pytest.mark.parametrize("lesson", FILMED)
def test_a_film_waits_until_it_is_asked_for(lesson):
    board = opening(lesson).board
    assert board.film == board.sound == {} and board.made["film"] and board.made["controls"] == []
    assert board.made["sound"] == (lesson == "04")


def test_the_needle_turns_twice():
    way = compass_round()
    assert way.turns == pytest.approx(2, abs=1e-9)
    assert_allclose(way.directions[[0, 12, 24, 36]], [[0, 1], [0, -1], [0, 1], [0, -1]], atol=1e-9)
    panel = opening("01")
    assert "its needle turns 2 times" in panel.at().alt
    last = film_of(panel).frames[-1]
    assert last["places"].shape == (48, 2) and last["directions"] == pytest.approx(way.directions)


def test_far_away_the_needle_points_as_over_a_dipole():
    """(3 sin t cos t, 3 cos^2 t - 1) along x and z, any textbook of electromagnetism; next term (rod / 2 r)^2."""
    way = compass_round(beyond=1.0)
    turn = 2 * np.pi * np.arange(48) / 48
    dipole = np.stack([3 * np.sin(turn) * np.cos(turn), 3 * np.cos(turn) ** 2 - 1], axis=1)
    assert_allclose(way.directions, dipole / np.linalg.norm(dipole, axis=1, keepdims=True), atol=2e-4)


def test_the_gap_closes_twenty_times_and_the_flux_does_not_follow():
    lid = closing_gap()
    assert lid.gaps.max() / lid.gaps.min() == pytest.approx(20) and 2 < lid.more_flux < 2.5
    through = np.array([one.through_gap for one in lid.fluxes])
    half = len(through) // 2
    assert np.all(np.diff(through[:half + 1]) > 0) and np.array_equal(through[1:half], through[:half:-1])
    # a magnet gives at most its remanence times its cross-section, whatever is round it
    assert through.max() < 0.75 * np.pi * 2.5e-3 ** 2
    assert f"grows to {lid.more_flux:.1f} times" in opening("02").at().alt


def test_a_string_that_is_held_gives_nothing_however_near():
    frames = held_instants()
    held, free = [[one for one in frames if one["held"] is whether] for whether in (True, False)]
    assert len(held) == 12 and len(free) == 36
    for one in held:
        time, moved, voltage = one["traces"]
        assert time[-1] < STILL and moved == pytest.approx(-PRESSED) and voltage == pytest.approx(0, abs=1e-12)
    motion = {"height": 2.5e-3, "offset": 0.0, "direction": 0.0, "amplitude": PRESSED, "turns": 7600}
    peak = swing(frequency=house_instrument.strings["III"]["frequency"], **motion).peak
    assert np.abs(free[-1]["traces"][2]).max() == pytest.approx(peak, rel=0.01)
    # let go, it goes up, away from the pole: minus the slope of the linkage is a plus
    assert free[1]["traces"][2][-1] > 0


def test_silence_for_a_second_then_the_note():
    voltage = heard_held()
    still, sound = voltage[:HEARD_RATE], voltage[HEARD_RATE:]
    assert not still.any() and abs(sound[0]) < 0.01 * sound.max()
    spectrum = np.abs(np.fft.rfft(sound * np.hanning(sound.size)))
    assert np.fft.rfftfreq(sound.size, 1 / HEARD_RATE)[spectrum.argmax()] == pytest.approx(207.7, abs=1)
    players = opening("04")._sound(None).players()
    assert players.count("<audio") == 1 and "autoplay" not in players and "held for 1 s, then let go" in players


# ------------------------------------------------------------------ sounds

@pytest.mark.parametrize("lesson", SOUNDED)
def test_it_starts_quiet_on_one_scale_and_only_when_asked(lesson, heard):
    clips = heard[lesson]
    assert 2 <= len(clips) <= 3 and max(clip.peak for clip in clips) == pytest.approx(QUIET, abs=0.01)
    page = clips._repr_html_()
    assert page.count("<audio") == len(clips) and "autoplay" not in page and repr(clips).startswith(TOO_LOUD)


def test_near_the_magnet_two_notes_beat_far_away_they_do_not(heard):
    fundamental = butter(4, [60, 120], "bandpass", fs=RATE, output="sos")
    near, far = (np.abs(hilbert(sosfiltfilt(fundamental, clip.samples)))[RATE // 4:-RATE // 4] for clip in heard["03"])
    tells = {"core": house_instrument.strings["VI"]["core"], "tension": house_instrument.tension("VI"), "place": 0.25}
    beats = pull_and_pitch(height=1.5e-3, **tells).beats
    assert beats == pytest.approx(1.45, abs=0.01)
    softest = [k / RATE + 0.25 for k in range(1, near.size - 1) if near[k] < 0.1 * near.max()
               and near[k] == near[max(0, k - RATE // 5):k + RATE // 5].min()]
    assert len(softest) >= 3 and np.diff(softest) == pytest.approx(1 / beats, rel=0.02)
    assert pull_and_pitch(height=6e-3, **tells).beats * BEATING < 0.2 and far.min() > 0.8 * far.max()


def test_up_the_neck_the_displacement_falls_and_the_voltage_stays(heard):
    displacement, voltage = (peaks(clip.samples, 4) for clip in heard["05"])
    assert displacement[0] - displacement[3] == pytest.approx(8, abs=0.5)       # as the page says of fret 19
    assert np.all(np.diff(displacement) < 0) and np.ptp(voltage) < 2.5
    assert displacement[0] == pytest.approx(voltage[0], abs=0.5)        # short pulses between samples


def test_a_long_cable_takes_the_treble_and_leaves_the_rest(heard):
    """Between two cables each partial changes as the circuit's response says; tests of lesson 6 check that."""
    spectra = [np.abs(np.fft.rfft(clip.samples * np.hanning(clip.samples.size))) for clip in heard["06"]]
    frequency = np.fft.rfftfreq(heard["06"][0].samples.size, 1 / RATE)
    coils = [loaded_coil(**HOUSE | {"cable": cable}) for cable in CABLES]
    for about in (400.0, 2e3, 4e3, 6e3):
        band = np.flatnonzero(np.abs(frequency - about) < 220)      # one partial of string III or two
        at = band[spectra[0][band].argmax()]
        for spectrum, coil in zip(spectra[1:], coils[1:]):
            change = 20 * math.log10(spectrum[at] / spectra[0][at])
            assert change == pytest.approx(level(coil, frequency[at]) - level(coils[0], frequency[at]), abs=0.3)
    treble, bass = (level(coils[2], one) - level(coils[0], one) for one in (6e3, 400.0))
    assert treble < -12 and abs(bass) < 0.5


def test_screws_at_the_solvers_heights_make_six_plucks_even(heard):
    assert np.array(EVENED) == pytest.approx(make_equal("short screws").tops, abs=0.05e-3)
    assert string_levels(kind="short screws", **dict(zip(ROW, EVENED))).spread < 0.3
    flush, evened = (peaks(clip.samples, 6) for clip in heard["07"])
    assert np.ptp(flush) == pytest.approx(9.4, abs=0.2) and np.ptp(evened) == pytest.approx(1.6, abs=0.3)
    assert flush.index(max(flush)) == ROW.index("III")


def test_recordings_keep_the_levels_they_were_made_with(heard):
    sizes = [np.abs(read_recording(NOTEBOOKS / "data" / name).samples).max() for name in PLUCKS]
    assert [clip.peak - heard["08"][0].peak for clip in heard["08"]] == pytest.approx(
        [20 * math.log10(size / sizes[0]) for size in sizes], abs=0.3)
    assert [clip.caption for clip in heard["08"]] == ["recording 1", "recording 2", "recording 3"]


# ------------------------------------------------------------------ with an instrument of one's own

@pytest.mark.parametrize("text", [STRONGEST, WEAKEST], ids=["strongest", "weakest"])
def test_an_own_instrument_opens_the_lessons_too(text, tmp_path):
    (tmp_path / "mine.toml").write_text(text, encoding="utf-8")
    own = instrument_of(read_instrument(tmp_path / "mine.toml"))
    for lesson in FILMED:
        panel = opening(lesson, own)
        drawing, ground = panel._drawing, standing(panel._drawing.figure)
        for frame in film_of(panel).frames[::8]:
            assert faults(drawing.figure, ground, moving(drawing._draw(frame))) == []
        assert panel._sound is None or panel._sound(None).players()
    for lesson in ("03", "05", "06"):       # six even screws and the recordings are the workshop's
        assert max(clip.peak for clip in opening(lesson, own)) == pytest.approx(QUIET, abs=0.01)
