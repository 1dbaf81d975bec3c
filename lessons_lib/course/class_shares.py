"""Shares of a class with their standard errors, and how well an exercise tells strong benches from weak ones."""
import math

LEAST_FOR_SHARES = 10           # benches; with fewer, counts alone are shown
LEAST_FOR_DISCRIMINATION = 40   # benches
_PART = 0.27                    # of the class, above and below


def standard_error(k, n):
    """Return the standard error of the share k/n.

    Notes
    -----
    sqrt(p (1 - p)/n) with p = (k + 1)/(n + 2), the rule of succession: none of n and all of n are not certain either.
    For a half of 20 it is 0.11.

    Examples
    --------
    >>> round(standard_error(10, 20), 2)
    0.11
    """
    p = (k + 1) / (n + 2)
    return math.sqrt(p * (1 - p) / n)


def share_text(k, n):
    """Return "14 of 28 (50 ± 9 %)"; with fewer than `LEAST_FOR_SHARES` the count alone.

    Examples
    --------
    >>> share_text(14, 28), share_text(3, 7)
    ('14 of 28 (50 ± 9 %)', '3 of 7')
    """
    if n < LEAST_FOR_SHARES:
        return f"{k} of {n}"
    return f"{k} of {n} ({100 * k / n:.0f} ± {100 * standard_error(k, n):.0f} %)"


def discrimination(firsts, column):
    """Return D = share right among the upper 27 % minus that among the lower 27 %, by the first tries.

    Parameters
    ----------
    firsts : list of tuples
        A row a bench, a column an exercise: right at the first try; None, not answered, counts as not right.
    column : int

    Returns
    -------
    float or None
        None below `LEAST_FOR_DISCRIMINATION` benches, or where all have the same score.

    Notes
    -----
    Benches are ordered by their score in the other exercises. Where benches of one score lie on both sides of a limit,
    each counts with the same share, so that D does not depend on the order of the class list.
    """
    if len(firsts) < LEAST_FOR_DISCRIMINATION:
        return None
    scored = [(sum(bool(one) for place, one in enumerate(row) if place != column), bool(row[column])) for row in firsts]
    if len({score for score, _ in scored}) < 2:
        return None
    upper, lower = (_share_of_end(scored, sign) for sign in (1, -1))
    return upper - lower


def _share_of_end(scored, sign):
    """Share right among the 27 % with the highest (sign 1) or lowest (-1) scores."""
    wanted, taken, right = _PART * len(scored), 0.0, 0.0
    by_score = {}
    for score, one in scored:
        by_score.setdefault(score, []).append(one)
    for score in sorted(by_score, key=lambda score: -sign * score):
        here = by_score[score]
        part = min(1.0, (wanted - taken) / len(here))
        taken, right = taken + part * len(here), right + part * sum(here)
        if taken >= wanted - 1e-9:
            break
    return right / taken
