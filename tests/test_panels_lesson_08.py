"""The panels of lesson 8: numbers against models, words beside a sheet's limits, pictures with foreseeable numbers."""
import re
from dataclasses import replace

import numpy as np
import pytest
from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle
from matplotlib.text import Text
from numpy.testing import assert_allclose

from exercises_workbench import LESSON
from lessons_lib.exercises.draws import SELF_STUDY_SECRET
from lessons_lib.exercises.making import make_sheet
from lessons_lib.exercises.sheet import Sheet
from lessons_lib.lessons.instrument import house_instrument
from lessons_lib.lessons.lesson_08.guess import _peak_level
from lessons_lib.lessons.lesson_08.heard import APART, RATE, six_plucks
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
    design_picture,
    designed,
    guess_then_data,
    hear_three_plucks,
    one_shared_error,
    shared_error_picture,
)
from lessons_lib.lessons.lesson_08.readings import show_resonances
from lessons_lib.page.controls import Slider
from lessons_lib.physics.design import STRINGS, design_report, designed_coil, response_curve
from lessons_lib.physics.fits import fit_added_capacitance
from lessons_lib.physics.induction import pickup_voltage
from lessons_lib.pictures.design import LimitsOnRails
from lessons_lib.pictures.exciter import guess_and_readings
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


def marks(artists):
    return [artist.get_xydata().tolist() for artist in artists if isinstance(artist, Line2D)]


def texts(artists):
    return [artist.get_text() for artist in artists if isinstance(artist, Text)]


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
    report, n = designed(**HOUSE, **FLAT), STRINGS.index(name)
    without = replace(report, levels=tuple(level - 300 * (one == name) for one, level in zip(STRINGS, report.levels)))
    first = int(APART * RATE) * n
    alone = (six_plucks(report) - six_plucks(without))[first:first + RATE // 4]
    place, house = house_instrument.place, house_instrument
    motion = house.string(name).pluck(force=0.01, place=place["pluck_place"], width=1e-3, highest_frequency=10e3)
    induced = pickup_voltage(house.pickup, house.steel_of(name), motion, np.arange(alone.size) / RATE,
                             height=place["string_height"], place=place["pickup_place"], y=house.y_of(name),
                             aperture=10e-3)
    behind = 100 * designed_coil(report).apply(induced, RATE)
    assert np.abs(alone - behind).max() < 0.01 * np.abs(behind).max()


# ---- the guess -------------------------------------------------------------------------------------------------------

@pytest.fixture
def guess(monkeypatch):
    monkeypatch.chdir(NOTEBOOKS)
    return guess_then_data(None, from_bench("exciter_response.csv"))


def test_a_lossless_guess_has_its_peak_at_the_hand_formula():
    coil = coil_guess(inductance=2.5, own=100e-12, load=5e6, resistance=100.0).bare
    assert top_of(coil)[0] == pytest.approx(1 / (2 * np.pi * np.sqrt(2.5 * 100e-12)), rel=1e-3)
    assert over_low(coil, 10.0) == pytest.approx(0, abs=1e-4)


def test_readings_are_drawn_when_they_are_asked_for_and_the_guess_stays_while_the_sliders_go_on(guess):
    assert "guessed" not in readouts(guess)
    guess.asked(inductance="2.5")
    before = pieces(guess)
    guess.asked(drawn=True)
    assert pieces(guess) != before
    assert "2.50 H guessed, 2.84 H found" in readouts(guess) and "48 readings" in alt(guess)
    far = readouts(guess)
    guess.asked(inductance="2.85", own="140", load="794")       # what the page finds: 2.84 H, 142 pF, 794 kΩ
    assert "2.50 H guessed, 2.84 H found" in readouts(guess)
    apart, further = (float(re.match(r"curves and readings apart, RMS: (\S+) dB", one)[1]) for one in (
        readouts(guess), far))
    # readings with 2 % of noise, 0.17 dB, and what the whole steps of the sliders leave
    assert apart < 0.3 < further
    guess.asked(drawn=False)
    guess.asked(drawn=True)
    assert "2.85 H guessed" in readouts(guess)      # hidden again, the guess is made anew


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
    picture = shared_error_picture()
    artists = picture.update(distance=[0, 1e-3, 2e-3], readings=[0.1, 0.05, 0.02], model=[0.1, 0.03, 0.0205],
                             line=[0, 2e-3], true=[0.1, 0.02], fitted=[0.1, 0.03], spot=0.5e-3, flux=20e-6,
                             words="24 % too high")
    drawn = marks(artists)
    assert_allclose(drawn[0], [[2.5, 0]])       # the spot in the probe, whose tip is at the farthest reading
    for expected in ([(0, 100), (1, 50), (2, 20)], [(0, 100), (2, 30)], [(1, 5.52)]):
        assert any(np.shape(one) == np.shape(expected) and np.allclose(one, expected) for one in drawn)
    # + 40 % is beyond the strip of ± 6 %, and says so at its edge
    assert {"+40 %", "24 % too high", "20.00 µWb found"} <= set(texts(artists))


@pytest.mark.parametrize("zero", [-0.5e-3, 0.5e-3, 2e-3])
@pytest.mark.parametrize("reach", [5e-3, 10e-3, 20e-3])
def test_what_leaves_the_strip_of_residuals_says_how_large_it_is(zero, reach):
    one, picture = shared_error(zero=zero, reach=reach), shared_error_picture()
    artists = picture.update(**shared_error_curves(one, reach=reach))
    left = 100 * (1 - one.model / one.readings)
    far = left[np.abs(left).argmax()]
    says = [text for text in texts(artists) if re.fullmatch("[+−]\\d+ %", text)]
    assert says == ([f"{far:+.0f} %".replace("-", "−")] if abs(far) > 6 else [])
    inside = [np.array(line)[:, 1] for line in marks(artists) if len(line) == 12]
    assert any(np.allclose(ys, np.where(np.abs(left) <= 6, left, np.nan), equal_nan=True) for ys in inside)


def test_a_coil_without_a_hump_is_said_to_have_none():
    assert _peak_level(coil_guess(inductance=3.0, own=100e-12, load=50e3).bare).startswith("none; ")
    assert _peak_level(coil_guess(inductance=3.0, own=100e-12, load=500e3).bare).endswith(" dB")


def test_curves_and_readings_stand_where_they_are():
    picture = guess_and_readings(new_figure().add_subplot(), level=(-30, 20), runs=("one", "two"))
    guess = {"x": np.array([200.0, 2e3]), "now 0": np.array([0.0, 3.0]), "now 1": np.array([0.0, 6.0])}
    alone = picture.update(**guess)
    assert [[0.2, 0.0], [2.0, 6.0]] in marks(alone) and texts(alone) == ["one", "two"]
    over = picture.update(**guess, **{"kept 0": [0.0, 1.0], "kept 1": [0.0, 2.0], "read 1": ([2e3], [2.0])})
    assert [[2.0, 2.0]] in marks(over) and [[0.2, 0.0], [2.0, 1.0]] in marks(over)
    assert set(texts(over)) == {"one", "two", "your guess"}


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
