"""How a change between two whole pickups is said: was, now, in numbers of three figures, each unit once."""
import math

from lessons_lib.base.units import in_unit, said, with_unit


def figures(value, unit):
    """A number with three figures, as long as it has no more than three decimals."""
    shown = abs(in_unit(value, unit))
    decimals = 0 if shown < 1e-9 else min(3, max(0, 2 - math.floor(math.log10(shown))))
    return said(value, unit, f"z.{decimals}f")


def both(first, second, unit, spec):
    """Two values, the unit once, behind the second; one text where they are the same to the last figure."""
    one, two = (figures(value, unit) if spec is None else said(value, unit, spec) for value in (first, second))
    return (two,) if one == two else (one.removesuffix(with_unit("", unit)), two)


def stretch(band, unit, spec=None):
    """From where to where two of three are, and the median, of a `band.Stretch`."""
    median = figures(band.median, unit) if spec is None else said(band.median, unit, spec)
    return f"{' to '.join(both(band.low, band.high, unit, spec))} (median {median})"


def instead(was, now, unit, spec=None):
    """Now instead of before, or still."""
    texts = both(now, was, unit, spec)
    return f"still {texts[0]}" if len(texts) == 1 else " instead of ".join(texts)


def at_value(was, now, unit, spec=None):
    """At a value instead of another, or still there."""
    text = instead(was, now, unit, spec)
    return f"still at {text.removeprefix('still ')}" if text.startswith("still") else f"at {text}"


def moved(name, was, now, unit, spec=None):
    """A quantity rises, falls or stays."""
    ends = both(was, now, unit, spec)
    return f"{name} stays at {ends[0]}" if len(ends) == 1 else (
        f"{name} {'rises' if now > was else 'falls'} from {' to '.join(ends)}")


def setting(was, now, name, unit, spec):
    """A setting by its name in `Settings`: now instead of before."""
    return instead(getattr(was.settings, name), getattr(now.settings, name), unit, spec)


def linkage(was, now):
    """By how much the flux linkage swings."""
    by = instead(was.linkage_swing, now.linkage_swing, "µWb")
    return f"the flux linkage {'still ' * by.startswith('still')}swings by {by.removeprefix('still ')}"


def speed(was, now, what="the pluck"):
    """How fast the pluck, or *what*, moves the string."""
    text = instead(was.peak_velocity, now.peak_velocity, "m/s", ".2f")
    return f"{what} {'still ' * text.startswith('still')}moves it at {text.removeprefix('still ')}"


def resonance(was, now):
    """Where the peak of the response goes, if there is one."""
    old, new = was.response_peak, now.response_peak
    if old and new:
        return moved("the peak of the response", old[0], new[0], "kHz", ".2f")
    if new:
        return f"the response has a peak now, at {said(new[0], 'kHz', '.2f')}"
    return f"the response has no peak{' now' if old else ', as before'}"


def damping(was, now):
    """How high the peak of the response is above low frequencies."""
    heights = (one.coil.peak()[1] - one.coil.low_frequency_level for one in (was, now))
    return f"the peak of the response is {instead(*heights, 'dB', 'z.1f')} high"


def level(was, now, frequency):
    """Where the response is at a frequency (Hz), relative to the induced voltage."""
    return at_value(*(20 * math.log10(abs(one.coil.response(frequency))) for one in (was, now)), "dB", "+z.1f")
