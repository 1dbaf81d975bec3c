"""Panels without a browser: move a slider, type a number, save a prediction, read what is shown."""
import asyncio
import base64
import html
import io
import re
from types import SimpleNamespace

import numpy as np
import pytest
from PIL import Image

from lessons_lib.exercises import sheet as exercise_sheet
from lessons_lib.panels import canvas
from lessons_lib.panels.canvas import show, still_tag
from lessons_lib.panels.controls import Slider
from lessons_lib.panels.panel import Panel
from lessons_lib.pictures.style import dress, new_figure
from shown import alt


def straight_line(*, slope, offset=0.0):
    if slope > 8:
        raise ValueError(f"slope must be at most 8; got {slope:g}.")
    return {"slope": slope, "offset": offset}


def a_panel(arrays=lambda result, **values: result, **extra):
    """Slope in mm per ... shown as 1000 times its SI value; the picture is a straight line."""
    figure = new_figure(width=3, height=2)
    axes = dress(figure.add_subplot(), x_label="x", y_label="y", x_limits=(0, 1), y_limits=(0, 10))
    line, = axes.plot([0, 1], [0, 0], animated=True)

    def draw(data):
        line.set_ydata([data["offset"], data["offset"] + data["slope"]])
        return [line]

    sliders = extra.pop("sliders", (Slider(name="slope", label="slope", unit="mm", low=1000, high=9000, start=2000,
                                           step=100),))
    return Panel(sliders=sliders, numbers=straight_line, arrays=arrays, figure=figure, draw=draw,
                 readouts=lambda result: {"slope": f"{result['slope']:.1f} m"},
                 alt=lambda result, **values: f"A straight line of slope {result['slope']:.1f}", **extra)


def pixels(tag):
    data = base64.b64decode(re.search(r"base64,([^\"]+)", tag)[1])
    return np.asarray(Image.open(io.BytesIO(data)).convert("RGB")).astype(int)


def words(widget):
    return html.unescape(re.sub("<[^>]+>", "", widget.value)).strip()


class FakeSheet:
    """The part of a sheet that a panel uses."""

    trouble = None

    def __init__(self):
        self.made, self.seen = None, None

    def prediction(self, exercise):
        if exercise != "p1":
            return None
        return SimpleNamespace(question="Which way <does> it go?", options={"a": "up", "b": "down"},
                               seen_question="Which way did it go?", seen_options={"a": "up", "b": "down"},
                               made=self.made, seen=self.seen)

    def predict(self, exercise, choice, sureness, reason):
        if len(reason) > 20:
            return SimpleNamespace(state="cannot be read", text="Write one line.")
        self.made = choice, sureness, reason
        return SimpleNamespace(state="kept", text=f"Your prediction is {choice}. Now look.")

    def saw(self, exercise, choice):
        self.seen = choice
        return SimpleNamespace(state="right", text="That is what the panel shows."
                               if choice == "a" else "Look again: it rises.")


# ------------------------------------------------------------------ sliders and boxes

def test_moving_the_slider_changes_numbers_picture_and_its_words():
    panel = a_panel()
    first = pixels(panel.picture.value)
    panel.slider("slope").value = 5000
    assert words(panel.readout) == "slope: 5.0 m"
    assert alt(panel) == "A straight line of slope 5.0"
    assert panel.rows["slope"].box.value == "5000"
    assert np.abs(pixels(panel.picture.value) - first).max() > 100


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


def two_texts():
    figure = new_figure(width=3, height=2)
    axes = figure.add_axes((0, 0, 1, 1))
    line, = axes.plot([0, 1], [0, 1], animated=True)
    texts = [axes.text(0.1, y, "", animated=True) for y in (0.3, 0.7)]

    def draw(words):
        for text, word in zip(texts, words):
            text.set_text(word)
        return [line, *texts]
    return canvas.Canvas(figure, draw)


def drawn(one, words):
    one.frame(words, "words")
    return np.array(one.figure.canvas.buffer_rgba()).astype(int)


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


def test_a_typed_number_moves_the_slider():
    panel = a_panel()
    panel.rows["slope"].box.value = " 3456,5 "
    assert panel.slider("slope").value == 3456.5
    assert words(panel.readout) == "slope: 3.5 m"
    assert panel.rows["slope"].box.value == "3456.5"


def test_the_page_snapping_the_handle_to_a_step_does_not_change_a_typed_number():
    """The page answers a typed 3456.5 by moving the handle to 3500 and reporting that back, twice."""
    panel = a_panel()
    panel.rows["slope"].box.value = "3456.5"
    for echo in (3500, 3500.0000001):
        panel.slider("slope").value = echo
        assert panel.rows["slope"].box.value == "3456.5" and words(panel.readout) == "slope: 3.5 m"
    for moved in (3600, 3500):                  # a hand on the handle
        panel.slider("slope").value = moved
        assert panel.rows["slope"].box.value == str(moved)


