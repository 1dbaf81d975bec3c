"""What a picture of curves is declared of: curves, levels, dots, bands, shades; `Lines` shows data by them."""
from dataclasses import dataclass
from types import SimpleNamespace

import numpy as np
from matplotlib.patches import Polygon

from lessons_lib.pictures.part import DOTTED, PLAIN, Part, curve_of, inside, line_of, text_of
from lessons_lib.pictures.places import GAP, Word
from lessons_lib.pictures.style import BODY, INK


@dataclass(frozen=True)
class Curve(Part):
    """A line; its data are a tuple (x, y), or y alone over the common *x* of an update, SI. NaN leaves a gap.

    Parameters
    ----------
    name : str
        Of its data in an update.
    word : str
        Written after the last point of the curve in the frame; `words` of an update can say another.
    look : dict, optional
        Colour and style, of `style.py`; HOUSE_LOOK for what the rest is compared with.
    width : float
        Points.
    at : float, optional
        The word is here, above the curve (SI, on the x axis), instead of at its end.
    below : bool
        Under the curve there.
    dot : str
        A marker for the chosen setting (the *at* of an update), such as "o".
    """

    name: str
    word: str = ""
    look: dict | None = None
    width: float = 2.2
    at: float | None = None
    below: bool = False
    dot: str = ""

    rank = 3

    def make(self, frame):
        look = self.look or PLAIN
        mark = {"color": look["color"], "marker": self.dot, "markersize": 8, "markeredgecolor": INK, "clip_on": False}
        return SimpleNamespace(line=line_of(frame.axes, look, linewidth=self.width), word=text_of(frame, look),
                               dot=line_of(frame.axes, mark, linestyle="none"))

    def room(self, kit):
        return self._beside(kit) if self.at is None else 0.0

    def show(self, frame, kit, data, now):
        x, y = curve_of(data, now.x)
        kit.line.set_data(frame.x.shown(x), frame.y.shown(y))
        artists, words = [kit.line], self._name(frame, kit, x, y, now.words.get(self.name, self.word))
        if self.dot and now.at is not None:
            value = np.interp(now.at, x, y)
            if inside(frame.x.share(now.at), frame.y.share(value)):
                kit.dot.set_data([frame.x.shown(now.at)], [frame.y.shown(value)])
                artists.append(kit.dot)
        return artists, words

    def _name(self, frame, kit, x, y, text):
        if not text:
            return []
        if self.at is not None:
            word = Word(kit.word, text, frame.x.share(self.at), frame.y.share(np.interp(self.at, x, y)))
            word.lift = (-1 if self.below else 1) * (word.height / 2 + GAP)
            return [word] if inside(word.y) else []
        shares = frame.x.share(x), frame.y.share(y)
        seen = np.flatnonzero(inside(*shares))
        return [Word(kit.word, text, shares[0][seen[-1]], shares[1][seen[-1]], side=1)] if seen.size else []


@dataclass(frozen=True)
class Level(Part):
    """A straight line right across the picture; its datum is its value, SI.

    Parameters
    ----------
    name, word, look, width
        As of a `Curve`.
    value : float, optional
        One that stays, SI: drawn once, and no data.
    upright : bool
        At a value of the x axis.
    at : float, optional
        Where along the line its word is, as a share of it: without it, at the line's end.
    """

    name: str = ""
    word: str = ""
    look: dict | None = None
    width: float = 1.2
    value: float | None = None
    upright: bool = False
    at: float | None = None

    rank = 2

    def make(self, frame):
        look, axis = self.look or DOTTED, self._axis(frame)
        shown = look if self.width else look | {"linestyle": "none"}        # dashes of no width have no length
        line = (frame.axes.axvline if self.upright else frame.axes.axhline)(
            axis.shown(axis.limits[0] if self.value is None else self.value), linewidth=self.width,
            animated=self.value is None, **shown)
        return SimpleNamespace(line=line, word=text_of(frame, look))

    def room(self, kit):
        return self._beside(kit) if self.at is None and not self.upright else 0.0

    def show(self, frame, kit, value, now):
        share, shown = self._axis(frame).share(value), self._axis(frame).shown(value)
        if not inside(share):
            return [], []
        artists = [kit.line] if self.value is None else []
        if artists:
            (kit.line.set_xdata if self.upright else kit.line.set_ydata)([shown, shown])
        text = now.words.get(self.name, self.word)
        return artists, [self._word(frame, kit, text, share)] if text else []

    def _word(self, frame, kit, text, share):
        if not self.upright:
            word = Word(kit.word, text, 1.0 if self.at is None else self.at, share, side=int(self.at is None))
            word.lift = 0.0 if self.at is None else word.height / 2 + 2
            return word
        word = Word(kit.word, text, share, 0.97 if self.at is None else self.at, side=1)
        if share * frame.width + GAP + word.width > frame.width + frame.room:
            word.side = -1      # no room behind the line
        return word


