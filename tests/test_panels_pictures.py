"""A panel's pictures without a browser: frames, palettes, texts that stay, stills."""
import base64
import io
import re

import numpy as np
import pytest
from PIL import Image

from lessons_lib.page import canvas
from lessons_lib.page.canvas import show, still_tag
from lessons_lib.pictures.style import new_figure
from small_panel import FakeSheet, a_panel, drawn, pixels, two_texts


def test_a_frame_is_the_same_picture_as_a_plain_drawing():
    panel = a_panel()
    panel.slider("slope").value = 7000
    panel._canvas.figure.canvas.draw()          # draws everything but the moving artists
    ground = np.asarray(panel._canvas.figure.canvas.buffer_rgba())[..., :3].astype(int)
    frame = pixels(panel.picture.value)
    # only the line differs from the ground; the palette moves white by 3 of 255
    assert (np.abs(frame - ground).max(axis=-1) > 8).mean() < 0.05
    assert frame.shape == (200, 300, 3)


def test_a_line_drawing_is_packed_in_a_palette_that_shifts_no_colour_visibly():
    panel = a_panel()
    panel.slider("slope").value = 7000
    true_colours = np.asarray(panel._canvas.figure.canvas.buffer_rgba())[..., :3].astype(int)
    # the palette comes from the first frame, where the line has other soft edges: a few of these move
    shift = np.abs(pixels(panel.picture.value) - true_colours)
    assert shift.max() <= 64 and (shift > 16).mean() < 1e-3


def test_a_picture_of_many_colours_keeps_them_all():
    figure = new_figure(width=2, height=2)
    axes = figure.add_axes((0, 0, 1, 1))
    image = axes.imshow(np.arange(40_000).reshape(200, 200), cmap="viridis", interpolation="bilinear", animated=True)
    true_colours = canvas.Canvas(figure, lambda data: [image])
    data = np.random.default_rng(1).integers(0, 255, (200, 200, 3), dtype=np.uint8)
    image.set_data(data)
    shown = pixels(true_colours.frame(None, "noise"))
    assert (shown == np.asarray(figure.canvas.buffer_rgba())[..., :3]).all()


def test_a_text_that_stays_is_the_picture_that_is_written_plainly():
    often = two_texts()
    for words in (("μ₀", "8.7 kΩ"), ("μ₀", "8.7 kΩ"), ("μ₀", "9.1 kΩ"), ("", "9.1 kΩ"), ("", "9.1 kΩ")):
        frame, plain = drawn(often, words), two_texts()
        for artist in plain._draw(words):
            artist.set_animated(False)
        plain.figure.canvas.draw()
        # half-covered points may be rounded the other way
        assert np.abs(frame - np.asarray(plain.figure.canvas.buffer_rgba())).max() <= 1, words


def test_a_still_between_frames_leaves_no_old_text_behind(shown):
    often = two_texts()
    drawn(often, ("three", "four"))
    often.still(("one", "two"), "words")
    assert (drawn(often, ("one", "two")) == drawn(two_texts(), ("one", "two"))).all()


def test_coming_back_gives_the_first_picture_again():
    panel = a_panel()
    first = panel.picture.value
    for value in (5000, 8000, 2000):
        panel.slider("slope").value = value
    assert panel.picture.value == first


def test_a_state_for_paper_has_values_read_outs_words_and_a_drawing():
    panel = a_panel()
    first, steep = panel.at(), panel.at(slope=8.0)
    assert (first.values, steep.values) == ({"slope": "2000 mm"}, {"slope": "8000 mm"})
    assert steep.readouts == {"slope": "8.0 m"} and steep.alt == "A straight line of slope 8.0"
    assert b"<svg" in steep.picture and steep.picture not in (first.picture, b"")
    assert panel.at(slope=8.0) == steep and panel.rows["slope"].value == 2000
    with pytest.raises(ValueError, match="name of a value must be one of 'slope'; got 'tilt'."):
        panel.at(tilt=1)
    with pytest.raises(ValueError, match="slope must be at most 8; got 9."):
        panel.at(slope=9.0)


# ------------------------------------------------------------------ still pictures

@pytest.fixture
def shown(monkeypatch):
    bundles = []
    monkeypatch.setattr(canvas, "display", lambda bundle, raw: bundles.append(bundle))
    monkeypatch.setattr("lessons_lib.page.panel.display", lambda bundle, raw: bundles.append(bundle))
    return bundles


def test_a_still_shows_fixed_numbers_and_leaves_the_panel_alone(shown):
    panel = a_panel()
    before = panel.picture.value
    assert panel.still(slope=6.0) is None
    assert shown[0]["text/plain"] == "A straight line of slope 6.0"
    assert panel.picture.value == before
    panel.slider("slope").value = 6000
    moving, still = pixels(panel.picture.value), pixels(shown[0]["text/html"])
    assert moving.shape == still.shape
    # a palette of 64 colours moves a shade a little, and a still draws the frame over the line where they cross
    assert (np.abs(moving - still).max(axis=-1) < 32).mean() > 0.999


def test_a_still_needs_no_prediction(shown):
    a_panel(sheet=FakeSheet(), prediction="p1").still()
    assert "slope 2.0" in shown[0]["text/plain"]


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
    picture = Image.open(io.BytesIO(data))
    assert picture.mode == "P" and len(picture.getcolors()) <= 64 and picture.info.keys() <= {"transparency"}
    assert len(data) < 30_000
    assert 'width="800" height="400"' in first and "max-width:100%" in first


@pytest.mark.parametrize("empty", ["", "  ", None])
def test_a_figure_without_words_is_refused(empty):
    with pytest.raises(ValueError, match="alt must be a text that says what the figure shows; got"):
        show(new_figure(), empty)


def test_alternative_text_is_escaped():
    assert 'alt="a &quot;b&quot; &lt;c&gt;"' in still_tag(new_figure(width=1, height=1), 'a "b" <c>')