def test_the_page_snapping_the_handle_at_first_does_not_change_the_start():
    """250 lies between two steps of a slider that begins at 50: the page reports the step beside it."""
    called = []
    row = Slider(name="load", label="load", unit="kΩ", low=50, high=2000, start=250, logarithmic=True).row(
        changed=called.append, refused=None)
    row.slider.value = 250.594
    assert row.value == 250 and called == []
    row.slider.value = 265.45
    assert row.value == 265 and called == [row.spec]


def test_a_moved_slider_is_left_where_the_hand_put_it():
    panel = a_panel()
    panel.slider("slope").value = 4000.0000001
    assert panel.slider("slope").value == 4000.0000001 and panel.rows["slope"].box.value == "4000"


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


@pytest.mark.parametrize("typed", ["", "abc", "nan", "inf", "-1e400", "999.9", "9001", "1 2", "0x10", "3000 mm",
                                   "9" * 5000])
def test_a_wrong_number_gives_one_sentence_and_the_last_picture_stays(typed):
    panel = a_panel()
    panel.slider("slope").value = 5000
    before = panel.picture.value, panel.readout.value
    panel.rows["slope"].box.value = typed
    assert words(panel.message).startswith("slope must be a number from 1000 to 9000 mm; got ")
    assert repr(typed[:30])[:-1] in words(panel.message)
    assert len(words(panel.message)) < 120
    assert (panel.picture.value, panel.readout.value) == before
    panel.slider("slope").value = 6000
    assert words(panel.message) == "" and panel.rows["slope"].box.value == "6000"


def test_a_typed_text_cannot_bring_markup():
    panel = a_panel()
    panel.rows["slope"].box.value = "<img src=x>"
    assert "<img" not in panel.message.value and "<img src=x>" in words(panel.message)


def test_a_refusal_of_the_function_is_its_sentence():
    panel = a_panel()
    before = panel.picture.value
    panel.slider("slope").value = 8500
    assert words(panel.message) == "slope must be at most 8; got 8.5."
    assert panel.picture.value == before
    panel.slider("slope").value = 8000
    assert words(panel.message) == ""


def test_a_refusal_while_drawing_is_its_sentence_too():
    def refuse(result, **values):
        raise ValueError("the line must be seen.")
    panel = a_panel(arrays=refuse)
    assert words(panel.message) == "the line must be seen."
    assert words(panel.readout) == "slope: 2.0 m"


def test_a_logarithmic_slider_shows_the_value():
    spec = Slider(name="slope", label="slope", unit="m", low=0.3, high=7, start=2, logarithmic=True)
    panel = a_panel(sliders=(spec,))
    panel.slider("slope").value = 10 ** 0.5
    assert panel.rows["slope"].box.value == "3.16"
    assert words(panel.readout) == "slope: 3.2 m"
    panel.rows["slope"].box.value = "0.3"
    assert panel.slider("slope").value == pytest.approx(0.3)


def test_whole_numbers_stay_whole():
    spec = Slider(name="slope", label="slope", unit="", low=1, high=8, start=2, step=1, whole=True)
    panel = a_panel(sliders=(spec,))
    assert isinstance(panel._values()["slope"], int)
    panel.rows["slope"].box.value = "2.5"
    assert words(panel.message) == "slope must be a whole number from 1 to 8; got '2.5'. The panel still shows 2."


def test_every_control_has_a_label_with_its_unit():
    panel = a_panel()
    assert panel.rows["slope"].box.description == "slope (mm)"
    assert not panel.slider("slope").readout


def test_a_read_out_keeps_the_room_of_its_longest_value():
    panel = a_panel(sliders=(Slider(name="slope", label="slope", unit="mm", low=-9000, high=9000, start=2000,
                                    step=100),))

    def room():
        return re.findall(r"min-width:(\d+)ch", panel.readout.value)
    assert room() == [str(len("2.0 m") + 1)]
    panel.slider("slope").value = -1000
    panel.slider("slope").value = 2000
    assert room() == [str(len("-1.0 m") + 1)]


def test_read_outs_and_sentences_stand_in_status_regions():
    panel = a_panel()
    for region in (panel.readout, panel.message):
        assert 'role="status"' in region.value and 'aria-live="polite"' in region.value


