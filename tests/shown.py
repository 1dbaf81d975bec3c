"""What a panel shows, as a reader of the page meets it: the words of a widget, the alternative text of a picture."""
import html
import importlib
import inspect
import re


def panel_makers(lesson):
    """name -> function that makes a panel, for every panel of a lesson: those that take a sheet."""
    module = importlib.import_module(f"lessons_lib.lessons.lesson_{lesson}.panels")
    return {name: make for name, make in vars(module).items() if inspect.isfunction(make)
            and make.__module__ == module.__name__ and "sheet" in inspect.signature(make).parameters}


def words(widget):
    return html.unescape(re.sub("<[^>]+>", "", widget.value))


def readouts(panel):
    """What a panel shows, the large number first, in one line."""
    return " ".join(f"{label}: {said}" for label, said in panel.board.frame["shown"])


def alt(panel):
    return panel.board.frame["alt"]


def message(panel):
    return panel.board.frame["message"]


def pieces(panel):
    """What moves in the picture."""
    return panel.board.frame["pieces"]
