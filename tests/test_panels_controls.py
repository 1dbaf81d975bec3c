"""A panel's steps without a browser: move a slider, type a number, read what is shown."""
import re

import numpy as np
import pytest

from lessons_lib.page.controls import Choice, Slider
from lessons_lib.page.grips import Grip
from lessons_lib.pictures.style import new_figure
from shown import alt, message, pieces, readouts
from small_panel import a_keeping_panel, a_panel

KIND = Choice(name="kind", label="kind", options={"of steel": "steel", "of brass": None}, start="steel")


def heard(panel, **content):
    """What the page sends."""
    panel._heard(None, content, [])


def test_a_step_changes_words_picture_and_its_words():
    panel = a_panel()
    first = pieces(panel)
    panel.asked(slope=5000)
    assert readouts(panel) == "rise: 5.0 m"
    assert alt(panel) == "A straight line that rises by 5.0 m, 5000 mm a step"
    assert pieces(panel) != first and panel.board.frame["values"] == {"slope": "5000"}


def test_the_page_sends_many_values_in_one_message():
    width = Slider(name="offset", label="offset", unit="mm", low=0, high=9, start=1, step=0.5)
    panel = a_panel(sliders=(*a_panel().specs.values(), width))
    before = panel.board.frame["count"]
    heard(panel, wish="values", values={"slope": 5000.0, "offset": 2.04})
    assert panel.values == {"slope": 5000, "offset": 2.0} and panel.board.frame["count"] == before + 1


def test_a_typed_number_moves_the_slider():
    panel = a_panel()
    panel.asked(slope=" 3456,5 ")
    assert panel.values["slope"] == panel.board.frame["numbers"]["slope"] == 3456.5
    assert readouts(panel) == "rise: 3.5 m" and panel.board.frame["values"]["slope"] == "3456.5"


def test_a_start_between_two_steps_is_kept_and_found_again():
    load = Slider(name="slope", label="slope", unit="m", low=0.5, high=7, start=2.345678, logarithmic=True)
    panel = a_panel(sliders=(load,))
    assert panel.board.frame["values"]["slope"] == load.described()["start"] == "2.34568"
    panel.asked(slope=3.0)
    panel.asked(slope=load.described()["start"])
    assert panel.values["slope"] == pytest.approx(2.345678, abs=1e-5)


@pytest.mark.parametrize("typed", ["", "abc", "nan", "inf", "-1e400", "999.9", "9001", "1 2", "0x10", "3000 mm",
                                   "9" * 5000])
def test_a_wrong_number_gives_one_sentence_and_the_last_picture_stays(typed):
    panel = a_panel()
    panel.asked(slope=5000)
    before = pieces(panel), readouts(panel)
    panel.asked(slope=typed)
    assert message(panel).startswith("slope must be a number from 1000 to 9000 mm; got ")
    assert message(panel).endswith(" The panel still shows 5000.")
    assert repr(typed[:30])[:-1] in message(panel)
    assert len(message(panel)) < 120
    assert (pieces(panel), readouts(panel)) == before
    assert panel.board.frame["values"] == {"slope": "5000"}
    panel.asked(slope=6000)
    assert message(panel) == "" and panel.board.frame["values"] == {"slope": "6000"}


def test_a_refusal_of_the_function_is_its_sentence():
    panel = a_panel()
    before = pieces(panel)
    panel.asked(slope=8500)
    assert message(panel) == "slope must be at most 8; got 8.5."
    assert pieces(panel) == before
    panel.asked(slope=8000)
    assert message(panel) == ""


def test_a_refusal_while_drawing_is_its_sentence_too():
    def refuse(*_, **__):
        raise ValueError("the line must be seen.")
    panel = a_panel(data=refuse)
    assert message(panel) == "the line must be seen."


def test_every_step_is_answered_or_the_page_would_wait():
    panel = a_panel()
    counts = []
    for value in (3000, 3000, "no", 8500, 3000):
        heard(panel, wish="values", values={"slope": value})
        counts.append(panel.board.frame["count"])
    assert np.diff(counts).tolist() == [1] * 4


def test_a_logarithmic_slider_shows_the_value():
    spec = Slider(name="slope", label="slope", unit="m", low=0.3, high=7, start=2, logarithmic=True)
    panel = a_panel(sliders=(spec,))
    panel.asked(slope=10 ** 0.5)
    assert panel.board.frame["values"]["slope"] == "3.16" and readouts(panel) == "rise: 3.2 m"
    assert spec.described()["step"] == 1 / 40 and spec.described()["high"] == np.log10(7)


def test_whole_numbers_stay_whole():
    spec = Slider(name="slope", label="slope", unit="", low=1, high=8, start=2, step=1, whole=True)
    panel = a_panel(sliders=(spec,))
    assert isinstance(panel._si()["slope"], int)
    panel.asked(slope="2.5")
    assert message(panel) == "slope must be a whole number from 1 to 8; got '2.5'. The panel still shows 2."


