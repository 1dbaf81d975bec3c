"""A recording from a WAV file, checked before anything is measured on it."""
import struct
import warnings
from dataclasses import dataclass
from io import BytesIO

import numpy as np
from scipy.io import wavfile

from lessons_lib.base.units import in_unit, said
from lessons_lib.workbench.readings import file_bytes

LARGEST_RECORDING = 40_000_000           # bytes
LOWEST_RATE, HIGHEST_RATE = 8000, 192_000
SHORTEST, LONGEST = 0.3, 60.0       # s
_SILENT = 1e-3                      # of full scale: nothing was plugged in
_FULL, _FLAT = 0.99, 3              # so many alike in a row at full scale: clipped
_MOST_CLIPPED = 0.01                # share of samples
_NO_SIGNAL = 0.01                   # of the other channel
_OFFSET = 0.01                      # of full scale
# scipy's reader believes what a header says; these are what it stumbles into where the header is damaged
_STUMBLES = (EOFError, struct.error, ZeroDivisionError, TypeError, IndexError, UnboundLocalError, MemoryError)


@dataclass(frozen=True, kw_only=True, eq=False)
class Recording:
    """samples: floats, 1 is full scale, mean taken out. rate: Hz. remarks: sentences about how it was read."""

    samples: np.ndarray
    rate: int
    remarks: tuple

    @property
    def duration(self):
        """Length, s."""
        return self.samples.size / self.rate


def read_recording(source):
    """Read a WAV file of 8, 16, 24 or 32 bit or of floats, one or two channels.

    Parameters
    ----------
    source : path or bytes

    Returns
    -------
    Recording

    Raises
    ------
    ValueError
        With one sentence: not a WAV, cut off, more than two channels, rate under 8 or over 192 kHz, shorter than
        0.3 s or longer than a minute, silent, more than 1 % of its samples clipped.

    Notes
    -----
    Of two channels the one with a signal is taken, of two with signals their mean; of two that cancel each other the
    left one. A sample counts as clipped where three or more alike in a row are at full scale; a chain that clips
    earlier, below full scale, is not found out. With 8 bit a loud tone looks the same, so that is a remark only.
    """
    data = file_bytes(source, LARGEST_RECORDING)
    rate, stored, bits, on_length = _from_wav(data)
    samples = _scaled(stored)
    if not LOWEST_RATE <= rate <= HIGHEST_RATE:
        raise ValueError(f"The recording has {rate} samples a second; record with {LOWEST_RATE} to {HIGHEST_RATE}, "
                         "best 44100 or 48000.")
    if not SHORTEST * rate <= len(samples) <= LONGEST * rate:
        raise ValueError(f"The recording is {said(len(samples) / rate, 's', '.3g')} long; {SHORTEST:g} to "
                         f"{said(LONGEST, 's', 'g')} are read.")
    if not np.isfinite(samples).all():
        raise ValueError("The recording holds samples that are no numbers; export it again.")
    share = _share_clipped(samples)
    samples, on_channels = _one_channel(samples)
    if np.abs(samples - samples.mean()).max() < _SILENT:
        raise ValueError("The recording is silent; was the right input chosen, and its level up?")
    remarks = (on_length, _on_form(stored, bits), on_channels, _on_clipping(share, bits), _on_offset(samples))
    return Recording(samples=samples - samples.mean(), rate=rate, remarks=tuple(filter(None, remarks)))


def _from_wav(data):
    """Rate, samples and bits of a sample of what a WAV file holds, and a remark where it is shorter than it says."""
    if not data:
        raise ValueError("The recording is empty: a file without a byte.")
    if data[:4] not in (b"RIFF", b"RIFX", b"RF64") or data[8:12] != b"WAVE":
        raise ValueError("The file is not a WAV, whatever its name says; export the recording as WAV (PCM).")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", wavfile.WavFileWarning)
            rate, samples = wavfile.read(BytesIO(data))
    except (ValueError, *_STUMBLES) as error:
        if isinstance(error, ValueError) and "format" in str(error).lower():
            raise ValueError("The WAV is of a kind that is not read (compressed?); export it as PCM.") from None
        raise ValueError("The WAV is broken or was cut off; copy or export it again.") from None
    order = ">" if data[:4] == b"RIFX" else "<"
    bits = struct.unpack_from(order + "H", data, data.find(b"fmt ") + 22)[0]
    size = struct.unpack_from(order + "I", data, 4)[0]
    is_cut = size not in (0, 0xFFFFFFFF) and len(data) < size + 8       # where a recorder left it open, nobody knows
    return rate, samples, bits, (
        "The file is shorter than its header says: it was cut off, and what is there was read." if is_cut else "")


def _scaled(samples):
    """Samples as floats, 1 is full scale."""
    if samples.dtype.kind == "f":
        return samples.astype(float)
    full = 2.0 ** (8 * samples.dtype.itemsize - 1)
    middle = full if samples.dtype.kind == "u" else 0.0
    return (samples.astype(float) - middle) / full


def _on_form(stored, bits):
    if stored.dtype.kind == "f":
        highest = np.abs(stored).max()
        return f"Floating-point samples of {bits} bit" + (
            f", up to {highest:.3g} times full scale." if highest > 1 else ".")
    if bits != 16:
        return f"Samples of {bits} bit" + ("; steps so coarse hide weak partials." if bits <= 8 else ".")
    return ""


def _one_channel(samples):
    """The samples of one channel, and a remark on how it was chosen."""
    if samples.ndim == 1:
        return samples, ""
    if samples.shape[1] != 2:
        raise ValueError(f"The recording has {samples.shape[1]} channels; record one or two.")
    left, right = samples.T
    size = samples.std(axis=0)
    if size.min() < _NO_SIGNAL * size.max():
        louder = int(np.argmax(size))
        return (samples[:, louder],
                f"Stereo: the {('left', 'right')[louder]} channel is read, the other has no signal.")
    if np.array_equal(left, right):
        return left, "Stereo: both channels are the same, one is read."
    if (left - left.mean()) @ (right - right.mean()) < 0:
        return left, "Stereo: the left channel is read, the two would cancel each other."
    return samples.mean(axis=1), "Stereo: the mean of both channels is read."


def _share_clipped(samples):
    """Share of samples that stand still at full scale, of the worse channel."""
    shares = []
    for channel in samples.reshape(len(samples), -1).T:
        still = (np.abs(channel[1:]) >= _FULL) & (np.diff(channel) == 0)
        edges = np.flatnonzero(np.diff(np.concatenate([[False], still, [False]]).astype(int)))
        runs = edges[1::2] - edges[::2] + 1
        shares.append(runs[runs >= _FLAT].sum() / channel.size)
    return max(shares)


def _on_clipping(share, bits):
    """A remark about samples at full scale, or a refusal where they are many."""
    if share > _MOST_CLIPPED and bits > 8:
        raise ValueError(f"The recording is clipped: {said(share, '%', '.2g')} of its samples are at full scale; "
                         "record it again with less gain.")
    if share > 0:
        return (f"{said(share, '%', '.2g')} of the samples are at full scale: clipped, as it seems. Levels come out "
                "too low; record with less gain.")
    return ""


def _on_offset(samples):
    if abs(samples.mean()) > _OFFSET:
        return f"A steady offset of {in_unit(samples.mean(), '%'):.2g} % of full scale was taken out."
    return ""
