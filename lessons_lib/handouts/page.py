"""A lesson's notebook and a bench's sheet -> one file of HTML for print."""
from typing import NamedTuple

from lessons_lib.base.pages import page_bytes
from lessons_lib.course import read_page as cells
from lessons_lib.exercises.kinds import read_records
from lessons_lib.exercises.sheet import Sheet
from lessons_lib.handouts.figures import open_panel, three_figures
from lessons_lib.handouts.prose import to_html
from lessons_lib.page.cards import SURENESS

FOREWORD = """*This is the page on paper.* Predict before you turn to the figures of a panel; compare the three figures
where the text speaks of sliders; write or tick where it says to type or to run a box. Numbers and units in the boxes
are checked on the page itself, `{name}`, for bench **{bench}**."""


SILENT_FOREWORD = """*This is the page on paper*, for bench **{bench}**. Tick one letter, or write your answer into its
box, in the unit printed there, with your working above it."""


class Part(NamedTuple):
    """A part of the page: the macro of ``handouts/templates/parts.html`` that prints it, and what that is given."""

    macro: str
    content: object = None


class Handout:
    """One lesson for one bench.

    Parameters
    ----------
    notebook : dict
        The lesson's page as it is stored.
    name : str
        Its file's name.
    content : dict
        The bench's sheet, as `make_sheet` gives it.
    figures : dict
        Keeps what was drawn, for the handouts of other benches; start with an empty one.
    """

    def __init__(self, notebook, *, name, content, figures):
        self._cells, self._name, self._records = cells.read_page(notebook), name, read_records(content)
        self.lesson, self.title, self.bench = content["lesson"], content["title"], content["bench"]
        self._sheet, self._figures = Sheet(content=content), figures
        self._is_silent = any(record.get("silent") for record in self._records.values())
        self._live = {cell.name for cell in self._cells if isinstance(cell, cells.PanelCell)}

    def page(self):
        """Return the file's bytes; ValueError as from `open_panel` and `three_figures`."""
        foreword = SILENT_FOREWORD if self._is_silent else FOREWORD
        return page_bytes("handouts/templates/handout.html", lesson=int(self.lesson), title=self.title,
                          bench=self.bench, foreword=to_html(foreword.format(name=self._name, bench=self.bench)),
                          is_silent=self._is_silent, sections=self._sections())

    def _sections(self):
        """(exercise, parts) in order; a question with its values and its answer is one section, the rest of none."""
        sections = [("", [])]
        for cell in self._cells:
            if isinstance(cell, cells.Question):
                sections.append((cell.exercise_id, []))
            exercise_id, parts = sections[-1]
            parts += self._parts(cell)
            if exercise_id and isinstance(cell, (cells.Ask, cells.WorkedOut)):
                sections.append(("", []))
        return sections

    def _parts(self, cell):
        match cell:
            case cells.HowToHandIn() | cells.Machinery():
                pass
            case cells.Folded():
                yield Part("meaning", to_html(cell.source))
            case cells.Prose():
                yield Part("prose", to_html(cell.source))
            case cells.PanelCell():
                yield Part("panel", self._panel(cell.name))
            case cells.StillPanel():
                if cell.name not in self._live:
                    yield Part("outputs", _outputs(cell))
            case cells.VoteCell():
                cards = map(self._sheet.prediction, cell.exercise_ids)
                yield Part("votes", [card for card in cards if card is not None])
            case cells.Sound() | cells.Opening(sounds=True):
                yield Part("sound")
            case cells.Opening():
                yield Part("film")
            case cells.GivenCell():
                yield Part("given", self._sheet.given(cell.exercise_id)._repr_html_())
            case cells.Ask():
                record = self._records.get(cell.exercise_id)
                yield Part("place", (cell.exercise_id, record.place())) if record is not None else Part(
                    "verdict", self._sheet.answer(cell.exercise_id)._repr_html_())
            case cells.Unclear():
                yield Part("unclear")
            case cells.Listing() | cells.WorkedOut():
                yield Part("listing", (cell.source, _outputs(cell)))

    def _panel(self, name):
        # a panel may show the limits of a bench's design
        key = name, repr([record.get("limits") for record in self._records.values()])
        if key not in self._figures:
            panel = open_panel(self.lesson, name, self._sheet)
            self._figures[key] = three_figures(self.lesson, name, panel), panel.prediction
        figures, prediction = self._figures[key]
        return {"name": name, "figures": figures, "sureness": list(SURENESS),
                "card": self._sheet.prediction(prediction) if prediction else None}


def words_on_paper(notebook):
    """Return the page of words, symbols and formulas as the bytes of a file for print; *notebook*: dict, as stored."""
    text = "\n\n".join("".join(cell["source"]) for cell in notebook["cells"])
    return page_bytes("handouts/templates/words.html", text=to_html(text))


def _outputs(cell):
    """(HTML of a picture or an empty text, plain text) of each output."""
    shown = []
    for output in cell.outputs:
        page, text = ("".join(output.get("data", {}).get(kind, "")) for kind in ("text/html", "text/plain"))
        shown.append((page, text) if "<img" in page else ("", "".join(output.get("text", text))))
    return shown
