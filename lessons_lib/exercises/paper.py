"""What an exercise has on paper, as building blocks: room for its answer, and what is right. Plain texts, no HTML.

A kind of exercise returns a tuple of these; ``course/templates/blocks.html`` has a macro of the same name for each.
"""
from dataclasses import dataclass

from lessons_lib.base.units import shown_unit


@dataclass(frozen=True)
class Lines:
    """Lines to write on."""

    count: int


@dataclass(frozen=True)
class Working:
    """Room to work something out."""


@dataclass(frozen=True)
class Box:
    """A box for a number; its unit as it is shown, an empty text for a plain number."""

    exercise_id: str
    unit: str


@dataclass(frozen=True)
class Boxes:
    """One entry of a design: what it is called, what is asked, how many boxes it needs."""

    label: str
    asked: str
    count: int


@dataclass(frozen=True)
class Entries:
    """Boxes for several entries, a tuple of `Boxes`."""

    entries: tuple

    @classmethod
    def of(cls, records):
        """Make boxes for the records of a sheet, name -> record."""
        return cls(tuple(Boxes(one["label"], ", ".join(one["options"]) or (
            f"{shown_unit(one['unit'])}, {one['low']:g} to {one['high']:g}".replace("-", "−").lstrip(", ")),
            one["count"]) for one in records.values()))


@dataclass(frozen=True)
class Readings:
    """An empty table for readings; the headings of its columns."""

    columns: tuple


@dataclass(frozen=True)
class FormulaLine:
    """A line for a formula, and the symbols that it may name."""

    exercise_id: str
    symbols: tuple


@dataclass(frozen=True)
class Ranks:
    """A box for each of *count* things in order, with room for a sign between them."""

    exercise_id: str
    count: int


@dataclass(frozen=True)
class Curves:
    """Curves to choose from, one above the other: (letter, points of its line) each, in a field of 300 by 60.

    *zero* is how far down the line of zero is; *words* say what the axes are.
    """

    lines: tuple
    zero: float
    words: str

    @classmethod
    def of(cls, records, letters):
        """Make them of a sheet's given values: the column "along", and one for each of the *letters*."""
        columns = {one["name"]: one for one in records}
        x, shown = columns["along"], [columns[letter] for letter in letters]
        low, high = (pick([pick(one["value"]) for one in shown] + [0.0]) for pick in (min, max))
        tall = 54 / (high - low or 1)
        lines = tuple((one["name"], " ".join(
            f"{300 * (at - x['value'][0]) / (x['value'][-1] - x['value'][0]):.1f},{57 - tall * (value - low):.1f}"
            for at, value in zip(x["value"], one["value"]))) for one in shown)
        quantity = shown[0]["label"].removesuffix(f" ({shown[0]['name']})")
        words = (f"Upwards {quantity}, from {low:g} to {high:g} {shown_unit(shown[0]['unit'])}; "
                 f"to the right {x['label']}, from {x['text'][0]} to {x['text'][-1]} {shown_unit(x['unit'])}; "
                 "the thin line is zero.")
        return cls(lines, round(57 + tall * low, 1), words.replace("-", "−"))


@dataclass(frozen=True)
class PageOnly:
    """A sentence on what paper cannot do."""

    text: str


@dataclass(frozen=True)
class Grid:
    """A table of texts under headings."""

    head: tuple
    rows: tuple

    @classmethod
    def where_any(cls, head, rows):
        """Return the table alone in a tuple; an empty one where there are no rows."""
        return (cls(head, rows),) if rows else ()

    @classmethod
    def of_given(cls, records):
        """Return as `where_any` the table of given values as a sheet has them."""
        return cls.where_any(("quantity", "name", "value", "unit"), tuple(
            (one["label"], one["name"], one["text"] if isinstance(one["text"], str) else ", ".join(one["text"]),
             shown_unit(one["unit"])) for one in records))


@dataclass(frozen=True)
class Right:
    """What is right, made to stand out, with the words *before* and *after* it."""

    value: str
    before: str = "Right:"
    after: str = ""


@dataclass(frozen=True)
class Paragraph:
    """A sentence or more."""

    text: str
