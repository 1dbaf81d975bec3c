"""Panel: a thin shell of sliders, read-outs and a moving figure round a plain function of numbers."""
import asyncio
import html
from dataclasses import dataclass

import ipywidgets as W
from IPython.display import Javascript, display

from lessons_lib.base import by_keyboard
from lessons_lib.exercises.sheet import is_presenting
from lessons_lib.page.canvas import Canvas
from lessons_lib.page.cards import ExpectCard, SawCard, status, status_line, what_was_expected
from lessons_lib.page.cells import cell_shows, close_all

MOST_ROOM = 24  # characters kept for a value; more would not fit on a narrow page
REST = 0.06     # s without a new value before a slow picture is drawn

# Slider handles have no name of their own in the page: take it from the label beside them.
# Buttons of one choice are a group, one stop of the Tab key and worked by arrows, only where they share a name.
_NAMES = """
if (!window.lessonSlidersNamed) {
  window.lessonSlidersNamed = true;
  const name = () => document.querySelectorAll('.lesson-slider').forEach(row => {
    const [handle, label, value] = ['.noUi-handle', '.widget-label', '.widget-readout'].map(c => row.querySelector(c));
    if (handle && label && !handle.hasAttribute('aria-label')) {
      handle.setAttribute('aria-label', label.textContent + ', slider');
      const say = () => handle.setAttribute('aria-valuetext', value.textContent);   // the value, not the exponent
      new MutationObserver(say).observe(handle, {attributeFilter: ['aria-valuenow']});
      say();
    }
  });
  const group = () => document.querySelectorAll('.lesson-choice').forEach((choice, number) => {
    choice.dataset.group ||= `lesson-choice-${number}-${performance.now()}`;
    choice.querySelectorAll('input').forEach(button => { button.name = choice.dataset.group; });
  });
  const tidy = () => { name(); group(); };
  new MutationObserver(tidy).observe(document.body, {childList: true, subtree: true});
  tidy();
}
"""

# a long choice takes as many lines as it needs
_STYLE = f"""<style>{by_keyboard.STYLE}""" """
.lesson-choice, .lesson-choice .widget-radio-box, .lesson-choice .widget-radio-box label
  {height: auto; max-width: 100%; white-space: normal; line-height: 1.5}
.lesson-choice .widget-radio-box label {display: flex; align-items: flex-start}
.lesson-choice .widget-radio-box input {flex: none; order: -1; margin: 0 0.5em 0 0}
</style>"""


@dataclass(frozen=True, kw_only=True)
class PanelState:
    """A panel at one state: label -> words of the values and of the read-outs, the alternative text, an SVG."""

    values: dict
    readouts: dict
    alt: str
    picture: bytes