def test_a_slow_picture_waits_for_a_rest_but_the_number_does_not():
    spec = Slider(name="slope", label="slope", unit="m", low=1, high=8, start=2, slow=True)
    drawn = []

    def arrays(result, slope):
        drawn.append(slope)
        return result

    async def hold_a_key():
        panel = a_panel(arrays=arrays, sliders=(spec,))
        for value in (3.0, 4.0, 5.0):
            panel.slider("slope").value = value
            assert words(panel.readout) == f"slope: {value:.1f} m"
        assert drawn == [2.0]
        while len(drawn) == 1:
            await asyncio.sleep(0.01)
        return panel

    panel = asyncio.run(asyncio.wait_for(hold_a_key(), 30))
    assert drawn == [2.0, 5.0]
    assert alt(panel) == "A straight line of slope 5.0"


def test_slow_numbers_wait_for_the_rest_with_the_picture():
    spec = Slider(name="slope", label="slope", unit="m", low=1, high=8, start=2, slow=True)

    async def hold_a_key():
        panel = a_panel(sliders=(spec,), slow_numbers=True)
        for value in (3.0, 4.0, 5.0):
            panel.slider("slope").value = value
            assert words(panel.readout) == "slope: 2.0 m" and words(panel.message) == "Computing."
        while words(panel.message):
            await asyncio.sleep(0.01)
        return panel

    panel = asyncio.run(asyncio.wait_for(hold_a_key(), 30))
    assert words(panel.readout) == "slope: 5.0 m" and alt(panel) == "A straight line of slope 5.0"


# ------------------------------------------------------------------ predictions

def test_the_sliders_wait_for_the_prediction():
    sheet = FakeSheet()
    panel = a_panel(sheet=sheet, prediction="p1")
    assert not panel.started and panel.picture.value == ""
    card = panel.card
    assert words(card.view.children[0]) == "Before you move anything: Which way <does> it go?"
    assert card.choice.value is None and card.sureness.value is None
    assert card.button.description == "Save my prediction"
    card.button.click()
    assert words(card.trouble) == "Still missing: an answer, how sure you are, why you think so."
    card.choice.value, card.sureness.value = "b", 2
    card.button.click()
    assert words(card.trouble) == "Still missing: why you think so." and not panel.started
    card.reason.value = "a guess"
    card.button.click()
    assert panel.started and sheet.made == ("b", 2, "a guess")
    assert [words(line) for line in panel.head.children] == [
        "You expected b) down (leaning this way): a guess", "Your prediction is b. Now look."]
    assert alt(panel) == "A straight line of slope 2.0"


def test_what_the_sheet_does_not_take_is_said_and_the_card_stays():
    panel = a_panel(sheet=FakeSheet(), prediction="p1")
    panel.card.choice.value, panel.card.sureness.value, panel.card.reason.value = "a", 1, "x" * 30
    panel.card.button.click()
    assert words(panel.card.trouble) == "Write one line." and not panel.started


def test_a_kept_prediction_opens_the_panel_again():
    sheet = FakeSheet()
    sheet.made = "a", 3, "<b>sure</b>"
    panel = a_panel(sheet=sheet, prediction="p1")
    assert panel.started
    assert words(panel.head.children[0]).endswith("(would bet on it): <b>sure</b>")


def test_what_was_seen_gets_its_sentence_and_is_kept():
    sheet = FakeSheet()
    sheet.made = "a", 3, "sure"
    panel = a_panel(sheet=sheet, prediction="p1")
    panel.card.button.click()
    assert words(panel.card.answer) == "First choose what you saw."
    panel.card.choice.value = "b"
    panel.card.button.click()
    assert words(panel.card.answer) == "Look again: it rises."
    again = a_panel(sheet=sheet, prediction="p1")
    assert again.card.choice.value == "b"


def test_presenting_opens_without_predictions(monkeypatch):
    monkeypatch.setattr(exercise_sheet, "_presenting", True)
    panel = a_panel(sheet=FakeSheet(), prediction="p1")
    assert panel.started and panel.card is None and panel.head.children == ()


def test_a_sheet_in_trouble_says_why_and_the_panel_opens():
    sheet = FakeSheet()
    sheet.trouble = SimpleNamespace(text="No bench yet.")
    panel = a_panel(sheet=sheet, prediction="p9")
    assert panel.started and words(panel.head.children[0]) == "No bench yet."


def test_without_a_sheet_the_panel_opens_at_once():
    assert a_panel(prediction="p1").started


# ------------------------------------------------------------------ still pictures

@pytest.fixture
def shown(monkeypatch):
    bundles = []
    monkeypatch.setattr(canvas, "display", lambda bundle, raw: bundles.append(bundle))
    monkeypatch.setattr("lessons_lib.panels.panel.display", lambda bundle, raw: bundles.append(bundle))
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
