"""A flexible string without decay, and a pluck of it with many partials."""
from lessons_lib.physics.plucked_string import TunedString

LENGTH = 0.6
IDEAL = dict(decay_up=0.0, decay_across=0.0, decay_growth=0.0)


def ideal(length=LENGTH, tension=67.7, linear_density=0.385e-3):
    """A flexible string without decay: string I of the workshop unless told otherwise."""
    return TunedString(length=length, tension=tension, linear_density=linear_density, **IDEAL)


def finely(string, partials=4000, **pluck):
    """A pluck with that many partials: what is cut off is then a 1/partials of the whole."""
    return string.pluck(**pluck, highest_frequency=(partials + 0.5) * string.frequency(1))
