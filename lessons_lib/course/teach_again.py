"""What to teach again: sentences that fixed rules make from a lesson's counts; shares with their standard errors."""
import math
from collections import Counter
from dataclasses import dataclass
from itertools import groupby
from operator import itemgetter

from lessons_lib.course.tally import ExerciseTally, PredictionTally, by_frequency
from lessons_lib.exercises.declaration import ChoiceExercise

LEAST_FOR_SHARES = 10           # benches; with fewer, counts alone are shown
LEAST_FOR_DISCRIMINATION = 40   # benches
_PART = 0.27                    # of the class, above and below
ENOUGH = 0.75           # share right in the end, or seen as the panel shows it
ONE_SLIP = 0.25         # share of benches with one and the same slip
EASY = 0.9              # share right at first
VOTE = (0.3, 0.7)       # share right at first: a question to vote on, discuss, and vote on again
LEFT_OUT = 0.3          # share of returns without an answer
UNEXPLAINED = 0.5       # share of wrong first answers outside all slips, from LEAST_WRONG of them on
LEAST_WRONG = 5
LEAST_SLIPS = 3         # benches
LEAST_LINES = 2         # lines that call one exercise unclear

TEACHING_RULES = (
    f"Right in the end: named where the share plus one standard error is below {100 * ENOUGH:g} %. "
    "For predictions the same rule goes for what was seen on the panel.",
    "From memory (m1, m2, ...): a quick question is named by the same rule, from its first answers; so is one on a "
    "step of a worked example (s1, s2, ...).",
    f"One slip: named where at least {100 * ONE_SLIP:g} % of those who answered made it, and at least {LEAST_SLIPS} "
    "benches.",
    f"Left out: named where at least {100 * LEFT_OUT:g} % of the returns have no answer. What is further may be left "
    "out: it is named for what was answered, and after the core.",
    f"Unclear: named where at least {LEAST_LINES} lines say so.",
    f"A question to vote on, discuss and vote on again: {100 * VOTE[0]:g} to {100 * VOTE[1]:g} % right at first (a "
    "range in common use), for questions with letters.",
    f"Move quickly past: at least {100 * EASY:g} % right at first.",
    f"The exercise itself: named where at least {100 * UNEXPLAINED:g} % of the wrong first answers fit no slip "
    f"({LEAST_WRONG} wrong ones or more). It may need a clearer text or a new slip.",
    f"No rule is applied to fewer than {LEAST_FOR_SHARES} benches.")


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
    return _share_of_first(sorted(scored, reverse=True)) - _share_of_first(sorted(scored))


def _share_of_first(scored):
    """Share right among the first 27 % of (score, is right)s in order."""
    wanted, taken, right = _PART * len(scored), 0.0, 0.0
    for _, group in groupby(scored, key=itemgetter(0)):
        here = [is_right for _, is_right in group]
        part = min(1.0, (wanted - taken) / len(here))
        taken, right = taken + part * len(here), right + part * sum(here)
        if taken >= wanted - 1e-9:
            break
    return right / taken


@dataclass(frozen=True)
class Point:
    """One thing to teach again: *about* an exercise, *says* sentences, the heavier the sooner."""

    about: str
    weight: float
    says: tuple


def teaching_points(tally, unclear):
    """Return the `Point`s of a `LessonTally`, those of the core first, then the heaviest.

    *unclear* is (lesson, exercise, bench, line)s.
    """
    lines = Counter(exercise for lesson, exercise, _, _ in unclear if lesson == tally.lesson.id)
    found = []
    for exercise in tally.lesson.exercises:
        said = list(_sentences(exercise, tally.exercises[exercise.id], tally.returned, tally.lesson.silent))
        if lines[exercise.id] >= LEAST_LINES:
            said.append((0.2 + 0.5 * lines[exercise.id] / max(tally.returned, 1),
                         f"{lines[exercise.id]} lines call it unclear; see below."))
        if said and tally.returned >= LEAST_FOR_SHARES:
            found.append(Point(exercise.id, sum(weight for weight, _ in said), tuple(says for _, says in said)))
    return sorted(found, key=lambda one: (tally.lesson[one.about].further, -one.weight, one.about))


