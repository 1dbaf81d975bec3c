"""A panel's pictures without a browser: ground and pieces, colours by role, films, paper, stills."""
import base64
import re
import xml.etree.ElementTree as ElementTree

import numpy as np
import pytest

from lessons_lib.page import canvas
from lessons_lib.page.canvas import show, still_tag
from lessons_lib.page.cards import STILL
from lessons_lib.page.film import Film
from lessons_lib.pictures.style import FLUX, ROLES, dress, label, new_figure
from lessons_lib.pictures.vector import Drawing, colours
from shown import pieces
from small_panel import FakeSheet, a_panel

SVG = "{http://www.w3.org/2000/svg}"


def line_and_word():
    """72 points to a side; a line from corner to corner, a word in its middle, a dot that is hidden by the edge."""
    figure = new_figure(width=1, height=1)
    axes = figure.add_axes((0, 0, 1, 1), xlim=(0, 72), ylim=(0, 72))
    axes.set_axis_off()
    line, = axes.plot([], [], linewidth=2, animated=True, **FLUX)
    word = label(axes, "", FLUX, ha="center")

    def draw(height):
        line.set_data([0, 72], [0, height])
        word.set(position=(36, 36), text=f"{height:g}")
        return [line, word]
    return Drawing(figure, draw)


def parsed(piece):
    return ElementTree.fromstring('<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink">'
                                  f"{piece}</svg>")


def test_each_artist_is_a_piece_and_places_are_points_from_the_upper_left():
    line, word, shared = line_and_word().moving(18)
    path = parsed(line).find(f".//{SVG}path")
    assert path.get("d") == "M0 72L72 54" and "stroke: var(--green)" in path.get("style")
    text = parsed(word).find(f".//{SVG}text")
    assert text.text == "18" and float(text.get("x")) == 36 and "text-anchor: middle" in text.get("style")
    assert "fill: var(--green-word)" in text.get("style") and "clipPath" in shared


def test_an_artist_that_does_not_change_is_the_same_piece():
    drawing = line_and_word()
    first, again, other = drawing.moving(18), drawing.moving(18), drawing.moving(36)
    assert first == again and first[0] != other[0] and first[-1] == other[-1]


class Level:
    """A picture as the library has them: an update by keywords."""

    def __init__(self, axes):
        self.line, = axes.plot([], [], animated=True)

    def update(self, *, height):
        self.line.set_data([0, 1], [height, height])
        return [self.line]


def test_a_picture_draws_by_its_update_and_several_take_their_data_by_name_in_their_order():
    figure = new_figure(width=1, height=1)
    axes = figure.add_axes((0, 0, 1, 1), xlim=(0, 1), ylim=(0, 1))
    low, high = Level(axes), Level(axes)

    def drawn(draw, data):
        return [parsed(one).find(f".//{SVG}path").get("d") for one in Drawing(figure, draw).moving(data)[:-1]]
    assert drawn(low, {"height": 0.25}) == drawn(lambda at: low.update(height=at), 0.25) == ["M0 54L72 54"]
    data = {"low": {"height": 0.25}, "high": {"height": 0.75}}
    assert drawn({"high": high, "low": low}, data) == ["M0 18L72 18", "M0 54L72 54"]
    with pytest.raises(KeyError, match="high"):
        drawn({"high": high}, {"low": {"height": 0.25}})


def test_the_ground_is_what_is_not_animated():
    figure = new_figure(width=2, height=1)
    axes = dress(figure.add_axes((0.3, 0.3, 0.6, 0.6)), x_label="place", y_label="", x_limits=(0, 1), y_limits=(0, 1))
    axes.plot([0, 1], [0, 1], animated=True, color=FLUX["color"])
    ground = Drawing(figure, lambda _: []).ground()
    assert ">place</text>" in ground and "--green" not in ground and "var(--ink)" in ground


def test_two_pictures_of_a_page_share_no_name():
    names = [set(re.findall(r'id="([^"]+)"', "".join(one.moving(18)))) for one in (line_and_word(), line_and_word())]
    assert names[0] and not names[0] & names[1]


def luminance(colour):
    channels = np.array([int(colour[place:place + 2], 16) / 255 for place in (1, 3, 5)])
    linear = np.where(channels <= 0.04045, channels / 12.92, ((channels + 0.055) / 1.055) ** 2.4)
    return linear @ [0.2126, 0.7152, 0.0722]


