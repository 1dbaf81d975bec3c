"""What lesson 6 plays: levels, spectra and scales of the sounds behind three loads and of a setting."""
from dataclasses import fields

import numpy as np
import pytest
from numpy.testing import assert_allclose

from lessons_lib.lessons.instrument import Instrument, house_instrument
from lessons_lib.lessons.lesson_06 import panels as lesson_06
from lessons_lib.lessons.lesson_06.loads import LOADS, coil_with, heard, pluck, sound_of, through_three_loads
from lessons_lib.lessons.lesson_06.model import HOUSE, loaded_coil, response
from lessons_lib.lessons.own_instrument import InstrumentRecord
from lessons_lib.page.sound import RATE, sounds


def line(samples, frequency, start=0.1):
    """Amplitude of one line in a fifth of a second with soft ends."""
    part = samples[int(start * RATE):int((start + 0.2) * RATE)]
    window = np.hanning(part.size)
    return 2 * abs((part * window) @ np.exp(-2j * np.pi * frequency * np.arange(part.size) / RATE)) / window.sum()


def partial_near(samples, frequency):
    """A partial of a stiff string lies a little above its multiple."""
    return max(frequency * np.linspace(1, 1.02, 41), key=lambda place: line(samples, place))


def test_level_and_spectrum_of_what_is_played():
    clips = lesson_06.hear_three_loads()
    assert [clip.caption for clip in clips] == list(LOADS)
    assert max(clip.peak for clip in clips) == pytest.approx(-16, abs=0.01)
    for n in (1, 3, 14):
        place = partial_near(clips[1].samples, n * 207.7)
        sizes = np.array([line(clip.samples, place) for clip in clips])
        gains = np.array([abs(coil_with(load).response(place)) for load in LOADS])
        # one level scale: the clips differ by the responses alone
        assert_allclose(sizes / sizes[1], gains / gains[1], rtol=0.02)


def test_every_load_hears_one_pluck():
    induced = pluck(seconds=0.1)
    behind = through_three_loads(seconds=0.1)
    assert induced.shape == (4410,) and np.abs(induced).max() > 0.05
    for load, signal in behind.items():
        assert_allclose(signal, coil_with(load).apply(induced, 44100))


def test_other_turns_are_heard_as_a_pickup_with_them_sounds():
    wound = Instrument(**{field.name: getattr(house_instrument, field.name) for field in fields(InstrumentRecord)}
                       | {"coil": {**house_instrument.coil, "turns": 4000}})
    settings = {**HOUSE, "turns": 4000}
    induced = pluck(instrument=wound)
    by_itself = loaded_coil(**settings).apply(induced, 44100)
    assert_allclose(heard(settings), by_itself, atol=1e-3 * np.abs(by_itself).max())


@pytest.mark.parametrize("settings", [
    {}, {"turns": 10000, "cable": 1500e-12, "volume": 2e6}, {"volume_setting": 0.05}])
def test_the_sound_of_a_setting_has_one_level_scale(settings):
    sound = sound_of(response(**settings))
    first, this = sounds(sound.signals, sound.rate, loudest=sound.loudest)
    sizes = [np.std(one) for one in (this.samples, first.samples, heard({**HOUSE, **settings}), heard(HOUSE))]
    assert sizes[0] / sizes[1] == pytest.approx(sizes[2] / sizes[3], rel=2e-3)     # what is above 11 kHz is not played
    assert [first.caption, this.caption] == ["house setting", "this setting"]
    assert max(first.peak, this.peak) < -10
