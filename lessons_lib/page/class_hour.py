"""Questions for a class hour as large pages: vote, talk, vote again, then the twin. Letters are typed in by hand.

Nothing is sent, asked for or kept: hands are raised or cards are held up, and whoever teaches types what was seen.
"""
import re
from collections import Counter
from html import escape

import ipywidgets as W

from lessons_lib.exercises.reading import shortened
from lessons_lib.page.board import LOOK
from lessons_lib.page.cards import one_button, status_line
from lessons_lib.page.cells import OnPage, close_all, whole_view

_MOST = 999     # hands
_COUNT = re.compile(r"([a-z])\s*[:=]?\s*(\d+)")


def read_hands(text, options):
    """Return letter -> hands of a *text*: a letter a hand, "aabbc", or counts, "a 12, b 5"; blanks and commas are free.

    Parameters
    ----------
    text : str
    options : mapping
        The letters that there are, in their order; those nobody chose get 0.

    Raises
    ------
    ValueError
        For anything else; the message is a sentence.

    Examples
    --------
    >>> read_hands("aab c", {"a": "", "b": "", "c": ""})
    {'a': 2, 'b': 1, 'c': 1}
    >>> read_hands("b 12, a 5", {"a": "", "b": ""})
    {'a': 5, 'b': 12}
    """
    typed = text.strip().lower()
    pairs = _COUNT.findall(typed)
    letters = re.sub(r"[\s,;.]", "", _COUNT.sub("", typed) if pairs else typed)
    found = Counter() if pairs else Counter(letters)
    for letter, count in pairs:
        found[letter] += int(count)
    if not found or set(found) - set(options) or (pairs and letters):
        raise ValueError(f'Type a letter for each hand, such as "aabbc", or counts, such as "a 12, b 5", with the '
                         f'letters {", ".join(options)}; this is "{shortened(typed)}".')
    if found.total() > _MOST:
        raise ValueError(f"At most {_MOST} hands are counted; these are {found.total()}.")
    return {letter: found[letter] for letter in options}


def counts_html(question, votes, *, shows_right):
    """Return the options with a bar for each vote, side by side; *votes* is a list of (name, letter -> hands)."""
    rows = []
    for letter, text in question.options.items():
        is_right = shows_right and letter == question.right
        bars = "".join(_bar(name, hands[letter], sum(hands.values())) for name, hands in votes)
        rows.append(f'<li class="{"right" if is_right else ""}"><span>({letter}) {escape(text)}'
                    f'{" <b>✓ right</b>" if is_right else ""}</span>{bars}</li>')
    because = f"<p>{escape(question.because)}</p>" if shows_right else ""
    return f'<ol class="lesson-hour-options">{"".join(rows)}</ol>{because}'


def _bar(name, hands, of):
    share = 100 * hands / of if of else 0
    return (f'<span class="lesson-hour-bar"><i style="width:{share:.0f}%"></i>'
            f'<em>{escape(name)}: {hands} of {of} ({share:.0f} %)</em></span>')


class ClassHour(OnPage):
    """The questions to vote on of one lesson, one large page after the other; show it by naming it last in a cell.

    Attributes
    ----------
    votes : list of (str, dict)
        What was counted for the question in view, as (name of the vote, letter -> hands).
    """

    def __init__(self, lesson):
        self._lesson, self._number, self._is_twin, self.votes = lesson, 0, False, []
        self._make()

    def _make(self):
        self.page, self.said = W.HTML(), W.HTML(status_line(""))
        self.typed = W.Text(placeholder="aabbc, or a 12, b 5", continuous_update=False,
                            style={"description_width": "initial"}, layout={"width": "26em", "max_width": "100%"})
        self.count, self.go_on = one_button("Count", self.counted), one_button("", self.next)
        self.go_back = one_button("The question before", self.back)
        self.view = whole_view("lesson-hour", self.page, W.HBox([self.typed, self.count]), self.said,
                               W.HBox([self.go_on, self.go_back]), look=LOOK)
        self._show()

    @property
    def question(self):
        """The question in view."""
        question = self._lesson.to_vote[self._number]
        return question.twin if self._is_twin else question

    @property
    def _is_done(self):
        """A question has two votes, with talk between them; a twin has one."""
        return len(self.votes) == (1 if self._is_twin else 2)

    def counted(self):
        """Take the typed letters as the vote that is due."""
        try:
            hands = read_hands(self.typed.value, self.question.options)
        except ValueError as trouble:
            self.said.value = status_line(str(trouble))
            return
        name = "vote" if self._is_twin else ("before talking", "after talking")[len(self.votes)]
        self.votes.append((name, hands))
        self._show()

    def next(self):
        """Go on: to the twin once there are two votes, else to the next question."""
        if self._is_done and not self._is_twin and self.question.twin:
            self._is_twin = True
        else:
            self._number, self._is_twin = (self._number + 1) % len(self._lesson.to_vote), False
        self.votes = []
        self._show()

    def back(self):
        """Go to the beginning of the question before this one; from a twin, to its own question."""
        if not self._is_twin:
            self._number = (self._number - 1) % len(self._lesson.to_vote)
        self._is_twin, self.votes = False, []
        self._show()

    def _show(self):
        number, count = self._number + 1, len(self._lesson.to_vote)
        head = f"Lesson {self._lesson.id}, question {number} of {count}{', its twin' if self._is_twin else ''}"
        # the first count is not shown before the second is in: nobody is to follow the many
        votes = self.votes if self._is_done else []
        now = ("" if self._is_done else "Vote: a letter each, all hands at once." if not self.votes else
               "Talk in pairs: convince each other, two minutes. Then vote again.")
        self.page.value = (
            f'<p class="lesson-hour-head">{escape(head)}</p><p class="lesson-hour-question">'
            f"{escape(self.question.question)}</p>{counts_html(self.question, votes, shows_right=self._is_done)}"
            f'<p class="lesson-hour-now">{now}</p>')
        self.typed.value = ""
        self.typed.description = "Vote:" if self._is_twin else "Second vote:" if self.votes else "First vote:"
        self.typed.disabled = self.count.disabled = self._is_done
        self.go_on.description = ("Its twin" if self._is_done and not self._is_twin and self.question.twin
                                  else "The next question")
        self.said.value = status_line(f"{sum(self.votes[-1][1].values())} hands are counted." if self.votes else "")

    def close(self):
        """Close the widgets; what is shown again begins anew."""
        close_all(self.view)
        self._number, self._is_twin, self.votes = 0, False, []
        self._make()
