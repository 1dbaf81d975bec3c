"""Sound of computed signals: quiet at first, limited in peak, never by itself, one level scale for what is compared."""
import html
from dataclasses import dataclass, replace
from fractions import Fraction

import numpy as np
from IPython.display import Audio
from scipy.signal import resample_poly

from lessons_lib.base.checks import between, finite_array, positive, refuse
from lessons_lib.base.units import said
from lessons_lib.page.cells import cell_shows

RATE = 22050            # samples a second that are played
QUIET = -16.0           # dB re full scale, the peak of what is loudest
_LOUDEST = -6.0         # dB re full scale, no peak is ever above it
_LONGEST_SOUND = 10.0         # s, a page holds every sample
_SEEN, _SPECTRUM = 200, (60.0, 10e3)     # columns of a small picture of a sound; Hz
_FADE = 4e-3            # s at each end, so that nothing clicks

TOO_LOUD = ("Nothing plays by itself. Set your volume low, press play, then raise it slowly. It is too loud if you "
            "would have to raise your voice to be heard over it, or if your ears ring afterwards. At work the limit "
            "is 85 dBA for eight hours and half that time for every 3 dB more; even that is a limit and not a safe "
            "level.")


@dataclass(frozen=True, eq=False)
class Clip:
    """What is played, 22 050 samples a second, sizes up to 1 at full scale, and the words that belong to it."""

    samples: np.ndarray
    caption: str

    @property
    def peak(self):
        """Largest sample in dB re full scale; -inf for silence."""
        with np.errstate(divide="ignore"):
            return float(20 * np.log10(np.abs(self.samples).max()))

    @property
    def words(self):
        """The caption with length and level, for those who do not hear it."""
        length, peak = said(self.samples.size / RATE, "s", ".1f"), said(self.peak, "dB", ".0f")
        return f"{self.caption} ({length}, peak {peak} re full scale)"

    def player(self):
        """The page's own player of sound with the caption above it."""
        words = html.escape(self.words, quote=True)
        audio = Audio(self.samples, rate=RATE, normalize=False, autoplay=False)._repr_html_()
        return (f'<figure style="margin:0.6em 0"><figcaption>{words}</figcaption>'
                f'{audio.replace("<audio", f"""<audio aria-label="{words}" """, 1)}{self._seen()}</figure>')

    def _seen(self):
        """Waveform and spectrum as a small picture: who does not hear it sees it."""
        columns = np.array_split(self.samples, _SEEN)
        wave = [(column.min(), column.max()) for column in columns]
        lines = "".join(f"M{x} {25 - 24 * high:.1f}V{25.4 - 24 * low:.1f}" for x, (low, high) in enumerate(wave))
        level = 20 * np.log10(np.abs(np.fft.rfft(self.samples * np.hanning(self.samples.size)))
                              / (self.samples.size / 4) + 1e-9)
        frequency = np.fft.rfftfreq(self.samples.size, 1 / RATE)
        edges = np.geomspace(*_SPECTRUM, _SEEN + 1)
        peaks = [level[(frequency >= low) & (frequency < max(high, low + frequency[1]))].max()
                 for low, high in zip(edges, edges[1:])]
        spectrum = "".join(f"M{x + _SEEN + 20} 50V{50 - 50 * np.clip((peak + 80) / 80, 0, 1):.1f}"
                           for x, peak in enumerate(peaks))
        low, high = (said(edge, unit, "g") for edge, unit in zip(_SPECTRUM, ("Hz", "kHz")))
        return (f'<svg viewBox="0 0 {2 * _SEEN + 20} 62" style="display:block;width:100%;max-width:420px" '
                'aria-hidden="true"><g fill="none" stroke="var(--vermillion, #D55E00)">'
                f'<path d="{lines}"/><path d="{spectrum}"/></g>'
                '<g font-size="9" fill="var(--ink, currentColor)" font-family="sans-serif">'
                f'<text x="0" y="60">waveform</text><text x="{_SEEN + 20}" y="60">spectrum, {low} to {high}</text>'
                '</g></svg>')


@dataclass(frozen=True, kw_only=True)
class Sound:
    """The sound of a panel's settings: *signals*, *rate* and *loudest* as of `sounds`.

    *loudest* is the same at all settings, so nearer is louder.
    """

    signals: dict
    rate: int
    loudest: float

    def players(self):
        """Players as HTML, under the words about loudness."""
        return sounds(self.signals, self.rate, loudest=self.loudest).players()


