"""Words of every panel's picture: inside the figure, and none on another, at the first values and at every end.

The boxes are those of matplotlib's own renderer and font. A page has its own fonts, most of them narrower.
"""
import itertools
from unittest.mock import patch

import pytest
from matplotlib.lines import Line2D
from matplotlib.text import Text
from matplotlib.transforms import Bbox

from lessons_lib.pictures.style import new_figure
from test_panels_all import NAMES, ends, made

HAIR = 1.5      # points by which a box may reach out, or two boxes share: letters do not fill their boxes

# panels whose words are not in order yet, and a few of the places: who mends one takes it out
NOT_YET = {
}

# panels in which no curve and no mark runs through words that move with them
CLEAR = [("03", "how_well_known"), ("04", "thousands_of_turns"), ("05", "two_decays"), ("06", "poles_that_answer"),
         ("07", "two_coils_three_ways"), ("08", "guess_then_data")]


def states(panel):
    """SI values: the first ones, each control at both ends, all of them low and all high."""
    specs, first = panel.specs, {name: spec.start for name, spec in panel.specs.items()}
    one_away = ({name: end} for name, spec in specs.items() for end in ends(spec))
    all_away = ({name: ends(spec)[side] for name, spec in specs.items()} for side in (0, -1))
    for away in itertools.chain([{}], one_away, all_away):
        yield away, {name: spec.in_si((first | away)[name]) for name, spec in specs.items()}


def box(text):
    """(left, low, right, high), points."""
    found, points = text.get_window_extent(), 72 / text.get_figure().dpi
    return found.x0 * points, found.y0 * points, found.x1 * points, found.y1 * points


def standing(figure):
    """(words, box) of the texts that a drawing of the figure writes: its numbers at ticks, labels, fixed words."""
    found = []

    def note(text, renderer, *_):
        if text.get_visible() and not text.get_animated() and text.get_text().strip():
            found.append((text.get_text(), box(text)))

    with patch.object(Text, "draw", note):
        figure.canvas.draw()
    return found


def moving(artists):
    """(words, box) of the texts among artists that are drawn at one setting."""
    return [(text.get_text(), box(text)) for artist in artists for text in artist.findobj(Text)
            if artist.get_visible() and text.get_visible() and text.get_text().strip()]


def outside(words, size):
    """What reaches out of a figure of a *size* in points."""
    return [f"{text!r} is outside" for text, (left, low, right, high) in words
            if min(left, low) < -HAIR or right > size[0] + HAIR or high > size[1] + HAIR]


def on_each_other(pairs):
    """What lies on other words."""
    return [f"{one!r} is on {other!r}" for (one, a), (other, b) in pairs
            if min(a[2], b[2]) - max(a[0], b[0]) > HAIR and min(a[3], b[3]) - max(a[1], b[1]) > HAIR]


def faults(figure, ground, moved):
    """What is wrong with the words of a picture: those that move, on what stands and on each other."""
    size = 72 * figure.get_size_inches()
    return outside(moved, size) + on_each_other(itertools.chain(itertools.product(moved, ground),
                                                                itertools.combinations(moved, 2)))


def faults_of_ground(figure, ground):
    return outside(ground, 72 * figure.get_size_inches()) + on_each_other(itertools.combinations(ground, 2))


def marked(lesson, name):
    marks = [pytest.mark.xfail(reason=NOT_YET[lesson, name], strict=True)] if (lesson, name) in NOT_YET else []
    return pytest.param(lesson, name, id=f"{lesson} {name}", marks=marks)


def assert_words_are_inside_and_apart(panel):
    figure, draw = panel._drawing.figure, panel._drawing._draw
    ground = standing(figure)
    found = {fault: "always" for fault in faults_of_ground(figure, ground)}
    for away, values in states(panel):
        artists = draw(panel._data(panel._compute(**values), **values))
        for fault in faults(figure, ground, moving(artists)):
            found.setdefault(fault, ", ".join(f"{key} {value:g}" if isinstance(value, float) else f"{key} {value}"
                                              for key, value in away.items()) or "at first")
    assert not found, "\n".join(f"{fault} ({when})" for fault, when in found.items())


