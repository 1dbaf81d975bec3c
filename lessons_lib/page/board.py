"""The widget of a panel: what Python tells the page, and the page's part of it, whose texts are beside this file."""
from pathlib import Path

import anywidget
import traitlets

from lessons_lib.pictures.vector import colours


def _text(*names):
    return "\n".join((Path(__file__).parent / name).read_text(encoding="utf-8") for name in names)


LOOK = (f".lesson-panel {{{colours(0)}}}\n[data-jp-theme-light=false] .lesson-panel {{{colours(1)}}}\n"
        + _text("board.css"))


class Board(anywidget.AnyWidget):
    """What a panel shows in a page: picture, sliders, words. `board.js` makes it; one message a step either way."""

    # as texts: a file would be watched, and who watches keeps every board that ever was
    _esm = traitlets.Unicode(_text("board.js", "board_plays.js", "board_beside.js", "board_folds.js")).tag(sync=True)
    _css = traitlets.Unicode(LOOK).tag(sync=True)
    made = traitlets.Dict().tag(sync=True)      # title, controls, ground: once
    frame = traitlets.Dict().tag(sync=True)     # what a step shows
    film = traitlets.Dict().tag(sync=True)      # of the settings of its "count"; empty for none
    sound = traitlets.Dict().tag(sync=True)
    kept = traitlets.Dict().tag(sync=True)      # the setting beside the present one; empty for none
    told = traitlets.Dict().tag(sync=True)      # what the last change did
    unfolded = traitlets.Int(0).tag(sync=True)  # how often it was asked for

    def unfold(self):
        """Have the page open what the panel means: the folds after its cell, up to the next panel or heading."""
        self.unfolded += 1
