"""Some things are put in order, the first one largest; ties are allowed, and a note goes with each typical mistake."""
import unicodedata
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from lessons_lib.base.checks import positive, refuse
from lessons_lib.exercises import reading
from lessons_lib.exercises.kinds.kind import Judgement, OwnOrSame, Record
from lessons_lib.exercises.paper import Grid, Ranks, Right
from lessons_lib.exercises.parts import check_fields, check_formula, check_letters, check_notes, evaluate
from lessons_lib.exercises.sealing import digest
from lessons_lib.exercises.verdicts import State

_ALIKE = str.maketrans({"≈": "=", "~": "=", "≃": "=", "(": " ", ")": " ", "[": " ", "]": " ", "›": ">", "‹": "<"})
_CLEAR = 3.0        # times the tolerance of a tie: what differs by less, and is no tie, is not given out


def read_order(value, letters):
    """Return a typed order as a tuple of ranks, each the letters that share it, the largest first.

    Parameters
    ----------
    value : str or list
        "b > a = d > c"; blanks or commas stand for >, and < turns it round. A list has a rank in each place, a tie as
        "a=d" or as a list.
    letters : sequence of str

    Raises
    ------
    ValueError
        For anything else; the message is a sentence for a student.

    Examples
    --------
    >>> read_order("C < A = d < b", "abcd"), read_order(["b", "a=d", "c"], "abcd")
    (('b', 'ad', 'c'), ('b', 'ad', 'c'))
    """
    text = unicodedata.normalize("NFKC", reading.read_text(_as_text(value, letters), reading.ONE_LINE))
    found, signs, between, at_ends = [], [], "", False
    for one in text.translate(_ALIKE).lower():
        if one in letters:
            if found:
                signs.append(_sign(between))
            elif between.strip(" ,;"):
                at_ends = True
            found, between = [*found, one], ""
        elif one.isspace() or one in ",;<>=":
            between += one
        else:
            raise ValueError(f'"{reading.shortened(one)}" is not one of the letters {", ".join(letters)}; '
                             f"write them with > or = between")
    if twice := [one for one in letters if found.count(one) > 1]:
        raise ValueError(f"there twice: {', '.join(twice)}")
    if missing := [one for one in letters if one not in found]:
        raise ValueError(f"still missing: {', '.join(missing)}; "
                         f"put all of {', '.join(letters)} in order")
    if at_ends or between.strip(" ,;"):
        raise ValueError("the order begins or ends with a sign; begin and end with a letter")
    if {"<", ">"} <= set(signs):
        raise ValueError("there is < and > in one order; use one of the two")
    ranks = [found[0]]
    for one, sign in zip(found[1:], signs):
        ranks[-1:] = [ranks[-1] + one] if sign == "=" else [ranks[-1], one]
    return tuple("".join(sorted(rank)) for rank in (reversed(ranks) if "<" in signs else ranks))


def _as_text(value, letters):
    if isinstance(value, (list, tuple)) and len(value) <= len(letters):
        value = " > ".join(" = ".join(map(str, one)) if isinstance(one, (list, tuple)) else str(one) for one in value)
    if not isinstance(value, str):
        raise ValueError(f'write the order as a text in quotes, such as "{" > ".join(letters)}"')
    return value


def _sign(between):
    signs = {one for one in between if one in "<>="}
    if len(signs) > 1:
        raise ValueError("between two letters write either > or =")
    return signs.pop() if signs else ","


def order_text(ranks):
    """Return ranks as they are said.

    Examples
    --------
    >>> order_text(("b", "ad", "c"))
    'b > a = d > c'
    """
    return " > ".join(" = ".join(rank) for rank in ranks)


def _among(ranks, letters):
    """The same order of some of the letters alone, as a text."""
    left = ("".join(one for one in rank if one in letters) for rank in ranks)
    return order_text([rank for rank in left if rank])


def _ranks_of(numbers, same):
    """Letter -> number as ranks, the largest first; what differs by at most a share *same* is a tie."""
    ranks, last = [], None
    for letter in sorted(numbers, key=numbers.get, reverse=True):
        if ranks and _share(last, numbers[letter]) <= same:
            ranks[-1] += letter
        else:
            ranks.append(letter)
        last = numbers[letter]
    return tuple("".join(sorted(rank)) for rank in ranks)


def _share(one, other):
    return abs(one - other) / max(abs(one), abs(other)) if one != other else 0.0