def struck(artists):
    """Moving words that a moving curve or mark runs through: through the middle half of their height."""
    lines = [one for one in artists if isinstance(one, Line2D) and one.get_visible() and one.get_xydata().size]
    found = []
    for text in (one for one in artists if isinstance(one, Text) and one.get_visible() and one.get_text().strip()):
        around = text.get_window_extent()
        middle = Bbox.from_extents(around.x0, around.y0 + around.height / 4, around.x1, around.y1 - around.height / 4)
        for line in lines:
            path = line.get_transform().transform_path(line.get_path())
            if (middle.count_contains(path.vertices) if line.get_linestyle() == "None"
                    else path.intersects_bbox(middle, filled=False)):
                found.append(f"{text.get_text()!r} is struck")
    return found


@pytest.mark.parametrize("lesson, name", CLEAR)
def test_no_curve_runs_through_words(lesson, name):
    panel, found = made(lesson, name), {}
    for away, values in states(panel):
        for fault in struck(panel._drawing._draw(panel._data(panel._compute(**values), **values))):
            found.setdefault(fault, away)
    assert not found, found


@pytest.mark.parametrize("lesson, name", [marked(*one) for one in NAMES])
def test_words_are_inside_and_apart(lesson, name):
    assert_words_are_inside_and_apart(made(lesson, name))


def test_the_table_names_panels_that_there_are():
    assert NOT_YET.keys() <= set(NAMES)


# ------------------------------------------------------------------ that it can fail

def picture(*places, **look):
    """A figure of 8 x 4 inches with one number at each axis, and moving words at places (points)."""
    figure = new_figure(width=8, height=4)
    axes = figure.add_axes((0.125, 0.25, 0.75, 0.5), xlim=(0, 1), ylim=(0, 1))      # 72, 72 to 504, 216 points
    axes.set_xticks([0.5], ["half"])
    axes.set_yticks([])
    return figure, [axes.text(x / 576, y / 288, f"word {n}", transform=figure.transFigure, animated=True, **look)
                    for n, (x, y) in enumerate(places)]


@pytest.mark.parametrize("places, found", [
    ([(200, 150), (200, 180)], []), ([(200, 150), (210, 155)], ["'word 0' is on 'word 1'"]),
    ([(560, 150)], ["'word 0' is outside"]), ([(200, 284)], ["'word 0' is outside"]),
    ([(-9, 150)], ["'word 0' is outside"]),
    ([(285, 58)], ["'word 0' is on 'half'"]), ([(285, 100)], [])])
def test_words_outside_or_on_others_are_found(places, found):
    figure, words = picture(*places)
    ground = standing(figure)
    assert [text for text, _ in ground] == ["half"] and faults_of_ground(figure, ground) == []
    assert faults(figure, ground, moving(words)) == found


def test_words_that_stand_are_looked_at_too():
    figure, _ = picture()
    figure.axes[0].set_ylabel("a label that is far too long for a figure of this height, whoever reads it")
    figure.axes[0].set_xlabel("on the number", labelpad=-15)
    assert faults_of_ground(figure, standing(figure)) == [
        f"{figure.axes[0].get_ylabel()!r} is outside", "'half' is on 'on the number'"]


@pytest.mark.parametrize("height, found", [(150, True), (162, False)])
def test_a_curve_through_words_is_found(height, found):
    figure, words = picture((200, 150))
    line, = figure.axes[0].plot([0, 1], [(height + 4 - 72) / 144] * 2)
    assert struck([*words, line]) == ["'word 0' is struck"] * found
    assert struck([*words, line.axes.plot([0.3], [(height + 4 - 72) / 144], "o")[0]]) == ["'word 0' is struck"] * found


def test_what_is_not_drawn_is_not_found():
    figure, words = picture((560, 150), (200, 150), (200, 150))
    words[0].set_visible(False)
    words[1].set_text(" ")
    assert faults(figure, standing(figure), moving(words)) == []
