"""The design bench of lesson 8: numbers against models, words beside a sheet's limits, pictures, six plucks."""
import re
from dataclasses import replace

import numpy as np
import pytest
from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle
from numpy.testing import assert_allclose

from drawn import marks, texts
from exercises_workbench import LESSON
from lessons_lib.base.workshop import ROW
from lessons_lib.exercises.draws import SELF_STUDY_SECRET
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.sheet import Sheet
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_08.heard import APART, RATE, six_plucks
from lessons_lib.lessons.lesson_08.panels import (
    HEIGHTS,
    OUTPUT_FREQUENCIES,
    design_bench,
    design_curves,
    design_picture,
    designed,
)
from lessons_lib.page.controls import Slider
from lessons_lib.physics.design import design_report, designed_coil, response_curve
from lessons_lib.physics.induction import pickup_voltage
from lessons_lib.pictures.design import LimitsOnRails
from lessons_lib.pictures.style import new_figure
from shown import alt, message, pieces, readouts

FLAT = {one.name: 0.0 for one in HEIGHTS}
HOUSE = {"magnet": "alnico 5", "wire": 44, "turns": 7600}


@pytest.fixture(scope="module", params=["alone", "with a sheet"])
def panel(request, tmp_path_factory):
    if request.param == "alone":
        return design_bench()
    content = make_sheet(LESSON, secret=SELF_STUDY_SECRET, bench="b000")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("LESSONS_WORK_FOLDER", str(tmp_path_factory.mktemp("work")))
        return design_bench(Sheet(content=content), exercise="8.5")


def test_heights_come_one_by_one():
    tops = [1e-4 * place for place in range(6)]
    one_by_one = {one.name: top for one, top in zip(HEIGHTS, tops)}
    assert designed(**HOUSE, **one_by_one) == design_report(**HOUSE, tops=tops)


def test_curves_of_the_house_lie_on_each_other():
    data = design_curves(designed(**HOUSE, **FLAT), magnet="alnico 5", **FLAT)["response"]
    assert_allclose(data["this"], data["house"])
    twice = designed(**{**HOUSE, "turns": 15200}, **FLAT)
    louder = design_curves(twice, magnet="alnico 5", **FLAT)["response"]["this"]
    assert_allclose(louder - response_curve(twice, OUTPUT_FREQUENCIES), 20 * np.log10(2))     # twice the turns: 6 dB


def test_the_panel_opens_at_the_house_pickup(panel):
    assert panel.started and message(panel) == ""
    assert panel.values == {**HOUSE, **FLAT}
    assert "8.70 kΩ" in alt(panel) and "4.39 kHz" in alt(panel)


def test_every_slider_can_go_to_both_ends_and_changes_the_picture(panel):
    start = pieces(panel)
    for name, spec in panel.specs.items():
        if isinstance(spec, Slider):
            for end in (spec.low, spec.high, spec.start):
                panel.asked(**{name: f"{end:g}"})
                assert message(panel) == "" and not re.search(r"\bnan\b", readouts(panel))
                assert (pieces(panel) != start) == (end != spec.start) or name == "wire"
    panel.asked(magnet="ferrite")
    assert pieces(panel) != start
    panel.asked(magnet="alnico 5")
    assert pieces(panel) == start


def test_a_wrong_number_is_one_sentence(panel):
    panel.asked(turns="99999")
    assert "turns must be a whole number from 1000 to 15000" in message(panel)
    panel.asked(turns="7600")


def test_limits_of_the_sheet_are_said_as_the_answer_says_them(panel):
    said = readouts(panel)
    if "limits met" not in said:
        assert "share of the window: 0.67" in said
        return
    assert "limits met: 1 of 6" in said and "1 of 6 limits are met" in alt(panel)
    sheet = panel._sheet
    verdict = sheet.answer("8.5", {**HOUSE, "tops": [0.0] * 6}).text
    for limit in sheet.limits("8.5"):
        outcome = next(line for line in verdict.splitlines() if line.startswith(limit["label"])).partition(")")[0]
        assert f"{outcome})" in said


