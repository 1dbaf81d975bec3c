"""Panel: a plain function of numbers with its sliders, its words and its picture; a declaration, no code of its own."""
from dataclasses import dataclass
from types import MappingProxyType

import ipywidgets as W
from IPython.display import display

from lessons_lib.base.checks import refuse
from lessons_lib.exercises.showing import is_presenting
from lessons_lib.page.board import Board
from lessons_lib.page.canvas import show_drawing
from lessons_lib.page.cards import STILL, ExpectCard, SawCard, ShowCard, status, status_line, what_was_expected
from lessons_lib.page.cells import OnPage, close_all, whole_view
from lessons_lib.page.sound import now_and_kept
from lessons_lib.pictures.vector import Drawing


@dataclass(frozen=True, kw_only=True)
class PanelState:
    """A panel at one state: label -> words of the values and of the read-outs, the alternative text, an SVG."""

    values: dict
    readouts: dict
    alt: str
    picture: bytes


class Panel(OnPage):
    """Sliders, words and a picture for a function of numbers; display it by naming it last in a cell.

    Parameters
    ----------
    title : str
        The message in words.
    sliders : sequence of Slider or Choice, optional
        In the order geometry, material, motion, electrical, view.
    compute : callable
        compute(**SI values) -> result. Once a step; all that is shown comes from it.
    shown : callable, optional
        shown(result) -> dict of label -> words with unit; the first answers the panel's question and is shown large.
    message : str or callable
        What the picture says, for those who cannot see it, with three values or more; or
        message(result, **SI values) -> that. "{label}" in it stands for the words of a shown quantity or of a slider.
    figure : matplotlib.figure.Figure
    draw : callable, or a picture, or mapping of str to picture
        draw(data) updates the artists and returns them in drawing order; of a picture its update(**data) does, of
        several each with what data has under its name.
    data : callable, optional
        data(result, **SI values) -> what draw needs; left out: the result.
    grips : sequence of Grip, optional
        What can be dragged in the picture.
    film, sound : callable, optional
        film(result, **SI values) -> Film; sound(result, **SI values) -> Sound of these settings. When asked for.
    told : callable, optional
        told(SI values before, SI values now) -> one sentence about what changed; said when the hand rests.
    keeps : bool
        Whether a setting can be kept: pale in the picture, with its large number and its sound beside the present ones.
    presets : mapping of str to mapping, optional
        Words -> SI values beside the first ones: settings to begin from.
    on_paper : sequence of mapping
        The three states for a page on paper: SI values beside the first ones.
    sheet : Sheet, optional
        Keeps the prediction; without one the panel opens at once.
    prediction : str, optional
        The exercise on the sheet that must be put down before the sliders start.
    note : str, optional
        One line over it, as where a file could not be read.

    Notes
    -----
    A ValueError from any of them is shown as a sentence and the last picture stays. Widgets are made when the first of
    them is asked for: a still and a page on paper need none.
    """

    _WIDGETS = ("board", "head", "foot", "view", "card")

    def __init__(self, *, sliders=(), compute, shown=lambda _: {}, message, figure, draw, title="",
                 data=lambda result, **_: result, grips=(), film=None, sound=None, told=None, keeps=False,
                 presets=MappingProxyType({}), on_paper=(), sheet=None, prediction=None, note=""):
        self.title, self.on_paper, self.prediction, self._sheet, self._note = title, on_paper, prediction, sheet, note
        self.specs = MappingProxyType({spec.name: spec for spec in sliders})
        self._compute, self._words, self._message, self._data = compute, shown, message, data
        self._grips, self._film, self._sound, self._told = grips, film, sound, told
        self._keeps, self._presets = keeps, presets
        self._drawing = Drawing(figure, draw)
        self._begin()

    def __getattr__(self, name):    # asked only for what is not there yet
        if name not in self._WIDGETS:
            raise AttributeError(f"{type(self).__name__!r} object has no attribute {name!r}")
        self._make_widgets()
        return getattr(self, name)

    @property
    def started(self):
        """Whether the sliders can be moved."""
        return bool(self.board.frame)

    @property
    def values(self):
        """Name -> value of each slider, in the shown unit."""
        return MappingProxyType(self._shown_values)

    @property
    def result(self):
        """What *compute* gave for what is shown."""
        return self._compute(**self._si()) if self._result is None else self._result

    def still(self, **values):
        """Show the picture at fixed SI values (else the first ones) in a page that is read without a kernel."""
        try:
            state = self.at(**values)
        except (TypeError, ValueError) as trouble:
            display({"text/html": status_line(str(trouble)), "text/plain": str(trouble)}, raw=True)
        else:
            show_drawing(state.picture, state.alt, fold=STILL if self.prediction else "")

    def at(self, **values):
        """The `PanelState` at fixed SI values (else the first ones), for paper.

        Raises
        ------
        ValueError
            For a value that no slider has, or a state that cannot be computed.
        """
        for name in values:
            if name not in self.specs:
                refuse("name of a value", f"one of {', '.join(map(repr, self.specs))}", name)
        values = self._first() | values
        result = self._compute(**values)
        words, alt = self._said(result, values)
        return PanelState(values=self._said_values(values), readouts=words, alt=alt,
                          picture=self._drawing.whole(self._data(result, **values)))

    def asked(self, **came):
        """Take new values of some sliders: numbers in the shown unit as a hand moves them, or texts as typed.

        Parameters
        ----------
        **came : float or str

        Notes
        -----
        What cannot be taken or computed is said in the panel; the last picture stays.
        """
        try:
            for name, one in came.items():
                self._shown_values[name] = self.specs[name].taken(one)
            self._show()
        except ValueError as trouble:
            still = "".join(f" The panel still shows {self.specs[name].shown(self._shown_values[name])}."
                            for name, one in came.items() if isinstance(one, str))
            self._send(message=f"{trouble}{still}")

    def close(self):
        """Close the widgets; a panel that is shown again begins anew."""
        made = [vars(self).pop(name) for name in self._WIDGETS if name in vars(self)]
        close_all(*(one for one in made if isinstance(one, W.Widget)))
        self._begin()

    def _begin(self):
        self._shown_values = {name: spec.start for name, spec in self.specs.items()}
        self._result = self._at = self._told_from = self._kept = None      # what is shown, and its SI values

    # ---- the page

    def _make_widgets(self):
        self.card = None
        self.board = Board()
        self.board.on_msg(self._heard)
        self.head, self.foot = W.VBox([]), W.VBox([])
        frame = W.Box([self.board, self.foot])
        for part, name in ((self.head, "lesson-head"), (self.foot, "lesson-question"), (frame, "lesson-frame")):
            part.add_class(name)
        self.view = whole_view("lesson-panel", self.head, frame)
        self._open()

    def _open(self):
        """With its prediction still to be made the panel shows the card alone."""
        card = self._card()
        if card is not None and card.made is None:
            self.card = ExpectCard(self._sheet, self.prediction, card, done=self._start)
            self.head.children = [self.card.view]
        else:
            trouble = self._sheet.trouble if card is None and self._wants_card() else None
            self._start(trouble.text if trouble else self._note)

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
        with self.board.hold_sync():
            self.board.made = {
                "title": self.title, "size": self._drawing.size, "ground": self._drawing.ground(),
                "controls": [spec.described() for spec in self.specs.values()],
                "film": self._film is not None, "sound": self._sound is not None, "told": self._told is not None,
                "keeps": self._keeps, "presets": {words: self._texts(self._first() | values)
                                                  for words, values in self._presets.items()}}
            self.asked()
        if is_presenting() or card is not None and card.seen is not None:
            self.board.unfold()
        if card is not None:
            self.card = SawCard(self._sheet, self.prediction, card, unfold=self.board.unfold)
            self.foot.children = [self.card.view]
        elif self.prediction and not is_presenting():
            self.foot.children = [ShowCard(unfold=self.board.unfold).view]

    def _heard(self, _, content, __):
        """A message of the page: new values, or a wish about the present ones."""
        if content["wish"] == "values":
            self.asked(**content["values"])
            return
        try:
            {"film": self._play_film, "sound": self._play_sound, "told": self._tell, "keep": self.keep,
             "let go": self.let_go}[content["wish"]]()
        except ValueError as trouble:
            self._send(message=str(trouble))

    def _play_film(self):
        self.board.film = self._of_these(self._film).described(self._drawing) | self._count()

    def _play_sound(self):
        one = self._of_these(self._sound)
        if self._kept:
            values, result = self._kept
            one = now_and_kept(one, self._sound(result, **values))
        self.board.sound = {"players": one.players()} | self._count()

    def _tell(self):
        """What changed since the hand rested last; where it came back to the same, what was said holds again."""
        before, self._told_from = self._told_from, self._at
        news = self.board.told if before == self._at else {"words": self._told(before, self._at)}
        self.board.told = news | self._count()

    def keep(self):
        """Keep the present setting, to be compared with those that follow."""
        self._kept, frame = (self._at, self._result), self.board.frame
        self.board.kept = {"pieces": frame["pieces"], "said": frame["shown"][0][1], "values": self._texts(self._at)}

    def let_go(self):
        """Keep no setting any more."""
        self._kept, self.board.kept = None, {}

    def _of_these(self, make):
        return make(self._result, **self._at)

    def _count(self):
        return {"count": self.board.frame["count"]}

    # ---- a step

    def _si(self):
        return {name: spec.in_si(self._shown_values[name]) for name, spec in self.specs.items()}

    def _first(self):
        return {name: spec.in_si(spec.start) for name, spec in self.specs.items()}

    def _texts(self, values):
        """SI values as somebody would type them."""
        return {name: spec.text(values[name]) for name, spec in self.specs.items()}

    def _show(self):
        values = self._si()
        result = self._compute(**values)
        words, alt = self._said(result, values)
        pieces = self._drawing.moving(self._data(result, **values))
        self._result, self._at, self._told_from = result, values, self._told_from or values
        self._send(pieces=pieces, alt=alt, shown=list(words.items()), message="")

    def _send(self, **news):
        """One message: what is new, and where the sliders are."""
        shown = self._shown_values
        self.board.frame = self.board.frame | news | {
            "count": self.board.frame.get("count", 0) + 1,
            "values": {name: spec.shown(shown[name]) for name, spec in self.specs.items()},
            "numbers": {name: shown[name] for name, spec in self.specs.items() if hasattr(spec, "low")},
            "grips": [grip.described(self.specs, shown) for grip in self._grips]}

    def _said_values(self, values):
        return {spec.label: spec.words(values[name]) for name, spec in self.specs.items()}

    def _said(self, result, values):
        """Label -> words of what is shown, and the alternative text made of them."""
        words = self._words(result)
        if not callable(self._message):
            return words, self._message.format_map(self._said_values(values) | words)
        return words, self._message(result, **values).format_map(self._said_values(values) | words)
