"""A lesson's page, read once: its cells in order, each as what it is; their code as Python reads it."""
import ast
import re
from dataclasses import dataclass
from itertools import pairwise

_ANSWER = re.compile(r'^\s*(?:\w+\s*=\s*)?sheet\.answer\(\s*["\']([^"\']+)["\']', re.MULTILINE)
_MAGIC = re.compile(r"^[%!]", re.MULTILINE)
LIVE = "nbval-ignore-output"            # the tag of panels and sound: such a cell is stored without output
SOUND = "plays-sound"                   # of cells with sound
WORKED = "worked-on-the-page"           # of cells that work an answer out for the reader; it is no student's to give
_EXERCISE_HEAD = re.compile(r"^(?:### Exercise (\S+)(?: \((core|further)\))?[ \t]*$|\*\*([a-z]+\d+)\.\*\*)",
                            re.MULTILINE)       # the latter: quick ones
_PANEL = re.compile(r"^(?:panels\.(?=\w+\(sheet\b)|(?=first_look\())(\w+)", re.MULTILINE)     # one has no sheet
_STILL = re.compile(r"^panels\.(\w+)\(\)\.still\(", re.MULTILINE)
_VOTE = re.compile(r'^vote\(sheet, ([^)]+)\)', re.MULTILINE)
_OPENING = re.compile(r"^panels\.opening\(", re.MULTILINE)
_FOLD = re.compile(r"<details[^>]*>\s*<summary>[^\n]*</summary>(.*?)</details>", re.DOTALL)
_GIVEN = re.compile(r'^sheet\.given\("([^"]+)"\)\s*$')
_OF_A_BENCH = re.compile(r"\b(sheet|use_card|progress|open_sheet)\b")


@dataclass(frozen=True, kw_only=True)
class Answer:
    """A call of ``sheet.answer``: the exercise, the call, and the value in it; both None where nothing can be read."""

    exercise_id: str
    call: ast.Call | None = None
    value: ast.expr | None = None
    is_empty: bool = False


def parsed(source):
    """Return the syntax tree of a cell, or None where it is no Python; lines with % or ! count as comments."""
    try:
        return ast.parse(_MAGIC.sub("#", source))
    except (SyntaxError, ValueError, RecursionError, MemoryError):
        return None


def answers_in(source):
    """Return the `Answer` of every ``sheet.answer`` in a cell, in order.

    Examples
    --------
    >>> [(one.exercise_id, one.is_empty) for one in answers_in('sheet.answer("1.1", ..., "mm")')]
    [('1.1', True)]
    """
    if "sheet.answer" not in source:
        return []
    tree = parsed(source)
    return answers_of(tree) if tree else [Answer(exercise_id=one) for one in _ANSWER.findall(source)]


def answers_of(tree):
    """Return the `Answer` of every ``sheet.answer`` in a syntax tree, in order."""
    return [_answer_of(call) for call in calls(tree)
            if is_of_sheet(call, "answer") and call.args and isinstance(call.args[0], ast.Constant)]


def calls(tree):
    """Return the calls in a tree, in the order of their lines."""
    return sorted((node for node in ast.walk(tree) if isinstance(node, ast.Call)),
                  key=lambda node: (node.lineno, node.col_offset))


def is_of_sheet(call, *names):
    """Whether a call is ``sheet.name(...)`` for one of the *names*."""
    return (isinstance(call.func, ast.Attribute) and isinstance(call.func.value, ast.Name)
            and call.func.value.id == "sheet" and call.func.attr in names)


def _answer_of(call):
    value = call.args[1] if call.args[1:] else next((one.value for one in call.keywords if one.arg == "value"), None)
    return Answer(exercise_id=str(call.args[0].value), call=call, value=value,
                  is_empty=(value is None or is_empty(value)) and all(
                      is_empty(one.value) for one in call.keywords if one.arg == "because"))


def is_empty(node):
    """Whether an expression holds nothing yet: three dots, with or without quotes, or a dict or list of such."""
    if isinstance(node, ast.Constant):
        return node.value in (..., None) or isinstance(node.value, str) and node.value.strip() in ("", "...", "…")
    if isinstance(node, ast.Dict):
        return all(map(is_empty, node.values))
    if isinstance(node, (ast.List, ast.Tuple)):
        return bool(node.elts) and all(map(is_empty, node.elts))
    return False


@dataclass(frozen=True, kw_only=True)
class Cell:
    """A cell, or a piece of one: its *source*, and the *place* of the cell among the notebook's."""

    place: int
    source: str


class Prose(Cell):
    """Text, in Markdown."""


class Folded(Prose):
    """Text that a cell begins with and the screen keeps closed: what a panel means, until it was looked at."""


class HowToHandIn(Prose):
    """Text that only says how to run the cell that hands in."""


@dataclass(frozen=True, kw_only=True)
class Question(Prose):
    """Text from an exercise's head to the next one's, or to the cell's end; *text* is what stands under the head.

    *word* is what the head says of it, core or further; an empty text where it says neither.
    """

    exercise_id: str
    text: str
    word: str


