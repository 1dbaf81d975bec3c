"""Votes: questions put before the course has answered them, and in a later lesson each vote beside what turned out."""
from html import escape

import ipywidgets as W

from lessons_lib.exercises.verdicts import State
from lessons_lib.page.board import LOOK
from lessons_lib.page.cards import HOW_SURE, bold, how_sure, one_button, radio_buttons, status, status_line
from lessons_lib.page.cells import OnPage, close_all, whole_view


class VoteCard:
    """One question with its options; the button keeps the vote, and nothing says yet what turns out."""

    def __init__(self, sheet, exercise, card):
        self._sheet, self._exercise = sheet, exercise
        self.choice = radio_buttons(card.options, card.question)
        self.sureness = how_sure("How sure? (If you like.)")
        self.button, self.said = one_button("Vote", self.put_down, self.choice, self.sureness), status("")
        if card.made is not None:
            self.choice.value, self.sureness.value = card.made[:2]
            self.said.value = status_line(f"Your vote is kept. You will see it again {card.again}.")
        self.view = W.VBox([bold(card.question), self.choice, self.sureness, self.button, self.said])
        self.view.add_class("lesson-vote")

    def put_down(self):
        """Hand the vote to the sheet, and say that it is kept."""
        if self.choice.value is None:
            self.said.value = status_line("First choose an answer.")
            return
        verdict = self._sheet.predict(self._exercise, self.choice.value, self.sureness.value)
        self.said.value = status_line(f"{'Kept. ' if verdict.state == State.KEPT else ''}{verdict.text}")


class Votes(OnPage):
    """The cards of some votes of a sheet, one below the other; named last in a cell it shows them.

    Parameters
    ----------
    sheet : Sheet
    *exercises : str
        "v1".
    """

    def __init__(self, sheet, *exercises):
        self._sheet, self._exercises = sheet, exercises
        self.cards = self.view = None
        self._make()

    def _make(self):
        known = [(one, self._sheet.prediction(one)) for one in self._exercises]
        self.cards = [VoteCard(self._sheet, one, card) for one, card in known if card is not None]
        trouble = [] if self.cards else [status(_why_not(self._sheet))]
        self.view = whole_view("lesson-panel", *(card.view for card in self.cards), *trouble, look=LOOK)

    def close(self):
        """Close the widgets; what is shown again begins anew, with what was kept."""
        close_all(self.view)
        self._make()


class VotesAgain:
    """Each vote beside what turned out, as text and as HTML; without a vote, where to look. Arguments as of `Votes`."""

    def __init__(self, sheet, *exercises):
        cards = [sheet.prediction(one) for one in exercises]
        self._rows = [(card.question, _outcome(card)) for card in cards if card is not None]
        self._trouble = "" if self._rows else _why_not(sheet)

    def __repr__(self):
        return "\n\n".join([" ".join([question, *said]) for question, said in self._rows]) or self._trouble

    def _repr_html_(self):
        rows = "".join(f"<p><strong>{escape(question)}</strong><br>{'<br>'.join(map(escape, said))}</p>"
                       for question, said in self._rows)
        return rows or f"<p>{escape(self._trouble)}</p>"


vote, votes_again = Votes, VotesAgain      # as a page calls them


def _outcome(card):
    """Sentences on one vote."""
    if card.made is None:
        return ["You did not vote on this one, and that costs nothing. What turns out is in "
                f"{card.where}. If you like, vote on the first page, then run this box again."]
    (choice, sureness, _), (letter, because) = card.made, card.turned_out
    sure = f" ({HOW_SURE[sureness]})" if sureness in HOW_SURE else ""
    turned_out = ("That is what turned out." if choice == letter else
                  f"It turned out otherwise: {letter}) {card.options[letter]}.")
    return [f"You voted {choice}) {card.options[choice]}{sure}. {turned_out}",
            f"{because} You saw it in {card.where}."]


def _why_not(sheet):
    return sheet.trouble.text if sheet.trouble else "This sheet has no votes: get the newest one from where you got it."
