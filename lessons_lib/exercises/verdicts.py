"""What the student sees: verdicts, given values and tables, each as plain text and as HTML with everything escaped."""
import base64
import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from html import escape

from lessons_lib.base.units import shown_unit


class State(StrEnum):
    """The states of a verdict, in the words that are shown."""

    RIGHT = "right"
    NOT_YET = "not yet"
    FAR = "nowhere near yet"
    NOT_ANSWERED = "still empty"
    UNREADABLE = "cannot be read"
    KEPT = "kept"
    LOST = "not kept"
    OPEN = "open"
    READY = "ready to hand in"
    NO_BENCH = "no bench yet"
    NO_SHEET = "no sheet"


# an edge beside the words, never instead of them; both read on white and on black
_EDGES = {State.RIGHT: "solid #009E73", State.NOT_YET: "dashed #D55E00", State.FAR: "dashed #D55E00",
          State.UNREADABLE: "dotted #D55E00"}


def sentence(words):
    """Return *words* with a capital and a full stop."""
    return f"{words[0].upper()}{words[1:]}." if words[-1] not in ".!?" else f"{words[0].upper()}{words[1:]}"


@dataclass(frozen=True)
class Verdict:
    """The answer to an answer: a *state* in words and one or two sentences of *text*; *about* names the exercise."""

    state: State
    text: str
    about: str = ""

    def __repr__(self):
        return f"{self._head} {self.text}"

    def _repr_html_(self):
        edge = _EDGES.get(self.state, "solid #808080")
        body = escape(self.text).replace("\n", "<br>")
        return (f'<p role="status" aria-live="polite" style="border-left: 4px {edge}; padding-left: 0.6em">'
                f"<strong>{escape(self._head)}</strong> {body}</p>")

    @property
    def _head(self):
        words = str(self.state)
        return f"{self.about}: {words}." if self.about else f"{words[0].upper()}{words[1:]}."


@dataclass(frozen=True)
class VerdictWithFile(Verdict):
    """A verdict with a *file*, (name, bytes of JSON), that can be saved from the page: some hubs show no folder."""

    file: tuple = ("", b"")

    def _repr_html_(self):
        name, data = self.file
        return super()._repr_html_() + (
            f'<p><a download="{escape(name)}" href="data:application/json;base64,'
            f'{base64.b64encode(data).decode("ascii")}">Save {escape(name)}</a>, and send it to your instructor.</p>')


@dataclass(frozen=True, kw_only=True)
class PredictionCard:
    """What a panel asks before and after it opens, and what was put down so far; or a vote and what turned out.

    *made* is (letter, sureness from 1 to 3, reason) or None, *seen* a letter or None; a vote's sureness may be None.
    Of a vote: *where* the course shows what turned out, where the vote is seen *again*, *turned_out* (letter, sentence)
    or None before there is a vote.
    """

    question: str
    options: Mapping
    seen_question: str
    seen_options: Mapping
    made: tuple | None
    seen: str | None
    needs_reason: bool = True
    where: str = ""
    again: str = ""
    turned_out: tuple | None = None


@dataclass(frozen=True, kw_only=True)
class Table:
    """Rows of short texts under a caption, as plain text and as HTML."""

    caption: str
    head: tuple
    rows: tuple

    def __repr__(self):
        lines = [self.head, *self.rows]
        widths = [max(len(line[column]) for line in lines) for column in range(len(self.head))]
        return "\n".join([self.caption, *(
            "  ".join(cell.ljust(width) for cell, width in zip(line, widths)).rstrip() for line in lines)])

    def _repr_html_(self):
        def cells(line, tag):
            return "<tr>" + "".join(f"<{tag}>{escape(cell)}</{tag.split()[0]}>" for cell in line) + "</tr>"

        return (f"<table><caption>{escape(self.caption)}</caption><thead>{cells(self.head, 'th scope=col')}</thead>"
                f"<tbody>{''.join(cells(line, 'td') for line in self.rows)}</tbody></table>")


class GivenValues(Mapping):
    """The given values of one exercise: ``given["field"]`` is the number in the shown unit, a tuple for a column.

    Shown as a small table, a second one for columns; without values, as the sentence *instead*, and every value is NaN,
    so that "run all cells" goes on.
    """

    def __init__(self, about, records, instead=None):
        self._about, self._records, self._instead = about, records, instead
        self._values = {one["name"]: tuple(one["value"]) if isinstance(one["value"], list) else one["value"]
                        for one in records}

    def __getitem__(self, name):
        if self._instead and isinstance(name, str):
            return math.nan
        if name not in self._values:
            names = ", ".join(self._values) or "none"
            raise KeyError(f"{self._about} has no given value of this name; it has: {names}")
        return self._values[name]

    def __iter__(self):
        return iter(self._values)

    def __len__(self):
        return len(self._values)

    @property
    def records(self):
        """The values as the sheet has them: name, label, unit, value, text of each."""
        return tuple(self._records)

    def _tables(self):
        single = [one for one in self._records if isinstance(one["text"], str)]
        columns = [one for one in self._records if not isinstance(one["text"], str)]
        if single:
            yield Table(caption=f"Given values of {self._about}", head=("quantity", "name", "value", "unit"),
                        rows=tuple((one["label"], one["name"], one["text"], shown_unit(one["unit"]))
                                   for one in single))
        if columns:
            yield Table(caption=f"Table of {self._about}",
                        head=tuple(f"{one['label']}, {one['name']} ({shown_unit(one['unit'])})" for one in columns),
                        rows=tuple(zip(*(one["text"] for one in columns))))

    def __repr__(self):
        return "\n\n".join(map(repr, self._tables())) if self._records else repr(self._instead)

    def _repr_html_(self):
        return "".join(table._repr_html_() for table in self._tables()) or self._instead._repr_html_()
