"""The panels of the whole pickup: the lessons' numbers, ends of sliders, words in the picture, what is told, files."""
import math
import re
from dataclasses import replace

import numpy as np
import pytest

from lessons_lib.base.units import said
from lessons_lib.course.read_page import PanelCell, StillPanel, read_page
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_04.window import winding
from lessons_lib.lessons.lesson_05.model import fret_measures
from lessons_lib.lessons.lesson_06.model import response
from lessons_lib.lessons.whole_pickup import panels
from lessons_lib.lessons.whole_pickup.changes import changes
from lessons_lib.lessons.whole_pickup.model import whole_pickup
from lessons_lib.lessons.whole_pickup.settings import PRESETS, Settings, read_settings, save_settings
from notebooks import LIVE, WHOLE, read, tidy
from shown import alt, message, words
from test_panels_all import assert_all_is_said, ends
from test_panels_words import assert_words_are_inside_and_apart

MAKERS = {"whole_pickup": panels.whole_pickup, "first_look": panels.first_look}


@pytest.fixture(scope="module", params=MAKERS)
def panel(request):
    return MAKERS[request.param]()


def in_a_page(panel):
    assert panel.board.made     # what shows it asks for its widgets
    return panel


def shown_words(panel):
    return dict(panel.board.frame["shown"])


def at(**values):
    return panels.whole_pickup().at(**values).readouts


# ---- numbers ---------------------------------------------------------------------------------------------------------

@pytest.mark.parametrize("changed", [{}, {"cable": 1500e-12, "turns": 5000}, {"tone_setting": 0.2, "gauge": 42}])
def test_the_peak_of_the_response_is_that_of_lesson_6(changed):
    there, here = response(**changed), at(**changed)
    assert here["response peak"] == (said(there.peak[0], "kHz", ".2f") if there.peak else "no peak")
    assert here["coil"] == f"{said(there.inductance, 'H', '.2f')}, {said(there.resistance, 'kΩ', '.2f')}"


def test_the_room_for_turns_is_that_of_lesson_4():
    there = winding(turns=12000, gauge=42)
    assert at(turns=12000, gauge=42)["room for"] == f"{there.turns_that_fit} turns, too few"


@pytest.mark.parametrize("fret, string", [(0, "VI"), (12, "III")])
def test_the_speed_of_the_string_is_that_of_lesson_5(fret, string):
    there = fret_measures(fret=fret, string=string, pluck_place=0.1, pickup_place=0.15, rule="force", hand="place")
    speed = float(at(fret=fret, string=string)["string speed"].removesuffix(" m/s"))
    assert speed == pytest.approx(there.value("velocity", "peak"), abs=0.006)      # two decimals


def test_it_begins_with_the_workshops_pickup_and_every_preset_is_one_click():
    panel = panels.whole_pickup()
    assert panel.result is whole_pickup(Settings())
    for name, settings in PRESETS.items():
        panel.asked(**panel.board.made["presets"][name])
        assert message(panel) == "" and panel.result.peak == pytest.approx(whole_pickup(settings).peak), name


def test_what_one_begins_from_is_told_against_the_workshops():
    """One preset after the other: each has one cause, not the two that lie between them."""
    panel = panels.whole_pickup()
    for name in PRESETS:
        panel.asked(**panel.board.made["presets"][name])
        panel._heard(None, {"wish": "told"}, None)
        assert "Several things" not in panel.board.told.get("words", ""), name
    assert panel.board.told["words"].startswith("String VI instead of string III")


# ---- every slider ----------------------------------------------------------------------------------------------------

def test_words_are_inside_and_apart(panel):
    assert_words_are_inside_and_apart(panel)


def test_every_end_of_every_slider_is_shown_in_words_and_in_the_picture(panel):
    first = panel.board.frame["pieces"]
    for name, spec in panel.specs.items():
        for end in ends(spec):
            panel.asked(**{name: end})
            assert_all_is_said(panel)
            seen = panel.board.frame["pieces"] != first or panel.board.frame["shown"] != first_shown(panel)
            assert seen == (end != spec.start and name != "wrap"), (name, end)      # string III has no wrap
        panel.asked(**{name: spec.described()["start"]})
        assert panel.board.frame["pieces"] == first


