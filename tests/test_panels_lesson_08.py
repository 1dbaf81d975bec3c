"""The design panel: its numbers against the model, its words beside a sheet's limits, its picture with foreseeable numbers."""
import re

import numpy as np
import pytest
from numpy.testing import assert_allclose

from lessons_lib.exercises.draws import SELF_STUDY_SECRET
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.sheet import Sheet
from lessons_lib.panels.lesson_08 import FREQUENCY, HEIGHTS, design_bench, design_curves, designed
from lessons_lib.physics.design import design_report, response_curve
from lessons_lib.pictures.six_levels import SixLevels, allowed_frequencies
from lessons_lib.pictures.style import new_figure
from exercises_workbench import LESSON
from shown import alt, words

FLAT = {one.name: 0.0 for one in HEIGHTS}
HOUSE = {"magnet": "alnico 5", "wire": 44, "turns": 7600}


@pytest.fixture(scope="module", params=["alone", "with a sheet"])
def panel(request, tmp_path_factory):
    if request.param == "alone":
        return design_bench()
    content = make_sheet(LESSON, secret=SELF_STUDY_SECRET, bench="b000")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("LESSONS_WORK_FOLDER", str(tmp_path_factory.mktemp("work")))
        return design_bench(Sheet(content=content, folder=tmp_path_factory.mktemp("sheets")), exercise="8.5")


def test_heights_come_one_by_one():
    tops = [1e-4 * place for place in range(6)]
    one_by_one = {one.name: top for one, top in zip(HEIGHTS, tops)}
    assert designed(**HOUSE, **one_by_one) == design_report(**HOUSE, tops=tops)


def test_curves_of_the_house_lie_on_each_other():
    data = design_curves(**HOUSE, **FLAT)
    assert_allclose(data["output"]["this"], data["output"]["house"])
    louder = design_curves(**{**HOUSE, "turns": 15200}, **FLAT)["output"]["this"]
    report = design_report(**{**HOUSE, "turns": 15200}, tops=[0.0] * 6)
    assert_allclose(louder - response_curve(report, FREQUENCY), 20 * np.log10(2))     # twice the turns: 6 dB


def test_the_panel_opens_at_the_house_pickup(panel):
    assert panel.started and words(panel.message) == ""
    assert {name: row.value for name, row in panel.rows.items()} == {**HOUSE, **FLAT}
    assert "8.70 kΩ" in alt(panel) and "4.39 kHz" in alt(panel)


def test_the_words_of_a_picture_hold_three_values_of_the_read_out(panel):
    values = {value for value in re.findall(r"\d+\.\d+|\d{3,}", words(panel.readout)) if value in alt(panel)}
    assert len(values) >= 3


def test_every_slider_can_go_to_both_ends_and_changes_the_picture(panel):
    start = panel.picture.value
    for row in panel.rows.values():
        if hasattr(row, "box"):
            for end in (row.spec.low, row.spec.high, row.spec.start):
                row.box.value = f"{end:g}"
                assert words(panel.message) == "" and not re.search(r"\bnan\b", words(panel.readout))
                assert (panel.picture.value != start) == (end != row.spec.start) or row.spec.name == "wire"
    panel.rows["magnet"].slider.value = "ferrite"
    assert panel.picture.value != start
    panel.rows["magnet"].slider.value = "alnico 5"
    assert panel.picture.value == start


def test_a_wrong_number_is_one_sentence(panel):
    panel.rows["turns"].box.value = "99999"
    assert "turns must be a whole number from 1000 to 15000" in words(panel.message)
    panel.rows["turns"].box.value = "7600"


def test_limits_of_the_sheet_are_said_as_the_answer_says_them(panel):
    said = words(panel.readout)
    if "limits met" not in said:
        assert "share of the window: 0.67" in said
        return
    assert "limits met: 1 of 6" in said and "1 of 6 limits are met" in alt(panel)
    sheet = panel._sheet
    verdict = sheet.answer("8.5", {**HOUSE, "tops": [0.0] * 6}).text
    for limit in sheet.limits("8.5"):
        outcome = next(line for line in verdict.splitlines() if line.startswith(limit["label"])).partition(")")[0]
        assert f"{outcome})" in said


def test_bars_stand_about_the_middle_of_highest_and_lowest():
    picture = SixLevels(new_figure().add_subplot(), strings="abc", reach=5, allowed=2)
    artists = picture.update(levels=[0.0, 4.0, 30.0])
    assert [bar.get_height() for bar in artists[:3]] == [-5, -5, 5]
    assert [word.get_text() for word in artists[3:]] == ["−15.0", "−11.0", "+15.0"]
    band = picture.axes.patches[0].get_extents().transformed(picture.axes.transData.inverted())
    assert (band.y0, band.y1) == pytest.approx((-1, 1))


def test_the_band_of_frequencies_lies_where_it_is_allowed():
    axes = new_figure().add_subplot()
    axes.set(xscale="log", xlim=(100, 1e4))
    allowed_frequencies(axes, 1e3, 2e3)
    band = axes.patches[0].get_extents().transformed(axes.transData.inverted())
    assert (band.x0, band.x1) == pytest.approx((1e3, 2e3))
