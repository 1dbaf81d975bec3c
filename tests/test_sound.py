"""What is played: its level, its spectrum, its limits, and the words beside it."""
import base64
import io
import re
import wave

import numpy as np
import pytest

from lessons_lib.page.sound import QUIET, RATE, TOO_LOUD, sound, sounds

SECOND = np.arange(48000) / 48000


def tone(frequency, size=1.0):
    return size * np.sin(2 * np.pi * frequency * SECOND)


def in_the_page(clips):
    """The samples of every player in the page, as its WAV file holds them, -1 to 1."""
    found = []
    for data in re.findall(r'data:audio/wav;base64,([^"]+)"', clips._repr_html_()):
        with wave.open(io.BytesIO(base64.b64decode(data))) as file:
            assert (file.getframerate(), file.getnchannels(), file.getsampwidth()) == (RATE, 1, 2)
            found.append(np.frombuffer(file.readframes(file.getnframes()), "<i2") / 32767)
    return found


def amplitude(samples, frequency):
    """Of one line, away from the faded ends."""
    middle = samples[RATE // 10: RATE // 10 + RATE // 2]        # whole periods of even frequencies
    turns = np.exp(-2j * np.pi * frequency * np.arange(middle.size) / RATE)
    return 2 * abs(np.mean(middle * turns))


def test_level_of_what_is_in_the_page():
    (samples,) = in_the_page(sound(tone(440, size=0.19), 48000, caption="a tone"))
    assert 20 * np.log10(np.abs(samples).max()) == pytest.approx(QUIET, abs=0.01)


def test_one_scale_for_all_that_is_compared():
    loud, soft = in_the_page(sounds({"loud": tone(220, size=0.3), "soft": tone(220, size=0.03)}, 48000))
    assert 20 * np.log10(amplitude(loud, 220) / amplitude(soft, 220)) == pytest.approx(20, abs=0.02)


def test_spectrum_of_what_is_in_the_page():
    (samples,) = in_the_page(sound(tone(200) + 0.5 * tone(1000) + 0.1 * tone(8000), 48000, caption="three lines"))
    first = amplitude(samples, 200)
    assert amplitude(samples, 1000) / first == pytest.approx(0.5, rel=2e-3)
    assert amplitude(samples, 8000) / first == pytest.approx(0.1, rel=2e-2)     # the low-pass may touch it
    assert amplitude(samples, 600) / first < 1e-4


def test_what_lies_above_half_the_played_rate_does_not_fold_back():
    (samples,) = in_the_page(sound(tone(200) + tone(15000), 48000, caption="one line too high"))
    assert amplitude(samples, RATE - 15000) / amplitude(samples, 200) < 1e-3


def test_it_starts_and_ends_in_silence():
    (samples,) = in_the_page(sound(np.ones(48000), 48000, caption="a step"))
    assert abs(samples[0]) < 1e-4 and abs(samples[-1]) < 1e-4


def test_words_stand_beside_it_and_nothing_plays_by_itself():
    page = sound(tone(200), 48000, caption="string <VI>")._repr_html_()
    assert "string &lt;VI&gt; (1.0 s, peak −16 dB re full scale)" in page and TOO_LOUD[:40] in page
    assert "controls" in page and "autoplay" not in page and 'aria-label="string' in page
    assert "Sound: string" in repr(sound(tone(200), 48000, caption="string"))


@pytest.mark.parametrize("signal, rate, level, words", [
    (np.zeros(48000), 48000, -16, "more than silence"),
    (np.full(48000, np.nan), 48000, -16, "finite"),
    (tone(200), 48000, 0, "from -60 to -6"),
    (tone(200)[:100], 48000, -16, "samples"),
    (np.ones(48001), 4800, -16, "up to 10 s"), (tone(200), 441.5, -16, "whole number")])
def test_limits(signal, rate, level, words):
    with pytest.raises(ValueError, match=words):
        sound(signal, rate, caption="", level=level)


def test_no_signal_is_refused():
    with pytest.raises(ValueError, match="one signal or more"):
        sounds({}, 48000)
