"""Panels of lesson 8 beside the design bench: a guess and readings, an error they share, plucks, a page's picture."""
import re

import numpy as np
import pytest
from numpy.testing import assert_allclose

from drawn import marks, texts
from lessons_lib.lessons.lesson_08.model import (
    coil_guess,
    over_low,
    shared_error,
    shared_error_curves,
    too_high,
    top_of,
)
from lessons_lib.lessons.lesson_08.panels import (
    _peak_level,
    guess_then_data,
    hear_three_plucks,
    one_shared_error,
    shared_error_picture,
)
from lessons_lib.lessons.lesson_08.readings import show_resonances
from lessons_lib.page.controls import Slider
from lessons_lib.physics.fits import fit_added_capacitance
from lessons_lib.pictures.response import guess_and_readings
from lessons_lib.pictures.style import new_figure
from lessons_lib.workbench.bench import from_bench, from_bench_plucks
from notebooks import NOTEBOOKS
from shown import alt, message, pieces, readouts

# ---- the guess -------------------------------------------------------------------------------------------------------

@pytest.fixture
def guess(monkeypatch):
    monkeypatch.chdir(NOTEBOOKS)
    return guess_then_data(None, from_bench("exciter_response.csv"))


def test_a_lossless_guess_has_its_peak_at_the_hand_formula():
    coil = coil_guess(inductance=2.5, own=100e-12, load=5e6, resistance=100.0)[0]
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


def test_a_coil_without_a_hump_is_said_to_have_none():
    assert _peak_level(coil_guess(inductance=3.0, own=100e-12, load=50e3)[0]).startswith("none; ")
    assert _peak_level(coil_guess(inductance=3.0, own=100e-12, load=500e3)[0]).endswith(" dB")


def test_curves_and_readings_stand_where_they_are():
    picture = guess_and_readings(new_figure().add_subplot(), level=(-30, 20), runs=("one", "two"))
    guess = {"x": np.array([200.0, 2e3]), "now 0": np.array([0.0, 3.0]), "now 1": np.array([0.0, 6.0])}
    alone = picture.update(**guess)
    assert [[0.2, 0.0], [2.0, 6.0]] in marks(alone) and texts(alone) == ["one", "two"]
    over = picture.update(**guess, **{"kept 0": [0.0, 1.0], "kept 1": [0.0, 2.0], "read 1": ([2e3], [2.0])})
    assert [[2.0, 2.0]] in marks(over) and [[0.2, 0.0], [2.0, 1.0]] in marks(over)
    assert set(texts(over)) == {"one", "two", "your guess"}


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
