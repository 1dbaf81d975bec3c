"""The two cards of a panel: what do you expect, put down before the sliders start; what did you see, afterwards."""
import html

import ipywidgets as W

from lessons_lib.exercises.verdicts import State
from lessons_lib.page.press import Press

_LEFT = {"width": "auto", "align_self": "flex-start"}
SURENESS = {"guessing": 1, "leaning this way": 2, "would bet on it": 3}
STILL = "The picture without a kernel: open it when you have looked"       # of a panel with a prediction
HOW_SURE = {number: words for words, number in SURENESS.items()}


def one_button(words, pressed, *fields):
    """A button as wide as its *words*, which calls *pressed* without arguments; of a card with *fields* a `Press`."""
    if fields:
        return Press(words, pressed, *fields, layout=_LEFT)
    button = W.Button(description=words, layout=_LEFT)
    button.on_click(lambda _: pressed())
    return button


def status(text):
    """A `status_line` as a widget."""
    return W.HTML(status_line(text))


def status_line(text):
    """One sentence in a region that a screen reader speaks; empty text keeps the place."""
    return f'<p role="status" aria-live="polite" style="margin:0;line-height:1.5">{html.escape(text)}</p>'


def radio_buttons(options, question):
    """Options by letter, none chosen; the question is the group's name for a screen reader."""
    buttons = W.RadioButtons(options=[(f"{letter}) {text}", letter) for letter, text in options.items()], value=None,
                             layout={"width": "auto"}, tooltip=question)
    buttons.add_class("lesson-choice")
    return buttons


def how_sure(words):
    """The three degrees of sureness in a row, none chosen; radio buttons, for their state is seen and said anywhere."""
    buttons = W.RadioButtons(options=SURENESS, value=None, description=words, tooltip=words,
                             style={"description_width": "initial"}, layout={"width": "auto"})
    for name in ("lesson-choice", "lesson-row"):
        buttons.add_class(name)
    return buttons


def bold(text):
    """A line in bold, as a widget."""
    return W.HTML(f'<p style="margin:0;line-height:1.5"><b>{html.escape(text)}</b></p>')


class ExpectCard:
    """Choice, sureness and a reason; calls done() once they are put down."""

    def __init__(self, sheet, exercise, card, *, done):
        self._sheet, self._exercise, self._done = sheet, exercise, done
        self.needs_reason = card.needs_reason
        self.choice = radio_buttons(card.options, card.question)
        self.sureness = how_sure("How sure?")
        self.reason = W.Text(description="Why, in a line:" if card.needs_reason else "Why (if you like):",
                             continuous_update=False, style={"description_width": "initial"},
                             layout={"width": "36em", "max_width": "100%"})
        self.button = one_button("Save my prediction", self.put_down, self.choice, self.sureness, self.reason)
        self.trouble = status("")
        self.view = W.VBox([bold("Before you move anything: " + card.question), self.choice, self.sureness,
                            self.reason, self.button, self.trouble])

    def put_down(self):
        """Hand the prediction to the sheet, or say what is missing."""
        parts = {"an answer": self.choice.value, "how sure you are": self.sureness.value,
                 "why you think so": self.reason.value.strip()}
        needed = list(parts) if self.needs_reason else list(parts)[:2]
        missing = [name for name in needed if not parts[name]]
        if missing:
            self.trouble.value = status_line("Still missing: " + ", ".join(missing) + ".")
            return
        verdict = self._sheet.predict(self._exercise, *parts.values())
        if verdict.state == State.KEPT:
            self._done(verdict.text)
        else:
            self.trouble.value = status_line(verdict.text)


def what_was_expected(card):
    """The prediction that was put down, in one line."""
    choice, sureness, reason = card.made
    why = f": {reason}" if reason else "."
    return f"You expected {choice}) {card.options.get(choice, '')} ({HOW_SURE.get(sureness, 'not said')}){why}"


class ShowCard:
    """A button that opens what the panel means, for who is asked nothing; calls unfold()."""

    def __init__(self, *, unfold):
        self._unfold = unfold
        self.show, self.answer = one_button("Show what it means", self.open), status("")
        self.view = W.VBox([self.show, self.answer])

    def open(self):
        """Open it, and say so."""
        self._unfold()
        self.answer.value = status_line("What it means is open, below.")


class SawCard(ShowCard):
    """The closed question after the panel; the sheet's sentence answers at once and nothing is scored."""

    def __init__(self, sheet, exercise, card, *, unfold):
        super().__init__(unfold=unfold)
        self._sheet, self._exercise = sheet, exercise
        self.choice = radio_buttons(card.seen_options, card.seen_question)
        if card.seen is not None:
            self.choice.value = card.seen
        self.button = one_button("That is what I saw", self.put_down, self.choice)
        self.view.children = [bold("What did you see? " + card.seen_question), self.choice,
                              W.HBox([self.button, self.show]), self.answer]

    def put_down(self):
        """Hand the observation to the sheet, show its sentence, and open what the panel means."""
        if self.choice.value is None:
            self.answer.value = status_line("First choose what you saw.")
        else:
            self.answer.value = status_line(self._sheet.saw(self._exercise, self.choice.value).text)
            self._unfold()
