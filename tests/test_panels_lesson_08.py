"""The panels of lesson 8: numbers against models, words beside a sheet's limits, pictures with foreseeable numbers."""
import re

import numpy as np
import pytest
from numpy.testing import assert_allclose

from exercises_workbench import LESSON
from lessons_lib.exercises.draws import SELF_STUDY_SECRET
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.sheet import Sheet
from lessons_lib.lessons.lesson_08.guess import _peak_level
from lessons_lib.lessons.lesson_08.model import (
    coil_guess,
    over_low,
    shared_error,
    shared_error_curves,
    too_high,
    top_of,
)
from lessons_lib.lessons.lesson_08.panels import (
    HEIGHTS,
    OUTPUT_FREQUENCIES,
    design_bench,
    design_curves,
    designed,
    guess_then_data,
    hear_three_plucks,
    one_shared_error,
    shared_error_figure,
)
from lessons_lib.lessons.lesson_08.readings import show_resonances
from lessons_lib.page.controls import Slider
from lessons_lib.physics.design import design_report, response_curve
from lessons_lib.physics.fits import fit_added_capacitance
from lessons_lib.pictures.exciter import GuessAndReadings
from lessons_lib.pictures.shared_error import ReadingsWithSharedError
from lessons_lib.pictures.six_levels import SixLevels, allowed_frequencies
from lessons_lib.pictures.style import new_figure
from lessons_lib.workbench.bench import from_bench, from_bench_plucks
from notebooks import NOTEBOOKS
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
    data = design_curves(designed(**HOUSE, **FLAT))
    assert_allclose(data["output"]["this"], data["output"]["house"])
    louder = design_curves(designed(**{**HOUSE, "turns": 15200}, **FLAT))["output"]["this"]
    report = design_report(**{**HOUSE, "turns": 15200}, tops=[0.0] * 6)
    assert_allclose(louder - response_curve(report, OUTPUT_FREQUENCIES), 20 * np.log10(2))     # twice the turns: 6 dB


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


# ---- the guess -------------------------------------------------------------------------------------------------------

@pytest.fixture
def guess(monkeypatch):
    monkeypatch.chdir(NOTEBOOKS)
    return guess_then_data(None, from_bench("exciter_response.csv"))


def test_a_lossless_guess_has_its_peak_at_the_hand_formula():
    coil = coil_guess(inductance=2.5, own=100e-12, load=5e6, resistance=100.0).bare
    assert top_of(coil)[0] == pytest.approx(1 / (2 * np.pi * np.sqrt(2.5 * 100e-12)), rel=1e-3)
    assert over_low(coil, 10.0) == pytest.approx(0, abs=1e-4)


def test_readings_are_drawn_when_they_are_asked_for_and_the_guess_can_still_be_moved(guess):
    assert "guessed" not in readouts(guess)
    guess.asked(inductance="2.5")
    before = pieces(guess)
    guess.asked(drawn=True)
    assert pieces(guess) != before
    assert "2.50 H guessed, 2.84 H found" in readouts(guess) and "48 readings" in alt(guess)
    guess.asked(inductance="2")
    assert "2.00 H guessed, 2.84 H found" in readouts(guess)


def sliders(panel):
    return [(name, spec) for name, spec in panel.specs.items() if isinstance(spec, Slider)]


def test_every_slider_of_guess_and_error_goes_to_both_ends(guess):
    for panel in (guess, one_shared_error()):
        for name, spec in sliders(panel):
            start = pieces(panel)
            for end in (spec.low, spec.high):
                panel.asked(**{name: f"{end:g}"})
                assert message(panel) == "" and not re.search(r"\bnan|\binf\b", readouts(panel) + alt(panel))
                values = {one for one in re.findall(r"\d+\.\d+", readouts(panel)) if one in alt(panel)}
                assert len(values) >= 3
            panel.asked(**{name: f"{spec.start:g}"})
            assert pieces(panel) == start
    for side in ("low", "high"):
        for panel in (guess, one_shared_error()):
            panel.asked(**{name: f"{getattr(spec, side):g}" for name, spec in sliders(panel)})
            assert message(panel) == ""


