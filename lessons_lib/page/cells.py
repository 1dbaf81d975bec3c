"""What the cells of a page show: a cell that runs again lets its former panels and sounds go, or kernels only grow."""
import gc

import ipywidgets as W
from IPython import get_ipython
from IPython.display import HTML, display

from lessons_lib.base import by_keyboard

_shows = {}     # id and text of a cell -> number of its last run, and what it showed then with the way to close it


def cell_shows(thing, close=None):
    """Note that the cell which runs now shows *thing*; what it showed in its last run is closed and forgotten.

    Parameters
    ----------
    thing : object
        A panel or players of sound.
    close : callable, optional
        close() gives back what *thing* holds beside itself, such as widgets, which a kernel keeps until it is told.

    Notes
    -----
    A cell is known by its id, which JupyterLab sends, and by its text: the ids of two pages are alike, and they may
    share a kernel. Without an id (a terminal, a test) nothing is ever let go. What another cell shows, too, is not
    closed, nor is what the same run of the cell showed before.
    """
    shell = get_ipython()
    run = getattr(getattr(shell, "displayhook", None), "exec_result", None)     # None outside of a cell
    info = getattr(run, "info", None)
    if getattr(info, "cell_id", None) is None:
        return
    cell = info.cell_id, info.raw_cell
    number = shell.displayhook.prompt_count     # of this run
    before, former = _shows.get(cell, (number, []))
    _shows[cell] = number, [*(former if before == number else []), (thing, close)]
    if before != number:
        _let_go(shell, before, former)


def _let_go(shell, number, former):
    still_shown = [one for _, shown in _shows.values() for one, _ in shown]
    for thing, close in former:
        _forget(shell, number, thing)
        if close and not any(thing is one for one in still_shown):
            close()
            gc.collect()    # a figure refers to itself in circles: they would pile up for some ten runs


def _forget(shell, number, thing):
    """Take the value of a former run out of IPython's memory of outputs: Out[number], _number, and what was sent."""
    for names, name in ((shell.user_ns["_oh"], number), (shell.user_ns, f"_{number}"),
                        (shell.user_ns_hidden, f"_{number}")):
        if names.get(name) is thing:
            del names[name]
    getattr(shell.history_manager, "outputs", {}).pop(number, None)


class OnPage:
    """What is shown by naming it last in a cell: its `view`, let go by `close` when the cell runs again."""

    def _ipython_display_(self):
        cell_shows(self, self.close)
        display(HTML(by_keyboard.BEFORE))
        display(self.view)


def whole_view(name, *children, look=""):
    """All widgets of an `OnPage` in one box of the class *name*, with their style and the keyboard's."""
    view = W.VBox([W.HTML(f"<style>{look}{by_keyboard.STYLE}</style>"), *children])
    view.add_class(name)
    view.add_class(by_keyboard.PLACE)
    return view


def close_all(*widgets):
    """Close widgets with what belongs to them (children, layout, style): closing a widget closes that one alone."""
    for widget in widgets:
        parts = *getattr(widget, "children", ()), getattr(widget, "layout", None), getattr(widget, "style", None)
        close_all(*filter(None, parts))
        widget.close()
