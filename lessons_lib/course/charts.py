"""Small charts for a page in print, readable in grey, with their numbers in words: lengths inside of one line."""
from typing import NamedTuple

from lessons_lib.course.class_shares import LEAST_FOR_SHARES, standard_error


class Bar(NamedTuple):
    """*words* for a bar, its *pieces* as (shade, start, length), *whisker* its ends or None; the whole length is 1."""

    words: str
    pieces: tuple
    whisker: tuple | None = None


def tries_bar(first, right, n):
    """Return the `Bar` of *n* benches: dark for right at first, lighter for right in the end, white for the others.

    A whisker shows one standard error of the share in the end, where there are enough benches for a share.
    """
    whisker = None
    if n >= LEAST_FOR_SHARES:
        reach = standard_error(right, n)
        whisker = tuple(max(0.0, min(1.0, end)) for end in (right / n - reach, right / n + reach))
    return Bar(f"{first} right at first, {right} in the end, of {n}",
               (("dark", 0, first / n), ("light", first / n, (right - first) / n)), whisker)


def count_bar(count, n):
    """Return the `Bar` of *count* out of *n*."""
    return Bar(f"{count} of {n}", (("dark", 0, count / n if n else 0),))