def now_and_kept(now, kept):
    """The `Sound` of the present and of the kept setting, on the level scale of the present one.

    Examples
    --------
    >>> one = Sound(signals={"a tone": np.ones(9)}, rate=22050, loudest=1.0)
    >>> list(now_and_kept(one, one).signals)
    ['now: a tone', 'kept: a tone']
    """
    named = {"now": now, "kept": kept}
    return replace(now, signals={f"{name}: {caption}": signal for name, one in named.items()
                                 for caption, signal in one.signals.items()})


class Clips(tuple):
    """Clips on one level scale; shows itself as players under the words about loudness."""

    def __repr__(self):
        return "\n".join([TOO_LOUD, *(f"Sound: {clip.words}" for clip in self)])

    def _repr_html_(self):
        cell_shows(self)
        return self.players()

    def players(self):
        """Players as HTML, under the words about loudness."""
        first, *others = TOO_LOUD.split(". ", 2)
        return (f"<details><summary>{html.escape(first)}. {html.escape(others[0])}.</summary>"
                f"{html.escape(others[1])}</details>" + "".join(clip.player() for clip in self))


def sounds(signals, rate, *, level=QUIET, loudest=None):
    """Players for several signals on one level scale: what is larger sounds louder, by as much as it is larger.

    Parameters
    ----------
    signals : mapping of caption to array_like, shape (samples,)
        All in one unit, 10 s or shorter.
    rate : int
        Samples a second of the signals.
    level : float
        Peak of the largest signal, dB re full scale, -60 to -6.
    loudest : float, optional
        The peak that has this level instead, in the signals' unit.

    Returns
    -------
    Clips
        A tuple of `Clip`; named last in a cell it shows players and says how loud is too loud.

    Raises
    ------
    ValueError
        For signals with NaN, no signal, only silence, over 10 s, a level above -6 dB.

    Notes
    -----
    Resampled with the usual low-pass below half the played rate; 4 ms of fading at each end; then one factor for all.
    Give quantities of one unit: a displacement beside a voltage needs each divided by a size of its own kind first.

    Examples
    --------
    >>> wave = np.sin(2 * np.pi * 440 * np.arange(44100) / 44100)
    >>> loud, soft = sounds({"loud": wave, "soft": wave / 2}, 44100)
    >>> round(loud.peak, 1), round(soft.peak, 1)
    (-16.0, -22.0)
    """
    between(-60, _LOUDEST, level=level)
    if not signals:
        refuse("signals", "one signal or more", signals)
    heard = {str(caption): _heard(signal, rate) for caption, signal in signals.items()}
    largest = max(np.abs(samples).max() for samples in heard.values())
    if not largest > 0:
        refuse("signals", "more than silence", "zeros")
    factor = 10 ** (level / 20) / (largest if loudest is None else loudest)
    if 20 * np.log10(factor * largest) > _LOUDEST:
        refuse("loudest", f"so large that no peak is above {said(_LOUDEST, 'dB', 'g')}", loudest)
    return Clips(Clip(samples=factor * samples, caption=caption) for caption, samples in heard.items())


def sound(signal, rate, *, caption, level=QUIET):
    """A player for one signal; arguments and errors as in `sounds`."""
    return sounds({caption: signal}, rate, level=level)


def _heard(signal, rate):
    """The signal at the played rate, faded at both ends."""
    positive(rate=rate)
    if rate % 1:
        refuse("rate", "a whole number of samples a second", rate)
    signal = finite_array(signal=signal)
    if signal.ndim != 1 or not 2 * _FADE * rate < signal.size <= _LONGEST_SOUND * rate:
        refuse("signal", f"one list of samples, over {said(2 * _FADE, 's', 'g')}, up to "
               f"{said(_LONGEST_SOUND, 's', 'g')}", f"shape {signal.shape}")
    step = Fraction(RATE, int(rate))
    samples = resample_poly(signal, step.numerator, step.denominator)
    ends = np.minimum(np.arange(samples.size), np.arange(samples.size)[::-1]) / (_FADE * RATE)
    return samples * np.sin(np.pi / 2 * np.minimum(ends, 1)) ** 2