def test_levels_are_about_the_middle_of_highest_and_lowest_over_their_strings():
    picture, report = design_picture(), designed(**HOUSE, **FLAT)
    data = design_curves(report, magnet="alnico 5", **FLAT) | {"levels": np.array([0.0, 4.0, 6.0, 3.0, 3.0, 30.0])}
    artists = picture.update(**data)
    spacing = 10.2      # mm, the workshop's
    # +15 dB is beyond the axis, and its dot is at the end of it
    assert [[pytest.approx(spacing * (n - 2.5)), level]
            for n, level in enumerate((-9, -9, -9, -9, -9, 9))] in marks(artists)
    assert {"−15.0", "−11.0", "−9.0", "−12.0", "+15.0"} <= set(texts(artists))


def test_the_pickup_is_drawn_in_its_scale_and_its_winding_fills_its_share_of_the_window():
    pickup, tops = design_picture().pickup, [0.0, 0.0, 0.0, 0.0, 0.0, 1e-3]
    boxes = {tuple(np.round(one.get_bbox().bounds, 6)) for one in pickup.update(tops=tops, fill=0.5, strength=0.75)
             if isinstance(one, Rectangle)}
    assert {(23.0, -7.5, 5.0, 8.5), (12.8, -8.5, 5.0, 8.5)} <= boxes    # the upper halves of two rods, mm
    assert (28.7, -14.5, 1.5, 12.0) in boxes                             # half of a window 3 mm wide
    across, up = pickup.axes.transData.transform([(0, 0), (1, 1)]).T @ [-1, 1]
    assert across == pytest.approx(up, rel=2e-3)


def test_a_rail_is_a_ruler_of_factors_and_shows_by_shape_whether_its_limit_is_met():
    rails = LimitsOnRails(new_figure().add_subplot(), [
        ("both", 4.0, 9.0, "4 to 9"), ("most", None, 8.0, "at most 8"), ("least", 2.0, None, "at least 2")])
    assert rails.place(6.0, 4.0, 9.0) == pytest.approx(0.5) and rails.target(None, 8.0) == (0.0, pytest.approx(0.5))
    assert rails.target(4.0, 9.0) == pytest.approx((0.5 + 0.5 * np.log(4 / 6) / np.log(3), 0.5 - 0.5 * np.log(4 / 6)
                                                    / np.log(3)))
    artists = rails.update([(6.0, "6", True), (100.0, "100", False), (0.0, "0", False)])
    dots = [one for one in artists if isinstance(one, Line2D)]
    assert [(one.get_xdata()[0], one.get_marker(), one.get_fillstyle()) for one in dots] == [
        (pytest.approx(0.5), "o", "full"), (1.0, ">", "none"), (0.0, "<", "none")]
    assert texts(artists) == ["6", "100", "0", "✓", "✗", "✗"]


@pytest.mark.parametrize("name", ["VI", "III"])
def test_six_plucks_follow_the_sensitivities_and_the_response(name):
    """One string's share of them, against the voltage that the pickup's full model finds for a pluck as small."""
    report, n = designed(**HOUSE, **FLAT), ROW.index(name)
    without = replace(report, levels=tuple(level - 300 * (one == name) for one, level in zip(ROW, report.levels)))
    first = int(APART * RATE) * n
    alone = (six_plucks(report) - six_plucks(without))[first:first + RATE // 4]
    place, house = house_instrument.place, house_instrument
    motion = house.string(name).pluck(force=0.01, place=place["pluck_place"], width=1e-3, highest_frequency=10e3)
    induced = pickup_voltage(house.pickup, house.steel_of(name), motion, np.arange(alone.size) / RATE,
                             height=place["string_height"], place=place["pickup_place"], y=house.y_of(name),
                             aperture=10e-3)
    behind = 100 * designed_coil(report).apply(induced, RATE)
    assert np.abs(alone - behind).max() < 0.01 * np.abs(behind).max()
