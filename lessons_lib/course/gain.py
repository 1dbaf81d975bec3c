"""Before and after: what a class gained between two tests of equal items, and which ideas did not move."""
import math
from collections import Counter
from statistics import fmean, stdev

from lessons_lib.course.tally import by_frequency
from lessons_lib.course.teach_again import LEAST_FOR_SHARES, share_text

ENOUGH_ANSWERED = 0.75      # share of the items that a bench must have answered, in both tests
KNOWN = 0.8                 # share right: nothing is asked to move that is there already
SURE_AND_WRONG = 0.2        # share of benches
_LEAST_SURE = 3             # benches
_SURE = 3


def normalised_gain(before, after):
    """Return (g, its standard error) of matched benches.

    Parameters
    ----------
    before, after : sequence of float
        Share of the items that each bench had right, in the same order of benches.

    Returns
    -------
    (float, float)
        Of the class: g = (mean after − mean before)/(1 − mean before). NaN where all was known before; the error is NaN
        for fewer than three benches.

    Notes
    -----
    The gain of class averages, as R. R. Hake defined it (American Journal of Physics 66, 1998, 64; from memory). Its
    standard error is the jackknife's: each bench is left out once.

    Examples
    --------
    >>> gain, error = normalised_gain([0.2, 0.4, 0.3, 0.3], [0.6, 0.7, 0.65, 0.65])
    >>> round(gain, 3)
    0.5
    """
    def gain(pairs):
        first, last = fmean(one for one, _ in pairs), fmean(one for _, one in pairs)
        return (last - first) / (1 - first) if first < 1 else math.nan

    pairs = list(zip(before, after, strict=True))
    n = len(pairs)
    if n < 3:
        return gain(pairs), math.nan
    without = [gain(pairs[:place] + pairs[place + 1:]) for place in range(n)]
    return gain(pairs), math.sqrt((n - 1) / n * sum((one - fmean(without)) ** 2 for one in without))


def before_and_after(tallies):
    """Return what the report says of the tests of a course, by name; None where no bench handed in both.

    Parameters
    ----------
    tallies : dict
        Lesson id -> `LessonTally`.
    """
    tests = {tally.lesson.test: tally for tally in tallies.values() if tally.lesson.test}
    if not {"before", "after"} <= set(tests):
        return None
    first, last = tests["before"], tests["after"]
    both = [bench for bench in first.items if bench in last.items]
    matched = [bench for bench in both if _enough(first, bench) and _enough(last, bench)]
    if not matched:
        return None
    found = {"benches": len(matched), "left_out": len(both) - len(matched), "least": LEAST_FOR_SHARES}
    if len(matched) < LEAST_FOR_SHARES:
        return found
    shares = [[_share(tally, bench) for bench in matched] for tally in (first, last)]
    gain, error = normalised_gain(*shares)
    rows = [_row(idea, first, tests.get("half-way"), last, matched) for idea in _ideas(first) if idea in _ideas(last)]
    return found | {
        "before": _mean_text(shares[0]), "after": _mean_text(shares[1]), "rows": rows,
        "gain": f"{gain:.2f} ± {error:.2f}".replace("-", "−") if math.isfinite(gain) else "",
        "known": f"{100 * KNOWN:g} %", "share": f"{100 * SURE_AND_WRONG:g} %",
        "not_moved": [row["idea"] for row in rows if not row["moved"]],
        "sure_and_wrong": list(_sure_and_wrong(last, matched))}


def _ideas(tally):
    return [one.idea for one in tally.lesson.exercises if one.kind == "item"]


def _enough(tally, bench):
    return len(tally.items[bench]) >= ENOUGH_ANSWERED * len(_ideas(tally))


def _share(tally, bench):
    """Of all items; one that was not answered is not right."""
    return sum(is_right for is_right, _, _ in tally.items[bench].values()) / len(_ideas(tally))


def _mean_text(shares):
    return f"{100 * fmean(shares):.0f} ± {100 * stdev(shares) / math.sqrt(len(shares)):.0f} %"


def _is_right(tally, bench, idea):
    return tally.items.get(bench, {}).get(idea, (False,))[0]


def _row(idea, first, half, last, benches):
    before, after = ([_is_right(tally, bench, idea) for bench in benches] for tally in (first, last))
    moves = [late - early for early, late in zip(before, after)]
    gain, error = fmean(moves), stdev(moves) / math.sqrt(len(moves))
    there = [bench for bench in (half.items if half and idea in _ideas(half) else ()) if bench in benches]
    return {
        "idea": idea, "before": share_text(sum(before), len(before)), "after": share_text(sum(after), len(after)),
        "half_way": share_text(sum(_is_right(half, bench, idea) for bench in there), len(there)) if there else "",
        "gain": f"{100 * gain:+.0f} ± {100 * error:.0f} %".replace("-", "−"),
        "moved": fmean(after) >= KNOWN or gain > 2 * error}


def _sure_and_wrong(last, benches):
    """(idea, how many were sure and wrong, of how many, the notion that most of them share)."""
    for idea in _ideas(last):
        answers = [last.items[bench][idea] for bench in benches if idea in last.items[bench]]
        wrong = Counter(tells for is_right, sure, tells in answers if sure == _SURE and not is_right)
        if wrong.total() >= max(_LEAST_SURE, SURE_AND_WRONG * len(benches)):
            yield idea, wrong.total(), len(benches), by_frequency(wrong)[0][0]
