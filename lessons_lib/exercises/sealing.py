"""Sealed answers: numbers become bins, bins become digests, and a sheet holds only the digests.

This stops reading, not attack: whoever tries a few hundred bins has the answer in a second. Marks do not rest on it.
"""
import hashlib
import math
from dataclasses import dataclass

# Share of a bin's width by which both edges are moved out, so that rounding never turns an edge value away.
_SLACK = 1e-8
_FAR = 1e12
RIGHT = "right"


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
            return str(math.floor(max(-_FAR, min(_FAR, number)) / self._width - self.phase))
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

    @property
    def _width(self):
        return _width(self.tolerance, self.absolute)


def _width(tolerance, absolute):
    plain = 2 * tolerance if absolute else math.log((1 + tolerance) / (1 - tolerance))
    return plain * (1 + 2 * _SLACK)


def scale_for(right, *, tolerance, absolute):
    """Return the `Scale` with the *right* answer in the middle of a bin.

    Examples
    --------
    >>> scale = scale_for(1.66, tolerance=0.02, absolute=False)
    >>> scale.is_right(1.66 * 1.0199, 1.66), scale.is_right(1.66 * 1.0201, 1.66)
    (True, False)
    """
    width = _width(tolerance, absolute)
    low = right - tolerance if absolute else math.log(abs(right)) + math.log1p(-tolerance)
    # rounded well inside the slack, so that a last digit of another machine's logarithm changes no sheet
    return Scale(tolerance=tolerance, absolute=absolute, phase=round((low / width - _SLACK) % 1, 10))


def digest(salt, exercise, part, name):
    """Return the digest under which *name* (a bin, a letter) stands in a sheet."""
    return hashlib.sha256("\x1f".join((salt, exercise, part, name)).encode()).hexdigest()[:20]


def notes_by_bin(scale, right, own, common):
    """Return bin -> `RIGHT` or note, for the slips that a bench's values give.

    Parameters
    ----------
    scale : Scale
    right : float
    own, common : list of (float, str)
        What each slip gives in the asked unit, and its note. Own slips come first; the right bin always wins.
    """
    named = {scale.bin(right): RIGHT}
    for slips in (own, common):
        sharing = {}
        for number, note in slips:
            for name in scale.bins_of_slip(number):
                if name not in named and note not in sharing.setdefault(name, []):
                    sharing[name].append(note)
        named.update({name: _joint(notes) for name, notes in sharing.items()})
    return named


def _joint(notes):
    """One note for the slips that share a bin: it asks, it does not accuse."""
    if len(notes) == 1:
        return notes[0]
    ways = {2: "Two", 3: "Three"}.get(len(notes), str(len(notes)))
    return f"{ways} ways lead to this number. Which is yours? " + " Or: ".join(notes)