def first_shown(panel):
    return list(panel._words(panel._compute(**panel._first())).items())


@pytest.mark.parametrize("away", [
    {}, {"form": "screws"}, {"direction": 1.0, "aside": 2e-3}, {"string": "VI", "fret": 9}])
def test_films_can_be_sent(away):
    panel = panels.whole_pickup()
    values = panel._first() | away
    film = panel._film(panel._compute(**values), **values).described(panel._drawing)
    assert len(film["frames"]) == 24 and sum(len(one) for slot in film["slots"] for one in slot) < 150_000


def test_the_film_moves_string_and_dots_and_leaves_the_curves():
    panel = panels.whole_pickup()
    slots = panel._film(panel.result).described(panel._drawing)["slots"]
    moved = [len(slot) for slot in slots if len(slot) > 1]
    assert max(moved) == 24 and min(moved) >= 2 and 5 < len(moved) < len(slots) / 2


def test_the_loudest_settings_can_be_played():
    panel = panels.whole_pickup()
    loud = panel._first() | {"height": 2e-3, "force": 2.0, "turns": 12000, "gauge": 40, "grade": "alnico 8",
                             "diameter": 6e-3, "length": 20e-3, "pluck_place": 0.18, "pickup_place": 0.06,
                             "cable": 1000e-12}
    assert panel._compute(**loud).peak > 0.9
    assert panel._sound(panel._compute(**loud), **loud).players().count("<audio") == 1


def test_silence_is_told_in_a_sentence():
    panel = in_a_page(panels.whole_pickup())
    panel.asked(force=0)
    panel._heard(None, {"wish": "sound"}, [])
    assert message(panel).startswith("peak at the amplifier must be more than 0 to be heard; got '0 mV'")


# ---- told ------------------------------------------------------------------------------------------------------------

def test_what_is_told_is_what_the_model_says():
    panel = in_a_page(panels.whole_pickup())
    panel.asked(height=4)
    panel._heard(None, {"wish": "told"}, [])
    assert panel.board.told["words"] == changes(Settings(), Settings(height=4e-3))
    assert panel.board.told["words"].endswith("lesson 4.")


def test_screws_have_no_use_for_a_rods_sizes():
    panel = panels.whole_pickup()
    panel.asked(form="screws", length=17.0)
    panel._heard(None, {"wish": "told"}, [])
    before = shown_words(panel)
    panel.asked(length=12)
    panel._heard(None, {"wish": "told"}, [])
    assert shown_words(panel) == before and panel.board.told["words"].startswith("Nothing changes: the poles are")


# ---- a file ----------------------------------------------------------------------------------------------------------

def test_what_is_shown_is_saved_and_opens_again(tmp_path, capsys):
    panel = panels.whole_pickup()
    panel.asked(height=3.3, string="VI", tone_setting=35, direction=30, form="screws")
    panels.save_pickup(panel, tmp_path / "mine.toml")
    assert capsys.readouterr().out == f"{tmp_path / 'mine.toml'} holds what the panel shows.\n"
    again = panels.whole_pickup(tmp_path / "mine.toml")
    assert dict(again.values) == dict(panel.values)
    assert again.result.peak == pytest.approx(panel.result.peak, rel=1e-9)


def test_a_magnet_and_a_string_of_ones_own_come_with_their_file(tmp_path):
    own = Settings(grade="own", remanence=1.2, string="own", frequency=110.0)
    save_settings(own, tmp_path / "own.toml")
    panel = panels.whole_pickup(tmp_path / "own.toml")
    assert (panel.values["grade"], panel.values["string"]) == ("own", "own")
    assert panel.result.peak == pytest.approx(whole_pickup(read_settings(tmp_path / "own.toml")).peak)
    assert "own" not in panels.whole_pickup().specs["grade"].options


@pytest.mark.parametrize("text, sentence", [
    (None, "cannot be opened: No such file or directory."), ("what?", "cannot be read: "),
    ('name = "mine"\n[coil]\nturns = 5', "[coil] turns must be a whole number from 1000 to 12000; got 5.")])
