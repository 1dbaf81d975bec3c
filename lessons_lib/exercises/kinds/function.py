"""A function is asked: called on the student's machine alone; numbers read off its results are the answer's parts."""
import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

import numpy as np

from lessons_lib.base.checks import one_of, positive
from lessons_lib.base.units import read_unit, with_unit
from lessons_lib.exercises.functions import claim_of, claim_text, claimed, read_off
from lessons_lib.exercises.kinds.kind import Judgement, Record, Together
from lessons_lib.exercises.paper import Grid, Lines, PageOnly
from lessons_lib.exercises.parts import check_notes
from lessons_lib.exercises.sealing import APART, RIGHT, Scale, digest, sealed_notes
from lessons_lib.exercises.verdicts import State

_SAME = 0.2     # tolerances: at this part the slip does no harm


@dataclass(frozen=True, kw_only=True)
class FunctionExercise(Together):
    """The student writes a function of (values, time); numbers read off its results are the parts of the answer.

    Parameters
    ----------
    signals : mapping of name to `Signal`
        The same for every bench.
    parts : tuple of `ReadOff`
    tolerance : float
        A share, for every part.
    answer : callable
        The right function, SI in and SI out.
    also_right : tuple of callable
        Other ways to do it that must be right, too.
    slips : tuple of `Slip`
        Wrong functions; the note is told at every part that they lead to.
    notes : (str, str, str)
        Where to look; which principle; a worked twin.
    """

    signals: Mapping
    parts: tuple
    tolerance: float = field()
    answer: Callable
    notes: tuple
    also_right: tuple = ()
    slips: tuple = ()
    kind = "function"       # without *unit*: each part has its own

    def __post_init__(self):
        positive(tolerance=self.tolerance)
        check_notes(self.notes)
        for part in self.parts:
            one_of("signal", part.signal, self.signals)

    def numbers(self, function):
        """Return what is read off a *function*'s results, in the units of the parts; NaN where nothing can be read."""
        def one(part):
            signal = self.signals[part.signal]
            values, time = np.array(signal.values), np.array(signal.time)
            try:
                number = read_off(function(values, time), time, read=part.read, between=part.between)
            except ValueError:
                return math.nan
            return float(number) / read_unit(part.unit).factor
        return [one(part) for part in self.parts]

    def claim(self, function):
        """Return the claim of a *function*: what would be kept of it."""
        return claim_text(map(vars, self.parts), self.numbers(function))

    def sheet_fields(self, drawn, salt):
        """Return the signals in the open, the right readings sealed."""
        notes, sealed = sealed_notes(self.id, salt, "whole", {
            names: slips[0].note for names, slips in self.slips_by_bins().items()})
        return {
            "signals": {name: {"label": signal.label, "values": list(signal.values), "time": list(signal.time)}
                        for name, signal in self.signals.items()},
            "parts": [{"label": part.label, "signal": part.signal, "read": part.read, "unit": part.unit,
                       "factor": read_unit(part.unit).factor, "between": part.between and list(part.between),
                       "phase": scale.phase,
                       "sealed": {digest(salt, self.id, f"part {place}", scale.bin(right)): RIGHT}}
                      for place, (part, scale, right) in enumerate(
                          zip(self.parts, self.scales(), self.numbers(self.answer)))],
            "sealed": sealed, "tolerance": self.tolerance, "slip_notes": notes, "notes": list(self.notes)}

    def model_answer(self, drawn=None):
        return self.answer, None, {}

    def right_for_all(self):
        return self.claim(self.answer).replace("; ", ", ").replace("-", "−")

    def right_on_paper(self, drawn=None):
        """Return what is read off the right function and off each slip."""
        functions = ("right", self.answer), *((slip.name, slip.formula) for slip in self.slips)
        return (Grid(("function", *(part.label for part in self.parts)), tuple(
            (name, *(with_unit(f"{number:.4g}", part.unit) for part, number in zip(self.parts, self.numbers(one))))
            for name, one in functions)),)

    def faults(self):
        """Yield what is wrong with the signals and slips, each fault one sentence."""
        rights = self.numbers(self.answer)
        if nothing := [part.label for part, right in zip(self.parts, rights) if not math.isfinite(right) or right == 0]:
            yield f"{self.id}: the right {', '.join(nothing)} is nothing that a share can be taken of."
            return
        scales = self.scales()
        for place, (part, scale, right) in enumerate(zip(self.parts, scales, rights)):
            for other in self.also_right:
                if not scale.is_right(number := self.numbers(other)[place], right):
                    yield f"{self.id}: another right function gives {number:.4g} as {part.label}, not {right:.4g}."
        for name in sorted({slip.name for slips in self.slips_by_bins().values() for slip in slips
                            if slip.note != slips[0].note}):
            yield f"{self.id}: slip {name} leads where another one leads, and has another note."
        for slip in self.slips:
            apart = [scale.distance(number, right) if math.isfinite(number) else math.inf
                     for scale, right, number in zip(scales, rights, self.numbers(slip.formula))]
            if any(_SAME < distance < APART for distance in apart):
                yield f"{self.id}: slip {slip.name} leads to a reading too near to the right one."
            if not any(distance >= APART for distance in apart):
                yield f"{self.id}: slip {slip.name} is never told."


class FunctionRecord(Record):
    """The record side: the claim of a function, reading by reading."""

    kind = "function"
    takes_function = True

    def judge(self, value, unit=None, readings=None):
        """Return the `Judgement` on the student's function, or on the claim that was kept of it."""
        claim = value if isinstance(value, str) else claim_of(value, self)
        names, said = [], []
        for place, (part, number) in enumerate(zip(self["parts"], claimed(self["parts"], claim))):
            names.append(Scale(tolerance=self["tolerance"], absolute=False, phase=part["phase"]).bin(number))
            said.append(part["sealed"].get(digest(self["salt"], self["id"], f"part {place}", names[-1])))
        entry, name, right = {"value": claim}, " ".join(names), sum(one == RIGHT for one in said)
        if right == len(said):
            return Judgement(state=State.RIGHT, try_name=name, entry=entry, text=(
                f"Within {100 * self['tolerance']:g} % in each reading: {self.shown(entry)}."))
        slip = self["sealed"].get(digest(self["salt"], self["id"], "whole", name))
        notes = [] if slip is None else [self["slip_notes"][slip]]
        return Judgement(state=State.NOT_YET, try_name=name, entry=entry, unmatched=not notes, text=" ".join((
            f"Read off: {self.shown(entry)}. {right} of {len(said)} are right.", *notes)))

    def place(self):
        return Lines(4), PageOnly("Your function is tried on the page itself: type it in there.")

    def shown(self, entry):
        return entry["value"].replace("-", "−")