@dataclass(frozen=True, kw_only=True)
class Code(Cell):
    """Code and its stored outputs; *of_a_bench*: they belong to the bench at which the page was run."""

    outputs: tuple
    of_a_bench: bool

    @property
    def results(self):
        """The plain text of each result, in order."""
        return ["".join(output["data"].get("text/plain", "")) for output in self.outputs
                if output["output_type"] == "execute_result"]


class Listing(Code):
    """Code that is there to be read."""


@dataclass(frozen=True, kw_only=True)
class PanelCell(Code):
    """A panel with its sliders: the function *name* of the lesson's panels."""

    name: str


@dataclass(frozen=True, kw_only=True)
class StillPanel(Code):
    """The same panel as a picture."""

    name: str


@dataclass(frozen=True, kw_only=True)
class VoteCell(Code):
    """Questions to vote on, by the ids of their exercises."""

    exercise_ids: tuple


class Sound(Code):
    """What nobody can print: sound."""


@dataclass(frozen=True, kw_only=True)
class Opening(Code):
    """What a lesson begins with: its question as a sound or, without *sounds*, as a film."""

    sounds: bool


@dataclass(frozen=True, kw_only=True)
class GivenCell(Code):
    """The given values of an exercise."""

    exercise_id: str


@dataclass(frozen=True, kw_only=True)
class Ask(Code):
    """An answer is asked; *empty* is what stands in its place as yet."""

    exercise_id: str
    empty: str


class TypedIn(Ask):
    """The same, with an answer that somebody typed into the page; *empty* is an empty text."""


@dataclass(frozen=True, kw_only=True)
class WorkedOut(Code):
    """An answer that the page itself works out: its cell has the tag for that."""

    exercise_id: str


class Unclear(Code):
    """Room for a line on what is not clear."""


class Machinery(Code):
    """What a page on the screen needs and paper does not: the card, the sheet, progress, handing in."""


def read_page(notebook):
    """Return the cells of a notebook in order; a text with several questions comes in pieces.

    Parameters
    ----------
    notebook : dict
        As it is stored, or as nbformat reads it.

    Returns
    -------
    list of Cell

    Examples
    --------
    >>> cells = [{"cell_type": "markdown", "source": "Look.\\n\\n### Exercise 1.1\\n\\nHow long is it, in mm?"},
    ...          {"cell_type": "code", "source": 'sheet.answer("1.1", ..., "mm")', "outputs": []}]
    >>> [type(cell).__name__ for cell in read_page({"cells": cells})]
    ['Prose', 'Question', 'Ask']
    """
    cells, found = notebook["cells"], []
    for place, cell in enumerate(cells):
        source = "".join(cell["source"])
        if cell["cell_type"] == "markdown":
            after = "".join(cells[place + 1]["source"]) if place + 1 < len(cells) else ""
            found += _prose(place, source, after)
        elif cell["cell_type"] == "code":
            found.append(_code(place, source, cell))
    return found


def _prose(place, source, after):
    if "sheet.return_work()" in after and not source.startswith("#"):
        yield HowToHandIn(place=place, source=source)
        return
    if fold := _FOLD.match(source):
        yield Folded(place=place, source=fold[1])
        source = source[fold.end():]
    starts = [0, *(head.start() for head in _EXERCISE_HEAD.finditer(source)), len(source)]
    for piece in filter(str.strip, (source[begin:end] for begin, end in pairwise(starts))):
        if head := _EXERCISE_HEAD.match(piece):
            yield Question(place=place, source=piece, exercise_id=head[1] or head[3], text=piece[head.end():],
                           word=head[2] or "")
        else:
            yield Prose(place=place, source=piece)


def _code(place, source, cell):
    own = {"place": place, "source": source, "outputs": tuple(cell.get("outputs", ())),
           "of_a_bench": bool(_OF_A_BENCH.search(source))}
    tags = cell.get("metadata", {}).get("tags", ())
    for kind, pattern in ((PanelCell, _PANEL), (StillPanel, _STILL)):
        if head := pattern.search(source):
            return kind(**own, name=head[1])
    if head := _VOTE.search(source):
        return VoteCell(**own, exercise_ids=tuple(re.findall(r"[\w.]+", head[1])))
    if _OPENING.search(source):
        return Opening(**own, sounds=SOUND in tags)
    if SOUND in tags:
        return Sound(**own)
    if head := _GIVEN.match(source):
        return GivenCell(**own, exercise_id=head[1])
    if answers := answers_in(source):
        return _answer_cell(own, answers, WORKED in tags)
    if "sheet.unclear" in source:
        return Unclear(**own)
    return Machinery(**own) if own["of_a_bench"] else Listing(**own)


def _answer_cell(own, answers, is_worked):
    typed = next((one for one in answers if not one.is_empty), None)
    if is_worked:
        return WorkedOut(**own, exercise_id=answers[0].exercise_id)
    if typed:
        return TypedIn(**own, exercise_id=typed.exercise_id, empty="")
    value = answers[0].value and ast.get_source_segment(own["source"], answers[0].value)
    return Ask(**own, exercise_id=answers[0].exercise_id, empty=value or "")
