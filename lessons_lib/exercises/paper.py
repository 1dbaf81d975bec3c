"""What an exercise has on paper, as building blocks: room for its answer, and what is right. Plain texts, no HTML.

A kind of exercise returns a tuple of these; ``course/templates/blocks.html`` has a macro of the same name for each.
"""
from dataclasses import dataclass


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
class Entry:
    """One entry of a design: what it is called, what is asked, how many boxes it needs."""

    label: str
    asked: str
    count: int


@dataclass(frozen=True)
class Entries:
    """Boxes for several entries, a tuple of `Entry`."""

    entries: tuple


@dataclass(frozen=True)
class Readings:
    """An empty table for readings; the headings of its columns."""

    columns: tuple


@dataclass(frozen=True)
class PageOnly:
    """A sentence on what paper cannot do."""

    text: str


@dataclass(frozen=True)
class Grid:
    """A table of texts under headings."""

    head: tuple
    rows: tuple


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
