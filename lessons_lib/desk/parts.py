"""The parts a step of the desk is made of: a status that is spoken, a bar for long work, a question before writing."""
from functools import partial
from html import escape

import ipywidgets as W

from lessons_lib.base import by_keyboard
from lessons_lib.base.pages import table
from lessons_lib.course.telling import EXPECTED, in_words, watched

DESK_STYLE = f"""<style>{by_keyboard.STYLE}""" """
.desk-step {border-top: 2px solid var(--jp-border-color1, #888); padding: 0.2em 0 0.8em; max-width: 62em;
  overflow: visible}
.desk-step h2 {font-size: 1.2em; margin: 0.3em 0 0.1em}
.desk-step p {margin: 0.2em 0; line-height: 1.45; overflow-wrap: anywhere; white-space: pre-line}
.desk-step .widget-html, .desk-step .widget-html-content {height: auto; max-width: 100%; min-width: 0}
.desk-step .desk-status {font-weight: 600}
.desk-step .desk-status:not(:empty) {border-left: 4px solid #0072B2; padding-left: 0.6em}
.desk-step table {border-collapse: collapse; margin: 0.4em 0}
.desk-step th, .desk-step td {border: 1px solid var(--jp-border-color1, #888); padding: 0.15em 0.6em; text-align: left;
  vertical-align: top; overflow-wrap: anywhere}
.desk-step summary {cursor: pointer; padding: 0.2em 0}
.desk-step progress {width: min(24em, 60%); height: 1.1em; vertical-align: middle}
.desk-step iframe {width: 100%; height: 70vh; border: 1px solid var(--jp-border-color1, #888); background: white;
  resize: vertical}
.desk-step .widget-checkbox {width: auto; max-width: 100%}
.desk-step button {height: auto; min-height: 2.2em; width: auto; padding: 0 1em; color: var(--jp-ui-font-color0, black)}
</style>"""
WIDE = {"width": "44em", "max_width": "calc(100% - 4px)"}


def status(text):
    """Words in a region that a screen reader speaks."""
    return f'<p class="desk-status" role="status" aria-live="polite">{escape(text)}</p>'


def captioned(caption, head, rows):
    """A table under its caption; nothing where it would have no rows."""
    return f"<h3>{escape(caption)}</h3>{table(head, rows)}" if rows else ""


def button(words, press):
    """A button; press() is called without arguments."""
    made = W.Button(description=words, layout={"width": "auto"})
    made.on_click(lambda _: press())
    return made


def row(*widgets):
    """Widgets side by side that wrap where the page is narrow."""
    return W.Box(list(widgets), layout={"flex_flow": "row wrap", "max_width": "100%", "align_items": "center",
                                        "overflow": "visible"})


class ProgressBar:
    """A bar for long work, with its words; empty when nothing runs."""

    def __init__(self):
        self.view, self._shown = W.HTML(), None

    def say(self, what, done, of):
        """Show that *done* *of* so many are done; the page is told a hundred times at most."""
        now = (what, 100 * done // of)
        if now != self._shown:
            self._shown = now
            self.view.value = (f'<progress aria-label="{escape(what)}" max="{of}" value="{done}"></progress> '
                               f"{escape(what)}: {done} of {of}")

    def clear(self):
        """Show nothing."""
        self.view.value, self._shown = "", None


class DeskStep:
    """One step of the desk: heading, a line on what it does, its controls, what it says, and what it shows.

    Parameters
    ----------
    desk : InstructorDesk
        Asked to hold all buttons while this step works, and to look at the folder again afterwards.
    """

    title = explains = ""

    def __init__(self, desk):
        self.desk, self.bar = desk, ProgressBar()
        self.status, self.shown = W.HTML(status("")), W.HTML()
        self._asking = W.Box([], layout={"flex_flow": "row wrap"})
        self.view = W.VBox([W.HTML(f"<h2>{escape(self.title)}</h2><p>{escape(self.explains)}</p>"), *self.controls(),
                            self.bar.view, self.status, self._asking, self.shown], layout={"max_width": "100%"})
        self.view.add_class("desk-step")
        self.view.add_class(by_keyboard.PLACE)

    def controls(self):
        """Return the widgets of the step, in order."""
        raise NotImplementedError

    def buttons(self):
        """Return what cannot be pressed while something runs."""
        return [one for one in _inside(self.view) if isinstance(one, (W.Button, W.FileUpload))]

    def say(self, text):
        """Show words, and speak them."""
        self.status.value = status(text)

    def chosen_course(self):
        """Return the `Course` in the folder that was typed; None, and say so, where there is none."""
        course = self.desk.course()
        if course is None:
            self.say("Choose a course folder first.")
        return course

    def work_on(self, do, *, there="", question="", choices=None):
        """Call do(course) with the chosen `Course`, as `work` does; where it has the file *there* already, ask first.

        The *question* names the file's {path}; *choices*: words of a button -> what to do with the course, or None.
        """
        course = self.chosen_course()
        if course is None:
            return
        path = course.folder / there
        if there and path.exists():
            choices = {words: chosen and partial(chosen, course) for words, chosen in choices.items()}
            self.ask(question.format(path=path), choices)
        else:
            self.work(partial(do, course))

    def ask(self, question, choices):
        """Ask before something is written anew; *choices*: words of a button -> what to do, or None."""
        self._asking.children = [button(words, lambda do=do: self._chosen(do)) for words, do in choices.items()]
        self.say(question)

    def _chosen(self, do):
        self._asking.children = []
        if do:
            self.work(do)
        else:
            self.say("Nothing was changed.")

    def work(self, do):
        """Call do() with a bar and all buttons held, and say what it returns; what goes wrong is one sentence.

        The words come last, when the buttons can be pressed again: whoever reads them may act on them.
        """
        self._asking.children = []
        with self.desk.held():
            self.say("Working.")
            try:
                with watched(self.bar.say):
                    words = do()
            except EXPECTED as error:
                words = in_words(error)
            except Exception as error:      # a fault of the program: a button must not fall silent
                words = f"The program made a mistake here ({type(error).__name__}: {error}). Nothing more was done."
            finally:
                self.bar.clear()
        self.desk.look()
        self.say(words)


def _inside(widget):
    yield widget
    for child in getattr(widget, "children", ()):
        yield from _inside(child)
