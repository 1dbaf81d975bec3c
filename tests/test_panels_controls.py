"""A panel's sliders and boxes without a browser: move one, type a number, read what is shown."""
import asyncio
import re

import numpy as np
import pytest

from lessons_lib.page.controls import Slider
from shown import alt, words
from small_panel import a_panel, pixels


def test_moving_the_slider_changes_numbers_picture_and_its_words():
    panel = a_panel()
    first = pixels(panel.picture.value)
    panel.slider("slope").value = 5000
    assert words(panel.readout) == "slope: 5.0 m"
    assert alt(panel) == "A straight line of slope 5.0"
    assert panel.rows["slope"].box.value == "5000"
    assert np.abs(pixels(panel.picture.value) - first).max() > 100


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
