"""What holds of every panel of every lesson: first values, both ends of each control, words of the picture."""
import importlib
import re
from functools import cache
from pathlib import Path

import pytest
from ipywidgets.widgets.widget import _instances as widgets

from lessons_lib.base.workshop import house_coil, house_place
from lessons_lib.handouts.figures import open_panel
from lessons_lib.page.controls import Slider
from shown import alt, panel_makers, words

FOLDER = Path(importlib.import_module("lessons_lib.lessons").__path__[0])
LESSONS = sorted(path.parent.name[-2:] for path in FOLDER.glob("lesson_[0-9][0-9]/panels.py"))
AWAY = {"over_the_frets": {"fret": 7}}      # on the open string all rules agree: start elsewhere

# the workshop's values as controls show them, in the unit of each; and the panels that begin with something else
HOUSE = {
    "diameter": 5, "length": 17, "remanence": 0.75, "recoil_permeability": 3.6, "permeance_coefficient": 7.76,
    "coercivity": 51, "core": 0.46, "height": 1e3 * house_place["string_height"], "look": 2.5, "offset": 0,
    "direction": 0, "turns": house_coil["turns"], "gauge": 44, "string": "VI", "pluck_place": 100,
    "pickup_place": 1e3 * house_place["pickup_place"], "fret": 0, "rule": "force", "own": 100, "cable": 500,
    "volume": 250, "tone": 500, "amplifier": 1000, "volume_setting": 100, "tone_setting": 100, "capacitance": 100,
    "raised": 0, "bend": 0, "third": "III", "uneven": 0, **dict.fromkeys(("VI", "V", "IV", "III", "II", "I"), 0)}
OTHERS = {"shorter_string": {"length": 600}, "adding_up": {"height": 1}, "load_line": {"remanence": 1.28},
          "saturation": {"core": 0.25}}

NAMES = [(lesson, name) for lesson in LESSONS for name in panel_makers(lesson)]


@cache
def made(lesson, name):
    return panel_makers(lesson)[name]()


@pytest.fixture(params=NAMES, ids=lambda one: f"{one[0]} {one[1]}")
def panel(request):
    one = made(*request.param)
    yield one
    for row in one.rows.values():
        row.slider.value = row.spec.start


def panel_name(panel):
    return next(name for lesson, name in NAMES if made(lesson, name) is panel)


def ends(spec):
    return (spec.low, spec.high) if isinstance(spec, Slider) else tuple(spec.options.values())


def assert_all_is_said(panel):
    for text in (words(panel.readout), alt(panel)):
        assert text and not re.search(r"\bnan\b|\binf\b|[{}]", text)
    assert words(panel.message) == ""


def test_every_lesson_has_panels():
    assert {lesson for lesson, _ in NAMES} == set(LESSONS) >= {f"0{number}" for number in range(9)}


def test_handouts_know_the_panels_of_every_lesson():
    assert {(lesson, name): open_panel(lesson, name, None).prediction for lesson, name in NAMES} == {
        (lesson, name): made(lesson, name).prediction for lesson, name in NAMES}
    with pytest.raises(ValueError, match="Lesson 09 shows the panel new_one, but its panels are not known to handouts"):
        open_panel("09", "new_one", None)


def test_each_panel_opens_at_the_house_values(panel):
    assert panel.started and words(panel.message) == ""
    house = HOUSE | OTHERS.get(panel_name(panel), {})
    shown = {name: row.value for name, row in panel.rows.items() if name in house}
    assert shown == {name: house[name] for name in shown}


def test_each_house_value_is_that_of_a_panel():
    assert HOUSE.keys() <= {control for lesson, name in NAMES for control in made(lesson, name).rows}
    assert (house_place["string_height"], house_place["pickup_place"], house_coil["turns"]) == (2.5e-3, 0.150, 7600)


def test_every_control_goes_to_both_ends(panel):
    for row in panel.rows.values():
        for end in ends(row.spec):
            row.slider.value = end
            assert_all_is_said(panel)
        row.slider.value = row.spec.start


def test_all_extremes_at_once(panel):
    for side in (0, -1):
        for row in panel.rows.values():
            row.slider.value = ends(row.spec)[side]
        assert_all_is_said(panel)


def test_closing_leaves_no_widget(panel):
    panel.close()
    before = len(widgets)
    assert panel.view and len(widgets) > before
    panel.close()
    assert len(widgets) == before


def test_another_value_gives_another_picture_and_back_the_same(panel):
    for name, value in AWAY.get(panel_name(panel), {}).items():
        panel.rows[name].slider.value = value
    for row in panel.rows.values():
        before, value = panel.picture.value, row.slider.value
        row.slider.value = next(end for end in ends(row.spec) if end != value)
        assert panel.picture.value != before, row.spec.name
        row.slider.value = value
        assert panel.picture.value == before


def test_a_step_asks_for_its_numbers_once(panel, monkeypatch):
    asked, numbers = [], panel._numbers
    monkeypatch.setattr(panel, "_numbers", lambda **values: asked.append(values) or numbers(**values))
    for count, row in enumerate(panel.rows.values(), start=1):
        row.slider.value = next(end for end in ends(row.spec) if end != row.slider.value)
        assert len(asked) == count


def test_a_typed_number_does_what_the_slider_does(panel):
    for row in panel.rows.values():
        if isinstance(row.spec, Slider):
            row.box.value = f"{row.spec.high:g}"
            assert row.value == pytest.approx(row.spec.high) and words(panel.message) == ""


def test_the_words_of_a_picture_hold_three_values_that_the_panel_shows(panel):
    shown = words(panel.readout) + " ".join(row.spec.shown(row.value) for row in panel.rows.values()
                                            if isinstance(row.spec, Slider))
    values = {value for value in re.findall(r"\d+\.\d+|\d{2,}", shown) if value in alt(panel)}
    assert len(values) >= min(3, 1 + len(panel.rows)), (shown, alt(panel))
