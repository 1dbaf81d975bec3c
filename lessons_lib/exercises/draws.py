"""Given values of a bench: bits of a keyed hash, rounded to what an instrument shows.

Same secret, bench and exercise: same values, on any machine and under any version of numpy. A bench added later changes
no other bench's values.
"""
import hashlib
import hmac
import math
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from lessons_lib.base.units import read_unit, with_unit
from lessons_lib.exercises.common_slips import common_numbers
from lessons_lib.exercises.parts import evaluate, value_text
from lessons_lib.exercises.sealing import APART

# Self-study numbers are no secret: everybody with the repository may make them again.
SELF_STUDY_SECRET = "numbers for everybody"
MOST_DRAWS = 200


def keyed(secret, *fields):
    """Return 32 bytes that only *secret* and the *fields* decide."""
    return hmac.new(secret.encode(), "\x1f".join(map(str, fields)).encode(), hashlib.sha256).digest()


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """What a bench is given in one exercise: *shown* and *hidden* values in their shown units, lists for columns.

    Where the exercise follows another, *own_earlier* is a student's own answer to that one, in SI; None is the right
    one.
    """

    exercise: object
    shown: dict
    hidden: dict
    own_earlier: float | None = None

    @property
    def si(self):
        """All values in SI, columns as arrays, and ``earlier`` where the exercise follows another."""
        drawn, declared = {**self.shown, **self.hidden}, {**self.exercise.shown, **self.exercise.hidden}
        values = {name: _si(drawn[name], one.unit) for name, one in declared.items() if name in drawn}
        if before := self.exercise.follows:
            values["earlier"] = self.own_earlier
            if self.own_earlier is None:
                right = Drawn(exercise=before, shown={name: self.shown[name] for name in before.shown}, hidden={})
                values["earlier"] = float(evaluate(before.answer, right.si))
        return values

    def in_asked_unit(self, formula):
        """Return what *formula* gives for these values, in the asked unit."""
        return float(evaluate(formula, self.si)) / read_unit(self.exercise.unit).factor

    @cached_property
    def answer(self):
        """The right answer in the asked unit."""
        return self.in_asked_unit(self.exercise.answer)

    @property
    def known_design(self):
        """A design that meets this bench's limits, in the units of its entries."""
        return evaluate(self.exercise.known, self.si)

    @property
    def fuller_answer(self):
        """What the exercise's fuller model gives, in the asked unit."""
        return self.in_asked_unit(self.exercise.fuller)

    @property
    def own_slips(self):
        """(name, number in the asked unit, note) of each own slip."""
        return [(slip.name, self.in_asked_unit(slip.formula), slip.note) for slip in self.exercise.slips]

    @property
    def common_slips(self):
        """(name, number in the asked unit, note) of each common factor."""
        return common_numbers(self.exercise.common, self.answer) if self.exercise.common else []

    @property
    def slips(self):
        """The own slips, then the common ones; none where no number is asked."""
        return [*self.own_slips, *self.common_slips] if self.exercise.unit else []

    def texts(self):
        """Return name -> the shown value with its unit, as a worked text names it."""
        texts = {name: value_text(value, self.exercise.shown[name]) for name, value in self.shown.items()}
        return {name: with_unit(text if isinstance(text, str) else ", ".join(text), self.exercise.shown[name].unit)
                for name, text in texts.items()}

    def as_printed(self):
        """Return the same draw as a student reads it: values from their printed texts."""
        return replace(self, shown={name: np.array(value_text(value, self.exercise.shown[name]), dtype=float).tolist()
                                    for name, value in self.shown.items()})

    def records(self):
        """Return the shown values as a sheet has them."""
        return [{"name": name, "label": declared.label, "unit": declared.unit, "value": self.shown[name],
                 "text": value_text(self.shown[name], declared)} for name, declared in self.exercise.shown.items()]

    def told_slips(self):
        """Return (own slips, common ones) that cannot be mistaken for the right answer."""
        return tuple([slip for slip in slips if self.tells(slip[1])] for slips in (self.own_slips, self.common_slips))

    def tells(self, number):
        """Return whether a slip's *number* is finite and well apart from the right answer."""
        return math.isfinite(number) and self.scale.distance(number, self.answer) >= APART

    @cached_property
    def scale(self):
        """The `Scale` that seals this answer."""
        return self.exercise.scale_of(self.answer)


def _si(value, unit):
    factor = read_unit(unit).factor
    return np.asarray(value, dtype=float) * factor if isinstance(value, (list, tuple)) else value * factor


def draw_once(exercise, *, secret, bench, number, before=None):
    """Return the `Drawn` of one draw, accepted or not; *before*: the shown values of the exercise that it follows."""
    def one(name, given):
        bits = int.from_bytes(keyed(secret, bench, exercise.id, number, name)[:8], "big")
        return round(float(given.low + bits % given.choices * given.step), given.decimals)

    if exercise.follows and before is None:
        before = draw(exercise.follows, secret=secret, bench=bench).shown
    shown = {**(before or {}), **{name: one(name, given) for name, given in exercise.given.items()}}
    hidden = {name: one(name, given) for name, given in exercise.hidden.items()}
    declared = {**exercise.shown, **exercise.hidden}
    si = {name: _si(value, declared[name].unit) for name, value in {**shown, **hidden}.items()}
    for name, derived in exercise.derived.items():
        in_unit = np.asarray(evaluate(derived.formula, si), dtype=float) / read_unit(derived.unit).factor
        shown[name] = np.round(in_unit, derived.decimals).tolist()
        si[name] = _si(shown[name], derived.unit)
    return Drawn(exercise=exercise, shown=shown, hidden=hidden)


def twin_of(exercise):
    """Return the `Drawn` of the exercise's worked twin."""
    return Drawn(exercise=exercise, shown=dict(exercise.twin.given), hidden={})


def draw_lesson(lesson, *, secret, bench, kept=None):
    """Return exercise id -> `Drawn` of all exercises of a lesson that have given values; those *kept* stay."""
    drawn = {}
    for exercise in lesson.exercises:
        if exercise.is_drawn:
            before = drawn[exercise.follows.id].shown if exercise.follows else None
            drawn[exercise.id] = (kept or {}).get(exercise.id) or draw(
                exercise, secret=secret, bench=bench, before=before)
    return drawn


def draw(exercise, *, secret, bench, before=None):
    """Return the bench's `Drawn`: the first draw that is not refused; *before* as in `draw_once`.

    ValueError with the last reason where none of `MOST_DRAWS` is accepted.
    """
    for number in range(MOST_DRAWS):
        drawn = draw_once(exercise, secret=secret, bench=bench, number=number, before=before)
        reason = exercise.why_refused(drawn)
        if not reason:
            return drawn
    raise ValueError(f"exercise {exercise.id}: none of {MOST_DRAWS} draws for {bench} is accepted; {reason}.")