def contrast(one, other):
    """WCAG 2.2, "contrast ratio"."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("theme", [0, 1], ids=["on white", "dark"])
def test_words_are_read_and_lines_are_seen_on_their_ground(theme):
    """WCAG 2.2: 4.5:1 for words (1.4.3), 3:1 for what one must see (1.4.11)."""
    ground = ROLES["paper"][theme]
    for role, pair in ROLES.items():
        if role in ("ink", "muted") or role.endswith("-word"):
            assert contrast(pair[theme], ground) >= 4.5, role
        elif role in ("blue", "vermillion", "green"):
            assert contrast(pair[theme], ground) >= 3, role
    for thing in ("steel", "copper", "north", "south", "body"):
        assert contrast(ROLES["ink"][theme], ROLES[thing][theme]) >= 4.5, thing


def test_no_two_roles_share_a_colour_and_each_has_a_variable():
    assert len({pair[0] for pair in ROLES.values()}) == len(ROLES)
    assert all(f"--{role}: {pair[1]}" in colours(1) for role, pair in ROLES.items())


# ------------------------------------------------------------------ films

def test_a_film_sends_each_different_piece_once():
    drawing = line_and_word()
    film = Film(frames=(0, 36, 72, 36), words="slow").described(drawing)
    assert [len(slot) for slot in film["slots"]] == [3, 3, 1]
    assert film["frames"] == [[0, 0, 0], [1, 1, 0], [2, 2, 0], [1, 1, 0]]
    assert film["slots"][0][2] == drawing.moving(72)[0]


def test_a_film_that_is_too_much_for_a_page_is_refused(monkeypatch):
    monkeypatch.setattr("lessons_lib.page.film.MOST_LETTERS", 100)
    with pytest.raises(ValueError, match="a film must take 100 letters or less; got"):
        Film(frames=(0, 36), words="slow").described(line_and_word())


def test_a_film_is_made_of_the_settings_that_are_shown_when_the_page_asks():
    panel = a_panel(film=lambda result, slope: Film(
        frames=[result | {"slope": slope * share} for share in (0, 0.5, 1)], words=f"at {slope:g}"))
    panel.asked(slope=6000)
    panel._heard(None, {"wish": "film"}, [])
    film = panel.board.film
    assert film["words"] == "at 6" and len(film["frames"]) == 3 and film["count"] == panel.board.frame["count"]
    assert film["slots"][0][2] == pieces(panel)[0]


# ------------------------------------------------------------------ paper and stills

def test_a_state_for_paper_has_values_read_outs_words_and_a_drawing():
    panel = a_panel()
    first, steep = panel.at(), panel.at(slope=8.0)
    assert (first.values, steep.values) == ({"slope": "2000 mm"}, {"slope": "8000 mm"})
    assert steep.readouts == {"rise": "8.0 m"} and steep.alt == "A straight line that rises by 8.0 m, 8000 mm a step"
    assert steep.picture != first.picture and panel.at(slope=8.0) == steep and panel.values["slope"] == 2000
    root = ElementTree.fromstring(steep.picture)
    assert (root.get("width"), root.get("height")) == ("216.0pt", "144.0pt") and b"var(" not in steep.picture
    with pytest.raises(ValueError, match="name of a value must be one of 'slope'; got 'tilt'."):
        panel.at(tilt=1)
    with pytest.raises(ValueError, match="slope must be at most 8; got 9."):
        panel.at(slope=9.0)


@pytest.fixture
def shown(monkeypatch):
    bundles = []
    monkeypatch.setattr(canvas, "display", lambda bundle, raw: bundles.append(bundle))
    monkeypatch.setattr("lessons_lib.page.panel.display", lambda bundle, raw: bundles.append(bundle))
    return bundles


def drawing_of(bundle):
    return base64.b64decode(re.search(r"svg\+xml;base64,([^\"]+)", bundle["text/html"])[1])


def test_a_still_shows_fixed_numbers_and_leaves_the_panel_alone(shown):
    panel = a_panel()
    before = pieces(panel)
    assert panel.still(slope=6.0) is None
    assert shown[0]["text/plain"] == "A straight line that rises by 6.0 m, 6000 mm a step"
    assert pieces(panel) == before and drawing_of(shown[0]) == panel.at(slope=6.0).picture


def test_a_still_needs_no_prediction(shown):
    a_panel(sheet=FakeSheet(), prediction="p1").still()
    assert "rises by 2.0 m" in shown[0]["text/plain"]


def test_a_still_of_a_panel_with_a_prediction_is_closed(shown):
    a_panel(prediction="p1").still()
    a_panel().still()
    folded, plain = (bundle["text/html"] for bundle in shown)
    assert folded == f'<details class="lesson-fold"><summary>{STILL}</summary>{plain}</details>'
    assert plain.startswith("<img")


@pytest.mark.parametrize("values, said", [({"slope": 9.0}, "slope must be at most 8; got 9."),
                                          ({"tilt": 1}, "name of a value must be one of 'slope'; got 'tilt'.")])
def test_a_still_of_wrong_values_says_so(shown, values, said):
    a_panel().still(**values)
    assert shown[0]["text/plain"] == said


def test_stills_are_small_equal_and_without_metadata():
    def tag():
        figure = new_figure(width=8, height=4)
        figure.add_subplot().plot(np.sin(np.linspace(0, 9, 300)))
        return still_tag(figure, "a wave")
    first = tag()
    assert first == tag()
    data = base64.b64decode(re.search(r"base64,([^\"]+)", first)[1])
    assert b"<metadata" not in data and b"matplotlib" not in data.lower() and len(data) < 20_000
    assert 'width="768" height="384"' in first and "max-width:100%" in first


@pytest.mark.parametrize("empty", ["", "  ", None])
def test_a_figure_without_words_is_refused(empty):
    with pytest.raises(ValueError, match="alt must be a text that says what the figure shows; got"):
        show(new_figure(), empty)


def test_alternative_text_is_escaped():
    assert 'alt="a &quot;b&quot; &lt;c&gt;"' in still_tag(new_figure(width=1, height=1), 'a "b" <c>')
