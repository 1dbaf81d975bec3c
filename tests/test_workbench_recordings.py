"""Recordings: every width and kind of WAV gives the same samples, and what is none gets one sentence."""
import io
import struct
import wave

import numpy as np
import pytest
from scipy.io import wavfile

from lessons_lib.workbench.recordings import read_recording

RATE = 22_050
TONE = 0.5 * np.sin(2 * np.pi * 100 * np.arange(RATE) / RATE)


def pcm(samples, bits, rate=RATE):
    """A PCM file as Python's own `wave` writes it; samples of shape (n,) or (n, channels)."""
    samples = np.reshape(samples, (len(samples), -1))
    whole = np.round(np.clip(samples, -1, 1 - 2.0 ** (1 - bits)) * 2 ** (bits - 1)).astype(np.int64)
    whole = whole + 128 if bits == 8 else whole
    raw = whole.astype("<i8").view(np.uint8).reshape(-1, 8)[:, :bits // 8].tobytes()
    file = io.BytesIO()
    with wave.open(file, "wb") as writer:
        writer.setparams((samples.shape[1], bits // 8, rate, 0, "NONE", ""))
        writer.writeframes(raw)
    return file.getvalue()


def floats(samples, kind=np.float32, rate=RATE):
    file = io.BytesIO()
    wavfile.write(file, rate, samples.astype(kind))
    return file.getvalue()


@pytest.mark.parametrize("bits, said", [(8, "8 bit"), (16, None), (24, "24 bit"), (32, "32 bit")])
def test_every_width_gives_the_same_tone(bits, said):
    recording = read_recording(pcm(TONE, bits))
    assert np.abs(recording.samples - TONE).max() < 2.0 ** (1 - bits) + 1e-6    # one step
    assert (recording.rate, recording.duration) == (RATE, 1.0)
    assert (said is None and recording.remarks == ()) or said in recording.remarks[0]


@pytest.mark.parametrize("kind, bits", [(np.float32, 32), (np.float64, 64)])
def test_floats_are_read(kind, bits):
    recording = read_recording(floats(TONE, kind))
    np.testing.assert_allclose(recording.samples, TONE, atol=1e-7)
    assert f"Floating-point samples of {bits} bit." in recording.remarks


def test_floats_beyond_full_scale_are_said_to_be():
    assert "up to 1.5 times full scale" in read_recording(floats(3 * TONE)).remarks[0]


STEREO = {
    "left alone": ([TONE, 0 * TONE], TONE, "the left channel is read, the other has no signal"),
    "right alone": ([0 * TONE, TONE], TONE, "the right channel is read"),
    "the same twice": ([TONE, TONE], TONE, "both channels are the same"),
    "two": ([TONE, 0.5 * TONE], 0.75 * TONE, "the mean of both channels is read"),
    "opposite": ([TONE, -TONE], TONE, "would cancel each other"),
}


@pytest.mark.parametrize("case", STEREO)
def test_stereo_is_read_and_said(case):
    channels, expected, said = STEREO[case]
    recording = read_recording(pcm(np.stack(channels, axis=1), 16))
    np.testing.assert_allclose(recording.samples, expected, atol=1e-4)
    assert said in " ".join(recording.remarks)


def test_a_few_clipped_samples_are_remarked_and_many_refused():
    few = TONE.copy()
    few[1000:1050] = 1.0
    assert "0.23 % of the samples are at full scale" in " ".join(read_recording(pcm(few, 16)).remarks)   # 50 of 22050
    with pytest.raises(ValueError, match="is clipped: .* are at full scale; record it again with less gain"):
        read_recording(pcm(3 * TONE, 16))


def test_a_loud_tone_is_not_called_clipped():
    assert read_recording(pcm(1.999 * TONE, 16)).remarks == ()
    assert read_recording(floats(2 * TONE)).remarks == ("Floating-point samples of 32 bit.",)


def test_an_offset_is_taken_out_and_said():
    recording = read_recording(pcm(TONE + 0.1, 16))
    assert recording.samples.mean() == pytest.approx(0, abs=1e-12) and "offset of 10 %" in recording.remarks[0]


WAV = pcm(TONE, 16)
REFUSED = {
    "nothing": (b"", "empty"),
    "text": (b"distance (mm),flux density (G)\n", "is not a WAV, whatever its name says"),
    "another sound format": (b"ID3\x04" + bytes(2000), "is not a WAV"),
    "silence": (pcm(0 * TONE, 16), "is silent; was the right input chosen"),
    "silence, stereo": (pcm(np.zeros((RATE, 2)), 16), "is silent"),
    "a steady voltage": (pcm(0 * TONE + 0.3, 16), "is silent"),
    "short": (pcm(TONE[:2000], 16), "0.0907 s long"),
    "long": (pcm(np.resize(TONE[:8000], 61 * 8000), 8, rate=8000), "61 s long"),
    "slow": (pcm(TONE, 16, rate=4000), "has 4000 samples a second"),
    "four channels": (pcm(np.stack([TONE] * 4, axis=1), 16), "has 4 channels"),
    "not numbers": (floats(np.where(np.arange(RATE) == 7, np.nan, TONE)), "samples that are no numbers"),
    "compressed": (WAV[:20] + struct.pack("<H", 0x55) + WAV[22:], "of a kind that is not read"),
    "cut in its header": (WAV[:30], "broken or was cut off"),
    "no data": (WAV[:36], "broken or was cut off"),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_used_gets_one_sentence(case):
    data, sentence = REFUSED[case]
    with pytest.raises(ValueError, match=sentence) as caught:
        read_recording(data)
    assert "\n" not in str(caught.value)


def test_a_file_cut_off_in_the_middle_is_read_as_far_as_it_goes():
    recording = read_recording(WAV[:len(WAV) // 2])
    np.testing.assert_allclose(recording.samples, TONE[:recording.samples.size], atol=1e-2)
    assert recording.samples.size == RATE // 2 - 11 and "it was cut off" in recording.remarks[0]


def test_no_bytes_break_the_reader():
    rng = np.random.default_rng(6)
    for _ in range(300):
        data = bytearray(WAV[:20_044])
        for place in rng.integers(60, size=2):
            data[place] = rng.integers(256)
        try:
            recording = read_recording(bytes(data))
        except ValueError as error:
            assert "\n" not in str(error)
        else:
            assert np.isfinite(recording.samples).all()