def test_words_are_chosen_and_nothing_else():
    assert KIND.taken("of brass") is None and KIND.taken("steel") == "steel" and KIND.described()["start"] == "of steel"
    with pytest.raises(ValueError, match="kind must be one of of steel, of brass; got 'of wood'."):
        KIND.taken("of wood")


# ---- a setting that is kept, others to begin from, what a change did ---------------------------------------------

def in_a_page(panel):
    assert panel.board.made     # what shows it asks for its widgets
    return panel


def test_a_kept_setting_stays_beside_the_present_one():
    panel = in_a_page(a_keeping_panel())
    panel.asked(slope=5000)
    kept = pieces(panel)
    heard(panel, wish="keep")
    panel.asked(slope=3000)
    assert panel.board.kept == {"pieces": kept, "said": "5.0 m", "values": {"slope": "5000"}}
    heard(panel, wish="values", values=panel.board.kept["values"])
    assert panel.values["slope"] == 5000 and pieces(panel) == kept
    heard(panel, wish="let go")
    assert panel.board.kept == {}


def test_what_is_kept_is_what_is_shown_even_where_the_last_wish_was_refused():
    panel = in_a_page(a_keeping_panel())
    panel.asked(slope=5000)
    panel.asked(slope=8500)
    heard(panel, wish="keep")
    assert panel.board.kept["values"] == {"slope": "5000"} and panel.board.kept["said"] == "5.0 m"


def test_the_kept_setting_sounds_beside_the_present_one_on_one_scale():
    panel = in_a_page(a_keeping_panel())
    heard(panel, wish="sound")
    assert panel.board.sound["players"].count("<figure") == 1
    heard(panel, wish="keep")
    panel.asked(slope=4000)
    heard(panel, wish="sound")
    players = panel.board.sound["players"]
    levels = re.findall(r"<figcaption>(now|kept): a tone \(0.2 s, peak (−?\d+) dB", players)
    # 20 log10(2) = 6 dB apart, as the slopes 4 and 2 are
    assert [name for name, _ in levels] == ["now", "kept"]
    assert int(levels[0][1].replace("−", "-")) - int(levels[1][1].replace("−", "-")) == 6


def test_settings_to_begin_from_are_texts_that_sliders_take():
    panel = in_a_page(a_keeping_panel())
    assert panel.board.made["presets"] == {"flat": {"slope": "1000"}, "steep": {"slope": "7000"}}
    heard(panel, wish="values", values=panel.board.made["presets"]["steep"])
    assert panel.values["slope"] == 7000


def test_a_change_is_told_from_where_the_hand_rested_last():
    panel = in_a_page(a_keeping_panel())
    panel.asked(slope=3000)
    panel.asked(slope=4000)
    heard(panel, wish="told")
    assert panel.board.told["words"] == "From 2 to 4."
    heard(panel, wish="told")
    assert panel.board.told["words"] == "From 2 to 4."      # nothing new
    for value in (5000, 4000):      # there and back before the hand rests: what was said holds of what is shown
        panel.asked(slope=value)
    heard(panel, wish="told")
    assert panel.board.told == {"words": "From 2 to 4.", "count": panel.board.frame["count"]}
    panel.asked(slope=1000)
    heard(panel, wish="told")
    assert panel.board.told["words"] == "From 4 to 1."


def test_what_is_kept_goes_with_the_panel():
    panel = in_a_page(a_keeping_panel())
    heard(panel, wish="keep")
    panel.close()
    assert panel.board.kept == {} and panel._kept is None


# ---- what can be taken hold of ----------------------------------------------------------------------------------

def test_a_grip_follows_its_slider_and_knows_the_value_of_a_place():
    axes = new_figure(width=1, height=2).add_axes((0, 0, 1, 1), xlim=(0, 72), ylim=(0, 144))
    slope = a_panel().specs["slope"]
    grip = Grip(axes, x="slope", x_of=lambda value: 72 - value / 1000, at=lambda shown: (0, 10))
    place = grip.described({"slope": slope}, {"slope": 4000})
    assert (place["x"], place["y"]) == (68.0, 134.0) and "along_y" not in place
    along = place["along_x"]
    assert along["name"] == "slope" and (along["low"], along["step"]) == (1000, 100)
    np.testing.assert_allclose(np.interp(-65.5, -np.array(along["places"]), along["values"]), 6500, atol=10)


def test_a_grip_refuses_a_slider_of_uneven_steps():
    axes = new_figure(width=1, height=1).add_axes((0, 0, 1, 1))
    load = Slider(name="load", label="load", unit="kΩ", low=50, high=500, start=100, logarithmic=True)
    with pytest.raises(ValueError, match="a grip must move a slider with even steps; got 'load'."):
        Grip(axes, x="load").described({"load": load}, {"load": 100})