def _sentences(exercise, one, returned, is_silent):
    """Yield (weight, sentence)."""
    if isinstance(one, PredictionTally):
        n, as_shown = one.saw.total(), one.saw[exercise.seen]
        if n >= LEAST_FOR_SHARES and _is_low(as_shown, n):
            letter, count = next(pair for pair in by_frequency(one.saw) if pair[0] != exercise.seen)
            yield 1.2 - as_shown / n, (f"{share_text(as_shown, n)} saw what the panel shows. {count} saw this instead: "
                                       f"“{exercise.seen_options[letter]}”. Show the panel again, to the whole class.")
    elif isinstance(one, ExerciseTally):
        yield from _of_tries(exercise, one, is_silent)
        if returned - one.answered >= LEFT_OUT * returned and not (exercise.quick or exercise.further):
            yield 0.3, f"{returned - one.answered} of {returned} left it out."


def _of_tries(exercise, one, is_silent):
    """Of a silent lesson the last answer alone counts: there is no first try, and its note was not read."""
    n = one.answered
    if n < LEAST_FOR_SHARES or exercise.quick:
        return
    if _is_low(one.right, n):
        how = "." if is_silent else f" in the end, {one.first} at the first try."
        yield 1.5 - one.right / n, f"{share_text(one.right, n)} got it right{how}"
    for (name, note), count in by_frequency(one.slips)[:1]:
        if count >= max(LEAST_SLIPS, ONE_SLIP * n):
            yield count / n, f"{count} of {n} made the same slip: {name.rstrip('.')}. Its note: “{note}”"
    if isinstance(exercise, ChoiceExercise) and VOTE[0] <= one.first / n <= VOTE[1]:
        yield 0.1, (f"{share_text(one.first, n)} were right{'' if is_silent else ' at first'}: a question to vote on, "
                    "discuss in pairs, and vote on again.")


def _is_low(k, n):
    return k / n + standard_error(k, n) < ENOUGH


def forgotten(tally):
    """Return (id, sentence) of the quick questions that too few knew from memory, the least known first."""
    return _too_few(tally, [one.id for one in tally.lesson.exercises if one.quick and not one.is_on_a_step],
                    "recalled it")


def steps_not_followed(tally):
    """Return the same of the quick questions on steps of worked examples."""
    return _too_few(tally, [one.id for one in tally.lesson.exercises if one.is_on_a_step], "named its principle")


def _too_few(tally, ids, did):
    asked = sorted((one.first / one.answered, exercise_id, one)
                   for exercise_id, one in _enough_answers(tally) if exercise_id in ids)
    return [(exercise_id, f"{share_text(one.first, one.answered)} {did}.")
            for _, exercise_id, one in asked if _is_low(one.first, one.answered)]


def easy(tally):
    """Return the ids of exercises that nearly all had right at first."""
    return [exercise_id for exercise_id, one in _enough_answers(tally) if one.first >= EASY * one.answered]


def unexplained(tally):
    """Return (id, how many wrong first answers fit no slip, of how many) where that is the larger part.

    A design knows no slips, so that none could fit.
    """
    return [(exercise_id, one.unexplained_first, one.wrong_first) for exercise_id, one in _enough_answers(tally)
            if one.wrong_first >= LEAST_WRONG and one.unexplained_first >= UNEXPLAINED * one.wrong_first
            and tally.lesson[exercise_id].kind != "design"]


def _enough_answers(tally):
    return [(exercise_id, one) for exercise_id, one in tally.exercises.items()
            if isinstance(one, ExerciseTally) and one.answered >= LEAST_FOR_SHARES]
