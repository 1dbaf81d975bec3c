"""Sealed answers: numbers become bins, bins become digests, and a sheet holds only the digests.

This stops reading, not attack: whoever tries a few hundred bins has the answer in a second. Marks do not rest on it.
"""
import hashlib
import itertools
import math
from dataclasses import dataclass, replace
from functools import cached_property

# Share of a bin's width by which both edges are moved out, so that rounding never turns an edge value away.
_SLACK = 1e-8
_FARTHEST = 1e12
RIGHT = "right"
APART = 2.0     # tolerances between the right answer and any slip


@dataclass(frozen=True, kw_only=True)
class Scale:
    """The cutting of the number line into bins of twice the tolerance.

    Attributes
    ----------
    tolerance : float
        A share of the right answer, or a width where *absolute*.
    absolute : bool
    phase : float
        Where the bins begin, as a share of their width.

    Notes
    -----
    Relative tolerances are cut on a logarithmic scale, each sign by itself, in steps of ln((1 + t)/(1 - t)): every
    value from (1 - t) to (1 + t) times the right one lies in its bin.
    """

    tolerance: float
    absolute: bool
    phase: float

    def bin(self, number):
        """Return the name of the bin that holds the finite *number*."""
        if self.absolute:
            # far beyond any size range all numbers share a bin: the division must not overflow
            return str(math.floor(max(-_FARTHEST, min(_FARTHEST, number)) / self._width - self.phase))
        if number == 0:
            return "0"
        place = math.floor(math.log(abs(number)) / self._width - self.phase)
        return f"{'-' if number < 0 else '+'}{place}"

    def is_right(self, number, right):
        """Return whether *number* counts as *right*: the one rule of notebook and marks."""
        return self.bin(number) == self.bin(right)

    def distance(self, number, right):
        """Return how far *number* is from *right*, in tolerances."""
        if self.absolute:
            return 2 * abs(number - right) / self._width
        if number * right <= 0:
            return math.inf
        return 2 * abs(math.log(number / right)) / self._width

    def bins_of_slip(self, number):
        """Return the bin of a slip's *number* and the neighbour it straddles."""
        if not self.absolute and number == 0:
            return ("0",)
        step = self._width / 2
        nudged = (number - step, number + step) if self.absolute else (
            number * math.exp(-step), number * math.exp(step))
        own = self.bin(number)
        # half a bin down and half a bin up: one of the two stays in the own bin
        return tuple(dict.fromkeys((own, *map(self.bin, nudged))))[:2]

    @cached_property
    def _width(self):
        plain = 2 * self.tolerance if self.absolute else math.log((1 + self.tolerance) / (1 - self.tolerance))
        return plain * (1 + 2 * _SLACK)


def scale_for(right, *, tolerance, absolute):
    """Return the `Scale` with the *right* answer in the middle of a bin.

    Examples
    --------
    >>> scale = scale_for(1.66, tolerance=0.02, absolute=False)
    >>> scale.is_right(1.66 * 1.0199, 1.66), scale.is_right(1.66 * 1.0201, 1.66)
    (True, False)
    """
    low = right - tolerance if absolute else math.log(abs(right)) + math.log1p(-tolerance)
    return _scale_from(low, tolerance, absolute)


def scale_within(right, *, factor):
    """Return the relative `Scale` on which *right* counts up to a *factor*, up and down.

    Examples
    --------
    >>> scale = scale_within(5e-6, factor=3)
    >>> scale.is_right(14.9e-6, 5e-6), scale.is_right(1.67e-6, 5e-6), scale.is_right(15.1e-6, 5e-6)
    (True, True, False)
    """
    # a bin is as wide as from (1 - t) to (1 + t) times a number, which is a factor squared
    tolerance = (factor ** 2 - 1) / (factor ** 2 + 1)
    return _scale_from(math.log(abs(right)) - math.log(factor), tolerance, False)


def _scale_from(low, tolerance, absolute):
    """The `Scale` with the lower edge of a bin at *low*."""
    scale = Scale(tolerance=tolerance, absolute=absolute, phase=0.0)
    # rounded well inside the slack, so that a last digit of another machine's logarithm changes no sheet
    return replace(scale, phase=round((low / scale._width - _SLACK) % 1, 10))


def bins_together(numbers, scales):
    """Yield the names that several *numbers* of a slip may have together, each on its scale; none for what is none."""
    if all(map(math.isfinite, numbers)):
        yield from map(" ".join, itertools.product(*(
            scale.bins_of_slip(number) for scale, number in zip(scales, numbers))))


def digest(salt, exercise, part, name):
    """Return the digest under which *name* (a bin, a letter) stands in a sheet."""
    return hashlib.sha256("\x1f".join((salt, exercise, part, name)).encode()).hexdigest()[:20]


def slips_by_bin(scale, own, common):
    """Return bin -> (names, notes) of the slips that lead there: the common ones only where no own one does.

    *own* and *common* are lists of (name, number in the asked unit, note).
    """
    bins = {}
    for slips in (common, own):
        leading = {}
        for name, number, note in slips:
            for one in scale.bins_of_slip(number):
                names, notes = leading.setdefault(one, ({}, {}))
                names[name] = notes[note] = None
        bins.update(leading)
    return {one: (list(names), list(notes)) for one, (names, notes) in bins.items()}


def notes_by_bin(scale, right, own, common):
    """Return bin -> `RIGHT` or the note read there, as `slips_by_bin` has them; the right bin always wins."""
    notes = {one: _joint(notes) for one, (_, notes) in slips_by_bin(scale, own, common).items()}
    return {**notes, scale.bin(right): RIGHT}


def _joint(notes):
    """One note for the slips that share a bin: it asks, it does not accuse."""
    if len(notes) == 1:
        return notes[0]
    ways = {2: "Two", 3: "Three"}.get(len(notes), str(len(notes)))
    return f"{ways} ways lead to this number. Which is yours? " + " Or: ".join(notes)


def sealed_notes(exercise_id, salt, part, said):
    """Return (notes, digest -> `RIGHT` or the place of its note) of *said*, name of a bin -> `RIGHT` or its note."""
    notes = sorted(set(said.values()) - {RIGHT})
    return notes, dict(sorted((digest(salt, exercise_id, part, name), note if note == RIGHT else notes.index(note))
                              for name, note in said.items()))


def sealed_letters(exercise_id, salt, right, notes):
    """Seal which letter is right apart from which note goes with a letter, so that no note stands beside "right"."""
    texts = sorted(set(notes.values()))
    said = sorted((digest(salt, exercise_id, "note", letter), texts.index(note)) for letter, note in notes.items())
    return {"right": digest(salt, exercise_id, "letter", right), "notes": texts, "said": dict(said)}


def letter_says(record, letter):
    """Return (whether *letter* is the right one, the note on it), of a `Record` with `sealed_letters`."""
    note = record["notes"][record["said"][digest(record["salt"], record["id"], "note", letter)]]
    return digest(record["salt"], record["id"], "letter", letter) == record["right"], note
