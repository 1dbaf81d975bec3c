"""Ids of cells that say what a cell is, not where: a new exercise changes no line of the cells round it.

An exercise's cells are ``exercise-3-2``, ``given-3-2``, ``answer-3-2``; a panel's ``panel-lines_of_flux`` and
``still-lines_of_flux``; a text is named after its heading. Every other cell is counted from the panel or heading that
it follows (``after-panel-lines_of_flux``, ``code-after-panel-lines_of_flux-2``), and exercises do not come between.
"""
import itertools
import re
import unicodedata

from lessons_lib.course import read_page as cells

_OF_AN_EXERCISE = {cells.Question: "exercise", cells.GivenCell: "given", cells.Ask: "answer", cells.TypedIn: "answer",
                   cells.WorkedOut: "worked"}
_PANELS = {cells.PanelCell: "panel", cells.StillPanel: "still"}
_LONGEST = 40       # letters of a heading; an id may have 64


def name_cells(notebook):
    """Give each cell of a notebook its id."""
    pieces = {}
    for piece in cells.read_page(notebook):     # a text is known by its first question, else by its beginning
        if piece.place not in pieces or type(pieces[piece.place]) is cells.Prose:
            pieces[piece.place] = piece
    taken, anchor = set(), "start"
    for place, cell in enumerate(notebook["cells"]):
        piece, is_code = pieces.get(place), cell["cell_type"] == "code"
        name, heading = _name(piece), None if is_code else _heading("".join(cell["source"]))
        anchor = heading or (name if type(piece) in (*_PANELS, cells.Sound, cells.Opening) else anchor)
        name = name or heading or f"{'code-' if is_code else ''}after-{anchor}"
        cell["id"] = next(free for number in itertools.count(1)
                          if (free := name if number == 1 else f"{name}-{number}") not in taken)
        taken.add(cell["id"])


def _name(piece):
    """What tells a cell from all others, where there is such a thing."""
    kind = type(piece)
    if kind in _OF_AN_EXERCISE:
        return f"{_OF_AN_EXERCISE[kind]}-{_slug(piece.exercise_id)}"
    if kind in _PANELS:
        return f"{_PANELS[kind]}-{piece.name}"
    if kind is cells.Sound:
        return re.search(r"panels\.(hear\w*)", piece.source)[1].replace("hear", "sound").replace("sound_", "sound-")
    called = re.search(r"(votes_again|open_sheet|use_card|sheet\.\w+)\(", piece.source) if piece else None
    if kind is cells.Machinery and called:
        return called[1].removeprefix("sheet.")
    return {cells.VoteCell: "votes", cells.HowToHandIn: "how-to-hand-in", cells.Unclear: "unclear",
            cells.Opening: "opening"}.get(kind)


def _heading(source):
    """The first heading of a text that is no exercise's, without its number and its word, as an id."""
    head = re.search(r"^(#+) +(?:\d+\. +)?(?!Exercise \S+(?: \(\w+\))?$)(.+?)(?: \((?:core|further)\))?$", source,
                     re.MULTILINE)
    return head and ("title" if head[1] == "#" else f"section-{_slug(head[2])}")


def _slug(words):
    plain = unicodedata.normalize("NFKD", words.replace("'", "")).encode("ascii", "ignore").decode().lower()
    slug = re.sub("[^a-z0-9]+", "-", plain).strip("-")
    return slug if len(slug) <= _LONGEST else slug[:_LONGEST + 1].rpartition("-")[0] or slug[:_LONGEST]
