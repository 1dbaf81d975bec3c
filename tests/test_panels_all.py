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
from shown import alt, message, panel_makers, pieces, readouts

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
          "magnet_or_coil": {"turns": 2000},
          "saturation": {"core": 0.25}}

NAMES = [(lesson, name) for lesson in LESSONS for name in panel_makers(lesson)]


@cache
def made(lesson, name):
    return panel_makers(lesson)[name]()


@pytest.fixture(params=NAMES, ids=lambda one: f"{one[0]} {one[1]}")
def panel(request):
    one = made(*request.param)
    yield one
    start_again(one)


def start_again(panel):
    panel.asked(**{name: spec.described()["start"] for name, spec in panel.specs.items()})


def panel_name(panel):
    return next(name for lesson, name in NAMES if made(lesson, name) is panel)


def ends(spec):
    return (spec.low, spec.high) if isinstance(spec, Slider) else tuple(spec.options.values())


def assert_all_is_said(panel):
    for text in (readouts(panel), alt(panel)):
        assert text and not re.search(r"\bnan\b|\binf\b|[{}]", text)
    assert message(panel) == ""


def test_every_lesson_has_panels():
    assert {lesson for lesson, _ in NAMES} == set(LESSONS) >= {f"0{number}" for number in range(9)}


def test_handouts_know_the_panels_of_every_lesson():
    assert {(lesson, name): open_panel(lesson, name, None).prediction for lesson, name in NAMES} == {
        (lesson, name): made(lesson, name).prediction for lesson, name in NAMES}
    with pytest.raises(ValueError, match="Lesson 09 shows the panel new_one, but its panels are not known to handouts"):
        open_panel("09", "new_one", None)


def test_each_panel_opens_at_the_house_values(panel):
    assert panel.started and message(panel) == ""
    house = HOUSE | OTHERS.get(panel_name(panel), {})
    shown = {name: value for name, value in panel.values.items() if name in house}
    assert shown == {name: house[name] for name in shown}


def test_each_house_value_is_that_of_a_panel():
    assert HOUSE.keys() <= {control for lesson, name in NAMES for control in made(lesson, name).specs}
    assert (house_place["string_height"], house_place["pickup_place"], house_coil["turns"]) == (2.5e-3, 0.150, 7600)


def test_every_control_goes_to_both_ends(panel):
    for name, spec in panel.specs.items():
        for end in ends(spec):
            panel.asked(**{name: end})
            assert_all_is_said(panel)
        start_again(panel)


def test_all_extremes_at_once(panel):
    for side in (0, -1):
        for name, spec in panel.specs.items():
            panel.asked(**{name: ends(spec)[side]})
        assert_all_is_said(panel)


def test_closing_leaves_no_widget(panel):
    panel.close()
    before = len(widgets)
    assert panel.view and len(widgets) > before
    panel.close()
    assert len(widgets) == before


def test_another_value_gives_another_picture_and_back_the_same(panel):
    panel.asked(**AWAY.get(panel_name(panel), {}))
    for name, spec in panel.specs.items():
        before, value = (pieces(panel), alt(panel)), panel.values[name]
        panel.asked(**{name: next(end for end in ends(spec) if end != value)})
        assert (pieces(panel), alt(panel)) != before, name
        panel.asked(**{name: spec.shown(value)})
        assert (pieces(panel), alt(panel)) == before


def test_a_step_computes_once(panel, monkeypatch):
    asked, compute = [], panel._compute
    monkeypatch.setattr(panel, "_compute", lambda **values: asked.append(values) or compute(**values))
    for count, (name, spec) in enumerate(panel.specs.items(), start=1):
        panel.asked(**{name: next(end for end in ends(spec) if end != panel.values[name])})
        assert len(asked) == count


def test_a_typed_number_does_what_the_slider_does(panel):
    for name, spec in panel.specs.items():
        if isinstance(spec, Slider):
            panel.asked(**{name: f"{spec.high:g}"})
            assert panel.values[name] == pytest.approx(spec.high) and message(panel) == ""


def test_the_words_of_a_picture_hold_three_values_that_the_panel_shows(panel):
    shown = readouts(panel) + " ".join(spec.shown(panel.values[name]) for name, spec in panel.specs.items()
                                       if isinstance(spec, Slider))
    values = {value for value in re.findall(r"\d+\.\d+|\d{2,}", shown) if value in alt(panel)}
    assert len(values) >= min(3, 1 + len(panel.specs)), (shown, alt(panel))