class Panel:
    """Sliders, read-outs and a figure for a function of numbers; display it by naming it last in a cell.

    Parameters
    ----------
    sliders : sequence of Slider or Choice
        In the order geometry, material, motion, electrical, view.
    numbers : callable
        numbers(**SI values) -> what the read-outs and the alternative text need. Quick.
    readouts : callable
        readouts(result of numbers) -> dict of label -> text with unit.
    alt : callable
        alt(result of numbers, **SI values) -> the message of the figure and three values, in words.
    arrays : callable
        arrays(result of numbers, **SI values) -> what draw needs.
    figure : matplotlib.figure.Figure
    draw : callable
        draw(result of arrays) updates the artists and returns them in drawing order.
    sheet : Sheet, optional
        Keeps the prediction; without one the panel opens at once.
    prediction : str, optional
        The exercise on the sheet that must be put down before the sliders start.
    slow_numbers : bool
        The numbers of a slow slider take long, too: they wait for the rest with the picture.

    Notes
    -----
    A ValueError from numbers or arrays is shown as a sentence and the last picture stays.

    Its widgets (rows, readout, message, picture, card, view with head, body, foot) are made when the first of them is
    asked for: a still and a page on paper need none.
    """

    _WIDGETS = ("rows", "readout", "message", "picture", "head", "body", "foot", "view", "card")

    def __init__(self, *, sliders, numbers, readouts, alt, arrays, figure, draw, sheet=None, prediction=None,
                 slow_numbers=False):
        self._sliders, self._numbers, self._readouts, self._alt, self._arrays = sliders, numbers, readouts, alt, arrays
        self._canvas, self._waiting = Canvas(figure, draw), None
        self._sheet, self.prediction = sheet, prediction
        self._slow_numbers = slow_numbers

    def __getattr__(self, name):    # asked only for what is not there yet
        if name not in self._WIDGETS:
            raise AttributeError(f"{type(self).__name__!r} object has no attribute {name!r}")
        self._make_widgets()
        return getattr(self, name)

    def _make_widgets(self):
        self.card, self._room = None, {}
        self.rows = {spec.name: spec.row(changed=self._changed, refused=self._say) for spec in self._sliders}
        self.readout = W.HTML(layout={"min_height": "3.4em"})
        self.message = W.HTML(status_line(""), layout={"min_height": "2em"})
        self.picture = W.HTML(layout={"max_width": "100%"})
        self.head, self.body, self.foot = (W.VBox([]) for _ in range(3))
        self.view = W.VBox([W.HTML(_STYLE), self.head, self.body, self.foot], layout={"max_width": "100%"})
        self.view.add_class(by_keyboard.PLACE)
        self._open()

    @property
    def started(self):
        """Whether the sliders can be moved."""
        return bool(self.body.children)

    def slider(self, name):
        """The slider widget of one quantity, in the shown unit."""
        return self.rows[name].slider

    def still(self, **values):
        """Show the picture at fixed SI values (else the first ones) in a page that is read without a kernel."""
        try:
            values = self._start_values() | self._known(values)
            result = self._numbers(**values)
            self._canvas.still(self._arrays(result, **values), self._alt(result, **values))
            if "view" not in vars(self):
                self._canvas.rest()
        except (TypeError, ValueError) as trouble:
            display({"text/html": status_line(str(trouble)), "text/plain": str(trouble)}, raw=True)

    def at(self, **values):
        """The `PanelState` at fixed SI values (else the first ones), for paper.

        Raises
        ------
        ValueError
            For a value that no slider has, or a state that cannot be computed.
        """
        values = self._start_values() | self._known(values)
        result = self._numbers(**values)
        return PanelState(
            values={spec.label: spec.words(values[spec.name]) for spec in self._sliders},
            readouts=self._readouts(result), alt=self._alt(result, **values),
            picture=self._canvas.vector(self._arrays(result, **values)))

    def close(self):
        """Close the widgets and give the picture's memory back; a panel that is shown again begins anew."""
        if self._waiting is not None:
            self._waiting.cancel()
        made = {name: vars(self).pop(name) for name in self._WIDGETS if name in vars(self)}
        rows = made.pop("rows", {}).values()      # with their prediction still to be made they are not in the view
        close_all(*(row.view for row in rows), *(one for one in made.values() if isinstance(one, W.Widget)))
        self._canvas.rest()

    def _ipython_display_(self):
        cell_shows(self, self.close)
        display(Javascript(_NAMES + by_keyboard.SCRIPT))
        display(self.view)

    def _open(self):
        """With its prediction still to be made the panel shows the card alone."""
        card = self._card()
        if card is not None and card.made is None:
            self.card = ExpectCard(self._sheet, self.prediction, card, done=self._start)
            self.head.children = [self.card.view]
        else:
            trouble = self._sheet.trouble if card is None and self._wants_card() else None
            self._start(trouble.text if trouble else "")

    def _wants_card(self):
        return self._sheet is not None and self.prediction is not None and not is_presenting()

    def _card(self):
        return self._sheet.prediction(self.prediction) if self._wants_card() else None

    def _start(self, note):
        card = self._card()
        lines = [what_was_expected(card)] if card is not None and card.made is not None else []
        answered = self.head.children
        self.head.children = [status(line) for line in [*lines, note] if line]
        close_all(*answered)
        controls = W.Box([row.view for row in self.rows.values()],
                         layout={"flex_flow": "row wrap", "max_width": "820px"})
        self._show(slow=False)
        self.body.children = [controls, self.message, self.readout, self.picture]
        if card is not None:
            self.card = SawCard(self._sheet, self.prediction, card)
            self.foot.children = [self.card.view]

    def _values(self):
        return {name: row.spec.in_si(row.value) for name, row in self.rows.items()}

    def _start_values(self):
        return {spec.name: spec.in_si(spec.start) for spec in self._sliders}

    def _known(self, values):
        names = [spec.name for spec in self._sliders]
        for name in values:
            if name not in names:
                raise ValueError(f"name of a value must be one of {', '.join(map(repr, names))}; got {name!r}.")
        return values

    def _say(self, text):
        self.message.value = status_line(text)

    def _changed(self, spec):
        self._show(slow=spec.slow)

    def _show(self, slow):
        """Numbers at once; a slow picture after a rest, so that a held key never queues pictures."""
        if self._waiting is not None:
            self._waiting.cancel()
        if slow and self._slow_numbers and (loop := _running_loop()):
            self._waiting = loop.call_later(REST, self._show, False)
            return self._say("Computing.")
        values = self._values()
        try:
            result = self._numbers(**values)
        except ValueError as trouble:
            return self._say(str(trouble))
        self._say("")
        self.readout.value = self._spoken(self._readouts(result))
        loop = _running_loop() if slow else None
        if loop is None:
            self._redraw(result, values)
        else:
            self._waiting = loop.call_later(REST, self._redraw, result, values)

    def _spoken(self, readouts):
        """The read-outs as a paragraph; each keeps the room of its longest value, so that lines break alike."""
        for label, text in readouts.items():
            self._room[label] = min(max(self._room.get(label, 0), len(text) + 1), MOST_ROOM)
        block = "display:inline-block"
        pairs = " ".join(
            f'<span style="{block};margin-right:1em">{html.escape(label)}: '
            f'<b style="{block};min-width:{self._room[label]}ch">{html.escape(text)}</b></span>'
            for label, text in readouts.items())
        return ('<p role="status" aria-live="polite" style="margin:0;font-variant-numeric:tabular-nums">' + pairs
                + "</p>")

    def _redraw(self, result, values):
        try:
            self.picture.value = self._canvas.frame(self._arrays(result, **values), self._alt(result, **values))
        except ValueError as trouble:
            self._say(str(trouble))


def _running_loop():
    try:
        return asyncio.get_running_loop()
    except RuntimeError:
        return None
