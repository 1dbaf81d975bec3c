"""A figure as SVG: its ground, its moving artists one by one, or the whole; letters as text, colours by role.

A page puts ground and moving pieces over each other and gives each role the colour of its theme; paper takes the whole.
"""
import io
import itertools
import re
from collections.abc import Mapping
from functools import partial

import matplotlib
from matplotlib.backends.backend_svg import RendererSVG

from lessons_lib.pictures.style import ROLES

# letters as text of one family that a page replaces by its own; fewer points of a line than a screen shows
_WRITTEN = {"svg.fonttype": "none", "font.sans-serif": ["DejaVu Sans"], "path.simplify_threshold": 0.3}
_FONTS = "system-ui, 'Segoe UI', Roboto, Helvetica, Arial, 'DejaVu Sans', sans-serif"
_ROLE = {light.lower(): f"var(--{role})" for role, (light, _) in ROLES.items()}
_COLOUR = re.compile("|".join(_ROLE))
_GROUP_ID = re.compile(r'<g id="[^"]*"')
_PATH = re.compile(r' d="([^"]+)"')
_TAIL = re.compile(r"(\.\d)\d+")
_BREAK = re.compile(r"\s*\n\s*|(?<=[MLQC]) ")
_BETWEEN = re.compile(r">\s+<")
_canvases = itertools.count()

# joins and caps as matplotlib means them; the ground's colour round each letter keeps lines off it
LETTERS = ("* {stroke-linejoin: round; stroke-linecap: butt} text {font-family: %s !important; paint-order: stroke; "
           "stroke: %s; stroke-width: 3px}")


def colours(number):
    """CSS that gives each role its colour: *number* 0 on white, 1 in a dark page."""
    return "; ".join(f"--{role}: {pair[number]}" for role, pair in ROLES.items())


class Drawing:
    """A figure and the function that updates it, as SVG.

    Parameters
    ----------
    figure : matplotlib.figure.Figure
        With fixed limits, 72 dots an inch; artists that move are animated.
    draw : callable, or a picture, or mapping of str to picture
        draw(data) updates the artists and returns them in drawing order; as of a `Panel`.

    Examples
    --------
    >>> from lessons_lib.pictures.style import new_figure
    >>> figure = new_figure(width=1, height=1)
    >>> line, = figure.add_axes((0, 0, 1, 1)).plot([0, 1], [0, 1], animated=True)
    >>> len(Drawing(figure, lambda data: [line]).moving(None))
    2
    """

    def __init__(self, figure, draw):
        self.figure, self._draw = figure, draw if callable(draw) else partial(_update, draw)
        self._number = next(_canvases)      # what is clipped or marked must not share its name with another picture

    @property
    def size(self):
        """Width and height in points."""
        return tuple(round(float(length), 1) for length in self.figure.bbox.size)

    def ground(self):
        """Everything that stands, for a page: axes, labels, what is not animated."""
        return _for_a_page("".join(self._pieces(lambda: [self.figure], f"ground {self._number}")))

    def moving(self, data):
        """What moves, for a page: a piece for each artist in drawing order, and last what they refer to."""
        return [_for_a_page(piece) for piece in self._pieces(lambda: self._draw(data), f"moving {self._number}")]

    def whole(self, data):
        """The SVG of this data for paper, as bytes: equal data give equal bytes."""
        moving = self._pieces(lambda: self._draw(data), "moving")
        inner = [*self._pieces(lambda: [self.figure], "ground"), *moving]
        width, height = self.size
        look = LETTERS % (_FONTS, ROLES["paper"][0])
        return (f'<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="{width}pt" '
                f'height="{height}pt" viewBox="0 0 {width} {height}"><style>{look}</style>{"".join(inner)}</svg>'
                ).encode("utf-8")

    def _pieces(self, drawn, salt):
        """What each artist that drawn() returns draws, then the definitions they share."""
        sink = io.StringIO()
        width, height = self.size
        with matplotlib.rc_context(_WRITTEN | {"svg.hashsalt": salt}):
            renderer = RendererSVG(width, height, sink, metadata={"Date": None, "Creator": None})
            cuts = [sink.tell()]
            for artist in drawn():
                artist.draw(renderer)
                cuts.append(sink.tell())
            renderer.finalize()
        text = sink.getvalue()
        cuts.append(text.rindex("</svg>"))
        return [_light(text[first:last]) for first, last in itertools.pairwise(cuts)]


def _update(pictures, data):
    """Update one picture, or several by the name of their data."""
    if not isinstance(pictures, Mapping):
        return pictures.update(**data)
    return [artist for name, picture in pictures.items() for artist in picture.update(**data[name])]


def _light(text):
    """One decimal of a point, no line breaks, no names of groups: the same picture in half the letters."""
    def short(path):
        return ' d="' + _BREAK.sub("", _TAIL.sub(r"\1", path[1])) + '"'
    return _PATH.sub(short, _BETWEEN.sub("><", _GROUP_ID.sub("<g", text)))


_for_a_page = partial(_COLOUR.sub, lambda colour: _ROLE[colour[0]])
