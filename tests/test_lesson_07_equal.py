"""Lesson 07: the levels of six strings made equal, by the solver and in what is played."""
import math

import numpy as np
import pytest

from lessons_lib.base.workshop import ROW, house_place, house_strings
from lessons_lib.lessons.lesson_07.model import LEVEL, string_levels
from lessons_lib.lessons.lesson_07.pair import six_plucks
from lessons_lib.lessons.lesson_07.panels import make_equal
from lessons_lib.physics.six_strings import decibels
from notebooks import assert_printed, prose

PROSE = prose("07")
HEIGHT = house_place["string_height"]


def test_what_the_solver_makes_equal_is_equal_afresh():
    found = make_equal("short screws")
    fresh = string_levels(kind="short screws", **dict(zip(ROW, found.tops)))
    assert fresh.spread < 0.3 and found.on_a_bound == ()
    assert_printed(found.tops[0] * 1e3, "is 1.4 mm up,", PROSE)
    typed = dict(zip(ROW, np.round(found.tops, 4)))           # as the page prints them
    assert string_levels(kind="short screws", **typed).spread < 0.3
    skin = HEIGHT - found.tops[0] - house_strings["VI"]["diameter"] / 2
    assert_printed(skin * 1e3, "only 0.5 mm below its surface", PROSE)
    lower = string_levels(kind="short screws", **typed | {"VI": 1e-3}).levels
    assert lower[1:].min() - lower[0] == pytest.approx(1.4, abs=0.05) and "by 1.4 dB or more" in PROSE


def test_the_rods_leave_five_of_six_on_a_bound():
    found = make_equal("rods", lowest=-1.5e-3, highest=1.2e-3)
    assert found.on_a_bound == ("VI", "V", "IV", "III", "II") and "five of the six" in PROSE
    assert_printed(found.spread, "the rods 3.8 dB are left", PROSE)
    for name in ROW:      # each pole 0.3 mm back into its range: no noticeable gain, 0.02 dB at most
        top = found.tops[ROW.index(name)]
        tops = dict(zip(ROW, found.tops)) | {name: top - math.copysign(0.3e-3, top)}
        assert string_levels(kind="rods", **tops).spread > found.spread - 0.1
    assert "no other heights within these bounds do noticeably better" in PROSE
    wound = make_equal("rods", third="III wound", lowest=-1.5e-3, highest=1.2e-3)
    assert_printed(wound.spread, "in its place leaves 2.6 dB", PROSE)
    assert "II" in wound.on_a_bound and ROW[int(np.argmax(wound.levels))] == "II"


def test_levels_of_what_is_played():
    """Peaks of six notes: from 9.4 dB apart to 1.6 dB; flush they follow the first pulses within 1.5 dB."""
    found = make_equal("short screws")
    peaks = []
    for tops in (LEVEL, found.tops):
        notes = np.array_split(six_plucks(string_levels(kind="short screws", **dict(zip(ROW, tops)))), 6)
        peaks.append(decibels([np.abs(note).max() for note in notes]))
    assert np.ptp(peaks[0]) == pytest.approx(9.4, abs=0.05) and "9.4 dB apart before" in PROSE
    assert np.ptp(peaks[1]) == pytest.approx(1.6, abs=0.05) and "1.6 dB afterwards" in PROSE
    assert peaks[0] == pytest.approx(string_levels(kind="short screws").levels, abs=1.5)
    assert np.argmax(peaks[0]) == 3
