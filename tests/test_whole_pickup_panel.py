"""The panels of the whole pickup: both ends of every slider, words of the picture, what is kept, told and saved."""

import pytest

from lessons_lib.lessons.whole_pickup import panels
from test_panels_all import assert_all_is_said, ends
from test_panels_words import faults, faults_of_ground, moving, standing, states

MAKERS = {"whole_pickup": panels.whole_pickup, "first_look": panels.first_look}


@pytest.fixture(scope="module", params=MAKERS)
def panel(request):
    return MAKERS[request.param]()


def test_words_are_inside_and_apart(panel):
    figure, draw = panel._drawing.figure, panel._drawing._draw
    ground = standing(figure)
    found = {fault: "always" for fault in faults_of_ground(figure, ground)}
    for away, values in states(panel):
        artists = draw(panel._data(panel._compute(**values), **values))
        for fault in faults(figure, ground, moving(artists)):
            found.setdefault(fault, str(away))
    assert not found, "\n".join(f"{fault} ({when})" for fault, when in found.items())


def test_both_ends_of_every_slider_are_shown(panel):
    for name, spec in panel.specs.items():
        for end in ends(spec):
            panel.asked(**{name: end})
            assert_all_is_said(panel)
        panel.asked(**{name: spec.described()["start"]})
