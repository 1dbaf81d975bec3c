"""What lesson 5's panels play: the pluck over the frets, the bend, two rows of clips."""
import math

import numpy as np
import pytest

from lessons_lib.lessons.lesson_05 import panels as lesson_05
from lessons_lib.lessons.lesson_05.conditions import FRETS_HEARD, plucks
from lessons_lib.lessons.lesson_05.frets import heard_pluck
from lessons_lib.lessons.lesson_05.model import HOUSE, bent, fret_measures, heard_bend
from lessons_lib.page.sound import RATE


def line(samples, frequency, start):
    """Amplitude of one line in a fifth of a second with soft ends."""
    part = samples[int(start * RATE):int((start + 0.2) * RATE)]
    window = np.hanning(part.size)
    return 2 * abs((part * window) @ np.exp(-2j * np.pi * frequency * np.arange(part.size) / RATE)) / window.sum()


def test_the_sound_of_a_pluck_is_the_voltage_of_the_panel():
    at = {"fret": 0, "rule": "force", "hand": "place", **HOUSE}
    one = fret_measures(**at)
    voltage = heard_pluck(one, **at)
    # the fast ripples of a stiff string run ahead and pile up on the pulse, as the page says
    assert 0.9 < np.abs(voltage).max() / one.value("voltage", "peak") < 1.6
    assert line(voltage, 87.3, 0.0) == pytest.approx(one.value("voltage", "fundamental"), rel=0.2)


def test_the_sound_of_the_bend_has_its_octave():
    at = {"string": "VI", "height": 2.5e-3, "amplitude": 0.6e-3}
    sine, over = heard_bend(bent(**at), **at).values()
    second = [line(one, 2 * 87.3, 0.0) / line(one, 87.3, 0.0) for one in (sine, over)]
    # in a fifth of a second the swing dies away by a third; the share follows its mean amplitude
    assert second[0] < 1e-3 and second[1] == pytest.approx(bent(**at).second * math.exp(-2 * 0.1), rel=0.05)


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