def test_without_readings_there_is_a_guess_and_nothing_to_draw():
    panel = guess_then_data()
    assert panel.started and "drawn" not in panel.specs


# ---- an error that readings share ------------------------------------------------------------------------------------

def test_without_an_error_the_fit_finds_what_was_put_in():
    one = shared_error(zero=0.0, reach=10e-3)
    assert one.strength == pytest.approx(1.0) and one.spot == pytest.approx(0.6e-3) and one.residual < 1e-6
    assert one.flux == pytest.approx(16.08e-6, rel=2e-3)    # finite elements of other hands, four digits
    assert too_high(one.off) == "right" and too_high(-0.05) == "5.0 % too low" and too_high(0.226) == "23 % too high"


def test_dots_stand_at_their_readings_and_residuals():
    figure = new_figure()
    picture = ReadingsWithSharedError(*figure.subplots(2), reach=10e-3, flux_density=(1e-3, 1), noise=0.03)
    _, fit, dots, left, _ = picture.update(distance=[0, 1e-3], readings=[0.1, 0.05], model=[0.1, 0.03],
                                           line=[0, 2e-3], true=[0.1, 0.02], fitted=[0.1, 0.03])
    assert_allclose(dots.get_ydata(), [100, 50])
    assert_allclose(fit.get_ydata(), [100, 30])
    assert_allclose(left.get_ydata(), [0, 29.1])     # 40 % stands at the edge of ± 30 %


@pytest.mark.parametrize("zero", [-0.5e-3, 2e-3])
@pytest.mark.parametrize("reach", [5e-3, 10e-3, 20e-3])
def test_no_residual_of_the_panel_leaves_its_strip(zero, reach):
    figure, draw = shared_error_figure()
    left = draw(shared_error_curves(shared_error(zero=zero, reach=reach), reach=reach))[3]
    assert np.abs(left.get_ydata()).max() == pytest.approx(100 * shared_error(zero=zero, reach=reach).residual)


def test_a_coil_without_a_hump_is_said_to_have_none():
    assert _peak_level(coil_guess(inductance=3.0, own=100e-12, load=50e3).bare).startswith("none; ")
    assert _peak_level(coil_guess(inductance=3.0, own=100e-12, load=500e3).bare).endswith(" dB")


def test_curves_and_readings_stand_where_they_are():
    picture = GuessAndReadings(new_figure().add_subplot(), level=(-30, 20), runs=("one", "two"))
    frequency = np.array([200.0, 2e3])
    guess, readings = [np.array([0.0, 3.0]), np.array([0.0, 6.0])], [([200], [1.0]), ([2e3], [2.0])]
    alone = picture.update(frequency=frequency, guess=guess, peaks=[(2e3, 3.0), (2e3, 6.0)])
    assert_allclose(alone[1].get_ydata(), [0, 6])
    over = picture.update(frequency=frequency, guess=guess, peaks=[(2e3, 3), (2e3, 6)], readings=readings, fitted=guess)
    assert_allclose(over[-1].get_ydata(), [2.0])


def test_three_plucks_are_heard_on_one_level_scale(monkeypatch, capsys):
    monkeypatch.chdir(NOTEBOOKS)
    plucks = from_bench_plucks()
    clips = hear_three_plucks(plucks)
    loudest = [np.abs(one.samples).max() for one in plucks.recordings]
    assert [clip.caption for clip in clips] == [f"pickup lowered by {down} mm" for down in (0, 3, 7)]
    assert_allclose([clip.peak - clips[0].peak for clip in clips], 20 * np.log10(loudest / loudest[0]), atol=0.2)


# ---- readings with their fit, for page and report --------------------------------------------------------------------

def test_pictures_of_the_page_come_with_words(monkeypatch, capsys):
    monkeypatch.chdir(NOTEBOOKS)
    capacitors = from_bench("resonance_with_capacitors.csv")
    fit = fit_added_capacitance(capacitors["added capacitance"], capacitors["resonance"])
    picture = show_resonances(capacitors, fit)
    assert "7 readings, from 7.86 at 0 to 2.77 at 1000" in picture.alt_text()
    line = picture.axes.lines[0]
    model = np.interp(470, *line.get_data())
    assert model == pytest.approx(fit.model[4] / 1e3, rel=1e-3)