@dataclass(frozen=True, kw_only=True)
class OrderExercise(OwnOrSame):
    """Four to six things are put in order.

    Parameters
    ----------
    options : mapping of letter to str
        The things; in the page as "(a) ...".
    right : str or callable
        "b > a = d > c", the same for every bench; or a function of the given values (SI) that gives letter -> number,
        the largest first: then each bench has an order of its own.
    notes : (str, str, str)
        Where to look; which principle; a worked twin.
    worked : str
        With ``{order}`` for the right one, and the names of given values.
    slips : tuple of `Slip`
        Typical wrong orders: in place of a formula an order of all or some of the letters ("a > b" is met by every
        order that has a before b), or a function as of *right*. Of several that fit, the one with most letters counts.
    given : mapping of name to `Given`
    derived : mapping of name to `Derived`
    same : float
        Numbers that differ by at most this share are a tie; draws with a difference up to three times of it are not
        given out.
    """

    options: Mapping
    right: str | Callable
    notes: tuple
    slips: tuple = ()
    same: float = 0.01
    kind = right_field = "order"

    def __post_init__(self):
        check_letters("options", self.options, self.options)
        positive(same=self.same)
        if not 3 <= len(self.options) <= 8:
            refuse("options", "3 to 8 things", len(self.options))
        check_notes(self.notes)
        if callable(self.right) != self.is_drawn:
            refuse("given", "there where right is a function, and only there", sorted(self.given))
        for formula in (self.right, *(slip.formula for slip in self.slips)):
            if callable(formula):
                check_formula(self.id, formula, self.shown)
            else:
                read_order(formula, sorted(one for one in formula if one in self.options))
        if not callable(self.right):
            read_order(self.right, list(self.options))
        check_fields(self.id, self.worked, ["order", *self.shown])

    def _ranks(self, order, drawn):
        if callable(order):
            return _ranks_of(evaluate(order, drawn.si if drawn else {}), self.same)
        return read_order(order, sorted(one for one in order if one in self.options))

    def _slips(self, drawn):
        """(its letters, its order, slip) of each, those with most letters first; none that the right order fits."""
        right = self._ranks(self.right, drawn)
        ranks = [(self._ranks(slip.formula, drawn), slip) for slip in self.slips]
        found = [("".join(sorted("".join(one))), order_text(one), slip) for one, slip in ranks]
        return sorted((one for one in found if _among(right, one[0]) != one[1]), key=lambda one: -len(one[0]))

    def sheet_fields(self, drawn, salt):
        """Return things and given values in the open, the right order and the wrong ones sealed."""
        notes = sorted({slip.note for slip in self.slips})
        return {"options": dict(self.options), **({"given": drawn.records()} if drawn else {}),
                "right": digest(salt, self.id, "order", order_text(self._ranks(self.right, drawn))),
                "slips": [{"letters": letters, "order": digest(salt, self.id, letters, order),
                           "note": notes.index(slip.note)} for letters, order, slip in self._slips(drawn)],
                "slip_notes": notes, "notes": list(self.notes)}

    def model_answer(self, drawn=None):
        return order_text(self._ranks(self.right, drawn)), None, {}

    def key_value(self, drawn):
        return self.model_answer(drawn)[0]

    def right_on_paper(self, drawn=None):
        """Return given values, the right order, and each slip's."""
        slips = tuple((slip.name, order) for _, order, slip in self._slips(drawn))
        return (*Grid.of_given(drawn.records() if drawn else ()), Right(self.key_value(drawn)),
                *Grid.where_any(("slip", "has"), slips))

    def slips_by_try(self, drawn):
        """Return order -> names of the slips that it fits, looked up as a dict is."""
        return _Fitting(self._slips(drawn))

    def value_words(self, judged, drawn):
        """Return the order itself where it is the same question for all."""
        return "another order" if self.is_drawn else judged.entry["value"]

    def why_refused(self, drawn):
        numbers = sorted(evaluate(self.right, drawn.si).values()) if callable(self.right) else []
        if any(self.same < _share(one, other) <= _CLEAR * self.same for one, other in zip(numbers, numbers[1:])):
            return "two things are nearly the same, and no tie"
        told = [slip.name for *_, slip in self._slips(drawn)]
        return next((f"slip {slip.name} leads to the right order" for slip in self.slips if slip.name not in told), "")


class _Fitting:
    """What `slips_by_try` gives: there are too many orders to list them all."""

    def __init__(self, slips):
        self._slips = slips

    def get(self, order, default):
        """Return the names of the slip that an order fits, the first one alone."""
        ranks = tuple(rank.replace(" = ", "") for rank in order.split(" > "))
        return next(([slip.name] for letters, wrong, slip in self._slips if _among(ranks, letters) == wrong), default)


class OrderRecord(Record):
    """The record side: an order is read and looked up, as a whole and in parts."""

    kind = "order"
    blank = '"..."'

    def judge(self, value, unit=None, readings=None):
        ranks, salt = read_order(value, list(self["options"])), self["salt"]
        order = order_text(ranks)
        about = {"try_name": order, "entry": {"value": order}}
        if digest(salt, self["id"], "order", order) == self["right"]:
            return Judgement(state=State.RIGHT, text=f"Yes: {order}.", **about)
        for slip in self["slips"]:
            if digest(salt, self["id"], slip["letters"], _among(ranks, slip["letters"])) == slip["order"]:
                return Judgement(state=State.NOT_YET, text=self["slip_notes"][slip["note"]], **about)
        return Judgement(state=State.NOT_YET, text="", unmatched=True, **about)

    def place(self):
        return (Ranks(self["id"], len(self["options"])),)