def test_a_wrong_file_is_one_sentence_and_the_workshops_pickup(tmp_path, text, sentence):
    if text is not None:
        (tmp_path / "mine.toml").write_text(text, encoding="utf-8")
    panel = panels.whole_pickup(tmp_path / "mine.toml")
    assert panel.started
    note = words(panel.head.children[0])
    assert sentence in note and note.endswith("This is the workshop's pickup.")
    assert panel.result is whole_pickup(Settings())


# ---- the page --------------------------------------------------------------------------------------------------------

def test_the_page_is_stored_and_needs_no_card_and_no_sheet():
    stored = read(WHOLE)
    assert tidy(read(WHOLE)) == stored, "run tests/store_notebooks.py whole"
    code = "\n".join(cell.source for cell in stored.cells if cell.cell_type == "code")
    assert "sheet" not in code and "use_card" not in code
    live = [cell for cell in stored.cells if LIVE in cell.metadata.get("tags", [])]
    assert len(live) == 1 and "pickup = panels.whole_pickup()" in live[0].source
    assert [type(cell) for cell in read_page(stored) if isinstance(cell, (PanelCell, StillPanel))] == [StillPanel]


def test_what_the_page_names_is_on_the_panel():
    text = "\n".join(cell.source for cell in read(WHOLE).cells if cell.cell_type == "markdown")
    labels = {spec.label for spec in panels.whole_pickup().specs.values()}
    tried = re.findall(r"^\d\. \*\*(.+?)\*\*", text, re.MULTILINE)
    assert len(tried) == 6 and set(re.findall(r"\*\*([a-z ]+)\*\*", text)) <= labels


def bands(**changed):
    """Power of the harmonics below 500 Hz and above 2 kHz, dB; and the first five."""
    one = whole_pickup(replace(Settings(), **changed))
    level, frequency = one.levels[1], one.harmonics.frequency
    low, high = (10 * np.log10(np.sum(10 ** (level[part] / 10))) for part in (frequency < 500, frequency > 2000))
    return low, high, level[:5]


def test_the_page_says_what_there_is_to_hear():
    low, high, first = bands()
    far = bands(height=6e-3)
    assert low - far[0] == pytest.approx(high - far[1], abs=0.5) and low - far[0] > 9   # low end as high end
    near = bands(pickup_place=0.05)
    assert near[0] < low - 5 and near[1] > high - 2                                         # the bass goes
    falls = first - bands(direction=math.pi / 2)[2]
    assert falls[0] > 25 and falls[0] > falls[1] > falls[2] > falls[3]                      # the low dots fall most
    assert bands(turns=12000, cable=1500e-12)[0] > bands(cable=1500e-12)[0] + 3             # louder in the bass
    assert bands(turns=12000, cable=1500e-12)[1] < bands(cable=1500e-12)[1] - 1             # less treble with a cable,
    assert bands(turns=12000, cable=0.0)[1] > bands(cable=0.0)[1]                           # but not without
    loud, weak = (whole_pickup(replace(Settings(), **one)).peak for one in (
        {"height": 2e-3, "force": 2.0}, {"height": 6e-3, "force": 0.2}))
    assert 20 * math.log10(loud / weak) > 20
    octave, open_string = (whole_pickup(replace(Settings(), fret=fret)) for fret in (12, 0))
    assert octave.peak / open_string.peak < 1.25 < 10 ** ((octave.levels[1][0] - open_string.levels[1][0]) / 20)
    screws, ferrite, house = (whole_pickup(replace(Settings(), **one)) for one in (
        {"form": "screws"}, {"grade": "ferrite"}, {}))
    assert screws.peak == pytest.approx(house.peak, rel=0.05) and ferrite.peak < 0.7 * house.peak
    assert screws.response_peak[0] < 0.75 * house.response_peak[0]


def test_the_stored_picture_has_its_words():
    pictures = [output["data"]["text/html"] for cell in read(WHOLE).cells if cell.cell_type == "code"
                for output in cell.outputs]
    assert len(pictures) == 1 and f'alt="{alt(panels.whole_pickup(instrument=house_instrument))}"' in pictures[0]
