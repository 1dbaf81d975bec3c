"""A lesson's notebook and a bench's sheet -> one file of HTML for print."""
import re
from html import escape

from lessons_lib.exercises.sheet import Sheet
from lessons_lib.handouts.figures import open_panel, three_figures
from lessons_lib.handouts.layout import page_bytes
from lessons_lib.handouts.places import answer_place, lines, prediction_place, seen_place
from lessons_lib.handouts.prose import to_html

_SOUND = "plays-sound"
_PANEL = re.compile(r"^panels\.(\w+)\(sheet\b", re.MULTILINE)
_STILL = re.compile(r"^panels\.(\w+)\(\)\.still\(", re.MULTILINE)
_GIVEN = re.compile(r'^sheet\.given\("([^"]+)"\)\s*$')
_ASKED = re.compile(r'^sheet\.answer\("([^"]+)", (?:"?\.\.\."?|"""\s*""")', re.MULTILINE)
_SHOWN = re.compile(r"^sheet\.answer\(", re.MULTILINE)      # an answer that the page itself works out
_MACHINERY = re.compile(r"\b(sheet|use_card|progress|open_sheet)\b")
_QUESTION = re.compile(r"^(?=### Exercise \S+$|\*\*m\d+\.\*\*)", re.MULTILINE)
_ID = re.compile(r"### Exercise (\S+)|\*\*(m\d+)\.\*\*")

FOREWORD = """*This is the page on paper.* Predict before you turn to the figures of a panel; compare the three figures
where the text speaks of sliders; write or tick where it says to type or to run a box. Numbers and units in the boxes
are checked on the page itself, `{name}`, for bench **{bench}**."""


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
        self._cells, self._name, self._records = notebook["cells"], name, content["exercises"]
        self.lesson, self.title, self.bench = content["lesson"], content["title"], content["bench"]
        self._sheet, self._figures = Sheet(content=content), figures
        self._live = {found[1] for cell in self._cells if (found := _PANEL.search(_source(cell)))}

    def page(self):
        """Return the file's bytes.

        Raises
        ------
        ValueError
            Where a panel has no states to print.
        """
        foot = f"Lesson {int(self.lesson)}, {self.title} · bench {self.bench}"
        foreword = to_html(FOREWORD.format(name=self._name, bench=self.bench))
        return page_bytes(foot, [f'<aside class="foreword">{foreword}</aside>', *self._parts()])

    def _parts(self):
        """Parts of the page in order; a question, its values and its answer are one section."""
        inside = False
        for cell, after in zip(self._cells, [*self._cells[1:], None]):
            if cell["cell_type"] == "markdown":
                for piece in [] if _only_hands_in(cell, after) else filter(str.strip, _QUESTION.split(_source(cell))):
                    if found := _ID.match(piece):
                        yield "</section>" if inside else ""
                        yield f'<section class="exercise" id="exercise-{found[1] or found[2]}">'
                        inside = True
                    yield to_html(piece)
            else:
                yield self._code(cell)
                if inside and _SHOWN.search(_source(cell)):
                    yield "</section>"
                    inside = False
        yield "</section>" if inside else ""

    def _code(self, cell):
        source = _source(cell)
        if found := _PANEL.search(source):
            return self._panel(found[1])
        if found := _STILL.search(source):
            return "" if found[1] in self._live else _outputs(cell)
        if _SOUND in cell["metadata"].get("tags", ()):
            return '<p class="page-only">Here the page plays sounds. To hear them you need the page itself.</p>'
        if found := _GIVEN.match(source):
            return self._sheet.given(found[1])._repr_html_()
        if found := _ASKED.search(source):
            record = self._records.get(found[1])
            return answer_place(found[1], record) if record else self._sheet.answer(found[1])._repr_html_()
        if "sheet.unclear" in source:
            return f'<p>What is not clear to me, and in which exercise:</p>{lines(2)}'
        if _MACHINERY.search(source) and not _SHOWN.search(source):
            return ""
        return f'<div class="listing"><pre><code>{escape(source)}</code></pre>{_outputs(cell)}</div>'

    def _panel(self, name):
        # a panel may show the limits of a bench's design
        key = name, repr([record.get("limits") for record in self._records.values()])
        if key not in self._figures:
            panel = open_panel(self.lesson, name, self._sheet)
            self._figures[key] = three_figures(self.lesson, name, panel), panel.prediction
        figures, prediction = self._figures[key]
        card = self._sheet.prediction(prediction) if prediction else None
        before, after = (prediction_place(card), seen_place(card)) if card else ("", "")
        return (f'{before}<section class="panel{" next-page" if card else ""}"><h3>The panel at three settings</h3>'
                f"{figures}{after}</section><hr>")


def _source(cell):
    return "".join(cell["source"])


def _only_hands_in(cell, after):
    """Whether a text only says how to run the cell that hands in."""
    return after is not None and "sheet.return_work()" in _source(after) and not _source(cell).startswith("#")


def _outputs(cell):
    return "".join(_output(output) for output in cell["outputs"])


def _output(output):
    data = output.get("data", {})
    page, text = ("".join(data.get(kind, "")) for kind in ("text/html", "text/plain"))
    if "<img" in page:
        return f'<figure class="alone">{page}<figcaption><p>{escape(text)}</p></figcaption></figure>'
    return f'<pre class="output">{escape("".join(output.get("text", text)))}</pre>'