@dataclass(frozen=True)
class Dots(Part):
    """Marks at places; their data are (x, y), numbers or arrays, or (x, y, spread) for bars to both sides, SI.

    A mark outside of the frame is not drawn, one on its edge is drawn whole.

    Parameters
    ----------
    name, look
        As of a `Curve`. In `words` of an update: a text, or a list with one for each, over the marks.
    marker : str
    hollow : bool
    size : float
        Points.
    stems : float, optional
        Thin lines to the marks from here, a value of the y axis, SI.
    side : int
        Where words are: 0 over the mark (under it, where its stem comes down to it), 1 to its right, -1 to its left.
    lift : float
        How much higher they are than that, points.
    most : int
        How many words there can be.
    """

    name: str
    look: dict | None = None
    marker: str = "o"
    hollow: bool = False
    size: float = 8
    stems: float | None = None
    side: int = 0
    lift: float = 0.0
    most: int = 1

    rank = 4

    def make(self, frame):
        look = {"color": (self.look or PLAIN)["color"]}
        marks = {"marker": self.marker, "markersize": self.size, "linestyle": "none", "clip_on": False}
        marks |= {"fillstyle": "none", "markeredgewidth": 1.8} if self.hollow else {"markeredgecolor": INK}
        return SimpleNamespace(stems=line_of(frame.axes, look, linewidth=1.4), marks=line_of(frame.axes, look, **marks),
                               words=[text_of(frame, look) for _ in range(self.most)])

    def show(self, frame, kit, data, now):
        x, y, *spread = np.broadcast_arrays(*(np.atleast_1d(np.asarray(one, dtype=float)) for one in data))
        shares = frame.x.share(x), frame.y.share(y)
        seen, artists = inside(*shares), [kit.marks]
        kit.marks.set_data(frame.x.shown(x), frame.y.shown(np.where(seen, y, np.nan)))
        if spread or self.stems is not None:
            low, high = (y - spread[0], y + spread[0]) if spread else (np.full(y.size, self.stems), y)
            ends = np.column_stack([low, high, np.full(y.size, np.nan)]).ravel()
            kit.stems.set_data(frame.x.shown(np.repeat(x, 3)), frame.y.shown(ends))
            artists.insert(0, kit.stems)
        texts = now.words.get(self.name, ())
        texts = [texts] if isinstance(texts, str) else texts
        over = self.size / 2 + 9
        lift = self.lift + (not self.side) * np.where(y < (-np.inf if self.stems is None else self.stems), -over, over)
        beside = shares[0] + self.side * self.size / 2 / frame.width
        return artists, [Word(kit.words[n], text, beside[n], shares[1][n], side=self.side, lift=lift[n])
                         for n, text in enumerate(texts) if text and seen[n]]


@dataclass(frozen=True)
class Band(Part):
    """A shaded stretch of the y axis, or *upright* of the x axis; its data are (from, to), SI.

    *value* is one that stays; *word* is in its upper left corner.
    """

    name: str = ""
    word: str = ""
    color: str = BODY
    value: tuple | None = None
    upright: bool = False

    def make(self, frame):
        patch = (frame.axes.axvspan if self.upright else frame.axes.axhspan)(
            0, 1, facecolor=self.color, edgecolor="none", animated=self.value is None, zorder=0)
        kit = SimpleNamespace(patch=patch, word=text_of(frame))
        if self.value is not None:
            self._set(frame, kit, self.value)
        return kit

    def _set(self, frame, kit, ends):
        low, high = self._axis(frame).shown(np.sort(ends))
        kit.patch.set_bounds(*((low, 0, high - low, 1) if self.upright else (0, low, 1, high - low)))

    def show(self, frame, kit, ends, now):
        if self.value is None:
            self._set(frame, kit, ends)
        low, high = np.clip(self._axis(frame).share(np.sort(ends)), 0, 1)
        text = now.words.get(self.name, self.word)
        word = Word(kit.word, text, *((low, 1.0) if self.upright else (0.0, high)), side=1)
        word.lift = -word.height / 2
        return [kit.patch] if self.value is None else [], [word] if text else []


@dataclass(frozen=True)
class Between(Part):
    """A shade between two curves, named as they are, over one x."""

    first: str
    second: str
    color: str = BODY

    rank = 1

    def datum(self, now):
        pair = now.data.get(self.first), now.data.get(self.second)
        return None if any(one is None for one in pair) else pair

    def make(self, frame):
        return frame.axes.add_patch(Polygon(np.zeros((3, 2)), facecolor=self.color, edgecolor="none", animated=True))

    def show(self, frame, patch, pair, now):
        (x, above), (back, below) = (curve_of(one, now.x) for one in pair)
        patch.set_xy(np.column_stack([frame.x.shown(np.concatenate([x, back[::-1]])),
                                      frame.y.shown(np.concatenate([above, below[::-1]]))]))
        return [patch], []
