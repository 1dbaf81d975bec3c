"""How far a lesson's exercises are, in counts and words: core apart from what is further."""
from typing import NamedTuple

from lessons_lib.exercises.verdicts import State


class SoFar(NamedTuple):
    """Of one exercise: its *state*, how many *tries*, whether it is *further*."""

    exercise_id: str
    state: State
    tries: int
    further: bool

    @property
    def called(self):
        """Its id, with the word where it is further."""
        return f"{self.exercise_id} (further)" if self.further else self.exercise_id


def done(exercises, *, further=False):
    """Return how many core exercises (or *further* ones) are right or kept, and how many there are.

    Examples
    --------
    >>> done([SoFar("1.1", State.RIGHT, 1, False), SoFar("1.2", State.RIGHT, 1, True)])
    (1, 1)
    """
    states = [one.state in (State.RIGHT, State.KEPT) for one in exercises if one.further == further]
    return sum(states), len(states)


def counts_said(exercises):
    """Return the counts in words; an empty text where nothing is further."""
    (core, all_core), (further, all_further) = done(exercises), done(exercises, further=True)
    return f"core {core} of {all_core} done, further {further} of {all_further}" if all_further else ""


def what_it_holds(exercises):
    """Return in sentences what a return holds, and what is missing of the core."""
    core, further = ([one for one in exercises if one.further == is_further] for is_further in (False, True))
    missing = [one.exercise_id for one in core if one.state == State.NOT_ANSWERED]
    wrong = [one.called for one in exercises if one.state in (State.NOT_YET, State.FAR)]
    answered = sum(one.state != State.NOT_ANSWERED for one in further)
    of_core, more = (" core", f", and {answered} of {len(further)} further ones") if further else ("", "")
    nothing = f"Nothing{' of the core' * bool(further)} is missing."
    return " ".join((f"It holds {len(core) - len(missing)} of {len(core)}{of_core} answers and predictions{more}.",
                     f"Missing: {', '.join(missing)}." if missing else nothing,
                     *([f"Not right yet: {', '.join(wrong)}."] if wrong else [])))
