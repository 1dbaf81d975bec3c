"""Wrong factors met in every lesson: what a student's number divided by the right one betrays, and what to ask then.

An exercise names those that make sense for its quantity; its own slips are tried first.
"""
import math
from dataclasses import dataclass
from types import MappingProxyType

from lessons_lib.base.checks import one_of

_MU_0 = 4e-7 * math.pi  # rounded to what a student types; bins are far wider than the difference


@dataclass(frozen=True)
class CommonSlip:
    """The *factors* on the right answer that share one *note*."""

    factors: tuple
    note: str


def _both_ways(factor):
    return (factor, 1 / factor)


COMMON_SLIPS = MappingProxyType({
    "sign": CommonSlip((-1,), "The magnitude is right. Now the sign: what changes, and in which direction?"),
    "diameter for radius": CommonSlip(
        _both_ways(4), "Look again at the length you squared: is it a radius or a diameter? A = π r² = π d²/4, so a "
        "factor of exactly 4 comes from swapping them."),
    "square for circle": CommonSlip(
        _both_ways(4 / math.pi), "That fits a square of side d. How much of that square does a circle fill?"),
    "pi": CommonSlip(_both_ways(math.pi), "A circle comes into this. Is π there, and only once?"),
    "thousand": CommonSlip(
        _both_ways(1e3), "A factor of a thousand: one prefix is still there, or an area was converted as if it were a "
        "length. Write every value in m, m², T and Wb first."),
    "prefix": CommonSlip(
        _both_ways(1e3), "A factor of a thousand: a prefix was left out or counted twice. Is it the plain unit, or a "
        "thousand of it?"),
    "million": CommonSlip(
        _both_ways(1e6), "A factor of a million: from mm² to m² you take the step of a thousand twice."),
    "ten": CommonSlip(_both_ways(10), "Out by one power of ten. Check each change of unit again."),
    "hundred": CommonSlip(
        _both_ways(100), "Out by two powers of ten. Is a length still in cm, or a percentage not divided by 100?"),
    "gauss": CommonSlip(_both_ways(1e4), "A factor of ten thousand: which reading is in gauss, and which in tesla?"),
    "gauss by ten": CommonSlip(
        _both_ways(10), "Out by one power of ten. How many gauss make a tesla, a thousand or ten thousand?"),
    "oersted": CommonSlip(
        (4 * math.pi, (4 * math.pi) ** 2 / 1000, 4 * math.pi / 1000),
        "From oersted to A/m: 1 Oe = 1000/(4π) A/m. Which way up did you use it, and is the answer in kA/m?"),
    "mu_0": CommonSlip(
        _both_ways(_MU_0), "Out by a factor of μ₀: it is missing, or it is there twice."),
    "four pi": CommonSlip(_both_ways(4 * math.pi), "A factor of 4π: did you use 10⁻⁷ for μ₀?"),
    "two pi": CommonSlip(
        _both_ways(2 * math.pi), "A factor of 2π: is a circumference involved, or did you take cycles per second for "
        "radians per second? Look at every ω."),
    "two pi squared": CommonSlip(
        _both_ways(4 * math.pi ** 2), "ω is squared here: that makes 4π², not 1 and not 2π."),
    "root two": CommonSlip(
        _both_ways(math.sqrt(2)), "The question names a kind of amplitude. Which did you give, peak or RMS?"),
    "two": CommonSlip(
        _both_ways(2), "A factor of 2: is there a half in the formula, or a full width where half of it is meant?"),
    "peak to peak for RMS": CommonSlip(
        _both_ways(2 * math.sqrt(2)), "From peak-to-peak to RMS there are two steps. Were both taken?"),
    "ten log": CommonSlip(
        (0.5, 2), "Decibels of a voltage ratio are 20 log₁₀ of it; the 10 belongs to ratios of power."),
    "natural log": CommonSlip(_both_ways(math.log(10)), "Which logarithm? Decibels use base ten."),
    "reference": CommonSlip((-1,), "A loss is negative in decibels. Which of the two values is the reference?"),
    "pico for nano": CommonSlip(
        _both_ways(math.sqrt(1000)), "A factor of √1000: under the root, pico became nano, or the other way round."),
})


def check_common(names):
    """Refuse names that no common slip has."""
    for name in names:
        one_of("common", name, COMMON_SLIPS)


def common_numbers(names, right):
    """Return (name, what one of its factors makes of the *right* number, note) of the common slips *names*."""
    return [(name, factor * right, COMMON_SLIPS[name].note) for name in names for factor in COMMON_SLIPS[name].factors]


def note_of(name, own):
    """Return the note of a slip: that of the *own* slips of an exercise, else of the common ones."""
    return next((slip.note for slip in own if slip.name == name), None) or COMMON_SLIPS[name].note
