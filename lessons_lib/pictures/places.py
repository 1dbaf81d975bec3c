"""Where words stand in a picture: near what they name, inside the frame, parted from each other."""
from dataclasses import dataclass

import numpy as np
from matplotlib.text import Text

GAP = 5             # points between a mark and its word
_LETTER = 0.6       # width of a letter in heights of the font: a page has fonts of its own, so no renderer is asked
_LINE = 1.25        # height of a line


@dataclass
class Word:
    """A text that wants to be at shares (x, y) of its axes, *lift* points higher.

    *side* is 1 for a word that begins there, -1 for one that ends there, 0 for one with its middle there.
    """

    artist: Text
    text: str
    x: float
    y: float
    side: int = 0
    lift: float = 0.0

    @property
    def width(self):
        """Points, by a rule of thumb."""
        return _LETTER * self.artist.get_fontsize() * max(map(len, self.text.split("\n")))

    @property
    def height(self):
        """Points."""
        return _LINE * self.artist.get_fontsize() * (self.text.count("\n") + 1)


def parted(wanted, heights, limits):
    """Middles of labels in one column, as near to the wanted ones as they can be without lying on each other.

    Parameters
    ----------
    wanted, heights : array_like, shape (n,)
        In one unit.
    limits : (float, float)
        Between which they are to stay; where that is too narrow, the lower limit is kept.

    Returns
    -------
    ndarray, shape (n,)

    Examples
    --------
    >>> parted([5.0, 5.0, 20.0], [4.0, 4.0, 4.0], (0.0, 30.0)).tolist()
    [3.0, 7.0, 20.0]
    """
    wanted, heights = np.asarray(wanted, dtype=float), np.asarray(heights, dtype=float)
    order = np.argsort(np.round(wanted, 3), kind="stable")      # at one height the order given counts, not the rounding
    sizes = heights[order]
    offsets = np.concatenate([[0.0], np.cumsum((sizes[1:] + sizes[:-1]) / 2)])
    groups = []     # of labels that touch: (mean of where they would begin, how many)
    for free in wanted[order] - offsets:
        groups.append((free, 1))
        while len(groups) > 1 and groups[-2][0] > groups[-1][0]:
            (a, n), (b, m) = groups[-2:]
            groups[-2:] = [((n * a + m * b) / (n + m), n + m)]
    free = np.concatenate([[mean] * count for mean, count in groups])
    low, high = limits[0] + sizes[0] / 2, limits[1] - sizes[-1] / 2 - offsets[-1]
    middles = np.empty(wanted.size)
    middles[order] = np.clip(free, low, max(low, high)) + offsets
    return middles


def place(words, *, width, height, room):
    """Put words to their places; returns their texts.

    Parameters
    ----------
    words : sequence of Word
    width, height, room : float
        Of the axes, and how much there is to the right of them, points.

    Returns
    -------
    list of matplotlib.text.Text
    """
    if not words:
        return []
    for word in words:
        if not word.height / 2 <= word.y * height + word.lift <= height - word.height / 2:
            word.lift = -word.lift      # no room above the mark: below it
    lefts = [np.clip(word.x * width + word.side * GAP - word.width * (1 - word.side) / 2, 0,
                     max(0.0, width + room - word.width)) for word in words]
    column, end, order = [], -np.inf, np.argsort(lefts, kind="stable")
    for n in order:
        if lefts[n] > end:
            _part(column, height)
            column = []
        column.append(words[n])
        end = max(end if len(column) > 1 else -np.inf, lefts[n] + words[n].width)
    _part(column, height)
    for word, left in zip(words, lefts):
        # anchored where a page's letters of another width do least harm
        word.artist.set(text=word.text, ha=("center", "left", "right")[word.side],
                        x=(left + word.width * (1 - word.side) / 2) / width, y=word.y)
    return [word.artist for word in words]


def _part(column, height):
    if column:
        middles = parted([word.y * height + word.lift for word in column], [word.height for word in column],
                         (0.0, height))
        for word, middle in zip(column, middles):
            word.y = middle / height
