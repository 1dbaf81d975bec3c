"""A lesson's notebook and a bench's sheet -> one file of HTML for print."""
from html import escape

from lessons_lib.course import read_page as cells
from lessons_lib.exercises.sheet import Sheet
from lessons_lib.handouts.figures import open_panel, three_figures
from lessons_lib.handouts.layout import page_bytes
from lessons_lib.handouts.places import answer_place, lines, prediction_place, seen_place
from lessons_lib.handouts.prose import to_html

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
        self._cells, self._name, self._records = cells.read_page(notebook), name, content["exercises"]
        self.lesson, self.title, self.bench = content["lesson"], content["title"], content["bench"]
        self._sheet, self._figures = Sheet(content=content), figures
        self._live = {cell.name for cell in self._cells if isinstance(cell, cells.PanelCell)}

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
        for cell in self._cells:
            if isinstance(cell, cells.Question):
                yield "</section>" if inside else ""
                yield f'<section class="exercise" id="exercise-{cell.exercise_id}">'
                inside = True
            yield self._part(cell)
            if inside and isinstance(cell, (cells.Ask, cells.WorkedOut)):
                yield "</section>"
                inside = False
        yield "</section>" if inside else ""

    def _part(self, cell):
        match cell:
            case cells.HowToHandIn() | cells.Machinery():
                return ""
            case cells.Prose():
                return to_html(cell.source)
            case cells.PanelCell():
                return self._panel(cell.name)
            case cells.StillPanel():
                return "" if cell.name in self._live else _outputs(cell)
            case cells.Sound():
                return '<p class="page-only">Here the page plays sounds. To hear them you need the page itself.</p>'
            case cells.Given():
                return self._sheet.given(cell.exercise_id)._repr_html_()
            case cells.Ask():
                return self._answer(cell.exercise_id)
            case cells.Unclear():
                return f'<p>What is not clear to me, and in which exercise:</p>{lines(2)}'
            case cells.Listing() | cells.WorkedOut():
                return f'<div class="listing"><pre><code>{escape(cell.source)}</code></pre>{_outputs(cell)}</div>'

    def _answer(self, exercise_id):
        record = self._records.get(exercise_id)
        return answer_place(exercise_id, record) if record else self._sheet.answer(exercise_id)._repr_html_()

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


def _outputs(cell):
    return "".join(_output(output) for output in cell.outputs)


def _output(output):
    data = output.get("data", {})
    page, text = ("".join(data.get(kind, "")) for kind in ("text/html", "text/plain"))
    if "<img" in page:
        return f'<figure class="alone">{page}<figcaption><p>{escape(text)}</p></figcaption></figure>'
    return f'<pre class="output">{escape("".join(output.get("text", text)))}</pre>'
